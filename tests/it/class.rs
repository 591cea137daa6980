//! Class: hand-outs and run sheets of every lesson read back from their PDF, and the commands that write them.

use potset_base::clock::Moment;
use potset_class::prepare::{ClassAsk, prepare};
use potset_class::{Shown, show};
use potset_doc::{Kitchen, Lesson, assets, format};
use potset_paper::{Form, Size};
use potset_report::card::{Body, Part, Sheet};
use potset_report::class::{RunSheetAsk, handout, happened, run_sheet};

use crate::card::text_of;
use crate::cli::{potset, text};
use crate::support::shipped;

fn all() -> impl Iterator<Item = (&'static str, Lesson, Shown)> {
    assets::LESSONS.iter().map(|(name, _)| {
        let lesson = assets::lesson(name).unwrap();
        let shown = show(&lesson, shipped()).unwrap();
        (*name, lesson, shown)
    })
}

/// What a PDF of a sheet says, without blanks.
fn printed(sheet: &Sheet) -> (String, usize) {
    let bytes = Form::Pdf.files(sheet, Size::A4).unwrap().remove(0);
    let pages = lopdf::Document::load_mem(&bytes).unwrap().get_pages().len();
    (text_of(&bytes), pages)
}

fn bare(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

#[test]
fn a_hand_out_is_one_page_with_question_picture_reason_and_room() {
    for (name, lesson, shown) in all() {
        let (text, pages) = printed(&handout(&lesson, &shown));
        assert_eq!(pages, 1, "{name}");
        let answers = lesson.answers().iter().map(|answer| answer.words.clone());
        let told = happened(&lesson, &shown);
        let wanted =
            [lesson.title.clone(), lesson.question.clone(), lesson.change.clone(), lesson.source.line()];
        for part in wanted.into_iter().chain(lesson.reason.clone()).chain(answers).chain(told) {
            for word in part.split_whitespace() {
                assert!(text.contains(&bare(word)), "{name}: “{word}” of “{part}”");
            }
        }
        for part in ["Yournotes", "Thehours", "Followlocalcodes"] {
            assert!(text.contains(part), "{name}: {part}");
        }
    }
}

#[test]
fn a_run_sheet_says_what_to_buy_when_to_begin_and_what_is_in_it() {
    let kitchen = Kitchen::default();
    let begins = Moment::parse("2026-12-08 18:30");
    for (name, lesson, _) in all() {
        let ask = ClassAsk {
            lesson: &lesson,
            people: 14,
            begins,
            zone: None,
            pantry: shipped(),
            kitchen: &kitchen,
        };
        let plan = prepare(&ask).unwrap();
        let ask = RunSheetAsk { lesson: &lesson, plan: &plan, begins, pantry: shipped(), kitchen: &kitchen };
        let sheet = run_sheet(&ask);
        let (text, _) = printed(&sheet);
        for bought in &plan.shopping {
            for word in bought.name.split_whitespace() {
                assert!(text.contains(&bare(word)), "{name}: {word}");
            }
        }
        let first = plan.tasks.first().unwrap().when.unwrap().day_and_time();
        assert!(text.contains(&bare(&first)), "{name}: {first}");
        for part in ["14people", "Allergens", "Buy", "Makeahead", "Asktheroom"] {
            assert!(text.contains(part), "{name}: {part}");
        }
        let looked_at = plan.ahead.iter().any(|pot| !pot.tasted);
        let Body::Table(table) = &sheet.block(Part::Ahead).unwrap().body else { panic!("{name}") };
        assert_eq!(table.rows.iter().flatten().any(|cell| cell == "look only"), looked_at, "{name}");
    }
}

#[test]
fn the_commands_write_what_they_are_asked_for_and_name_what_is_wrong() {
    let dir = tempfile::tempdir().unwrap();
    let at = |name: &str| dir.path().join(name).to_str().unwrap().to_owned();
    let own = format::write(&assets::lesson("13-why-it-splits.ron").unwrap()).unwrap();
    std::fs::write(at("own.ron"), &own).unwrap();
    for arguments in [
        vec!["lesson", "13-why-it-splits.ron", "--out", "A.pdf"],
        vec!["lesson", "OWN", "--out", "A.md"],
        vec!["runsheet", "OWN", "--people", "12", "--out", "B.pdf"],
        vec!["runsheet", "OWN", "--people", "12", "--at", "2026-12-08 18:30", "--out", "B.csv"],
    ] {
        let arguments: Vec<String> = arguments
            .iter()
            .map(|a| match *a {
                "OWN" => at("own.ron"),
                "A.pdf" | "A.md" | "B.pdf" | "B.csv" => at(a),
                other => other.to_owned(),
            })
            .collect();
        let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
        let out = potset(&arguments);
        assert_eq!(out.status.code(), Some(0), "{arguments:?}: {}", text(&out.stderr));
    }
    assert!(std::fs::read_to_string(at("A.md")).unwrap().contains("## What happened"));
    assert!(std::fs::read_to_string(at("B.csv")).unwrap().contains("Make ahead"));
    // A lesson that is wrong is named with its line.
    std::fs::write(at("bad.ron"), own.replacen("hours: 30.0", "hours: 3000.0", 1)).unwrap();
    let bad = potset(&["lesson", &at("bad.ron"), "--out", &at("C.pdf")]);
    assert_eq!(bad.status.code(), Some(2));
    let told = text(&bad.stderr);
    assert!(told.contains("bad.ron") && told.contains("line ") && told.contains("Hours shown"), "{told}");
    assert!(!std::path::Path::new(&at("C.pdf")).exists());
}
