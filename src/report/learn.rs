//! What pots taught, in words: what each taught, what is known now, what readings cannot tell apart, the forecast ahead of a
//! pot under way, the next reading, and drift.

use potset_base::clock::Moment;
use potset_base::number::{self, fixed, plain};
use potset_base::units::said::{warmth, warmth_apart};
use potset_base::words::capital;
use potset_doc::Batch;
use potset_doc::pantry::{EntryKind, Organism, Pantry};
use potset_forecast::learnt::{LearntKind, Subject};
use potset_judge::ready::{ReadyTime, shown_h};
use potset_learn::{Ahead, BatchResult, Chart, Drifted, Learning, NextReading, Pair, Seen, SubjectResult};

use crate::ready;

/// A place so near to the likely one is told as no news, deviates. Source: assumed.
const NO_NEWS: f64 = 0.3;

/// What is not known of a figure, of its spread, up to which it is well known, and partly. Source: assumed.
const KNOWN: f64 = 0.5;
const PARTLY: f64 = 0.8;

/// What was learnt about one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LearntLine {
    /// What it is about: "Dairy yogurt culture".
    pub about: String,
    /// In words: "It works more slowly than expected (partly known)".
    pub words: String,
    /// It differs from what was expected.
    pub news: bool,
    /// In numbers: "pace 0.74 (0.60 to 0.91), before 1.0 (0.66 to 1.5), from 6 pots".
    pub numbers: String,
}

/// The name of what a subject is about.
fn name(subject: &Subject, batches: &[Batch], pantry: &Pantry) -> String {
    let kind = match subject.kind {
        LearntKind::Ceiling | LearntKind::Strain => {
            let organism = batches.iter().rev().find_map(|b| b.design.entry::<Organism>(pantry, &subject.of));
            return organism.map_or_else(|| subject.of.clone(), |organism| organism.name.clone());
        }
        LearntKind::Pace | LearntKind::Cells | LearntKind::Lag => EntryKind::Culture,
        LearntKind::Warmth => EntryKind::Warmer,
        LearntKind::Strength => EntryKind::Thickener,
        _ => EntryKind::Base,
    };
    let named = batches.iter().rev().find_map(|batch| batch.design.entry_of(pantry, kind, &subject.of));
    named.map_or_else(|| subject.of.clone(), |entry| entry.name().to_owned())
}

/// What it means that a figure lies above or below what was expected.
const fn meaning(kind: LearntKind, above: bool) -> &'static str {
    match (kind, above) {
        (LearntKind::Pace, true) => "It works faster than expected",
        (LearntKind::Pace, false) => "It works more slowly than expected",
        (LearntKind::BasePace, true) => "Cultures work faster in it than expected",
        (LearntKind::BasePace, false) => "Cultures work more slowly in it than expected",
        (LearntKind::Cells, true) => "The dose holds more living culture than expected",
        (LearntKind::Cells, false) => "The dose holds less living culture than expected",
        (LearntKind::Lag, true) => "It starts later than expected",
        (LearntKind::Lag, false) => "It starts sooner than expected",
        (LearntKind::Ceiling, true) => "It goes on souring longer than expected",
        (LearntKind::Ceiling, false) => "It stops souring sooner than expected",
        (LearntKind::StartPh, true) => "It is less sour to begin with than expected",
        (LearntKind::StartPh, false) => "It is more sour to begin with than expected",
        (LearntKind::Buffer, true) => "It takes more acid to sour than expected",
        (LearntKind::Buffer, false) => "It takes less acid to sour than expected",
        (LearntKind::Warmth, true) => "It keeps pots warmer than it says",
        (LearntKind::Warmth, false) => "It keeps pots cooler than it says",
        (LearntKind::Strength, true) => "It thickens more than expected",
        (LearntKind::Strength, false) => "It thickens less than expected",
        (LearntKind::Body, true) => "Pots made with it come out thicker than forecast",
        (LearntKind::Body, false) => "Pots made with it come out thinner than forecast",
        (LearntKind::Strain | LearntKind::Law | LearntKind::Hand, _) => "It differs from what was expected",
    }
}

/// Numbers of a figure: "pace 0.74 (usually 0.60 to 0.91)".
fn numbers(result: &SubjectResult) -> String {
    let [likely, low, high] = result.after;
    let [was, was_low, was_high] = result.before;
    let said = |v: f64| match result.unit.as_str() {
        "°C" => warmth_apart(v, 1),
        // A million cells are told by the million.
        _ if v.abs() >= 1e5 => format!("{} million", number::figures(v * 1e-6, 2)),
        _ => number::figures(v, 2),
    };
    let unit = match result.unit.as_str() {
        "" | "-" | "°C" => String::new(),
        unit => format!("{}{unit}", number::NBSP),
    };
    let pots = if result.pots == 1 { "1 pot".to_owned() } else { format!("{} pots", result.pots) };
    format!(
        "{} {}{unit} ({} to {}), before {} ({} to {}); from {pots}",
        capital(LearntKind::words(result.subject.kind)),
        said(likely),
        said(low),
        said(high),
        said(was),
        said(was_low),
        said(was_high)
    )
}

/// What is known now about each thing, what is known best first.
pub fn lines(learning: &Learning, batches: &[Batch], pantry: &Pantry) -> Vec<LearntLine> {
    let mut told: Vec<&SubjectResult> = learning.subjects.iter().filter(|s| s.subject.kind.told()).collect();
    told.sort_by(|a, b| a.doubt.total_cmp(&b.doubt));
    let line = |result: &SubjectResult| {
        let news = result.place.abs() >= NO_NEWS;
        let words = if news {
            meaning(result.subject.kind, result.place > 0.0).to_owned()
        } else {
            format!("{}: about as expected", capital(LearntKind::words(result.subject.kind)))
        };
        let known = match result.doubt {
            d if d < KNOWN => "well known now",
            d if d < PARTLY => "partly known",
            _ => "still open",
        };
        LearntLine {
            about: name(&result.subject, batches, pantry),
            words: format!("{words} ({known})"),
            news,
            numbers: numbers(result),
        }
    };
    told.into_iter().map(line).collect()
}

/// What came of it as a whole, in one or two sentences.
pub fn summary(learning: &Learning) -> String {
    let pots = learning.learnt.pots;
    if pots == 0 {
        return "No pot has readings to learn from yet".to_owned();
    }
    let from = if pots == 1 { "From 1 pot".to_owned() } else { format!("From {pots} pots") };
    match learning.missed() {
        Some(missed) => format!(
            "{from}. Each forecast from the others alone, the time to pH 4.6 is out by {} %; without learning by {} %",
            fixed(100.0 * missed.without, 0),
            fixed(100.0 * missed.before, 0)
        ),
        None => from,
    }
}

/// What one pot taught: at most three sentences, what it says most about first.
pub fn pot(result: &BatchResult, batches: &[Batch], pantry: &Pantry) -> Vec<String> {
    let Some(fitted) = &result.fitted else { return Vec::new() };
    let mut told: Vec<usize> =
        (0..result.subjects.len()).filter(|k| result.subjects[*k].kind.told()).collect();
    told.retain(|k| fitted.places[*k].abs() >= NO_NEWS && fitted.sigma[*k] < 0.95);
    told.sort_by(|a, b| {
        let news = |k: usize| fitted.places[k].abs() / fitted.sigma[k];
        news(*b).total_cmp(&news(*a))
    });
    let sentence = |k: &usize| {
        let subject = &result.subjects[*k];
        format!("{}: {}", name(subject, batches, pantry), meaning(subject.kind, fitted.places[*k] > 0.0))
    };
    told.iter().take(3).map(sentence).collect()
}

/// Readings that lie far from what all the others of their pot say, a sentence each.
pub fn outliers(result: &BatchResult, batch: &Batch) -> Vec<String> {
    let Some(fitted) = &result.fitted else { return Vec::new() };
    let far = result.data.iter().zip(&fitted.aside).filter(|(_, aside)| aside.abs() > 3.0);
    far.map(|(datum, _)| {
        let at = batch.readings.get(datum.reading).map_or(datum.at_h, |r| r.at_h);
        format!(
            "The reading at {} does not fit the others: it counts for little. Check whether it was typed right",
            number::hours(at)
        )
    })
    .collect()
}

/// What the readings of a pot cannot tell apart, in a sentence.
pub fn pair(pair: &Pair, batches: &[Batch], pantry: &Pantry) -> String {
    let half = |subject: &Subject| format!("{} ({})", subject.kind.words(), name(subject, batches, pantry));
    let (one, other) = (half(&pair.one), half(&pair.other));
    format!("These readings cannot tell {one} from {other}: both would show the same")
}

/// A pot's hours to pH 4.6: as read, as forecast before, and now.
pub fn hours(result: &BatchResult) -> Option<String> {
    let said = |h: Option<f64>| {
        h.map_or_else(|| "not within 72 h".to_owned(), |h| number::hours((2.0 * h).round() / 2.0))
    };
    let read = result.hours.read?;
    Some(format!(
        "pH 4.6 was read at {}; forecast before any pot {}, from the other pots {}",
        said(Some(read)),
        said(result.hours.before),
        said(result.hours.without)
    ))
}

/// When a pot under way is ready, by its readings so far: the same sentence as for a design.
pub fn ready_ahead(ahead: &Ahead, start: Option<Moment>) -> String {
    let told =
        ReadyTime { half_h: ahead.half_h, most_h: ahead.most_h, ever: ahead.ever, ..ReadyTime::default() };
    ready::sentence(&told, start)
}

/// How sure that is: "Ready somewhere between 10 h and 16 h".
pub fn range_ahead(ahead: &Ahead, start: Option<Moment>) -> String {
    let (from, to) = ahead.range;
    let at = |h: f64| ready::time_words(h, start);
    if to >= potset_judge::ready::HORIZON_H - 1e-9 {
        return format!("Ready at {} or later; some pots like it never are", at(from));
    }
    if shown_h(from) >= shown_h(to) {
        format!("Ready at {}", at(to))
    } else {
        format!("Ready somewhere between {} and {}", at(from), at(to))
    }
}

/// What the forecast says is in the pot now: "Now about pH 4.9 (4.7 to 5.1)".
pub fn now(ahead: &Ahead, now_h: f64) -> Option<String> {
    let [low, _, middle, _, high] = ahead.at(Seen::Ph, now_h)?;
    Some(format!("Now about pH {} ({} to {})", fixed(middle, 1), fixed(low, 1), fixed(high, 1)))
}

/// What is said where the readings lie where hardly any possible pot does.
pub const STRAINED: &str =
    "The readings lie where hardly any forecast pot does. Check them, then the design: base, culture, warmth";

/// The next reading worth taking, in a sentence.
pub fn next_reading(next: Option<NextReading>, start: Option<Moment>) -> String {
    match next {
        Some(next) => {
            let much = match next.settles {
                s if s >= 0.6 => "most",
                s if s >= 0.35 => "about half",
                _ => "some",
            };
            let at = ready::time_words(next.at_h, start);
            format!("Next reading worth taking: pH at {at}. It would settle {much} of when it is ready")
        }
        None => "No further pH reading would tell much about when it is ready".to_owned(),
    }
}

/// That the time of the next reading has come.
pub fn reading_due(name: &str) -> String {
    format!("{name}: now is the time for the next reading")
}

/// A control chart in a sentence.
pub fn drift(chart: &Chart, batches: &[Batch], pantry: &Pantry) -> String {
    let entry = |kind, key: &str| {
        let named = batches.iter().rev().find_map(|batch| batch.design.entry_of(pantry, kind, key));
        named.map_or_else(|| key.to_owned(), |entry| entry.name().to_owned())
    };
    let last = chart.points.last().map_or(chart.middle, |p| p.running);
    let since = chart.since.map(|(from, up)| {
        let name = chart.points.get(from).and_then(|p| batches.get(p.batch)).map_or("", |b| b.name.as_str());
        (name, up)
    });
    let n = chart.points.len();
    match (&chart.of, since) {
        (Drifted::Souring(key), Some((name, true))) => format!(
            "{}: pots sour ever later, by now {} times as long. Since “{name}”. The culture may be ageing: open a new packet, or dose more",
            entry(EntryKind::Culture, key),
            plain((last / chart.middle * 100.0).round() / 100.0)
        ),
        (Drifted::Souring(key), Some((name, false))) => format!(
            "{}: pots sour sooner than they did, by now in {} % of the time. Since “{name}”. Read earlier than you are used to",
            entry(EntryKind::Culture, key),
            fixed(100.0 * last / chart.middle, 0)
        ),
        (Drifted::Warmth(key), Some((name, up))) => format!(
            "{}: it runs {} than it did, by {}. Since “{name}”. Check it with a thermometer in a jar of water",
            entry(EntryKind::Warmer, key),
            if up { "warmer" } else { "cooler" },
            warmth_apart((last - chart.middle).abs(), 1)
        ),
        (Drifted::StartPh(key), Some((name, up))) => format!(
            "{}: it goes in {} sour than it did, by {} pH. Since “{name}”. A new tin or lot may be another one: read its label again",
            entry(EntryKind::Base, key),
            if up { "less" } else { "more" },
            fixed((last - chart.middle).abs(), 2)
        ),
        (Drifted::Souring(key), None) => format!("{}: {n} pots, no drift", entry(EntryKind::Culture, key)),
        (Drifted::Warmth(key), None) => format!("{}: {n} pots, no drift", entry(EntryKind::Warmer, key)),
        (Drifted::StartPh(key), None) => format!("{}: {n} pots, no drift", entry(EntryKind::Base, key)),
    }
}

/// A value of a chart as it is told.
pub fn chart_value(of: &Drifted, value: f64) -> String {
    match of {
        Drifted::Souring(_) => format!("{} times", number::figures(value, 2)),
        Drifted::Warmth(_) => warmth_apart(value, 1),
        Drifted::StartPh(_) => format!("pH {}", fixed(value, 2)),
    }
}

/// What forecasts say where they use what was learnt: "Uses what 6 pots taught".
pub fn used(learnt: &potset_doc::Learnt) -> Option<String> {
    match learnt.pots {
        0 => None,
        1 => Some("Uses what 1 pot taught".to_owned()),
        pots => Some(format!("Uses what {pots} pots taught")),
    }
}

/// A warmth that was logged, as it is told.
pub fn logged(c: f64) -> String {
    warmth(c, 1)
}
