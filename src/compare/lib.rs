//! Designs beside each other, and what their difference comes from.

pub mod beside;
