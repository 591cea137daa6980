//! Lessons as files: what ships is in order, a saved one comes back, and a bad one is told by line and mend.

use super::check::faults;
use super::*;
use crate::{assets, format};

fn lesson() -> Lesson {
    assets::lesson("13-why-it-splits.ron").unwrap()
}

#[test]
fn fourteen_lessons_ship_and_each_is_in_order() {
    assert_eq!(assets::LESSONS.len(), 14);
    let mut titles = std::collections::BTreeSet::new();
    for (name, text) in assets::LESSONS {
        let lesson = format::read_lesson(text.as_bytes()).unwrap_or_else(|note| panic!("{name}: {note}"));
        assert!(titles.insert(lesson.title.clone()), "{name}");
        assert!(!lesson.claims.is_empty() && !lesson.levers.is_empty(), "{name}");
        assert_eq!(lesson.reason.len(), 2, "{name}");
    }
}

#[test]
fn a_lesson_of_ones_own_comes_back_whole_with_its_designs() {
    let mut own = lesson();
    own.first.of = PotOf::Whole(Box::new(assets::demo("coconut-pot.ron").unwrap()));
    own.second = Some(LessonPot {
        name: "Other".to_owned(),
        of: PotOf::Whole(Box::new(assets::demo("whole-milk-pot.ron").unwrap())),
        alter: vec![
            Alter::Set(LessonLever::HoldAt, 40.0),
            Alter::Add(LineKind::Sugars, "white_sugar".to_owned(), 5.0),
        ],
    });
    let text = format::write(&own).unwrap();
    assert_eq!(format::read_lesson(text.as_bytes()).unwrap(), own);
    assert_eq!(format::write(&format::read_lesson(text.as_bytes()).unwrap()).unwrap(), text);
}

#[test]
fn a_bad_file_names_what_is_wrong() {
    let text = format::write(&lesson()).unwrap();
    let refused = |from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        format::read_lesson(text.replacen(from, to, 1).as_bytes()).unwrap_err().line()
    };
    assert!(refused("version: 1", "version: 2").contains("newer Potset"));
    assert!(refused("potset lesson", "potset design").contains("not a “potset lesson” file"));
    assert!(refused("title:", "tittle:").contains("tittle"));
    assert!(refused("failed-split.ron", "no-such-pot.ron").contains("no demo design no-such-pot.ron"));
    assert!(refused("hours: 30.0", "hours: 3000.0").contains("Hours shown"));
    let cut = &text[..text.len() / 2];
    assert!(format::read_lesson(cut.as_bytes()).unwrap_err().line().contains("cut short"));
}

#[test]
fn what_cannot_be_played_is_a_fault() {
    let said = |change: &dyn Fn(&mut Lesson)| {
        let mut lesson = lesson();
        change(&mut lesson);
        faults(&lesson).iter().map(Note::line).collect::<Vec<_>>().join("\n")
    };
    assert_eq!(said(&|_| {}), "");
    for (change, part) in [
        (&(|l: &mut Lesson| l.question.clear()) as &dyn Fn(&mut Lesson), "question: This text is empty"),
        (&|l| l.title = "long ".repeat(30), "fit on the wall"),
        (&|l| l.strips = vec![LessonCurve::Tang; 3], "There are 3 strips"),
        (&|l| l.levers = vec![LessonLever::StopAt; 4], "There are 4 levers"),
        (&|l| l.reason.clear(), "There are 0 sentences of the reason"),
        (&|l| l.guess = Guess::Choose(Vec::new()), "There are 0 answers"),
        (&|l| l.guess = Guess::Draw(LessonCurve::Whey), "not shown"),
        (&|l| l.second = None, "no second pot"),
        (&|l| l.first.of = PotOf::First, "cannot be itself"),
        (&|l| l.claims = vec![Claim::SourBy(Which::First, f64::NAN)], "cannot be used"),
        (&|l| l.table = Some((9.0, 5.0, 20.0)), "do not rise"),
        (&|l| l.hours = f64::NAN, "Hours shown"),
    ] {
        assert!(said(change).contains(part), "{part}: {}", said(change));
    }
}
