//! The strips of the sheet: their order, names, units, shares of the height, ranges and ticks.

use potset_base::units::{self, Scale, WARMTH};
use potset_base::{choices, number};
use potset_doc::settings::Depth;
use potset_doubt::spread::Curve;
use potset_explain::Reading;

choices! {
    /// One strip, in drawing order.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Kind: name {
        Sourness => "Sourness",
        Acid => "Acid made",
        Sugar => "Sugar left",
        Texture => "Texture",
        Culture => "Culture",
        Warmth => "Warmth",
    }
}

/// How many strips there are.
pub const COUNT: usize = Kind::ALL.len();

/// The least distance between two tick labels, points.
const TICK_ROOM: f32 = 20.0;

impl Kind {
    /// Those of a depth.
    pub const fn shown(self, depth: Depth) -> bool {
        matches!(depth, Depth::Details) || matches!(self, Self::Sourness | Self::Sugar | Self::Texture)
    }

    pub const fn index(self) -> usize {
        self as usize
    }

    /// The value that its title row reads.
    pub const fn reading(self) -> Reading {
        match self {
            Self::Sourness => Reading::Ph,
            Self::Acid => Reading::AcidMade,
            Self::Sugar => Reading::SugarLeft,
            Self::Texture => Reading::ViscosityChilled,
            Self::Culture => Reading::Count(0),
            Self::Warmth => Reading::Temperature,
        }
    }

    /// The curve whose band it shows: that of its first trace.
    pub const fn curve(self) -> Curve {
        match self {
            Self::Sourness => Curve::Ph,
            Self::Acid => Curve::AcidMade,
            Self::Sugar => Curve::Sugar,
            Self::Texture => Curve::Chilled,
            Self::Culture => Curve::Count(0),
            Self::Warmth => Curve::Warmth,
        }
    }

    /// The key that is saved when a strip is folded.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Sourness => "sourness",
            Self::Acid => "acid",
            Self::Sugar => "sugar",
            Self::Texture => "texture",
            Self::Culture => "culture",
            Self::Warmth => "warmth",
        }
    }

    /// In the plain depth texture is read in words: what stands for its unit is when it is so thick.
    pub const fn unit(self, depth: Depth) -> &'static str {
        match self {
            Self::Texture if matches!(depth, Depth::Plain) => "",
            Self::Sourness => "pH",
            Self::Acid => "% lactic",
            Self::Sugar => "g/L",
            Self::Texture => "Pa·s at 50 1/s",
            Self::Culture => "log cfu/g",
            Self::Warmth => WARMTH,
        }
    }

    /// Its share of the height that is left over.
    pub const fn weight(self) -> f32 {
        match self {
            Self::Sourness => 1.5,
            Self::Acid => 0.6,
            Self::Sugar => 1.2,
            Self::Texture => 1.6,
            Self::Culture => 0.8,
            Self::Warmth => 0.2,
        }
    }

    /// Whether the strip plots the logarithm of its quantity.
    pub const fn logarithmic(self) -> bool {
        matches!(self, Self::Texture)
    }

    /// Ends that the range may have, so that it changes in steps only.
    const fn ends(self) -> (&'static [f64], &'static [f64]) {
        match self {
            Self::Sourness => (&[3.5, 3.0, 2.0], &[7.0, 8.0, 9.0, 14.0]),
            Self::Acid => (&[0.0], &[0.8, 1.2, 1.6, 2.4, 4.0, 8.0]),
            Self::Sugar => (&[0.0], &[10.0, 20.0, 30.0, 40.0, 60.0, 100.0, 150.0, 200.0, 400.0, 1000.0]),
            Self::Texture => (&[0.003, 0.001, 0.0003], &[10.0, 100.0]),
            Self::Culture => (&[4.0, 2.0, 0.0], &[10.0, 12.0]),
            Self::Warmth => (&[20.0, 0.0], &[45.0, 60.0, 100.0]),
        }
    }

    /// The range in plotted units that holds `low` and `high` (plotted units too).
    pub fn range(self, low: f64, high: f64) -> (f64, f64) {
        let plotted = |end: f64| if self.logarithmic() { end.log10() } else { end };
        let (lows, highs) = self.ends();
        let reach = |ends: &[f64], fits: &dyn Fn(f64) -> bool| {
            let mut ends = ends.iter().map(|end| plotted(*end));
            let widest = ends.clone().next_back().unwrap_or(0.0);
            ends.find(|end| fits(*end)).unwrap_or(widest)
        };
        let mut from = reach(lows, &|end| end <= low || low.is_nan());
        let mut to = reach(highs, &|end| end >= high || high.is_nan());
        if self == Self::Warmth && (from < 20.0 || to > 45.0) {
            // Warmth goes in pairs: 20-45, 0-60, 0-100.
            from = 0.0;
            to = to.max(60.0);
        }
        (from, to)
    }

    /// The steps that ticks may have, in plotted units as they are said here.
    const fn steps(self, fahrenheit: bool) -> &'static [f64] {
        match self {
            Self::Warmth if fahrenheit => &[20.0, 40.0, 80.0],
            Self::Sourness | Self::Texture => &[1.0, 2.0, 4.0],
            Self::Acid => &[0.2, 0.4, 0.8, 1.6, 4.0],
            Self::Sugar => &[5.0, 10.0, 20.0, 50.0, 100.0, 200.0],
            Self::Culture => &[1.0, 2.0, 3.0, 6.0],
            Self::Warmth => &[10.0, 20.0, 40.0],
        }
    }

    /// How its plotted numbers are said here.
    fn scale(self) -> Scale<'static> {
        units::scale(self.unit(Depth::Details))
    }

    /// Places of the ticks in plotted units, as many as there is room for, at numbers that are round as they are said.
    pub fn ticks(self, (from, to): (f64, f64), height: f32) -> impl Iterator<Item = f64> {
        let scale = self.scale();
        let (from, to) = (scale.shown(from), scale.shown(to));
        let per_unit = f64::from(height) / (to - from);
        let enough = |step: &&f64| **step * per_unit >= f64::from(TICK_ROOM);
        let steps = self.steps(scale.other());
        let step = steps.iter().find(enough).or(steps.last()).copied().unwrap_or(1.0);
        let first = (from / step - 1e-6).ceil();
        let count = ((to / step + 1e-6).floor() - first).clamp(0.0, 50.0);
        (0..=50_u32)
            .map(f64::from)
            .take_while(move |k| *k <= count)
            .map(move |k| scale.back((first + k) * step))
    }

    /// The number at a tick.
    pub fn tick_text(self, at: f64) -> String {
        if self.logarithmic() {
            number::plain(10_f64.powf(at))
        } else {
            number::plain((self.scale().shown(at) * 1e6).round() / 1e6)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::units::{Degrees, Units};

    #[test]
    fn ranges_change_in_steps_only() {
        assert_eq!(Kind::Sourness.range(4.0, 6.4), (3.5, 7.0));
        assert_eq!(Kind::Sugar.range(0.0, 27.0), (0.0, 30.0));
        assert_eq!(Kind::Sugar.range(0.0, 30.1), (0.0, 40.0));
        assert_eq!(Kind::Warmth.range(5.0, 40.0), (0.0, 60.0));
        assert_eq!(Kind::Warmth.range(30.0, 43.0), (20.0, 45.0));
        assert_eq!(Kind::Culture.range(f64::NAN, f64::NAN), (4.0, 10.0));
    }

    #[test]
    fn ticks_keep_their_distance() {
        let ticks = |kind: Kind, range, height| kind.ticks(range, height).collect::<Vec<_>>();
        assert_eq!(ticks(Kind::Sourness, (3.5, 7.0), 120.0), [4.0, 5.0, 6.0, 7.0]);
        assert_eq!(ticks(Kind::Sugar, (0.0, 30.0), 100.0), [0.0, 10.0, 20.0, 30.0]);
        assert_eq!(ticks(Kind::Warmth, (20.0, 45.0), 42.0), [20.0, 40.0]);
        {
            let _speaking = units::speak(Units { degrees: Degrees::Fahrenheit, ..Units::default() });
            let texts: Vec<_> = Kind::Warmth
                .ticks((20.0, 45.0), 48.0)
                .map(|at| (Kind::Warmth.tick_text(at), (at * 10.0).round()))
                .collect();
            assert_eq!(texts, [("80".to_owned(), 267.0), ("100".to_owned(), 378.0)]);
        }
        let decades = ticks(Kind::Texture, Kind::Texture.range(-2.0, 0.5), 120.0);
        let texts: Vec<_> = decades.into_iter().map(|at| Kind::Texture.tick_text(at)).collect();
        assert_eq!(texts, ["0.01", "0.1", "1", "10"]);
    }
}
