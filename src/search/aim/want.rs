//! Wants: what is to come of a pot, as ranges and rules; read from text such as "ph<=4.3" and printed back.

use potset_base::number::{self, NBSP};
use potset_base::words::{TangWord, TextureWord, span};
use potset_doc::goals::Goals;
use potset_doc::pantry::{Entry, EntryKind};
use potset_doc::{Design, Pantry};
use potset_forecast::observable::{Observable, Wanted};

mod agree;
mod plain;
mod read;

pub use agree::agreed;
pub use plain::begins;

/// Bounds; one may be open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bounds {
    pub low: Option<f64>,
    pub high: Option<f64>,
}

/// Something wanted of a pot.
#[derive(Clone, Debug, PartialEq)]
pub enum Want {
    /// By the words of an outcome: places of the first and the last of its scale.
    Called(Observable, usize, usize),
    Within(Observable, Bounds),
    Vegan,
    GlutenFree,
    /// Nothing is brought above what a hot-water bath does: no heat treatment, no part cooked.
    NoCooking,
    /// Keys of the only bases, sugars, thickeners, additives and cultures that may be in it.
    Only(Vec<String>),
}

impl Want {
    /// Those that nothing more is said of.
    pub const RULES: [Self; 3] = [Self::Vegan, Self::GlutenFree, Self::NoCooking];

    /// A texture, chilled, from and to.
    pub const fn texture(low: TextureWord, high: TextureWord) -> Self {
        Self::Called(Observable::Texture, low as usize, high as usize)
    }

    /// A tang, from and to.
    pub const fn tang(low: TangWord, high: TangWord) -> Self {
        Self::Called(Observable::Tang, low as usize, high as usize)
    }

    /// An outcome that is to be no more than this.
    pub const fn at_most(outcome: Observable, high: f64) -> Self {
        Self::Within(outcome, Bounds { low: None, high: Some(high) })
    }

    /// The want in words: "pH 4.1 to 4.3", "sugar left ≤ 20 g/L", "no cooking"; what there is by its keys.
    pub fn words(&self) -> String {
        match self {
            Self::Within(Observable::ReadyFrom, bounds) => stopped(*bounds),
            Self::Called(o, low, high) => {
                let Wanted { name, scale, .. } = o.wanted();
                format!("{name} {}", span(scale[*low], scale[*high]))
            }
            Self::Within(o, bounds) => {
                let plain = |v: f64| match o.unit() {
                    "" => number::plain(v),
                    unit => format!("{}{NBSP}{unit}", number::plain(v)),
                };
                let name = o.wanted().name;
                match (bounds.low.map(plain), bounds.high.map(plain)) {
                    (Some(low), Some(high)) => format!("{name} {low} to {high}"),
                    (Some(low), None) => format!("{name} ≥ {low}"),
                    (None, Some(high)) => format!("{name} ≤ {high}"),
                    (None, None) => format!("{name} as it comes"),
                }
            }
            Self::NoCooking => "no cooking".to_owned(),
            Self::Only(keys) => format!("only {}", keys.join(", ")),
            Self::Vegan | Self::GlutenFree => self.to_string(),
        }
    }

    /// What the goals of a design say, as wants to begin with.
    pub fn of_goals(goals: &Goals) -> Vec<Self> {
        let texture = goals.texture.map(|(low, high)| Self::texture(low, high));
        let tang = goals.tang.map(|(low, high)| Self::tang(low, high));
        let under = Observable::WANTED.into_iter().filter_map(|o| Some(Self::at_most(o, o.at_most(goals)?)));
        texture.into_iter().chain(tang).chain(under).collect()
    }

    /// Whether it keeps an entry out.
    pub fn bars(&self, entry: &dyn Entry) -> bool {
        match self {
            Self::Vegan => entry.vegan() == Some(false),
            Self::GlutenFree => entry.gluten_free() == Some(false),
            Self::Only(keys) => !keys.iter().any(|k| k == entry.key()),
            Self::Called(..) | Self::Within(..) | Self::NoCooking => false,
        }
    }

    /// The same with the names of entries in the place of their keys, to be told.
    pub fn named(&self, design: &Design, pantry: &Pantry) -> Self {
        let Self::Only(keys) = self else { return self.clone() };
        let name = |key: &String| {
            let of = |p: &Pantry| {
                EntryKind::EATEN.into_iter().find_map(|kind| p.entry(kind, key).map(|e| e.name().to_owned()))
            };
            of(&design.snapshot).or_else(|| of(pantry)).unwrap_or_else(|| key.clone())
        };
        Self::Only(keys.iter().map(name).collect())
    }
}

/// When the pot is to be stopped, in words: by then all else that is wanted is there too.
fn stopped(bounds: Bounds) -> String {
    match (bounds.low.map(number::hours), bounds.high.map(number::hours)) {
        (Some(low), Some(high)) => format!("all goals reached and stopped at {low} to {high}"),
        (Some(low), None) => format!("stopped at {low} at the earliest"),
        (None, Some(high)) => format!("all goals reached and stopped within {high}"),
        (None, None) => "stopped as it comes".to_owned(),
    }
}

impl std::fmt::Display for Want {
    /// As it is typed: what [`Want::read`] takes back.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Called(o, low, high) => {
                let Wanted { key, scale, .. } = o.wanted();
                let to = if low == high { String::new() } else { format!("..{}", scale[*high]) };
                write!(f, "{key}={}{to}", scale[*low])
            }
            Self::Within(o, bounds) => {
                let key = o.wanted().key;
                match (bounds.low, bounds.high) {
                    (Some(low), Some(high)) => write!(f, "{key}={low}..{high}"),
                    (Some(low), None) => write!(f, "{key}>={low}"),
                    (None, Some(high)) => write!(f, "{key}<={high}"),
                    (None, None) => f.write_str(key),
                }
            }
            Self::Vegan => f.write_str("vegan"),
            Self::GlutenFree => f.write_str("gluten-free"),
            Self::NoCooking => f.write_str("no-cooking"),
            Self::Only(keys) => write!(f, "only={}", keys.join(",")),
        }
    }
}
