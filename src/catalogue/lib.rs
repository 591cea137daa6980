//! The pantry read: labels, pages, checks, making a base, the mixing square.

pub mod label;
pub mod making;
pub mod mixing_square;
pub mod my_pot;
pub mod pantry_check;
pub mod pantry_page;
pub mod pantry_table;
pub mod recipes;
