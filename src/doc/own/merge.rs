//! The maker's own pantry as two windows changed it, put together entry by entry.

use super::OwnPantry;
use crate::pantry::{EntryKind, Keyed, Pantry, Ticket, find, key_for};
use potset_base::Note;
use potset_base::number::plain;

/// What comes of two windows' changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Merged {
    pub own: OwnPantry,
    /// What the other window had written.
    pub theirs: OwnPantry,
    /// What both had changed, one note each.
    pub told: Vec<Note>,
}

impl OwnPantry {
    /// This pantry with what others changed since `base`. Where both changed the same, this one stays, and theirs stands
    /// beside it under a name of its own; a change outlives a removal.
    pub fn merged(&self, base: &Self, theirs: &Self) -> Merged {
        let mut merged = Merged { own: self.clone(), theirs: theirs.clone(), told: Vec::new() };
        if theirs == base {
            return merged;
        }
        for kind in EntryKind::ALL {
            for key in keys(kind, &self.entries, &theirs.entries) {
                merged.entry(kind, &key, self, base);
            }
        }
        let (own, told) = (&mut merged.own.entries, &mut merged.told);
        let (old, new) = (&base.entries, &theirs.entries);
        parts(&mut own.buffer_shapes, &old.buffer_shapes, &new.buffer_shapes, told);
        parts(&mut own.organisms, &old.organisms, &new.organisms, told);
        merged.tickets(self, base);
        merged
    }
}

impl Merged {
    fn entry(&mut self, kind: EntryKind, key: &str, mine: &OwnPantry, base: &OwnPantry) {
        let same = |a: &Pantry, b: &Pantry| {
            (a.entry(kind, key).is_none() && b.entry(kind, key).is_none()) || a.same_entry(b, kind, key)
        };
        let (ours, old, theirs) = (&mine.entries, &base.entries, &self.theirs.entries);
        if same(theirs, old) || same(theirs, ours) {
            return;
        }
        if same(ours, old) {
            if !self.own.entries.put(theirs, kind, key) {
                self.own.entries.take_out(kind, key);
            }
            return;
        }
        let name = |p: &Pantry| p.entry(kind, key).map(|e| e.name().to_owned());
        match (name(ours), name(theirs)) {
            (Some(name), Some(_)) => {
                let other = self.beside(kind, key);
                self.told.push(merge_note(
                    &name,
                    "Another window changed this entry too",
                    &format!(
                        "Yours stays; the other is kept as “{other}”. Remove the one that you don't want"
                    ),
                ));
            }
            (Some(name), None) => {
                let mend = "Yours stays, with your change. Remove it if you do not want it";
                self.told.push(merge_note(&name, "Another window removed this entry", mend));
            }
            (None, Some(name)) => {
                self.own.entries.put(theirs, kind, key);
                let mend = "The entry stays, with that change. Remove it if you do not want it";
                self.told.push(merge_note(
                    &name,
                    "You removed this entry, and another window changed it",
                    mend,
                ));
            }
            (None, None) => {}
        }
    }

    /// Puts their entry beside ours under a key and a name of its own; the name comes back.
    fn beside(&mut self, kind: EntryKind, key: &str) -> String {
        let (ours, theirs) = (&self.own.entries, &self.theirs.entries);
        let taken = |k: &str| ours.entry(kind, k).is_some() || theirs.entry(kind, k).is_some();
        let new_key = key_for(key, taken);
        let name = theirs.entry(kind, key).map_or(key, |entry| entry.name());
        let new_name = format!("{name} (other window)");
        self.own.entries.put_as(theirs, (kind, key), &new_key, Some(new_name.clone()));
        new_name
    }

    fn tickets(&mut self, mine: &OwnPantry, base: &OwnPantry) {
        let all = mine.tickets.iter().chain(&base.tickets).chain(&self.theirs.tickets);
        let mut places: Vec<(EntryKind, String)> = all.map(|t| (t.kind, t.key.clone())).collect();
        places.sort();
        places.dedup();
        for (kind, key) in places {
            let of = |own: &OwnPantry| {
                own.tickets.iter().find(|t| t.kind == kind && t.key == key).map(|t| t.ticket.clone())
            };
            let (ours, old, theirs) = (of(mine), of(base), of(&self.theirs));
            if theirs == old || theirs == ours {
                continue;
            }
            if ours == old {
                self.own.tickets.retain(|t| !(t.kind == kind && t.key == key));
                self.own.tickets.extend(theirs.map(|ticket| super::Ticketed { kind, key, ticket }));
            } else {
                let words =
                    theirs.map_or_else(|| "no price, photo or remark".to_owned(), |t| ticket_words(&t));
                let mend = format!("Yours stays. The other window had: {words}");
                self.told.push(merge_note(
                    &key.replace('_', " "),
                    "Another window changed its price or remark too",
                    &mend,
                ));
            }
        }
    }
}

/// Keys of both, each once.
fn keys(kind: EntryKind, ours: &Pantry, theirs: &Pantry) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for entry in ours.entries(kind).into_iter().chain(theirs.entries(kind)) {
        if !out.iter().any(|key| key == entry.key()) {
            out.push(entry.key().to_owned());
        }
    }
    out
}

/// Puts lists together that no maker changes by hand: what came with shared entries.
fn parts<T: Keyed + Clone + PartialEq>(ours: &mut Vec<T>, old: &[T], theirs: &[T], told_of: &mut Vec<Note>) {
    for other in theirs {
        let (mine, before) = (find(ours, other.key()), find(old, other.key()));
        if before == Some(other) || mine == Some(other) {
            continue;
        }
        if mine == before {
            ours.retain(|part| part.key() != other.key());
            ours.push(other.clone());
        } else {
            let name = other.key().replace('_', " ");
            told_of.push(merge_note(&name, "Another window has another one of this name", "Yours stays"));
        }
    }
    // Nothing is taken out that the other window no longer has: an entry of ours may rest on it.
}

fn merge_note(name: &str, title: &str, mend: &str) -> Note {
    Note { sentence: String::new(), ..Note::error(format!("Your pantry, {name}"), title, mend) }
}

fn ticket_words(ticket: &Ticket) -> String {
    let price = ticket.price.map(|p| format!("{} for {} {}", plain(p.money), plain(p.buys), p.by.unit()));
    let rest = [&ticket.photo, &ticket.remark].into_iter().filter(|s| !s.is_empty()).cloned();
    price.into_iter().chain(rest).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{OwnEdit, assets};

    fn with(own: &OwnPantry, edits: &[OwnEdit]) -> OwnPantry {
        let shipped = assets::pantry().unwrap();
        edits.iter().fold(own.clone(), |own, edit| own.apply(&shipped, edit).unwrap().0)
    }

    fn copy(name: &str) -> OwnEdit {
        OwnEdit::Copy(EntryKind::Base, "coconut_milk_tinned".into(), name.into())
    }

    fn fat(key: &str, to: f64) -> OwnEdit {
        OwnEdit::Figure(EntryKind::Base, key.into(), "composition.fat".into(), to)
    }

    fn fat_of(own: &OwnPantry, key: &str) -> f64 {
        own.entries.bases.iter().find(|b| b.key == key).unwrap().composition.fat.value
    }

    #[test]
    fn changes_of_different_entries_come_together_untold() {
        let base = with(&OwnPantry::default(), &[copy("Tin one"), copy("Tin two"), copy("Tin three")]);
        let mine = with(&base, &[fat("tin_one", 17.0), copy("Tin four")]);
        let theirs = with(
            &base,
            &[fat("tin_two", 19.0), copy("Tin five"), OwnEdit::Remove(EntryKind::Base, "tin_three".into())],
        );
        let merged = mine.merged(&base, &theirs);
        assert_eq!(merged.told, []);
        let keys: Vec<&str> = merged.own.entries.bases.iter().map(|b| b.key.as_str()).collect();
        assert_eq!(keys, ["tin_one", "tin_two", "tin_four", "tin_five"]);
        assert!((fat_of(&merged.own, "tin_one") - 17.0).abs() < 1e-12);
        assert!((fat_of(&merged.own, "tin_two") - 19.0).abs() < 1e-12);
    }

    #[test]
    fn what_both_changed_is_told_and_both_are_kept() {
        let base = with(&OwnPantry::default(), &[copy("Tin one")]);
        let (mine, theirs) = (with(&base, &[fat("tin_one", 17.0)]), with(&base, &[fat("tin_one", 19.0)]));
        let merged = mine.merged(&base, &theirs);
        assert_eq!(merged.told.len(), 1);
        assert!(merged.told[0].line().contains("Tin one (other window)"), "{}", merged.told[0]);
        assert!((fat_of(&merged.own, "tin_one") - 17.0).abs() < 1e-12);
        assert!((fat_of(&merged.own, "tin_one_2") - 19.0).abs() < 1e-12);
        // A change outlives a removal, whichever way round.
        let gone = with(&base, &[OwnEdit::Remove(EntryKind::Base, "tin_one".into())]);
        for (a, b) in [(&mine, &gone), (&gone, &mine)] {
            let merged = a.merged(&base, b);
            assert!((fat_of(&merged.own, "tin_one") - 17.0).abs() < 1e-12);
            assert_eq!(merged.told.len(), 1);
        }
        // The same change by both is none.
        assert_eq!(mine.merged(&base, &mine).told, []);
    }
}
