//! What is said of every shipped lesson reads as plain sentences, and holds what it is about.

use super::*;
use crate::card::Part;
use potset_class::play::Press;
use potset_class::pots::show;
use potset_class::prepare::{ClassAsk, prepare};
use potset_doc::{Kitchen, assets};

fn all() -> Vec<(Lesson, Shown)> {
    let pantry = assets::pantry().unwrap();
    let run = |(name, _): &(&str, &str)| {
        let lesson = assets::lesson(name).unwrap();
        let shown = show(&lesson, &pantry).unwrap();
        (lesson, shown)
    };
    assets::LESSONS.iter().map(run).collect()
}

/// A sentence with nothing left of the program in it.
fn plain(text: &str) {
    assert!(!text.is_empty() && !text.contains("NaN") && !text.contains('_'), "{text}");
    assert!(!text.contains("..") && !text.contains("  ") && !text.contains("?."), "{text}");
    assert!(!text.contains("Pa·s") && !text.contains("mmol"), "no number of a laboratory: {text}");
}

#[test]
fn every_step_of_every_lesson_has_a_sentence() {
    for (lesson, shown) in all() {
        let mut play = Play::new(lesson.answers().len(), lesson.hours, vec![1.0], false);
        loop {
            let said = spoken(&lesson, Some(&shown), &play);
            plain(&said);
            assert!(said.starts_with(play.step.word()), "{said}");
            play.press(&Press::Free);
            plain(&spoken(&lesson, Some(&shown), &play));
            play.press(&Press::Free);
            if play.press(&Press::Next) != potset_class::play::Asked::Nothing {
                break;
            }
        }
        for pot in &shown.pots {
            assert!(!pot_words(pot).is_empty());
            plain(&pot_sentence(pot));
        }
    }
}

#[test]
fn what_happened_is_told_with_what_the_pots_came_to() {
    let told: Vec<String> = all().iter().flat_map(|(lesson, shown)| happened(lesson, shown)).collect();
    told.iter().for_each(|said| plain(said));
    for part in [
        "“With sweetener” is less sour than “With sugar”: pH 6.2 against pH 4.1.",
        "“Without” has a deeper thin layer than “With starch”: 35 % against 1 %.",
        "“Stood six hours” is thrown away.",
    ] {
        let part = part.replace("pH ", "pH\u{a0}").replace(" %", "\u{a0}%");
        assert!(told.contains(&part), "{part}: {told:#?}");
    }
}

#[test]
fn a_guess_is_told_with_its_hands() {
    let (lesson, shown) = all().swap_remove(12);
    let mut play = Play::new(3, lesson.hours, Vec::new(), false);
    assert_eq!(guessed(&lesson, &shown, &play), "A thin layer below.");
    play.press(&Press::Next);
    [1, 1, 0].into_iter().for_each(|i| _ = play.press(&Press::Vote(i)));
    assert_eq!(guessed(&lesson, &shown, &play), "A thin layer below. 2 of 3 guessed it.");
}

#[test]
fn hand_out_and_run_sheet_hold_all_that_they_must() {
    let (pantry, kitchen) = (assets::pantry().unwrap(), Kitchen::default());
    for (lesson, shown) in all() {
        let page = handout(&lesson, &shown);
        for part in [Part::Guess, Part::Change, Part::Happened, Part::Reason, Part::Room] {
            assert!(page.block(part).is_some(), "{}: {part:?}", lesson.title);
        }
        let chart = page.chart.as_ref().unwrap();
        assert_eq!(chart.strips.len(), lesson.strips.len());
        assert_eq!(chart.strips[0].second.is_empty(), lesson.second.is_none());
        assert_eq!(page.first_sentence(), lesson.question);
        let ask = ClassAsk {
            lesson: &lesson,
            people: 14,
            begins: None,
            zone: None,
            pantry: &pantry,
            kitchen: &kitchen,
        };
        let plan = prepare(&ask).unwrap();
        let ask =
            RunSheetAsk { lesson: &lesson, plan: &plan, begins: None, pantry: &pantry, kitchen: &kitchen };
        let sheet = run_sheet(&ask);
        for part in [Part::Ahead, Part::Shopping, Part::Kit, Part::Allergens, Part::Tasks] {
            assert!(sheet.block(part).is_some(), "{}: {part:?}", lesson.title);
        }
    }
}

#[test]
fn the_first_words_of_a_draft_fit_the_wall() {
    let pantry = assets::pantry().unwrap();
    let [a, b] = ["coconut-pot.ron", "failed-thin-and-sweet.ron"].map(|name| assets::demo(name).unwrap());
    let long = Design { name: "A very long name of a pot that nobody could read ".repeat(4), ..b.clone() };
    for second in [None, Some(&b), Some(&long)] {
        for of in LessonCurve::ALL {
            let words = drafted(&a, second, of, &pantry);
            let lesson = potset_class::draft::draft(&a, second, of, words);
            assert_eq!(potset_doc::lesson::check::faults(&lesson), [], "{lesson:?}");
        }
    }
}
