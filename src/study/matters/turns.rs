//! What a small turn of each lever does.

use crate::doc::edit;
use crate::study::ask::Ask;
use crate::study::lever::{Lever, levers};
use crate::study::outcome::{Outcome, Outcomes};

/// Share of its usual span over which a lever is ranked among the others. Source: assumed.
const RANKED: f64 = 0.1;

/// A lever that over that share of its span moves nothing by so many noticeable steps is only named. Source: assumed.
const LEAST: f64 = 0.05;

/// One lever, turned a little.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    pub lever: Lever,
    /// By how much, in the lever's unit: a step that is handy.
    pub by: f64,
    /// How many such steps make the share of the usual span over which levers are ranked.
    pub ranked_over: f64,
    /// What that does to each watched outcome.
    pub effects: Vec<(Outcome, Effect)>,
}

/// What a turn does to an outcome.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Effect {
    /// A difference, on the scale on which differences add up.
    By(f64),
    /// The pot comes there only with the turn.
    OnlyThen,
    /// With the turn it does not come there any more.
    NoLonger,
}

/// A pot that comes there only one way counts as so many noticeable steps. Source: assumed.
const ONE_WAY: f64 = 10.0;

impl Turn {
    /// Effect of the handy step in steps that a person would notice.
    #[must_use]
    pub fn steps(&self, i: usize) -> f64 {
        self.effects.get(i).map_or(0.0, |(outcome, effect)| match effect {
            Effect::By(d) => outcome.steps(*d).abs(),
            Effect::OnlyThen | Effect::NoLonger => ONE_WAY,
        })
    }

    /// The strongest of its effects over a like share of every lever's usual span, in steps that a person would notice: the
    /// told effect in proportion.
    #[must_use]
    pub fn strength(&self) -> f64 {
        let over = |i: usize| match self.effects.get(i) {
            // What comes there only one way is no more so for a larger turn.
            Some((_, Effect::OnlyThen | Effect::NoLonger)) => self.steps(i),
            _ => self.steps(i) * self.ranked_over,
        };
        (0..self.effects.len()).map(over).fold(0.0, f64::max)
    }
}

/// How far a lever is turned: what a maker would try first. Source: assumed; of doses about a tenth of the usual span, in
/// round figures.
fn handy(lever: &Lever) -> f64 {
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
    natural.max(lever.step)
}

/// How many handy steps make the share of its usual span over which a lever is ranked. What has no usual span is ranked by
/// its handy step (assumed).
fn ranked_over(lever: &Lever) -> f64 {
    lever.usual.filter(|(from, to)| from < to).map_or(1.0, |(from, to)| RANKED * (to - from) / handy(lever))
}

/// Turns every lever: those that do something, the strongest first, and the names of those of which nobody notices anything.
pub fn turns(ask: &Ask<'_>, outcomes: &[Outcome]) -> (Vec<Turn>, Vec<String>) {
    let Ok(likely) = ask.run_coarse(0.0) else { return Default::default() };
    let far_h = likely.mix.horizon_h;
    let before = Outcomes::of(ask, &likely);
    let effects = |lever: &Lever, by: f64| {
        let to = lever.value + by;
        if to < lever.range.0 || to > lever.range.1 {
            return None;
        }
        let change = lever.knob.edit(ask.design, to);
        let design = edit::apply(ask.design, &change, ask.pantry).ok()?;
        let there = Ask { design: &design, ..*ask };
        let run = there.run_coarse(far_h).ok()?;
        let after = Outcomes::of(&there, &run);
        let effect = |outcome: &Outcome| {
            let difference = match (before.get(*outcome), after.get(*outcome)) {
                (Some(a), Some(b)) => Effect::By(outcome.scaled(b) - outcome.scaled(a)),
                (None, None) => Effect::By(0.0),
                (None, Some(_)) => Effect::OnlyThen,
                (Some(_), None) => Effect::NoLonger,
            };
            (*outcome, difference)
        };
        Some(outcomes.iter().map(effect).collect())
    };
    let turned = |lever: Lever| {
        let step = handy(&lever);
        // The other way where it cannot go farther, or where that is no pot.
        let (by, effects) =
            [step, -step].into_iter().find_map(|by| effects(&lever, by).map(|found| (by, found)))?;
        Some(Turn { effects, by, ranked_over: ranked_over(&lever), lever })
    };
    let (mut all, rest): (Vec<Turn>, Vec<Turn>) =
        levers(ask.design, ask.pantry).into_iter().filter_map(turned).partition(|t| t.strength() >= LEAST);
    all.sort_by(|a, b| b.strength().total_cmp(&a.strength()).then_with(|| a.lever.name.cmp(&b.lever.name)));
    (all, rest.into_iter().map(|t| t.lever.name).collect())
}
