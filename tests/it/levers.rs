//! Texture answers to its levers: what the model must hold (common practice, direction only), on the shipped opening pot.

use potset_doc::edit::{LabelField, LineKind};
use potset_doc::steps::{Event, Happening, Step};
use potset_doc::{Design, Edit, Kitchen, Learnt, assets, edit};
use potset_forecast::observable::{Observable, Step as Noticed};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::{Answer, answer};
use potset_report::advice::note;

use crate::support::{forecast, shipped};

fn opening() -> Design {
    assets::demo("coconut-pot.ron").unwrap()
}

fn with(design: &Design, change: &Edit) -> Design {
    edit::apply(design, change, shipped()).unwrap()
}

/// Viscosity at 50 1/s at the stop: in the pot, and chilled.
fn viscosity(design: &Design) -> (f64, f64) {
    let f = forecast(design);
    (f.value(&f.warm.viscosity50, f.stop_h), f.value(&f.chilled.viscosity50, f.stop_h))
}

fn starch(g_l: f64) -> Design {
    if g_l > 0.0 {
        with(&opening(), &Edit::ThickenerDose(0, g_l))
    } else {
        with(&opening(), &Edit::Remove(LineKind::Thickeners, 0))
    }
}

/// The factor that a person notices: the program's own.
fn noticed() -> f64 {
    match Observable::Texture.step() {
        Noticed::Times(factor) => factor,
        Noticed::By(_) => panic!("thickness is noticed by a factor"),
    }
}

fn told(design: &Design) -> Answer {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    answer(&Scenario { design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt })
}

#[test]
fn twice_the_cold_swelling_starch_is_noticed_warm_and_chilled() {
    let (single, double, none) = (viscosity(&starch(7.0)), viscosity(&starch(14.0)), viscosity(&starch(0.0)));
    println!("7 to 14 g/L: ×{:.2} warm, ×{:.2} chilled", double.0 / single.0, double.1 / single.1);
    println!("none to 14 g/L: ×{:.2} warm, ×{:.2} chilled", double.0 / none.0, double.1 / none.1);
    assert!(double.0 > noticed() * single.0, "{double:?} {single:?}");
    assert!(double.1 > noticed() * single.1, "{double:?} {single:?}");
}

#[test]
fn every_gram_of_starch_thickens_and_stiffens() {
    for (thickener, doses) in [("tapioca_starch_cold", 30), ("tapioca_starch", 60), ("cornstarch", 60)] {
        let mut before = (0.0, 0.0, 0.0);
        for g_l in (1..=doses).map(f64::from) {
            let bare = starch(0.0);
            let mut design = with(&bare, &Edit::Add(LineKind::Thickeners, thickener.to_owned(), g_l));
            // Cooked before the culture goes in, so that native starch swells.
            if thickener != "tapioca_starch_cold" {
                let at = design.steps.iter().position(|s| matches!(s, Step::Warm { .. })).unwrap();
                design.steps.insert(
                    at,
                    Step::HeatTreat { to_c: 85.0, minutes: 10.0, way: potset_doc::steps::Way::Pan },
                );
            }
            let f = forecast(&design);
            let at = |ys: &[f64]| f.value(ys, f.stop_h);
            let now = (at(&f.warm.viscosity50), at(&f.chilled.viscosity50), at(&f.chilled.stiffness_pa));
            assert!(
                now.0 > before.0 && now.1 > before.1 && now.2 > before.2,
                "{thickener} {g_l} g/L: {now:?} after {before:?}"
            );
            before = now;
        }
    }
}

#[test]
fn a_pot_diluted_by_half_is_noticeably_thinner() {
    let half = with(
        &with(&opening(), &Edit::BaseLitres(0, 0.6)),
        &Edit::Add(LineKind::Bases, "water".to_owned(), 0.6),
    );
    let (whole, half) = (viscosity(&opening()), viscosity(&half));
    assert!(whole.0 > noticed() * half.0 && whole.1 > noticed() * half.1, "{whole:?} {half:?}");
}

#[test]
fn it_is_firmer_tomorrow_and_thicker_soured() {
    let f = forecast(&opening());
    let at = |ys: &[f64], h: f64| f.value(ys, h);
    // After an hour the starch is swollen and nothing has soured yet.
    assert!(at(&f.ph, 1.0) > 6.0 && at(&f.ph, 26.0) < 4.3);
    for ys in [&f.warm.viscosity50, &f.chilled.viscosity50] {
        assert!(at(ys, 26.0) > 1.1 * at(ys, 1.0), "{} {}", at(ys, 26.0), at(ys, 1.0));
    }
    assert!(at(&f.chilled.viscosity50, 26.0) > noticed() * at(&f.warm.viscosity50, 26.0));
    assert!(at(&f.chilled.stiffness_pa, 26.0) > at(&f.warm.stiffness_pa, 26.0));
}

#[test]
fn texture_moves_with_time() {
    // Swelling in the first minutes, clusters as it sours.
    let f = forecast(&opening());
    let at = |h: f64| f.value(&f.warm.viscosity50, h);
    assert!(at(0.5) > 2.0 * at(0.0), "{} {}", at(0.5), at(0.0));
    assert!(at(14.0) > 1.1 * at(4.0), "{} {}", at(14.0), at(4.0));
}

#[test]
fn a_pot_without_thickener_splits_and_its_mends_hold_it() {
    let split = assets::demo("failed-split.ron").unwrap();
    let a = told(&split);
    let texture = a.verdict.texture.as_ref().unwrap();
    assert!(texture.thin_layer > 20.0, "{}", texture.thin_layer);
    let advice: Vec<_> = a.verdict.advice.iter().filter(|a| note(a).title.contains("split")).collect();
    let [advice] = advice[..] else { panic!("{:?}", a.verdict.advice) };
    assert!(note(advice).sentence.contains("of the pot, at the bottom, is thin"), "{}", note(advice));
    let thickened = told(&with(&split, &advice.mend.as_ref().unwrap().edit()));
    assert!(thickened.verdict.texture.unwrap().thin_layer < 5.0);
    // Stirred shortly before the stop, less is left of it.
    let mut stirred = split;
    for step in &mut stirred.steps {
        if let Step::Hold(hold) = step {
            hold.events.push(Event { at_h: 25.75, what: Happening::Stir });
        }
    }
    assert!(told(&stirred).verdict.texture.unwrap().thin_layer < 0.5 * texture.thin_layer);
    assert!(told(&opening()).verdict.advice.iter().all(|a| !note(a).title.contains("split")));
}

#[test]
fn the_thin_layer_never_shrinks_by_itself_nor_leaves_its_bounds() {
    let f = forecast(&assets::demo("failed-split.ron").unwrap());
    for pair in f.warm.at.windows(2) {
        assert!(
            pair[1].thin_layer >= pair[0].thin_layer - 1.0,
            "{} {}",
            pair[0].thin_layer,
            pair[1].thin_layer
        );
    }
    for (warm, chilled) in f.warm.at.iter().zip(&f.chilled.at) {
        assert!((0.0..=100.0).contains(&warm.thin_layer) && (0.0..=100.0).contains(&chilled.thin_layer));
    }
}

/// A table to look at: `cargo test --test it levers::sweep -- --ignored --nocapture`.
#[test]
#[ignore = "prints the sweep of the opening pot over starch and fat"]
fn sweep_of_starch_and_fat() {
    println!("chilled, Pa·s at 50 1/s, and thin layer, %, by starch (down, g/L) and fat (across, g/100 g)");
    for g_l in [0.0, 3.5, 7.0, 10.5, 14.0, 17.5, 21.0, 25.0, 30.0] {
        let row: Vec<String> = [5.0, 8.0, 11.0, 14.0, 17.5, 21.0, 24.0]
            .iter()
            .map(|fat| {
                let a = told(&with(&starch(g_l), &Edit::BaseLabel(0, LabelField::Fat, Some(*fat))));
                let t = a.verdict.texture.unwrap();
                format!("{:.3} {:7} {:2.0}", t.chilled, t.word.word(), t.thin_layer)
            })
            .collect();
        println!("{g_l:5} | {}", row.join(" | "));
    }
}
