//! `potset verdict`: what the pot will be, in words or as RON.

use std::ffi::OsString;

use super::args::Args;
use super::{Desk, Exit, printed, say};
use potset_base::{Note, Severity};
use potset_doubt::ready_times;
use potset_export::verdict;
use potset_judge::answer::answer;

/// Runs the command.
pub fn run(arguments: &[OsString]) -> Exit {
    printed(report(arguments))
}

fn report(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &[], &["ron"])?;
    let desk = Desk::open(&args)?;
    let mut answer = answer(&desk.ask());
    if !answer.errors.is_empty() {
        // Each of them; only the last one ends the command.
        answer.errors.retain(|note| note.severity == Severity::Error);
        let last = answer.errors.pop();
        answer.errors.into_iter().for_each(|note| say(&desk.opened.placed(note)));
        return Err(desk.fault(last.into_iter().collect()));
    }
    let ready = ready_times::of(&desk.ask()).map_err(|notes| desk.fault(notes))?;
    let design = &desk.opened.design;
    let name = &design.name;
    let text = if args.flag("ron") {
        verdict::ron(name, &answer.verdict, &ready)
    } else {
        verdict::words(name, &answer.verdict, &ready, design.start())
    };
    Ok((text, Exit::Done))
}
