//! Where the numbers come from: the list with its filters, and values that are followed to their sources.

use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_app::command::WindowCommand;
use potset_app::state::Dialog;
use potset_app::{Action, Command};
use potset_explain::Reading;
use potset_forecast::numbers::{Kind, Number, numbers};
use potset_report::explain::told;

use super::{Window, window};

type Harness = egui_kittest::Harness<'static, Window>;

fn list(h: &Harness) -> Vec<Number> {
    let state = &h.state().shell.runner.state;
    numbers(state.design(), &state.pantry, &state.kitchen, &state.learnt).all
}

fn opened() -> Harness {
    // Wide enough for the menus to stand apart.
    let mut h = window([1600.0, 800.0]);
    h.get_by_label("Numbers").click();
    h.run();
    h.get_by_label_contains("Where the numbers come from").click();
    h.run();
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::Numbers);
    h
}

/// Names of the rows in sight.
fn rows(h: &Harness) -> Vec<String> {
    let all = h.root().children_recursive();
    all.filter(|n| n.accesskit_node().role() == Role::ListItem)
        .filter_map(|n| n.accesskit_node().label())
        .collect()
}

fn chip(h: &Harness, kind: Kind) -> String {
    let all = h.root().children_recursive();
    let start = format!("{} ", kind.words());
    let mut labels = all
        .filter(|n| n.accesskit_node().role() == Role::CheckBox)
        .filter_map(|n| n.accesskit_node().label());
    labels.find(|label| label.starts_with(&start)).unwrap()
}

#[test]
fn the_menu_opens_the_list_and_a_kind_shows_only_its_own() {
    let mut h = opened();
    let all = list(&h);
    assert!(h.query_by_label_contains(&format!("{} of {} shown", all.len(), all.len())).is_some());
    let drawn = rows(&h).len();
    assert!(drawn > 5 && drawn < 80, "{drawn} rows drawn of {}", all.len());
    let memory = all.iter().filter(|n| n.kind == Kind::FromMemory).count();
    let label = chip(&h, Kind::FromMemory);
    assert!(label.starts_with(&format!("from memory {memory} · ")), "{label}");
    h.get_by_role_and_label(Role::CheckBox, &label).hover();
    h.run();
    h.get_by_role_and_label(Role::CheckBox, &label).click();
    h.run();
    assert!(h.query_by_label_contains(&format!("{memory} of {} shown", all.len())).is_some());
    let shown = rows(&h);
    assert!(!shown.is_empty() && shown.iter().all(|row| row.ends_with(", from memory")), "{shown:?}");
    h.key_press(Key::Escape);
    h.run();
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::None);
}

#[test]
fn words_and_use_filter_and_nothing_found_is_helped() {
    let mut h = opened();
    let all = list(&h);
    h.get_by_role_and_label(Role::TextInput, "Words to find").focus();
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Words to find").type_text("codex cream");
    h.run();
    let codex = all
        .iter()
        .filter(|n| n.source.contains("Codex") && format!("{} {}", n.title(), n.key).contains("cream"))
        .count();
    assert!(codex > 0);
    assert!(h.query_by_label_contains(&format!("{codex} of {} shown", all.len())).is_some());
    h.get_by_role_and_label(Role::TextInput, "Words to find").type_text(" nobody");
    h.run();
    h.get_by_label("No number fits");
    h.get_by_label("Show all").click();
    h.run();
    let used = all.iter().filter(|n| n.used).count();
    h.get_by_label(&format!("Only those of this design ({used})")).click();
    h.run();
    assert!(h.query_by_label_contains(&format!("{used} of {} shown", all.len())).is_some());
    assert!(rows(&h).iter().all(|row| !row.contains("soy gel")), "no soy in a coconut pot");
}

#[test]
fn arrows_move_the_mark_and_the_table_is_copied() {
    let mut h = opened();
    let all = list(&h);
    h.get_by_role_and_label(Role::List, "Numbers").focus();
    h.run();
    for _ in 0..3 {
        h.key_press(Key::ArrowDown);
        h.run();
    }
    assert!(h.query_by_label_contains(&format!("in the data: {}", all[3].key)).is_some());
    h.key_press(Key::End);
    h.run();
    assert!(h.query_by_label_contains(&format!("in the data: {}", all.last().unwrap().key)).is_some());
    let last = all.last().unwrap();
    assert!(rows(&h).iter().any(|row| row.starts_with(&last.title())), "the marked row is in sight");
    h.get_by_label("Copy as a table").click();
    h.step();
    let copied = h.output().platform_output.commands.iter().find_map(|c| match c {
        egui::OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    });
    assert_eq!(copied.unwrap().lines().count(), all.len() + 1);
}

#[test]
fn a_value_is_followed_by_keyboard_to_law_source_and_numbers() {
    let mut h = window([1280.0, 800.0]);
    let answer = h.state().shell.runner.state.answer.clone();
    let (_, ph) = told(Reading::Ph, &answer, answer.verdict.stop_h).unwrap();
    let name = format!("Explain Tang: pH {ph}");
    h.get_by_role_and_label(Role::Button, &name).focus();
    h.run();
    // The hover is there with the keyboard alone.
    assert!(h.query_by_label("Charge balance").is_some());
    assert!(h.query_by_label_contains("electroneutrality").is_some());
    assert!(h.query_by_label_contains("Menu Numbers shows").is_some());
    h.key_press(Key::Enter);
    h.run();
    assert!(matches!(h.state().shell.runner.state.dialog, Dialog::Explain(Reading::Ph, _)));
    h.get_by_label("Where this value comes from");
    assert!(h.query_by_label_contains("Baranyi-Roberts growth with lag").is_some());
    assert!(h.query_by_label_contains("mean buffer from pH 6.5 to 4.3").is_some());
    assert!(h.query_by_label_contains("Rests on ").is_some());
    h.key_press(Key::Escape);
    h.run();
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::None);
}

#[test]
fn hovering_shows_the_explanation_and_a_press_on_the_sheet_opens_it() {
    let mut h = window([1280.0, 800.0]);
    let answer = h.state().shell.runner.state.answer.clone();
    let (_, chilled) = told(Reading::ViscosityChilled, &answer, answer.verdict.stop_h).unwrap();
    let name = format!("Explain Texture, tomorrow from the fridge: {}", chilled.replace('\u{a0}', " "));
    h.get_by_role_and_label(Role::Button, &name).hover();
    h.run();
    for _ in 0..40 {
        h.step();
    }
    assert!(h.query_by_label_contains("Viscosity, chilled: ").is_some());
    assert!(h.query_by_label("What makes it thick, stress at 50 1/s").is_some());
    // On the sheet a title row reads the stop line, and opens the same way.
    let mut h = window([1280.0, 800.0]);
    h.get_by_label_contains("Acid made at ").focus();
    h.run();
    h.key_press(Key::Enter);
    h.run();
    assert!(matches!(h.state().shell.runner.state.dialog, Dialog::Explain(Reading::AcidMade, _)));
}

#[test]
fn the_whole_explanation_leads_to_the_list_of_what_the_design_rests_on() {
    let mut h = window([853.0, 533.0]);
    let stop_h = h.state().shell.runner.state.answer.verdict.stop_h;
    h.state_mut().shell.runner.run(WindowCommand::Explain(Reading::TextureWord, stop_h));
    h.run();
    h.get_by_label("Where the numbers come from").click();
    h.run();
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::Numbers);
    let (all, used) = (list(&h).len(), list(&h).iter().filter(|n| n.used).count());
    assert!(h.query_by_label_contains(&format!("{used} of {all} shown")).is_some());
    h.state_mut().shell.runner.run(Command::Do(Action::Numbers));
    h.run();
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::None);
}
