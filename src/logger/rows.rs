//! What comes of a file: points, faults, and what is said of them.

use crate::told::{RowFault, Told};

/// What was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Rows {
    /// Rising in time; rows of the same time in the order of the file.
    pub points: Vec<Point>,
    /// Rows that gave no point, in the order of the file.
    pub faults: Vec<RowFault>,
    pub told: Told,
    pub times: Times,
}

/// What times count from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Times {
    /// The world's clock.
    World,
    /// The file's own start; of times of day without days, the midnight before the first row.
    SinceStart,
}

/// One row that was used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Line of the file, from 1.
    pub row: usize,
    /// Seconds since 1970 by the world's clock, or since the start; [`Rows::times`] says which.
    pub at: f64,
    /// °C.
    pub warmth_c: Option<f64>,
    pub ph: Option<f64>,
    /// Whether the temperature jumps away from those before and after, and back.
    pub spike: bool,
}
