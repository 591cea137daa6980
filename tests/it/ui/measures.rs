//! Amounts in any measure: typed, picked, refused, and that a drag in spoons moves nothing.

use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_base::measures::Measure;
use potset_doc::pantry;

use super::bench::{drag, rects};
use super::{Window, design, press, type_number, undo, window};

const TALL: [f32; 2] = [1280.0, 1900.0];
const SUGAR: &str = "Sugar for the culture";

/// Grams of a metric tablespoon of the design's first sugar.
fn tablespoon(h: &Harness<'_, Window>) -> f64 {
    let d = design(h);
    15.0 * pantry::find(&d.snapshot.sugars, &d.sugars[0].entry).unwrap().bulk_density.value
}

fn shown(h: &Harness<'_, Window>, field: &str) -> String {
    h.get_by_role_and_label(Role::SpinButton, field).accesskit_node().value().unwrap_or_default()
}

/// Opens a menu of measures and picks the line that contains some words.
fn pick_measure(h: &mut Harness<'_, Window>, menu: &str, line: &str) {
    press(h, menu);
    let lines = h.query_all_by_role(Role::Button);
    let found =
        lines.filter(|n| n.accesskit_node().label().is_some_and(|l| l.ends_with(line))).collect::<Vec<_>>();
    assert_eq!(found.len(), 1, "{line}");
    found[0].click();
    h.run();
}

#[test]
fn an_amount_for_the_whole_pot_is_turned_into_the_dose() {
    let mut h = window(TALL);
    let start = design(&h);
    let (litres, spoon) = (start.litres(), tablespoon(&h));
    for (text, grams) in
        [("2 tbsp", 2.0 * spoon), ("1½ tbsp", 1.5 * spoon), ("25 g", 25.0), ("12,5 g/L", 12.5 * litres)]
    {
        type_number(&mut h, SUGAR, text);
        let dose = design(&h).sugars[0].g_per_l;
        assert!((dose * litres - grams).abs() < 1e-9 * grams, "{text}: {dose}");
    }
    assert_eq!(design(&h).sugars[0].measure, Measure::Gram, "typing does not change how it is said");
    undo(&mut h, 4);
    assert_eq!(design(&h), start);
    type_number(&mut h, "Base amount", "1 kg");
    let entry = pantry::find(&start.snapshot.bases, &start.bases[0].entry).unwrap();
    assert!((design(&h).bases[0].litres * entry.density.value - 1.0).abs() < 1e-9);
    type_number(&mut h, "Culture dose", "0.1 g");
    let entry = pantry::find(&start.snapshot.cultures, &start.cultures[0].entry).unwrap();
    let grams = design(&h).cultures[0].rate * entry.grams_per_litre.value * design(&h).litres();
    assert!((grams - 0.1).abs() < 1e-9, "{grams}");
}

#[test]
fn a_measure_changes_only_what_is_shown_and_typed() {
    let mut h = window(TALL);
    let start = design(&h);
    let before = h.state().shell.runner.state.answer.forecast.clone();
    pick_measure(&mut h, "Measure of the sugar 1", "tbsp of 15\u{a0}mL");
    let said = design(&h);
    assert_eq!(said.sugars[0].measure, Measure::Tablespoon);
    assert_eq!(said.sugars[0].g_per_l, start.sugars[0].g_per_l);
    assert_eq!(h.state().shell.runner.state.answer.forecast, before);
    assert!(shown(&h, SUGAR).ends_with("tbsp"), "{}", shown(&h, SUGAR));
    h.get_by_label_contains("g, 15\u{a0}mL each");
    type_number(&mut h, SUGAR, "3");
    assert!((design(&h).sugars[0].g_per_l * start.litres() - 3.0 * tablespoon(&h)).abs() < 1e-9);
    assert_eq!(shown(&h, SUGAR), "3\u{a0}tbsp");
    undo(&mut h, 2);
    assert_eq!(design(&h), start);
}

#[test]
fn a_knife_tip_says_how_rough_it_is() {
    let mut h = window(TALL);
    let advice = Measure::KnifeTip.advice().unwrap();
    assert!(h.query_by_label(advice).is_none());
    pick_measure(&mut h, "Measure of the culture 1", "of 0.1–0.5\u{a0}g");
    assert_eq!(design(&h).cultures[0].measure, Measure::KnifeTip);
    h.get_by_label(advice);
    pick_measure(&mut h, "Measure of the thickener 1", "of 0.3\u{a0}mL");
    h.get_by_label(Measure::Pinch.advice().unwrap());
}

#[test]
fn what_is_no_amount_is_refused_with_its_mend() {
    let mut h = window(TALL);
    let start = design(&h);
    for (text, said) in
        [("2 spoons", "I don't know"), ("2 pints", "has no pint"), ("3 kg", "than the lever can reach")]
    {
        type_number(&mut h, SUGAR, text);
        h.get_by_label_contains(said);
        assert_eq!(design(&h), start, "{text}");
        press(&mut h, "Dismiss");
    }
}

#[test]
fn a_drag_in_spoons_moves_nothing() {
    let mut h = window(TALL);
    pick_measure(&mut h, "Measure of the sugar 1", "tbsp of 15\u{a0}mL");
    pick_measure(&mut h, "Measure of the base 1", "cups of 250\u{a0}mL");
    pick_measure(&mut h, "Measure of the culture 1", "of 0.1–0.5\u{a0}g");
    let places = |h: &Harness<'_, Window>| {
        let mut all = rects(h);
        for name in ["Measure of the sugar 1", "Measure of the base 1", "Measure of the culture 1"] {
            all.insert(name.to_owned(), h.get_by_role_and_label(Role::Button, name).rect());
        }
        all
    };
    let before = places(&h);
    for lever in [SUGAR, "Base amount", "Culture dose"] {
        let rect = h.get_by_role_and_label(Role::Slider, lever).rect();
        drag(&mut h, rect, 0.2, 0.9, 20, |h| {
            for (name, now) in places(h) {
                let then = before[&name];
                let moved = (now.min - then.min).length().max((now.max - then.max).length());
                assert!(moved <= 1.0, "{name} moved by {moved} while {lever} was dragged");
            }
        });
    }
}

#[test]
fn what_cannot_be_taken_is_told_once_and_goes_with_the_next_change() {
    use potset_app::{Action, Command};
    let mut h = window([1280.0, 800.0]);
    let before = design(&h);
    let refused =
        |h: &Harness<'_, Window>| h.state().shell.runner.state.refused.as_ref().map(potset_base::Note::line);
    for (field, text, why) in [
        ("Hold at", "300", "more than allowed"),
        ("Hold at", "warm", "is not a number in °C"),
        ("Fat on the label", "90", "more than allowed"),
        ("Sugar for the culture", "a lot", ""),
    ] {
        type_number(&mut h, field, text);
        let told = refused(&h).unwrap_or_else(|| panic!("{field}: {text} was not told"));
        assert!(told.starts_with(field) && told.contains(why), "{told}");
        assert_eq!(design(&h), before, "{field}: {text}");
    }
    // Degrees Fahrenheit are read, and what was told goes.
    type_number(&mut h, "Hold at", "104 F");
    assert!((design(&h).hold().unwrap().set_c - 40.0).abs() < 1e-9);
    type_number(&mut h, "Hold at", "99");
    assert!(refused(&h).is_some());
    h.state_mut().shell.runner.run(Command::Do(Action::Kitchen));
    h.run();
    type_number(&mut h, "Fridge", "40");
    assert!(refused(&h).unwrap().starts_with("Fridge"));
    assert!(h.state().shell.runner.state.kitchen.fridge_c < 15.0);
}
