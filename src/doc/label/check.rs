//! What cannot be true on a label, or hardly: energy against the figures, parts larger than their whole.

use super::Nutrient::{self, *};
use super::{Amount, Basis, LabelReading, Portion};
use potset_base::{Note, Severity, number};

/// Energy of fat, carbohydrate, protein and fibre, kcal/g and kJ/g.
/// Source: published, Regulation (EU) 1169/2011, annex XIV; fat, carbohydrate and protein as Codex CXG 2-1985, 3.3.
const KCAL: [f64; 4] = [9.0, 4.0, 4.0, 2.0];
const KJ: [f64; 4] = [37.0, 17.0, 17.0, 8.0];

/// How far the stated energy may be from the figures: a share of it, and kcal. Source: assumed; rounding on a label and
/// the factors that are special to a food (coconut: 7 %) stay inside.
const ENERGY_SHARE: f64 = 0.12;
const ENERGY_KCAL: f64 = 8.0;

/// kJ in a kcal. Source: published, the thermochemical calorie, exact by definition.
const KJ_PER_KCAL: f64 = 4.184;

/// Slack for figures that were rounded, g. Source: assumed, half a gram a figure.
const ROUNDING: f64 = 0.5;

/// All doubts about the figures, none of which changes them.
pub fn doubts(label: &LabelReading) -> Vec<Note> {
    let mut all = Vec::new();
    basis(label, &mut all);
    energy(label, &mut all);
    parts(label, &mut all);
    sums(label, &mut all);
    units(label, &mut all);
    all
}

fn watch(all: &mut Vec<Note>, field: &str, title: &str, sentence: String, mend: &str) {
    all.push(Note { severity: Severity::Watch, sentence, ..Note::error(field, title, mend) });
}

fn basis(label: &LabelReading, all: &mut Vec<Note>) {
    if label.figures.iter().all(Option::is_none) {
        return;
    }
    match label.basis {
        Basis::NotSaid => {
            let sentence =
                "The label does not say what its figures are for; they are read as per 100 g".to_owned();
            watch(
                all,
                "basis",
                "The label does not say per what",
                sentence,
                "Add a line such as “Per 100 g”",
            );
        }
        Basis::Serving(None) => {
            let sentence =
                "The figures are for a serving or a measure of unknown size: nothing is worked out from them"
                    .to_owned();
            watch(
                all,
                "basis",
                "The figures cannot be used",
                sentence,
                "Add a line such as “Serving size 80 mL”",
            );
        }
        Basis::Serving(Some(size @ Portion::Household(..))) => {
            let (low, high) = size.bounds();
            let sentence = format!(
                "{} is read as {} mL; it may be {} to {} mL, by country",
                size.words(),
                number::figures(size.size(), 3),
                number::figures(low, 3),
                number::figures(high, 3)
            );
            let mend = "Add its size in mL, such as “Serving size 240 mL”";
            watch(all, "basis", "The label does not say whose cup or spoon", sentence, mend);
        }
        _ => {}
    }
}

/// Most that 100 g or 100 mL hold, g. 100 mL of a food weigh 130 g at most (assumed: thick syrup).
fn most(label: &LabelReading) -> f64 {
    if label.by_volume() { 130.0 } else { 100.0 }
}

/// The figures that cannot be true, as far as the label itself tells: more than the whole, parts above their whole (then
/// either may be wrong), and what adds up to more than there is.
pub fn impossible(label: &LabelReading) -> Vec<Nutrient> {
    let of = |n: Nutrient| label.per_100(n).unwrap_or(0.0);
    let grams = [Fat, Saturates, Carbohydrate, Sugars, AddedSugars, Fibre, Protein, Salt];
    let mut all: Vec<Nutrient> = grams.into_iter().filter(|n| of(*n) > most(label) + ROUNDING).collect();
    for (part, whole) in larger_parts(label) {
        all.extend([part, whole]);
    }
    if all.is_empty() && sum(label) > most(label) + ROUNDING {
        all.extend([Fat, Carbohydrate, Protein, Fibre, Salt].into_iter().filter(|n| of(*n) > 0.0));
    }
    all.sort_unstable();
    all.dedup();
    all
}

/// Parts that are larger than their whole.
fn larger_parts(label: &LabelReading) -> Vec<(Nutrient, Nutrient)> {
    let stated = |n: Nutrient| match label.figure(n)?.amount {
        Amount::Exactly(v) => Some(v),
        _ => None,
    };
    [(Saturates, Fat), (Sugars, Carbohydrate), (AddedSugars, Sugars)]
        .into_iter()
        .filter(|(part, whole)| stated(*part).zip(stated(*whole)).is_some_and(|(p, w)| p > w + ROUNDING))
        .collect()
}

fn sum(label: &LabelReading) -> f64 {
    let of = |n: Nutrient| label.per_100(n).unwrap_or(0.0);
    let fibre = if label.carbohydrate_holds_fibre { 0.0 } else { of(Fibre) };
    of(Fat) + of(Carbohydrate) + of(Protein) + fibre + of(Salt)
}

/// Stated amounts of fat, carbohydrate, protein and fibre; the first three must be there.
fn makers(label: &LabelReading) -> Option<[f64; 4]> {
    let of = |n: Nutrient| label.figure(n).map(|f| f.amount.likely());
    Some([of(Fat)?, of(Carbohydrate)?, of(Protein)?, of(Fibre).unwrap_or(0.0)])
}

fn energy(label: &LabelReading, all: &mut Vec<Note>) {
    let stated = |n: Nutrient| match label.figure(n)?.amount {
        Amount::Exactly(v) => Some(v),
        _ => None,
    };
    if let (Some(kj), Some(kcal)) = (stated(EnergyKj), stated(EnergyKcal)) {
        let off = (kj / KJ_PER_KCAL - kcal).abs();
        if off > ENERGY_SHARE * kcal && off > ENERGY_KCAL {
            let sentence = format!(
                "{} kJ are {} kcal, not {}",
                number::plain(kj),
                number::fixed(kj / KJ_PER_KCAL, 0),
                number::plain(kcal)
            );
            watch(all, "energy", "kJ and kcal do not agree", sentence, "Check both against the packet");
        }
    }
    let Some(grams) = makers(label) else { return };
    for (nutrient, factors, least) in
        [(EnergyKcal, KCAL, ENERGY_KCAL), (EnergyKj, KJ, ENERGY_KCAL * KJ_PER_KCAL)]
    {
        let Some(has) = stated(nutrient) else { continue };
        let three: f64 = (0..3).map(|i| grams[i] * factors[i]).sum();
        // Fibre beside carbohydrate adds energy; fibre counted in it takes some off.
        let fibre = if label.carbohydrate_holds_fibre { factors[3] - factors[1] } else { factors[3] };
        let with = three + grams[3] * fibre;
        let off = (has - three).abs().min((has - with).abs());
        if off > ENERGY_SHARE * has.max(with) && off > least {
            let sentence = format!(
                "Fat, carbohydrate and protein give {} {}; the label says {}",
                number::fixed(with, 0),
                nutrient.unit(),
                number::plain(has)
            );
            watch(
                all,
                "energy",
                "The energy does not fit the figures",
                sentence,
                "Check the figures against the packet",
            );
            return;
        }
    }
}

fn parts(label: &LabelReading, all: &mut Vec<Note>) {
    let stated = |n: Nutrient| label.figure(n).map_or(0.0, |f| f.amount.likely());
    for (part, whole) in larger_parts(label) {
        let title = format!("More {} than {}", part.words(), whole.words());
        let sentence = format!("{} g of {} g", number::plain(stated(part)), number::plain(stated(whole)));
        watch(all, part.words(), &title, sentence, "Check both against the packet");
    }
}

fn sums(label: &LabelReading, all: &mut Vec<Note>) {
    let sum = sum(label);
    if sum > most(label) + ROUNDING {
        let per = if label.by_volume() { "100 mL" } else { "100 g" };
        let sentence = format!(
            "Fat, carbohydrate, protein, fibre and salt add up to {} g in {per}",
            number::fixed(sum, 0)
        );
        watch(all, "figures", "The figures cannot be true", sentence, "Check each against the packet");
    }
}

fn units(label: &LabelReading, all: &mut Vec<Note>) {
    let bare: Vec<&str> = Nutrient::ALL
        .into_iter()
        .filter(|n| label.figure(*n).is_some_and(|f| !f.unit_said))
        .map(Nutrient::words)
        .collect();
    if !bare.is_empty() {
        let sentence = format!("{} read as grams", bare.join(", "));
        watch(all, "figures", "Figures without a unit", sentence, "Add the unit if it is another");
    }
}
