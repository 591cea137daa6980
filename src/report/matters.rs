//! What matters in sentences.

mod doubts;

pub use doubts::doubt;

use crate::spread::span_words;
use potset_base::number;
use potset_doubt::matters::{
    Better, Effect, Find, LeverEffect, Matters, Reading, Scale, Unwatched, WORTH_TELLING, Watched, Way, Worth,
};
use potset_forecast::observable::Observable;

/// A difference of a watched outcome: "×1.18 thicker", "2.1 h sooner".
pub fn effect_words(outcome: Observable, effect: Effect) -> String {
    let d = match effect {
        Effect::By(d) => d,
        Effect::OnlyThen => return "only then".to_owned(),
        Effect::NoLonger => return "no longer".to_owned(),
    };
    let more = d > 0.0;
    let factor = |more_word: &str, less_word: &str| {
        // A small turn has small effects: one figure more than usual, and beyond ten the usual words.
        let times = d.abs().exp();
        let times = if times < 10.0 {
            format!("×{}", number::figures(times, 3))
        } else {
            outcome.difference_words(d.abs())
        };
        format!("{times} {}", if more { more_word } else { less_word })
    };
    let amount = |more_word: &str, less_word: &str| {
        let size = outcome.words(d.abs());
        format!("{size} {}", if more { more_word } else { less_word })
    };
    match outcome {
        Observable::ReadyFrom | Observable::SourAt => {
            format!("{} {}", number::hours(d.abs()), if more { "later" } else { "sooner" })
        }
        Observable::Texture | Observable::Stiffness => factor("thicker", "thinner"),
        Observable::Tang => factor("tangier", "less tangy"),
        Observable::Sweetness => factor("sweeter", "less sweet"),
        _ => amount("more", "less"),
    }
}

/// A watched outcome by the word that heads its column: that of its want, where it has none other.
pub const fn head(outcome: Observable) -> &'static str {
    match outcome {
        Observable::SourAt => "pH 4.6",
        Observable::Texture => "thickness",
        other => other.wanted().name,
    }
}

/// What is turned, and by how much: "Cold-swelling rice starch +1.0 g/L", "Hold at: back to usual (40.0 °C)".
pub fn turn_name(turn: &LeverEffect) -> String {
    let LeverEffect { lever, way, by, .. } = turn;
    if *way != Way::Little {
        let to = lever.value + by;
        let to = match lever.lever_id {
            lever_id if lever_id.is_rate() => format!("{} × packet", number::plain(to)),
            _ => lever.words(to),
        };
        let rest = if *way == Way::BackWithTheRest { ", with all else usual" } else { "" };
        return format!("{}: back to usual ({to}){rest}", lever.name);
    }
    let sign = if *by > 0.0 { "+" } else { "" };
    let by = match lever.lever_id {
        lever_id if lever_id.is_rate() => format!("{} × packet", number::fixed(*by, 1)),
        _ => lever.words(*by),
    };
    format!("{} {sign}{by}", lever.name)
}

/// What a turn changes of the verdict, and its effects that a person would notice, or else the strongest one.
pub fn effects(turn: &LeverEffect) -> String {
    // What the verdict says of the time is not said again.
    let said_by_then = |i: &usize| {
        let (outcome, effect) = turn.effects[*i];
        let time = matches!(outcome, Observable::SourAt | Observable::ReadyFrom);
        turn.way != Way::Little && turn.verdict.is_some() && time && effect == Effect::OnlyThen
    };
    let mut order: Vec<usize> = (0..turn.effects.len()).filter(|i| !said_by_then(i)).collect();
    order.sort_by(|a, b| turn.steps(*b).total_cmp(&turn.steps(*a)));
    let kept = order.iter().enumerate().filter(|(k, i)| *k == 0 || turn.steps(**i) >= 0.5).take(3);
    let kept = kept.map(|(_, i)| {
        let (outcome, effect) = turn.effects[*i];
        // Only these say by themselves what they are of.
        let by_itself = matches!(outcome, Observable::Texture | Observable::Tang);
        if by_itself && matches!(effect, Effect::By(_)) {
            effect_words(outcome, effect)
        } else {
            format!("{} {}", head(outcome), effect_words(outcome, effect))
        }
    });
    let verdict = turn.verdict.map(|better| match better {
        Better::ThenSour => "then pH 4.6 by the stop".to_owned(),
        Better::SoonEnough => "then it sours soon enough".to_owned(),
        Better::SoursAtLast => "then it comes to pH 4.6, after the stop".to_owned(),
    });
    verdict.into_iter().chain(kept).collect::<Vec<_>>().join(", ")
}

/// By what the levers are ranked.
pub const RANKED: &str = "What changes the verdict comes first, then the strongest. Each is turned by a tenth of its usual \
                          span, or by the step shown. “Back to usual” is all the way";

/// What the shares of doubts are.
const SHARES: &str = "The percent tells how much of the difference between pots one thing explains by itself. The rest does \
                      not rise evenly with any one of them, or comes of several together";

/// What is said where times are reckoned as 1/h.
const PER_HOUR: &str =
    "Some pots never get there. Times are compared as speeds then, and “never” counts as no speed";

/// A share in percent.
fn percent(share: f64) -> String {
    format!("{}{}%", number::fixed(100.0 * share, 0), number::NBSP)
}

/// What is said after a share where its scale is not that of the outcome.
const fn scale_words(scale: Scale) -> &'static str {
    match scale {
        Scale::Own => "",
        Scale::PerHour => ", by speed",
    }
}

/// What is asked of an outcome.
const fn question(outcome: Observable) -> &'static str {
    match outcome {
        Observable::ReadyFrom => "when it is ready",
        Observable::SourAt => "when it reaches pH 4.6",
        Observable::Tang | Observable::Ph => "how sour it tastes",
        Observable::SugarLeft | Observable::Sweetness => "how much sugar is left",
        Observable::Texture | Observable::Stiffness => "how thick it gets",
        Observable::Whey => "how much whey it gives",
        Observable::ThinLayer => "how much of it is thin below",
        Observable::Energy | Observable::Cost | Observable::Fat => head(outcome),
    }
}

/// A share of what is not known of an outcome: "settles 42 % of the question when it is ready".
fn of_the_doubt(share: f64, w: &Watched) -> String {
    format!("settles {} of the question {}{}", percent(share), question(w.outcome), scale_words(w.scale))
}

/// What 9 of 10 pots come to: "0.26–7.2 Pa·s", "12.0 h or later".
fn watched_span(w: &Watched) -> String {
    span_words(w.outcome, w.edges[0], w.edges[2])
}

/// The same where it is narrower by a factor, beside what it is; nothing where that cannot be told.
fn narrowed(w: &Watched, factor: f64) -> Option<String> {
    let (low, high) = w.narrowed(factor)?;
    Some(format!("{} instead of {}", span_words(w.outcome, low, high), watched_span(w)))
}

/// How much of the differences the doubts explain, each by itself.
pub fn explained(w: &Watched) -> String {
    format!("taken one by one, the unknowns explain {}{}", percent(w.explained), scale_words(w.scale))
}

/// What finding out does to the outcome that it does most to: "ready from ± 5.1 h to ± 1.5 h".
pub fn find_gain(find: &Find, watched: &[Watched]) -> String {
    let most = (0..watched.len()).max_by(|a, b| find.shares[*a].total_cmp(&find.shares[*b]));
    let Some(i) = most else { return String::new() };
    let w = &watched[i];
    let of = of_the_doubt(find.shares[i], w);
    match find.narrows(i).filter(|f| *f < WORTH_TELLING).and_then(|f| narrowed(w, f)) {
        Some(after) => format!("{}: {after} ({of})", head(w.outcome)),
        None => of,
    }
}

/// What is read, and when: "a pH reading with a meter, at 6 h".
pub fn reading(worth: &Worth) -> String {
    let what = match worth.reading {
        Reading::PhByMeter => "a pH reading with a meter",
        Reading::PhByStrips => "a pH reading with strips",
        Reading::SpoonOfBase => "a spoon or line-spread test of the base before the culture",
        Reading::SpoonOfPot => "a spoon or line-spread test of the warm pot",
        Reading::Thermometer => "checking the thermometer",
        Reading::Culture => "weighing the culture",
        Reading::CultureInPowder => "weighing the culture as a tenfold mix",
    };
    let when =
        worth.at_h.map_or_else(|| "before the hold".to_owned(), |h| format!("at {}", number::hours(h)));
    format!("{what}, {when}")
}

/// What a reading does to the bands that it narrows most, two at the most.
pub fn reading_gain(worth: &Worth, watched: &[Watched]) -> String {
    let mut order: Vec<usize> = (0..watched.len()).collect();
    order.sort_by(|a, b| worth.narrows[*a].total_cmp(&worth.narrows[*b]));
    let told = order.into_iter().take(2).filter(|i| worth.narrows[*i] < WORTH_TELLING).map(|i| {
        let (w, factor) = (&watched[i], worth.narrows[i]);
        narrowed(w, factor).map_or_else(
            || of_the_doubt(1.0 - factor * factor, w),
            |after| format!("{} {after}", head(w.outcome)),
        )
    });
    told.collect::<Vec<_>>().join(", ")
}

/// What the shares are of, where any are told.
pub fn shares(matters: &Matters) -> Vec<&'static str> {
    let any = (!matters.watched.is_empty()).then_some(SHARES);
    let per_hour = matters.watched.iter().any(|w| w.scale == Scale::PerHour).then_some(PER_HOUR);
    any.into_iter().chain(per_hour).collect()
}

/// What is not watched, and why, a sentence each.
pub fn left_out(matters: &Matters) -> impl Iterator<Item = String> {
    matters.left_out.iter().map(|(outcome, why)| match why {
        Unwatched::Never(never) => {
            format!("{}: in {} pots not in the hours shown", outcome.name(), never.words())
        }
        Unwatched::Alike => format!("{}: the pots differ too little to notice", outcome.name()),
    })
}

/// Levers of which nobody notices anything, if there are any.
pub fn unnoticed(matters: &Matters) -> Option<String> {
    let names = matters.unnoticed.join(", ");
    (!names.is_empty()).then(|| format!("Small changes of these hardly matter: {names}"))
}

/// Everything as plain text, for the command line and the clipboard.
pub fn text(matters: &Matters) -> String {
    let mut out = format!("From {} possible pots of this design.\n\nUsually between\n", matters.pots);
    for w in &matters.watched {
        let never = if w.never.of > 0 {
            format!(", in {} not in the hours shown", w.never.words())
        } else {
            String::new()
        };
        out += &format!("  {:<25} {}{never}; {}\n", w.outcome.name(), watched_span(w), explained(w));
    }
    for said in shares(matters).into_iter().map(str::to_owned).chain(left_out(matters)) {
        out += &format!("  {said}\n");
    }
    out += "\nWhat you can turn\n";
    let turns: Vec<(String, String)> = matters.turns.iter().map(|t| (turn_name(t), effects(t))).collect();
    let width = turns.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
    for (name, effects) in turns {
        out += &format!("  {name:<width$}  {effects}\n");
    }
    out += &format!("  {RANKED}\n");
    out += &unnoticed(matters).map_or_else(String::new, |said| format!("  {said}\n"));
    out += "\nWhat you can find out\n";
    for find in &matters.finds {
        let (what, how) = doubt(&find.remedy);
        out += &format!("  {what}\n      {how}: {}\n", find_gain(find, &matters.watched));
    }
    out += "\nWhich reading helps most\n";
    if matters.readings.is_empty() {
        out += "  none by itself\n";
    }
    for worth in &matters.readings {
        out += &format!("  {}: {}\n", reading(worth), reading_gain(worth, &matters.watched));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn effects_are_said_as_a_maker_would() {
        let words = |outcome, d: f64| effect_words(outcome, Effect::By(d));
        assert_eq!(words(Observable::Texture, 1.18_f64.ln()), "×1.18 thicker");
        assert_eq!(words(Observable::Tang, -(1.02_f64.ln())), "×1.02 less tangy");
        assert_eq!(words(Observable::ReadyFrom, -0.75), "45\u{a0}min sooner");
        assert_eq!(words(Observable::SugarLeft, 0.5), "0.5\u{a0}g/L more");
        assert_eq!(effect_words(Observable::ReadyFrom, Effect::OnlyThen), "only then");
        assert_eq!(effect_words(Observable::ReadyFrom, Effect::NoLonger), "no longer");
    }
}
