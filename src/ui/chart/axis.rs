//! The row below the strips: hours, clock times, the time under the pointer.

use egui::{Align2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};

use crate::frame::Scene;
use crate::layout::Places;
use crate::{paint, words};
use potset_base::number::{NBSP, plain};
use potset_ui_kit::{fonts, tokens};

/// Between two texts of the axis, points.
const APART: f32 = 8.0;

/// Hours, and clock times if they have a row; the time under the pointer where that is somewhere. Texts that pill or tag would
/// cover in part are left out.
pub fn show(ui: &Ui, places: &Places, scene: &Scene<'_>, pill: Rect, pointed: bool) {
    let tag_rect = pointed.then(|| tag_rect(ui, places, scene, pill));
    texts(ui, places, scene, [pill, tag_rect.unwrap_or(Rect::NOTHING)]);
    if let Some(rect) = tag_rect {
        tag(ui, rect, scene);
    }
}

fn texts(ui: &Ui, places: &Places, scene: &Scene<'_>, covers: [Rect; 2]) {
    let font = fonts::regular(tokens::SMALL);
    let color = scene.t.ink_soft;
    let whole = places.whole.shrink2(vec2(2.0, 0.0));
    let mut last = f32::NEG_INFINITY;
    for hours in scene.time.ticks() {
        let text = if hours > 0.0 { format!("{}{NBSP}h", plain(hours)) } else { "start".to_owned() };
        let size = paint::size(ui, &text, font.clone());
        let rect = inside(whole, scene.time.x(hours), places.axis.center().y, size);
        let near = rect.expand2(vec2(4.0, 0.0));
        if covers.iter().any(|cover| near.intersects(*cover)) || rect.left() < last + APART {
            continue;
        }
        last = rect.right();
        ui.painter().text(rect.left_center(), Align2::LEFT_CENTER, text, font.clone(), color);
    }
    let (Some(row), Some(start)) = (places.clock, scene.shown.start) else { return };
    let mut last = f32::NEG_INFINITY;
    for hours in scene.time.ticks() {
        let text = start.after(hours).day_and_time();
        let size = paint::size(ui, &text, font.clone());
        let rect = inside(whole, scene.time.x(hours), row.center().y - 2.0, size);
        if rect.left() >= last + APART {
            last = rect.right();
            ui.painter().text(rect.left_center(), Align2::LEFT_CENTER, text, font.clone(), color);
        }
    }
}

/// Where the tag with the time under the pointer is: beside the pill where they would meet.
fn tag_rect(ui: &Ui, places: &Places, scene: &Scene<'_>, pill: Rect) -> Rect {
    let text = words::cursor_time(scene.read_h, scene.shown.start);
    let size = paint::size(ui, &text, fonts::regular(tokens::SMALL)) + vec2(12.0, 4.0);
    let whole = places.whole.shrink2(vec2(2.0, 0.0));
    let x = scene.time.x(scene.read_h);
    let rect = inside(whole, x, places.axis.center().y, size);
    if !rect.expand(2.0).intersects(pill) {
        return rect;
    }
    let (left, right) = (pill.left() - 3.0 - size.x, pill.right() + 3.0);
    let to_left = (x < pill.center().x && left >= whole.left()) || right + size.x > whole.right();
    Rect::from_min_size(pos2(if to_left { left } else { right }, rect.top()), size)
}

/// The time under the pointer.
fn tag(ui: &Ui, rect: Rect, scene: &Scene<'_>) {
    let t = scene.t;
    let text = words::cursor_time(scene.read_h, scene.shown.start);
    let edge = Stroke::new(tokens::HAIRLINE, t.mark);
    ui.painter().rect(rect, tokens::RADIUS_SMALL, t.card, edge, StrokeKind::Inside);
    let font = fonts::regular(tokens::SMALL);
    ui.painter().text(rect.center(), Align2::CENTER_CENTER, text, font, t.ink);
}

/// A rect of a size around a centre, moved inside sideways.
pub fn inside(whole: Rect, x: f32, y: f32, size: egui::Vec2) -> Rect {
    let left = (x - size.x / 2.0).clamp(whole.left(), (whole.right() - size.x).max(whole.left()));
    Rect::from_min_size(pos2(left, y - size.y / 2.0), size)
}
