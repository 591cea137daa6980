//! The fold *In the fridge*: pH over six weeks as a small plot, and the days in a table, with the range of possible pots.

use egui::{Align2, Rect, RichText, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use potset_base::number;
use potset_base::units::said::warmth_plain;
use potset_doc::steps::LONGEST_STORE_DAYS;
use potset_judge::keeping::{Day, DayRange, KeepingReading};
use potset_report::spread::day_sentence;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens;
use potset_ui_kit::tokens::Tokens;
use potset_ui_kit::widgets::card;

const HEIGHT: f32 = 92.0;
/// Days with a tick.
const TICKS: [f64; 7] = [0.0, 7.0, 14.0, 21.0, 28.0, 35.0, LONGEST_STORE_DAYS];

/// Draws the fold.
///
/// - `ranges` — of possible pots, empty until they are drawn.
pub fn show(ui: &mut Ui, k: &KeepingReading, ranges: &[DayRange]) {
    let t = tokens::of(ui);
    let title = RichText::new("In the fridge").font(fonts::semibold(tokens::BODY)).color(t.ink);
    egui::CollapsingHeader::new(title).id_salt("in the fridge").show_unindented(ui, |ui| {
        card::frame(t).show(ui, |ui| {
            ui.set_width(ui.available_width());
            plot(ui, k, t);
            table(ui, &k.days, ranges, t);
        });
    });
}

/// What the plot says: from the first day to the last, and when the tang word changes.
pub fn sentence(k: &KeepingReading) -> String {
    let mut out = format!("In the fridge at {}:", warmth_plain(k.kept_c));
    let Some((first, last)) = k.days.first().zip(k.days.last()) else { return out + " nothing is known" };
    let day = |d: &Day| {
        format!(" pH {} and {} on day {}", number::fixed(d.ph, 2), d.tang.word(), number::fixed(d.days, 0))
    };
    out.push_str(&format!("{},{}", day(first), day(last)));
    if let Some((from, word)) = k.sharper {
        out.push_str(&format!("; {} from about day {}", word.word(), number::fixed(from, 0)));
    }
    out
}

/// The range of pH that is drawn, in halves, at least one unit high.
fn range(ph: &[f64]) -> (f64, f64) {
    let finite = || ph.iter().copied().filter(|v| v.is_finite());
    let high = (finite().fold(4.5, f64::max) * 2.0).ceil() / 2.0;
    let low = (finite().fold(high - 1.0, f64::min) * 2.0).floor() / 2.0;
    (low, high)
}

fn plot(ui: &mut Ui, k: &KeepingReading, t: &Tokens) {
    let (whole, response) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(egui::accesskit::Role::Image, ui.is_enabled(), sentence(k)));
    let small = fonts::regular(tokens::SMALL);
    let area = Rect::from_min_max(whole.min + vec2(26.0, 6.0), whole.max - vec2(8.0, 16.0));
    let (low, high) = range(&k.curves.ph);
    let at = |days: f64, ph: f64| {
        pos2(
            egui::lerp(area.x_range(), (days / LONGEST_STORE_DAYS) as f32),
            egui::lerp(area.bottom()..=area.top(), ((ph - low) / (high - low)) as f32),
        )
    };
    let painter = ui.painter();
    let rule = Stroke::new(tokens::HAIRLINE, t.rule);
    for day in TICKS {
        let x = at(day, low).x;
        painter.vline(x, area.y_range(), rule);
        let text = if day > 0.0 { number::fixed(day, 0) } else { "day".to_owned() };
        painter.text(pos2(x, whole.bottom() - 6.0), Align2::CENTER_CENTER, text, small.clone(), t.ink_soft);
    }
    let halves = ((high - low) * 2.0).round();
    let every = if halves > 4.0 { 2 } else { 1 };
    for half in (0..=halves as usize).step_by(every) {
        let ph = low + half as f64 / 2.0;
        let y = at(0.0, ph).y;
        painter.hline(area.x_range(), y, rule);
        let text = number::fixed(ph, 1);
        painter.text(pos2(area.left() - 5.0, y), Align2::RIGHT_CENTER, text, small.clone(), t.ink_soft);
    }
    let path: Vec<_> = k.curves.days.iter().zip(&k.curves.ph).map(|(d, ph)| at(*d, *ph)).collect();
    painter.extend(t.ph.dash.shapes(&path, Stroke::new(tokens::CURVE, t.ph.line)));
    painter.text(
        area.right_top() + vec2(-3.0, 1.0),
        Align2::RIGHT_TOP,
        format!("pH at {}", warmth_plain(k.kept_c)),
        fonts::semibold(tokens::SMALL),
        t.ph.label,
    );
    response.on_hover_text(sentence(k));
}

/// What stands under the pointer on a day: living cells, and the range of possible pots.
fn hover(day: &Day, ranges: &[DayRange]) -> String {
    let count = |(name, log): &(String, f64)| format!("{name} {}", number::fixed(*log, 1));
    let counts: Vec<String> = day.counts.iter().map(count).collect();
    let cells = format!("Living cells, log10 in a gram: {}", counts.join(", "));
    let range = ranges.iter().find(|r| (r.days - day.days).abs() < 1e-6);
    range.map_or(cells.clone(), |range| format!("{cells}\n{}", day_sentence(range)))
}

fn table(ui: &mut Ui, days: &[Day], ranges: &[DayRange], t: &Tokens) {
    let text = |s: String| RichText::new(s).size(tokens::SMALL).color(t.ink);
    let head = |s: &str| RichText::new(s).size(tokens::SMALL).color(t.ink_soft);
    egui::Grid::new("days in the fridge")
        .num_columns(5)
        .spacing(vec2(12.0, 2.0))
        .min_col_width(24.0)
        .min_row_height(15.0)
        .show(ui, |ui| {
            for name in ["day", "pH", "tang", "texture", "whey"] {
                ui.label(head(name));
            }
            ui.end_row();
            for day in days {
                ui.label(text(number::plain(day.days))).on_hover_text(hover(day, ranges));
                ui.label(text(number::fixed(day.ph, 2))).on_hover_text(format!(
                    "Titratable acidity {} %: {}",
                    number::fixed(day.titratable, 2),
                    potset_report::explain::degrees(day.titratable)
                ));
                ui.label(text(day.tang.word().to_owned()));
                ui.label(text(day.texture.word().to_owned()))
                    .on_hover_text(format!("{} Pa·s at 50 1/s", number::figures(day.viscosity, 2)));
                ui.label(text(format!("{} %", number::fixed(day.whey_standing, 1))));
                ui.end_row();
            }
        });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_range_is_in_halves_and_never_flat() {
        assert_eq!(range(&[4.32, 4.21, 4.05]), (3.5, 4.5));
        assert_eq!(range(&[6.61, 6.2]), (6.0, 7.0));
        assert_eq!(range(&[]), (3.5, 4.5));
    }
}
