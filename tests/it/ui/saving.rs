//! Saving and opening on the page of our own, whatever the system's dialog does; the dialogs about what would be lost.

use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::command::{BenchCommand, FileCommand};
use potset_app::{AppRunner, State};
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Edit, Kitchen, Settings};
use potset_store::files;
use potset_store::folders::Folders;
use potset_ui_dialogs::paths::{Browse, PathsBy, Want};

use super::{Window, press, window_by};
use crate::support::demo;

/// A window with folders below `home`, and something in the place of the system's dialog.
fn window_at(home: &Path, browse: Browse) -> Harness<'static, Window> {
    let at = |name: &str| home.join(name);
    let folders =
        Folders { settings: at("settings"), state: at("state"), documents: at("Documents"), own: at("own") };
    std::fs::create_dir_all(&folders.documents).unwrap();
    let settings =
        Settings { theme: Theme::Light, depth: Depth::Details, spread: false, ..Settings::default() };
    let state = State::start(settings, Kitchen::default()).unwrap();
    let runner = AppRunner::threaded(state, Some(folders), || {});
    window_by([1280.0, 800.0], runner, PathsBy::Instead(browse))
}

/// No dialog on this system: nothing at once.
fn none(_: &Want, _: &Path) -> Option<PathBuf> {
    None
}

/// No dialog on this system either, but it takes its time to find out.
fn none_late(_: &Want, _: &Path) -> Option<PathBuf> {
    std::thread::sleep(Duration::from_millis(400));
    None
}

/// The maker chose a file.
fn chosen(want: &Want, folder: &Path) -> Option<PathBuf> {
    matches!(want, Want::Save(_)).then(|| folder.join("chosen.ron"))
}

fn edited(h: &mut Harness<'static, Window>) {
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::SugarDose(0, 9.0), None));
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::S);
    h.run();
}

/// Waits until the system's dialog has answered.
fn answered(h: &mut Harness<'static, Window>) {
    std::thread::sleep(Duration::from_millis(700));
    h.run();
}

#[test]
fn f1_an_empty_answer_of_the_systems_dialog_leads_back_to_the_page_however_late() {
    for browse in [none as Browse, none_late] {
        let home = tempfile::tempdir().unwrap();
        let mut h = window_at(home.path(), browse);
        edited(&mut h);
        press(&mut h, "Browse…");
        answered(&mut h);
        h.get_by_label_contains("No file was chosen in your system's dialog");
        // The page stands, with the folder that a person can see and the name that was offered.
        h.get_by_role_and_label(Role::TextInput, "Path of the file");
        press(&mut h, "Save");
        let path = home.path().join("Documents/six-jars-for-tuesday.ron");
        assert!(path.is_file(), "{:?}", h.state().shell.runner.state.notices);
        h.get_by_label_contains(&format!("Saved to {}", path.display()));
        h.get_by_label("No unsaved changes");
    }
}

#[test]
fn f1_all_that_is_typed_before_enter_counts_though_it_comes_in_one_frame() {
    let home = tempfile::tempdir().unwrap();
    let mut h = window_at(home.path(), none);
    edited(&mut h);
    let path = home.path().join("Documents/typed-fast.ron");
    // A slow machine draws no frame in between.
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.event(egui::Event::Text(path.display().to_string()));
    h.key_press(Key::Enter);
    h.run();
    assert!(path.is_file());
    h.get_by_label_contains(&format!("Saved to {}", path.display()));
}

#[test]
fn f1_a_file_chosen_in_the_systems_dialog_is_written() {
    let home = tempfile::tempdir().unwrap();
    let mut h = window_at(home.path(), chosen);
    edited(&mut h);
    press(&mut h, "Browse…");
    answered(&mut h);
    let path = home.path().join("Documents/chosen.ron");
    assert!(path.is_file());
    h.get_by_label_contains(&format!("Saved to {}", path.display()));
}

#[test]
fn f1_a_file_is_picked_from_what_lies_in_its_folder() {
    let home = tempfile::tempdir().unwrap();
    let design = potset_doc::Design { name: "From the folder".into(), ..demo("coconut-pot.ron") };
    files::save_design(&home.path().join("Documents/tuesdays/found.ron"), &design).unwrap();
    let mut h = window_at(home.path(), none);
    h.key_press_modifiers(Modifiers::COMMAND, Key::O);
    h.run();
    press(&mut h, "tuesdays/");
    press(&mut h, "found.ron");
    assert_eq!(h.state().shell.runner.state.design().name, "From the folder");
    // A typed name alone lies in the folder that is shown.
    h.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    h.run();
    // What is offered is marked: typing begins in its place.
    h.event(egui::Event::Text("other".to_owned()));
    h.run();
    h.key_press(Key::Enter);
    h.run();
    assert!(home.path().join("Documents/tuesdays/other.ron").is_file());
}

#[test]
fn f2_lost_work_is_offered_in_the_window_by_name_and_file() {
    let home = tempfile::tempdir().unwrap();
    let path = home.path().join("Documents/pot.ron");
    files::save_design(&path, &demo("coconut-pot.ron")).unwrap();
    let mut h = window_at(home.path(), none);
    h.state_mut().shell.runner.run(FileCommand::Open(path.clone()));
    edited(&mut h);
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::SugarDose(0, 8.0), None));
    drop(h);
    let mut h = window_at(home.path(), none);
    h.state_mut().shell.runner.run(FileCommand::Open(path.clone()));
    h.run();
    h.get_by_label("Unsaved work was found");
    h.get_by_label(&path.display().to_string());
    press(&mut h, "Recover: Thursday coconut pot");
    assert!(h.query_by_label("Unsaved work was found").is_none());
    let state = &h.state().shell.runner.state;
    assert!((state.design().sugars[0].g_per_l - 8.0).abs() < 1e-9);
    assert_eq!(state.session.path.as_ref(), Some(&path));
}

#[test]
fn f7_the_window_asks_before_it_writes_over_what_others_wrote() {
    let home = tempfile::tempdir().unwrap();
    let path = home.path().join("Documents/pot.ron");
    files::save_design(&path, &demo("coconut-pot.ron")).unwrap();
    let mut h = window_at(home.path(), none);
    h.state_mut().shell.runner.run(FileCommand::Open(path.clone()));
    let theirs = potset_doc::Design { name: "Theirs".into(), ..demo("coconut-pot.ron") };
    files::save_design(&path, &theirs).unwrap();
    edited(&mut h);
    h.get_by_label("The file changed on the disk");
    h.get_by_label("name: Theirs, now Thursday coconut pot");
    press(&mut h, "Keep both: save under another name");
    h.get_by_role_and_label(Role::TextInput, "Path of the file");
    press(&mut h, "Cancel");
    assert_eq!(files::design(&path).unwrap().name, "Theirs");
    h.key_press_modifiers(Modifiers::COMMAND, Key::S);
    h.run();
    press(&mut h, "Replace it");
    assert!((files::design(&path).unwrap().sugars[0].g_per_l - 9.0).abs() < 1e-9);
    h.get_by_label_contains("Saved to ");
}
