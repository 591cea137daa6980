//! The book on a disk: names, changes by two, the bin, copies and the list.

use super::*;
use potset_doc::batch::{BatchReading, Observed};
use potset_doc::{Kitchen, assets};

fn batch(name: &str, culture_in: &str) -> Batch {
    Batch::begun(
        name,
        culture_in,
        "Europe/Paris",
        assets::demo("coconut-pot.ron").unwrap(),
        Kitchen::default(),
    )
}

fn book(folder: &tempfile::TempDir) -> Book {
    Book {
        known: Some(folder.path().join("state").join("known.txt")),
        ..Book::at(folder.path().join("Batches"))
    }
}

fn reading(at_h: f64) -> BatchReading {
    BatchReading::new(at_h, Observed::Ph(4.9))
}

fn add(batch: &mut Batch, at_h: f64) {
    batch.insert(reading(at_h));
}

#[test]
fn a_pot_has_a_file_of_its_day_and_name_and_none_is_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let book = book(&folder);
    assert_eq!(book.files(), Ok(Vec::new()), "no folder yet");
    let pot = batch("Six jars: ../for / Tuesday", "2026-11-30 18:30");
    assert_eq!(book.begin(&pot, "2026-12-01").unwrap(), "2026-11-30 Six jars for Tuesday.ron");
    assert_eq!(book.begin(&pot, "2026-12-01").unwrap(), "2026-11-30 Six jars for Tuesday-2.ron");
    assert_eq!(book.begin(&batch("?", ""), "2026-12-01").unwrap(), "2026-12-01.ron");
    assert_eq!(book.read("2026-11-30 Six jars for Tuesday.ron").unwrap(), pot);
    let bad = Batch { stars: 9, ..pot };
    assert!(book.begin(&bad, "2026-12-01").unwrap_err().title.contains("stars"));
    assert_eq!(book.files().unwrap().len(), 3);
}

#[test]
fn a_change_is_made_to_the_file_as_others_left_it() {
    let folder = tempfile::tempdir().unwrap();
    let book = book(&folder);
    let file = book.begin(&batch("Six jars", "2026-11-30 18:30"), "").unwrap();
    // Another one writes between the reading and the writing, once.
    let other = std::cell::Cell::new(true);
    let after = book
        .change(&file, |mine| {
            if other.take() {
                book.change(&file, |theirs| add(theirs, 1.0)).unwrap();
            }
            mine.insert(reading(2.0));
        })
        .unwrap();
    assert_eq!(after.readings, [reading(1.0), reading(2.0)]);
    assert_eq!(book.read(&file).unwrap(), after);
    let stamp = files::stamp(&book.path(&file));
    book.change(&file, |_| ()).unwrap();
    assert_eq!(files::stamp(&book.path(&file)), stamp, "nothing changed, nothing written");
    let refused = book.change(&file, |batch| add(batch, f64::NAN)).unwrap_err();
    assert!(refused.field.contains("at_h"), "{refused}");
    assert_eq!(book.read(&file).unwrap(), after);
}

#[test]
fn what_is_torn_of_another_field_or_of_a_newer_version_is_told_and_left() {
    let folder = tempfile::tempdir().unwrap();
    let book = book(&folder);
    let file = book.begin(&batch("Six jars", "2026-11-30 18:30"), "").unwrap();
    let text = String::from_utf8(files::bytes(&book.path(&file)).unwrap()).unwrap();
    for (bad, part) in [
        (text.replace("version: 1,", "version: 2,"), "versions 1 to 1"),
        (text.replace("    name: \"Six jars\",", "    names: \"Six jars\","), "names"),
        (text.replace("2026-11-30 18:30", "soon"), "not a date and a time"),
        (text[..text.len() / 2].to_owned(), ""),
    ] {
        files::write(&book.path("bad.ron"), &bad).unwrap();
        let note = book.change("bad.ron", |batch| batch.stars = 1).unwrap_err().line();
        assert!(note.contains(part) && note.contains("bad.ron"), "{note}");
        let listed = book.list().unwrap();
        assert_eq!((listed.all.len(), listed.bad.len()), (1, 1));
        assert_eq!(files::bytes(&book.path("bad.ron")).unwrap(), bad.as_bytes());
    }
}

#[test]
fn the_list_is_the_same_from_what_is_known_and_from_the_files() {
    let folder = tempfile::tempdir().unwrap();
    let book = book(&folder);
    for (name, time) in [("a", "2026-11-28 18:30"), ("b", "2026-11-30 18:30"), ("c", "")] {
        book.begin(&batch(name, time), "2026-11-30").unwrap();
    }
    let names =
        |listed: &Listed| -> Vec<String> { listed.all.iter().map(|k| k.summary.name.clone()).collect() };
    let fresh = book.list().unwrap();
    assert_eq!(names(&fresh), ["c", "b", "a"]);
    assert_eq!(book.list().unwrap(), fresh);
    assert_eq!(Book { known: None, ..book.clone() }.list().unwrap(), fresh);
    book.change(&fresh.all[1].file, |batch| batch.ended = true).unwrap();
    let running: Vec<String> = book.running().unwrap().into_iter().map(|(_, batch)| batch.name).collect();
    assert_eq!(running, ["c", "a"]);
    book.throw_away(&fresh.all[2].file).unwrap();
    assert_eq!(names(&book.list().unwrap()), ["c", "b"]);
}

#[test]
fn a_batch_goes_to_the_bin_and_back_and_copies_go_out_and_in() {
    let folder = tempfile::tempdir().unwrap();
    let book = book(&folder);
    let pot = batch("Six jars", "2026-11-30 18:30");
    let file = book.begin(&pot, "").unwrap();
    let number = book.throw_away(&file).unwrap();
    assert_eq!(book.bin()[0].name.as_deref(), Some("Six jars"));
    assert_eq!(book.begin(&batch("Six jars", "2026-11-30 19:30"), "").unwrap(), file);
    let back = book.put_back(number).unwrap();
    assert_eq!(back, "2026-11-30 Six jars-2.ron");
    assert_eq!(book.read(&back).unwrap(), pot);
    let other = folder.path().join("copies");
    assert_eq!(book.export(&other).unwrap().copied, 2);
    let copies = Book::at(other.clone());
    assert_eq!(copies.files().unwrap().len(), 2);
    assert_eq!((book.import(&other).unwrap().there, book.import(&copies.path(&back)).unwrap().there), (2, 1));
    files::write(&other.join("recipe.ron"), &format::write(&pot.design).unwrap()).unwrap();
    assert_eq!(book.import(&other).unwrap().left.len(), 1, "a recipe is no batch");
    // What was begun before there was a folder of recipes comes along.
    let new = Book::at(folder.path().join("new"));
    new.take_over(&book);
    assert_eq!((new.files().unwrap().len(), book.files().unwrap().len()), (2, 0));
}

#[test]
fn rows_of_a_table_find_their_batch_and_none_is_there_twice() {
    let folder = tempfile::tempdir().unwrap();
    let book = book(&folder);
    let file = book.begin(&batch("Six jars", "2026-11-30 18:30"), "").unwrap();
    book.change(&file, |batch| add(batch, 2.0)).unwrap();
    let mut rows = BatchRows::of(&book.read(&file).unwrap());
    rows.readings.insert(0, reading(1.0));
    // The same twice in one line is two readings.
    rows.readings.push(reading(2.0));
    for _ in 0..2 {
        assert_eq!(book.merge(std::slice::from_ref(&rows)), Ok(1));
        assert_eq!(book.read(&file).unwrap().readings, [reading(1.0), reading(2.0), reading(2.0)]);
    }
    rows.name = "Other".to_owned();
    assert!(book.merge(&[rows]).unwrap_err().title.contains("no batch “Other”"));
}

#[test]
fn a_list_that_is_given_up_goes_on_where_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let book = book(&folder);
    for day in 10..15 {
        book.begin(&batch("Six jars", &format!("2026-11-{day} 18:30")), "2026-12-01").unwrap();
    }
    let mut looks = 0;
    let mut twice = || {
        looks += 1;
        looks <= 2
    };
    assert_eq!(book.list_while(&mut twice), Ok(None));
    let mut read = 0;
    let mut count = || {
        read += 1;
        true
    };
    let listed = book.list_while(&mut count).unwrap().unwrap();
    // Two of the five were read before.
    assert_eq!((listed.all.len(), read), (5, 3));
}
