//! Steps, warmth, pots and goals of a design as inputs.

use super::super::part::Part;
use super::Input;
use potset_base::number::NBSP;
use potset_base::units::WARMTH;
use potset_base::words::span;
use potset_doc::pantry::{EntryKind, Pantry};
use potset_doc::steps::Step;
use potset_doc::{Design, design::Clock};
use potset_forecast::observable::Observable;

/// What is done, when, in what, and what for.
pub fn inputs(design: &Design, pantry: &Pantry) -> Vec<Input> {
    let mut out = Vec::new();
    done(design, &mut out);
    if let Some(hold) = design.hold() {
        let warmer = design.name_of(pantry, EntryKind::Warmer, &hold.warmer).to_owned();
        out.push(Input::words(Part::Warmth, "warmer", warmer));
        out.push(Input::number(Part::Warmth, "held at", hold.set_c, 1, WARMTH));
        for event in &hold.events {
            let name = format!("at {}", potset_base::number::hours(event.at_h));
            out.push(Input::words(Part::Warmth, name, event.what.words()));
        }
        if !hold.measured.is_empty() {
            let words = format!("{} readings", hold.measured.len());
            out.push(Input::words(Part::Warmth, "temperature measured", words));
        }
        out.push(Input::number(Part::Time, "you stop at", hold.hours, 2, "h"));
    }
    out.push(Input::words(Part::After, "style", design.style.word()));
    out.push(Input::words(Part::After, "disturbed", design.disturbed.words()));
    let vessel = design.name_of(pantry, EntryKind::Vessel, &design.pots.vessel).to_owned();
    out.push(Input::words(Part::Pots, "vessel", vessel));
    out.push(Input::number(Part::Pots, "pots", f64::from(design.pots.count), 0, ""));
    goals(design, &mut out);
    out
}

/// Steps before and after the hold: the n-th of each kind stand beside each other.
fn done(design: &Design, out: &mut Vec<Input>) {
    let mut before = true;
    let mut seen: Vec<&'static str> = Vec::new();
    for step in &design.steps {
        let kind = match step {
            Step::Start { .. } => "starts from",
            Step::Warm { .. } => "warmed",
            Step::HeatTreat { .. } => "heated",
            Step::CookPart { .. } => "cooked in a part",
            Step::Stand { .. } => "left to stand",
            Step::Cool { .. } => "cooled",
            Step::CultureIn => continue,
            Step::Hold(_) => {
                before = false;
                continue;
            }
            Step::Chill { .. } => "chilled",
            Step::Strain { .. } => "strained",
            Step::Store { .. } => "kept",
        };
        let n = seen.iter().filter(|k| **k == kind).count();
        seen.push(kind);
        let name = if n == 0 { kind.to_owned() } else { format!("{kind} again ({})", n + 1) };
        let part = if before { Part::Before } else { Part::After };
        out.push(Input::words(part, name, step.words()));
    }
}

fn goals(design: &Design, out: &mut Vec<Input>) {
    let goals = &design.goals;
    let mut goal = |name: &str, words: Option<String>| {
        out.extend(words.map(|words| Input::words(Part::Goals, name, words)));
    };
    goal("texture wanted", goals.texture.map(|(low, high)| span(low.word(), high.word())));
    goal("tang wanted", goals.tang.map(|(low, high)| span(low.word(), high.word())));
    for outcome in [Observable::Ph, Observable::SugarLeft, Observable::Whey, Observable::ThinLayer] {
        let most = outcome.at_most(goals).map(|v| outcome.words(v).replace(NBSP, " "));
        goal(&format!("{} at most", outcome.wanted().name), most);
    }
    goal("frail eaters", goals.frail_eaters.then(|| "yes".to_owned()));
    goal(
        "clock",
        match &design.clock {
            Clock::Open => None,
            Clock::StartsAt(at) => Some(format!("starts at {at}")),
            Clock::ReadyBy(at) => Some(format!("ready by {at}")),
        },
    );
}
