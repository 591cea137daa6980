//! What can be added to a design: additives, late sugar, age of cultures, rests, straining, keeping, events.

use std::sync::Arc;

use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_app::State;
use potset_app::command::BenchCommand;
use potset_doc::design::{AddedWhen, SweetWhen};
use potset_doc::pantry::Additive;
use potset_doc::settings::{Depth, Theme};
use potset_doc::steps::{Happening, Step, Way};
use potset_doc::{Edit, Kitchen, Settings, check, format};

use super::{Window, design, pick, press, type_number, undo, window, window_of, window_on};

const TALL: [f32; 2] = [1280.0, 1900.0];

/// Citric acid; molar mass 192.12, pK at 25 °C. Source: published, handbook tables of acid constants.
const ACID: &str = r#"(
    key: "test_acid", name: "Test acid", vegan: true, gluten_free: true,
    groups: [
        (name: "first", mmol_per_g: (v: 5.2, unit: "mmol/g", from: (kind: Derived, text: "test")),
         pk: (v: 3.1, unit: "", from: (kind: Published, text: "test")),
         bound: (v: 1.0, unit: "", from: (kind: Derived, text: "test"))),
    ],
    water: (v: 0.0, unit: "g/100 g", from: (kind: Assumed, text: "test")),
    bulk_density: (v: 0.9, unit: "g/mL", from: (kind: Assumed, text: "test")),
    usual: (0.5, 2.0), handling: "Only for tests",
)"#;

fn with_additive(size: [f32; 2]) -> Harness<'static, Window> {
    let settings = Settings { theme: Theme::Light, depth: Depth::Details, ..Settings::default() };
    let mut state = State::start(settings, Kitchen::default()).unwrap();
    let acid: Additive = format::asset(ACID).unwrap();
    Arc::make_mut(&mut state.pantry).additives = vec![acid];
    window_of(size, state)
}

fn ph0(h: &Harness<'_, Window>) -> f64 {
    h.state().shell.runner.state.answer.facts.ph0
}

fn top(h: &Harness<'_, Window>, label: &str) -> f32 {
    h.get_by_role_and_label(Role::Label, label).rect().top()
}

#[test]
fn an_additive_is_added_dosed_moved_and_taken_out() {
    let mut h = with_additive(TALL);
    let start = design(&h);
    let sour = ph0(&h);
    pick(&mut h, "Other additions", "Test acid");
    let line = design(&h).additives[0].clone();
    assert_eq!((line.entry.as_str(), line.g_per_l), ("test_acid", 1.25));
    assert_eq!(line.when, AddedWhen::WithTheBase);
    h.get_by_role_and_label(Role::Slider, "Amount of it").set_value_accesskit(2.0);
    h.run();
    assert!((design(&h).additives[0].g_per_l - 2.0).abs() < 1e-9);
    assert!(ph0(&h) < sour - 0.2, "{} from {sour}", ph0(&h));
    pick(&mut h, "When it goes in", "after the hold");
    assert_eq!(design(&h).additives[0].when, AddedWhen::AfterTheHold);
    assert!((ph0(&h) - sour).abs() < 1e-6, "what comes later does not sour the base");
    pick(&mut h, "Other additions", "none");
    assert_eq!(design(&h).additives, []);
    undo(&mut h, 4);
    assert_eq!(design(&h), start);
}

#[test]
fn the_empty_card_of_additives_is_only_a_head_and_bears_an_empty_pantry() {
    let settings = Settings { depth: Depth::Details, ..Settings::default() };
    let mut state = State::start(settings, Kitchen::default()).unwrap();
    Arc::make_mut(&mut state.pantry).additives.clear();
    for h in [with_additive(TALL), window_of(TALL, state)] {
        let height = top(&h, "Culture") - top(&h, "Other additions");
        assert!(height < 50.0, "{height}");
    }
    let settings = Settings { depth: Depth::Details, ..Settings::default() };
    let mut state = State::start(settings, Kitchen::default()).unwrap();
    Arc::make_mut(&mut state.pantry).additives.clear();
    window_of(TALL, state).get_by_label("nothing in the pantry");
}

#[test]
fn sugar_is_for_the_culture_or_stirred_in() {
    let mut h = window(TALL);
    let start = design(&h);
    let left = h.state().shell.runner.state.answer.verdict.sugar.clone().unwrap().left;
    pick(&mut h, "When the sugar goes in", "stirred in after the hold");
    assert_eq!(design(&h).sugars[0].when, SweetWhen::AfterTheHold);
    h.get_by_role_and_label(Role::Slider, "Sugar stirred in").set_value_accesskit(60.0);
    h.run();
    h.get_by_label_contains("g/L stirred in");
    let sugar = h.state().shell.runner.state.answer.verdict.sugar.clone().unwrap();
    assert!(sugar.stirred_in > 50.0 && sugar.left < left, "{sugar:?}");
    undo(&mut h, 2);
    assert_eq!(design(&h), start);
    assert!(h.query_by_label("Sugar stirred in").is_none());
}

#[test]
fn a_culture_has_an_age_and_a_place() {
    let mut h = window(TALL);
    let start = design(&h);
    assert!(h.query_by_role_and_label(Role::SpinButton, "Age of the culture").is_none(), "folded at first");
    press(&mut h, "freeze-dried powder, fresh");
    type_number(&mut h, "Age of the culture", "400 days");
    assert_eq!(design(&h).cultures[0].age_days, 400.0);
    pick(&mut h, "Where it was kept", "in a cupboard");
    assert_eq!(design(&h).cultures[0].kept_c, Some(20.0));
    h.get_by_label_contains("% alive");
    type_number(&mut h, "Kept at", "−5");
    assert_eq!(design(&h).cultures[0].kept_c, Some(-5.0));
    press(&mut h, "The packet was open");
    assert!(design(&h).cultures[0].opened);
    // Even the oldest keeps to its line: what is wider than the column would push the levers out of it.
    let lever = |h: &Harness<'_, Window>| h.get_by_role_and_label(Role::Slider, "Hold at").rect().width();
    let width = lever(&h);
    type_number(&mut h, "Age of the culture", "3650");
    pick(&mut h, "Where it was kept", "somewhere warm");
    h.get_by_label_contains("under 1\u{a0}% alive");
    assert!((lever(&h) - width).abs() < 0.5, "{} from {width}", lever(&h));
    undo(&mut h, 6);
    assert_eq!(design(&h), start);
    h.get_by_label("freeze-dried powder, fresh");
}

#[test]
fn a_culture_from_the_last_pot_is_no_powder() {
    let mut h = window(TALL);
    let key = design(&h).cultures[0].entry.clone();
    let pantry = &mut h.state_mut().shell.runner.state.pantry;
    let pot = Arc::make_mut(pantry).cultures.iter_mut().find(|c| c.key == "dairy_pair").unwrap();
    pot.form = potset_doc::pantry::Form::BackSlop;
    assert_ne!(key, "dairy_pair");
    let edit = Edit::Swap(potset_doc::edit::LineKind::Cultures, 0, "dairy_pair".to_owned());
    h.state_mut().shell.runner.run(BenchCommand::Edit(edit, None));
    h.run();
    h.get_by_label_contains("g of the last pot");
    assert!(h.query_by_label("Weighed as a tenfold mix").is_none());
    press(&mut h, "some of the last pot, fresh");
    h.get_by_role_and_label(Role::SpinButton, "Age of the culture");
    assert!(h.query_by_label("The packet was open").is_none());
}

#[test]
fn a_rest_before_the_culture() {
    let mut h = window_on(TALL, "whole-milk-pot.ron");
    let start = design(&h);
    press(&mut h, "Steps");
    press(&mut h, "Let it stand…");
    assert_eq!(design(&h).steps[1], Step::Stand { hours: 24.0, way: Way::Fridge });
    type_number(&mut h, "Hours of standing", "2,5 h");
    pick(&mut h, "Where it stands", "standing in the room");
    assert_eq!(design(&h).steps[1], Step::Stand { hours: 2.5, way: Way::Room });
    assert!(check::faults(&design(&h)).is_empty());
    press(&mut h, "Remove the rest");
    assert_eq!(design(&h), start);
    undo(&mut h, 4);
    assert_eq!(design(&h), start);
}

#[test]
fn straining_and_keeping_come_after_the_hold_in_order() {
    let mut h = window_on(TALL, "whole-milk-pot.ron");
    let start = design(&h);
    let thick = |h: &Harness<'_, Window>| {
        h.state().shell.runner.state.answer.verdict.texture.clone().unwrap().chilled
    };
    let before = thick(&h);
    press(&mut h, "Keep in the fridge");
    press(&mut h, "Strain in a cloth");
    let count = start.steps.len();
    let steps = design(&h).steps;
    assert_eq!(steps[count], Step::Strain { hours: 6.0, removed: None });
    assert_eq!(steps[count + 1], Step::Store { days: 7.0, at_c: 4.0 });
    assert!(check::faults(&design(&h)).is_empty());
    assert!(thick(&h) > 1.5 * before, "{} from {before}", thick(&h));
    h.get_by_label("Texture, chilled, strained");
    type_number(&mut h, "Hours in the cloth", "2");
    pick(&mut h, "Strained until", "until a share is off");
    type_number(&mut h, "Share run off", "40 %");
    assert_eq!(design(&h).steps[count], Step::Strain { hours: 2.0, removed: Some(0.4) });
    h.get_by_label_contains("40 % runs off: 1.2 L of 2.0 L");
    type_number(&mut h, "Days kept", "21");
    type_number(&mut h, "Fridge of this pot", "6");
    assert_eq!(design(&h).steps[count + 1], Step::Store { days: 21.0, at_c: 6.0 });
    press(&mut h, "Strain in a cloth");
    press(&mut h, "Keep in the fridge");
    assert_eq!(design(&h), start);
    undo(&mut h, 9);
    assert_eq!(design(&h), start);
}

#[test]
fn events_have_times_and_amounts_to_type() {
    let mut h = window(TALL);
    let start = design(&h);
    press(&mut h, "Steps");
    for (menu, typed, want) in [
        ("The power is off", "90 min", Happening::PowerCut { minutes: 90.0 }),
        ("The pot is carried about", "25", Happening::Move { minutes: 25.0 }),
        ("The warmer is set lower", "35,5 °C", Happening::SetTo { c: 35.5 }),
        (
            "Culture goes in again",
            "0.5",
            Happening::LateCulture { entry: start.cultures[0].entry.clone(), rate: 0.5 },
        ),
        ("Sugar goes in late", "8", Happening::LateSugar { entry: "white_sugar".to_owned(), g_per_l: 8.0 }),
    ] {
        press(&mut h, "Something happens in the hold…");
        press(&mut h, menu);
        assert_eq!(design(&h).hold().unwrap().events[0].at_h, 12.0);
        type_number(&mut h, "Time of the event", "3.5 h");
        type_number(&mut h, "Amount of the event", typed);
        let event = design(&h).hold().unwrap().events[0].clone();
        assert_eq!((event.at_h, &event.what), (3.5, &want));
        press(&mut h, &format!("Remove: {}", want.words()));
        assert_eq!(design(&h), start);
        undo(&mut h, 4);
        assert_eq!(design(&h), start, "{menu}");
    }
}

#[test]
fn the_fold_of_keeping_has_its_sentence_and_days() {
    let mut h = window_on(TALL, "whole-milk-pot.ron");
    assert!(h.query_by_label_contains("In the fridge at").is_none(), "folded at first");
    press(&mut h, "In the fridge");
    let k = h.state().shell.runner.state.answer.verdict.keeping.clone().unwrap();
    let plot = h.get_by_label_contains("In the fridge at 4\u{a0}°C: pH");
    let label = plot.accesskit_node().label().unwrap();
    assert!(label.contains("on day 1") && label.contains("on day 42"), "{label}");
    assert!(h.query_all_by_label(k.days[4].tang.word()).count() > 0);
    h.get_by_label("28");
}

#[test]
fn a_pot_to_be_served_strained_offers_the_cloth() {
    use potset_base::words::Style;
    let mut h = window_on(TALL, "whole-milk-pot.ron");
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::Style(Style::Strained), None));
    h.run();
    h.get_by_label("Called strained, but no step strains it");
    press(&mut h, "Strain it overnight");
    assert_eq!(design(&h).steps.last(), Some(&Step::Strain { hours: 12.0, removed: None }));
    assert!(check::faults(&design(&h)).is_empty());
    assert!(h.query_by_label("Called strained, but no step strains it").is_none());
}
