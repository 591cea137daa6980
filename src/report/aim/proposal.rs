//! A proposal in words: what it changes, how often it works, what it is best at, what to look at.

use super::{chances, standing, turned};
use crate::mends;
use crate::swap::in_place;
use potset_base::words::{capital, lower};
use potset_doc::Edit;
use potset_search::aim::{Best, Proposal, Said};

/// Changes that the name of the edit lists; more are counted.
const NAMED: usize = 2;

/// Its chance in words, or what is missed: "Not all goals hold: pH ≥ 4.5 is missed by 0.30".
pub fn headline(proposal: &Proposal) -> String {
    let missed: Vec<String> = proposal.standings.iter().filter(|s| !s.holds()).map(standing::miss).collect();
    if missed.is_empty() {
        capital(&chances::words(&proposal.chance))
    } else {
        format!("Not all goals hold: {}", missed.join("; "))
    }
}

/// What it does besides turning levers, a sentence each.
pub fn said(proposal: &Proposal) -> Vec<String> {
    let words = |said: &Said| match said {
        Said::Swapped { new, old } => in_place(new, old),
        Said::Added(name) => format!("{name} is added"),
        Said::Fed(name) => format!("{name} is added, to feed the culture"),
        Said::Without(name) => format!("Without {}", lower(name)),
        Said::Uncooked => "The base is not cooked".to_owned(),
        Said::Mended(how) => mends::label(how),
    };
    proposal.said.iter().map(words).collect()
}

/// What it is best at: "changes least, shortest hold".
pub fn best_at(proposal: &Proposal) -> String {
    let word = |best: &Best| match best {
        Best::Surest => "surest",
        Best::ChangesLeast => "changes least",
        Best::ShortestHold => "shortest hold",
        Best::Cheapest => "cheapest",
    };
    proposal.best_at.iter().map(word).collect::<Vec<_>>().join(", ")
}

/// What is new to it and worth a look, a sentence each.
pub fn watch(proposal: &Proposal) -> Vec<String> {
    let watch = &proposal.watch;
    let new = watch.allergens.join(", ");
    let new = (!new.is_empty()).then(|| format!("New allergens in the pot: {new}"));
    let mild = watch.too_mild.map(|pots| {
        let is = if pots.one_in() { "is" } else { "are" };
        format!("{} pots {is} not sour enough yet when you stop: measure the pH then", pots.words())
    });
    let texture = watch.texture.map(|(was, now)| {
        format!("Another texture than in your design: {} instead of {}", now.word(), was.word())
    });
    new.into_iter().chain(mild).chain(texture).collect()
}

/// Levers that stand at an end of their bounds.
pub fn ends(proposal: &Proposal) -> Vec<String> {
    proposal.ends().map(|(turn, v)| format!("{} {}", turn.lever.name, turned::value(turn, *v))).collect()
}

/// The edit that makes a design so, with its name for the undo menu.
pub fn make_so(proposal: &Proposal) -> Edit {
    let turned = proposal.turned.iter().map(turned::brief);
    let named: Vec<String> = said(proposal).into_iter().chain(turned).map(|s| lower(&s)).collect();
    let title = match &named[..] {
        [] => "Aim: as it is".to_owned(),
        all if all.len() <= NAMED + 1 => format!("Aim: {}", all.join(", ")),
        all => format!("Aim: {} and {} more", all[..NAMED].join(", "), all.len() - NAMED),
    };
    Edit::Together(title, proposal.edits.clone())
}
