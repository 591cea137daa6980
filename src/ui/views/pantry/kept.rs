//! What the page of entries keeps between frames.

use std::sync::Arc;

use potset_app::shelves::LookedThrough;
use potset_base::measures::SpoonSet;
use potset_base::units::Units;
use potset_catalogue::pantry_page::Page;
use potset_catalogue::pantry_table::{Filter, Sort, Table};
use potset_doc::pantry::EntryKind;
use potset_ui_kit::widgets::list::List;

/// What the page keeps between frames.
pub struct EntriesState {
    /// The kind that is listed; none: all.
    pub kind: Option<EntryKind>,
    pub filter: Filter,
    pub sort: Sort,
    pub list: List,
    pub kept: Kept,
    pub page: PageState,
    /// A text field had the keyboard in the last frame: Escape was for it.
    pub typing: bool,
}

impl Default for EntriesState {
    fn default() -> Self {
        Self {
            kind: Some(EntryKind::Base),
            filter: Filter::default(),
            sort: Sort::default(),
            list: List::default(),
            kept: Kept::default(),
            page: PageState::default(),
            typing: false,
        }
    }
}

/// What is worked out anew only when something that it comes from is another.
#[derive(Default)]
pub struct Kept {
    pub built: Option<(u64, Option<EntryKind>, SpoonSet, Units)>,
    pub table: Table,
    pub fitted: Option<(Filter, Sort)>,
    /// Places of the rows that are shown.
    pub shown: Vec<usize>,
    pub counts: Vec<(EntryKind, usize, usize)>,
    pub paged: Option<PageOf>,
    pub page: Option<Page>,
    /// The entry that was open last, to notice another.
    pub last_open: Option<(EntryKind, String)>,
}

/// What the page was worked out for.
pub struct PageOf {
    pub open: (EntryKind, String),
    /// Number of the shelves, and of the question that the design puts.
    pub numbers: (u64, u64),
    pub seen: Arc<Vec<LookedThrough>>,
}

/// What the page keeps between frames.
#[derive(Default)]
pub struct PageState {
    /// The name of a copy while it is being typed, and whether its field had the keyboard yet.
    pub copying: Option<(String, bool)>,
    /// A figure that could not be read: its path, and why.
    pub trouble: Option<(String, String)>,
}

impl PageState {
    /// Another entry is open.
    pub fn reset(&mut self) {
        *self = Self::default();
    }
}
