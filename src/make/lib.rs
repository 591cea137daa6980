//! The design on the kitchen table: packets split, pots scaled, bases warmed, steps by the clock. Values only; `report` says
//! them.

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

pub mod clock;
pub mod packet;
pub mod scale;
pub mod warm_up;
