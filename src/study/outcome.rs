//! What comes of a pot, as numbers to compare: at the stop line, or when. And the one yardstick for what a person notices.

mod judged;

pub use judged::differ_among;

use super::ask::{Ask, Run};
use super::nutrition::nutrition;
use super::readiness::Goal;
use super::ready::told_h;
use super::verdict::{goals_of, sweetness};
use super::{Answer, readiness};
use crate::base::number;
use crate::base::words::TextureWord;

/// How many there are.
pub const COUNT: usize = 12;

/// Something that comes of a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// When pH 4.6 is reached.
    SourAt,
    /// When all goals hold on the likely line for the first time; of an answer that knows its possible pots, when about half
    /// of them are ready.
    ReadyFrom,
    Ph,
    /// Undissociated lactic acid: what the tongue takes for sour.
    Tang,
    SugarLeft,
    Sweetness,
    Texture,
    Stiffness,
    Whey,
    /// Thin layer below, % of the pot, after the chill.
    ThinLayer,
    Energy,
    /// Money per kg of what is eaten.
    Cost,
}

/// The least difference in fat that a person notices, g/100 g: a want of Aim, and no outcome. Source: assumed.
pub const FAT_STEP: f64 = 1.0;

/// From which difference on a person notices it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    By(f64),
    /// A factor, more than 1.
    Times(f64),
}

impl Outcome {
    pub const ALL: [Self; COUNT] = [
        Self::SourAt,
        Self::ReadyFrom,
        Self::Ph,
        Self::Tang,
        Self::SugarLeft,
        Self::Sweetness,
        Self::Texture,
        Self::Stiffness,
        Self::Whey,
        Self::ThinLayer,
        Self::Energy,
        Self::Cost,
    ];

    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SourAt => "pH 4.6 reached",
            Self::ReadyFrom => "goals first hold, likely line",
            Self::Ph => "pH at the stop",
            Self::Tang => "tang, undissociated acid",
            Self::SugarLeft => "sugar left",
            Self::Sweetness => "sweetness, as sucrose",
            Self::Texture => "texture, chilled",
            Self::Stiffness => "stiffness",
            Self::Whey => "whey on standing",
            Self::ThinLayer => "thin layer at the bottom",
            Self::Energy => "energy",
            Self::Cost => "cost",
        }
    }

    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::SourAt | Self::ReadyFrom => "h",
            Self::Ph => "",
            Self::Tang => "mmol/kg",
            Self::SugarLeft => "g/L",
            Self::Sweetness => "g/kg",
            Self::Texture => "Pa·s",
            Self::Stiffness => "Pa",
            Self::Whey | Self::ThinLayer => "%",
            Self::Energy => "kJ/100 g",
            Self::Cost => "per kg",
        }
    }

    /// The least difference that a person notices: the only table of it. What is judged together with another outcome
    /// (pH with tang, stiffness with thickness) is noticed by that one's step; its own then ranks figures and goals alone.
    /// Of energy and cost, which nobody tastes, it is what a maker would act on.
    ///
    /// Source: texture published, 26 % (Camacho et al. 2015, oral viscosity 10-100 mPa·s); pH assumed, between 0.1 and
    /// 0.15; sweetness from memory, about 15 %; stiffness assumed, as texture; times, sugar, whey, thin layer (some
    /// millimetres of a jar), energy, acid and cost assumed.
    #[must_use]
    pub const fn step(self) -> Step {
        match self {
            Self::SourAt | Self::ReadyFrom => Step::By(0.5),
            Self::Ph => Step::By(0.12),
            Self::SugarLeft => Step::By(3.0),
            Self::Tang => Step::Times(1.2),
            Self::Sweetness => Step::Times(1.15),
            Self::Texture | Self::Stiffness => Step::Times(1.26),
            Self::Whey => Step::By(1.0),
            Self::ThinLayer => Step::By(5.0),
            Self::Energy => Step::By(20.0),
            Self::Cost => Step::Times(1.05),
        }
    }

    /// On this scale differences add up: logarithms where a person notices factors.
    #[must_use]
    pub fn scaled(self, value: f64) -> f64 {
        match self.step() {
            Step::Times(_) => value.max(self.least()).ln(),
            Step::By(_) => value,
        }
    }

    /// The value at a place on that scale.
    #[must_use]
    pub fn unscaled(self, place: f64) -> f64 {
        match self.step() {
            Step::Times(_) => place.exp(),
            Step::By(_) => place,
        }
    }

    /// Below this a person tastes none of it: less is no difference. Source: assumed for acid and sweetness.
    const fn least(self) -> f64 {
        match self {
            Self::Tang | Self::Sweetness => 1.0,
            _ => 1e-9,
        }
    }

    /// A difference on that scale in steps that a person notices.
    #[must_use]
    pub fn steps(self, difference: f64) -> f64 {
        match self.step() {
            Step::Times(factor) => difference / factor.ln(),
            Step::By(least) => difference / least,
        }
    }

    /// A difference on that scale in words: "+3.0 h", "×1.4".
    #[must_use]
    pub fn difference_words(self, difference: f64) -> String {
        match self.step() {
            // Beyond a hundred either way the figure says no more than that.
            Step::Times(_) if difference < -100.0_f64.ln() => "next to nothing".to_owned(),
            Step::Times(_) if difference > 100.0_f64.ln() => "over a hundred times".to_owned(),
            Step::Times(_) => format!("×{}", number::figures(difference.exp(), 2)),
            Step::By(_) => {
                let sign = if difference > 0.0 { "+" } else { "" };
                format!("{sign}{}", self.words(difference))
            }
        }
    }

    /// A value with its unit.
    #[must_use]
    pub fn words(self, value: f64) -> String {
        match self {
            Self::Ph => number::fixed(value, 2),
            Self::SourAt | Self::ReadyFrom | Self::SugarLeft | Self::Sweetness | Self::Tang | Self::Whey => {
                number::with_unit(value, 1, self.unit())
            }
            Self::ThinLayer => number::with_unit(value, 0, self.unit()),
            Self::Texture | Self::Stiffness => {
                format!("{}{}{}", number::figures(value, 2), number::NBSP, self.unit())
            }
            Self::Energy => number::with_unit(value, 0, self.unit()),
            Self::Cost => number::with_unit(value, 2, self.unit()),
        }
    }

    /// What stands where there is no value.
    #[must_use]
    pub const fn none(self) -> &'static str {
        if self.may_be_unknown() { "not known" } else { "never" }
    }

    /// Whether no value means that it is not known, not that the pot never gets there.
    #[must_use]
    pub const fn may_be_unknown(self) -> bool {
        matches!(self, Self::Cost)
    }

    /// Whether differences of it are told as factors.
    #[must_use]
    pub const fn by_factor(self) -> bool {
        matches!(self.step(), Step::Times(_))
    }

    const fn index(self) -> usize {
        self as usize
    }
}

/// All that comes of a pot; nothing where it never comes there, or where it is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Outcomes {
    values: [Option<f64>; COUNT],
    /// It is a gel that a spoon cuts, as it is eaten.
    cuts: bool,
}

impl Outcomes {
    /// Reads them off a run.
    #[must_use]
    pub fn of(ask: &Ask<'_>, run: &Run) -> Self {
        let mut out = Self::of_curves(run, &goals_of(ask, run));
        let table = nutrition(&run.facts.content, &run.mix, &run.forecast, ask.design.pots.serving_g);
        out.values[Outcome::Energy.index()] = Some(table.after.kilojoules());
        out.values[Outcome::Cost.index()] = table.cost.whole().then_some(table.cost.per_kg);
        out
    }

    /// Those that the curves tell, of a run with its goals: all but energy and cost.
    #[must_use]
    pub fn of_curves(run: &Run, goals: &[Goal]) -> Self {
        let f = &run.forecast;
        let stop_h = run.mix.stop_h;
        let at = |ys: &[f64]| f.value(ys, stop_h);
        let window = readiness::window(&f.t, goals, stop_h);
        let chilled = f.textures(stop_h).map(|(_, chilled)| chilled);
        let whey = chilled.map(|chilled| chilled.whey.standing);
        let mut out = Self { cuts: chilled.is_some_and(|chilled| chilled.cut), ..Self::default() };
        for outcome in Outcome::ALL {
            out.values[outcome.index()] = match outcome {
                Outcome::SourAt => f.time_to_ph(run.mix.laws.ready.acid_line_ph),
                Outcome::ReadyFrom => window.as_ref().map(|w| w.from_h),
                Outcome::Ph => Some(at(&f.ph)),
                Outcome::Tang => Some(at(&f.undissociated)),
                Outcome::SugarLeft => Some(f.sugars_at(stop_h).map(|g| g * f.density).iter().sum()),
                Outcome::Sweetness => Some(sweetness(run, stop_h)),
                Outcome::Texture => Some(at(&f.chilled.viscosity50)),
                Outcome::Stiffness => Some(at(&f.chilled.stiffness_pa)),
                Outcome::Whey => whey,
                Outcome::ThinLayer => chilled.map(|chilled| chilled.thin_layer),
                Outcome::Energy | Outcome::Cost => None,
            };
        }
        out
    }

    /// Reads them off an answer; none where there is no forecast.
    #[must_use]
    pub fn of_answer(a: &Answer) -> Self {
        let mut out = Self::default();
        if !a.errors.is_empty() {
            return out;
        }
        let v = &a.verdict;
        let (tang, texture) = (v.tang.as_ref(), v.texture.as_ref());
        let cost = &a.nutrition.cost;
        out.cuts = texture.is_some_and(|t| t.word == TextureWord::Cuts);
        for outcome in Outcome::ALL {
            out.values[outcome.index()] = match outcome {
                Outcome::SourAt => tang.and_then(|t| t.line_h),
                Outcome::ReadyFrom => match &a.ready {
                    Some(ready) => ready.half_h.map(told_h),
                    None => v.window.as_ref().map(|w| w.from_h),
                },
                Outcome::Ph => tang.map(|t| t.ph),
                Outcome::Tang => tang.map(|t| t.undissociated),
                Outcome::SugarLeft => v.sugar.as_ref().map(|s| s.left),
                Outcome::Sweetness => tang.map(|t| t.sucrose_equivalents),
                Outcome::Texture => texture.map(|t| t.chilled),
                Outcome::Stiffness => texture.map(|t| t.stiffness_pa),
                Outcome::Whey => texture.map(|t| t.whey_standing),
                Outcome::ThinLayer => texture.map(|t| t.thin_layer),
                Outcome::Energy => Some(a.nutrition.after.kilojoules()),
                Outcome::Cost => cost.whole().then_some(cost.per_kg),
            };
        }
        out
    }

    /// One of them.
    #[must_use]
    pub const fn get(&self, outcome: Outcome) -> Option<f64> {
        self.values[outcome.index()]
    }
}
