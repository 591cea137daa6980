//! `potset log`: readings into the file of a batch, a batch begun, its table, its record.

mod logger;

use std::ffi::{OsStr, OsString};
use std::fmt::Write;
use std::path::{Path, PathBuf};

use super::args::Args;
use super::card::size;
use super::{CliContext, Exit, kitchen, pantry};
use potset_app::clock;
use potset_base::Note;
use potset_base::clock::{Moment, Zone};
use potset_doc::batch::change::BatchChange;
use potset_doc::batch::rows::BatchRows;
use potset_doc::batch::spoken::heard;
use potset_doc::{Batch, format};
use potset_export::batches;
use potset_judge::answer::answer;
use potset_paper::{Form, Size, numbered};
use potset_report::batch::begun;
use potset_report::card::CardAsk;
use potset_report::record;
use potset_store::book::{self, Book};
use potset_store::out::{Kind, Out};
use potset_store::{files, folders, memory, zone};

/// A table of readings as a file.
const TABLE: Kind = Kind { name: "a table of readings", holds: batches::is_table };

/// Runs the command.
///
/// # Errors
/// A note on what is wrong with its input; nothing is written then.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["begin", "at", "logger", "table", "csv", "record", "size"], &["end"])?;
    let zone = zone::name().and_then(|name| Zone::named(&name)).unwrap_or_default();
    let now = clock::now(&zone).ok_or_else(|| {
        Note::error("clock", "This machine's clock is wrong", "Set the clock, then try again")
    })?;
    let mut out = String::new();
    let begin = args.text("begin");
    let (path, readings) = match (begin, args.files()) {
        (Some(design), files) => {
            let (path, readings) = named(files);
            (begin_it(OsStr::new(design), path, &args, (now, &zone), &mut out)?, readings)
        }
        (None, [file, readings @ ..]) => (placed(Path::new(file)), readings),
        (None, []) => {
            let mend = "Give the file of a batch, then what you read: potset log pot.ron \"21:40 4.9\"";
            return Err(Note::error("FILE", "No batch was named", mend));
        }
    };
    let batch = book::read(&path)?;
    let (_, _speaking) = kitchen();
    let handed = Handed::of(&args, &path)?;
    let mut changes = Vec::new();
    for line in lines(readings) {
        let heard = heard(&line, &batch, now, &zone)?;
        let _ = writeln!(out, "{}", heard.sentence);
        changes.extend(heard.all());
    }
    if let Some(data) = args.text("logger") {
        changes.extend(logger::taken(Path::new(data), &batch, &mut out)?);
    }
    if let Some(table) = args.text("table") {
        changes.push(taken_in(Path::new(table), &batch)?);
    }
    if args.flag("end") {
        changes.push(BatchChange::Ended(true));
        let _ = writeln!(out, "{} is ended", batch.name);
    }
    let batch = if changes.is_empty() {
        batch
    } else {
        let batch = book::change(&path, |batch| changes.iter().for_each(|change| change.apply(batch)))?;
        let _ = writeln!(out, "Saved in {}", path.display());
        batch
    };
    handed.write(&batch)?;
    Ok((out, Exit::Done))
}

/// The file of a new batch, if one is named before the readings, and the readings.
fn named(files: &[OsString]) -> (Option<&Path>, &[OsString]) {
    match files {
        [first, readings @ ..] if Path::new(first).extension().is_some_and(|ending| ending == "ron") => {
            (Some(Path::new(first)), readings)
        }
        readings => (None, readings),
    }
}

/// The lines of readings: what has spaces in it is one each, single words between them make one together.
fn lines(readings: &[OsString]) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut open = false;
    for part in readings {
        let part = part.to_string_lossy();
        let single = !part.contains(char::is_whitespace);
        match all.last_mut().filter(|_| open && single) {
            Some(last) => {
                last.push(' ');
                last.push_str(&part);
            }
            None => all.push(part.into_owned()),
        }
        open = single;
    }
    all
}

/// The batch book of the window.
fn own_book() -> Option<Book> {
    let folders = folders::folders()?;
    Some(Book::of(&memory::load(&folders).0, &folders))
}

/// A file as it was named, or of that name in the book.
fn placed(file: &Path) -> PathBuf {
    let alone = file.parent().is_none_or(|folder| folder.as_os_str().is_empty());
    let in_book = || own_book().map(|book| book.folder().join(file)).filter(|path| files::is_there(path));
    if alone && !files::is_there(file) {
        in_book().unwrap_or_else(|| file.to_path_buf())
    } else {
        file.to_path_buf()
    }
}

/// Begins the batch of a design in a file, or in the book; the file.
fn begin_it(
    design: &OsStr,
    path: Option<&Path>,
    args: &Args,
    (now, zone): (Moment, &Zone),
    out: &mut String,
) -> Result<PathBuf, Note> {
    let context = CliContext::of(design)?;
    let start = match args.text("at") {
        None => now,
        Some(text) => Moment::spoken_past(text, now).ok_or_else(|| {
            let title = format!("I don't know the time “{text}”");
            Note::error("--at", title, "Write it like 18:30, \"yesterday 18:30\" or \"2026-11-26 18:30\"")
        })?,
    };
    let scenario = context.ask();
    let answer = answer(&scenario);
    if !answer.errors.is_empty() {
        return Err(context.fault(answer.errors));
    }
    let ask = CardAsk { scenario: &scenario, answer: &answer, ready: None, watch: None, version: None };
    let batch = begun(&ask, Some(start), zone);
    let path = match path {
        Some(path) => {
            // Whatever is there stays, and no new folder is made.
            Out::at(path, Kind { name: "a batch", holds: |_| false }, Vec::new())?;
            let fresh = files::write_over(path, &format::write(&batch)?, files::Over::Same(None))?;
            if fresh == files::Written::Changed {
                let mend = "Give another name, or leave out --begin to write into that batch";
                return Err(Note::error(path.display().to_string(), "There is such a file already", mend));
            }
            path.to_path_buf()
        }
        None => {
            let book = own_book().ok_or_else(|| {
                Note::error("FILE", "There is no home folder for the book", "Name a file for the batch")
            })?;
            book.path(&book.begin(&batch, &now.day())?)
        }
    };
    let _ = writeln!(out, "Begun: {}, culture in {}", batch.name, start.date_and_time());
    let _ = writeln!(out, "Saved in {}", path.display());
    Ok(path)
}

/// Readings of a table that are of this batch.
fn taken_in(table: &Path, batch: &Batch) -> Result<BatchChange, Note> {
    let bytes = files::bytes(table)?;
    let placed = |note: Note| Note { field: format!("{}, {}", table.display(), note.field), ..note };
    let all = batches::read(format::text(&bytes).map_err(placed)?).map_err(placed)?;
    let own = all.iter().find(|rows| rows.are_of(&batch.name, &batch.culture_in)).ok_or_else(|| {
        let title = format!("No row is of “{}”, {}", batch.name, batch.culture_in);
        placed(Note::error("batch", title, "Write this name and this time into its rows"))
    })?;
    Ok(own.missing_in(batch))
}

/// Files that are made of the batch, looked at before anything is written.
struct Handed<'a> {
    table: Option<Out<'a>>,
    record: Option<(Out<'a>, Form, Size)>,
    batch: &'a Path,
}

impl<'a> Handed<'a> {
    fn of(args: &'a Args, batch: &'a Path) -> Result<Self, Note> {
        let table = args.text("csv").map(|path| Out::at(Path::new(path), TABLE, vec![batch])).transpose()?;
        let record = match args.text("record").map(Path::new) {
            None => None,
            Some(path) => {
                let form = Form::of(path)?;
                Some((Out::at(path, kind(form), vec![batch])?, form, size(args)?))
            }
        };
        Ok(Self { table, record, batch })
    }

    fn write(&self, batch: &Batch) -> Result<(), Note> {
        if let Some(table) = &self.table {
            table.write(batches::write(&[BatchRows::of(batch)]).as_bytes())?;
        }
        if let Some((out, form, size)) = &self.record {
            let pages = form.files(&record::sheet(batch, &pantry()?), *size)?;
            for (i, page) in pages.iter().enumerate() {
                match i {
                    0 => out.write(page)?,
                    _ => {
                        let path = numbered(out.path(), i + 1);
                        Out::at(&path, kind(*form), vec![self.batch])?.write(page)?;
                    }
                }
            }
        }
        Ok(())
    }
}

fn kind(form: Form) -> Kind {
    Kind { name: form.words(), holds: form.holds() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn single_words_make_a_line_and_quoted_ones_are_lines() {
        let of = |parts: &[&str]| lines(&parts.iter().map(OsString::from).collect::<Vec<_>>());
        assert_eq!(of(&["21:40", "4.9", "bright"]), ["21:40 4.9 bright"]);
        assert_eq!(of(&["21:40 4.9", "22:40 4.8"]), ["21:40 4.9", "22:40 4.8"]);
        assert_eq!(of(&["4.9", "22:40 4.8", "38"]), ["4.9", "22:40 4.8", "38"]);
        assert_eq!(of(&[]), [""; 0]);
    }

    #[test]
    fn a_new_batch_has_a_file_or_goes_into_the_book() {
        let of = |parts: &[&str]| {
            let parts: Vec<OsString> = parts.iter().map(OsString::from).collect();
            let (path, readings) = named(&parts);
            (path.map(Path::to_path_buf), readings.len())
        };
        assert_eq!(of(&["pot.ron", "4.9"]), (Some(PathBuf::from("pot.ron")), 1));
        assert_eq!(of(&["4.9", "38"]), (None, 2));
        assert_eq!(of(&[]), (None, 0));
    }
}
