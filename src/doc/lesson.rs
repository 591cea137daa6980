//! A lesson: one question to a room, one or two pots that answer it, a guess before, the reason after, and what must hold.
//!
//! **The file.** Format "potset lesson". A pot of a lesson is `whole((…))`, a design as it stands: so is a lesson of a maker's
//! own, and it opens anywhere. The lessons that ship keep short: theirs are `demo("coconut-pot.ron")`, a design that ships
//! with the program, or `first`, the lesson's first pot again; each then with its `alter`, what is otherwise.
//! Which answer of the room comes true is written nowhere: each answer names what must hold for it, and the pots tell.

pub mod check;

use serde::{Deserialize, Serialize};

use super::design::Design;
use super::edit::LineKind;
use super::parts::parts;
use super::steps::Step;
use potset_base::{Note, Source, choices};

choices! {
    /// What a strip shows against the hours, and what a claim is about.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum LessonCurve: words {
        /// pH.
        Sourness => "sourness",
        Tang => "tang",
        SugarLeft => "sugar left",
        Lactose => "lactose",
        /// As the pot stands in its warmth.
        WarmThickness => "thickness in the warm pot",
        /// As it would be from the fridge, had it been stopped then.
        Thickness => "thickness from the fridge",
        Stiffness => "firmness from the fridge",
        ThinLayer => "thin layer at the bottom",
        Whey => "whey on top",
    }
}

/// Which pot of a lesson.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Which {
    First,
    Second,
}

/// When a pot is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum When {
    /// When it is stopped, by its own plan.
    Stop,
    /// So many hours after the culture went in.
    Hour(f64),
}

/// A curve of a pot at a time.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Place(pub LessonCurve, pub Which, pub When);

/// Something that a lesson says of its pots, in a form that running them can break.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Claim {
    /// One is higher than the other, by so much in the unit of the curve.
    Higher {
        here: Place,
        than: Place,
        by: f64,
    },
    /// One is so many times the other.
    Times {
        here: Place,
        than: Place,
        by: f64,
    },
    /// One is less than so many times the other.
    Under {
        here: Place,
        than: Place,
        by: f64,
    },
    /// They differ by less than a person notices.
    Alike {
        here: Place,
        and: Place,
    },
    AtLeast {
        here: Place,
        value: f64,
    },
    AtMost {
        here: Place,
        value: f64,
    },
    /// It comes down to pH 4.6 by then, h.
    SourBy(Which, f64),
    /// It is still above pH 4.6 then, h.
    NotSourBy(Which, f64),
    /// Hygiene throws the pot away as it is planned.
    ThrownAway(Which),
    /// Hygiene has nothing against the pot that throws it away.
    NotThrownAway(Which),
}

/// A number of the design that can be turned before the room; places are those of the design's lists.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LessonLever {
    /// L.
    Litres(usize),
    /// % of the volume of all bases.
    Share(usize),
    /// g/L.
    Sugar(usize),
    Thickener(usize),
    /// × packet.
    Culture(usize),
    /// Days.
    CultureAge(usize),
    /// Heat treatment, °C and min.
    HeatTo,
    HeatFor,
    /// What the base is brought to before the culture goes in, °C.
    CultureIn,
    /// °C.
    HoldAt,
    /// When it is stopped, h.
    StopAt,
    /// Hours in the fridge.
    ChillFor,
    /// A rest before the culture, h.
    Rest(usize),
}

/// In what a pot is otherwise than the design that it comes from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Alter {
    Set(LessonLever, f64),
    /// Another entry of the pantry in the place of a line's.
    Swap(LineKind, usize, String),
    /// An entry more, at an amount in the unit of its list.
    Add(LineKind, String, f64),
    Remove(LineKind, usize),
    /// These steps in the place of all that comes before the culture.
    Before(Vec<Step>),
}

/// Where a pot of a lesson comes from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PotOf {
    /// A design that ships with the program, by the name of its file.
    Demo(String),
    /// The lesson's first pot.
    First,
    Whole(Box<Design>),
}

parts! {
    /// A pot of a lesson.
    pub struct LessonPot {
        /// How the room calls it: "With sugar".
        pub name: String,
        pub of: PotOf,
        pub alter: Vec<Alter> = default,
    }

    /// One of the answers that the room chooses among.
    pub struct Choice {
        pub words: String,
        /// It comes true where all of this holds.
        pub when: Vec<Claim>,
    }

    /// A lesson.
    pub struct Lesson {
        pub title: String,
        pub question: String,
        pub first: LessonPot,
        /// What it is put beside, where the lesson compares.
        pub second: Option<LessonPot> = default,
        /// What is done, as the room is told before it sees the curves: "The second pot gets no sugar".
        pub change: String,
        pub guess: Guess,
        /// What is shown, one or two.
        pub strips: Vec<LessonCurve>,
        /// Hours shown.
        pub hours: f64,
        /// What the room may turn afterwards, on the last pot; three at most.
        pub levers: Vec<LessonLever> = default,
        /// Why, in two plain sentences.
        pub reason: Vec<String>,
        pub source: Source,
        /// What must hold, so that the lesson stays true.
        pub claims: Vec<Claim>,
        /// When the early, the middle and the late pot on the table were stopped, h; nothing: by thirds of the hold.
        pub table: Option<(f64, f64, f64)> = default,
    }
}

/// How the room guesses before it sees.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Guess {
    /// It chooses among answers.
    Choose(Vec<Choice>),
    /// Somebody draws the curve of the last pot by hand.
    Draw(LessonCurve),
}

impl Place {
    /// A curve of a pot when it is stopped.
    pub const fn stop(of: LessonCurve, pot: Which) -> Self {
        Self(of, pot, When::Stop)
    }
}

impl Claim {
    /// The pots that it is about.
    pub fn pots(&self) -> Vec<Which> {
        match self {
            Self::Higher { here, than: other, .. }
            | Self::Times { here, than: other, .. }
            | Self::Under { here, than: other, .. }
            | Self::Alike { here, and: other } => vec![here.1, other.1],
            Self::AtLeast { here, .. } | Self::AtMost { here, .. } => vec![here.1],
            Self::SourBy(pot, _)
            | Self::NotSourBy(pot, _)
            | Self::ThrownAway(pot)
            | Self::NotThrownAway(pot) => {
                vec![*pot]
            }
        }
    }

    /// The numbers in it: hours, and what it compares by.
    pub fn numbers(&self) -> Vec<f64> {
        let hour = |place: &Place| match place.2 {
            When::Stop => 0.0,
            When::Hour(h) => h,
        };
        match self {
            Self::Higher { here, than, by }
            | Self::Times { here, than, by }
            | Self::Under { here, than, by } => {
                vec![hour(here), hour(than), *by]
            }
            Self::Alike { here, and } => vec![hour(here), hour(and)],
            Self::AtLeast { here, value } | Self::AtMost { here, value } => vec![hour(here), *value],
            Self::SourBy(_, h) | Self::NotSourBy(_, h) => vec![*h],
            Self::ThrownAway(_) | Self::NotThrownAway(_) => Vec::new(),
        }
    }
}

impl Lesson {
    /// Its pots in order.
    pub fn pots(&self) -> impl Iterator<Item = &LessonPot> {
        std::iter::once(&self.first).chain(&self.second)
    }

    /// The pot that is guessed at and that the levers turn: the second, or the only one.
    pub const fn last(&self) -> Which {
        if self.second.is_some() { Which::Second } else { Which::First }
    }

    /// The answers to choose among; none where the curve is drawn.
    pub fn answers(&self) -> &[Choice] {
        match &self.guess {
            Guess::Choose(answers) => answers,
            Guess::Draw(_) => &[],
        }
    }
}

/// What is wrong with a first pot that is to be the first pot.
pub fn no_first() -> Note {
    Note::error(
        "first.of",
        "The first pot cannot be itself",
        "Give it a design, or the name of a demo design",
    )
}

#[cfg(test)]
mod tests;
