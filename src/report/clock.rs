//! The plan of a pot by the clock, in sentences.

use crate::hygiene;
use potset_base::clock::{Moment, Zone};
use potset_base::number::{self, NBSP};
use potset_make::clock::{Clash, InWarmer, Tick, What, shift};

/// When a line of the plan is: by the clock where a start is known, else in hours from the culture.
pub fn when(at_h: f64, culture_in: Option<Moment>, zone: Option<&Zone>) -> String {
    match culture_in {
        Some(start) => shift(start, at_h, zone).day_and_time(),
        None if at_h.abs() < 1e-9 => "start".to_owned(),
        None if at_h < 0.0 => format!("{} before", number::hours(-at_h)),
        None => number::hours(at_h),
    }
}

/// What is done then.
pub fn what(tick: &Tick) -> String {
    let words = match &tick.what {
        What::Make(step) | What::Strain(step) => step.words(),
        What::CultureIn => "Stir the culture in".to_owned(),
        What::Hold => format!("Keep it warm, for {}", number::hours(tick.lasts_h)),
        What::Event(event) => format!("In the warmth: {}", event.words()),
        What::Look(check) => hygiene::check(check),
        What::Stop => "Stop: into the cold".to_owned(),
        What::Cold => "It is cold".to_owned(),
        What::Eat => "It has set: judge it, and eat it".to_owned(),
        What::UseBy => "Eat it by then".to_owned(),
    };
    match &tick.what {
        What::Make(_) if tick.lasts_h > 0.01 => format!("{words} ({})", number::hours(tick.lasts_h)),
        _ => words,
    }
}

/// Two pots that cannot be in one warmer at a time.
pub fn clash(pots: &[InWarmer], (a, b, clash): (usize, usize, Clash)) -> String {
    let name = |i: usize| pots.get(i).map_or("", |pot| pot.name.as_str());
    let both = format!("{} and {} are in one warmer at the same time", name(a), name(b));
    match clash {
        Clash::Warmth => format!("{both}, set to different temperatures. Start one of them later"),
        Clash::Room { holds, wanted } => format!(
            "{both}: {}{NBSP}L, and it holds {}{NBSP}L. Start one of them later, or make less",
            number::rough(wanted),
            number::rough(holds)
        ),
    }
}
