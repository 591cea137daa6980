//! What an entry means for diets and allergies, by what it says of itself.

use super::Wish;
use potset_base::Sugar;
use potset_base::allergen::is_nut;
use potset_doc::pantry::{Entry, EntryKind, Pantry};

/// Most lactose of what counts as lactose-free, g/100 g. Source: common practice, 0.1 g in 100 g in several countries of
/// Europe; there is no single limit.
const LACTOSE_FREE: f64 = 0.1;

/// What an entry means for diets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Diet {
    pub vegan: bool,
    pub gluten_free: bool,
    pub lactose_free: bool,
    pub milk_free: bool,
    pub nut_free: bool,
    pub coconut_free: bool,
    /// It is food, so the question makes sense.
    pub food: bool,
}

impl Diet {
    /// Whether a diet lets it in; what is no food is let in by all.
    pub const fn meets(self, wish: Wish) -> bool {
        !self.food
            || match wish {
                Wish::Vegan => self.vegan,
                Wish::GlutenFree => self.gluten_free,
                Wish::LactoseFree => self.lactose_free,
                Wish::MilkFree => self.milk_free,
                Wish::NutFree => self.nut_free,
                Wish::CoconutFree => self.coconut_free,
            }
    }

    /// What it meets, in words; empty for what is no food.
    pub fn words(self) -> Vec<&'static str> {
        if !self.food {
            return Vec::new();
        }
        Wish::ALL.into_iter().filter(|w| self.meets(*w)).map(Wish::words).collect()
    }

    fn of(entry: &dyn Entry, lactose: f64) -> Self {
        let names = |what: &dyn Fn(&str) -> bool| entry.allergens().iter().any(|a| what(a));
        Self {
            vegan: entry.vegan() == Some(true),
            gluten_free: entry.gluten_free() == Some(true),
            lactose_free: lactose <= LACTOSE_FREE,
            milk_free: !names(&|a| a == "milk"),
            nut_free: !names(&is_nut),
            coconut_free: !names(&|a| a == "coconut"),
            food: entry.vegan().is_some(),
        }
    }
}

/// The diets of the entries of a kind, in the pantry's order.
pub fn diets(pantry: &Pantry, kind: EntryKind) -> Vec<Diet> {
    pantry.entries(kind).into_iter().map(|entry| Diet::of(entry, lactose(entry, kind))).collect()
}

/// g/100 g.
fn lactose(entry: &dyn Entry, kind: EntryKind) -> f64 {
    // How much lactose the carrier of a culture holds is not known: milk that is named counts.
    if kind == EntryKind::Culture && entry.allergens().iter().any(|a| a == "milk") {
        return 100.0;
    }
    entry.sugars().iter().filter(|s| s.sugar == Sugar::Lactose).map(|s| s.g_per_100g.value).sum()
}
