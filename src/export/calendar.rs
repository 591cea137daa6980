//! The times of pots as a calendar file.
//!
//! Source: published, RFC 5545 (iCalendar): lines end in CR LF and are folded at 75 octets (3.1), texts are escaped (3.3.11),
//! times of a zone are written as UTC (3.3.5, form 2).

use std::fmt::Write;
use std::path::Path;

use potset_base::Note;
use potset_base::clock::{Moment, Zone};
use potset_base::hash::fnv1a;
use potset_doc::Batch;

/// Octets of a line before it is folded.
const LONG: usize = 75;
/// How long an entry stands in the calendar, h: as long as a hand movement takes.
const LASTS_H: f64 = 0.25;

/// Whether a file's name asks for a calendar.
pub fn is_named(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("ics"))
}

/// Whether bytes begin like a calendar.
pub fn is_calendar(head: &[u8]) -> bool {
    head.starts_with(b"BEGIN:VCALENDAR")
}

/// A calendar with an entry, and a reminder, for each line of each pot.
///
/// - `zone` — the clock of the kitchen; without one the times are those of any clock.
///
/// # Errors
/// A note for a pot without a start.
pub fn calendar(pots: &[Batch], zone: Option<&Zone>) -> Result<String, Note> {
    let mut out = String::new();
    line(&mut out, "BEGIN:VCALENDAR");
    line(&mut out, "VERSION:2.0");
    line(&mut out, "PRODID:-//Potset//Potset//EN");
    for pot in pots {
        let start = pot.start().ok_or_else(|| {
            let mend = "Say when the pot starts, or when it is to be ready, then export it again";
            Note::error("clock", format!("{} has no start", pot.name), mend)
        })?;
        // The same pot at the same hour has the same entries: an import twice makes no doubles.
        let pot_id = fnv1a(format!("{} {} {}", pot.name, pot.code, pot.culture_in).bytes());
        for (i, step) in pot.plan.iter().enumerate() {
            let at = |h: f64| time(start, h, zone);
            line(&mut out, "BEGIN:VEVENT");
            line(&mut out, &format!("UID:{pot_id:016x}-{i}@potset.invalid"));
            line(&mut out, &format!("DTSTAMP:{}", stamp(start, zone)));
            line(&mut out, &format!("DTSTART:{}", at(step.at_h)));
            line(&mut out, &format!("DTEND:{}", at(step.at_h + LASTS_H)));
            line(&mut out, &format!("SUMMARY:{}", escaped(&format!("{}: {}", pot.name, step.words))));
            line(&mut out, "BEGIN:VALARM");
            line(&mut out, "ACTION:DISPLAY");
            line(&mut out, "TRIGGER:PT0S");
            line(&mut out, &format!("DESCRIPTION:{}", escaped(&step.words)));
            line(&mut out, "END:VALARM");
            line(&mut out, "END:VEVENT");
        }
    }
    line(&mut out, "END:VCALENDAR");
    Ok(out)
}

fn time(start: Moment, hours: f64, zone: Option<&Zone>) -> String {
    match zone {
        Some(zone) => format!("{}Z", start.after_in(zone, hours).world(zone).compact()),
        None => start.after(hours).compact(),
    }
}

/// When the entry was made: it has to be told by the world's clock, and the same pot gives the same bytes.
fn stamp(start: Moment, zone: Option<&Zone>) -> String {
    let zone = zone.cloned().unwrap_or_default();
    format!("{}Z", start.world(&zone).compact())
}

fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '\\' | ';' | ',' => {
                out.push('\\');
                out.push(c);
            }
            '\n' => out.push_str("\\n"),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// A line, folded between characters.
fn line(out: &mut String, text: &str) {
    let mut octets = 0;
    for c in text.chars() {
        if octets + c.len_utf8() > LONG {
            out.push_str("\r\n ");
            octets = 1;
        }
        octets += c.len_utf8();
        let _ = write!(out, "{c}");
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::batch::PlanLine;
    use potset_doc::{Kitchen, assets};

    #[test]
    fn lines_are_folded_and_texts_escaped() {
        let name = "Ünï; pots, \\ of é".repeat(6);
        let design = assets::demo("coconut-pot.ron").unwrap();
        let pot = Batch {
            plan: vec![PlanLine { at_h: 24.0, words: "Stop\ninto the cold".to_owned() }],
            ..Batch::begun(&name, "2026-11-26 18:30", "", design, Kitchen::default())
        };
        let zone = Zone::named("Europe/Paris").unwrap();
        let text = calendar(std::slice::from_ref(&pot), Some(&zone)).unwrap();
        assert!(text.split("\r\n").all(|line| line.len() <= LONG), "{text}");
        assert!(!text.replace("\r\n", "").contains(['\r', '\n']));
        let whole = text.replace("\r\n ", "");
        assert!(whole.contains("DTSTART:20261127T173000Z") && whole.contains("Stop\\ninto"), "{whole}");
        assert!(whole.contains("pots\\, \\\\ of"), "{whole}");
        assert!(calendar(&[Batch { culture_in: String::new(), ..pot }], None).is_err());
    }
}
