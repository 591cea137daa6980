//! The curves of the chosen cause over those of the plan: sourness, and thickness as it would be from the fridge.

use egui::accesskit::Role;
use egui::{Align2, Rect, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use crate::views::paint::{self, Plot};
use potset_app::State;
use potset_app::mishap::MishapTold;
use potset_base::number::{fixed, ticks};
use potset_report::mishap as say;
use potset_science::Forecast;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{self, Curve, Dash};
use potset_ui_kit::widgets::card::boxed;

/// Heights of the strips, room for numbers at their left and below, points.
const STRIP: f32 = 130.0;
const LEFT: f32 = 60.0;
const BELOW: f32 = 22.0;
const BETWEEN: f32 = 16.0;

/// The scale of sourness, and that of thickness, Pa·s, by its logarithm.
const PH: (f64, f64) = (3.6, 6.8);
const THICK: (f64, f64) = (0.005, 8.0);

/// Draws both strips.
pub fn show(ui: &mut Ui, state: &State, told: &MishapTold) {
    let chosen = state.mishap.chosen;
    let Some(cause) = told.ranking.causes.get(chosen) else { return };
    boxed(ui, "How it would have gone", |ui| {
        let Some(Some(curves)) = told.curves.get(chosen) else {
            potset_ui_kit::widgets::card::quiet(
                ui,
                "The model does not forecast this cause: it goes by what is seen.",
            );
            return;
        };
        let (planned, made) = (&told.planned, curves);
        let height = 2.0 * STRIP + BETWEEN + BELOW;
        let (whole, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
        let end = planned.stop_h.max(made.stop_h) * 1.1 + 1.0;
        let strip = |i: f32| {
            let top = whole.top() + i * (STRIP + BETWEEN);
            Rect::from_min_size(pos2(whole.left() + LEFT, top), vec2(whole.width() - LEFT - 8.0, STRIP))
        };
        let words = sentence(&say::title(cause), planned, made);
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &words));
        let t = tokens::of(ui);
        let ph = Plot { rect: strip(0.0), x: (0.0, end), y: PH };
        let thick = Plot { rect: strip(1.0), x: (0.0, end), y: (THICK.0.ln(), THICK.1.ln()) };
        for plot in [&ph, &thick] {
            ui.painter().rect_filled(plot.rect, 0.0, t.sheet);
        }
        paint::grid_y(ui, &ph, ticks(ph.y, 4.0, ""));
        let laws = potset_forecast::params::shipped().map(|params| params.laws().words);
        if let Ok(words) = laws {
            let marks = [
                ("pours", 0.02),
                ("ribbons", words.pours_below),
                ("dollops", words.ribbons_below),
                ("stands", words.dollops_below),
            ];
            paint::grid_y(ui, &thick, marks.map(|(word, from)| (f64::ln(from), word.to_owned())));
        }
        paint::axis(ui, &ph, |_| None);
        paint::axis(ui, &thick, |_| None);
        let log = |v: &Vec<f64>| v.iter().map(|v| v.max(1e-6).ln()).collect::<Vec<f64>>();
        draw(ui, &ph, &t.ph, (planned, &planned.ph), (made, &made.ph));
        let (a, b) = (log(&planned.chilled.viscosity50), log(&made.chilled.viscosity50));
        draw(ui, &thick, &t.texture_chilled, (planned, &a), (made, &b));
        let small = fonts::semibold(tokens::SMALL);
        let corner = |plot: &Plot| plot.rect.left_bottom() + vec2(6.0, -4.0);
        ui.painter().text(corner(&ph), Align2::LEFT_BOTTOM, "Sourness (pH)", small.clone(), t.ph.label);
        ui.painter().text(
            corner(&thick),
            Align2::LEFT_BOTTOM,
            "Texture, from the fridge",
            small,
            t.texture_chilled.label,
        );
        for plot in [&ph, &thick] {
            paint::upright(ui, plot, made.stop_h, "stopped", t.stop_line, 0);
        }
        ui.label(
            egui::RichText::new("Dashed: as planned. Solid: as this cause would have it.").color(t.ink_soft),
        );
    });
}

fn draw(ui: &Ui, plot: &Plot, look: &Curve, planned: (&Forecast, &Vec<f64>), made: (&Forecast, &Vec<f64>)) {
    let painter = plot.inside(ui);
    let path = |(f, ys): (&Forecast, &Vec<f64>)| plot.path(f.t.iter().copied().zip(ys.iter().copied()));
    painter.extend(Dash::DASHED.shapes(&path(planned), Stroke::new(tokens::CURVE, look.ghost())));
    painter.add(egui::Shape::line(path(made), look.stroke()));
}

/// The chart in a sentence.
fn sentence(cause: &str, planned: &Forecast, made: &Forecast) -> String {
    let ph = |f: &Forecast| fixed(f.value(&f.ph, f.stop_h), 1);
    format!("{cause}: pH {} at the stop, planned {}", ph(made), ph(planned))
}
