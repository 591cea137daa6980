//! What pots teach: a fit of all pots of a book together, the forecast ahead of a pot under way, the next reading worth
//! taking, and drift.
//!
//! **Learning.** A pot's forecast hangs on figures that are known within a spread. Each figure has a place in its spread, a
//! normal deviate; what is fitted are these places, with the spread itself as prior. So a fit never leaves what a figure
//! allows, and what was learnt is drawn in the possible pots by the same rule as before, only narrower.
//!
//! - `data` makes each reading a value, its scatter, and where it is read off a forecast.
//! - `pot` forecasts a pot's readings at places of what can be taught. Everything else that is not known of the pot (the
//!   model's figures, the maker's hand) is not fitted: what it does to the readings together, by one sigma of each, is part
//!   of their scatter. So a law that is a little out makes the readings count for less, in the ways in which it can be out.
//! - `fit` finds the places of all pots at once: what lasts with a culture, a base, a warmer or a thickener, what goes by the
//!   packet, and what is each pot's own.
//! - `book` is the whole question: batches in, what they taught out.
//! - `ahead` weighs the possible pots of a pot under way by its readings; nothing is fitted.
//! - `next` says which reading would tell most, `apart` what the readings cannot tell apart, `drift` what moves with time.

mod ahead;
mod apart;
mod book;
mod data;
mod drift;
mod equations;
mod fit;
mod next;
mod parts;
mod pot;

pub use ahead::{Ahead, CLOUD_POTS, Cloud, Range};
pub use apart::{Pair, apart};
pub use book::{
    BatchResult, Hours, Learning, Missed, SubjectResult, learn, learn_while, scenario_of, stop_of,
};
pub use data::{Datum, Seen, data};
pub use drift::{Chart, ChartPoint, Drifted, charts};
pub use equations::Input;
pub use fit::{Fitted, FittedPot, Observed, fit};
pub use next::{NextReading, next};
pub use parts::Parts;
pub use pot::{Taught, TaughtPot};
