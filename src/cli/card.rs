//! `potset card` and `potset leaflet`: a design as a sheet to make it by, and as a page to hand out with a culture.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use super::args::Args;
use super::{CliContext, Exit};
use potset_base::Note;
use potset_base::clock::Zone;
use potset_base::measures::SpoonSet;
use potset_doubt::ready_times;
use potset_export::calendar;
use potset_judge::answer::answer;
use potset_make::clock::culture_in;
use potset_paper::{Form, Size, numbered};
use potset_report::batch::begun;
use potset_report::card::{CardAsk, Sheet, sheet};
use potset_report::leaflet;
use potset_report::spread::watch;
use potset_store::out::{Kind, Out};
use potset_store::zone;

/// Runs `potset card`.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["out", "size", "version"], &[])?;
    let version = args.number("version", 1.0, 1e6)?.map(|number| number.round() as u32);
    let context = CliContext::open(&args)?;
    match args.out().filter(|path| calendar::is_named(path)) {
        Some(path) => times(path, &context),
        None => handed_out(&args, &context, version, sheet),
    }
}

/// Writes the times of a pot as a calendar.
fn times(path: &Path, context: &CliContext) -> Result<(String, Exit), Note> {
    let zone = zone::name().and_then(|name| Zone::named(&name));
    let kind = Kind { name: "a calendar", holds: calendar::is_calendar };
    let out = Out::at(path, kind, context.opened.file().into_iter().collect())?;
    let scenario = context.ask();
    let answer = answer(&scenario);
    if !answer.errors.is_empty() {
        return Err(context.fault(answer.errors));
    }
    let begins = culture_in(scenario.design, None, zone.as_ref());
    let ask = CardAsk { scenario: &scenario, answer: &answer, ready: None, watch: None, version: None };
    let pot = begun(&ask, begins, &zone.clone().unwrap_or_default());
    out.write(calendar::calendar(&[pot], zone.as_ref())?.as_bytes())?;
    Ok((String::new(), Exit::Done))
}

/// Runs `potset leaflet`.
///
/// # Errors
/// A note on what is wrong with its input.
pub fn leaflet(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["out", "size", "spoons"], &[])?;
    let spoons = spoons(&args)?;
    let mut context = CliContext::open(&args)?;
    if let Some(set) = spoons {
        context.opened.design.spoons = set;
    }
    handed_out(&args, &context, None, leaflet::sheet)
}

/// Writes a sheet of a design into the file that is named.
fn handed_out(
    args: &Args,
    context: &CliContext,
    version: Option<u32>,
    make: impl Fn(&CardAsk<'_>) -> Sheet,
) -> Result<(String, Exit), Note> {
    written(args, context.opened.file(), || {
        let scenario = context.ask();
        let answer = answer(&scenario);
        if !answer.errors.is_empty() {
            return Err(context.fault(answer.errors));
        }
        let spread = ready_times::spread(&scenario).map_err(|notes| context.fault(notes))?;
        let watch = watch(&spread, &answer.verdict);
        Ok(make(&CardAsk {
            scenario: &scenario,
            answer: &answer,
            ready: Some(&spread.ready),
            watch: watch.as_deref(),
            version,
        }))
    })
}

/// Writes a sheet into the file that is named, once it is known that it may stand there.
///
/// - `input` — the file that is read.
pub(super) fn written(
    args: &Args,
    input: Option<&Path>,
    make: impl FnOnce() -> Result<Sheet, Note>,
) -> Result<(String, Exit), Note> {
    let path = args.out().ok_or_else(|| {
        Note::error("--out", "No file was named", "Give --out F.pdf, or .png, .svg, .md, .csv")
    })?;
    let (form, size) = (Form::of(path)?, size(args)?);
    let kind = Kind { name: form.words(), holds: form.holds() };
    let inputs = || input.into_iter().collect();
    let out = Out::at(path, kind, inputs())?;
    let sheet = make()?;
    let files = form.files(&sheet, size)?;
    let others: Vec<PathBuf> = (2..=files.len()).map(|page| numbered(path, page)).collect();
    let others = others.iter().map(|path| Out::at(path, kind, inputs())).collect::<Result<Vec<_>, Note>>()?;
    for (out, bytes) in std::iter::once(&out).chain(&others).zip(&files) {
        out.write(bytes)?;
    }
    Ok((String::new(), Exit::Done))
}

/// The size of paper that is asked for.
pub(super) fn size(args: &Args) -> Result<Size, Note> {
    let Some(text) = args.text("size") else { return Ok(Size::default()) };
    Size::ALL.into_iter().find(|size| size.words().eq_ignore_ascii_case(text)).ok_or_else(|| {
        Note::error("--size", format!("There is no size {text}"), "Give a4, letter, a5 or wall")
    })
}

/// The spoons that are asked for, by place.
fn spoons(args: &Args) -> Result<Option<SpoonSet>, Note> {
    Ok(Some(match args.text("spoons") {
        None => return Ok(None),
        Some("metric") => SpoonSet::Metric,
        Some("us") => SpoonSet::UnitedStates,
        Some("au") => SpoonSet::Australian,
        Some("uk") => SpoonSet::Imperial,
        Some(other) => {
            let title = format!("There is no set of spoons {other}");
            return Err(Note::error("--spoons", title, "Give metric, us, au or uk"));
        }
    }))
}
