//! Free play on the wall: at most three levers, the curve that comes of them, and the last two as earlier curves.

use egui::{Align2, Key, Rect, Stroke, Ui, pos2};

use super::large::{Wall, button};
use super::strip::{self, Strip};
use potset_app::Command;
use potset_app::class::Playing;
use potset_app::command::ClassCommand;
use potset_base::number;
use potset_class::{Press, ShownPot};
use potset_forecast::lever::Lever;
use potset_report::class::{pot_sentence, pot_words};
use potset_ui_kit::fonts;

/// Presses from one end of what is usual to the other; of the whole range where nothing is usual. Source: assumed.
const PRESSES: f64 = 8.0;

/// The lever that the arrow keys turn.
#[derive(Default)]
pub struct Marked(usize);

impl Marked {
    /// Up and down choose a lever, left and right turn it.
    pub fn keys(&mut self, ui: &Ui, playing: &Playing, out: &mut Vec<Command>) {
        let pressed = |key| ui.input(|i| i.key_pressed(key));
        let last = playing.levers.len().saturating_sub(1);
        if pressed(Key::ArrowDown) {
            self.0 = (self.0 + 1).min(last);
        }
        if pressed(Key::ArrowUp) {
            self.0 = self.0.saturating_sub(1);
        }
        self.0 = self.0.min(last);
        for (key, way) in [(Key::ArrowLeft, -1.0), (Key::ArrowRight, 1.0)] {
            if pressed(key) {
                out.extend(turned(playing, self.0, way));
            }
        }
    }
}

/// How far one press turns a lever.
fn step(lever: &Lever) -> f64 {
    let (low, high) = lever.usual.unwrap_or(lever.range);
    let wanted = (high - low) / PRESSES;
    (wanted / lever.step).round().max(1.0) * lever.step
}

/// A lever one press on, or back; nothing at its end.
fn turned(playing: &Playing, i: usize, way: f64) -> Option<Command> {
    let lever = playing.levers.get(i)?;
    let now = *playing.play.free.as_ref()?.values.get(i)?;
    let (low, high) = lever.range;
    let then = (now + way * step(lever)).clamp(low, high);
    (then != now).then(|| ClassCommand::Press(Press::Turn(i, then)).into())
}

/// Draws it.
pub fn show(ui: &mut Ui, wall: &Wall, marked: &mut Marked, playing: &Playing, out: &mut Vec<Command>) {
    let (Some(free), Some(Ok(shown))) = (&playing.play.free, &playing.shown) else { return };
    let Some(pot) = free.now.as_deref().or_else(|| shown.last()) else { return };
    let area = wall.area;
    let words = pot_words(pot);
    let lost = words.len() == 1;
    let color = if lost { wall.t.stop } else { wall.t.ink };
    let size = wall.fits(ui, &words.join(", "), egui::vec2(area.width(), 1.3 * wall.large), &[wall.large]);
    let text = fonts::semibold(size);
    ui.painter().text(area.left_top(), Align2::LEFT_TOP, words.join(", "), text, color);
    let levers = 1.6 * wall.text * playing.levers.len() as f32;
    let room = Rect::from_min_max(
        pos2(area.left(), area.top() + 1.3 * size),
        pos2(area.right(), area.bottom() - levers - 0.5 * wall.gap),
    );
    let earlier: Vec<&ShownPot> = free.earlier.iter().map(|pot| &**pot).collect();
    let sentence = format!("{} {}", words.join(", "), pot_sentence(pot));
    let strip = Strip {
        of: playing.lesson.strips[0],
        pots: &[pot],
        earlier: &earlier,
        hours: shown.hours,
        at_h: Some(shown.hours),
        drawn: &[],
        left: 0.0,
        with_hours: true,
        sentence: &sentence,
    };
    strip::show(ui, wall, room, &strip);
    for (i, lever) in playing.levers.iter().enumerate() {
        let top = area.bottom() - levers + 1.6 * wall.text * i as f32;
        let row = Rect::from_min_max(pos2(area.left(), top), pos2(area.right(), top + 1.5 * wall.text));
        let value = free.values.get(i).copied().unwrap_or(lever.value);
        if one(ui, wall, row, (lever, value), marked.0 == i, (playing, i, out)) {
            marked.0 = i;
        }
    }
}

/// A lever: its name and value between two buttons; true where it was pressed.
fn one(
    ui: &mut Ui,
    wall: &Wall,
    row: Rect,
    (lever, value): (&Lever, f64),
    marked: bool,
    (playing, i, out): (&Playing, usize, &mut Vec<Command>),
) -> bool {
    let side = 1.6 * wall.text;
    let less = row.with_max_x(row.left() + side);
    let more = row.with_min_x(row.right() - side);
    let mut pressed = false;
    for (rect, sign, way, name) in [(less, "−", -1.0, "Less"), (more, "+", 1.0, "More")] {
        if button(ui, wall, rect, sign, &format!("{name}: {}", lever.name)).clicked() {
            out.extend(turned(playing, i, way));
            pressed = true;
        }
    }
    let middle = row.with_min_x(less.right() + wall.gap).with_max_x(more.left() - wall.gap);
    let value = if lever.unit == "h" { number::hours(value) } else { lever.words(value) };
    let font = fonts::semibold(wall.text);
    let at = ui.painter().text(middle.right_center(), Align2::RIGHT_CENTER, value, font, wall.t.ink).left();
    let name = middle.with_max_x(at - wall.gap);
    let font = fonts::regular(wall.text);
    ui.painter().with_clip_rect(name).text(
        name.left_center(),
        Align2::LEFT_CENTER,
        &lever.name,
        font,
        wall.t.ink,
    );
    if marked {
        let stroke = Stroke::new(0.5 * wall.line, wall.t.accent);
        ui.painter().hline(middle.x_range(), middle.bottom(), stroke);
    }
    pressed
}
