//! What a sweep is asked: one lever or two, each from a value to another in so many points.

use potset_base::{Note, number, units};
use potset_forecast::lever::{Lever, LeverId};

/// Points that an axis may have.
pub const POINTS: std::ops::RangeInclusive<usize> = 2..=240;

/// A lever from a value to another.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    lever: Lever,
    from: f64,
    to: f64,
    points: usize,
}

impl Axis {
    /// An axis within the reach of its lever.
    ///
    /// # Errors
    /// A note on what is no number, reversed, empty, out of reach, or too few or too many points.
    pub fn new(lever: Lever, from: f64, to: f64, points: usize) -> Result<Self, Note> {
        let (low, high) = lever.range;
        let reach = format!("Give values from {} to {}", lever.words(low), lever.words(high));
        let fault = |title: String, mend: String| Err(Note::error(lever.name.clone(), title, mend));
        if !from.is_finite() || !to.is_finite() {
            return fault("This is not a number".to_owned(), reach);
        }
        if from >= to {
            let title = format!("{} to {} is no range", lever.words(from), lever.words(to));
            return fault(title, "Give the smaller value first, and another one as the end".to_owned());
        }
        if from < low || to > high {
            let title = format!("The lever does not go from {} to {}", lever.words(from), lever.words(to));
            return fault(title, reach);
        }
        if !POINTS.contains(&points) {
            let mend = format!("Give {} to {} points", POINTS.start(), POINTS.end());
            return fault(format!("{points} points are too few or too many"), mend);
        }
        Ok(Self { lever, from, to, points })
    }

    pub const fn lever(&self) -> &Lever {
        &self.lever
    }

    /// From and to.
    pub const fn span(&self) -> (f64, f64) {
        (self.from, self.to)
    }

    pub const fn points(&self) -> usize {
        self.points
    }

    /// Distance of two points.
    fn spacing(&self) -> f64 {
        (self.to - self.from) / (self.points - 1) as f64
    }

    /// Decimals that the axis shows: those of the lever, or as many as tell its points apart.
    pub fn decimals(&self) -> usize {
        tells_apart(self.lever.decimals, self.spacing())
    }

    /// The value of a point, just as the axis shows it.
    pub fn value(&self, i: usize) -> f64 {
        let scale = 10.0_f64.powi(i32::try_from(self.decimals()).unwrap_or(9));
        ((self.from + i as f64 * self.spacing()) * scale).round() / scale
    }

    /// The value of a point with its unit, as it is said here.
    pub fn words(&self, i: usize) -> String {
        let scale = units::scale(self.lever.unit);
        let apart = scale.shown(self.spacing()) - scale.shown(0.0);
        let decimals = tells_apart(scale.decimals(self.lever.decimals), apart);
        let text = number::fixed(scale.shown(self.value(i)), decimals);
        if scale.unit.is_empty() { text } else { format!("{text}{}{}", number::NBSP, scale.unit) }
    }

    /// Where a value lies, in points from the first one.
    pub fn place(&self, value: f64) -> f64 {
        (value - self.from) / self.spacing()
    }

    /// The point nearest to a value; nothing for one that lies outside by more than half a point.
    pub fn nearest(&self, value: f64) -> Option<usize> {
        let place = (self.place(value) + 1e-9).round();
        (place >= 0.0).then_some(place as usize).filter(|i| *i < self.points)
    }
}

/// As many decimals as tell points apart, the usual ones at least.
fn tells_apart(usual: usize, spacing: f64) -> usize {
    let apart = |d: &usize| 10.0_f64.powi(-i32::try_from(*d).unwrap_or(9)) <= 0.5 * spacing;
    (usual..9).find(apart).unwrap_or(9)
}

/// One axis or two.
#[derive(Clone, Debug, PartialEq)]
pub struct SweepAsk {
    pub x: Axis,
    pub y: Option<Axis>,
}

impl SweepAsk {
    /// A sweep along one lever, or over two.
    ///
    /// # Errors
    /// A note where both are the same lever.
    pub fn new(x: Axis, y: Option<Axis>) -> Result<Self, Note> {
        if y.as_ref().is_some_and(|y| y.lever.lever_id == x.lever.lever_id) {
            return Err(Note::error(
                x.lever.name,
                "Both directions turn the same lever",
                "Pick another lever for one of them, or sweep one alone",
            ));
        }
        Ok(Self { x, y })
    }

    /// Points along both; one up where there is only one lever.
    pub fn size(&self) -> (usize, usize) {
        (self.x.points, self.y.as_ref().map_or(1, |y| y.points))
    }

    /// Whether a lever is among the axes.
    pub fn turns(&self, lever_id: LeverId) -> bool {
        self.x.lever.lever_id == lever_id || self.y.as_ref().is_some_and(|y| y.lever.lever_id == lever_id)
    }

    /// What is turned at a point, and to what.
    pub fn knobs(&self, ix: usize, iy: usize) -> Vec<(LeverId, f64)> {
        let along = |axis: &Axis, i| (axis.lever.lever_id, axis.value(i));
        std::iter::once(along(&self.x, ix)).chain(self.y.as_ref().map(|y| along(y, iy))).collect()
    }

    /// A point in words: "Hold at 41.0 °C, Rice starch 14.0 g/L".
    pub fn words(&self, ix: usize, iy: usize) -> String {
        let along = |axis: &Axis, i| format!("{} {}", axis.lever.name, axis.words(i));
        let y = self.y.as_ref().map_or_else(String::new, |y| format!(", {}", along(y, iy)));
        along(&self.x, ix) + &y
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lever() -> Lever {
        Lever {
            lever_id: LeverId::HoldTemperature,
            name: "Hold at".to_owned(),
            unit: "°C",
            value: 40.0,
            range: (15.0, 60.0),
            usual: None,
            step: 0.5,
            decimals: 1,
        }
    }

    #[test]
    fn bad_spans_are_told() {
        let fault = |from, to, points| Axis::new(lever(), from, to, points).unwrap_err();
        assert!(fault(45.0, 36.0, 10).title.contains("no range"));
        assert!(fault(36.0, 36.0, 10).title.contains("no range"));
        assert!(fault(5.0, 36.0, 10).mend.contains("15.0"));
        assert!(fault(36.0, 70.0, 10).mend.contains("60.0"));
        assert!(fault(f64::NAN, 40.0, 10).title.contains("not a number"));
        assert!(fault(36.0, 40.0, 1).mend.contains("points") && fault(36.0, 40.0, 900).field == "Hold at");
        let x = Axis::new(lever(), 36.0, 46.0, 11).unwrap();
        assert!(SweepAsk::new(x.clone(), Some(x)).unwrap_err().title.contains("same lever"));
    }

    #[test]
    fn points_are_told_apart_and_show_what_they_are() {
        let axis = Axis::new(lever(), 40.0, 41.0, 60).unwrap();
        let all: Vec<f64> = (0..60).map(|i| axis.value(i)).collect();
        assert!(all.windows(2).all(|p| p[1] > p[0]));
        assert_eq!((all[0], all[59]), (40.0, 41.0));
        for (i, v) in all.iter().enumerate() {
            let shown: f64 = axis.words(i).split('\u{a0}').next().unwrap().parse().unwrap();
            assert_eq!(shown, *v);
            assert_eq!(axis.nearest(*v), Some(i));
        }
        assert_eq!((axis.nearest(39.9), axis.nearest(41.1)), (None, None));
    }
}
