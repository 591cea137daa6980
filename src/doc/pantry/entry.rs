//! Any entry of the pantry, whatever its kind: name, diet, ticket.

use serde::{Deserialize, Serialize};

use super::ticket::Ticket;
use super::{Additive, Base, Culture, Figures, Keyed, Raw, Sweetener, Thickener, Vessel, Warmer};
use potset_base::Note;
use potset_base::allergen::{Allergen, allergen};

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
    /// Kinds of what a pot is made of, in the order of making.
    pub const EATEN: [Self; 5] = [Self::Base, Self::Sugar, Self::Thickener, Self::Additive, Self::Culture];

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
    /// What it says of itself, to change it; `None` for what is no food.
    fn words_mut(&mut self) -> Option<WordsMut<'_>>;
}

/// What an entry says of itself, to change it.
pub struct WordsMut<'a> {
    pub aliases: &'a mut Vec<String>,
    pub hazards: &'a mut Vec<String>,
    pub allergens: &'a mut Vec<String>,
    pub vegan: &'a mut bool,
    /// The entry's own flag, and the value of it that means: free of gluten.
    pub gluten_free: (&'a mut bool, bool),
}

/// What an entry says of itself against its allergens: vegan with milk or fish, gluten-free with a gluten cereal.
#[must_use]
pub fn contradiction(entry: &dyn Entry) -> Option<Note> {
    let holds = |is: fn(&Allergen) -> bool| entry.allergens().iter().filter_map(|a| allergen(a)).any(is);
    let tell = |title: &str, mend: &str| Some(Note::error(entry.name(), title, mend));
    if entry.vegan() == Some(true) && holds(|a| a.animal) {
        return tell("It holds milk or fish and counts as vegan", "Take vegan off first, or the allergen");
    }
    if entry.gluten_free() == Some(true) && holds(|a| a.gluten) {
        return tell(
            "It holds a gluten cereal and counts as gluten-free",
            "Take gluten-free off first, or the allergen",
        );
    }
    None
}

macro_rules! words {
    ($entry:ident, $hazards:ident, $gluten:ident, $free:literal) => {
        Some(WordsMut {
            aliases: &mut $entry.aliases,
            hazards: &mut $entry.$hazards,
            allergens: &mut $entry.allergens,
            vegan: &mut $entry.vegan,
            gluten_free: (&mut $entry.$gluten, $free),
        })
    };
}

macro_rules! entry {
    ($($kind:ty { aliases: $aliases:expr, handling: $handling:ident, hazards: $hazards:expr, allergens: $allergens:expr,
        vegan: $vegan:expr, gluten_free: $gluten:expr, words: $words:expr }),* $(,)?) => {
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
            fn words_mut(&mut self) -> Option<WordsMut<'_>> {
                let f: fn(&mut Self) -> Option<WordsMut<'_>> = $words;
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
        gluten_free: |e| Some(e.gluten_free),
        words: |e| words!(e, hazards, gluten_free, true)
    },
    Sweetener {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free),
        words: |e| words!(e, hazards, gluten_free, true)
    },
    Thickener {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free),
        words: |e| words!(e, hazards, gluten_free, true)
    },
    Additive {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free),
        words: |e| words!(e, hazards, gluten_free, true)
    },
    Culture {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hazards,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(!e.gluten),
        words: |e| words!(e, hazards, gluten, false)
    },
    Raw {
        aliases: |e| &e.aliases,
        handling: handling,
        hazards: |e| &e.hygiene,
        allergens: |e| &e.allergens,
        vegan: |e| Some(e.vegan),
        gluten_free: |e| Some(e.gluten_free),
        words: |e| words!(e, hygiene, gluten_free, true)
    },
    Vessel {
        aliases: |_| &[],
        handling: handling,
        hazards: |_| &[],
        allergens: |_| &[],
        vegan: |_| None,
        gluten_free: |_| None,
        words: |_| None
    },
    Warmer {
        aliases: |_| &[],
        handling: handling,
        hazards: |_| &[],
        allergens: |_| &[],
        vegan: |_| None,
        gluten_free: |_| None,
        words: |_| None
    },
);
