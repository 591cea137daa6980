//! Back-slop: pots started with some of the last one, generation after generation.

use potset_forecast::scenario::Run;
use potset_numerics::interpolate::curve;
use potset_science::kinetics::ageing;
use potset_science::mix::{ABSENT, Mix};
use potset_science::{keep, simulate};

/// How the line is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineAsk {
    /// Grams of the last pot for each litre of the next.
    pub g_per_l: f64,
    /// Days between pots.
    pub days: f64,
}

impl Default for LineAsk {
    /// Source: common practice, 2-3 % of the last pot, within a week.
    fn default() -> Self {
        Self { g_per_l: 30.0, days: 4.0 }
    }
}

/// One pot of the line.
#[derive(Clone, Debug, PartialEq)]
pub struct Generation {
    /// 0 for the pot made with the culture itself.
    pub number: u32,
    /// Living cells at the start, cfu/g: all, and by organism.
    pub start: f64,
    pub each: Vec<(String, f64)>,
    /// Acid carried in, % lactic of the pot.
    pub carried_percent: f64,
    /// When pH 4.6 is reached, h.
    pub line_h: Option<f64>,
    /// pH at the stop line.
    pub ph: f64,
}

/// Generations that are followed.
pub const FOLLOWED: u32 = 6;

/// Pots after which a fresh packet is taken. Source: common practice, five to ten pots.
pub const USUAL: u32 = 6;

/// A line of pots: each is stopped, chilled, kept for some days, and a part of it starts the next.
///
/// Lag by the law of ageing, loss in the fridge as of any pot in the cold; strains are taken to keep their nature (drift, phages and strangers
/// are not computed: common practice renews the culture after some generations).
pub fn line(run: &Run, ask: &LineAsk) -> Vec<Generation> {
    let first = &run.mix;
    let laws = &first.laws;
    let share = ask.g_per_l * 1e-3 / first.density;
    let aged = ageing::wet(ask.days, laws);
    let mut mix: Mix = first.clone();
    let mut out = Vec::new();
    for number in 0..=FOLLOWED {
        let Ok(forecast) = simulate(&mix) else { break };
        out.push(Generation {
            number,
            start: mix.organisms.iter().map(|o| o.count).sum(),
            each: mix.organisms.iter().map(|o| (o.name.clone(), o.count)).collect(),
            carried_percent: potset_science::acid_base::titration::made_percent(
                mix.carried[0],
                mix.carried[1],
            ),
            line_h: forecast.time_to_ph(laws.ready.acid_line_ph),
            ph: curve(&forecast.t, &forecast.ph, mix.stop_h),
        });
        let Ok(kept) = keep::keep(&mix, mix.stop_h, &[ask.days], mix.chill.around_c) else { break };
        let acid = kept.acid_made.last().copied().unwrap_or(0.0);
        let start_acid = mix.carried;
        // Only the first pot has the additives' acid; what is carried on is what the pot has made.
        mix.carried = [share * (acid_mmol(acid) + start_acid[0]), share * start_acid[1]];
        for (o, species) in mix.organisms.iter_mut().zip(&kept.species) {
            let end = species.log10.last().map_or(0.0, |log| 10.0_f64.powf(*log));
            o.count = if end > 2.0 * ABSENT { end * share } else { 0.0 };
            o.lag_work = laws.ageing.slop_lag + aged.lag_work;
        }
        mix.additions.clear();
    }
    out
}

fn acid_mmol(percent: f64) -> f64 {
    percent / potset_science::acid_base::titration::made_percent(1.0, 0.0)
}

/// The generation from which a fresh packet is due: a pot a quarter slower than the first back-slopped one, or one
/// that does not sour, or the last that common practice makes.
pub fn renew_at(line: &[Generation], usual: u32) -> u32 {
    let second = line.get(1).and_then(|g| g.line_h);
    line.iter()
        .skip(2)
        .find(|g| match (second, g.line_h) {
            (Some(first), Some(h)) => h > 1.25 * first,
            _ => true,
        })
        .map_or(usual, |g| g.number.min(usual))
}
