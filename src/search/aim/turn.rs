//! A lever that may move in a search: bounds, and the settings that a maker can make, by step or by whole spoons.

use super::moves::{Beyond, Reach};
use super::want::Want;
use potset_base::measures::Measure;
use potset_doc::{Design, Pantry};
use potset_forecast::lever::{Lever, LeverId, lines};
use potset_forecast::observable::Observable;
use potset_numerics::pattern::Grid;

/// A lever with the settings it may take.
#[derive(Clone, Debug, PartialEq)]
pub struct SearchLever {
    pub lever: Lever,
    pub low: f64,
    pub high: f64,
    /// Distance of two settings, in the lever's unit.
    pub grid: f64,
    /// The settings are counted from here: nought, or the start of the maker's own range where its step is the maker's too.
    from: f64,
    /// Said in a household measure: which, and how much of the lever's unit one of it is.
    pub measure: Option<(Measure, f64)>,
    /// As the design has it; nothing where the search put it in.
    pub was: Option<f64>,
    /// It is let farther than is usual, since nothing usual reached what is wanted.
    pub widened: bool,
}

/// How many times its usual most an amount goes to where nothing usual reaches what is wanted, and its usual least the other way.
/// Source: assumed; twice what is usual is still met with in kitchens, ten times is another dish.
pub const TIMES: f64 = 2.0;

/// Settings that a household measure should at least offer before halves and quarters of it are taken. Source: assumed.
const FEWEST: f64 = 8.0;

impl SearchLever {
    /// A lever as far as it may move; nothing where its bounds leave it one setting.
    pub fn new(
        lever: Lever,
        reach: Reach,
        was: Option<f64>,
        (design, pantry): (&Design, &Pantry),
        (wants, beyond): (&[Want], Beyond),
    ) -> Option<Self> {
        let (low, high) = reach.bounds.unwrap_or_else(|| bounds(&lever, wants, beyond));
        // Bounds that were given for another design may be farther than this one's lever goes.
        let (low, high) = (low.max(lever.range.0), high.min(lever.range.1));
        let widened = reach.bounds.is_none() && (low, high) != bounds(&lever, wants, Beyond::Never);
        let by = lines::household(design, pantry, lever.lever_id).filter(|_| reach.step.is_none());
        // A range of the maker's own that holds no quarter spoon is turned by the gram.
        let by = by.filter(|(_, one)| reach.bounds.is_none() || high - low >= 0.25 * one);
        let grid = match (reach.step, by) {
            (Some(step), _) => step,
            (None, Some((_, one))) => {
                let enough = |part: &f64| (high - low) / (one * part) >= FEWEST;
                one * [1.0, 0.5, 0.25].into_iter().find(enough).unwrap_or(0.25)
            }
            (None, None) => lever.step,
        };
        // A range that is narrower than a step has its two ends as settings.
        let narrow = reach.bounds.is_some() && high - low < grid;
        let grid = if narrow { high - low } else { grid };
        let from = if narrow || reach.step.is_some() { low } else { 0.0 };
        let turn = Self { lever, low, high, grid, from, measure: by, was, widened };
        (turn.grid > 0.0 && turn.high - turn.low >= turn.grid).then_some(turn)
    }

    /// Whether a value is another than the design's.
    pub fn turned(&self, v: f64) -> bool {
        self.was.is_none_or(|was| (was - v).abs() > 1e-9)
    }

    /// Width of its usual span, in its unit; of all that it can be turned where nothing is usual.
    pub fn usual_width(&self) -> f64 {
        let (low, high) = self.lever.usual.filter(|(low, high)| high > low).unwrap_or(self.lever.range);
        (high - low).max(self.grid)
    }

    /// Whether it is how much of something is put in.
    pub const fn dose(&self) -> bool {
        dose(self.lever.lever_id)
    }

    /// The value at a place from 0 to 1 between the bounds.
    pub fn at(&self, place: f64) -> f64 {
        self.low + place.clamp(0.0, 1.0) * (self.high - self.low)
    }

    /// The place of a value.
    pub fn place(&self, value: f64) -> f64 {
        ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0)
    }

    /// The setting next to a value: a whole number of steps, or what the design has if that is as near.
    pub fn set(&self, value: f64) -> f64 {
        let was = self.was.filter(|w| (self.low..=self.high).contains(w));
        if let Some(was) = was.filter(|w| (value - w).abs() < 0.5 * self.grid) {
            return was;
        }
        let place = |v: f64| (v - self.from) / self.grid;
        let (first, last) = ((place(self.low) - 1e-9).ceil(), (place(self.high) + 1e-9).floor());
        let steps = place(value).round().clamp(first, last.max(first));
        tidy(self.from + steps * self.grid)
    }
}

impl Grid for SearchLever {
    fn width(&self) -> f64 {
        self.high - self.low
    }

    fn step(&self) -> f64 {
        self.grid
    }

    fn stepped(&self, from: f64, steps: f64) -> f64 {
        self.set((from + steps * self.grid).clamp(self.low, self.high))
    }
}

const fn dose(lever_id: LeverId) -> bool {
    matches!(lever_id, LeverId::SugarDose(_) | LeverId::ThickenerDose(_) | LeverId::AdditiveDose(_))
}

/// Whether a lever is an amount of something.
const fn amount(lever_id: LeverId) -> bool {
    dose(lever_id) || matches!(lever_id, LeverId::CultureRate(_))
}

/// A number without the dust of binary fractions.
fn tidy(v: f64) -> f64 {
    (v * 1e6).round() / 1e6
}

/// How far a lever moves where the maker says nothing: as far as is usual, doses down to none, what the design has included;
/// and beyond that as far as is let.
///
/// What is beyond the usual is looked at only where nothing usual reaches all that is wanted. Source: assumed.
pub fn bounds(lever: &Lever, wants: &[Want], beyond: Beyond) -> (f64, f64) {
    let (least, most) = lever.range;
    let far = match beyond {
        Beyond::Never => false,
        Beyond::ALittle => !amount(lever.lever_id),
        Beyond::Far => true,
    };
    let Some((usual_low, usual_high)) = lever.usual.filter(|_| !far) else { return lever.range };
    let times = if beyond == Beyond::ALittle { TIMES } else { 1.0 };
    let mut low = if dose(lever.lever_id) { least } else { usual_low / times }.min(lever.value);
    let mut high = (usual_high * times).max(lever.value);
    if lever.lever_id == LeverId::HoldHours {
        // When it is to be ready says how long it may be held.
        for want in wants {
            if let Want::Within(Observable::ReadyFrom, b) = want {
                low = low.min(b.low.or(b.high.map(|h| 0.5 * h)).unwrap_or(low));
                // From an earliest time on there must be room, or every setting that is looked at misses it.
                high =
                    high.max(b.high.map_or_else(|| b.low.map_or(high, |l| 1.5 * l), |h| h.min(1.5 * high)));
            }
        }
    }
    (low.max(least), high.min(most))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn turn(step: f64, was: Option<f64>) -> SearchLever {
        let lever = Lever {
            lever_id: LeverId::HoldTemperature,
            name: "Hold at".to_owned(),
            unit: "°C",
            value: 40.0,
            range: (15.0, 60.0),
            usual: Some((37.0, 43.0)),
            step,
            decimals: 1,
        };
        let design = potset_doc::assets::demo("coconut-pot.ron").unwrap();
        let reach = Reach { lever_id: LeverId::HoldTemperature, bounds: None, step: None };
        SearchLever::new(lever, reach, was, (&design, &Pantry::default()), (&[], Beyond::Never)).unwrap()
    }

    #[test]
    fn settings_are_whole_steps_within_the_bounds() {
        let t = turn(0.5, Some(40.2));
        assert_eq!((t.low, t.high), (37.0, 43.0));
        assert_eq!((t.set(38.26), t.set(38.24), t.set(99.0), t.set(0.0)), (38.5, 38.0, 43.0, 37.0));
        // What the design has stays where it is as near.
        assert_eq!((t.set(40.0), t.set(40.4), t.set(40.8)), (40.2, 40.2, 41.0));
        assert_eq!((t.stepped(38.0, 1.0), t.stepped(43.0, 2.0)), (38.5, 43.0));
        assert_eq!((t.at(0.5), t.place(40.0)), (40.0, 0.5));
        // A step of the maker's own begins where the range does.
        let own = Reach { lever_id: LeverId::HoldTemperature, bounds: Some((38.0, 46.0)), step: Some(3.0) };
        let design = potset_doc::assets::demo("coconut-pot.ron").unwrap();
        let t = SearchLever::new(t.lever, own, None, (&design, &Pantry::default()), (&[], Beyond::Never))
            .unwrap();
        assert_eq!((t.set(0.0), t.set(40.0), t.set(43.0), t.set(99.0)), (38.0, 41.0, 44.0, 44.0));
    }
}
