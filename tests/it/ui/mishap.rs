//! Mishap in the window: a call by taps and keys, the answer, next time, and the log.

use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::State;
use potset_app::command::{MishapCommand, WindowCommand};
use potset_app::mishap::MishapPage;
use potset_app::state::View;
use potset_mishap::{FactKind, Symptom, data};

use super::recipes::{folder_of, until, window_at};
use super::{Window, press, window_on};

type H = Harness<'static, Window>;

fn state(h: &H) -> &State {
    &h.state().shell.runner.state
}

fn run(h: &mut H, command: impl Into<potset_app::Command>) {
    h.state_mut().shell.runner.run(command.into());
    h.run();
}

fn at_mishap(design: &str) -> H {
    let mut h = window_on([1280.0, 800.0], design);
    run(&mut h, WindowCommand::Show(View::Mishap));
    h
}

#[test]
fn a_call_is_answered_by_taps_and_one_typed_number() {
    let mut h = at_mishap("coconut-pot.ron");
    h.get_by_label("Nothing is said of the pot yet");
    press(&mut h, "Thin");
    press(&mut h, "No tang");
    h.get_by_label_contains("Ask next");
    h.get_by_role_and_label(Role::TextInput, "Hours in the warmth").focus();
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Hours in the warmth").type_text("8");
    h.run();
    h.key_press(Key::Enter);
    h.run();
    let told = state(&h).mishap.told.clone().unwrap();
    assert_eq!(data().causes[told.ranking.causes[0].cause].key, "hold_short");
    h.get_by_label_contains("⚠ Throw it away");
    assert!(h.query_all_by_label_contains("Most likely: stopped too early").next().is_some());
    h.get_by_label_contains("at the stop, planned");
    // A number that is none is refused, and nothing changes.
    h.get_by_role_and_label(Role::TextInput, "Hours in the warmth").focus();
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Hours in the warmth").type_text("long");
    h.run();
    h.key_press(Key::Enter);
    h.run();
    assert_eq!(state(&h).mishap.known.len(), 1);
    assert!(state(&h).refused.as_ref().is_some_and(|note| note.mend.contains("Give a number in h")));
    // What is tapped again is not said any more.
    press(&mut h, "Thin");
    assert_eq!(state(&h).mishap.saw, [Symptom::NoTang]);
}

#[test]
fn a_question_is_passed_over_and_another_one_comes() {
    let mut h = at_mishap("coconut-pot.ron");
    press(&mut h, "Thin");
    let first = |h: &H| match &state(h).mishap.told.as_ref().unwrap().next {
        potset_mishap::Next::Ask(all) => all[0].kind,
        other => panic!("{other:?}"),
    };
    let before: FactKind = first(&h);
    press(&mut h, "Not known");
    assert_ne!(first(&h), before);
    assert_eq!(state(&h).mishap.skipped, [before]);
    let changed = "My own words";
    run(&mut h, MishapCommand::Text(Some(changed.to_owned())));
    assert_eq!(state(&h).mishap.answer().as_deref(), Some(changed));
    press(&mut h, "As it was");
    assert_ne!(state(&h).mishap.answer().as_deref(), Some(changed));
}

#[test]
fn next_time_is_one_step_of_undo_and_the_failed_pot_goes_beside() {
    let mut h = at_mishap("failed-too-hot.ron");
    press(&mut h, "No tang");
    let mend = state(&h).mishap.told.as_ref().unwrap().what.next_time.clone().unwrap().1.unwrap();
    let before = state(&h).design().clone();
    press(&mut h, &potset_report::mends::label(&mend.how));
    assert_ne!(*state(&h).design(), before);
    run(&mut h, WindowCommand::Show(View::Bench));
    press(&mut h, "Undo");
    assert_eq!(*state(&h).design(), before);
    run(&mut h, WindowCommand::Show(View::Mishap));
    press(&mut h, "Put the failed pot beside the design");
    assert_eq!((state(&h).view, state(&h).columns.list.len()), (View::Beside, 2));
}

#[test]
fn calls_are_logged_counted_removed_and_there_again_at_the_next_start() {
    let home = tempfile::tempdir().unwrap();
    let library = folder_of(home.path(), &["coconut-pot.ron"]);
    let mut h = window_at(home.path(), Some(library.folder()));
    run(&mut h, WindowCommand::Show(View::Mishap));
    run(&mut h, MishapCommand::Saw(Symptom::Sweet));
    until(&mut h, "it is weighed", |s| s.mishap.told.is_some());
    run(&mut h, MishapCommand::Lot("B7".to_owned()));
    run(&mut h, MishapCommand::Age("x".to_owned()));
    run(&mut h, MishapCommand::Log);
    assert!(state(&h).mishap.log.calls.is_empty() && state(&h).refused.is_some());
    run(&mut h, MishapCommand::Age("5".to_owned()));
    run(&mut h, MishapCommand::Log);
    run(&mut h, MishapCommand::Log);
    until(&mut h, "it is in the log once", |s| s.mishap.log_base.calls.len() == 1);
    run(&mut h, MishapCommand::Page(MishapPage::Log));
    h.get_by_label_contains("lot B7, opened 5 months before");
    drop(h);
    let mut h = window_at(home.path(), Some(library.folder()));
    assert_eq!(state(&h).mishap.log.calls.len(), 1);
    run(&mut h, MishapCommand::Remove(0));
    assert!(state(&h).mishap.log.calls.is_empty());
    run(&mut h, MishapCommand::PutBack);
    assert_eq!(state(&h).mishap.log.calls.len(), 1);
}
