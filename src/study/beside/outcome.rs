//! What is compared of a pot, and what a person would notice of a difference.

use crate::base::number;
use crate::study::Answer;

/// Something that comes of a pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// When pH 4.6 is reached.
    SourAt,
    /// When all goals hold for the first time.
    ReadyFrom,
    Ph,
    /// Undissociated lactic acid: what the tongue takes for sour.
    Tang,
    SugarLeft,
    Sweetness,
    Texture,
    Stiffness,
    Whey,
    Energy,
}

/// From which difference on a person notices it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    By(f64),
    /// A factor, more than 1.
    Times(f64),
}

impl Outcome {
    pub const ALL: [Self; 10] = [
        Self::SourAt,
        Self::ReadyFrom,
        Self::Ph,
        Self::Tang,
        Self::SugarLeft,
        Self::Sweetness,
        Self::Texture,
        Self::Stiffness,
        Self::Whey,
        Self::Energy,
    ];

    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SourAt => "pH 4.6 reached",
            Self::ReadyFrom => "ready from",
            Self::Ph => "pH at the stop",
            Self::Tang => "undissociated acid",
            Self::SugarLeft => "sugar left",
            Self::Sweetness => "sweetness, as sucrose",
            Self::Texture => "texture, chilled",
            Self::Stiffness => "stiffness",
            Self::Whey => "whey on standing",
            Self::Energy => "energy",
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
            Self::Whey => "%",
            Self::Energy => "kJ/100 g",
        }
    }

    /// The least difference that a person notices.
    ///
    /// Source: texture published, 26 % (Stevens and later work on oral viscosity, 10-100 mPa·s); pH assumed between 0.1 and
    /// 0.15; sweetness from memory, about 15 %; stiffness as texture; times, sugar, whey, energy and acid assumed.
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
            Self::Energy => Step::By(20.0),
        }
    }

    /// Its value; `None` where the pot never comes there.
    #[must_use]
    pub fn read(self, a: &Answer) -> Option<f64> {
        let v = &a.verdict;
        let (tang, texture) = (v.tang.as_ref(), v.texture.as_ref());
        match self {
            Self::SourAt => tang?.line_h,
            Self::ReadyFrom => v.window.as_ref().map(|w| w.from_h),
            Self::Ph => tang.map(|t| t.ph),
            Self::Tang => tang.map(|t| t.undissociated),
            Self::SugarLeft => v.sugar.as_ref().map(|s| s.left),
            Self::Sweetness => tang.map(|t| t.sucrose_equivalents),
            Self::Texture => texture.map(|t| t.chilled),
            Self::Stiffness => texture.map(|t| t.stiffness_pa),
            Self::Whey => texture.map(|t| t.whey_standing),
            Self::Energy => Some(a.nutrition.after.kilojoules()),
        }
    }

    /// On this scale differences add up: logarithms where a person notices factors.
    #[must_use]
    pub fn scaled(self, value: f64) -> f64 {
        match self.step() {
            Step::Times(_) => value.max(1e-9).ln(),
            Step::By(_) => value,
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
            Self::Texture | Self::Stiffness => {
                format!("{}{}{}", number::figures(value, 2), number::NBSP, self.unit())
            }
            Self::Energy => number::with_unit(value, 0, self.unit()),
        }
    }
}
