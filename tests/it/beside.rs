//! Designs beside each other: no difference with itself, order does not matter, shares add up.

use potset_compare::beside::{
    Causes, Comparison, ForecastSource, MOST_PLAYERS, OfCase, Pair, Part, Row, beside_knowing, causes,
};
use potset_doc::evidence;
use potset_doc::{Design, Kitchen, Learnt};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_judge::outcomes::Outcomes;
use potset_report::beside::sentence;
use proptest::prelude::*;

use crate::support::{demo, shipped};

fn with<T>(design: &Design, go: impl FnOnce(&Scenario<'_>) -> T) -> T {
    go(&Scenario { design, pantry: shipped(), kitchen: &Kitchen::default(), learnt: &Learnt::default() })
}

fn beside_of(a: &Design, others: &[&Design]) -> Comparison {
    with(a, |scenario| beside_knowing(scenario, others, None)).unwrap()
}

fn row(told: &Comparison, outcome: Observable) -> &Row {
    told.rows.iter().find(|r| r.outcome == outcome).unwrap()
}

fn first_causes(told: &Comparison) -> &Causes {
    told.causes[0].as_ref().unwrap()
}

#[test]
fn a_design_beside_itself_shows_no_difference() {
    let design = demo("coconut-pot.ron");
    let same = beside_of(&design, &[&design]);
    assert!(same.inputs.is_empty() && first_causes(&same).players.is_empty());
    for r in &same.rows {
        assert!(!r.noticed[1] && r.differences[1].is_none_or(|d| d == 0.0), "{:?}", r.outcome);
    }
    assert!(sentence(&same, 1).contains("nothing differs"), "{}", sentence(&same, 1));
    // Two of one name are told apart.
    assert_ne!(same.names[0], same.names[1]);
}

#[test]
fn order_does_not_matter() {
    for (x, y) in
        [("coconut-pot.ron", "whole-milk-pot.ron"), ("oat-and-coconut.ron", "strained-milk-pot.ron")]
    {
        let (a, b) = (demo(x), demo(y));
        let (there, back) = (beside_of(&a, &[&b]), beside_of(&b, &[&a]));
        let swapped: Vec<_> = back.inputs.iter().map(|r| (r.words(1), r.words(0))).collect();
        let mut straight: Vec<_> = there.inputs.iter().map(|r| (r.words(0), r.words(1))).collect();
        let mut swapped = swapped;
        straight.sort();
        swapped.sort();
        assert_eq!(straight, swapped);
        for (x, y) in there.rows.iter().zip(&back.rows) {
            assert_eq!((x.values[0], x.values[1], x.noticed[1]), (y.values[1], y.values[0], y.noticed[1]));
        }
        let (there, back) = (first_causes(&there), first_causes(&back));
        let parts = |c: &Causes| c.players.iter().map(|p| p.parts.clone()).collect::<Vec<_>>();
        assert_eq!(parts(there), parts(back));
        assert_eq!(there.because.len(), back.because.len());
        for (x, y) in there.because.iter().zip(&back.because) {
            for (s, t) in x.shares.iter().zip(&y.shares) {
                assert!((s + t).abs() < 1e-9, "{:?}: {s} there, {t} back", x.outcome);
            }
        }
    }
}

#[test]
fn entries_of_one_key_that_differ_are_kept_apart() {
    let a = demo("coconut-pot.ron");
    let mut b = a.clone();
    b.snapshot.bases[0].composition.fat.value += 3.0;
    b.snapshot.organisms[0].growth_rate.value *= 1.2;
    b.snapshot.buffer_shapes[0].sites[0].pk.value += 0.1;
    let pair = Pair::new(&a, &b);
    assert_eq!(pair.differ(), [Part::Base, Part::Culture]);
    let own = beside_of(&b, &[&b]);
    let both = beside_of(&a, &[&b]);
    for (x, y) in own.rows.iter().zip(&both.rows) {
        assert_eq!(x.values[0], y.values[1], "{:?} of the second design is not its own", x.outcome);
    }
}

#[test]
fn coconut_and_milk_differ_as_a_maker_expects() {
    let told = beside_of(&demo("whole-milk-pot.ron"), &[&demo("coconut-pot.ron")]);
    let differs = |name: &str| told.inputs.iter().any(|r| r.name == name);
    for name in ["base", "sugar, amount", "thickener", "culture", "held at", "you stop at", "fat of the mix"]
    {
        assert!(differs(name), "{name} is not told to differ");
    }
    // Both hold 2 L in jars: what is the same is hidden.
    assert!(!differs("bases in all") && !differs("style"));
    assert!(first_causes(&told).players.len() <= MOST_PLAYERS);
    let sour = row(&told, Observable::SourAt);
    assert!(sour.noticed[1] && sour.differences[1].unwrap() > 2.0, "{sour:?}");
    let sentence = sentence(&told, 1);
    for words in ["more until it is ready", "less sugar", "thinner", "tang is the same to the tongue"] {
        assert!(sentence.contains(words), "{words} is not in {sentence}");
    }
    // When the stop line is has nothing to do with when the pot is sour, however far each design alone would look ahead.
    let late = first_causes(&told).because.iter().find(|b| b.outcome == Observable::SourAt).unwrap();
    let stop = first_causes(&told).players.iter().position(|p| p.parts == [Part::Time]).unwrap();
    assert!(late.shares[stop].abs() < 0.02, "{late:?}");
    assert_eq!(late.left_out, 0);
}

#[test]
fn the_sentence_never_gainsays_its_own_figures() {
    let names = [
        "coconut-pot.ron",
        "whole-milk-pot.ron",
        "oat-and-coconut.ron",
        "milk-with-lactase.ron",
        "coconut-no-sugar.ron",
        "failed-too-hot.ron",
        "strained-milk-pot.ron",
    ];
    for x in names {
        for y in names {
            let told = beside_of(&demo(x), &[&demo(y)]);
            let (sentence, tang) = (sentence(&told, 1), row(&told, Observable::Tang));
            let (ph, sour) = (row(&told, Observable::Ph), row(&told, Observable::SourAt));
            let more = tang.differences[1].unwrap() > 0.0;
            assert_eq!(sentence.contains("tangier"), tang.noticed[1] && more, "{sentence}");
            assert_eq!(sentence.contains("less tangy"), tang.noticed[1] && !more, "{sentence}");
            let ph_by = ph.differences[1].unwrap();
            let higher = Observable::Ph.steps(ph_by) >= 1.0;
            assert_eq!(
                sentence.contains("though its pH is higher"),
                tang.noticed[1] && more && higher,
                "{sentence}"
            );
            if sour.values == [None, None] && x != y {
                assert!(!sentence.contains("time is the same"), "{sentence}");
            }
        }
    }
}

#[test]
fn what_is_said_in_other_measures_is_the_same() {
    let a = demo("coconut-pot.ron");
    let mut b = a.clone();
    b.sugars[0].measure = potset_base::measures::Measure::Tablespoon;
    let told = beside_of(&a, &[&b]);
    assert!(told.inputs.is_empty(), "{:?}", told.inputs);
}

#[test]
fn outcomes_of_a_run_are_those_of_its_verdict() {
    for name in ["coconut-pot.ron", "strained-milk-pot.ron", "coconut-with-fruit.ron", "coconut-no-sugar.ron"]
    {
        let design = demo(name);
        let (short, whole) = with(&design, |scenario| {
            (Outcomes::of(scenario, &scenario.run().unwrap()), Outcomes::of_answer(&answer(scenario)))
        });
        assert_eq!(short, whole, "{name}");
    }
}

#[test]
fn four_designs_and_a_published_case_stand_beside_each_other() {
    let cases = evidence::shipped().unwrap();
    let pots = cases.iter().filter_map(|case| OfCase(case).design(shipped()).ok().map(|d| (case, d)));
    let (case, published) = pots.into_iter().find(|(c, _)| c.kind == evidence::CaseKind::PhSeries).unwrap();
    assert!(!OfCase(case).measured().is_empty());
    let (milk, oat, soy) =
        (demo("whole-milk-pot.ron"), demo("oat-and-coconut.ron"), demo("soy-set-pots.ron"));
    let told = beside_of(&milk, &[&oat, &soy, &published]);
    assert_eq!((told.names.len(), told.pots.len(), told.causes.len()), (4, 4, 3));
    assert!(told.rows.iter().all(|r| r.values.len() == 4));
    // Nothing is fitted: the same pot by the command for evidence before any fit.
    assert!(row(&told, Observable::SourAt).values[3].is_some());
}

#[test]
fn a_question_that_is_given_up_gives_nothing() {
    let (a, b) = (demo("whole-milk-pot.ron"), demo("coconut-pot.ron"));
    assert_eq!(with(&a, |scenario| causes(scenario, &b, &mut || false)), None);
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
        let told = beside_of(&a, &[&b]);
        prop_assert!(first_causes(&told).players.len() <= MOST_PLAYERS);
        prop_assert!(!first_causes(&told).because.is_empty());
        for because in &first_causes(&told).because {
            let whole = row(&told, because.outcome).differences[1].unwrap();
            prop_assert!((because.whole() - whole).abs() < 1e-9 * whole.abs().max(1.0), "{because:?} of {whole}");
        }
    }
}
