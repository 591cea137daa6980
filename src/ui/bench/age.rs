//! Form, age and keeping of a culture line: one quiet line that unfolds.

use egui::{IdSalt, RichText, Ui};

use super::hand::EditContext;
use super::shelf::{numbered, of_span};
use potset_base::number::{self, NBSP};
use potset_doc::Edit;
use potset_doc::design::CultureLine;
use potset_doc::pantry::Form;
use potset_forecast::lever::spans;
use potset_report::advice::living_words;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;

/// Where a dry culture is kept; the first is what is taken unless the design says otherwise. °C, by common practice.
const PLACES: [(&str, Option<f64>); 4] = [
    ("in the freezer", None),
    ("in the fridge", Some(4.0)),
    ("in a cupboard", Some(20.0)),
    ("somewhere warm", Some(25.0)),
];

/// Below this share of living cells the line says so.
const TOLD_BELOW: f64 = 0.8;

/// Draws the line, and what is under it when it is unfolded.
pub fn show(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize, line: &CultureLine, form: Form) {
    let t = tokens::of(ui);
    let living = hand.state.answer.facts.lost.get(i).map_or(1.0, |lost| 10.0_f64.powf(-lost));
    let words = RichText::new(summary(line, form, living)).size(tokens::SMALL + 1.0).color(t.ink_soft);
    egui::CollapsingHeader::new(words).id_salt(("age", i)).show(ui, |ui| {
        if line.age_days > 0.0 {
            ui.label(RichText::new(form.words()).size(tokens::SMALL + 1.0).color(t.ink_soft));
        }
        ui.horizontal(|ui| {
            ui.label(if form.dry() { "Age" } else { "Age, in the fridge" });
            let name = numbered("Age of the culture", i);
            let hover = "Days since it was made or opened; 0 is fresh";
            let age = of_span(&name, &spans::CULTURE_AGE, line.age_days, 1.0, hover);
            hand.number(ui, &age, |v| Edit::CultureAge(i, v));
        });
        if form.dry() {
            kept(ui, hand, i, line);
        }
    });
}

/// Place, temperature and packet: they act on dry cultures only.
fn kept(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize, line: &CultureLine) {
    let usual = hand.state.answer.facts.kept_c.get(i).copied();
    ui.horizontal(|ui| {
        ui.label("Kept");
        let names = PLACES.map(|(name, _)| name);
        let salt = IdSalt::new(("kept", i));
        if let Some(picked) = picker(ui, salt, &numbered("Where it was kept", i), place(line.kept_c), &names)
        {
            hand.edit(Edit::CultureKept(i, PLACES[picked].1));
        }
        let name = numbered("Kept at", i);
        let kept_c = line.kept_c.or(usual).unwrap_or(f64::NAN);
        let hover = "A dry culture loses cells faster the warmer it is kept";
        let at = of_span(&name, &spans::CULTURE_KEPT, kept_c, 0.5, hover);
        hand.number(ui, &at, |v| Edit::CultureKept(i, Some(v)));
    });
    let mut open = line.opened;
    if tick(ui, &mut open, numbered("The packet was open", i)).changed() {
        hand.edit(Edit::CultureOpened(i, open));
    }
}

/// The place that a temperature stands for, or that it is another one.
fn place(kept_c: Option<f64>) -> &'static str {
    PLACES.into_iter().find(|(_, c)| *c == kept_c).map_or("at", |(name, _)| name)
}

/// "freeze-dried powder, fresh", or "300 days old, open · 12 % alive": short, for it stands on one line.
fn summary(line: &CultureLine, form: Form, living: f64) -> String {
    if line.age_days <= 0.0 {
        return format!("{}, fresh", form.words());
    }
    let mut out = format!("{}{NBSP}days old", number::plain(line.age_days));
    if line.opened && form.dry() {
        out.push_str(", open");
    }
    if living < TOLD_BELOW {
        out.push_str(&format!(" · {} alive", living_words(living)));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quiet_line() {
        let line =
            |age_days, opened| CultureLine { age_days, opened, ..CultureLine::new("any".to_owned(), 1.0) };
        assert_eq!(summary(&line(0.0, true), Form::FreezeDried, 1.0), "freeze-dried powder, fresh");
        assert_eq!(summary(&line(40.0, false), Form::Capsule, 0.9), "40\u{a0}days old");
        let old = summary(&line(200.0, true), Form::FreezeDried, 0.123);
        assert_eq!(old, "200\u{a0}days old, open · 12\u{a0}% alive");
        let dead = summary(&line(3000.0, false), Form::BackSlop, 1e-15);
        assert_eq!(dead, "3000\u{a0}days old · under 1\u{a0}% alive");
    }

    #[test]
    fn a_temperature_of_its_own_has_no_place() {
        assert_eq!(place(None), "in the freezer");
        assert_eq!(place(Some(4.0)), "in the fridge");
        assert_eq!(place(Some(10.0)), "at");
    }
}
