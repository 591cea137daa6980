//! Why nothing reaches what is wanted, in words.

use super::found::often;
use super::{chances, proposal, standing};
use crate::advice::note;
use potset_base::words::capital;
use potset_search::aim::choices::{Left, Ruled};
use potset_search::aim::found::How;
use potset_search::aim::{AsIs, Blocked, By, Proposal, Want};

/// What it comes to.
pub const fn head(blocked: &Blocked) -> &'static str {
    if matches!(blocked.by, By::Prices(..)) { "Prices are missing" } else { "Nothing reaches the goals" }
}

/// The reason as one line.
pub fn line(blocked: &Blocked) -> String {
    let verb = match &blocked.by {
        By::Prices(..) => "cannot be judged",
        By::Caution(_) => return capital(&sentence(blocked)),
        _ => "blocks",
    };
    capital(&format!("{} {verb}: {}", demand(blocked), sentence(blocked)))
}

/// What blocks: "pH ≤ 3.2".
pub fn demand(blocked: &Blocked) -> String {
    match &blocked.by {
        By::Rule(Ruled { rule: want, .. }) | By::Prices(want, _) => want.words(),
        By::Demand(at, _) => blocked.standings().get(*at).map_or_else(String::new, standing::name),
        By::Caution(why) => chances::discard(why),
        By::Nothing => "what goes in".to_owned(),
    }
}

/// Why, with numbers.
pub fn sentence(blocked: &Blocked) -> String {
    let own = match &blocked.by {
        By::Rule(ruled) => by_rule(ruled),
        By::Prices(_, missing) => {
            let what = if missing.is_empty() { "anything".to_owned() } else { missing.join(", ") };
            format!("no price is known for {what}")
        }
        By::Demand(at, how) => {
            blocked.nearest.as_ref().map_or_else(String::new, |nearest| missed(nearest, *at, *how))
        }
        By::Caution(why) => format!("what would work is ruled out by a caution: {}", chances::discard(why)),
        By::Nothing => "No combination of what may go in gives a pot with a forecast".to_owned(),
    };
    own + &without(blocked)
}

fn by_rule(Ruled { rule, line, left }: &Ruled) -> String {
    let Some((shelf, name)) = line else { return "the heating is held".to_owned() };
    let is = match rule {
        Want::Vegan => "not vegan",
        Want::GlutenFree => "not free of gluten",
        _ => "not among what you have",
    };
    let one = shelf.one();
    let why = match left {
        Left::Held => "it is held".to_owned(),
        Left::AtHand(_) => format!("no other {one} that you have fits"),
        Left::Pantry => format!("no {one} of the pantry fits"),
    };
    format!("{name} is {is}, and {why}")
}

fn missed(nearest: &Proposal, at: usize, how: How) -> String {
    let own = &nearest.standings[at];
    let (value, short) = (standing::value(own), standing::short(own));
    let reach = if value.is_empty() { "the goal does not hold".to_owned() } else { value };
    let short = if short.is_empty() { short } else { format!(", {short} short of the goal") };
    let is_nearest = if nearest.changes() > 0 {
        format!("{reach} is the nearest that was found{short}")
    } else {
        format!("nothing that was found comes nearer than your design, {reach}{short}")
    };
    match how {
        How::Alone => format!("even with nothing else asked, {is_nearest}"),
        How::Gives => format!("with all other goals kept, {is_nearest}"),
        How::Together => {
            let others = nearest.standings.iter().enumerate().filter(|(i, s)| *i != at && !s.holds());
            let others: Vec<String> = others
                .map(|(_, s)| match standing::short(s) {
                    short if short.is_empty() => standing::name(s),
                    short => format!("{} (by {short})", standing::name(s)),
                })
                .collect();
            let others = others.join(", ");
            let others = if others.is_empty() { others } else { format!("; also missed: {others}") };
            is_nearest + &others
        }
    }
}

/// What the other wants come to when what blocks is given up.
fn without(blocked: &Blocked) -> String {
    let Some(found) = &blocked.without else { return String::new() };
    let some = !found.proposals.is_empty();
    let mut told = match found.as_is.as_ref().filter(|own: &&AsIs| own.does()) {
        Some(own) => {
            let surer = if some { "; a setting that works more often follows" } else { "" };
            format!(". Without this goal, your design already does the rest {}{surer}", often(own))
        }
        None if !some => String::new(),
        None if matches!(blocked.by, By::Prices(..)) => {
            ". A search without this goal reached all the others".to_owned()
        }
        None => ". Without this goal, all others can be reached".to_owned(),
    };
    if let Some(inner) = found.blocked.as_ref().filter(|_| !some) {
        told += &format!(". Without this goal, {} blocks too: {}", demand(inner), sentence(inner));
    }
    told
}

/// What to do about it.
pub fn mend(blocked: &Blocked) -> String {
    let mend = match &blocked.by {
        _ if blocked.starves => "The culture finds no food: let a sugar move, or add one".to_owned(),
        By::Rule(Ruled { line: None, .. }) => "Let the heating move, or drop the goal".to_owned(),
        By::Rule(Ruled { line: Some((shelf, _)), left, .. }) => {
            let one = shelf.one();
            match left {
                Left::Held => format!("Let the {one} move, or drop the goal"),
                Left::AtHand(fits) if fits.is_empty() => format!("Put a {one} that fits on the list"),
                Left::AtHand(fits) => format!("Put a {one} that fits on the list: {}", fits.join("; ")),
                Left::Pantry => format!("Drop the goal, or add a {one} of your own to the pantry"),
            }
        }
        By::Prices(..) => "Write the prices in the pantry, then find settings again".to_owned(),
        By::Demand(_, How::Alone) => "Ask for less, let more move, or start from another design".to_owned(),
        By::Demand(_, How::Gives) => "Ask for less, or drop another goal".to_owned(),
        By::Demand(_, How::Together) => "Drop one of the missed goals".to_owned(),
        By::Caution(_) => "Ask for less, or let more move".to_owned(),
        By::Nothing => "Let more move, or ask for less".to_owned(),
    };
    if blocked.farther { mend + ". Or allow unusual amounts" } else { mend }
}

/// What the setting that comes with it is.
pub fn nearest_head(blocked: &Blocked) -> &'static str {
    match &blocked.nearest {
        Some(nearest) if nearest.holds() => "A setting that reaches all other goals",
        Some(nearest) if nearest.changes() == 0 => "Your design: nothing that was found comes nearer",
        _ => "The nearest setting found",
    }
}

/// Why that setting must not be used, in words.
pub fn warning(blocked: &Blocked) -> Option<String> {
    blocked.discard.as_ref().map(|why| format!("Do not use this one: {}", note(why).title))
}

/// How that setting stands, in one line.
pub fn headline(blocked: &Blocked) -> Option<String> {
    let nearest = blocked.nearest.as_ref()?;
    // The want that was given up is none of those that it was judged by.
    let words = proposal::headline(nearest);
    Some(if nearest.holds() { words.replacen("All goals hold", "All other goals hold", 1) } else { words })
}

/// Levers that stand at an end of their bounds in it, in words; nothing where they bar nothing.
pub fn ends(blocked: &Blocked) -> Vec<String> {
    let reached = blocked.without.as_ref().is_some_and(|found| !found.proposals.is_empty());
    blocked.nearest.as_ref().filter(|_| !reached).map(proposal::ends).unwrap_or_default()
}
