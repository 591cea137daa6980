//! The command line: one sub-command a file, plain sentences, exit codes.
//!
//! 0 done; 1 the question has no answer; 2 bad input; 3 no window can be opened here. Only `terminal` prints.

pub mod aim;
pub mod args;
pub mod beside;
pub mod card;
pub mod clock;
pub mod evidence;
pub mod forecast;
mod help;
pub mod label;
pub mod learn;
pub mod lesson;
pub mod log;
pub mod matters;
pub mod mishap;
pub mod packet;
pub mod pantry;
pub mod picture;
pub mod recipes;
mod terminal;
pub mod verdict;
pub mod window;

use std::ffi::{OsStr, OsString};
use std::path::Path;

use args::Args;
use terminal::{bad, print, say};

use potset_base::units::{self, Speaking};
use potset_base::{Note, Severity};
use potset_doc::{Kitchen, Learnt, OwnPantry, Pantry, assets};
use potset_doubt::spread::Spread;
use potset_forecast::scenario::Scenario;
use potset_store::opened::Opened;
use potset_store::{files, folders, memory};

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    Done = 0,
    NoAnswer = 1,
    BadInput = 2,
    NoWindow = 3,
}

/// Runs the program with its arguments (without its own name).
pub fn run(arguments: &[OsString]) -> i32 {
    let first = arguments.first().and_then(|a| a.to_str());
    // Help for one command, wherever it is asked for.
    let asked = arguments.iter().skip(1).any(|a| a == "--help" || a == "-h");
    let helped = match (first, arguments.get(1).and_then(|a| a.to_str())) {
        (Some("help"), Some(name)) => help::of(name),
        (Some(name), _) if asked => help::of(name),
        _ => None,
    };
    if let Some(text) = helped {
        return print(&text, Exit::Done) as i32;
    }
    let rest = arguments.get(1..).unwrap_or_default();
    let told = match first {
        Some("forecast") => forecast::run(rest),
        Some("verdict") => verdict::run(rest),
        Some("evidence") => evidence::run(rest),
        Some("matters") => matters::run(rest),
        Some("learn") => learn::run(rest),
        Some("mishap") => mishap::run(rest),
        Some("beside") => beside::run(rest),
        Some("aim") => aim::run(rest),
        Some("pantry") => pantry::run(rest),
        Some("label") => label::run(rest),
        Some("packet") => packet::run(rest),
        Some("clock") => clock::run(rest),
        Some("recipes") => recipes::run(rest),
        Some("card") => card::run(rest),
        Some("leaflet") => card::leaflet(rest),
        Some("lesson") => lesson::run(rest),
        Some("runsheet") => lesson::runsheet(rest),
        Some("log") => log::run(rest),
        Some("picture") => picture::run(rest),
        Some("help" | "--help" | "-h") => Ok((help::whole(), Exit::Done)),
        Some("--version" | "-V") => Ok((format!("potset {}\n", env!("CARGO_PKG_VERSION")), Exit::Done)),
        Some(_) | None => return window::run(arguments) as i32,
    };
    let exit = match told {
        Ok((text, exit)) => print(&text, exit),
        Err(note) => bad(&note),
    };
    exit as i32
}

/// This maker's kitchen, and that from now on things are said as in it; a bad file is told of, and the usual kitchen stands
/// in.
fn kitchen() -> (Kitchen, Speaking) {
    let (kitchen, notes) = folders::folders().map_or_else(
        || (Kitchen::default(), Vec::new()),
        |folders| {
            let (_, kitchen, notes) = memory::load(&folders);
            (kitchen, notes)
        },
    );
    for note in notes {
        say(&note);
    }
    let speaking = units::speak(kitchen.units());
    (kitchen, speaking)
}

/// What pots taught in this kitchen; a bad file is told of.
fn learnt() -> Learnt {
    let (kept, bad) = folders::folders().map_or_else(Default::default, |folders| memory::learnt(&folders));
    if let Some(note) = bad {
        say(&note);
    }
    kept.now
}

/// The maker's own pantry; a bad file is told of.
fn own() -> OwnPantry {
    let (own, bad) = folders::folders().map_or_else(Default::default, |folders| memory::own(&folders));
    if let Some(note) = bad {
        say(&note);
    }
    own
}

/// The shipped pantry with the maker's own entries.
fn pantry() -> Result<Pantry, Note> {
    Ok(own().over(&assets::pantry()?))
}

/// A design file, or a demo design by name.
fn design(file: &OsStr) -> Result<Opened, Note> {
    demo(file).map_or_else(|| Opened::read(Path::new(file)), Opened::demo)
}

/// The demo design that a name stands for: there is no file of that name.
fn demo(file: &OsStr) -> Option<&'static str> {
    let named = assets::DEMOS.iter().map(|(name, _)| *name).find(|name| *name == file);
    named.filter(|_| !files::is_there(Path::new(file)))
}

/// Why a design has no forecast, with its file and the line: the first fault among the notes.
fn fault(opened: &Opened, notes: Vec<Note>) -> Note {
    let fault = notes.into_iter().find(|note| note.severity == Severity::Error);
    let note = fault.unwrap_or_else(|| Note::error("design", "There is no forecast", "Check the design"));
    opened.placed(note)
}

/// Everything that a command on one design needs.
struct CliContext {
    opened: Opened,
    pantry: Pantry,
    kitchen: Kitchen,
    learnt: Learnt,
    /// It says things as this kitchen does.
    _speaking: Speaking,
}

impl CliContext {
    /// Opens a design file, or a demo design by name.
    fn open(args: &Args) -> Result<Self, Note> {
        Self::of(args.file()?)
    }

    /// The same for a file by its name.
    fn of(file: &OsStr) -> Result<Self, Note> {
        let opened = design(file)?;
        let (pantry, (kitchen, speaking)) = (pantry()?, kitchen());
        Ok(Self { opened, pantry, kitchen, learnt: learnt(), _speaking: speaking })
    }

    const fn ask(&self) -> Scenario<'_> {
        self.ask_of(&self.opened)
    }

    /// The same question about another design.
    const fn ask_of<'a>(&'a self, opened: &'a Opened) -> Scenario<'a> {
        Scenario {
            design: &opened.design,
            pantry: &self.pantry,
            kitchen: &self.kitchen,
            learnt: &self.learnt,
        }
    }

    fn fault(&self, notes: Vec<Note>) -> Note {
        fault(&self.opened, notes)
    }

    /// What many pots do cannot be told if not one of them can be made: why is said, and that there is no answer.
    fn none_made(&self, spread: &Spread) -> Option<Exit> {
        potset_report::spread::none_made(spread).map(|note| {
            say(&self.opened.placed(note));
            Exit::NoAnswer
        })
    }
}
