//! Published cases: what was measured, how it was read, and under which conditions. No model.
//!
//! A case is data only: [`Setup`] says what was in the pot and what was done to it, [`Reading`] what came of it.

mod check;
mod reading;
mod setup;

use std::collections::BTreeSet;

use serde::Deserialize;

pub use reading::{Reading, Scatter, What};
pub use setup::{BaseAs, Cells, Food, Pot, Prior, Setup, Stop};

use super::{Pantry, format};
use potset_base::{Note, choices};

choices! {
    /// What a case is about; the summary is by these, in this order.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum CaseKind: words {
        PhSeries => "pH series",
        TimeToPh => "time to a pH",
        EndPhAndAcidity => "pH with acidity",
        AcidCeiling => "acid ceilings",
        Sugars => "sugars",
        Storage => "cold storage",
        CountsInStore => "counts in store",
        Flow => "stirred flow",
        Viscosity => "viscosity",
        PlantThickness => "plant thickness",
        Whey => "whey",
        Separation => "separation",
        Denaturation => "denaturation",
        Thermal => "heat",
        CompositionClass => "composition class",
        LineSpread => "line spread",
    }
}

/// Whether a case helped to set the shared parameters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Shared parameters were set with it: agreement is no proof.
    Calibrate,
    /// Not used for any parameter.
    Check,
}

choices! {
    /// How far a case speaks for the model: [`Role`], and whether anybody looked at its misses while choosing a figure.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Mark: word {
        Calibrate => "calibrate",
        Seen => "seen",
        Check => "check",
    }
}

impl Mark {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Calibrate => "helped to set shared parameters",
            Self::Seen => "set no parameter, but was looked at while a figure was chosen",
            Self::Check => "set no parameter and was not looked at while one was chosen",
        }
    }
}

choices! {
    /// How the figures were read.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum HowRead: words {
        /// In a table of the source.
        Table => "read in a table",
        /// In its text or abstract.
        Text => "read in the text or abstract",
        /// Worked out from printed figures; `assumed` says how.
        Derived => "worked out from printed figures",
        /// In another work that quotes it.
        Quoted => "quoted by another work",
        /// From the author's memory; no source at hand.
        Memory => "from memory",
        /// Measured by whoever wrote the case down, on a pot of their own.
        Measured => "measured on a pot of one's own",
    }
}

/// What may be fitted in a case, and with which other cases the fitted values are shared: one culture of one paper.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fit {
    /// Cases with the same name share their fitted values.
    pub shared: String,
    /// Pace of the culture.
    #[serde(default)]
    pub speed: bool,
    /// Its lag.
    #[serde(default)]
    pub lag: bool,
    /// A factor on the buffer of the base; only where the paper gives pH with acidity.
    #[serde(default)]
    pub buffer: bool,
}

/// One published case.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    pub key: String,
    /// In words.
    pub name: String,
    pub kind: CaseKind,
    pub role: Role,
    /// Its misses were looked at while a figure was chosen: agreement is weaker proof.
    #[serde(default)]
    pub seen: bool,
    /// Authors, year, journal, table.
    pub citation: String,
    pub read: HowRead,
    /// What the source does not say and was assumed; what was worked out, and how.
    pub assumed: String,
    pub fit: Option<Fit>,
    pub setup: Setup,
    pub readings: Vec<Reading>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    cases: Vec<Case>,
}

/// The shipped files of evidence, one a kind: name and text.
pub const FILES: &[(&str, &str)] = &[
    ("ph_series.ron", include_str!("../../../assets/evidence/ph_series.ron")),
    ("time_to_ph.ron", include_str!("../../../assets/evidence/time_to_ph.ron")),
    ("ph_with_acidity.ron", include_str!("../../../assets/evidence/ph_with_acidity.ron")),
    ("acid_ceilings.ron", include_str!("../../../assets/evidence/acid_ceilings.ron")),
    ("sugars.ron", include_str!("../../../assets/evidence/sugars.ron")),
    ("storage.ron", include_str!("../../../assets/evidence/storage.ron")),
    ("counts_in_store.ron", include_str!("../../../assets/evidence/counts_in_store.ron")),
    ("flow.ron", include_str!("../../../assets/evidence/flow.ron")),
    ("viscosity.ron", include_str!("../../../assets/evidence/viscosity.ron")),
    ("plant_thickness.ron", include_str!("../../../assets/evidence/plant_thickness.ron")),
    ("separation.ron", include_str!("../../../assets/evidence/separation.ron")),
    ("whey.ron", include_str!("../../../assets/evidence/whey.ron")),
    ("denaturation.ron", include_str!("../../../assets/evidence/denaturation.ron")),
    ("heat.ron", include_str!("../../../assets/evidence/heat.ron")),
    ("composition_class.ron", include_str!("../../../assets/evidence/composition_class.ron")),
    ("line_spread.ron", include_str!("../../../assets/evidence/line_spread.ron")),
];

/// All shipped cases.
///
/// # Errors
/// A note that names the file and the line, or the case at fault.
pub fn shipped() -> Result<Vec<Case>, Note> {
    let mut all = Vec::new();
    for (name, text) in FILES {
        let file: File =
            format::asset(text).map_err(|note| Note { field: format!("{name}, {}", note.field), ..note })?;
        all.extend(file.cases);
    }
    match fault(&all) {
        Some(note) => Err(note),
        None => Ok(all),
    }
}

/// Cases of a maker's own, or of a paper that does not ship: a file in the form of the shipped ones.
///
/// - `pantry` — what the cases may name.
///
/// # Errors
/// A note that names line, field and mend: no text, no such field, a number out of range, an entry that is not there.
pub fn read(bytes: &[u8], pantry: &Pantry) -> Result<Vec<Case>, Note> {
    if format::is_design(bytes) {
        let mend = "Give it to potset verdict; cases are (cases: [...]), see potset help evidence";
        return Err(Note::error("file", "This is a design, not a file of cases", mend));
    }
    let File { cases } = format::asset(format::text(bytes)?)?;
    if cases.is_empty() {
        return Err(Note::error("cases", "There is no case in the file", "Give at least one"));
    }
    let lacks =
        || cases.iter().enumerate().find_map(|(i, case)| Some(of_case(i, check::lacks(case, pantry)?)));
    match fault(&cases).or_else(lacks) {
        Some(note) => Err(format::placed(bytes, note)),
        None => Ok(cases),
    }
}

/// The first fault among cases, its field counted from the list.
fn fault(cases: &[Case]) -> Option<Note> {
    let mut seen = BTreeSet::new();
    cases.iter().enumerate().find_map(|(i, case)| {
        let twice = || {
            (!seen.insert(case.key.as_str()))
                .then(|| Note::error("key", "Two cases have this key", "Rename one of them"))
        };
        let note = case.fault().or_else(twice)?;
        Some(of_case(i, note))
    })
}

fn of_case(i: usize, note: Note) -> Note {
    Note { field: format!("cases[{i}].{}", note.field), ..note }
}

impl Case {
    /// The pot, if that is what was measured.
    pub fn pot(&self) -> Option<&Pot> {
        if let Setup::Pot(pot) = &self.setup { Some(pot) } else { None }
    }

    /// How far the case speaks for the model.
    pub const fn mark(&self) -> Mark {
        match (self.role, self.seen) {
            (Role::Calibrate, _) => Mark::Calibrate,
            (Role::Check, true) => Mark::Seen,
            (Role::Check, false) => Mark::Check,
        }
    }

    /// What is wrong with the case as data, if anything.
    pub fn fault(&self) -> Option<Note> {
        check::fault(self)
    }
}
