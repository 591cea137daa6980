//! `potset beside`: what differs between designs, what that does, and because of what.

use std::ffi::OsString;

use super::args::Args;
use super::{CliContext, Exit, design, fault};
use potset_base::Note;
use potset_compare::beside::{MOST, answers, beside};
use potset_doc::Design;
use potset_export::beside_file::Form;
use potset_science::Forecast;
use potset_store::opened::Opened;
use potset_store::out::{Kind, Out};

/// What the command has to tell, and how it ends.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["out"], &["csv", "markdown"])?;
    let file = args.out();
    let form = form(&args)?;
    let files = args.files();
    if files.len() < 2 {
        return Err(Note::error("FILE", "One design has nothing beside it", "Give two to four design files"));
    }
    if let Some(extra) = files.get(MOST) {
        return Err(Note::error(
            extra.to_string_lossy(),
            format!("At most {MOST} designs stand beside each other"),
            "Leave the others out",
        ));
    }
    let context = CliContext::of(&files[0])?;
    let others = files[1..].iter().map(|file| design(file)).collect::<Result<Vec<Opened>, Note>>()?;
    let all: Vec<&Opened> = std::iter::once(&context.opened).chain(&others).collect();
    let out = file.zip(form).map(|(path, form)| {
        let kind = Kind { name: form.words(), holds: form.holds() };
        Out::at(path, kind, all.iter().filter_map(|opened| opened.file()).collect())
    });
    let out = out.transpose()?;
    for opened in &all {
        // Each alone first, so that a fault names its own file.
        context.ask_of(opened).run().map_err(|notes| fault(opened, notes))?;
    }
    let designs: Vec<&Design> = all.iter().map(|opened| &opened.design).collect();
    let scenario = context.ask();
    let told = beside(&scenario, &designs[1..]).map_err(|notes| context.fault(notes))?;
    if let (Some(out), Some(form)) = (out, form) {
        let answers = answers(&scenario, &designs);
        let forecasts: Vec<&Forecast> = answers.iter().map(|a| &a.forecast).collect();
        out.write(&form.bytes(&told, &forecasts)?)?;
        return Ok((String::new(), Exit::Done));
    }
    let text = if args.flag("csv") {
        potset_export::beside::csv(&told)
    } else if args.flag("markdown") {
        potset_export::beside::markdown(&told)
    } else {
        potset_export::beside::text(&told)
    };
    Ok((text, Exit::Done))
}

/// The form that the file's ending asks for, where there is one; the flags must not ask for another.
fn form(args: &Args) -> Result<Option<Form>, Note> {
    if args.flag("csv") && args.flag("markdown") {
        return Err(Note::error("--markdown", "One form at a time", "Leave --csv or --markdown out"));
    }
    let form = args.out().map(Form::of).transpose()?;
    for (flag, asked) in [("csv", Form::Csv), ("markdown", Form::Markdown)] {
        if args.flag(flag) && form.is_some_and(|form| form != asked) {
            return Err(Note::error(
                format!("--{flag}"),
                "The ending of the file asks for another form",
                format!("Leave --{flag} out, or change the ending"),
            ));
        }
    }
    Ok(form)
}
