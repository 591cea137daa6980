//! Wants: what is to come of a pot, as ranges and rules; read from text such as "ph<=4.3" and printed back.

use potset_base::number::{self, NBSP};
use potset_base::words::{TangWord, TextureWord, span};
use potset_doc::goals::Goals;
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Pantry};

mod agree;
mod read;

pub use agree::agreed;

/// A quantity that can be wanted within bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Quantity {
    /// Of the chilled pot, Pa·s at 50 1/s.
    Texture,
    /// Undissociated lactic acid at the stop, mmol/kg.
    Tang,
    Ph,
    /// All sugar left, g/L.
    Sugar,
    /// The stop line, h after the culture goes in: all that is wanted is judged there.
    Ready,
    /// Money per kg of what is eaten.
    Cost,
    /// g/100 g of what is eaten.
    Fat,
    /// % on standing.
    Whey,
    /// % of the pot that is thin below.
    ThinLayer,
}

impl Quantity {
    pub const ALL: [Self; 9] = [
        Self::Texture,
        Self::Tang,
        Self::Ph,
        Self::Sugar,
        Self::Ready,
        Self::Cost,
        Self::Fat,
        Self::Whey,
        Self::ThinLayer,
    ];

    /// How it is typed.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Texture => "texture",
            Self::Tang => "tang",
            Self::Ph => "ph",
            Self::Sugar => "sugar",
            Self::Ready => "ready",
            Self::Cost => "cost",
            Self::Fat => "fat",
            Self::Whey => "whey",
            Self::ThinLayer => "thin",
        }
    }

    /// How it is said.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ph => "pH",
            Self::Sugar => "sugar left",
            Self::ThinLayer => "thin layer",
            other => other.key(),
        }
    }

    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Texture => "Pa·s",
            Self::Tang => "mmol/kg",
            Self::Ph => "",
            Self::Sugar => "g/L",
            Self::Ready => "h",
            Self::Cost => "per kg",
            Self::Fat => "g/100 g",
            Self::Whey | Self::ThinLayer => "%",
        }
    }

    /// What can be asked for; beyond it a want is a slip of the hand. Source: assumed; pH and hours as a design allows.
    #[must_use]
    pub const fn range(self) -> (f64, f64) {
        match self {
            Self::Texture => (0.0, 1000.0),
            Self::Tang => (0.0, 500.0),
            Self::Ph => (3.0, 7.0),
            Self::Sugar => (0.0, 400.0),
            Self::Ready => (0.25, 96.0),
            Self::Cost => (0.0, 1e6),
            Self::Fat | Self::Whey | Self::ThinLayer => (0.0, 100.0),
        }
    }

    /// A value with its unit, as finely as a person notices it and a little more.
    #[must_use]
    pub fn words(self, v: f64) -> String {
        self.finely(v, 0).0
    }

    /// The same with so many more figures, and the number that is then to be read.
    #[must_use]
    pub fn finely(self, v: f64, more: usize) -> (String, f64) {
        let text = match self {
            Self::Texture => number::figures(v, 3 + more),
            Self::Ph | Self::Cost => number::fixed(v, 2 + more),
            Self::Ready if more == 0 => return (number::hours(v), (60.0 * v).round() / 60.0),
            Self::Ready | Self::Tang | Self::Sugar | Self::Fat | Self::Whey | Self::ThinLayer => {
                number::fixed(v, 1 + more)
            }
        };
        let shown = number::parse(&text.replace(',', ".")).unwrap_or(v);
        (if self.unit().is_empty() { text } else { format!("{text}{NBSP}{}", self.unit()) }, shown)
    }
}

/// Bounds; one may be open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bounds {
    pub low: Option<f64>,
    pub high: Option<f64>,
}

/// Something wanted of a pot.
#[derive(Clone, Debug, PartialEq)]
pub enum Want {
    /// Chilled texture, from and to.
    Texture(TextureWord, TextureWord),
    Tang(TangWord, TangWord),
    Within(Quantity, Bounds),
    Vegan,
    GlutenFree,
    /// Nothing is brought above what a hot-water bath does: no heat treatment, no part cooked.
    NoCooking,
    /// Keys of the only bases, sugars, thickeners, additives and cultures that may be in it.
    Only(Vec<String>),
}

impl Want {
    /// The want in words: "pH 4.1 to 4.3", "sugar left ≤ 20 g/L", "no cooking"; what there is by its keys.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::Within(Quantity::Ready, bounds) => stopped(*bounds),
            Self::Texture(low, high) => format!("texture {}", span(low.word(), high.word())),
            Self::Tang(low, high) => format!("tang {}", span(low.word(), high.word())),
            Self::Within(q, bounds) => {
                let plain = |v: f64| match q.unit() {
                    "" => number::plain(v),
                    unit => format!("{}{NBSP}{unit}", number::plain(v)),
                };
                let name = q.name();
                match (bounds.low, bounds.high) {
                    (Some(low), Some(high)) => format!("{name} {} to {}", plain(low), plain(high)),
                    (Some(low), None) => format!("{name} ≥ {}", plain(low)),
                    (None, Some(high)) => format!("{name} ≤ {}", plain(high)),
                    (None, None) => format!("{name} as it comes"),
                }
            }
            Self::Vegan => "vegan".to_owned(),
            Self::GlutenFree => "gluten-free".to_owned(),
            Self::NoCooking => "no cooking".to_owned(),
            Self::Only(keys) => format!("only {}", keys.join(", ")),
        }
    }
}

impl Want {
    /// What the goals of a design say, as wants to begin with.
    #[must_use]
    pub fn of_goals(goals: &Goals) -> Vec<Self> {
        let at_most = |q: Quantity, high: f64| Self::Within(q, Bounds { low: None, high: Some(high) });
        let mut wants = Vec::new();
        wants.extend(goals.texture.map(|(low, high)| Self::Texture(low, high)));
        wants.extend(goals.tang.map(|(low, high)| Self::Tang(low, high)));
        wants.extend(goals.ph_at_most.map(|v| at_most(Quantity::Ph, v)));
        wants.extend(goals.sugar_left_at_most.map(|v| at_most(Quantity::Sugar, v)));
        wants.extend(goals.whey_at_most.map(|v| at_most(Quantity::Whey, v)));
        wants.extend(goals.thin_layer_at_most.map(|v| at_most(Quantity::ThinLayer, v)));
        wants
    }

    /// The same with entries by their names.
    #[must_use]
    pub fn named(&self, design: &Design, pantry: &Pantry) -> String {
        let Self::Only(keys) = self else { return self.words() };
        let name = |key: &String| {
            let of = |p: &Pantry| {
                EntryKind::EATEN.into_iter().find_map(|kind| p.entry(kind, key).map(|e| e.name().to_owned()))
            };
            of(&design.snapshot).or_else(|| of(pantry)).unwrap_or_else(|| key.clone())
        };
        format!("only {}", keys.iter().map(name).collect::<Vec<_>>().join(", "))
    }
}

/// When the pot is to be stopped, in words: by then all else that is wanted is there too.
fn stopped(bounds: Bounds) -> String {
    match (bounds.low.map(number::hours), bounds.high.map(number::hours)) {
        (Some(low), Some(high)) => format!("all of it reached and stopped after {low} to {high}"),
        (Some(low), None) => format!("stopped after {low} at the soonest"),
        (None, Some(high)) => format!("all of it reached and stopped within {high}"),
        (None, None) => "stopped as it comes".to_owned(),
    }
}

impl std::fmt::Display for Want {
    /// As it is typed: what [`Want::read`] takes back.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Texture(low, high) if low == high => write!(f, "texture={}", low.word()),
            Self::Texture(low, high) => write!(f, "texture={}..{}", low.word(), high.word()),
            Self::Tang(low, high) if low == high => write!(f, "tang={}", low.word()),
            Self::Tang(low, high) => write!(f, "tang={}..{}", low.word(), high.word()),
            Self::Within(q, bounds) => match (bounds.low, bounds.high) {
                (Some(low), Some(high)) => write!(f, "{}={low}..{high}", q.key()),
                (Some(low), None) => write!(f, "{}>={low}", q.key()),
                (None, Some(high)) => write!(f, "{}<={high}", q.key()),
                (None, None) => f.write_str(q.key()),
            },
            Self::Vegan => f.write_str("vegan"),
            Self::GlutenFree => f.write_str("gluten-free"),
            Self::NoCooking => f.write_str("no-cooking"),
            Self::Only(keys) => write!(f, "only={}", keys.join(",")),
        }
    }
}
