//! The Aim view without a screen: wants by their names, what may move, settings that are taken in one step, what blocks.

use std::sync::Arc;

use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_app::aims::TargetResult;
use potset_app::command::{AimCommand, BenchCommand, WindowCommand};
use potset_app::state::View;
use potset_app::update::update;
use potset_app::{Action, Command};
use potset_doc::Edit;
use potset_doc::pantry::EntryKind;
use potset_forecast::lever::LeverId;
use potset_forecast::observable::Observable;
use potset_search::aim::moves::Reach;
use potset_search::aim::{Bounds, Moves, Stage, Want};

use super::{Window, design, press, undo, window};

type H = Harness<'static, Window>;

const WIDE: [f32; 2] = [1280.0, 1200.0];

fn run(h: &mut H, command: Command) {
    h.state_mut().shell.runner.run(command);
    h.run();
}

fn state(h: &H) -> &potset_app::State {
    &h.state().shell.runner.state
}

/// The view with a question that is answered soon: one lever, no other entries.
fn open(size: [f32; 2], wants: Vec<Want>) -> H {
    let mut h = window(size);
    run(&mut h, Command::Do(Action::Aim));
    assert_eq!(state(&h).view, View::Aim);
    run(&mut h, Command::Aim(AimCommand::Wants(wants)));
    let levers = Some(vec![Reach { lever_id: LeverId::HoldHours, bounds: None, step: None }]);
    let moves = Moves { levers, entries: Some(Vec::new()), ..Moves::default() };
    run(&mut h, Command::Aim(AimCommand::Moves(moves)));
    h
}

/// A search that has only begun: what the worker sends is fed by hand.
fn begin(h: &mut H) {
    let _ = update(&mut h.state_mut().shell.runner.state, Command::Aim(AimCommand::Start));
    h.run();
    let seen = state(h).view == View::Aim;
    assert_eq!(h.query_by_label("Searching…").is_some(), seen, "before the first word of the worker, too");
    let looking =
        TargetResult { found: half(state(h).aims.aimed.as_ref().unwrap()).found, ..TargetResult::default() };
    send(h, looking);
    assert!(state(h).aims.busy());
}

/// An answer as it is before it is whole.
fn half(aimed: &TargetResult) -> TargetResult {
    let mut aimed = aimed.clone();
    (aimed.found.complete, aimed.found.stage, aimed.found.share) = (false, Stage::Polish, 0.6);
    aimed
}

fn send(h: &mut H, aimed: TargetResult) {
    let number = state(h).aims.question;
    run(h, Command::Aim(AimCommand::Aimed(number, Arc::new(aimed))));
}

/// Three settings for a pH, and the answer.
fn found(h: &mut H) -> TargetResult {
    press(h, "Find settings");
    (**state(h).aims.aimed.as_ref().unwrap()).clone()
}

fn type_want(h: &mut H, text: &str) {
    let field = h.get_by_role_and_label(Role::TextInput, "Type a goal");
    field.focus();
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Type a goal").type_text(text);
    h.run();
    h.key_press(Key::Enter);
    h.run();
    h.run();
}

fn is_barred(h: &H, button: &str) -> bool {
    h.get_by_role_and_label(Role::Button, button).accesskit_node().is_disabled()
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
    assert!(state(&h).aims.wants.contains(&Want::at_most(Observable::Ph, 4.3)));
    press(&mut h, "pH at most");
    assert!(!state(&h).aims.wants.contains(&Want::at_most(Observable::Ph, 4.3)));
}

#[test]
fn a_typed_want_is_read_or_refused_with_its_mend() {
    let mut h = open(WIDE, Vec::new());
    run(&mut h, Command::Aim(AimCommand::Type("ph=4.1..4.3".to_owned())));
    assert!(h.query_by_label("Remove pH 4.1 to 4.3").is_some());
    run(&mut h, Command::Aim(AimCommand::Type("thickness=lots".to_owned())));
    assert_eq!(state(&h).aims.wants.len(), 1);
    assert!(h.query_by_label_contains("There is no goal called").is_some());
    press(&mut h, "Remove pH 4.1 to 4.3");
    assert!(state(&h).aims.wants.is_empty());
}

#[test]
fn several_wants_are_typed_at_once_and_refused_text_stays() {
    let mut h = open(WIDE, Vec::new());
    // As the hint has it.
    type_want(&mut h, "ph=4.1..4.3, ready<=24h");
    let hinted = |q, low, high| Want::Within(q, Bounds { low, high });
    assert_eq!(
        state(&h).aims.wants,
        [hinted(Observable::Ph, Some(4.1), Some(4.3)), Want::at_most(Observable::ReadyFrom, 24.0)]
    );
    let text = |h: &H| h.get_by_role_and_label(Role::TextInput, "Type a goal").value();
    assert_eq!(text(&h).unwrap_or_default(), "");
    // A comma in a list and in a number is none between wants.
    type_want(&mut h, "only=whole_cows_milk, dairy_pair, sugar<=17,5 g/L, no cooking,");
    let wants = &state(&h).aims.wants;
    assert_eq!(wants.len(), 5);
    assert!(wants.contains(&Want::Only(vec!["whole_cows_milk".to_owned(), "dairy_pair".to_owned()])));
    assert!(wants.contains(&Want::at_most(Observable::SugarLeft, 17.5)) && wants.contains(&Want::NoCooking));
    // What says the same thing anew takes its place.
    type_want(&mut h, "sugar<=12, texture=ribbons, texture=dollops");
    assert!(state(&h).aims.wants.contains(&Want::at_most(Observable::SugarLeft, 12.0)));
    assert_eq!(state(&h).aims.wants.len(), 6);
    // All or nothing, and what is refused stays to be mended.
    type_want(&mut h, "fat<=8, thickness=lots");
    assert_eq!(state(&h).aims.wants.len(), 6);
    assert_eq!(text(&h).as_deref(), Some("fat<=8, thickness=lots"));
    let field = h.get_by_role_and_label(Role::TextInput, "Type a goal").rect();
    let fault = h.get_by_label_contains("There is no goal called “thickness”").rect();
    assert!(fault.top() >= field.bottom() && fault.top() < field.bottom() + 12.0, "{field:?} {fault:?}");
    assert!(state(&h).refused.is_none(), "told once");
    run(&mut h, Command::Aim(AimCommand::Type("fat<=8".to_owned())));
    assert!(h.query_by_label_contains("There is no goal called").is_none());
    assert_eq!(text(&h).unwrap_or_default(), "");
}

#[test]
fn the_keyboard_stays_on_the_button_and_the_panel_follows_it() {
    let mut h = open([1280.0, 620.0], vec![Want::at_most(Observable::Ph, 4.05)]);
    h.get_by_label("Find settings").focus();
    h.run();
    begin(&mut h);
    assert!(h.get_by_label("Stop the search").is_focused());
    h.key_press(Key::Space);
    h.run();
    assert!(!state(&h).aims.busy() && h.get_by_label("Find settings").is_focused());
    let name = h.get_by_label("Design name").rect();
    let mut below = 0;
    for _ in 0..45 {
        h.key_press(Key::Tab);
        h.run();
        let id = h.ctx.memory(egui::Memory::focused).expect("something has the keyboard");
        let rect = h.ctx.read_response(id).unwrap().rect;
        if rect.right() > 340.0 || rect.top() < 46.0 {
            break;
        }
        assert!(rect.bottom() <= 620.0 - 24.0, "{rect:?} is below the fold");
        below += usize::from(rect.bottom() > 400.0);
    }
    assert!(below > 10, "the column is longer than the window");
    assert!(h.get_by_label("Another base").rect().top() < 46.0, "it was scrolled");
    assert_eq!(h.get_by_label("Design name").rect(), name);
}

#[test]
fn the_finder_looks_stops_shows_takes_and_copies() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    let disabled_reason = |h: &H, action: Action| action.disabled_reason(state(h));
    for action in [Action::StopLooking, Action::ShowSettings, Action::TakeSetting1, Action::CopySettings] {
        assert!(disabled_reason(&h, action).is_some(), "{action:?}");
    }
    run(&mut h, Command::Do(Action::Bench));
    run(&mut h, Command::Do(Action::LookForSettings));
    assert_eq!(state(&h).view, View::Aim);
    let n = state(&h).aims.aimed.as_ref().unwrap().found.proposals.len();
    assert!((1..=3).contains(&n));
    let takes = [Action::TakeSetting1, Action::TakeSetting2, Action::TakeSetting3];
    for (i, action) in takes.into_iter().enumerate() {
        assert_eq!(disabled_reason(&h, action).is_none(), i < n, "{action:?}");
    }
    run(&mut h, Command::Do(Action::ShowSettings));
    assert_eq!((state(&h).view, state(&h).aims.ghosts().len()), (View::Bench, n));
    let before = design(&h);
    run(&mut h, Command::Do(Action::TakeSetting1));
    assert_ne!(design(&h), before);
    assert!(disabled_reason(&h, Action::TakeSetting1).unwrap().contains("Undo"));
    begin(&mut h);
    assert!(disabled_reason(&h, Action::LookForSettings).is_some());
    run(&mut h, Command::Do(Action::StopLooking));
    assert!(!state(&h).aims.busy());
    run(&mut h, Command::Aim(AimCommand::Wants(Vec::new())));
    assert_eq!(disabled_reason(&h, Action::LookForSettings), Some("Set a goal first"));
}

#[test]
fn settings_are_copied_as_text() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    press(&mut h, "Find settings");
    h.get_by_label("Copy the settings").click();
    let mut copied = None;
    for _ in 0..5 {
        h.step();
        copied = copied.or_else(|| {
            h.output().platform_output.commands.iter().find_map(|c| match c {
                egui::OutputCommand::CopyText(text) => Some(text.clone()),
                _ => None,
            })
        });
    }
    let copied = copied.expect("copied text");
    assert!(copied.starts_with(&format!("{}: pH ≤ 4.05\n", design(&h).name)), "{copied}");
    assert!(copied.contains("possible pots") && copied.contains("Trade-offs"), "{copied}");
}

#[test]
fn an_entry_is_added_by_a_part_of_its_name() {
    let mut h = open(WIDE, vec![Want::Only(vec!["dairy_pair".to_owned()])]);
    press(&mut h, "Add to what I have");
    let search = "Add to what I have: search";
    assert!(h.get_by_role_and_label(Role::TextInput, search).is_focused());
    h.get_by_role_and_label(Role::TextInput, search).type_text("cow whole");
    h.run();
    assert!(h.query_by_label("Add White sugar").is_none());
    h.key_press(Key::Enter);
    h.run();
    let keys = vec!["dairy_pair".to_owned(), "whole_cows_milk".to_owned()];
    assert_eq!(state(&h).aims.wants, [Want::Only(keys)]);
    assert!(h.query_by_role_and_label(Role::TextInput, search).is_none(), "the list is closed");
    // What is on the list is not offered again; the search is empty again.
    press(&mut h, "Add to what I have");
    h.get_by_role_and_label(Role::TextInput, search).type_text("white sugar");
    h.run();
    press(&mut h, "Add White sugar");
    assert!(matches!(&state(&h).aims.wants[..], [Want::Only(keys)] if keys.len() == 3));
}

#[test]
fn what_always_counts_is_said() {
    let mut h = window(WIDE);
    run(&mut h, Command::Do(Action::Aim));
    let always = "Always checked: sour enough, soon enough";
    assert!(h.query_by_label(always).is_some());
    assert!(h.query_by_label("tick what may change").is_some());
}

#[test]
fn a_setting_is_shown_on_the_bench_and_taken_in_one_step() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    let before = design(&h);
    press(&mut h, "Find settings");
    assert!(h.query_by_label("Setting 1").is_some(), "{:?}", state(&h).aims.fault);
    assert!(h.query_all_by_label_contains("possible pots").count() >= 1);
    assert!(h.query_by_label("Trade-offs").is_some());
    press(&mut h, "Show them on the bench");
    assert_eq!(state(&h).view, View::Bench);
    assert_eq!(design(&h), before, "looking changes nothing");
    press(&mut h, "Use setting 1");
    let taken = design(&h);
    assert!(taken.hold().unwrap().hours > before.hold().unwrap().hours);
    assert!(state(&h).aims.ghosts().is_empty(), "they were of the design before");
    assert!(state(&h).aims.outdated);
    undo(&mut h, 1);
    assert_eq!(design(&h), before);
    assert!(!state(&h).aims.ghosts().is_empty(), "they are of the design on the bench again");
}

#[test]
fn one_setting_can_be_tried_and_then_the_next() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    let before = design(&h);
    press(&mut h, "Find settings");
    let heads = |h: &H| h.get_by_label("Setting 1").rect();
    let place = heads(&h);
    press(&mut h, "Use setting 1");
    let taken = design(&h);
    assert!(h.query_by_label_contains("Setting 1 is on the bench. Undo goes back.").is_some());
    assert!(h.query_by_label_contains("Find settings again").is_none());
    assert_eq!(heads(&h), place, "what says so makes nothing move");
    assert!(is_barred(&h, "Use setting 1"));
    undo(&mut h, 1);
    assert_eq!(design(&h), before);
    assert!(h.query_by_label_contains("is on the bench").is_none());
    press(&mut h, "Use setting 1");
    assert_eq!(design(&h), taken);
    // Something else after it: then it is the old answer to another design.
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::HoldTemperature(41.0), None)));
    assert!(h.query_by_label_contains("Find settings again").is_some());
}

#[test]
fn an_answer_is_outdated_by_what_is_asked_not_by_the_way_there() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05), Want::GlutenFree]);
    press(&mut h, "Find settings");
    let outdated =
        |h: &H| (state(h).aims.outdated, h.query_by_label_contains("Find settings again").is_some());
    assert_eq!(outdated(&h), (false, false));
    let at = design(&h).hold().unwrap().set_c;
    for (there, back) in [
        (
            Command::Bench(BenchCommand::Edit(Edit::HoldTemperature(at - 1.0), None)),
            Command::Bench(BenchCommand::Edit(Edit::HoldTemperature(at), None)),
        ),
        (
            Command::Aim(AimCommand::Wants(vec![Want::GlutenFree])),
            // In another order: the same is wanted.
            Command::Aim(AimCommand::Wants(vec![Want::GlutenFree, Want::at_most(Observable::Ph, 4.05)])),
        ),
    ] {
        run(&mut h, there);
        assert_eq!(outdated(&h), (true, true));
        run(&mut h, back);
        assert_eq!(outdated(&h), (false, false));
    }
    for tick in ["Hold at", "Another thickener", "Vegan", "Allow unusual amounts"] {
        press(&mut h, tick);
        assert_eq!(outdated(&h), (true, true), "{tick}");
        press(&mut h, tick);
        assert_eq!(outdated(&h), (false, false), "{tick}");
    }
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::Rename("Another name".to_owned()), None)));
    assert_eq!(outdated(&h), (false, false), "what it is called turns no lever");
    let mut kitchen = state(&h).kitchen.clone();
    kitchen.altitude_m += 500.0;
    run(&mut h, Command::Window(WindowCommand::Kitchen(kitchen)));
    assert_eq!(outdated(&h), (true, true));
}

#[test]
fn a_search_that_is_cut_short_says_so() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    let whole = found(&mut h);
    begin(&mut h);
    send(&mut h, half(&whole));
    // Until it is whole nothing is taken: it may be replaced under the pointer.
    let before = design(&h);
    assert!(is_barred(&h, "Use setting 1") && is_barred(&h, "Put setting 1 beside"));
    assert!(is_barred(&h, "Show them on the bench"));
    assert_eq!(state(&h).aims.disabled_take(0), Some("Still looking: this may be replaced"));
    run(&mut h, Command::Aim(AimCommand::Take(0)));
    run(&mut h, Command::Aim(AimCommand::Beside(0)));
    assert_eq!((design(&h), state(&h).view), (before.clone(), View::Aim));
    // A window that asks for a forecast of the same pot leaves it be; an edit on the bench cuts it short.
    run(&mut h, Command::Do(Action::NextPots));
    run(&mut h, Command::Window(WindowCommand::CloseDialog));
    assert!(state(&h).aims.busy());
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::HoldTemperature(41.0), None)));
    assert!(!state(&h).aims.busy());
    assert!(h.query_by_label_contains("Stopped early: how often they work was not counted").is_some());
    undo(&mut h, 1);
    assert!(h.query_by_label_contains("Stopped early: how often they work was not counted").is_some());
    press(&mut h, "Use setting 1");
    assert_ne!(design(&h), before);
    // A whole one does not.
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    press(&mut h, "Find settings");
    assert!(h.query_by_label_contains("Stopped").is_none());
}

#[test]
fn a_search_stopped_early_leaves_the_answer_before() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    let whole = found(&mut h);
    begin(&mut h);
    assert!(h.query_by_label("Setting 1").is_none());
    press(&mut h, "Stop the search");
    assert!(!state(&h).aims.busy() && !state(&h).aims.outdated);
    assert_eq!(state(&h).aims.aimed.as_ref().unwrap().found, whole.found);
    assert!(!is_barred(&h, "Use setting 1"));
    // With other wants it is the old answer, and says so. Escape stops, too.
    run(&mut h, Command::Aim(AimCommand::Wants(vec![Want::at_most(Observable::Ph, 4.2)])));
    begin(&mut h);
    h.key_press(Key::Escape);
    h.run();
    assert!(!state(&h).aims.busy());
    assert!(h.query_by_label("Setting 1").is_some());
    assert!(h.query_by_label_contains("Find settings again").is_some() && is_barred(&h, "Use setting 1"));
    // Without one before, there is nothing.
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    begin(&mut h);
    press(&mut h, "Stop the search");
    assert!(h.query_by_label("Stopped before anything was found").is_some());
}

#[test]
fn escape_in_a_field_is_for_the_field() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    begin(&mut h);
    h.get_by_role_and_label(Role::TextInput, "Type a goal").focus();
    h.run();
    h.key_press(Key::Escape);
    h.run();
    assert!(state(&h).aims.busy());
}

#[test]
fn nothing_moves_under_the_pointer() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    let place = |h: &H, name: &str| h.get_by_label(name).rect();
    let names = ["Vegan", "What may move", "Another culture"];
    let before = names.map(|name| place(&h, name));
    begin(&mut h);
    assert_eq!(names.map(|name| place(&h, name)), before, "Look becomes Stop");
    // A lever is unticked and ticked: its bounds stay where they are, greyed.
    let last = "Stop at";
    let below: Vec<egui::Rect> =
        ["Hold at", "Hold at from", last].into_iter().map(|n| place(&h, n)).collect();
    let disabled_reason = |h: &H| {
        let field = h.get_by_role_and_label(Role::SpinButton, "Stop at from");
        field.accesskit_node().is_disabled()
    };
    assert!(!disabled_reason(&h));
    press(&mut h, last);
    assert!(disabled_reason(&h));
    assert!(state(&h).aims.moves.lever(LeverId::HoldHours).is_none());
    let now: Vec<egui::Rect> = ["Hold at", "Hold at from", last].into_iter().map(|n| place(&h, n)).collect();
    assert_eq!(now, below);
    press(&mut h, last);
    assert!(!disabled_reason(&h) && state(&h).aims.moves.lever(LeverId::HoldHours).is_some());
}

#[test]
fn bounds_stay_while_a_lever_is_held() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.05)]);
    let bounds = Some((9.0, 15.0));
    let levers = Some(vec![Reach { lever_id: LeverId::HoldHours, bounds, step: None }]);
    run(
        &mut h,
        Command::Aim(AimCommand::Moves(Moves { levers, entries: Some(Vec::new()), ..Moves::default() })),
    );
    press(&mut h, "Stop at");
    press(&mut h, "Hold at");
    press(&mut h, "Stop at");
    let moves = &state(&h).aims.moves;
    assert_eq!(moves.lever(LeverId::HoldHours).unwrap().bounds, bounds);
    assert!(moves.lever(LeverId::HoldTemperature).is_some() && !moves.entry(EntryKind::Base));
}

#[test]
fn what_cannot_be_says_what_blocks() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 3.5)]);
    press(&mut h, "Find settings");
    assert!(h.query_by_label_contains("Nothing reaches the goals").is_some());
    assert!(h.query_by_label_contains("blocks").is_some());
    // Nothing in bold says that all holds where it does not.
    assert!(h.query_by_label_contains("Not all goals hold: pH ≤ 3.5 is missed by ").is_some());
    assert!(h.query_by_label_contains("All goals hold").is_none());
}

#[test]
fn what_the_design_does_already_stands_above_what_is_surer() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::SugarLeft, 40.0)]);
    let levers = Some(vec![Reach { lever_id: LeverId::CultureRate(0), bounds: None, step: None }]);
    let moves = Moves { levers, entries: Some(Vec::new()), ..Moves::default() };
    run(&mut h, Command::Aim(AimCommand::Moves(moves)));
    press(&mut h, "Find settings");
    let own = h.get_by_label_contains("Your design already does this in ").rect();
    let setting = h.get_by_label("Setting 1").rect();
    assert!(own.bottom() <= setting.top(), "{own:?} {setting:?}");
    assert!(h.query_by_label_contains(" instead of 1.00").is_some());
    assert!(h.query_by_label("pots where all goals hold").is_some());
}

#[test]
fn an_edit_outdates_what_was_found() {
    let mut h = open(WIDE, vec![Want::at_most(Observable::Ph, 4.3)]);
    press(&mut h, "Find settings");
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::HoldTemperature(41.0), None)));
    assert!(h.query_by_label_contains("Find settings again").is_some());
    let before = design(&h);
    run(&mut h, Command::Aim(AimCommand::Take(0)));
    assert_eq!(design(&h), before, "a setting of the old design is not put onto the new one");
}

#[test]
fn it_fits_at_150_percent() {
    // 1280x800 at 150 %.
    let size = [853.0, 533.0];
    let mut h = open(size, vec![Want::at_most(Observable::Ph, 4.05)]);
    press(&mut h, "Find settings");
    for name in ["Setting 1", "Find settings", "Goals"] {
        let rect = h.get_by_label(name).rect();
        assert!(rect.left() >= 0.0 && rect.right() <= size[0], "{name}: {rect:?}");
    }
    // The line above the settings is as high whatever it says.
    let place = h.get_by_label("Setting 1").rect();
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::HoldTemperature(41.0), None)));
    assert!(h.query_by_label_contains("Find settings again").is_some());
    assert_eq!(h.get_by_label("Setting 1").rect(), place);
    undo(&mut h, 1);
    assert_eq!(h.get_by_label("Setting 1").rect(), place);
}
