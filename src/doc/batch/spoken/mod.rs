//! The line of a reading: "21:40 4.9 38 °C bright by Ann" as readings and changes of a batch, with the sentence that says how
//! it was understood.
//!
//! One time a line, before or after what was read; without one it is now. A time without a day is the last one that passed,
//! by the clock of the batch's zone; "+6 h" counts from the culture. `note` takes all that stands after it. What could mean
//! two things is refused with the words that would not.

mod pieces;
mod time;
mod value;

use self::pieces::{Piece, Unit, Word, nearest, pieces, word_at};
use self::time::When;
use super::change::BatchChange;
use super::check::value_fault;
use super::{Batch, BatchReading, Observed};
use crate::recipe::MOST_STARS;
use potset_base::clock::{Moment, Zone};
use potset_base::{Note, number};

/// The field that a note on a line is about.
const FIELD: &str = "reading";
/// What a line may look like.
const EXAMPLES: &str = "Try 4.9, or 21:40 pH 4.9 38 °C bright, or +6 h whey 15 mL";

/// A line as it was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Heard {
    /// Hours since the culture went in.
    pub at_h: f64,
    pub readings: Vec<BatchReading>,
    /// What else it changes: stars, who, when it was taken out.
    pub changes: Vec<BatchChange>,
    /// How it was understood: "6 h after the culture went in: pH 4.9".
    pub sentence: String,
}

impl Heard {
    /// All that is to be done with the batch.
    pub fn all(&self) -> Vec<BatchChange> {
        let readings = (!self.readings.is_empty()).then(|| BatchChange::Add(self.readings.clone()));
        readings.into_iter().chain(self.changes.clone()).collect()
    }
}

/// Reads the line of a reading. Warmths without a unit are in the degrees in which this thread speaks.
///
/// - `now` — what the clock shows, by the clock of `zone`.
///
/// # Errors
/// A note with the mend: a word or a number that is not known, one that could mean two things, a value out of range, a time to
/// come, before the culture or more than [`super::check::LONGEST_DAYS`] after it.
pub fn heard(text: &str, batch: &Batch, now: Moment, zone: &Zone) -> Result<Heard, Note> {
    let own = batch.clock();
    let pieces = pieces(text);
    let now = now.in_zone(zone, &own);
    let mut line = Line { text, pieces: &pieces, batch, zone: own, now, said: Said::default() };
    let mut at = 0;
    while at < pieces.len() {
        at += line.take(at)?;
    }
    line.understood()
}

/// What a line said.
#[derive(Default)]
struct Said {
    when: Option<When>,
    values: Vec<Observed>,
    stars: Option<u8>,
    note: String,
    photo: String,
    who: String,
    stopped: bool,
}

struct Line<'a> {
    text: &'a str,
    pieces: &'a [Piece<'a>],
    batch: &'a Batch,
    /// The batch's.
    zone: Zone,
    /// By its clock.
    now: Moment,
    said: Said,
}

fn refused(title: impl Into<String>, mend: impl Into<String>) -> Note {
    Note::error(FIELD, title, mend)
}

impl Line<'_> {
    /// Takes what begins at a piece; how many pieces that were.
    fn take(&mut self, at: usize) -> Result<usize, Note> {
        if let Some((when, taken)) = self.time(at)? {
            if self.said.when.replace(when).is_some() {
                return Err(refused("There are two times", "Write each time on a line of its own"));
            }
            return Ok(taken);
        }
        if self.pieces[at].number {
            return self.number(at);
        }
        let Some((word, taken)) = word_at(self.pieces, at) else { return Err(self.unknown(at)) };
        let next = at + taken;
        let taken = match word {
            Word::Skip => taken,
            Word::What(what) => taken + self.measured(what, next)?,
            Word::None => taken + self.none(next)?,
            Word::Tang(word) => self.add(Observed::Tang(word), taken)?,
            Word::Sweet(word) => self.add(Observed::Sweetness(word), taken)?,
            Word::Texture(word) => self.add(Observed::Texture(word), taken)?,
            Word::Stopped => {
                self.said.stopped = true;
                taken
            }
            Word::Unit(Unit::Star) => taken + self.stars(next)?,
            Word::Note => {
                let from = self.pieces.get(next).map_or(self.text.len(), |piece| piece.at);
                self.said.note = self.text[from..].trim().to_owned();
                self.pieces.len() - at
            }
            Word::Photo => {
                let from = self
                    .pieces
                    .get(next)
                    .ok_or_else(|| refused("The photo has no name", "Type it like photo jar-3.jpg"))?;
                let rest = &self.text[from.at..];
                let name = &rest[..rest.find(char::is_whitespace).unwrap_or(rest.len())];
                self.said.photo = name.trim_end_matches([',', ';']).to_owned();
                let end = from.at + name.len();
                taken + self.pieces[next..].iter().take_while(|piece| piece.at < end).count()
            }
            Word::By => taken + self.name(next)?,
            Word::Ago | Word::Unit(_) => return Err(self.unknown(at)),
        };
        Ok(taken)
    }

    fn add(&mut self, what: Observed, taken: usize) -> Result<usize, Note> {
        if let Some(fault) = value_fault(FIELD, what) {
            return Err(fault);
        }
        self.said.values.push(what);
        Ok(taken)
    }

    /// Stars behind their word.
    fn stars(&mut self, at: usize) -> Result<usize, Note> {
        let count =
            self.pieces.get(at).filter(|piece| piece.number).and_then(|piece| number::parse(piece.raw));
        self.set_stars(count.unwrap_or(f64::NAN)).map(|()| 1)
    }

    fn set_stars(&mut self, count: f64) -> Result<(), Note> {
        let stars = (0..=MOST_STARS).find(|stars| f64::from(*stars) == count);
        let stars = stars.ok_or_else(|| {
            refused("I don't know how many stars", format!("Type stars 0 to stars {MOST_STARS}"))
        })?;
        self.said.stars = Some(stars);
        Ok(())
    }

    /// A name behind "by": one word, and those after it that begin with a large letter and mean nothing else.
    fn name(&mut self, at: usize) -> Result<usize, Note> {
        let first = self.pieces.get(at).filter(|piece| !piece.number);
        let first = first.ok_or_else(|| refused("There is no name behind “by”", "Type it like by Ann"))?;
        let more = self.pieces[at + 1..].iter().enumerate().take_while(|(i, piece)| {
            let large = piece.raw.starts_with(char::is_uppercase);
            large && word_at(self.pieces, at + 1 + i).is_none() && !self.is_time(at + 1 + i)
        });
        let last = more.last().map_or((0, first), |(i, piece)| (i + 1, piece));
        self.text[first.at..last.1.end()].clone_into(&mut self.said.who);
        Ok(1 + last.0)
    }

    fn unknown(&self, at: usize) -> Note {
        let raw = self.pieces[at].raw;
        if self.names_a_day(at) {
            let title = format!("“{raw}” needs a time");
            return refused(title, format!("Type it like {} 21:40", raw.to_lowercase()));
        }
        let near = nearest(raw);
        refused(
            format!("I don't know “{}”", potset_base::words::shortened(raw, 40)),
            near.map_or_else(|| EXAMPLES.to_owned(), |word| format!("Try {word}")),
        )
    }

    /// The whole line.
    fn understood(self) -> Result<Heard, Note> {
        let at_h = self.at_h()?;
        let Said { values, stars, note, photo, who, stopped, .. } = self.said;
        let mut readings: Vec<BatchReading> =
            values.into_iter().map(|what| BatchReading::new(at_h, what)).collect();
        let mut changes = Vec::new();
        if readings.is_empty() && !(note.is_empty() && photo.is_empty()) {
            readings.push(BatchReading::new(at_h, Observed::Remark));
        }
        match readings.first_mut() {
            Some(first) => (first.note, first.photo) = (note, photo),
            None if !who.is_empty() => changes.push(BatchChange::Who(who.clone())),
            None => {}
        }
        readings.iter_mut().for_each(|reading| reading.who.clone_from(&who));
        changes.extend(stars.map(BatchChange::Stars));
        if stopped {
            changes.push(BatchChange::Stopped(Some(at_h)));
        }
        if readings.is_empty() && changes.is_empty() {
            return Err(refused("Nothing was read", EXAMPLES));
        }
        let sentence = sentence(at_h, &readings, &changes);
        Ok(Heard { at_h, readings, changes, sentence })
    }
}

/// When a reading was, in words.
pub fn after_culture(at_h: f64) -> String {
    let minutes = (at_h * 60.0).round();
    if minutes == 0.0 {
        "As the culture went in".to_owned()
    } else if minutes < 0.0 {
        format!("{} before the culture went in", number::hours(-at_h))
    } else {
        format!("{} after the culture went in", number::hours(at_h))
    }
}

fn sentence(at_h: f64, readings: &[BatchReading], changes: &[BatchChange]) -> String {
    let mut parts: Vec<String> =
        readings.iter().map(|reading| reading.what.words()).filter(|words| !words.is_empty()).collect();
    for change in changes {
        match change {
            BatchChange::Stopped(_) => parts.push("taken out of the warmth".to_owned()),
            BatchChange::Stars(1) => parts.push("1 star".to_owned()),
            BatchChange::Stars(stars) => parts.push(format!("{stars} stars")),
            BatchChange::Who(who) => parts.push(format!("made by {who}")),
            _ => {}
        }
    }
    for reading in readings {
        if !reading.photo.is_empty() {
            parts.push(format!("photo {}", reading.photo));
        }
        if !reading.note.is_empty() {
            parts.push(format!("note “{}”", reading.note));
        }
    }
    let who = readings.first().filter(|first| !first.who.is_empty());
    parts.extend(who.map(|first| format!("by {}", first.who)));
    format!("{}: {}", after_culture(at_h), parts.join(", "))
}

#[cfg(test)]
mod tests;
