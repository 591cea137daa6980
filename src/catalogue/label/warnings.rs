//! Warnings off an ingredient list: what stops a culture, what takes up acid, what thickens already, hidden milk.

use potset_base::{Note, Severity, number};
use potset_doc::Pantry;
use potset_doc::label::meaning::{Does, meaning};
use potset_doc::label::{Ingredient, LabelReading, Nutrient};
use potset_doc::pantry::{Base, BaseKind};

/// Atomic weight of calcium, g/mol. Source: published, IUPAC 2021 abridged table.
const CALCIUM_G_MOL: f64 = 40.078;

/// All warnings of a label.
pub fn warnings(
    label: &LabelReading,
    kind: Option<BaseKind>,
    base: Option<&Base>,
    sweetened: Option<&str>,
) -> Vec<Note> {
    let mut all = Vec::new();
    let list = label.all_ingredients();
    preservatives(&list, label, kind, &mut all);
    acid_takers(&list, label, base, &mut all);
    hidden_milk(label, kind, &mut all);
    if let Some(why) = sweetened {
        let sentence = format!("{why}. The culture eats the same few grams, and the rest stays sweet");
        put(
            &mut all,
            Severity::Watch,
            "The base is sweetened",
            sentence,
            "Leave out or lessen the sugar for the culture",
        );
    }
    let intense = that(&list, Does::Intense);
    tell(
        &mut all,
        Severity::Tip,
        "A sweetener in the base",
        &intense,
        "no culture eats the sweetener, and it stays",
        "",
    );
    all
}

fn put(all: &mut Vec<Note>, severity: Severity, title: &str, sentence: String, mend: &str) {
    all.push(Note { severity, sentence, ..Note::error("ingredients", title, mend) });
}

/// The same of some ingredients, if there are any.
fn tell(all: &mut Vec<Note>, severity: Severity, title: &str, names: &[String], what: &str, mend: &str) {
    if !names.is_empty() {
        put(all, severity, title, format!("{}: {what}", names.join(", ")), mend);
    }
}

/// Names of the ingredients that meet a condition, each once.
fn named(list: &[&Ingredient], is: impl Fn(&Ingredient) -> bool) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for one in list.iter().filter(|i| is(i)) {
        if !names.contains(&one.name) {
            names.push(one.name.clone());
        }
    }
    names
}

/// Whether an ingredient is an additive that does this.
fn does(one: &Ingredient, what: Does) -> bool {
    one.number.is_some_and(|n| meaning().does(n, what))
}

/// Names of the additives that do this.
fn that(list: &[&Ingredient], what: Does) -> Vec<String> {
    named(list, |one| does(one, what))
}

const ANOTHER: &str = "Choose a base without it";

/// Source: published, that benzoate and sorbate act by their undissociated part, as in the model; from memory, that nisin
/// acts on Gram-positive bacteria, natamycin on yeasts and moulds, propionates on moulds.
fn preservatives(list: &[&Ingredient], label: &LabelReading, kind: Option<BaseKind>, all: &mut Vec<Note>) {
    let mut sour = that(list, Does::Sorbate);
    let benzoate = that(list, Does::Benzoate);
    // Source: published, Codex CXS 240-2003: benzoate up to 1000 mg/kg in pasteurised coconut milk.
    let most = if kind == Some(BaseKind::Coconut) && !benzoate.is_empty() {
        "; the coconut standard lets in up to 1000 mg/kg of benzoate"
    } else {
        ""
    };
    sour.extend(benzoate);
    let what = format!(
        "the preservative acts more as the pot sours. A pot begins well, then stalls between pH 5 and 4.5. The label \
         gives no amount{most}"
    );
    tell(all, Severity::Watch, "The base is preserved against souring", &sour, &what, ANOTHER);
    let mut sulphite = that(list, Does::Sulphite);
    if sulphite.is_empty() {
        sulphite.extend(named(list, |i| meaning().sulphite.within(&i.name)));
        sulphite.extend(label.contains.iter().filter(|c| meaning().sulphite.within(c)).cloned());
    }
    let what = "it slows a culture from the start, and some people must avoid it. The label gives no amount";
    tell(all, Severity::Watch, "The base holds sulphite", &sulphite, what, ANOTHER);
    let nisin = that(list, Does::Nisin);
    if !nisin.is_empty() {
        let sentence =
            "Nisin is made against bacteria like those of a culture: the pot may never start".to_owned();
        put(all, Severity::Stop, "Nisin kills cultures", sentence, ANOTHER);
    }
    if !that(list, Does::Natamycin).is_empty() {
        let sentence =
            "Natamycin acts on moulds and yeasts, hardly on the bacteria of a culture. A mould that shows a spoilt \
             pot comes later"
                .to_owned();
        put(all, Severity::Tip, "A preservative against moulds", sentence, "");
    }
    let preserved = "A preservative in the base";
    let mould = that(list, Does::Propionate);
    tell(all, Severity::Watch, preserved, &mould, "made against moulds, and may slow a culture", ANOTHER);
    let other = named(list, |i| {
        i.role == Some(potset_doc::label::Role::Preservative) && !does(i, Does::Preservative)
    });
    tell(all, Severity::Watch, preserved, &other, "what it does to a culture is not known here", ANOTHER);
}

/// What stands on the label and is not in the forecast of its pot, since no label gives its amount.
pub fn left_out(label: &LabelReading) -> Vec<String> {
    let list = label.all_ingredients();
    let acts = [Does::Acts, Does::Chalk, Does::BufferSalt];
    named(&list, |i| thickens(i) || acts.into_iter().any(|what| does(i, what)))
}

/// Gums, gels and starches; a group by what is in it.
fn thickens(one: &Ingredient) -> bool {
    one.parts.is_empty() && (does(one, Does::Thickener) || meaning().thickens.within(&one.name))
}

fn acid_takers(list: &[&Ingredient], label: &LabelReading, base: Option<&Base>, all: &mut Vec<Note>) {
    let what = format!(
        "it takes up acid before the pot can sour{}. It gives off gas: below pH 6, bubbles are then no sign of \
         spoilage",
        taken_up(list, label, base)
    );
    let mend = "Choose a base without it, or give the pot more time";
    tell(all, Severity::Watch, "Chalk in the base", &that(list, Does::Chalk), &what, mend);
    let what = "such salts take up acid, so the pot sours more slowly and less far";
    let mend = "Give the pot more time, or choose a base without";
    tell(all, Severity::Watch, "Buffer salts in the base", &that(list, Does::BufferSalt), what, mend);
}

/// Acid that the added calcium takes up, two for each calcium, if the label gives calcium and all of it is carbonate.
fn taken_up(list: &[&Ingredient], label: &LabelReading, base: Option<&Base>) -> String {
    let only = !list.iter().any(|i| does(i, Does::CalciumSalt));
    let carbonate = list.iter().any(|i| i.number == Some(170));
    let (Some(has), Some(base)) = (label.per_100(Nutrient::Calcium), base) else { return String::new() };
    let density = if label.by_volume() { base.density.value } else { 1.0 };
    let added = has / density - base.composition.calcium.value;
    if !(only && carbonate) || added <= 0.0 {
        return String::new();
    }
    format!(" (about {} mmol/kg, by its calcium)", number::figures(2.0 * added * 10.0 / CALCIUM_G_MOL, 2))
}

/// Milk in what is not milk: the words that tell.
pub fn milk_in(label: &LabelReading, kind: Option<BaseKind>) -> Vec<String> {
    if kind == Some(BaseKind::Dairy) {
        return Vec::new();
    }
    let known = meaning();
    let mut milk =
        named(&label.all_ingredients(), |i| known.milk.within(&i.name) && !known.plant_milk.within(&i.name));
    let claimed = label.contains.iter().any(|c| known.milk_claimed.has(c));
    if milk.is_empty() && claimed && kind.is_some() {
        milk.push("“contains milk”".to_owned());
    }
    milk
}

fn hidden_milk(label: &LabelReading, kind: Option<BaseKind>, all: &mut Vec<Note>) {
    let what = "milk is an allergen, and the pot is not vegan";
    let mend = "Choose another base for vegans and for milk allergy";
    tell(all, Severity::Watch, "The base holds milk", &milk_in(label, kind), what, mend);
}

/// What thickens already: gums, gels and starches of the list, with the pantry's name where it has one.
pub fn thickening(label: &LabelReading, pantry: &Pantry) -> Vec<String> {
    named(&label.all_ingredients(), thickens)
        .into_iter()
        .map(|name| {
            let entry = pantry
                .thickeners
                .iter()
                .find(|t| t.aliases.iter().chain([&t.name]).any(|a| a.to_lowercase() == name));
            entry.map_or_else(|| name.clone(), |t| format!("{name} (in the pantry: {})", t.name))
        })
        .collect()
}
