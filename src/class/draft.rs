//! A lesson of a maker's own from one or two designs: everything but its words is filled in, and those have a first form.

use crate::curves::observable;
use potset_base::{Source, SourceKind};
use potset_doc::Design;
use potset_doc::lesson::{
    Choice, Claim, Guess, Lesson, LessonCurve, LessonLever, LessonPot, Place, PotOf, Which,
};
use potset_forecast::observable::Step;

/// Longest name of a pot on the wall, characters: what the check of a lesson allows.
const NAME: usize = 28;

/// Hours shown beyond the later stop, as a share of it, so that the curve is seen to go on. Source: assumed.
const BEYOND: f64 = 1.15;

/// How the second pot stands to the first, as three answers of which one comes true. The step between them is the one that
/// a person notices.
pub fn answers(of: LessonCurve, (more, same, less): (&str, &str, &str)) -> Vec<Choice> {
    let (first, second) = (Place::stop(of, Which::First), Place::stop(of, Which::Second));
    let apart = |here, than| match observable(of).step() {
        Step::By(by) => Claim::Higher { here, than, by },
        Step::Times(by) => Claim::Times { here, than, by },
    };
    let choice = |words: &str, when| Choice { words: words.to_owned(), when: vec![when] };
    vec![
        choice(more, apart(second, first)),
        choice(same, Claim::Alike { here: second, and: first }),
        choice(less, apart(first, second)),
    ]
}

/// A name that fits the wall; two alike are told apart.
fn named(design: &Design, other: Option<&str>) -> String {
    let cut: String = design.name.trim().chars().take(NAME - 2).collect();
    let name = if cut.is_empty() { "Pot".to_owned() } else { cut.trim().to_owned() };
    if other == Some(name.as_str()) { format!("{name} 2") } else { name }
}

/// The words that a draft begins with; sentences come from whoever says them.
#[derive(Clone, Debug, PartialEq)]
pub struct DraftWords {
    pub title: String,
    pub question: String,
    pub change: String,
    pub reason: Vec<String>,
    /// More, the same, less.
    pub answers: (&'static str, &'static str, &'static str),
}

/// A lesson that shows one curve of one or two designs.
pub fn draft(first: &Design, second: Option<&Design>, of: LessonCurve, words: DraftWords) -> Lesson {
    let pot = |design: &Design, name: String| LessonPot {
        name,
        of: PotOf::Whole(Box::new(design.clone())),
        alter: Vec::new(),
    };
    let name = named(first, None);
    let second = second.map(|design| pot(design, named(design, Some(&name))));
    let stop = |design: &Design| design.hold().map_or(24.0, |hold| hold.hours);
    let later = match second.as_ref().map(|pot| &pot.of) {
        Some(PotOf::Whole(design)) => stop(design).max(stop(first)),
        _ => stop(first),
    };
    let guess = if second.is_some() { Guess::Choose(answers(of, words.answers)) } else { Guess::Draw(of) };
    let mut strips = vec![of];
    strips.extend((of != LessonCurve::Sourness).then_some(LessonCurve::Sourness));
    Lesson {
        title: words.title,
        question: words.question,
        first: pot(first, name),
        second,
        change: words.change,
        guess,
        strips,
        hours: (later * BEYOND).clamp(1.0, 96.0).ceil(),
        levers: vec![LessonLever::StopAt],
        reason: words.reason,
        source: Source { kind: SourceKind::Own, text: String::new() },
        claims: Vec::new(),
        table: None,
    }
}
