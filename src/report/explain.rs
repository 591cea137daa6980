//! A value explained: what it is now, what it is made of, by which laws, and on which cited numbers it rests.

mod parts;
mod values;

pub use parts::{Part, degrees};
pub use values::told;

use crate::ready as ready_words;
use potset_base::clock::Moment;
use potset_doc::Design;
use potset_explain::Reading;
use potset_explain::basis::Basis;
use potset_forecast::numbers::{Kind, Numbers};
use potset_judge::answer::Answer;
use potset_judge::ready::ReadyTime;

/// A value explained.
#[derive(Clone, Debug, PartialEq)]
pub struct Explanation {
    pub name: String,
    /// With its unit.
    pub value: String,
    /// Of which moment it is.
    pub at: String,
    /// Heading over the parts, and the parts; may be empty.
    pub made_of: &'static str,
    pub parts: Vec<Part>,
    pub basis: Basis,
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
    let (value, at) = values::value(reading, answer, t_h)?;
    Some(Explanation {
        name: values::name(reading, answer)?,
        value,
        at,
        made_of: &reading.facts()?.made_of,
        parts: parts::parts(reading, answer, t_h, design),
        basis: Basis::of(reading, answer, numbers)?,
    })
}

/// When the possible pots are ready, as parts of the answer.
pub fn of_possible_pots(ready: &ReadyTime, start: Option<Moment>) -> Vec<Part> {
    let by = |h: f64| format!("by {}", ready_words::time_words(h, start));
    let part =
        |name: &str, h: Option<f64>| h.map(|h| Part { name: name.into(), value: by(h), amount: f64::NAN });
    let told =
        [part("about half of the possible pots", ready.half_h), part("most possible pots", ready.most_h)];
    told.into_iter().flatten().collect()
}

impl Explanation {
    /// What weak ground it stands on, in words; empty if on none.
    pub fn caveat(&self) -> String {
        let count = |kind| self.basis.numbers.iter().filter(|n| n.kind == kind).count();
        let (assumed, memory) = (count(Kind::Assumed), count(Kind::FromMemory));
        let first = self.basis.numbers.iter().find(|n| n.kind.weak());
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
        for law in &self.basis.laws {
            lines.push(format!("{}: {} [{}]", law.name, law.formula_line(), law.source_line()));
        }
        for n in &self.basis.numbers {
            let spread = if n.spread.is_empty() { String::new() } else { format!(" ({})", n.spread) };
            lines.push(format!("{}: {}{spread} [{}: {}]", n.title(), n.quantity(), n.kind.words(), n.source));
        }
        lines.join("\n")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::{Kitchen, Learnt, assets};
    use potset_forecast::numbers::numbers;
    use potset_forecast::scenario::Scenario;
    use potset_judge::answer::answer;

    fn explained(name: &str, reading: Reading) -> (Answer, Explanation) {
        let (design, pantry) = (assets::demo(name).unwrap(), assets::pantry().unwrap());
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let answer =
            answer(&Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt });
        let list = numbers(&design, &pantry, &kitchen, &learnt);
        let told = explain(reading, &answer, answer.verdict.stop_h, &design, &list).unwrap();
        (answer, told)
    }

    #[test]
    fn acid_by_organism_adds_up_to_the_acid_made() {
        let (answer, told) = explained("whole-milk-pot.ron", Reading::AcidMade);
        let f = &answer.forecast;
        let sum: f64 = told.parts.iter().map(|p| p.amount).filter(|a| a.is_finite()).sum();
        let all = f.value(&f.lactic, answer.verdict.stop_h) + f.value(&f.acetic, answer.verdict.stop_h);
        // The parts are summed by the trapezoid rule over the points of the forecast.
        assert!((sum - all).abs() < 2e-3 * all, "{sum} against {all}");
    }

    #[test]
    fn the_parts_of_a_texture_carry_its_whole_stress() {
        for reading in [Reading::ViscosityChilled, Reading::ViscosityPot] {
            let (answer, told) = explained("coconut-pot.ron", reading);
            let (warm, chilled) = answer.forecast.textures(answer.verdict.stop_h).unwrap();
            let texture = if reading == Reading::ViscosityPot { warm } else { chilled };
            let sum: f64 = told.parts.iter().map(|p| p.amount).filter(|a| a.is_finite()).sum();
            assert!((sum - 50.0 * texture.viscosity50).abs() < 1e-6 * sum, "{reading:?}");
        }
    }

    #[test]
    fn the_sugar_account_closes() {
        let (_, told) = explained("coconut-pot.ron", Reading::SugarLeft);
        let amount = |name: &str| told.parts.iter().find(|p| p.name == name).unwrap().amount;
        let left = amount("came with the base")
            + amount("added for the culture")
            + amount("eaten by the culture until the stop");
        assert!((left - amount("left at the stop")).abs() < 0.05, "{left}");
    }

    #[test]
    fn a_value_says_what_weak_ground_it_stands_on() {
        let (_, told) = explained("coconut-pot.ron", Reading::TangWord);
        assert!(told.caveat().starts_with("Rests on "), "{}", told.caveat());
        let mut firm = told;
        firm.basis.numbers.retain(|n| !n.kind.weak());
        assert!(firm.caveat().is_empty());
    }

    #[test]
    fn one_acidity_in_three_scales() {
        // Source: published, titratable-acidity unit tables: 0.90 % = 90 °D = 40 °SH = 100 °Th.
        assert_eq!(degrees(0.90), "90\u{a0}°D, 40\u{a0}°SH, 100\u{a0}°Th");
    }
}
