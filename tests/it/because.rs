//! Because of what: mixes that never get there are left out and counted, shares still add up, and sentences stand first.

use potset_compare::beside::{Comparison, Part, beside_knowing};
use potset_doc::{Design, Kitchen, Learnt};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_report::{beside, why};

use crate::support::{demo, shipped};

fn beside_of(a: &Design, b: &Design) -> Comparison {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design: a, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
    beside_knowing(&scenario, &[b], None).unwrap()
}

/// Milk, and a base without food of its own that was given some: milk's steps on that base without the sugar never sour.
fn milk_and_a_fed_base() -> Comparison {
    let milk = demo("whole-milk-pot.ron");
    let found = shipped().bases.iter().find_map(|base| {
        let mut fed = demo("coconut-pot.ron");
        fed.bases[0].entry.clone_from(&base.key);
        fed.sugars[0].g_per_l = 20.0;
        fed.refresh_snapshot(shipped());
        let told = beside_of(&milk, &fed);
        let late = told.causes[0].as_ref()?.because.iter().any(|b| b.left_out > 0);
        late.then_some(told)
    });
    found.expect("a base without food of its own")
}

#[test]
fn mixes_that_never_get_there_are_left_out_and_counted() {
    let told = milk_and_a_fed_base();
    let causes = told.causes[0].as_ref().unwrap();
    let late = causes.because.iter().find(|b| b.left_out > 0).unwrap();
    assert_eq!(late.mixes, 1 << causes.players.len());
    let row = told.rows.iter().find(|r| r.outcome == late.outcome).unwrap();
    let whole = row.differences[1].unwrap();
    assert!((late.whole() - whole).abs() < 1e-9, "{} of {whole}", late.whole());
    // No share is swamped by the end of the chart: none is farther than the two designs lie apart, and a little.
    for share in &late.shares {
        assert!(share.abs() < whole.abs() + 12.0, "{late:?}");
    }
    let said = beside::left_out(late).unwrap();
    let verbs = if late.left_out == 1 { "gets there and is" } else { "get there and are" };
    assert_eq!(said, format!("{} of {} mixes never {verbs} left out", late.left_out, late.mixes));
    for text in [potset_export::beside::text(&told), potset_export::beside::markdown(&told)] {
        assert!(text.contains(&said) && !text.contains("count as"), "{text}");
    }
}

#[test]
fn a_slow_and_a_quick_pot_say_why_in_plain_sentences_first() {
    let told = beside_of(&demo("whole-milk-pot.ron"), &demo("coconut-pot.ron"));
    let why = why::why(&told, 1);
    assert!(why[0].contains("is ready after about") || why[0].contains("pH\u{a0}4.6 after about"), "{why:?}");
    assert!(why[1].starts_with("That is ") && why[1].contains("because of the "), "{why:?}");
    let sugar = &why[2];
    assert!(sugar.starts_with("Sugar left in "), "{why:?}");
    for (i, pot) in told.pots.iter().enumerate() {
        assert!(sugar.contains(&why::sugar_stays(pot.sugar.unwrap())), "{i}: {why:?}");
    }
    // The part that is named makes most of the difference.
    let causes = told.causes[0].as_ref().unwrap();
    let because = causes.because.iter().find(|b| b.outcome == Observable::ReadyFrom).unwrap();
    let most = (0..because.shares.len()).max_by(|a, b| {
        let of = |i: usize| because.shares[i] / because.whole();
        of(*a).total_cmp(&of(*b))
    });
    assert!(why[1].contains(&beside::player(&causes.players[most.unwrap()])), "{why:?}");
    let text = potset_export::beside::text(&told);
    let (said, shares) = (text.find(&why[0]).unwrap(), text.find("of which").unwrap());
    assert!(said < shares, "{text}");
}

#[test]
fn the_base_is_named_by_what_it_does_to_the_culture() {
    // One and the same recipe in two bases: only the base differs.
    let milk = demo("whole-milk-pot.ron");
    let mut coconut = milk.clone();
    coconut.bases = demo("coconut-pot.ron").bases;
    coconut.sugars = demo("coconut-pot.ron").sugars;
    coconut.refresh_snapshot(shipped());
    let told = beside_of(&milk, &coconut);
    let causes = told.causes[0].as_ref().unwrap();
    let base = causes.players.iter().position(|p| p.parts.contains(&Part::Base)).unwrap();
    let clause = why::clause(causes.clues[base].most(true).unwrap());
    assert!(clause.starts_with("in which the culture works at "), "{clause}");
}

#[test]
fn what_alone_keeps_a_pot_from_getting_there_is_named() {
    let good = demo("whole-milk-pot.ron");
    let mut hot = good.clone();
    hot.hold_mut().unwrap().set_c = 58.0;
    hot.bases[0].litres *= 1.2;
    let told = beside_of(&good, &hot);
    let why = why::why(&told, 1);
    assert!(why[0].contains("does not get there in the hours shown"), "{why:?}");
    assert_eq!(why[1], "The warmth alone is enough for that.");
    // The other way round it is the same part that makes it.
    assert_eq!(why::why(&beside_of(&hot, &good), 1)[1], "The warmth alone is enough for that.");
}

#[test]
fn shares_add_up_whatever_is_left_out() {
    let names =
        ["coconut-pot.ron", "whole-milk-pot.ron", "coconut-no-sugar.ron", "failed-thin-and-sweet.ron"];
    for (i, a) in names.iter().enumerate() {
        for b in &names[..i] {
            let told = beside_of(&demo(a), &demo(b));
            for because in &told.causes[0].as_ref().unwrap().because {
                let row = told.rows.iter().find(|r| r.outcome == because.outcome).unwrap();
                let whole = row.differences[1].unwrap();
                assert!(
                    (because.whole() - whole).abs() < 1e-9 * whole.abs().max(1.0),
                    "{a}, {b}: {because:?}"
                );
                assert!(because.left_out == 0 || because.left_out + 2 <= because.mixes);
            }
        }
    }
}
