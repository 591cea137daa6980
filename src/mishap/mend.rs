//! What to do next time: an edit of the plan for each cause that a plan can answer.

use potset_doc::Edit;
use potset_doc::design::Powder;
use potset_doc::pantry::{Thickener, Warmer, Warming};
use potset_forecast::scenario::Scenario;
use potset_judge::mends::{self, How, Mend};

/// The usual warmth of a hold, and of a base as the culture goes in, °C. Source: common practice.
const HOLD_C: f64 = 41.0;
const CULTURE_C: f64 = 42.0;

/// Warmer than this a hold is planned too hot, °C. Source: common practice, 37 to 43 °C.
const HOT_C: f64 = 43.0;

/// A night in the cold, h. Source: common practice.
const NIGHT_H: f64 = 12.0;

/// How much more of a thickener holds a thin base. Source: assumed; twice as much is felt.
const MORE: f64 = 1.5;

/// What of the plan can be changed against a cause; nothing where the plan was right.
pub fn mend(cause: &str, scenario: &Scenario<'_>) -> Option<Mend> {
    let design = scenario.design;
    let hold = design.hold();
    let culture_c = potset_doc::culture_in::temperature(&design.steps);
    match cause {
        "cool" | "drift" | "power_cut" => {
            let warmer = hold.and_then(|hold| design.entry::<Warmer>(scenario.pantry, &hold.warmer))?;
            let kept = !matches!(warmer.warming, Warming::Heated { .. });
            let edits = vec![Edit::Warmer("heated_pot".to_owned()), Edit::HoldTemperature(HOLD_C)];
            (kept || warmer.key != "heated_pot").then_some(Mend { how: How::HeatedPot(HOLD_C), edits })
        }
        "hot" => hold.is_some_and(|hold| hold.set_c > HOT_C).then(mends::milder_hold),
        "cold_start" | "culture_scalded" => {
            let other = culture_c.is_none_or(|c| (c - CULTURE_C).abs() > 2.0);
            other.then(|| Mend::new(How::CultureAt(CULTURE_C), Edit::CultureTemperature(CULTURE_C)))
        }
        "dose_low" | "wrong_spoon" => {
            let straight = design.cultures.first()?.powder == Powder::Straight;
            straight.then(|| mends::split_powder(0, Powder::OneToTen))
        }
        "no_sugar" | "sweetener" if design.sugars.is_empty() => Some(mends::feed(scenario)),
        "base_watery" | "base_misread" => {
            let line = design.thickeners.first()?;
            let name = design.entry::<Thickener>(scenario.pantry, &line.entry)?.name.clone();
            let dose = (line.g_per_l * MORE * 2.0).round() / 2.0;
            Some(Mend::new(How::RaiseThickener(dose, name), Edit::ThickenerDose(0, dose)))
        }
        "clumped" => {
            let at = design.thickeners.iter().position(|line| !line.mixed_first)?;
            Some(Mend::new(How::MixFirst, Edit::ThickenerMixedFirst(at, true)))
        }
        "chill_short" => {
            let short = design.chill().is_some_and(|(_, hours)| hours < NIGHT_H);
            short.then(|| Mend::new(How::ChillOvernight, Edit::ChillHours(NIGHT_H)))
        }
        _ => None,
    }
}
