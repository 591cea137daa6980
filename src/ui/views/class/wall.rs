//! The wall: keys, clicker and mouse become presses, and the step of the lesson is drawn as large as the window lets it.

use egui::accesskit::Role;
use egui::{Id, Key, Rect, Sense, Ui, WidgetInfo, vec2};

use super::large::{Wall, button, say};
use super::{free, guess, steps};
use potset_app::Command;
use potset_app::class::Playing;
use potset_app::command::ClassCommand;
use potset_class::{Press, Step};
use potset_report::class::spoken;
use potset_ui_kit::fonts;

/// What the wall keeps between frames.
#[derive(Default)]
pub struct WallView {
    pub guess: guess::Pen,
    pub free: free::Marked,
    /// The step whose sentence was told last.
    told: String,
}

/// Draws the wall.
pub fn show(ui: &mut Ui, view: &mut WallView, playing: &Playing, out: &mut Vec<Command>) {
    let wall = Wall::of(ui, ui.max_rect());
    let before = out.len();
    keys(ui, view, playing, out);
    narrate(ui, view, playing);
    if playing.play.blank {
        return;
    }
    let bar = wall.area.with_min_y(wall.area.bottom() - 1.5 * wall.text);
    let room = Wall { area: wall.area.with_max_y(bar.top() - wall.gap), ..wall };
    match &playing.shown {
        Some(Err(note)) => {
            say(
                ui,
                room.area,
                &format!("{}. {}", note.title, note.mend),
                fonts::semibold(wall.text),
                wall.t.stop,
            );
        }
        _ if playing.play.free.is_some() => free::show(ui, &room, &mut view.free, playing, out),
        _ => match playing.play.step {
            Step::Question => steps::question(ui, &room, playing),
            Step::Guess => guess::show(ui, &room, playing, out),
            Step::Change => steps::change(ui, &room, playing),
            Step::Curve => steps::curve(ui, &room, playing, out),
            Step::Reason => steps::reason(ui, &room, playing),
        },
    }
    foot(ui, &wall, bar, playing, out);
    if playing.play.running {
        out.push(ClassCommand::Tick(f64::from(ui.input(|i| i.stable_dt).min(LONGEST_FRAME_S))).into());
        ui.ctx().request_repaint();
    } else if out.len() > before {
        ui.ctx().request_repaint();
    }
}

/// A frame that took longer than this counts as this, s, so that a halt of the machine skips nothing.
const LONGEST_FRAME_S: f32 = 0.1;

/// The step in a sentence, for whoever cannot see the wall: told anew with every step.
fn narrate(ui: &mut Ui, view: &mut WallView, playing: &Playing) {
    let shown = playing.shown.as_ref().and_then(|shown| shown.as_deref().ok());
    // While it runs the curve would be told sixty times a second.
    if !playing.play.running || view.told.is_empty() {
        view.told = spoken(&playing.lesson, shown, &playing.play);
    }
    let place = Rect::from_min_size(ui.max_rect().min, vec2(1.0, 1.0));
    let response = ui.interact(place, Id::unique("what the wall shows"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &view.told));
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_live(egui::accesskit::Live::Polite));
}

/// Keys and clicker.
fn keys(ui: &Ui, view: &mut WallView, playing: &Playing, out: &mut Vec<Command>) {
    let pressed = |key: Key| ui.input(|i| i.key_pressed(key));
    let mut press = |press: Press| out.push(ClassCommand::Press(press).into());
    for (key, what) in [
        (Key::PageDown, Press::Next),
        (Key::PageUp, Press::Back),
        (Key::B, Press::Blank),
        (Key::Period, Press::Blank),
        (Key::F, Press::Free),
        (Key::Backspace, Press::VoteBack),
        (Key::Minus, Press::Slower),
        (Key::Plus, Press::Quicker),
        (Key::Equals, Press::Quicker),
        (Key::Num1, Press::Vote(0)),
        (Key::Num2, Press::Vote(1)),
        (Key::Num3, Press::Vote(2)),
        (Key::Num4, Press::Vote(3)),
        (Key::Delete, Press::Wipe),
    ] {
        if pressed(key) {
            press(what);
        }
    }
    if pressed(Key::Escape) {
        out.push(ClassCommand::Leave.into());
        return;
    }
    // Where the keyboard is on a button, these keys are that button's.
    if ui.memory(|m| m.focused().is_some()) {
        return;
    }
    let play = &playing.play;
    if play.free.is_some() {
        view.free.keys(ui, playing, out);
    } else if play.step == Step::Guess {
        view.guess.keys(ui, playing, out);
    } else if play.step == Step::Curve {
        let step = play.hours / 48.0;
        for (key, what) in [
            (Key::Space, Press::Run),
            (Key::ArrowLeft, Press::To(play.at_h - step)),
            (Key::ArrowRight, Press::To(play.at_h + step)),
            (Key::Home, Press::To(0.0)),
            (Key::End, Press::To(play.hours)),
        ] {
            if pressed(key) {
                out.push(ClassCommand::Press(what).into());
            }
        }
    }
    if pressed(Key::Enter) {
        out.push(ClassCommand::Press(Press::Next).into());
    }
}

/// The row at the foot: back, the steps as dots, free play or the curve's own buttons, on.
fn foot(ui: &mut Ui, wall: &Wall, bar: Rect, playing: &Playing, out: &mut Vec<Command>) {
    let play = &playing.play;
    let wide = |letters: f32| letters * 0.62 * wall.text + wall.gap;
    let mut left = bar.left();
    let mut right = bar.right();
    let mut place = |letters: f32, at_left: bool| {
        let width = wide(letters);
        if at_left {
            let rect = bar.with_min_x(left).with_max_x(left + width);
            left += width + 0.5 * wall.gap;
            rect
        } else {
            let rect = bar.with_min_x(right - width).with_max_x(right);
            right -= width + 0.5 * wall.gap;
            rect
        }
    };
    let mut all: Vec<(Rect, &str, &str, Press)> = vec![
        (place(4.0, true), "Back", "Back a step", Press::Back),
        (place(4.0, false), "Next", "Next step", Press::Next),
    ];
    let free = play.free.is_some();
    if free {
        all.push((place(10.0, false), "Back to it", "Back to the lesson", Press::Free));
    } else if !playing.levers.is_empty() {
        all.push((place(9.0, false), "Free play", "Free play", Press::Free));
    }
    if play.step == Step::Curve && !free {
        let (words, name) =
            if play.running { ("Pause", "Pause the curve") } else { ("Play", "Play the curve") };
        all.push((place(5.0, true), words, name, Press::Run));
        all.push((place(1.2, true), "−", "Slower", Press::Slower));
        all.push((place(1.2, true), "+", "Quicker", Press::Quicker));
    }
    for (rect, words, name, press) in all {
        if button(ui, wall, rect, words, name).clicked() {
            out.push(ClassCommand::Press(press).into());
        }
    }
    let room = bar.with_min_x(left).with_max_x(right);
    let each = 0.6 * wall.text;
    let count = Step::ALL.len() as f32;
    let from = room.center().x - each * (count - 1.0) / 2.0;
    if room.width() < each * (count + 1.0) {
        return;
    }
    for (k, step) in Step::ALL.into_iter().enumerate() {
        let at = egui::pos2(from + each * k as f32, room.center().y);
        let (radius, color) = if step == play.step {
            (0.18 * wall.text, wall.t.accent)
        } else {
            (0.10 * wall.text, wall.t.mark)
        };
        ui.painter().circle_filled(at, radius, color);
    }
}
