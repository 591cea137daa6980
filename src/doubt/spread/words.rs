//! A spread in sentences.

use super::{Aside, Chance, Curve, OutcomeSpread, Spread};
use potset_base::{Note, number};
use potset_forecast::observable::Observable;
use potset_judge::keeping::DayRange;

/// What is said of a time that the forecast does not reach.
const LATE: &str = "not on this sheet";

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

impl OutcomeSpread {
    /// The edges of the wider band alone.
    pub fn span_words(&self) -> String {
        let [low, _, _, _, high] = self.edges;
        span_words(self.outcome, low, high)
    }

    /// Its middle and the edges of the wider band: "12.0 h; 9 of 10 pots between 9.1 h and 15.2 h".
    pub fn words(&self) -> String {
        let [low, _, middle, _, high] = self.edges;
        let said = |v: f64| if v.is_finite() { self.outcome.words(v) } else { LATE.to_owned() };
        let most = match (low.is_finite(), high.is_finite()) {
            (true, true) => format!("9 of 10 pots between {} and {}", said(low), said(high)),
            (true, false) => format!("19 of 20 pots not before {}", said(low)),
            (false, _) if self.never.of > 0 => return format!("{LATE} in {} pots", self.never.words()),
            (false, _) => return format!("{LATE} in 19 of 20 pots"),
        };
        let never = if self.never.of > 0 && low.is_finite() {
            format!("; {LATE} in {}", self.never.words())
        } else {
            String::new()
        };
        format!("{}; {most}{never}", said(middle))
    }
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

impl Aside {
    fn sentence(&self) -> String {
        let above = self.above.share() > 0.5;
        let other = Chance { of: self.above.among - self.above.of, among: self.above.among };
        let pots = if above { self.above } else { other }.words();
        let (way, why) = match self.curve {
            Curve::Chilled if above => ("thicker", SETS),
            Curve::Chilled => ("thinner", SETS),
            Curve::Sugar if above => ("sweeter", SLOWS),
            Curve::Sugar => ("less sweet", SLOWS),
            _ if above => ("less sour", SLOWS),
            _ => ("more sour", SLOWS),
        };
        format!("At {} {pots} pots are {way} than the likely line. {why}", number::hours(self.at_h))
    }
}

/// Why the line of thickness may lie aside.
const SETS: &str = "A pot sets quickly then, and some have set before it";
/// Why the lines of souring may lie aside.
const SLOWS: &str = "What slows a culture slows it more than what helps speeds it up";

impl Spread {
    /// How likely all goals hold at the stop line.
    pub fn stop_sentence(&self) -> String {
        format!("All goals hold at {} in {} pots", number::hours(self.stop_h), self.at_stop.words())
    }

    /// Where the likely line does not lie in the middle of the pots, and why: one sentence a figure.
    pub fn aside_sentences(&self) -> Vec<String> {
        self.asides.iter().map(Aside::sentence).collect()
    }

    /// Everything, a sentence each.
    pub fn sentences(&self) -> Vec<String> {
        let mut said =
            vec![format!("Of {} pots that could come of this design:", self.made()), self.stop_sentence()];
        for o in &self.outcomes {
            if !matches!(o.outcome, Observable::Stiffness | Observable::Sweetness) {
                said.push(format!("{}: {}", o.outcome.name(), o.words()));
            }
        }
        said.extend(self.kept.iter().map(day_sentence));
        said.extend(self.aside_sentences());
        said.extend(self.cautions.iter().map(|c| c.sentence.clone()));
        said.extend(self.failed_sentence());
        said
    }

    /// Why there is nothing to tell, if not one pot could be made.
    pub fn none_made(&self) -> Option<Note> {
        let why = self.failed.first().map_or("", |(why, _)| why.as_str());
        (self.made() == 0).then(|| {
            let title = format!("None of {} pots can be made as planned: {why}", self.tried);
            Note::error("", title, "Leave more room: amounts, label and warmth are never quite as planned")
        })
    }

    /// Which pots could not be made.
    pub fn failed_sentence(&self) -> Option<String> {
        let (why, _) = self.failed.first()?;
        let chance = Chance { of: self.tried - self.made(), among: self.tried };
        Some(format!("{} pots cannot be made as planned, and are left out: {why}", chance.words()))
    }
}
