//! Takes out of a proposal what helps no want: each change is undone alone, and stays undone where nothing is lost by it.

use super::TargetSearch;
use crate::aim::choices::Pick;
use crate::aim::make::{How, make};
use crate::aim::problem::SearchProblem;
use crate::aim::proposal::{Count, Proposal, propose, read};
use crate::aim::stand::least;
use crate::aim::turn::SearchLever;
use potset_doc::edit::LineKind;
use potset_forecast::scenario::Scenario;

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
    Lever(SearchLever),
}

/// What a proposal is made of.
#[derive(Clone)]
struct Shape {
    combo: Vec<usize>,
    mend: bool,
    set: Vec<(SearchLever, f64)>,
}

impl TargetSearch {
    /// The proposal without the changes that help no want: undone alone they leave all that is wanted, and a chance that is
    /// not clearly less ([`crate::aim::Chance::clearly_above`]).
    pub(super) fn trimmed(&self, scenario: &Scenario<'_>, proposal: &Proposal) -> Proposal {
        // Against what it was at first: many small losses are a loss.
        let kept = |less: &Proposal| !proposal.chance.clearly_above(&less.chance) && self.worth(less);
        self.less(scenario, proposal, |problem, combo, values| {
            // By the precise forecast, or `propose` would look for another setting beside it.
            let holds = least(&problem.margins(values, true)) >= 0.0;
            holds.then(|| propose(problem, combo, values, self.count(self.pots)).ok().filter(kept))?
        })
    }

    /// The nearest setting without the changes that bring it no nearer: undone alone they leave all that holds, and what is
    /// missed no farther off than a person notices.
    pub(super) fn nearest_trimmed(
        &self,
        scenario: &Scenario<'_>,
        nearest: &Proposal,
        count: Count,
    ) -> Proposal {
        let still = |was: f64, now: f64| if was >= 0.0 { now >= 0.0 } else { now >= was - FARTHER };
        let kept = |less: &Proposal| {
            nearest.standings.iter().zip(&less.standings).all(|(was, now)| still(was.margin, now.margin))
        };
        self.less(scenario, nearest, |problem, combo, values| {
            read(problem, combo, values, count).filter(kept)
        })
    }

    /// Undoes each change alone, in turn, and leaves it undone where what is left is kept.
    fn less(
        &self,
        scenario: &Scenario<'_>,
        full: &Proposal,
        kept: impl Fn(&SearchProblem<'_>, &[usize], &[f64]) -> Option<Proposal>,
    ) -> Proposal {
        let mut shape = Shape { combo: full.combo.clone(), mend: true, set: full.settings.clone() };
        let mut best = full.clone();
        // Entries come first: what is taken out with one may have been what a lever was turned for.
        for undo in self.undos(&shape, full) {
            let other = shape.without(&undo);
            if let Some(less) = self.shaped(scenario, &other, best.changes(), &kept) {
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
            let with_mends = self.choices[k].on(LineKind::Thickeners).then_some(Undo::Pick(k, true));
            std::iter::once(Undo::Pick(k, false)).chain(with_mends)
        });
        let mends = (shape.mend && !proposal.said.is_empty()).then_some(Undo::Mends);
        let levers = proposal.turned.iter().map(|t| Undo::Lever(t.turn.clone()));
        picks.chain(mends).chain(levers).collect()
    }

    /// What is made of a shape, if it changes fewer things than `most`.
    fn shaped(
        &self,
        scenario: &Scenario<'_>,
        shape: &Shape,
        most: usize,
        kept: impl Fn(&SearchProblem<'_>, &[usize], &[f64]) -> Option<Proposal>,
    ) -> Option<Proposal> {
        let how = How { beyond: self.beyond, mend: shape.mend };
        let made = make(scenario, &self.wish, &self.choices, &shape.combo, how)?;
        let problem = SearchProblem { scenario, made: &made, demands: &self.demands };
        let value = |t: &SearchLever, home: f64| {
            shape.set.iter().find(|(of, _)| same(of, t)).map_or(home, |(_, v)| *v)
        };
        let values: Vec<f64> =
            made.turns.iter().zip(problem.home()).map(|(t, home)| value(t, home)).collect();
        let turned = made.turns.iter().zip(&values).filter(|(t, v)| t.turned(**v)).count();
        (made.said.len() + turned < most).then(|| kept(&problem, &shape.combo, &values))?
    }
}

/// Whether two are of one number of one entry.
fn same(a: &SearchLever, b: &SearchLever) -> bool {
    (a.lever.lever_id, &a.lever.name) == (b.lever.lever_id, &b.lever.name)
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
            Undo::Lever(turn) => out.set.retain(|(t, _)| !same(t, turn)),
        }
        out
    }
}
