//! The first rows of a file as a layout parts them, to be looked at while columns are chosen.

use std::borrow::Cow;

use crate::cells::split;
use crate::layout::Layout;
use crate::text;

/// Rows that a preview shows.
pub const PREVIEW_ROWS: usize = 20;

/// Signs of a cell that it shows.
const CELL: usize = 60;

/// The first rows of a file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Preview {
    /// The last row of titles with two cells or more.
    pub header: Option<Vec<String>>,
    /// Number of each row in the file, from 1, and its cells, long ones cut.
    pub rows: Vec<(usize, Vec<String>)>,
    /// The most columns of any of them, and of the layout.
    pub columns: usize,
}

/// The first rows of a file by a layout; blank rows are left out.
pub fn preview(bytes: &[u8], layout: &Layout) -> Preview {
    let text = text::decode(bytes);
    let mut out = Preview { columns: layout.columns.len(), ..Preview::default() };
    let mut cells: Vec<Cow<str>> = Vec::new();
    for (at, line) in text::lines(&text).enumerate() {
        split(line, layout.delimiter, &mut cells);
        let filled = cells.iter().filter(|cell| !cell.is_empty()).count();
        let title = at + 1 < layout.first_row;
        if filled == 0 || (title && filled < 2) {
            continue;
        }
        let shown = cells.iter().map(|cell| text::shortened(cell, CELL)).collect();
        if title {
            out.header = Some(shown);
        } else {
            out.columns = out.columns.max(cells.len());
            out.rows.push((at + 1, shown));
        }
        if out.rows.len() == PREVIEW_ROWS {
            break;
        }
    }
    out
}
