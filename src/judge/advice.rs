//! Advice: what is worth telling of a pot, how grave it is, and its mend. `report::advice` says it.

use crate::hygiene::{Against, Check};
use crate::mends::Mend;
use crate::pace::SlowWarmth;
use crate::readiness::Strict;
use potset_base::words::TangWord;
use potset_base::{Inhibitor, Note, Severity, either};
use potset_forecast::facts::CreamShare;

/// What is worth telling, and its mend.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    pub severity: Severity,
    /// The field that it is about, as the screen and the file name it: `sugars[0]`.
    pub field: String,
    pub what: Matter,
    pub mend: Option<Mend>,
}

impl Advice {
    pub(crate) fn new(
        severity: Severity,
        field: impl Into<String>,
        what: impl Into<Matter>,
        mend: Option<Mend>,
    ) -> Self {
        Self { severity, field: field.into(), what: what.into(), mend }
    }
}

either! {
    /// What is told, by the part that finds it.
    #[derive(Clone, Debug, PartialEq)]
    pub enum Matter {
        Hygiene(Box<Against>),
        /// A look that the plan asks for.
        Check(Check),
        Splits(Splits),
        Making(Making),
        /// A thickener that does not work as it goes in, by name.
        Thickener((String, Fails)),
        Besides(Besides),
        Here(Here),
        /// What was noted when the mix was made.
        Told(Note),
    }
}

/// What is told of a pot that splits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Splits {
    /// So much of the pot is thin; most of it in the hold, or while it cools.
    Layer { percent: f64, in_the_hold: bool },
    /// Stirring at the stop mixes in again what rose.
    StirringMixes,
}

/// What is told of base, food, culture, warmth and goals.
#[derive(Clone, Debug, PartialEq)]
pub enum Making {
    /// A coconut base with little fat.
    Watery(CreamShare),
    /// The base is cut with water; cream in all coconut and water together, 0 to 1.
    CutWithWater(f64),
    /// No culture is in the pot, which stays at this pH.
    NoCulture(f64),
    /// So much that the culture can eat, g/kg, and the pH at which the pot stays.
    NoFood(f64, f64),
    /// Less than half of the packet's dose.
    SmallDose(f64),
    /// A dose on a scale that errs by so much, g.
    BelowTheScale {
        grams: f64,
        error_g: f64,
    },
    /// The culture goes into what stops it, °C.
    IntoTheHeat(f64),
    /// The hold comes to what stops the culture, °C.
    HotHold(f64),
    /// The goal of pH is above the highest that counts, and what asks for that.
    GoalCapped {
        goal: f64,
        ph: f64,
        strict: Option<Strict>,
    },
    /// The starch is at nothing: the pH that is low enough, and the one with starch.
    WithoutStarch(f64, f64),
    SlowWarmth(SlowWarmth),
    /// Sugar left, g/L, and acid made, %, where the culture has stopped at its own acid.
    SweetnessLeads(f64, f64),
    /// Called strained, but nothing strains it.
    NeverStrained,
}

/// Why a thickener does not work as it goes in. Shares are 0 to 1, a gain is how many times as thick its mend makes the warm pot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fails {
    /// Stirred in dry it clumps, and this share is lost.
    Clumps(f64),
    /// It is not cooked: from where it swells, °C.
    Uncooked {
        onset_c: f64,
        share: f64,
        gain: Option<f64>,
    },
    Undissolved {
        dissolve_c: f64,
        share: f64,
        gain: Option<f64>,
    },
    /// It has set where the culture is stirred in, and is broken.
    SetsBefore {
        set_c: f64,
        culture_c: f64,
        broken: f64,
    },
}

/// What is told beside base and culture.
#[derive(Clone, Debug, PartialEq)]
pub enum Besides {
    /// So much of an old culture still lives, 0 to 1.
    OldCulture(f64),
    /// The organisms that are slowed, and by what.
    HeldBack(Vec<String>, Vec<Inhibitor>),
    /// Benzoate and sorbate, mg/kg.
    Preserved(f64),
    /// Acid that chalk takes up, mmol/kg.
    Chalk(f64),
    /// Lactose that lactase leaves, g/kg.
    Lactase(f64),
    /// A gelling agent by name, how far it gels, 0 to 1, and calcium in 100 g, mg.
    StarvedGel(String, f64, f64),
    /// A warmer by name, litres that it holds, and litres of the design.
    TooBig(String, f64, f64),
    NoStraining,
    /// Days that it is kept.
    KeptLong(f64),
    /// From which day in the fridge on it is how tangy.
    Sharper(f64, TangWord),
}

/// What the entries say of themselves, and what this kitchen can tell.
#[derive(Clone, Debug, PartialEq)]
pub enum Here {
    /// Cautions on what goes in, each with the name of the entry.
    Hazards(Vec<(String, String)>),
    /// Something sweet that is no food for the culture, by name, and the food beside it, g/kg.
    NotFood(Option<String>, f64),
    /// A thermometer that errs by so much cannot tell the warmth of the culture from what stops it, °C.
    Thermometer { error: f64, at: f64, end: f64 },
    /// Strips in steps too coarse for the goal of pH.
    CoarseStrips { step: f64, goal: f64 },
    /// A vessel by name, how many the design fills, and how many there are.
    FewVessels(Option<String>, u32, u32),
}
