//! What comes of a pot, as numbers to compare: at the stop line, or when. And the one yardstick for what a person notices.
//!
//! Judgements: outcomes that a person meets as one thing are noticed together, or not at all.
//!
//! What the word for it goes by leads, and the other figure follows:
//! - Sourness. Tang leads: the tongue takes undissociated acid for sour, and the tang word goes by it. The pH of two pots
//!   with other buffers can differ where both taste alike, so its own figure decides nothing.
//! - Texture. Thickness leads: the texture word goes by it. Where one of both pots is a gel that a spoon cuts, the word goes by
//!   stiffness, and stiffness leads; all others yield to the spoon, and their stiffness is that of a pot that nothing touched.
//!
//! Energy and cost are read, not tasted. Source: assumed, from what the words go by.

use potset_base::number;

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
        match self {
            Self::Cost => "not known",
            _ => "never",
        }
    }

    /// Whether differences of it are told as factors.
    #[must_use]
    pub const fn by_factor(self) -> bool {
        matches!(self.step(), Step::Times(_))
    }

    /// Its place in [`Outcome::ALL`].
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }
}

impl Outcome {
    /// Where it is read; nothing if whoever eats the pot meets it.
    #[must_use]
    pub const fn on_paper(self) -> Option<&'static str> {
        match self {
            Self::Energy => Some("on the label"),
            Self::Cost => Some("in the price"),
            _ => None,
        }
    }

    /// The outcome by whose step this one is noticed.
    ///
    /// - `cuts` — one of both pots is a gel that a spoon cuts.
    #[must_use]
    pub const fn led_by(self, cuts: bool) -> Self {
        match self {
            Self::Ph => Self::Tang,
            Self::Texture | Self::Stiffness if cuts => Self::Stiffness,
            Self::Texture | Self::Stiffness => Self::Texture,
            other => other,
        }
    }

    /// What is said of a difference: "you would notice", "too small to notice", or where it is read. Empty where there is
    /// nothing to say.
    ///
    /// - `difference` — on the scale of the outcome; nothing where one pot never comes there.
    #[must_use]
    pub fn notice_words(self, difference: Option<f64>, noticed: bool) -> &'static str {
        match (difference, self.on_paper()) {
            (Some(0.0), _) => "the same",
            (Some(_), Some(place)) => place,
            _ if noticed => "you would notice",
            (Some(_), None) => "too small to notice",
            (None, _) => "",
        }
    }

    /// A difference with what is said of it: "+3.0 h · you would notice". Empty where there is nothing to say.
    ///
    /// - `between` — stands between both: " · ", ", ".
    #[must_use]
    pub fn difference_line(self, difference: Option<f64>, noticed: bool, between: &str) -> String {
        let said = self.notice_words(difference, noticed);
        match difference {
            Some(d) if d != 0.0 => format!("{}{between}{said}", self.difference_words(d)),
            _ => said.to_owned(),
        }
    }
}
