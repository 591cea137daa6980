//! What a batch can tell about itself without the model: numbers in range, times that are times, lists that are not endless.

use super::{Batch, Logged, Observed};
use crate::check as design;
use crate::range::{self, Range};
use crate::recipe::MOST_STARS;
use potset_base::Note;
use potset_base::clock::{Moment, Zone, is_day};
use potset_base::units::WARMTH;

/// Longest that readings are taken, days after the culture went in. Source: assumed, longer than any pot is kept
/// ([`crate::steps::LONGEST_STORE_DAYS`]).
pub const LONGEST_DAYS: f64 = 60.0;

/// Hours before the culture that a plan may reach back. Source: assumed, a month for what stands before.
const BEFORE_H: f64 = 24.0 * 30.0;

const TIME: Range = ("Time", "h", -BEFORE_H, 24.0 * LONGEST_DAYS);
const PH: Range = ("pH", "", 2.5, 9.0);
const ACIDITY: Range = ("Acidity", "% lactic acid", 0.0, 4.0);
const TEMPERATURE: Range = ("Warmth", WARMTH, -10.0, 121.0);
const SPREAD: Range = ("Spread", "cm", 0.0, 40.0);
const LAYER: Range = ("Thin layer", "mm", 0.0, 500.0);
const WHEY: Range = ("Whey", "mL", 0.0, 100_000.0);

/// Longest text, characters, and most lines of one list: far more than a person writes of a pot.
const LONGEST_TEXT: usize = 20_000;
const MOST_READINGS: usize = 5_000;
const MOST_LINES: usize = 200;
/// Most points of a course of warmth: one a minute for two weeks.
pub const MOST_LOGGED: usize = 20_000;

/// What is wrong with the number of a reading, if anything is.
pub fn value_fault(field: &str, what: Observed) -> Option<Note> {
    let (value, (name, unit, least, most)) = match what {
        Observed::Ph(v) | Observed::Strip(v) => (v, PH),
        Observed::Acidity(v) => (v, ACIDITY),
        Observed::Warmth(v) => (v, TEMPERATURE),
        Observed::LineSpread(v) => (v, SPREAD),
        Observed::ThinLayer(v) => (v, LAYER),
        Observed::Whey(v) => (v, WHEY),
        Observed::Tang(_) | Observed::Sweetness(_) | Observed::Texture(_) | Observed::Remark => return None,
    };
    range::fault(field, name, unit, value, (least, most))
}

/// Everything that keeps this batch from being used; empty when it is in order.
pub fn faults(batch: &Batch) -> Vec<Note> {
    let within = |note: Note| Note { field: format!("design.{}", note.field), ..note };
    let mut notes: Vec<Note> = design::faults(&batch.design).into_iter().map(within).collect();
    let time = |field: String, at_h: f64| {
        let (name, unit, least, most) = TIME;
        range::fault(field, name, unit, at_h, (least, most))
    };
    for (i, reading) in batch.readings.iter().enumerate() {
        notes.extend(time(format!("readings[{i}].at_h"), reading.at_h));
        notes.extend(value_fault(&format!("readings[{i}].what"), reading.what));
    }
    if !batch.readings.is_sorted_by(|a, b| a.at_h <= b.at_h) {
        notes.push(Note::error("readings", "The readings are not in order", "Sort them by time"));
    }
    for (i, line) in batch.plan.iter().enumerate() {
        notes.extend(time(format!("plan[{i}].at_h"), line.at_h));
    }
    notes.extend(batch.stopped_h.and_then(|at_h| time("stopped_h".to_owned(), at_h)));
    notes.extend(batch.logged.as_ref().and_then(logged));
    times(batch, &mut notes);
    sizes(batch, &mut notes);
    notes
}

fn times(batch: &Batch, notes: &mut Vec<Note>) {
    if !batch.culture_in.is_empty() && Moment::parse(&batch.culture_in).is_none() {
        notes.push(Note {
            sentence: format!("The text is “{}”", batch.culture_in),
            ..Note::error("culture_in", "This is not a date and a time", "Type it like 2026-11-26 18:30")
        });
    }
    if !batch.zone.is_empty() && Zone::named(&batch.zone).is_none() {
        let title = format!("There is no time zone “{}”", batch.zone);
        notes.push(Note::error("zone", title, "Write it like Europe/Paris, or leave it out"));
    }
    if !batch.use_by.is_empty() && !is_day(&batch.use_by) {
        let title = format!("“{}” is no day", batch.use_by);
        notes.push(Note::error("use_by", title, "Type it like 2026-12-10"));
    }
}

fn sizes(batch: &Batch, notes: &mut Vec<Note>) {
    if batch.name.trim().is_empty() {
        notes.push(Note::error("name", "The batch has no name", "Give it a name"));
    }
    if batch.stars > MOST_STARS {
        notes.push(Note::error("stars", "There are too many stars", format!("Give 0 to {MOST_STARS}")));
    }
    for (field, lines, most) in [
        ("readings", batch.readings.len(), MOST_READINGS),
        ("plan", batch.plan.len(), MOST_LINES),
        ("lots", batch.lots.len(), MOST_LINES),
    ] {
        if lines > most {
            notes.push(Note::error(
                field,
                format!("The list has {lines} lines"),
                format!("Keep at most {most}"),
            ));
        }
    }
    let own = [
        ("name", &batch.name),
        ("code", &batch.code),
        ("packet", &batch.packet),
        ("who", &batch.who),
        ("note", &batch.note),
    ];
    let readings =
        batch.readings.iter().flat_map(|r| [&r.note, &r.photo, &r.who]).map(|text| ("readings", text));
    let plan = batch.plan.iter().map(|line| ("plan", &line.words));
    let lots = batch.lots.iter().flat_map(|lot| [&lot.of, &lot.lot]).map(|text| ("lots", text));
    for (field, text) in own.into_iter().chain(readings).chain(plan).chain(lots) {
        if text.chars().count() > LONGEST_TEXT {
            let mend = format!("Keep it under {LONGEST_TEXT} characters");
            notes.push(Note::error(field, "The text is too long", mend));
        }
    }
}

/// What is wrong with a course of warmth, if anything is.
fn logged(logged: &Logged) -> Option<Note> {
    let course = &logged.course;
    if course.len() > MOST_LOGGED {
        let title = format!("The course has {} points", course.len());
        return Some(Note::error("logged.course", title, format!("Keep at most {MOST_LOGGED}")));
    }
    if course.windows(2).any(|pair| pair[0].at_h >= pair[1].at_h) {
        let title = "The times of the logger do not rise";
        return Some(Note::error("logged.course", title, "Sort the readings by time"));
    }
    course.iter().enumerate().find_map(|(i, point)| {
        let of = |name: &str, value: f64, (title, unit, least, most): Range| {
            range::fault(format!("logged.course[{i}].{name}"), title, unit, value, (least, most))
        };
        of("at_h", point.at_h, TIME).or_else(|| of("c", point.c, TEMPERATURE))
    })
}
