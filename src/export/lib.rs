//! Bytes out: tables and, later, cards and pictures. No file is opened here.

pub mod aim;
pub mod batches;
pub mod beside;
pub mod beside_file;
pub mod beside_picture;
pub mod calendar;
pub mod calls;
pub mod csv;
pub mod evidence;
pub mod label;
pub mod layout;
pub mod pantry;
pub mod svg;
pub mod verdict;
