//! Where every value on the screen comes from: by which laws, and on which cited numbers it rests.

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

pub mod basis;
pub mod laboratory;
mod law;
pub mod reading;

pub use law::Law;
pub use reading::Reading;
