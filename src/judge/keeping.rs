//! Keeping: what the pot will be after days in the fridge, what changes first, and how far possible pots differ.

use potset_base::words::{TangWord, TextureWord};
use potset_doc::steps::LONGEST_STORE_DAYS;
use potset_forecast::scenario::Run;
use potset_numerics::interpolate::curve;
use potset_numerics::quantile;
use potset_science::keep::{self, Keeping};
use potset_science::sensory;

/// Days that are told; a planned end of the store comes among them.
pub const TOLD: [f64; 7] = [1.0, 3.0, 7.0, 14.0, 21.0, 28.0, LONGEST_STORE_DAYS];

/// Edges of the range of possible pots and their middle.
const EDGES: [f64; 3] = [0.05, 0.5, 0.95];

/// The pot on one day.
#[derive(Clone, Debug, PartialEq)]
pub struct Day {
    pub days: f64,
    pub ph: f64,
    pub titratable: f64,
    pub sugar_g_kg: f64,
    pub tang: TangWord,
    pub texture: TextureWord,
    /// Pa·s at 50 1/s.
    pub viscosity: f64,
    pub whey_standing: f64,
    /// Thin layer below, % of the pot.
    pub thin_layer: f64,
    /// Living cells, log10 cfu/g, by name of the organism.
    pub counts: Vec<(String, f64)>,
}

/// Keeping of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepingReading {
    pub kept_c: f64,
    /// Every day up to the longest store.
    pub curves: Keeping,
    pub days: Vec<Day>,
    /// First day on which the tang word is stronger than on the first, and that word.
    pub sharper: Option<(f64, TangWord)>,
}

/// What is kept of one possible pot: a row for each day told.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kept {
    /// pH, % titratable, Pa·s at 50 1/s, then log10 cfu/g of each organism.
    pub rows: Vec<Vec<f64>>,
}

/// The range of possible pots on one day: 5 %, middle and 95 %.
#[derive(Clone, Debug, PartialEq)]
pub struct DayRange {
    pub days: f64,
    pub ph: [f64; 3],
    /// % as lactic acid.
    pub titratable: [f64; 3],
    /// Pa·s at 50 1/s.
    pub viscosity: [f64; 3],
    /// log10 cfu/g, by name of the organism.
    pub counts: Vec<(String, [f64; 3])>,
}

/// Days that are told of a run, rising: [`TOLD`] and the planned end of its store.
pub fn shown_days(run: &Run) -> Vec<f64> {
    let chilled = run.mix.chill.hours / 24.0;
    let mut days: Vec<f64> = TOLD.into_iter().filter(|day| *day > chilled).collect();
    let planned = run.mix.after.days;
    if planned > chilled && !days.contains(&planned) {
        days.push(planned);
        days.sort_by(f64::total_cmp);
    }
    days
}

/// Where a run is kept, °C.
fn kept_c(run: &Run, fridge_c: f64) -> f64 {
    if run.mix.after.days > 0.0 { run.mix.after.kept_c } else { fridge_c }
}

/// Keeps the pot of a run in the cold.
///
/// - `fridge_c` — °C where the design does not say.
pub fn keeping(run: &Run, stop_h: f64, fridge_c: f64) -> Option<KeepingReading> {
    let kept_c = kept_c(run, fridge_c);
    let told = shown_days(run);
    let mut looked = keep::each_day(LONGEST_STORE_DAYS as u32);
    looked.extend(told.iter().copied().filter(|day| day.fract() != 0.0));
    looked.sort_by(f64::total_cmp);
    let curves = keep::keep(&run.mix, stop_h, &looked, kept_c).ok()?;
    let days = told.iter().filter_map(|day| read(run, &curves, *day)).collect();
    let words = &run.mix.laws.words;
    let tang = |i: usize| sensory::tang(curves.undissociated[i], words);
    let first = curves.days.first().map(|_| tang(0))?;
    let sharper = (1..curves.days.len()).find(|i| tang(*i) > first).map(|i| (curves.days[i], tang(i)));
    Some(KeepingReading { kept_c, curves, days, sharper })
}

/// The pot on a day that was looked at.
fn read(run: &Run, curves: &Keeping, day: f64) -> Option<Day> {
    let i = curves.days.iter().position(|d| (d - day).abs() < 1e-6)?;
    let texture = curves.texture.get(i)?;
    Some(Day {
        days: curves.days[i],
        ph: curves.ph[i],
        titratable: curves.titratable[i],
        sugar_g_kg: curves.sugar_total[i],
        tang: sensory::tang(curves.undissociated[i], &run.mix.laws.words),
        texture: texture.word,
        viscosity: texture.viscosity50,
        whey_standing: texture.whey.standing,
        thin_layer: texture.thin_layer,
        counts: curves.species.iter().map(|s| (s.name.clone(), s.log10[i])).collect(),
    })
}

/// Keeps one possible pot; nothing where it cannot be followed.
pub fn kept(run: &Run, fridge_c: f64) -> Kept {
    let (days, stop_h) = (shown_days(run), run.mix.stop_h);
    let Ok(k) = keep::keep_coarse(&run.mix, stop_h, &days, kept_c(run, fridge_c)) else {
        return Kept::default();
    };
    let viscosity: Vec<f64> = k.texture.iter().map(|t| t.viscosity50).collect();
    let mut all = vec![&k.ph, &k.titratable, &viscosity];
    all.extend(k.species.iter().map(|s| &s.log10));
    Kept { rows: days.iter().map(|day| all.iter().map(|ys| curve(&k.days, ys, *day)).collect()).collect() }
}

/// The ranges by day of so many possible pots of a run.
pub fn ranges(likely: &Run, pots: &[&Kept]) -> Vec<DayRange> {
    let days = shown_days(likely);
    let edges = |day: usize, place: usize| {
        let mut values: Vec<f64> = pots
            .iter()
            .filter_map(|pot| pot.rows.get(day)?.get(place))
            .copied()
            .filter(|v| v.is_finite())
            .collect();
        (!values.is_empty()).then(|| quantile::of(&mut values, EDGES))
    };
    let of_day = |(k, days): (usize, &f64)| {
        let counts = likely.mix.organisms.iter().enumerate();
        Some(DayRange {
            days: *days,
            ph: edges(k, 0)?,
            titratable: edges(k, 1)?,
            viscosity: edges(k, 2)?,
            counts: counts.filter_map(|(i, o)| Some((o.name.clone(), edges(k, 3 + i)?))).collect(),
        })
    };
    days.iter().enumerate().filter_map(of_day).collect()
}
