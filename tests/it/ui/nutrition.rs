//! The fold of nutrition stays in its column, follows the chosen custom; the kitchen and outdated entries on the bench.

use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::command::{BenchCommand, PantryCommand};
use potset_app::{Action, Command};
use potset_base::label_rule::LabelRule;
use potset_doc::Edit;
use potset_doc::own::OwnEdit;
use potset_doc::pantry::EntryKind;

use super::{Window, design, pick, press, type_number, undo, window, window_on};

/// Left edges of what stands in the window at fixed places.
fn places(h: &Harness<'_, Window>) -> Vec<f32> {
    ["Tang", "Sugar left", "Watch"].iter().map(|label| h.get_by_label(label).rect().left()).collect()
}

#[test]
fn the_fold_fits_its_column_in_every_custom() {
    for (size, demo) in
        [([1280.0, 2600.0], "strained-milk-pot.ron"), ([1280.0, 2600.0], "lactose-free-pot.ron")]
    {
        let mut h = window_on(size, demo);
        let before = places(&h);
        press(&mut h, "Nutrition, allergens, cost");
        for rule in LabelRule::ALL {
            if h.state().shell.runner.state.kitchen.label_rule != rule {
                pick(&mut h, "Custom of the table", rule.place());
            }
            assert_eq!(h.state().shell.runner.state.kitchen.label_rule, rule);
            assert_eq!(places(&h), before, "the fold pushes its column in {}", rule.place());
            let rows: Vec<egui::Rect> =
                h.get_all_by_label_contains("in 100 g as eaten").map(|row| row.rect()).collect();
            assert!(rows.len() > 8 && rows.iter().all(|row| row.right() <= size[0]), "{rows:?}");
            h.get_by_label(rule.statement());
            h.get_by_label_contains("check local labelling law");
        }
        press(&mut h, "before the culture");
        assert_eq!(places(&h), before);
    }
}

#[test]
fn a_serving_is_part_of_the_design() {
    let mut h = window([1280.0, 1800.0]);
    let servings = h.state().shell.runner.state.answer.nutrition.servings;
    type_number(&mut h, "Serving size", "250");
    assert!((design(&h).pots.serving_g - 250.0).abs() < 1e-9);
    let now = h.state().shell.runner.state.answer.nutrition.servings;
    assert!((now - servings / 2.0).abs() < 1e-9);
    undo(&mut h, 1);
    assert!((design(&h).pots.serving_g - 125.0).abs() < 1e-9);
}

#[test]
fn an_entry_that_changed_is_told_and_taken_over_by_one_press() {
    let mut h = window([1280.0, 1800.0]);
    let copy = OwnEdit::Copy(EntryKind::Base, "coconut_cream_tinned".into(), "Weir House cream".into());
    let key = "weir_house_cream".to_owned();
    h.state_mut().shell.runner.run(PantryCommand::Own(copy));
    h.state_mut().shell.runner.run(PantryCommand::UseBase(key.clone()));
    h.run();
    assert!(h.query_by_label("Weir House cream has changed in the pantry").is_none());
    let fat = OwnEdit::Figure(EntryKind::Base, key, "composition.fat".into(), 24.0);
    h.state_mut().shell.runner.run(PantryCommand::Own(fat));
    h.run();
    h.get_by_label("Weir House cream has changed in the pantry");
    press(&mut h, "Update the base");
    assert!(h.query_by_label("Weir House cream has changed in the pantry").is_none());
    assert!((design(&h).snapshot.bases[0].composition.fat.value - 24.0).abs() < 1e-9);
    undo(&mut h, 1);
    h.get_by_label("Weir House cream has changed in the pantry");
}

#[test]
fn the_kitchen_takes_warmers_vessels_and_money() {
    let mut h = window([1280.0, 1200.0]);
    h.state_mut().shell.runner.run(Command::Do(Action::Kitchen));
    h.run();
    // The window finds its place in a few passes.
    for _ in 0..4 {
        h.run();
    }
    press(&mut h, "Warmers, measured");
    pick(&mut h, "Add a warmer", "Heated pot");
    let kitchen = |h: &Harness<'_, Window>| h.state().shell.runner.state.kitchen.clone();
    assert_eq!(kitchen(&h).warmers.len(), 1);
    pick(&mut h, "Add a warmer", "Insulated flask");
    for (field, text) in
        [("filled at", "42"), ("after", "12"), ("reads", "36"), ("room", "21"), ("water", "1")]
    {
        type_number(&mut h, &format!("Insulated flask, reading 1, {field}"), text);
    }
    let [reading] = &kitchen(&h).flasks[..] else { panic!("{:?}", kitchen(&h).flasks) };
    assert_eq!((reading.filled_c, reading.after_h, reading.reads_c), (42.0, 12.0, 36.0));
    h.get_by_label_contains("loses half of its warmth above the room in 25\u{a0}h");
    type_number(&mut h, "Insulated flask, reading 1, reads", "43");
    h.get_by_label_contains("reads warmer than it was filled");
    press(&mut h, "Another reading of Insulated flask");
    assert_eq!(kitchen(&h).flasks.len(), 2);
    press(&mut h, "Vessels");
    pick(&mut h, "Add a vessel", "1 L jar");
    assert_eq!(kitchen(&h).vessels[0].count, 1);
    h.get_by_role_and_label(Role::TextInput, "Currency").focus();
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Currency").type_text("€");
    h.run();
    h.key_press(egui::Key::Enter);
    h.run();
    assert_eq!(kitchen(&h).money(1.5), "€\u{a0}1.50");
    pick(&mut h, "You check sourness with", "strips");
    h.get_by_role_and_label(Role::SpinButton, "It reads in steps of pH");
    h.get_by_role_and_label(Role::Button, "Usual kitchen").click();
    h.run();
    assert_eq!(kitchen(&h), potset_doc::Kitchen::default());
    assert!(!h.state().shell.runner.state.session.history.unsaved(), "a kitchen is no part of a design");
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::HoldHours(20.0), None));
}
