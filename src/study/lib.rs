//! Questions asked of the model: is it ready, what will it be, what to do about it.

#![cfg_attr(
    test,
    allow(
        clippy::unwrap_used,
        clippy::expect_used,
        clippy::panic,
        clippy::float_cmp,
        clippy::disallowed_methods,
        reason = "a test may stop at the first fault and compare exactly"
    )
)]

pub mod acidity;
pub mod advice;
pub mod aim;
pub mod ask;
pub mod beside;
pub mod cautions;
pub mod evidence;
pub mod explain;
pub mod hygiene;
pub mod influence;
pub mod keeping;
pub mod label;
pub mod laboratory;
pub mod lever;
pub mod making;
pub mod matters;
pub mod measured;
pub mod mends;
pub mod more_advice;
pub mod next_pots;
pub mod numbers;
pub mod nutrition;
pub mod outcome;
pub mod pace;
pub mod pantry_advice;
pub mod pantry_check;
pub mod pantry_page;
pub mod pantry_table;
pub mod pearson;
pub mod readiness;
pub mod ready;
mod separates;
pub mod spread;
pub mod swap;
pub mod sweep;
pub mod thickeners;
pub mod validity;
pub mod verdict;

pub use ask::{Answer, Ask, answer, answer_to, answer_with};
pub use verdict::Verdict;
