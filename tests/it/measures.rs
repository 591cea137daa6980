//! Household measures and blends: there and back, printed and read, shares that add up, the square in a design.

use potset_base::measures::{Amount, Measure, Said, SpoonSet, format, parse};
use potset_base::shares::{room, shift};
use potset_catalogue::mixing_square;
use potset_catalogue::mixing_square::Figure;
use potset_doc::design::BaseLine;
use potset_doc::edit::{Edit, LabelField, LineKind, apply};
use potset_doc::{check, format as file};
use proptest::prelude::*;
use proptest::sample::select;

use crate::support::{demo, pantry};

fn measures() -> impl Strategy<Value = Measure> {
    select(Measure::ALL.to_vec())
}

fn sets() -> impl Strategy<Value = SpoonSet> {
    select(SpoonSet::ALL.to_vec())
}

/// Amounts from a trace to a vat, evenly over their logarithm.
fn counts() -> impl Strategy<Value = f64> {
    (-4.0..5.0_f64).prop_map(|x| 10.0_f64.powf(x))
}

/// What a maker may find in a pot or a spoon, g/mL.
fn densities() -> impl Strategy<Value = f64> {
    0.1..1.6_f64
}

/// Quarters, so that the printed signs are met.
fn counts_and_quarters() -> impl Strategy<Value = f64> {
    prop_oneof![counts(), (0..400_u32).prop_map(|q| f64::from(q) / 4.0)]
}

fn said(by: Measure, set: SpoonSet, density: f64, litres: f64) -> Said<'static> {
    Said {
        unit: "g/L",
        measure: by,
        own: Some(Measure::Gram),
        set,
        g_per_unit: litres,
        g_per_ml: Some(density),
        pack: None,
        litres: Some(litres),
        what: "",
    }
}

#[test]
fn what_rounds_to_a_quarter_is_printed_as_one() {
    // Six figures make each of them a whole number of quarters, or one.
    for (count, text) in
        [(1.499_997_68, "1½"), (29.749_951_7, "29¾"), (10.749_951_2, "10¾"), (1.000_000_4, "1")]
    {
        let printed = format(Amount::Total(count, Measure::Teaspoon));
        assert_eq!(printed, format!("{text}\u{a0}tsp"));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 1000, ..ProptestConfig::default() })]

    #[test]
    fn any_measure_to_any_other_and_back(
        (a, b, set) in (measures(), measures(), sets()),
        (count, density) in (counts(), densities()),
    ) {
        let (Some(one_a), Some(one_b)) = (a.grams(set, Some(density)), b.grams(set, Some(density))) else {
            return Ok(());
        };
        let there = count * one_a / one_b;
        let s = said(b, set, density, 2.0);
        let lever = s.read("x", &format(Amount::Total(count, a))).unwrap();
        let Some(Amount::Total(shown, m)) = s.amount(b, lever) else { panic!("{b:?}") };
        prop_assert_eq!(m, b);
        prop_assert!((shown - there).abs() <= 1e-5 * there, "{} {:?} is {} {:?}, not {}", count, a, there, b, shown);
        let Some(Amount::Total(back, _)) = s.amount(a, lever) else { panic!("{a:?}") };
        prop_assert!((back - count).abs() <= 1e-5 * count, "{} is back as {}", count, back);
    }

    #[test]
    fn what_is_printed_is_read_back((m, set, count) in (measures(), sets(), counts_and_quarters()), kind in 0..3_u8) {
        let amount = match kind {
            0 => Amount::Plain(count),
            1 => Amount::Total(count, m),
            _ => Amount::PerLitre(count, m),
        };
        let text = format(amount);
        match parse("x", &text, set) {
            Ok(back) => {
                let of = |a| match a {
                    Amount::Plain(v) | Amount::Total(v, _) | Amount::PerLitre(v, _) => v,
                };
                prop_assert_eq!(std::mem::discriminant(&back), std::mem::discriminant(&amount), "{}", text);
                if let (Amount::Total(_, a), Amount::Total(_, b)) | (Amount::PerLitre(_, a), Amount::PerLitre(_, b)) =
                    (amount, back)
                {
                    prop_assert_eq!(a, b);
                }
                prop_assert!((of(back) - count).abs() <= 5.1e-6 * count, "{} is read as {:?}", text, back);
                prop_assert_eq!(format(back), text);
            }
            Err(note) => {
                let lacking = !matches!(amount, Amount::Plain(_)) && m.size(set).is_none();
                prop_assert!(lacking, "{}: {}", text, note);
            }
        }
    }

    #[test]
    fn a_field_reads_what_it_shows(
        (m, set) in (measures(), sets()),
        (dose, density, litres) in (0.01..60.0_f64, densities(), 0.1..50.0_f64),
    ) {
        let s = said(m, set, density, litres);
        if let Some(text) = s.text(dose) {
            let back = s.read("x", &text).unwrap();
            prop_assert!((back - dose).abs() <= 5.1e-3 * dose, "{} for {} is read as {}", text, dose, back);
        }
        for (measure, text) in s.choices(dose, "own") {
            let size = measure.grams(set, Some(density));
            prop_assert!(size.is_some(), "{}", text);
        }
    }

    #[test]
    fn any_text_is_read_or_refused_with_a_mend(text in "[0-9 .,/½¼a-zA-Z()-]{0,14}", set in sets()) {
        match parse("the field", &text, set) {
            Ok(Amount::Plain(v) | Amount::Total(v, _) | Amount::PerLitre(v, _)) => {
                prop_assert!(v.is_finite() && v >= 0.0, "{} is {}", text, v);
            }
            Err(note) => {
                prop_assert_eq!(note.field.as_str(), "the field");
                prop_assert!(!note.title.is_empty() && !note.mend.is_empty());
            }
        }
    }

    #[test]
    fn shares_add_up_keep_their_locks_and_come_back(
        parts in proptest::collection::vec((0.01..5.0_f64, any::<bool>()), 2..7),
        at in any::<prop::sample::Index>(),
        to in 0.0..1.0_f64,
    ) {
        let (amounts, mut locked): (Vec<f64>, Vec<bool>) = parts.into_iter().unzip();
        let i = at.index(amounts.len());
        locked[i] = false;
        let sum: f64 = amounts.iter().sum();
        let old: Vec<f64> = amounts.iter().map(|a| a / sum).collect();
        let free: f64 = 1.0 - old.iter().zip(&locked).filter(|(_, l)| **l).map(|(s, _)| s).sum::<f64>();
        let moved = shift(&amounts, &locked, i, to);
        if locked.iter().filter(|l| !**l).count() == 1 {
            prop_assert!(moved.is_err() || (to - free).abs() < 1e-11);
            return Ok(());
        }
        let Ok(new) = moved else {
            prop_assert!(to > free, "{} of {}", to, free);
            return Ok(());
        };
        prop_assert!((new.iter().sum::<f64>() - 1.0).abs() <= 1e-12);
        prop_assert!((new[i] - to).abs() <= 1e-12);
        for j in 0..new.len() {
            prop_assert!(new[j] >= 0.0);
            prop_assert!(!locked[j] || (new[j] - old[j]).abs() <= 1e-15);
        }
        if free - to > 1e-3 {
            let back = shift(&new, &locked, i, old[i]).unwrap();
            for (back, old) in back.iter().zip(&old) {
                prop_assert!((back - old).abs() <= 1e-9, "{} is back as {}", old, back);
            }
        }
        let (low, high) = room(&amounts, &locked, i, 0.001);
        for end in [low, high] {
            let least = old.iter().copied().fold(f64::INFINITY, f64::min).min(0.001);
            let at_end = shift(&amounts, &locked, i, end).unwrap();
            prop_assert!(at_end.iter().all(|s| *s >= least - 1e-12), "{:?} at {}", at_end, end);
        }
    }
}

#[test]
fn lines_remember_how_they_are_said_and_old_files_stay_as_they_are() {
    let pantry = pantry();
    let design = demo("oat-and-coconut.ron");
    let text = file::write(&design).unwrap();
    assert!(!text.contains("by:") && !text.contains("locked"), "nothing new in a file that uses nothing new");
    let edits = vec![
        Edit::Measure(LineKind::Bases, 0, Measure::Cup),
        Edit::Measure(LineKind::Thickeners, 0, Measure::HeapedTablespoon),
        Edit::Measure(LineKind::Cultures, 0, Measure::KnifeTip),
        Edit::BaseLock(1, true),
    ];
    let new = apply(&design, &Edit::Together("all".to_owned(), edits), &pantry).unwrap();
    assert!(check::faults(&new).is_empty());
    assert_eq!(file::read_design(file::write(&new).unwrap().as_bytes()).unwrap(), new);
    assert!((new.litres() - design.litres()).abs() < 1e-15, "the amounts stay");
}

#[test]
fn a_measure_goes_with_its_spoon_set() {
    let pantry = pantry();
    let design = demo("oat-and-coconut.ron");
    let to = |design: &_, edit: Edit| apply(design, &edit, &pantry).unwrap();
    let pint = Edit::Measure(LineKind::Bases, 0, Measure::Pint);
    let wrong = to(&design, pint.clone());
    let faults = check::faults(&wrong);
    assert_eq!((faults.len(), faults[0].field.as_str()), (1, "bases[0].by"), "{faults:?}");
    let imperial = to(&to(&design, Edit::Spoons(SpoonSet::Imperial)), pint);
    assert!(check::faults(&imperial).is_empty());
    let metric = to(&imperial, Edit::Spoons(SpoonSet::Metric));
    assert_eq!(metric.bases[0].measure, Measure::Litre);
    assert!(check::faults(&metric).is_empty());
}

#[test]
fn a_share_keeps_the_litres_in_all_and_what_is_locked() {
    let pantry = pantry();
    let mut design = demo("oat-and-coconut.ron");
    design.bases.push(BaseLine { locked: true, ..BaseLine::new(design.bases[0].entry.clone(), 0.5) });
    let new = apply(&design, &Edit::BaseShare(0, 0.2), &pantry).unwrap();
    assert!((new.litres() - 2.5).abs() < 1e-12);
    assert!((new.bases[0].litres - 0.5).abs() < 1e-12 && (new.bases[1].litres - 1.5).abs() < 1e-12);
    assert_eq!(new.bases[2].litres, 0.5);
    let note = apply(&design, &Edit::BaseShare(0, 0.9), &pantry).unwrap_err();
    assert_eq!(note.field, "bases[0].share");
    assert!(note.title.contains("80.0 %"), "{note}");
}

#[test]
fn a_blend_of_pantry_bases_holds_what_was_wanted_in_the_same_litres() {
    let pantry = pantry();
    let mut design = demo("oat-and-coconut.ron");
    design.bases[1].label.fat = Some(17.0);
    design.bases.push(BaseLine::new("whole_cows_milk".to_owned(), 0.4));
    for (figure, wanted) in [(Figure::Fat, 6.0), (Figure::Fat, 9.5), (Figure::Protein, 1.3)] {
        let edit = mixing_square::blend(&design, &pantry, (0, 1), figure, wanted).unwrap();
        let new = apply(&design, &edit, &pantry).unwrap();
        assert!((new.litres() - design.litres()).abs() < 1e-12);
        assert_eq!(new.bases[2], design.bases[2], "the others stay");
        let held = mixing_square::held(&new, &pantry, figure).unwrap();
        assert!((held - wanted).abs() < 1e-9, "{held}");
    }
    // The label's own figure decides: with more fat on it, less of the cream is needed.
    let blended = |design| {
        let edit = mixing_square::blend(design, &pantry, (0, 1), Figure::Fat, 6.0).unwrap();
        apply(design, &edit, &pantry).unwrap().bases[1].litres
    };
    let lean = blended(&design);
    let rich = apply(&design, &Edit::BaseLabel(1, LabelField::Fat, Some(24.0)), &pantry).unwrap();
    assert!(blended(&rich) < lean, "{} against {lean}", blended(&rich));
    let note = mixing_square::blend(&design, &pantry, (0, 1), Figure::Fat, 30.0).unwrap_err();
    assert!(note.field.contains("fat") && note.title.contains("reach"), "{note}");
    assert!(mixing_square::blend(&design, &pantry, (1, 1), Figure::Fat, 6.0).is_err());
}
