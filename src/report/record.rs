//! The record of a batch for those who sell: what went in with its lots, what was read, how it soured and cooled, by whom.
//!
//! Only what was written down stands in it, nothing of a forecast. It lies on paper as the card does.

use crate::batch::{reading, use_by};
use crate::card::{Block, Body, Large, Line, Part, Sheet, Table, rows};
use potset_base::clock::{Moment, day_words};
use potset_base::number;
use potset_base::units::said::warmth_plain;
use potset_base::words::ACID_LINE_PH;
use potset_doc::batch::{Batch, Observed};
use potset_doc::pantry::Pantry;

/// What stands at the head and at the foot of it.
const AID: &str = "An aid: local codes decide";

/// Warmths whose time is told, °C. Source: from memory, the US FDA Food Code on cooling cooked food: 21 °C within two hours,
/// 5 °C within four more.
const COLD_C: [f64; 2] = [21.0, 5.0];

/// Where a name and a day are written by hand.
const ROOM: &str = "______________________";

/// The record of a batch.
pub fn sheet(batch: &Batch, pantry: &Pantry) -> Sheet {
    let began = batch.start().map_or_else(|| "not written down".to_owned(), Moment::date_and_time);
    let code = if batch.code.is_empty() { String::new() } else { format!("code {} · ", batch.code) };
    let eaten = use_by(batch).map_or_else(|| "not said".to_owned(), |day| day_words(&day));
    let who = if batch.who.is_empty() { "not said" } else { batch.who.as_str() };
    let mut large = Vec::new();
    for (name, word) in [("Culture in", began.as_str()), ("Use by", &eaten), ("Made by", who)] {
        large.push(Large { name, word: word.to_owned(), quiet: String::new() });
    }
    let mut blocks = vec![went_in(batch, pantry), souring(batch), cooling(batch)];
    if !batch.note.trim().is_empty() {
        let words = Line::plain(batch.note.trim());
        blocks.push(Block { part: Part::Notes, body: Body::Lines(vec![words]) });
    }
    blocks.push(signed());
    blocks.push(readings(batch));
    Sheet {
        name: batch.name.clone(),
        tag: format!("record of a batch · {code}{began}"),
        first: AID.to_owned(),
        large,
        blocks,
        chart: None,
        foot: format!("{AID}. It holds what was written down of this batch, and nothing of a forecast."),
        outdated: Vec::new(),
    }
}

/// Amounts with their lots; lots of what is in no line stand below.
fn went_in(batch: &Batch, pantry: &Pantry) -> Block {
    let mut left: Vec<_> = batch.lots.iter().collect();
    let mut table = rows(&batch.design, pantry);
    for row in &mut table {
        let name = row[0].to_lowercase();
        let own = left.iter().position(|lot| name.starts_with(lot.of.trim().to_lowercase().as_str()));
        row.push(own.map_or_else(String::new, |at| left.remove(at).lot.clone()));
    }
    let mut below: Vec<Line> = left
        .into_iter()
        .map(|lot| Line { lead: format!("Lot of {}", lot.of), ..Line::plain(lot.lot.as_str()) })
        .collect();
    if !batch.packet.is_empty() {
        below.push(Line { lead: "Packet of culture".to_owned(), ..Line::plain(batch.packet.as_str()) });
    }
    let head = ["", "weight", "measure", "lot"].map(str::to_owned).to_vec();
    Block { part: Part::WentIn, body: Body::Table(Table { head, rows: table, below }) }
}

/// All that was read, by time.
fn readings(batch: &Batch) -> Block {
    let rows = batch.readings.iter().map(|one| {
        let when = batch.moment(one.at_h).map_or_else(String::new, Moment::day_and_time);
        vec![when, number::hours(one.at_h), reading(one)]
    });
    let mut below = Vec::new();
    if let Some(logged) = &batch.logged {
        let count = logged.course.len();
        let (low, high) = logged
            .course
            .iter()
            .filter(|point| point.at_h >= 0.0 && batch.stopped_h.is_none_or(|stop| point.at_h <= stop))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| (low.min(p.c), high.max(p.c)));
        let mut words = format!("{count} readings of {}", logged.file);
        if low <= high {
            words = format!("{words}; in the warmth {} to {}", warmth_plain(low), warmth_plain(high));
        }
        below.push(Line { lead: "Logger".to_owned(), ..Line::plain(words) });
    }
    if batch.readings.is_empty() {
        below.insert(0, Line::plain("Nothing was read."));
    }
    let head = ["when", "after the culture", "read"].map(str::to_owned).to_vec();
    Block { part: Part::Readings, body: Body::Table(Table { head, rows: rows.collect(), below }) }
}

/// When pH 4.6 was first read, and the reading before it.
fn souring(batch: &Batch) -> Block {
    let read = |what: Observed| match what {
        Observed::Ph(ph) | Observed::Strip(ph) => Some(ph),
        _ => None,
    };
    let all: Vec<(f64, f64, String)> = batch
        .readings
        .iter()
        .filter_map(|one| Some((one.at_h, read(one.what)?, one.what.words())))
        .filter(|(at_h, ..)| *at_h >= 0.0)
        .collect();
    let line = format!("pH {}", number::plain(ACID_LINE_PH));
    let words = match all.iter().position(|(_, ph, _)| *ph <= ACID_LINE_PH) {
        None if all.is_empty() => format!("No pH was read. {line} or lower is not written down."),
        None => format!("{line} or lower was never read."),
        Some(at) => {
            let (at_h, _, said) = &all[at];
            let first = format!(
                "{line} or lower was first read {} after the culture went in: {said}",
                number::hours(*at_h)
            );
            match at.checked_sub(1).map(|before| &all[before]) {
                Some((at_h, _, said)) => {
                    format!("{first}. The reading before, at {}, was {said}.", number::hours(*at_h))
                }
                None => format!("{first}. Nothing was read before it."),
            }
        }
    };
    Block { part: Part::Souring, body: Body::Lines(vec![Line::plain(words)]) }
}

/// When it was as cold as this after the stop, as the logger has it or, without one, as was read; hours from the culture.
fn cold_at(batch: &Batch, stop_h: f64, c: f64) -> Option<f64> {
    let course: Vec<(f64, f64)> = match &batch.logged {
        Some(logged) => logged.course.iter().map(|point| (point.at_h, point.c)).collect(),
        None => batch
            .readings
            .iter()
            .filter_map(|one| match one.what {
                Observed::Warmth(c) => Some((one.at_h, c)),
                _ => None,
            })
            .collect(),
    };
    course.into_iter().find(|(at_h, here)| *at_h >= stop_h && *here <= c).map(|(at_h, _)| at_h)
}

/// From the stop to the cold.
fn cooling(batch: &Batch) -> Block {
    let part = Part::Cooling;
    let Some(stop_h) = batch.stopped_h else {
        let words = "When it was taken out of the warmth is not written down.";
        return Block { part, body: Body::Lines(vec![Line::plain(words)]) };
    };
    let when = |at_h: f64| batch.moment(at_h).map_or_else(|| number::hours(at_h), Moment::day_and_time);
    let mut rows = vec![vec![
        "Taken out of the warmth".to_owned(),
        when(stop_h),
        format!("after {}", number::hours(stop_h)),
    ]];
    for c in COLD_C {
        let name = format!("{} or colder", warmth_plain(c));
        rows.push(match cold_at(batch, stop_h, c) {
            Some(at_h) => vec![name, when(at_h), format!("{} later", number::hours(at_h - stop_h))],
            None => vec![name, "not read".to_owned(), String::new()],
        });
    }
    let from = match &batch.logged {
        Some(logged) => format!("From the logger: {}.", logged.file),
        None => "From the readings of warmth.".to_owned(),
    };
    let head = vec![String::new(), "when".to_owned(), "how long".to_owned()];
    Block { part, body: Body::Table(Table { head, rows, below: vec![Line::plain(from)] }) }
}

fn signed() -> Block {
    let line = |lead: &str| Line { lead: lead.to_owned(), ..Line::plain(ROOM) };
    Block { part: Part::Signed, body: Body::Lines(["Name", "Signature", "Day"].map(line).to_vec()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::number::NBSP;
    use potset_doc::batch::{BatchReading, Logged, Lot};
    use potset_doc::steps::Reading;
    use potset_doc::{Kitchen, assets};

    fn batch() -> Batch {
        let design = assets::demo("coconut-pot.ron").unwrap();
        let mut batch =
            Batch::begun("Six jars", "2026-11-30 18:30", "Europe/Paris", design, Kitchen::default());
        for (at_h, what) in [
            (0.0, Observed::Ph(6.2)),
            (8.0, Observed::Strip(4.8)),
            (9.5, Observed::Ph(4.6)),
            (24.0, Observed::Ph(4.2)),
            (25.0, Observed::Warmth(20.0)),
            (29.0, Observed::Warmth(4.0)),
        ] {
            batch.insert(BatchReading::new(at_h, what));
        }
        batch
    }

    fn text(block: &Block) -> String {
        let line = |line: &Line| format!("{} {}", line.lead, line.words);
        let text = match &block.body {
            Body::Lines(lines) => lines.iter().map(line).collect::<Vec<_>>().join("\n"),
            Body::Table(table) => {
                let rows = table.rows.iter().map(|row| row.join(" | "));
                rows.chain(table.below.iter().map(line)).collect::<Vec<_>>().join("\n")
            }
            Body::Steps(_) | Body::Room(_) => String::new(),
        };
        text.replace(NBSP, " ")
    }

    fn of(batch: &Batch, part: Part) -> String {
        text(sheet(batch, &assets::pantry().unwrap()).block(part).unwrap())
    }

    #[test]
    fn souring_is_told_as_it_was_read_and_never_as_forecast() {
        let mut batch = batch();
        assert_eq!(
            of(&batch, Part::Souring),
            " pH 4.6 or lower was first read 9 h 30 min after the culture went in: pH 4.6. The reading before, at 8 h, \
             was strip pH 4.8."
        );
        batch.readings.truncate(2);
        assert_eq!(of(&batch, Part::Souring), " pH 4.6 or lower was never read.");
        batch.readings.clear();
        assert!(of(&batch, Part::Souring).contains("No pH was read"));
    }

    #[test]
    fn cooling_is_told_from_the_stop_by_readings_or_by_the_logger() {
        let mut batch = batch();
        assert!(of(&batch, Part::Cooling).contains("not written down"));
        batch.stopped_h = Some(24.0);
        let told = of(&batch, Part::Cooling);
        assert!(told.contains("Taken out of the warmth | Tue 18:30 | after 24 h"), "{told}");
        assert!(told.contains("21 °C or colder | Tue 19:30 | 1 h later"), "{told}");
        assert!(told.contains("5 °C or colder | Tue 23:30 | 5 h later"), "{told}");
        let course = [(23.0, 4.0), (24.5, 30.0), (25.5, 21.0)].map(|(at_h, c)| Reading { at_h, c });
        batch.logged = Some(Logged { file: "fridge.csv".to_owned(), course: course.to_vec() });
        let told = of(&batch, Part::Cooling);
        // Cold before the stop is another thing.
        assert!(told.contains("21 °C or colder | Tue 20:00 | 1 h 30 min later"), "{told}");
        assert!(told.contains("5 °C or colder | not read"), "{told}");
        assert!(
            told.contains("fridge.csv") && of(&batch, Part::Readings).contains("in the warmth 4 °C to 4 °C")
        );
    }

    #[test]
    fn lots_stand_beside_their_lines_and_others_below() {
        let mut batch = batch();
        let pantry = assets::pantry().unwrap();
        let name = rows(&batch.design, &pantry)[0][0].clone();
        let lot = |of: &str, lot: &str| Lot { of: of.to_owned(), lot: lot.to_owned() };
        batch.lots = vec![lot(&name.to_uppercase(), "L-1"), lot("jars", "J 7")];
        batch.packet = "packet 3".to_owned();
        let told = of(&batch, Part::WentIn);
        assert!(told.lines().next().unwrap().ends_with("| L-1"), "{told}");
        assert!(told.contains("Lot of jars J 7") && told.contains("Packet of culture packet 3"), "{told}");
    }
}
