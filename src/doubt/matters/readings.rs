//! Which single reading would narrow the forecast most, and when to take it.

use super::Values;
use super::finds::{self, Weighing};
use crate::spread::{Curve, Spreader, UnknownKind};
use potset_doc::kitchen::PhBy;
use potset_forecast::lever::LeverId;
use potset_forecast::scenario::Scenario;
use potset_numerics::interpolate::curve;
use potset_numerics::moments;

/// Scatter of one reading: a checked kitchen meter, and strips, pH (assumed; dry strips err by 0.3, published).
const METER: f64 = 0.05;
const STRIPS: f64 = 0.2;
/// A spoon or line-spread test, as a logarithm of thickness: within about a third (assumed).
const SPOON: f64 = 0.3;

/// Later than this share of the hold a reading comes too late to do something about the pot. Source: assumed.
const IN_TIME: f64 = 0.75;

/// What can be read; of two that tell as much the first stands first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reading {
    PhByMeter,
    PhByStrips,
    /// A spoon or line-spread test of the base before the culture, and of the warm pot.
    SpoonOfBase,
    SpoonOfPot,
    /// The thermometer is checked.
    Thermometer,
    /// The culture is weighed, as it is or in a 1:10 powder.
    Culture,
    CultureInPowder,
}

/// A reading and what it is worth.
#[derive(Clone, Debug, PartialEq)]
pub struct Worth {
    pub reading: Reading,
    /// When to take it, h; nothing where it is before the hold.
    pub at_h: Option<f64>,
    /// Factor on the width of the band of each watched outcome.
    pub narrows: Vec<f64>,
}

impl Worth {
    /// What is gone of the bands on the whole, 0 to 1.
    pub fn gain(&self) -> f64 {
        let n = self.narrows.len().max(1) as f64;
        self.narrows.iter().map(|f| 1.0 - f * f).sum::<f64>() / n
    }
}

/// All readings, the most telling first.
///
/// A reading `M` with scatter σ leaves of the variance of an outcome `Y`: `1 − cov(M, Y)² / ((var M + σ²) var Y)`, the rule
/// of a normal pair. Source: derived.
pub fn readings(scenario: &Scenario<'_>, spreader: &Spreader, values: &[Values]) -> Vec<Worth> {
    let likely = spreader.sampler().likely();
    let last_h = IN_TIME * likely.mix.stop_h;
    let t = spreader.sampler().times();
    let n = t.len();
    let place = |what: Curve| crate::spread::place_of(likely.forecast.species.len(), what);
    let at = |what: Curve, t_h: f64| -> Vec<f64> {
        let c = place(what).unwrap_or(0);
        spreader
            .made()
            .map(|(_, pot)| curve(t, pot.curves.get(c * n..(c + 1) * n).unwrap_or(&[]), t_h))
            .collect()
    };
    let mut all = Vec::new();
    let hours: Vec<f64> = (2..=96_u32).map(f64::from).take_while(|h| *h <= last_h).collect();
    let ways = match scenario.kitchen.ph_by {
        PhBy::Strips => vec![(Reading::PhByStrips, STRIPS), (Reading::PhByMeter, METER)],
        PhBy::Meter | PhBy::TasteAndLook => vec![(Reading::PhByMeter, METER)],
    };
    for (reading, scatter) in ways {
        let best = hours
            .iter()
            .map(|h| Worth { reading, at_h: Some(*h), narrows: narrows(&at(Curve::Ph, *h), scatter, values) })
            .max_by(|a, b| a.gain().total_cmp(&b.gain()));
        all.extend(best);
    }
    if last_h > 0.0 {
        let spoon = |t_h: f64| -> Vec<f64> {
            let logs: Vec<f64> = at(Curve::InPot, t_h).into_iter().map(|v| v.max(1e-9).ln()).collect();
            narrows(&logs, SPOON, values)
        };
        let last_h = last_h.floor();
        all.push(Worth { reading: Reading::SpoonOfPot, at_h: Some(last_h), narrows: spoon(last_h) });
        all.push(Worth { reading: Reading::SpoonOfBase, at_h: None, narrows: spoon(0.0) });
    }
    let mut design = scenario.design.clone();
    design.refresh_snapshot(scenario.pantry);
    for (i, unknown) in spreader.sampler().unknowns().list.iter().enumerate() {
        let finds::Remedy { weighing, left, .. } = finds::remedy(scenario, &design.snapshot, unknown);
        let reading = match (&unknown.of, weighing) {
            (UnknownKind::Thermometer(_), _) => Reading::Thermometer,
            (UnknownKind::Amount { lever_id: LeverId::CultureRate(_), .. }, Some(weighing)) => match weighing
            {
                Weighing::OnTheScale => Reading::Culture,
                Weighing::Powder => Reading::CultureInPowder,
                Weighing::FinerScale => continue,
            },
            _ => continue,
        };
        let z: Vec<f64> = spreader.made().map(|(k, _)| spreader.sampler().place(i, k).z).collect();
        // What the scale, or the check, leaves of the doubt stays.
        let gone = 1.0 - left.unwrap_or(1.0);
        let of_all = |f: f64| (1.0 - gone * (1.0 - f * f)).max(0.0).sqrt();
        let narrows = narrows(&z, 0.0, values).into_iter().map(of_all).collect();
        all.push(Worth { reading, at_h: None, narrows });
    }
    all.retain(|w| w.gain() > 0.01);
    all.sort_by(|a, b| b.gain().total_cmp(&a.gain()).then_with(|| a.reading.cmp(&b.reading)));
    all
}

/// Factor on the width of each outcome's band that a reading leaves; what chance alone would give is taken off.
fn narrows(reading: &[f64], scatter: f64, values: &[Values]) -> Vec<f64> {
    let own = moments::variance(reading) + scatter * scatter;
    let chance = 1.0 / (reading.len() as f64 - 1.0).max(1.0);
    values
        .iter()
        .map(|v| {
            let shared = moments::covariance(reading, &v.scaled).powi(2);
            let told = shared / (own * moments::variance(&v.scaled)).max(1e-300) - chance;
            (1.0 - told.clamp(0.0, 1.0)).sqrt()
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::matters::Scale;
    use potset_base::chance::Chance;
    use potset_forecast::observable::Observable;

    #[test]
    fn a_reading_of_the_thing_itself_leaves_its_scatter() {
        let y: Vec<f64> = (0..1000).map(|k| f64::from(k) / 100.0).collect();
        let variance = moments::variance(&y);
        let values = [Values {
            outcome: Observable::Ph,
            real: y.clone(),
            scaled: y.clone(),
            scale: Scale::Own,
            never: Chance::default(),
            alike: false,
        }];
        assert!(narrows(&y, 0.0, &values)[0] < 0.04);
        // Scatter as large as the spread leaves half the variance.
        assert!((narrows(&y, variance.sqrt(), &values)[0] - 0.5_f64.sqrt()).abs() < 0.01);
        assert!((narrows(&vec![1.0; 1000], 1.0, &values)[0] - 1.0).abs() < 1e-3);
    }
}
