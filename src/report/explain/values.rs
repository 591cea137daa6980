//! The value of a reading now, in words with its unit, and of which moment it is.

use potset_base::number::{NBSP, figures, fixed, hours, with_unit};
use potset_base::units::prose::prose;
use potset_base::units::said::warmth;
use potset_base::words::{capital, span};
use potset_explain::Reading;
use potset_judge::answer::Answer;

/// Name and value of a reading now; `None` if the answer does not have it.
pub fn told(reading: Reading, answer: &Answer, t_h: f64) -> Option<(String, String)> {
    let (value, _) = value(reading, answer, t_h)?;
    Some((name(reading, answer)?, value))
}

/// The value, and of which moment it is; `None` if the answer does not have it.
pub fn value(reading: Reading, answer: &Answer, t_h: f64) -> Option<(String, String)> {
    if answer.forecast.t.is_empty() {
        return None;
    }
    if let Some(value) = now(reading, answer, t_h) {
        return Some((value, moment(answer, t_h)));
    }
    if let Some(value) = fact(reading, answer) {
        return Some((value, "for this pot".to_owned()));
    }
    Some(match reading {
        Reading::Ready | Reading::TimeToLine => {
            (time(reading, answer)?, "after the culture went in".to_owned())
        }
        Reading::Kept(day) => {
            let day = answer.verdict.keeping.as_ref()?.days.get(day)?;
            (fixed(day.ph, 2), format!("after {}{NBSP}days in the cold", fixed(day.days, 0)))
        }
        _ => (at_stop(reading, answer)?, moment(answer, answer.verdict.stop_h)),
    })
}

/// What it is called.
pub fn name(reading: Reading, answer: &Answer) -> Option<String> {
    Some(match reading {
        Reading::Count(place) => format!("Count of {}", answer.forecast.species.get(place)?.name),
        Reading::Dose(line) => {
            let dose = answer.facts.doses.iter().find(|d| d.line == line)?;
            format!("{} to weigh", dose.name)
        }
        Reading::Kept(place) => {
            let day = answer.verdict.keeping.as_ref()?.days.get(place)?;
            format!("pH, kept {}{NBSP}days", fixed(day.days, 0))
        }
        Reading::SugarOf(sugar) => format!("{} left", capital(sugar.name())),
        _ => prose(&reading.facts()?.name),
    })
}

fn moment(answer: &Answer, t_h: f64) -> String {
    let after = hours(t_h);
    if (t_h - answer.verdict.stop_h).abs() < 1e-6 {
        format!("at the stop, {after}")
    } else {
        format!("after {after}")
    }
}

/// A value that has a curve.
fn now(reading: Reading, answer: &Answer, t_h: f64) -> Option<String> {
    let f = &answer.forecast;
    let at = |ys: &[f64]| f.value(ys, t_h);
    Some(match reading {
        Reading::Ph => fixed(at(&f.ph), 2),
        Reading::AcidMade => with_unit(at(&f.acid_made), 2, "%"),
        Reading::Titratable => with_unit(at(&f.titratable), 2, "%"),
        Reading::Undissociated => with_unit(at(&f.undissociated), 1, "mmol/kg"),
        Reading::SugarLeft => with_unit(at(&f.sugar_total) * f.density, 1, "g/L"),
        Reading::SugarOf(sugar) => with_unit(at(&f.sugars[sugar.index()]) * f.density, 1, "g/L"),
        Reading::Count(place) => with_unit(at(&f.species.get(place)?.log10), 1, "log cfu/g"),
        Reading::Temperature => warmth(at(&f.temperature), 1),
        Reading::ViscosityChilled => rounded(at(&f.chilled.viscosity50), "Pa·s"),
        Reading::ViscosityPot => rounded(at(&f.warm.viscosity50), "Pa·s"),
        Reading::Stiffness => rounded(at(&f.chilled.stiffness_pa), "Pa"),
        Reading::WheyStanding => with_unit(f.whey(t_h).standing, 1, "%"),
        Reading::WheyCut => with_unit(f.whey(t_h).cut, 1, "%"),
        Reading::ThinLayer => with_unit(f.thin_layer(t_h).1, 0, "%"),
        _ => return None,
    })
}

fn rounded(value: f64, unit: &str) -> String {
    format!("{}{NBSP}{unit}", figures(value, 2))
}

/// A value that holds for the pot as a whole.
fn fact(reading: Reading, answer: &Answer) -> Option<String> {
    let (facts, sugar) = (&answer.facts, answer.verdict.sugar.as_ref());
    Some(match reading {
        Reading::StartPh => fixed(facts.ph0, 2),
        Reading::Buffer => with_unit(facts.mean_buffer, 1, "mmol/kg per pH"),
        Reading::ChillTime => facts.chill_h.is_finite().then(|| hours(facts.chill_h))?,
        Reading::Dose(line) => {
            let dose = facts.doses.iter().find(|d| d.line == line)?;
            rounded(dose.grams, "g")
        }
        Reading::CreamShare(line) => {
            let cream = facts.cream.iter().find(|c| c.line == line)?;
            format!("{} ({})", cream.percent(), cream.words())
        }
        Reading::SugarAdded => with_unit(sugar?.added, 1, "g/L"),
        Reading::SugarOwn => with_unit(sugar?.own, 1, "g/L"),
        _ => return None,
    })
}

fn time(reading: Reading, answer: &Answer) -> Option<String> {
    match reading {
        Reading::TimeToLine => answer.verdict.tang.as_ref()?.line_h.map(hours),
        _ => Some(answer.verdict.window.as_ref().map_or_else(
            || "it does not get there in the hours shown".to_owned(),
            |w| {
                if w.closes.is_some() {
                    format!("{} to {}", hours(w.from_h), hours(w.to_h))
                } else {
                    format!("from {} on", hours(w.from_h))
                }
            },
        )),
    }
}

/// A value that the verdict gives for the stop line.
fn at_stop(reading: Reading, answer: &Answer) -> Option<String> {
    let (texture, tang) = (answer.verdict.texture.as_ref(), answer.verdict.tang.as_ref());
    Some(match reading {
        Reading::PhChilled => fixed(tang?.ph_chilled, 2),
        Reading::PhCooled => fixed(tang?.ph_cooled, 2),
        Reading::TangWord => tang?.word?.word().to_owned(),
        Reading::SweetWord => tang?.sweet.word().to_owned(),
        Reading::Sweetness => with_unit(tang?.sucrose_equivalents, 1, "g sucrose per kg"),
        Reading::SugarEaten => with_unit(answer.verdict.sugar.as_ref()?.eaten, 1, "g/L"),
        Reading::TextureWord => {
            let t = texture?;
            let range = span(t.low.word(), t.high.word());
            format!("{}; usually {range}", t.word.word())
        }
        Reading::Yield => rounded(texture?.yield_pa, "Pa"),
        Reading::Thickness => with_unit(texture?.thickness, 0, "of 100"),
        Reading::LineSpread => with_unit(texture?.line_spread_cm, 1, "cm"),
        Reading::Slump => with_unit(texture?.slump_cm, 1, "cm"),
        _ => return None,
    })
}
