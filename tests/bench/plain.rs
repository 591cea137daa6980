//! Growth, acid and pH of two pots in plain figures, for `tests/reference/bench.py`: on each line the name, the
//! shortest time in ns, and the pH at the 241 times.

#![allow(clippy::disallowed_methods, reason = "a benchmark reads the clock")]
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark may stop at a fault and prints what it found"
)]

#[path = "../it/reference/cases.rs"]
#[allow(dead_code, reason = "the benchmark reads only the inputs")]
mod cases;

use std::hint::black_box;
use std::time::Instant;

use potset_science::simulate::{TOLERANCE, simulate_kinetics};

const REPEATS: u32 = 400;

fn main() {
    let times: Vec<f64> = (0..=240).map(|i| 36.0 * f64::from(i) / 240.0).collect();
    for name in ["coconut", "milk"] {
        let mix = cases::named(name).mix();
        let once = || {
            let before = Instant::now();
            let forecast = simulate_kinetics(black_box(&mix), black_box(&times), TOLERANCE).unwrap();
            (before.elapsed().as_nanos(), forecast)
        };
        let shortest = (0..REPEATS).map(|_| once().0).min().unwrap_or(0);
        let ph: Vec<String> = once().1.ph.iter().map(f64::to_string).collect();
        println!("{name} {shortest} {}", ph.join(" "));
    }
}
