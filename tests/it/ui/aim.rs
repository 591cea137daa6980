//! The Aim view without a screen: wants by their names, what may move, settings that are taken in one step, what blocks.

use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset::app::command::AimCommand;
use potset::app::state::View;
use potset::app::{Action, Command};
use potset::doc::Edit;
use potset::study::aim::moves::Reach;
use potset::study::aim::{Bounds, Moves, Quantity, Want};
use potset::study::lever::Knob;

use super::{Window, design, press, undo, window};

type H = Harness<'static, Window>;

const WIDE: [f32; 2] = [1280.0, 1200.0];

fn run(h: &mut H, command: Command) {
    h.state_mut().shell.desk.run(command);
    h.run();
}

fn state(h: &H) -> &potset::app::State {
    &h.state().shell.desk.state
}

fn at_most(quantity: Quantity, high: f64) -> Want {
    Want::Within(quantity, Bounds { low: None, high: Some(high) })
}

/// The view with a question that is answered soon: one lever, no other entries.
fn open(size: [f32; 2], wants: Vec<Want>) -> H {
    let mut h = window(size);
    run(&mut h, Command::Do(Action::Aim));
    assert_eq!(state(&h).view, View::Aim);
    run(&mut h, Command::Aim(AimCommand::Wants(wants)));
    let levers = Some(vec![Reach { knob: Knob::HoldHours, bounds: None, step: None }]);
    let moves = Moves { levers, entries: Some(Vec::new()), held: Vec::new() };
    run(&mut h, Command::Aim(AimCommand::Moves(moves)));
    h
}

#[test]
fn it_begins_with_the_goals_and_says_what_it_is_for() {
    let mut h = window(WIDE);
    run(&mut h, Command::Do(Action::Aim));
    assert!(h.query_by_label("Say what the pot is to be").is_some());
    // The demo wants dollops to stands, bright to sharp, little whey.
    assert_eq!(state(&h).aims.wants.len(), 3);
    press(&mut h, "Vegan");
    assert!(state(&h).aims.wants.contains(&Want::Vegan));
    press(&mut h, "pH at most");
    assert!(state(&h).aims.wants.contains(&at_most(Quantity::Ph, 4.3)));
    press(&mut h, "pH at most");
    assert!(!state(&h).aims.wants.contains(&at_most(Quantity::Ph, 4.3)));
}

#[test]
fn a_typed_want_is_read_or_refused_with_its_mend() {
    let mut h = open(WIDE, Vec::new());
    run(&mut h, Command::Aim(AimCommand::Type("ph=4.1..4.3".to_owned())));
    assert!(h.query_by_label("Take off pH 4.1 to 4.3").is_some());
    run(&mut h, Command::Aim(AimCommand::Type("thickness=lots".to_owned())));
    assert_eq!(state(&h).aims.wants.len(), 1);
    assert!(h.query_by_label_contains("is nothing that can be wanted").is_some());
    press(&mut h, "Take off pH 4.1 to 4.3");
    assert!(state(&h).aims.wants.is_empty());
}

#[test]
fn a_setting_is_shown_on_the_bench_and_taken_in_one_step() {
    let mut h = open(WIDE, vec![at_most(Quantity::Ph, 4.05)]);
    let before = design(&h);
    press(&mut h, "Look for settings");
    assert!(h.query_by_label("Setting 1").is_some(), "{:?}", state(&h).aims.fault);
    assert!(h.query_all_by_label_contains("possible pots").count() >= 1);
    assert!(h.query_by_label("Trade-offs").is_some());
    press(&mut h, "Show them on the bench");
    assert_eq!(state(&h).view, View::Bench);
    assert_eq!(design(&h), before, "looking changes nothing");
    press(&mut h, "Take setting 1");
    let taken = design(&h);
    assert!(taken.hold().unwrap().hours > before.hold().unwrap().hours);
    assert!(state(&h).aims.ghosts().is_empty(), "they were of the design before");
    assert!(state(&h).aims.outdated);
    undo(&mut h, 1);
    assert_eq!(design(&h), before);
}

#[test]
fn what_cannot_be_says_what_blocks() {
    let mut h = open(WIDE, vec![at_most(Quantity::Ph, 3.5)]);
    press(&mut h, "Look for settings");
    assert!(h.query_by_label_contains("Nothing reaches it").is_some());
    assert!(h.query_by_label_contains("blocks").is_some());
    // Nothing in bold says that all holds where it does not.
    assert!(h.query_by_label_contains("Not all holds: pH ≤ 3.5 is missed by ").is_some());
    assert!(h.query_by_label_contains("All holds").is_none());
}

#[test]
fn what_the_design_does_already_stands_above_what_is_surer() {
    let mut h = open(WIDE, vec![at_most(Quantity::Sugar, 40.0)]);
    let levers = Some(vec![Reach { knob: Knob::CultureRate(0), bounds: None, step: None }]);
    let moves = Moves { levers, entries: Some(Vec::new()), held: Vec::new() };
    run(&mut h, Command::Aim(AimCommand::Moves(moves)));
    press(&mut h, "Look for settings");
    let own = h.get_by_label_contains("The design as it is does it already, in ").rect();
    let setting = h.get_by_label("Setting 1").rect();
    assert!(own.bottom() <= setting.top(), "{own:?} {setting:?}");
    assert!(h.query_by_label_contains(" instead of 1.00").is_some());
    assert!(h.query_by_label("chance that all holds").is_some());
}

#[test]
fn an_edit_outdates_what_was_found() {
    let mut h = open(WIDE, vec![at_most(Quantity::Ph, 4.3)]);
    press(&mut h, "Look for settings");
    run(&mut h, Command::Edit(Edit::HoldTemperature(41.0), None));
    assert!(h.query_by_label_contains("Look again").is_some());
    let before = design(&h);
    run(&mut h, Command::Aim(AimCommand::Take(0)));
    assert_eq!(design(&h), before, "a setting of the old design is not put onto the new one");
}

#[test]
fn it_fits_at_150_percent() {
    // 1280x800 at 150 %.
    let size = [853.0, 533.0];
    let mut h = open(size, vec![at_most(Quantity::Ph, 4.05)]);
    press(&mut h, "Look for settings");
    for name in ["Setting 1", "Look for settings", "What is wanted"] {
        let rect = h.get_by_label(name).rect();
        assert!(rect.left() >= 0.0 && rect.right() <= size[0], "{name}: {rect:?}");
    }
}
