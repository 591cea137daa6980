//! A batch book of two thousand pots: how long it takes to list, and frames beside those of twenty.
//!
//! Run: `cargo bench --bench batches`. It prints figures; nothing is asserted, since machines differ.

#![allow(clippy::unwrap_used, reason = "a benchmark may stop at the first fault")]
#![allow(clippy::disallowed_methods, reason = "a benchmark writes files, waits and looks at the clock")]
#![allow(clippy::print_stdout, reason = "its figures")]

#[path = "window.rs"]
mod window;

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use potset_app::command::{BatchesCommand, WindowCommand};
use potset_app::state::View;
use potset_app::{AppRunner, State};
use potset_doc::batch::{Batch, BatchReading, Observed};
use potset_doc::{Kitchen, Settings, assets, format};
use potset_store::book::Book;
use potset_store::folders::Folders;
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

/// Writes so many pots, a day apart; three of them are under way.
fn fill(folder: &Path, count: usize) {
    let book = Book::at(folder.join("Batches"));
    fs::create_dir_all(book.folder()).unwrap();
    for k in 0..count {
        let (name, _) = assets::DEMOS[k % assets::DEMOS.len()];
        let design = assets::demo(name).unwrap();
        let (year, day) = (2020 + k / 336, k % 336);
        let culture_in = format!("{year}-{:02}-{:02} 18:30", day / 28 + 1, day % 28 + 1);
        let title = format!("{} {k}", design.name);
        let mut pot = Batch::begun(&title, &culture_in, "Europe/Paris", design, Kitchen::default());
        for (h, ph) in [(0.0, 6.4), (6.0, 5.6), (10.0, 4.9), (20.0, 4.4)] {
            pot.insert(BatchReading::new(h, Observed::Ph(ph)));
        }
        pot.ended = k + 3 < count;
        fs::write(book.path(&format!("pot-{k:05}.ron")), format::write(&pot).unwrap()).unwrap();
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

/// Opens the view and one pot under way, with its forecast ahead; how long the list took.
fn open(shell: &mut Shell) -> Duration {
    let from = Instant::now();
    shell.runner.run(WindowCommand::Show(View::Batches));
    let listed = until(shell, from, |s| s.batches.known && !s.card.running.is_empty());
    let file = shell.runner.state.card.running[0].file.clone();
    shell.runner.run(BatchesCommand::Open(Some(file)));
    until(shell, from, |s| s.batches.open.as_ref().is_some_and(|open| open.ahead.is_some()));
    listed
}

fn main() {
    const MANY: usize = 2000;
    let home = tempfile::tempdir().unwrap();
    let (many, few) = (home.path().join("many"), home.path().join("few"));
    fill(&many, MANY);
    fill(&few, 20);
    let mut cold = shell(&home.path().join("a"), &many);
    println!("first listing of {MANY} pots: {:.2?}", open(&mut cold));
    drop(cold);
    let mut warm = shell(&home.path().join("a"), &many);
    println!("later listing: {:.2?}", open(&mut warm));
    let large = window::frames(&mut warm);
    let mut small = shell(&home.path().join("b"), &few);
    open(&mut small);
    let small = window::frames(&mut small);
    let share = large.as_secs_f64() / small.as_secs_f64();
    println!("a frame with {MANY}: {large:.2?}, with 20: {small:.2?}, {share:.2} times (wanted: 1.5)");
}
