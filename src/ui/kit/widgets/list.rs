//! A long list of rows: only those in sight are laid out; arrows move a mark, Enter takes the marked one.

use egui::{
    EventFilter, Id, Key, Rect, Response, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2,
};

use crate::tokens;

/// The mark and the scroll position.
#[derive(Default)]
pub struct List {
    marked: usize,
    /// The mark moved by a key: bring it into sight.
    follow: bool,
    to_top: bool,
    /// How far the list is scrolled.
    at: f32,
    /// Rows in the last frame: a scroll area springs back from places that it does not know yet.
    count: usize,
    /// The text field above, whose up and down are ours.
    field: bool,
    /// Enter was pressed in that field.
    entered: bool,
}

/// What happened to a list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ListOut {
    /// A row was pressed.
    pub pressed: Option<usize>,
    /// Enter was pressed on a marked row.
    pub entered: Option<usize>,
}

impl List {
    /// Another list: from its top.
    pub fn top(&mut self) {
        (self.marked, self.to_top) = (0, true);
    }

    /// Marks a row and brings it into sight.
    pub fn mark(&mut self, place: usize) {
        (self.marked, self.follow) = (place, true);
    }

    pub fn marked(&self) -> usize {
        self.marked
    }

    /// While this field has the keyboard, up and down move the mark, and Enter takes it.
    pub fn keys_from(&mut self, ui: &Ui, field: &Response) {
        self.field = field.has_focus();
        self.entered = field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter));
    }

    /// Draws the rows; `row` draws one with its place and whether it is marked, and says whether it was pressed.
    ///
    /// `name` is what screen readers and tests call the list; it is not empty.
    pub fn show(
        &mut self,
        ui: &mut Ui,
        name: &str,
        (count, row_height, height): (usize, f32, f32),
        mut row: impl FnMut(&mut Ui, usize, bool) -> bool,
    ) -> ListOut {
        let mut out = ListOut::default();
        self.marked = self.marked.min(count.saturating_sub(1));
        let id = ui.scope_id().with(("list", name));
        let space = Rect::from_min_size(ui.cursor().min, vec2(ui.available_width(), height));
        let list = ui.interact(space, id, Sense::FOCUSABLE);
        list.widget_info(|| WidgetInfo::labeled(egui::accesskit::Role::List, true, name));
        let page = (height / row_height) as usize;
        self.keys(ui, id, count, page);
        let entered =
            std::mem::take(&mut self.entered) || list.has_focus() && ui.input(|i| i.key_pressed(Key::Enter));
        if entered && count > 0 {
            out.entered = Some(self.marked);
        }
        let mut scroll =
            ScrollArea::vertical().max_height(height).auto_shrink([false, false]).id_salt(("rows", name));
        if let Some(at) = self.scroll_to(ui, count, row_height, height) {
            scroll = scroll.vertical_scroll_offset(at);
        }
        ui.scope(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            let output = scroll.show_rows(ui, row_height, count, |ui, range| {
                for place in range {
                    if row(ui, place, place == self.marked) {
                        self.marked = place;
                        out.pressed = Some(place);
                        ui.memory_mut(|m| m.request_focus(id));
                    }
                }
            });
            self.at = output.state.clamped_offset().y;
        });
        if list.has_focus() {
            let ring = Stroke::new(tokens::FOCUS, tokens::of(ui).accent);
            ui.painter().rect_stroke(space, tokens::RADIUS_SMALL, ring, StrokeKind::Outside);
        }
        out
    }

    /// Where to scroll to in this frame, if anywhere.
    fn scroll_to(&mut self, ui: &Ui, count: usize, row_height: f32, height: f32) -> Option<f32> {
        let (top, most) = (self.marked as f32 * row_height, (count as f32 * row_height - height).max(0.0));
        let known = std::mem::replace(&mut self.count, count) == count;
        if std::mem::take(&mut self.to_top) {
            return Some(0.0);
        }
        if self.follow && known {
            self.follow = false;
            // Moved no further than needed to show the marked row.
            return Some(self.at.clamp((top + row_height - height).max(0.0), top).min(most));
        }
        if self.follow {
            ui.ctx().request_repaint();
        }
        (self.at > most).then_some(most)
    }

    fn keys(&mut self, ui: &Ui, id: Id, count: usize, page: usize) {
        let own = ui.memory(|m| m.has_focus(id));
        if own {
            let filter = EventFilter { vertical_arrows: true, ..EventFilter::default() };
            ui.memory_mut(|m| m.set_focus_lock_filter(id, filter));
        }
        if !own && !self.field {
            return;
        }
        let before = self.marked;
        ui.input(|i| {
            let pressed = |key| i.key_pressed(key);
            // Quick fingers press more than once in a frame.
            let times = |key| i.num_presses(key);
            self.marked += times(Key::ArrowDown) + page * times(Key::PageDown);
            let up = times(Key::ArrowUp) + page * times(Key::PageUp);
            self.marked = self.marked.saturating_sub(up);
            if own && pressed(Key::Home) {
                self.marked = 0;
            }
            if own && pressed(Key::End) {
                self.marked = count;
            }
        });
        self.marked = self.marked.min(count.saturating_sub(1));
        self.follow |= self.marked != before;
    }
}
