//! By what a part of a design makes a pot sour sooner or later: pace, cells, food, acid to be made, warmth, the pH asked for.

use potset_base::words::ACID_LINE_PH;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::readiness::release_ph_of;

/// Hours over which the warmth of a hold is taken. Source: assumed; a slow start is in it.
const FIRST_H: u8 = 6;
/// Lactic acid from a gram of sugar, mmol. Source: derived, two of a hexose of 180 g/mol.
const ACID_PER_G: f64 = 11.1;
/// Food for less than so many times the acid to be made holds a culture up. Source: assumed; some of it goes into cells.
const SHORT_OF_FOOD: f64 = 1.5;
/// What a clue counts for the time against the logarithm of the pace, only to choose which is told: a doubling of cells or of
/// acid is about one doubling more or less of seven; a degree is some 5 % of the pace; a tenth of pH at the end takes about a
/// tenth of the time. Source: assumed.
const A_DOUBLING: f64 = 0.15;
const A_DEGREE: f64 = 0.05;
const A_TENTH_OF_PH: f64 = 0.1;
/// Clues that count less are not told. Source: assumed.
const LEAST: f64 = 0.03;

/// What the time of a mix goes by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ways {
    /// Mean pace of the organisms by their counts; 1 is that of their rates.
    pace: f64,
    /// Living cells, cfu/g.
    cells: f64,
    /// Sugar that the culture eats, g/kg.
    food: f64,
    /// Acid to be made until pH 4.6, mmol/kg.
    acid: f64,
    /// Mean of the first hours, °C.
    warm_c: f64,
    release_ph: f64,
}

impl Ways {
    /// Reads them off a run.
    pub fn of(scenario: &Scenario<'_>, run: &Run) -> Self {
        let (f, facts) = (&run.forecast, &run.facts);
        let cells: f64 = run.mix.organisms.iter().map(|o| o.count).sum();
        let pace: f64 = run.mix.organisms.iter().map(|o| o.count * o.speed).sum();
        let warmth = (0..=FIRST_H).map(|h| f.value(&f.temperature, f64::from(h))).sum::<f64>();
        Self {
            pace: if cells > 0.0 { pace / cells } else { 0.0 },
            cells,
            food: facts.edible_g_kg,
            acid: facts.mean_buffer * (facts.ph0 - ACID_LINE_PH).max(0.0),
            warm_c: warmth / f64::from(FIRST_H + 1),
            release_ph: release_ph_of(scenario, run),
        }
    }

    /// How far short of food it is; 0 where there is enough.
    fn hunger(&self) -> f64 {
        let need = SHORT_OF_FOOD * self.acid / ACID_PER_G;
        if need > 0.0 { (1.0 - self.food / need).max(0.0) } else { 0.0 }
    }
}

/// What the time goes by, as a part changes it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hint {
    /// Factor on the pace of the culture.
    Pace(f64),
    /// Factor on its living cells.
    Cells(f64),
    /// Factor on the acid that it takes to sour.
    Acid(f64),
    /// How much farther short of food the culture is, as a share of what it needs.
    Hunger(f64),
    /// How much warmer the first hours are, °C.
    Warmth(f64),
    /// The pH that is needed with the part.
    ReadyPh(f64),
}

/// A hint, how much it counts, and whether it makes for later.
#[derive(Clone, Debug, PartialEq)]
struct One {
    counts: f64,
    /// Nothing where it may be either: a warmer pot is sooner sour, up to a point.
    later: Option<bool>,
    hint: Hint,
}

/// What a part changes of what the time goes by.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Clue(Vec<One>);

impl Clue {
    /// From pairs of mixes without and with the part.
    pub fn of(pairs: &[(Ways, Ways)]) -> Self {
        let n = f64::from(u8::try_from(pairs.len()).unwrap_or(u8::MAX));
        if pairs.is_empty() {
            return Self::default();
        }
        let mean = |of: &dyn Fn(&Ways) -> f64| pairs.iter().map(|(a, b)| of(b) - of(a)).sum::<f64>() / n;
        let log = |v: f64| v.max(1e-9).ln();
        let (pace, cells, acid) = (mean(&|w| log(w.pace)), mean(&|w| log(w.cells)), mean(&|w| log(w.acid)));
        let (hunger, warmth) = (mean(&Ways::hunger), mean(&|w| w.warm_c));
        let (release, ph) = (mean(&|w| w.release_ph), pairs[0].1.release_ph);
        let one = |counts: f64, later, hint| One { counts: counts.abs(), later, hint };
        let mut all = vec![
            one(pace, Some(pace < 0.0), Hint::Pace(pace.exp())),
            one(A_DOUBLING * cells, Some(cells < 0.0), Hint::Cells(cells.exp())),
            one(A_DOUBLING * acid, Some(acid > 0.0), Hint::Acid(acid.exp())),
            one(hunger, Some(hunger > 0.0), Hint::Hunger(hunger)),
            one(A_DEGREE * warmth, None, Hint::Warmth(warmth)),
            one(10.0 * A_TENTH_OF_PH * release, Some(release < 0.0), Hint::ReadyPh(ph)),
        ];
        all.retain(|one| one.counts >= LEAST);
        all.sort_by(|a, b| b.counts.total_cmp(&a.counts));
        Self(all)
    }

    /// What counts most for a time that is later, or sooner.
    pub fn most(&self, later: bool) -> Option<Hint> {
        self.0.iter().find(|one| one.later.is_none_or(|l| l == later)).map(|one| one.hint)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAIN: Ways = Ways { pace: 1.0, cells: 1e6, food: 40.0, acid: 40.0, warm_c: 42.0, release_ph: 4.4 };

    #[test]
    fn what_counts_most_in_the_right_direction_is_told() {
        let base = Ways { pace: 0.6, acid: 24.0, ..PLAIN };
        let clue = Clue::of(&[(PLAIN, base), (PLAIN, base)]);
        let near = |hint: Option<Hint>, told: Hint| match (hint, told) {
            (Some(Hint::Pace(a)), Hint::Pace(b))
            | (Some(Hint::Cells(a)), Hint::Cells(b))
            | (Some(Hint::Acid(a)), Hint::Acid(b)) => (a - b).abs() < 1e-9,
            (hint, told) => hint == Some(told),
        };
        assert!(near(clue.most(true), Hint::Pace(0.6)), "{clue:?}");
        assert!(near(clue.most(false), Hint::Acid(0.6)), "{clue:?}");
        let starved = Ways { food: 0.1, ..PLAIN };
        assert!(matches!(Clue::of(&[(PLAIN, starved)]).most(true), Some(Hint::Hunger(h)) if h > 0.0));
        let few = Ways { cells: 1e5, ..PLAIN };
        assert!(near(Clue::of(&[(PLAIN, few)]).most(true), Hint::Cells(0.1)));
        assert_eq!(Clue::of(&[(few, PLAIN)]).most(true), None);
        let cool = Ways { warm_c: 36.0, ..PLAIN };
        assert_eq!(Clue::of(&[(PLAIN, cool)]).most(true), Some(Hint::Warmth(-6.0)));
        assert_eq!(Clue::of(&[(PLAIN, PLAIN)]).most(true), None);
    }
}
