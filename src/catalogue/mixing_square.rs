//! The mixing square: two bases in the parts that reach a wanted fat or protein.

use potset_base::{Note, choices, number};
use potset_doc::pantry::Base;
use potset_doc::{Design, Edit, Pantry};
use potset_forecast::blend::{Make, make};

choices! {
    /// What is to be reached.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    pub enum Figure: word {
        Fat => "fat",
        Protein => "protein",
    }
}

impl Figure {
    /// g/100 g.
    fn of(self, make: &Make) -> f64 {
        100.0
            * match self {
                Self::Fat => make.fat,
                Self::Protein => make.protein,
            }
    }
}

/// A base by what it weighs and holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stuff {
    /// kg/L.
    pub density: f64,
    /// What is wanted, g/100 g.
    pub holds: f64,
}

/// Least share of a pair that either of the two keeps: less is as good as none.
const LEAST: f64 = 0.01;

/// Litres of the first of two stuffs, `both` litres of them together, so that they and the `rest` (kg, and kg times
/// g/100 g) hold `wanted` g/100 g. Without a rest this is the mixing square: each takes, by mass, the distance of
/// the *other* from what is wanted.
///
/// # Errors
/// A note that names the reach if the wanted value does not lie between what the two can give.
pub fn first_litres(a: Stuff, b: Stuff, both: f64, rest: (f64, f64), wanted: f64) -> Result<f64, Note> {
    let at = |x: f64| {
        let (ma, mb) = (x * a.density, (both - x) * b.density);
        (rest.1 + ma * a.holds + mb * b.holds) / (rest.0 + ma + mb)
    };
    // at(x) = wanted, solved for x.
    let (over_a, over_b) = (a.density * (a.holds - wanted), b.density * (b.holds - wanted));
    let x = (wanted * rest.0 - rest.1 - both * over_b) / (over_a - over_b);
    let (low, high) = (at(LEAST * both), at((1.0 - LEAST) * both));
    if (high - low).abs() < 1e-9 {
        let title =
            format!("Both hold {} g/100 g, and every blend of them does too", number::figures(low, 3));
        return Err(Note::error("blend", title, "Pick a leaner or a richer base"));
    }
    if (LEAST * both..=(1.0 - LEAST) * both).contains(&x) {
        return Ok(x);
    }
    let (low, high) = (number::figures(low.min(high), 3), number::figures(low.max(high), 3));
    Err(Note::error(
        "blend",
        format!("These two reach {low} to {high} g/100 g, not less and not more"),
        "Give a value between the two, or pick other bases",
    ))
}

/// The edit that gives the design's bases `pair` the litres at which all bases together hold `wanted` g/100 g of a
/// figure. The pair's litres together, and all other bases, stay. Figures of a label go before those of the pantry.
///
/// # Errors
/// A note if a base is not there, or as [`first_litres`].
pub fn blend(
    design: &Design,
    pantry: &Pantry,
    pair: (usize, usize),
    figure: Figure,
    wanted: f64,
) -> Result<Edit, Note> {
    if pair.0 == pair.1 {
        return Err(Note::error("blend", "A blend needs two bases", "Pick two different ones"));
    }
    let (a, b) = (stuff(design, pantry, pair.0, figure)?, stuff(design, pantry, pair.1, figure)?);
    let (mut both, mut rest) = (0.0, (0.0, 0.0));
    for (i, line) in design.bases.iter().enumerate() {
        if i == pair.0 || i == pair.1 {
            both += line.litres;
        } else {
            let other = stuff(design, pantry, i, figure)?;
            let kg = line.litres * other.density;
            rest = (rest.0 + kg, rest.1 + kg * other.holds);
        }
    }
    let x = first_litres(a, b, both, rest, wanted)
        .map_err(|note| Note { field: format!("{} to reach", figure.word()), ..note })?;
    let name = format!("Blend to {} of {} g/100 g", figure.word(), number::figures(wanted, 3));
    Ok(Edit::Together(name, vec![Edit::BaseLitres(pair.0, x), Edit::BaseLitres(pair.1, both - x)]))
}

/// What all bases together hold, g/100 g; nothing where an entry is missing.
pub fn held(design: &Design, pantry: &Pantry, figure: Figure) -> Option<f64> {
    let (mut kg, mut held) = (0.0, 0.0);
    for (i, line) in design.bases.iter().enumerate() {
        let one = stuff(design, pantry, i, figure).ok()?;
        kg += line.litres * one.density;
        held += line.litres * one.density * one.holds;
    }
    (kg > 0.0).then(|| held / kg)
}

fn stuff(design: &Design, pantry: &Pantry, i: usize, figure: Figure) -> Result<Stuff, Note> {
    let missing = || {
        Note::error(format!("bases[{i}]"), "There is no such base", "Choose one of the lines of the design")
    };
    let line = design.bases.get(i).ok_or_else(missing)?;
    let entry: &Base = design.entry(pantry, &line.entry).ok_or_else(missing)?;
    Ok(Stuff { density: entry.density.value, holds: figure.of(&make(entry, line)) })
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn of(holds: f64) -> Stuff {
        Stuff { density: 1.0, holds }
    }

    /// Litres of the first in a hundred of both, at the same density: shares by mass.
    fn first(a: f64, b: f64, wanted: f64) -> f64 {
        first_litres(of(a), of(b), 100.0, (0.0, 0.0), wanted).unwrap()
    }

    #[test]
    fn worked_squares() {
        // Published: University of Guelph, Food Science, "Standardization problems": 160 kg of cream of 40 % to 32 % with
        // skim milk of 0 % takes 40 kg of skim milk.
        let cream = first(40.0, 0.0, 32.0);
        assert!((160.0 * (100.0 - cream) / cream - 40.0).abs() < 1e-9);
        // The same source: 500 kg of milk of 4 % to 10 % takes 120 kg of cream of 35 %, 620 kg in all.
        let milk = first(4.0, 35.0, 10.0);
        assert!((500.0 * (100.0 - milk) / milk - 120.0).abs() < 1e-9);
        assert!((500.0 * 100.0 / milk - 620.0).abs() < 1e-9);
        // Published on a teaching page of the web: 100 kg of milk of 6 % to 4 % takes 50 kg of skim milk of 0 %.
        let milk = first(6.0, 0.0, 4.0);
        assert!((100.0 * (100.0 - milk) / milk - 50.0).abs() < 1e-9);
    }

    #[test]
    fn litres_come_by_density_and_the_rest_counts() {
        let (cream, milk) = (Stuff { density: 0.94, holds: 48.0 }, Stuff { density: 1.03, holds: 0.1 });
        let x = first_litres(cream, milk, 2.0, (1.0, 5.0), 10.0).unwrap();
        let (a, b) = (x * 0.94, (2.0 - x) * 1.03);
        assert!(((5.0 + a * 48.0 + b * 0.1) / (1.0 + a + b) - 10.0).abs() < 1e-9);
    }

    #[test]
    fn what_is_not_between_is_refused_with_the_reach() {
        for wanted in [3.0, 4.0, 36.0, f64::NAN] {
            let note = first_litres(of(4.0), of(35.0), 1.0, (0.0, 0.0), wanted).unwrap_err();
            assert!(note.title.contains("4.31 to 34.7"), "{note}");
        }
        let alike = first_litres(of(4.0), of(4.0), 1.0, (0.0, 0.0), 4.0).unwrap_err();
        assert!(alike.title.contains("Both hold"));
    }
}
