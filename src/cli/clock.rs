//! `potset clock`: the steps of one or more pots as clock times, and whether they fit into their warmers.

use std::ffi::OsString;
use std::fmt::Write;

use super::args::Args;
use super::{CliContext, Exit};
use potset_base::Note;
use potset_base::clock::{Moment, Zone};
use potset_judge::answer::answer;
use potset_make::clock::{InWarmer, clashes, culture_in};
use potset_report::card::{CardAsk, plan};
use potset_report::clock as say;
use potset_report::hygiene;

/// Runs the command.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["ready", "start", "zone"], &[])?;
    if args.files().is_empty() {
        args.file()?;
    }
    let zone = zone(&args)?;
    let (ready, start) = (moment(&args, "ready")?, moment(&args, "start")?);
    let (mut out, mut pots) = (String::new(), Vec::new());
    for file in args.files() {
        let context = CliContext::of(file)?;
        let scenario = context.ask();
        let answer = answer(&scenario);
        if !answer.errors.is_empty() {
            return Err(context.fault(answer.errors));
        }
        let verdict = &answer.verdict;
        let begins = start.or_else(|| culture_in(scenario.design, ready, zone.as_ref()));
        let _ = writeln!(out, "{}", scenario.design.name);
        if let Some(against) = verdict.against.as_ref().and_then(hygiene::discard) {
            let _ = writeln!(out, "  {against}.");
        }
        let ask = CardAsk { scenario: &scenario, answer: &answer, ready: None, watch: None, version: None };
        let steps = plan(&ask);
        let times: Vec<String> =
            steps.iter().map(|(at_h, _)| say::when(*at_h, begins, zone.as_ref())).collect();
        let wide = times.iter().map(|time| time.chars().count()).max().unwrap_or(0);
        for ((_, words), time) in steps.iter().zip(&times) {
            let _ = writeln!(out, "  {time:<wide$}  {words}");
        }
        pots.extend(begins.and_then(|begins| InWarmer::of(&scenario, begins, zone.as_ref())));
    }
    let found = clashes(&pots);
    for clash in &found {
        let _ = writeln!(out, "{}.", say::clash(&pots, *clash));
    }
    Ok((out, if found.is_empty() { Exit::Done } else { Exit::NoAnswer }))
}

/// A moment of an option, "2026-12-01 08:00".
fn moment(args: &Args, name: &str) -> Result<Option<Moment>, Note> {
    let Some(text) = args.text(name) else { return Ok(None) };
    Moment::parse(text).map(Some).ok_or_else(|| {
        let title = format!("“{text}” is no day and time");
        Note::error(format!("--{name}"), title, "Write it like \"2026-12-01 08:00\"")
    })
}

/// The zone whose clocks count, for nights on which they are put forward or back.
fn zone(args: &Args) -> Result<Option<Zone>, Note> {
    let Some(text) = args.text("zone") else { return Ok(None) };
    Zone::named(text).map(Some).ok_or_else(|| {
        let title = format!("There is no time zone “{text}”");
        Note::error("--zone", title, "Write it like Europe/Paris")
    })
}
