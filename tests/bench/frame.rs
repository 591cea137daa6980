//! A frame of the bench on the processor, beside a plain frame of four plots of the toolkit.
//!
//! Run: `cargo bench --bench frame`. A frame is layout and tessellation; painting is the graphics card's work.

#![allow(clippy::unwrap_used, reason = "a benchmark may stop at the first fault")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use egui::{Context, RawInput, Rect, Ui, Vec2, pos2};
use egui_plot::{Line, Plot, PlotPoint, PlotPoints};
use potset_app::command::BenchCommand;
use potset_app::{AppRunner, State};
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Edit, Kitchen, Settings};
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

fn input(time: f64) -> RawInput {
    let screen_rect = Some(Rect::from_min_size(pos2(0.0, 0.0), Vec2::new(1280.0, 800.0)));
    RawInput { screen_rect, time: Some(time), ..RawInput::default() }
}

/// One frame: layout and tessellation.
fn frame(ctx: &Context, time: &mut f64, draw: impl FnMut(&mut Ui)) -> usize {
    *time += 1.0 / 60.0;
    let mut out = ctx.run_ui(input(*time), draw);
    out.textures_delta.clear();
    let shapes = ctx.tessellate(out.shapes, out.pixels_per_point);
    shapes.len()
}

fn plain(ui: &mut Ui, lines: &[Vec<PlotPoint>], sliders: &mut [f64]) {
    egui::Panel::left("sliders").show(ui, |ui| {
        for (i, value) in sliders.iter_mut().enumerate() {
            ui.add(egui::Slider::new(value, 0.0..=10.0).text(format!("slider {i}")));
        }
    });
    egui::CentralPanel::default().show(ui, |ui| {
        let height = ui.available_height() / 4.0 - 8.0;
        for p in 0..4 {
            Plot::new(("plot", p)).height(height).show(ui, |plot| {
                for (k, points) in lines.iter().enumerate() {
                    plot.line(Line::new(format!("line {k}"), PlotPoints::Borrowed(points)));
                }
            });
        }
    });
}

fn benches(c: &mut Criterion) {
    let mut group = c.benchmark_group("frame");
    let ctx = Context::default();
    Shell::dress(&ctx);
    let settings = Settings { theme: Theme::Light, depth: Depth::Details, ..Settings::default() };
    let state = State::start(settings, Kitchen::default()).unwrap();
    let mut shell = Shell::new(AppRunner::inline(state), PathsBy::Typing);
    let mut time = 0.0;
    for _ in 0..5 {
        frame(&ctx, &mut time, |ui| shell.ui(ui));
    }
    group.bench_function("bench at rest", |b| {
        b.iter(|| black_box(frame(&ctx, &mut time, |ui| shell.ui(ui))));
    });
    let mut dose = 12.5;
    group.bench_function("bench while a lever moves, forecast and verdict in the frame", |b| {
        b.iter(|| {
            dose = if dose > 30.0 { 5.0 } else { dose + 0.5 };
            shell.runner.run(BenchCommand::Edit(Edit::SugarDose(0, dose), Some(1)));
            black_box(frame(&ctx, &mut time, |ui| shell.ui(ui)))
        });
    });
    let ctx = Context::default();
    Shell::dress(&ctx);
    let lines: Vec<Vec<PlotPoint>> = (0..8)
        .map(|k| {
            (0..500)
                .map(|i| PlotPoint::new(f64::from(i), (f64::from(i) * 0.02 + f64::from(k)).sin()))
                .collect()
        })
        .collect();
    let mut sliders = vec![5.0; 20];
    for _ in 0..5 {
        frame(&ctx, &mut time, |ui| plain(ui, &lines, &mut sliders));
    }
    group.bench_function("plain four plots of eight lines of 500 points, 20 sliders", |b| {
        b.iter(|| black_box(frame(&ctx, &mut time, |ui| plain(ui, &lines, &mut sliders))));
    });
    group.finish();
}

criterion_group!(all, benches);
criterion_main!(all);
