//! The bench: levers, stop line, mends, folding, and that labelled rectangles stay in place over a drag.

use std::collections::BTreeMap;

use egui::accesskit::Role;
use egui::{Key, Rect, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_doc::Design;

use super::{Window, design, pick, press, window, window_on};
use potset_app::command::BenchCommand;

/// A lever: its name, how to read it from the design, and a value to set.
type Lever = (&'static str, fn(&Design) -> f64, f64);

const LEVERS: &[Lever] = &[
    ("Base amount", |d| d.bases[0].litres, 3.0),
    ("Fat on the label", |d| d.bases[0].label.fat.unwrap_or(f64::NAN), 18.0),
    ("Sugar for the culture", |d| d.sugars[0].g_per_l, 20.0),
    ("Thickener amount", |d| d.thickeners[0].g_per_l, 25.0),
    ("Culture dose", |d| d.cultures[0].rate, 2.0),
    ("Hold at", |d| d.hold().unwrap().set_c, 42.0),
    ("Stop at", |d| d.hold().unwrap().hours, 20.0),
    ("Chill to", |d| d.chill().unwrap().0, 7.0),
    ("Hours in the fridge", |d| d.chill().unwrap().1, 18.0),
];

#[test]
fn every_lever_answers_to_its_name_and_moves_the_forecast() {
    for (name, read, value) in LEVERS {
        let mut h = window([1280.0, 1600.0]);
        let before = h.state().shell.runner.state.answer.clone();
        h.get_by_role_and_label(Role::Slider, name).set_value_accesskit(*value);
        h.run();
        assert!((read(&design(&h)) - value).abs() < 1e-9, "{name}: {}", read(&design(&h)));
        let after = &h.state().shell.runner.state.answer;
        let same = before.forecast == after.forecast
            && before.verdict == after.verdict
            && before.facts == after.facts;
        assert!(!same, "{name} changes nothing that is shown");
        assert!(h.state().shell.runner.state.session.history.unsaved());
    }
}

#[test]
fn a_typed_value_with_comma_and_unit_is_taken() {
    let mut h = window([1280.0, 1000.0]);
    h.get_by_role_and_label(Role::SpinButton, "Sugar for the culture").focus();
    h.run();
    h.get_by_role_and_label(Role::SpinButton, "Sugar for the culture").type_text("17,5 g/L");
    h.run();
    h.key_press(Key::Enter);
    h.run();
    let dose = design(&h).sugars[0].g_per_l;
    assert!((dose - 17.5).abs() < 1e-9, "{dose}");
}

/// Drags a slider by pointer in so many moves.
pub(super) fn drag(
    h: &mut Harness<'_, Window>,
    rect: Rect,
    from: f32,
    to: f32,
    moves: usize,
    mut each: impl FnMut(&Harness<'_, Window>),
) {
    let at = |share: f32| rect.left_center() + Vec2::new(rect.width() * share, 0.0);
    h.hover_at(at(from));
    h.run();
    h.drag_at(at(from));
    h.run();
    for i in 1..=moves {
        h.hover_at(at(from + (to - from) * i as f32 / moves as f32));
        h.run();
        each(h);
    }
    h.drop_at(at(to));
    h.run();
}

/// Rectangles of everything with a name, by role and name.
pub(super) fn rects(h: &Harness<'_, Window>) -> BTreeMap<String, Rect> {
    let mut out = BTreeMap::new();
    for node in h.root().children_recursive() {
        let n = node.accesskit_node();
        if let Some(label) = n.label()
            && matches!(
                n.role(),
                Role::Slider | Role::SpinButton | Role::CheckBox | Role::ComboBox | Role::TextInput
            )
        {
            out.insert(format!("{:?} {label}", n.role()), node.rect());
        }
    }
    out
}

#[test]
fn a_drag_is_one_step_and_nothing_jumps() {
    let mut h = window([1280.0, 800.0]);
    let start = design(&h);
    let before = rects(&h);
    assert!(before.len() > 15, "{}", before.len());
    let rect = h.get_by_role_and_label(Role::Slider, "Sugar for the culture").rect();
    let mut most = 0.0_f32;
    drag(&mut h, rect, 0.2, 0.9, 50, |h| {
        for (name, now) in rects(h) {
            if let Some(then) = before.get(&name) {
                let moved = (now.min - then.min).length().max((now.max - then.max).length());
                assert!(moved <= 1.0, "{name} moved by {moved}");
                most = most.max(moved);
            }
        }
    });
    assert!(design(&h).sugars[0].g_per_l > 40.0);
    h.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    h.run();
    assert_eq!(design(&h), start, "one undo takes the whole drag back");
    h.key_press_modifiers(egui::Modifiers::COMMAND | egui::Modifiers::SHIFT, Key::Z);
    h.run();
    assert!(design(&h).sugars[0].g_per_l > 40.0);
}

#[test]
fn the_stop_line_is_dragged_and_nudged() {
    let mut h = window([1280.0, 800.0]);
    h.get_by_role_and_label(Role::Slider, "Stop line").set_value_accesskit(18.0);
    h.run();
    assert!((design(&h).hold().unwrap().hours - 18.0).abs() < 1e-9);
    let at = h.get_by_role_and_label(Role::Slider, "Stop line").rect().center();
    h.hover_at(at);
    h.run();
    h.drag_at(at);
    h.run();
    for i in 1..=6 {
        h.hover_at(at + Vec2::new(10.0 * i as f32, 0.0));
        h.run();
    }
    h.drop_at(at + Vec2::new(60.0, 0.0));
    h.run();
    let hours = design(&h).hold().unwrap().hours;
    assert!(hours > 19.0, "{hours}");
    h.get_by_role_and_label(Role::Slider, "Stop line").focus();
    h.run();
    h.key_press(Key::ArrowLeft);
    h.run();
    assert!((design(&h).hold().unwrap().hours - (hours - 0.25)).abs() < 1e-9);
}

#[test]
fn a_mend_is_one_press_and_one_undo() {
    let mut h = window([1280.0, 1000.0]);
    let start = design(&h);
    h.get_by_label("Mix 1 g of culture with 9 g of sugar, then weigh that").click();
    h.run();
    assert_ne!(design(&h), start);
    assert!(
        h.query_by_label("Mix 1 g of culture with 9 g of sugar, then weigh that").is_none(),
        "the note is gone"
    );
    h.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    h.run();
    assert_eq!(design(&h), start);
}

#[test]
fn escape_takes_a_drag_back() {
    // Tall enough for the card of warmth: the lines of what was measured stand above it.
    let mut h = window([1280.0, 900.0]);
    let start = design(&h);
    let rect = h.get_by_role_and_label(Role::Slider, "Hold at").rect();
    let at = |share: f32| rect.left_center() + Vec2::new(rect.width() * share, 0.0);
    h.hover_at(at(0.55));
    h.run();
    h.drag_at(at(0.55));
    h.run();
    for share in [0.6, 0.7, 0.8] {
        h.hover_at(at(share));
        h.run();
    }
    assert_ne!(design(&h), start);
    h.key_press(Key::Escape);
    h.run();
    assert_eq!(design(&h), start);
}

#[test]
fn it_settles_in_every_size() {
    // `run` panics if the window never stops asking to be drawn again.
    for size in [[1280.0, 800.0], [1920.0, 1080.0], [853.0, 533.0], [640.0, 420.0]] {
        let mut h = window(size);
        h.run();
        h.run();
    }
}

#[test]
fn strips_fold_and_stay_folded() {
    let mut h = window([1280.0, 800.0]);
    h.get_by_label("Fold Warmth").click();
    h.run();
    assert_eq!(h.state().shell.runner.state.settings.folded, ["warmth"]);
    h.get_by_label("Unfold Warmth").click();
    h.run();
    assert!(h.state().shell.runner.state.settings.folded.is_empty());
}

#[test]
fn nothing_jumps_with_everything_unfolded() {
    use potset_doc::Edit;
    let mut h = window_on([1280.0, 2000.0], "whole-milk-pot.ron");
    press(&mut h, "freeze-dried powder, fresh");
    press(&mut h, "Steps");
    press(&mut h, "In the fridge");
    press(&mut h, "Strain in a cloth");
    press(&mut h, "Keep in the fridge");
    pick(&mut h, "Sugar", "Brown sugar");
    pick(&mut h, "When the sugar goes in", "stirred in after the hold");
    press(&mut h, "Let it stand…");
    press(&mut h, "Something happens in the hold…");
    press(&mut h, "The pot is carried about");
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::CultureAge(0, 300.0), None));
    h.run();
    let before = rects(&h);
    for name in ["Days kept", "Hours in the cloth", "Hours of standing", "Amount of the event", "Kept at"] {
        assert!(before.contains_key(&format!("SpinButton {name}")), "{name} is not there");
    }
    for lever in ["Hold at", "Culture dose", "Sugar stirred in"] {
        let rect = h.get_by_role_and_label(Role::Slider, lever).rect();
        drag(&mut h, rect, 0.35, 0.6, 20, |h| {
            for (name, now) in rects(h) {
                if let Some(then) = before.get(&name) {
                    let moved = (now.min - then.min).length().max((now.max - then.max).length());
                    assert!(moved <= 1.0, "{name} moved by {moved} while {lever} was dragged");
                }
            }
        });
    }
}
