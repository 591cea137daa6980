//! Questions asked of the model: is it ready, what will it be, what to do about it.

pub mod advice;
pub mod ask;
pub mod cautions;
pub mod evidence;
pub mod influence;
pub mod keeping;
pub mod label;
pub mod mends;
pub mod more_advice;
pub mod next_pots;
pub mod readiness;
pub mod thickeners;
pub mod verdict;

pub use ask::{Answer, Ask, answer};
pub use verdict::Verdict;
