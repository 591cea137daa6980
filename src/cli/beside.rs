//! `potset beside`: what differs between designs, what that does, and because of what.

use std::path::Path;

use super::args::Args;
use super::{Exit, design, kitchen, pantry, printed};
use crate::base::Note;
use crate::doc::{Design, Learnt};
use crate::export;
use crate::export::beside_file::Form;
use crate::science::Forecast;
use crate::store::files;
use crate::study::Ask;
use crate::study::beside::{MOST, answers, beside};

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    printed(report(arguments))
}

fn report(arguments: &[String]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["out"], &["csv", "markdown"])?;
    if args.flag("csv") && args.flag("markdown") {
        return Err(Note::error("--markdown", "One form at a time", "Leave --csv or --markdown out"));
    }
    let file = args.text("out").map(Path::new);
    let form = file.map(Form::of).transpose()?;
    for (flag, asked) in [("csv", Form::Csv), ("markdown", Form::Markdown)] {
        if args.flag(flag) && form.is_some_and(|form| form != asked) {
            return Err(Note::error(
                format!("--{flag}"),
                "The ending of the file asks for another form",
                format!("Leave --{flag} out, or change the ending"),
            ));
        }
    }
    let files = args.files();
    if files.len() < 2 {
        return Err(Note::error("FILE", "One design has nothing beside it", "Give two to four design files"));
    }
    if let Some(extra) = files.get(MOST) {
        return Err(Note::error(
            extra.clone(),
            format!("At most {MOST} designs stand beside each other"),
            "Leave the others out",
        ));
    }
    let designs = files.iter().map(|file| design(file)).collect::<Result<Vec<Design>, Note>>()?;
    let (pantry, kitchen, learnt) = (pantry()?, kitchen(), Learnt::default());
    let ask = Ask { design: &designs[0], pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let others: Vec<&Design> = designs.iter().skip(1).collect();
    let told = match beside(&ask, &others) {
        Ok(told) => told,
        Err(notes) => {
            let why: Vec<String> = notes.iter().map(Note::line).collect();
            return Ok((format!("No forecast: {}\n", why.join("; ")), Exit::NoAnswer));
        }
    };
    if let (Some(path), Some(form)) = (file, form) {
        let designs: Vec<&Design> = designs.iter().collect();
        let answers = answers(&ask, &designs);
        let forecasts: Vec<&Forecast> = answers.iter().map(|a| &a.forecast).collect();
        files::write_bytes(path, &form.bytes(&told, &forecasts)?)?;
        return Ok((String::new(), Exit::Done));
    }
    let text = if args.flag("csv") {
        export::beside::csv(&told)
    } else if args.flag("markdown") {
        export::beside::markdown(&told)
    } else {
        export::beside::text(&told)
    };
    Ok((text, Exit::Done))
}
