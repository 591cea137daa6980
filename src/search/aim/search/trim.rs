//! Takes out of a proposal what helps no want: each change is undone alone, and stays undone where nothing is lost by it.

use super::{Aimer, worth};
use crate::aim::blocked::Reading;
use crate::aim::choices::Pick;
use crate::aim::make::{How, make};
use crate::aim::pots;
use crate::aim::pots::Draw;
use crate::aim::proposal::{Count, Proposal, ends, propose, read};
use crate::aim::spot::{Setting, Spot};
use potset_doc::edit::Shelf;
use potset_forecast::lever::Knob;
use potset_forecast::scenario::Ask;

/// What the nearest setting may be farther off without a change, steps that a person notices. Source: assumed; half a step
/// is not noticed.
const FARTHER: f64 = 0.5;

/// A change that can be undone alone.
#[derive(Clone, Debug)]
enum Undo {
    /// The design's own entry in the line of a choice; and whether the mends go too.
    Pick(usize, bool),
    /// No mends of the design's own thickeners.
    Mends,
    /// A lever back to what the design has.
    Lever(Knob, String),
}

/// What a proposal is made of.
#[derive(Clone)]
struct Shape {
    combo: Vec<usize>,
    mend: bool,
    set: Vec<(Knob, String, f64)>,
}

impl Aimer {
    /// The proposal without the changes that help no want: undone alone they leave all that is wanted, and a chance that is
    /// not clearly less ([`crate::aim::Chance::clearly_above`]).
    pub(super) fn trimmed(&self, ask: &Ask<'_>, proposal: &Proposal) -> Proposal {
        let shaped = |spot: &Spot<'_>, combo: &[usize], values: Vec<f64>| {
            // By the precise forecast, or `propose` would look for another setting beside it.
            let least = spot.least(&values, true);
            let count = self.count(self.pots);
            (least >= 0.0).then(|| propose(spot, combo, &Setting { values, least }, count).ok())?
        };
        // Against what it was at first: many small losses are a loss.
        let kept = |less: &Proposal| {
            !proposal.chance.clearly_above(&less.chance) && worth(self.found.as_is.as_ref(), less)
        };
        self.less(ask, proposal.clone(), |p| p, shaped, kept)
    }

    /// The nearest setting, and its levers that stand at an end, without the changes that bring it no nearer: undone alone
    /// they leave all that holds, and what is missed no farther off than a person notices.
    pub(super) fn nearest_trimmed(&self, ask: &Ask<'_>, nearest: Reading) -> Reading {
        let shaped = |spot: &Spot<'_>, combo: &[usize], values: Vec<f64>| {
            let count = Count { draw: Draw::new(self.wish.seed, 1), ..self.count(pots::likely) };
            Some((read(spot, combo, &values, count)?, ends(spot, &values)))
        };
        let was: Vec<f64> = nearest.0.standings.iter().map(|s| s.margin).collect();
        let kept = |less: &Reading| {
            let still = |was: f64, now: f64| if was >= 0.0 { now >= 0.0 } else { now >= was - FARTHER };
            let now = less.0.standings.iter().map(|s| s.margin);
            was.iter().zip(now).all(|(was, now)| still(*was, now))
        };
        self.less(ask, nearest, |(p, _)| p, shaped, kept)
    }

    /// Undoes each change alone, in turn, and leaves it undone where what is left is kept.
    fn less<T>(
        &self,
        ask: &Ask<'_>,
        full: T,
        proposal: impl Fn(&T) -> &Proposal,
        shaped: impl Fn(&Spot<'_>, &[usize], Vec<f64>) -> Option<T>,
        kept: impl Fn(&T) -> bool,
    ) -> T {
        let of = proposal(&full);
        let mut shape = Shape { combo: of.combo.clone(), mend: true, set: of.set.clone() };
        let undos = self.undos(&shape, of);
        let mut best = full;
        // Entries come first: what is taken out with one may have been what a lever was turned for.
        for undo in undos {
            let other = shape.without(&undo);
            let changes = proposal(&best).changes();
            if let Some(less) = self.shaped(ask, &other, changes, &shaped).filter(&kept) {
                (best, shape) = (less, other);
            }
        }
        best
    }

    /// The changes of a proposal, those of entries first.
    fn undos(&self, shape: &Shape, proposal: &Proposal) -> Vec<Undo> {
        let picked = |k: &usize| {
            let first = self.choices.get(*k).and_then(|c| c.picks.first());
            shape.combo[*k] > 0 && first == Some(&Pick::Keep)
        };
        let picks = (0..shape.combo.len()).filter(picked);
        // A thickener goes alone, or with the mends that stand for it.
        let picks = picks.flat_map(|k| {
            let with_mends = self.choices[k].on(Shelf::Thickeners).then_some(Undo::Pick(k, true));
            std::iter::once(Undo::Pick(k, false)).chain(with_mends)
        });
        let mends = (shape.mend && !proposal.said.is_empty()).then_some(Undo::Mends);
        let turned = |name: &str| proposal.turned.iter().any(|t| t.name == name);
        let levers = shape.set.iter().filter(|(_, name, _)| turned(name));
        picks.chain(mends).chain(levers.map(|(knob, name, _)| Undo::Lever(*knob, name.clone()))).collect()
    }

    /// What is made of a shape, if it changes fewer things than `most`.
    fn shaped<T>(
        &self,
        ask: &Ask<'_>,
        shape: &Shape,
        most: usize,
        shaped: impl Fn(&Spot<'_>, &[usize], Vec<f64>) -> Option<T>,
    ) -> Option<T> {
        let how = How { beyond: self.beyond, mend: shape.mend };
        let made = make(ask, &self.wish, &self.choices, &shape.combo, how)?;
        let spot = Spot { ask, made: &made, demands: &self.demands };
        let value = |knob: Knob, name: &str| {
            shape.set.iter().find(|(k, n, _)| *k == knob && n == name).map(|(.., v)| *v)
        };
        let values: Vec<f64> = made
            .turns
            .iter()
            .zip(spot.home())
            .map(|(t, home)| value(t.lever.knob, &t.lever.name).unwrap_or(home))
            .collect();
        let turned = made.turns.iter().zip(&values).filter(|(t, v)| t.turned(**v)).count();
        (made.said.len() + turned < most).then(|| shaped(&spot, &shape.combo, values))?
    }
}

impl Shape {
    fn without(&self, undo: &Undo) -> Self {
        let mut out = self.clone();
        match undo {
            Undo::Pick(k, with_mends) => {
                out.combo[*k] = 0;
                // A mend of the design's own would be another change in its place.
                out.mend &= !with_mends;
            }
            Undo::Mends => out.mend = false,
            Undo::Lever(knob, name) => out.set.retain(|(k, n, _)| k != knob || n != name),
        }
        out
    }
}
