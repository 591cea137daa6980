//! A spread in sentences.

use potset_base::chance::Chance;
use potset_base::{Note, number};
use potset_doubt::spread::{Aside, CautionChance, Curve, OutcomeSpread, Spread, TOO_MANY};
use potset_forecast::observable::Observable;
use potset_judge::keeping::DayRange;
use potset_judge::verdict::Verdict;

/// What is said of a time that the forecast does not reach.
const LATE: &str = "not in the hours shown";

/// A span of an outcome: "0.26–7.2 Pa·s", "12.0 h or later".
pub fn span_words(outcome: Observable, low: f64, high: f64) -> String {
    let said = |v: f64| outcome.words(v);
    match (low.is_finite(), high.is_finite()) {
        (true, true) => {
            let bare = said(low);
            let low = bare.strip_suffix(outcome.unit()).unwrap_or(&bare).trim_end();
            format!("{low}–{}", said(high))
        }
        (true, false) => format!("{} or later", said(low)),
        _ => LATE.to_owned(),
    }
}

/// The edges of the wider band alone.
pub fn outcome_span(o: &OutcomeSpread) -> String {
    let [low, _, _, _, high] = o.edges;
    span_words(o.outcome, low, high)
}

/// Its middle and the edges of the wider band: "12.0 h; usually between 9.1 h and 15.2 h".
pub fn outcome(o: &OutcomeSpread) -> String {
    let [low, _, middle, _, high] = o.edges;
    let said = |v: f64| if v.is_finite() { o.outcome.words(v) } else { LATE.to_owned() };
    let most = match (low.is_finite(), high.is_finite()) {
        (true, true) => format!("usually between {} and {}", said(low), said(high)),
        (true, false) => format!("before {} in 1 of 20 pots", said(low)),
        (false, _) if o.never.of > 0 => return format!("in {} pots {LATE}", o.never.words()),
        (false, _) => return format!("in 19 of 20 pots {LATE}"),
    };
    let never = if o.never.of > 0 && low.is_finite() {
        format!("; in {} {LATE}", o.never.words())
    } else {
        String::new()
    };
    format!("{}; {most}{never}", said(middle))
}

/// The range of possible pots on a day, in words: "Day 7 in the fridge: usually pH 4.05-4.31, ...".
pub fn day_sentence(range: &DayRange) -> String {
    let span =
        |edges: [f64; 3], said: &dyn Fn(f64) -> String| format!("{}–{}", said(edges[0]), said(edges[2]));
    let fixed = |decimals| move |v: f64| number::fixed(v, decimals);
    let mut out = format!(
        "Day {} in the fridge, usually: pH {}; acidity {} %; {} Pa·s at 50 1/s",
        number::plain(range.days),
        span(range.ph, &fixed(2)),
        span(range.titratable, &fixed(2)),
        span(range.viscosity, &|v| number::figures(v, 2)),
    );
    for (name, edges) in &range.counts {
        out += &format!("; {name} {}", span(*edges, &fixed(1)));
    }
    out + if range.counts.is_empty() { "" } else { " (log10 of living cells in a gram)" }
}

/// Where the likely line does not lie in the middle of the pots, and why.
pub fn aside(aside: &Aside) -> String {
    let above = aside.above.share() > 0.5;
    let pots = if above { aside.above } else { aside.above.rest() }.words();
    let (way, why) = match aside.curve {
        Curve::Chilled if above => ("thicker", SETS),
        Curve::Chilled => ("thinner", SETS),
        Curve::Sugar if above => ("sweeter", SLOWS),
        Curve::Sugar => ("less sweet", SLOWS),
        _ if above => ("less sour", SLOWS),
        _ => ("more sour", SLOWS),
    };
    format!("At {} {pots} pots are {way} than the likely line. {why}", number::hours(aside.at_h))
}

/// Why the line of thickness may lie aside.
const SETS: &str = "Pots set quickly then, and some set earlier";
/// Why the lines of souring may lie aside.
const SLOWS: &str = "A hindrance slows a culture more than a help speeds it up";

/// How many possible pots are to be thrown away.
pub fn caution(caution: &CautionChance) -> String {
    format!("{} possible pots would have to be thrown away", caution.chance.words())
}

/// What stands above all else where nothing speaks against the likely pot: that too many of the possible ones would have to be
/// thrown away.
pub fn watch(spread: &Spread, verdict: &Verdict) -> Option<String> {
    if verdict.against.is_some() {
        return None;
    }
    let too_many = |c: &&CautionChance| c.chance.share() >= TOO_MANY;
    spread.cautions.iter().find(too_many).map(|c| format!("Watch it: {}", caution(c)))
}

/// Everything, a sentence each.
pub fn sentences(spread: &Spread) -> Vec<String> {
    let (stop, at_stop) = (number::hours(spread.stop_h), spread.at_stop.words());
    let mut said = vec![
        format!("Of {} possible pots of this design:", spread.made()),
        format!("All goals hold at {stop} in {at_stop} pots"),
    ];
    for o in &spread.outcomes {
        if !matches!(o.outcome, Observable::Stiffness | Observable::Sweetness) {
            said.push(format!("{}: {}", o.outcome.name(), outcome(o)));
        }
    }
    said.extend(spread.kept.iter().map(day_sentence));
    said.extend(spread.asides.iter().map(aside));
    said.extend(spread.cautions.iter().map(caution));
    said.extend(failed(spread));
    said
}

/// Why there is nothing to tell, if not one pot could be made.
pub fn none_made(spread: &Spread) -> Option<Note> {
    let why = spread.failed.first().map_or("", |(why, _)| why.as_str());
    (spread.made() == 0).then(|| {
        let title = format!("None of {} pots can be made as planned: {why}", spread.tried);
        Note::error("", title, "Leave more room: amounts, label and warmth are never quite as planned")
    })
}

/// Which pots could not be made.
pub fn failed(spread: &Spread) -> Option<String> {
    let (why, _) = spread.failed.first()?;
    let chance = Chance { of: spread.tried - spread.made(), among: spread.tried };
    Some(format!("{} pots cannot be made as planned, and are left out: {why}", chance.words()))
}
