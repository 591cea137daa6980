//! Bands, chances and cautions of the pots that are made.

use rayon::prelude::*;

use super::pot::{self, Pot};
use super::sampler::Sampler;
use super::{Aside, Band, CautionChance, Chance, Curve, EDGES, GoalChance, MIDDLE, OutcomeSpread, Spread};
use potset_base::Note;
use potset_forecast::observable::Observable;
use potset_judge::hygiene;
use potset_judge::keeping::{self, DayRange, Kept};
use potset_judge::ready::{self, Observed, ReadyTime};
use potset_numerics::quantile;

/// Sums pots up.
pub fn summary(sampler: &Sampler, goals: &[String], pots: &[Result<Pot, Note>]) -> Spread {
    let likely = sampler.likely();
    let t = sampler.times();
    let made: Vec<&Pot> = pots.iter().filter_map(|p| p.as_ref().ok()).collect();
    let curves = pot::curves(likely.forecast.species.len());
    let bands = bands(&made, &curves, t.len());
    let bit = |k: usize| move |holds: u8| holds >> k & 1 == 1;
    let all_bits = u8::MAX.checked_shr(u32::try_from(8_usize.saturating_sub(goals.len())).unwrap_or(0));
    let all_bits = all_bits.unwrap_or(0);
    // The stop is one of the times.
    let stop = t.partition_point(|h| *h < likely.mix.stop_h - 1e-9);
    let mut spread = Spread {
        t: t.to_vec(),
        stop_h: likely.mix.stop_h,
        horizon_h: likely.mix.horizon_h,
        wanted: sampler.pots(),
        tried: pots.len(),
        failed: failed(pots),
        bands,
        goals: goals
            .iter()
            .enumerate()
            .take(pot::MOST_GOALS)
            .map(|(k, name)| GoalChance {
                name: name.clone(),
                share: shares(&made, t.len(), bit(k)),
                at_stop: Chance::count(made.iter().map(|p| p.holds.get(stop).is_some_and(|h| bit(k)(*h)))),
            })
            .collect(),
        all: shares(&made, t.len(), |holds| holds & all_bits == all_bits),
        outcomes: Observable::ALL.into_iter().filter_map(|outcome| outcome_spread(&made, outcome)).collect(),
        at_stop: Chance::count(made.iter().map(|p| p.at_stop)),
        cautions: cautions(sampler, &made),
        asides: asides(sampler, &made),
        kept: kept(sampler, &made),
        ready: ReadyTime::default(),
    };
    spread.ready = ready(sampler, &spread, &made);
    spread
}

/// The ranges in the cold; of what no culture soured nothing is told.
fn kept(sampler: &Sampler, made: &[&Pot]) -> Vec<DayRange> {
    let likely = sampler.likely();
    if hygiene::judge(likely).not_yogurt.is_some() {
        return Vec::new();
    }
    let pots: Vec<&Kept> = made.iter().map(|pot| &pot.kept).collect();
    keeping::ranges(likely, &pots)
}

/// When the pots are ready.
fn ready(sampler: &Sampler, spread: &Spread, made: &[&Pot]) -> ReadyTime {
    let first_h: Vec<Option<f64>> = made.iter().map(|p| p.ready_h).collect();
    let window = spread.window(super::WINDOW_CHANCE).filter(|w| w.from_h <= ready::HORIZON_H);
    let likely = sampler.likely();
    ReadyTime::of(Observed {
        first_h: &first_h,
        last: window.as_ref().and_then(|w| w.opens.clone()).or_else(|| spread.rarest_at_stop()),
        window,
        at_stop: spread.at_stop,
        stop_h: spread.stop_h,
        lost_at: &|h| ready::lost_at(likely, h),
    })
}

/// Where the likely line is farthest from the middle of the pots in the hold, of the figures that are told first.
fn asides(sampler: &Sampler, made: &[&Pot]) -> Vec<Aside> {
    [Curve::Ph, Curve::Sugar, Curve::Chilled]
        .into_iter()
        .filter_map(|curve| aside(sampler, made, curve))
        .collect()
}

fn aside(sampler: &Sampler, made: &[&Pot], curve: Curve) -> Option<Aside> {
    let likely = sampler.likely();
    let (times, line) = (sampler.times(), pot::values(&likely.forecast, curve));
    let from = pot::place_of(likely.forecast.species.len(), curve)? * times.len();
    let far = |i: usize| {
        let near = SAME * line[i].abs();
        let values = || made.iter().filter_map(|p| p.curves.get(from + i));
        let (above, below) = (
            values().filter(|v| **v > line[i] + near).count(),
            values().filter(|v| **v < line[i] - near).count(),
        );
        let aside = Aside { curve, at_h: times[i], above: Chance { of: above, among: made.len() } };
        let share = |n: usize| n as f64 / made.len().max(1) as f64;
        // Pots on the line count on whichever side brings it to the middle.
        let off = (share(above) - MIDDLE.1).max(share(below) - MIDDLE.1);
        (off, aside)
    };
    let held = (0..times.len()).filter(|i| times[*i] <= likely.mix.stop_h + 1e-9);
    held.map(far).filter(|(off, _)| *off > 0.0).max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, aside)| aside)
}

/// Values so near to each other are the same: less than a forecast can tell. Source: assumed.
const SAME: f64 = 1e-3;

/// The bands of all curves at all `n` times, one piece of work a point: a curve apiece would leave cores idle at the end.
fn bands(made: &[&Pot], curves: &[Curve], n: usize) -> Vec<Band> {
    let edges = |values: &mut Vec<f64>, at: usize| {
        values.clear();
        values.extend(made.iter().filter_map(|p| p.curves.get(at)).filter(|v| v.is_finite()));
        quantile::of(values, EDGES)
    };
    let points = (0..curves.len() * n).into_par_iter().with_min_len(n.div_ceil(4));
    let all: Vec<[f64; 5]> = points.map_init(|| Vec::with_capacity(made.len()), edges).collect();
    let band = |(curve, points): (&Curve, &[[f64; 5]])| Band {
        curve: *curve,
        edges: std::array::from_fn(|k| points.iter().map(|edges| edges[k]).collect()),
    };
    curves.iter().zip(all.chunks(n.max(1))).map(band).collect()
}

fn shares(made: &[&Pot], n: usize, so: impl Fn(u8) -> bool) -> Vec<f64> {
    let among = made.len().max(1) as f64;
    let share =
        |i: usize| made.iter().filter(|p| p.holds.get(i).is_some_and(|h| so(*h))).count() as f64 / among;
    (0..n).map(share).collect()
}

fn outcome_spread(made: &[&Pot], outcome: Observable) -> Option<OutcomeSpread> {
    if matches!(outcome, Observable::Energy | Observable::Cost) {
        return None;
    }
    let mut values: Vec<f64> =
        made.iter().map(|p| p.outcomes.get(outcome).unwrap_or(f64::INFINITY)).collect();
    let never = Chance::count(values.iter().map(|v| v.is_infinite()));
    Some(OutcomeSpread { outcome, edges: quantile::of(&mut values, EDGES), never })
}

/// Why pots could not be made, the most frequent reason first.
fn failed(pots: &[Result<Pot, Note>]) -> Vec<(String, usize)> {
    let mut all: Vec<(String, usize)> = Vec::new();
    for note in pots.iter().filter_map(|p| p.as_ref().err()) {
        match all.iter_mut().find(|(title, _)| *title == note.title) {
            Some((_, n)) => *n += 1,
            None => all.push((note.title.clone(), 1)),
        }
    }
    all.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    all
}

/// How many of the possible pots are to be thrown away. Where the likely one is not, it is told from two in ten on.
fn cautions(sampler: &Sampler, made: &[&Pot]) -> Vec<CautionChance> {
    let likely = sampler.likely();
    let chance = lost(made);
    let discard = hygiene::judge(likely).discard().is_some();
    if chance.of == 0 || !discard && chance.share() < likely.mix.laws.hygiene.watch_share {
        return Vec::new();
    }
    vec![CautionChance { discard, chance, mend: None, tried: false }]
}

/// Pots that are to be thrown away.
pub fn lost(made: &[&Pot]) -> Chance {
    Chance::count(made.iter().map(|p| p.lost.is_some()))
}
