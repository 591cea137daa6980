//! Numbers in the line of a reading: what they are of, by the word before or behind them, their unit, or their size.

use super::super::said::INCH_CM;
use super::pieces::{Piece, Unit, What, Word, word_at};
use super::{Line, Observed, refused};
use crate::kitchen::PhBy;
use potset_base::acidity::AcidityUnit;
use potset_base::measures::{self, Amount, Size, SpoonSet};
use potset_base::units::{self, Amounts, Degrees, WARMTH, scale_in};
use potset_base::{Note, number};

/// pH that a bare number may be. Source: assumed, wider than any pot.
const PH: std::ops::RangeInclusive<f64> = 3.0..=7.5;
/// Whole numbers that may as well be a pot in the fridge, °C. Source: assumed.
const COLD_C: std::ops::RangeInclusive<f64> = 1.0..=9.0;
/// Most pieces of an amount behind its number: "2 level fl oz".
const AMOUNT: usize = 4;

/// Warmths that a bare number may be: those of a pot in its warmer. Source: assumed.
fn warmer(degrees: Degrees) -> std::ops::RangeInclusive<f64> {
    match degrees {
        Degrees::Celsius => 30.0..=60.0,
        Degrees::Fahrenheit => 85.0..=140.0,
    }
}

/// A warmth, °C.
fn celsius(value: f64, degrees: Degrees) -> f64 {
    scale_in(WARMTH, degrees).map_or(value, |scale| scale.back(value))
}

fn value_of(piece: &Piece<'_>) -> Result<f64, Note> {
    let raw = piece.raw;
    let mend = "Write a decimal as 4.9 or 4,9, and a time as 21:40";
    // Of a text with another sign the part before that would be read.
    let plain = Some(raw).filter(|raw| raw.chars().all(|c| c.is_ascii_digit() || "+-\u{2212}.,".contains(c)));
    plain.and_then(number::parse).ok_or_else(|| refused(format!("I don't know the number “{raw}”"), mend))
}

impl Line<'_> {
    fn unit_at(&self, at: usize) -> Option<(Unit, usize)> {
        match word_at(self.pieces, at)? {
            (Word::Unit(unit), taken) => Some((unit, taken)),
            _ => None,
        }
    }

    /// A number that stands before what it is of, if anything says so; how many pieces.
    pub(super) fn number(&mut self, at: usize) -> Result<usize, Note> {
        let piece = &self.pieces[at];
        if let Some((what, amount)) = self.amount_before(at) {
            let whole = self.measured(what, at)?;
            debug_assert_eq!(whole, amount, "it was looked at before");
            return Ok(amount + word_at(self.pieces, at + amount).map_or(0, |(_, taken)| taken));
        }
        let value = value_of(piece)?;
        if let Some((Word::What(what @ (What::Ph | What::Meter | What::Strip)), taken)) =
            word_at(self.pieces, at + 1)
            && self.pieces.get(at + 1 + taken).is_none_or(|next| !next.number)
        {
            return self.add(self.ph(what, value), 1 + taken);
        }
        let Some((unit, taken)) = self.unit_at(at + 1) else {
            let what = self.bare(value, piece.raw)?;
            return self.add(what, 1);
        };
        if unit == Unit::Star {
            return self.set_stars(value).map(|()| 1 + taken);
        }
        match warmth_in(unit, value).or_else(|| acidity_in(unit, value)) {
            Some(what) => self.add(what, 1 + taken),
            None => {
                let end = self.pieces[at + taken].end();
                let said = &self.text[piece.at..end];
                let mend = format!("Type spread {said}, or thin layer {said}");
                Err(refused(format!("I don't know what has {said}"), mend))
            }
        }
    }

    /// "15 mL whey": what an amount before its word is of, and how many pieces the amount takes.
    fn amount_before(&self, at: usize) -> Option<(What, usize)> {
        (2..=1 + AMOUNT).find_map(|n| {
            let (Word::What(what @ (What::Spread | What::ThinLayer | What::Whey)), taken) =
                word_at(self.pieces, at + n)?
            else {
                return None;
            };
            let followed = self.pieces.get(at + n + taken).is_some_and(|next| next.number);
            let same = self.length(what, at).is_some_and(|(_, own)| own == n);
            (same && !followed).then_some((what, n))
        })
    }

    /// Takes the number behind a word that says what it is of; how many pieces.
    pub(super) fn measured(&mut self, what: What, at: usize) -> Result<usize, Note> {
        let skipped = usize::from(matches!(word_at(self.pieces, at), Some((Word::Skip, 1))));
        let at = at + skipped;
        let example = match what {
            What::Ph | What::Meter | What::Strip => "pH 4.9",
            What::Acidity => "acidity 0.62 %",
            What::Warmth => "38 °C",
            What::Spread => "spread 9 cm",
            What::ThinLayer => "thin layer 4 mm",
            What::Whey => "whey 15 mL",
        };
        let need = || refused("A number is missing", format!("Type it like {example}"));
        let piece = self.pieces.get(at).filter(|piece| piece.number).ok_or_else(need)?;
        let value = if what == What::Whey { f64::NAN } else { value_of(piece)? };
        let unit = self.unit_at(at + 1);
        let (unit, taken) = unit.map_or((None, 0), |(unit, taken)| (Some(unit), taken));
        let found = match what {
            What::Ph | What::Meter | What::Strip => Some((self.ph(what, value), 1)),
            What::Acidity => {
                let own = || Observed::Acidity(units::spoken().acidity.percent(value));
                Some(
                    unit.and_then(|unit| acidity_in(unit, value))
                        .map_or_else(|| (own(), 1), |a| (a, 1 + taken)),
                )
            }
            What::Warmth => {
                let own = || Observed::Warmth(celsius(value, units::spoken().degrees));
                Some(
                    unit.and_then(|unit| warmth_in(unit, value))
                        .map_or_else(|| (own(), 1), |a| (a, 1 + taken)),
                )
            }
            What::Spread | What::ThinLayer | What::Whey => self.length(what, at),
        };
        let (what, taken) = found.ok_or_else(|| {
            refused(format!("I don't know the unit of “{}”", piece.raw), format!("Type it like {example}"))
        })?;
        self.add(what, taken).map(|taken| taken + skipped)
    }

    /// The length or the volume that begins at a number, and how many pieces it takes.
    fn length(&self, what: What, at: usize) -> Option<(Observed, usize)> {
        let inches = units::spoken().amounts == Amounts::UsCustomary;
        let piece = &self.pieces[at];
        if what == What::Whey {
            let alone = || Some((value_of(piece).ok().filter(|_| !inches)?, 1));
            return self.volume(at).or_else(alone).map(|(ml, taken)| (Observed::Whey(ml), taken));
        }
        let value = value_of(piece).ok()?;
        let cm = |unit: Option<(Unit, usize)>, own: f64| match unit {
            Some((Unit::Millimetre, taken)) => (0.1 * value, 1 + taken),
            Some((Unit::Centimetre, taken)) => (value, 1 + taken),
            Some((Unit::Inch, taken)) => (INCH_CM * value, 1 + taken),
            _ => (own * value, 1),
        };
        let unit = self.unit_at(at + 1);
        Some(match what {
            What::Spread => {
                let (cm, taken) = cm(unit, if inches { INCH_CM } else { 1.0 });
                (Observed::LineSpread(cm), taken)
            }
            What::ThinLayer => {
                let (cm, taken) = cm(unit, 0.1);
                // Through centimetres it would not be the number that was typed.
                let typed = !matches!(unit, Some((Unit::Centimetre | Unit::Inch, _)));
                (Observed::ThinLayer(if typed { value } else { 10.0 * cm }), taken)
            }
            _ => return None,
        })
    }

    /// The volume that begins at a number, mL, in the longest words that can be read, and how many pieces it takes.
    fn volume(&self, at: usize) -> Option<(f64, usize)> {
        // As a whole pot's amounts are said.
        let cups = units::spoken().amounts == Amounts::UsCustomary;
        let set = if cups { SpoonSet::UnitedStates } else { self.batch.design.spoons };
        let raw = self.pieces[at].raw;
        let most = (1 + AMOUNT).min(self.pieces.len() - at);
        (2..=most).rev().find_map(|n| {
            let words = &self.text[self.pieces[at + 1].at..self.pieces[at + n - 1].end()];
            let Amount::Total(count, measure) = measures::parse("", &format!("{raw} {words}"), set).ok()?
            else {
                return None;
            };
            let Size::Ml(ml) = measure.size(set)? else { return None };
            Some((count * ml, n))
        })
    }

    /// "no whey", "no thin layer".
    pub(super) fn none(&mut self, at: usize) -> Result<usize, Note> {
        let (what, taken) = match word_at(self.pieces, at) {
            Some((Word::What(What::Whey), taken)) => (Observed::Whey(0.0), taken),
            Some((Word::What(What::ThinLayer), taken)) => (Observed::ThinLayer(0.0), taken),
            _ => return Err(refused("I don't know what there is none of", "Try no whey, or no thin layer")),
        };
        self.add(what, taken)
    }

    /// A pH by what is said, else by what tells it in this kitchen.
    fn ph(&self, by: What, value: f64) -> Observed {
        let strip = by == What::Strip || by == What::Ph && self.batch.kitchen.ph_by == PhBy::Strips;
        if strip { Observed::Strip(value) } else { Observed::Ph(value) }
    }

    /// A number that nothing else is said of.
    fn bare(&self, value: f64, raw: &str) -> Result<Observed, Note> {
        let degrees = units::spoken().degrees;
        if raw.starts_with('+') {
            return Err(refused(
                format!("I don't know what “{raw}” counts"),
                format!("Type it like {raw} h"),
            ));
        }
        if warmer(degrees).contains(&value) {
            return Ok(Observed::Warmth(celsius(value, degrees)));
        }
        let whole = !raw.contains(['.', ',']);
        if whole && degrees == Degrees::Celsius && COLD_C.contains(&value) {
            let title = format!("“{raw}” could be a pH or a warmth");
            return Err(refused(title, format!("Type pH {raw}, or {raw} °C")));
        }
        if PH.contains(&value) {
            return Ok(self.ph(What::Ph, value));
        }
        let unit = degrees.words();
        let title = format!("I don't know what “{raw}” is");
        let minutes = raw.split_once(['.', ',']).filter(|(h, m)| m.len() == 2 && h.len() <= 2);
        Err(refused(
            title,
            match minutes {
                Some((h, m)) => format!("Type a time as {h}:{m}"),
                None => format!("Type its unit: {raw} {unit}, or {raw} °D"),
            },
        ))
    }
}

fn warmth_in(unit: Unit, value: f64) -> Option<Observed> {
    let degrees = match unit {
        Unit::Celsius => Degrees::Celsius,
        Unit::Fahrenheit => Degrees::Fahrenheit,
        Unit::Degrees => units::spoken().degrees,
        _ => return None,
    };
    Some(Observed::Warmth(celsius(value, degrees)))
}

fn acidity_in(unit: Unit, value: f64) -> Option<Observed> {
    let unit = match unit {
        Unit::Lactic => AcidityUnit::Lactic,
        Unit::Dornic => AcidityUnit::Dornic,
        Unit::SoxhletHenkel => AcidityUnit::SoxhletHenkel,
        Unit::Thorner => AcidityUnit::Thorner,
        _ => return None,
    };
    Some(Observed::Acidity(unit.percent(value)))
}
