//! Additives by number and by name.
//!
//! Numbers and names are those of the international numbering system (E numbers). Source: from memory, Codex
//! CXG 36-1989, class names and numbers for food additives.

/// Number and names, the usual one first, in British spelling.
const TABLE: &[(u16, &[&str])] = &[
    (100, &["curcumin", "turmeric extract"]),
    (101, &["riboflavin"]),
    (160, &["carotenes", "beta-carotene", "annatto"]),
    (170, &["calcium carbonate", "chalk"]),
    (171, &["titanium dioxide"]),
    (200, &["sorbic acid"]),
    (202, &["potassium sorbate"]),
    (203, &["calcium sorbate"]),
    (210, &["benzoic acid"]),
    (211, &["sodium benzoate"]),
    (212, &["potassium benzoate"]),
    (213, &["calcium benzoate"]),
    (220, &["sulphur dioxide", "sulphites", "sulphite"]),
    (221, &["sodium sulphite"]),
    (222, &["sodium hydrogen sulphite", "sodium bisulphite"]),
    (223, &["sodium metabisulphite", "metabisulphite"]),
    (224, &["potassium metabisulphite"]),
    (225, &["potassium sulphite"]),
    (226, &["calcium sulphite"]),
    (227, &["calcium hydrogen sulphite"]),
    (228, &["potassium hydrogen sulphite"]),
    (234, &["nisin"]),
    (235, &["natamycin", "pimaricin"]),
    (260, &["acetic acid"]),
    (262, &["sodium acetate", "sodium acetates"]),
    (263, &["calcium acetate"]),
    (270, &["lactic acid"]),
    (280, &["propionic acid"]),
    (281, &["sodium propionate"]),
    (282, &["calcium propionate"]),
    (283, &["potassium propionate"]),
    (296, &["malic acid"]),
    (300, &["ascorbic acid"]),
    (301, &["sodium ascorbate"]),
    (306, &["tocopherols", "mixed tocopherols", "tocopherol-rich extract"]),
    (307, &["alpha-tocopherol"]),
    (322, &["lecithin", "lecithins", "soy lecithin", "soya lecithin", "sunflower lecithin"]),
    (325, &["sodium lactate"]),
    (327, &["calcium lactate"]),
    (330, &["citric acid"]),
    (331, &["sodium citrate", "trisodium citrate", "sodium citrates"]),
    (332, &["potassium citrate", "tripotassium citrate", "potassium citrates"]),
    (333, &["calcium citrate", "tricalcium citrate", "calcium citrates"]),
    (334, &["tartaric acid"]),
    (338, &["phosphoric acid"]),
    (339, &["sodium phosphate", "sodium phosphates", "disodium phosphate", "trisodium phosphate"]),
    (340, &["potassium phosphate", "potassium phosphates", "dipotassium phosphate"]),
    (341, &["calcium phosphate", "calcium phosphates", "tricalcium phosphate", "dicalcium phosphate"]),
    (343, &["magnesium phosphate", "magnesium phosphates"]),
    (400, &["alginic acid"]),
    (401, &["sodium alginate"]),
    (406, &["agar", "agar-agar"]),
    (407, &["carrageenan"]),
    (410, &["locust bean gum", "carob gum", "carob bean gum"]),
    (412, &["guar gum", "guar"]),
    (413, &["tragacanth"]),
    (414, &["acacia gum", "gum arabic", "gum acacia"]),
    (415, &["xanthan gum", "xanthan"]),
    (416, &["karaya gum"]),
    (417, &["tara gum"]),
    (418, &["gellan gum", "gellan"]),
    (422, &["glycerol", "glycerine"]),
    (425, &["konjac", "konjac gum"]),
    (432, &["polysorbate 20"]),
    (433, &["polysorbate 80"]),
    (435, &["polysorbate 60"]),
    (440, &["pectin", "pectins"]),
    (450, &["diphosphates", "diphosphate"]),
    (451, &["triphosphates", "triphosphate"]),
    (452, &["polyphosphates", "polyphosphate", "sodium hexametaphosphate"]),
    (460, &["cellulose", "microcrystalline cellulose"]),
    (461, &["methyl cellulose"]),
    (464, &["hydroxypropyl methyl cellulose"]),
    (
        466,
        &[
            "sodium carboxymethyl cellulose",
            "carboxymethyl cellulose",
            "cellulose gum",
            "carboxymethylcellulose",
            "cmc",
        ],
    ),
    (471, &["mono- and diglycerides of fatty acids", "mono and diglycerides", "mono- and diglycerides"]),
    (472, &["esters of mono- and diglycerides"]),
    (473, &["sucrose esters of fatty acids", "sucrose esters"]),
    (481, &["sodium stearoyl lactylate"]),
    (491, &["sorbitan monostearate"]),
    (500, &["sodium carbonates", "sodium carbonate", "sodium bicarbonate", "sodium hydrogen carbonate"]),
    (501, &["potassium carbonates", "potassium carbonate"]),
    (504, &["magnesium carbonate"]),
    (508, &["potassium chloride"]),
    (509, &["calcium chloride"]),
    (516, &["calcium sulphate"]),
    (524, &["sodium hydroxide"]),
    (551, &["silicon dioxide"]),
    (575, &["glucono delta-lactone"]),
    (950, &["acesulfame k"]),
    (951, &["aspartame"]),
    (955, &["sucralose"]),
    (960, &["steviol glycosides", "stevia"]),
    (967, &["xylitol"]),
    (968, &["erythritol"]),
    (1400, &["dextrin"]),
    (1412, &["distarch phosphate"]),
    (1414, &["acetylated distarch phosphate"]),
    (1420, &["starch acetate"]),
    (1422, &["acetylated distarch adipate"]),
    (1442, &["hydroxypropyl distarch phosphate"]),
    (1450, &["starch sodium octenyl succinate"]),
];

/// The usual name of a number.
#[must_use]
pub fn name(number: u16) -> Option<&'static str> {
    TABLE.iter().find(|(n, _)| *n == number).and_then(|(_, names)| names.first()).copied()
}

/// The number of a name, which must be the whole name in lower case and British spelling.
#[must_use]
pub fn number(name: &str) -> Option<u16> {
    TABLE.iter().find(|(_, names)| names.contains(&name)).map(|(n, _)| *n)
}

/// Reads "e202", "ins 211", "e 341(iii)", "e450i": the whole text must be one number.
#[must_use]
pub fn code(text: &str) -> Option<u16> {
    let rest = text.strip_prefix("ins").or_else(|| text.strip_prefix('e'))?;
    bare(rest.trim_start_matches([' ', '-', '.', ':']))
}

/// Reads a bare number of an additive, "412" or "341(iii)".
#[must_use]
pub fn bare(text: &str) -> Option<u16> {
    let digits = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let tail = text[digits..].trim_matches(|c| matches!(c, '(' | ')' | ' '));
    let known_tail =
        tail.len() <= 4 && (tail.len() <= 1 || tail.chars().all(|c| matches!(c, 'i' | 'v' | 'x')));
    let letters = tail.chars().all(|c| c.is_ascii_lowercase());
    if !(3..=4).contains(&digits) || !known_tail || !letters {
        return None;
    }
    text[..digits].parse().ok().filter(|n| (100..=1599).contains(n))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_names() {
        for (text, want) in [
            ("e202", 202),
            ("ins 211", 211),
            ("e-412", 412),
            ("e341(iii)", 341),
            ("e450i", 450),
            ("e160a", 160),
        ] {
            assert_eq!(code(text), Some(want), "{text}");
        }
        for text in ["e", "extract", "e20", "e99999", "e2x02", "ins", "202"] {
            assert_eq!(code(text), None, "{text}");
        }
        assert_eq!(number("cellulose gum"), Some(466));
        assert_eq!(name(341), Some("calcium phosphate"));
    }

    #[test]
    fn each_number_and_each_name_stands_once() {
        let mut numbers: Vec<u16> = TABLE.iter().map(|(n, _)| *n).collect();
        let mut names: Vec<&str> = TABLE.iter().flat_map(|(_, names)| names.iter().copied()).collect();
        let (n, m) = (numbers.len(), names.len());
        numbers.dedup();
        names.sort_unstable();
        names.dedup();
        assert_eq!((numbers.len(), names.len()), (n, m));
    }
}
