//! The batch book: `potset log`, tables of readings out and in, the record on paper, and thousands of batches in a list.

use std::fs;
use std::time::Instant;

use potset_base::units;
use potset_base::words::{SweetWord, TangWord, TextureWord};
use potset_doc::batch::rows::BatchRows;
use potset_doc::batch::{BatchReading, Lot, Observed};
use potset_doc::{Batch, Kitchen, format};
use potset_export::batches;
use potset_paper::{Form, Size};
use potset_report::record;
use potset_store::book::{self, Book};
use potset_store::folders::Folders;
use proptest::prelude::*;

use crate::card::text_of;
use crate::cli::{potset, potset_at, text};
use crate::support::{demo, shipped};

fn batch(name: &str, culture_in: &str) -> Batch {
    Batch::begun(name, culture_in, "Europe/Paris", demo("coconut-pot.ron"), Kitchen::default())
}

fn observed() -> impl Strategy<Value = Observed> {
    prop_oneof![
        (2.5..9.0).prop_map(Observed::Ph),
        (2.5..9.0).prop_map(Observed::Strip),
        (0.0..4.0).prop_map(Observed::Acidity),
        (-10.0..121.0).prop_map(Observed::Warmth),
        (0.0..40.0).prop_map(Observed::LineSpread),
        (0.0..500.0).prop_map(Observed::ThinLayer),
        (0.0..1e5).prop_map(Observed::Whey),
        proptest::sample::select(TangWord::ALL.to_vec()).prop_map(Observed::Tang),
        proptest::sample::select(SweetWord::ALL.to_vec()).prop_map(Observed::Sweetness),
        proptest::sample::select(TextureWord::ALL.to_vec()).prop_map(Observed::Texture),
        Just(Observed::Remark),
    ]
}

/// Texts that tables break on: formulas, quotes, commas, ends of lines, apostrophes.
fn words() -> impl Strategy<Value = String> {
    prop_oneof!["[ -~é\n\r\t]{0,12}", "'{0,2}[=+@-][a-z0-9]{0,4}", Just(String::new())]
}

fn rows() -> impl Strategy<Value = BatchRows> {
    let reading = (0.0..1000.0, observed(), words(), words(), words())
        .prop_map(|(at_h, what, note, photo, who)| BatchReading { at_h, what, note, photo, who });
    (words(), words(), proptest::collection::vec(reading, 1..8)).prop_map(|(name, code, readings)| {
        BatchRows {
            name,
            code,
            culture_in: "2026-11-30 18:30".to_owned(),
            zone: "Europe/Paris".to_owned(),
            readings,
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn a_table_of_readings_is_read_back_to_the_bit(rows in rows(), other in rows()) {
        let other = BatchRows { culture_in: "2026-11-29 08:00".to_owned(), ..other };
        let all = [rows, other];
        prop_assert_eq!(batches::read(&batches::write(&all)).unwrap(), all.to_vec());
    }

    #[test]
    fn a_batch_is_read_back_as_it_was_saved(rows in rows(), stopped in proptest::option::of(0.0..200.0_f64)) {
        let mut batch = batch("Six jars", "2026-11-30 18:30");
        for reading in rows.readings {
            batch.insert(reading);
        }
        batch.stopped_h = stopped;
        batch.note = rows.name;
        let text = format::write(&batch).unwrap();
        prop_assert_eq!(format::read_batch(text.as_bytes()).unwrap(), batch);
    }
}

#[test]
fn a_batch_is_begun_logged_and_ended_from_the_command_line() {
    let home = tempfile::tempdir().unwrap();
    let file = home.path().join("pot.ron");
    let file = file.to_str().unwrap();
    let ok = |arguments: &[&str]| {
        let out = potset_at(home.path(), arguments);
        assert_eq!(out.status.code(), Some(0), "{arguments:?}: {}", text(&out.stderr));
        text(&out.stdout).replace('\u{a0}', " ")
    };
    let told = ok(&["log", file, "--begin", "coconut-pot.ron", "--at", "2020-11-20 18:30"]);
    assert!(told.contains("culture in 20 Nov 2020, 18:30") && told.contains("Saved in"), "{told}");
    let told =
        ok(&["log", file, "2020-11-21 00:30 5.2 39 °C", "+ 9 h strip 4.5 by Ann", "+24 h stopped bright"]);
    for sentence in [
        "6 h after the culture went in: pH 5.2, 39 °C",
        "9 h after the culture went in: strip pH 4.5, by Ann",
        "24 h after the culture went in: bright, taken out of the warmth",
    ] {
        assert!(told.contains(sentence), "{told}");
    }
    // One line without quotes.
    ok(&["log", file, "+10", "h", "acidity", "0.8", "%"]);
    let kept = book::read(file.as_ref()).unwrap();
    assert_eq!((kept.readings.len(), kept.stopped_h, kept.readings[2].who.as_str()), (5, Some(24.0), "Ann"));
    assert!(!kept.plan.is_empty() && !kept.code.is_empty() && kept.running());
    assert_eq!(kept.readings[3].what, Observed::Acidity(0.8));
    // Out as a table, in again: none is there twice.
    let table = home.path().join("readings.csv");
    let table = table.to_str().unwrap();
    ok(&["log", file, "--csv", table]);
    let rows = fs::read_to_string(table).unwrap();
    assert_eq!(rows.lines().count(), 6, "{rows}");
    fs::write(table, rows.replacen(",9,", ",9.5,", 1)).unwrap();
    ok(&["log", file, "--table", table, "--end"]);
    let after = book::read(file.as_ref()).unwrap();
    assert_eq!((after.readings.len(), after.running()), (6, false));
    // A file of a logger: five days at one reading an hour.
    let logger = home.path().join("warmth.csv");
    let hours = (0..120)
        .map(|h| format!("2020-11-{:02} {:02}:30:00,{}\n", 20 + (18 + h) / 24, (18 + h) % 24, 40 - h / 10));
    fs::write(&logger, format!("Time,Temperature (°C)\n{}", hours.collect::<String>())).unwrap();
    let told = ok(&["log", file, "--logger", logger.to_str().unwrap()]);
    assert!(told.contains("warmth.csv: 120 temperatures"), "{told}");
    let logged = book::read(file.as_ref()).unwrap().logged.unwrap();
    assert_eq!((logged.course[10].at_h, logged.course[10].c), (10.0, 39.0));
    // In the book where no file is named, and found there by its name.
    let told = ok(&["log", "--begin", "coconut-pot.ron", "--at", "2020-11-20 18:30", "+1 h 6.1"]);
    assert!(told.contains("1 h after the culture went in: pH 6.1"), "{told}");
    assert!(ok(&["log", "2020-11-20 Six jars for Tuesday.ron", "+2 h 6.0"]).contains("pH 6"));
}

#[test]
fn what_log_does_not_understand_is_told_and_nothing_is_written() {
    let home = tempfile::tempdir().unwrap();
    let path = home.path().join("pot.ron");
    let file = path.to_str().unwrap();
    fs::write(&path, format::write(&batch("Six jars", "2020-11-20 18:30")).unwrap()).unwrap();
    let before = fs::read(&path).unwrap();
    for (arguments, parts) in [
        (&["log"][..], ["No batch was named", "21:40 4.9"]),
        (&["log", file, "+6 h 4.9", "+7 h foo"], ["I don't know “foo”", "Try"]),
        (&["log", file, "+6 h 5"], ["could be a pH or a warmth", "Type pH 5"]),
        (&["log", "nowhere.ron", "4.9"], ["nowhere.ron", "Check the name"]),
        (&["log", "coconut-pot.ron", "4.9"], ["coconut-pot.ron", "not a “potset batch” file"]),
        (&["log", file, "--begin", "coconut-pot.ron"], ["is there already", "another name"]),
        (&["log", file, "--csv", file], ["the file that is read", "another name"]),
        (&["log", file, "--record", "record.doc"], ["ending", ".pdf"]),
        (
            &["log", file, "--begin", "goat-pot.ron", "--at", "soon"],
            ["I don't know the time “soon”", "18:30"],
        ),
    ] {
        let out = potset(arguments);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}: {}", text(&out.stdout));
        let said = text(&out.stderr);
        assert!(parts.iter().all(|part| said.contains(part)), "{arguments:?}: {said}");
        assert_eq!(fs::read(&path).unwrap(), before, "{arguments:?}");
    }
}

#[test]
fn the_record_holds_all_that_was_written_down_in_each_form() {
    let _speaking = units::speak(Kitchen::default().units());
    let mut pot = batch("Six jars for the market", "2026-11-30 18:30");
    pot.code = "7K2M9Q".to_owned();
    pot.who = "Ann".to_owned();
    pot.note = "Lids boiled".to_owned();
    pot.use_by = "2026-12-14".to_owned();
    pot.stopped_h = Some(24.0);
    pot.lots = vec![Lot { of: "jars".to_owned(), lot: "J-2026".to_owned() }];
    for (at_h, what) in [
        (8.0, Observed::Ph(4.81)),
        (9.5, Observed::Ph(4.57)),
        (26.0, Observed::Warmth(20.5)),
        (30.0, Observed::Warmth(4.5)),
    ] {
        pot.insert(BatchReading::new(at_h, what));
    }
    let sheet = record::sheet(&pot, shipped());
    let wanted = [
        "Six jars for the market",
        "7K2M9Q",
        "An aid: local codes decide",
        "Use by",
        "14 Dec 2026",
        "Made by",
        "Ann",
        "What went in",
        "J-2026",
        "Souring",
        "first read 9 h 30 min after",
        "pH 4.57",
        "pH 4.81",
        "Cooling",
        "Tue 18:30",
        "21 °C or colder",
        "Tue 20:30",
        "5 °C or colder",
        "Wed 00:30",
        "Lids boiled",
        "Signature",
        "Readings",
        "20.5 °C",
    ];
    // A wall has no room for notes.
    for size in [Size::A4, Size::Letter, Size::A5] {
        let pdf = text_of(&Form::Pdf.files(&sheet, size).unwrap()[0]);
        for part in wanted {
            let bare: String = part.chars().filter(|c| !c.is_whitespace()).collect();
            assert!(pdf.contains(&bare), "{}: {part} in {pdf}", size.words());
        }
    }
    for form in [Form::Markdown, Form::Csv] {
        let text = String::from_utf8(form.files(&sheet, Size::A4).unwrap().remove(0))
            .unwrap()
            .replace('\u{a0}', " ");
        for part in wanted {
            assert!(text.contains(part), "{form:?}: {part} in {text}");
        }
    }
    // Nothing of a forecast.
    assert!(sheet.chart.is_none());
}

#[test]
fn two_thousand_batches_are_listed_at_once_when_they_are_known() {
    let home = tempfile::tempdir().unwrap();
    let folders = Folders {
        settings: home.path().join("settings"),
        state: home.path().join("state"),
        documents: home.path().to_path_buf(),
        own: home.path().join("own"),
    };
    let book = Book::of(&potset_doc::Settings::default(), &folders);
    fs::create_dir_all(book.folder()).unwrap();
    let text = format::write(&batch("Pot 0000", "2026-11-30 18:30")).unwrap();
    for i in 0..2000 {
        fs::write(book.path(&format!("pot {i:04}.ron")), text.replace("Pot 0000", &format!("Pot {i:04}")))
            .unwrap();
    }
    let timed = || {
        let began = Instant::now();
        let listed = book.list().unwrap();
        assert_eq!((listed.all.len(), listed.bad.len()), (2000, 0));
        (began.elapsed(), listed)
    };
    let ((fresh, read), (again, known)) = (timed(), timed());
    println!("2,000 batches: read in {} ms, known in {} ms", fresh.as_millis(), again.as_millis());
    assert_eq!(read, known);
    // Only what changed is read again.
    book.change("pot 0007.ron", |batch| batch.stars = 3).unwrap();
    let (third, changed) = timed();
    assert_eq!(changed.all.iter().filter(|known| known.summary.stars == 3).count(), 1);
    assert!(again < fresh / 4 && third < fresh / 4, "{fresh:?}, {again:?}, {third:?}");
}
