//! Five thousand house recipes: the first screen, all of them, a later opening, and frames beside those of twenty.
//!
//! Run: `cargo bench --bench recipes`. It prints figures; nothing is asserted, since machines differ.

#![allow(clippy::unwrap_used, reason = "a benchmark may stop at the first fault")]
#![allow(clippy::disallowed_methods, reason = "a benchmark writes files, waits and looks at the clock")]
#![allow(clippy::print_stdout, reason = "its figures")]

#[path = "window.rs"]
mod window;

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use potset_app::command::WindowCommand;
use potset_app::state::View;
use potset_app::{AppRunner, State};
use potset_doc::{Kitchen, Settings, assets, format};
use potset_store::folders::Folders;
use potset_store::library::Library;
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

/// Writes so many recipes, made of the demos.
fn fill(folder: &Path, count: usize) {
    fs::create_dir_all(folder).unwrap();
    for k in 0..count {
        let (name, _) = assets::DEMOS[k % assets::DEMOS.len()];
        let mut design = assets::demo(name).unwrap();
        design.name = format!("{} {k}", design.name);
        fs::write(folder.join(format!("recipe-{k:05}.ron")), format::write(&design).unwrap()).unwrap();
    }
}

fn shell(home: &Path, recipes: &Path) -> Shell {
    let at = |name: &str| home.join(name);
    let folders =
        Folders { settings: at("settings"), state: at("state"), documents: at("documents"), own: at("own") };
    let settings = Settings { recipes: Some(recipes.display().to_string()), ..Settings::default() };
    let state = State::start(settings, Kitchen::default()).unwrap();
    Shell::new(AppRunner::threaded(state, Some(folders), || {}), PathsBy::Typing)
}

/// How long until something is true.
fn until(shell: &mut Shell, from: Instant, done: impl Fn(&State) -> bool) -> Duration {
    while !done(&shell.runner.state) {
        shell.runner.poll();
        std::thread::sleep(Duration::from_micros(200));
    }
    from.elapsed()
}

/// Opens the view: until a screen of recipes is there, until all are listed, and until it is known what comes of all.
fn open(shell: &mut Shell) -> [Duration; 3] {
    let from = Instant::now();
    shell.runner.run(WindowCommand::Show(View::Recipes));
    let first = until(shell, from, |s| s.recipes.listed.list.len() >= 12);
    let listed = until(shell, from, |s| s.recipes.listed.left == 0);
    let known = until(shell, from, |s| s.recipes.listed.list.iter().all(|one| one.answer.is_some()));
    // The list is kept for the next start behind the last answer.
    std::thread::sleep(Duration::from_millis(800));
    [first, listed, known]
}

fn main() {
    const MANY: usize = 5000;
    let home = tempfile::tempdir().unwrap();
    let (many, few) = (home.path().join("many"), home.path().join("few"));
    fill(&many, MANY);
    fill(&few, 20);
    let library = Library::at(many.clone());
    let from = Instant::now();
    let read = library.files().unwrap().iter().filter(|(file, _)| library.read(file).is_ok()).count();
    let plain = from.elapsed();
    println!("reading and parsing {read} files: {plain:.2?}");
    let mut cold = shell(home.path(), &many);
    let [first, listed, known] = open(&mut cold);
    println!("first opening: a screen of them after {first:.2?} (wanted: 300 ms)");
    let share = listed.as_secs_f64() / plain.as_secs_f64();
    println!("all listed after {listed:.2?}: {share:.2} times reading and parsing (wanted: 2)");
    println!("what comes of all of them after {known:.2?}");
    drop(cold);
    let mut warm = shell(home.path(), &many);
    let [first, listed, known] = open(&mut warm);
    println!("later opening: first {first:.2?}, all {listed:.2?}, what comes of all {known:.2?}");
    let (large, small) = (window::frames(&mut warm), {
        let mut small = shell(home.path(), &few);
        open(&mut small);
        window::frames(&mut small)
    });
    let share = large.as_secs_f64() / small.as_secs_f64();
    println!("a frame with {MANY}: {large:.2?}, with 20: {small:.2?}, {share:.2} times (wanted: 1.5)");
}
