//! Named failures with their numbers.

use std::fmt;

/// What went wrong in a numerical method.
#[derive(Clone, Debug, PartialEq)]
pub enum Error {
    /// The integrator gave up at a time, after so many steps.
    Integration { at: f64, reason: String },
    /// A root is not between the bounds.
    NoRoot { low: f64, high: f64 },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Integration { at, reason } => write!(f, "the integration stopped at {at:.2} h: {reason}"),
            Self::NoRoot { low, high } => write!(f, "no root between {low} and {high}"),
        }
    }
}

impl std::error::Error for Error {}
