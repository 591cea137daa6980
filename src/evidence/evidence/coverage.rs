//! Whether the spreads are honest: each published reading beside the band that drawn pots of its case give, nothing fitted.
//!
//! A band is what the spreads say before any reading: the case's pot is drawn as any design is, in a laboratory that
//! weighs exactly; what the source tells is told, what its case assumes has a spread. Each drawn forecast gets a deviate
//! of its reading's own scatter.

use super::pots::{self, CandidatePot};
use super::{laws, met, waits};
use potset_base::Note;
use potset_doc::evidence::{Case, CaseKind, Pot, Reading, Scatter, Setup, What};
use potset_doc::{Learnt, Pantry, format};
use potset_doubt::spread::{EDGES, FIRST, MakerScatter, SEED, Sampler, left_of};
use potset_forecast::evidence::{Knobs, design, hold_at, laboratory};
use potset_forecast::place::{Place, stream};
use potset_forecast::scenario::Scenario;
use potset_forecast::{Facts, compile_with};
use potset_numerics::ode::Tolerance;
use potset_numerics::{moments, quantile, samples};
use potset_science::Mix;

/// Pots that are drawn of each case.
pub const POTS: usize = 200;

/// Fewest drawn pots that must come to a reading for its band to count.
const LEAST: usize = 20;

/// Far finer than any reading, and soon done.
const TOLERANCE: Tolerance = Tolerance { relative: 1e-4, absolute: 1e-4 };

/// A hundredth of a pH.
const STOP_WITHIN_H: f64 = 0.02;

/// A pot of whole milk: it draws the laws for cases that are no pot.
const MILK: &str = r#"(bases: [(entry: "whole_cows_milk")])"#;

/// A reading beside its band.
#[derive(Clone, Debug, PartialEq)]
pub struct BandRow {
    pub what: String,
    pub unit: &'static str,
    pub measured: f64,
    /// 5 %, middle and 95 % of the drawn readings; infinite where so many pots never come there.
    pub band: [f64; 3],
    /// Share of the drawn readings that lie below the measured one; not a number where there is no band.
    pub place: f64,
    /// Width of the band over that of the reading's own scatter.
    pub width: f64,
    /// Drawn pots that come to the reading.
    pub came: usize,
}

impl BandRow {
    /// Whether the measured value lies in the band.
    pub fn inside(&self) -> bool {
        self.came >= LEAST && self.band[0] <= self.measured && self.measured <= self.band[2]
    }
}

/// All cases that ran with the bands of their readings. A reading that a stop was chosen to meet has none.
#[derive(Clone, Debug)]
pub struct Cover<'a> {
    pub pots: usize,
    pub cases: Vec<(&'a Case, Result<Vec<BandRow>, Note>)>,
}

/// The bands of one kind of case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KindCover {
    pub kind: CaseKind,
    pub readings: usize,
    pub inside: usize,
    /// Mean and standard deviation of the places: 0.5 and 0.29 where the bands are just as wide as they should be; less
    /// than 0.29 where they are too wide.
    pub place: [f64; 2],
    /// Middle of the widths over the readings' own.
    pub width: f64,
}

/// Draws so many pots of every case.
pub fn coverage<'a>(cases: &'a [Case], pantry: &Pantry, pots: usize) -> Cover<'a> {
    let ran = cases.iter().filter(|case| waits(case, pantry).is_none());
    Cover { pots, cases: ran.map(|case| (case, of_case(case, pantry, pots))).collect() }
}

impl Cover<'_> {
    /// The shares by kind, in order.
    pub fn kinds(&self) -> Vec<KindCover> {
        CaseKind::ALL.into_iter().filter_map(|kind| self.kind(kind)).collect()
    }

    fn kind(&self, kind: CaseKind) -> Option<KindCover> {
        let of_kind = self.cases.iter().filter(|(case, _)| case.kind == kind);
        let rows: Vec<&BandRow> = of_kind.filter_map(|(_, rows)| rows.as_ref().ok()).flatten().collect();
        let places: Vec<f64> = rows.iter().map(|r| r.place).filter(|p| p.is_finite()).collect();
        let mut widths: Vec<f64> = rows.iter().map(|r| r.width).filter(|w| !w.is_nan()).collect();
        (!rows.is_empty()).then(|| KindCover {
            kind,
            readings: rows.len(),
            inside: rows.iter().filter(|r| r.inside()).count(),
            place: [moments::mean(&places), moments::variance(&places).sqrt()],
            width: quantile::of(&mut widths, [0.5])[0],
        })
    }
}

/// What is drawn of one case.
struct Drawing {
    sampler: Sampler,
    all: Drawn,
    /// The first pots again with the hand as planned, where what the laws of texture leave out is put on a reading.
    planned: Drawn,
}

/// Draws the pots of one case.
fn drawn(case: &Case, pantry: &Pantry, pots: usize) -> Result<Drawing, Note> {
    let milk: Pot = format::asset(MILK)?;
    let pot = case.pot().unwrap_or(&milk);
    let design = design(pot, pot.hold_c, &Knobs::NONE, pantry)?;
    let (kitchen, learnt) = (laboratory(pot), Learnt::default());
    let scenario = Scenario { design: &design, pantry, kitchen: &kitchen, learnt: &learnt };
    let sampler = Sampler::of_mixes(&scenario, SEED, pots).map_err(|notes| {
        notes
            .into_iter()
            .next()
            .unwrap_or_else(|| Note::error("pot", "The case cannot be worked out", "Mend the case"))
    })?;
    let each = |of: &dyn Fn(&What) -> Result<Option<f64>, Note>| {
        case.readings.iter().map(|r| of(&r.what)).collect::<Result<Vec<_>, _>>()
    };
    let see = |scenario: &Scenario<'_>, k: usize, mix: &Mix, facts: &Facts| {
        let list = match &case.setup {
            Setup::Pot(pot) => of_pot(pot, &case.readings, scenario, (mix, facts))?,
            Setup::Food(food) => each(&|what| laws::of_food(food, what))?,
            Setup::Law => each(&|what| laws::alone(what, &mix.laws))?,
        };
        Ok((k, list))
    };
    let all = sampler.each_mix(0..pots, MakerScatter::Scatters, see);
    let first = if case.readings.iter().any(of_texture) { FIRST.min(pots) } else { 0 };
    let planned =
        sampler.each_mix(0..first, MakerScatter::AsPlanned, see).into_iter().filter_map(Result::ok).collect();
    let why = all.iter().find_map(|pot| pot.as_ref().err().cloned());
    let made: Drawn = all.into_iter().filter_map(Result::ok).collect();
    match why {
        Some(note) if made.is_empty() => Err(note),
        _ => Ok(Drawing { sampler, all: made, planned }),
    }
}

/// Whether the scatter of a reading is that of the laws of texture.
const fn of_texture(reading: &Reading) -> bool {
    matches!(reading.what, What::Yield { .. } | What::Viscosity { .. })
}

/// Numbers of pots and their forecasts, reading by reading; `None` where a pot never comes to one.
type Drawn = Vec<(usize, Vec<Option<f64>>)>;

pub(super) fn of_pot(
    pot: &Pot,
    readings: &[Reading],
    scenario: &Scenario<'_>,
    (mix, facts): (&Mix, &Facts),
) -> Result<Vec<Option<f64>>, Note> {
    let first = scenario.design.hold().and_then(|hold| hold.measured.first());
    let off_c = first.map_or(0.0, |reading| reading.c - pot.hold_c);
    let at = |c: f64| {
        let mut design = scenario.design.clone();
        hold_at(&mut design, c + off_c, pot.hours);
        let compiled = compile_with(&Scenario { design: &design, ..*scenario }, &mix.laws);
        compiled.mix.ok_or_else(|| Note::error("pot", "The case cannot be worked out", "Mend the case"))
    };
    let made = CandidatePot { mix, facts, at: &at, tolerance: TOLERANCE, stop_within_h: STOP_WITHIN_H };
    pots::of_mix(pot, readings, &made)
}

fn of_case(case: &Case, pantry: &Pantry, pots: usize) -> Result<Vec<BandRow>, Note> {
    let Drawing { sampler, all, planned } = drawn(case, pantry, pots)?;
    let met = met(case);
    let left_out = sampler.unknowns().find("left out").unwrap_or(usize::MAX);
    let mut rows = Vec::new();
    for (i, reading) in case.readings.iter().enumerate().filter(|(_, r)| met.as_ref() != Some(&r.what)) {
        // A pot that never sours so far does so later than any reading; other readings are of pots that came there.
        let never = matches!(reading.what, What::HoursTo(_)).then_some(f64::INFINITY);
        let values: Vec<(usize, f64)> =
            all.iter().filter_map(|(k, list)| list[i].or(never).map(|v| (*k, v))).collect();
        let by_figures = planned.iter().filter_map(|(_, list)| list[i]);
        let scatter = Scattered::of(reading, by_figures, sampler.stated());
        let deviates = samples::side(SEED, stream(&format!("reading {i} of {}", case.key)), FIRST, pots);
        let with = |(k, v): &(usize, f64)| {
            let own = Place::of(deviates[*k]).z;
            scatter.put(*v, own, sampler.place(left_out, *k).z)
        };
        rows.push(row(reading, values.iter().map(with).collect()));
    }
    Ok(rows)
}

/// What is put on a drawn forecast to make a reading of it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Scattered {
    by_factor: bool,
    /// One sigma of the reading; as a logarithm where by factor.
    own: f64,
    /// One sigma of what the laws of texture leave out, as a logarithm.
    left_out: f64,
}

impl Scattered {
    /// The usual scatter of a yield stress or a viscosity is that of the laws of texture, so it is not put on beside what
    /// these leave out.
    ///
    /// - `by_figures` — the reading over pots in which only figures are drawn; `stated` — scatter of the laws of texture.
    fn of(reading: &Reading, by_figures: impl Iterator<Item = f64>, stated: f64) -> Self {
        let by_factor = reading.what.by_factor();
        let sigma = reading.sigma().0;
        let own = if by_factor { sigma.ln() } else { sigma };
        if !of_texture(reading) {
            return Self { by_factor, own, left_out: 0.0 };
        }
        let left_out = left_of(stated, by_figures);
        Self { by_factor, own: if reading.scatter == Scatter::Usual { 0.0 } else { own }, left_out }
    }

    fn put(&self, v: f64, own_z: f64, left_z: f64) -> f64 {
        if self.by_factor {
            v * (self.own * own_z + self.left_out * left_z).exp()
        } else {
            v + self.own * own_z
        }
    }
}

fn row(reading: &Reading, mut values: Vec<f64>) -> BandRow {
    let below = values.iter().filter(|v| **v < reading.value).count();
    let [low, _, middle, _, high] = quantile::of(&mut values, EDGES);
    let sigma = reading.sigma().0;
    let own = 2.0 * quantile::normal(0.95);
    let width = if reading.what.by_factor() {
        (high / low).ln() / (own * sigma.ln())
    } else {
        (high - low) / (own * sigma)
    };
    BandRow {
        what: reading.what.words(),
        unit: reading.what.unit(),
        measured: reading.value,
        band: [low, middle, high],
        place: if values.is_empty() { f64::NAN } else { below as f64 / values.len() as f64 },
        width,
        came: values.len(),
    }
}
