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
const FORECASTS: u32 = 100;
/// Spreads of which the fastest counts: what else the machine does only slows down.
const TIMES: usize = 9;

/// The time of one precise forecast, compiled and read as the bench asks for it, in seconds.
fn precise(ask: &Ask<'_>) -> f64 {
    let started = Instant::now();
    for _ in 0..FORECASTS {
        ask.run().unwrap();
    }
    started.elapsed().as_secs_f64() / f64::from(FORECASTS)
}

/// The time of a whole spread and of its first picture, in seconds.
fn spread(ask: &Ask<'_>, pool: &rayon::ThreadPool) -> (f64, f64) {
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
}

fn main() {
    let pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let pools = [1, 2].map(|n| rayon::ThreadPoolBuilder::new().num_threads(n).build().unwrap());
    for demo in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let Ok(design): Result<Design, _> = assets::demo(demo) else { continue };
        let ask = Ask { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        // In turns, so that a machine that changes its pace does so for all; the fastest of each counts.
        let mut best = [f64::INFINITY; 4];
        for _ in 0..TIMES {
            best[0] = best[0].min(precise(&ask));
            for (k, pool) in pools.iter().enumerate() {
                let (whole, first) = spread(&ask, pool);
                best[k + 1] = best[k + 1].min(whole);
                best[3] = best[3].min(first);
            }
        }
        let [one, alone, both, first] = best;
        println!(
            "{demo}: {POTS} pots in {:.0} ms on one thread and {:.0} ms on two ({:.2} times as fast), the time of {:.0} and {:.0} precise forecasts of {:.3} ms; first picture after {:.0} ms",
            alone * 1e3,
            both * 1e3,
            alone / both,
            alone / one,
            both / one,
            one * 1e3,
            first * 1e3
        );
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
