//! A design: one recipe with its steps, goals and notes, and a copy of the pantry entries that it uses.

use serde::{Deserialize, Serialize};

use super::card_text::CardText;
use super::goals::Goals;
pub use super::lines::{
    AddedWhen, AdditiveLine, BaseLine, CultureLine, GoesIn, LabelFigures, Powder, SugarLine, SweetWhen,
    ThickenerLine,
};
use super::pantry::{Base, BufferShape, Culture, Entry, EntryKind, Listed, Organism, Pantry, either};
use super::snapshot::Snapshot;
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
    /// What the maker says on the card in other words.
    #[serde(default, skip_serializing_if = "CardText::is_empty")]
    pub card: CardText,
    /// The pantry entries in use, so that the design opens anywhere.
    #[serde(default)]
    pub snapshot: Snapshot,
}

/// Keys of what a design uses.
#[derive(Default)]
struct Used {
    entries: Vec<(EntryKind, String)>,
    shapes: Vec<String>,
    organisms: Vec<String>,
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
        let Used { entries, shapes, organisms } = self.used(pantry);
        let of =
            |kind: EntryKind| entries.iter().filter(move |(k, _)| *k == kind).map(|(_, key)| key.as_str());
        let old = &self.snapshot;
        let whole = EntryKind::ALL.into_iter().all(|k| old.entries(k).iter().map(|e| e.key()).eq(of(k)))
            && old.buffer_shapes.iter().map(|e| &e.key).eq(&shapes)
            && old.organisms.iter().map(|e| &e.key).eq(&organisms);
        if whole {
            return;
        }
        let mut new = Pantry::default();
        for (kind, key) in &entries {
            let _ = new.put(old, *kind, key) || new.put(pantry, *kind, key);
        }
        shapes.iter().for_each(|key| new.keep(self.entry::<BufferShape>(pantry, key)));
        organisms.iter().for_each(|key| new.keep(self.entry::<Organism>(pantry, key)));
        self.snapshot = new.into();
    }

    /// Every entry that the design uses and that is to be had, in the order of use, each once.
    fn used(&self, pantry: &Pantry) -> Used {
        let mut used = Used::default();
        let mut add = |kind: EntryKind, key: &str| {
            let known = used.entries.iter().any(|(k, known)| *k == kind && known == key);
            if !known && self.entry_of(pantry, kind, key).is_some() {
                used.entries.push((kind, key.to_owned()));
            }
        };
        let bases = || self.bases.iter().filter_map(|line| self.entry::<Base>(pantry, &line.entry));
        bases().for_each(|base| add(EntryKind::Base, &base.key));
        self.sugar_keys().for_each(|key| add(EntryKind::Sugar, key));
        let brought = bases().filter_map(|base| base.own_starch.as_deref());
        let thickeners = self.thickeners.iter().map(|line| line.entry.as_str());
        thickeners.chain(brought).for_each(|key| add(EntryKind::Thickener, key));
        let held = bases().flat_map(|base| &base.holds).map(|held| held.additive.as_str());
        let additives = self.additives.iter().map(|line| line.entry.as_str());
        additives.chain(held).for_each(|key| add(EntryKind::Additive, key));
        self.culture_keys().for_each(|key| add(EntryKind::Culture, key));
        add(EntryKind::Vessel, &self.pots.vessel);
        self.hold().into_iter().for_each(|hold| add(EntryKind::Warmer, &hold.warmer));
        let part = |list: &mut Vec<String>, key: &str, there: bool| {
            if there && !list.iter().any(|known| known == key) {
                list.push(key.to_owned());
            }
        };
        for base in bases() {
            let key = &base.buffer_shape;
            part(&mut used.shapes, key, self.entry::<BufferShape>(pantry, key).is_some());
        }
        let cultures = self.culture_keys().filter_map(|key| self.entry::<Culture>(pantry, key));
        for dose in cultures.flat_map(|culture| &culture.doses) {
            let key = &dose.organism;
            part(&mut used.organisms, key, self.entry::<Organism>(pantry, key).is_some());
        }
        used
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
