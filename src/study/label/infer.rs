//! Kind of base, nearest entry of the pantry, and the figures that the label leaves out.

use crate::compile::blend;
use crate::doc::design::{BaseLine, LabelFigures};
use crate::doc::label::{Ingredient, LabelReading, Nutrient};
use crate::doc::pantry::{Base, BaseKind, Pantry, Sterility};

/// How sure an inference is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sureness {
    #[default]
    Unknown,
    Guess,
    Likely,
    Sure,
}

impl Sureness {
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Unknown => "not known",
            Self::Guess => "a guess",
            Self::Likely => "likely",
            Self::Sure => "sure",
        }
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

/// A figure per 100 g.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    pub nutrient: Nutrient,
    pub v: f64,
    /// Off the label; otherwise filled in.
    pub stated: bool,
    /// Bounds of what was filled in, or of "less than"; the value itself where it is told.
    pub low: f64,
    pub high: f64,
}

/// Words that tell a kind.
const KINDS: &[(BaseKind, &[&str])] = &[
    (BaseKind::Coconut, &["coconut", "coconuts"]),
    (BaseKind::Soy, &["soy", "soya", "soybean", "soybeans", "soyabean", "soyabeans", "soymilk", "tofu"]),
    (BaseKind::Oat, &["oat", "oats", "oatmeal"]),
    (BaseKind::Nut, NUTS),
    (BaseKind::Pea, &["pea", "peas"]),
    (BaseKind::Rice, &["rice"]),
    (BaseKind::Dairy, &["milk", "cream", "buttermilk", "whey"]),
];

const NUTS: &[&str] = &[
    "almond",
    "almonds",
    "cashew",
    "cashews",
    "hazelnut",
    "hazelnuts",
    "macadamia",
    "macadamias",
    "walnut",
    "walnuts",
    "pistachio",
    "pistachios",
    "nut",
    "nuts",
];

/// Things made of a base that are not the base.
const NOT_THE_BASE: &[&str] = &[
    "oil",
    "sugar",
    "syrup",
    "lecithin",
    "starch",
    "nectar",
    "blossom",
    "flavour",
    "flavouring",
    "caseinate",
    "vinegar",
];

/// Kinds of animal, nut or treatment that tell one entry from another of its kind.
const SPECIES: &[&str] =
    &["almond", "cashew", "hazelnut", "macadamia", "walnut", "pistachio", "goat", "sheep", "lactose"];

/// Weight of fat, protein and sugars when entries are compared (assumed: fat tells most of a base).
const WEIGHTS: [(Nutrient, f64); 3] =
    [(Nutrient::Fat, 2.0), (Nutrient::Protein, 1.0), (Nutrient::Sugars, 0.5)];
/// Figures under this are alike, g/100 g (assumed: what labels round away).
const ALIKE: f64 = 0.5;
/// An entry whose name is on the label counts as nearer by this (assumed).
const NAMED: f64 = 0.3;
/// Distances that are sure, and likely (assumed: figures within about 10 and 40 %).
const NEAR: [f64; 2] = [0.4, 1.4];
/// Bounds of a figure that is filled in lie this many times as far off as those of the entry (assumed: another make).
const WIDER: f64 = 2.0;
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
    if words.iter().any(|w| NOT_THE_BASE.contains(&w.as_str()))
        || words.windows(2).any(|w| w[0] == "coconut" && w[1] == "water")
    {
        return None;
    }
    let of = |word: &String| KINDS.iter().find(|(_, of)| of.contains(&word.as_str())).map(|(kind, _)| *kind);
    let told: Vec<BaseKind> = words.iter().filter_map(of).collect();
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
        [one] => (Some(*one), Sureness::Guess, "only its list of allergens tells".to_owned()),
        _ => (None, Sureness::Unknown, "nothing on the label tells what it is made of".to_owned()),
    }
}

/// The nearest entry of a kind: by figures, and by name where those leave it open.
pub fn entry(label: &LabelReading, kind: BaseKind, pantry: &Pantry) -> Option<Matched> {
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
            SPECIES.iter().all(|s| has(&own, s) == has(&on_label, s))
        })
        .copied()
        .collect();
    let stands_in = same.is_empty();
    let mut candidates = if stands_in { all } else { same };
    // What has a label came in a pack: a home-made base only stands in where there is no other.
    if candidates.iter().any(|b| b.sterility != Sterility::Fresh) {
        candidates.retain(|b| b.sterility != Sterility::Fresh);
    }
    let known = WEIGHTS.iter().filter(|(n, _)| label.per_100(*n).is_some()).count();
    let called = text.join(" ").to_lowercase();
    let distance = |b: &Base| {
        let figures: f64 = WEIGHTS
            .iter()
            .filter_map(|(n, weight)| {
                let (x, y) = (label.per_100(*n)?, own(b, *n));
                Some(weight * ((x + ALIKE) / (y + ALIKE)).ln().abs())
            })
            .sum();
        let names = b.aliases.iter().chain([&b.name]).any(|a| called.contains(&a.to_lowercase()));
        (figures, figures - if names { NAMED } else { 0.0 })
    };
    let (best, (figures, _)) =
        candidates.iter().map(|b| (*b, distance(b))).min_by(|(_, (_, a)), (_, (_, b))| a.total_cmp(b))?;
    let sure = match known {
        _ if stands_in => Sureness::Guess,
        0 => Sureness::Guess,
        // One figure alone fits many a product.
        _ if figures <= NEAR[0] && known > 1 => Sureness::Sure,
        _ if figures <= NEAR[1] => Sureness::Likely,
        _ => Sureness::Guess,
    };
    let why = if stands_in {
        "it stands in: the pantry has no entry of just this"
    } else if known == 0 {
        "by its name only"
    } else {
        "its figures are nearest"
    };
    Some(Matched { key: best.key.clone(), name: best.name.clone(), sure, why: why.to_owned() })
}

fn own(base: &Base, nutrient: Nutrient) -> f64 {
    let c = &base.composition;
    match nutrient {
        Nutrient::Fat => c.fat.v,
        Nutrient::Protein => c.protein.v,
        Nutrient::Carbohydrate => c.carbohydrate.v,
        Nutrient::Fibre => c.fibre.v,
        Nutrient::Sugars => c.sugars.iter().map(|s| s.g_per_100g.v).sum(),
        _ => 0.0,
    }
}

/// g per 100 g from a figure per 100 g or 100 mL.
fn per_100g(label: &LabelReading, base: Option<&Base>, nutrient: Nutrient) -> Option<f64> {
    let density = if label.by_volume() { base.map_or(1.0, |b| b.density.v) } else { 1.0 };
    Some(label.per_100(nutrient)? / density)
}

/// The figures that a design takes over, per 100 g.
pub fn stated(label: &LabelReading, base: Option<&Base>, extract: Option<f64>) -> LabelFigures {
    let of = |n| per_100g(label, base, n);
    LabelFigures {
        fat: of(Nutrient::Fat),
        protein: of(Nutrient::Protein),
        sugars: of(Nutrient::Sugars),
        // Only coconut is made up to a declared extract that a design knows.
        extract: extract.filter(|_| base.is_some_and(|b| b.kind == BaseKind::Coconut)),
        carbohydrate: of(Nutrient::Carbohydrate).map(|all| {
            let fibre = of(Nutrient::Fibre).filter(|_| label.carbohydrate_holds_fibre).unwrap_or(0.0);
            (all - fibre).max(0.0)
        }),
        fibre: of(Nutrient::Fibre),
        saturates: of(Nutrient::Saturates),
        // Salt is sodium × 2.5 (Regulation (EU) 1169/2011 annex I).
        sodium: of(Nutrient::Sodium).or_else(|| of(Nutrient::Salt).map(|salt| salt * 400.0)),
        calcium: of(Nutrient::Calcium),
    }
}

/// Every figure that matters, per 100 g; the missing ones as the entry has them at this fat.
pub fn values(label: &LabelReading, base: Option<&Base>, stated: &LabelFigures) -> Vec<Value> {
    let mut all = Vec::new();
    let made = base.map(|b| {
        let line = BaseLine { label: stated.clone(), ..BaseLine::new(b.key.clone(), 1.0) };
        (b, blend::make(b, &line, None))
    });
    for nutrient in
        [Nutrient::Fat, Nutrient::Protein, Nutrient::Carbohydrate, Nutrient::Sugars, Nutrient::Fibre]
    {
        if let Some(v) = per_100g(label, base, nutrient) {
            let mut v = v;
            if nutrient == Nutrient::Carbohydrate && label.carbohydrate_holds_fibre {
                v -= per_100g(label, base, Nutrient::Fibre).unwrap_or(0.0).min(v);
            }
            let exact = label
                .figure(nutrient)
                .is_some_and(|f| matches!(f.amount, crate::doc::label::Amount::Exactly(_)));
            // "Less than" is read as half: its bounds are nothing and the whole.
            let (low, high) = if exact { (v, v) } else { (0.0, 2.0 * v) };
            all.push(Value { nutrient, v, stated: true, low, high });
        } else if let Some((base, make)) = &made {
            let v = 100.0
                * match nutrient {
                    Nutrient::Fat => make.fat,
                    Nutrient::Protein => make.protein,
                    Nutrient::Carbohydrate => make.carbohydrate,
                    Nutrient::Sugars => make.sugars.iter().sum(),
                    _ => make.fibre,
                };
            let (low, high) = spread(base, nutrient);
            let had = own(base, nutrient);
            let scale = if had > 0.0 { v / had } else { 1.0 };
            let low = (v - WIDER * (had - low).max(0.0) * scale).max(0.0);
            let high = v + WIDER * (high - had).max(0.0) * scale;
            all.push(Value { nutrient, v, stated: false, low, high });
        }
    }
    all
}

/// Bounds of an entry's figure.
fn spread(base: &Base, nutrient: Nutrient) -> (f64, f64) {
    let c = &base.composition;
    let of = |cited: &crate::base::Cited| cited.spread.bounds().unwrap_or((cited.v, cited.v));
    match nutrient {
        Nutrient::Fat => of(&c.fat),
        Nutrient::Protein => of(&c.protein),
        Nutrient::Carbohydrate => of(&c.carbohydrate),
        Nutrient::Fibre => of(&c.fibre),
        _ => c
            .sugars
            .iter()
            .map(|s| of(&s.g_per_100g))
            .fold((0.0, 0.0), |(low, high), (l, h)| (low + l, high + h)),
    }
}

/// Sugar over the entry's own upper bound that counts as added, g/100 g (assumed).
const SWEETENED: f64 = 1.0;

/// Words of sugars among ingredients.
const SUGARS: &[&str] = &[
    "sugar", "sucrose", "syrup", "honey", "dextrose", "glucose", "fructose", "agave", "molasses", "treacle",
    "nectar", "maltose",
];

/// Why a base counts as sweetened, if it does.
pub fn sweetened(label: &LabelReading, base: Option<&Base>, stated: &LabelFigures) -> Option<String> {
    let sweet = |i: &&Ingredient| {
        i.number.is_none() && words(&i.name).iter().any(|w| SUGARS.contains(&w.trim_end_matches('s')))
    };
    if let Some(found) = label.all_ingredients().into_iter().find(sweet) {
        return Some(format!("“{}” is among the ingredients", found.name));
    }
    if label.per_100(Nutrient::AddedSugars).is_some_and(|v| v > 0.5) {
        return Some("it declares added sugars".to_owned());
    }
    let base = base?;
    let most = spread(base, Nutrient::Sugars).1.max(own(base, Nutrient::Sugars));
    // An oat drink makes sugar of its own starch.
    let has = stated.sugars.filter(|v| *v > most + SWEETENED && base.kind != BaseKind::Oat)?;
    Some(format!(
        "{} g of sugars in 100 g; {} has up to {}",
        crate::base::number::fixed(has, 1),
        super::named(base),
        crate::base::number::fixed(most, 1)
    ))
}

/// The share of the base itself that the label declares, %: pressed extract before milk, cream and the like.
pub fn extract(label: &LabelReading, kind: BaseKind) -> Option<f64> {
    let of_kind: Vec<&Ingredient> = label
        .all_ingredients()
        .into_iter()
        .filter(|i| i.percent.is_some() && kind_of(&i.name) == Some(kind))
        .collect();
    let pressed = |i: &&&Ingredient| {
        words(&i.name)
            .iter()
            .any(|w| matches!(w.as_str(), "extract" | "kernel" | "meat" | "flesh" | "pressed"))
    };
    of_kind.iter().find(pressed).or_else(|| of_kind.first()).and_then(|i| i.percent)
}
