//! The dialog of next pots: opened by name, worked out only while it is open, closed by Escape.

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::command::BenchCommand;
use potset_app::state::Dialog;
use potset_app::{Action, Command};
use potset_doc::Edit;
use potset_judge::next_pots::{FOLLOWED, Generation};

use super::{Window, design, type_number, window, window_on};

fn pots(h: &Harness<'_, Window>) -> Vec<Generation> {
    h.state().shell.runner.state.answer.next_pots.clone()
}

#[test]
fn the_finder_opens_it_and_escape_closes_it() {
    let mut h = window_on([1280.0, 800.0], "whole-milk-pot.ron");
    assert!(pots(&h).is_empty());
    h.key_press_modifiers(Modifiers::COMMAND, Key::K);
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Part of the name").type_text("next pots");
    h.run();
    h.key_press(Key::Enter);
    h.run();
    h.get_by_label("Next pots from this one");
    assert_eq!(pots(&h).len() as u32, FOLLOWED + 1);
    h.get_by_label("this one");
    h.get_by_label_contains("Use a fresh packet for pot");
    h.get_by_label_contains("looks odd");
    h.key_press(Key::Escape);
    h.run();
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::None);
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::HoldHours(8.0), None));
    h.run();
    assert!(pots(&h).is_empty(), "a closed dialog costs nothing");
}

#[test]
fn more_of_the_last_pot_is_faster_and_the_design_is_not_touched() {
    let mut h = window_on([1280.0, 800.0], "whole-milk-pot.ron");
    let start = design(&h);
    h.state_mut().shell.runner.run(Command::Do(Action::NextPots));
    h.run();
    let usual = pots(&h);
    h.get_by_role_and_label(Role::Slider, "Of the last pot").set_value_accesskit(100.0);
    h.run();
    let more = pots(&h);
    assert!(more[1].start > 2.0 * usual[1].start);
    assert!(more[1].carried_percent > 2.0 * usual[1].carried_percent);
    assert!(more[1].line_h.unwrap() < usual[1].line_h.unwrap());
    type_number(&mut h, "Days between pots", "20");
    let older = pots(&h);
    assert!(older[1].start < more[1].start, "cells are lost in the fridge");
    assert!(older[1].line_h.unwrap() > more[1].line_h.unwrap());
    assert_eq!(design(&h), start);
}

#[test]
fn a_pot_without_a_culture_has_no_next() {
    let mut h = window([1280.0, 800.0]);
    let edit = Edit::Remove(potset_doc::edit::LineKind::Cultures, 0);
    h.state_mut().shell.runner.run(BenchCommand::Edit(edit, None));
    let state = &h.state().shell.runner.state;
    assert_eq!(Action::NextPots.disabled_reason(state), Some("There is no culture to carry on"));
    h.state_mut().shell.runner.run(Command::Do(Action::NextPots));
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::None);
}
