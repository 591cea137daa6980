//! Tests of the levers: what is turned is read back, and only what applies is offered.

use super::*;
use potset_doc::assets;
use potset_doc::pantry::Pantry;
use potset_doc::steps::{Reading, Way};

const DEMOS: [&str; 6] = [
    "coconut-pot.ron",
    "whole-milk-pot.ron",
    "oat-and-coconut.ron",
    "strained-milk-pot.ron",
    "milk-with-lactase.ron",
    "coconut-with-fruit.ron",
];

fn shipped() -> Pantry {
    assets::pantry().unwrap()
}

fn names(design: &Design, pantry: &Pantry) -> Vec<String> {
    levers(design, pantry).into_iter().map(|l| l.name).collect()
}

#[test]
fn what_is_turned_is_read_back_and_nothing_else_moves() {
    let pantry = shipped();
    for name in DEMOS {
        let design = assets::demo(name).unwrap();
        let all = levers(&design, &pantry);
        assert!(all.len() >= 8, "{name}: {}", all.len());
        for lever in &all {
            let (low, high) = lever.range;
            assert!(low < high && lever.step > 0.0, "{name}: {}", lever.name);
            let to = low + 0.37 * (high - low);
            let new = edit::apply(&design, &lever.lever_id.edit(&design, to), &pantry).unwrap();
            let read = lever.lever_id.value(&new, &pantry).unwrap();
            assert!((read - to).abs() < 1e-9 * to.abs().max(1.0), "{name}: {} {read}, not {to}", lever.name);
            for other in all.iter().filter(|o| !(is_base(o.lever_id) && is_base(lever.lever_id))) {
                let there = other.lever_id.value(&new, &pantry).unwrap();
                assert!(
                    other.lever_id == lever.lever_id || there == other.value,
                    "{name}: {} moves {}",
                    lever.name,
                    other.name
                );
            }
        }
    }
}

/// Litres and shares of bases hang together.
fn is_base(lever_id: LeverId) -> bool {
    matches!(lever_id, LeverId::BaseLitres(_) | LeverId::BaseShare(_))
}

#[test]
fn no_two_levers_share_a_name() {
    let pantry = shipped();
    let mut design = assets::demo("coconut-pot.ron").unwrap();
    design.thickeners.push(design.thickeners[0].clone());
    let mut all = names(&design, &pantry);
    let count = all.len();
    all.sort();
    all.dedup();
    assert_eq!(all.len(), count);
}

#[test]
fn only_what_applies_is_offered() {
    let pantry = shipped();
    let design = assets::demo("coconut-pot.ron").unwrap();
    let knobs = |d: &Design| levers(d, &pantry).into_iter().map(|l| l.lever_id).collect::<Vec<_>>();
    let all = knobs(&design);
    assert!(all.contains(&LeverId::HoldTemperature) && all.contains(&LeverId::BaseFat(0)));
    assert!(!all.contains(&LeverId::BaseShare(0)) && !all.contains(&LeverId::HeatTo));

    let insulated = pantry.warmers.iter().find(|w| matches!(w.warming, Warming::Insulated { .. })).unwrap();
    let mut other = design.clone();
    other.hold_mut().unwrap().warmer.clone_from(&insulated.key);
    assert!(!knobs(&other).contains(&LeverId::HoldTemperature));
    let mut other = design.clone();
    other.hold_mut().unwrap().measured = vec![Reading { at_h: 0.0, c: 40.0 }];
    assert!(!knobs(&other).contains(&LeverId::HoldTemperature));

    let water = pantry.bases.iter().find(|b| b.kind == BaseKind::Water).unwrap();
    let mut other = design.clone();
    other.bases.push(potset_doc::design::BaseLine::new(water.key.clone(), 1.0));
    let all = knobs(&other);
    assert!(all.contains(&LeverId::BaseShare(1)) && !all.contains(&LeverId::BaseFat(1)));
    other.bases[0].locked = true;
    assert!(!knobs(&other).contains(&LeverId::BaseShare(0)));

    let mut other = design;
    other.steps.insert(1, Step::HeatTreat { to_c: 85.0, minutes: 20.0, way: Way::Pan });
    assert!(knobs(&other).contains(&LeverId::HeatTo) && knobs(&other).contains(&LeverId::HeatFor));
}

#[test]
fn knobs_of_one_step_are_turned_together() {
    let pantry = shipped();
    let mut design = assets::demo("coconut-pot.ron").unwrap();
    design.steps.insert(1, Step::HeatTreat { to_c: 85.0, minutes: 20.0, way: Way::Pan });
    let (kitchen, learnt) = (potset_doc::Kitchen::default(), potset_doc::Learnt::default());
    let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let to = [(LeverId::HoldTemperature, 42.0), (LeverId::HeatTo, 90.0), (LeverId::HeatFor, 7.0)];
    let edits = turned(&scenario, &to).unwrap();
    let new = edit::apply(&design, &Edit::Together("all".to_owned(), edits), &pantry).unwrap();
    for (lever_id, v) in to {
        assert_eq!(lever_id.value(&new, &pantry), Some(v));
    }
}
