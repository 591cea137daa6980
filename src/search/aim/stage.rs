//! The parts of a search, and how much of the whole is done when each begins.

/// The parts of a search, one after the other.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    #[default]
    Start,
    Screen,
    Lift,
    Walk,
    Near,
    Sketch,
    Polish,
    Count,
    Trim,
    Why,
    Seed,
    Without,
    Done,
}

impl Stage {
    /// The shares of the whole that are done when it begins and when it ends. Source: measured on the demo designs, roughly.
    pub const fn shares(self) -> (f64, f64) {
        match self {
            Self::Start | Self::Screen => (0.0, 0.2),
            Self::Lift => (0.2, 0.25),
            Self::Walk => (0.25, 0.45),
            Self::Near => (0.45, 0.55),
            Self::Sketch => (0.55, 0.6),
            Self::Polish => (0.6, 0.8),
            Self::Count => (0.8, 0.9),
            Self::Trim => (0.9, 1.0),
            Self::Why => (0.6, 0.75),
            Self::Seed => (0.75, 1.0),
            Self::Without => (0.8, 1.0),
            Self::Done => (1.0, 1.0),
        }
    }
}
