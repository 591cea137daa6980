//! Any entry of the pantry, whatever its kind: name, diet, ticket, figures; and the lists by kind.

use serde::{Deserialize, Serialize};

use super::ticket::Ticket;
use super::{
    Additive, Base, Culture, Figures, Keyed, Pantry, Raw, Sweetener, Thickener, Vessel, Warmer, find,
};
use crate::base::Cited;

/// A list of the pantry that a maker sees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EntryKind {
    Base,
    Sugar,
    Thickener,
    Additive,
    Culture,
    Vessel,
    Warmer,
    Raw,
}

impl EntryKind {
    /// All kinds, in the order of making.
    pub const ALL: [Self; 8] = [
        Self::Base,
        Self::Sugar,
        Self::Thickener,
        Self::Additive,
        Self::Culture,
        Self::Vessel,
        Self::Warmer,
        Self::Raw,
    ];

    /// One of them, in words.
    #[must_use]
    pub const fn one(self) -> &'static str {
        match self {
            Self::Base => "base",
            Self::Sugar => "sugar",
            Self::Thickener => "thickener",
            Self::Additive => "additive",
            Self::Culture => "culture",
            Self::Vessel => "vessel",
            Self::Warmer => "warmer",
            Self::Raw => "raw stuff",
        }
    }

    /// The list, in words.
    #[must_use]
    pub const fn many(self) -> &'static str {
        match self {
            Self::Base => "Bases",
            Self::Sugar => "Sugars",
            Self::Thickener => "Thickeners",
            Self::Additive => "Additives",
            Self::Culture => "Cultures",
            Self::Vessel => "Vessels",
            Self::Warmer => "Warmers",
            Self::Raw => "Raw stuff",
        }
    }
}

/// What all entries have.
pub trait Entry: Keyed + Figures {
    fn name(&self) -> &str;
    fn set_name(&mut self, name: String);
    fn set_key(&mut self, key: String);
    fn aliases(&self) -> &[String];
    fn ticket(&self) -> &Ticket;
    fn set_ticket(&mut self, ticket: Ticket);
    fn handling(&self) -> &str;
    fn set_handling(&mut self, text: String);
    fn hazards(&self) -> &[String];
    fn allergens(&self) -> &[String];
    /// Nothing of an animal in it; `None` where the question makes no sense.
    fn vegan(&self) -> Option<bool>;
    /// No gluten in it; `None` where the question makes no sense.
    fn gluten_free(&self) -> Option<bool>;
}

macro_rules! entry {
    ($($kind:ty { aliases: $aliases:expr, handling: $handling:ident, hazards: $hazards:expr, allergens: $allergens:expr,
        vegan: $vegan:expr, gluten_free: $gluten:expr }),* $(,)?) => {
        $(impl Entry for $kind {
            fn name(&self) -> &str {
                &self.name
            }
            fn set_name(&mut self, name: String) {
                self.name = name;
            }
            fn set_key(&mut self, key: String) {
                self.key = key;
            }
            fn aliases(&self) -> &[String] {
                let f: fn(&Self) -> &[String] = $aliases;
                f(self)
            }
            fn ticket(&self) -> &Ticket {
                &self.ticket
            }
            fn set_ticket(&mut self, ticket: Ticket) {
                self.ticket = ticket;
            }
            fn handling(&self) -> &str {
                &self.$handling
            }
            fn set_handling(&mut self, text: String) {
                self.$handling = text;
            }
            fn hazards(&self) -> &[String] {
                let f: fn(&Self) -> &[String] = $hazards;
                f(self)
            }
            fn allergens(&self) -> &[String] {
                let f: fn(&Self) -> &[String] = $allergens;
                f(self)
            }
            fn vegan(&self) -> Option<bool> {
                let f: fn(&Self) -> Option<bool> = $vegan;
                f(self)
            }
            fn gluten_free(&self) -> Option<bool> {
                let f: fn(&Self) -> Option<bool> = $gluten;
                f(self)
            }
        })*
    };
}

entry!(
    Base {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free)
    },
    Sweetener {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free)
    },
    Thickener {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free)
    },
    Additive {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free)
    },
    Culture {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(!e.gluten)
    },
    Raw {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hygiene,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free)
    },
    Vessel {
        aliases: |_| &[],
        handling: handling,
        hazards: |_| &[],
        allergens: |_| &[],
        vegan: |_| None,
        gluten_free: |_| None
    },
    Warmer {
        aliases: |_| &[],
        handling: handling,
        hazards: |_| &[],
        allergens: |_| &[],
        vegan: |_| None,
        gluten_free: |_| None
    },
);

/// Does the same with the list of a kind, whatever its type.
macro_rules! with_list {
    ($kind:expr, $pantry:expr, |$list:ident| $body:expr) => {
        match $kind {
            EntryKind::Base => {
                let $list = &$pantry.bases;
                $body
            }
            EntryKind::Sugar => {
                let $list = &$pantry.sugars;
                $body
            }
            EntryKind::Thickener => {
                let $list = &$pantry.thickeners;
                $body
            }
            EntryKind::Additive => {
                let $list = &$pantry.additives;
                $body
            }
            EntryKind::Culture => {
                let $list = &$pantry.cultures;
                $body
            }
            EntryKind::Vessel => {
                let $list = &$pantry.vessels;
                $body
            }
            EntryKind::Warmer => {
                let $list = &$pantry.warmers;
                $body
            }
            EntryKind::Raw => {
                let $list = &$pantry.raws;
                $body
            }
        }
    };
    (mut $kind:expr, $pantry:expr, |$list:ident| $body:expr) => {
        match $kind {
            EntryKind::Base => {
                let $list = &mut $pantry.bases;
                $body
            }
            EntryKind::Sugar => {
                let $list = &mut $pantry.sugars;
                $body
            }
            EntryKind::Thickener => {
                let $list = &mut $pantry.thickeners;
                $body
            }
            EntryKind::Additive => {
                let $list = &mut $pantry.additives;
                $body
            }
            EntryKind::Culture => {
                let $list = &mut $pantry.cultures;
                $body
            }
            EntryKind::Vessel => {
                let $list = &mut $pantry.vessels;
                $body
            }
            EntryKind::Warmer => {
                let $list = &mut $pantry.warmers;
                $body
            }
            EntryKind::Raw => {
                let $list = &mut $pantry.raws;
                $body
            }
        }
    };
    ($kind:expr, $from:expr, $to:expr, |$a:ident, $b:ident| $body:expr) => {
        match $kind {
            EntryKind::Base => {
                let ($a, $b) = (&$from.bases, &mut $to.bases);
                $body
            }
            EntryKind::Sugar => {
                let ($a, $b) = (&$from.sugars, &mut $to.sugars);
                $body
            }
            EntryKind::Thickener => {
                let ($a, $b) = (&$from.thickeners, &mut $to.thickeners);
                $body
            }
            EntryKind::Additive => {
                let ($a, $b) = (&$from.additives, &mut $to.additives);
                $body
            }
            EntryKind::Culture => {
                let ($a, $b) = (&$from.cultures, &mut $to.cultures);
                $body
            }
            EntryKind::Vessel => {
                let ($a, $b) = (&$from.vessels, &mut $to.vessels);
                $body
            }
            EntryKind::Warmer => {
                let ($a, $b) = (&$from.warmers, &mut $to.warmers);
                $body
            }
            EntryKind::Raw => {
                let ($a, $b) = (&$from.raws, &mut $to.raws);
                $body
            }
        }
    };
}

impl Pantry {
    /// The entries of a kind, in order.
    #[must_use]
    pub fn entries(&self, kind: EntryKind) -> Vec<&dyn Entry> {
        with_list!(kind, self, |list| list.iter().map(|e| e as &dyn Entry).collect())
    }

    /// An entry.
    #[must_use]
    pub fn entry(&self, kind: EntryKind, key: &str) -> Option<&dyn Entry> {
        with_list!(kind, self, |list| find(list, key).map(|e| e as &dyn Entry))
    }

    /// An entry, to change it.
    pub fn entry_mut(&mut self, kind: EntryKind, key: &str) -> Option<&mut dyn Entry> {
        with_list!(mut kind, self, |list| list
            .iter_mut()
            .find(|e| e.key() == key)
            .map(|e| e as &mut dyn Entry))
    }

    /// Every cited figure of an entry with its path inside it: "composition.fat".
    #[must_use]
    pub fn figures_of(&self, kind: EntryKind, key: &str) -> Vec<(String, Cited)> {
        with_list!(kind, self, |list| find(list, key).map_or_else(Vec::new, |entry| {
            let mut all = Vec::new();
            entry.clone().figures("", &mut |path, cited| {
                all.push((path.trim_start_matches('.').to_owned(), cited.clone()));
            });
            all
        }))
    }

    /// Takes an entry out. False if it was not there.
    pub fn take_out(&mut self, kind: EntryKind, key: &str) -> bool {
        with_list!(mut kind, self, |list| {
            let before = list.len();
            list.retain(|e| e.key() != key);
            list.len() < before
        })
    }

    /// Puts a copy of another pantry's entry here, in the place of one with the same key. False if there is none to copy.
    pub fn put(&mut self, from: &Self, kind: EntryKind, key: &str) -> bool {
        with_list!(kind, from, self, |list, mine| find(list, key).is_some_and(|entry| {
            match mine.iter_mut().find(|e| e.key() == key) {
                Some(old) => *old = entry.clone(),
                None => mine.push(entry.clone()),
            }
            true
        }))
    }

    /// Puts what an entry cannot do without (buffer shape, organisms, starch, salts) here, unless it is here.
    pub fn put_needs(&mut self, from: &Self, kind: EntryKind, key: &str) {
        match kind {
            EntryKind::Base => {
                let Some(base) = find(&from.bases, key) else { return };
                super::keep(&mut self.buffer_shapes, find(&from.buffer_shapes, &base.buffer_shape));
                if let Some(starch) = &base.own_starch {
                    super::keep(&mut self.thickeners, find(&from.thickeners, starch));
                }
                for held in &base.holds {
                    super::keep(&mut self.additives, find(&from.additives, &held.additive));
                }
            }
            EntryKind::Culture => {
                for dose in find(&from.cultures, key).into_iter().flat_map(|c| &c.doses) {
                    super::keep(&mut self.organisms, find(&from.organisms, &dose.organism));
                }
            }
            _ => {}
        }
    }
}

/// A key for a name: small letters and figures, the rest as an underscore; with a number if it is taken.
#[must_use]
pub fn key_for(name: &str, taken: impl Fn(&str) -> bool) -> String {
    let mut key = String::new();
    for c in name.to_lowercase().chars() {
        let c = if c.is_alphanumeric() { c } else { '_' };
        if !(c == '_' && (key.is_empty() || key.ends_with('_'))) {
            key.push(c);
        }
    }
    let key = key.trim_end_matches('_');
    let key = if key.is_empty() { "entry" } else { key };
    if !taken(key) {
        return key.to_owned();
    }
    (2_u32..).map(|i| format!("{key}_{i}")).find(|k| !taken(k)).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::doc::assets;

    #[test]
    fn every_kind_finds_copies_and_removes() {
        let shipped = assets::pantry().unwrap();
        for kind in EntryKind::ALL {
            let Some(key) = shipped.entries(kind).first().map(|e| e.key().to_owned()) else { continue };
            let mut own = Pantry::default();
            assert!(own.put(&shipped, kind, &key) && own.put(&shipped, kind, &key), "{kind:?}");
            own.put_needs(&shipped, kind, &key);
            assert_eq!(own.entries(kind).len(), 1);
            assert_eq!(own.figures_of(kind, &key), shipped.figures_of(kind, &key));
            assert!(own.take_out(kind, &key) && !own.take_out(kind, &key));
        }
    }

    #[test]
    fn keys_are_made_of_names() {
        assert_eq!(key_for("Corner shop: coconut 17 %", |_| false), "corner_shop_coconut_17");
        assert_eq!(key_for("***", |k| k == "entry"), "entry_2");
    }
}
