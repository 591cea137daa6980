//! Files of loggers of temperature and pH: bytes in, points out. Pure: no disk, no clock, the zone is handed in.
//!
//! [`guess()`] says how a file is most likely to be read, a person corrects the [`Layout`] beside its [`preview()`], and [`read()`]
//! makes points of it. A row is one line of the file, whatever marks its end: an open quotation mark spoils its own row and
//! no other. That is why rows are not parted by the crate `csv`, for which a quoted cell may run over many lines. Each row
//! comes to be a point, a fault, a title or a blank row, and nothing else.

mod cells;
mod course;
mod guess;
mod layout;
mod number;
mod odd;
mod places;
mod preview;
mod read;
mod rows;
mod text;
mod thin;
mod time;
mod told;
mod vocabulary;

#[cfg(test)]
mod whole_files;

pub use course::{Begin, course, ph_course};
pub use guess::guess;
pub use layout::{DayOrder, Decimal, Delimiter, Doubt, Layout, Role};
pub use preview::{PREVIEW_ROWS, Preview, preview};
pub use read::read;
pub use rows::{Point, Rows, Times};
pub use thin::thin;
pub use told::{Fault, Odd, Oddity, RowFault, Told};
