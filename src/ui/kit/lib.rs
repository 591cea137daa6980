//! What every view is drawn with: colours and sizes, type, theme, widgets, and a painter without a screen.

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

pub mod fonts;
pub mod painter;
pub mod theme;
pub mod tokens;
pub mod widgets;
