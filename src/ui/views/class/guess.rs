//! The guess on the wall: answers with their hands, or a curve that is drawn by mouse or keys.

use egui::accesskit::Role;
use egui::{Button, Key, Rect, RichText, Ui, WidgetInfo, pos2};

use super::large::{Wall, say};
use super::strip::{self, Strip};
use potset_app::Command;
use potset_app::class::Playing;
use potset_app::command::ClassCommand;
use potset_class::Press;
use potset_class::curves::{axis, place, points};
use potset_doc::lesson::{Choice, Guess, LessonCurve};
use potset_ui_kit::fonts;

/// Points that a curve is drawn by with the keys, and steps of them up and down.
const ALONG: f64 = 16.0;
const UP: f64 = 24.0;

/// The pen of whoever draws with the keys: hour, and share of the axis; nothing before the first key.
#[derive(Default)]
pub struct Pen(Option<(f64, f64)>);

impl Pen {
    /// Arrow keys: right draws on, left goes back, up and down move the pen.
    pub fn keys(&mut self, ui: &Ui, playing: &Playing, out: &mut Vec<Command>) {
        let Guess::Draw(of) = playing.lesson.guess else { return };
        let hours = playing.lesson.hours;
        if playing.play.drawn.is_empty() {
            self.0 = None;
        }
        let pressed = |key| ui.input(|i| i.key_pressed(key));
        let (right, left) = (pressed(Key::ArrowRight), pressed(Key::ArrowLeft));
        let (up, down) = (pressed(Key::ArrowUp), pressed(Key::ArrowDown));
        if !(right || left || up || down) {
            return;
        }
        // It begins where the pot does.
        let (mut h, mut share) = self.0.unwrap_or((0.0, start(playing, of)));
        if up || down {
            share = (share + if up { 1.0 } else { -1.0 } / UP).clamp(0.0, 1.0);
        }
        if right || left {
            h = (h + if right { 1.0 } else { -1.0 } * hours / ALONG).clamp(0.0, hours);
        }
        let first = self.0.replace((h, share)).is_none();
        if first {
            out.push(ClassCommand::Press(Press::Draw(0.0, value(playing, of, start(playing, of)))).into());
        }
        out.push(ClassCommand::Press(Press::Draw(h, value(playing, of, share))).into());
    }
}

/// What the axis of the drawn strip holds.
fn range(playing: &Playing, of: LessonCurve) -> (f64, f64) {
    let shown = playing.shown.as_ref().and_then(|shown| shown.as_ref().ok());
    let all: Vec<_> = shown
        .into_iter()
        .flat_map(|shown| shown.pots.iter().map(|pot| points(of, &pot.answer.forecast, shown.hours)))
        .collect();
    axis(of, &all)
}

/// Where the last pot begins, as a share of the axis.
fn start(playing: &Playing, of: LessonCurve) -> f64 {
    let (low, high) = range(playing, of);
    let shown = playing.shown.as_ref().and_then(|shown| shown.as_ref().ok());
    let first = shown.and_then(|shown| {
        let pot = shown.last()?;
        points(of, &pot.answer.forecast, shown.hours).first().map(|(_, v)| place(of, *v))
    });
    first.map_or(0.5, |v| ((v - low) / (high - low)).clamp(0.0, 1.0))
}

/// The value at a share of the axis.
fn value(playing: &Playing, of: LessonCurve, share: f64) -> f64 {
    let (low, high) = range(playing, of);
    unplaced(of, low + (high - low) * share)
}

/// The value at a place of an axis.
fn unplaced(of: LessonCurve, at: f64) -> f64 {
    // Axes of thickness are drawn by their logarithm.
    if place(of, 1.0) == 0.0 && place(of, 10.0) == 1.0 { 10.0_f64.powf(at) } else { at }
}

/// Draws the step.
pub fn show(ui: &mut Ui, wall: &Wall, playing: &Playing, out: &mut Vec<Command>) {
    let area = wall.area;
    let y = say(ui, area, &playing.lesson.question, fonts::semibold(wall.text), wall.t.ink);
    let room = area.with_min_y(y + wall.gap);
    match &playing.lesson.guess {
        Guess::Choose(answers) => choose(ui, wall, room, playing, answers, out),
        Guess::Draw(of) => draw(ui, wall, room, playing, *of, out),
    }
}

/// The answers, each with its number and its hands.
fn choose(
    ui: &mut Ui,
    wall: &Wall,
    room: Rect,
    playing: &Playing,
    answers: &[Choice],
    out: &mut Vec<Command>,
) {
    let each = (room.height() / answers.len() as f32).min(4.0 * wall.text);
    let most = playing.play.votes.iter().max().copied().unwrap_or(0).max(1);
    for (i, (answer, hands)) in answers.iter().zip(&playing.play.votes).enumerate() {
        let top = room.top() + each * i as f32;
        let row = Rect::from_min_max(pos2(room.left(), top), pos2(room.right(), top + each - 0.6 * wall.gap));
        let count = row.with_min_x(row.right() - 2.2 * wall.text);
        let words = row.with_max_x(count.left() - 0.5 * wall.gap);
        let text = format!("{}  {}", i + 1, answer.words);
        let size = wall.fits(ui, &text, words.shrink(wall.gap).size(), &[wall.large]);
        let text = RichText::new(text).font(fonts::semibold(size)).color(wall.t.ink);
        let button = Button::new(text).wrap().fill(wall.t.page);
        let response = ui.put(words, button);
        response.widget_info(|| {
            let name = format!("Answer {}: {}, {}", i + 1, answer.words, potset_report::class::hands(*hands));
            WidgetInfo::labeled(Role::Button, true, name)
        });
        if response.clicked() {
            out.push(ClassCommand::Press(Press::Vote(i)).into());
        }
        // A bar below the words, as long as the hands are many.
        let long = words.width() * (*hands as f32 / most as f32);
        let bar = Rect::from_min_max(
            pos2(words.left(), words.bottom() - 1.5 * wall.line),
            pos2(words.left() + long, words.bottom()),
        );
        ui.painter().rect_filled(bar, 0.0, wall.t.accent);
        ui.painter().text(
            count.right_center(),
            egui::Align2::RIGHT_CENTER,
            hands,
            fonts::semibold(wall.text),
            wall.t.ink,
        );
    }
}

/// The empty strip, and what was drawn on it.
fn draw(ui: &mut Ui, wall: &Wall, room: Rect, playing: &Playing, of: LessonCurve, out: &mut Vec<Command>) {
    let Some(Ok(shown)) = &playing.shown else { return };
    let pots: Vec<_> = shown.pots.iter().collect();
    let strip = Strip {
        of,
        pots: &pots,
        earlier: &[],
        hours: shown.hours,
        at_h: None,
        drawn: &playing.play.drawn,
        left: 0.0,
        with_hours: true,
        sentence: "Draw the curve that you expect: drag from the left, or use the arrow keys. Delete wipes it.",
    };
    let (frame, response) = strip::show(ui, wall, room, &strip);
    if response.drag_started() || response.clicked() {
        out.push(ClassCommand::Press(Press::Wipe).into());
    }
    if let Some(at) =
        response.interact_pointer_pos().filter(|_| response.dragged() || response.drag_started())
    {
        let (h, v) = frame.under(at);
        out.push(ClassCommand::Press(Press::Draw(h, unplaced(of, v))).into());
    }
}
