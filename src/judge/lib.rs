//! Reads a run: hygiene, readiness, verdict, advice with mends, nutrition, cost.

pub mod advice;
pub mod advise;
pub mod answer;
pub mod hygiene;
pub mod judging;
pub mod keeping;
pub mod mends;
pub mod more_advice;
pub mod next_pots;
pub mod nutrition;
pub mod outcomes;
pub mod pace;
pub mod pantry_advice;
pub mod readiness;
pub mod ready;
pub mod separates;
pub mod thickeners;
pub mod validity;
pub mod verdict;
