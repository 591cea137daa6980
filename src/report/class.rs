//! What is said of a lesson: what each step tells the room, what its pots come to, what a claim says, how the guess went.

mod handout;
mod run_sheet;

pub use handout::handout;
pub use run_sheet::{RunSheetAsk, run_sheet};

use crate::hygiene;
use potset_base::number::{self, NBSP, fixed, hours};
use potset_base::words::{ACID_LINE_PH, TangWord, capital, lower};
use potset_class::claims::{Checked, check, missed_by, right};
use potset_class::curves::{observable, value, word};
use potset_class::draft::DraftWords;
use potset_class::play::{Play, Step};
use potset_class::pots::{Shown, ShownPot};
use potset_compare::beside::input_rows;
use potset_doc::lesson::{Claim, Guess, Lesson, LessonCurve, Place, When, Which};
use potset_doc::{Design, Pantry};

/// The name of a strip with its unit, as the room reads it: no unit where the axis is in words.
pub fn strip_name(curve: LessonCurve) -> String {
    let name = capital(curve.words());
    match curve {
        LessonCurve::Sourness => format!("{name}, pH (lower is sourer)"),
        LessonCurve::SugarLeft | LessonCurve::Lactose => format!("{name}, g in a litre"),
        LessonCurve::ThinLayer | LessonCurve::Whey => format!("{name}, % of the pot"),
        _ => name,
    }
}

/// A value of a curve as the room hears it.
pub fn value_words(curve: LessonCurve, v: f64) -> String {
    if let Some(word) = word(curve, v) {
        return word.to_owned();
    }
    match curve {
        LessonCurve::Sourness => format!("pH{NBSP}{}", fixed(v, 1)),
        LessonCurve::SugarLeft | LessonCurve::Lactose => format!("{}{NBSP}g/L", fixed(v, 0)),
        _ => format!("{}{NBSP}%", fixed(v, 0)),
    }
}

/// What a pot comes to when it is stopped, in a few words that are read from far away; the first is the weightiest.
pub fn pot_words(pot: &ShownPot) -> Vec<String> {
    let verdict = &pot.answer.verdict;
    if verdict.hygiene.discard().is_some() {
        return vec!["Throw it away".to_owned()];
    }
    if verdict.hygiene.not_yogurt.is_some() {
        return vec!["Not yogurt".to_owned()];
    }
    let mut all = Vec::new();
    all.extend(verdict.texture.as_ref().map(|t| capital(t.word.word())));
    all.extend(verdict.tang.as_ref().map(|t| t.word.map_or("not sour yet", TangWord::word).to_owned()));
    all
}

/// What a pot comes to in a lesson: what the lesson is about, huge, and the other words of the pot. Of a pot that nobody eats
/// there are no others.
pub fn came_to(lesson: &Lesson, pot: &ShownPot) -> (String, String) {
    let mut words = pot_words(pot);
    if words.len() < 2 {
        return (words.pop().unwrap_or_default(), String::new());
    }
    let of = lesson.strips[0];
    let f = &pot.answer.forecast;
    let v = value(Place::stop(of, Which::First), pot).unwrap_or_else(|| f.value(&f.ph, f.stop_h));
    let told = match of {
        // A word of the pot itself, or a number that a word stands for.
        LessonCurve::Tang => words.pop().unwrap_or_default(),
        LessonCurve::Thickness | LessonCurve::WarmThickness | LessonCurve::Stiffness => words.remove(0),
        LessonCurve::Sourness => value_words(of, v),
        LessonCurve::SugarLeft => format!("{} sugar left", value_words(of, v)),
        LessonCurve::Lactose => format!("{} lactose", value_words(of, v)),
        LessonCurve::ThinLayer => format!("{} thin layer", value_words(of, v)),
        LessonCurve::Whey => format!("{} whey", value_words(of, v)),
    };
    (capital(&told), lower(&words.join(", ")))
}

/// Why it comes to that, in a sentence: what speaks against it, or how sour and how thick it is.
pub fn pot_sentence(pot: &ShownPot) -> String {
    let verdict = &pot.answer.verdict;
    if verdict.hygiene.discard().is_some() {
        return format!("{}.", hygiene::headline(verdict));
    }
    if let Some(why) = verdict.hygiene.not_yogurt {
        return format!("{}.", hygiene::not_yogurt(why));
    }
    let f = &pot.answer.forecast;
    format!("pH {} when you stop at {}.", fixed(f.value(&f.ph, f.stop_h), 1), hours(f.stop_h))
}

/// How one that is higher is called beside the other.
const fn more(curve: LessonCurve) -> &'static str {
    match curve {
        LessonCurve::Sourness => "is less sour",
        LessonCurve::Tang => "tastes sourer",
        LessonCurve::SugarLeft => "has more sugar left",
        LessonCurve::Lactose => "has more lactose left",
        LessonCurve::WarmThickness => "is thicker in the warmth",
        LessonCurve::Thickness => "is thicker from the fridge",
        LessonCurve::Stiffness => "is firmer from the fridge",
        LessonCurve::ThinLayer => "has a deeper thin layer",
        LessonCurve::Whey => "has more whey on top",
    }
}

/// A pot at a time: its name where there are two, the time where it is not the stop or there is one pot.
fn at(place: Place, shown: &Shown) -> String {
    let Place(_, which, when) = place;
    let name = shown.pot(which).map_or_else(String::new, |pot| format!("“{}”", pot.name));
    let stop = shown.pot(which).map_or(f64::NAN, |pot| pot.answer.forecast.stop_h);
    match (shown.pots.len(), when) {
        (1, When::Hour(h)) if h <= 0.0 => "the pot at the start".to_owned(),
        (1, When::Hour(h)) => format!("the pot after {}", hours(h)),
        (1, When::Stop) => format!("the pot after {}", hours(stop)),
        (_, When::Hour(h)) => format!("{name} after {}", hours(h)),
        (_, When::Stop) => name,
    }
}

/// Two values beside each other: in words where they differ in words, else as so many times.
fn beside(here: Place, than: Place, checked: &Checked) -> String {
    let (Some(a), Some(b)) = (checked.here, checked.other) else { return String::new() };
    let (said, other) = (value_words(here.0, a), value_words(than.0, b));
    if said != other {
        format!(": {said} against {other}")
    } else if word(here.0, a).is_some() && b > 0.0 {
        format!(": {} times as much", number::figures(a / b, 2))
    } else {
        String::new()
    }
}

/// What a claim says of the pots, with what they come to; ends without a full stop.
pub fn claim(claim: &Claim, shown: &Shown) -> String {
    let checked = check(claim, shown);
    let name = |which: Which| shown.pot(which).map_or_else(String::new, |pot| format!("“{}”", pot.name));
    let here_words = |place: &Place| {
        let v = checked.here.map_or_else(|| "not known".to_owned(), |v| value_words(place.0, v));
        format!("{}: {} {v}", at(*place, shown), place.0.words())
    };
    let said = match claim {
        Claim::Higher { here, than, .. } | Claim::Times { here, than, .. } if here.0 == than.0 => {
            format!(
                "{} {} than {}{}",
                at(*here, shown),
                more(here.0),
                at(*than, shown),
                beside(*here, *than, &checked)
            )
        }
        Claim::Higher { here, than, .. } | Claim::Times { here, than, .. } => {
            format!("more {} than {}{}", here.0.words(), than.0.words(), beside(*here, *than, &checked))
        }
        Claim::Under { here, than, by } => format!(
            "{} {} than {}, less than {} times",
            at(*here, shown),
            more(here.0),
            at(*than, shown),
            number::plain(*by)
        ),
        Claim::Alike { here, and } => {
            format!(
                "{} and {}: nobody would notice a difference in {}",
                at(*here, shown),
                at(*and, shown),
                here.0.words()
            )
        }
        Claim::AtLeast { here, .. } | Claim::AtMost { here, .. } => here_words(here),
        Claim::SourBy(which, _) => {
            let sour = shown.pot(*which).and_then(|pot| pot.answer.forecast.time_to_ph(ACID_LINE_PH));
            let when =
                sour.map_or_else(|| "later than shown".to_owned(), |h| format!("after {}", hours(h.round())));
            format!("{} comes down to pH {} {when}", name(*which), number::plain(ACID_LINE_PH))
        }
        Claim::NotSourBy(which, h) => {
            let ph = checked.here.map_or_else(String::new, |v| format!(": pH {}", fixed(v, 1)));
            format!("{} is not sour yet after {}{ph}", name(*which), hours(*h))
        }
        Claim::ThrownAway(which) => format!("{} is thrown away", name(*which)),
        Claim::NotThrownAway(which) => format!("nothing known throws {} away", name(*which)),
    };
    capital(&said)
}

/// What happened, a sentence for each claim of a lesson that holds.
pub fn happened(lesson: &Lesson, shown: &Shown) -> Vec<String> {
    lesson
        .claims
        .iter()
        .filter(|one| check(one, shown).holds)
        .map(|one| format!("{}.", claim(one, shown)))
        .collect()
}

/// How the guess went, in a sentence; empty where nobody guessed and nothing is to be told.
pub fn guessed(lesson: &Lesson, shown: &Shown, play: &Play) -> String {
    match &lesson.guess {
        Guess::Choose(answers) => {
            let right = right(lesson, shown);
            let told: Vec<String> =
                right.iter().filter_map(|i| answers.get(*i)).map(|answer| answer.words.clone()).collect();
            let told =
                if told.is_empty() { "None of the answers came true".to_owned() } else { told.join("; ") };
            let all: u32 = play.votes.iter().sum();
            let hit: u32 = right.iter().filter_map(|i| play.votes.get(*i)).sum();
            match all {
                0 => format!("{told}."),
                _ => format!("{told}. {hit} of {all} guessed it."),
            }
        }
        Guess::Draw(of) => missed_by(&play.drawn, *of, shown).map_or_else(String::new, |missed| {
            let far = match of {
                LessonCurve::Sourness => format!("{} pH", fixed(missed, 1)),
                _ => format!("{}{NBSP}{}", fixed(missed, 1), observable(*of).unit()),
            };
            format!("The drawn line was off by {far} on average.")
        }),
    }
}

/// What the curves show at an hour, for ear and eye: "After 12 h. With sugar: pH 4.6, …".
pub fn reading(lesson: &Lesson, shown: &Shown, at_h: f64) -> String {
    let pots = shown.pots.iter().zip([Which::First, Which::Second]).map(|(pot, which)| {
        let values: Vec<String> = lesson
            .strips
            .iter()
            .filter_map(|of| {
                let v = value(Place(*of, which, When::Hour(at_h)), pot)?;
                Some(format!("{} {}", of.words(), value_words(*of, v)))
            })
            .collect();
        format!("{}: {}.", pot.name, values.join(", "))
    });
    std::iter::once(format!("After {}.", hours(at_h.round()))).chain(pots).collect::<Vec<_>>().join(" ")
}

/// A step in a sentence that can be spoken: all that the wall shows, and what to press next.
pub fn spoken(lesson: &Lesson, shown: Option<&Shown>, play: &Play) -> String {
    if play.blank {
        return "The wall is blank. Press B to go on.".to_owned();
    }
    if let (Some(free), Some(shown)) = (&play.free, shown) {
        let now = free.now.as_deref().or_else(|| shown.last());
        let words = now
            .map_or_else(String::new, |pot| format!("{}. {}", pot_words(pot).join(", "), pot_sentence(pot)));
        return format!("Free play: turn a lever. {words} Press F to go back.");
    }
    let head = format!("{}. {}", play.step.word(), lesson.question);
    match (play.step, shown) {
        (Step::Question, _) => format!("{head} Press page down to guess."),
        (Step::Guess, _) => format!("{head} {}", how_to_guess(lesson, play)),
        (Step::Change, _) => format!("{}. {} Press page down to see.", play.step.word(), lesson.change),
        (Step::Curve, Some(shown)) => format!("{}. {}", play.step.word(), reading(lesson, shown, play.at_h)),
        (Step::Reason, Some(shown)) => {
            let head = format!("{}.", play.step.word());
            let parts = [head, guessed(lesson, shown, play), lesson.reason.join(" ")];
            parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
        }
        (Step::Curve | Step::Reason, None) => {
            format!("{}. The pots are still being worked out.", play.step.word())
        }
    }
}

/// So many hands: "1 hand".
pub fn hands(count: u32) -> String {
    format!("{count} {}", if count == 1 { "hand" } else { "hands" })
}

/// How the room guesses, with the hands so far.
fn how_to_guess(lesson: &Lesson, play: &Play) -> String {
    match &lesson.guess {
        Guess::Choose(answers) => {
            let told = answers.iter().zip(&play.votes).enumerate();
            let told: Vec<String> = told
                .map(|(i, (answer, count))| format!("{}: {}, {}", i + 1, answer.words, hands(*count)))
                .collect();
            format!("{}. Press a number for each hand.", told.join("; "))
        }
        Guess::Draw(of) => {
            format!("Draw the curve of {} with the mouse, or point by point with the arrow keys.", of.words())
        }
    }
}

/// The first words of a lesson from one or two designs; the maker puts them better.
pub fn drafted(first: &Design, second: Option<&Design>, of: LessonCurve, pantry: &Pantry) -> DraftWords {
    let name = |design: &Design| design.name.trim().to_owned();
    let Some(second) = second else {
        return DraftWords {
            title: shortest(&capital(of.words()), 50),
            question: format!("How does it go with the {} of this pot? Draw it.", of.words()),
            change: "One pot, from the culture to the stop and beyond.".to_owned(),
            reason: vec!["Write here why, in two sentences.".to_owned()],
            answers: ("more", "the same", "less"),
        };
    };
    let differs: Vec<String> = input_rows(&[first, second], &[], pantry)
        .iter()
        .take(2)
        .map(|row| format!("{}: {} or {}", lower(&row.name), row.words(0), row.words(1)))
        .collect();
    let differs = if differs.is_empty() { "nothing".to_owned() } else { differs.join("; ") };
    let answers = match of {
        LessonCurve::Sourness => ("It is less sour", "It is as sour", "It is sourer"),
        LessonCurve::Tang => ("It tastes sourer", "It tastes the same", "It tastes milder"),
        LessonCurve::SugarLeft | LessonCurve::Lactose => {
            ("It keeps more", "It keeps as much", "It keeps less")
        }
        LessonCurve::WarmThickness | LessonCurve::Thickness => {
            ("It is thicker", "It is as thick", "It is thinner")
        }
        LessonCurve::Stiffness => ("It is firmer", "It is as firm", "It is softer"),
        LessonCurve::ThinLayer | LessonCurve::Whey => ("It has more", "It has as much", "It has less"),
    };
    DraftWords {
        title: shortest(&format!("{} and {}", name(first), name(second)), 50),
        question: shortest(
            &format!("“{}” beside “{}”: what of its {}?", name(second), name(first), of.words()),
            110,
        ),
        change: shortest(&format!("What differs: {differs}."), 110),
        reason: vec!["Write here why, in two sentences.".to_owned()],
        answers,
    }
}

/// A text that fits, broken at a word.
fn shortest(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let mut out = String::new();
    for word in text.split(' ') {
        if out.chars().count() + word.chars().count() + 1 > most {
            break;
        }
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    if out.is_empty() { text.chars().take(most).collect() } else { out }
}

#[cfg(test)]
mod tests;
