//! One judgement of what a person notices: sourness and texture are told as one thing each, and what is only read is never
//! noticed, wherever two pots are held against each other.

use potset_compare::beside::{Comparison, table};
use potset_doc::edit;
use potset_doc::{Design, Edit, Kitchen, Learnt};
use potset_doubt::influence::Influence;
use potset_forecast::lever::{LeverId, levers};
use potset_forecast::observable::{Observable, Step};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::{Answer, answer};
use potset_judge::outcomes::{Outcomes, differ_among};
use potset_report::beside::sentence;
use potset_search::sweep::{Axis, SweepAsk, Sweeper};
use proptest::prelude::*;

use crate::properties::{check, design};
use crate::support::{compiled, demo, shipped};

/// Pairs of designs that the sentences are tried on.
const PAIRS: u32 = 48;

/// Outcomes that a person judges as one.
const TOGETHER: [[Observable; 2]; 2] =
    [[Observable::Ph, Observable::Tang], [Observable::Texture, Observable::Stiffness]];

fn with<T>(design: &Design, go: impl FnOnce(&Scenario<'_>) -> T) -> T {
    go(&Scenario { design, pantry: shipped(), kitchen: &Kitchen::default(), learnt: &Learnt::default() })
}

fn beside_of(designs: [&Design; 2]) -> Comparison {
    let answers = designs.map(|d| with(d, answer));
    table(&designs, &answers.iter().collect::<Vec<&Answer>>(), shipped())
}

/// What a line of the plain text says of a difference: noticed, not, or neither.
fn verdict(told: &Comparison, text: &str, outcome: Observable) -> Option<bool> {
    let start = format!("  {}  ", outcome.name());
    let line = text.lines().find(|l| l.starts_with(&start) || l.trim() == outcome.name());
    let line = line.unwrap_or_else(|| panic!("{} is not in {text}", outcome.name()));
    assert_eq!(told.names.len(), 2);
    match (line.contains("you would notice"), line.contains("too small to notice")) {
        (true, true) => panic!("{line}"),
        (false, false) => None,
        (yes, _) => Some(yes),
    }
}

/// Things that the sentence says are the same: "tang and texture differ too little to notice".
fn said_same(sentence: &str, what: &str) -> bool {
    let last = sentence.rsplit("; ").next().unwrap_or("");
    (last.contains(" is the same ") || last.contains("differ too little to notice")) && last.contains(what)
        || sentence.contains("you would not notice the difference")
}

/// No two sentences about two pots gainsay each other.
fn agrees(told: &Comparison) -> Result<(), TestCaseError> {
    let noticed = |o: Observable| told.noticed(o, 1);
    let text = potset_export::beside::text(told);
    for [one, other] in TOGETHER {
        prop_assert_eq!(noticed(one), noticed(other), "{:?} and {:?}: {}", one, other, &text);
        let (a, b) = (verdict(told, &text, one), verdict(told, &text, other));
        // What is just the same in one figure has no other word; the two never stand against each other.
        prop_assert!(a.is_none() || b.is_none() || a == b, "{:?} and {:?}: {}", one, other, &text);
    }
    let sentence = &sentence(told, 1);
    let any = Observable::ALL.into_iter().any(noticed);
    prop_assert!(!(sentence.contains("you would not notice the difference") && any), "{}", &text);
    let times = [Observable::SourAt, Observable::ReadyFrom];
    prop_assert!(!(said_same(sentence, "time") && times.into_iter().any(noticed)), "{}", &text);
    for (what, outcome) in [
        ("tang", Observable::Tang),
        ("texture", Observable::Texture),
        ("sugar", Observable::SugarLeft),
        ("sugar", Observable::Sweetness),
    ] {
        prop_assert!(!(said_same(sentence, what) && noticed(outcome)), "{}: {}", what, &text);
    }
    for outcome in [Observable::Energy, Observable::Cost] {
        prop_assert_eq!(verdict(told, &text, outcome), None, "{}", &text);
        prop_assert!(!noticed(outcome));
    }
    Ok(())
}

#[test]
fn no_two_sentences_about_random_pots_gainsay_each_other() {
    check(PAIRS, &(design(), design()), |(a, b)| {
        if compiled(&a).mix.is_none() || compiled(&b).mix.is_none() {
            return Err(TestCaseError::reject("no pot"));
        }
        agrees(&beside_of([&a, &b]))
    });
}

#[test]
fn no_two_sentences_about_pots_that_differ_by_little_gainsay_each_other() {
    // Near the step of one figure the other lies on the far side of its own most easily.
    let turns = (0.8..1.25_f64, 0.6..1.6_f64, -3.0..3.0_f64);
    check(PAIRS, &(design(), turns), |(a, (hours, dose, warmer))| {
        let mut b = a.clone();
        let hold = b.hold_mut().unwrap();
        hold.hours *= hours;
        hold.set_c = (hold.set_c + warmer).clamp(20.0, 60.0);
        hold.events.clear();
        b.thickeners.iter_mut().for_each(|t| t.g_per_l *= dose);
        b.bases.iter_mut().for_each(|base| base.litres *= dose);
        if compiled(&a).mix.is_none() || compiled(&b).mix.is_none() {
            return Err(TestCaseError::reject("no pot"));
        }
        agrees(&beside_of([&a, &b]))
    });
}

#[test]
fn demo_pots_beside_each_other_agree_too() {
    let names =
        ["coconut-pot.ron", "whole-milk-pot.ron", "coconut-agar.ron", "soy-set-pots.ron", "goat-pot.ron"];
    for a in names {
        for b in names {
            agrees(&beside_of([&demo(a), &demo(b)])).unwrap();
        }
    }
}

#[test]
fn where_a_spoon_cuts_stiffness_leads_and_the_sentence_says_so() {
    let soft = demo("coconut-agar.ron");
    assert!(with(&soft, answer).verdict.texture.unwrap().word == potset_base::words::TextureWord::Cuts);
    let mut stiff = soft.clone();
    stiff.thickeners[0].g_per_l *= 1.6;
    let told = beside_of([&soft, &stiff]);
    assert!(told.noticed(Observable::Stiffness, 1) && told.noticed(Observable::Texture, 1));
    assert!(sentence(&told, 1).contains("stiffer"), "{}", sentence(&told, 1));
}

#[test]
fn a_sweep_says_one_thing_of_what_is_judged_as_one() {
    let design = demo("coconut-pot.ron");
    for (lever_id, from, to) in [
        (LeverId::HoldHours, 16.0, 22.0),
        (LeverId::ThickenerDose(0), 0.0, 30.0),
        (LeverId::SugarDose(0), 9.0, 9.5),
    ] {
        let lever = levers(&design, shipped()).into_iter().find(|l| l.lever_id == lever_id).unwrap();
        let wanted = SweepAsk::new(Axis::new(lever, from, to, 5).unwrap(), None).unwrap();
        let mut sweeper = Sweeper::new(wanted);
        with(&design, |ask| while sweeper.next(ask, 5) {});
        let sweep = sweeper.into_sweep();
        for [one, other] in TOGETHER {
            assert_eq!(sweep.unnoticed(one), sweep.unnoticed(other), "{lever_id:?}: {one:?}");
        }
        // Nobody is told that a price cannot be tasted.
        assert!(!sweep.unnoticed(Observable::Cost) && !sweep.unnoticed(Observable::Energy));
        // The quick look at the ends finds what looking at every pair finds.
        let points: Vec<&Outcomes> =
            sweep.cells.iter().filter_map(|c| c.point().map(|p| &p.outcomes)).collect();
        for outcome in Observable::ALL {
            let every = points.iter().any(|a| points.iter().any(|b| a.differs(b, outcome)));
            assert_eq!(differ_among(&points, outcome), every, "{lever_id:?}: {outcome:?}");
        }
    }
}

#[test]
fn what_moves_a_forecast_is_ranked_by_the_same_steps() {
    let cited = potset_forecast::params::shipped().unwrap().list().remove(0).1.clone();
    for (i, outcome) in Observable::RESTING.into_iter().enumerate() {
        let step = match outcome.step() {
            Step::By(step) => step,
            Step::Times(factor) => factor.ln(),
        };
        let mut moves = [0.0; 5];
        moves[i] = -3.0 * step;
        let influence = Influence::new("a figure".to_owned(), cited.clone(), moves);
        assert!((influence.steps - 3.0).abs() < 1e-12 && influence.most() == i, "{outcome:?}");
    }
}

#[test]
fn a_pot_may_be_chilled_to_the_warmth_of_the_fridge() {
    let design = demo("coconut-pot.ron");
    let chilled_to = |c: f64| {
        let pot = edit::apply(&design, &Edit::ChillTemperature(c), shipped()).unwrap();
        compiled(&pot)
    };
    let fridge = Kitchen::default().fridge_c;
    for c in [fridge - 0.5, fridge, fridge + 0.2, fridge + 0.5] {
        let found = chilled_to(c);
        let chill = found.mix.unwrap_or_else(|| panic!("{c} °C: {:?}", found.notes)).chill;
        assert!((chill.to_c - (fridge + 0.5)).abs() < 1e-9, "{c} °C: {chill:?}");
        assert!(found.facts.chill_h.is_finite() && found.facts.chill_h > 2.0, "{c} °C");
    }
    // Farther up it is the target itself; farther down it is refused, and the note says nothing that is not so.
    assert!((chilled_to(6.0).mix.unwrap().chill.to_c - 6.0).abs() < 1e-9);
    let refused = chilled_to(fridge - 1.0);
    assert!(refused.mix.is_none());
    let note = refused.notes.iter().find(|n| n.title.contains("never reached")).unwrap();
    assert_eq!(note.sentence, "The fridge brings a pot close to 4.0 °C, but never below");
}

#[test]
fn a_base_may_be_cooled_to_the_warmth_of_the_room() {
    use potset_doc::steps::{Step, Way};
    let mut design = demo("coconut-pot.ron");
    let room = Kitchen::default().room_c;
    let at = design.steps.iter().position(|s| matches!(s, Step::CultureIn)).unwrap();
    design.steps.insert(at, Step::Cool { to_c: room, way: Way::Room });
    let found = compiled(&design);
    assert!((found.facts.culture_in_c - (room + 0.5)).abs() < 1e-9, "{:?}", found.notes);
}
