//! `potset packet`: how a packet of culture is split, and what each way errs by.

use std::ffi::OsString;
use std::fmt::Write;

use super::args::Args;
use super::{CliContext, Exit, kitchen};
use potset_base::Note;
use potset_doc::lines::Packet;
use potset_make::packet::{SplitAsk, hours_later, splits};
use potset_report::packet as say;

/// Runs the command.
pub fn run(arguments: &[OsString]) -> Result<(String, Exit), Note> {
    let args = Args::read(arguments, &["grams", "litres", "batch", "scale"], &[])?;
    let needed = |name: &str, what: &str| {
        args.number(name, 1e-6, 1e6)?.ok_or_else(|| {
            Note::error(
                format!("--{name}"),
                format!("{what} is missing"),
                format!("Give --{name} with a number"),
            )
        })
    };
    // A scale that errs by half its step, as the kitchen's own does.
    let (own, _speaking) = kitchen();
    let own = own.weighing_error_g();
    let error_g = args.number("scale", 1e-6, 1000.0)?.map_or(own, |step| 0.5 * step);
    let packet = Packet {
        grams: needed("grams", "What the packet weighs, in g,")?,
        litres: needed("litres", "What the packet is for, in litres,")?,
    };
    let ask = SplitAsk { packet, pot_litres: needed("batch", "What you make, in litres,")?, error_g };
    let option = |note: Note| Note {
        field: match note.field.as_str() {
            "packet" => "--grams".to_owned(),
            field => format!("--{field}"),
        },
        ..note
    };
    let mut out = String::new();
    for (i, split) in splits(&ask).map_err(option)?.iter().enumerate() {
        let head = if i == 0 { "" } else { "Or: " };
        let _ = writeln!(out, "{head}{}", say::way(split.way));
        for step in say::steps(split, &ask) {
            let _ = writeln!(out, "  {step}.");
        }
        let _ = writeln!(out, "  {}.", say::error(split));
    }
    if !args.files().is_empty() {
        let context = CliContext::open(&args)?;
        let later = |times: f64| hours_later(&context.ask(), 0, times);
        let time = say::time(later(0.5), later(2.0)).ok_or_else(|| {
            let title = "This pot does not get sour, or has no culture";
            Note::error("FILE", title, "Name a design with a culture, or leave the file out")
        })?;
        let _ = writeln!(out, "{time}.");
    }
    Ok((out, Exit::Done))
}
