//! `potset verdict`: what the pot will be, in words or as RON.

use std::ffi::OsString;

use super::args::Args;
use super::{CliContext, Exit, say};
use potset_base::{Note, Severity};
use potset_doubt::ready_times;
use potset_export::verdict;
use potset_judge::answer::answer;
use potset_report::learn::used;

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &[], &["ron"])?;
    let context = CliContext::open(&args)?;
    let mut answer = answer(&context.ask());
    if !answer.errors.is_empty() {
        // Each of them; only the last one ends the command.
        answer.errors.retain(|note| note.severity == Severity::Error);
        let last = answer.errors.pop();
        answer.errors.into_iter().for_each(|note| say(&context.opened.placed(note)));
        return Err(context.fault(last.into_iter().collect()));
    }
    let ready = ready_times::of(&context.ask()).map_err(|notes| context.fault(notes))?;
    let design = &context.opened.design;
    let name = &design.name;
    let text = if args.flag("ron") {
        verdict::ron(name, &answer.verdict, &ready)
    } else {
        let used = used(&context.learnt).filter(|_| answer.learnt);
        let words = verdict::words(name, &answer.verdict, &ready, design.start());
        words + &used.map_or_else(String::new, |used| format!("{used}.\n"))
    };
    Ok((text, Exit::Done))
}
