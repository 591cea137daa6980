//! Whole files: broken ones, and all layouts written and read back.

mod broken;
mod round_trip;
