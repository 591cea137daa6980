//! Two to four designs beside each other: in what they differ, what that does, and because of what.
//!
//! **Something that can stand beside.** `compare::beside::ForecastSource` is whatever can be had as a design: an open design, a
//! file, a published case. A column of the view (`app/columns.rs`) is the design on the bench, a kept `Session` with its own
//! history, or a case; `exchange` lets a kept one and the bench change places, so nothing unsaved is ever dropped: taking a
//! column away and quitting ask, and recovery keeps a copy of each. The worker answers with the table first, then with the
//! causes pair by pair, given up as soon as something newer is asked. All designs are forecast to the farthest horizon among
//! them: otherwise "never" would mean another hour in each. An input that is to be told is a line in
//! `compare/beside/inputs/`; a part that is taken over as a whole when differences are shared out is a variant of
//! `beside::Part`. An outcome is a variant of `forecast::observable::Observable` with its unit and the least difference that a person
//! notices, by steps or by factors: `Observable::step` is the only table of that, and influence, what matters and Aim read it.
//! Tables, causes, sweeps, swaps and pictures go over `Observable::ALL`. Whether two pots differ to a person is asked of
//! `Outcomes::notices` alone, never of one figure: what a person meets as one thing is led by one outcome (`judge/outcomes.rs`:
//! acid leads pH; thickness leads stiffness, but where a spoon cuts), and what is only read (energy, cost) is never noticed.
//! Shares of a time leave mixes out that never get there (`beside/orders.rs`), and say how many; `report::why` has the sentences
//! that stand before them, `beside/clue.rs` by what a part makes for later or sooner.

mod clue;
mod inputs;
pub mod mark;
mod orders;
mod part;
mod shares;
mod source;

pub use clue::{Clue, Hint};
pub use inputs::{InputRow, Value, rows as input_rows};
pub use part::{Pair, Part};
pub use shares::{Because, Causes, MOST_PLAYERS, Player, causes};
pub use source::{ForecastSource, Measured, OfCase, OfDesign};

use potset_base::clock::Moment;
use potset_base::words::{TangWord, TextureWord};
use potset_base::{Note, Severity};
use potset_doc::{Design, Pantry};
use potset_doubt::ready_times::Known;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::advice::Advice;
use potset_judge::answer::{Answer, answer, answer_to};
use potset_judge::outcomes::Outcomes;
use potset_judge::ready::ReadyTime;
use potset_judge::verdict::{SugarStays, Verdict};

/// Most designs beside each other.
pub const MOST: usize = 4;

/// An outcome of all designs, and what a person would notice of the differences to the first one.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    pub outcome: Observable,
    pub values: Vec<Option<f64>>,
    /// To the first, on the scale of the outcome; nothing where one never comes there.
    pub differences: Vec<Option<f64>>,
    pub noticed: Vec<bool>,
}

impl Row {
    /// A design's value in words.
    pub fn words(&self, i: usize) -> String {
        let value = self.values.get(i).copied().flatten();
        self.outcome.words_of(value)
    }

    /// How a design stands to the first, in words; empty if there is nothing to say.
    pub fn difference_words(&self, i: usize) -> String {
        let difference = self.differences.get(i).copied().flatten();
        difference.map_or_else(String::new, |d| self.outcome.difference_words(d))
    }

    /// What the row is of. When a design is ready is told by its possible pots here.
    pub const fn name(&self) -> &'static str {
        match self.outcome {
            Observable::ReadyFrom => "about half are ready by",
            other => other.name(),
        }
    }

    /// How a design stands to the first, and what a person notices of it; see [`Observable::difference_line`].
    pub fn difference_line(&self, i: usize, between: &str) -> String {
        let noticed = self.noticed.get(i).copied().unwrap_or_default();
        self.outcome.difference_line(self.differences.get(i).copied().flatten(), noticed, between)
    }
}

/// When a design is ready, in hours and by the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    pub ready: Option<ReadyTime>,
    pub stop_h: f64,
    pub horizon_h: f64,
    /// When its culture goes in.
    pub start: Option<Moment>,
}

/// Designs beside each other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Comparison {
    /// No two are the same.
    pub names: Vec<String>,
    /// Inputs in which any of them differ.
    pub inputs: Vec<InputRow>,
    pub rows: Vec<Row>,
    pub spans: Vec<Span>,
    /// What each comes to.
    pub pots: Vec<Pot>,
    /// What each is warned of, no tips; what speaks against eating it stands first.
    pub warnings: Vec<Vec<Advice>>,
    /// One for each but the first, as far as they are worked out.
    pub causes: Vec<Option<Causes>>,
}

/// What comes of a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Pot {
    /// Nothing where there is no forecast.
    pub outcomes: Option<Outcomes>,
    pub tang: Option<TangWord>,
    pub texture: Option<TextureWord>,
    /// The thinnest and the thickest that is usual.
    pub texture_range: Option<(TextureWord, TextureWord)>,
    /// Why sugar stays in it.
    pub sugar: Option<SugarStays>,
}

/// Puts designs and their answers beside each other, without the causes.
pub fn table(designs: &[&Design], answers: &[&Answer], pantry: &Pantry) -> Comparison {
    let names = names(designs.iter().map(|d| d.name.as_str()));
    let inputs = inputs::rows(designs, answers, pantry);
    let pots: Vec<Pot> = answers.iter().map(|a| pot(a)).collect();
    let rows = Observable::ALL.into_iter().map(|o| row(o, &pots)).collect();
    let spans = designs
        .iter()
        .zip(answers)
        .map(|(design, answer)| Span {
            ready: answer.ready.clone(),
            stop_h: answer.forecast.stop_h,
            horizon_h: answer.forecast.horizon_h,
            start: design.start(),
        })
        .collect();
    let causes = vec![None; designs.len().saturating_sub(1)];
    Comparison {
        names,
        inputs,
        rows,
        spans,
        pots,
        warnings: answers.iter().map(|a| warnings(&a.verdict)).collect(),
        causes,
    }
}

fn pot(answer: &Answer) -> Pot {
    Pot {
        outcomes: answer.errors.is_empty().then(|| Outcomes::of_answer(answer)),
        tang: answer.verdict.tang.as_ref().and_then(|t| t.word),
        texture: answer.verdict.texture.as_ref().map(|t| t.word),
        texture_range: answer.verdict.texture.as_ref().map(|t| (t.low, t.high)),
        sugar: answer.verdict.sugar.as_ref().map(|s| s.why),
    }
}

fn warnings(verdict: &Verdict) -> Vec<Advice> {
    let all = verdict.against.iter().chain(&verdict.advice);
    all.filter(|advice| advice.severity > Severity::Tip).cloned().collect()
}

impl Comparison {
    /// The value of an outcome in one of the designs.
    pub fn value(&self, outcome: Observable, place: usize) -> Option<f64> {
        self.rows.iter().find(|r| r.outcome == outcome)?.values.get(place).copied()?
    }

    /// Whether a person would notice how a design stands to the first in an outcome.
    pub fn noticed(&self, outcome: Observable, place: usize) -> bool {
        let row = self.rows.iter().find(|r| r.outcome == outcome);
        row.is_some_and(|r| r.noticed.get(place).copied().unwrap_or_default())
    }

    /// Whether anything of a design or of what comes of it is not as in the first.
    pub fn differs(&self, place: usize) -> bool {
        let input = |row: &InputRow| !row.same(0, place);
        self.inputs.iter().any(input) || self.pots[0].outcomes != self.pots[place].outcomes
    }
}

/// Puts designs beside each other, causes and all: the first asked, and others in the same kitchen.
///
/// # Errors
/// Why one of them has no forecast, its name in the field.
pub fn beside(scenario: &Scenario<'_>, others: &[&Design]) -> Result<Comparison, Vec<Note>> {
    beside_knowing(scenario, others, Some(&mut Known::default()))
}

/// The same, with ready times as in [`answers_knowing`].
///
/// # Errors
/// As [`beside`].
pub fn beside_knowing(
    scenario: &Scenario<'_>,
    others: &[&Design],
    known: Option<&mut Known>,
) -> Result<Comparison, Vec<Note>> {
    let designs: Vec<&Design> = std::iter::once(scenario.design).chain(others.iter().copied()).collect();
    let answers = answers_knowing(scenario, &designs, known);
    for (design, answer) in designs.iter().zip(&answers) {
        if !answer.errors.is_empty() {
            let named = |n: &Note| Note { field: format!("{}, {}", design.name, n.field), ..n.clone() };
            return Err(answer.errors.iter().map(named).collect());
        }
    }
    let mut out = table(&designs, &answers.iter().collect::<Vec<_>>(), scenario.pantry);
    out.causes = others.iter().map(|other| causes(scenario, other, &mut || true)).collect();
    Ok(out)
}

/// Hours from the first start to each, and that start; without one, all from nought: by the clock only where every design
/// has a start, and none a day and a half after another.
pub fn clocks(spans: &[Span]) -> (Vec<f64>, Option<Moment>) {
    let starts: Option<Vec<Moment>> = spans.iter().map(|s| s.start).collect();
    let by_clock = starts.and_then(|starts| {
        let first = starts.iter().copied().min()?;
        let offsets: Vec<f64> = starts.iter().map(|s| s.hours_since(first)).collect();
        offsets.iter().all(|h| *h <= 36.0).then_some((offsets, Some(first)))
    });
    by_clock.unwrap_or_else(|| (vec![0.0; spans.len()], None))
}

/// Answers of designs in one kitchen, all looking as far ahead as the one that looks farthest.
pub fn answers(scenario: &Scenario<'_>, designs: &[&Design]) -> Vec<Answer> {
    answers_knowing(scenario, designs, Some(&mut Known::default()))
}

/// The same with the ready times that are known already; without any, the likely line stands in for the possible pots.
pub fn answers_knowing(
    scenario: &Scenario<'_>,
    designs: &[&Design],
    mut known: Option<&mut Known>,
) -> Vec<Answer> {
    let mut all: Vec<Answer> =
        designs.iter().map(|design| answer(&Scenario { design, ..*scenario })).collect();
    let far = all.iter().map(|a| a.forecast.horizon_h).fold(0.0, f64::max);
    for (answer, design) in all.iter_mut().zip(designs) {
        if answer.errors.is_empty() && answer.forecast.horizon_h < far {
            *answer = answer_to(&Scenario { design, ..*scenario }, far);
        }
        if let Some(known) = known.as_deref_mut().filter(|_| answer.errors.is_empty()) {
            answer.ready = known.when(&Scenario { design, ..*scenario }).ok();
        }
    }
    all
}

/// Names of designs; those that share one are numbered.
pub fn names<'a>(all: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for name in all {
        let name = if name.trim().is_empty() { "no name" } else { name.trim() };
        let mut full = name.to_owned();
        let mut n = 2;
        while out.contains(&full) {
            full = format!("{name} ({n})");
            n += 1;
        }
        out.push(full);
    }
    out
}

fn row(outcome: Observable, all: &[Pot]) -> Row {
    let outcomes = || all.iter().map(|pot| pot.outcomes.as_ref());
    let values: Vec<Option<f64>> = outcomes().map(|of| of?.get(outcome)).collect();
    let first = values.first().copied().flatten();
    let differences =
        values.iter().map(|v| first.zip(*v).map(|(a, b)| outcome.scaled(b) - outcome.scaled(a))).collect();
    let noticed =
        |of: Option<&Outcomes>| all[0].outcomes.as_ref().zip(of).is_some_and(|(a, b)| a.notices(b, outcome));
    let noticed = outcomes().map(noticed).collect();
    Row { outcome, values, differences, noticed }
}
