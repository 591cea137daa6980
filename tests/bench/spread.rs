//! What a spread of 1,000 pots costs against precise forecasts, on one core and on two, and until its first picture is
//! there; and how long it takes to find out what matters. `cargo bench --bench spread`.
//!
//! A machine changes its pace within a second, by its clock and its other tenants, and two of its cores seldom do twice the
//! work of one. So what is compared is timed right after each other, and of many such turns the median ratio counts, with
//! its quartiles. What the machine gives at best is measured in the same turns: two threads with forecasts of their own,
//! that share nothing. Free of the pace is which share of the time of two cores the spread keeps them busy.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at a fault, looks at the clock and says what it found"
)]

use std::time::Instant;

use potset_doc::{Design, Kitchen, Learnt, assets};
use potset_doubt::matters::matters;
use potset_doubt::spread::{FIRST, POTS, SEED, Spreader};
use potset_forecast::scenario::Scenario;
use potset_numerics::quantile;

/// Forecasts that one time is the mean of.
const FORECASTS: u32 = 100;
/// Turns of which the median counts.
const TURNS: usize = 25;

/// The time of one precise forecast, compiled and read as the bench asks for it, in seconds.
fn precise(scenario: &Scenario<'_>) -> f64 {
    let started = Instant::now();
    for _ in 0..FORECASTS {
        scenario.run().unwrap();
    }
    started.elapsed().as_secs_f64() / f64::from(FORECASTS)
}

/// The time of one precise forecast on each of two threads that share nothing, in seconds.
fn precise_twice(scenario: &Scenario<'_>) -> f64 {
    let started = Instant::now();
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| precise(scenario));
        }
    });
    started.elapsed().as_secs_f64() / f64::from(FORECASTS)
}

/// The time of a whole spread and of its first picture, in seconds.
fn spread(scenario: &Scenario<'_>, pool: &rayon::ThreadPool) -> (f64, f64) {
    pool.install(|| {
        let started = Instant::now();
        let mut spreader = Spreader::new(scenario, SEED, POTS).unwrap();
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

/// The time that all threads of this program were on a core so far, in seconds; nothing where the system does not tell.
fn busy() -> Option<f64> {
    let tasks = std::fs::read_dir("/proc/self/task").ok()?;
    let of = |task: std::io::Result<std::fs::DirEntry>| {
        let told = std::fs::read_to_string(task.ok()?.path().join("schedstat")).ok()?;
        told.split_whitespace().next()?.parse::<f64>().ok()
    };
    tasks.map(of).sum::<Option<f64>>().map(|ns| ns * 1e-9)
}

/// The middle of some ratios, with their quartiles.
fn words(mut list: Vec<f64>, decimals: usize) -> String {
    let [low, middle, high] = quantile::of(&mut list, [0.25, 0.5, 0.75]);
    format!("{middle:.decimals$} ({low:.decimals$} to {high:.decimals$})")
}

fn main() {
    let pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let pools = [1, 2].map(|n| rayon::ThreadPoolBuilder::new().num_threads(n).build().unwrap());
    for demo in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let Ok(design): Result<Design, _> = assets::demo(demo) else { continue };
        let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let mut held = Vec::new();
        let mut times = [const { Vec::new() }; 4];
        let (mut scaling, mut machine, mut cost) = (Vec::new(), Vec::new(), [Vec::new(), Vec::new()]);
        for _ in 0..TURNS {
            let one = precise(&scenario);
            let before = busy();
            let (both, first) = spread(&scenario, &pools[1]);
            held.extend(before.zip(busy()).map(|(from, to)| 50.0 * (to - from) / both));
            let (alone, _) = spread(&scenario, &pools[0]);
            let one = 0.5 * (one + precise(&scenario));
            machine.push(2.0 * one / precise_twice(&scenario));
            scaling.push(alone / both);
            cost[0].push(alone / one);
            cost[1].push(both / one);
            for (list, s) in times.iter_mut().zip([one, alone, both, first]) {
                list.push(s * 1e3);
            }
        }
        let [one, alone, both, first] = times.map(|mut list| quantile::of(&mut list, [0.5])[0]);
        println!(
            "{demo}: median times: {POTS} pots {alone:.0} ms on one thread, {both:.0} ms on two; a precise forecast {one:.3} ms; first picture {first:.0} ms"
        );
        println!(
            "{demo}: two threads against one: {} (the machine, where nothing is shared: {})",
            words(scaling, 2),
            words(machine, 2)
        );
        println!("{demo}: two cores were busy for {} % of the time of the spread on them", words(held, 0));
        let [alone, both] = cost.map(|list| words(list, 0));
        println!(
            "{demo}: {POTS} pots cost as much time as {alone} precise forecasts on one thread, {both} on two"
        );
        let mut spreader = Spreader::new(&scenario, SEED, POTS).unwrap();
        while spreader.more(256) {}
        let started = Instant::now();
        let found = matters(&scenario, &spreader);
        println!(
            "{demo}: what matters, from the pots, in {:.0} ms ({} levers, {} doubts, {} readings)",
            started.elapsed().as_secs_f64() * 1e3,
            found.turns.len(),
            found.finds.len(),
            found.readings.len()
        );
    }
}
