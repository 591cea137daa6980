//! What comes of a pot, read off its run or its answer; and which differences between pots a person notices.

use crate::answer::Answer;
use crate::nutrition::{Nutrition, nutrition};
use crate::readiness::{self, Goal, goals_of};
use crate::ready::shown_h;
use crate::verdict::sweetness;
use potset_base::words::TextureWord;
use potset_forecast::observable::{COUNT, Observable};
use potset_forecast::scenario::{Run, Scenario};

/// All that comes of a pot; nothing where it never comes there, or where it is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Outcomes {
    values: [Option<f64>; COUNT],
    /// It is a gel that a spoon cuts, as it is eaten.
    cuts: bool,
}

impl Outcomes {
    /// Reads them off a run.
    pub fn of(scenario: &Scenario<'_>, run: &Run) -> Self {
        let mut out = Self::of_curves(run, &goals_of(scenario, run));
        let table = nutrition(&run.facts.content, &run.mix, &run.forecast, scenario.design.pots.serving_g);
        out.eaten(&table);
        out
    }

    /// Puts in what the table of what is eaten tells.
    pub fn eaten(&mut self, table: &Nutrition) {
        let mut put = |outcome: Observable, value| self.values[outcome.index()] = value;
        put(Observable::Energy, Some(table.after.kilojoules()));
        put(Observable::Cost, table.cost.whole().then_some(table.cost.per_kg));
        put(Observable::Fat, Some(table.after.fat));
    }

    /// Those that the curves tell, of a run with its goals: all but what is read off the table of what is eaten.
    pub fn of_curves(run: &Run, goals: &[Goal]) -> Self {
        let f = &run.forecast;
        let stop_h = run.mix.stop_h;
        let at = |ys: &[f64]| f.value(ys, stop_h);
        let window = readiness::window(&f.t, goals, stop_h);
        let chilled = f.textures(stop_h).map(|(_, chilled)| chilled);
        let whey = chilled.map(|chilled| chilled.whey.standing);
        let mut out = Self { cuts: chilled.is_some_and(|chilled| chilled.cut), ..Self::default() };
        for outcome in Observable::ALL {
            out.values[outcome.index()] = match outcome {
                Observable::SourAt => f.time_to_ph(run.mix.laws.ready.acid_line_ph),
                Observable::ReadyFrom => window.as_ref().map(|w| w.from_h),
                Observable::Ph => Some(at(&f.ph)),
                Observable::Tang => Some(at(&f.undissociated)),
                Observable::SugarLeft => Some(f.sugars_at(stop_h).map(|g| g * f.density).iter().sum()),
                Observable::Sweetness => Some(sweetness(run, stop_h)),
                Observable::Texture => Some(at(&f.chilled.viscosity50)),
                Observable::Stiffness => Some(at(&f.chilled.stiffness_pa)),
                Observable::Whey => whey,
                Observable::ThinLayer => chilled.map(|chilled| chilled.thin_layer),
                Observable::Energy | Observable::Cost | Observable::Fat => None,
            };
        }
        out
    }

    /// Reads them off an answer; none where there is no forecast.
    pub fn of_answer(a: &Answer) -> Self {
        let mut out = Self::default();
        if !a.errors.is_empty() {
            return out;
        }
        let v = &a.verdict;
        let (tang, texture) = (v.tang.as_ref(), v.texture.as_ref());
        out.cuts = texture.is_some_and(|t| t.word == TextureWord::Cuts);
        for outcome in Observable::ALL {
            out.values[outcome.index()] = match outcome {
                Observable::SourAt => tang.and_then(|t| t.line_h),
                Observable::ReadyFrom => match &a.ready {
                    Some(ready) => ready.half_h.map(shown_h),
                    None => v.window.as_ref().map(|w| w.from_h),
                },
                Observable::Ph => tang.map(|t| t.ph),
                Observable::Tang => tang.map(|t| t.undissociated),
                Observable::SugarLeft => v.sugar.as_ref().map(|s| s.left),
                Observable::Sweetness => tang.map(|t| t.sucrose_equivalents),
                Observable::Texture => texture.map(|t| t.chilled),
                Observable::Stiffness => texture.map(|t| t.stiffness_pa),
                Observable::Whey => texture.map(|t| t.whey_standing),
                Observable::ThinLayer => texture.map(|t| t.thin_layer),
                Observable::Energy | Observable::Cost | Observable::Fat => None,
            };
        }
        out.eaten(&a.nutrition);
        out
    }

    /// One of them.
    pub const fn get(&self, outcome: Observable) -> Option<f64> {
        self.values[outcome.index()]
    }

    /// The outcome by whose step the difference of one to another pot is noticed.
    pub const fn led_by(&self, other: &Self, outcome: Observable) -> Observable {
        outcome.led_by(self.cuts || other.cuts)
    }

    /// Whether it is a gel that a spoon cuts, as it is eaten.
    pub const fn cuts(&self) -> bool {
        self.cuts
    }

    /// How many steps lie between two pots, by what leads; endless where only one comes there.
    pub fn steps_to(&self, other: &Self, outcome: Observable) -> f64 {
        let by = self.led_by(other, outcome);
        match (self.get(by), other.get(by)) {
            (Some(a), Some(b)) => by.steps_between(a, b).abs(),
            (None, None) => 0.0,
            // A cost that is not known is no cost that differs.
            _ if outcome == Observable::Cost => 0.0,
            _ => f64::INFINITY,
        }
    }

    /// Whether two pots differ by a step or more: to whoever eats them, or on paper.
    pub fn differs(&self, other: &Self, outcome: Observable) -> bool {
        self.steps_to(other, outcome) >= 1.0
    }

    /// Whether a person who has both pots notices this difference; what only one comes to is noticed.
    pub fn notices(&self, other: &Self, outcome: Observable) -> bool {
        outcome.on_paper().is_none() && self.differs(other, outcome)
    }
}

/// Whether any two of many pots differ by a step or more.
pub fn differ_among(pots: &[&Outcomes], outcome: Observable) -> bool {
    let (cut, whole): (Vec<&Outcomes>, Vec<&Outcomes>) = pots.iter().copied().partition(|p| p.cuts);
    // The farthest lie at the ends, by whichever outcome leads: looking at those is enough, however many there are.
    let ends: Vec<&Outcomes> = [&cut, &whole]
        .into_iter()
        .flat_map(|pots| [false, true].map(|cuts| ends(pots, outcome.led_by(cuts))))
        .flatten()
        .collect();
    ends.iter().any(|a| ends.iter().any(|b| a.differs(b, outcome)))
}

/// Pots with the least and the greatest value, and one that never comes there.
fn ends<'a>(pots: &[&'a Outcomes], by: Observable) -> Vec<&'a Outcomes> {
    let value = |p: &&Outcomes| p.get(by).unwrap_or(f64::NAN);
    let there: Vec<&'a Outcomes> = pots.iter().copied().filter(|p| p.get(by).is_some()).collect();
    let least = there.iter().copied().min_by(|a, b| value(a).total_cmp(&value(b)));
    let most = there.iter().copied().max_by(|a, b| value(a).total_cmp(&value(b)));
    let never = pots.iter().copied().find(|p| p.get(by).is_none());
    least.into_iter().chain(most).chain(never).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pot(values: &[(Observable, f64)], cuts: bool) -> Outcomes {
        let mut out = Outcomes { cuts, ..Outcomes::default() };
        for (outcome, v) in values {
            out.values[outcome.index()] = Some(*v);
        }
        out
    }

    #[test]
    fn acid_leads_the_ph() {
        let a = pot(&[(Observable::Ph, 4.3), (Observable::Tang, 20.0)], false);
        let lower = pot(&[(Observable::Ph, 4.1), (Observable::Tang, 20.6)], false);
        let tangier = pot(&[(Observable::Ph, 4.29), (Observable::Tang, 30.0)], false);
        for (other, noticed) in [(lower, false), (tangier, true)] {
            assert_eq!(a.notices(&other, Observable::Ph), noticed);
            assert_eq!(a.notices(&other, Observable::Tang), noticed);
        }
    }

    #[test]
    fn thickness_leads_but_where_a_spoon_cuts() {
        let values = |thick: f64, stiff: f64| [(Observable::Texture, thick), (Observable::Stiffness, stiff)];
        for (cuts, noticed) in [(false, false), (true, true)] {
            let (a, b) = (pot(&values(2.0, 500.0), cuts), pot(&values(2.1, 900.0), false));
            for outcome in [Observable::Texture, Observable::Stiffness] {
                assert_eq!(a.notices(&b, outcome), noticed);
                assert_eq!(b.notices(&a, outcome), noticed);
                assert_eq!(differ_among(&[&a, &b], outcome), noticed);
            }
        }
    }

    #[test]
    fn what_is_read_is_never_noticed() {
        let a = pot(&[(Observable::Energy, 100.0), (Observable::Cost, 1.0)], false);
        let b = pot(&[(Observable::Energy, 900.0), (Observable::Cost, 9.0)], false);
        for outcome in [Observable::Energy, Observable::Cost] {
            assert!(!a.notices(&b, outcome) && a.differs(&b, outcome));
        }
        assert_eq!(
            Observable::Energy.difference_line(Some(800.0), false, ", "),
            "+800\u{a0}kJ/100 g, on the label"
        );
        assert_eq!(Observable::Cost.notice_words(None, false), "");
    }

    #[test]
    fn what_only_one_comes_to_is_noticed() {
        let (a, b) = (pot(&[(Observable::SourAt, 8.0)], false), pot(&[], false));
        assert!(a.notices(&b, Observable::SourAt) && differ_among(&[&a, &b], Observable::SourAt));
        assert!(!b.notices(&b, Observable::SourAt));
        assert_eq!(Observable::SourAt.difference_line(None, true, " · "), "you would notice");
    }
}
