//! The command line: one sub-command a file, plain sentences, exit codes.
//!
//! 0 done; 1 the question has no answer; 2 bad input; 3 no window can be opened here.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "this is the layer that talks to a terminal")]

pub mod aim;
pub mod args;
pub mod beside;
pub mod evidence;
pub mod forecast;
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

/// Help for the whole program.
const HELP: &str = "\
potset: what a pot of cultured yogurt will be, before it is made

potset [FILE]                     opens the window
potset forecast FILE [--every MIN] [--hours H] [--spread N [--seed S]] [--out F.csv]
                                  the curves as CSV; with bands and chances of N possible pots
potset verdict FILE [--ron]       the verdict in words, or as RON
potset beside FILE FILE… [--csv|--markdown] [--out F.csv|.md|.txt|.svg|.png]
                                  what differs between two to four designs, what it does, because of what;
                                  the ending of F says the form: a table, or a picture of the curves
potset aim FILE --want W [--want W…] [--move LEVER[=FROM..TO]…] [--hold LEVER…] [--seed N] [--out F.ron]
                                  settings that reach what is wanted: texture=dollops, ph<=4.3, tang=bright,
                                  sugar<=20, ready<=24h, cost<=4, fat<=10, whey<=2, vegan, gluten-free, no-cooking,
                                  only=KEY,KEY; F gets the best of them as a design
potset matters FILE [--spread N] [--seed S]
                                  which levers move the pot, which doubts are worth finding out about,
                                  and which reading tells most
potset label TEXTFILE             what a food label says, and what was inferred from it
potset pantry [--check] [NAME]    the entries, one with all its figures, or whether they hold together
potset picture FILE [FILE…] --out F.png [--view V] [--size WxH] [--theme light|dark] [--zoom Z]
                                  draws the window without a display; several files stand beside each other
                                  (--over: their curves laid over each other, --tables: their tables)
potset evidence [--case KEY] [--csv] [--spread [POTS]]
                                  the model against published cases, misses and source kinds included
potset help                       this text

FILE is a design (*.ron), or the name of a demo design such as coconut-pot.ron.
Exit codes: 0 done; 1 no answer; 2 bad input; 3 no window can be opened here.
Forecasts are advice, not permission: follow local codes.
";

/// Runs the program with its arguments (without its own name).
#[must_use]
pub fn run(arguments: &[String]) -> i32 {
    let exit = match arguments.first().map(String::as_str) {
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
            print!("{HELP}");
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
    let path = Path::new(file);
    if !files::is_there(path) && assets::DEMOS.iter().any(|(name, _)| *name == file) {
        assets::demo(file)
    } else {
        files::design(path)
    }
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
