//! The Codex class of a coconut product from the figures of its label, with the margin to each limit.

use crate::compile::facts;
use crate::science::params::CoconutLaw;

/// Ash of coconut cream and milk, of the fat. Source: derived, mean of seven table rows (USDA SR, Japan, West Africa,
/// Kenya), range 0.021-0.046.
const ASH_OF_FAT: f64 = 0.032;

/// A margin smaller than this is no margin, g/100 g. Source: assumed, about the last digit of a label.
const BORDERLINE: f64 = 0.1;

/// How far a figure is from a limit, g/100 g; negative: the limit is missed.
#[derive(Clone, Debug, PartialEq)]
pub struct Margin {
    pub what: &'static str,
    pub has: f64,
    pub limit: f64,
    pub by: f64,
}

/// A coconut product in its class.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    pub class: &'static str,
    /// Limits of the class that it misses; empty if none.
    pub misses: String,
    pub solids: f64,
    /// Non-fat solids.
    pub other: f64,
    pub margins: Vec<Margin>,
    /// A margin is smaller than 0.1 g/100 g: the class could be another one.
    pub borderline: bool,
    /// A figure was filled in.
    pub filled: bool,
    /// Sweetened: the standard is for products without sugar, so the class goes by composition only.
    pub outside: bool,
}

/// Places a product. `fat` and `organic` (protein, carbohydrate and fibre) in g/100 g.
///
/// Source: published, Codex CXS 240-2003 section 3.1.3; ash is worked out from the fat.
pub fn place(fat: f64, organic: f64, filled: bool, outside: bool, law: &CoconutLaw) -> Placed {
    let other = organic + ASH_OF_FAT * fat;
    let solids = fat + other;
    let (class, misses) = facts::codex_class(fat, other, law);
    let above = |what, has: f64, limit: f64| Margin { what, has, limit, by: has - limit };
    let mut margins = Vec::new();
    if let Some(limits) = facts::class_by_solids(solids, law) {
        margins.push(above("total solids, least of the class", solids, limits.least_solids));
        if let Some(next) = limits.next_solids {
            margins.push(Margin {
                what: "total solids, next class",
                has: solids,
                limit: next,
                by: next - solids,
            });
        }
        margins.push(above("fat", fat, limits.least_fat));
        margins.push(above("non-fat solids", other, limits.least_other));
    } else {
        margins.push(above("total solids, lowest class", solids, law.light_solids));
    }
    let borderline = margins.iter().any(|m| m.by.abs() < BORDERLINE);
    Placed { class, misses, solids, other, margins, borderline, filled, outside }
}
