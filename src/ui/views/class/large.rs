//! Sizes, texts and buttons of the wall: all of it large, and all by one measure.

use egui::accesskit::Role;
use egui::{Button, Color32, FontId, Label, Rect, Response, RichText, Ui, UiBuilder, WidgetInfo};

use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{self, Tokens};

/// Sizes of everything on the wall: shares of its height, so that zoom and window change nothing.
#[derive(Clone, Copy)]
pub struct Wall {
    pub area: Rect,
    pub text: f32,
    pub large: f32,
    pub huge: f32,
    pub gap: f32,
    pub line: f32,
    pub t: &'static Tokens,
}

impl Wall {
    /// Those of a wall that fills a place.
    pub fn of(ui: &Ui, area: Rect) -> Self {
        let height = area.height();
        Self {
            area: area.shrink(tokens::WALL_GAP * height),
            text: tokens::WALL_TEXT * height,
            large: tokens::WALL_LARGE * height,
            huge: tokens::WALL_HUGE * height,
            gap: tokens::WALL_GAP * height,
            line: tokens::WALL_LINE * height,
            t: tokens::of(ui),
        }
    }

    /// Height of a line of the least text.
    pub fn row(&self) -> f32 {
        1.3 * self.text
    }

    /// The largest of some sizes in which a text fits a width and a height; else the least text.
    pub fn fits(&self, ui: &Ui, text: &str, room: egui::Vec2, sizes: &[f32]) -> f32 {
        let fits = |size: &&f32| {
            let galley = ui.painter().layout(text.to_owned(), fonts::semibold(**size), self.t.ink, room.x);
            galley.size().y <= room.y
        };
        sizes.iter().find(fits).copied().unwrap_or(self.text)
    }
}

/// A text that wraps in a place; gives where it ends.
pub fn say(ui: &mut Ui, rect: Rect, text: &str, font: FontId, color: Color32) -> f32 {
    let mut place = ui.new_child(UiBuilder::new().max_rect(rect));
    place.add(Label::new(RichText::new(text).font(font).color(color)).wrap().selectable(false)).rect.bottom()
}

/// A button with words of the least text.
pub fn button(ui: &mut Ui, wall: &Wall, rect: Rect, words: &str, name: &str) -> Response {
    let text = RichText::new(words).font(fonts::semibold(wall.text)).color(wall.t.accent);
    let button = Button::new(text).fill(wall.t.sheet).truncate();
    let response = ui.put(rect, button);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    response
}
