//! How a design's own copies of pantry entries differ from the pantry of now.

use super::{EntryKind, Pantry};
use potset_base::{Cited, number};

/// One thing that is not the same any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Changed {
    /// Path of the figure, or what else differs.
    pub what: String,
    pub then: String,
    pub now: String,
}

/// An entry of a design that is not as the pantry has it now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outdated {
    pub kind: EntryKind,
    pub key: String,
    pub name: String,
    /// The pantry has no entry with this key any more.
    pub gone: bool,
    pub changes: Vec<Changed>,
}

impl Outdated {
    /// The first changes in words: "composition.fat 17.5 → 18.2, and 2 more".
    pub fn words(&self) -> String {
        let mut shown: Vec<String> =
            self.changes.iter().take(2).map(|c| format!("{} {} → {}", c.what, c.then, c.now)).collect();
        if self.changes.len() > 2 {
            shown.push(format!("and {} more", self.changes.len() - 2));
        }
        shown.join(", ")
    }
}

/// Every entry of a snapshot that differs from the pantry. Tickets do not count: a price is of its day.
pub fn outdated(snapshot: &Pantry, pantry: &Pantry) -> Vec<Outdated> {
    let mut out = Vec::new();
    for (kind, entry) in snapshot.all() {
        let (key, name) = (entry.key().to_owned(), entry.name().to_owned());
        let Some(now) = pantry.entry(kind, &key) else {
            out.push(Outdated { kind, key, name, gone: true, changes: Vec::new() });
            continue;
        };
        if snapshot.same_entry(pantry, kind, &key) {
            continue;
        }
        let mut changes = Vec::new();
        let mut tell = |what: &str, then: String, now: String| {
            changes.push(Changed { what: what.to_owned(), then, now });
        };
        if now.name() != name {
            tell("name", name.clone(), now.name().to_owned());
        }
        let old = snapshot.figures_of(kind, &key);
        let new = pantry.figures_of(kind, &key);
        let value = |c: &Cited| format!("{} {}", number::plain(c.value), c.unit).trim_end().to_owned();
        for (path, then) in &old {
            match new.iter().find(|(p, _)| p == path) {
                Some((_, now)) if (now.value - then.value).abs() <= 1e-12 * then.value.abs() => {}
                Some((_, now)) => tell(path, number::plain(then.value), value(now)),
                None => tell(path, value(then), "left out".to_owned()),
            }
        }
        // Figures for labels and tables that were not yet known then change no forecast.
        for (path, now) in new.iter().filter(|(p, _)| !p.starts_with("nutrients")) {
            if !old.iter().any(|(p, _)| p == path) {
                tell(path, "none".to_owned(), value(now));
            }
        }
        if !changes.is_empty() {
            out.push(Outdated { kind, key, name, gone: false, changes });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assets;

    #[test]
    fn changed_and_gone_entries_are_told() {
        let shipped = assets::pantry().unwrap();
        let mut snapshot = Pantry { bases: shipped.bases[..2].to_vec(), ..Pantry::default() };
        assert_eq!(outdated(&snapshot, &shipped), []);
        snapshot.bases[0].composition.fat.value += 0.5;
        snapshot.bases[1].key = "of_another_maker".into();
        let told = outdated(&snapshot, &shipped);
        assert_eq!(told.len(), 2);
        assert!(told[0].words().starts_with("composition.fat 3.75 → 3.25"), "{}", told[0].words());
        assert!(told[1].gone);
    }
}
