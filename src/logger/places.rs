//! Where a layout has the time and the values of a row.

use potset_base::Note;

use crate::layout::{Layout, Role};

/// Where times stand.
pub enum TimeAt {
    Moment(usize),
    Day(usize),
    DayAndClock(usize, usize),
    Clock(usize),
    /// Columns that add up.
    Spans(Vec<(usize, Role)>),
}

/// Where things stand in a row.
pub struct Places {
    pub time: TimeAt,
    /// The last column that a time needs.
    time_to: usize,
    pub warmth: Option<usize>,
    pub ph: Option<usize>,
}

impl Places {
    /// The places of a layout.
    ///
    /// # Errors
    /// As [`crate::read()`].
    pub fn of(layout: &Layout) -> Result<Self, Note> {
        for role in Role::ALL.into_iter().filter(|role| *role != Role::Skip) {
            if layout.columns.iter().filter(|own| **own == role).count() > 1 {
                let title = format!("Two columns are said to be {}", role.words());
                return Err(Note::error("columns", title, "Choose one of them"));
            }
        }
        let at = |role| layout.column(role);
        let spans = [Role::Elapsed, Role::Hours, Role::Minutes, Role::Seconds, Role::Milliseconds];
        let spans: Vec<_> = spans.into_iter().filter_map(|role| Some((at(role)?, role))).collect();
        let time = match (at(Role::Time), at(Role::Day), at(Role::Clock)) {
            (Some(moment), ..) => TimeAt::Moment(moment),
            (_, Some(day), Some(clock)) => TimeAt::DayAndClock(day, clock),
            (_, Some(day), None) => TimeAt::Day(day),
            _ if !spans.is_empty() => TimeAt::Spans(spans),
            (_, None, Some(clock)) => TimeAt::Clock(clock),
            _ => {
                let title = "No column is said to hold the time";
                return Err(Note::error("columns", title, "Choose the column of times"));
            }
        };
        let (warmth, ph) = (at(Role::Warmth), at(Role::Ph));
        if warmth.or(ph).is_none() {
            let title = "No column is said to hold the temperature or the pH";
            return Err(Note::error("columns", title, "Choose the column of temperatures"));
        }
        let time_to = match &time {
            TimeAt::Moment(at) | TimeAt::Day(at) | TimeAt::Clock(at) => *at,
            TimeAt::DayAndClock(day, clock) => *day.max(clock),
            TimeAt::Spans(spans) => spans.iter().map(|(at, _)| *at).max().unwrap_or(0),
        };
        Ok(Self { time, time_to, warmth, ph })
    }

    /// Columns that a row needs at least.
    pub fn needed(&self) -> usize {
        let value = match (self.warmth, self.ph) {
            (Some(a), Some(b)) => a.min(b),
            (a, b) => a.or(b).unwrap_or(0),
        };
        1 + value.max(self.time_to)
    }
}
