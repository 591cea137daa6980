//! The time in the line of a reading.

use super::super::check::LONGEST_DAYS;
use super::pieces::{Unit, Word, word_at};
use super::{Line, refused};
use potset_base::clock::Moment;
use potset_base::{Note, number};

/// When something was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum When {
    /// Hours since the culture went in.
    After(f64),
    /// Hours before now.
    Ago(f64),
    At(Moment),
}

/// Most pieces that a time is made of: "yesterday at 8 in the evening".
const LONGEST: usize = 6;
/// How far a time may be in the future by rounding, h.
const MINUTE_H: f64 = 1.0 / 60.0;

impl Line<'_> {
    /// The time that begins at a piece, and how many pieces it takes.
    pub(super) fn time(&self, at: usize) -> Result<Option<(When, usize)>, Note> {
        if let Some((hours, taken)) = self.lasting(at)? {
            let ago = matches!(word_at(self.pieces, at + taken), Some((Word::Ago, 1)));
            let when = if ago { When::Ago(hours) } else { When::After(hours) };
            return Ok(Some((when, taken + usize::from(ago))));
        }
        Ok(self.clock(at).map(|(moment, taken)| (When::At(moment), taken)))
    }

    pub(super) fn is_time(&self, at: usize) -> bool {
        self.clock(at).is_some() || self.names_a_day(at)
    }

    /// A time of the clock, the longest that can be read.
    fn clock(&self, at: usize) -> Option<(Moment, usize)> {
        let most = LONGEST.min(self.pieces.len() - at);
        (1..=most).rev().find_map(|n| {
            let text = &self.text[self.pieces[at].at..self.pieces[at + n - 1].end()];
            Moment::spoken_past(text, self.now).map(|moment| (moment, n))
        })
    }

    /// Whether a piece is a day without a time.
    pub(super) fn names_a_day(&self, at: usize) -> bool {
        Moment::spoken_past(&format!("{} 12:00", self.pieces[at].raw), self.now).is_some()
    }

    /// "6 h", "+6 h 30 min", "6h30", "90 min", "3 days": hours, and how many pieces.
    fn lasting(&self, at: usize) -> Result<Option<(f64, usize)>, Note> {
        let part = |at: usize| {
            let piece = self.pieces.get(at).filter(|piece| piece.number)?;
            let one = match word_at(self.pieces, at + 1)? {
                (Word::Unit(Unit::Day), 1) => 24.0,
                (Word::Unit(Unit::Hour), 1) => 1.0,
                (Word::Unit(Unit::Minute), 1) => 1.0 / 60.0,
                _ => return None,
            };
            Some((piece.raw, one))
        };
        let Some((raw, one)) = part(at) else { return Ok(None) };
        let count = number::parse(raw.trim_start_matches('+')).ok_or_else(|| {
            refused(format!("I don't know how long “{raw}” is"), "Type it like +6 h, or 6 h 30 min")
        })?;
        let (mut hours, mut taken) = (count * one, 2);
        if one > MINUTE_H {
            let glued = self.pieces.get(at + 2).filter(|piece| piece.number && piece.glued && one == 1.0);
            if let Some((raw, smaller)) = part(at + 2).filter(|(_, smaller)| *smaller < one) {
                hours += number::parse(raw).unwrap_or(0.0) * smaller;
                taken += 2;
            } else if let Some(minutes) = glued.and_then(|piece| number::parse(piece.raw)) {
                hours += minutes / 60.0;
                taken += 1;
            }
        }
        Ok(Some((hours, taken)))
    }

    /// Hours since the culture went in.
    pub(super) fn at_h(&self) -> Result<f64, Note> {
        let zone = &self.zone;
        let start = self.batch.start().ok_or_else(|| {
            refused("The culture has not gone in yet", "Say first when the culture went in")
        })?;
        let now_h = self.now.hours_since_in(zone, start);
        let at_h = match self.said.when {
            None => now_h,
            Some(When::After(hours)) => hours,
            Some(When::Ago(hours)) => now_h - hours,
            Some(When::At(moment)) => moment.hours_since_in(zone, start),
        };
        let said = start.after_in(zone, at_h).day_and_time();
        if at_h < 0.0 {
            let began = start.day_and_time();
            return Err(refused(
                format!("{said} is before the culture went in, at {began}"),
                "Give a later time, or mend when the culture went in",
            ));
        }
        if at_h > now_h + MINUTE_H {
            let title = format!("{said} is still to come");
            return Err(refused(title, "Give a time that is over, or none for now"));
        }
        if at_h > 24.0 * LONGEST_DAYS {
            let title = format!("This is more than {LONGEST_DAYS:.0} days after the culture went in");
            return Err(refused(title, "Begin a batch of its own for another pot"));
        }
        Ok(at_h)
    }
}
