//! Many designs: sweep, swap, Aim.

pub mod aim;
pub mod swap;
pub mod sweep;
