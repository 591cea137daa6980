//! `potset recipes`: the house recipes, a line each.

use std::ffi::OsString;
use std::fmt::Write;
use std::path::PathBuf;

use super::args::Args;
use super::terminal::say;
use super::{Exit, kitchen, learnt, pantry};
use potset_base::Note;
use potset_base::clock::day_words;
use potset_catalogue::recipes::{Find, Recipe, answered, found};
use potset_doc::recipe::RecipeSummary;
use potset_forecast::scenario::Scenario;
use potset_report::card::code;
use potset_report::recipes::{answer_words, made_words};
use potset_store::library::Library;
use potset_store::{folders, memory};

/// Runs the command.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["find", "folder"], &[])?;
    args.no_files()?;
    let library = Library::at(folder(&args)?);
    let (pantry, (kitchen, _speaking)) = (pantry()?, kitchen());
    let learnt = learnt();
    let mut all = Vec::new();
    for (file, stamp) in library.files()? {
        let design = match library.read(&file) {
            Ok(design) => design,
            Err(note) => {
                say(&note);
                continue;
            }
        };
        let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let answer = answered(&scenario, code(&design));
        let record = library.record(&file);
        let summary = RecipeSummary::of(&design, &pantry);
        all.push(Box::new(Recipe::new((file, stamp), summary, Some(answer), record)));
    }
    let find = Find { text: args.text("find").unwrap_or_default().to_owned(), ..Find::default() };
    let places = found(&all, &find);
    if places.is_empty() {
        return Ok((
            format!("No recipe fits, of {} in {}\n", all.len(), library.folder().display()),
            Exit::NoAnswer,
        ));
    }
    let mut out = String::new();
    for one in places.into_iter().map(|i| &all[i]) {
        let (words, below) = answer_words(one.answer.as_ref(), one.summary.hold_h);
        let code = one.answer.as_ref().map_or("", |answer| answer.code.as_str());
        let made = made_words(one.record.made.len(), one.last_made().map(day_words));
        let more = [below, one.summary.tags.join(", "), made];
        let more =
            more.iter().filter(|part| !part.is_empty()).fold(String::new(), |all, part| all + " · " + part);
        let _ = writeln!(out, "{code}  {}  {words}{more}  ({})", one.summary.name, one.file);
    }
    Ok((out, Exit::Done))
}

/// The folder that was named, else the one that the window keeps them in.
fn folder(args: &Args) -> Result<PathBuf, Note> {
    if let Some(folder) = args.text("folder") {
        return Ok(PathBuf::from(folder));
    }
    let settings = folders::folders().map(|folders| memory::load(&folders).0);
    settings.and_then(|settings| settings.recipes).map(PathBuf::from).ok_or_else(|| {
        let mend = "Give --folder with a folder, or choose one in the window, in Recipes";
        Note::error("--folder", "The house recipes have no folder yet", mend)
    })
}
