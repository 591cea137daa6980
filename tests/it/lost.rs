//! Nothing is lost: recovery for each window, the maker's pantry in two windows, changes from outside, saves that die.
//!
//! A desk that is dropped with unsaved work stands for a window that was killed: its copies stay, its lock goes.

mod kills;
mod logged;

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use potset_app::command::{BenchCommand, FileCommand, OnChanged, PantryCommand, WindowCommand};
use potset_app::session::Outside;
use potset_app::state::Dialog;
use potset_app::{Action, AppRunner, Command, State};
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Edit, OwnEdit, OwnPantry, Settings, format};
use potset_store::files::{self, Over, Written, last_good};
use potset_store::folders::Folders;
use potset_store::memory;

use crate::support::demo;

/// A home of its own, with a folder for each purpose.
struct Home {
    dir: tempfile::TempDir,
    folders: Folders,
}

impl Home {
    fn new() -> Self {
        let dir = tempfile::tempdir().unwrap();
        let folders = folders_in(dir.path());
        std::fs::create_dir_all(&folders.documents).unwrap();
        Self { dir, folders }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folders.documents.join(name)
    }

    /// A file with a demo design.
    fn file(&self, name: &str) -> PathBuf {
        let path = self.path(name);
        files::save_design(&path, &demo("coconut-pot.ron")).unwrap();
        path
    }

    /// A window that starts here.
    fn window(&self) -> AppRunner {
        window_in(&self.folders)
    }

    fn own_file(&self) -> PathBuf {
        self.folders.own.join("pantry.ron")
    }

    /// Everything below the home whose name says so.
    fn found(&self, part: &str) -> Vec<PathBuf> {
        let mut out = Vec::new();
        let mut left = vec![self.dir.path().to_path_buf()];
        while let Some(folder) = left.pop() {
            for entry in std::fs::read_dir(folder).unwrap().flatten() {
                if entry.path().is_dir() {
                    left.push(entry.path());
                } else if entry.file_name().to_string_lossy().contains(part) {
                    out.push(entry.path());
                }
            }
        }
        out
    }
}

fn folders_in(home: &Path) -> Folders {
    let at = |name: &str| home.join(name);
    Folders { settings: at("settings"), state: at("state"), documents: at("Documents"), own: at("own") }
}

fn window_in(folders: &Folders) -> AppRunner {
    let notes = memory::mend(folders);
    let (_, kitchen, more) = memory::load(folders);
    // The folder is that of the house recipes: each save keeps a version.
    let recipes = Some(folders.documents.display().to_string());
    let settings = Settings { spread: false, recipes, ..Settings::default() };
    let mut state = State::start(settings, kitchen).unwrap();
    let (own, bad) = memory::own(folders);
    state.take_own(own);
    state.notices = notes.into_iter().chain(more).chain(bad).collect();
    AppRunner::threaded(state, Some(folders.clone()), || {})
}

fn dose(design: &Design) -> f64 {
    design.sugars[0].g_per_l
}

fn feed(runner: &mut AppRunner, g_per_l: f64) {
    runner.run(BenchCommand::Edit(Edit::SugarDose(0, g_per_l), None));
}

fn add(runner: &mut AppRunner, name: &str) {
    let copy = OwnEdit::Copy(EntryKind::Base, "coconut_milk_tinned".into(), name.into());
    runner.run(PantryCommand::Own(copy));
}

fn fat(runner: &mut AppRunner, key: &str, to: f64) {
    runner.run(PantryCommand::Own(OwnEdit::Figure(
        EntryKind::Base,
        key.into(),
        "composition.fat".into(),
        to,
    )));
}

fn keys(own: &OwnPantry) -> Vec<&str> {
    let mut keys: Vec<&str> = own.entries.bases.iter().map(|b| b.key.as_str()).collect();
    keys.sort_unstable();
    keys
}

fn told(runner: &AppRunner) -> String {
    runner.state.notices.iter().map(|note| note.line()).collect::<Vec<_>>().join("\n")
}

// ---------------------------------------------------------------------------------------------
// F1: a save ends in words

#[test]
fn f1_a_save_says_where_it_went_every_time() {
    let home = Home::new();
    let mut runner = home.window();
    feed(&mut runner, 9.0);
    let path = home.path("pot.ron");
    runner.run(FileCommand::SaveAs(path.clone()));
    let words = format!("Saved to {}", path.display());
    assert_eq!(runner.state.said.as_deref(), Some(words.as_str()));
    feed(&mut runner, 10.0);
    assert_eq!(runner.state.said, None, "it is unsaved again");
    // Asked for twice, it is never barred, and does not lose the older copy.
    for _ in 0..2 {
        assert_eq!(Action::Save.disabled_reason(&runner.state), None);
        runner.run(Command::Do(Action::Save));
        assert_eq!(runner.state.said.take().as_deref(), Some(words.as_str()));
    }
    assert!((dose(&files::design(&path).unwrap()) - 10.0).abs() < 1e-9);
    assert!((dose(&files::design(&last_good(&path)).unwrap()) - 9.0).abs() < 1e-9);
    // One that fails says so, and says no such thing.
    runner.run(FileCommand::SaveAs(path.join("under-a-file.ron")));
    assert!(told(&runner).contains("could not be saved"), "{}", told(&runner));
    assert_eq!(runner.state.said, None);
}

// ---------------------------------------------------------------------------------------------
// F2: recovery

#[test]
fn f2_unsaved_work_of_a_killed_window_is_offered_with_a_file_and_keeps_its_path() {
    let home = Home::new();
    let path = home.file("pot.ron");
    let mut runner = home.window();
    runner.run(FileCommand::Open(path.clone()));
    feed(&mut runner, 7.5);
    drop(runner);
    let mut runner = home.window();
    runner.run(FileCommand::Open(path.clone()));
    assert_eq!(runner.state.dialog, Dialog::Recovery, "offered though a file was named");
    assert_eq!(runner.state.recovery.len(), 1);
    runner.run(FileCommand::Recover(0, true));
    assert_eq!(runner.state.dialog, Dialog::None);
    assert!((dose(runner.state.design()) - 7.5).abs() < 1e-9);
    assert_eq!(runner.state.session.path.as_deref(), Some(path.as_path()));
    assert!(runner.state.session.history.unsaved());
    // It is this window's own now, and is found again if this one is killed too.
    drop(runner);
    let mut runner = home.window();
    assert_eq!(runner.state.recovery.len(), 1);
    runner.run(FileCommand::Recover(0, true));
    runner.run(Command::Do(Action::Save));
    assert!((dose(&files::design(&path).unwrap()) - 7.5).abs() < 1e-9);
    drop(runner);
    assert!(home.window().state.recovery.is_empty());
    assert_eq!(home.found("design-"), Vec::<PathBuf>::new(), "nothing is left of it");
}

#[test]
fn f2_no_window_touches_the_copies_of_another() {
    let home = Home::new();
    let (one, two) = (home.file("one.ron"), home.file("two.ron"));
    let mut first = home.window();
    first.run(FileCommand::Open(one));
    feed(&mut first, 7.0);
    let mut second = home.window();
    assert!(second.state.recovery.is_empty(), "the first window lives");
    second.run(FileCommand::Open(two));
    feed(&mut second, 8.0);
    second.run(Command::Do(Action::Save));
    second.run(Command::Do(Action::Quit));
    drop(second);
    drop(first);
    let third = home.window();
    assert_eq!(third.state.recovery.len(), 1);
    assert!((dose(&third.state.recovery[0].unsaved.design) - 7.0).abs() < 1e-9);
}

#[test]
fn f2_a_torn_copy_is_read_from_its_last_good_one() {
    let home = Home::new();
    let mut runner = home.window();
    feed(&mut runner, 7.0);
    feed(&mut runner, 8.0);
    drop(runner);
    let copy = home.window().state.recovery[0].copy.clone();
    let whole = std::fs::read(&copy).unwrap();
    std::fs::write(&copy, &whole[..whole.len() / 2]).unwrap();
    let runner = home.window();
    assert_eq!(runner.state.recovery.len(), 1, "{}", told(&runner));
    assert!((dose(&runner.state.recovery[0].unsaved.design) - 7.0).abs() < 1e-9);
    drop(runner);
    // With neither whole it is told of, and stays.
    std::fs::write(last_good(&copy), "(").unwrap();
    let runner = home.window();
    assert!(runner.state.recovery.is_empty());
    assert!(told(&runner).contains("A recovery copy cannot be read"), "{}", told(&runner));
    assert!(copy.exists() && last_good(&copy).exists());
}

#[test]
fn f2_each_lost_design_is_answered_by_itself_and_later_keeps_it() {
    let home = Home::new();
    let mut killed = Vec::new();
    for g_per_l in [5.0, 6.0, 7.0] {
        let mut runner = home.window();
        feed(&mut runner, g_per_l);
        killed.push(runner);
    }
    drop(killed);
    let mut runner = home.window();
    assert_eq!(runner.state.recovery.len(), 3);
    runner.run(FileCommand::RecoverLater);
    assert_eq!(runner.state.dialog, Dialog::None);
    drop(runner);
    let mut runner = home.window();
    assert_eq!(runner.state.recovery.len(), 3, "left for the next start");
    runner.run(FileCommand::Recover(0, true));
    runner.run(FileCommand::Recover(0, false));
    assert_eq!(runner.state.dialog, Dialog::Recovery, "one more waits");
    runner.run(FileCommand::Recover(0, true));
    // The bench was taken: the second one stands beside it.
    assert_eq!(runner.state.unsaved(true).len(), 2);
    drop(runner);
    assert_eq!(home.window().state.recovery.len(), 2, "one was thrown away");
}

// ---------------------------------------------------------------------------------------------
// F3: the maker's own pantry

#[test]
fn f3_two_windows_change_the_pantry_and_no_change_is_lost() {
    let home = Home::new();
    let (mut first, mut second) = (home.window(), home.window());
    add(&mut first, "Tin one");
    add(&mut second, "Tin two");
    add(&mut first, "Tin three");
    let (own, bad) = memory::own(&home.folders);
    assert_eq!((keys(&own), bad), (vec!["tin_one", "tin_three", "tin_two"], None));
    // The window that saved last shows all of them; the other one when it is looked at again.
    assert_eq!(keys(&first.state.shelves.own), ["tin_one", "tin_three", "tin_two"]);
    second.look_outside();
    assert_eq!(keys(&second.state.shelves.own), ["tin_one", "tin_three", "tin_two"]);
    assert!(told(&first).is_empty() && told(&second).is_empty());
    // Taken back, a change takes nothing of the other window along.
    assert!(first.state.shelves.can_undo().is_some());
    first.run(WindowCommand::Show(potset_app::state::View::Pantry));
    first.run(Command::Do(Action::Undo));
    first.run(Command::Do(Action::Undo));
    assert_eq!(keys(&memory::own(&home.folders).0), ["tin_two"]);
}

#[test]
fn f3_what_both_windows_changed_is_told_and_both_are_kept() {
    let home = Home::new();
    let mut first = home.window();
    add(&mut first, "Tin one");
    let mut second = home.window();
    fat(&mut first, "tin_one", 17.0);
    fat(&mut second, "tin_one", 19.0);
    assert!(told(&second).contains("Another window changed this entry too"), "{}", told(&second));
    let (own, _) = memory::own(&home.folders);
    let fats: Vec<f64> = own.entries.bases.iter().map(|b| b.composition.fat.value).collect();
    assert_eq!(fats, [19.0, 17.0]);
    assert_eq!(own.entries.bases[1].name, "Tin one (other window)");
}

const BROKEN: &str = "(format: \"potset own pantry\", version: 1, body: (entries: (moon: 1)))";

#[test]
fn f3_a_broken_pantry_is_set_aside_under_numbers_and_its_last_good_copy_stands_in() {
    let home = Home::new();
    std::fs::create_dir_all(&home.folders.own).unwrap();
    for n in 1..=3 {
        std::fs::write(home.own_file(), format!("{BROKEN}// {n}")).unwrap();
        let runner = home.window();
        let aside = home.folders.own.join(format!("pantry.ron.bad-{n}"));
        assert!(std::fs::read_to_string(&aside).unwrap().ends_with(&format!("// {n}")), "{aside:?}");
        assert!(told(&runner).contains("was set aside as"), "{}", told(&runner));
    }
    assert_eq!(home.found(".bad-").len(), 3, "none was written over");
    let mut runner = home.window();
    add(&mut runner, "Tin one");
    add(&mut runner, "Tin two");
    drop(runner);
    std::fs::write(home.own_file(), BROKEN).unwrap();
    let runner = home.window();
    assert_eq!(keys(&runner.state.shelves.own), ["tin_one"]);
    assert!(told(&runner).contains("its last good copy is used now"), "{}", told(&runner));
}

#[test]
fn f3_no_reading_command_moves_the_pantry_and_a_newer_one_is_never_written_over() {
    let home = Home::new();
    std::fs::create_dir_all(&home.folders.own).unwrap();
    let newer = BROKEN.replace("version: 1", "version: 9");
    for text in [BROKEN, &newer] {
        std::fs::write(home.own_file(), text).unwrap();
        let (own, note) = memory::own(&home.folders);
        assert_eq!(own.count(), 0);
        assert!(note.unwrap().field.contains("pantry.ron"));
        assert_eq!(std::fs::read_to_string(home.own_file()).unwrap(), text, "read, and not moved");
    }
    let mut runner = home.window();
    assert!(told(&runner).contains("version 9"), "{}", told(&runner));
    add(&mut runner, "Tin one");
    assert!(told(&runner).contains("Your pantry was not saved"), "{}", told(&runner));
    assert_eq!(std::fs::read_to_string(home.own_file()).unwrap(), newer);
    assert!(home.found(".bad-").is_empty());
}

#[test]
fn f3_verdict_leaves_a_broken_pantry_where_it_is() {
    let home = tempfile::tempdir().unwrap();
    let data = home.path().join("data/potset");
    std::fs::create_dir_all(&data).unwrap();
    std::fs::write(data.join("pantry.ron"), BROKEN).unwrap();
    let out = std::process::Command::new(env!("CARGO_BIN_EXE_potset"))
        .args(["verdict", "coconut-pot.ron"])
        .env("HOME", home.path())
        .env("XDG_DATA_HOME", home.path().join("data"))
        .env_remove("XDG_CONFIG_HOME")
        .output()
        .unwrap();
    assert!(String::from_utf8_lossy(&out.stderr).contains("moon"), "told of");
    assert_eq!(std::fs::read_to_string(data.join("pantry.ron")).unwrap(), BROKEN);
    assert_eq!(std::fs::read_dir(&data).unwrap().count(), 1);
}

// ---------------------------------------------------------------------------------------------
// F6: last good copies and temporary files

#[test]
fn f6_temporary_files_of_the_dead_are_swept_and_those_of_the_living_are_not() {
    let home = Home::new();
    let path = home.file("pot.ron");
    for i in 0..21 {
        std::fs::write(home.path(&format!(".potset-{i}.tmp")), "half").unwrap();
    }
    let living = std::fs::File::create(home.path(".potset-living.tmp")).unwrap();
    living.lock().unwrap();
    // Opened in a window, or written to: both sweep the folder.
    home.window().run(FileCommand::Open(path.clone()));
    assert_eq!(home.found(".tmp"), [home.path(".potset-living.tmp")]);
    drop(living);
    files::write(&path, "text").unwrap();
    assert!(home.found(".tmp").is_empty());
}

#[test]
fn f6_a_last_good_copy_is_never_written_in_place() {
    let home = Home::new();
    let path = home.path("pot.ron");
    for text in ["one", "two"] {
        files::write(&path, text).unwrap();
    }
    // Someone who has the copy open while it is renewed reads on in the old one, whole.
    let mut open = std::fs::File::open(last_good(&path)).unwrap();
    files::write(&path, "three, and longer").unwrap();
    let mut read = String::new();
    std::io::Read::read_to_string(&mut open, &mut read).unwrap();
    assert_eq!(read, "one");
    assert_eq!(std::fs::read_to_string(last_good(&path)).unwrap(), "two");
}

#[test]
fn f6_only_what_is_known_is_written_over() {
    let home = Home::new();
    let path = home.path("pot.ron");
    let Written::Done(first) = files::write_over(&path, "one", Over::Same(None)).unwrap() else { panic!() };
    assert_eq!(files::write_over(&path, "two", Over::Same(None)).unwrap(), Written::Changed);
    assert_eq!(first, files::stamp(&path));
    assert!(matches!(files::write_over(&path, "three", Over::Same(first)).unwrap(), Written::Done(_)));
    assert_eq!(files::write_over(&path, "four", Over::Same(first)).unwrap(), Written::Changed);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "three");
}

// ---------------------------------------------------------------------------------------------
// F7: changes from outside

#[test]
fn f7_a_change_from_outside_is_not_written_over_untold() {
    let home = Home::new();
    let path = home.file("pot.ron");
    let mut runner = home.window();
    runner.run(FileCommand::Open(path.clone()));
    feed(&mut runner, 7.0);
    let theirs = Design { name: "Theirs".into(), ..demo("coconut-pot.ron") };
    files::save_design(&path, &theirs).unwrap();
    runner.run(Command::Do(Action::Save));
    assert_eq!(runner.state.dialog, Dialog::Changed);
    assert_eq!(files::design(&path).unwrap().name, "Theirs");
    assert!(runner.state.session.history.unsaved() && runner.state.said.is_none());
    runner.run(FileCommand::Changed(OnChanged::Cancel));
    // Asked again, and replaced: what they wrote is the last good copy.
    runner.run(Command::Do(Action::Save));
    runner.run(FileCommand::Changed(OnChanged::Replace));
    assert!((dose(&files::design(&path).unwrap()) - 7.0).abs() < 1e-9);
    assert_eq!(files::design(&last_good(&path)).unwrap().name, "Theirs");
    assert!(!runner.state.session.history.unsaved());
}

/// Polls as the window does, until something is so.
fn wait(runner: &mut AppRunner, what: impl Fn(&AppRunner) -> bool) -> bool {
    let start = Instant::now();
    while !what(runner) && start.elapsed() < Duration::from_secs(60) {
        runner.poll();
        std::thread::sleep(Duration::from_millis(20));
    }
    what(runner)
}

#[test]
fn f7_a_change_from_outside_is_told_while_the_window_has_the_focus() {
    let home = Home::new();
    let path = home.file("pot.ron");
    let mut runner = home.window();
    runner.run(FileCommand::Open(path.clone()));
    files::save_design(&path, &Design { name: "Theirs".into(), ..demo("coconut-pot.ron") }).unwrap();
    assert!(wait(&mut runner, |runner| runner.state.session.outside == Outside::Changed));
    assert!(told(&runner).contains("The file changed on the disk"), "{}", told(&runner));
    assert_eq!(runner.state.notices.len(), 1, "told once");
}

#[test]
fn f7_a_deleted_folder_ends_saved_and_the_next_save_goes_through() {
    let home = Home::new();
    let path = home.file("far/pot.ron");
    let mut runner = home.window();
    runner.run(FileCommand::Open(path.clone()));
    assert!(!runner.state.session.history.unsaved());
    std::fs::remove_dir_all(path.parent().unwrap()).unwrap();
    assert!(wait(&mut runner, |runner| runner.state.session.outside == Outside::Gone));
    assert!(runner.state.session.history.unsaved(), "it is in no file any more");
    assert!(told(&runner).contains("is gone"), "{}", told(&runner));
    assert_eq!(Action::Save.disabled_reason(&runner.state), None);
    runner.run(Command::Do(Action::Save));
    assert!(path.is_file());
    assert_eq!(runner.state.said, Some(format!("Saved to {}", path.display())));
    assert!(!runner.state.session.history.unsaved());
}

#[test]
fn a_design_of_the_shipped_pantry_is_a_recovery_copy_too() {
    // The format of a copy is a promise like that of a design.
    let unsaved = potset_doc::Unsaved {
        path: Some("/kitchen/pot.ron".into()),
        stamp: Some(u64::MAX),
        design: demo("coconut-pot.ron"),
    };
    let text = format::write(&unsaved).unwrap();
    assert_eq!(format::read_unsaved(text.as_bytes()).unwrap(), unsaved);
    assert!(format::read_design(text.as_bytes()).unwrap_err().title.contains("potset recovery copy"));
}
