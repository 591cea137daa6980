//! How long Aim takes to its first proposals and to its answer, on one thread and on two. `cargo bench --bench aim`.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at a fault, looks at the clock and says what it found"
)]

use std::time::Instant;

use potset_doc::{Kitchen, Learnt, assets};
use potset_forecast::scenario::Scenario;
use potset_search::aim::{AimAsk, Found, Moves, Proposal, TargetSearch, Want};

/// Pieces of work that a worker would do between two looks at whether it is still wanted.
const SLICE: usize = 8;

const ASKED: [(&str, &str, &[&str]); 5] = [
    ("a usual question", "coconut-pot.ron", &["texture=dollops", "ph<=4.3", "ready<=20h"]),
    ("another base", "whole-milk-pot.ron", &["vegan", "texture=dollops..stands", "tang=bright"]),
    ("narrow", "coconut-pot.ron", &["texture=0.9..1.0", "ph=4.15..4.2", "ready<=16h", "no-cooking"]),
    ("done already", "coconut-pot.ron", &["sugar<=40"]),
    ("impossible", "coconut-pot.ron", &["ph<=3.2", "texture=dollops"]),
];

/// How often the proposals hold, and how much each changes.
fn said(found: &Found) -> String {
    let one = |p: &Proposal| {
        let (pots, change) = (p.chance.pots, p.change);
        format!("{} of {} ({} entries, {:.2} spans)", pots.of, pots.among, change.entries, change.size)
    };
    format!(
        "{} proposals: {}",
        found.proposals.len(),
        found.proposals.iter().map(one).collect::<Vec<_>>().join(", ")
    )
}

fn main() {
    let pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    for (name, file, wants) in ASKED {
        let design = assets::demo(file).unwrap();
        let ask = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let wants = wants.iter().map(|text| Want::read(text, &design, &pantry).unwrap()).collect();
        let wish = AimAsk::new(wants, Moves::default(), 0).unwrap();
        let mut answer = None;
        for threads in [1, 2] {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            let started = Instant::now();
            let (mut first, mut longest) = (None, 0.0_f64);
            let found = pool.install(|| {
                let mut aimer = TargetSearch::new(wish.clone());
                loop {
                    let slice = Instant::now();
                    let more = aimer.next(&ask, SLICE);
                    longest = longest.max(slice.elapsed().as_secs_f64());
                    if !aimer.found().proposals.is_empty() {
                        first.get_or_insert_with(|| started.elapsed().as_secs_f64());
                    }
                    if !more {
                        break;
                    }
                }
                aimer.into_found()
            });
            let whole = started.elapsed().as_secs_f64();
            let early = first.map_or_else(|| "none".to_owned(), |s| format!("{:.0} ms", s * 1e3));
            println!(
                "{name}, {threads} threads: {whole:.2} s; first proposals after {early}; longest slice {:.0} ms; {}",
                longest * 1e3,
                found.blocked.as_ref().map_or_else(|| said(&found), potset_report::aim::blocked::line)
            );
            assert!(
                answer.get_or_insert_with(|| found.clone()) == &found,
                "the same on any number of threads"
            );
        }
    }
}
