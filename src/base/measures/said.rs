//! A lever's number said in household measures: what its field shows and reads, and what stands beside it.

use super::whole::{volume, weight};
use super::{Amount, Measure, SpoonSet, parse, spoons, unit};
use crate::{Note, number};

/// How one lever's number is said. It stays in the lever's unit; only its words change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Said<'a> {
    /// Unit of the lever: "g/L", "L", "× packet".
    pub unit: &'a str,
    pub measure: Measure,
    /// The measure that stands for the lever's own unit; nothing for powders, whose litres are no volume in a jug.
    pub own: Option<Measure>,
    pub set: SpoonSet,
    /// g in the whole design per one of the lever's unit.
    pub g_per_unit: f64,
    /// g/mL as it lies in spoon or jug; nothing where it is not known: then it can only be weighed.
    pub g_per_ml: Option<f64>,
    /// The tin, jar or packet that its line comes in, and the grams in one.
    pub pack: Option<(Measure, f64)>,
    /// Litres that a dose per litre goes into; nothing where such a dose has no meaning.
    pub litres: Option<f64>,
    /// What stands after the grams instead of spoons, with the space or comma before it; may be empty.
    pub what: &'a str,
}

/// Figures of an amount in a field.
const FIGURES: usize = 3;

impl Said<'_> {
    /// The measure that is shown: the line's own one, unless spoon set or density do not bear it.
    pub fn shown(&self) -> Measure {
        if self.own == Some(self.measure) || self.bears(self.measure) {
            self.measure
        } else {
            self.own.unwrap_or_default()
        }
    }

    /// Whether an amount can be said in it: spoon set and density bear it.
    pub fn bears(&self, m: Measure) -> bool {
        // Litres of a powder are what it adds to the pot, not what a jug of it holds.
        let jug = self.own.is_some() || m != Measure::Litre;
        jug && self.g_per_unit > 0.0 && self.one(m).is_some()
    }

    /// Grams in one of a measure.
    fn one(&self, m: Measure) -> Option<f64> {
        match self.pack {
            Some((pack, grams)) if pack == m => Some(grams).filter(|grams| *grams > 0.0),
            _ => m.grams(self.set, self.g_per_ml),
        }
    }

    /// Text of the field; nothing where the lever's own unit is shown.
    pub fn text(&self, value: f64) -> Option<String> {
        let by = self.shown();
        if self.own == Some(by) { None } else { self.amount(by, value).map(|a| a.text(FIGURES)) }
    }

    /// The lever's number as so many of a measure.
    pub fn amount(&self, m: Measure, value: f64) -> Option<Amount> {
        let one = self.one(m)?;
        Some(Amount::Total(value * self.g_per_unit / one, m))
    }

    /// Reads what was typed into the lever's unit. A number alone is in what the field shows.
    ///
    /// # Errors
    /// As [`parse`]; and for what cannot be turned into the lever's unit.
    pub fn read(&self, field: &str, text: &str) -> Result<f64, Note> {
        let amount = match self.without_unit(text) {
            Some(number) => parse(field, &number, self.set)?,
            None => parse(field, text, self.set)?,
        };
        let in_own = self.own == Some(self.shown()) || self.without_unit(text).is_some();
        let (count, m, litres) = match amount {
            Amount::Plain(count) if in_own => return Ok(count),
            Amount::Plain(count) => (count, self.shown(), 1.0),
            Amount::Total(count, m) => (count, m, 1.0),
            Amount::PerLitre(count, m) => {
                let litres = self.litres.ok_or_else(|| {
                    Note::error(field, "A dose per litre does not work here", "Type the whole amount")
                })?;
                (count, m, litres)
            }
        };
        let one = self.one(m).ok_or_else(|| match m.is_pack() {
            true => Note::error(
                field,
                format!("I don't know how much a {} of it holds", m.word(false)),
                "Say its size below the amount first, or type mL or g",
            ),
            false => Note::error(
                field,
                format!("I don't know how much a {} of it weighs", m.word(false)),
                "Weigh it, and type grams",
            ),
        })?;
        if self.g_per_unit > 0.0 {
            Ok(count * one * litres / self.g_per_unit)
        } else {
            Err(Note::error(field, "The design holds nothing yet", "Give the base an amount first"))
        }
    }

    /// The number alone, if the text ends in the lever's own unit and that is no household measure.
    fn without_unit(&self, text: &str) -> Option<String> {
        let text = text.replace(number::NBSP, " ").to_lowercase();
        let text = text.trim();
        let words = self.unit.to_lowercase();
        let short = words.split(' ').next().filter(|sign| *sign == "×")?;
        // How the unit of a culture was written before.
        let text = text.strip_suffix(" rate").unwrap_or(text);
        let number = text.strip_suffix(&words).or_else(|| text.strip_suffix(short))?;
        Some(number.trim().to_owned())
    }

    /// What stands beside the field: grams for the whole design (or ounces and pounds), and spoons or the measure's own size.
    pub fn beside(&self, value: f64) -> String {
        let by = self.shown();
        let grams = weight(value * self.g_per_unit);
        if let (true, Some(one)) = (by.is_pack(), self.one(by)) {
            let each = match (self.own, self.g_per_ml) {
                (Some(Measure::Litre), Some(dense)) => unit::ml_words(one / dense),
                _ => weight(one),
            };
            return format!("{grams}, {each} each");
        }
        if let Some(of) = by.of(self.set).filter(|_| self.own != Some(by)) {
            return format!("{grams}, {of} each");
        }
        match self.spoons(value) {
            Some(spoons) if self.what.is_empty() => format!("{grams}, {spoons}"),
            _ => format!("{grams}{}", self.what),
        }
    }

    /// The same in whole words, for hovers: what for, how far off, and what to do about it.
    pub fn hover(&self, value: f64) -> String {
        let by = self.shown();
        let grams = value * self.g_per_unit;
        let mut words = weight(grams);
        let share = by.real_share();
        if let Some((low, high)) = share.spread.bounds().filter(|_| self.own != Some(by)) {
            let (low, high) = (weight(grams * low), weight(grams * high));
            words = format!("{words}, really {low} to {high} ({})", share.from.line());
        }
        if let Some(litres) = self.litres {
            words = format!("{words}, for {}", volume(litres, 2));
        }
        if let Some(spoons) = self.spoons(value) {
            words = format!("{words}: {spoons}");
        }
        [Some(words.as_str()), by.advice().filter(|_| self.own != Some(by))]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .join(". ")
    }

    /// In spoons or cups with the size of one; nothing for what is poured by the litre.
    pub fn spoons(&self, value: f64) -> Option<String> {
        let ml = value * self.g_per_unit / self.g_per_ml?;
        (self.own != Some(Measure::Litre)).then(|| spoons(ml, self.set))
    }

    /// Every measure that can be picked, with the amount in it.
    pub fn choices(&self, value: f64, own_text: &str) -> Vec<(Measure, String)> {
        let mut all = Vec::new();
        for m in Measure::ALL {
            if self.own == Some(m) {
                all.push((m, own_text.to_owned()));
            } else if self.bears(m)
                && let Some(amount) = self.amount(m, value)
                && m.sensible(amount)
            {
                let text = amount.text(FIGURES);
                let of = m.of(self.set).map_or_else(String::new, |of| format!(" of {of}"));
                all.push((m, format!("{text}{of}")));
            }
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// White sugar (USDA SR 19335: 0.845 g/mL) into two litres.
    fn sugar(by: Measure, set: SpoonSet) -> Said<'static> {
        Said {
            unit: "g/L",
            measure: by,
            own: Some(Measure::Gram),
            set,
            g_per_unit: 2.0,
            g_per_ml: Some(0.845),
            pack: None,
            litres: Some(2.0),
            what: "",
        }
    }

    #[test]
    fn the_field_reads_any_measure_into_its_unit() {
        let s = sugar(Measure::Gram, SpoonSet::Metric);
        let read = |text: &str| s.read("Sugar", text).unwrap();
        assert!((read("2 tbsp") - 12.675).abs() < 1e-9); // 2 · 15 mL · 0.845 g/mL / 2 L
        assert!((read("25 g") - 12.5).abs() < 1e-12);
        assert!((read("12,5 g/L") - 12.5).abs() < 1e-12);
        assert!((read("1 tbsp/L") - 12.675).abs() < 1e-9);
        assert!((read("12.5") - 12.5).abs() < 1e-12);
        assert!(
            (sugar(Measure::Tablespoon, SpoonSet::Metric).read("Sugar", "2").unwrap() - 12.675).abs() < 1e-9
        );
        assert_eq!(s.read("Sugar", "2 pints").unwrap_err().field, "Sugar");
    }

    #[test]
    fn beside_it_stand_grams_and_spoons_with_their_size() {
        assert_eq!(sugar(Measure::Gram, SpoonSet::Metric).beside(12.7), "25.4\u{a0}g, 2 tbsp (15\u{a0}mL)");
        assert_eq!(sugar(Measure::Gram, SpoonSet::Metric).text(12.7), None);
        let au = sugar(Measure::Tablespoon, SpoonSet::Australian);
        assert_eq!(au.text(16.9).unwrap(), "2\u{a0}tbsp");
        assert_eq!(au.beside(16.9), "33.8\u{a0}g, 20\u{a0}mL each");
        assert!(sugar(Measure::KnifeTip, SpoonSet::Metric).hover(0.1).contains("9 g of sugar"));
    }

    #[test]
    fn a_measure_that_the_set_lacks_gives_way_to_the_own_unit() {
        assert_eq!(sugar(Measure::Pint, SpoonSet::Metric).text(12.7), None);
        assert!(sugar(Measure::Pint, SpoonSet::Imperial).text(12.7).unwrap().ends_with("pint"));
    }

    #[test]
    fn a_powder_is_weighed_or_spooned_never_poured_by_the_pot() {
        // Skim milk powder (USDA SR 01091: 0.507 g/mL in the spoon); dissolved it takes 0.63 mL a gram.
        let powder = Said {
            unit: "L",
            measure: Measure::Litre,
            own: None,
            g_per_unit: 1587.0,
            g_per_ml: Some(0.507),
            pack: None,
            litres: None,
            ..sugar(Measure::Gram, SpoonSet::Metric)
        };
        assert_eq!(powder.text(0.063).unwrap(), "100\u{a0}g");
        assert!((powder.read("Base", "100").unwrap() * 1587.0 - 100.0).abs() < 1e-9);
        assert!((powder.read("Base", "1 cup").unwrap() * 1587.0 - 126.75).abs() < 1e-9);
        assert!(powder.choices(0.063, "").iter().all(|(m, _)| *m != Measure::Litre));
        assert!(powder.read("Base", "10 g/L").unwrap_err().mend.contains("whole amount"));
    }

    #[test]
    fn a_culture_of_unknown_density_is_weighed() {
        let dry = Said {
            unit: "× packet",
            g_per_unit: 0.04,
            g_per_ml: None,
            pack: None,
            ..sugar(Measure::Gram, SpoonSet::Metric)
        };
        assert!((dry.read("Culture", "0.08 g").unwrap() - 2.0).abs() < 1e-12);
        assert!((dry.read("Culture", "1,5 × packet rate").unwrap() - 1.5).abs() < 1e-12);
        assert!(dry.read("Culture", "1 tsp").unwrap_err().mend.contains("grams"));
        assert_eq!(dry.beside(2.0), "0.08\u{a0}g");
        assert_eq!(Said { what: " of powder", ..dry }.beside(2.0), "0.08\u{a0}g of powder");
        assert!(dry.choices(1.0, "1").iter().any(|(m, _)| *m == Measure::KnifeTip));
    }
}
