//! A frame of the Pantry view and of the bench with 20 and with 5,000 own entries, in turns; prints both and their ratio.
//!
//! Run: `cargo bench --bench pantry`. A frame is layout and tessellation, as in `frame.rs`.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a benchmark prints what it timed, and may stop at the first fault"
)]

use std::hint::black_box;
use std::time::Instant;

use egui::{
    Context, Event, Modifiers, MouseWheelSource, MouseWheelUnit, RawInput, Rect, TouchPhase, Vec2, pos2,
};
use potset_app::command::{PantryCommand, WindowCommand};
use potset_app::state::View;
use potset_app::{AppRunner, State};
use potset_doc::pantry::{Base, EntryKind};
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Kitchen, OwnPantry, Pantry, Settings, assets};
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

/// A window on the Pantry view with so many own bases, an entry open.
struct Window {
    ctx: Context,
    shell: Shell,
    time: f64,
}

impl Window {
    fn new(own: usize, view: View) -> Self {
        let shipped = assets::pantry().unwrap();
        let like = &shipped.bases[0];
        let bases = (0..own)
            .map(|i| Base { key: format!("own_{i}"), name: format!("Own base {i}"), ..like.clone() })
            .collect();
        let settings = Settings { theme: Theme::Light, depth: Depth::Details, ..Settings::default() };
        let mut state = State::start(settings, Kitchen::default()).unwrap();
        state.take_own(OwnPantry { entries: Pantry { bases, ..Pantry::default() }, tickets: Vec::new() });
        let mut runner = AppRunner::inline(state);
        runner.run(WindowCommand::Show(View::Pantry));
        runner.run(PantryCommand::OpenEntry(Some((EntryKind::Base, "own_1".into()))));
        runner.run(WindowCommand::Show(view));
        let ctx = Context::default();
        Shell::dress(&ctx);
        let mut window = Self { ctx, shell: Shell::new(runner, PathsBy::Typing), time: 0.0 };
        for _ in 0..10 {
            window.frame(0.0);
        }
        window
    }

    /// One frame, with the wheel turned over the table.
    fn frame(&mut self, wheel: f32) -> usize {
        self.time += 1.0 / 60.0;
        let mut input = RawInput {
            screen_rect: Some(Rect::from_min_size(pos2(0.0, 0.0), Vec2::new(1280.0, 800.0))),
            time: Some(self.time),
            ..RawInput::default()
        };
        input.events.push(Event::PointerMoved(pos2(500.0, 400.0)));
        if wheel != 0.0 {
            input.events.push(Event::MouseWheel {
                unit: MouseWheelUnit::Point,
                delta: Vec2::new(0.0, wheel),
                phase: TouchPhase::Move,
                source: MouseWheelSource::Wheel,
                modifiers: Modifiers::NONE,
            });
        }
        let shell = &mut self.shell;
        let mut out = self.ctx.run_ui(input, |ui| shell.ui(ui));
        out.textures_delta.clear();
        self.ctx.tessellate(out.shapes, out.pixels_per_point).len()
    }
}

fn median(mut all: Vec<f64>) -> f64 {
    all.sort_by(f64::total_cmp);
    all[all.len() / 2]
}

fn main() {
    for (view, what, wheel) in [
        (View::Pantry, "at rest", 0.0),
        (View::Pantry, "while scrolling", 9.0),
        (View::Bench, "at rest", 0.0),
    ] {
        let mut windows = [Window::new(20, view), Window::new(5000, view)];
        let mut times = [Vec::new(), Vec::new()];
        for turn in 0..400 {
            for (window, times) in windows.iter_mut().zip(&mut times) {
                let way = if turn % 40 < 20 { -wheel } else { wheel };
                let start = Instant::now();
                black_box(window.frame(way));
                times.push(start.elapsed().as_secs_f64() * 1e3);
            }
        }
        let [few, many] = times.map(median);
        println!(
            "{} {what}: {few:.3} ms with 20 own entries, {many:.3} ms with 5,000; ratio {:.2}",
            view.words(),
            many / few
        );
    }
}
