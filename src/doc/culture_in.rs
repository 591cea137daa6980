//! The temperature at which the culture goes in: what the steps before it bring the base to, and how they are moved.
//!
//! Warming cannot cool and cooling cannot warm, so the last number alone does not say where the base is. The steps that bring
//! it there are those after the last other step before the culture, heat treatment and cooking among the others; of these
//! move the ones that stand at the temperature reached, and at the last number that is written.

use super::steps::{Step, Way};

/// Numbers no farther apart than this are the same temperature, °C.
const SAME_C: f64 = 1e-6;

/// Below this cold tap water may not be cold enough, °C. Source: assumed.
const TAP_COOLS_TO_C: f64 = 25.0;

/// Where the base may be, °C: from and to. How warm it is after a stand or with a cooked part stirred in, steps do not tell.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Within(f64, f64);

impl Within {
    /// Around a base that stands in some way. Source: assumed, wide.
    const fn around(way: Way) -> Self {
        match way {
            Way::Fridge => Self(-5.0, 15.0),
            Way::IceBath => Self(0.0, 5.0),
            Way::ColdWater => Self(0.0, 35.0),
            Way::Room => Self(-10.0, 45.0),
            Way::TapWater => Self(30.0, 90.0),
            Way::Bath => Self(60.0, 100.0),
            Way::Pan => Self(60.0, 200.0),
        }
    }

    fn after(self, step: &Step) -> Self {
        let Self(low, high) = self;
        match step {
            Step::Start { from_c } => Self(*from_c, *from_c),
            Step::Warm { to_c, .. } | Step::HeatTreat { to_c, .. } => Self(low.max(*to_c), high.max(*to_c)),
            Step::Cool { to_c, .. } => Self(low.min(*to_c), high.min(*to_c)),
            Step::CookPart { to_c, .. } => Self(low.min(*to_c), high.max(*to_c)),
            Step::Stand { way, .. } => {
                let around = Self::around(*way);
                Self(low.min(around.0), high.max(around.1))
            }
            Step::CultureIn
            | Step::Hold(_)
            | Step::Chill { .. }
            | Step::Strain { .. }
            | Step::Store { .. } => self,
        }
    }

    fn sure(self) -> Option<f64> {
        (self.1 - self.0 < SAME_C).then_some(self.0)
    }
}

/// How many steps stand before the culture.
fn before(steps: &[Step]) -> usize {
    steps.iter().position(|s| *s == Step::CultureIn).unwrap_or(steps.len())
}

fn number(step: &Step) -> Option<f64> {
    match step {
        Step::Warm { to_c, .. } | Step::Cool { to_c, .. } => Some(*to_c),
        _ => None,
    }
}

fn within(steps: &[Step]) -> Within {
    // A base with no word of where it starts has stood in the room.
    steps.iter().fold(Within::around(Way::Room), Within::after)
}

/// The temperature at which the culture goes in, °C, as far as steps tell: where they leave open how warm the base comes to
/// them, the last number that they bring it to. Nothing where it is neither warmed nor cooled last of all.
pub fn temperature(steps: &[Step]) -> Option<f64> {
    let early = &steps[..before(steps)];
    let last = number(early.last()?)?;
    Some(within(early).sure().unwrap_or(last))
}

/// Moves the steps that bring the base to the temperature at which the culture goes in, by so many °C.
pub fn shift(steps: &mut [Step], by_c: f64) {
    if let Some(c) = temperature(steps) {
        put(steps, c + by_c, Some(by_c));
    }
}

/// Brings the base to a temperature at which the culture goes in. Where the steps that are there could not do so, one is added.
pub fn bring_to(steps: &mut Vec<Step>, c: f64) {
    put(steps, c, None);
    let at = before(steps);
    let Within(low, high) = within(&steps[..at]);
    if low < c - SAME_C {
        steps.insert(at, Step::Warm { to_c: c, way: Way::Bath });
    }
    if high > c + SAME_C {
        let at = before(steps);
        let way = if c < TAP_COOLS_TO_C { Way::IceBath } else { Way::ColdWater };
        steps.insert(at, Step::Cool { to_c: c, way });
    }
}

/// Puts the steps that move to a temperature; with `by_c` each by so much instead.
fn put(steps: &mut [Step], c: f64, by_c: Option<f64>) {
    let Some(reached) = temperature(steps) else { return };
    let early = before(steps);
    let last = steps[..early].last().and_then(number).unwrap_or(reached);
    for step in steps[..early].iter_mut().rev() {
        let (Step::Warm { to_c, .. } | Step::Cool { to_c, .. }) = step else { break };
        if (*to_c - reached).abs() < SAME_C || (*to_c - last).abs() < SAME_C {
            *to_c = by_c.map_or(c, |by| *to_c + by);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const START: Step = Step::Start { from_c: 20.0 };
    const HOT: Step = Step::HeatTreat { to_c: 85.0, minutes: 20.0, way: Way::Pan };
    const COOKED: Step = Step::CookPart { share: 0.25, to_c: 92.0, minutes: 3.0 };

    fn warm(to_c: f64) -> Step {
        Step::Warm { to_c, way: Way::Bath }
    }

    fn cool(to_c: f64) -> Step {
        Step::Cool { to_c, way: Way::ColdWater }
    }

    /// Steps with the culture after them, brought to a temperature.
    fn brought(steps: &[Step], c: f64) -> Vec<Step> {
        let mut all = [steps, &[Step::CultureIn]].concat();
        bring_to(&mut all, c);
        assert_eq!(all.pop(), Some(Step::CultureIn));
        assert_eq!(temperature(&all), Some(c), "{all:?}");
        assert_eq!(within(&all).sure(), Some(c), "{all:?}");
        all
    }

    #[test]
    fn the_steps_that_bring_it_there_move_and_others_stay() {
        assert_eq!(brought(&[START, warm(40.0)], 43.0), [START, warm(43.0)]);
        assert_eq!(brought(&[START, warm(92.0), cool(41.0)], 44.0), [START, warm(92.0), cool(44.0)]);
        assert_eq!(brought(&[START, HOT, cool(41.0)], 38.0), [START, HOT, cool(38.0)]);
        for c in [38.0, 44.0, 60.0] {
            assert_eq!(
                brought(&[START, COOKED, warm(41.0), cool(41.0)], c),
                [START, COOKED, warm(c), cool(c)]
            );
        }
        // The cooling is past the warming that decides: both move, or the first would be cut off.
        assert_eq!(brought(&[START, warm(40.0), cool(41.0)], 45.0), [START, warm(45.0), cool(45.0)]);
        let cooked = [START, warm(45.0), COOKED, cool(43.0)];
        assert_eq!(brought(&cooked, 42.0), [START, warm(45.0), COOKED, cool(42.0)]);
    }

    #[test]
    fn a_step_is_added_where_none_could_do_it() {
        assert_eq!(brought(&[START], 40.0), [START, warm(40.0)]);
        assert_eq!(brought(&[START, HOT], 40.0), [START, HOT, cool(40.0)]);
        // Cooling cannot warm: a cooked part may leave the base under this.
        let cooked = [START, warm(45.0), COOKED, cool(43.0)];
        assert_eq!(brought(&cooked, 50.0), [START, warm(45.0), COOKED, cool(50.0), warm(50.0)]);
        let again = brought(&brought(&cooked, 50.0), 43.0);
        assert_eq!(again, [START, warm(45.0), COOKED, cool(43.0), warm(43.0)]);
        assert_eq!(brought(&[START, warm(40.0)], 10.0).len(), 3);
    }

    #[test]
    fn what_is_read_is_where_the_base_is() {
        assert_eq!(temperature(&[START, warm(40.0), cool(41.0)]), Some(40.0));
        assert_eq!(temperature(&[START, warm(10.0)]), Some(20.0));
        assert_eq!(temperature(&[START, COOKED, cool(43.0)]), Some(43.0));
        assert_eq!(temperature(&[START, warm(40.0), COOKED]), None);
        assert_eq!(temperature(&[START]), None);
        let stood = [START, Step::Stand { hours: 24.0, way: Way::Fridge }, warm(41.0)];
        assert_eq!(brought(&stood, 43.0).len(), stood.len());
    }

    #[test]
    fn an_error_moves_both_ways() {
        for by in [-1.0, 1.0] {
            let mut steps = [START, COOKED, warm(41.0), cool(41.0), Step::CultureIn];
            shift(&mut steps, by);
            assert_eq!(within(&steps).sure(), Some(41.0 + by));
            let mut steps = [START, warm(92.0), cool(41.0)];
            shift(&mut steps, by);
            assert_eq!(steps, [START, warm(92.0), cool(41.0 + by)]);
        }
        let mut steps = [START];
        shift(&mut steps, 1.0);
        assert_eq!(steps, [START]);
    }
}
