//! What a whole pot holds and weighs in words: in grams and litres, or in ounces, pounds, cups and quarts.
//!
//! How this kitchen says it is asked of [`units`]; cups and quarts are those of the US, whatever spoons a design has.

use super::{Measure, SpoonSet};
use crate::number::{NBSP, figures, fixed, parts, plain};
use crate::units::{self, Amounts};

/// A weight, g, in words: "25.4 g", "2.06 kg"; "0.9 oz", "2 lb 3 oz".
///
/// Below a tenth of an ounce it stays in grams: a kitchen scale shows no less in ounces.
pub fn weight(g: f64) -> String {
    let [ounce, pound] = [Measure::Ounce, Measure::Pound].map(|m| m.grams(SpoonSet::UnitedStates, None));
    let (Amounts::UsCustomary, Some(ounce), Some(pound)) = (units::spoken().amounts, ounce, pound) else {
        return weight_metric(g);
    };
    let ounces = g / ounce;
    let whole = ounces.round();
    if ounces < 0.1 {
        weight_metric(g)
    } else if whole < pound / ounce {
        let tenths = (10.0 * ounces).round() / 10.0;
        format!("{}{NBSP}oz", plain(if ounces < 10.0 { tenths } else { whole }))
    } else {
        let pounds = (whole * ounce / pound + 1e-9).floor();
        let rest = (whole - pounds * pound / ounce).round();
        let rest = if rest > 0.0 { format!(" {}{NBSP}oz", fixed(rest, 0)) } else { String::new() };
        format!("{}{NBSP}lb{rest}", fixed(pounds, 0))
    }
}

fn weight_metric(g: f64) -> String {
    let (count, unit) = if g >= 1000.0 { (g / 1000.0, "kg") } else { (g, "g") };
    let text = figures(count, 3);
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    format!("{text}{NBSP}{unit}")
}

/// How far a volume in cups may be off, as a share of it. Source: assumed, as much as a cup is filled by eye.
const NEAR: f64 = 0.06;

/// A volume, L, in words: "0.85 L"; "3½ cups", "2¼ quarts", "2 tbsp".
///
/// - `digits` — significant figures of litres; cups and spoons are said in thirds and quarters.
pub fn volume(litres: f64, digits: usize) -> String {
    let set = SpoonSet::UnitedStates;
    let Amounts::UsCustomary = units::spoken().amounts else {
        return format!("{}{NBSP}L", figures(litres, digits));
    };
    let ml = 1000.0 * litres;
    // Eight cups are two quarts: from there on people count those.
    let (measure, one) = match ml {
        ml if ml >= 7.9 * set.cup_ml() => (Measure::Quart, 4.0 * set.cup_ml()),
        ml if ml >= 0.24 * set.cup_ml() => (Measure::Cup, set.cup_ml()),
        ml if ml >= 0.9 * set.tablespoon_ml() => (Measure::Tablespoon, set.tablespoon_ml()),
        _ => (Measure::Teaspoon, set.teaspoon_ml()),
    };
    let said = parts(ml / one);
    // Where no third or quarter of a cup is near, fluid ounces tell it better.
    let near = (said.1 * one - ml).abs() <= NEAR * ml;
    let ounces = set.fluid_ounce_ml().filter(|_| measure == Measure::Cup && !near);
    let (measure, (text, shown)) =
        ounces.map_or((measure, said), |ounce| (Measure::FluidOunce, parts(ml / ounce)));
    format!("{text}{NBSP}{}", measure.word(shown > 1.0))
}

/// From one volume to another, L: "0.4 to 1 L", "1⅔ to 4¼ cups".
pub fn volume_span(low: f64, high: f64) -> String {
    let (low, high) = (volume_plain(low), volume_plain(high));
    // The unit is said once where both have it.
    let bare = |text: &str| {
        let (count, unit) = text.split_once(NBSP)?;
        Some((count.to_owned(), unit.trim_end_matches('s').to_owned()))
    };
    match (bare(&low), bare(&high)) {
        _ if low == high => high,
        (Some((count, a)), Some((_, b))) if a == b => format!("{count} to {high}"),
        _ => format!("{low} to {high}"),
    }
}

/// A volume in as few figures of litres as tell it.
pub fn volume_plain(litres: f64) -> String {
    match units::spoken().amounts {
        Amounts::Metric => format!("{}{NBSP}L", plain(litres)),
        Amounts::UsCustomary => volume(litres, 3),
    }
}
