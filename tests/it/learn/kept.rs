//! What is kept of a book: it moves the next forecast, narrows its possible pots, and can be put back.

use super::{Truths, Varies, batch, own_law, pantry};
use crate::support::demo;
use potset_doc::batch::{Batch, Logged, Observed};
use potset_doc::learnt::LearntBook;
use potset_doc::steps::Reading;
use potset_doc::{Kitchen, Learnt, format};
use potset_doubt::ready_times;
use potset_forecast::learnt::LearntKind;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_learn::{Drifted, charts, learn};

const TIMES_H: [f64; 5] = [4.0, 8.0, 12.0, 16.0, 24.0];

/// Pots of one slow culture: its pace lies 1.6 deviates under the pantry's.
fn slow(n: u64) -> (potset_doc::Design, Vec<Batch>) {
    let (design, pantry) = (demo("coconut-pot.ron"), pantry());
    let mut truths = Truths::of(&design, &pantry);
    let pots = (0..n).map(|seed| {
        let (pot, _) = truths.paced(-1.6, (seed, Varies::Told), &own_law, &TIMES_H, 0.05);
        Batch { packet: "first".to_owned(), ..pot }
    });
    let pots = pots.collect();
    (design, pots)
}

#[test]
fn pots_of_a_slow_culture_make_the_next_forecast_later_and_narrower() {
    let pantry = pantry();
    let (design, pots) = slow(5);
    let learning = learn(&pots, &pantry, "2026-11-30").unwrap();
    let kitchen = Kitchen::default();
    let hours = |learnt: &Learnt| {
        let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt };
        let likely = scenario.run().unwrap().forecast.time_to_ph(4.6).unwrap();
        let spread = ready_times::spread(&scenario).unwrap();
        let edges = spread.outcome(Observable::SourAt).unwrap().edges;
        // As a factor either way: a slow culture's hours lie apart by more hours.
        (likely, (edges[4] / edges[0]).ln())
    };
    let ((before, wide), (after, narrow)) = (hours(&Learnt::default()), hours(&learning.learnt));
    println!(
        "pH 4.6 after {before:.1} h, learnt {after:.1} h; its range, as a logarithm, {wide:.2} and {narrow:.2}"
    );
    assert!(after > before + 1.0, "{before} {after}");
    assert!(narrow < 0.75 * wide, "{wide} {narrow}");
    let missed = learning.missed().unwrap();
    assert!(missed.without < 0.7 * missed.before, "{missed:?}");
    // The other culture of the house is not touched by it.
    let other = demo("whole-milk-pot.ron");
    let milk = |learnt: &Learnt| {
        let scenario = Scenario { design: &other, pantry: &pantry, kitchen: &kitchen, learnt };
        scenario.run().unwrap().forecast.time_to_ph(4.6).unwrap()
    };
    assert!((milk(&Learnt::default()) - milk(&learning.learnt)).abs() < 1.0);
}

#[test]
fn nothing_learnt_changes_nothing() {
    let pantry = pantry();
    let design = demo("coconut-pot.ron");
    let learning = learn(&[batch(&design, &[])], &pantry, "").unwrap();
    assert!(learning.learnt.is_empty() && learning.pots[0].fitted.is_none());
    // A pot that is left out teaches nothing.
    let mut left = batch(&design, &[(8.0, 5.0), (12.0, 4.6)]);
    left.left_out = true;
    assert!(learn(&[left], &pantry, "").unwrap().learnt.is_empty());
}

#[test]
fn what_is_kept_is_read_back_and_put_back() {
    let (_, pots) = slow(1);
    let learning = learn(&pots, &pantry(), "2026-11-30").unwrap();
    let mut book = LearntBook::default();
    book.keep(learning.learnt);
    let text = format::write(&book).unwrap();
    let read: LearntBook = format::read(text.as_bytes()).unwrap();
    assert_eq!(read, book);
    let (design, pantry) = (demo("coconut-pot.ron"), pantry());
    let kitchen = Kitchen::default();
    let run = |learnt: &Learnt| {
        let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt };
        scenario.run().unwrap().forecast
    };
    assert_ne!(run(&read.now).ph, run(&Learnt::default()).ph);
    assert!(book.undo());
    assert_eq!(run(&book.now).ph, run(&Learnt::default()).ph);
}

/// One reading typed wrong is told, and moves little.
#[test]
fn a_slip_of_the_hand_is_flagged() {
    let (_, mut pots) = slow(1);
    let before = learn(&pots, &pantry(), "").unwrap();
    pots[0].readings[2].what = match pots[0].readings[2].what {
        Observed::Ph(ph) => Observed::Ph(ph + 1.0),
        other => other,
    };
    let after = learn(&pots, &pantry(), "").unwrap();
    let aside = &after.pots[0].fitted.as_ref().unwrap().aside;
    let far: Vec<usize> = (0..5).filter(|k| aside[*k].abs() > 3.0).collect();
    assert_eq!(far, [2], "{aside:?}");
    let (a, b) = (before.pots[0].hours.after.unwrap(), after.pots[0].hours.after.unwrap());
    assert!((a / b).ln().abs() < 0.15, "{a} {b}");
}

#[test]
fn a_logged_course_drives_the_forecast_and_tells_the_warmer() {
    let pantry = pantry();
    let design = demo("coconut-pot.ron");
    let set_c = design.hold().unwrap().set_c;
    let mut pot = batch(&design, &[(12.0, 5.2)]);
    // The warmer keeps two degrees less than it says, where one degree either way was thought to be most.
    let course = (0..=48).map(|k| Reading { at_h: 0.5 * f64::from(k), c: set_c - 2.0 }).collect();
    pot.logged = Some(Logged { file: "logger.csv".to_owned(), course });
    let learning = learn(&[pot], &pantry, "").unwrap();
    let warmth = learning.subjects.iter().find(|s| s.subject.kind == LearntKind::Warmth).unwrap();
    // By hand: prior 0.61, reading 0.4 about -2: -1.40, of which 0.85 lasts.
    assert!((warmth.after[0] + 1.19).abs() < 0.1, "{warmth:?}");
    assert!(warmth.doubt < 0.75, "{warmth:?}");
}

/// Every pot a little slower than the one before: the chart of souring says since when.
#[test]
fn an_ageing_culture_shows_on_its_chart() {
    let pantry = pantry();
    let design = demo("coconut-pot.ron");
    let mut pots = Vec::new();
    for k in 0..9_u32 {
        let mut old = design.clone();
        old.cultures[0].rate *= 10_f64.powf(-0.25 * f64::from(k.saturating_sub(3)));
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let scenario = Scenario { design: &old, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let f = scenario.run().unwrap().forecast;
        let readings: Vec<(f64, f64)> =
            [6.0, 9.0, 12.0, 15.0, 18.0, 24.0].map(|t| (t, f.value(&f.ph, t))).to_vec();
        pots.push(batch(&design, &readings));
    }
    let learning = learn(&pots, &pantry, "").unwrap();
    let all = charts(&pots, &learning, &pantry);
    let souring = all.iter().find(|c| matches!(c.of, Drifted::Souring(_))).unwrap();
    assert!(matches!(souring.since, Some((from, true)) if (3..=8).contains(&from)), "{souring:?}");
    // Pots that are all alike do not drift.
    let same: Vec<Batch> = (0..8).map(|_| pots[0].clone()).collect();
    let learning = learn(&same, &pantry, "").unwrap();
    assert!(charts(&same, &learning, &pantry).iter().all(|c| c.since.is_none()));
}

#[test]
fn two_readings_say_what_they_cannot_tell_apart() {
    let pantry = pantry();
    let design = demo("coconut-pot.ron");
    let learning = learn(&[batch(&design, &[(8.0, 5.0), (12.0, 4.5)])], &pantry, "").unwrap();
    let pot = &learning.pots[0];
    let pairs = potset_learn::apart(&pot.subjects, pot.fitted.as_ref().unwrap());
    assert!(pairs.iter().all(|pair| pair.correlation.abs() >= 0.5));
}
