//! Drift: for each culture, warmer and base its pots in their order, with limits, a running mean and a sentence.

use egui::accesskit::Role;
use egui::{Rect, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use super::taught;
use crate::views::paint::{self, Plot};
use potset_app::batches::ChartTold;
use potset_app::{Command, State};
use potset_base::number::round_values;
use potset_doc::settings::Depth;
use potset_learn::{Chart, Drifted};
use potset_report::learn::chart_value;
use potset_ui_kit::tokens::{self, Dash};
use potset_ui_kit::widgets::card::nothing;
use potset_ui_kit::widgets::card::{boxed, plain, quiet};

/// Height of a chart and room for its numbers, points.
const HEIGHT: f32 = 120.0;
const LEFT: f32 = 74.0;
/// A chart shows the newest of so many pots.
const SHOWN: usize = 60;

/// Draws the page.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let Some(told) = taught::told(ui, state, out) else { return };
    if told.charts.is_empty() {
        let text = "A drift is seen from the fifth pot on with the same culture, warmer or base: an ageing packet, a warmer that \
                    is off, another lot of milk.";
        nothing(ui, "Too few pots to see a drift", text, |_| {});
        return;
    }
    quiet(
        ui,
        "Each dot is a pot. The line forgets old pots slowly: where it leaves the shaded range, something has changed.",
    );
    for chart in &told.charts {
        boxed(ui, title(&chart.chart.of), |ui| one(ui, state, chart));
    }
}

const fn title(of: &Drifted) -> &'static str {
    match of {
        Drifted::Souring(_) => "Hours to pH 4.6, against what the other pots say",
        Drifted::Warmth(_) => "Warmth above the setting",
        Drifted::StartPh(_) => "Sourness of the base as it goes in",
    }
}

fn one(ui: &mut Ui, state: &State, told: &ChartTold) {
    plain(ui, &told.sentence);
    let chart = &told.chart;
    let (whole, response) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &told.sentence));
    let rect = Rect::from_min_max(whole.min + vec2(LEFT, 4.0), whole.max - vec2(8.0, 4.0));
    let from = chart.points.len().saturating_sub(SHOWN);
    let plot = plot(chart, from, rect);
    painted(ui, chart, from, &plot);
    if let Some(pointer) = response.hover_pos() {
        let place = plot.hours(pointer.x).round().max(0.0) as usize;
        if let (Some(point), Some(name)) = (chart.points.get(place), told.names.get(place)) {
            response.on_hover_text_at_pointer(format!("{name}: {}", chart_value(&chart.of, point.value)));
        }
    }
    if state.settings.depth == Depth::Details
        && let Some(last) = chart.points.last()
    {
        let words = format!(
            "Middle {}, running mean {}, limits {} to {}",
            chart_value(&chart.of, chart.middle),
            chart_value(&chart.of, last.running),
            chart_value(&chart.of, chart.middle - last.limit),
            chart_value(&chart.of, chart.middle + last.limit)
        );
        quiet(ui, &words);
    }
}

fn plot(chart: &Chart, from: usize, rect: Rect) -> Plot {
    let points = &chart.points[from..];
    let ends =
        points.iter().flat_map(|p| [p.value, p.running, chart.middle - p.limit, chart.middle + p.limit]);
    let (low, high) = ends.fold((chart.middle, chart.middle), |(low, high), v| (low.min(v), high.max(v)));
    let room = 0.08 * (high - low).max(1e-6);
    let last = chart.points.len().saturating_sub(1) as f64;
    Plot { rect, x: (from as f64 - 0.5, last + 0.5), y: (low - room, high + room) }
}

fn painted(ui: &Ui, chart: &Chart, from: usize, plot: &Plot) {
    let t = tokens::of(ui);
    let painter = plot.inside(ui);
    painter.rect_filled(plot.rect, 0.0, t.sheet);
    let places: Vec<f64> = (from..chart.points.len()).map(|k| k as f64).collect();
    let points = &chart.points[from..];
    let low: Vec<f64> = points.iter().map(|p| chart.middle - p.limit).collect();
    let high: Vec<f64> = points.iter().map(|p| chart.middle + p.limit).collect();
    painter.add(paint::band(plot, &places, &low, &high, t.accent.gamma_multiply(tokens::BAND_OPACITY)));
    for edge in [&low, &high] {
        let path = plot.path(places.iter().copied().zip(edge.iter().copied()));
        painter.extend(Dash::DOTTED.shapes(&path, Stroke::new(tokens::HAIRLINE, t.accent)));
    }
    let marks = round_values(plot.y, 3.0).into_iter().map(|v| (v, chart_value(&chart.of, v)));
    paint::grid_y(ui, plot, marks);
    let middle =
        [pos2(plot.rect.left(), plot.y(chart.middle)), pos2(plot.rect.right(), plot.y(chart.middle))];
    painter.extend(Dash::SHORT.shapes(&middle, Stroke::new(tokens::HAIRLINE, t.ink_soft)));
    let running = plot.path(places.iter().copied().zip(points.iter().map(|p| p.running)));
    painter.line(running, Stroke::new(tokens::CURVE_STRONG, t.accent));
    for (place, point) in places.iter().zip(points) {
        let beyond = (point.running - chart.middle).abs() > point.limit;
        let color = if beyond { t.warn } else { t.ink };
        painter.circle_filled(plot.at(*place, point.value), 3.5, color);
    }
}
