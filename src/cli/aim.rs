//! `potset aim`: settings that reach what is wanted, or what blocks.

use std::ffi::OsString;

use super::args::Args;
use super::{CliContext, Exit};
use potset_base::Note;
use potset_doubt::spread::SEED;
use potset_report::hygiene;
use potset_search::aim::{AimAsk, Beyond, Gives, Moves, TargetSearch, Want};
use potset_store::out::{DESIGN, Out};

/// Pieces of work at a time.
const SLICE: usize = 16;

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["want", "move", "hold", "seed", "out"], &["usual", "unusual"])?;
    let context = CliContext::open(&args)?;
    let (ask, design) = (context.ask(), &context.opened.design);
    let wants = args
        .texts("want")
        .map(|text| Want::read(text, design, ask.pantry).map_err(|note| at("want", note)))
        .collect::<Result<Vec<_>, Note>>()?;
    let (moves, holds): (Vec<&str>, Vec<&str>) = (args.texts("move").collect(), args.texts("hold").collect());
    // Each alone first, so that a fault names its own option.
    Moves::read(&moves, &[], design, ask.pantry).map_err(|note| at("move", note))?;
    let own = |note: Note| {
        let moved = moves.iter().any(|text| *text == note.field);
        at(if moved && !holds.contains(&note.field.as_str()) { "move" } else { "hold" }, note)
    };
    let mut moves = Moves::read(&moves, &holds, design, ask.pantry).map_err(own)?;
    moves.beyond = match (args.flag("usual"), args.flag("unusual")) {
        (true, true) => {
            let mend = "Give one of them, or neither";
            return Err(Note::error("--usual", "It says the opposite of --unusual", mend));
        }
        (true, false) => Beyond::Never,
        (false, true) => Beyond::Far,
        (false, false) => Beyond::default(),
    };
    let seed = args.whole("seed", 0, usize::MAX)?.and_then(|s| u64::try_from(s).ok()).unwrap_or(SEED);
    let wish = AimAsk::new(wants, moves, seed).map_err(|note| at("want", note))?;
    // Before the search, which may take a while.
    let inputs = context.opened.file().into_iter().collect();
    let out = args.out().map(|path| Out::at(path, DESIGN, inputs)).transpose()?;
    let run = ask.run().map_err(|notes| context.fault(notes))?;
    let (now, lost) = (Gives::of_wants(&ask, &run, &wish.wants), hygiene::lost_words(&run));
    let mut aimer = TargetSearch::new(wish.clone());
    while aimer.next(&ask, SLICE) {}
    let found = aimer.into_found();
    let lost = lost.map_or_else(String::new, |line| format!("{line}.\n"));
    let mut text = lost + &potset_export::aim::text(&ask, &wish, &now, &found);
    let (best, what) = match found.proposals.first() {
        Some(best) => (&best.design, "Setting 1"),
        None if found.blocked.is_none() && found.does_already() => (design, "Your design"),
        None => return Ok((text, Exit::NoAnswer)),
    };
    if let Some(out) = out {
        out.save_design(best)?;
        text.push_str(&format!("\n{what} was written to {}\n", out.path().display()));
    }
    Ok((text, Exit::Done))
}

/// A note whose field names the option it came by.
fn at(option: &str, note: Note) -> Note {
    let field =
        if note.field == option { format!("--{option}") } else { format!("--{option} {}", note.field) };
    Note { field, ..note }
}
