//! What a lesson can tell about itself without running its pots: texts that fit a wall, numbers in range, pots that are there.

use super::{Claim, Guess, Lesson, PotOf, Which, no_first};
use crate::check;
use crate::demos::DEMOS;
use crate::range::{self, Range};
use potset_base::Note;

/// Most strips and levers that are shown at a time.
pub const MOST_STRIPS: usize = 2;
pub const MOST_LEVERS: usize = 3;
/// Most answers to choose among: one a number key, and all of them large.
pub const MOST_ANSWERS: usize = 4;
/// Sentences of the reason.
const REASON: usize = 2;

/// Most characters of texts that stand large on a wall. Source: assumed, what fits at the least size of letters.
const LONGEST_TITLE: usize = 50;
const LONGEST_NAME: usize = 28;
const LONGEST_ANSWER: usize = 60;
const LONGEST_LINE: usize = 110;
const LONGEST_REASON: usize = 170;

const HOURS: Range = ("Hours shown", "h", 1.0, 96.0);
const TABLE: Range = ("Time of a pot on the table", "h", 0.25, 96.0);

/// A text that is empty or too long to be read on a wall.
fn text(field: &str, text: &str, most: usize) -> Option<Note> {
    let long = text.trim().chars().count();
    if long == 0 {
        return Some(Note::error(field, "This text is empty", "Write it, in a few plain words"));
    }
    (long > most).then(|| {
        let title = format!("This text has {long} characters, and {most} fit on the wall");
        Note::error(field, title, "Say it in fewer words")
    })
}

/// Everything that keeps a lesson from being played; empty when it is in order.
pub fn faults(lesson: &Lesson) -> Vec<Note> {
    let mut all = Vec::new();
    all.extend(text("title", &lesson.title, LONGEST_TITLE));
    all.extend(text("question", &lesson.question, LONGEST_LINE));
    all.extend(text("change", &lesson.change, LONGEST_LINE));
    counts(lesson, &mut all);
    let mut see = |field: &str, value: f64, (name, unit, least, most): Range| {
        all.extend(range::fault(field.to_owned(), name, unit, value, (least, most)));
    };
    see("hours", lesson.hours, HOURS);
    if let Some((early, middle, late)) = lesson.table {
        [early, middle, late].into_iter().for_each(|h| see("table", h, TABLE));
        if !(early < middle && middle < late) {
            all.push(Note::error("table", "The times on the table do not rise", "Give early, middle, late"));
        }
    }
    pots(lesson, &mut all);
    for (i, claim) in lesson.claims.iter().enumerate() {
        all.extend(of_claim(lesson, claim, &format!("claims[{i}]")));
    }
    if let Guess::Choose(answers) = &lesson.guess {
        for (i, answer) in answers.iter().enumerate() {
            let field = format!("guess[{i}]");
            all.extend(text(&field, &answer.words, LONGEST_ANSWER));
            if answer.when.is_empty() {
                let mend = "Say in the file when it does";
                all.push(Note::error(&*field, "Nothing says when this answer comes true", mend));
            }
            all.extend(answer.when.iter().filter_map(|claim| of_claim(lesson, claim, &field)));
        }
    }
    all
}

/// How many there are of everything.
fn counts(lesson: &Lesson, all: &mut Vec<Note>) {
    let mut count = |field: &str, there: usize, (least, most): (usize, usize), what: &str| {
        if !(least..=most).contains(&there) {
            let title = format!("There are {there} {what}");
            all.push(Note::error(field, title, format!("Give {least} to {most}")));
        }
    };
    count("strips", lesson.strips.len(), (1, MOST_STRIPS), "strips");
    count("levers", lesson.levers.len(), (0, MOST_LEVERS), "levers");
    count("reason", lesson.reason.len(), (1, REASON), "sentences of the reason");
    if let Guess::Choose(answers) = &lesson.guess {
        count("guess", answers.len(), (2, MOST_ANSWERS), "answers");
    }
    if let Guess::Draw(curve) = lesson.guess
        && !lesson.strips.contains(&curve)
    {
        let mend = "Show its strip, or let the room draw one that is shown";
        all.push(Note::error("guess", "The curve to be drawn is not shown", mend));
    }
    for (i, words) in lesson.reason.iter().enumerate() {
        all.extend(text(&format!("reason[{i}]"), words, LONGEST_REASON));
    }
}

/// The pots: names, and designs that are there and in order.
fn pots(lesson: &Lesson, all: &mut Vec<Note>) {
    for (field, pot) in ["first", "second"].into_iter().zip(lesson.pots()) {
        all.extend(text(&format!("{field}.name"), &pot.name, LONGEST_NAME));
        match &pot.of {
            PotOf::Whole(design) => all.extend(
                check::faults(design)
                    .into_iter()
                    .map(|note| Note { field: format!("{field}.of.{}", note.field), ..note }),
            ),
            PotOf::Demo(name) if !DEMOS.iter().any(|(demo, _)| demo == name) => {
                let title = format!("There is no demo design {name}");
                all.push(Note::error(
                    format!("{field}.of"),
                    title,
                    "Give the name of one, or a whole design",
                ));
            }
            PotOf::First if field == "first" => all.push(no_first()),
            PotOf::Demo(_) | PotOf::First => {}
        }
    }
}

/// A claim about a pot that is not there, or with a number that is none.
fn of_claim(lesson: &Lesson, claim: &Claim, field: &str) -> Option<Note> {
    if lesson.second.is_none() && claim.pots().contains(&Which::Second) {
        return Some(Note::error(field, "The lesson has no second pot", "Add one, or speak of the first"));
    }
    let bad = claim.numbers().into_iter().find(|v| !(v.is_finite() && *v >= 0.0));
    bad.map(|v| Note::error(field, format!("{v} cannot be used here"), "Give a number from 0 up"))
}
