//! The command line: one sub-command a file, plain sentences, exit codes.
//!
//! 0 done; 1 the question has no answer; 2 bad input; 3 no window can be opened here.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "this is the layer that talks to a terminal")]

pub mod aim;
pub mod args;
pub mod beside;
pub mod evidence;
pub mod forecast;
mod help;
pub mod label;
pub mod matters;
pub mod pantry;
pub mod picture;
pub mod verdict;
pub mod window;

use std::path::Path;

use args::Args;

use crate::base::Note;
use crate::doc::{Design, Kitchen, Learnt, OwnPantry, Pantry, assets};
use crate::store::{files, folders, memory};
use crate::study::Ask;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    Done = 0,
    NoAnswer = 1,
    BadInput = 2,
    NoWindow = 3,
}

/// Runs the program with its arguments (without its own name).
#[must_use]
pub fn run(arguments: &[String]) -> i32 {
    let first = arguments.first().map(String::as_str);
    // Help for one command, wherever it is asked for.
    let asked = arguments.iter().skip(1).any(|a| matches!(a.as_str(), "--help" | "-h"));
    let helped = match (first, arguments.get(1)) {
        (Some("help"), Some(name)) => help::of(name),
        (Some(name), _) if asked => help::of(name),
        _ => None,
    };
    if let Some(text) = helped {
        print!("{text}");
        return Exit::Done as i32;
    }
    let exit = match first {
        Some("forecast") => forecast::run(&arguments[1..]),
        Some("verdict") => verdict::run(&arguments[1..]),
        Some("evidence") => evidence::run(&arguments[1..]),
        Some("matters") => matters::run(&arguments[1..]),
        Some("beside") => beside::run(&arguments[1..]),
        Some("aim") => aim::run(&arguments[1..]),
        Some("pantry") => pantry::run(&arguments[1..]),
        Some("label") => label::run(&arguments[1..]),
        Some("picture") => picture::run(&arguments[1..]),
        Some("help" | "--help" | "-h") => {
            print!("{}", help::whole());
            Exit::Done
        }
        Some("--version" | "-V") => {
            println!("potset {}", env!("CARGO_PKG_VERSION"));
            Exit::Done
        }
        Some(_) | None => window::run(arguments),
    };
    exit as i32
}

/// Says what is wrong and returns the exit code for bad input.
fn bad(note: &Note) -> Exit {
    eprintln!("potset: {note}");
    Exit::BadInput
}

/// Prints what a command has to tell, or what is wrong with its input.
fn printed(told: Result<(String, Exit), Note>) -> Exit {
    match told {
        Ok((text, exit)) => {
            print!("{text}");
            exit
        }
        Err(note) => bad(&note),
    }
}

/// This maker's kitchen; a bad file is told of, and the usual kitchen stands in.
fn kitchen() -> Kitchen {
    let (kitchen, notes) = folders::folders().map_or_else(
        || (Kitchen::default(), Vec::new()),
        |folders| {
            let (_, kitchen, notes) = memory::load(&folders);
            (kitchen, notes)
        },
    );
    for note in notes {
        eprintln!("potset: {note}");
    }
    kitchen
}

/// The maker's own pantry; a bad file is told of.
fn own() -> OwnPantry {
    let (own, bad) = folders::folders().map_or_else(Default::default, |folders| memory::own(&folders));
    if let Some(note) = bad {
        eprintln!("potset: {note}");
    }
    own
}

/// The shipped pantry with the maker's own entries.
fn pantry() -> Result<Pantry, Note> {
    Ok(own().over(&assets::pantry()?))
}

/// A design file, or a demo design by name.
fn design(file: &str) -> Result<Design, Note> {
    demo(file).map_or_else(|| files::design(Path::new(file)), assets::demo)
}

/// The demo design that a name stands for: there is no file of that name.
fn demo(file: &str) -> Option<&'static str> {
    let named = assets::DEMOS.iter().map(|(name, _)| *name).find(|name| *name == file);
    named.filter(|_| !files::is_there(Path::new(file)))
}

/// Everything that a command on one design needs.
struct Desk {
    design: Design,
    pantry: Pantry,
    kitchen: Kitchen,
    learnt: Learnt,
}

impl Desk {
    /// Opens a design file, or a demo design by name.
    fn open(args: &Args) -> Result<Self, Note> {
        Self::of(args.file()?)
    }

    /// The same for a file by its name.
    fn of(file: &str) -> Result<Self, Note> {
        let design = design(file)?;
        Ok(Self { design, pantry: pantry()?, kitchen: kitchen(), learnt: Learnt::default() })
    }

    const fn ask(&self) -> Ask<'_> {
        Ask { design: &self.design, pantry: &self.pantry, kitchen: &self.kitchen, learnt: &self.learnt }
    }
}
