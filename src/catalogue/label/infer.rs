//! Kind of base, nearest entry of the pantry, and the figures that the label leaves out.

use super::of_base::{own, spread};
use potset_base::{choices, number};
use potset_doc::design::LabelFigures;
use potset_doc::label::meaning::meaning;
use potset_doc::label::{self, Ingredient, LabelReading, Nutrient};
use potset_doc::pantry::{Base, BaseKind, Pantry, Sterility};

choices! {
    /// How sure an inference is.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
    pub enum Sureness: words {
        #[default]
        Unknown => "not known",
        Guess => "a guess",
        Likely => "likely",
        Sure => "sure",
    }
}

/// The nearest entry of the pantry.
#[derive(Clone, Debug, PartialEq)]
pub struct Matched {
    pub key: String,
    pub name: String,
    pub sure: Sureness,
    pub why: String,
}

/// Weight of fat, protein and sugars when entries are compared (assumed: fat tells most of a base).
const WEIGHTS: [(Nutrient, f64); 3] =
    [(Nutrient::Fat, 2.0), (Nutrient::Protein, 1.0), (Nutrient::Sugars, 0.5)];
/// Figures under this are alike, g/100 g (assumed: what labels round away).
const ALIKE: f64 = 0.5;
/// An entry whose name is on the label counts as nearer by this (assumed).
const NAMED: f64 = 0.3;
/// Distances that are sure, and likely (assumed: figures within about 10 and 40 %).
const NEAR: [f64; 2] = [0.4, 1.4];
/// Saturates in the fat, and fat [g/100 g], from which only coconut is likely. Source: derived, USDA SR 12115, 12117 and
/// 12118 have 0.87-0.89, milk and cream 0.57-0.64.
const SATURATED: (f64, f64) = (0.8, 3.0);

fn words(text: &str) -> Vec<String> {
    text.to_lowercase()
        .split(|c: char| !c.is_alphabetic() && c != '\'')
        .map(|w| w.trim_end_matches("'s").to_owned())
        .filter(|w| !w.is_empty())
        .collect()
}

/// The kind that a name tells first. Plant words go before milk words; coconut water is no base.
fn kind_of(text: &str) -> Option<BaseKind> {
    let words = words(text);
    if words.iter().any(|w| meaning().not_the_base.has(w))
        || words.windows(2).any(|w| w[0] == "coconut" && w[1] == "water")
    {
        return None;
    }
    let told: Vec<BaseKind> = words.iter().filter_map(|w| meaning().kinds.get(w).copied()).collect();
    told.iter().find(|k| **k != BaseKind::Dairy).or_else(|| told.first()).copied()
}

/// Kind of base, how sure, and why.
pub fn kind(label: &LabelReading) -> (Option<BaseKind>, Sureness, String) {
    let named = label.name.as_deref().and_then(kind_of);
    let listed = label
        .all_ingredients()
        .into_iter()
        .filter(|i| i.role.is_none() && i.number.is_none())
        .find_map(|i| kind_of(&i.name).map(|kind| (kind, i.name.clone())));
    match (named, listed) {
        (Some(a), Some((b, what))) if a == b => {
            (Some(a), Sureness::Sure, format!("the name says so, and so does “{what}” among the ingredients"))
        }
        (Some(_), Some((b, what))) => (
            Some(b),
            Sureness::Guess,
            format!("the name says another kind, but “{what}” comes first among the ingredients"),
        ),
        (None, Some((b, what))) => (Some(b), Sureness::Likely, format!("“{what}” is among the ingredients")),
        (Some(a), None) => (Some(a), Sureness::Likely, "only the name says so".to_owned()),
        (None, None) => by_figures(label),
    }
}

fn by_figures(label: &LabelReading) -> (Option<BaseKind>, Sureness, String) {
    if let (Some(fat), Some(saturates)) = (label.per_100(Nutrient::Fat), label.per_100(Nutrient::Saturates))
        && fat >= SATURATED.1
        && saturates <= fat
        && saturates / fat >= SATURATED.0
    {
        let why = "nearly all of its fat is saturated, as in coconut".to_owned();
        return (Some(BaseKind::Coconut), Sureness::Guess, why);
    }
    let claimed: Vec<BaseKind> = label.contains.iter().filter_map(|c| kind_of(c)).collect();
    match claimed.as_slice() {
        [one] => (Some(*one), Sureness::Guess, "only its list of allergens shows it".to_owned()),
        _ => (None, Sureness::Unknown, "the label does not say what it is made of".to_owned()),
    }
}

/// The nearest entry of a kind: by figures, and by name where those leave it open.
///
/// A figure that cannot be true does not count, and beside a doubt nothing is sure.
pub fn entry(label: &LabelReading, kind: BaseKind, pantry: &Pantry) -> Option<Matched> {
    let impossible = label::impossible(label);
    let told = |n: Nutrient| label.per_100(n).filter(|_| !impossible.contains(&n));
    let mut text: Vec<String> = label.name.iter().cloned().collect();
    text.extend(label.all_ingredients().into_iter().map(|i| i.name.clone()));
    let on_label: Vec<String> = text.iter().flat_map(|t| words(t)).collect();
    let has = |words: &[String], species: &str| words.iter().any(|w| w.trim_end_matches('s') == species);
    let of_entry = |b: &Base| words(&format!("{} {}", b.name, b.aliases.join(" ")));
    let all: Vec<&Base> = pantry.bases.iter().filter(|b| b.kind == kind).collect();
    let same: Vec<&Base> = all
        .iter()
        .filter(|b| {
            let own = of_entry(b);
            meaning().species.iter().all(|s| has(&own, s) == has(&on_label, s))
        })
        .copied()
        .collect();
    let stands_in = same.is_empty();
    let mut candidates = if stands_in { all } else { same };
    // What has a label came in a pack: a home-made base only stands in where there is no other.
    if candidates.iter().any(|b| b.sterility != Sterility::Fresh) {
        candidates.retain(|b| b.sterility != Sterility::Fresh);
    }
    let known = WEIGHTS.iter().filter(|(n, _)| told(*n).is_some()).count();
    let called = text.join(" ").to_lowercase();
    let distance = |b: &Base| {
        let figures: f64 = WEIGHTS
            .iter()
            .filter_map(|(n, weight)| {
                let (x, y) = (told(*n)?, own(b, *n));
                Some(weight * ((x + ALIKE) / (y + ALIKE)).ln().abs())
            })
            .sum();
        let names = b.aliases.iter().chain([&b.name]).any(|a| called.contains(&a.to_lowercase()));
        (figures, figures - if names { NAMED } else { 0.0 })
    };
    let (best, (figures, _)) =
        candidates.iter().map(|b| (*b, distance(b))).min_by(|(_, (_, a)), (_, (_, b))| a.total_cmp(b))?;
    let doubted = !label::doubts(label).is_empty();
    // A sweetened product beside an entry that is not.
    let plainer =
        sweet(label).is_some() && own(best, Nutrient::Sugars) < told(Nutrient::Sugars).unwrap_or(f64::MAX);
    let sure = match known {
        _ if stands_in => Sureness::Guess,
        0 => Sureness::Guess,
        _ if !impossible.is_empty() => Sureness::Guess,
        _ if figures <= NEAR[1] && (doubted || plainer) => Sureness::Likely,
        // One figure alone fits many a product.
        _ if figures <= NEAR[0] && known > 1 => Sureness::Sure,
        _ if figures <= NEAR[1] => Sureness::Likely,
        _ => Sureness::Guess,
    };
    let why = if stands_in {
        "the pantry has no entry of exactly this; this one stands in"
    } else if known == 0 {
        "by its name only"
    } else if plainer && told(Nutrient::Sugars).is_none() {
        "its figures are nearest; the label is of a sweetened product, and gives no sugars"
    } else {
        "its figures are nearest"
    };
    Some(Matched { key: best.key.clone(), name: best.name.clone(), sure, why: why.to_owned() })
}

/// Sugar over the entry's own upper bound that counts as added, g/100 g (assumed).
const SWEETENED: f64 = 1.0;

/// The sugar of an ingredient list, if it stands before the list's tail: there, behind the first additive, salt or
/// flavouring, is less than a label's figures show (assumed).
pub fn sweet(label: &LabelReading) -> Option<&Ingredient> {
    let tail = |i: &Ingredient| {
        i.role.is_some()
            || i.number.is_some()
            || words(&i.name).iter().any(|w| meaning().tail.has(w.trim_end_matches('s')))
    };
    label
        .ingredients
        .iter()
        .take_while(|i| !tail(i))
        .find_map(|i| if is_sugar(i) { Some(i) } else { i.parts.iter().find(|p| is_sugar(p)) })
}

fn is_sugar(one: &Ingredient) -> bool {
    one.number.is_none() && words(&one.name).iter().any(|w| meaning().sugars.has(w.trim_end_matches('s')))
}

/// Why a base counts as sweetened, if it does.
pub fn sweetened(label: &LabelReading, base: Option<&Base>, stated: &LabelFigures) -> Option<String> {
    if let Some(found) = label.all_ingredients().into_iter().find(|i| is_sugar(i)) {
        return Some(format!("“{}” is among the ingredients", found.name));
    }
    if label.per_100(Nutrient::AddedSugars).is_some_and(|v| v > 0.5) {
        return Some("the label declares added sugars".to_owned());
    }
    let base = base?;
    let most = spread(base, Nutrient::Sugars).1.max(own(base, Nutrient::Sugars));
    // An oat drink makes sugar of its own starch.
    let has = stated.sugars.filter(|v| *v > most + SWEETENED && base.kind != BaseKind::Oat)?;
    Some(format!(
        "{} g of sugars in 100 g; {} has up to {}",
        number::fixed(has, 1),
        super::named(base),
        number::fixed(most, 1)
    ))
}

/// The share of the base itself that the label declares, %: pressed extract before milk, cream and the like.
pub fn extract(label: &LabelReading, kind: BaseKind) -> Option<f64> {
    let of_kind: Vec<&Ingredient> = label
        .all_ingredients()
        .into_iter()
        .filter(|i| i.percent.is_some() && kind_of(&i.name) == Some(kind))
        .collect();
    let pressed = |i: &&&Ingredient| words(&i.name).iter().any(|w| meaning().pressed.has(w));
    of_kind.iter().find(pressed).or_else(|| of_kind.first()).and_then(|i| i.percent)
}
