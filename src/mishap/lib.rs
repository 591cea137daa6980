//! Why a pot went wrong: causes weighed by simulated pots, the next question, what to do.
//!
//! - `data` is the table of symptoms, causes and questions, `assets/mishaps.ron`.
//! - `change` makes a cause of a design: what was really done. `pots` draws possible pots with all that is not known, changes
//!   them so and forecasts them; `sign` says what a caller would see of each, `fact` what would be answered of it.
//! - `plan` finds what is wrong with the plan itself, by the judge of every design.
//! - `reason` weighs the causes: prior times how likely what was said and known is of their pots. Where one cause does not
//!   make all that was said, pots of two causes together are drawn, too.
//! - `read` reads what is typed of a call.
//! - `call` holds all of that for one call; `answer` ranks, asks next and says what to do.
//! - `next` picks the question whose answer is expected to tell most, and `mend` what of the plan is changed next time.
//!
//! Source: the weighing is Bayes' rule over simulated pots (importance weights); the question is the one of most expected
//! information (published, Lindley 1956, "On a measure of the information provided by an experiment").

mod answer;
mod call;
#[cfg(test)]
mod calls;
mod change;
mod data;
mod fact;
#[cfg(test)]
mod hand;
mod mend;
mod next;
mod plan;
mod pots;
mod read;
mod reason;
mod sign;

pub use answer::{Chance, Next, RankedCause, Ranking, ThrowAway, WhatToDo};
pub use call::{Mishap, MishapCase};
pub use data::{Asked, Cause, FactKind, FactRow, MishapTable, Symptom, SymptomRow, data};
pub use fact::{Fact, FactValue};
pub use next::Question;
