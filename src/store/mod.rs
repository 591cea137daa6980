//! The only module on the disk: read, atomic write, last good copy, recovery, folders.

#![allow(clippy::disallowed_methods, reason = "this is the layer that may touch the disk")]

pub mod files;
pub mod folders;
pub mod memory;
pub mod opened;
pub mod out;
pub mod recovery;
