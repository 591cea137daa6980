//! How long a long logger file takes: 200,000 rows of local times with decimal commas, and thinning them for a drawing.
//!
//! Run: `cargo bench --bench logger`. Wanted: less than a second for reading, on one core.

#![allow(clippy::unwrap_used, reason = "a benchmark may stop at the first fault")]

use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use potset_base::clock::Zone;
use potset_logger::{Begin, course, guess, read, thin};

const ROWS: usize = 200_000;

/// One row each five seconds, over the night on which clocks are put back.
fn file() -> String {
    let mut out = String::from("Zeit;Temperatur (°C);pH\n");
    for k in 0..ROWS {
        let (day, hour, minute, second) = (20 + k / 17_280, k / 720 % 24, k / 12 % 60, k % 12 * 5);
        let (day, month) = if day > 31 { (day - 31, 11) } else { (day, 10) };
        let (tenth, pace) = (k % 10, k % 3);
        writeln!(out, "{day:02}.{month}.2027 {hour:02}:{minute:02}:{second:02};4{pace},{tenth};6,{tenth}")
            .unwrap();
    }
    out
}

fn logger(c: &mut Criterion) {
    let (file, zone) = (file(), Zone::named("Europe/Paris").unwrap());
    let layout = guess(file.as_bytes()).unwrap();
    let rows = read(file.as_bytes(), &layout, &zone).unwrap();
    assert_eq!((rows.points.len(), rows.faults.len()), (ROWS, 0));
    let points = course(&rows, Begin::Zero(0.0), true);
    let mut group = c.benchmark_group("logger");
    group.sample_size(10);
    group.bench_function("guess", |b| b.iter(|| guess(black_box(file.as_bytes()))));
    group.bench_function("read", |b| b.iter(|| read(black_box(file.as_bytes()), &layout, &zone)));
    group.bench_function("course", |b| b.iter(|| course(black_box(&rows), Begin::Zero(0.0), false)));
    group.bench_function("thin", |b| b.iter(|| thin(black_box(&points), 2000)));
    group.finish();
}

criterion_group!(benches, logger);
criterion_main!(benches);
