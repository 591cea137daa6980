//! The lists of the pantry: to find, copy, replace and take out entries, by their type or whatever it is.

use serde::{Deserialize, Serialize};

use super::figures::listed;
use super::{
    Additive, Base, BufferShape, Culture, Entry, Organism, Pantry, Raw, Sweetener, Thickener, Vessel, Warmer,
};
use potset_base::{Cited, choices};

/// Anything with a key.
pub trait Keyed {
    fn key(&self) -> &str;
}

/// What stands in a list of the pantry.
pub trait Listed: Keyed + Clone + PartialEq + 'static {
    /// One of them, in words.
    const ONE: &'static str;

    fn list(pantry: &Pantry) -> &Vec<Self>;

    fn list_mut(pantry: &mut Pantry) -> &mut Vec<Self>;
}

/// The entry with this key.
pub fn find<'a, T: Keyed>(list: &'a [T], key: &str) -> Option<&'a T> {
    list.iter().find(|entry| entry.key() == key)
}

/// The entry with this key: a design's own copy, or else that of the pantry.
pub fn either<'a, T: Listed>(own: &'a Pantry, shipped: &'a Pantry, key: &str) -> Option<&'a T> {
    own.get(key).or_else(|| shipped.get(key))
}

fn put<T: Keyed + Clone>(from: &[T], to: &mut Vec<T>, key: &str) -> bool {
    let Some(entry) = find(from, key).cloned() else { return false };
    match to.iter_mut().find(|e| e.key() == key) {
        Some(old) => *old = entry,
        None => to.push(entry),
    }
    true
}

fn same<T: Keyed + PartialEq>(a: &[T], b: &[T], key: &str) -> bool {
    find(a, key).is_some_and(|mine| find(b, key) == Some(mine))
}

fn take_out<T: Keyed>(list: &mut Vec<T>, key: &str) -> bool {
    let before = list.len();
    list.retain(|e| e.key() != key);
    list.len() < before
}

macro_rules! listed {
    ($($kind:ident in $list:ident: $one:literal;)*) => {$(
        impl Keyed for $kind {
            fn key(&self) -> &str {
                &self.key
            }
        }

        impl Listed for $kind {
            const ONE: &'static str = $one;

            fn list(pantry: &Pantry) -> &Vec<Self> {
                &pantry.$list
            }

            fn list_mut(pantry: &mut Pantry) -> &mut Vec<Self> {
                &mut pantry.$list
            }
        }
    )*};
}

/// The kinds of entries that a maker sees: the type of an entry and its list; one of them, and the list, in words.
macro_rules! kinds {
    ($($kind:ident: $entry:ident in $list:ident, $one:literal, $many:literal;)*) => {
        listed! { $($entry in $list: $one;)* }

        choices! {
            /// A list of the pantry that a maker sees, in the order of making.
            #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
            #[serde(rename_all = "snake_case")]
            pub enum EntryKind: one {
                $($kind => $one,)*
            }
        }

        impl EntryKind {
            /// The list, in words.
            pub const fn many(self) -> &'static str {
                match self {
                    $(Self::$kind => $many,)*
                }
            }

            /// The list, as the file names it.
            pub const fn list(self) -> &'static str {
                match self {
                    $(Self::$kind => stringify!($list),)*
                }
            }
        }

        impl Pantry {
            /// The entries of a kind, in order.
            pub fn entries(&self, kind: EntryKind) -> Vec<&dyn Entry> {
                match kind {
                    $(EntryKind::$kind => self.$list.iter().map(|e| e as &dyn Entry).collect(),)*
                }
            }

            /// An entry.
            pub fn entry(&self, kind: EntryKind, key: &str) -> Option<&dyn Entry> {
                match kind {
                    $(EntryKind::$kind => find(&self.$list, key).map(|e| e as &dyn Entry),)*
                }
            }

            /// An entry, to change it.
            pub fn entry_mut(&mut self, kind: EntryKind, key: &str) -> Option<&mut dyn Entry> {
                match kind {
                    $(EntryKind::$kind => {
                        self.$list.iter_mut().find(|e| e.key() == key).map(|e| e as &mut dyn Entry)
                    })*
                }
            }

            /// Every cited figure of an entry with its path inside it: "composition.fat".
            pub fn figures_of(&self, kind: EntryKind, key: &str) -> Vec<(String, Cited)> {
                match kind {
                    $(EntryKind::$kind => find(&self.$list, key).cloned().map_or_else(Vec::new, listed),)*
                }
            }

            /// Whether both pantries hold the very same under this key, tickets included; cheap.
            pub fn same_entry(&self, other: &Self, kind: EntryKind, key: &str) -> bool {
                match kind {
                    $(EntryKind::$kind => same(&self.$list, &other.$list, key),)*
                }
            }

            /// Takes an entry out. False if it was not there.
            pub fn take_out(&mut self, kind: EntryKind, key: &str) -> bool {
                match kind {
                    $(EntryKind::$kind => take_out(&mut self.$list, key),)*
                }
            }

            /// Puts a copy of another pantry's entry here, in the place of one with the same key. False if there is none to
            /// copy.
            pub fn put(&mut self, from: &Self, kind: EntryKind, key: &str) -> bool {
                match kind {
                    $(EntryKind::$kind => put(&from.$list, &mut self.$list, key),)*
                }
            }
        }
    };
}

kinds! {
    Base: Base in bases, "base", "Bases";
    Sugar: Sweetener in sugars, "sugar", "Sugars";
    Thickener: Thickener in thickeners, "thickener", "Thickeners";
    Additive: Additive in additives, "additive", "Additives";
    Culture: Culture in cultures, "culture", "Cultures";
    Vessel: Vessel in vessels, "vessel", "Vessels";
    Warmer: Warmer in warmers, "warmer", "Warmers";
    Raw: Raw in raws, "starting ingredient", "Starting ingredients";
}

listed! {
    BufferShape in buffer_shapes: "buffer shape";
    Organism in organisms: "organism";
}

impl EntryKind {
    /// Unit of what is usual of an entry, as a person reads it.
    pub const fn usual_unit(self) -> &'static str {
        match self {
            Self::Base | Self::Vessel => "L",
            Self::Sugar | Self::Thickener | Self::Additive => "g/L",
            Self::Culture => "× packet",
            Self::Warmer => "°C",
            Self::Raw => "g water per g",
        }
    }

    /// Kinds of what a pot is made of, in the order of making.
    pub const EATEN: [Self; 5] = [Self::Base, Self::Sugar, Self::Thickener, Self::Additive, Self::Culture];
}

impl Pantry {
    /// All entries that a maker sees, by kind.
    pub fn all(&self) -> impl Iterator<Item = (EntryKind, &dyn Entry)> {
        EntryKind::ALL.into_iter().flat_map(|kind| self.entries(kind).into_iter().map(move |e| (kind, e)))
    }

    /// An entry by its type.
    pub fn get<T: Listed>(&self, key: &str) -> Option<&T> {
        find(T::list(self), key)
    }

    /// Adds a copy of an entry unless one with its key is there.
    pub fn keep<T: Listed>(&mut self, entry: Option<&T>) {
        if let Some(entry) = entry.filter(|entry| self.get::<T>(entry.key()).is_none()) {
            T::list_mut(self).push(entry.clone());
        }
    }

    /// Puts all entries of another pantry here, in the place of those with the same key. Of what entries are made of (buffer
    /// shapes, organisms), what is here stays.
    pub fn put_all(&mut self, from: &Self) {
        for (kind, entry) in from.all() {
            self.put(from, kind, entry.key());
        }
        self.keep_parts(from, &Self::default());
    }

    /// Adds the buffer shapes and organisms of another pantry that are neither here nor in a third one.
    pub fn keep_parts(&mut self, from: &Self, third: &Self) {
        fn keep<T: Listed>(here: &mut Pantry, from: &Pantry, third: &Pantry) {
            T::list(from)
                .iter()
                .filter(|e| third.get::<T>(e.key()).is_none())
                .for_each(|e| here.keep(Some(e)));
        }
        keep::<BufferShape>(self, from, third);
        keep::<Organism>(self, from, third);
    }

    /// Puts a copy of another pantry's entry here under another key, and another name if one is given. False if there is none
    /// to copy.
    pub fn put_as(
        &mut self,
        from: &Self,
        (kind, key): (EntryKind, &str),
        as_key: &str,
        name: Option<String>,
    ) -> bool {
        let mut one = Self::default();
        one.put(from, kind, key);
        let Some(entry) = one.entry_mut(kind, key) else { return false };
        let head = entry.head_mut();
        as_key.clone_into(head.key);
        if let Some(name) = name {
            *head.name = name;
        }
        self.put(&one, kind, as_key)
    }

    /// Puts what an entry cannot do without (buffer shape, organisms, starch, salts) here, unless it is here.
    pub fn put_needs(&mut self, from: &Self, kind: EntryKind, key: &str) {
        match kind {
            EntryKind::Base => {
                let Some(base) = from.get::<Base>(key) else { return };
                self.keep(from.get::<BufferShape>(&base.buffer_shape));
                self.keep(base.own_starch.as_ref().and_then(|starch| from.get::<Thickener>(starch)));
                for held in &base.holds {
                    self.keep(from.get::<Additive>(&held.additive));
                }
            }
            EntryKind::Culture => {
                for dose in from.get::<Culture>(key).into_iter().flat_map(|c| &c.doses) {
                    self.keep(from.get::<Organism>(&dose.organism));
                }
            }
            _ => {}
        }
    }
}

/// A key for a name: small letters and figures, the rest as an underscore; with a number if it is taken.
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
    use crate::assets;

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
