//! The coarse forecast against the full one: all demo designs, and 200 seeded random edits of them.

use potset_doc::{Design, Edit, Kitchen, Learnt, assets, edit};
use potset_forecast::lever::{levers, turned};
use potset_forecast::scenario::Scenario;
use potset_numerics::samples::Generator;
use potset_science::{Forecast, simulate, simulate_coarse};

use crate::support::{compiled, demo, shipped};

/// Random edits that are looked at.
const EDITS: usize = 200;

/// Largest differences: pH at the stop, time to pH 4.6 in h, sugar left in g/kg, chilled viscosity as a share; and pH
/// between the points.
#[derive(Debug, Default)]
struct Worst([f64; 5]);

impl Worst {
    fn take(&mut self, design: &Design, name: &str) -> bool {
        let Some(mix) = compiled(design).mix else { return false };
        let (full, coarse) = (simulate(&mix).unwrap(), simulate_coarse(&mix).unwrap());
        assert!(coarse.t.contains(&mix.stop_h), "{name}: the stop is a point");
        assert!(coarse.t.windows(2).all(|w| w[0] < w[1]) && coarse.t.last() == full.t.last(), "{name}");
        let line = |f: &Forecast| f.time_to_ph(4.6);
        let times = match (line(&full), line(&coarse)) {
            (Some(a), Some(b)) => (a - b).abs(),
            (None, None) => 0.0,
            // It may be reached at the very end by one and not by the other.
            (a, b) => {
                let t = a.or(b).unwrap();
                let last = full.ph.last().unwrap().max(*coarse.ph.last().unwrap());
                assert!(last < 4.6 + 1e-3, "{name}: {t} h for one, never for the other");
                0.0
            }
        };
        // At the stop the full forecast is itself read between its points; a sharp bend there would count against it.
        let at = |f: &Forecast, ys: fn(&Forecast) -> &Vec<f64>| f.value(ys(f), mix.stop_h);
        let gap = |ys: fn(&Forecast) -> &Vec<f64>| (at(&full, ys) - at(&coarse, ys)).abs();
        let thick =
            (at(&coarse, |f| &f.chilled.viscosity50) / at(&full, |f| &f.chilled.viscosity50) - 1.0).abs();
        let between = full.t.iter().zip(&full.ph).map(|(t, ph)| (coarse.value(&coarse.ph, *t) - ph).abs());
        let new = [gap(|f| &f.ph), times, gap(|f| &f.sugar_total), thick, between.fold(0.0, f64::max)];
        for (worst, new) in self.0.iter_mut().zip(new) {
            *worst = worst.max(new);
        }
        true
    }
}

/// A design with two of its levers turned anywhere in their ranges, and what was turned.
pub fn edited(draw: &mut Generator, design: &Design) -> Option<(Design, String)> {
    let all = levers(design, shipped());
    let picked = [(); 2].map(|()| {
        let lever = &all[draw.below(all.len())];
        (lever.lever_id, lever.range.0 + draw.unit() * (lever.range.1 - lever.range.0))
    });
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
    let edits = turned(&scenario, &picked).ok()?;
    let new = edit::apply(design, &Edit::Together(String::new(), edits), shipped()).ok()?;
    Some((new, format!("{picked:?}")))
}

#[test]
fn the_coarse_forecast_is_near_the_full_one() {
    let demos: Vec<Design> = assets::DEMOS.iter().map(|(name, _)| demo(name)).collect();
    let mut worst = Worst::default();
    for design in &demos {
        assert!(worst.take(design, &design.name), "{}", design.name);
    }
    let mut draw = Generator::new(46);
    let mut taken = 0;
    for i in 0.. {
        let design = &demos[i % demos.len()];
        if let Some((new, what)) = edited(&mut draw, design) {
            taken += usize::from(worst.take(&new, &format!("{} {what}", design.name)));
        }
        if taken == EDITS {
            break;
        }
    }
    let [ph, line_h, sugar, thick, between] = worst.0;
    assert!(ph < 0.01 && line_h < 0.05 && sugar < 0.1 && thick < 0.02, "{worst:?}");
    assert!(between < 0.05, "{worst:?}");
}
