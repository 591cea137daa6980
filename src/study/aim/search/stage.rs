//! The parts of a search: what each does, in words, and how much of the whole is done when it begins.

/// The parts of a search, one after the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
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
    /// What is being done, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Start | Self::Screen => "looking at what could be otherwise",
            Self::Lift | Self::Walk | Self::Near => "turning levers",
            Self::Sketch | Self::Polish => "making it surer",
            Self::Count => "counting possible pots",
            Self::Trim => "taking out what helps nothing",
            Self::Why | Self::Seed | Self::Without => "finding what blocks",
            Self::Done => "done",
        }
    }

    /// Share of the whole that is done when a stage begins. Source: measured on the demo designs, roughly.
    pub const fn begins(self) -> f64 {
        match self {
            Self::Start | Self::Screen => 0.0,
            Self::Lift => 0.2,
            Self::Walk => 0.25,
            Self::Near => 0.45,
            Self::Sketch => 0.55,
            Self::Polish | Self::Why => 0.6,
            Self::Seed => 0.75,
            Self::Count | Self::Without => 0.8,
            Self::Trim => 0.9,
            Self::Done => 1.0,
        }
    }

    /// The stage that follows where all goes well.
    pub const fn next(self) -> Self {
        match self {
            Self::Start | Self::Screen => Self::Lift,
            Self::Lift => Self::Walk,
            Self::Walk => Self::Near,
            Self::Near => Self::Sketch,
            Self::Sketch => Self::Polish,
            Self::Polish => Self::Count,
            Self::Count => Self::Trim,
            Self::Why => Self::Seed,
            _ => Self::Done,
        }
    }
}
