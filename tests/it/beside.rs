//! Two designs beside each other: no difference with itself, order does not matter, shares add up.

use potset::doc::{Design, Kitchen, Learnt};
use potset::study::beside::{Beside, MOST_PLAYERS, Outcome, Pair, Part, beside};
use proptest::prelude::*;

use crate::support::{demo, shipped};

fn beside_of(a: &Design, b: &Design) -> Beside {
    beside(a, b, (shipped(), &Kitchen::default(), &Learnt::default())).unwrap()
}

#[test]
fn a_design_beside_itself_shows_no_difference() {
    let design = demo("coconut-pot.ron");
    let same = beside_of(&design, &design);
    assert!(same.differ.is_empty() && same.players.is_empty());
    assert!(same.rows.iter().all(|r| !r.noticed && r.difference.is_none_or(|d| d == 0.0)));
    assert!(same.sentence().contains("nothing differs"));
}

#[test]
fn order_does_not_matter() {
    let (a, b) = (demo("coconut-pot.ron"), demo("whole-milk-pot.ron"));
    let (there, back) = (beside_of(&a, &b), beside_of(&b, &a));
    assert_eq!(there.differ, back.differ);
    for (x, y) in there.rows.iter().zip(&back.rows) {
        assert_eq!((x.a, x.b, x.noticed), (y.b, y.a, y.noticed), "{:?}", x.outcome);
    }
    for (x, y) in there.because.iter().zip(&back.because) {
        for (s, t) in x.shares.iter().zip(&y.shares) {
            assert!((s + t).abs() < 1e-9, "{:?}: {s} there, {t} back", x.outcome);
        }
    }
}

#[test]
fn entries_of_one_key_that_differ_are_kept_apart() {
    let a = demo("coconut-pot.ron");
    let mut b = a.clone();
    b.snapshot.bases[0].composition.fat.v += 3.0;
    b.snapshot.organisms[0].growth_rate.v *= 1.2;
    b.snapshot.buffer_shapes[0].sites[0].pk.v += 0.1;
    let pair = Pair::new(&a, &b);
    assert_eq!(pair.differ(), [Part::Base, Part::Culture]);
    let own = beside_of(&b, &b);
    let both = beside_of(&a, &b);
    for (x, y) in own.rows.iter().zip(&both.rows) {
        assert_eq!(x.a, y.b, "{:?} of the second design is not its own", x.outcome);
    }
}

#[test]
fn coconut_and_milk_differ_as_a_maker_expects() {
    let told = beside_of(&demo("whole-milk-pot.ron"), &demo("coconut-pot.ron"));
    assert!(told.differ.contains(&Part::Base) && told.differ.contains(&Part::Culture));
    assert!(told.players.len() <= MOST_PLAYERS);
    let sour = told.rows.iter().find(|r| r.outcome == Outcome::SourAt).unwrap();
    assert!(sour.noticed && sour.difference.unwrap() > 2.0, "{sour:?}");
    assert!(!told.sentence().is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, ..ProptestConfig::default() })]

    /// The shares add up to the whole difference, whatever differs.
    #[test]
    fn shares_add_up(sugar in 2.0..40.0_f64, dose in 4.0..30.0_f64, rate in 0.5..3.0_f64, set_c in 36.0..44.0_f64,
                     hours in 6.0..30.0_f64, fat in 14.0..24.0_f64) {
        let a = demo("coconut-pot.ron");
        let mut b = a.clone();
        b.sugars[0].g_per_l = sugar;
        b.thickeners[0].g_per_l = dose;
        b.cultures[0].rate = rate;
        b.bases[0].label.fat = Some(fat);
        let hold = b.hold_mut().unwrap();
        (hold.set_c, hold.hours) = (set_c, hours);
        let told = beside_of(&a, &b);
        prop_assert!(told.players.len() <= MOST_PLAYERS);
        for because in &told.because {
            let row = told.rows.iter().find(|r| r.outcome == because.outcome).unwrap();
            let (sum, whole) = (because.shares.iter().sum::<f64>(), row.difference.unwrap());
            prop_assert!((sum - whole).abs() < 1e-9 * whole.abs().max(1.0), "{:?}: {sum} of {whole}", because.outcome);
        }
    }
}
