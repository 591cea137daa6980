//! The ordered steps of a design: warm, heat-treat, cook a part, cool, culture in, hold with events, chill, store.

use potset_base::choices;
use serde::{Deserialize, Serialize};

/// Longest that a pot is kept, days. Source: assumed, within what published series of counts and acidity reach (most end
/// after 28 days, a few after 35 to 60).
pub const LONGEST_STORE_DAYS: f64 = 42.0;

choices! {
    /// How heat goes in or out.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Way: words {
        /// On the stove, stirred.
        Pan => "in a pan",
        /// In a hot-water bath.
        Bath => "in a hot-water bath",
        /// The closed tin or jar in hot tap water.
        TapWater => "in hot tap water",
        /// In cold tap water, changed now and then.
        ColdWater => "in cold water",
        /// In ice and water.
        IceBath => "in an ice bath",
        /// Standing in the room.
        Room => "standing in the room",
        /// In the fridge.
        Fridge => "in the fridge",
    }
}

/// What may happen during a hold.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Happening {
    /// The pot is stirred.
    Stir,
    /// The warmth is off for some minutes.
    PowerCut { minutes: f64 },
    /// More sugar goes in, g/L.
    LateSugar { entry: String, g_per_l: f64 },
    /// More culture goes in, × packet.
    LateCulture { entry: String, rate: f64 },
    /// The pot is carried about for some minutes in the room: it cools, and what has set is jolted.
    Move { minutes: f64 },
    /// The warmer is set to another temperature, °C.
    SetTo { c: f64 },
}

impl Happening {
    /// It in words, as the steps list says it.
    pub fn words(&self) -> String {
        use potset_base::number::{NBSP, fixed, plain};
        use potset_base::units::said::warmth;
        match self {
            Self::Stir => "stirred".to_owned(),
            Self::PowerCut { minutes } => format!("out of the warmth for {}{NBSP}min", fixed(*minutes, 0)),
            Self::LateSugar { g_per_l, .. } => format!("{}{NBSP}g/L of sugar more", plain(*g_per_l)),
            Self::LateCulture { rate, .. } => format!("{}{NBSP}× culture more", plain(*rate)),
            Self::Move { minutes } => format!("carried about for {}{NBSP}min", fixed(*minutes, 0)),
            Self::SetTo { c } => format!("warmer set to {}", warmth(*c, 0)),
        }
    }
}

/// Something that happens a number of hours into the hold.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Event {
    pub at_h: f64,
    pub what: Happening,
}

/// A temperature that was measured, hours after the culture went in.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    pub at_h: f64,
    pub c: f64,
}

/// The hold.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hold {
    /// Key of the warmer.
    pub warmer: String,
    /// Setting of the warmer, or temperature of the warm place, °C.
    pub set_c: f64,
    /// Planned length: the stop line, h.
    pub hours: f64,
    #[serde(default)]
    pub events: Vec<Event>,
    /// Logged temperatures; where there are any they stand in for the warmer.
    #[serde(default)]
    pub measured: Vec<Reading>,
}

/// One step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Step {
    /// The temperature that the mix starts from.
    Start {
        from_c: f64,
    },
    /// Bring the base to a temperature.
    Warm {
        to_c: f64,
        way: Way,
    },
    /// Bring it to a temperature and keep it there.
    HeatTreat {
        to_c: f64,
        minutes: f64,
        way: Way,
    },
    /// Cook the thickeners in a part of the base, then stir that part back in.
    CookPart {
        share: f64,
        to_c: f64,
        minutes: f64,
    },
    /// Let it stand in some surroundings, h: a rest for lactase, or a wait.
    Stand {
        hours: f64,
        way: Way,
    },
    /// Cool to a temperature.
    Cool {
        to_c: f64,
        way: Way,
    },
    /// The culture goes in: the clock starts.
    CultureIn,
    Hold(Hold),
    /// Chill to a temperature, and leave until so many hours after the hold.
    Chill {
        to_c: f64,
        hours: f64,
        way: Way,
    },
    /// Hang it in a cloth in the cold: so many hours, or until a share of it has run off as whey.
    Strain {
        hours: f64,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        removed: Option<f64>,
    },
    /// Keep.
    Store {
        days: f64,
        at_c: f64,
    },
}

impl Step {
    /// The step in words, for the card and the steps list.
    pub fn words(&self) -> String {
        use potset_base::number::{NBSP, fixed, hours};
        use potset_base::units::said::warmth;
        match self {
            Self::Start { from_c } => format!("Base at {}", warmth(*from_c, 0)),
            Self::Warm { to_c, way } => format!("Warm to {} {}", warmth(*to_c, 0), way.words()),
            Self::HeatTreat { to_c, minutes, way } => format!(
                "Heat to {} {} and keep it there {}{NBSP}min",
                warmth(*to_c, 0),
                way.words(),
                fixed(*minutes, 0)
            ),
            Self::CookPart { share, to_c, minutes } => format!(
                "Stir the thickener into {}{NBSP}% of the base, bring to {} for {}{NBSP}min, stir back in",
                fixed(share * 100.0, 0),
                warmth(*to_c, 0),
                fixed(*minutes, 0)
            ),
            Self::Cool { to_c, way } => format!("Cool to {} {}", warmth(*to_c, 0), way.words()),
            Self::Stand { hours: for_h, way } => format!("Let it stand {} {}", hours(*for_h), way.words()),
            Self::Strain { removed: Some(share), .. } => {
                format!("Strain until {}{NBSP}% has run off", fixed(share * 100.0, 0))
            }
            Self::Strain { hours: for_h, .. } => format!("Strain in a cloth {}", hours(*for_h)),
            Self::CultureIn => "Stir the culture in".to_owned(),
            Self::Hold(hold) => format!("Hold at {} for {}", warmth(hold.set_c, 1), hours(hold.hours)),
            Self::Chill { to_c, hours: after, way } => {
                format!("Chill to {} {}, leave {}", warmth(*to_c, 0), way.words(), hours(*after))
            }
            Self::Store { days, at_c } => {
                format!("Keep at {} for {}{NBSP}days", warmth(*at_c, 0), fixed(*days, 0))
            }
        }
    }
}
