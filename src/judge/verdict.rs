//! The verdict: what the pot will be at the stop line, in words and numbers, and what to do about it.

use crate::advice::Advice;
use potset_forecast::scenario::Run;

use crate::hygiene::Hygiene;

use crate::keeping::KeepingReading;

use crate::readiness::{Release, Window};
use crate::validity::Validity;
use potset_base::words::{SweetLevel, SweetWord, TangWord, TextureWord};
use potset_numerics::interpolate::{curve, first_below};
use potset_science::acid_base::electrode;
use potset_science::forecast::Part;
use potset_science::texture::sensory as touch;
use potset_science::{keep, sensory};

/// Why sugar stays in a pot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SugarStays {
    /// No culture eats it.
    NoCulture,
    /// There was none to eat.
    NoneThere,
    /// This culture cannot eat it.
    Inedible,
    /// The culture ate all that it can.
    AllEaten,
    /// The heat kills the culture.
    Killed,
    /// The pot has soured as far as the culture goes.
    Stalled,
    HardlyBegun,
    /// The culture is still at work at the stop, h.
    AtWork(f64),
}

/// Texture, chilled.
#[derive(Clone, Debug, PartialEq)]
pub struct TextureReading {
    pub word: TextureWord,
    pub low: TextureWord,
    pub high: TextureWord,
    /// Pa·s at 50 1/s, chilled, with its 5-95 % bounds; and in the pot.
    pub chilled: f64,
    pub chilled_low: f64,
    pub chilled_high: f64,
    pub in_pot: f64,
    pub in_pot_word: TextureWord,
    pub stiffness_pa: f64,
    pub yield_pa: f64,
    pub thickness: f64,
    pub line_spread_cm: f64,
    pub slump_cm: f64,
    pub whey_standing: f64,
    pub whey_cut: f64,
    /// Thin layer below, % of the pot: after the chill, and at the stop.
    pub thin_layer: f64,
    pub thin_in_pot: f64,
}

/// Tang.
#[derive(Clone, Debug, PartialEq)]
pub struct TangReading {
    /// Nothing where the pot is not yogurt: no culture soured it, or not enough.
    pub word: Option<TangWord>,
    pub sweet: SweetWord,
    pub sweet_level: SweetLevel,
    pub ph: f64,
    /// After the chill.
    pub ph_chilled: f64,
    pub acid_made: f64,
    pub titratable: f64,
    /// pH that a meter reads in a sample cooled to 20 °C, where it differs.
    pub ph_cooled: f64,
    /// Sweetness of the sugars left and stirred in, g sucrose per kg of the finished pot.
    pub sucrose_equivalents: f64,
    /// mmol/kg.
    pub undissociated: f64,
    /// When pH 4.6 is reached, h.
    pub line_h: Option<f64>,
}

/// Sugar, g/L.
#[derive(Clone, Debug, PartialEq)]
pub struct SugarReading {
    pub left: f64,
    pub eaten: f64,
    pub added: f64,
    pub own: f64,
    /// Stirred in after the hold, g per L.
    pub stirred_in: f64,
    /// Each sugar left.
    pub kinds: [f64; 8],
    /// Why the rest stays.
    pub why: SugarStays,
}

/// All that is said of a pot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Verdict {
    pub stop_h: f64,
    /// What speaks against the pot.
    pub hygiene: Hygiene,
    /// The first thing that speaks against it: why, and a mend. What else there is stands first in the advice.
    pub against: Option<Advice>,
    pub texture: Option<TextureReading>,
    pub tang: Option<TangReading>,
    pub sugar: Option<SugarReading>,
    /// Where all goals hold on the likely line. No ready time: that is told by the possible pots, see [`crate::ready`].
    pub window: Option<Window>,
    pub keeping: Option<KeepingReading>,
    /// Goals and whether each holds at the stop line.
    pub goals: Vec<(String, bool)>,
    /// The pH at or under which it may be ready; nothing before there is a verdict.
    pub release: Option<Release>,
    pub advice: Vec<Advice>,
    /// What of it lies outside what the laws are fitted to.
    pub validity: Validity,
    /// Parts that carry the chilled texture, Pa at 50 1/s, thickest first.
    pub why_thick: Vec<(Part, f64)>,
    /// Organisms and the acid each made, mmol/kg, most first.
    pub why_tangy: Vec<(String, f64)>,
}

pub(crate) fn texture(run: &Run, stop_h: f64) -> Option<TextureReading> {
    let f = &run.forecast;
    let (warm, chilled) = f.textures(stop_h)?;
    let laws = &run.mix.laws;
    let at = |ys: &[f64]| f.value(ys, stop_h);
    let v = at(&f.chilled.viscosity50);
    let word = |v: f64| touch::word(v, chilled.cut, &laws.words);
    let (low, high) = (at(&f.chilled.low50), at(&f.chilled.high50));
    Some(TextureReading {
        word: word(v),
        low: if chilled.cut && chilled.stiffness_pa * low / v <= laws.words.cuts_above_pa {
            touch::word(low, false, &laws.words)
        } else {
            word(low)
        },
        high: word(high),
        chilled: v,
        chilled_low: low,
        chilled_high: high,
        in_pot: at(&f.warm.viscosity50),
        in_pot_word: warm.word,
        stiffness_pa: at(&f.chilled.stiffness_pa),
        yield_pa: chilled.yield_pa,
        thickness: touch::thickness(v),
        line_spread_cm: touch::line_spread_cm(v),
        slump_cm: touch::slump_cm(chilled.yield_pa, f.density),
        whey_standing: chilled.whey.standing,
        whey_cut: chilled.whey.cut,
        thin_layer: chilled.thin_layer,
        thin_in_pot: warm.thin_layer,
    })
}

pub(crate) fn tang(run: &Run, stop_h: f64, yogurt: bool) -> Option<TangReading> {
    let f = &run.forecast;
    let at = |ys: &[f64]| f.value(ys, stop_h);
    let words = &run.mix.laws.words;
    let undissociated = at(&f.undissociated);
    let eaten = run.mix.served(&f.sugars_at(stop_h), at(&f.lactic), at(&f.acetic));
    let sweet = sweetness(run, stop_h);
    let (ph_chilled, _) = keep::after_chill(&run.mix, stop_h).ok()?;
    Some(TangReading {
        word: yogurt.then(|| sensory::tang(undissociated, words)),
        sweet: sensory::sweetness(sweet, eaten.lactic, eaten.acetic, words),
        sweet_level: sensory::sweet_level(sweet, words),
        sucrose_equivalents: sweet,
        ph: at(&f.ph),
        ph_cooled: electrode::read_at(
            at(&f.ph),
            at(&f.temperature),
            20.0,
            run.facts.dairy,
            &run.mix.laws.acids,
        ),
        ph_chilled,
        acid_made: at(&f.acid_made),
        titratable: at(&f.titratable),
        undissociated,
        line_h: first_below(&f.t, &f.ph, run.mix.laws.ready.acid_line_ph),
    })
}

/// Sweetness of what is eaten, g sucrose per kg.
pub fn sweetness(run: &Run, stop_h: f64) -> f64 {
    let f = &run.forecast;
    let at = |ys: &[f64]| f.value(ys, stop_h);
    let eaten = run.mix.served(&f.sugars_at(stop_h), at(&f.lactic), at(&f.acetic));
    sensory::sucrose_equivalents(&eaten.sugars, &run.mix.laws.words)
        + run.facts.content.other_sweet(run.mix.dissolved_left(), run.mix.after.strained)
}

pub(crate) fn sugar(run: &Run, stop_h: f64) -> SugarReading {
    let f = &run.forecast;
    let kinds = f.sugars_at(stop_h).map(|g| g * f.density);
    let left: f64 = kinds.iter().sum();
    let start = f.sugar_total.first().copied().unwrap_or(0.0) * f.density;
    let late: f64 = run
        .mix
        .additions
        .iter()
        .filter(|a| a.at_h <= stop_h)
        .flat_map(|a| potset_base::Sugar::ALL.map(|s| a.sugars[s.index()] * s.g_mol() * 1e-3 * f.density))
        .sum();
    SugarReading {
        left,
        eaten: (start + late - left).max(0.0),
        added: f.added_g_l,
        own: run.facts.own_sugar_g_kg * f.density,
        stirred_in: run.mix.after.sugars.iter().sum::<f64>() * f.density,
        kinds,
        why: why_sugar_stays(run, stop_h, left),
    }
}

/// Sugar runs out, or the culture stops at its own acid, or nothing eats it, or it has only begun.
fn why_sugar_stays(run: &Run, stop_h: f64, left: f64) -> SugarStays {
    let f = &run.forecast;
    if run.mix.organisms.is_empty() || run.mix.organisms.iter().all(|o| o.count <= 0.0) {
        return SugarStays::NoCulture;
    }
    if run.facts.edible_g_kg < 0.2 {
        return if left < 0.2 { SugarStays::NoneThere } else { SugarStays::Inedible };
    }
    let edible = potset_forecast::cultures::edible_g_kg(
        &run.mix.organisms,
        &std::array::from_fn(|s| f.value(&f.sugars[s], stop_h) * 1e3 / potset_base::Sugar::ALL[s].g_mol()),
    );
    if edible < 0.3 {
        return SugarStays::AllEaten;
    }
    let cells = |t: f64| f.species.iter().map(|s| 10_f64.powf(f.value(&s.log10, t))).sum::<f64>();
    if cells(stop_h) < 0.5 * cells(0.0) {
        return SugarStays::Killed;
    }
    let acid_rate = |t: f64| (curve(&f.t, &f.acid_made, t) - curve(&f.t, &f.acid_made, t - 1.0)) / 1.0;
    let fastest = f.t.iter().skip(1).map(|t| acid_rate(*t)).fold(0.0, f64::max);
    if acid_rate(stop_h) < 0.35 * fastest && f.value(&f.ph, stop_h) < 4.8 {
        SugarStays::Stalled
    } else if f.value(&f.acid_made, stop_h) < 0.05 {
        SugarStays::HardlyBegun
    } else {
        SugarStays::AtWork(stop_h)
    }
}

pub(crate) fn why_thick(run: &Run, stop_h: f64) -> Vec<(Part, f64)> {
    let Some((_, chilled)) = run.forecast.textures(stop_h) else { return Vec::new() };
    let mut parts: Vec<(Part, f64)> =
        Part::ALL.into_iter().zip(chilled.parts).filter(|(_, tau)| *tau > 0.0).collect();
    parts.sort_by(|a, b| b.1.total_cmp(&a.1));
    parts
}

pub(crate) fn why_tangy(run: &Run, stop_h: f64) -> Vec<(String, f64)> {
    let f = &run.forecast;
    let mut makers: Vec<(String, f64)> =
        f.species.iter().map(|s| (s.name.clone(), f.value(&s.acid, stop_h))).collect();
    makers.sort_by(|a, b| b.1.total_cmp(&a.1));
    makers
}
