//! The stop line: dragged anywhere on it or by its pill, and moved by keyboard or screen reader.

use egui::accesskit::{Action, ActionData};
use egui::{
    Align2, CursorIcon, EventFilter, Id, Key, Modifiers, PointerButton, Rect, Response, Sense, Ui,
    WidgetInfo, vec2,
};

use crate::layout::{Places, Time};
use crate::shown::{SheetAction, Shown};
use crate::{axis, paint, words};
use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{self, Tokens};
use potset_ui_kit::widgets::lever::Gesture;

/// The stop line moves in quarters of an hour.
pub const STEP_H: f64 = 0.25;
/// How near to the line it can be grabbed, points.
const NEAR: f32 = 6.0;

/// A drag of the stop line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drag {
    from_x: f32,
    from_h: f64,
    /// The axis stays as it was, also if the forecast gets longer meanwhile.
    pub horizon_h: f64,
    now_h: f64,
}

/// A time on the grid of steps, within the sheet.
fn settled(hours: f64, horizon_h: f64) -> f64 {
    ((hours / STEP_H).round() * STEP_H).clamp(STEP_H, horizon_h.max(STEP_H))
}

/// The pill below the line; its width does not depend on the time.
pub fn pill_rect(ui: &Ui, places: &Places, time: &Time, stop_h: f64) -> Rect {
    let widest = format!("stop {}", words::stop_hours(if time.horizon_h < 100.0 { 88.25 } else { 888.25 }));
    let size = vec2(paint::size(ui, &widest, fonts::semibold(tokens::SMALL)).x + 14.0, tokens::PRESS);
    let x = time.x(stop_h.clamp(0.0, time.horizon_h));
    axis::inside(places.whole.shrink2(vec2(2.0, 0.0)), x, places.axis.center().y, size)
}

/// The line as something to grab; drawn later.
pub fn line(ui: &Ui, id: Id, places: &Places, time: &Time, shown: &Shown<'_>) -> Response {
    let through = places.through(time);
    let x = time.x(shown.stop_h.clamp(0.0, time.horizon_h));
    let rect = Rect::from_x_y_ranges(x - NEAR..=x + NEAR, through.y_range());
    // Not by the Tab key: the pill is there for that.
    ui.interact(rect, id.with("line"), Sense::DRAG).on_hover_and_drag_cursor(CursorIcon::ResizeHorizontal)
}

/// The pill as something to grab, to focus and to read; drawn here.
pub fn pill(ui: &Ui, id: Id, rect: Rect, shown: &Shown<'_>, t: &Tokens) -> Response {
    let id = id.with("pill");
    let grip = |pill: Response| pill.on_hover_and_drag_cursor(CursorIcon::ResizeHorizontal);
    let pill = if shown.fixed {
        ui.interact(rect, id, Sense::hover())
    } else {
        grip(ui.interact(rect, id, Sense::drag()))
    };
    let horizon_h = shown.forecast.horizon_h;
    if shown.fixed {
        let words = format!("{} {}", words::STOP_LINE, words::stop_hours(shown.stop_h));
        pill.widget_info(|| WidgetInfo::labeled(egui::accesskit::Role::Label, ui.is_enabled(), &words));
        paint_pill(ui, rect, shown, t);
        return pill;
    }
    pill.widget_info(|| WidgetInfo::slider(ui.is_enabled(), shown.stop_h, words::STOP_LINE));
    ui.ctx().accesskit_node_builder(id, |node| {
        node.set_min_numeric_value(STEP_H);
        node.set_max_numeric_value(horizon_h);
        node.set_numeric_value_step(STEP_H);
        node.set_value(words::stop_hours(shown.stop_h));
        node.add_action(Action::SetValue);
        node.add_action(Action::Increment);
        node.add_action(Action::Decrement);
    });
    paint_pill(ui, rect, shown, t);
    if pill.has_focus() {
        let stroke = egui::Stroke::new(tokens::FOCUS, t.ink);
        ui.painter().rect_stroke(rect.expand(1.0), tokens::RADIUS_PILL, stroke, egui::StrokeKind::Middle);
    }
    pill
}

fn paint_pill(ui: &Ui, rect: Rect, shown: &Shown<'_>, t: &Tokens) {
    ui.painter().rect_filled(rect, tokens::RADIUS_PILL, t.stop_line);
    let text = format!("stop {}", words::stop_hours(shown.stop_h));
    let font = fonts::semibold(tokens::SMALL);
    ui.painter().text(rect.center(), Align2::CENTER_CENTER, text, font, t.on_accent);
}

/// What the hand does to the line or its pill in this frame.
pub fn dragged(
    ui: &Ui,
    drag: &mut Option<Drag>,
    grips: [&Response; 2],
    time: &Time,
    stop_h: f64,
) -> Option<SheetAction> {
    let by_hand = PointerButton::Primary;
    if grips.iter().any(|grip| grip.drag_started_by(by_hand)) {
        let from_x = ui.input(|i| i.pointer.press_origin().or(i.pointer.interact_pos()))?.x;
        let mut began = Drag { from_x, from_h: stop_h, horizon_h: time.horizon_h, now_h: stop_h };
        began.follow(ui, time);
        *drag = Some(began);
        return Some(SheetAction::Stop(began.now_h, Gesture::Started));
    }
    let going = drag.as_mut()?;
    if grips.iter().any(|grip| grip.dragged_by(by_hand)) {
        let moved = going.follow(ui, time);
        return moved.then_some(SheetAction::Stop(going.now_h, Gesture::Going));
    }
    // Released, or taken away.
    going.follow(ui, time);
    let ended = going.now_h;
    *drag = None;
    Some(SheetAction::Stop(ended, Gesture::Ended))
}

impl Drag {
    /// Takes the line to the pointer; whether that moved it.
    fn follow(&mut self, ui: &Ui, time: &Time) -> bool {
        let Some(pointer) = ui.input(|i| i.pointer.interact_pos()) else { return false };
        let by = pointer.x - self.from_x;
        let per_point = time.horizon_h / f64::from((time.right - time.left).max(1.0));
        let wanted = self.from_h + f64::from(by) * per_point;
        // Only looking at the line does not move it onto the grid.
        let now_h = if by.abs() < 0.5 { self.from_h } else { settled(wanted, time.horizon_h) };
        let moved = now_h.to_bits() != self.now_h.to_bits();
        self.now_h = now_h;
        moved
    }
}

/// What the keyboard or a screen reader does to the pill in this frame.
///
/// `nudged` remembers that the keys moved the line since the pill got the keyboard.
pub fn keyed(ui: &Ui, pill: &Response, nudged: &mut bool, shown: &Shown<'_>) -> Option<SheetAction> {
    let (stop_h, horizon_h) = (shown.stop_h, shown.forecast.horizon_h);
    let act = |to: f64, gesture| Some(SheetAction::Stop(settled(to, horizon_h), gesture));
    let (by, to) = ui.input(|i| {
        let count = |action| i.num_accesskit_action_requests(pill.id, action);
        let (up, down) = (count(Action::Increment), count(Action::Decrement));
        let to = i.accesskit_action_requests(pill.id, Action::SetValue).filter_map(|r| match r.data {
            Some(ActionData::NumericValue(value)) if value.is_finite() => Some(value),
            _ => None,
        });
        (steps(up, down, 1.0), to.last())
    });
    if let Some(to) = to.or((by.abs() > 0.0).then_some(stop_h + by)) {
        return act(to, Gesture::Ended);
    }
    if pill.has_focus() {
        if let Some(to) = by_keys(ui, pill.id, stop_h, horizon_h) {
            *nudged = true;
            return act(to, Gesture::Going);
        }
    } else if *nudged {
        *nudged = false;
        return Some(SheetAction::Stop(stop_h, Gesture::Ended));
    }
    None
}

/// Where the pressed keys want the line.
fn by_keys(ui: &Ui, id: Id, stop_h: f64, horizon_h: f64) -> Option<f64> {
    let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
    ui.input_mut(|i| {
        let mut count = |key| i.count_and_consume_key(Modifiers::NONE, key);
        let up = count(Key::ArrowRight) + count(Key::ArrowUp);
        let down = count(Key::ArrowLeft) + count(Key::ArrowDown);
        let pages = steps(count(Key::PageUp), count(Key::PageDown), 4.0);
        let (home, end) = (count(Key::Home) > 0, count(Key::End) > 0);
        let by = steps(up, down, 1.0) + pages;
        match (home, end) {
            (true, _) => Some(STEP_H),
            (_, true) => Some(horizon_h),
            _ => (by.abs() > 0.0).then_some(stop_h + by),
        }
    })
}

/// Hours for so many steps up and down.
fn steps(up: usize, down: usize, each: f64) -> f64 {
    let net = up as f64 - down as f64;
    net * each * STEP_H
}
