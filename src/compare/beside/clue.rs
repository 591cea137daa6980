//! By what a part of a design makes a pot sour sooner or later: pace, cells, food, acid to be made, warmth, the pH asked for.

use potset_base::number::{self, NBSP};
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

/// A clue: how much it counts, whether it makes for later, and a clause of it: "in which the culture works at 60 % of the
/// pace".
#[derive(Clone, Debug, PartialEq)]
struct One {
    counts: f64,
    /// Nothing where it may be either: a warmer pot is sooner sour, up to a point.
    later: Option<bool>,
    clause: String,
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
        let mut all = vec![
            One { counts: pace.abs(), later: Some(pace < 0.0), clause: pace_clause(pace.exp()) },
            One {
                counts: A_DOUBLING * cells.abs(),
                later: Some(cells < 0.0),
                clause: cells_clause(cells.exp()),
            },
            One { counts: A_DOUBLING * acid.abs(), later: Some(acid > 0.0), clause: acid_clause(acid.exp()) },
            One { counts: hunger.abs(), later: Some(hunger > 0.0), clause: food_clause(hunger) },
            One { counts: A_DEGREE * warmth.abs(), later: None, clause: warmth_clause(warmth) },
            One {
                counts: 10.0 * A_TENTH_OF_PH * release.abs(),
                later: Some(release < 0.0),
                clause: format!("with which pH{NBSP}{} is needed", number::fixed(ph, 1)),
            },
        ];
        all.retain(|one| one.counts >= LEAST);
        all.sort_by(|a, b| b.counts.total_cmp(&a.counts));
        Self(all)
    }

    /// The clause of what counts most for a time that is later, or sooner.
    pub fn clause(&self, later: bool) -> Option<&str> {
        self.0.iter().find(|one| one.later.is_none_or(|l| l == later)).map(|one| one.clause.as_str())
    }
}

fn times(factor: f64) -> String {
    number::figures(factor, 2)
}

fn pace_clause(factor: f64) -> String {
    if factor < 1.0 {
        let percent = number::fixed(100.0 * factor, 0);
        format!("in which the culture works at {percent}{NBSP}% of the pace")
    } else {
        format!("in which the culture works {} times as fast", times(factor))
    }
}

fn cells_clause(factor: f64) -> String {
    if factor < 1e-3 {
        "which brings next to no living cells".to_owned()
    } else {
        format!("which brings {} times as many living cells", times(factor))
    }
}

fn acid_clause(factor: f64) -> String {
    format!("which takes {} times as much acid to sour", times(factor))
}

fn food_clause(hunger: f64) -> String {
    let how = if hunger > 0.0 { "too little" } else { "more" };
    format!("which gives the culture {how} sugar that it eats")
}

fn warmth_clause(by_c: f64) -> String {
    let way = if by_c > 0.0 { "warmer" } else { "cooler" };
    format!("which keeps the pot {}{NBSP}°C {way} in the first hours", number::figures(by_c.abs(), 2))
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAIN: Ways = Ways { pace: 1.0, cells: 1e6, food: 40.0, acid: 40.0, warm_c: 42.0, release_ph: 4.4 };

    #[test]
    fn what_counts_most_in_the_right_direction_is_told() {
        let base = Ways { pace: 0.6, acid: 24.0, ..PLAIN };
        let clue = Clue::of(&[(PLAIN, base), (PLAIN, base)]);
        assert_eq!(clue.clause(true), Some("in which the culture works at 60\u{a0}% of the pace"));
        assert_eq!(clue.clause(false), Some("which takes 0.60 times as much acid to sour"));
        let starved = Ways { food: 0.1, ..PLAIN };
        assert!(Clue::of(&[(PLAIN, starved)]).clause(true).unwrap().contains("too little sugar"));
        let few = Ways { cells: 1e5, ..PLAIN };
        assert!(Clue::of(&[(PLAIN, few)]).clause(true).unwrap().contains("0.10 times as many"));
        assert!(Clue::of(&[(few, PLAIN)]).clause(true).is_none());
        let cool = Ways { warm_c: 36.0, ..PLAIN };
        assert!(Clue::of(&[(PLAIN, cool)]).clause(true).unwrap().contains("6.0\u{a0}°C cooler"));
        assert_eq!(Clue::of(&[(PLAIN, PLAIN)]).clause(true), None);
    }
}
