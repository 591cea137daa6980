//! What is wrong with a case as data: numbers out of range, readings later than the hold is looked at, entries that the
//! pantry lacks. The field is told as it stands in the file, such as `setup.bases[0].ph`.

use super::{Case, Pot, Prior, Reading, Stop, What};
use crate::pantry::{Base, Listed, Organism, Thickener, Vessel};
use crate::{Pantry, range};
use potset_base::words::capital;
use potset_base::{Note, number};

/// Range of one kind of number: its unit, least, most.
type Range = (&'static str, f64, f64);

const PH: Range = ("", 2.0, 9.0);
const PERCENT: Range = ("g/100 g", 0.0, 100.0);
const ACIDITY: Range = ("% lactic", 0.0, 5.0);
const BUFFER: Range = ("mmol/(kg pH)", 0.1, 300.0);
const LITRES: Range = ("L", 1e-3, 1000.0);
const SHARE: Range = ("of 1", 0.0, 1.0);
const DOSE: Range = ("g/L", 0.0, 200.0);
const CELLS: Range = ("cfu/g", 1.0, 1e11);
const FACTOR: Range = ("as a factor", 1e-3, 1e3);
const PACE: Range = ("as a factor", 1e-2, 20.0);
const LAG: Range = ("", 1e-3, 50.0);
const CELSIUS: Range = ("°C", 0.0, 100.0);
const TREATMENT: Range = ("°C", 0.0, 121.0);
const OFF_BY: Range = ("°C", 0.0, 20.0);
const MINUTES: Range = ("min", 0.0, 1440.0);
const HOURS: Range = ("h", 0.25, 96.0);
const STOPS: Range = ("h", 0.0, 96.0);
const DAYS: Range = ("d", 0.0, 400.0);

/// The first thing that is wrong with a case; nothing if it is in order.
pub fn fault(case: &Case) -> Option<Note> {
    let texts =
        [("key", &case.key), ("name", &case.name), ("citation", &case.citation), ("assumed", &case.assumed)];
    if let Some((what, _)) = texts.into_iter().find(|(_, text)| text.trim().is_empty()) {
        return Some(Note::error(what, format!("The {what} is empty"), "Say it in a few words"));
    }
    if case.readings.is_empty() {
        return Some(Note::error("readings", "There are no readings", "Give at least one"));
    }
    let pot = case.pot();
    if pot.is_none() && case.fit.is_some() {
        return Some(Note::error("fit", "Only pots are fitted", "Leave fit out, or give a pot as the setup"));
    }
    pot.and_then(of_pot).or_else(|| {
        let hours = pot.map(|p| p.hours);
        case.readings.iter().enumerate().find_map(|(i, reading)| {
            of_reading(i, reading, hours).or_else(|| not_in_the_pot(i, reading, pot))
        })
    })
}

/// A condition of a reading of texture, heat or separation that is out of range.
fn conditions(field: &str, what: &What) -> Option<Note> {
    let told: &[(&str, f64, Range)] = match what {
        What::Viscosity { c, days, .. } | What::Yield { c, days } => {
            &[("The temperature", *c, CELSIUS), ("The day", *days, DAYS)]
        }
        What::Emulsion { fat, c } => &[("The fat", *fat, PERCENT), ("The temperature", *c, CELSIUS)],
        What::Native { c, minutes } => &[("The temperature", *c, TREATMENT), ("The time", *minutes, MINUTES)],
        What::ThinLayer(hours) => &[("The time", *hours, DAYS)],
        _ => &[],
    };
    told.iter().find_map(|(name, v, range)| out(field.to_owned(), name, *v, *range))
}

/// An organism that a reading counts and the pot does not hold.
fn not_in_the_pot(i: usize, reading: &Reading, pot: Option<&Pot>) -> Option<Note> {
    let What::StoredCountGain { of: Some(key), .. } = &reading.what else { return None };
    let there = pot.is_some_and(|pot| pot.cells.iter().any(|cells| cells.organism == *key));
    (!there).then(|| {
        let title = format!("{key} is counted, but not in the pot");
        Note::error(format!("readings[{i}].what"), title, "Put it among the cells, or count another one")
    })
}

fn of_reading(i: usize, reading: &Reading, hours: Option<f64>) -> Option<Note> {
    if let Some(fault) = reading.fault() {
        let mend = "Mend the value, or its scatter";
        return Some(Note::error(format!("readings[{i}].v"), capital(&fault), mend));
    }
    let field = format!("readings[{i}].what");
    let at_h = match reading.what {
        What::Ph(h)
        | What::Acidity(h)
        | What::AcidMade(h)
        | What::Count(h)
        | What::Sugar(_, h)
        | What::LactoseUsed(h) => Some(h),
        _ => None,
    };
    if let (Some(at_h), Some(hours)) = (at_h, hours)
        && !(0.0..=hours).contains(&at_h)
    {
        let (at, to) = (number::plain(at_h), number::plain(hours));
        return Some(Note {
            sentence: format!("The hold of this case is looked at for {to} h"),
            ..Note::error(field, format!("A reading at {at} h lies outside of the hold"), "Give more `hours`")
        });
    }
    if let Some(note) = conditions(&field, &reading.what) {
        return Some(note);
    }
    match reading.what {
        What::Viscosity { shear, .. } if shear != 10.0 && shear != 50.0 => {
            let title = format!("A viscosity at {} 1/s is not forecast", number::plain(shear));
            Some(Note::error(field, title, "Give one at 10 or 50 1/s"))
        }
        What::StoredPh(d)
        | What::StoredAcidity(d)
        | What::StoredAcidGain(d)
        | What::StoredChange(_, d)
        | What::StoredCountGain { to: d, .. } => out(field, "The day", d, DAYS),
        What::HoursTo(ph) | What::AcidityAt(ph) | What::AcidMadeAt(ph) => out(field, "The pH", ph, PH),
        _ => None,
    }
}

fn of_pot(pot: &Pot) -> Option<Note> {
    if pot.bases.is_empty() {
        return Some(Note::error("setup.bases", "The pot has no base", "Give at least one"));
    }
    let own = |(what, v, range): (&str, Option<f64>, Range), at: &str| {
        v.and_then(|v| out(format!("setup.{at}{what}"), what, v, range))
    };
    for (i, base) in pot.bases.iter().enumerate() {
        let at = format!("bases[{i}].");
        let figures = [
            ("litres", Some(base.litres), LITRES),
            ("solids", Some(base.solids), FACTOR),
            ("ph", base.ph, PH),
            ("mean_buffer", base.mean_buffer, BUFFER),
            ("start_acidity", base.start_acidity, ACIDITY),
            ("fat", base.fat, PERCENT),
            ("protein", base.protein, PERCENT),
            ("carbohydrate", base.carbohydrate, PERCENT),
            ("fibre", base.fibre, PERCENT),
            ("ash", base.ash, PERCENT),
            ("whey_denatured", base.whey_denatured, SHARE),
        ];
        let sugars = base.sugars.iter().map(|(_, g)| ("sugars", Some(*g), PERCENT));
        let fault = figures.into_iter().chain(sugars).find_map(|figure| own(figure, &at));
        let within = || bounds(base.sugars_within, &format!("setup.{at}sugars_within"));
        if let Some(note) = fault.or_else(within) {
            return Some(note);
        }
    }
    let doses = pot.thickeners.iter().map(|(_, g)| ("thickeners", Some(*g), DOSE));
    let cells = pot
        .cells
        .iter()
        .enumerate()
        .find_map(|(i, cells)| own(("cfu_per_g", Some(cells.cfu_per_g), CELLS), &format!("cells[{i}].")));
    let stop = match pot.stop {
        Some(Stop::Hours(h)) => [("stop", Some(h), STOPS), ("stop", None, DAYS)],
        Some(Stop::AtPh(ph)) => [("stop", Some(ph), PH), ("stop", None, DAYS)],
        Some(Stop::ToMeet { ph, day }) => [("stop", Some(ph), PH), ("stop", Some(day), DAYS)],
        None => [("stop", None, PH), ("stop", None, DAYS)],
    };
    let figures = [
        ("heat", pot.heat.map(|heat| heat.0), TREATMENT),
        ("heat", pot.heat.map(|heat| heat.1), MINUTES),
        ("hold_c", Some(pot.hold_c), CELSIUS),
        ("hold_within_c", Some(pot.hold_within_c), OFF_BY),
        ("hours", Some(pot.hours), HOURS),
        ("store_c", Some(pot.store_c), CELSIUS),
        ("end_ph", Some(pot.end_ph), PH),
        ("vessel_litres", Some(pot.vessel_litres), LITRES),
    ];
    cells
        .or_else(|| doses.chain(stop).chain(figures).find_map(|figure| own(figure, "")))
        .or_else(|| bounds(pot.cells_within, "setup.cells_within"))
        .or_else(|| prior(pot.speed, "setup.speed", PACE))
        .or_else(|| prior(pot.lag, "setup.lag", LAG))
}

fn out(field: impl Into<String>, what: &str, v: f64, (unit, least, most): Range) -> Option<Note> {
    range::fault(field, &named(what), unit, v, (least, most))
}

/// A field as a reader says it: "hold_c" is "Hold temperature".
fn named(field: &str) -> String {
    match field {
        "ph" | "end_ph" => "pH".to_owned(),
        "hold_c" => "Hold temperature".to_owned(),
        "hold_within_c" => "What the hold may be off by".to_owned(),
        "store_c" => "Temperature of the store".to_owned(),
        "cfu_per_g" => "Count of cells".to_owned(),
        "speed" => "Pace".to_owned(),
        _ => capital(&field.replace('_', " ")),
    }
}

fn bounds(bounds: Option<(f64, f64)>, field: &str) -> Option<Note> {
    let (low, high) = bounds?;
    let holds = low > 0.0 && low <= 1.0 && high >= 1.0 && high.is_finite();
    (!holds)
        .then(|| Note::error(field, "The bounds do not lie around 1", "Give two factors, such as (0.7, 1.4)"))
}

fn prior(prior: Option<Prior>, field: &str, range: Range) -> Option<Note> {
    let Prior { value: v, low, high } = prior?;
    let name = field.rsplit('.').next().unwrap_or(field);
    [v, low, high].into_iter().find_map(|one| out(field, name, one, range)).or_else(|| {
        (!(low < high && low <= v && v <= high)).then(|| {
            Note::error(field, "The bounds do not lie around the value", "Give low under v, and v under high")
        })
    })
}

/// The first entry of the pantry that a case names and the pantry lacks, as a note on its field.
pub fn lacks(case: &Case, pantry: &Pantry) -> Option<Note> {
    let pot = case.pot()?;
    let organism = || {
        let cells = &mut pot.cells.iter().enumerate();
        let note = cells
            .find_map(|(i, c)| lack::<Organism>(pantry, &format!("cells[{i}].organism"), &c.organism))?;
        let known: Vec<&str> = pantry.organisms.iter().map(|o| o.key.as_str()).collect();
        Some(Note { mend: format!("Give one of {}", known.join(", ")), ..note })
    };
    let thickener = |(key, _): &(String, f64)| lack::<Thickener>(pantry, "thickeners", key);
    let mut bases = pot.bases.iter().enumerate();
    bases
        .find_map(|(i, base)| lack::<Base>(pantry, &format!("bases[{i}].entry"), &base.entry))
        .or_else(organism)
        .or_else(|| pot.thickeners.iter().find_map(thickener))
        .or_else(|| lack::<Vessel>(pantry, "vessel", &pot.vessel))
}

fn lack<T: Listed>(pantry: &Pantry, field: &str, key: &str) -> Option<Note> {
    pantry.get::<T>(key).is_none().then(|| {
        let title = format!("The pantry has no {} called {key}", T::ONE);
        Note::error(format!("setup.{field}"), title, "`potset pantry` lists what there is")
    })
}
