//! `potset pantry`: the entries, one of them with all its figures, or whether they hold together.

use std::ffi::OsString;

use super::args::Args;
use super::{Exit, kitchen, own, pantry};
use potset_base::Note;
use potset_catalogue::pantry_check;

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &[], &["check"])?;
    let (pantry, (_, _speaking)) = (pantry()?, kitchen());
    if args.flag("check") {
        args.no_files()?;
        let found = pantry_check::check(&pantry);
        let exit = if found.passes() { Exit::Done } else { Exit::NoAnswer };
        return Ok((potset_export::pantry::check(&found), exit));
    }
    let Some(name) = args.words() else {
        return Ok((potset_export::pantry::list(&pantry, &own()), Exit::Done));
    };
    if name.trim().is_empty() {
        return Err(Note::error(
            "name",
            "The name is empty",
            "Give a name or a part of one, or none for all entries",
        ));
    }
    match potset_export::pantry::named(&pantry, name.trim()).as_slice() {
        [] => Err(Note::error(
            name,
            "The pantry has nothing of this name",
            "See potset pantry for all entries; a part of a name will do",
        )),
        [(kind, entry)] => Ok((potset_export::pantry::page(&pantry, *kind, *entry), Exit::Done)),
        // One key in several lists: all that has it.
        several if several.iter().all(|(_, e)| e.key() == name.trim()) => {
            let pages: Vec<String> =
                several.iter().map(|(kind, e)| potset_export::pantry::page(&pantry, *kind, *e)).collect();
            Ok((pages.join("\n"), Exit::Done))
        }
        several => {
            let mut out = format!("“{name}” may mean:\n");
            for (kind, entry) in several {
                out.push_str(&format!("  {:<34} {} ({})\n", entry.key(), entry.name(), kind.one()));
            }
            Ok((out, Exit::Done))
        }
    }
}
