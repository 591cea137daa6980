//! Patterns, caveats, and that the parts of a value add up to it.

use super::*;
use potset_doc::in_pot::InPot;
use potset_doc::{Kitchen, Learnt, assets};
use potset_forecast::numbers::numbers;
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;

fn explained(name: &str, reading: Reading) -> (Answer, Explanation) {
    let (design, pantry) = (assets::demo(name).unwrap(), assets::pantry().unwrap());
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let answer = answer(&Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt });
    let list = numbers(&design, &pantry, &kitchen);
    let told = explain(reading, &answer, answer.verdict.stop_h, &design, &list).unwrap();
    (answer, told)
}

#[test]
fn each_reading_has_a_row_of_its_own() {
    let by_place = [
        Reading::Count(3),
        Reading::Dose(2),
        Reading::CreamShare(1),
        Reading::Kept(4),
        Reading::SugarOf(potset_base::Sugar::Maltose),
    ];
    let all = Reading::PLAIN.into_iter().chain(by_place);
    let names: std::collections::BTreeSet<&str> = all.map(|reading| reading.facts().name).collect();
    assert_eq!(names.len(), 35, "{names:?}");
}

#[test]
fn patterns_fit_steps_and_tails() {
    assert!(matches("gel.*", "gel.heated_pa") && !matches("gel.*", "gel.a.b") && !matches("gel.*", "gel"));
    assert!(matches("bases.*.sugars.**", "bases.milk.sugars.lactose.g_per_100g"));
    assert!(matches("words.sweet_*", "words.sweet_lactose") && !matches("words.sweet_*", "words.flat_below"));
    assert!(!matches("bases.*.ph", "bases.milk.ph.x") && !matches("a.**", "a"));
}

#[test]
fn acid_by_organism_adds_up_to_the_acid_made() {
    let (answer, told) = explained("whole-milk-pot.ron", Reading::AcidMade);
    let f = &answer.forecast;
    let sum: f64 = told.parts.iter().map(|p| p.amount).filter(|a| a.is_finite()).sum();
    let all = f.value(&f.lactic, answer.verdict.stop_h) + f.value(&f.acetic, answer.verdict.stop_h);
    // The parts are summed by the trapezoid rule over the points of the forecast.
    assert!((sum - all).abs() < 2e-3 * all, "{sum} against {all}");
}

#[test]
fn the_parts_of_a_texture_carry_its_whole_stress() {
    for reading in [Reading::ViscosityChilled, Reading::ViscosityPot] {
        let (answer, told) = explained("coconut-pot.ron", reading);
        let (warm, chilled) = answer.forecast.textures(answer.verdict.stop_h).unwrap();
        let texture = if reading == Reading::ViscosityPot { warm } else { chilled };
        let sum: f64 = told.parts.iter().map(|p| p.amount).filter(|a| a.is_finite()).sum();
        assert!((sum - 50.0 * texture.viscosity50).abs() < 1e-6 * sum, "{reading:?}");
    }
}

#[test]
fn the_sugar_account_closes() {
    let (_, told) = explained("coconut-pot.ron", Reading::SugarLeft);
    let amount = |name: &str| told.parts.iter().find(|p| p.name == name).unwrap().amount;
    let left = amount("came with the base")
        + amount("added for the culture")
        + amount("eaten by the culture until the stop");
    assert!((left - amount("left at the stop")).abs() < 0.05, "{left}");
}

#[test]
fn the_leading_part_of_a_texture_names_its_numbers_first() {
    let (_, milk) = explained("whole-milk-pot.ron", Reading::ViscosityChilled);
    assert_eq!(milk.numbers[0].key, "gel.heated_pa");
    assert!(milk.laws.iter().all(|law| law.acts_on != Some(InPot::Starch)), "no starch in a pot of milk");
    let (answer, rich) = explained("coconut-pot.ron", Reading::ViscosityChilled);
    let first = &rich.numbers[0].key;
    match answer.verdict.why_thick[0].0 {
        potset_science::forecast::Part::SolidFat => assert_eq!(first, "fat.network_home"),
        other => assert!(first.starts_with("thickeners."), "{other:?} leads, {first} comes first"),
    }
}

#[test]
fn a_value_says_what_weak_ground_it_stands_on() {
    let (_, told) = explained("coconut-pot.ron", Reading::TangWord);
    assert!(told.caveat().starts_with("Rests on "), "{}", told.caveat());
    let firm =
        Explanation { numbers: told.numbers.iter().filter(|n| !n.kind.weak()).cloned().collect(), ..told };
    assert!(firm.caveat().is_empty());
}

#[test]
fn what_moves_a_value_most_comes_first_where_it_is_known() {
    let (_, mut told) = explained("coconut-pot.ron", Reading::Ph);
    let (place, last) = told.numbers.iter().cloned().enumerate().next_back().unwrap();
    assert!(place > 3);
    let cited = potset_forecast::params::shipped().unwrap().acids.lactic_pka.clone();
    let known = [Influence { path: last.key.clone(), cited, moves: [-0.4, 0.0, 0.0, 0.0, 0.0], steps: 4.0 }];
    let second = told.numbers[0].key.clone();
    told.by_influence(&known);
    assert_eq!((&told.numbers[0].key, &told.numbers[1].key), (&last.key, &second));
}
