//! The base on its way to the culture's warmth.

use egui::{Grid, RichText, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use super::numbers::{Wanted, number};
use super::told;
use potset_app::card::{Told, WarmTold};
use potset_app::{Command, State};
use potset_base::measures::whole;
use potset_base::number;
use potset_base::units::WARMTH;
use potset_base::units::said::warmth;
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::{fonts, tokens};

const fn warm(name: &'static str, hover: &'static str) -> Wanted {
    Wanted { name, unit: WARMTH, range: 0.0..=100.0, decimals: 0, hover }
}

const FROM: Wanted = warm("The base has", "How warm it is as it stands there");
const TO: Wanted = warm("It is to have", "What the culture wants");
const BATH: Wanted = warm("The bath has", "How hot the water is that the jars or tins stand in");
const BATH_KG: Wanted = Wanted {
    name: "Water in the bath",
    unit: "kg",
    range: 0.1..=100.0,
    decimals: 1,
    hover: "A kilogram of water is a litre",
};
const ACROSS: Wanted = Wanted {
    name: "Tin, across",
    unit: "cm",
    range: 2.0..=30.0,
    decimals: 1,
    hover: "An unopened tin that stands in the bath",
};
const HIGH: Wanted = Wanted { name: "Tin, high", ..ACROSS };

/// Draws the page.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let wish = &state.card.wish;
    boxed(ui, "To the culture's warmth", |ui| {
        ui.horizontal_wrapped(|ui| {
            number(ui, &FROM, wish.from_c, wish, out, |wish, v| wish.from_c = v);
            number(ui, &TO, wish.to_c, wish, out, |wish, v| wish.to_c = v);
        });
    });
    let Some(Told::WarmUp(warm)) = told(ui, state) else { return };
    boxed(ui, "How long", |ui| {
        ways(ui, warm);
        let tap = warmth(state.kitchen.hot_tap_c, 0);
        quiet(ui, &format!("Poured out and stirred. Your hot tap gives {tap}: change that in Kitchen."));
    });
    boxed(ui, "A bath from the kettle", |ui| {
        ui.horizontal_wrapped(|ui| {
            number(ui, &BATH_KG, wish.bath_kg, wish, out, |wish, v| wish.bath_kg = v);
            number(ui, &BATH, wish.bath_c, wish, out, |wish, v| wish.bath_c = v);
        });
        match &warm.bath {
            Some(bath) => {
                plain(
                    ui,
                    &format!(
                        "Mix {} of boiling water with {} from the cold tap. Water and base meet at {}.",
                        whole::volume(bath.boiling_kg, 2),
                        whole::volume(bath.cold_kg, 2),
                        warmth(bath.ends_at_c, 0)
                    ),
                );
            }
            None => plain(ui, "Boiling water and your cold tap cannot make this bath."),
        }
        quiet(ui, &format!("At your altitude water boils at {}.", warmth(warm.boils_c, 1)));
    });
    boxed(ui, "Or a closed tin in that bath, unshaken", |ui| {
        ui.horizontal_wrapped(|ui| {
            number(ui, &ACROSS, wish.tin_cm.0, wish, out, |wish, v| wish.tin_cm.0 = v);
            number(ui, &HIGH, wish.tin_cm.1, wish, out, |wish, v| wish.tin_cm.1 = v);
        });
        match warm.unshaken_s {
            Some(s) => plain(
                ui,
                &format!(
                    "Its middle is there after {}, if what is in it stands as one piece. Shake it now and then, and it \
                     is there sooner.",
                    number::hours(s / 3600.0)
                ),
            ),
            None => plain(ui, "Its middle does not get there in this bath."),
        }
        quiet(ui, "Warm a closed tin in water that is hot to the hand, never on the stove.");
    });
}

/// Each way with its minutes, and the curves of all.
fn ways(ui: &mut Ui, warm: &WarmTold) {
    let t = tokens::of(ui);
    let looks = [t.ph, t.sugar_total, t.texture_warm];
    let look = |i: usize| &looks[i % looks.len()];
    Grid::new("ways").num_columns(2).spacing([18.0, 4.0]).show(ui, |ui| {
        for (i, (way, told)) in warm.ways.iter().enumerate() {
            ui.label(RichText::new(*way).color(look(i).label));
            match told {
                Ok(warming) => {
                    ui.label(RichText::new(number::hours(warming.hours)).font(fonts::semibold(tokens::BODY)))
                }
                Err(why) => ui.label(RichText::new(why).color(t.ink_soft)),
            };
            ui.end_row();
        }
    });
    let curves =
        warm.ways.iter().enumerate().filter_map(|(i, (way, told))| Some((i, way, told.as_ref().ok()?)));
    let curves: Vec<_> = curves.collect();
    let longest = curves.iter().map(|(_, _, w)| w.hours).fold(0.0, f64::max);
    if longest <= 0.0 {
        return;
    }
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width().min(520.0), 150.0), Sense::hover());
    let room = rect.shrink2(vec2(40.0, 18.0));
    let ends = curves.iter().flat_map(|(_, _, w)| w.curve.iter().map(|(_, c)| *c));
    let (low, high) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), c| (a.min(c), b.max(c)));
    let at = |h: f64, c: f64| {
        let x = egui::lerp(room.left()..=room.right(), (h / longest) as f32);
        let y = egui::lerp(room.bottom()..=room.top(), ((c - low) / (high - low).max(1e-9)) as f32);
        pos2(x, y)
    };
    ui.painter().rect_filled(room, 2.0, t.sheet);
    let small = fonts::regular(tokens::SMALL);
    let text = |at, anchor, words: String| {
        ui.painter().text(at, anchor, words, small.clone(), t.ink_soft);
    };
    text(room.left_bottom() - vec2(4.0, 4.0), egui::Align2::RIGHT_CENTER, warmth(low, 0));
    text(room.left_top() - vec2(4.0, -4.0), egui::Align2::RIGHT_CENTER, warmth(high, 0));
    text(room.left_bottom() + vec2(0.0, 10.0), egui::Align2::LEFT_CENTER, "start".to_owned());
    text(room.right_bottom() + vec2(0.0, 10.0), egui::Align2::RIGHT_CENTER, number::hours(longest));
    for (i, _, warming) in &curves {
        let path: Vec<_> = warming.curve.iter().map(|(h, c)| at(*h, *c)).collect();
        let stroke = Stroke::new(tokens::CURVE, look(*i).line);
        ui.painter().extend(look(*i).dash.shapes(&path, stroke));
    }
    let told: Vec<String> =
        curves.iter().map(|(_, way, w)| format!("{way} it takes {}", number::hours(w.hours))).collect();
    let sentence = format!("Warmth against time: {}", told.join("; "));
    response.widget_info(|| WidgetInfo::labeled(egui::accesskit::Role::Image, true, &sentence));
}
