//! The steps of a lesson on the wall: question, what is done, the curves, the reason.

use egui::{Align2, Rect, Stroke, Ui, pos2, vec2};

use super::large::{Wall, say};
use super::strip::{self, Strip, look, marker};
use potset_app::Command;
use potset_app::class::Playing;
use potset_app::command::ClassCommand;
use potset_base::number::hours;
use potset_class::{Press, Shown};
use potset_report::class::{came_to, guessed, pot_sentence, reading};
use potset_ui_kit::fonts;

/// The pots, where they were run.
fn shown(playing: &Playing) -> Option<&Shown> {
    playing.shown.as_ref().and_then(|shown| shown.as_deref().ok())
}

/// The question, as large as it fits.
pub fn question(ui: &mut Ui, wall: &Wall, playing: &Playing) {
    let area = wall.area;
    let y = say(ui, area, &playing.lesson.title, fonts::semibold(wall.text), wall.t.accent);
    let room = area.with_min_y(y + 2.0 * wall.gap);
    large(ui, wall, room, &playing.lesson.question);
}

/// A text in the largest size that fits.
fn large(ui: &mut Ui, wall: &Wall, room: Rect, text: &str) -> f32 {
    let size = wall.fits(ui, text, room.size(), &[wall.huge, wall.large]);
    say(ui, room, text, fonts::semibold(size), wall.t.ink)
}

/// What is done, with the pots by their names.
pub fn change(ui: &mut Ui, wall: &Wall, playing: &Playing) {
    let area = wall.area;
    let names: Vec<&str> = playing.lesson.pots().map(|pot| pot.name.as_str()).collect();
    let legend_height = wall.row() * names.len() as f32;
    let room = area.with_max_y(area.bottom() - legend_height - wall.gap);
    let y = large(ui, wall, room, &playing.lesson.change);
    for (k, name) in names.iter().enumerate() {
        let at = pos2(area.left(), y + 2.0 * wall.gap + wall.row() * (k as f32 + 0.5));
        key(ui, wall, at, k, name);
    }
}

/// A sample of a pot's line with its name; gives where it ends.
fn key(ui: &Ui, wall: &Wall, at: egui::Pos2, pot: usize, name: &str) -> f32 {
    let curve = look(wall, pot);
    let long = 2.4 * wall.text;
    let path = [at, at + vec2(long, 0.0)];
    ui.painter().extend(curve.dash.shapes_wide(&path, Stroke::new(wall.line, curve.line)));
    marker(ui, wall, at + vec2(long, 0.0), pot);
    let text = at + vec2(long + wall.gap, 0.0);
    ui.painter().text(text, Align2::LEFT_CENTER, name, fonts::semibold(wall.text), curve.label).right()
}

/// The pots by name in a row, with the hour at the right; gives what is left below.
fn legend(ui: &Ui, wall: &Wall, playing: &Playing) -> Rect {
    let area = wall.area;
    let mut x = area.left();
    if playing.lesson.second.is_some() {
        for (k, pot) in playing.lesson.pots().enumerate() {
            x = key(ui, wall, pos2(x, area.top() + 0.5 * wall.row()), k, &pot.name) + 2.0 * wall.gap;
        }
    }
    let hour = hours(playing.play.at_h.round());
    let at = pos2(area.right(), area.top());
    ui.painter().text(at, Align2::RIGHT_TOP, hour, fonts::semibold(wall.text), wall.t.ink);
    area.with_min_y(area.top() + wall.row())
}

/// The curves, drawn through time; dragged by hand they go to that hour.
pub fn curve(ui: &mut Ui, wall: &Wall, playing: &Playing, out: &mut Vec<Command>) {
    let room = legend(ui, wall, playing);
    let Some(shown) = shown(playing) else { return };
    let pots: Vec<_> = shown.pots.iter().collect();
    let sentence = reading(&playing.lesson, shown, playing.play.at_h);
    let count = playing.lesson.strips.len();
    let each = room.height() / count as f32;
    let strips = || playing.lesson.strips.iter();
    let left = strips().map(|of| strip::left(ui, wall, *of, &pots, shown.hours)).fold(0.0, f32::max);
    for (k, of) in strips().enumerate() {
        let top = room.top() + each * k as f32;
        let rect = room.with_min_y(top).with_max_y(top + each);
        let strip = Strip {
            of: *of,
            pots: &pots,
            earlier: &[],
            hours: shown.hours,
            at_h: Some(playing.play.at_h),
            drawn: if playing.lesson.guess == potset_doc::lesson::Guess::Draw(*of) {
                &playing.play.drawn
            } else {
                &[]
            },
            left,
            with_hours: k + 1 == count,
            sentence: &sentence,
        };
        let (frame, response) = strip::show(ui, wall, rect, &strip);
        if (response.dragged() || response.clicked())
            && let Some(at) = response.interact_pointer_pos()
        {
            out.push(ClassCommand::Press(Press::To(frame.under(at).0)).into());
        }
    }
}

/// What came of the pots in huge words, how the guess went, the reason and its source.
pub fn reason(ui: &mut Ui, wall: &Wall, playing: &Playing) {
    let Some(shown) = shown(playing) else { return };
    let mut place = ui.new_child(egui::UiBuilder::new().max_rect(wall.area));
    egui::ScrollArea::vertical().id_salt("reason").show(&mut place, |ui| {
        ui.spacing_mut().item_spacing.y = 0.6 * wall.gap;
        let width = ui.available_width();
        let each = (width - wall.gap) / shown.pots.len().max(1) as f32;
        let top = ui.cursor().min;
        let mut bottom = top.y;
        for (k, pot) in shown.pots.iter().enumerate() {
            let left = top.x + (each + wall.gap) * k as f32;
            let rect = Rect::from_min_size(pos2(left, top.y), vec2(each, wall.area.height()));
            let mut y = top.y;
            if shown.pots.len() > 1 {
                y = say(ui, rect, &pot.name, fonts::semibold(wall.text), look(wall, k).label);
            }
            let (first, rest) = came_to(&playing.lesson, pot);
            let lost = rest.is_empty();
            let size = wall.fits(ui, &first, vec2(each, 1.4 * wall.huge), &[wall.huge, wall.large]);
            let color = if lost { wall.t.stop } else { wall.t.ink };
            y = say(ui, rect.with_min_y(y), &first, fonts::semibold(size), color);
            let rest = if lost { pot_sentence(pot) } else { rest };
            let size = wall.fits(ui, &rest, vec2(each, 1.4 * wall.large), &[wall.large]);
            y = say(ui, rect.with_min_y(y), &rest, fonts::regular(size), color);
            bottom = bottom.max(y);
        }
        ui.advance_cursor_after_rect(Rect::from_min_max(top, pos2(top.x + width, bottom)));
        let mut line = |text: &str, font, color| {
            if !text.is_empty() {
                potset_ui_kit::widgets::wrapped(ui, text, font, color);
            }
        };
        line(&guessed(&playing.lesson, shown, &playing.play), fonts::semibold(wall.text), wall.t.accent);
        for words in &playing.lesson.reason {
            line(words, fonts::regular(wall.text), wall.t.ink);
        }
        line(&playing.lesson.source.line(), fonts::italic(wall.text), wall.t.ink_soft);
    });
}
