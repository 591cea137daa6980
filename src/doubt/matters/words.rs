//! What matters in sentences.

use super::{Effect, Find, LeverEffect, Matters, Scale, Watched, Way, Worth};
use potset_base::number;
use potset_forecast::observable::Observable;

/// A band that is narrowed to more than this share of its width is not told in figures: they would hardly differ. Source:
/// assumed.
const WORTH_TELLING: f64 = 0.95;

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

impl LeverEffect {
    /// What is turned, and by how much: "Cold-swelling rice starch +1.0 g/L", "Hold at: back to usual (40.0 °C)".
    pub fn name(&self) -> String {
        if self.way != Way::Little {
            let to = self.lever.value + self.by;
            let to = match self.lever.lever_id {
                lever_id if lever_id.is_rate() => format!("{} × packet", number::plain(to)),
                _ => self.lever.words(to),
            };
            let rest = if self.way == Way::BackWithTheRest { ", with all else usual" } else { "" };
            return format!("{}: back to usual ({to}){rest}", self.lever.name);
        }
        let sign = if self.by > 0.0 { "+" } else { "" };
        let by = match self.lever.lever_id {
            lever_id if lever_id.is_rate() => format!("{} of the packet rate", number::fixed(self.by, 1)),
            _ => self.lever.words(self.by),
        };
        format!("{} {sign}{by}", self.lever.name)
    }

    /// What it changes of the verdict, and its effects that a person would notice, or else the strongest one.
    pub fn effects_words(&self) -> String {
        // What the verdict says of the time is not said again.
        let said_by_then = |i: &usize| {
            let (outcome, effect) = self.effects[*i];
            let time = matches!(outcome, Observable::SourAt | Observable::ReadyFrom);
            self.way != Way::Little && self.verdict.is_some() && time && effect == Effect::OnlyThen
        };
        let mut order: Vec<usize> = (0..self.effects.len()).filter(|i| !said_by_then(i)).collect();
        order.sort_by(|a, b| self.steps(*b).total_cmp(&self.steps(*a)));
        let kept = order.iter().enumerate().filter(|(k, i)| *k == 0 || self.steps(**i) >= 0.5).take(3);
        let said: Vec<String> = self
            .verdict
            .map(|v| v.words().to_owned())
            .into_iter()
            .chain(kept.map(|(_, i)| {
                let (outcome, effect) = self.effects[*i];
                // Only these say by themselves what they are of.
                let by_itself = matches!(outcome, Observable::Texture | Observable::Tang);
                if by_itself && matches!(effect, Effect::By(_)) {
                    effect_words(outcome, effect)
                } else {
                    format!("{} {}", head(outcome), effect_words(outcome, effect))
                }
            }))
            .collect();
        said.join(", ")
    }
}

/// By what the levers are ranked.
pub const RANKED: &str = "first what changes the verdict, then the strongest: by a tenth of the usual span of each, by the \
                          step told where there is none, and by the whole way where it goes back to usual";

/// What the shares of doubts are.
pub const SHARES: &str = "A share of a doubt is what a straight line through it explains of how the pots vary (variance); what \
                          no such line explains is bent, or comes of several together";

/// What is said where times are reckoned as 1/h.
pub const PER_HOUR: &str = "Times that some pots never reach are shared out as 1/h";

impl Scale {
    /// What is said after a share where its scale is not that of the outcome.
    const fn as_words(self) -> &'static str {
        match self {
            Self::Own => "",
            Self::PerHour => ", as 1/h",
        }
    }
}

impl Watched {
    /// How much straight lines explain, and of what.
    pub fn explained_words(&self) -> String {
        let share = number::fixed(100.0 * self.explained, 0);
        format!(
            "a straight line through each doubt explains {share}{}%{}",
            number::NBSP,
            self.scale.as_words()
        )
    }
}

impl Find {
    /// What finding out does to the outcome that it does most to: "ready from ± 5.1 h to ± 1.5 h".
    pub fn gain_words(&self, watched: &[Watched]) -> String {
        let most = (0..watched.len()).max_by(|a, b| self.shares[*a].total_cmp(&self.shares[*b]));
        let Some(i) = most else { return String::new() };
        let w = &watched[i];
        let share = number::fixed(100.0 * self.shares[i], 0);
        let of =
            format!("{share}{}% of the doubt about {}{}", number::NBSP, head(w.outcome), w.scale.as_words());
        match self.narrows(i).filter(|f| *f < WORTH_TELLING).and_then(|f| w.narrowed_words(f)) {
            Some(after) => format!("{}: {after} instead of {} ({of})", head(w.outcome), w.span_words()),
            None => of,
        }
    }
}

impl Worth {
    /// When to take it.
    pub fn when(&self) -> String {
        self.at_h.map_or_else(|| "before the hold".to_owned(), |h| format!("at {}", number::hours(h)))
    }

    /// What it does to the bands that it narrows most, two at the most.
    pub fn gain_words(&self, watched: &[Watched]) -> String {
        let mut order: Vec<usize> = (0..watched.len()).collect();
        order.sort_by(|a, b| self.narrows[*a].total_cmp(&self.narrows[*b]));
        let said: Vec<String> = order
            .iter()
            .take(2)
            .filter(|i| self.narrows[**i] < WORTH_TELLING)
            .map(|i| {
                let (w, f) = (&watched[*i], self.narrows[*i]);
                w.narrowed_words(f).map_or_else(
                    || {
                        let told = number::fixed(100.0 * (1.0 - f * f), 0);
                        format!(
                            "tells {told}{}% of the doubt about {}{}",
                            number::NBSP,
                            head(w.outcome),
                            w.scale.as_words()
                        )
                    },
                    |after| format!("{} {after} instead of {}", head(w.outcome), w.span_words()),
                )
            })
            .collect();
        said.join(", ")
    }
}

impl Matters {
    /// What the shares are of, where any are told.
    pub fn share_sentences(&self) -> Vec<&'static str> {
        let any = (!self.watched.is_empty()).then_some(SHARES);
        let per_hour = self.watched.iter().any(|w| w.scale == Scale::PerHour).then_some(PER_HOUR);
        any.into_iter().chain(per_hour).collect()
    }

    /// Levers of which nobody notices anything, if there are any.
    pub fn unnoticed_sentence(&self) -> Option<String> {
        let names = self.unnoticed.join(", ");
        (!names.is_empty()).then(|| format!("Small changes of these hardly matter: {names}"))
    }

    /// Everything as plain text, for the command line and the clipboard.
    pub fn text(&self) -> String {
        let mut out = format!(
            "From {} pots that could come of this design.\n\nWhat 9 of 10 of them come to\n",
            self.pots
        );
        for w in &self.watched {
            let never = if w.never.of > 0 {
                format!(", not on this sheet in {}", w.never.words())
            } else {
                String::new()
            };
            out +=
                &format!("  {:<25} {}{never}; {}\n", w.outcome.name(), w.span_words(), w.explained_words());
        }
        for said in self.share_sentences() {
            out += &format!("  {said}\n");
        }
        for left_out in &self.left_out {
            out += &format!("  {left_out}\n");
        }
        out += &format!("\nWhat you can turn ({RANKED})\n");
        let width = self.turns.iter().map(|t| t.name().chars().count()).max().unwrap_or(0);
        for turn in &self.turns {
            out += &format!("  {:<width$}  {}\n", turn.name(), turn.effects_words());
        }
        out += &self.unnoticed_sentence().map_or_else(String::new, |said| format!("  {said}\n"));
        out += "\nWhat you can find out\n";
        for find in &self.finds {
            out += &format!("  {}\n      {}: {}\n", find.what, find.how, find.gain_words(&self.watched));
        }
        out += "\nWhich reading tells most\n";
        if self.readings.is_empty() {
            out += "  none by itself\n";
        }
        for worth in &self.readings {
            out += &format!("  {}, {}: {}\n", worth.reading, worth.when(), worth.gain_words(&self.watched));
        }
        out
    }
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
