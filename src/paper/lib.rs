//! Cards and leaflets on paper: how a sheet lies on pages, the pages as PDF, PNG and SVG, and the same as text and table.
//!
//! A sheet becomes pieces ([`piece`], [`blocks`], [`chart`]) that are never parted, pieces flow into columns and pages
//! ([`pages()`]), and a page is a drawing of `export::svg`: one drawing for all forms, so that they cannot differ.

mod blocks;
mod chart;
mod form;
mod head;
mod labels;
mod markdown;
mod pages;
mod pdf;
mod piece;
mod size;
mod table;

pub use form::{Form, numbered};
pub use labels::labels;
pub use markdown::markdown as text;
pub use pages::pages;
pub use pdf::pdf;
pub use size::Size;
