//! The lists of the pantry by kind: to find, copy, replace and take out entries whatever their type.

use super::{Entry, EntryKind, Figures, Keyed, Pantry, find};
use potset_base::Cited;

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

    /// Whether both pantries hold the very same under this key, tickets included; cheap.
    #[must_use]
    pub fn same_entry(&self, other: &Self, kind: EntryKind, key: &str) -> bool {
        match kind {
            EntryKind::Base => same(&self.bases, &other.bases, key),
            EntryKind::Sugar => same(&self.sugars, &other.sugars, key),
            EntryKind::Thickener => same(&self.thickeners, &other.thickeners, key),
            EntryKind::Additive => same(&self.additives, &other.additives, key),
            EntryKind::Culture => same(&self.cultures, &other.cultures, key),
            EntryKind::Vessel => same(&self.vessels, &other.vessels, key),
            EntryKind::Warmer => same(&self.warmers, &other.warmers, key),
            EntryKind::Raw => same(&self.raws, &other.raws, key),
        }
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

fn same<T: Keyed + PartialEq>(a: &[T], b: &[T], key: &str) -> bool {
    let (mine, theirs) = (find(a, key), find(b, key));
    mine.is_some() && mine == theirs
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
