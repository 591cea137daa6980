//! The Codex class of a coconut product from the figures of its label, with the margin to each limit.

use potset_base::{Note, Severity, number};
use potset_doc::label::meaning::meaning;
use potset_forecast::facts;
use potset_science::params::CoconutLaw;

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

impl Placed {
    /// What it goes by, in words.
    pub fn how(&self) -> String {
        let mut how = vec!["ash taken as 0.032 of the fat"];
        if self.filled {
            how.push("some figures filled in");
        }
        if self.outside {
            how.push("sweetened, so outside the standard: by composition only");
        }
        how.join("; ")
    }

    /// The class in a sentence.
    fn class_words(&self) -> String {
        if self.misses.is_empty() { self.class.to_owned() } else { format!("no full {}", self.class) }
    }
}

/// What the name promises and the figures do not hold: a watch note with the class by the figures, and the fat and solids that
/// are missing. Nothing for a sweetened product, which is outside the standard.
///
/// Source: published, Codex CXS 240-2003 section 3.1.3.
pub fn contradicts(name: &str, fat: f64, placed: &Placed, law: &CoconutLaw) -> Option<Note> {
    let lower = name.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).filter(|w| !w.is_empty()).collect();
    let claimed = facts::codex_classes(law)[meaning().coconut_class(&words)? as usize];
    let lacks = [("fat", fat, claimed.least_fat), ("total solids", placed.solids, claimed.least_solids)];
    let holds = lacks.iter().all(|(_, has, least)| has >= least);
    if placed.outside || holds {
        return None;
    }
    let lacks: Vec<String> = lacks
        .into_iter()
        .chain([("non-fat solids", placed.other, claimed.least_other)])
        .filter(|(_, has, least)| has < least)
        .map(|(what, has, least)| {
            let missing = number::figures(least - has, 2);
            format!(
                "{} g of {what}; the class asks for {}, {missing} more",
                number::fixed(has, 1),
                number::plain(least)
            )
        })
        .collect();
    let from = if placed.filled { "; some of it filled in" } else { "" };
    Some(Note {
        severity: Severity::Watch,
        field: "name".to_owned(),
        title: format!(
            "The name says {}, but the figures are those of {}",
            claimed.name,
            placed.class_words()
        ),
        sentence: format!("In 100 g: {} (Codex CXS 240){from}", lacks.join("; ")),
        mend: "Check fat and serving against the packet, and expect a thinner pot".to_owned(),
    })
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
