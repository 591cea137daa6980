//! A swap in words: what is changed, or why it cannot be.

use crate::{advice, mends};
use potset_base::allergen::allergen;
use potset_base::measures::whole::{volume_plain, volume_span};
use potset_base::words::lower;
use potset_base::{Note, number, units};
use potset_doc::design::{BaseLine, LabelFigures};
use potset_forecast::observable::Observable;
use potset_search::swap::{Brings, OutOfReach, Refused, SolvedLever, Swapped};

/// What was changed, a sentence each.
pub fn said(swapped: &Swapped) -> Vec<String> {
    let names = &swapped.names;
    if names.same {
        return vec![format!("{} is in the design already: nothing changes", names.new)];
    }
    let mut said = vec![in_place(&names.new, &names.old)];
    said.extend(swapped.base.iter().flat_map(|(line, range)| base(line, *range, &lower(&names.old))));
    let both = |outcome: Observable| {
        let words = |v: Option<f64>| v.map_or_else(String::new, |v| precise(outcome, v));
        format!("{} against {}", words(swapped.after.get(outcome)), words(swapped.before.get(outcome)))
    };
    for dose in &swapped.doses {
        let own = dose.lever.name == names.new;
        let of = if own { String::new() } else { format!("{} ", dose.lever.name) };
        let stays = format!("{}stays at {}", if own { "It " } else { &of }, dose.lever.words(dose.now));
        said.push(match (dose.solved, dose.moved()) {
            (true, true) => {
                format!("{of}{} for the same thickness ({})", instead(dose), both(Observable::Texture))
            }
            (true, false) => format!("{stays}: the thickness is the same"),
            (false, true) => format!("{of}{}: the usual amount", instead(dose)),
            (false, false) => format!("{stays}, the usual amount"),
        });
    }
    let needless = swapped.needless.iter();
    said.extend(needless.map(|name| format!("The pot is as thick without any {}", lower(name))));
    said.extend(swapped.hours.iter().map(|hours| {
        let (now, old) = (number::hours(hours.now), number::hours(hours.old));
        if hours.moved() {
            format!("Stop at {now} instead of {old} for the same tang ({})", both(Observable::Tang))
        } else {
            format!("Stop at {now} as before: the tang is the same")
        }
    }));
    said
}

/// What the pot has after a swap and had not before, a sentence each.
pub fn brings(brings: &Brings) -> Vec<String> {
    let mut said = Vec::new();
    if !brings.allergens.is_empty() {
        let words = brings.allergens.iter().map(|key| allergen(key).map_or(key.as_str(), |a| a.words()));
        let some = if brings.allergens.len() > 1 { "New allergens" } else { "New allergen" };
        said.push(format!("{some} in the pot: {}", words.collect::<Vec<_>>().join(", ")));
    }
    if !brings.may_contain.is_empty() {
        said.push(format!("By its label it may contain {}", brings.may_contain.join(", ")));
    }
    if brings.animal {
        said.push("The pot is no longer vegan".to_owned());
    }
    if brings.gluten {
        said.push("The pot now contains gluten, or may contain it".to_owned());
    }
    said
}

/// One entry in the place of another.
pub fn in_place(new: &str, old: &str) -> String {
    format!("{new} in place of {}", lower(old))
}

/// "18.5 g/L instead of 16.0"; as many decimals as either needs.
fn instead(turned: &SolvedLever) -> String {
    let least = turned.lever.decimals;
    let needs = |v: f64| {
        let shown = |d: &usize| (v - number::fixed(v, *d).parse().unwrap_or(v)).abs() < 1e-9;
        (least..least + 4).find(shown).unwrap_or(least)
    };
    let decimals = needs(turned.now).max(needs(turned.old));
    let now = number::with_unit(turned.now, decimals, turned.lever.unit);
    let scale = units::scale(turned.lever.unit);
    let old = number::fixed(scale.shown(turned.old), scale.decimals(decimals));
    format!("{now} instead of {old}")
}

fn base(line: &BaseLine, (least, most): (f64, f64), old: &str) -> Vec<String> {
    let mut said = Vec::new();
    if line.label != LabelFigures::default() {
        said.push(format!("The label figures of {old} are removed: those of the pantry count"));
    }
    if !line.measured.is_empty() {
        said.push(format!("What you measured of {old} is removed too"));
    }
    if !(least..=most).contains(&line.litres) {
        let litres = volume_plain(line.litres);
        let usual = volume_span(least, most);
        said.push(format!("{litres} is not usual for it ({usual}): check the amount"));
    }
    said
}

/// A reading with one figure more than usual, for what is said to be the same.
fn precise(outcome: Observable, v: f64) -> String {
    if v < 1e-6 {
        return "none".to_owned();
    }
    format!("{}{}{}", number::figures(v, 3), number::NBSP, outcome.unit())
}

/// Why a swap cannot be, with what a thickener needs for it.
pub fn refused(refused: &Refused) -> Note {
    match refused {
        Refused::Asked(note) => (**note).clone(),
        Refused::EachMovesTheOther(field) => {
            let title = "Thickness and tang cannot both be kept: each moves the other";
            Note::error(field.clone(), title, "Keep one of them, or swap at the usual amount")
        }
        Refused::OutOfReach(out) => out_of_reach(out),
    }
}

fn out_of_reach(out: &OutOfReach) -> Note {
    let (lever, (low, high)) = (&out.lever, out.lever.range);
    let kept = if out.outcome == Observable::Texture { "thickness" } else { "tang" };
    let reach = format!("{}: {} to {} can be reached", lever.name, lever.words(low), lever.words(high));
    let mut sentence = out.near.off.map_or_else(
        || format!("{reach}, and none of these has a forecast"),
        |off| {
            let [reached, was] = [out.was.max(1e-9) * off.exp(), out.was].map(|v| precise(out.outcome, v));
            format!("{reach}; {} comes nearest, with {reached} against {was}", lever.words(out.near.at))
        },
    );
    for advice in &out.warned {
        sentence += &format!(". {}", advice::note(advice).title);
    }
    let mend = out.warned.iter().find_map(|advice| advice.mend.as_ref()).map_or_else(
        || "Swap at the usual amount, or pick another entry".to_owned(),
        |mend| format!("Swap at the usual amount, then: {}", lower(&mends::label(&mend.how))),
    );
    let title = format!("{} cannot give the same {kept}", out.new);
    Note { sentence, ..Note::error(out.field.clone(), title, mend) }
}
