//! `potset verdict`: what the pot will be, in words or as RON.

use super::args::Args;
use super::{Desk, Exit, bad};
use crate::export::verdict;
use crate::study::{answer, ready};

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    let args = match Args::read(arguments, &[], &["ron"]) {
        Ok(args) => args,
        Err(note) => return bad(&note),
    };
    let desk = match Desk::open(&args) {
        Ok(desk) => desk,
        Err(note) => return bad(&note),
    };
    let answer = answer(&desk.ask());
    if !answer.errors.is_empty() {
        for note in &answer.errors {
            eprintln!("potset: {note}");
        }
        return Exit::BadInput;
    }
    let ready = match ready::of(&desk.ask()) {
        Ok(ready) => ready,
        Err(notes) => {
            notes.iter().for_each(|note| eprintln!("potset: {note}"));
            return Exit::BadInput;
        }
    };
    let name = &desk.design.name;
    let text = if args.flag("ron") {
        verdict::ron(name, &answer.verdict, &ready)
    } else {
        verdict::words(name, &answer.verdict, &ready, desk.design.start())
    };
    print!("{text}");
    Exit::Done
}
