//! The maker's own pantry: entries of their own, tickets for the shipped ones, and every change of both.
//! **The maker's own entries.** `doc/own.rs`: a pantry of their own plus tickets (price, photo, remark) for what ships; every
//! change is an `OwnEdit`, applied or refused with a mend, kept on a stack of its own in `app/shelves.rs`, saved in the user's
//! data folder. All code below `app` sees one merged `Pantry`. A figure typed by the maker is `SourceKind::Own`. A design keeps
//! its snapshot; `doc/pantry/differ.rs` tells what is otherwise now, `Edit::Renew` takes it over. Tickets are no difference:
//! costs use today's price.

mod about;
mod merge;

pub use about::{About, copy_name};
pub use merge::Merged;

use serde::{Deserialize, Serialize};

use super::pantry::{
    At, BufferShape, Entry, EntryKind, Listed, Organism, Pantry, Ticket, either, faults, key_for,
};
use potset_base::{Note, Source, SourceKind, number};

/// The ticket of a shipped entry.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ticketed {
    pub kind: EntryKind,
    pub key: String,
    pub ticket: Ticket,
}

/// What the maker added to the shipped pantry.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnPantry {
    #[serde(default)]
    pub entries: Pantry,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tickets: Vec<Ticketed>,
}

/// A change of the maker's own pantry.
#[derive(Clone, Debug, PartialEq)]
pub enum OwnEdit {
    /// Copies an entry under a new name, to change it.
    Copy(EntryKind, String, String),
    Remove(EntryKind, String),
    Rename(EntryKind, String, String),
    /// Sets the figure at a path; its source becomes the maker's own.
    Figure(EntryKind, String, String, f64),
    Handling(EntryKind, String, String),
    /// Allergens, diets, other names, cautions.
    About(EntryKind, String, About),
    /// Price, photo and remark, of an own or a shipped entry.
    Ticket(EntryKind, String, Ticket),
    /// Takes in the entries of another pantry: shared ones, or one just made.
    Add(Box<Pantry>),
}

impl OwnEdit {
    /// The change in words, for taking it back.
    pub const fn words(&self) -> &'static str {
        match self {
            Self::Copy(..) => "copy an entry",
            Self::Remove(..) => "remove an entry",
            Self::Rename(..) => "rename an entry",
            Self::Figure(..) => "change a figure",
            Self::Handling(..) => "change how it is handled",
            Self::About(..) => "change what an entry says of itself",
            Self::Ticket(..) => "change a price, photo or remark",
            Self::Add(_) => "add entries",
        }
    }
}

/// Words of the source of a figure that the maker typed.
const TYPED: &str = "typed in by the maker of the entry";

impl OwnPantry {
    /// The shipped pantry with the maker's entries in it, and their tickets on the shipped ones. Own entries win.
    pub fn over(&self, shipped: &Pantry) -> Pantry {
        let mut all = shipped.clone();
        all.put_all(&self.entries);
        for ticketed in &self.tickets {
            if let Some(entry) = all.entry_mut(ticketed.kind, &ticketed.key) {
                entry.head_mut().ticket.clone_from(&ticketed.ticket);
            }
        }
        all
    }

    /// Whether an entry is the maker's own.
    pub fn owns(&self, kind: EntryKind, key: &str) -> bool {
        self.entries.entry(kind, key).is_some()
    }

    /// How many own entries there are.
    pub fn count(&self) -> usize {
        self.entries.all().count()
    }

    /// The first fault of an entry, with its field.
    pub fn fault(&self) -> Option<Note> {
        self.entries.all().find_map(|(kind, e)| faults(&self.entries, kind, e.key()).into_iter().next())
    }

    /// The pantry after a change. The key of the entry that it made or moved comes with it.
    ///
    /// # Errors
    /// A note that names the entry or figure and the mend; nothing is changed then.
    pub fn apply(
        &self,
        shipped: &Pantry,
        edit: &OwnEdit,
    ) -> Result<(Self, Option<(EntryKind, String)>), Note> {
        let mut new = self.clone();
        let all = self.over(shipped);
        let shown = match edit {
            OwnEdit::Copy(kind, key, name) => Some((*kind, new.copy(&all, *kind, key, name)?)),
            OwnEdit::Remove(kind, key) => {
                if !new.entries.take_out(*kind, key) {
                    return Err(not_own(*kind, &all, key));
                }
                None
            }
            OwnEdit::Rename(kind, key, name) => {
                let name = named(name)?;
                *new.own_entry(&all, *kind, key)?.head_mut().name = name;
                Some((*kind, key.clone()))
            }
            OwnEdit::Figure(kind, key, path, value) => {
                let mut met = false;
                new.own_entry(&all, *kind, key)?.visit(&At::Top, &mut |at, cited| {
                    if at.path() == *path {
                        met = true;
                        cited.value = *value;
                        cited.spread = potset_base::Spread::Exact;
                        cited.from = Source { kind: SourceKind::Own, text: TYPED.to_owned() };
                    }
                });
                if !met {
                    return Err(Note::error(path, "The entry has no such figure", "Pick one of its figures"));
                }
                in_order(&new.entries, *kind, key)?;
                Some((*kind, key.clone()))
            }
            OwnEdit::Handling(kind, key, text) => {
                new.own_entry(&all, *kind, key)?.head_mut().handling.clone_from(text);
                Some((*kind, key.clone()))
            }
            OwnEdit::About(kind, key, about) => {
                about.apply(new.own_entry(&all, *kind, key)?)?;
                Some((*kind, key.clone()))
            }
            OwnEdit::Ticket(kind, key, ticket) => {
                new.ticket(&all, *kind, key, ticket)?;
                Some((*kind, key.clone()))
            }
            OwnEdit::Add(pantry) => new.add(&all, pantry)?,
        };
        Ok((new, shown))
    }

    /// An entry of the maker's own, to change it.
    fn own_entry(&mut self, all: &Pantry, kind: EntryKind, key: &str) -> Result<&mut dyn Entry, Note> {
        self.entries.entry_mut(kind, key).ok_or_else(|| not_own(kind, all, key))
    }

    fn copy(&mut self, all: &Pantry, kind: EntryKind, key: &str, name: &str) -> Result<String, Note> {
        let name = named(name)?;
        if about::name_taken(all, kind, &name) {
            let mend = format!("Call it “{}”, or what you like", copy_name(all, kind, &name));
            return Err(Note::error("Name", format!("There is a {} of this name already", kind.one()), mend));
        }
        let new_key = key_for(&name, |k| all.entry(kind, k).is_some());
        if !self.entries.put_as(all, (kind, key), &new_key, Some(name)) {
            return Err(Note::error(
                kind.one(),
                format!("The pantry has no {} called {key}", kind.one()),
                "Pick an entry of the pantry",
            ));
        }
        Ok(new_key)
    }

    fn ticket(&mut self, all: &Pantry, kind: EntryKind, key: &str, ticket: &Ticket) -> Result<(), Note> {
        if let Some(price) = &ticket.price
            && !(price.money.is_finite() && price.money >= 0.0 && price.buys.is_finite() && price.buys > 0.0)
        {
            return Err(Note {
                sentence: format!("{} for {}", number::plain(price.money), number::plain(price.buys)),
                ..Note::error(
                    "Price",
                    "The price cannot be true",
                    "Give money of 0 or more for an amount above 0",
                )
            });
        }
        if let Some(entry) = self.entries.entry_mut(kind, key) {
            entry.head_mut().ticket.clone_from(ticket);
            return Ok(());
        }
        if all.entry(kind, key).is_none() {
            return Err(Note::error(kind.one(), "The entry is gone", "Pick an entry of the pantry"));
        }
        self.tickets.retain(|t| !(t.kind == kind && t.key == key));
        if !ticket.is_blank() {
            self.tickets.push(Ticketed { kind, key: key.to_owned(), ticket: ticket.clone() });
        }
        Ok(())
    }

    /// Entries whose key is taken come in under a new key; just the same ones do not come in twice.
    fn add(&mut self, all: &Pantry, pantry: &Pantry) -> Result<Option<(EntryKind, String)>, Note> {
        let mut last = None;
        for (kind, key) in pantry.all().map(|(kind, entry)| (kind, entry.key())) {
            in_order(pantry, kind, key)?;
            let taken = |k: &str| all.entry(kind, k).is_some() || self.entries.entry(kind, k).is_some();
            let new_key = if taken(key) { key_for(key, taken) } else { key.to_owned() };
            if new_key == key || !same(all, pantry, kind, key) {
                self.entries.put_as(pantry, (kind, key), &new_key, None);
                last = Some((kind, new_key));
            }
        }
        self.entries.keep_parts(pantry, all);
        if last.is_none() {
            return Err(Note::error(
                "entries",
                "The file holds nothing new",
                "The pantry has these entries already",
            ));
        }
        self.needs_are_there(all)?;
        Ok(last)
    }

    /// Every own base has its buffer shape, every own culture its organisms.
    fn needs_are_there(&self, all: &Pantry) -> Result<(), Note> {
        for base in &self.entries.bases {
            self.needs::<BufferShape>(all, &base.name, &base.buffer_shape)?;
        }
        for culture in &self.entries.cultures {
            for dose in &culture.doses {
                self.needs::<Organism>(all, &culture.name, &dose.organism)?;
            }
        }
        Ok(())
    }

    fn needs<T: Listed>(&self, all: &Pantry, name: &str, key: &str) -> Result<(), Note> {
        if either::<T>(all, &self.entries, key).is_some() {
            return Ok(());
        }
        Err(Note::error(
            name,
            format!("The entry needs the {} {key}, which is not there", T::ONE),
            "Ask for the file again, shared with the whole entry",
        ))
    }
}

/// Whether both pantries hold the very same entry under this key, tickets aside.
fn same(a: &Pantry, b: &Pantry, kind: EntryKind, key: &str) -> bool {
    let name = |p: &Pantry| p.entry(kind, key).map(|e| e.name().to_owned());
    name(a) == name(b) && a.figures_of(kind, key) == b.figures_of(kind, key)
}

fn named(name: &str) -> Result<String, Note> {
    let name = name.trim();
    if name.is_empty() {
        return Err(Note::error("Name", "The entry has no name", "Type a name"));
    }
    if name.chars().count() > 120 {
        return Err(Note::error("Name", "The name is too long", "Keep it under 120 letters"));
    }
    Ok(name.to_owned())
}

fn not_own(kind: EntryKind, all: &Pantry, key: &str) -> Note {
    let name = all.entry(kind, key).map_or(key, |e| e.name());
    Note::error(
        name,
        "This entry ships with the program and cannot be changed",
        "Copy it, and change the copy",
    )
}

fn in_order(pantry: &Pantry, kind: EntryKind, key: &str) -> Result<(), Note> {
    faults(pantry, kind, key).into_iter().next().map_or(Ok(()), Err)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assets;
    use crate::pantry::{Price, SoldBy};

    fn shipped() -> Pantry {
        assets::pantry().unwrap()
    }

    fn copied() -> (OwnPantry, String) {
        let edit = OwnEdit::Copy(EntryKind::Base, "coconut_milk_tinned".into(), "Corner shop tin".into());
        let (own, shown) = OwnPantry::default().apply(&shipped(), &edit).unwrap();
        (own, shown.unwrap().1)
    }

    #[test]
    fn a_copy_can_be_changed_and_the_shipped_one_cannot() {
        let (own, key) = copied();
        assert_eq!(key, "corner_shop_tin");
        let fat = OwnEdit::Figure(EntryKind::Base, key.clone(), "composition.fat".into(), 18.2);
        let (own, _) = own.apply(&shipped(), &fat).unwrap();
        let all = own.over(&shipped());
        let mine = all.bases.iter().find(|b| b.key == key).unwrap();
        assert!((mine.composition.fat.value - 18.2).abs() < 1e-12);
        assert_eq!(mine.composition.fat.from.kind, SourceKind::Own);
        let shipped_fat =
            OwnEdit::Figure(EntryKind::Base, "coconut_milk_tinned".into(), "composition.fat".into(), 1.0);
        assert!(own.apply(&shipped(), &shipped_fat).unwrap_err().mend.contains("Copy"));
        let bad = OwnEdit::Figure(EntryKind::Base, key.clone(), "composition.fat".into(), 140.0);
        let note = own.apply(&shipped(), &bad).unwrap_err();
        assert!(note.field.contains("fat"), "{note:?}");
        let gone = own.apply(&shipped(), &OwnEdit::Remove(EntryKind::Base, key)).unwrap().0;
        assert_eq!(gone.count(), 0);
    }

    #[test]
    fn a_ticket_goes_on_shipped_entries_too() {
        let ticket = Ticket {
            price: Some(Price { money: 1.8, buys: 400.0, by: SoldBy::Millilitre }),
            ..Ticket::default()
        };
        let edit = OwnEdit::Ticket(EntryKind::Base, "coconut_milk_tinned".into(), ticket.clone());
        let (own, _) = OwnPantry::default().apply(&shipped(), &edit).unwrap();
        let all = own.over(&shipped());
        assert_eq!(all.entry(EntryKind::Base, "coconut_milk_tinned").unwrap().ticket(), &ticket);
        let blank = OwnEdit::Ticket(EntryKind::Base, "coconut_milk_tinned".into(), Ticket::default());
        assert!(own.apply(&shipped(), &blank).unwrap().0.tickets.is_empty());
        let free =
            Ticket { price: Some(Price { money: 1.8, buys: 0.0, by: SoldBy::Gram }), ..Ticket::default() };
        let none = OwnEdit::Ticket(EntryKind::Base, "water".into(), free);
        assert!(own.apply(&shipped(), &none).is_err());
    }

    #[test]
    fn shared_entries_come_in_once_and_never_over_others() {
        let (own, key) = copied();
        let share = Box::new(own.entries);
        let (there, _) = OwnPantry::default().apply(&shipped(), &OwnEdit::Add(share.clone())).unwrap();
        assert!(there.apply(&shipped(), &OwnEdit::Add(share.clone())).is_err(), "nothing new");
        let fat = OwnEdit::Figure(EntryKind::Base, key.clone(), "composition.fat".into(), 18.2);
        let (changed, _) = there.apply(&shipped(), &fat).unwrap();
        let (both, shown) = changed.apply(&shipped(), &OwnEdit::Add(share)).unwrap();
        assert_eq!(shown.unwrap().1, format!("{key}_2"));
        assert_eq!(both.count(), 2);
    }
}
