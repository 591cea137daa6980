//! What a caller knows of a pot: answers, and how well they fit one that was simulated.

use crate::data::{Asked, Cause, Change, ErrorOf, FACTS, FactKind, MishapTable, NUMBERS};
use potset_doc::Design;
use potset_forecast::scenario::Run;

/// An answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FactValue {
    Number(f64),
    /// Place among the answers of the row.
    Choice(usize),
}

/// Something that the caller knows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fact {
    pub kind: FactKind,
    pub value: FactValue,
}

/// What would be answered of one pot, if all were known: the numbers, and the places of the choices.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Truth {
    pub numbers: [f64; NUMBERS],
    pub choices: [usize; FACTS - NUMBERS],
}

/// Days in a month, for the age of packets.
const DAYS: f64 = 30.4;

impl Truth {
    /// Of a pot as it was made.
    pub fn of(design: &Design, run: &Run, causes: &[&Cause], table: &MishapTable) -> Self {
        let f = &run.forecast;
        let hold = design.hold();
        let rate = design.cultures.iter().map(|line| line.rate).sum();
        let age = design.cultures.iter().map(|line| line.age_days).fold(0.0, f64::max) / DAYS;
        let chilled = design.chill().map_or(0.0, |(_, hours)| hours);
        let numbers = [
            hold.map_or(0.0, |hold| hold.hours),
            f.value(&f.temperature, run.mix.stop_h),
            rate,
            age,
            run.facts.culture_in_c,
            chilled,
            f.value(&f.ph, run.mix.stop_h),
        ];
        let mut all = Self { numbers, choices: [0; FACTS - NUMBERS] };
        for (kind, answer) in causes.iter().flat_map(|cause| &cause.tells) {
            all.answer(*kind, answer, table);
        }
        all
    }

    /// The answer to a question, as it is.
    #[cfg(test)]
    pub const fn fact(&self, kind: FactKind) -> Fact {
        let at = kind as usize;
        let value = if at < NUMBERS {
            FactValue::Number(self.numbers[at])
        } else {
            FactValue::Choice(self.choices[at - NUMBERS])
        };
        Fact { kind, value }
    }

    /// Puts the answer to a choice.
    pub fn answer(&mut self, kind: FactKind, answer: &str, table: &MishapTable) {
        if let Some(Asked::Choice(answers)) = table.fact(kind).map(|row| &row.of) {
            self.choices[kind as usize - NUMBERS] = answers.iter().position(|own| own == answer).unwrap_or(0);
        }
    }

    /// How likely it is that a caller answers so of this pot, up to a factor that is the same for all pots.
    ///
    /// - `planned` — the answers of whoever does not know that anything went otherwise.
    /// - `unaware` — the chance of that, question by question.
    pub fn likelihood(
        &self,
        fact: &Fact,
        planned: &Self,
        unaware: &[f64; FACTS],
        table: &MishapTable,
    ) -> f64 {
        let at = fact.kind as usize;
        let unaware = unaware[at];
        match (fact.value, table.fact(fact.kind).map(|row| &row.of)) {
            (FactValue::Number(v), Some(Asked::Number { error, .. })) => {
                let fits = |truth: f64| near(v, truth, *error);
                unaware * fits(planned.numbers[at]) + (1.0 - unaware) * fits(self.numbers[at])
            }
            (FactValue::Choice(v), Some(Asked::Choice(answers))) => {
                let wrong = table.answered_wrong;
                let others = wrong / (answers.len().max(2) - 1) as f64;
                let fits = |truth: usize| if v == truth { 1.0 - wrong } else { others };
                let at = at - NUMBERS;
                unaware * fits(planned.choices[at]) + (1.0 - unaware) * fits(self.choices[at])
            }
            _ => 1.0,
        }
    }
}

/// Chances that the maker answers as planned where these are the causes, question by question.
///
/// What is read off something is told as it is, and so is how other pots came out; what was put in and done is told as it was
/// meant by whoever does not know better.
pub fn unaware(causes: &[&Cause]) -> [f64; FACTS] {
    let mut all = [0.0; FACTS];
    for cause in causes {
        let choices = cause.tells.iter().map(|(kind, _)| *kind).filter(|kind| *kind != FactKind::LastPots);
        let meant = match cause.change {
            Change::DoseTimes(..) | Change::AllTimes(..) => Some(FactKind::Dose),
            Change::Aged(..) => Some(FactKind::Age),
            _ => None,
        };
        for kind in choices.chain(meant) {
            all[kind as usize] = f64::max(all[kind as usize], cause.unaware);
        }
    }
    all
}

/// Density of an answer about its truth, with tails: one answer in ten may be anything near (assumed).
fn near(v: f64, truth: f64, error: ErrorOf) -> f64 {
    let z = match error {
        ErrorOf::By(sigma) => (v - truth) / sigma,
        ErrorOf::Share(sigma) => ((v.max(0.0) + LEAST) / (truth.max(0.0) + LEAST)).ln() / sigma,
    };
    0.9 * (-0.5 * z * z).exp() + 0.1 * (-0.5 * z * z / 25.0).exp() / 5.0
}

/// Keeps a share of nothing from being endless: a twentieth of a packet, three minutes, a day and a half.
const LEAST: f64 = 0.05;
