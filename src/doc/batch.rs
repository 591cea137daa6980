//! A pot really made: the design as it was begun, what was read of it, and what became of it. No model.
//!
//! One file a pot. What is still to be done with a pot that is under way is its plan, frozen when it was begun.

pub mod change;
pub mod check;
pub mod known;
pub mod rows;
mod said;
pub mod spoken;

use serde::{Deserialize, Serialize};

use super::parts::parts;
use super::steps;
use super::{Design, Kitchen};
use potset_base::clock::{Moment, Zone};
use potset_base::words::{SweetWord, TangWord, TextureWord};

/// What was read, and what came of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Observed {
    /// pH by a meter.
    Ph(f64),
    /// pH by a paper strip.
    Strip(f64),
    /// Titratable acidity, % lactic acid.
    Acidity(f64),
    /// Warmth in the pot, °C.
    Warmth(f64),
    Tang(TangWord),
    Sweetness(SweetWord),
    /// What a spoon of it does.
    Texture(TextureWord),
    /// How far a spoonful runs on a plate in the line-spread test, cm.
    LineSpread(f64),
    /// Thin layer below, mm.
    ThinLayer(f64),
    /// Whey poured off, mL.
    Whey(f64),
    /// Nothing but its note or its photo.
    Remark,
}

parts! {
    /// One reading.
    pub struct BatchReading {
        /// Hours since the culture went in; less than nothing before.
        pub at_h: f64,
        pub what: Observed,
        pub note: String = default,
        /// File name of a photo. The photo itself stays where it is.
        pub photo: String = default,
        pub who: String = default,
    }

    /// One line of the plan, as it was when the pot was begun.
    pub struct PlanLine {
        /// Hours since the culture went in; less than nothing before it.
        pub at_h: f64,
        pub words: String,
    }

    /// The lot of an ingredient.
    pub struct Lot {
        /// The ingredient as a person says it.
        pub of: String,
        pub lot: String,
    }

    /// A course of warmth from a logger.
    pub struct Logged {
        /// Name of the file that it came from.
        pub file: String,
        /// Rising times, hours since the culture went in.
        pub course: Vec<steps::Reading>,
    }

    /// A pot really made.
    pub struct Batch {
        pub name: String,
        /// The signs that find its recipe again.
        pub code: String = default,
        /// When the culture went in, local time: "2026-11-26 18:30"; empty while it has not.
        pub culture_in: String = default,
        /// The time zone of that, as the IANA names it; empty for the world's own clock.
        pub zone: String = default,
        /// The design as it was made, with the entries that it uses and the amounts that really went in.
        pub design: Design,
        /// The kitchen as it was then.
        pub kitchen: Kitchen,
        pub plan: Vec<PlanLine> = default,
        /// Which packet of culture: a name of the maker's own, one a packet.
        pub packet: String = default,
        pub lots: Vec<Lot> = default,
        pub who: String = default,
        /// By time.
        pub readings: Vec<BatchReading> = default,
        pub logged: Option<Logged> = default,
        /// When it was really taken out of the warmth, hours since the culture went in.
        pub stopped_h: Option<f64> = default,
        /// No longer followed.
        pub ended: bool = default,
        /// None to [`super::recipe::MOST_STARS`].
        pub stars: u8 = default,
        pub note: String = default,
        /// Day by which it is to be eaten, "2026-12-10".
        pub use_by: String = default,
        /// Nothing is to be learnt from it.
        pub left_out: bool = default,
    }
}

impl BatchReading {
    /// A reading without note, photo and name.
    pub const fn new(at_h: f64, what: Observed) -> Self {
        Self { at_h, what, note: String::new(), photo: String::new(), who: String::new() }
    }
}

impl Batch {
    /// A pot that is begun, of which nothing more is known.
    ///
    /// - `culture_in` — local time "2026-11-26 18:30", empty while the culture is not in
    /// - `zone` — the zone of that
    pub fn begun(name: &str, culture_in: &str, zone: &str, design: Design, kitchen: Kitchen) -> Self {
        Self {
            name: name.to_owned(),
            code: String::new(),
            culture_in: culture_in.to_owned(),
            zone: zone.to_owned(),
            design,
            kitchen,
            plan: Vec::new(),
            packet: String::new(),
            lots: Vec::new(),
            who: String::new(),
            readings: Vec::new(),
            logged: None,
            stopped_h: None,
            ended: false,
            stars: 0,
            note: String::new(),
            use_by: String::new(),
            left_out: false,
        }
    }

    /// When the culture went in, by the clock of its zone; nothing while it has not.
    pub fn start(&self) -> Option<Moment> {
        Moment::parse(&self.culture_in)
    }

    /// The zone whose clock its times are of.
    pub fn clock(&self) -> Zone {
        Zone::named(&self.zone).unwrap_or_default()
    }

    /// When it is so many hours after the culture went in, by the clock of its zone.
    pub fn moment(&self, at_h: f64) -> Option<Moment> {
        Some(self.start()?.after_in(&self.clock(), at_h))
    }

    /// Hours from when the culture went in to a moment of the clock of some zone.
    pub fn hours_to(&self, moment: Moment, zone: &Zone) -> Option<f64> {
        let own = self.clock();
        Some(moment.in_zone(zone, &own).hours_since_in(&own, self.start()?))
    }

    /// Whether it is under way.
    pub const fn running(&self) -> bool {
        !self.ended
    }

    /// Puts a reading in its place by time, behind others of the same time; where that is.
    pub fn insert(&mut self, reading: BatchReading) -> usize {
        let at = self.readings.partition_point(|r| r.at_h <= reading.at_h);
        self.readings.insert(at, reading);
        at
    }
}
