//! How long a forecast takes. `cargo bench`; `python3 tests/reference/bench.py` compares other solvers on two pots.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark may stop at a fault and says what it ran"
)]

#[path = "../it/reference/cases.rs"]
#[allow(dead_code, reason = "the benchmark reads only the inputs")]
mod cases;

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use potset_doc::{Kitchen, Learnt, assets};
use potset_forecast::compile;
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_numerics::ode::Tolerance;
use potset_science::Mix;
use potset_science::simulate::{TOLERANCE, simulate, simulate_coarse, simulate_kinetics};

/// Times of a forecast, h: 241 up to 36.
fn times() -> Vec<f64> {
    (0..=240).map(|i| 36.0 * f64::from(i) / 240.0).collect()
}

/// Largest error in pH of the usual tolerance, against a run that is a hundred thousand times finer.
fn error(mix: &Mix) -> f64 {
    let fine = Tolerance { relative: 1e-12, absolute: 1e-12 };
    let run = |tolerance| simulate_kinetics(mix, &times(), tolerance).unwrap().ph;
    run(TOLERANCE).iter().zip(run(fine)).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
}

fn kinetics(c: &mut Criterion) {
    let times = times();
    let mut group = c.benchmark_group("kinetics");
    for name in ["coconut", "milk"] {
        let mix = cases::named(name).mix();
        println!("kinetics {name}: largest error in pH {:.2e}", error(&mix));
        group.bench_function(name, |b| {
            b.iter(|| simulate_kinetics(black_box(&mix), black_box(&times), TOLERANCE).unwrap());
        });
    }
    group.finish();
}

/// A pot of milk, soy and honey with every organism and every sugar that the pantry knows.
fn everything() -> Mix {
    let pantry = assets::pantry().unwrap();
    let mut design = assets::demo("coconut-pot.ron").unwrap();
    let mut all = pantry.cultures[0].clone();
    all.key = "everything".to_owned();
    let dose = all.doses[0].clone();
    all.doses = pantry
        .organisms
        .iter()
        .map(|o| {
            let mut dose = dose.clone();
            dose.organism.clone_from(&o.key);
            dose
        })
        .collect();
    design.snapshot.cultures = vec![all];
    design.cultures[0].entry = "everything".to_owned();
    for (entry, litres) in [("whole_cows_milk", 0.5), ("soy_drink_unsweetened", 0.5)] {
        let mut line = design.bases[0].clone();
        (line.entry, line.litres) = (entry.to_owned(), litres);
        design.bases.push(line);
    }
    design.sugars[0].entry = "honey".to_owned();
    let mix = compile(&design, &pantry, &Kitchen::default(), &Learnt::default()).mix.unwrap();
    assert!(
        mix.organisms.len() == pantry.organisms.len() && mix.sugars.iter().filter(|s| **s > 0.0).count() >= 7
    );
    mix
}

fn forecast(c: &mut Criterion) {
    let whole = everything();
    c.bench_function("forecast/every organism and sugar", |b| {
        b.iter(|| simulate(black_box(&whole)).unwrap());
    });
    let mix = cases::named("coconut").mix();
    c.bench_function("forecast/coconut", |b| b.iter(|| simulate(black_box(&mix)).unwrap()));
    c.bench_function("coarse forecast/coconut", |b| b.iter(|| simulate_coarse(black_box(&mix)).unwrap()));
    let design = assets::demo("coconut-pot.ron").unwrap();
    let pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    for name in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let design = assets::demo(name).unwrap();
        let mix = compile(&design, &pantry, &kitchen, &learnt).mix.unwrap();
        c.bench_function(&format!("forecast/demo {name}"), |b| b.iter(|| simulate(black_box(&mix)).unwrap()));
        c.bench_function(&format!("coarse forecast/demo {name}"), |b| {
            b.iter(|| simulate_coarse(black_box(&mix)).unwrap());
        });
    }
    let asked = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    c.bench_function("forecast with verdict/coconut pot", |b| b.iter(|| answer(black_box(&asked))));
    c.bench_function("compile and forecast/coconut pot", |b| {
        b.iter(|| {
            let mix = compile(black_box(&design), &pantry, &kitchen, &learnt).mix.unwrap();
            simulate(&mix).unwrap()
        });
    });
}

criterion_group!(benches, kinetics, forecast);
criterion_main!(benches);
