//! What an entry says of itself in words and ticks: allergens, vegan, gluten-free, other names, cautions.

use crate::pantry::{Entry, EntryKind, Pantry, contradiction};
use potset_base::Note;
use potset_base::allergen::allergen;

/// A change of what an own entry says of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum About {
    /// An allergen by its key, and whether the entry names it.
    Allergen(String, bool),
    Vegan(bool),
    GlutenFree(bool),
    /// Other names; blank ones and doubles are left out.
    Aliases(Vec<String>),
    /// Cautions, one each; blank ones are left out.
    Cautions(Vec<String>),
}

impl About {
    /// Makes the change.
    ///
    /// # Errors
    /// A note, if the entry is no food, if no such allergen is known, or if the entry would contradict itself.
    pub(super) fn apply(&self, entry: &mut dyn Entry) -> Result<(), Note> {
        let name = entry.name().to_owned();
        let Some(food) = entry.head_mut().food else {
            return Err(Note::error(name, "This entry is not a food", "Pick an ingredient"));
        };
        match self {
            Self::Allergen(key, named) => {
                if allergen(key).is_none() {
                    let title = format!("“{key}” is no allergen that the program knows");
                    return Err(Note::error(name, title, "Pick one of its list"));
                }
                food.allergens.retain(|a| a != key);
                if *named {
                    food.allergens.push(key.clone());
                }
            }
            Self::Vegan(yes) => *food.vegan = *yes,
            Self::GlutenFree(yes) => {
                let (flag, free) = food.gluten_free;
                *flag = *yes == free;
            }
            Self::Aliases(all) => *food.aliases = tidy(all),
            Self::Cautions(all) => *food.hazards = tidy(all),
        }
        contradiction(entry).map_or(Ok(()), Err)
    }
}

/// Trimmed, without what is blank or there twice.
fn tidy(all: &[String]) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for text in all.iter().map(|t| t.trim()).filter(|t| !t.is_empty()) {
        if !out.iter().any(|have| have == text) {
            out.push(text.to_owned());
        }
    }
    out
}

/// A name for a copy that no entry of the kind has yet: "Honey, my own", "Honey, my own 2".
pub fn copy_name(all: &Pantry, kind: EntryKind, name: &str) -> String {
    let first = format!("{name}, my own");
    let mut free = first.clone();
    let mut count = 2;
    while name_taken(all, kind, &free) {
        free = format!("{first} {count}");
        count += 1;
    }
    free
}

/// Whether an entry of the kind is called so already, whatever the case of its letters.
pub(super) fn name_taken(all: &Pantry, kind: EntryKind, name: &str) -> bool {
    let wanted = name.trim().to_lowercase();
    all.entries(kind).iter().any(|e| e.name().to_lowercase() == wanted)
}

#[cfg(test)]
mod tests {
    use super::super::{OwnEdit, OwnPantry};
    use super::*;
    use crate::assets;
    use crate::pantry::Ticket;

    fn with(kind: EntryKind, key: &str, changes: &[About]) -> Result<OwnPantry, Note> {
        let shipped = assets::pantry().unwrap();
        let copy = OwnEdit::Copy(kind, key.into(), "Mine".into());
        let mut own = OwnPantry::default().apply(&shipped, &copy).unwrap().0;
        for change in changes {
            own = own.apply(&shipped, &OwnEdit::About(kind, "mine".into(), change.clone()))?.0;
        }
        Ok(own)
    }

    #[test]
    fn what_an_own_entry_says_of_itself_is_changed_and_kept_in_the_file() {
        let changes = [
            About::Allergen("soy".into(), true),
            About::Allergen("coconut".into(), false),
            About::Vegan(false),
            About::GlutenFree(false),
            About::Aliases(vec![" corner tin ".into(), String::new(), "corner tin".into()]),
            About::Cautions(vec!["Shake it well.".into()]),
        ];
        let own = with(EntryKind::Base, "coconut_milk_tinned", &changes).unwrap();
        let text = ron::to_string(&own).unwrap();
        let back: OwnPantry = ron::from_str(&text).unwrap();
        assert_eq!(back, own);
        let entry = back.entries.entry(EntryKind::Base, "mine").unwrap();
        assert_eq!(
            (entry.allergens(), entry.aliases()),
            (&["soy".to_owned()][..], &["corner tin".to_owned()][..])
        );
        assert_eq!((entry.vegan(), entry.gluten_free()), (Some(false), Some(false)));
        assert_eq!(entry.hazards(), ["Shake it well."]);
        assert_eq!(entry.ticket(), &Ticket::default());
    }

    #[test]
    fn a_culture_tells_gluten_the_other_way_round() {
        let kinds = assets::pantry().unwrap();
        let key = kinds.cultures[0].key.clone();
        for free in [false, true] {
            let own = with(EntryKind::Culture, &key, &[About::GlutenFree(free)]).unwrap();
            assert_eq!(own.entries.entry(EntryKind::Culture, "mine").unwrap().gluten_free(), Some(free));
        }
    }

    #[test]
    fn what_contradicts_itself_and_what_is_no_food_is_refused() {
        let coconut = |change| with(EntryKind::Base, "coconut_milk_tinned", &[change]);
        assert!(coconut(About::Allergen("milk".into(), true)).unwrap_err().title.contains("vegan"));
        assert!(coconut(About::Allergen("oats".into(), true)).unwrap_err().title.contains("gluten"));
        assert!(coconut(About::Allergen("moonlight".into(), true)).is_err());
        let vessel = assets::pantry().unwrap().vessels[0].key.clone();
        assert!(with(EntryKind::Vessel, &vessel, &[About::Vegan(true)]).is_err());
        let shipped = assets::pantry().unwrap();
        let edit = OwnEdit::About(EntryKind::Base, "water".into(), About::Vegan(false));
        assert!(OwnPantry::default().apply(&shipped, &edit).unwrap_err().mend.contains("Copy"));
    }

    #[test]
    fn a_copy_has_a_name_of_its_own() {
        let shipped = assets::pantry().unwrap();
        let name = shipped.sugars[0].name.clone();
        let key = shipped.sugars[0].key.clone();
        let copy = |name: &str| OwnEdit::Copy(EntryKind::Sugar, key.clone(), name.to_owned());
        let note = OwnPantry::default().apply(&shipped, &copy(&name.to_uppercase())).unwrap_err();
        assert!(note.mend.contains(&format!("{}, my own", name.to_uppercase())), "{note:?}");
        let first = copy_name(&shipped, EntryKind::Sugar, &name);
        let (own, _) = OwnPantry::default().apply(&shipped, &copy(&first)).unwrap();
        assert_eq!(copy_name(&own.over(&shipped), EntryKind::Sugar, &name), format!("{name}, my own 2"));
    }
}
