//! Any entry of the pantry, whatever its kind: name, diet, ticket.

use super::figures::Figures;
use super::ticket::Ticket;
use super::{Additive, Base, Culture, Keyed, Raw, SugarShare, Sweetener, Thickener, Vessel, Warmer};
use potset_base::Note;
use potset_base::allergen::{Allergen, allergen};

/// What an entry that is food says of itself.
#[derive(Clone, Copy)]
pub struct Food<'a> {
    pub aliases: &'a [String],
    pub hazards: &'a [String],
    pub allergens: &'a [String],
    /// Nothing of an animal in it.
    pub vegan: bool,
    /// No gluten in it.
    pub gluten_free: bool,
}

/// The same, to change it.
pub struct FoodMut<'a> {
    pub aliases: &'a mut Vec<String>,
    pub hazards: &'a mut Vec<String>,
    pub allergens: &'a mut Vec<String>,
    pub vegan: &'a mut bool,
    /// The entry's own flag, and the value of it that means: free of gluten.
    pub gluten_free: (&'a mut bool, bool),
}

/// What all entries have, to change it.
pub struct HeadMut<'a> {
    pub key: &'a mut String,
    pub name: &'a mut String,
    pub handling: &'a mut String,
    pub ticket: &'a mut Ticket,
    /// `None` for what is no food.
    pub food: Option<FoodMut<'a>>,
}

/// What all entries have.
pub trait Entry: Keyed + Figures {
    fn name(&self) -> &str;
    fn ticket(&self) -> &Ticket;
    fn handling(&self) -> &str;
    /// Usual dose, amount, size or setting, in the unit of its kind.
    fn usual(&self) -> (f64, f64);
    /// The sugars in it.
    fn sugars(&self) -> &[SugarShare];
    /// `None` for what is no food.
    fn food(&self) -> Option<Food<'_>>;
    fn head_mut(&mut self) -> HeadMut<'_>;

    fn aliases(&self) -> &[String] {
        self.food().map_or(&[], |food| food.aliases)
    }

    fn hazards(&self) -> &[String] {
        self.food().map_or(&[], |food| food.hazards)
    }

    fn allergens(&self) -> &[String] {
        self.food().map_or(&[], |food| food.allergens)
    }

    /// Nothing of an animal in it; `None` where the question makes no sense.
    fn vegan(&self) -> Option<bool> {
        self.food().map(|food| food.vegan)
    }

    /// No gluten in it; `None` where the question makes no sense.
    fn gluten_free(&self) -> Option<bool> {
        self.food().map(|food| food.gluten_free)
    }
}

/// What an entry says of itself against its allergens: vegan with milk or fish, gluten-free with a gluten cereal.
pub fn contradiction(entry: &dyn Entry) -> Option<Note> {
    let holds = |is: fn(&Allergen) -> bool| entry.allergens().iter().filter_map(|a| allergen(a)).any(is);
    let tell = |title: &str, mend: &str| Some(Note::error(entry.name(), title, mend));
    if entry.vegan() == Some(true) && holds(|a| a.animal) {
        return tell(
            "The entry holds milk or fish and counts as vegan",
            "Remove “vegan” first, or the allergen",
        );
    }
    if entry.gluten_free() == Some(true) && holds(|a| a.gluten) {
        return tell(
            "The entry holds a gluten cereal and counts as gluten-free",
            "Remove “gluten-free” first, or the allergen",
        );
    }
    None
}

/// An entry: what is usual, and its sugars; of what is food also the field of its cautions, and its flag for gluten with the
/// value that means: free of it.
macro_rules! entry {
    ($($kind:ty: $usual:expr, $sugars:expr $(, $hazards:ident, $gluten:ident == $free:literal)?;)*) => {$(
        impl Entry for $kind {
            fn name(&self) -> &str {
                &self.name
            }

            fn ticket(&self) -> &Ticket {
                &self.ticket
            }

            fn handling(&self) -> &str {
                &self.handling
            }

            fn usual(&self) -> (f64, f64) {
                let usual: fn(&Self) -> (f64, f64) = $usual;
                usual(self)
            }

            fn sugars(&self) -> &[SugarShare] {
                let sugars: fn(&Self) -> &[SugarShare] = $sugars;
                sugars(self)
            }

            fn food(&self) -> Option<Food<'_>> {
                let all = [$(Food {
                    aliases: &self.aliases,
                    hazards: &self.$hazards,
                    allergens: &self.allergens,
                    vegan: self.vegan,
                    gluten_free: self.$gluten == $free,
                })?];
                all.into_iter().next()
            }

            fn head_mut(&mut self) -> HeadMut<'_> {
                let food = [$(FoodMut {
                    aliases: &mut self.aliases,
                    hazards: &mut self.$hazards,
                    allergens: &mut self.allergens,
                    vegan: &mut self.vegan,
                    gluten_free: (&mut self.$gluten, $free),
                })?];
                HeadMut {
                    key: &mut self.key,
                    name: &mut self.name,
                    handling: &mut self.handling,
                    ticket: &mut self.ticket,
                    food: food.into_iter().next(),
                }
            }
        }
    )*};
}

entry! {
    Base: |e| e.usual_litres, |e| &e.composition.sugars, hazards, gluten_free == true;
    Sweetener: |e| e.usual, |e| &e.sugars, hazards, gluten_free == true;
    Thickener: |e| e.usual, |e| e.action.sugars(), hazards, gluten_free == true;
    Additive: |e| e.usual, |e| &e.sugars, hazards, gluten_free == true;
    Culture: |e| e.usual, |_| &[], hazards, gluten == false;
    Raw: |e| e.usual_water, |e| &e.composition.sugars, hygiene, gluten_free == true;
    Vessel: |e| (e.litres, e.litres), |_| &[];
    Warmer: |e| e.usual, |_| &[];
}
