//! Nothing that is offered leads past throwing it away: not on the likely line, and not in 2 of 10 possible pots.

use potset_base::Severity;
use potset_doubt::kept::{Draw, Read};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_report::advice::note;
use potset_report::aim as say;
use potset_search::aim::{AimAsk, Found, TargetSearch};

use super::{held, moving, wants, with};
use crate::support::demo;

/// Possible pots of which so many in ten have a culture that is as good as dead: they never sour in time.
fn dead(ask: &Scenario<'_>, draw: Draw, read: Read<'_>, in_ten: usize) -> Vec<Option<Vec<f64>>> {
    let mut slow = ask.design.clone();
    slow.cultures.iter_mut().for_each(|c| c.rate *= 1e-6);
    let one = |design| {
        let ask = Scenario { design, ..*ask };
        ask.run_coarse(0.0).ok().map(|run| read(&ask, &run))
    };
    let (well, ill) = (one(ask.design), one(&slow));
    (0..draw.pots).map(|k| if k % 10 < in_ten { ill.clone() } else { well.clone() }).collect()
}

fn one_in_ten(ask: &Scenario<'_>, draw: Draw, read: Read<'_>) -> Vec<Option<Vec<f64>>> {
    dead(ask, draw, read, 1)
}

fn three_in_ten(ask: &Scenario<'_>, draw: Draw, read: Read<'_>) -> Vec<Option<Vec<f64>>> {
    dead(ask, draw, read, 3)
}

/// Long enough that the hour of throwing away comes before the stop.
const TEXTS: [&str; 2] = ["ready>=25h", "ph<=4.2"];

fn found(pots: potset_doubt::kept::Pots) -> Found {
    let design = demo("coconut-pot.ron");
    let held_back = moving(&design, &[], &["base", "thickener", "culture"]);
    let wish = AimAsk::new(wants(&design, &TEXTS), held_back, 0).unwrap();
    with(&design, |ask| {
        let mut aimer = TargetSearch::with_pots(wish, pots);
        while aimer.next(ask, 64) {}
        aimer.into_found()
    })
}

#[test]
fn a_setting_of_which_two_in_ten_pots_are_thrown_away_is_none() {
    let design = demo("coconut-pot.ron");
    let few = found(one_in_ten);
    held(&design, &wants(&design, &TEXTS), &few);
    assert!(!few.proposals.is_empty());
    let many = found(three_in_ten);
    assert!(many.proposals.is_empty() && many.complete);
    let blocked = many.blocked.unwrap();
    let line = say::blocked::line(&blocked);
    assert!(line.starts_with("What would work is ruled out by a caution: 60 of 200 pots"), "{line}");
    // Nor is such a design said to do already what is wanted.
    assert!(!many.as_is.unwrap().does());
}

#[test]
fn the_nearest_setting_that_can_be_used_is_not_past_a_discard() {
    // A warm place that is too cold: it sours too slowly whatever is turned.
    let mut design = demo("coconut-pot.ron");
    design.hold_mut().unwrap().set_c = 25.0;
    let moves = moving(&design, &["Stop at"], &[]);
    let wish = AimAsk::new(wants(&design, &["ph<=4.3"]), moves, 0).unwrap();
    let found = super::found_in(&design, &wish, 64);
    assert!(found.proposals.is_empty(), "{:?}", found.proposals);
    let blocked = found.blocked.unwrap();
    let nearest = blocked.nearest.as_ref().unwrap();
    let stop = with(&nearest.design, |ask| {
        answer(ask).verdict.advice.into_iter().find(|a| a.severity >= Severity::Stop)
    });
    let why = note(&stop.expect("it is thrown away")).title;
    assert!(blocked.to_take().is_none());
    assert_eq!(say::blocked::warning(&blocked), Some(format!("Do not use this one: {why}")));
}
