//! A lesson's page to hand out: the question, the answers to tick, the picture, the reason, and room for notes.

use super::{happened, strip_name};
use crate::card::{Block, Body, Chart, Line, Part, Sheet, Strip};
use crate::cautions::at_foot;
use potset_base::number::hours;
use potset_class::curves::{axis, bands, level, place, points};
use potset_class::pots::Shown;
use potset_doc::lesson::{Guess, Lesson, LessonCurve};

/// Lines to write on.
const ROOM: u8 = 12;

/// The page of a lesson whose pots were run.
pub fn handout(lesson: &Lesson, shown: &Shown) -> Sheet {
    let plain = |words: &str| Line::plain(words);
    let block = |part, lines| Block { part, body: Body::Lines(lines) };
    let guess = match &lesson.guess {
        Guess::Choose(answers) => {
            let letter = |i: usize| ["A", "B", "C", "D"].get(i).copied().unwrap_or_default().to_owned();
            let line = |(i, answer): (usize, &potset_doc::lesson::Choice)| Line {
                lead: letter(i),
                words: format!("{}.", answer.words),
                source: String::new(),
            };
            answers.iter().enumerate().map(line).collect()
        }
        Guess::Draw(of) => vec![plain(&format!("Draw the curve of {} that you expect.", of.words()))],
    };
    let mut reason: Vec<Line> = lesson.reason.iter().map(|words| plain(words)).collect();
    if let Some(last) = reason.last_mut() {
        last.source = lesson.source.line();
    }
    let blocks = vec![
        block(Part::Guess, guess),
        block(Part::Change, vec![plain(&lesson.change)]),
        block(Part::Happened, happened(lesson, shown).iter().map(|words| plain(words)).collect()),
        block(Part::Reason, reason),
        Block { part: Part::Room, body: Body::Room(ROOM) },
    ];
    Sheet {
        name: lesson.title.clone(),
        tag: "a lesson".to_owned(),
        first: lesson.question.clone(),
        large: Vec::new(),
        blocks,
        chart: Some(chart(lesson, shown)),
        foot: at_foot(),
        outdated: Vec::new(),
    }
}

/// The picture: a strip or two, the first pot in a full line and the second in a dashed one.
fn chart(lesson: &Lesson, shown: &Shown) -> Chart {
    let stops: Vec<f64> = shown.pots.iter().map(|pot| pot.answer.forecast.stop_h).collect();
    let one = stops.iter().all(|stop| (stop - stops[0]).abs() < 1e-6);
    let names = match shown.pots.as_slice() {
        [first, second] => format!("Full line: {}. Dashed: {}.", first.name, second.name),
        _ => String::new(),
    };
    let stopped = match (one, stops.first()) {
        (true, Some(stop)) => format!(" Upright line: you stop, at {}.", hours(*stop)),
        _ => String::new(),
    };
    let level = if lesson.strips.contains(&LessonCurve::Sourness) { " Thin dashes: pH 4.6." } else { "" };
    Chart {
        strips: lesson.strips.iter().map(|of| strip(*of, shown)).collect(),
        to_h: shown.hours,
        stop_h: if one { stops.first().copied().unwrap_or(f64::NAN) } else { f64::NAN },
        ready: None,
        start: None,
        lines: format!("{names}{stopped}{level}").trim().to_owned(),
        sentence: happened(lesson, shown).join(" "),
    }
}

fn strip(of: LessonCurve, shown: &Shown) -> Strip {
    let curves: Vec<Vec<(f64, f64)>> =
        shown.pots.iter().map(|pot| points(of, &pot.answer.forecast, shown.hours)).collect();
    let least = axis(of, &curves);
    let mut placed =
        curves.into_iter().map(|curve| curve.into_iter().map(|(h, v)| (h, place(of, v))).collect());
    let ticks = bands(of).0.into_iter().map(|(at, word)| (at, word.to_owned())).collect();
    Strip {
        name: strip_name(of),
        points: placed.next().unwrap_or_default(),
        second: placed.next().unwrap_or_default(),
        least,
        level: level(of).map(|(v, _)| v),
        ticks,
    }
}
