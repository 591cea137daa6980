//! The one ready time: where the likely line lies among the possible pots, and how steady the answer is.

use potset_doc::{Design, Kitchen, Learnt, Pantry, assets};
use potset_doubt::spread::{Curve, POTS, SEED, Spreader};
use potset_forecast::scenario::Scenario;
use potset_judge::ready::{ReadyTime, shown_h};

fn with_ask<T>(design: &Design, see: impl FnOnce(&Scenario<'_>) -> T) -> T {
    let pantry: Pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    see(&Scenario { design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt })
}

fn demos() -> impl Iterator<Item = (&'static str, Design)> {
    assets::DEMOS.iter().map(|(name, _)| (*name, assets::demo(name).unwrap()))
}

/// The lowest and the highest place of the likely line among the pots over the hold, each with its hour.
fn places(spreader: &Spreader, curve: Curve, likely: &[f64]) -> [(f64, f64); 2] {
    let spread = spreader.spread();
    let organisms = spreader.sampler().likely().forecast.species.len();
    let mut out = [(1.0, 0.0), (0.0, 0.0)];
    for (i, t) in spread.t.iter().enumerate().filter(|(_, t)| **t <= spread.stop_h + 1e-9) {
        let values = spreader.values(organisms, curve, i);
        // What is the same within what a forecast can tell lies on the line, on whichever side brings it to the middle.
        let near = 1e-3 * likely[i].abs();
        let below = values.iter().filter(|v| **v < likely[i] - near).count() as f64;
        let above = values.iter().filter(|v| **v > likely[i] + near).count() as f64;
        let n = values.len() as f64;
        let place = 0.5_f64.max(below / n).min((n - above) / n);
        for (edge, better) in [(0, place < out[0].0), (1, place > out[1].0)] {
            if better {
                out[edge] = (place, *t);
            }
        }
    }
    out
}

/// Source: the project's own rule, 40 to 60 % at every hour of the hold, or it is said beside it.
#[test]
fn the_likely_line_lies_in_the_middle_of_the_possible_pots_or_it_is_said_why_not() {
    for (name, design) in demos() {
        with_ask(&design, |scenario| {
            let mut spreader = Spreader::new(scenario, 1, 320).unwrap();
            while spreader.more(320) {}
            let f = spreader.sampler().likely().forecast.clone();
            let spread = spreader.spread();
            let sugar: Vec<f64> = f.sugar_total.iter().map(|g| g * f.density).collect();
            for (what, curve, ys) in [
                ("Sourness", Curve::Ph, &f.ph),
                ("Sugar left", Curve::Sugar, &sugar),
                ("Thickness", Curve::Chilled, &f.chilled.viscosity50),
            ] {
                let [low, high] = places(&spreader, curve, ys);
                let said = spread.asides.iter().any(|aside| aside.curve == curve);
                println!(
                    "{name:32} {what:10} {:.2} at {:4.1} h, {:.2} at {:4.1} h",
                    low.0, low.1, high.0, high.1
                );
                let inside = low.0 >= 0.4 && high.0 <= 0.6;
                assert_eq!(said, !inside, "{name}, {what}: {low:?} to {high:?}");
                // The farthest that it lies aside with the figures as they are (320 pots, seed 1).
                assert!(low.0 >= 0.2 && high.0 <= 0.8, "{name}, {what}: {low:?} to {high:?}");
            }
        });
    }
}

/// Both leading demos are good pots: their goals hold in at least 8 of 10 possible pots at the stop.
#[test]
fn the_leading_demos_are_good_pots() {
    for (name, design) in demos().take(2) {
        let ready = ready(&design, SEED, POTS);
        println!(
            "{name}: {} of {} at {} h; {}",
            ready.at_stop.of,
            ready.at_stop.among,
            ready.stop_h,
            potset_report::ready::sentence(&ready, None)
        );
        assert!(ready.good_at_stop(), "{name}: {:?}", ready.at_stop);
        assert_eq!(ready.stop, None, "{name}");
    }
}

/// A demo that is no good pot says so in its notes.
#[test]
fn a_demo_that_is_not_sure_says_so() {
    for (name, design) in demos() {
        let ready = ready(&design, SEED, POTS);
        let said = design.notes.contains("Not a sure pot");
        assert_eq!(said, !ready.good_at_stop(), "{name}: {:?}", ready.at_stop);
    }
}

fn ready(design: &Design, seed: u64, pots: usize) -> ReadyTime {
    with_ask(design, |scenario| {
        let mut spreader = Spreader::new(scenario, seed, pots).unwrap();
        while spreader.more(500) {}
        spreader.spread().ready
    })
}

/// Places of a told time among the steps.
fn step_of(h: Option<f64>) -> f64 {
    let Some(h) = h.map(shown_h) else { return 1000.0 };
    let mut steps = 0.0;
    let mut at = 0.0;
    while at < h - 1e-9 {
        at = shown_h(at + 1e-6);
        steps += 1.0;
    }
    steps
}

#[test]
#[ignore = "fifty seeds of all demos"]
fn fifty_seeds_tell_the_same_or_the_neighbouring_step() {
    // One demo alone, if it is named.
    let only = std::env::var("POTSET_DEMO").ok();
    for (name, design) in demos().filter(|(name, _)| only.as_ref().is_none_or(|only| only == name)) {
        let many = ready(&design, 1000, 4 * POTS);
        let near = |a: Option<f64>, b: Option<f64>| (step_of(a) - step_of(b)).abs() <= 1.0;
        let good = (1..=50).filter(|seed| {
            let one = ready(&design, *seed, POTS);
            near(one.half_h, many.half_h) && near(one.most_h, many.most_h)
        });
        println!("{name}: {} of 50", good.count());
    }
}

/// Which doubts pull the pots to one side of the likely one.
#[test]
#[ignore = "a study"]
fn lopsided_doubts() {
    for (name, at_h) in [
        ("coconut-pot.ron", 14.0),
        ("lactose-free-pot.ron", 8.0),
        ("soy-set-pots.ron", 12.0),
        ("whole-milk-pot.ron", 6.0),
    ] {
        let design = assets::demo(name).unwrap();
        with_ask(&design, |scenario| {
            let sampler =
                potset_doubt::spread::Sampler::looking_to(scenario, 1, 64, 72.0).unwrap().one_by_one();
            let n = sampler.unknowns().list.len();
            let ph: Vec<f64> = sampler
                .each(0..2 * n + 1, |_, run| {
                    [
                        run.forecast.value(&run.forecast.ph, at_h),
                        run.forecast.value(&run.forecast.chilled.viscosity50, at_h).ln(),
                    ]
                })
                .into_iter()
                .map(|r| r.map_or(f64::NAN, |v| v[0]))
                .collect();
            let likely = sampler.likely();
            println!(
                "{name}: likely {:.3}, middle {:.3}",
                likely.forecast.value(&likely.forecast.ph, at_h),
                ph[2 * n]
            );
            let mut rows: Vec<(f64, f64, f64, &str)> = sampler
                .unknowns()
                .list
                .iter()
                .enumerate()
                .map(|(i, u)| {
                    (
                        0.5 * (ph[2 * i] + ph[2 * i + 1]) - ph[2 * n],
                        ph[2 * i] - ph[2 * n],
                        ph[2 * i + 1] - ph[2 * n],
                        u.key.as_str(),
                    )
                })
                .collect();
            rows.sort_by(|a, b| b.0.abs().total_cmp(&a.0.abs()));
            println!("  sum {:.3}", rows.iter().map(|r| r.0).sum::<f64>());
            for r in rows.iter().take(12) {
                println!("  {:+.4} ({:+.3} {:+.3}) {}", r.0, r.1, r.2, r.3);
            }
        });
    }
}
