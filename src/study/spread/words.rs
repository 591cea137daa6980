//! A spread in sentences.

use super::{Chance, OutcomeSpread, Spread, WINDOW_CHANCE};
use crate::base::{Note, number};
use crate::study::outcome::Outcome;

/// What is said of a time that the forecast does not reach.
const LATE: &str = "not on this sheet";

/// Pots on one side of the likely one from which on that is said. Source: assumed.
const ASIDE: f64 = 0.65;

/// A span of an outcome: "0.26–7.2 Pa·s", "12.0 h or later".
#[must_use]
pub fn span_words(outcome: Outcome, low: f64, high: f64) -> String {
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

/// A share in words that say no more than it is: "6 in 10".
fn at_least(share: f64) -> String {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a thousand")]
    let of = (share * 1000.0 + 1e-6).floor() as usize;
    Chance { of, among: 1000 }.words()
}

impl OutcomeSpread {
    /// The edges of the wider band alone.
    #[must_use]
    pub fn span_words(&self) -> String {
        let [low, _, _, _, high] = self.edges;
        span_words(self.outcome, low, high)
    }

    /// Its middle and the edges of the wider band: "12.0 h; 9 of 10 pots between 9.1 h and 15.2 h".
    #[must_use]
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

impl Spread {
    /// How likely all goals hold at the stop line.
    #[must_use]
    pub fn stop_sentence(&self) -> String {
        format!("All goals hold at {} in {} pots", number::hours(self.stop_h), self.at_stop.words())
    }

    /// The ready window at the usual chance, or the best that there is.
    #[must_use]
    pub fn window_sentence(&self) -> String {
        let chance = at_least;
        if let Some(window) = self.window(WINDOW_CHANCE) {
            let to = if window.closes.is_some() {
                format!("to {}", number::hours(window.to_h))
            } else {
                "on".to_owned()
            };
            return format!(
                "Ready in {} pots from {} {to}",
                chance(WINDOW_CHANCE),
                number::hours(window.from_h)
            );
        }
        match self.best() {
            Some((_, share)) if share > 0.0 && self.still_rising() => format!(
                "Within {} {} pots are not ready yet: {} are at the end of it, and more would be later",
                number::hours(self.horizon_h),
                chance(WINDOW_CHANCE),
                chance(share)
            ),
            Some((at_h, share)) if share > 0.0 => format!(
                "At no time are {} pots ready: at best {}, at {}",
                chance(WINDOW_CHANCE),
                chance(share),
                number::hours(at_h)
            ),
            _ => format!("None of {} pots is ever ready", self.made()),
        }
    }

    /// Where so many pots are never ready together, the best that there is, in few words; nothing where there is a window.
    #[must_use]
    pub fn window_brief(&self) -> Option<String> {
        if self.window(WINDOW_CHANCE).is_some() {
            return None;
        }
        let line = at_least(WINDOW_CHANCE);
        Some(match self.best() {
            Some((_, share)) if share > 0.0 && self.still_rising() => {
                format!(
                    "not yet {line} within {}: {} and rising",
                    number::hours(self.horizon_h),
                    at_least(share)
                )
            }
            Some((at_h, share)) if share > 0.0 => {
                format!("never {line}: at best {}, at {}", at_least(share), number::hours(at_h))
            }
            _ => format!("none of {} pots ever", self.made()),
        })
    }

    /// Where the likely line lies among the pots, if most are on one side of it.
    #[must_use]
    pub fn likely_sentence(&self) -> Option<String> {
        let later = self.later?;
        let sooner = Chance { of: later.among - later.of, among: later.among };
        let (chance, how) = if later.share() >= ASIDE {
            (later, "later")
        } else if sooner.share() >= ASIDE {
            (sooner, "sooner")
        } else {
            return None;
        };
        Some(format!(
            "The line has every figure at its likely value; {} pots come to pH 4.6 {how} than it does",
            chance.words()
        ))
    }

    /// Everything, a sentence each.
    #[must_use]
    pub fn sentences(&self) -> Vec<String> {
        let mut said = vec![
            format!("Of {} pots that could come of this design:", self.made()),
            self.stop_sentence(),
            self.window_sentence(),
        ];
        for o in &self.outcomes {
            if !matches!(o.outcome, Outcome::Stiffness | Outcome::Sweetness) {
                said.push(format!("{}: {}", o.outcome.name(), o.words()));
            }
        }
        said.extend(self.likely_sentence());
        said.extend(self.cautions.iter().map(|c| c.sentence.clone()));
        said.extend(self.failed_sentence());
        said
    }

    /// Why there is nothing to tell, if not one pot could be made.
    #[must_use]
    pub fn none_made(&self) -> Option<Note> {
        let why = self.failed.first().map_or("", |(why, _)| why.as_str());
        (self.made() == 0).then(|| {
            let title = format!("None of {} pots can be made as planned: {why}", self.tried);
            Note::error("", title, "Leave more room: amounts, label and warmth are never quite as planned")
        })
    }

    /// Which pots could not be made.
    #[must_use]
    pub fn failed_sentence(&self) -> Option<String> {
        let (why, _) = self.failed.first()?;
        let chance = Chance { of: self.tried - self.made(), among: self.tried };
        Some(format!("{} pots cannot be made as planned, and are left out: {why}", chance.words()))
    }
}
