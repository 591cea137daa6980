//! What is said of a call: causes, the next question, what to do, and the answer to read out or to send.

use potset_base::number::fixed;
use potset_base::units::prose::prose;
use potset_base::words::lower;
use potset_mishap::{
    Asked, Cause, Chance, FactKind, FactRow, Mishap, Next, RankedCause, Ranking, Symptom, ThrowAway,
    WhatToDo, data,
};

use super::{hygiene, mends};

/// Most words that are read out, and that are sent.
pub const READ_OUT: usize = 60;
pub const TO_SEND: usize = 150;

/// What stands before any rescue: it is no permission.
const LOOK: &str = "Nothing is known against it; look and smell";

/// What is said while the answers that decide are still to come.
const NOT_YET: &str = "Do not eat it yet. Throw it away unless the next answers change that";

fn cause(at: usize) -> Option<&'static Cause> {
    data().causes.get(at)
}

fn name(at: usize) -> &'static str {
    cause(at).map_or("", |cause| cause.name.as_str())
}

/// How likely a cause is, in a word.
pub const fn chance(word: Chance) -> &'static str {
    match word {
        Chance::MostLikely => "Most likely",
        Chance::Possible => "Possible",
        Chance::Unlikely => "Unlikely",
    }
}

/// The name of a cause, with the one that comes together with it.
pub fn title(of: &RankedCause) -> String {
    match of.with {
        Some(with) => format!("{}, and {}", name(of.cause), lower(name(with))),
        None => name(of.cause).to_owned(),
    }
}

/// A cause with its word: "Most likely: kept too cool".
pub fn line(of: &RankedCause) -> String {
    format!("{}: {}", chance(of.word), lower(&title(of)))
}

/// Why it does what it does.
pub fn why(of: &RankedCause) -> String {
    let words = cause(of.cause).map_or_else(String::new, |cause| prose(&cause.why));
    if of.in_plan { format!("{words} The plan itself has it so.") } else { words }
}

/// The figure and where it comes from, for Details.
pub fn source(of: &RankedCause) -> String {
    let source = cause(of.cause).map_or("", |cause| cause.source.as_str());
    let parts = (of.chance * 100.0).round();
    format!("{parts} in 100 by simulated pots; as a cause: {source}. How often causes come is assumed.")
}

/// What made each symptom by itself, where not all have one cause.
pub fn apart(ranking: &Ranking) -> Vec<String> {
    let mut causes: Vec<usize> = ranking.apart.iter().map(|(_, cause)| *cause).collect();
    causes.sort_unstable();
    causes.dedup();
    if causes.len() < 2 {
        return Vec::new();
    }
    let one = |(symptom, cause): &(Symptom, usize)| {
        let said = data().symptom(*symptom).map_or("", |row| row.said.as_str());
        format!("By itself, “{said}” most often means: {}", lower(name(*cause)))
    };
    ranking.apart.iter().map(one).collect()
}

/// A question as it is asked.
pub fn question(kind: FactKind) -> String {
    data().fact(kind).map_or_else(String::new, |row| prose(&row.ask))
}

/// A number that was answered, with its unit.
pub fn number(row: &FactRow, value: f64) -> String {
    match &row.of {
        Asked::Number { unit, .. } if unit != "pH" => potset_base::number::with_unit(value, 1, unit),
        _ => fixed(value, 1),
    }
}

/// What comes next in the call.
pub fn next(next: &Next) -> String {
    match next {
        Next::Ask(all) => all.first().map_or_else(String::new, |best| question(best.kind)),
        Next::StandsOut(_) => "One cause stands out: no further question is needed".to_owned(),
        Next::Test(at) => {
            let test = cause(*at).map_or_else(String::new, |cause| prose(&cause.test));
            format!("Nothing that can be asked tells more. The test that would: {test}")
        }
    }
}

/// That the pot is to be thrown away, and why.
pub fn throw_away(of: &ThrowAway) -> (String, String) {
    match of {
        ThrowAway::Seen(symptom) => {
            let row = data().throw_away.iter().find(|row| row.symptom == *symptom);
            let why = row.map_or_else(String::new, |row| row.why.clone());
            ("Throw it away, and do not taste it".to_owned(), why)
        }
        ThrowAway::Rule(against, open) => {
            let title = hygiene::title(against);
            let title = title.strip_suffix(": throw it away").unwrap_or(&title);
            let why = format!("Perhaps: {}. Such a pot goes.", lower(title));
            // No reading clears a pot by itself: one that soured too late goes, however sour it is in the end.
            let title = if *open { NOT_YET } else { "Throw it away" };
            (title.to_owned(), why)
        }
        ThrowAway::Cause(at) => {
            let why =
                format!("{} may have happened. {}", name(*at), cause(*at).map_or("", |cause| &cause.why));
            ("Throw it away".to_owned(), why)
        }
    }
}

/// Where it stands that such a pot is thrown away.
pub fn throw_away_source(of: &ThrowAway) -> String {
    match of {
        ThrowAway::Seen(symptom) => {
            let row = data().throw_away.iter().find(|row| row.symptom == *symptom);
            row.map_or_else(String::new, |row| format!("Source: {}", row.source))
        }
        ThrowAway::Rule(against, _) => hygiene::sentence(against),
        ThrowAway::Cause(at) => {
            cause(*at).map_or_else(String::new, |cause| format!("Source: {}", cause.source))
        }
    }
}

/// Whether the next answers may still change that.
pub const fn still_open(of: &ThrowAway) -> bool {
    matches!(of, ThrowAway::Rule(_, true))
}

/// What can be done with the pot that is there.
pub fn rescue(at: usize) -> String {
    let words = cause(at).map_or("", |cause| cause.rescue.as_str());
    format!("{LOOK}. {}", prose(words))
}

/// What to do next time.
pub fn next_time(at: usize) -> String {
    cause(at).map_or_else(String::new, |cause| prose(&cause.next))
}

/// Sentences as long as they stay within so many words.
fn within(words: usize, sentences: impl IntoIterator<Item = String>) -> String {
    let count = |text: &str| text.split_whitespace().count();
    let mut out = String::new();
    for sentence in sentences {
        let sentence = sentence.trim();
        let whole = if sentence.is_empty() || sentence.ends_with(['.', '?', '!']) {
            sentence.to_owned()
        } else {
            format!("{sentence}.")
        };
        if !whole.is_empty() && count(&out) + count(&whole) <= words {
            out = if out.is_empty() { whole } else { format!("{out} {whole}") };
        }
    }
    out
}

/// Everything that is said, the most needed first.
fn sentences(ranking: &Ranking, what: &WhatToDo, all: bool) -> Vec<String> {
    let mut out = Vec::new();
    if let Some(of) = &what.throw_away {
        let (title, why) = throw_away(of);
        out.extend([title, why]);
    }
    if let Some(best) = ranking.causes.first() {
        out.extend([line(best), why(best)]);
    }
    out.extend(what.rescue.map(rescue));
    if let Some((at, mend)) = &what.next_time {
        out.push(format!("Next time: {}", lower(&next_time(*at))));
        if all {
            out.extend(
                mend.as_ref().map(|mend| format!("In the recipe: {}", lower(&mends::label(&mend.how)))),
            );
        }
    }
    if all {
        out.extend(apart(ranking));
        let others = ranking.causes.iter().skip(1).filter(|c| c.word != Chance::Unlikely).take(2);
        out.extend(others.map(|c| format!("{}: {}", chance(c.word), lower(&title(c)))));
        let test = ranking.causes.first().and_then(|best| cause(best.cause)).map(|cause| prose(&cause.test));
        out.extend(test.map(|test| format!("To be sure: {}", lower(&test))));
        out.push("This is advice, not permission: follow local codes".to_owned());
    }
    out
}

/// What is read out on the phone, 60 words at most.
pub fn read_out(ranking: &Ranking, what: &WhatToDo) -> String {
    within(READ_OUT, sentences(ranking, what, false))
}

/// What is sent, 150 words at most.
pub fn to_send(ranking: &Ranking, what: &WhatToDo) -> String {
    within(TO_SEND, sentences(ranking, what, true))
}

/// The whole call, as a command tells it.
pub fn text(mishap: &Mishap) -> String {
    let ranking = mishap.rank();
    let what = mishap.what_to_do(&ranking);
    let mut out = String::new();
    let mut put = |line: String| {
        out.push_str(&line);
        out.push('\n');
    };
    if let Some(of) = &what.throw_away {
        let (title, why) = throw_away(of);
        put(format!("{title}. {why} {}\n", throw_away_source(of)));
    }
    for of in ranking.causes.iter().take(5) {
        put(line(of));
        put(format!("  {}", why(of)));
        put(format!("  {}", source(of)));
    }
    apart(&ranking).into_iter().for_each(&mut put);
    put(format!("\nNext question: {}", next(&mishap.next(&[]))));
    if let Some(at) = what.rescue {
        put(format!("This pot: {}", rescue(at)));
    }
    if let Some((at, mend)) = &what.next_time {
        put(format!("Next time: {}", next_time(*at)));
        if let Some(mend) = mend {
            put(format!("In the design: {}", mends::label(&mend.how)));
        }
    }
    put(format!("\nTo read out:\n{}", read_out(&ranking, &what)));
    put(format!("\nTo send:\n{}", to_send(&ranking, &what)));
    out
}
