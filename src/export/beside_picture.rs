//! Designs beside each other as one picture to hand out: the sentences, the curves laid over each other, the table of what
//! comes of them, and when they are ready.

mod strips;

use super::layout::{cut, lines, shared_room};
use super::svg::{Anchor, Drawing, Type, width};
use potset_base::{number, palette};
use potset_compare::beside::{Comparison, mark};
use potset_judge::ready::ReadyTime;
use potset_report::cautions::at_foot;
use potset_report::warnings;
use potset_science::forecast::Forecast;

/// Width of the table's names, and of each design in it, points.
const NAMES: f64 = 112.0;
const EACH: f64 = 150.0;
const MARGIN: f64 = 24.0;
/// Width of the curves; the table has the rest.
const CURVES: f64 = 640.0;
const GAP: f64 = 28.0;
/// Room for the words of a ready window.
const WORDS: f64 = 232.0;

/// Room for the caution at the foot.
const FOOT: f64 = 18.0;

const TITLE: Type = Type::new(20.0, palette::INK).bold();
const BODY: Type = Type::new(12.5, palette::INK);
const HEAD: Type = Type::new(11.0, palette::INK).bold();
const SMALL: Type = Type::new(11.0, palette::INK_SOFT);

/// Draws the picture.
pub fn picture(told: &Comparison, forecasts: &[&Forecast]) -> Drawing {
    let whole = 2.0 * MARGIN + CURVES + GAP + NAMES + EACH * count(told.names.len().max(2));
    let room = whole - 2.0 * MARGIN;
    let sentences: Vec<String> =
        warnings::said(told).iter().flat_map(|sentence| lines(sentence, BODY.bold(), room)).collect();
    let head = MARGIN + 26.0 + 18.0 * count(sentences.len()) + 44.0;
    let height = head + strips::HEIGHT + 40.0 + 24.0 * count(told.spans.len()) + 36.0 + MARGIN;
    let height = height.max(head + table_height(told) + goes_in_height(told) + MARGIN) + FOOT;
    let mut out = Drawing::new(whole, height, palette::SHEET);
    out.text((MARGIN, MARGIN + 16.0), &title(&told.names, room), TITLE);
    let mut y = MARGIN + 42.0;
    for line in &sentences {
        out.text((MARGIN, y), line, BODY.bold());
        y += 18.0;
    }
    legend(&mut out, told, room, y + 4.0);
    strips::draw(&mut out, told, forecasts, (MARGIN, head));
    ready(&mut out, told, (MARGIN, head + strips::HEIGHT + 34.0));
    table(&mut out, told, (MARGIN + CURVES + GAP, head));
    goes_in(&mut out, told, (MARGIN + CURVES + GAP, head + table_height(told)));
    // A picture that is handed on carries the caution with it.
    out.text((MARGIN, height - MARGIN + 4.0), &at_foot(), SMALL);
    out
}

fn count(n: usize) -> f64 {
    n as f64
}

/// All names side by side; long ones are cut, so that none is lost.
fn title(names: &[String], room: f64) -> String {
    const BETWEEN: &str = " · ";
    // A space at an end has no width of its own, so the signs between are measured between others.
    let between = width(&format!("n{BETWEEN}n"), TITLE) - 2.0 * width("n", TITLE);
    let widths: Vec<f64> = names.iter().map(|name| width(name, TITLE)).collect();
    let rooms = shared_room(&widths, room - between * count(names.len().saturating_sub(1)));
    let cuts: Vec<String> = names.iter().zip(rooms).map(|(name, room)| cut(name, TITLE, room)).collect();
    cuts.join(BETWEEN)
}

/// Which line is which design.
fn legend(out: &mut Drawing, told: &Comparison, room: f64, y: f64) {
    let each = room / count(told.names.len().max(1));
    for (i, name) in told.names.iter().enumerate() {
        let x = MARGIN + count(i) * each;
        out.line(&[(x, y), (x + 34.0, y)], palette::INK, 2.0, mark::dash(i));
        out.marker((x + 17.0, y), mark::marker(i), 4.4, palette::INK);
        out.text((x + 42.0, y + 4.0), &cut(name, BODY, each - 54.0), BODY);
    }
}

/// When each is ready: bars under each other, by the clock where all have one.
fn ready(out: &mut Drawing, told: &Comparison, (left, top): (f64, f64)) {
    let (offsets, first) = potset_compare::beside::clocks(&told.spans);
    let end = told.spans.iter().zip(&offsets).map(|(s, o)| o + s.horizon_h).fold(1.0, f64::max);
    let (from, to) = (left + 44.0, left + CURVES - WORDS);
    let x = |h: f64| from + (to - from) * (h / end).clamp(0.0, 1.0);
    let quiet = if first.is_some() { "by the clock" } else { "hours after the culture" };
    out.text((left, top), "When they are ready", BODY.bold());
    out.text((left + width("When they are ready", BODY.bold()) + 8.0, top), quiet, SMALL);
    let foot = top + 12.0 + 24.0 * count(told.spans.len());
    let mut last = f64::NEG_INFINITY;
    for h in strips::hours(end) {
        out.line(&[(x(h), top + 10.0), (x(h), foot)], palette::RULE, 1.0, &[]);
        let words = first.map_or_else(|| number::with_unit(h, 0, "h"), |s| s.after(h).day_and_time());
        let half = 0.5 * width(&words, SMALL);
        if x(h) - half > last {
            out.text((x(h), foot + 14.0), &words, SMALL.anchored(Anchor::Middle));
            last = x(h) + half + 8.0;
        }
    }
    for (i, (span, offset)) in told.spans.iter().zip(&offsets).enumerate() {
        let y = top + 24.0 + 24.0 * count(i);
        out.marker((left + 20.0, y), mark::marker(i), 4.4, palette::INK);
        out.line(&[(x(*offset), y), (x(offset + span.horizon_h), y)], palette::RAIL, 2.0, &[]);
        if let Some((from, to)) = span.ready.as_ref().and_then(ReadyTime::bar) {
            let (a, b) = (x(offset + from), x(offset + to.min(span.horizon_h.max(from))));
            out.rect((a, y - 8.0), (b - a, 16.0), palette::READY, Some(palette::READY_EDGE));
        }
        let stop = x(offset + span.stop_h);
        out.line(&[(stop, y - 10.0), (stop, y + 10.0)], palette::STOP_LINE, 2.0, &[]);
        let words = super::beside::ready(span);
        out.text(
            (to + 12.0, y + 4.0),
            &cut(&words, SMALL, WORDS - 14.0),
            Type { color: palette::INK, ..SMALL },
        );
    }
}

/// Rows of the table that say something.
fn rows(told: &Comparison) -> impl Iterator<Item = &potset_compare::beside::Row> {
    told.rows.iter().filter(|r| {
        r.values.iter().any(Option::is_some)
            || r.outcome.missing() == potset_forecast::observable::Missing::Never
    })
}

fn table_height(told: &Comparison) -> f64 {
    34.0 + 40.0 * count(1 + rows(told).count()) + 30.0
}

/// How a design stands to the first, in a narrow place: what nobody notices goes without a word.
fn below(row: &potset_compare::beside::Row, i: usize) -> String {
    let difference = row.difference_words(i);
    match (i, row.differences[i]) {
        (0, _) => String::new(),
        (_, Some(0.0)) => "the same".to_owned(),
        _ if !row.outcome.shows_notice() => difference,
        _ if row.noticed[i] && difference.is_empty() => "noticed".to_owned(),
        _ if row.noticed[i] => format!("{difference}, noticed"),
        _ => difference,
    }
}

/// Most rows of what goes in.
const MOST_INPUTS: usize = 14;

fn goes_in_height(told: &Comparison) -> f64 {
    let rows = told.inputs.len().min(MOST_INPUTS);
    if rows == 0 { 0.0 } else { 44.0 + 30.0 * count(rows) }
}

/// The recipes, as far as they differ: what goes in and what is done, a row each.
fn goes_in(out: &mut Drawing, told: &Comparison, (left, top): (f64, f64)) {
    if told.inputs.is_empty() {
        return;
    }
    let right = left + NAMES + EACH * count(told.names.len().max(2));
    out.text((left, top + 16.0), "What goes in, where they differ", BODY.bold());
    let mut y = top + 24.0;
    for row in told.inputs.iter().take(MOST_INPUTS) {
        out.line(&[(left, y), (right, y)], palette::RULE, 1.0, &[]);
        for (k, line) in lines(&row.name, SMALL, NAMES - 8.0).iter().take(2).enumerate() {
            out.text((left, y + 13.0 + 12.0 * count(k)), line, SMALL);
        }
        for i in 0..told.names.len() {
            for (k, line) in lines(&row.words(i), SMALL, EACH - 8.0).iter().take(2).enumerate() {
                let set = Type { color: palette::INK, ..SMALL };
                out.text((left + NAMES + count(i) * EACH, y + 13.0 + 12.0 * count(k)), line, set);
            }
        }
        y += 30.0;
    }
    let more = told.inputs.len().saturating_sub(MOST_INPUTS);
    if more > 0 {
        out.text((left, y + 12.0), &format!("and {more} more"), SMALL);
    }
}

/// Outcomes; what a person would notice stands in strong type, with a word.
fn table(out: &mut Drawing, told: &Comparison, (left, top): (f64, f64)) {
    let (names, each) = (NAMES, EACH);
    let right = left + names + each * count(told.names.len().max(2));
    let at = |i: usize| left + names + count(i) * each;
    out.text((left, top + 4.0), "What it does", BODY.bold());
    for (i, name) in told.names.iter().enumerate() {
        out.marker((at(i) + 5.0, top), mark::marker(i), 4.4, palette::INK);
        out.text((at(i) + 15.0, top + 4.0), &cut(name, HEAD, each - 25.0), HEAD);
    }
    let mut next = top + 14.0;
    let mut begin = |out: &mut Drawing, name: &str| {
        let at = next;
        out.line(&[(left, at), (right, at)], palette::RULE, 1.0, &[]);
        for (k, line) in lines(name, SMALL, names - 8.0).iter().take(2).enumerate() {
            out.text((left, at + 16.0 + 13.0 * count(k)), line, SMALL);
        }
        next += 40.0;
        at
    };
    let y = begin(out, potset_report::beside::TEXTURE);
    for (i, pot) in told.pots.iter().enumerate() {
        let (word, range) = potset_report::beside::texture_words(pot);
        out.text((at(i), y + 16.0), word, BODY);
        out.text((at(i), y + 30.0), &cut(&range, SMALL, each - 6.0), SMALL);
    }
    for row in rows(told) {
        let y = begin(out, row.name());
        for i in 0..told.names.len() {
            let strong = i > 0 && row.noticed[i] && row.outcome.shows_notice();
            let set = if strong { BODY.bold() } else { BODY };
            out.text((at(i), y + 16.0), &cut(&row.words(i), set, each - 6.0), set);
            let below = below(row, i);
            let set = if strong { Type { color: palette::INK, ..SMALL } } else { SMALL };
            out.text((at(i), y + 30.0), &cut(&below, set, each - 6.0), set);
        }
    }
    out.text(
        (left, next + 8.0),
        "At each stop line; “noticed”: a person would notice the difference.",
        SMALL,
    );
}
