//! The curves that a card shows: sourness and sugar over the hours, with the hours in which most pots are ready.

use super::{CardAsk, lost};
use crate::ready::sentence;
use potset_base::clock::Moment;
use potset_base::number::{self, fixed};
use potset_base::words::ACID_LINE_PH;
use potset_judge::ready::ReadyTime;
use potset_science::Forecast;

/// One strip of the chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// With its unit.
    pub name: String,
    /// Hours and values, rising in the hours.
    pub points: Vec<(f64, f64)>,
    /// The same of another pot, in a dashed line; empty where there is none.
    pub second: Vec<(f64, f64)>,
    /// What the axis holds in any case.
    pub least: (f64, f64),
    /// A level that means something.
    pub level: Option<f64>,
    /// Words at its axis, in the place of numbers; empty for numbers.
    pub ticks: Vec<(f64, String)>,
}

/// The chart of a card.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    pub strips: Vec<Strip>,
    /// Hours shown.
    pub to_h: f64,
    /// Not a number where there is no one stop.
    pub stop_h: f64,
    /// From when to when pots are ready, h; the words below say how many.
    pub ready: Option<(f64, f64)>,
    /// When the culture goes in, where the design says.
    pub start: Option<Moment>,
    /// What its lines mean.
    pub lines: String,
    /// It in a sentence, for whoever cannot see it.
    pub sentence: String,
}

/// The chart of an answer; nothing without a forecast.
pub fn chart(ask: &CardAsk<'_>) -> Option<Chart> {
    let f = &ask.answer.forecast;
    let (first, last) = (f.ph.first()?, f.ph.last()?);
    let start = ask.scenario.design.start();
    let ready = ask.ready.filter(|_| !lost(ask.answer));
    let when = ready.map_or_else(String::new, |ready| format!("{}. ", sentence(ready, start)));
    let words = format!(
        "pH {} at the start, {} when you stop at {}, {} after {}.",
        fixed(*first, 1),
        fixed(f.value(&f.ph, f.stop_h), 1),
        number::hours(f.stop_h),
        fixed(*last, 1),
        number::hours(f.horizon_h)
    );
    Some(Chart {
        strips: vec![sourness(f), sugar(f)],
        to_h: f.horizon_h,
        stop_h: f.stop_h,
        ready: ready.and_then(|ready| ready.bar()).map(|(from, to)| (from, to.min(f.horizon_h))),
        start,
        lines: lines(ready),
        sentence: format!("{when}{words}"),
    })
}

/// What the lines of a chart mean.
fn lines(ready: Option<&ReadyTime>) -> String {
    let ready = ready.filter(|ready| ready.bar().is_some());
    let hatched = ready.map_or("", |ready| match ready.window {
        Some(_) => "Hatched: most pots are ready. ",
        None => "Hatched: about half are ready. ",
    });
    let level = number::plain(ACID_LINE_PH);
    format!("{hatched}Upright line: you stop. Dashed: pH {level}, the line of sour food.")
}

fn sourness(f: &Forecast) -> Strip {
    Strip {
        name: "Sourness, pH".to_owned(),
        points: f.t.iter().copied().zip(f.ph.iter().copied()).collect(),
        second: Vec::new(),
        least: (4.0, 6.5),
        level: Some(ACID_LINE_PH),
        ticks: Vec::new(),
    }
}

fn sugar(f: &Forecast) -> Strip {
    Strip {
        name: "Sugar left, g/L".to_owned(),
        points: f.t.iter().copied().zip(f.sugar_total.iter().map(|g| g * f.density)).collect(),
        second: Vec::new(),
        least: (0.0, 10.0),
        level: None,
        ticks: Vec::new(),
    }
}
