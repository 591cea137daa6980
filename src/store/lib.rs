//! The only module on the disk: read, atomic write, last good copy, recovery, folders.
//!
//! # Nothing lost
//!
//! - **Paths** (`ui/dialogs/paths.rs`). The dialog library answers nothing both for *cancelled* and for *there is no dialog*. So
//!   a path is always asked on a page of our own (typed, or picked from its folder), and the system's dialog is a button on
//!   it whose empty answer only leads back. Nothing hangs on time. A save is never barred, and ends in `State::said` (where to)
//!   or in a notice.
//! - **Files** (`store/files/whole.rs`). Temporary file, synced, renamed, folder synced; the last good copy the same way, and not
//!   where the file holds the same bytes already. A temporary file is locked while it is written, so that one that is not
//!   locked is of a writer that died, and is swept by the next write to the folder. `Over::Same(stamp)` writes only over the
//!   file that is known, and holds the old file locked from the look to the rename.
//! - **Recovery** (`store/recovery.rs`). A folder for each window under `recovery/`, locked while the window lives; a copy for each
//!   session by its number, with path and stamp (`doc::Unsaved`). A folder that can be locked is of a window that was killed:
//!   it is offered, one design at a time, and goes only when ours is on the disk or the maker threw it away.
//! - **The maker's pantry** (`store/memory.rs`, `doc/own/merge.rs`). What was read or written last is the base; before each write
//!   the file is read again and merged entry by entry. Broken content is set aside under `.bad-1`, `.bad-2` and so on, by the
//!   window alone; what is newer or cannot be read is not written over.
//! - **The batch book** (`store/book.rs`). A change of a batch is made to its file as it is now, and once more where another
//!   window or `potset log` wrote it in between.
//! - **Outside changes.** The worker looks at the open file every two seconds while it has nothing to do, and wakes the screen
//!   only when it is another one.
//! - `POTSET_KILLS=300 cargo test --test it lost::kills -- --nocapture` kills two programs at work and prints what came of it.

#![allow(clippy::disallowed_methods, reason = "this is the crate that may touch the disk")]

pub mod book;
pub mod files;
pub mod folders;
pub mod lessons;
pub mod library;
pub mod memory;
pub mod opened;
pub mod out;
pub mod recovery;
pub mod viewer;
pub mod zone;
