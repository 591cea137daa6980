//! `potset forecast`: the curves as CSV.

use std::ffi::OsString;

use super::args::Args;
use super::terminal::say_line;
use super::{CliContext, Exit};
use potset_base::Note;
use potset_doubt::ready_times;
use potset_doubt::spread::{POTS, SEED, Spread, Spreader};
use potset_export::csv;
use potset_forecast::scenario::Scenario;
use potset_report::{hygiene, ready, spread as say};
use potset_store::out::{Kind, Out};

/// What is written.
const TABLE: Kind = Kind { name: "a table of curves", holds: csv::is_forecast };

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args =
        Args::read_with(arguments, &["every", "hours", "out", "spread", "seed"], &[], ("spread", POTS))?;
    let every_min = args.number("every", 1.0, 1440.0)?.unwrap_or(30.0);
    let hours = args.number("hours", 0.5, 96.0)?;
    let pots = args.whole("spread", 20, 20_000)?;
    let seed = args.whole("seed", 0, usize::MAX)?;
    if let (None, Some(_)) = (pots, seed) {
        return Err(Note::error("--seed", "A seed alone draws nothing", "Give --spread with it"));
    }
    let context = CliContext::open(&args)?;
    let inputs = context.opened.file().into_iter().collect();
    let out = args.out().map(|path| Out::at(path, TABLE, inputs)).transpose()?;
    let scenario = context.ask();
    let run = scenario.run().map_err(|notes| context.fault(notes))?;
    let to_h = hours.unwrap_or(run.mix.stop_h);
    let run_judged = hygiene::lost_words(&run);
    // Every line is computed at its time, however fine the steps and however far they go.
    let times = csv::times(every_min / 60.0, to_h);
    let run = scenario.run_also_at(&times).map_err(|notes| context.fault(notes))?;
    let spread = match pots {
        Some(pots) => {
            let seed = seed.and_then(|s| u64::try_from(s).ok()).unwrap_or(SEED);
            let mut spreader =
                Spreader::looking_to(&scenario, seed, pots, to_h).map_err(|notes| context.fault(notes))?;
            while spreader.more(pots) {}
            Some(spreader.spread())
        }
        None => None,
    };
    if let Some(exit) = spread.as_ref().and_then(|spread| context.none_made(spread)) {
        return Ok((String::new(), exit));
    }
    let text = csv::forecast(&run.forecast, run.facts.acidity_at_line, spread.as_ref(), &times);
    for line in first(&scenario, &run_judged, spread.is_some())
        .into_iter()
        .chain(spread.iter().flat_map(spread_lines))
    {
        say_line(&line);
    }
    match out {
        Some(out) => out.write(text.as_bytes()).map(|()| (String::new(), Exit::Done)),
        None => Ok((text, Exit::Done)),
    }
}

/// What stands first: that it is to be thrown away, and, where many pots are asked for, when they are ready.
fn first(scenario: &Scenario<'_>, lost: &Option<String>, with_ready: bool) -> Vec<String> {
    let ready = with_ready.then(|| ready_times::of(scenario).ok()).flatten();
    lost.iter().cloned().chain(ready.map(|r| ready::sentence(&r, scenario.design.start()))).collect()
}

/// What many pots do, a sentence each; it goes beside the table, not into it.
fn spread_lines(spread: &Spread) -> Vec<String> {
    let mut said = say::sentences(spread);
    for (k, goal) in spread.goals.iter().enumerate() {
        said.push(format!("chance_goal_{} is: {}", k + 1, goal.name));
    }
    said
}
