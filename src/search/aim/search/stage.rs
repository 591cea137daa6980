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
    /// What is being done, in words, and the shares of the whole that are done when it begins and when it ends. Source: measured
    /// on the demo designs, roughly.
    pub const fn told(self) -> (&'static str, f64, f64) {
        match self {
            Self::Start | Self::Screen => ("looking at what could be otherwise", 0.0, 0.2),
            Self::Lift => (TURNING, 0.2, 0.25),
            Self::Walk => (TURNING, 0.25, 0.45),
            Self::Near => (TURNING, 0.45, 0.55),
            Self::Sketch => (SURER, 0.55, 0.6),
            Self::Polish => (SURER, 0.6, 0.8),
            Self::Count => ("counting possible pots", 0.8, 0.9),
            Self::Trim => ("taking out what helps nothing", 0.9, 1.0),
            Self::Why => (BLOCKS, 0.6, 0.75),
            Self::Seed => (BLOCKS, 0.75, 1.0),
            Self::Without => (BLOCKS, 0.8, 1.0),
            Self::Done => ("done", 1.0, 1.0),
        }
    }
}

const TURNING: &str = "turning levers";
const SURER: &str = "making it surer";
const BLOCKS: &str = "finding what blocks";
