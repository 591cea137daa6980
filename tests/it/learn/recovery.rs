//! Figures recovered from simulated pots: pH scatter 0.05, five readings, times beside each.

use super::{Law, Truths, Varies, own_law, pantry};
use crate::spread::changed::laws;
use crate::support::demo;
use potset_forecast::learnt::{LearntKind, figure};
use potset_learn::learn;

/// Readings of a coconut pot and of a milk pot, h.
const COCONUT_H: [f64; 5] = [4.0, 8.0, 12.0, 16.0, 24.0];
const MILK_H: [f64; 5] = [2.0, 4.0, 5.0, 6.0, 8.0];

/// How one pot's pace came out over many seeds.
#[derive(Debug, Default)]
struct Recovered {
    pots: usize,
    /// Within 10 %, or within 1.3 times the bound, which is one sigma of what five such readings and the priors leave.
    near: usize,
    /// Inside the range of 90 %.
    held: usize,
}

fn recovered(name: &str, times: &[f64], varies: Varies, law: impl Fn(u64) -> Box<Law>) -> Recovered {
    let (design, pantry) = (demo(name), pantry());
    let mut truths = Truths::of(&design, &pantry);
    let mut found = Recovered::default();
    for seed in 0..100 {
        let (batch, truth) = truths.pot(seed, varies, &*law(seed), times, 0.05);
        let learning = learn(&[batch], &pantry, "").unwrap();
        let pot = &learning.pots[0];
        let fitted = pot.fitted.as_ref().unwrap();
        let at = pot.subjects.iter().position(|s| s.kind == LearntKind::Pace).unwrap();
        let (place, sigma) = (fitted.places[at], fitted.sigma[at]);
        let cited = figure(&pot.subjects[at], &design, &pantry).unwrap();
        let value = |z: f64| potset_forecast::place::Place::at(z).value(cited.value, cited.spread);
        let off = (value(place) / value(truth) - 1.0).abs();
        found.pots += 1;
        found.near += usize::from(off < 0.1 || (place - truth).abs() < 1.3 * sigma);
        found.held += usize::from((place - truth).abs() < 1.644_853_627 * sigma);
    }
    println!("{name}: {found:?}");
    found
}

#[test]
fn known_figures_of_a_coconut_pot_are_recovered() {
    let found = recovered("coconut-pot.ron", &COCONUT_H, Varies::Told, |_| Box::new(own_law));
    assert!(found.near >= 80 && (85..=95).contains(&found.held), "{found:?}");
}

#[test]
fn known_figures_of_a_milk_pot_are_recovered() {
    let found = recovered("whole-milk-pot.ron", &MILK_H, Varies::Told, |_| Box::new(own_law));
    // All that is not told of lies just where the pantry has it here, which the fit does not know: its ranges are too wide for
    // these pots, 99 of 100.
    assert!(found.near >= 80 && found.held >= 85, "{found:?}");
}

/// The truth follows other laws than the model: each of the changes in turn.
#[test]
fn a_pot_that_follows_other_laws_is_recovered_too() {
    let changes = |seed: u64| {
        let mut all = laws();
        let at = seed as usize % all.len();
        all.swap_remove(at).1
    };
    let found = recovered("coconut-pot.ron", &COCONUT_H, Varies::Told, changes);
    assert!(found.near >= 75 && (85..=95).contains(&found.held), "{found:?}");
}

/// All else varies besides, the maker's hand too: five readings of one pot say less then, and Laplace's range is a little too
/// narrow for curves that are no straight lines. What it holds is told here, and may not get worse.
#[test]
fn a_pot_of_which_nothing_is_known_is_recovered_less_well() {
    let found = recovered("coconut-pot.ron", &COCONUT_H, Varies::All, |_| Box::new(own_law));
    assert!(found.near >= 68 && found.held >= 78, "{found:?}");
}
