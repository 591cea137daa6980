//! When each design is ready: the windows under each other, by the clock where all have one.

use egui::accesskit::Role;
use egui::{Align2, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};

use potset_app::State;
use potset_base::clock::Moment;
use potset_base::number;
use potset_compare::beside::{Span, clocks, mark};
use potset_judge::ready::ReadyTime;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::marker;
use potset_ui_kit::{fonts, tokens};

const ROW: f32 = 22.0;
const AXIS: f32 = 16.0;

/// Draws the windows.
pub fn show(ui: &mut Ui, state: &State) {
    let spans = &state.columns.told.beside.spans;
    if spans.is_empty() {
        return;
    }
    let (offsets, by_clock) = clocks(spans);
    let quiet = if by_clock.is_some() {
        "possible pots, by the clock"
    } else {
        "possible pots, hours after the culture"
    };
    Card::new("When they are ready").quiet(quiet).show(ui, |ui| {
        let end = spans.iter().zip(&offsets).map(|(s, o)| o + s.horizon_h).fold(1.0, f64::max);
        let height = ROW * super::count(spans.len()) + AXIS;
        let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
        let axis = Axis { rect: rect.with_min_x(rect.left() + 18.0), end };
        axis.ticks(ui, by_clock);
        for (i, (span, offset)) in spans.iter().zip(&offsets).enumerate() {
            let y = rect.top() + ROW * (super::count(i) + 0.5);
            bar(ui, state, &axis, (i, y), span, *offset);
        }
    });
}

struct Axis {
    rect: Rect,
    end: f64,
}

impl Axis {
    fn x(&self, h: f64) -> f32 {
        let share = (h / self.end).clamp(0.0, 1.0) as f32;
        self.rect.left() + share * self.rect.width()
    }

    fn ticks(&self, ui: &Ui, start: Option<Moment>) {
        let t = tokens::of(ui);
        let step = if self.end > 60.0 {
            24.0
        } else if self.end > 30.0 {
            12.0
        } else {
            6.0
        };
        let foot = self.rect.bottom() - AXIS;
        for k in 0..=20_u8 {
            let h = f64::from(k) * step;
            if h > self.end {
                break;
            }
            let x = self.x(h);
            ui.painter().vline(x, self.rect.top()..=foot, Stroke::new(tokens::HAIRLINE, t.rule));
            let text = start.map_or_else(|| number::with_unit(h, 0, "h"), |s| s.after(h).day_and_time());
            let (align, x) = if k == 0 { (Align2::LEFT_BOTTOM, x) } else { (Align2::CENTER_BOTTOM, x) };
            let x = x.min(self.rect.right() - 26.0);
            let font = fonts::regular(tokens::SMALL);
            ui.painter().text(pos2(x, self.rect.bottom()), align, text, font, t.ink_soft);
        }
    }
}

fn bar(ui: &mut Ui, state: &State, axis: &Axis, (i, y): (usize, f32), span: &Span, offset: f64) {
    let t = tokens::of(ui);
    let name = state.columns.told.beside.names.get(i).map_or("", String::as_str);
    marker::paint(ui.painter(), pos2(axis.rect.left() - 10.0, y), mark::marker(i), 4.4, t.ink);
    let hold = Rect::from_x_y_ranges(axis.x(offset)..=axis.x(offset + span.horizon_h), y - 1.0..=y + 1.0);
    ui.painter().rect_filled(hold, 0, t.rail);
    let mut label = None;
    let said = span
        .ready
        .as_ref()
        .map_or_else(|| "not known".to_owned(), |ready| potset_report::ready::brief(ready, span.start));
    if let Some((from, to)) = span.ready.as_ref().and_then(ReadyTime::bar) {
        let rect = Rect::from_x_y_ranges(axis.x(offset + from)..=axis.x(offset + to), y - 7.0..=y + 7.0);
        let edge = Stroke::new(tokens::HAIRLINE, t.ready_ink_soft);
        ui.painter().rect(rect, tokens::RADIUS_SMALL, t.ready_card, edge, StrokeKind::Inside);
        let galley = ui.painter().layout_no_wrap(said.clone(), fonts::regular(tokens::SMALL), t.ready_ink);
        let inside = galley.size().x + 8.0 <= rect.width();
        let before = rect.left() - galley.size().x - 4.0;
        let at = match inside {
            true => rect.left() + 5.0,
            false if before >= axis.rect.left() => before,
            false => (rect.right() + 4.0).min(axis.rect.right() - galley.size().x),
        };
        let at = pos2(at, y - galley.size().y / 2.0);
        let (color, behind) = if inside { (t.ready_ink, t.ready_card) } else { (t.ink, t.card) };
        let place = Rect::from_min_size(at, galley.size()).expand2(vec2(2.0, -1.0));
        label = Some((place, galley, color, behind));
    }
    if label.is_none() {
        // Nothing to draw, but something to say.
        let galley = ui.painter().layout_no_wrap(said.clone(), fonts::regular(tokens::SMALL), t.ink_soft);
        let at = pos2(axis.rect.left() + 5.0, y - galley.size().y / 2.0);
        let place = Rect::from_min_size(at, galley.size()).expand2(vec2(2.0, -1.0));
        label = Some((place, galley, t.ink_soft, t.card));
    }
    let words = format!("{name}: {said}");
    let stop = axis.x(offset + span.stop_h);
    ui.painter().vline(stop, y - 9.0..=y + 9.0, Stroke::new(tokens::CURVE, t.stop_line));
    if let Some((place, galley, color, behind)) = label {
        ui.painter().rect_filled(place, 0, behind);
        ui.painter().galley_with_override_text_color(place.min + vec2(2.0, -1.0), galley, color);
    }
    let row = Rect::from_x_y_ranges(axis.rect.x_range(), y - ROW / 2.0..=y + ROW / 2.0);
    let response = ui.interact(row, ui.scope_id().with(("window", i)), Sense::hover());
    let words = format!("{words}; stopped at {}", number::hours(span.stop_h));
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &words));
    response.on_hover_text(words);
}
