//! `potset label`: what a label says, and what was inferred from it.

use std::ffi::OsString;
use std::io::Read;
use std::path::Path;

use super::Exit;
use super::args::Args;
use potset_base::Note;
use potset_doc::label;
use potset_store::files;

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &[], &[])?;
    let file = args.file().map_err(|note| Note {
        title: note.title.replace("design", "label"),
        mend: "Give one text file with the words of the label".to_owned(),
        ..note
    })?;
    let bytes = if file == "-" { piped()? } else { files::bytes(Path::new(file))? };
    let text = text(&file.to_string_lossy(), &bytes)?;
    let reading = label::read(&text);
    let (pantry, (kitchen, _speaking)) = (super::pantry()?, super::kitchen());
    let study = potset_catalogue::label::study(&reading, &pantry, &kitchen, &super::learnt());
    Ok((potset_export::label::words(&reading, &study), Exit::Done))
}

/// What comes through a pipe, one byte more than a label may have at most.
fn piped() -> Result<Vec<u8>, Note> {
    let mut bytes = Vec::new();
    let most = label::MOST_BYTES as u64 + 1;
    std::io::stdin().take(most).read_to_end(&mut bytes).map_err(|e| {
        let title = format!("Nothing could be read from the pipe: {e}");
        Note::error("-", title, "Pipe the words of the label in, or name a text file")
    })?;
    Ok(bytes)
}

/// The bytes as text.
fn text(file: &str, bytes: &[u8]) -> Result<String, Note> {
    let refuse = |title: &str, mend: &str| Err(Note::error(file, title, mend));
    if bytes.len() > label::MOST_BYTES {
        return refuse("This is too long for a label", "Give a text file with the words of one label");
    }
    if bytes.contains(&0) {
        return refuse("This is no text", "Give a plain text file with the words of the label");
    }
    let Ok(text) = std::str::from_utf8(bytes) else {
        return refuse("This is no text in UTF-8", "Save the label as plain text in UTF-8");
    };
    if text.trim().is_empty() {
        return refuse("The file is empty", "Type or paste the words of the label into it");
    }
    Ok(text.to_owned())
}
