//! Whole behaviours: published checks, fixtures, properties, files and faults, the interface.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::float_cmp,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a test may stop at the first fault, read files and look at the clock"
)]

mod aim;
mod batches;
mod because;
mod beside;
mod book;
mod calendar;
mod card;
mod class;
mod cli;
mod coarse;
mod cold_store;
mod continuity;
mod data;
mod evidence;
mod explain;
mod export;
mod files;
mod fixtures;
mod history;
mod hygiene;
mod influence;
mod judgement;
mod label;
mod layers;
mod learn;
mod levers;
mod logger;
mod lost;
mod matters;
mod measured;
mod measures;
mod mishap;
mod must_show;
mod pantry;
mod pantry_view;
mod properties;
mod published;
mod ready;
mod recipes;
mod reference;
mod same;
mod spread;
mod support;
mod swap;
mod sweep;
mod ui;
mod us_kitchen;
mod words;
