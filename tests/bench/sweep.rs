//! How long a sweep of 60 by 60 points takes, and until its first coarse picture is there. `cargo bench --bench sweep`.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at a fault, looks at the clock and says what it found"
)]

use std::time::Instant;

use potset_doc::{Kitchen, Learnt, assets};
use potset_forecast::lever::{LeverId, levers};
use potset_forecast::scenario::Scenario;
use potset_search::sweep::{Axis, SweepAsk, Sweeper};

const POINTS: usize = 60;
/// Points that a worker would do between two looks at whether it is still wanted.
const CHUNK: usize = 64;

fn main() {
    let pantry = assets::pantry().unwrap();
    let design = assets::demo("coconut-pot.ron").unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let ask = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let all = levers(&design, &pantry);
    let axis = |lever_id: LeverId, from: f64, to: f64| {
        let lever = all.iter().find(|l| l.lever_id == lever_id).unwrap().clone();
        Axis::new(lever, from, to, POINTS).unwrap()
    };
    let sweeps = [
        (
            "hold temperature x sugar",
            axis(LeverId::HoldTemperature, 34.0, 46.0),
            axis(LeverId::SugarDose(0), 0.0, 40.0),
        ),
        (
            "thickener x fat",
            axis(LeverId::ThickenerDose(0), 0.0, 40.0),
            axis(LeverId::BaseFat(0), 10.0, 30.0),
        ),
    ];
    for (name, x, y) in sweeps {
        let wanted = SweepAsk::new(x, Some(y)).unwrap();
        let mut first = None;
        for threads in [1, 2] {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            let started = Instant::now();
            let mut coarse = None;
            let sweep = pool.install(|| {
                let mut sweeper = Sweeper::new(wanted.clone());
                while sweeper.next(&ask, CHUNK) {
                    if sweeper.sweep().stride().is_some() {
                        coarse.get_or_insert_with(|| started.elapsed());
                    }
                }
                sweeper.into_sweep()
            });
            let whole = started.elapsed();
            println!(
                "{name}, {threads} threads: {:.2} s for {} points, {:.2} ms each; first picture after {:.0} ms",
                whole.as_secs_f64(),
                sweep.done,
                whole.as_secs_f64() * 1e3 / f64::from(u32::try_from(sweep.done).unwrap()),
                coarse.unwrap().as_secs_f64() * 1e3
            );
            assert!(
                first.get_or_insert_with(|| sweep.clone()) == &sweep,
                "the same on any number of threads"
            );
        }
    }
}
