//! What is wrong with the plan itself, as the judge of every design finds it, by the causes of the table.

use potset_doc::Edit;
use potset_doc::design::Design;
use potset_doc::steps::Happening;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::advice::{Advice, Besides, Fails, Here, Making, Matter, Splits};
use potset_judge::judging;
use potset_judge::mends::{How, Mend};

/// A flaw of the plan, and what mends it.
#[derive(Clone, Debug, PartialEq)]
pub struct Flaw {
    /// Key of the cause.
    pub cause: &'static str,
    pub mend: Option<Mend>,
}

/// Warmth in the pot that is too cool, and too hot, for the culture, °C: a hold of 37 to 43 °C is common practice, and so is
/// that 50 °C ends a culture.
const COOL_C: f64 = 36.0;
const HOT_C: f64 = 45.0;

/// The flaws of a plan, each once.
pub fn flaws(scenario: &Scenario<'_>, run: &Run) -> Vec<Flaw> {
    let verdict = judging::judge(scenario, run);
    let mut found: Vec<Flaw> = Vec::new();
    let mut put =
        |cause: &'static str, mend: Option<Mend>| match found.iter_mut().find(|flaw| flaw.cause == cause) {
            Some(flaw) => flaw.mend = flaw.mend.take().or(mend),
            None => found.push(Flaw { cause, mend }),
        };
    for advice in &verdict.advice {
        if let Some(cause) = of(advice, run) {
            put(cause, advice.mend.clone());
        }
    }
    if let Some(hold) = scenario.design.hold() {
        let left: Vec<_> = hold.events.iter().filter(|e| e.what != Happening::Stir).cloned().collect();
        if left.len() < hold.events.len() {
            put("stirred", Some(Mend::new(How::LeaveAlone, Edit::Events(left))));
        }
    }
    if scenario.design.thickeners.iter().all(|line| line.g_per_l <= 0.0) && splits(&verdict.advice) {
        put("forgotten", verdict.advice.iter().find_map(|a| if is_split(a) { a.mend.clone() } else { None }));
    }
    let f = &run.forecast;
    let (stop_h, line_ph) = (run.mix.stop_h, run.mix.laws.ready.acid_line_ph);
    let warmth = f.value(&f.temperature, 0.5 * stop_h);
    if warmth > HOT_C {
        put("hot", Some(potset_judge::mends::milder_hold()));
    } else if warmth < COOL_C {
        put("cool", Some(potset_judge::mends::milder_hold()));
    } else if f.value(&f.ph, stop_h) > line_ph
        && let Some(sour_h) = f.time_to_ph(line_ph)
    {
        put("hold_short", Some(potset_judge::mends::stop_after(sour_h + 2.0)));
    }
    found
}

fn is_split(advice: &Advice) -> bool {
    matches!(advice.what, Matter::Splits(Splits::Layer { .. }))
}

fn splits(all: &[Advice]) -> bool {
    all.iter().any(is_split)
}

/// The cause that a piece of advice tells of.
fn of(advice: &Advice, run: &Run) -> Option<&'static str> {
    let f = &run.forecast;
    Some(match &advice.what {
        Matter::Making(making) => match making {
            Making::Watery(_) | Making::CutWithWater(_) => "base_watery",
            Making::NoCulture(_) => "culture_dead",
            Making::NoFood(..) => "no_sugar",
            Making::SmallDose(_) => "dose_low",
            Making::IntoTheHeat(_) => "culture_scalded",
            Making::HotHold(_) => "hot",
            Making::SlowWarmth(_) if f.value(&f.temperature, 0.5 * run.mix.stop_h) > 43.0 => "hot",
            Making::SlowWarmth(_) => "cool",
            _ => return None,
        },
        Matter::Thickener((_, fails)) => match fails {
            Fails::Clumps(_) => "clumped",
            Fails::Uncooked { .. } | Fails::Undissolved { .. } => "uncooked",
            Fails::SetsBefore { .. } => "set_early",
        },
        Matter::Besides(besides) => match besides {
            Besides::OldCulture(_) => "culture_old",
            Besides::Preserved(_) => "base_preserved",
            Besides::Chalk(_) => "base_fortified",
            _ => return None,
        },
        Matter::Here(Here::NotFood(..)) => "sweetener",
        _ => return None,
    })
}

/// The design with a flaw mended.
pub fn mended(flaw: &Flaw, design: &Design, pantry: &potset_doc::Pantry) -> Option<Design> {
    let mend = flaw.mend.as_ref()?;
    potset_doc::edit::apply(design, &mend.edit(), pantry).ok()
}
