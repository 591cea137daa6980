//! What is said of a spread: which goal comes last and which is lost first, and chances that agree with the line.

use potset_base::chance::Chance;
use potset_doubt::spread::{GoalChance, Spread};

use super::spread;
use crate::support::demo;

fn of(t: &[f64], goals: &[(&str, &[f64])], all: &[f64]) -> Spread {
    let goals = goals.iter().map(|(name, share)| GoalChance {
        name: (*name).to_owned(),
        share: share.to_vec(),
        at_stop: Chance::default(),
    });
    Spread {
        t: t.to_vec(),
        stop_h: t[t.len() / 2],
        horizon_h: t[t.len() - 1],
        goals: goals.collect(),
        all: all.to_vec(),
        ..Spread::default()
    }
}

#[test]
fn what_comes_last_is_what_comes_to_hold_there() {
    let t: Vec<f64> = (0..7).map(f64::from).collect();
    // Fewest pots have the texture all along, but it neither comes nor goes: the pH opens, the sugar closes.
    let texture: &[f64] = &[0.85; 7];
    let goals: &[(&str, &[f64])] = &[
        ("texture", texture),
        ("pH", &[0.0, 0.7, 0.95, 1.0, 1.0, 1.0, 1.0]),
        ("sugar", &[1.0, 1.0, 1.0, 1.0, 0.97, 0.86, 0.6]),
    ];
    let spread = of(&t, goals, &[0.0, 0.6, 0.82, 0.85, 0.83, 0.73, 0.5]);
    let window = spread.window(0.8).unwrap();
    assert!((1.0..2.0).contains(&window.from_h) && (4.0..5.0).contains(&window.to_h), "{window:?}");
    assert_eq!((window.opens.as_deref(), window.closes.as_deref()), (Some("pH"), Some("sugar")));
}

#[test]
fn in_a_pot_with_fruit_it_is_the_ph_that_comes_last() {
    let spread = spread(&demo("coconut-with-fruit.ron"), 1, 400);
    // Two in three have the texture all along.
    let window = spread.window(0.65).unwrap();
    assert_eq!(
        window.opens.as_deref(),
        Some("pH 4.3 or lower (needed with starch)"),
        "{:?}",
        spread.goals.iter().map(|g| &g.name).collect::<Vec<_>>()
    );
}
