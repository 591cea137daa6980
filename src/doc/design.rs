//! A design: one recipe with its steps, goals and notes, and a copy of the pantry entries that it uses.

use serde::{Deserialize, Serialize};

use super::goals::Goals;
pub use super::lines::{
    AddedWhen, AdditiveLine, BaseLine, CultureLine, GoesIn, LabelFigures, Powder, SugarLine, SweetWhen,
    ThickenerLine,
};
use super::pantry::{self, Pantry};
use super::steps::{Happening, Hold, Step};
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

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands the field by reference")]
fn is_serving(grams: &f64) -> bool {
    (*grams - SERVING_G).abs() < 1e-9
}

/// What is done to the pot after it has set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Disturbed {
    /// Only by the spoon that eats it.
    #[default]
    SpoonOnly,
    StirredByHand,
    /// Strained, pumped or filled.
    Worked,
    /// Blended or homogenised.
    Blended,
}

impl Disturbed {
    pub const ALL: [Self; 4] = [Self::SpoonOnly, Self::StirredByHand, Self::Worked, Self::Blended];

    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::SpoonOnly => "only by the spoon",
            Self::StirredByHand => "stirred by hand",
            Self::Worked => "strained or filled",
            Self::Blended => "blended smooth",
        }
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
    #[must_use]
    pub fn hold(&self) -> Option<&Hold> {
        self.steps.iter().find_map(|s| if let Step::Hold(hold) = s { Some(hold) } else { None })
    }

    /// The hold, to change it.
    pub fn hold_mut(&mut self) -> Option<&mut Hold> {
        self.steps.iter_mut().find_map(|s| if let Step::Hold(hold) = s { Some(hold) } else { None })
    }

    /// Target temperature and hours of the chill.
    #[must_use]
    pub fn chill(&self) -> Option<(f64, f64)> {
        self.steps
            .iter()
            .find_map(|s| if let Step::Chill { to_c, hours, .. } = s { Some((*to_c, *hours)) } else { None })
    }

    /// When the hold starts, if the clock says so: at its start, or early enough to be ready.
    #[must_use]
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
    #[must_use]
    pub fn litres(&self) -> f64 {
        self.bases.iter().map(|b| b.litres).sum()
    }

    /// Makes the snapshot hold just what the design uses: entries already there stay as they are, new ones come from
    /// the pantry, unused ones go.
    pub fn refresh_snapshot(&mut self, pantry: &Pantry) {
        let old = std::mem::take(&mut self.snapshot);
        let mut new = Pantry::default();
        for line in &self.bases {
            let base =
                pantry::find(&old.bases, &line.entry).or_else(|| pantry::find(&pantry.bases, &line.entry));
            pantry::keep(&mut new.bases, base);
            if let Some(base) = base {
                let shape = pantry::find(&old.buffer_shapes, &base.buffer_shape)
                    .or_else(|| pantry::find(&pantry.buffer_shapes, &base.buffer_shape));
                pantry::keep(&mut new.buffer_shapes, shape);
            }
        }
        for key in self.sugar_keys() {
            pantry::keep(
                &mut new.sugars,
                pantry::find(&old.sugars, key).or_else(|| pantry::find(&pantry.sugars, key)),
            );
        }
        for line in &self.thickeners {
            let entry = pantry::find(&old.thickeners, &line.entry)
                .or_else(|| pantry::find(&pantry.thickeners, &line.entry));
            pantry::keep(&mut new.thickeners, entry);
        }
        let own_starch: Vec<String> = new.bases.iter().filter_map(|b| b.own_starch.clone()).collect();
        for key in &own_starch {
            let entry = pantry::find(&old.thickeners, key).or_else(|| pantry::find(&pantry.thickeners, key));
            pantry::keep(&mut new.thickeners, entry);
        }
        let held: Vec<String> = new.bases.iter().flat_map(|b| &b.holds).map(|h| h.additive.clone()).collect();
        for key in self.additives.iter().map(|line| &line.entry).chain(&held) {
            let entry = pantry::find(&old.additives, key).or_else(|| pantry::find(&pantry.additives, key));
            pantry::keep(&mut new.additives, entry);
        }
        for key in self.culture_keys() {
            let culture = pantry::find(&old.cultures, key).or_else(|| pantry::find(&pantry.cultures, key));
            pantry::keep(&mut new.cultures, culture);
            for dose in culture.into_iter().flat_map(|c| &c.doses) {
                let organism = pantry::find(&old.organisms, &dose.organism)
                    .or_else(|| pantry::find(&pantry.organisms, &dose.organism));
                pantry::keep(&mut new.organisms, organism);
            }
        }
        let vessel = pantry::find(&old.vessels, &self.pots.vessel)
            .or_else(|| pantry::find(&pantry.vessels, &self.pots.vessel));
        pantry::keep(&mut new.vessels, vessel);
        if let Some(hold) = self.hold() {
            let warmer = pantry::find(&old.warmers, &hold.warmer)
                .or_else(|| pantry::find(&pantry.warmers, &hold.warmer));
            pantry::keep(&mut new.warmers, warmer);
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
