//! A design: one recipe with its steps, goals and notes, and a copy of the pantry entries that it uses.

use serde::{Deserialize, Serialize};

use super::goals::Goals;
pub use super::lines::{
    AddedWhen, AdditiveLine, BaseLine, CultureLine, GoesIn, LabelFigures, Powder, SugarLine, SweetWhen,
    ThickenerLine,
};
use super::pantry::{
    Additive, Base, BufferShape, Culture, Entry, EntryKind, Listed, Organism, Pantry, Sweetener, Thickener,
    Vessel, Warmer, either,
};
use super::steps::{Happening, Hold, Step};
use potset_base::choices;
use potset_base::clock::Moment;
use potset_base::measures::SpoonSet;
use potset_base::words::Style;

/// The pots.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pots {
    pub vessel: String,
    pub count: u32,
    /// One serving, g.
    #[serde(default = "serving", skip_serializing_if = "is_serving")]
    pub serving_g: f64,
}

/// The usual serving, g (common practice: a pot of yogurt of 125 g).
pub const SERVING_G: f64 = 125.0;

const fn serving() -> f64 {
    SERVING_G
}

fn is_serving(grams: &f64) -> bool {
    (*grams - SERVING_G).abs() < 1e-9
}

choices! {
    /// What is done to the pot after it has set.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Disturbed: words {
        /// Only by the spoon that eats it.
        #[default]
        SpoonOnly => "only by the spoon",
        StirredByHand => "stirred by hand",
        /// Strained, pumped or filled.
        Worked => "strained or filled",
        /// Blended or homogenised.
        Blended => "blended smooth",
    }
}

/// When the culture goes in, or by when the pot must be ready. Local time as "2026-11-26 18:30".
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Clock {
    #[default]
    Open,
    StartsAt(String),
    ReadyBy(String),
}

/// One recipe.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Design {
    pub name: String,
    pub bases: Vec<BaseLine>,
    #[serde(default)]
    pub sugars: Vec<SugarLine>,
    #[serde(default)]
    pub thickeners: Vec<ThickenerLine>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub additives: Vec<AdditiveLine>,
    #[serde(default)]
    pub cultures: Vec<CultureLine>,
    pub steps: Vec<Step>,
    pub style: Style,
    #[serde(default)]
    pub disturbed: Disturbed,
    pub pots: Pots,
    #[serde(default)]
    pub goals: Goals,
    #[serde(default)]
    pub clock: Clock,
    #[serde(default)]
    pub spoons: SpoonSet,
    #[serde(default)]
    pub tags: Vec<String>,
    #[serde(default)]
    pub notes: String,
    /// The pantry entries in use, so that the design opens anywhere.
    #[serde(default)]
    pub snapshot: Pantry,
}

impl Design {
    /// The hold, if there is one.
    pub fn hold(&self) -> Option<&Hold> {
        self.steps.iter().find_map(|s| if let Step::Hold(hold) = s { Some(hold) } else { None })
    }

    /// The hold, to change it.
    pub fn hold_mut(&mut self) -> Option<&mut Hold> {
        self.steps.iter_mut().find_map(|s| if let Step::Hold(hold) = s { Some(hold) } else { None })
    }

    /// Target temperature and hours of the chill.
    pub fn chill(&self) -> Option<(f64, f64)> {
        self.steps
            .iter()
            .find_map(|s| if let Step::Chill { to_c, hours, .. } = s { Some((*to_c, *hours)) } else { None })
    }

    /// When the hold starts, if the clock says so: at its start, or early enough to be ready.
    pub fn start(&self) -> Option<Moment> {
        match &self.clock {
            Clock::Open => None,
            Clock::StartsAt(text) => Moment::parse(text),
            Clock::ReadyBy(text) => {
                let hours = self.hold().map_or(0.0, |hold| hold.hours);
                Moment::parse(text).map(|ready| ready.after(-hours))
            }
        }
    }

    /// Volume of all bases, L.
    pub fn litres(&self) -> f64 {
        self.bases.iter().map(|b| b.litres).sum()
    }

    /// An entry by its type: the design's own copy, or else that of the pantry.
    pub fn entry<'a, T: Listed>(&'a self, pantry: &'a Pantry, key: &str) -> Option<&'a T> {
        either(&self.snapshot, pantry, key)
    }

    /// An entry by its kind: the design's own copy, or else that of the pantry.
    pub fn entry_of<'a>(&'a self, pantry: &'a Pantry, kind: EntryKind, key: &str) -> Option<&'a dyn Entry> {
        self.snapshot.entry(kind, key).or_else(|| pantry.entry(kind, key))
    }

    /// The name of an entry; of one that is nowhere, its key.
    pub fn name_of<'a>(&'a self, pantry: &'a Pantry, kind: EntryKind, key: &'a str) -> &'a str {
        self.entry_of(pantry, kind, key).map_or(key, |entry| entry.name())
    }

    /// Makes the snapshot hold just what the design uses: entries already there stay as they are, new ones come from
    /// the pantry, unused ones go.
    pub fn refresh_snapshot(&mut self, pantry: &Pantry) {
        fn pick<'a, T: Listed>(new: &mut Pantry, from: (&'a Pantry, &'a Pantry), key: &str) -> Option<&'a T> {
            let entry = either(from.0, from.1, key);
            new.keep(entry);
            entry
        }
        let old = std::mem::take(&mut self.snapshot);
        let from = (&old, pantry);
        let mut new = Pantry::default();
        let mut brought = (Vec::new(), Vec::new());
        for line in &self.bases {
            let Some(base) = pick::<Base>(&mut new, from, &line.entry) else { continue };
            pick::<BufferShape>(&mut new, from, &base.buffer_shape);
            brought.0.extend(base.own_starch.as_deref());
            brought.1.extend(base.holds.iter().map(|held| held.additive.as_str()));
        }
        for key in self.sugar_keys() {
            pick::<Sweetener>(&mut new, from, key);
        }
        for key in self.thickeners.iter().map(|line| line.entry.as_str()).chain(brought.0) {
            pick::<Thickener>(&mut new, from, key);
        }
        for key in self.additives.iter().map(|line| line.entry.as_str()).chain(brought.1) {
            pick::<Additive>(&mut new, from, key);
        }
        for key in self.culture_keys() {
            for dose in pick::<Culture>(&mut new, from, key).into_iter().flat_map(|c| &c.doses) {
                pick::<Organism>(&mut new, from, &dose.organism);
            }
        }
        pick::<Vessel>(&mut new, from, &self.pots.vessel);
        if let Some(hold) = self.hold() {
            pick::<Warmer>(&mut new, from, &hold.warmer);
        }
        self.snapshot = new;
    }

    fn sugar_keys(&self) -> impl Iterator<Item = &str> {
        let late =
            self.hold().into_iter().flat_map(|hold| &hold.events).filter_map(|event| match &event.what {
                Happening::LateSugar { entry, .. } => Some(entry.as_str()),
                _ => None,
            });
        self.sugars.iter().map(|line| line.entry.as_str()).chain(late)
    }

    fn culture_keys(&self) -> impl Iterator<Item = &str> {
        let late =
            self.hold().into_iter().flat_map(|hold| &hold.events).filter_map(|event| match &event.what {
                Happening::LateCulture { entry, .. } => Some(entry.as_str()),
                _ => None,
            });
        self.cultures.iter().map(|line| line.entry.as_str()).chain(late)
    }
}
