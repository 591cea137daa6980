//! Every shipped lesson, run: what it says of its pots holds, by direction and least size, and one answer comes true.

use crate::claims::{check, missed_by, right};
use crate::curves::observable;
use crate::draft::{DraftWords, draft};
use crate::play::{Asked, EARLIER, Play, Press, Step};
use crate::pots::{self, Shown};
use crate::prepare::{ClassAsk, ClassPlan, Stage, prepare};
use potset_doc::assets;
use potset_doc::edit::LineKind;
use potset_doc::lesson::{Guess, Lesson, LessonCurve};
use potset_forecast::lever::levers;

fn all() -> Vec<(&'static str, Lesson, Shown)> {
    let pantry = assets::pantry().unwrap();
    let run = |(name, _): &(&'static str, &str)| {
        let lesson = assets::lesson(name).unwrap_or_else(|note| panic!("{name}: {note}"));
        let shown = pots::show(&lesson, &pantry).unwrap_or_else(|note| panic!("{name}: {note}"));
        (*name, lesson, shown)
    };
    assets::LESSONS.iter().map(run).collect()
}

#[test]
fn every_claim_of_every_lesson_holds() {
    let mut broken = Vec::new();
    for (name, lesson, shown) in all() {
        assert!(!lesson.claims.is_empty(), "{name}");
        for claim in &lesson.claims {
            let checked = check(claim, &shown);
            if !checked.holds {
                broken.push(format!("{name}: {claim:?} {checked:?}"));
            }
        }
        let right = right(&lesson, &shown);
        if matches!(lesson.guess, Guess::Choose(_)) && right.len() != 1 {
            broken.push(format!("{name}: {} answers come true", right.len()));
        }
    }
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}

/// Lesson 7 says that agar which was never boiled does as good as nothing.
#[test]
fn agar_that_was_only_warmed_is_as_if_it_were_not_there() {
    let pantry = assets::pantry().unwrap();
    let lesson = assets::lesson("07-what-a-gelling-agent-needs.ron").unwrap();
    let shown = pots::show(&lesson, &pantry).unwrap();
    let mut bare = (*shown.last().unwrap().design).clone();
    bare.thickeners.clear();
    let answer = pots::run(&bare, &pantry, lesson.hours).unwrap();
    let firm = |a: &potset_judge::answer::Answer| a.forecast.value(&a.forecast.chilled.stiffness_pa, 24.0);
    let (with, without) = (firm(&shown.last().unwrap().answer), firm(&answer));
    let steps = observable(LessonCurve::Stiffness).steps_between(without, with);
    assert!(steps.abs() < 1.0, "{with} {without}");
}

#[test]
fn every_lever_of_a_lesson_turns_a_number_of_its_last_pot() {
    let pantry = assets::pantry().unwrap();
    for (name, lesson, shown) in all() {
        let there = levers(&shown.last().unwrap().design, &pantry);
        for lever in &lesson.levers {
            let id = pots::lever(*lever);
            assert!(there.iter().any(|l| l.lever_id == id), "{name}: {lever:?}");
        }
    }
}

fn played(name: &str) -> (Lesson, Shown, Play) {
    let lesson = assets::lesson(name).unwrap();
    let shown = pots::show(&lesson, &assets::pantry().unwrap()).unwrap();
    let design = &shown.last().unwrap().design;
    let levers = lesson
        .levers
        .iter()
        .map(|l| pots::lever(*l).value(design, &assets::pantry().unwrap()).unwrap())
        .collect();
    let play = Play::new(lesson.answers().len(), lesson.hours, levers, false);
    (lesson, shown, play)
}

#[test]
fn a_clicker_alone_plays_every_lesson_to_its_end() {
    for (name, _) in assets::LESSONS {
        let (_, _, mut play) = played(name);
        let mut steps = vec![play.step];
        let mut presses = 0;
        while play.press(&Press::Next) == Asked::Nothing {
            presses += 1;
            assert!(presses < 20, "{name}");
            if steps.last() != Some(&play.step) {
                steps.push(play.step);
            }
        }
        assert_eq!(steps, Step::ALL, "{name}");
        // Page down once more while the curve runs brings it to its end.
        assert_eq!((presses, play.whole()), (5, true), "{name}");
    }
}

#[test]
fn the_curve_runs_by_seconds_halts_and_is_scrubbed() {
    let (lesson, _, mut play) = played("13-why-it-splits.ron");
    assert!(!play.tick(1.0), "nothing runs before the curve");
    (0..3).for_each(|_| _ = play.press(&Press::Next));
    assert!(play.running && play.at_h == 0.0);
    assert!(play.tick(play.pace_s() / 2.0));
    assert!((play.at_h - lesson.hours / 2.0).abs() < 1e-9);
    play.press(&Press::Run);
    assert!(!play.tick(5.0) && (play.at_h - lesson.hours / 2.0).abs() < 1e-9, "halted, it stays");
    let slow = play.pace_s();
    play.press(&Press::Quicker);
    assert!(play.pace_s() < slow);
    play.press(&Press::To(1e9));
    assert!(play.whole());
    play.press(&Press::Run);
    assert!(play.running && play.at_h == 0.0, "from its end it begins again");
    assert!(!play.tick(1e6) && play.whole());
    play.press(&Press::Back);
    assert_eq!(play.step, Step::Change);
}

#[test]
fn reduced_motion_moves_nothing_by_itself() {
    let mut play = Play::new(0, 24.0, Vec::new(), true);
    (0..3).for_each(|_| _ = play.press(&Press::Next));
    assert!(play.whole() && !play.running);
    play.press(&Press::Run);
    play.press(&Press::Run);
    assert!((play.at_h - 3.0).abs() < 1e-9 && !play.tick(10.0));
}

#[test]
fn hands_are_counted_in_the_guess_only_and_can_be_taken_down() {
    let (_, _, mut play) = played("13-why-it-splits.ron");
    play.press(&Press::Vote(1));
    play.press(&Press::Next);
    for i in [1, 1, 0, 7] {
        play.press(&Press::Vote(i));
    }
    assert_eq!(play.votes, [1, 2, 0]);
    play.press(&Press::VoteBack);
    assert_eq!(play.votes, [0, 2, 0]);
    play.press(&Press::Blank);
    play.press(&Press::Vote(0));
    assert!(!play.blank && play.votes == [0, 2, 0], "a blank wall comes back first");
}

#[test]
fn a_drawn_guess_is_measured_against_what_came() {
    let (_, shown, mut play) = played("02-nothing-to-eat.ron");
    play.press(&Press::Next);
    for k in 0..=10_u32 {
        play.press(&Press::Draw(3.0 * f64::from(k), 6.0));
    }
    let missed = missed_by(&play.drawn, LessonCurve::Sourness, &shown).unwrap();
    assert!((missed - 0.2).abs() < 0.01, "{missed}");
    // A hand that goes back draws that part anew.
    play.press(&Press::Draw(15.0, 5.0));
    assert_eq!(play.drawn.last(), Some(&(15.0, 5.0)));
    play.press(&Press::Wipe);
    assert_eq!(missed_by(&play.drawn, LessonCurve::Sourness, &shown), None);
}

#[test]
fn free_play_is_one_press_from_any_step_and_one_press_back() {
    for presses in 0..5 {
        let (_, shown, mut play) = played("09-guessed-or-weighed.ron");
        (0..presses).for_each(|_| _ = play.press(&Press::Next));
        let step = play.step;
        assert_eq!(play.press(&Press::Free), Asked::Forecast);
        let pot = std::sync::Arc::new(shown.pots[0].clone());
        for v in [0.2, 0.5, 1.0, 2.0] {
            assert_eq!(play.press(&Press::Turn(0, v)), Asked::Forecast);
            let values = play.free.as_ref().unwrap().values.clone();
            assert_eq!(values[0], v);
            play.came(&[9.0, 9.0], pot.clone());
            play.came(&values, pot.clone());
        }
        let free = play.free.as_ref().unwrap();
        assert_eq!((free.now.is_some(), free.earlier.len()), (true, EARLIER));
        play.press(&Press::Back);
        assert!(play.free.is_none() && play.step == step);
    }
}

#[test]
fn a_class_has_early_middle_and_late_pots_on_the_table_in_time() {
    let (lesson, _, _) = played("03-stop-early-or-late.ron");
    let (pantry, kitchen) = (assets::pantry().unwrap(), potset_doc::Kitchen::default());
    let ask = |people| ClassAsk {
        lesson: &lesson,
        people,
        begins: None,
        zone: None,
        pantry: &pantry,
        kitchen: &kitchen,
    };
    let plan = prepare(&ask(24)).unwrap();
    let stages: Vec<(Stage, f64, bool)> = plan.ahead.iter().map(|a| (a.stage, a.stop_h, a.tasted)).collect();
    assert_eq!(stages[0], (Stage::Early, 8.0, false), "not sour yet: it is looked at");
    assert_eq!(stages[2], (Stage::Late, 26.0, true));
    // 24 × 25 g out of jars of 250 mL.
    assert_eq!((plan.ahead[0].jars, plan.ahead[2].jars, plan.made[0].jars), (1, 3, 24));
    // What is tasted has been chilled as planned.
    assert!((plan.ahead[2].before_h - 40.0).abs() < 1e-9 && (plan.ahead[0].before_h - 8.0).abs() < 1e-9);
    assert!(plan.tasks.is_sorted_by(|a, b| a.before_h >= b.before_h));
    let litres = |plan: &ClassPlan| plan.shopping.iter().find(|b| b.list == LineKind::Bases).unwrap().amount;
    let jars = |plan: &ClassPlan| plan.vessels.iter().map(|(_, n)| f64::from(*n)).sum::<f64>();
    assert!((litres(&plan) - 0.25 * jars(&plan)).abs() < 1e-9, "{}", litres(&plan));
    // Where it is known when the class begins, nobody gets up at night, and what is tasted is chilled no shorter.
    let begins = potset_base::clock::Moment::parse("2026-12-08 18:30");
    let by_clock = prepare(&ClassAsk { begins, ..ask(24) }).unwrap();
    for (pot, planned) in by_clock.ahead.iter().zip(&plan.ahead).filter(|(pot, _)| pot.tasted) {
        assert!(pot.before_h >= planned.before_h - 1e-9);
        let hour = |before_h: f64| begins.unwrap().after(-before_h).text()[11..13].parse::<u32>().unwrap();
        for h in [pot.before_h, pot.before_h - pot.stop_h] {
            assert!((7..23).contains(&hour(h)), "{:?}: {}", pot.stage, hour(h));
        }
    }
    let twice = prepare(&ask(48)).unwrap();
    assert!(litres(&twice) > 1.8 * litres(&plan));
    assert!(prepare(&ask(0)).is_err() && prepare(&ask(9999)).is_err());
}

#[test]
fn what_fails_on_purpose_is_made_by_nobody_and_tasted_by_nobody() {
    let (lesson, _, _) = played("08-too-hot-too-cold.ron");
    let (pantry, kitchen) = (assets::pantry().unwrap(), potset_doc::Kitchen::default());
    let ask = ClassAsk {
        lesson: &lesson,
        people: 12,
        begins: None,
        zone: None,
        pantry: &pantry,
        kitchen: &kitchen,
    };
    let plan = prepare(&ask).unwrap();
    assert!(plan.made.is_empty() && plan.ahead.iter().all(|pot| !pot.tasted && pot.jars == 1));
}

#[test]
fn a_draft_from_two_designs_can_be_played_and_one_answer_comes_true() {
    let [a, b] = ["coconut-pot.ron", "failed-split.ron"].map(|name| assets::demo(name).unwrap());
    let words = || DraftWords {
        title: "Ours".to_owned(),
        question: "Which?".to_owned(),
        change: "Two pots".to_owned(),
        reason: vec!["Because.".to_owned()],
        answers: ("more", "the same", "less"),
    };
    for of in LessonCurve::ALL {
        let lesson = draft(&a, Some(&b), of, words());
        assert_eq!(potset_doc::lesson::check::faults(&lesson), []);
        let shown = pots::show(&lesson, &assets::pantry().unwrap()).unwrap();
        assert_eq!(right(&lesson, &shown).len(), 1, "{of:?}");
    }
    let alone = draft(&a, None, LessonCurve::SugarLeft, words());
    assert_eq!(potset_doc::lesson::check::faults(&alone), []);
}
