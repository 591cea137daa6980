//! The program without a screen: state, commands, a pure update, effects, and the queue of jobs.
//!
//! Invariant: `update` touches no disk, clock or thread; whatever must be done outside comes back as effects.

pub mod action;
pub mod aims;
pub mod batches;
pub mod book;
pub mod card;
pub mod class;
pub mod clock;
pub mod columns;
pub mod command;
pub mod effect;
pub mod jobs;
pub mod mishap;
pub mod recipes;
pub mod runner;
pub mod session;
pub mod shelves;
pub mod state;
pub mod sweeps;
pub mod update;

pub use action::Action;
pub use command::Command;
pub use runner::AppRunner;
pub use state::State;
