//! Sizes of paper, and the type that fits each of them.

use potset_base::choices;
use potset_report::card::Part;

choices! {
    /// A size of paper.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
    pub enum Size: words {
        #[default]
        A4 => "A4",
        Letter => "Letter",
        A5 => "A5",
        /// A3 on its side, to be read from two metres.
        Wall => "wall",
    }
}

/// The smallest type on paper that is held, points. Source: common practice of print, 7 pt.
pub const LEAST: f64 = 7.0;

/// The smallest type on a wall, points: capitals of 1/300 of a distance of 2 m are 6.7 mm or 18.9 pt, and a capital of the
/// bundled type is 0.727 of its size. Source: common practice of signs, letters of 1/200 to 1/300 of the distance.
pub const LEAST_ON_WALL: f64 = 26.0;

impl Size {
    /// Width and height, points. Source: published, ISO 216 (A sizes) and ANSI Y14.1 (Letter).
    pub const fn points(self) -> (f64, f64) {
        match self {
            Self::A4 => (595.28, 841.89),
            Self::Letter => (612.0, 792.0),
            Self::A5 => (419.53, 595.28),
            Self::Wall => (1190.55, 841.89),
        }
    }

    /// Blank edge, points: what common printers reach.
    pub const fn margin(self) -> f64 {
        match self {
            Self::A4 | Self::Letter => 30.0,
            Self::A5 => 28.0,
            Self::Wall => 40.0,
        }
    }

    pub const fn columns(self) -> usize {
        match self {
            Self::A4 | Self::Letter | Self::Wall => 2,
            Self::A5 => 1,
        }
    }

    /// Sizes of the running type, the largest first: the largest of those with the fewest pages is taken.
    pub const fn bodies(self) -> &'static [f64] {
        match self {
            Self::A4 | Self::Letter => {
                &[13.0, 12.0, 11.0, 10.5, 10.0, 9.5, 9.0, 8.6, 8.2, 7.9, 7.6, 7.3, 7.0]
            }
            Self::A5 => &[11.0, 10.0, 9.5, 9.0, 8.5, 8.0, 7.6],
            Self::Wall => &[32.0, 29.0, LEAST_ON_WALL],
        }
    }

    pub const fn least(self) -> f64 {
        match self {
            Self::Wall => LEAST_ON_WALL,
            _ => LEAST,
        }
    }

    /// Whether it has room for a part: on a wall hangs what is done, and no more.
    pub const fn shows(self, part: Part) -> bool {
        !matches!(
            (self, part),
            (
                Self::Wall,
                Part::Kit
                    | Part::Keeping
                    | Part::Allergens
                    | Part::Nutrition
                    | Part::Cost
                    | Part::Notes
                    | Part::Cautions
            )
        )
    }
}
