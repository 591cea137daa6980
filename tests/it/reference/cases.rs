//! The stored reference cases, and the mix that each of them is.

use std::sync::Arc;

use potset_base::Sugar;
use potset_doc::{Kitchen, Learnt, assets};
use potset_science::acid_base::{Balance, Site};
use potset_science::kinetics::Organism;
use potset_science::mix::{Addition, Mix};
use potset_science::thermal::{Course, Piece};
use serde::Deserialize;

/// The cases as written by `tests/reference/reference.py`.
const TEXT: &str = include_str!("../../reference/cases.ron");

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Cases {
    cases: Vec<Case>,
}

/// Inputs of one pot in plain numbers, and what comes of them at some times.
#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    pub name: String,
    pub about: String,
    pub ph0: f64,
    pub activity: f64,
    pub lactic_pka: f64,
    pub acetic_pka: f64,
    /// Amount mmol/kg, pK, cooperativity.
    pub sites: Vec<(f64, f64, f64)>,
    pub law: Law,
    pub organisms: Vec<Cells>,
    /// mmol/kg.
    pub sugars: [f64; 8],
    pub course: Vec<Stretch>,
    pub additions: Vec<Added>,
    pub times: Vec<f64>,
    pub temperature: Vec<f64>,
    pub ph: Vec<f64>,
    pub lactic: Vec<f64>,
    pub acetic: Vec<f64>,
    /// Those that are there at some time; the others are nothing throughout.
    pub sugars_at: Vec<(Sugar, Vec<f64>)>,
    pub log10: Vec<Vec<f64>>,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Law {
    pub count_ceiling: f64,
    pub resting_shift_c: f64,
    pub cold_energy: f64,
    pub rate_reference_c: f64,
    pub cold_from_c: f64,
    pub cold_to_c: f64,
    pub store_full_c: f64,
    pub store_none_c: f64,
    pub store_reference_c: f64,
    pub store_q10: f64,
    pub store_delay_days: f64,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cells {
    pub key: String,
    pub growth_rate: f64,
    pub temperature: [f64; 3],
    pub ph: [f64; 3],
    pub acid_ceiling: f64,
    pub acid_exponent: f64,
    pub acid_per_cell: f64,
    pub acid_per_cell_hour: f64,
    pub lactic_per_hexose: f64,
    pub acetic_per_hexose: f64,
    pub galactose_released: f64,
    pub half_saturation: f64,
    pub d60_min: f64,
    pub z_c: f64,
    pub cold_loss: f64,
    pub count: f64,
    pub speed: f64,
    pub lag_work: f64,
    pub cold_factor: f64,
    pub eats: [f64; 8],
    pub helpers: Vec<(Option<usize>, f64, f64)>,
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stretch {
    pub hours: f64,
    pub law: Way,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "snake_case")]
pub enum Way {
    Newton { from_c: f64, around_c: f64, tau_h: f64 },
    Line { from_c: f64, to_c: f64 },
}

#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Added {
    pub at_h: f64,
    pub sugars: [f64; 8],
    pub counts: Vec<f64>,
}

/// All cases.
pub fn all() -> Vec<Case> {
    ron::from_str::<Cases>(TEXT).unwrap().cases
}

/// The case of a name.
pub fn named(name: &str) -> Case {
    all().into_iter().find(|case| case.name == name).unwrap()
}

impl Case {
    /// The mix: everything that growth, acid and pH hang on is replaced in the mix of a demo design.
    pub fn mix(&self) -> Mix {
        let design =
            potset_doc::format::read_design(include_bytes!("../../data/designs/coconut-pot.ron")).unwrap();
        let pantry = assets::pantry().unwrap();
        let mut mix =
            potset_forecast::compile(&design, &pantry, &Kitchen::default(), &Learnt::default()).mix.unwrap();
        let sites = self.sites.iter().map(|&(amount, pk, n)| Site { amount, pk, n }).collect();
        mix.balance = Balance {
            sites,
            ph0: self.ph0,
            activity: self.activity,
            lactic_pka: self.lactic_pka,
            acetic_pka: self.acetic_pka,
        };
        mix.organisms = self.organisms.iter().map(Cells::organism).collect();
        mix.sugars = self.sugars;
        mix.course = Course::from(0.0);
        for stretch in &self.course {
            let piece = match stretch.law {
                Way::Newton { from_c, around_c, tau_h } => Piece::Newton { from_c, around_c, tau_h },
                Way::Line { from_c, to_c } => Piece::Line { from_c, to_c },
            };
            mix.course.add(piece, stretch.hours);
        }
        mix.additions = self
            .additions
            .iter()
            .map(|a| Addition { at_h: a.at_h, sugars: a.sugars, counts: a.counts.clone() })
            .collect();
        mix.horizon_h = *self.times.last().unwrap();
        mix.stop_h = mix.horizon_h;
        let mut laws = (*mix.laws).clone();
        let law = &mut laws.growth;
        law.count_ceiling = self.law.count_ceiling;
        law.resting_shift_c = self.law.resting_shift_c;
        law.cold_energy = self.law.cold_energy;
        law.rate_reference_c = self.law.rate_reference_c;
        law.cold_from_c = self.law.cold_from_c;
        law.cold_to_c = self.law.cold_to_c;
        law.store_full_c = self.law.store_full_c;
        law.store_none_c = self.law.store_none_c;
        law.store_reference_c = self.law.store_reference_c;
        law.store_q10 = self.law.store_q10;
        law.store_delay_days = self.law.store_delay_days;
        mix.laws = Arc::new(laws);
        mix
    }
}

impl Cells {
    fn organism(&self) -> Organism {
        Organism {
            key: self.key.clone(),
            name: self.key.clone(),
            growth_rate: self.growth_rate,
            temperature: self.temperature,
            ph: self.ph,
            acid_ceiling: self.acid_ceiling,
            acid_exponent: self.acid_exponent,
            acid_per_cell: self.acid_per_cell,
            acid_per_cell_hour: self.acid_per_cell_hour,
            lactic_per_hexose: self.lactic_per_hexose,
            acetic_per_hexose: self.acetic_per_hexose,
            galactose_released: self.galactose_released,
            half_saturation: self.half_saturation,
            d60_min: self.d60_min,
            z_c: self.z_c,
            cold_loss: self.cold_loss,
            eats: self.eats,
            helpers: self.helpers.clone(),
            count: self.count,
            speed: self.speed,
            lag_work: self.lag_work,
            held_back: 1.0,
            preservatives: Vec::new(),
            cold_factor: self.cold_factor,
        }
    }
}
