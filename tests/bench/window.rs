//! The window without a screen, for benchmarks: what a frame of it takes.

use std::time::{Duration, Instant};

use egui::{Context, RawInput, Rect, Vec2, pos2};
use potset_ui::shell::Shell;

/// Median of a frame.
pub fn frames(shell: &mut Shell) -> Duration {
    let ctx = Context::default();
    Shell::dress(&ctx);
    let mut all: Vec<Duration> = (0..300)
        .map(|k| {
            let screen_rect = Some(Rect::from_min_size(pos2(0.0, 0.0), Vec2::new(1280.0, 800.0)));
            let input = RawInput { screen_rect, time: Some(f64::from(k) / 60.0), ..RawInput::default() };
            let from = Instant::now();
            let mut out = ctx.run_ui(input, |ui| shell.ui(ui));
            out.textures_delta.clear();
            std::hint::black_box(ctx.tessellate(out.shapes, out.pixels_per_point).len());
            from.elapsed()
        })
        .collect();
    all.sort();
    all[150]
}
