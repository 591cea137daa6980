//! The file: an envelope with format and version around a body; strict, and frank about what is wrong and where.

mod place;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::design::Design;
use super::unsaved::Unsaved;
use super::{Batch, Lesson, batch, check, lesson, pantry};
use potset_base::Note;
use potset_base::lexicon::options;
use potset_base::words::shortened;

/// Largest file that is read at all, bytes. Designs are some tens of kilobytes.
pub const MOST_BYTES: usize = 4 << 20;

/// Most characters of the reader's own words, which repeat what stands in the file.
const MOST_REPEATED: usize = 300;

/// Something that is saved: its format name and version.
pub trait Saved: Serialize + DeserializeOwned {
    const FORMAT: &'static str;
    const VERSION: u32;
}

macro_rules! saved {
    ($($kind:ty: $format:literal, $version:literal;)*) => {$(
        impl Saved for $kind {
            const FORMAT: &'static str = $format;
            const VERSION: u32 = $version;
        }
    )*};
}

saved! {
    Design: "potset design", 1;
    Unsaved: "potset recovery copy", 1;
    super::OwnPantry: "potset own pantry", 1;
    pantry::Pantry: "potset pantry", 1;
    super::Kitchen: "potset kitchen", 1;
    super::Settings: "potset settings", 1;
    super::recipe::RecipeRecord: "potset recipe marks", 1;
    Batch: "potset batch", 1;
    super::learnt::LearntBook: "potset learnt", 1;
    super::calls::CallLog: "potset calls", 1;
    Lesson: "potset lesson", 1;
}

#[derive(Serialize)]
struct EnvelopeOut<'a, T> {
    format: &'static str,
    version: u32,
    body: &'a T,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Envelope<T> {
    format: String,
    version: u32,
    body: T,
}

/// The head of a file; the body is passed over, whatever is in it.
#[derive(Deserialize)]
struct Head {
    format: String,
    version: u32,
    #[serde(rename = "body", default)]
    _body: serde::de::IgnoredAny,
}

/// The text of a file.
///
/// # Errors
/// A note if a value cannot be written (this does not happen with the types here).
pub fn write<T: Saved>(value: &T) -> Result<String, Note> {
    let envelope = EnvelopeOut { format: T::FORMAT, version: T::VERSION, body: value };
    let pretty = ron::ser::PrettyConfig::new().depth_limit(16).indentor("  ".to_owned());
    let mut text = options().to_string_pretty(&envelope, pretty).map_err(|e| {
        Note::error("file", format!("The file could not be written: {e}"), "Tell the makers of the program")
    })?;
    text.push('\n');
    Ok(text)
}

/// A file's bytes as text.
///
/// # Errors
/// A note that names what is wrong: too large, not text, empty.
pub fn text(bytes: &[u8]) -> Result<&str, Note> {
    if bytes.len() > MOST_BYTES {
        return Err(too_large(bytes.len() as u64));
    }
    let text = std::str::from_utf8(bytes).map_err(|e| {
        let line = bytes[..e.valid_up_to()].iter().filter(|b| **b == b'\n').count() + 1;
        Note::error(
            format!("line {line}"),
            "The file is not text in UTF-8",
            "Save it as UTF-8, or open the right file",
        )
    })?;
    if text.trim().is_empty() {
        return Err(Note::error("file", "The file is empty", "Open another file, or a last good copy"));
    }
    Ok(text)
}

/// Reads a file's bytes.
///
/// # Errors
/// A note that names line, field and mend: too large, not text, cut short, another format, a newer version, an unknown
/// field, a wrong kind of value.
pub fn read<T: Saved>(bytes: &[u8]) -> Result<T, Note> {
    let text = text(bytes)?;
    let head: Head = options().from_str(text).map_err(|e| spanned(text, &e))?;
    if head.format != T::FORMAT {
        return Err(Note::error(
            "format",
            format!("This is a “{}” file, not a “{}” file", shortened(&head.format, 60), T::FORMAT),
            "Open the file where it belongs",
        ));
    }
    if head.version > T::VERSION || head.version == 0 {
        return Err(Note::error(
            "version",
            format!("The file has version {}; this program reads versions 1 to {}", head.version, T::VERSION),
            "Open the file with a newer Potset. The file was not touched",
        ));
    }
    let envelope: Envelope<T> = options().from_str(text).map_err(|e| spanned(text, &e))?;
    debug_assert!(envelope.format == T::FORMAT && envelope.version == T::VERSION);
    Ok(envelope.body)
}

/// Whether a file is another program's or a newer version's: it may be whole, and is not ours to move or write over.
pub fn foreign<T: Saved>(bytes: &[u8]) -> bool {
    let head = std::str::from_utf8(bytes).ok().and_then(|text| options().from_str::<Head>(text).ok());
    head.is_some_and(|head| head.format != T::FORMAT || head.version > T::VERSION)
}

/// Reads a design and checks its numbers and steps.
///
/// # Errors
/// As [`read`]; and the first number out of range, with its line where it can be found.
pub fn read_design(bytes: &[u8]) -> Result<Design, Note> {
    let design: Design = read(bytes)?;
    checked(&design, bytes)?;
    Ok(design)
}

/// Reads a batch and checks it.
///
/// # Errors
/// As [`read_design`].
pub fn read_batch(bytes: &[u8]) -> Result<Batch, Note> {
    let batch: Batch = read(bytes)?;
    unless_faults(batch::check::faults(&batch), bytes)?;
    Ok(batch)
}

/// Reads a lesson and checks it.
///
/// # Errors
/// As [`read_design`].
pub fn read_lesson(bytes: &[u8]) -> Result<Lesson, Note> {
    let lesson: Lesson = read(bytes)?;
    unless_faults(lesson::check::faults(&lesson), bytes)?;
    Ok(lesson)
}

/// Reads a recovery copy and checks its design.
///
/// # Errors
/// As [`read_design`].
pub fn read_unsaved(bytes: &[u8]) -> Result<Unsaved, Note> {
    let unsaved: Unsaved = read(bytes)?;
    checked(&unsaved.design, bytes)?;
    Ok(unsaved)
}

fn checked(design: &Design, bytes: &[u8]) -> Result<(), Note> {
    unless_faults(check::faults(design), bytes)
}

/// The first fault with its line, if there is any.
fn unless_faults(mut faults: Vec<Note>, bytes: &[u8]) -> Result<(), Note> {
    if faults.is_empty() {
        return Ok(());
    }
    let mut first = placed(bytes, faults.remove(0));
    if !faults.is_empty() {
        first.mend = format!("{} (and {} more)", first.mend, faults.len());
    }
    Err(first)
}

/// A note about a field of a file with the line on which the field stands, where it can be found.
pub fn placed(bytes: &[u8], note: Note) -> Note {
    let line = std::str::from_utf8(bytes).ok().and_then(|text| place::line_of(text, &note.field));
    match line {
        Some(line) => Note { field: format!("line {line}, {}", note.field), ..note },
        None => note,
    }
}

/// Whether bytes begin like a saved design, be it whole or torn.
pub fn is_design(head: &[u8]) -> bool {
    begins_as::<Design>(head)
}

/// Whether bytes begin like a file of a format, be it whole or torn.
pub fn begins_as<T: Saved>(head: &[u8]) -> bool {
    /// Bytes in which the format's name stands, behind a comment at most.
    const NAMED_BY: usize = 4096;
    let head = String::from_utf8_lossy(&head[..head.len().min(NAMED_BY)]);
    let bare: String = head.chars().filter(|c| !c.is_whitespace()).collect();
    let name: String = T::FORMAT.chars().filter(|c| !c.is_whitespace()).collect();
    bare.contains(&format!("format:\"{name}\""))
}

/// The note for a file that is too large to be one of ours.
pub fn too_large(bytes: u64) -> Note {
    Note {
        sentence: format!("The file has {} MB; designs stay under {} MB", bytes >> 20, MOST_BYTES >> 20),
        ..Note::error("file", "The file is too large", "Open the right file")
    }
}

/// Reads a text without an envelope: an asset that ships with the program, or cases of a maker's own.
///
/// # Errors
/// As [`read`], but for format and version.
pub fn asset<T: DeserializeOwned>(text: &str) -> Result<T, Note> {
    options().from_str(text).map_err(|e| spanned(text, &e))
}

fn spanned(text: &str, error: &ron::error::SpannedError) -> Note {
    let at = error.span.start;
    let source = text.lines().nth(at.line.saturating_sub(1)).unwrap_or("").trim();
    let shown: String = source.chars().take(60).collect();
    // It repeats what stands in the file.
    let code = shortened(&error.code.to_string(), MOST_REPEATED).into_owned();
    let mend =
        if code.contains("Unexpected end") || at.line >= text.lines().count() && code.contains("Expected") {
            "The file is cut short: open a last good copy"
        } else if code.contains("Unexpected field") {
            "Remove the field, or open the file with the program that wrote it"
        } else {
            "Mend that line, or open a last good copy"
        };
    Note {
        sentence: if shown.is_empty() { String::new() } else { format!("The text there is “{shown}”") },
        ..Note::error(format!("line {}, column {}", at.line, at.col), code, mend)
    }
}
