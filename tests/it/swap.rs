//! Swaps: at the usual rate, as thick, as tangy; what was solved holds in a forecast of its own, and what cannot be is told.

use potset_doc::edit::{self, LineKind};
use potset_doc::{Design, Edit, Kitchen, Learnt};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::outcomes::Outcomes;
use potset_report::advice::warned;
use potset_report::swap::{brings, refused, said};
use potset_search::swap::{SwapAsk, Swapped, swap};
use rayon::prelude::*;

use crate::support::{demo, shipped};

fn with<T>(design: &Design, go: impl FnOnce(&Scenario<'_>) -> T) -> T {
    go(&Scenario { design, pantry: shipped(), kitchen: &Kitchen::default(), learnt: &Learnt::default() })
}

fn wish(shelf: LineKind, entry: &str, equal_thickness: bool, equal_tang: bool) -> SwapAsk {
    SwapAsk { shelf, line: 0, entry: entry.to_owned(), equal_thickness, equal_tang }
}

fn outcomes(design: &Design) -> Outcomes {
    with(design, |ask| Outcomes::of(ask, &ask.run().unwrap()))
}

/// What the design would be with a swap made.
fn made(design: &Design, swapped: &Swapped) -> Design {
    edit::apply(design, &swapped.edit, shipped()).unwrap()
}

/// A swap whose edit gives what it says.
fn done(design: &Design, wish: &SwapAsk) -> Swapped {
    let swapped = with(design, |ask| swap(ask, wish)).unwrap();
    assert_eq!(outcomes(&made(design, &swapped)), swapped.after);
    assert_eq!(outcomes(design), swapped.before);
    swapped
}

/// How far an outcome is from what it was, as a share of it.
fn off(swapped: &Swapped, outcome: Observable) -> f64 {
    let (a, b) = (swapped.before.get(outcome).unwrap(), swapped.after.get(outcome).unwrap());
    (b / a - 1.0).abs()
}

#[test]
fn at_the_usual_rate_the_dose_is_the_middle_of_what_is_usual() {
    let design = demo("coconut-pot.ron");
    let usual = |key: &str| shipped().thickeners.iter().find(|t| t.key == key).unwrap().usual;
    let swapped = done(&design, &wish(LineKind::Thickeners, "tapioca_starch_cold", false, false));
    let new = made(&design, &swapped);
    let (low, high) = usual("tapioca_starch_cold");
    assert_eq!(
        (new.thickeners[0].entry.as_str(), new.thickeners[0].g_per_l),
        ("tapioca_starch_cold", 0.5 * (low + high))
    );
    assert_eq!(new.hold(), design.hold());
    assert!(
        said(&swapped)[0].contains("in place of") && said(&swapped)[1].contains("usual"),
        "{:?}",
        said(&swapped)
    );
    // A base keeps its litres, and what the old label said goes.
    let mut labelled = design;
    labelled.bases[0].label.fat = Some(20.0);
    let swapped = done(&labelled, &wish(LineKind::Bases, "whole_cows_milk", false, false));
    let new = made(&labelled, &swapped);
    assert_eq!((new.bases[0].litres, new.bases[0].label.fat), (2.0, None));
    assert!(said(&swapped).iter().any(|s| s.contains("label figures")), "{:?}", said(&swapped));
}

#[test]
fn a_swap_to_itself_changes_nothing() {
    let design = demo("coconut-pot.ron");
    for (shelf, entry) in [
        (LineKind::Bases, &design.bases[0].entry),
        (LineKind::Sugars, &design.sugars[0].entry),
        (LineKind::Thickeners, &design.thickeners[0].entry),
        (LineKind::Cultures, &design.cultures[0].entry),
    ] {
        let swapped = done(&design, &wish(shelf, entry, true, true));
        assert_eq!(made(&design, &swapped), design);
        assert_eq!(swapped.before, swapped.after);
    }
}

#[test]
fn what_a_swap_brings_anew_is_said() {
    let coconut = demo("coconut-pot.ron");
    let soy = done(&coconut, &wish(LineKind::Bases, "soy_drink_unsweetened", false, false));
    assert_eq!(brings(&soy.brings), ["New allergen in the pot: soy"]);
    let milk = done(&coconut, &wish(LineKind::Bases, "whole_cows_milk", false, false));
    assert_eq!(brings(&milk.brings), ["New allergen in the pot: milk", "The pot is no longer vegan"]);
    let back = done(&made(&coconut, &milk), &wish(LineKind::Bases, "coconut_cream_tinned", false, false));
    assert_eq!(brings(&back.brings), ["New allergen in the pot: coconut"]);
    // From one coconut to another nothing comes in.
    let alike = done(&coconut, &wish(LineKind::Bases, "coconut_milk_tinned", false, false));
    assert!(brings(&alike.brings).is_empty(), "{:?}", alike.brings);
    // A thickener that is to be cooked, in a pot that is never heated: the missing step is said before it is used.
    let starch = done(&coconut, &wish(LineKind::Thickeners, "cornstarch", false, false));
    let told: Vec<String> = starch.warned.iter().map(warned).collect();
    assert!(told.iter().any(|t| t.contains("boil")), "{told:?}");
}

#[test]
fn as_thick_and_as_tangy_hold_in_a_forecast_of_their_own() {
    let design = demo("coconut-pot.ron");
    for (shelf, entry) in [
        (LineKind::Thickeners, "tapioca_starch_cold"),
        (LineKind::Cultures, "dairy_pair"),
        (LineKind::Sugars, "honey"),
    ] {
        let thick = done(&design, &wish(shelf, entry, true, false));
        assert!(off(&thick, Observable::Texture) < 0.01, "{entry}: {:?}", said(&thick));
        let both = done(&design, &wish(shelf, entry, true, true));
        assert!(off(&both, Observable::Texture) < 0.01, "{entry}: {:?}", said(&both));
        assert!(off(&both, Observable::Tang) < 0.01, "{entry}: {:?}", said(&both));
        assert!(said(&both).iter().any(|s| s.contains("Stop at")), "{:?}", said(&both));
        let Edit::Together(name, _) = &both.edit else { panic!("not one step of undo") };
        assert!(name.starts_with("Swap: ") && name.ends_with("as thick and as tangy"), "{name}");
    }
}

#[test]
fn what_cannot_be_is_told() {
    let design = demo("coconut-pot.ron");
    let told = |d: &Design, w: &SwapAsk| refused(&with(d, |ask| swap(ask, w)).unwrap_err());
    // Uncooked, it only sinks: no dose of it thickens.
    let note = told(&design, &wish(LineKind::Thickeners, "cornstarch", true, false));
    assert!(note.title.contains("cannot give the same thickness") && note.sentence.contains("comes nearest"));
    assert!(
        note.sentence.contains("never heated enough") && note.mend.contains("cook it"),
        "{}",
        note.line()
    );
    // At the usual rate it is swapped, with the warning and its mend.
    let swapped = done(&design, &wish(LineKind::Thickeners, "cornstarch", false, false));
    assert!(
        swapped
            .warned
            .iter()
            .map(warned)
            .any(|s| s.contains("never heated enough") && s.contains("Mend: cook it")),
        "{:?}",
        swapped.warned
    );

    // From one that does nothing to another: the dose does not matter, and that is said.
    let mut raw = design.clone();
    raw.thickeners[0].entry = "cornstarch".to_owned();
    raw.thickeners[0].g_per_l = 0.0;
    let swapped = done(&raw, &wish(LineKind::Thickeners, "xanthan_gum", true, false));
    assert!(
        said(&swapped).iter().any(|s| s.contains("as thick without any xanthan gum")),
        "{:?}",
        said(&swapped)
    );

    // Cream is too thick at any dose for what was a thin drink.
    let mut lean = design.clone();
    lean.bases[0].entry = "coconut_drink_light".to_owned();
    lean.thickeners[0].g_per_l = 2.0;
    let note = told(&lean, &wish(LineKind::Bases, "coconut_cream_tinned", true, false));
    assert!(
        note.sentence.contains("0.0\u{a0}g/L to 60.0\u{a0}g/L can be reached; 0.0\u{a0}g/L comes nearest"),
        "{}",
        note.line()
    );

    let mut thin = design.clone();
    thin.thickeners.clear();
    let note = told(&thin, &wish(LineKind::Bases, "whole_cows_milk", true, false));
    assert!(note.title.contains("no thickener") && note.mend.contains("Add a thickener"));
    let mut still = design.clone();
    still.cultures[0].rate = 0.0;
    assert!(told(&still, &wish(LineKind::Bases, "whole_cows_milk", false, true)).title.contains("no acid"));
    assert!(told(&design, &wish(LineKind::Thickeners, "no_such", false, false)).title.contains("no_such"));
    assert!(told(&design, &wish(LineKind::Additives, "salt", false, false)).mend.contains("bench"));
    let far = SwapAsk { line: 7, ..wish(LineKind::Cultures, "dairy_pair", false, false) };
    assert!(told(&design, &far).title.contains("number 8"));
}

#[test]
fn every_base_sugar_and_culture_matches_in_both_or_says_why_not() {
    let mut design = demo("coconut-pot.ron");
    // A lean base: what thickens it is what is stirred in.
    design.bases[0].entry = "almond_drink_unsweetened".to_owned();
    let pantry = shipped();
    let keys = |shelf| -> Vec<String> {
        match shelf {
            LineKind::Bases => pantry.bases.iter().map(|e| e.key.clone()).collect(),
            LineKind::Sugars => pantry.sugars.iter().map(|e| e.key.clone()).collect(),
            _ => pantry.cultures.iter().map(|e| e.key.clone()).collect(),
        }
    };
    for shelf in [LineKind::Bases, LineKind::Sugars, LineKind::Cultures] {
        let told: Vec<bool> = keys(shelf)
            .par_iter()
            .map(|key| match with(&design, |ask| swap(ask, &wish(shelf, key, true, true))) {
                Ok(swapped) => {
                    assert_eq!(outcomes(&made(&design, &swapped)), swapped.after, "{key}");
                    for outcome in [Observable::Texture, Observable::Tang] {
                        assert!(off(&swapped, outcome) < 0.01, "{key}: {:?}", said(&swapped));
                    }
                    // Another base has another buffer; the same one as sour has the same pH.
                    let ph = |o: &Outcomes| o.get(Observable::Ph).unwrap();
                    let moved = (ph(&swapped.after) - ph(&swapped.before)).abs();
                    assert!(shelf == LineKind::Bases || moved < 0.02, "{key}: pH moves by {moved}");
                    true
                }
                Err(why) => {
                    let note = refused(&why);
                    assert!(note.title.contains("cannot give the same"), "{key}: {}", note.line());
                    false
                }
            })
            .collect();
        let matched = told.iter().filter(|t| **t).count();
        println!("{shelf:?}: {matched} of {} match", told.len());
        // More than what is there already.
        assert!(matched > 2, "{shelf:?}: {matched}");
    }
}

#[test]
fn every_pair_of_thickeners_matches_or_says_why_not() {
    let design = demo("coconut-pot.ron");
    let all: Vec<(&str, f64)> =
        shipped().thickeners.iter().map(|t| (t.key.as_str(), 0.5 * (t.usual.0 + t.usual.1))).collect();
    let pairs: Vec<_> =
        all.iter().flat_map(|a| all.iter().map(move |b| (a, b))).filter(|(a, b)| a != b).collect();
    let told: Vec<bool> = pairs
        .par_iter()
        .map(|((from, dose), (to, _))| {
            let mut old = design.clone();
            (old.thickeners[0].entry, old.thickeners[0].g_per_l) = ((*from).to_owned(), *dose);
            match with(&old, |ask| swap(ask, &wish(LineKind::Thickeners, to, true, false))) {
                Ok(swapped) => {
                    let after = outcomes(&made(&old, &swapped));
                    assert_eq!(after, swapped.after, "{from} to {to}");
                    assert!(
                        off(&swapped, Observable::Texture) < 0.01,
                        "{from} to {to}: {:?}",
                        said(&swapped)
                    );
                    true
                }
                Err(why) => {
                    let note = refused(&why);
                    assert!(note.sentence.contains("comes nearest"), "{from} to {to}: {}", note.line());
                    false
                }
            }
        })
        .collect();
    let matched = told.iter().filter(|t| **t).count();
    println!("{matched} of {} pairs match", told.len());
    // Many need heat that this pot never gets.
    assert!(matched * 3 > told.len() && matched < told.len(), "{matched} of {}", told.len());
}
