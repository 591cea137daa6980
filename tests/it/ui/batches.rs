//! The batch book in the window: a pot begun, read by the keyboard, found again; a logger's file; what pots taught.

use std::path::Path;

use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::State;
use potset_app::batches::BatchesPage;
use potset_app::book::BookChange;
use potset_app::command::{BatchesCommand, WindowCommand};
use potset_app::state::View;
use potset_doc::Batch;
use potset_doc::batch::Observed;
use potset_store::book::Book;

use super::recipes::{folder_of, until, window_at};
use super::{Window, pick, press};

type H = Harness<'static, Window>;

fn run(h: &mut H, command: BatchesCommand) {
    h.state_mut().shell.runner.run(command);
    h.run();
}

/// Writes into a field in the place of what stands there.
fn write(h: &mut H, field: &str, text: &str) {
    h.get_by_role_and_label(Role::TextInput, field).focus();
    h.run();
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.get_by_role_and_label(Role::TextInput, field).type_text(text);
    h.run();
    h.key_press(Key::Enter);
    h.run();
}

fn open(state: &State) -> Option<&Batch> {
    state.batches.open.as_ref().map(|open| &*open.batch)
}

/// A window in which a pot was begun from the bench, a day ago.
fn begun(home: &Path) -> (H, Book) {
    let library = folder_of(home, &["coconut-pot.ron"]);
    let mut h = window_at(home, Some(library.folder()));
    press(&mut h, "Begin a pot");
    until(&mut h, "the pot is open", |s| s.view == View::Batches && open(s).is_some());
    write(&mut h, "Culture went in", "yesterday 00:30");
    until(&mut h, "it began yesterday", |s| open(s).is_some_and(|b| b.culture_in.ends_with("00:30")));
    (h, Book::at(library.folder().join("Batches")))
}

/// Types a line without touching the mouse.
fn reading(h: &mut H, text: &str) {
    assert!(h.get_by_role_and_label(Role::TextInput, "Reading").is_focused(), "{text}");
    h.get_by_role_and_label(Role::TextInput, "Reading").type_text(text);
    h.run();
    h.key_press(Key::Enter);
    h.run();
}

#[test]
fn a_pot_is_begun_read_by_the_keyboard_and_there_again_later() {
    let home = tempfile::tempdir().unwrap();
    let (mut h, book) = begun(home.path());
    h.get_by_role_and_label(Role::TextInput, "Reading").focus();
    h.run();
    let lines = [
        "+0 h 6.3",
        "+6 h 5.7 41 °C",
        "+9 h strip 5.2",
        "+12 h 4.8 bright",
        "+20 h 4.4 by Ann note smells of pears",
    ];
    for (k, line) in lines.iter().enumerate() {
        reading(&mut h, line);
        until(&mut h, line, |s| {
            s.batches.line.text.is_empty() && open(s).is_some_and(|b| b.readings.len() > k)
        });
    }
    until(&mut h, "the forecast ahead is there", |s| {
        s.batches.open.as_ref().is_some_and(|o| o.ahead.is_some())
    });
    h.get_by_label_contains("pH by time with 5 readings");
    drop(h);
    let listed = book.list().unwrap();
    assert_eq!((listed.all.len(), listed.all[0].summary.readings), (1, 7));
    let mut h = window_at(home.path(), Some(&home.path().join("recipes")));
    until(&mut h, "it is under way", |s| s.card.running.len() == 1);
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Batches));
    h.run();
    h.get_by_role(Role::ListItem).click();
    until(&mut h, "it is open", |s| open(s).is_some());
    h.get_by_label_contains("pH\u{a0}4.4, by Ann. Smells of pears");
    // A reading is corrected in its place, then that is taken back.
    // It lies below the fold of this window.
    h.get_by_label("Correct the reading 1").click_accesskit();
    h.run();
    let before = open(&h.state().shell.runner.state).unwrap().clone();
    write(&mut h, "Reading", "+0 h 6.5");
    until(&mut h, "it is corrected", |s| open(s).is_some_and(|b| b.readings[0].what == Observed::Ph(6.5)));
    assert_eq!(open(&h.state().shell.runner.state).unwrap().readings.len(), before.readings.len());
    run(&mut h, BatchesCommand::Undo);
    until(&mut h, "it is as before", |s| open(s) == Some(&before));
}

#[test]
fn a_pot_waits_in_the_bin_until_it_is_put_back_or_deleted() {
    let home = tempfile::tempdir().unwrap();
    let (mut h, book) = begun(home.path());
    run(&mut h, BatchesCommand::ThrowAway);
    until(&mut h, "it is gone", |s| s.batches.known && s.batches.listed.all.is_empty());
    press(&mut h, "Bin");
    until(&mut h, "it waits in the bin", |s| s.batches.bin.len() == 1);
    press(&mut h, "Put back");
    until(&mut h, "it is back", |s| s.batches.listed.all.len() == 1 && s.batches.bin.is_empty());
    assert_eq!(book.list().unwrap().all.len(), 1);
    let file = book.list().unwrap().all[0].file.clone();
    run(&mut h, BatchesCommand::Book(BookChange::ThrowAway(file)));
    until(&mut h, "it waits again", |s| s.batches.bin.len() == 1);
    press(&mut h, "Delete…");
    h.get_by_label("Delete it with all its readings? This cannot be undone.");
    press(&mut h, "Delete for good");
    until(&mut h, "it is gone for good", |s| s.batches.bin.is_empty());
    h.get_by_label("The bin is empty");
    assert!(book.bin().is_empty() && book.list().unwrap().all.is_empty());
}

#[test]
fn what_is_not_understood_or_not_saved_is_told_and_stays_as_it_was_typed() {
    let home = tempfile::tempdir().unwrap();
    let (mut h, book) = begun(home.path());
    h.get_by_role_and_label(Role::TextInput, "Reading").focus();
    h.run();
    reading(&mut h, "+3 h 5.9 wobbly");
    h.get_by_label_contains("I don't know “wobbly”");
    assert_eq!(h.state().shell.runner.state.batches.line.text, "+3 h 5.9 wobbly");
    // The file is no batch any more: nothing is written over it.
    let file = book.list().unwrap().all[0].file.clone();
    std::fs::write(book.path(&file), "someone else's").unwrap();
    write(&mut h, "Reading", "+3 h 5.9");
    until(&mut h, "it is told", |s| s.batches.line.refused.is_some());
    assert_eq!(h.state().shell.runner.state.batches.line.text, "+3 h 5.9");
    assert_eq!(std::fs::read_to_string(book.path(&file)).unwrap(), "someone else's");
}

#[test]
fn a_loggers_file_is_used_with_the_columns_that_a_person_chose() {
    let home = tempfile::tempdir().unwrap();
    let (mut h, _) = begun(home.path());
    // Two temperatures: the guess takes one, and the person the other.
    let rows: Vec<String> =
        (0..40).map(|k| format!("{},{},{}", 15 * k, 21.0, 30.0 + 0.25 * f64::from(k))).collect();
    let text = format!("minutes,sensor 1,sensor 2\n{}\nbroken row\n", rows.join("\n"));
    let path = home.path().join("logger.csv");
    std::fs::write(&path, text).unwrap();
    run(&mut h, BatchesCommand::Logger(path));
    until(&mut h, "it is read", |s| s.batches.logger.as_ref().is_some_and(|l| l.told.is_some()));
    h.get_by_label_contains("Row 42: The row has 1 of");
    pick(&mut h, "Column 2", "not used");
    pick(&mut h, "Column 3", "temperature");
    until(&mut h, "the third is read", |s| {
        let told = s.batches.logger.as_ref().and_then(|l| l.told.as_ref());
        told.is_some_and(|told| told.course.len() == 40 && told.course[0] == (0.0, 30.0))
    });
    press(&mut h, "Use its warmth");
    until(&mut h, "the pot has it", |s| {
        open(s).and_then(|b| b.logged.as_ref()).is_some_and(|l| l.course.len() == 40)
    });
    assert_eq!(h.state().shell.runner.state.batches.page, BatchesPage::Pot);
}

#[test]
fn what_pots_taught_is_kept_told_on_the_bench_and_taken_back() {
    let home = tempfile::tempdir().unwrap();
    let library = folder_of(home.path(), &["coconut-pot.ron"]);
    let mut h = window_at(home.path(), Some(library.folder()));
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Batches));
    h.run();
    press(&mut h, "Copy the demo pots");
    until(&mut h, "they are there", |s| s.batches.listed.all.len() == 3 && s.card.running.len() == 1);
    press(&mut h, "What pots taught");
    until(&mut h, "it is worked out", |s| s.batches.learning.told.is_some() && !s.batches.learning.busy());
    let before = h.state().shell.runner.state.answer.forecast.ph.clone();
    press(&mut h, "Keep what they taught");
    until(&mut h, "forecasts use it", |s| s.answer.learnt && s.answered == s.question);
    assert_ne!(h.state().shell.runner.state.answer.forecast.ph, before);
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Bench));
    h.run();
    h.get_by_label("Uses what 3 pots taught");
    drop(h);
    // Another session knows it.
    let mut h = window_at(home.path(), Some(library.folder()));
    h.get_by_label("Uses what 3 pots taught");
    h.state_mut().shell.runner.run(WindowCommand::Show(View::Batches));
    h.run();
    press(&mut h, "What pots taught");
    press(&mut h, "Undo the last keeping");
    until(&mut h, "nothing is used", |s| !s.answer.learnt && s.answered == s.question);
    assert_eq!(h.state().shell.runner.state.answer.forecast.ph, before);
}
