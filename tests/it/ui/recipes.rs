//! The house recipes in the window: chosen folder, saved, found, put on the bench, renamed, binned, put back.

use std::path::Path;
use std::time::{Duration, Instant};

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::command::{BenchCommand, RecipesCommand, WindowCommand};
use potset_app::state::View;
use potset_app::{AppRunner, State};
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Edit, Kitchen, Settings};
use potset_store::folders::Folders;
use potset_store::library::Library;
use potset_ui_dialogs::paths::PathsBy;

use super::{Window, press, window_by};
use crate::support::demo;

/// A window with folders below `home`.
pub fn window_at(home: &Path, recipes: Option<&Path>) -> Harness<'static, Window> {
    let at = |name: &str| home.join(name);
    let folders =
        Folders { settings: at("settings"), state: at("state"), documents: at("Documents"), own: at("own") };
    std::fs::create_dir_all(&folders.documents).unwrap();
    let recipes = recipes.map(|path| path.display().to_string());
    let settings =
        Settings { theme: Theme::Light, depth: Depth::Plain, spread: false, recipes, ..Settings::default() };
    let state = State::start(settings, Kitchen::default()).unwrap();
    let runner = AppRunner::threaded(state, Some(folders), || {});
    window_by([1280.0, 800.0], runner, PathsBy::Typing)
}

/// A folder with these demos as recipes.
pub fn folder_of(home: &Path, demos: &[&str]) -> Library {
    let library = Library::at(home.join("recipes"));
    library.make().unwrap();
    for name in demos {
        library.add(&demo(name)).unwrap();
    }
    library
}

/// Waits until something is true of the state.
pub fn until(h: &mut Harness<'static, Window>, what: &str, done: impl Fn(&State) -> bool) {
    let from = Instant::now();
    while !done(&h.state().shell.runner.state) {
        assert!(from.elapsed() < Duration::from_secs(60), "waited too long: {what}");
        std::thread::sleep(Duration::from_millis(10));
        h.run_steps(1);
    }
    h.run();
}

pub fn recipes(h: &mut Harness<'static, Window>) {
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Recipes));
    h.run();
}

/// Types what is looked for.
pub fn search(h: &mut Harness<'static, Window>, text: &str) {
    h.get_by_role_and_label(Role::TextInput, "Search the recipes").focus();
    h.run();
    h.get_by_role_and_label(Role::TextInput, "Search the recipes").type_text(text);
    h.run();
}

pub fn all_known(state: &State) -> bool {
    let recipes = &state.recipes;
    recipes.listed.left == 0
        && !recipes.listed.list.is_empty()
        && recipes.listed.list.iter().all(|one| one.answer.is_some())
}

#[test]
fn the_folder_is_asked_once_and_a_save_is_a_recipe_with_its_versions() {
    let home = tempfile::tempdir().unwrap();
    let mut h = window_at(home.path(), None);
    recipes(&mut h);
    press(&mut h, "Keep them there");
    let folder = home.path().join("Documents/Potset recipes");
    assert!(folder.is_dir());
    h.get_by_label("There is no recipe yet");
    press(&mut h, "Save this design here…");
    h.get_by_role_and_label(Role::TextInput, "Path of the file");
    press(&mut h, "Save");
    let file = "six-jars-for-tuesday.ron";
    assert!(folder.join(file).is_file(), "{:?}", h.state().shell.runner.state.notices);
    until(&mut h, "the recipe is listed", all_known);
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::SugarDose(0, 12.0), None));
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::S);
    h.run();
    let library = Library::at(folder);
    assert_eq!(library.versions(file).len(), 2);
    h.state_mut().shell.runner.run(RecipesCommand::Open(Some(file.to_owned())));
    until(&mut h, "its versions are told", |state| state.recipes.versions.is_some());
    press(&mut h, "Changed since (1)");
    h.get_by_label_contains("amount: 9.0\u{a0}g/L, now 12.0\u{a0}g/L");
}

#[test]
fn a_recipe_is_found_put_on_the_bench_and_the_open_one_cannot_be_moved() {
    let home = tempfile::tempdir().unwrap();
    let library = folder_of(home.path(), &["coconut-pot.ron", "goat-pot.ron", "soy-set-pots.ron"]);
    let mut h = window_at(home.path(), Some(library.folder()));
    recipes(&mut h);
    until(&mut h, "all are answered", all_known);
    search(&mut h, "goat");
    h.get_by_label_contains("1 of 3 recipes");
    h.key_press(Key::Enter);
    h.run();
    let goat = demo("goat-pot.ron").name;
    until(&mut h, "it is on the bench", |state| state.design().name == goat);
    assert_eq!(h.state().shell.runner.state.view, View::Bench);
    recipes(&mut h);
    let file = h.state().shell.runner.state.recipes.listed.list.iter().find(|r| r.summary.name == goat);
    let file = file.unwrap().file.clone();
    assert!(h.state().shell.runner.state.disabled_move(&file).is_some());
}

#[test]
fn a_recipe_is_renamed_starred_binned_and_put_back() {
    let home = tempfile::tempdir().unwrap();
    let library = folder_of(home.path(), &["coconut-pot.ron", "goat-pot.ron"]);
    let mut h = window_at(home.path(), Some(library.folder()));
    recipes(&mut h);
    until(&mut h, "all are answered", all_known);
    h.state_mut().shell.runner.run(RecipesCommand::Open(Some("thursday-coconut-pot.ron".to_owned())));
    h.run();
    press(&mut h, "4 stars");
    until(&mut h, "the stars are kept", |s| s.recipes.opened().is_some_and(|r| r.record.stars == 4));
    press(&mut h, "Made today");
    until(&mut h, "it was made", |s| s.recipes.opened().is_some_and(|r| r.record.made.len() == 1));
    let name = h.get_by_role_and_label(Role::TextInput, "Name of the recipe");
    name.focus();
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.get_by_role_and_label(Role::TextInput, "Name of the recipe").type_text("Wall pot");
    h.key_press(Key::Enter);
    h.run();
    until(&mut h, "it has another name", |s| {
        s.recipes.opened().is_some_and(|r| r.summary.name == "Wall pot")
    });
    assert!(library.path("wall-pot.ron").is_file());
    press(&mut h, "Move to the bin");
    until(&mut h, "it is in the bin", |s| s.recipes.listed.list.len() == 1 && s.recipes.bin.len() == 1);
    h.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    h.run();
    until(&mut h, "it is back", |s| s.recipes.listed.list.len() == 2);
    let back = library.record("wall-pot.ron");
    assert_eq!((back.stars, back.made.len()), (4, 1));
}

#[test]
fn what_another_program_does_in_the_folder_is_seen() {
    let home = tempfile::tempdir().unwrap();
    let library = folder_of(home.path(), &["coconut-pot.ron"]);
    let mut h = window_at(home.path(), Some(library.folder()));
    recipes(&mut h);
    until(&mut h, "all are answered", all_known);
    library.add(&demo("coconut-pot.ron")).unwrap();
    until(&mut h, "the new file is listed", |s| s.recipes.listed.list.len() == 2);
    // Two of one name are told apart, and can be put beside each other.
    assert!(h.get_all_by_label_contains("same name as another").count() >= 2);
    std::fs::write(library.path("broken.ron"), "(").unwrap();
    until(&mut h, "the broken file is told", |s| s.recipes.listed.bad.len() == 1);
    assert_eq!(h.state().shell.runner.state.recipes.listed.list.len(), 2);
}
