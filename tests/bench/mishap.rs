//! A call: the first ranking, and an answer.
//!
//! Run: `cargo bench --bench mishap`.

#![allow(clippy::unwrap_used, reason = "a benchmark may stop at the first fault")]

use std::hint::black_box;
use std::sync::Arc;

use criterion::{Criterion, criterion_group, criterion_main};
use potset_doc::{Kitchen, Learnt, assets};
use potset_forecast::scenario::OwnedScenario;
use potset_mishap::{Fact, Mishap, MishapCase, Symptom};

fn case(demo: &str) -> MishapCase {
    let pantry = Arc::new(assets::pantry().unwrap());
    let design = Arc::new(assets::demo(demo).unwrap());
    let scenario = OwnedScenario { design, pantry, kitchen: Kitchen::default(), learnt: Learnt::default() };
    MishapCase { scenario, saw: vec![Symptom::Thin, Symptom::Sweet], known: Vec::new() }
}

fn calls(c: &mut Criterion) {
    let mut group = c.benchmark_group("mishap");
    group.sample_size(20);
    for demo in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let case = case(demo);
        group.bench_function(format!("first ranking, {demo}"), |b| {
            b.iter(|| {
                let mishap = Mishap::open(black_box(case.clone())).unwrap();
                black_box((mishap.rank(), mishap.next(&[])))
            });
        });
        let open = Mishap::open(case.clone()).unwrap();
        group.bench_function(format!("an answer, {demo}"), |b| {
            b.iter(|| {
                let mut mishap = open.clone();
                mishap.know(Fact::read("hours=9").unwrap());
                let ranking = mishap.rank();
                black_box((mishap.what_to_do(&ranking), mishap.next(&[])))
            });
        });
    }
    group.finish();
}

criterion_group!(benches, calls);
criterion_main!(benches);
