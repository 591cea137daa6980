//! Explains a value: what it is now, what it is made of, by which laws, and on which cited numbers it rests.

pub mod equations;
mod parts;
pub mod reading;
mod rests;
mod values;

pub use equations::Equation;
pub use parts::Part;
pub use reading::Reading;

use potset_doc::Design;
use potset_doubt::influence::Influence;
use potset_forecast::numbers::{Kind, Number, Numbers};
use potset_judge::answer::Answer;

/// A value explained.
#[derive(Clone, Debug, PartialEq)]
pub struct Explanation {
    pub reading: Reading,
    pub name: String,
    /// With its unit.
    pub value: String,
    /// Of which moment it is.
    pub at: String,
    /// Heading over the parts, and the parts; may be empty.
    pub made_of: &'static str,
    pub parts: Vec<Part>,
    /// The laws that act in this pot, the leading one first.
    pub laws: Vec<&'static Equation>,
    /// The numbers that it rests on in this design, the most telling first.
    pub numbers: Vec<Number>,
}

/// Name and value of a reading now; `None` if the answer does not have it.
pub fn told(reading: Reading, answer: &Answer, t_h: f64) -> Option<(String, String)> {
    values::value(reading, answer, t_h).map(|told| (told.name, told.value))
}

/// Explains a reading of an answer at a time, for the design that was asked about.
///
/// `None` if the answer does not have that value. Values that a verdict gives for the stop line alone are told for it.
pub fn explain(
    reading: Reading,
    answer: &Answer,
    t_h: f64,
    design: &Design,
    numbers: &Numbers,
) -> Option<Explanation> {
    let told = values::value(reading, answer, t_h)?;
    let facts = reading.facts();
    let mut laws: Vec<&'static Equation> = facts
        .laws
        .iter()
        .copied()
        .filter(|law| law.acts_on.is_none_or(|what| numbers.uses.has(what)))
        .collect();
    let first = leading(reading, answer).map(|lead| lead.0);
    // A stable sort: the law of the part that carries most comes to the front, the others keep their order.
    laws.sort_by_key(|law| Some(*law) != first);
    let (made_of, parts) = parts::parts(reading, answer, t_h, design);
    let mut cited: Vec<Number> = Vec::new();
    let lead = leading(reading, answer).map_or(&[][..], |lead| lead.1);
    for pattern in lead.iter().chain(facts.rests) {
        for number in numbers.all.iter().filter(|n| n.used && matches(pattern, &n.key)) {
            if !cited.iter().any(|c| c.key == number.key) {
                cited.push(number.clone());
            }
        }
    }
    Some(Explanation {
        reading,
        name: told.name,
        value: told.value,
        at: told.at,
        made_of,
        parts,
        laws,
        numbers: cited,
    })
}

impl Explanation {
    /// Puts the numbers first that move this value most between their bounds, where that has been found out.
    pub fn by_influence(&mut self, influences: &[Influence]) {
        let Some(watched) = self.reading.watched() else { return };
        let moves =
            |key: &str| influences.iter().find(|i| i.path == key).map_or(0.0, |i| i.moves[watched].abs());
        self.numbers.sort_by(|a, b| moves(&b.key).total_cmp(&moves(&a.key)));
    }

    /// What weak ground it stands on, in words; empty if on none.
    pub fn caveat(&self) -> String {
        let count = |kind| self.numbers.iter().filter(|n| n.kind == kind).count();
        let (assumed, memory) = (count(Kind::Assumed), count(Kind::FromMemory));
        let first = self.numbers.iter().find(|n| n.kind.weak());
        let Some(first) = first else { return String::new() };
        let what = match (assumed, memory) {
            (0, 1) => "Rests on a number from memory".to_owned(),
            (0, n) => format!("Rests on {n} numbers from memory"),
            (1, 0) => "Rests on an assumption".to_owned(),
            (n, 0) => format!("Rests on {n} assumptions"),
            (a, m) => {
                format!("Rests on {a} assumption{} and {m} from memory", if a == 1 { "" } else { "s" })
            }
        };
        let more = if assumed + memory > 1 { ", such as" } else { ":" };
        format!("{what}{more} {}", first.title())
    }

    /// All of it as plain text.
    pub fn text(&self) -> String {
        let mut lines = vec![format!("{}: {} ({})", self.name, self.value, self.at)];
        lines.extend(self.parts.iter().map(|p| format!("  {}: {}", p.name, p.value)));
        for law in &self.laws {
            lines.push(format!("{}: {} [{}]", law.name, law.formula_line(), law.source_line()));
        }
        for n in &self.numbers {
            let spread = if n.spread.is_empty() { String::new() } else { format!(" ({})", n.spread) };
            lines.push(format!("{}: {}{spread} [{}: {}]", n.title(), n.quantity(), n.kind.words(), n.source));
        }
        lines.join("\n")
    }
}

/// What goes before a reading's own: of a texture, the law and the numbers of the part that carries most.
fn leading(reading: Reading, answer: &Answer) -> Option<(&'static Equation, &'static [&'static str])> {
    use equations as law;
    use potset_science::forecast::Part as Load;
    let texture = matches!(
        reading,
        Reading::ViscosityChilled | Reading::ViscosityPot | Reading::Stiffness | Reading::Yield
    );
    let most = answer.verdict.why_thick.first().map(|(part, _)| *part).filter(|_| texture)?;
    let dairy = answer.facts.dairy >= 0.5;
    Some(match most {
        Load::Protein => (
            if dairy { &law::DAIRY_GEL } else { &law::GEL_RISE },
            &["gel.heated_pa", "gel.soy_pa", "gel.pea_pa", "gel.protein_exponent_heated", "flow.yield_share"],
        ),
        Load::Starch => {
            (&law::PASTE, &["thickeners.*.action.**", "starch.consistency_exponent", "starch.flow_index"])
        }
        Load::GellingAgent => (&law::AGENT, &["thickeners.*.action.**"]),
        Load::Gum => (&law::GUM, &["thickeners.*.action.**"]),
        Load::SolidFat => (
            &law::FAT_NETWORK,
            &["fat.network_home", "fat.network_pa", "fat.network_exponent", "solid_fat.coconut"],
        ),
        Load::Emulsion => (
            &law::EMULSION,
            &[
                "fat.droplet_packing",
                "fat.cluster*",
                "fat.plant_serum",
                "fat.dairy_serum",
                "bases.*.composition.fat",
            ],
        ),
    })
}

/// Whether a key fits a pattern: `*` stands for one step, or for the rest of one; `**` for all further steps.
pub fn matches(pattern: &str, key: &str) -> bool {
    let (mut pattern, mut key) = (pattern.split('.'), key.split('.'));
    loop {
        match (pattern.next(), key.next()) {
            (Some("**"), Some(_)) => return true,
            (Some(p), Some(k)) => {
                let fits = p.strip_suffix('*').map_or(p == k, |start| k.starts_with(start));
                if !fits {
                    return false;
                }
            }
            (None, None) => return true,
            _ => return false,
        }
    }
}

#[cfg(test)]
mod tests;
