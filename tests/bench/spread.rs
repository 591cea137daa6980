//! What a spread of 1,000 pots costs against precise forecasts, on one core and on two, and until its first picture is
//! there; and how long it takes to find out what matters. `cargo bench --bench spread`.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at a fault, looks at the clock and says what it found"
)]

use std::time::Instant;

use potset::doc::{Design, Kitchen, Learnt, assets};
use potset::study::Ask;
use potset::study::matters::matters;
use potset::study::spread::{FIRST, POTS, SEED, Spreader};

/// Forecasts that one time is the mean of.
const FORECASTS: u32 = 200;
/// Spreads of which the fastest counts: what else the machine does only slows down.
const TIMES: usize = 5;

/// The time of one precise forecast, compiled and read as the bench asks for it, in seconds.
fn precise(ask: &Ask<'_>) -> f64 {
    let once = || {
        let started = Instant::now();
        for _ in 0..FORECASTS {
            ask.run().unwrap();
        }
        started.elapsed().as_secs_f64() / f64::from(FORECASTS)
    };
    (0..TIMES).map(|_| once()).fold(f64::INFINITY, f64::min)
}

/// The time of a whole spread and of its first picture, in seconds.
fn spread(ask: &Ask<'_>, threads: usize) -> (f64, f64) {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    let once = || {
        pool.install(|| {
            let started = Instant::now();
            let mut spreader = Spreader::new(ask, SEED, POTS).unwrap();
            let mut more = spreader.more(FIRST);
            let first = spreader.spread();
            let first_s = started.elapsed().as_secs_f64();
            assert_eq!(first.tried, FIRST);
            while more {
                more = spreader.more(256);
            }
            let whole = spreader.spread();
            assert!(whole.complete());
            (started.elapsed().as_secs_f64(), first_s)
        })
    };
    (0..TIMES).map(|_| once()).fold((f64::INFINITY, f64::INFINITY), |a, b| (a.0.min(b.0), a.1.min(b.1)))
}

fn main() {
    let pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    for demo in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let Ok(design): Result<Design, _> = assets::demo(demo) else { continue };
        let ask = Ask { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let one = precise(&ask);
        let mut before = f64::NAN;
        for threads in [1, 2] {
            let (whole, first) = spread(&ask, threads);
            println!(
                "{demo}, {threads} threads: {POTS} pots in {:.0} ms, the time of {:.0} precise forecasts of {:.3} ms; first picture after {:.0} ms; {:.2} times as fast as before",
                whole * 1e3,
                whole / one,
                one * 1e3,
                first * 1e3,
                before / whole
            );
            before = whole;
        }
        let mut spreader = Spreader::new(&ask, SEED, POTS).unwrap();
        while spreader.more(256) {}
        let started = Instant::now();
        let found = matters(&ask, &spreader);
        println!(
            "{demo}: what matters, from the pots, in {:.0} ms ({} levers, {} doubts, {} readings)",
            started.elapsed().as_secs_f64() * 1e3,
            found.turns.len(),
            found.finds.len(),
            found.readings.len()
        );
    }
}
