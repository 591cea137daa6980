//! Frames of the bench while the worker makes a spread, beside frames while it rests. `cargo bench --bench frame_under_spread`.
//!
//! Frames come sixty times a second, as on a screen, so that what the frame has to share is what it shares in use. The median
//! and the 90 % quantile are told, and their ratio to those at rest (goal: under 1.3).

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at a fault, looks at the clock and says what it found"
)]

use std::time::{Duration, Instant};

use egui::{Context, RawInput, Rect, Vec2, pos2};
use potset_app::command::BenchCommand;
use potset_app::{AppRunner, State};
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Edit, Kitchen, Settings};
use potset_numerics::quantile;
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

const FRAMES: usize = 400;
const PERIOD: Duration = Duration::from_micros(16_667);

/// Seconds of each frame: layout and tessellation. `turn`: an edit every so many frames, so that there is always a spread to
/// be made; none at rest.
fn frames(shell: &mut Shell, ctx: &Context, turn: Option<usize>) -> Vec<f64> {
    let screen_rect = Some(Rect::from_min_size(pos2(0.0, 0.0), Vec2::new(1280.0, 800.0)));
    let mut all = Vec::with_capacity(FRAMES);
    let begun = Instant::now();
    for i in 0..FRAMES {
        if turn.is_some_and(|every| i % every == 0) {
            let dose = 10.0 + 0.5 * f64::from(u32::try_from(i % 20).unwrap());
            shell.runner.run(BenchCommand::Edit(Edit::SugarDose(0, dose), Some(1)));
        }
        let started = Instant::now();
        let input =
            RawInput { screen_rect, time: Some(begun.elapsed().as_secs_f64()), ..RawInput::default() };
        shell.logic(ctx);
        let mut out = ctx.run_ui(input, |ui| shell.ui(ui));
        out.textures_delta.clear();
        std::hint::black_box(ctx.tessellate(out.shapes, out.pixels_per_point).len());
        let took = started.elapsed();
        all.push(took.as_secs_f64());
        std::thread::sleep(PERIOD.saturating_sub(took));
    }
    all
}

fn main() {
    let ctx = Context::default();
    Shell::dress(&ctx);
    let told = |name: &str, mut all: Vec<f64>| {
        let [median, most] = quantile::of(&mut all, [0.5, 0.9]);
        println!("{name}: median {:.2} ms, 9 of 10 under {:.2} ms", median * 1e3, most * 1e3);
        (median, most)
    };
    let run = |spread: bool, turn: Option<usize>| {
        let settings = Settings { theme: Theme::Light, depth: Depth::Details, spread, ..Settings::default() };
        let state = State::start(settings, Kitchen::default()).unwrap();
        let mut shell = Shell::new(AppRunner::threaded(state, None, || {}), PathsBy::Typing);
        frames(&mut shell, &ctx, Some(usize::MAX));
        std::thread::sleep(Duration::from_secs(1));
        frames(&mut shell, &ctx, turn)
    };
    // The same edits without a spread, so that only the spread makes the difference.
    let without = told("an edit every 10 frames, no spread", run(false, Some(10)));
    let with = told("an edit every 10 frames, a spread after each", run(true, Some(10)));
    println!(
        "ratio of the medians {:.2}, of the 90 % quantiles {:.2}",
        with.0 / without.0,
        with.1 / without.1
    );
}
