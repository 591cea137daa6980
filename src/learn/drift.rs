//! What moves with time: pots of one culture, warmer or base in their order, on a control chart.
//!
//! A chart of single values with a running mean that forgets: it sees a slow drift sooner than the values themselves do. Its
//! scatter is that of one pot against the next, so that a drift does not hide itself.

use crate::book::Learning;
use crate::data::Seen;
use potset_doc::Batch;
use potset_doc::pantry::Base;
use potset_doc::{Design, Pantry};

/// What a chart follows.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Drifted {
    /// Hours to the acid line against what the other pots say, as a factor, by the culture's key.
    Souring(String),
    /// What a warmer reaches above its setting, °C, by its key.
    Warmth(String),
    /// pH of a base as it goes in, by its key.
    StartPh(String),
}

/// One pot on a chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChartPoint {
    /// Its place in the list of batches.
    pub batch: usize,
    pub value: f64,
    /// The running mean, and how far from the middle it may lie.
    pub running: f64,
    pub limit: f64,
}

/// A control chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    pub of: Drifted,
    pub middle: f64,
    pub points: Vec<ChartPoint>,
    /// Since which point the running mean lies beyond its limit to the end, and whether above.
    pub since: Option<(usize, bool)>,
}

/// Fewest pots of a chart, and how many of the first set its middle.
const LEAST: usize = 5;
const FIRST: usize = 4;

/// How much the newest value counts, and how many scatters the limit lies off.
///
/// Source: published, Roberts 1959, Technometrics 1:239; weight and limit as common practice has them (0.2 to 0.4; 2.7).
const WEIGHT: f64 = 0.3;
const LIMIT: f64 = 2.7;

/// Mean step from one value to the next in scatters of normal values. Source: published, the constant d2 of two (ISO 7870-2).
const STEP: f64 = 1.128;

/// Charts of all that at least five pots tell something about.
pub fn charts(batches: &[Batch], learning: &Learning, pantry: &Pantry) -> Vec<Chart> {
    let mut all: Vec<(Drifted, Vec<(usize, f64)>)> = Vec::new();
    let mut put = |of: Drifted, batch: usize, value: f64| match all.iter_mut().find(|(o, _)| *o == of) {
        Some((_, list)) => list.push((batch, value)),
        None => all.push((of, vec![(batch, value)])),
    };
    for pot in &learning.pots {
        let batch = &batches[pot.batch];
        if let (Some(read), Some(without), Some(line)) =
            (pot.hours.read, pot.hours.without, batch.design.cultures.first())
        {
            put(Drifted::Souring(line.entry.clone()), pot.batch, read / without);
        }
        if let Some((warmer, off)) = warmth(batch) {
            put(Drifted::Warmth(warmer), pot.batch, off);
        }
        let first = pot.data.iter().find(|d| d.seen == Seen::Ph && d.at_h <= AT_START_H);
        if let (Some(first), Some(base)) = (first, base(&batch.design, pantry)) {
            put(Drifted::StartPh(base), pot.batch, first.value);
        }
    }
    all.sort_by(|a, b| a.0.cmp(&b.0));
    all.into_iter().filter_map(|(of, values)| chart(of, &values)).collect()
}

/// A pH read so soon is that of the base, h. Source: assumed.
const AT_START_H: f64 = 0.5;

/// A warmth read so late is that of the warmer, h. Source: assumed.
const WARM_H: f64 = 4.0;

fn base(design: &Design, pantry: &Pantry) -> Option<String> {
    let only = (design.bases.len() == 1).then(|| design.bases.first()).flatten()?;
    design.entry::<Base>(pantry, &only.entry).map(|base| base.key.clone())
}

/// What a warmer reached above its setting in a pot, °C: the middle of what was logged or read once the pot was warm.
fn warmth(batch: &Batch) -> Option<(String, f64)> {
    let hold = batch.design.hold()?;
    let stop_h = crate::book::stop_of(batch);
    let within = |at_h: f64| (WARM_H..=stop_h).contains(&at_h);
    let logged = batch.logged.iter().flat_map(|logged| &logged.course);
    let mut read: Vec<f64> = logged.filter(|r| within(r.at_h)).map(|r| r.c).collect();
    read.extend(batch.readings.iter().filter(|r| within(r.at_h)).filter_map(|r| match r.what {
        potset_doc::batch::Observed::Warmth(c) => Some(c),
        _ => None,
    }));
    read.sort_by(f64::total_cmp);
    (!read.is_empty())
        .then(|| (hold.warmer.clone(), potset_numerics::quantile::sorted(&read, 0.5) - hold.set_c))
}

fn chart(of: Drifted, values: &[(usize, f64)]) -> Option<Chart> {
    if values.len() < LEAST {
        return None;
    }
    // Times differ by factors.
    let factor = matches!(of, Drifted::Souring(_));
    let seen: Vec<f64> = values.iter().map(|(_, v)| if factor { v.ln() } else { *v }).collect();
    let middle = seen.iter().take(FIRST).sum::<f64>() / FIRST as f64;
    let steps = seen.windows(2).map(|pair| (pair[1] - pair[0]).abs());
    // Least scatter: what the values are read to.
    let least = match of {
        Drifted::Souring(_) => 0.03,
        Drifted::Warmth(_) => 0.15,
        Drifted::StartPh(_) => 0.03,
    };
    let scatter = (steps.sum::<f64>() / (seen.len() - 1) as f64 / STEP).max(least);
    let shown = |v: f64| if factor { v.exp() } else { v };
    let mut running = middle;
    let mut points = Vec::new();
    let mut beyond: Vec<Option<bool>> = Vec::new();
    for (k, ((batch, value), seen)) in values.iter().zip(&seen).enumerate() {
        running = WEIGHT * seen + (1.0 - WEIGHT) * running;
        let settled = 1.0 - (1.0 - WEIGHT).powi(2 * i32::try_from(k + 1).unwrap_or(i32::MAX / 2));
        let limit = LIMIT * scatter * (WEIGHT / (2.0 - WEIGHT) * settled).sqrt();
        let off = running - middle;
        beyond.push((off.abs() > limit).then_some(off > 0.0));
        points.push(ChartPoint {
            batch: *batch,
            value: *value,
            running: shown(running),
            limit: if factor { limit.exp() } else { limit },
        });
    }
    let last = beyond.last().copied().flatten();
    let since = last.map(|up| {
        let back = beyond.iter().rev().take_while(|b| **b == Some(up)).count();
        (beyond.len() - back, up)
    });
    Some(Chart { of, middle: shown(middle), points, since })
}
