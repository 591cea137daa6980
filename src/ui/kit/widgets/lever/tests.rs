//! Tests of the lever row: reading typed values, gestures, names, and that nothing moves.
#![allow(clippy::unwrap_used, reason = "a test may stop at the first fault")]

use super::*;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

#[derive(Default)]
struct Bench {
    value: f64,
    seen: Vec<LeverOut>,
}

fn lever(value: f64) -> Lever<'static> {
    Lever {
        id_salt: IdSalt::new(("sugar", 1)),
        name: "For the culture",
        of: "",
        unit: "g/L",
        value,
        range: 0.0..=40.0,
        usual: Some((10.0, 15.0)),
        saved: Some(12.5),
        reset_to: Some(12.5),
        decimals: 1,
        step: None,
        logarithmic: false,
        beside: "1½ tbsp for 2 L",
        hover: "Added for the culture.",
        said: None,
    }
}

fn bench(value: f64) -> Harness<'static, Bench> {
    let state = Bench { value, seen: Vec::new() };
    let mut ready = false;
    Harness::builder().with_size(vec2(340.0, 80.0)).build_ui_state(
        move |ui, bench: &mut Bench| {
            if !ready {
                ui.ctx().set_fonts(fonts::definitions());
                theme::install(ui.ctx());
                ready = true;
                return;
            }
            let out = lever(bench.value).show(ui);
            bench.value = out.value.unwrap_or(bench.value);
            if out != LeverOut::default() {
                bench.seen.push(out);
            }
        },
        state,
    )
}

const NAME: &str = "For the culture";

#[test]
fn slider_and_number_are_found_by_name_and_say_the_usual_range() {
    let mut bench = bench(20.0);
    bench.run();
    for role in [Role::Slider, Role::SpinButton] {
        let node = bench.get_by_role_and_label(role, NAME);
        let node = node.accesskit_node();
        assert_eq!(node.value().as_deref(), Some("20.0\u{a0}g/L"));
        assert!(node.description().unwrap().starts_with("usual 10–15\u{a0}g/L"));
    }
}

#[test]
fn a_drag_is_started_going_ended() {
    let mut bench = bench(12.5);
    bench.run();
    let rail = bench.get_by_role_and_label(Role::Slider, NAME).rect();
    bench.drag_at(rail.center());
    bench.run();
    bench.hover_at(rail.center() + vec2(30.0, 0.0));
    bench.run();
    bench.drop_at(rail.center() + vec2(30.0, 0.0));
    bench.run();
    let gestures: Vec<_> = bench.state().seen.iter().map(|out| out.gesture).collect();
    assert_eq!(gestures.first(), Some(&Gesture::Started));
    assert_eq!(gestures.last(), Some(&Gesture::Ended));
    let between = &gestures[1..gestures.len() - 1];
    assert!(between.iter().all(|gesture| *gesture == Gesture::Going));
    assert!(bench.state().value > 22.0);
}

#[test]
fn typing_is_one_ended_step_with_comma_and_unit() {
    let mut bench = bench(12.5);
    bench.run();
    bench.get_by_role_and_label(Role::SpinButton, NAME).focus();
    bench.run();
    let field = bench.get_by_role_and_label(Role::SpinButton, NAME);
    field.type_text("17,5 g/l");
    bench.run();
    assert!((bench.state().value - 12.5).abs() < 1e-12, "not before Enter");
    bench.key_press(Key::Enter);
    bench.run();
    let changes: Vec<_> = (bench.state().seen.iter()).filter(|out| out.value.is_some()).collect();
    assert_eq!(changes.len(), 1);
    assert_eq!(changes[0].gesture, Gesture::Ended);
    assert!((bench.state().value - 17.5).abs() < 1e-12);
}

#[test]
fn looking_at_a_value_changes_nothing() {
    for value in [55.0, 12.3456] {
        let mut bench = bench(value);
        bench.run();
        bench.get_by_role_and_label(Role::SpinButton, NAME).focus();
        bench.run();
        bench.key_press(Key::Enter);
        bench.run();
        assert!((bench.state().value - value).abs() < 1e-12);
    }
}

#[test]
fn arrow_keys_nudge_and_reset_returns() {
    let mut bench = bench(12.5);
    bench.run();
    assert!(bench.query_by_label("Reset For the culture").is_none());
    bench.get_by_role_and_label(Role::Slider, NAME).focus();
    bench.run();
    bench.key_press(Key::ArrowRight);
    bench.run();
    assert!(bench.state().value > 12.5);
    assert_eq!(bench.state().seen.last().unwrap().gesture, Gesture::Going);
    bench.get_by_label("Reset For the culture").click();
    bench.run();
    assert!((bench.state().value - 12.5).abs() < 1e-12);
    assert!(bench.query_by_label("Reset For the culture").is_none());
}

#[test]
fn arrow_keys_in_the_number_stay_in_the_range() {
    let mut bench = bench(39.9);
    bench.run();
    bench.get_by_role_and_label(Role::SpinButton, NAME).focus();
    bench.run();
    for _ in 0..9 {
        bench.key_press(Key::ArrowUp);
        bench.run();
    }
    assert!((bench.state().value - 40.0).abs() < 1e-12);
    assert!((lever(3.0).settled(77.0, Gesture::Going) - 40.0).abs() < 1e-12);
    let mut stepped = lever(3.0);
    stepped.step = Some(0.5);
    assert!((stepped.settled(3.3, Gesture::Going) - 3.5).abs() < 1e-12);
    assert!((stepped.settled(3.3, Gesture::Ended) - 3.3).abs() < 1e-12);
}

#[test]
fn nothing_moves_when_the_value_changes() {
    let rects = |value| {
        let mut bench = bench(value);
        bench.run();
        let slider = bench.get_by_role_and_label(Role::Slider, NAME).rect();
        let name = bench.get_by_role_and_label(Role::Label, NAME).rect();
        let number = bench.get_by_role_and_label(Role::SpinButton, NAME).rect();
        (slider, name, number.right())
    };
    assert_eq!(rects(12.5), rects(39.9));
}
