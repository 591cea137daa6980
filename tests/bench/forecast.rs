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
use potset::compile::compile;
use potset::doc::{Kitchen, Learnt, assets};
use potset::numerics::ode::Tolerance;
use potset::science::Mix;
use potset::science::simulate::{TOLERANCE, simulate, simulate_kinetics};
use potset::study::{Ask, answer};

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

fn forecast(c: &mut Criterion) {
    let mix = cases::named("coconut").mix();
    c.bench_function("forecast/coconut", |b| b.iter(|| simulate(black_box(&mix)).unwrap()));
    let design = assets::demo("coconut-pot.ron").unwrap();
    let pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let asked = Ask { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
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
