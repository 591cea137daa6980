//! What matters: how it is ranked, what is said of shares, and which remedies are told.

use potset_doc::{Design, Kitchen};
use potset_doubt::matters::{Effect, LeverEffect, Matters, Scale, Watched, Way, matters, remedy};
use potset_doubt::spread::{Sampler, Spreader, Unknown, UnknownKind};
use potset_forecast::lever::{LeverId, levers};
use potset_report::matters::{self as say, head};
use potset_report::spread::span_words;

use super::ask;
use crate::support::{demo, shipped};

fn found(design: &Design) -> Matters {
    ask(design, &Kitchen::default(), |scenario| {
        let mut spreader = Spreader::new(scenario, 1, 300).unwrap();
        while spreader.more(300) {}
        matters(scenario, &spreader)
    })
}

#[test]
fn levers_are_ranked_over_a_like_share_of_what_is_usual() {
    for name in ["coconut-pot.ron", "oat-and-coconut.ron", "whole-milk-pot.ron", "failed-thin-and-sweet.ron"]
    {
        let design = demo(name);
        let found = found(&design);
        // What betters the verdict and what goes back to usual is ranked otherwise: see the tests of what matters.
        let turns: Vec<_> =
            found.turns.iter().filter(|t| t.way == Way::Little && t.verdict.is_none()).collect();
        let over_a_tenth = |k: usize| {
            let turn = turns[k];
            let told = (0..turn.effects.len()).map(|i| match turn.effects[i].1 {
                Effect::By(_) => {
                    turn.steps(i) * turn.lever.usual.map_or(1.0, |(a, b)| 0.1 * (b - a) / turn.by.abs())
                }
                _ => turn.steps(i),
            });
            told.fold(0.0, f64::max)
        };
        for k in 1..turns.len() {
            let (a, b) = (over_a_tenth(k - 1), over_a_tenth(k));
            assert!(
                a >= b && b > 0.0,
                "{name}: {} {a}, {} {b}",
                say::turn_name(turns[k - 1]),
                say::turn_name(turns[k])
            );
        }
        // No lever is passed over without a word.
        let said = say::unnoticed(&found).unwrap_or_default();
        let text = say::text(&found);
        for lever in levers(&design, shipped()) {
            let listed = found.turns.iter().any(|t| t.lever.name == lever.name);
            assert!(listed != found.unnoticed.contains(&lever.name), "{name}: {}", lever.name);
            assert!(text.contains(&lever.name), "{name}: {}", lever.name);
        }
        assert!(found.unnoticed.iter().any(|n| n == "Base starts at") && text.contains(&said), "{name}");
    }
}

/// Whether the likely pot comes to pH 4.6 on its sheet.
fn sours(design: &Design) -> bool {
    ask(design, &Kitchen::default(), |scenario| scenario.run().unwrap().forecast.time_to_ph(4.6).is_some())
}

#[test]
fn what_a_turn_makes_possible_or_ends_is_told_apart() {
    let held_at = |set_c: f64| {
        let mut design = demo("coconut-pot.ron");
        design.hold_mut().unwrap().set_c = set_c;
        design
    };
    let sour: Vec<u32> = (20..60).filter(|c| sours(&held_at(f64::from(*c)))).collect();
    // A degree under the coolest hold that sours, and the warmest that does.
    let (cool, warm) = (f64::from(sour[0] - 1), f64::from(sour[sour.len() - 1]));
    for (set_c, effect, word) in
        [(cool, Effect::OnlyThen, "only then"), (warm, Effect::NoLonger, "no longer")]
    {
        let found = found(&held_at(set_c));
        let small = |t: &&LeverEffect| t.lever.lever_id == LeverId::HoldTemperature && t.way == Way::Little;
        let turn = found.turns.iter().find(small).unwrap();
        let (outcome, got) = turn.effects[0];
        assert_eq!((turn.by, got), (1.0, effect), "{set_c}: {turn:?}");
        let said = format!("{} {word}", head(outcome));
        assert!(say::effects(turn).contains(&said), "{}", say::effects(turn));
        assert!(!say::text(&found).contains("or no longer"));
    }
}

#[test]
fn shares_say_what_they_are_of_and_bands_are_narrowed_on_the_same_scale() {
    let found = found(&demo("coconut-pot.ron"));
    let ready = &found.watched[0];
    assert!(ready.never.of > 0 && ready.scale == Scale::PerHour && found.watched[1].scale == Scale::Own);
    let text = say::text(&found);
    assert!(!text.contains("single doubts"), "{text}");
    assert!(say::explained(ready).ends_with("%, by speed") && text.contains(&say::explained(ready)));
    assert_eq!(text.matches("one thing explains by itself").count(), 1, "{text}");
    assert!(text.contains("compared as speeds"));
    // Half of a band from 8 h by 12 h to 24 h: nearer by half in 1/h, not in hours.
    let narrowed = |scale| {
        let watched = Watched { scale, edges: [8.0, 12.0, 24.0], ..ready.clone() };
        let (low, high) = watched.narrowed(0.5).unwrap();
        span_words(watched.outcome, low, high)
    };
    assert_eq!(narrowed(Scale::PerHour), "9.6–16.0\u{a0}h");
    assert_eq!(narrowed(Scale::Own), "10.0–18.0\u{a0}h");
}

#[test]
fn a_remedy_does_something_for_the_doubt_that_it_is_told_for() {
    let mut design = demo("coconut-pot.ron");
    for (warmer, heated) in [("insulated_flask", false), ("heated_pot", true)] {
        design.hold_mut().unwrap().warmer = warmer.to_owned();
        let all = ask(&design, &Kitchen::default(), |scenario| {
            let sampler = Sampler::of_mixes(scenario, 1, 20).unwrap();
            let mut own = design.clone();
            own.refresh_snapshot(scenario.pantry);
            let of_it = |u: &&Unknown| matches!(&u.of, UnknownKind::Figures(paths) if paths[0].starts_with("warmers."));
            let told = |u: &Unknown| (u.key.clone(), say::doubt(&remedy(scenario, &own.snapshot, u)).1);
            sampler.unknowns().list.iter().filter(of_it).map(told).collect::<Vec<_>>()
        });
        assert!(!all.is_empty());
        for (path, how) in &all {
            // What is given under Kitchen stands in for the offset and for the loss, and for nothing else.
            let stands_in = path.ends_with("offset_c") || path.ends_with("cooling_h");
            assert_eq!(how.contains("under Kitchen"), stands_in, "{path}: {how}");
        }
        assert_eq!(all.iter().any(|(path, _)| path.ends_with("offset_c")), heated, "{all:?}");
    }
}
