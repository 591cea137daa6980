//! How far warmth alone slows the culture.

use potset_forecast::scenario::Run;
use potset_science::kinetics::{Organism, cardinal};

/// Warmth at which the culture works at less than a share of its best pace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlowWarmth {
    /// Mean share of the best pace over that time, 0 to 1.
    pub share: f64,
    /// Mean temperature over that time, °C.
    pub c: f64,
    pub since_h: f64,
    /// How long in all, h.
    pub hours: f64,
    /// Warmth at which it works best, °C.
    pub best_c: f64,
    pub too_warm: bool,
}

/// Pieces of the time that is looked at.
const PIECES: u32 = 200;

/// Warmth in the hold that slows the culture too much for too long, by the organism that makes most acid.
///
/// - `until_h` — when it no longer matters, h: the pot is sour enough, or stopped.
/// - Source: published, the cardinal temperature model; share and time assumed (`hygiene` group of the parameters).
pub fn slow_warmth(run: &Run, until_h: f64) -> Option<SlowWarmth> {
    let law = &run.mix.laws.hygiene;
    let organism = leading(run)?;
    let step = until_h / f64::from(PIECES);
    let (mut since_h, mut hours, mut share, mut c) = (None, 0.0, 0.0, 0.0);
    for k in 0..PIECES {
        let t = (f64::from(k) + 0.5) * step;
        let warmth = run.mix.course.at(t);
        let pace = cardinal::temperature(warmth, organism.temperature);
        if pace < law.slow_share {
            since_h = since_h.or(Some(t - 0.5 * step));
            hours += step;
            share += pace * step;
            c += warmth * step;
        }
    }
    let best_c = organism.temperature[1];
    (hours > law.slow_for_h).then(|| SlowWarmth {
        share: share / hours,
        c: c / hours,
        since_h: since_h.unwrap_or(0.0),
        hours,
        best_c,
        too_warm: c / hours > best_c,
    })
}

/// The living organism that makes most acid; where none makes any, the one of which most went in.
fn leading(run: &Run) -> Option<&Organism> {
    let acid = |i: usize| run.forecast.species.get(i).and_then(|s| s.acid.last()).copied().unwrap_or(0.0);
    let living = |o: &Organism| o.count > 1.0;
    let mut there = run.mix.organisms.iter().enumerate().filter(|(_, o)| living(o));
    let first = there.next()?;
    let rank = |(i, o): (usize, &Organism)| (acid(i), o.count);
    let most = there.fold(first, |most, next| {
        let (a, b) = (rank(most), rank(next));
        if b.0.total_cmp(&a.0).then(b.1.total_cmp(&a.1)).is_gt() { next } else { most }
    });
    Some(most.1)
}
