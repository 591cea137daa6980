//! Potset: what a pot of cultured yogurt will be, before it is made.
//!
//! One direction: a **design**, the **pantry**, the **kitchen** and what was **learnt** compile into a **mix**; the
//! model runs the mix into a **forecast**; the **verdict** reads it against the maker's goals; the screen draws it.
//! Changes go back only as commands.
//!
//! The layers and what each may import are held by `tests/it/layers.rs`; DEVELOPERS.md is the map.

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

pub mod app;
pub mod base;
pub mod cli;
pub mod compile;
pub mod doc;
pub mod export;
pub mod numerics;
pub mod science;
pub mod store;
pub mod study;
pub mod ui;
