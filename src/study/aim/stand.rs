//! How a run stands to what is wanted: how far it is inside each bound, in steps that a person would notice.

use super::want::{Bounds, Quantity, Want};
use crate::base::words::TextureWord;
use crate::doc::steps::Step;
use crate::numerics::interpolate::curve;
use crate::science::params::{Laws, WordLaw};
use crate::science::sensory::tang_bounds;
use crate::study::ask::{Ask, Run};
use crate::study::nutrition::nutrition;
use crate::study::outcome::Outcome;
use crate::study::verdict::release_ph_of;

/// What a proposal has to keep: the maker's wants, and what every pot has to keep whatever is wanted.
#[derive(Clone, Debug, PartialEq)]
pub enum Demand {
    Want(Want),
    /// Sour enough to be called done, by the design's own goal or the usual one.
    Done,
    /// Sour in time, so that the caution on slow souring does not tell to throw it away.
    InTime,
}

/// Margin of what is not known, steps; of a pot without a forecast too.
pub const UNKNOWN: f64 = -200.0;
/// Margins are not counted beyond this, steps: farther inside is no better.
const MOST: f64 = 10.0;
/// The least difference in fat that is noticed, g/100 g. Source: assumed.
const FAT_STEP: f64 = 1.0;
/// Above this a step counts as cooking, °C. Source: assumed; a hot-water bath and a culture's warmth stay under it.
pub const COOKING_C: f64 = 60.0;

/// What of a run is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Seen {
    viscosity: f64,
    cut: bool,
    stiffness_pa: f64,
    tang: f64,
    ph: f64,
    sugar: f64,
    whey: f64,
    stop_h: f64,
    cost: Option<f64>,
    fat: f64,
    release_ph: f64,
    /// pH at the time of throwing away, and the line that it must be under by then.
    late: Option<(f64, f64)>,
}

impl Seen {
    fn of(ask: &Ask<'_>, run: &Run, demands: &[Demand]) -> Self {
        let f = &run.forecast;
        let stop_h = run.mix.stop_h;
        let at = |ys: &[f64]| f.value(ys, stop_h);
        let chilled = f.textures(stop_h).map(|(_, chilled)| chilled);
        let eaten = demands.iter().any(
            |d| matches!(d, Demand::Want(Want::Within(q, _)) if matches!(q, Quantity::Cost | Quantity::Fat)),
        );
        let table = eaten.then(|| nutrition(&run.facts.content, &run.mix, f, ask.design.pots.serving_g));
        let row = run.mix.laws.cautions.get(run.mix.caution);
        Self {
            viscosity: at(&f.chilled.viscosity50),
            cut: chilled.is_some_and(|c| c.cut),
            stiffness_pa: at(&f.chilled.stiffness_pa),
            tang: at(&f.undissociated),
            ph: at(&f.ph),
            sugar: f.sugars_at(stop_h).map(|g| g * f.density).iter().sum(),
            whey: chilled.map_or(f64::NAN, |c| c.whey.standing),
            stop_h,
            cost: table.as_ref().filter(|t| t.cost.whole()).map(|t| t.cost.per_kg),
            fat: table.as_ref().map_or(f64::NAN, |t| t.after.fat),
            release_ph: release_ph_of(ask, run),
            late: row
                .filter(|row| row.discard_h <= stop_h)
                .map(|row| (curve(&f.t, &f.ph, row.discard_h), row.discard_ph)),
        }
    }

    fn value(&self, q: Quantity) -> Option<f64> {
        match q {
            Quantity::Texture => Some(self.viscosity),
            Quantity::Tang => Some(self.tang),
            Quantity::Ph => Some(self.ph),
            Quantity::Sugar => Some(self.sugar),
            Quantity::Ready => Some(self.stop_h),
            Quantity::Cost => self.cost,
            Quantity::Fat => Some(self.fat),
            Quantity::Whey => Some(self.whey),
        }
    }
}

/// Difference of two values of a quantity in steps that a person notices; more than nothing where `to` is the larger.
#[must_use]
pub fn steps(q: Quantity, from: f64, to: f64) -> f64 {
    let outcome = match q {
        Quantity::Texture => Outcome::Texture,
        Quantity::Tang => Outcome::Tang,
        Quantity::Ph => Outcome::Ph,
        Quantity::Sugar => Outcome::SugarLeft,
        Quantity::Ready => Outcome::ReadyFrom,
        Quantity::Cost => Outcome::Cost,
        Quantity::Whey => Outcome::Whey,
        Quantity::Fat => return (to - from) / FAT_STEP,
    };
    outcome.steps(outcome.scaled(to) - outcome.scaled(from))
}

/// How far a run is inside each bound of the demands, in steps that a person notices: 0 or more, it holds. As many and in
/// the same order for every run of the same demands; a range has one for each of its ends.
#[must_use]
pub fn margins(ask: &Ask<'_>, run: &Run, demands: &[Demand]) -> Vec<f64> {
    let seen = Seen::of(ask, run, demands);
    demands.iter().flat_map(|d| sides(d, &seen, &run.mix.laws)).collect()
}

/// How many margins the demands have.
#[must_use]
pub fn count(demands: &[Demand]) -> usize {
    demands.iter().map(sides_of).sum()
}

/// Places of the margins of one demand among all.
#[must_use]
pub fn places(demands: &[Demand], of: usize) -> std::ops::Range<usize> {
    let first = count(&demands[..of]);
    first..first + demands.get(of).map_or(0, sides_of)
}

fn sides_of(demand: &Demand) -> usize {
    match demand {
        Demand::Done | Demand::InTime => 1,
        Demand::Want(Want::Texture(..) | Want::Tang(..)) => 2,
        Demand::Want(Want::Within(_, b)) => usize::from(b.low.is_some()) + usize::from(b.high.is_some()),
        Demand::Want(Want::Vegan | Want::GlutenFree | Want::NoCooking | Want::Only(_)) => 0,
    }
}

fn sides(demand: &Demand, seen: &Seen, laws: &Laws) -> Vec<f64> {
    let mut sides = match demand {
        Demand::Done => vec![steps(Quantity::Ph, seen.ph, seen.release_ph)],
        Demand::InTime => {
            vec![seen.late.map_or(MOST, |(ph, line)| steps(Quantity::Ph, ph, line))]
        }
        Demand::Want(Want::Texture(low, high)) => texture(seen, *low, *high, &laws.words).to_vec(),
        Demand::Want(Want::Tang(low, high)) => {
            let (from, to) = (tang_bounds(*low, &laws.words).0, tang_bounds(*high, &laws.words).1);
            vec![
                if from > 0.0 { steps(Quantity::Tang, from, seen.tang) } else { MOST },
                if to.is_finite() { steps(Quantity::Tang, seen.tang, to) } else { MOST },
            ]
        }
        Demand::Want(Want::Within(q, bounds)) => within(*q, *bounds, seen),
        Demand::Want(Want::Vegan | Want::GlutenFree | Want::NoCooking | Want::Only(_)) => Vec::new(),
    };
    for side in &mut sides {
        *side = if side.is_nan() { UNKNOWN } else { side.clamp(UNKNOWN, MOST) };
    }
    sides
}

fn within(q: Quantity, bounds: Bounds, seen: &Seen) -> Vec<f64> {
    let value = seen.value(q);
    let side = |v: Option<f64>| v.unwrap_or(UNKNOWN);
    let low = bounds.low.map(|low| side(value.map(|v| steps(q, low, v))));
    let high = bounds.high.map(|high| side(value.map(|v| steps(q, v, high))));
    low.into_iter().chain(high).collect()
}

/// Inside of its low and of its high word. A pot that is cut is thicker than every other word.
fn texture(seen: &Seen, low: TextureWord, high: TextureWord, law: &WordLaw) -> [f64; 2] {
    let (begins, ends) = texture_bounds(low, high, law);
    // How far it is past being cut. What is stiff enough and still not cut lacks something else: half a step stands for that.
    let stiff = Outcome::Stiffness;
    let past = stiff.steps(stiff.scaled(seen.stiffness_pa) - stiff.scaled(law.cuts_above_pa));
    let cuts = if seen.cut { past.max(0.0) } else { past.min(-0.5) };
    let thicker = match (low, seen.cut) {
        (TextureWord::Cuts, _) => cuts,
        (TextureWord::Pours, _) | (_, true) => MOST,
        _ => steps(Quantity::Texture, begins, seen.viscosity),
    };
    let thinner = match (high, seen.cut) {
        (TextureWord::Cuts, _) => MOST,
        (_, true) => -cuts.max(0.5),
        (_, false) => ends.map_or(MOST, |ends| steps(Quantity::Texture, seen.viscosity, ends)),
    };
    [thicker, thinner]
}

/// Where a span of texture words begins and ends, Pa·s; open where nothing is too thick.
fn texture_bounds(low: TextureWord, high: TextureWord, law: &WordLaw) -> (f64, Option<f64>) {
    let begins = match low {
        TextureWord::Pours => 0.0,
        TextureWord::Ribbons => law.pours_below,
        TextureWord::Dollops => law.ribbons_below,
        TextureWord::Stands | TextureWord::Cuts => law.dollops_below,
    };
    let ends = match high {
        TextureWord::Pours => Some(law.pours_below),
        TextureWord::Ribbons => Some(law.ribbons_below),
        TextureWord::Dollops => Some(law.dollops_below),
        TextureWord::Stands | TextureWord::Cuts => None,
    };
    (begins, ends)
}

/// How one demand stands: its least margin and what it is there.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// In words: "pH ≤ 4.3".
    pub name: String,
    /// Steps that a person notices; 0 or more: it holds.
    pub margin: f64,
    /// The value there in words; empty for rules.
    pub value: String,
    /// What is missing in the unit of the demand, "0.25 h"; empty where it holds, or where it is not a number.
    pub short: String,
}

impl Standing {
    /// Whether it holds.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.margin >= 0.0
    }
}

/// How a run stands to each demand, rules included.
#[must_use]
pub fn standings(ask: &Ask<'_>, run: &Run, demands: &[Demand]) -> Vec<Standing> {
    let seen = Seen::of(ask, run, demands);
    demands.iter().map(|demand| standing(ask, run, demand, &seen)).collect()
}

fn standing(ask: &Ask<'_>, run: &Run, demand: &Demand, seen: &Seen) -> Standing {
    let laws = &run.mix.laws;
    let least = |sides: Vec<f64>| sides.into_iter().fold(MOST, f64::min);
    let margin = match demand {
        Demand::Want(want @ (Want::Vegan | Want::GlutenFree | Want::NoCooking | Want::Only(_))) => {
            if kept(ask, run, want) { MOST } else { -1.0 }
        }
        other => least(sides(other, seen, laws)),
    };
    let (q, low, high) = bounds_of(demand, seen, laws);
    let value = q.and_then(|q| Some((q, seen.value(q)?)));
    let short = match value {
        Some((q, v)) if margin < 0.0 => {
            let off = low.map_or(0.0, |low| low - v).max(high.map_or(0.0, |high| v - high));
            if off > 0.0 { q.words(off) } else { String::new() }
        }
        _ => String::new(),
    };
    let value = match (demand, value) {
        (Demand::InTime, _) => seen.late.map_or_else(String::new, |(ph, _)| Quantity::Ph.words(ph)),
        (_, Some((q, v))) => q.words(v),
        (Demand::Want(Want::Within(..)), None) => "not known".to_owned(),
        _ => String::new(),
    };
    Standing { name: name(demand, seen), margin, value, short }
}

/// The quantity of a demand and its bounds as numbers.
fn bounds_of(demand: &Demand, seen: &Seen, laws: &Laws) -> (Option<Quantity>, Option<f64>, Option<f64>) {
    let words = &laws.words;
    match demand {
        Demand::Done => (Some(Quantity::Ph), None, Some(seen.release_ph)),
        Demand::InTime => (None, None, None),
        Demand::Want(Want::Within(q, b)) => (Some(*q), b.low, b.high),
        Demand::Want(Want::Tang(low, high)) => {
            let high = Some(tang_bounds(*high, words).1).filter(|v| v.is_finite());
            (Some(Quantity::Tang), Some(tang_bounds(*low, words).0), high)
        }
        Demand::Want(Want::Texture(low, high)) => {
            let (low, high) = texture_bounds(*low, *high, words);
            (Some(Quantity::Texture), Some(low), high)
        }
        Demand::Want(_) => (None, None, None),
    }
}

fn name(demand: &Demand, seen: &Seen) -> String {
    match demand {
        Demand::Want(want) => want.words(),
        Demand::Done => {
            format!("sour enough to be called done (pH ≤ {})", crate::base::number::fixed(seen.release_ph, 1))
        }
        Demand::InTime => "sour in time, by the caution on slow souring".to_owned(),
    }
}

/// Whether a pot keeps a rule.
fn kept(ask: &Ask<'_>, run: &Run, rule: &Want) -> bool {
    let going_in = &run.facts.content.ingoing;
    match rule {
        Want::Vegan => going_in.iter().all(|i| i.vegan),
        Want::GlutenFree => going_in.iter().all(|i| i.gluten_free),
        Want::NoCooking => !ask.design.steps.iter().any(cooks),
        Want::Only(keys) => {
            let d = ask.design;
            let bases = d.bases.iter().map(|l| &l.entry);
            let dry = d.sugars.iter().map(|l| &l.entry).chain(d.thickeners.iter().map(|l| &l.entry));
            let rest = d.additives.iter().map(|l| &l.entry).chain(d.cultures.iter().map(|l| &l.entry));
            bases.chain(dry).chain(rest).all(|key| keys.contains(key))
        }
        Want::Texture(..) | Want::Tang(..) | Want::Within(..) => true,
    }
}

/// Whether a step is cooking.
#[must_use]
pub fn cooks(step: &Step) -> bool {
    match step {
        Step::HeatTreat { .. } | Step::CookPart { .. } => true,
        Step::Warm { to_c, .. } => *to_c > COOKING_C,
        _ => false,
    }
}
