//! The main thing about two designs in a sentence: time, sugar, tang and texture, what differs first.

use crate::answer::usually;
use potset_base::number::{self, NBSP};
use potset_base::words::{TangWord, TextureWord};
use potset_compare::beside::{Because, Comparison, Part, Player, Pot, input_rows};
use potset_doc::{Design, Pantry};
use potset_forecast::observable::Observable;
use potset_judge::outcomes::Outcomes;

/// The name of the row of the texture in words.
pub const TEXTURE: &str = "texture in words";

/// The texture of a pot in a word, and its range in words; empty where there is none.
pub fn texture_words(pot: &Pot) -> (&'static str, String) {
    let range = pot.texture_range.and_then(|(low, high)| usually(low, high));
    (pot.texture.map_or("", TextureWord::word), range.unwrap_or_default())
}

/// In what a design is otherwise now than it was then, a line each: "sugar, amount: 9 g/L, now 12 g/L".
pub fn changed(then: &Design, now: &Design, pantry: &Pantry) -> Vec<String> {
    let mut all: Vec<String> = input_rows(&[then, now], &[], pantry)
        .iter()
        .map(|row| format!("{}: {}, now {}", row.name, row.words(0), row.words(1)))
        .collect();
    if then.name != now.name {
        all.insert(0, format!("name: {}, now {}", then.name, now.name));
    }
    if then.notes != now.notes {
        all.push("the notes".to_owned());
    }
    if then.card != now.card {
        all.push("your own words on the card".to_owned());
    }
    if then.tags != now.tags {
        all.push(format!("tags: {}, now {}", tags(&then.tags), tags(&now.tags)));
    }
    all
}

fn tags(tags: &[String]) -> String {
    if tags.is_empty() { "none".to_owned() } else { tags.join(", ") }
}

/// Says how the design at a place stands to the first. Each of time, sugar, tang and texture is either told or said to be the
/// same.
pub fn sentence(beside: &Comparison, place: usize) -> String {
    let (name_a, name_b) = (&beside.names[0], &beside.names[place]);
    let (a, b) = (&beside.pots[0], &beside.pots[place]);
    match (a.outcomes, b.outcomes) {
        (None, None) => format!("There is no forecast of {name_a}, nor of {name_b}."),
        (None, _) => format!("There is no forecast of {name_a}."),
        (_, None) => format!("There is no forecast of {name_b}."),
        _ if !beside.differs(place) => format!("{name_b} is made like {name_a}: nothing differs."),
        (Some(of_a), Some(of_b)) => differing((name_a, a, &of_a), (name_b, b, &of_b)),
    }
}

fn differing(
    (name_a, a, of_a): (&str, &Pot, &Outcomes),
    (name_b, b, of_b): (&str, &Pot, &Outcomes),
) -> String {
    let (mut told, mut same) = (Vec::new(), Vec::new());
    let mut say = |what: &'static str, sense: &'static str, clause: Option<String>| match clause {
        Some(clause) => told.push(clause),
        None => same.push((what, sense)),
    };
    say("time", "to half an hour", time(of_a, of_b));
    say("sugar", "to the tongue", sugar(of_a, of_b));
    say("tang", "to the tongue", tang(of_a, of_b, (a.tang, b.tang)));
    say("texture", "to the spoon", texture(of_a, of_b, (a.texture, b.texture)));
    if of_a.notices(of_b, Observable::Whey) {
        told.extend(more(of_a, of_b, Observable::Whey).map(|(by, way)| format!("lets {by} {way} whey go")));
    }
    if of_a.notices(of_b, Observable::ThinLayer) {
        told.extend(
            more(of_a, of_b, Observable::ThinLayer)
                .map(|(by, way)| format!("has {by} {way} of the pot thin below")),
        );
    }
    let same = match same.as_slice() {
        [] => String::new(),
        [(one, sense)] => format!("{one} is the same {sense}"),
        all => format!("{} differ too little to notice", listed(all.iter().map(|(what, _)| *what))),
    };
    if told.is_empty() {
        return format!("{name_b} beside {name_a}: you would not notice the difference in the pot.");
    }
    let told = listed(told.iter().map(String::as_str));
    if same.is_empty() {
        format!("{name_b} {told}, beside {name_a}.")
    } else {
        format!("{name_b} {told}, beside {name_a}; {same}.")
    }
}

fn listed<'a>(all: impl Iterator<Item = &'a str>) -> String {
    match &all.collect::<Vec<_>>()[..] {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}

/// The parts of a player: "thickener", "pots and additives".
pub fn player(player: &Player) -> String {
    listed(player.parts.iter().copied().map(Part::words))
}

/// How many mixes are left out of shares, a sentence; nothing if none is.
pub fn left_out(because: &Because) -> Option<String> {
    let Because { left_out, mixes, .. } = because;
    let verbs = if *left_out == 1 { "gets there and is" } else { "get there and are" };
    (*left_out > 0).then(|| format!("{left_out} of {mixes} mixes never {verbs} left out"))
}

/// A difference as an amount, with "more" or "less".
fn more(a: &Outcomes, b: &Outcomes, outcome: Observable) -> Option<(String, &'static str)> {
    let by = b.get(outcome)? - a.get(outcome)?;
    let unit = outcome.unit();
    let decimals = if by.abs() < 10.0 { 1 } else { 0 };
    let amount = number::with_unit(by.abs(), decimals, unit);
    Some((amount, if by > 0.0 { "more" } else { "less" }))
}

/// Until all goals hold, or where one never comes to that or both do at once, until it is sour.
fn time(a: &Outcomes, b: &Outcomes) -> Option<String> {
    let both = |o: Observable| a.get(o).is_some() && b.get(o).is_some();
    let ready = Observable::ReadyFrom;
    if both(ready) && a.notices(b, ready) {
        return more(a, b, ready).map(|(by, way)| format!("needs {by} {way} until it is ready"));
    }
    let sour = Observable::SourAt;
    let never = match (a.get(ready), b.get(ready)) {
        (Some(_), None) => Some("never meets all its goals"),
        (None, Some(_)) => Some("comes to meet its goals"),
        _ => None,
    };
    let until = if both(sour) && a.notices(b, sour) {
        more(a, b, sour).map(|(by, way)| format!("needs {by} {way} to pH{NBSP}4.6"))
    } else {
        match (a.get(sour), b.get(sour)) {
            (Some(_), None) => Some(format!("never comes to pH{NBSP}4.6")),
            (None, Some(_)) => Some(format!("comes to pH{NBSP}4.6")),
            (None, None) if !both(ready) => Some(format!("does not come to pH{NBSP}4.6 either")),
            _ => None,
        }
    };
    match (never, until) {
        (Some(never), Some(until)) => Some(format!("{until}, {never}")),
        (Some(never), None) => Some(never.to_owned()),
        (None, until) => until,
    }
}

/// Sugar left, and sweetness where that does not say it: what is stirred in counts, and sugars differ in how sweet they are.
fn sugar(a: &Outcomes, b: &Outcomes) -> Option<String> {
    let (left, sweet) = (Observable::SugarLeft, Observable::Sweetness);
    let rises = |o: Observable| Some(b.get(o)? > a.get(o)?);
    let kept = if a.notices(b, left) { more(a, b, left) } else { None };
    let way = if rises(sweet) == Some(true) { "sweeter" } else { "less sweet" };
    match (kept, a.notices(b, sweet)) {
        (Some((by, more)), true) if rises(left) != rises(sweet) => {
            Some(format!("keeps {by} {more} sugar though it is {way}"))
        }
        (Some((by, more)), _) => Some(format!("keeps {by} {more} sugar")),
        (None, true) => Some(format!("is {way}")),
        (None, false) => None,
    }
}

fn tang(
    a: &Outcomes,
    b: &Outcomes,
    (word_a, word_b): (Option<TangWord>, Option<TangWord>),
) -> Option<String> {
    // Acid leads; the pH may lie the other way where the buffers differ, and is told where it does so by its own step.
    let (ph, acid) = (Observable::Ph, Observable::Tang);
    if !a.notices(b, acid) {
        return None;
    }
    let more = b.get(acid)? > a.get(acid)?;
    let words = match (word_a, word_b) {
        (Some(x), Some(y)) if x != y => format!("{} against {}", y.word(), x.word()),
        _ => {
            let (to, from) = (number::fixed(b.get(acid)?, 0), number::fixed(a.get(acid)?, 0));
            format!("tang {to} against {from} mmol/kg")
        }
    };
    let by = b.get(ph)? - a.get(ph)?;
    let other_way = ph.steps(by).abs() >= 1.0 && (by > 0.0) == more;
    let though = match (other_way, more) {
        (false, _) => "",
        (true, true) => " though its pH is higher",
        (true, false) => " though its pH is lower",
    };
    Some(format!("is {}{though} ({words})", if more { "tangier" } else { "less tangy" }))
}

fn texture(
    a: &Outcomes,
    b: &Outcomes,
    (word_a, word_b): (Option<TextureWord>, Option<TextureWord>),
) -> Option<String> {
    if !a.notices(b, Observable::Texture) {
        return None;
    }
    let by = a.led_by(b, Observable::Texture);
    let (more, less) =
        if by == Observable::Stiffness { ("stiffer", "softer") } else { ("thicker", "thinner") };
    let factor = b.get(by)? / a.get(by)?;
    let (times, way) = if factor > 1.0 { (factor, more) } else { (1.0 / factor, less) };
    let words = match (word_a, word_b) {
        (Some(x), Some(y)) if x != y => format!(" ({} against {})", y.word(), x.word()),
        _ => String::new(),
    };
    Some(format!("is {}× {way}{words}", number::figures(times, 2)))
}
