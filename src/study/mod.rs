//! Questions asked of the model: is it ready, what will it be, what to do about it.

pub mod advice;
pub mod ask;
pub mod cautions;
pub mod evidence;
pub mod mends;
pub mod readiness;
pub mod thickeners;
pub mod verdict;

pub use ask::{Answer, Ask, answer};
pub use verdict::Verdict;
