//! What a small turn of each lever does.

use crate::doc::edit;
use crate::study::ask::Ask;
use crate::study::lever::{Lever, levers};
use crate::study::outcome::{Outcome, Outcomes};

/// Effects below so many noticeable steps on everything are left out. Source: assumed.
const LEAST: f64 = 0.05;

/// One lever, turned a little.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    pub lever: Lever,
    /// By how much, in the lever's unit.
    pub by: f64,
    /// What that does to each watched outcome, on the scale on which differences add up; nothing where the pot comes there
    /// only with the turn, or only without.
    pub effects: Vec<(Outcome, Option<f64>)>,
}

impl Turn {
    /// Effect in steps that a person would notice; a pot that comes there only one way counts as ten (assumed).
    #[must_use]
    pub fn steps(&self, i: usize) -> f64 {
        self.effects.get(i).map_or(0.0, |(outcome, d)| d.map_or(10.0, |d| outcome.steps(d).abs()))
    }

    /// The strongest of its effects, in steps that a person would notice.
    #[must_use]
    pub fn strength(&self) -> f64 {
        (0..self.effects.len()).map(|i| self.steps(i)).fold(0.0, f64::max)
    }
}

/// How far a lever is turned: what a maker would try first, of the size of a tenth of the usual span.
fn small(lever: &Lever) -> f64 {
    let natural: f64 = match lever.unit {
        "°C" | "h" | "g/100 g" => 1.0,
        "min" | "%" => 5.0,
        "days" => 30.0,
        "× packet rate" => 0.5,
        _ => {
            let (from, to) = lever.usual.unwrap_or(lever.range);
            let tenth = ((to - from) * 0.1).max(lever.step);
            let decade = 10.0_f64.powf(tenth.log10().floor());
            [1.0, 2.0, 5.0, 10.0]
                .into_iter()
                .map(|k| k * decade)
                .find(|v| *v >= 0.99 * tenth)
                .unwrap_or(tenth)
        }
    };
    let natural = natural.max(lever.step);
    if lever.value + natural <= lever.range.1 { natural } else { -natural }
}

/// Turns every lever, the strongest first.
pub fn turns(ask: &Ask<'_>, outcomes: &[Outcome]) -> Vec<Turn> {
    let Ok(likely) = ask.run_coarse(0.0) else { return Vec::new() };
    let far_h = likely.mix.horizon_h;
    let before = Outcomes::of(ask, &likely);
    let turned = |lever: Lever| {
        let by = small(&lever);
        let change = lever.knob.edit(ask.design, lever.value + by);
        let design = edit::apply(ask.design, &change, ask.pantry).ok()?;
        let there = Ask { design: &design, ..*ask };
        let run = there.run_coarse(far_h).ok()?;
        let after = Outcomes::of(&there, &run);
        let effect = |outcome: &Outcome| {
            let difference = match (before.get(*outcome), after.get(*outcome)) {
                (Some(a), Some(b)) => Some(outcome.scaled(b) - outcome.scaled(a)),
                (None, None) => Some(0.0),
                _ => None,
            };
            (*outcome, difference)
        };
        Some(Turn { effects: outcomes.iter().map(effect).collect(), lever, by })
    };
    let mut all: Vec<Turn> = levers(ask.design, ask.pantry).into_iter().filter_map(turned).collect();
    all.retain(|t| t.strength() >= LEAST);
    all.sort_by(|a, b| b.strength().total_cmp(&a.strength()).then_with(|| a.lever.name.cmp(&b.lever.name)));
    all
}
