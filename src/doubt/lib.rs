//! Many possible pots: ranges, ready times, what matters.

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

pub mod influence;
pub mod kept;
pub mod matters;
pub mod ready_times;
pub mod spread;
