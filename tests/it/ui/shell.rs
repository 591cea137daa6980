//! The shell: files, the question about unsaved work, themes, the finder, notices.

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use potset_app::Command;
use potset_app::command::{BenchCommand, FileCommand};
use potset_doc::Edit;
use potset_doc::settings::Theme;

use super::window;

#[test]
fn saved_by_key_and_opened_again() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("evening.ron");
    let mut h = window([1280.0, 800.0]);
    h.get_by_role_and_label(Role::Slider, "Sugar for the culture").set_value_accesskit(21.0);
    h.run();
    h.get_by_label("Unsaved changes");
    h.key_press_modifiers(Modifiers::COMMAND, Key::S);
    h.run();
    let field = h.get_by_role_and_label(Role::TextInput, "Path of the file");
    field.focus();
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.get_by_role_and_label(Role::TextInput, "Path of the file").type_text(path.to_str().unwrap());
    h.run();
    h.key_press(Key::Enter);
    h.run();
    assert!(path.is_file());
    h.get_by_label("No unsaved changes");
    // A new design, then the file again.
    h.key_press_modifiers(Modifiers::COMMAND, Key::N);
    h.run();
    assert!(h.state().shell.runner.state.session.path.is_none());
    h.state_mut().shell.runner.run(FileCommand::Open(path.clone()));
    h.run();
    let state = &h.state().shell.runner.state;
    assert!((state.design().sugars[0].g_per_l - 21.0).abs() < 1e-9);
    assert_eq!(state.settings.recent, [path.display().to_string()]);
    assert!(!state.session.history.unsaved());
}

#[test]
fn no_file_is_written_over_unasked() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("evening.ron");
    std::fs::write(&path, "mine").unwrap();
    let mut h = window([1280.0, 800.0]);
    // The ending is put to what is typed.
    let save_as = |h: &mut egui_kittest::Harness<'static, super::Window>, name: &str| {
        h.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
        h.run();
        let typed = dir.path().join(name);
        h.get_by_role_and_label(Role::TextInput, "Path of the file").focus();
        h.run();
        h.key_press_modifiers(Modifiers::COMMAND, Key::A);
        h.get_by_role_and_label(Role::TextInput, "Path of the file").type_text(typed.to_str().unwrap());
        h.run();
        h.key_press(Key::Enter);
        h.run();
        h.query_by_label("Replace it").map(|_| ())
    };
    assert!(save_as(&mut h, "evening").is_some());
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine");
    h.get_by_label("Another name").click();
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Path of the file");
    h.key_press(Key::Enter);
    h.run();
    h.get_by_label("Replace it").click();
    h.run();
    assert!(std::fs::read_to_string(&path).unwrap().len() > 100);
    assert!(dir.path().join("evening.ron").is_file());
}

#[test]
fn unsaved_work_is_asked_about() {
    let mut h = window([1280.0, 800.0]);
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::SugarDose(0, 5.0), None));
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::N);
    h.run();
    h.get_by_label("Save your changes?");
    h.get_by_label("Cancel").click();
    h.run();
    assert!((h.state().shell.runner.state.design().sugars[0].g_per_l - 5.0).abs() < 1e-9);
    h.key_press_modifiers(Modifiers::COMMAND, Key::N);
    h.run();
    h.get_by_label("Discard").click();
    h.run();
    assert!(h.state().shell.runner.state.design().bases.is_empty(), "a new design is empty");
    assert!(h.query_by_label("Save your changes?").is_none());
}

#[test]
fn a_save_given_up_at_closing_closes_nothing_later() {
    let dir = tempfile::tempdir().unwrap();
    let mut h = window([1280.0, 800.0]);
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::SugarDose(0, 5.0), None));
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::N);
    h.run();
    h.get_by_label("Save").click();
    h.run();
    h.get_by_label("Cancel").click();
    h.run();
    // Saved on its own, later: the design stays open.
    h.key_press_modifiers(Modifiers::COMMAND, Key::S);
    h.run();
    h.state_mut().shell.runner.run(FileCommand::SaveAs(dir.path().join("later.ron")));
    h.run();
    let state = &h.state().shell.runner.state;
    assert!((state.design().sugars[0].g_per_l - 5.0).abs() < 1e-9, "still the same design");
    assert!(state.session.path.is_some());
}

#[test]
fn the_finder_does_what_it_finds() {
    let mut h = window([1280.0, 800.0]);
    h.key_press_modifiers(Modifiers::COMMAND, Key::K);
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Part of the name").type_text("dark");
    h.run();
    h.key_press(Key::Enter);
    h.run();
    assert_eq!(h.state().shell.runner.state.settings.theme, Theme::Dark);
    assert!(h.query_by_label("Part of the name").is_none());
}

#[test]
fn a_file_that_cannot_be_read_is_told_and_can_be_dismissed() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("bad.ron");
    std::fs::write(&path, "(format: \"potset design\", version: 9)").unwrap();
    let mut h = window([1280.0, 800.0]);
    h.state_mut().shell.runner.run(FileCommand::Open(path));
    h.run();
    assert!(h.query_by_label_contains("version 9").is_some());
    h.get_by_label("Dismiss").click();
    h.run();
    assert!(h.query_by_label_contains("version 9").is_none());
}

#[test]
fn the_name_is_changed_in_place() {
    let mut h = window([1280.0, 800.0]);
    h.get_by_role_and_label(Role::TextInput, "Design name").focus();
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.get_by_role_and_label(Role::TextInput, "Design name").type_text("Friday pot");
    h.run();
    h.key_press(Key::Enter);
    h.run();
    assert_eq!(h.state().shell.runner.state.design().name, "Friday pot");
}

#[test]
fn every_dialog_opens_and_closes() {
    use potset_app::Action;
    for (action, title) in
        [(Action::Kitchen, "Your kitchen"), (Action::Cautions, "Cautions"), (Action::Keys, "Keys")]
    {
        let mut h = window([1280.0, 800.0]);
        h.state_mut().shell.runner.run(Command::Do(action));
        h.run();
        assert!(h.query_all_by_label(title).count() > 0, "{title}");
        h.key_press(Key::Escape);
        h.run();
        assert_eq!(h.state().shell.runner.state.dialog, potset_app::state::Dialog::None);
    }
}
