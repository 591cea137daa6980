//! How a run stands to each demand, in words: its name, what it comes to, what is missing.

use super::{Demand, Late, MOST, Seen, cooks, sides, span, texture_words};
use crate::aim::want::{Bounds, Want};
use potset_base::number;
use potset_base::words::TextureWord;
use potset_forecast::outcome::Outcome;
use potset_forecast::scenario::{Ask, Run};
use potset_judge::chance::Chance;
use potset_science::params::Laws;

/// More figures than usual that a number may be given.
const FINEST: usize = 9;

/// How one demand stands: its least margin and what it is there.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// In words: "pH ≤ 4.3".
    pub name: String,
    /// Steps that a person notices; 0 or more: it holds.
    pub margin: f64,
    /// The value there in words; empty for rules.
    pub value: String,
    /// What is missing in the unit of the demand, "0.25 h"; empty where it holds, or where it is not a number.
    pub short: String,
    /// In how many possible pots it holds, where they were counted and that is not all of them.
    pub often: Option<Chance>,
}

impl Standing {
    /// Whether it holds.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.margin >= 0.0
    }

    /// "pH ≥ 4.5: 4.20, missed by 0.30".
    #[must_use]
    pub fn words(&self) -> String {
        let Self { name, value, short, .. } = self;
        let missed = match (self.holds(), short.as_str()) {
            (true, _) => String::new(),
            (false, "") => "missed".to_owned(),
            (false, short) => format!("missed by {short}"),
        };
        let often = self.often.map_or_else(String::new, |c| format!("in {} of {} pots", c.of, c.among));
        let told: Vec<&str> =
            [value.as_str(), &missed, &often].into_iter().filter(|s| !s.is_empty()).collect();
        if told.is_empty() { name.clone() } else { format!("{name}: {}", told.join(", ")) }
    }

    /// "pH ≥ 4.5 is missed by 0.30".
    #[must_use]
    pub fn miss(&self) -> String {
        let by = if self.short.is_empty() { String::new() } else { format!(" by {}", self.short) };
        format!("{} is missed{by}", self.name)
    }
}

/// How a run stands to each demand, rules included.
#[must_use]
pub fn standings(ask: &Ask<'_>, run: &Run, demands: &[Demand]) -> Vec<Standing> {
    let seen = Seen::of(ask, run, demands);
    demands.iter().map(|demand| standing(ask, run, demand, &seen)).collect()
}

fn standing(ask: &Ask<'_>, run: &Run, demand: &Demand, seen: &Seen) -> Standing {
    let laws = &run.mix.laws;
    let least = |sides: Vec<f64>| sides.into_iter().fold(MOST, f64::min);
    let margin = match demand {
        Demand::Want(want @ (Want::Vegan | Want::GlutenFree | Want::NoCooking | Want::Only(_))) => {
            if kept(ask, run, want) { MOST } else { -1.0 }
        }
        other => least(sides(other, seen, laws)),
    };
    let name = name(ask, run, demand, seen);
    if let (Demand::InTime, Some(late)) = (demand, seen.late) {
        let (value, short) = in_time(late, margin >= 0.0);
        return Standing { name, margin, value, short, often: None };
    }
    if let (Some((low, high)), true) = (texture_words(demand), margin < 0.0)
        && let Some((value, short)) = cut(low, high, seen, laws)
    {
        return Standing { name, margin, value, short, often: None };
    }
    let known = span(demand, seen, &laws.words).and_then(|(o, bounds)| Some((o, seen.value(o)?, bounds)));
    let (value, short) = match (demand, known) {
        (_, Some((o, v, bounds))) if margin < 0.0 => {
            let off = bounds.low.map_or(0.0, |low| low - v).max(bounds.high.map_or(0.0, |high| v - high));
            (beside(o, v, bounds), if off > 0.0 { missing(o, off) } else { String::new() })
        }
        (_, Some((o, v, _))) => (o.finely(v, 0).0, String::new()),
        (Demand::Want(Want::Within(..)), None) => ("not known".to_owned(), String::new()),
        _ => Default::default(),
    };
    Standing { name, margin, value, short, often: None }
}

/// What is missing where it is not thickness that decides: a pot is cut, or it is not. Nothing where thickness does.
fn cut(low: TextureWord, high: TextureWord, seen: &Seen, laws: &Laws) -> Option<(String, String)> {
    let (is, needs) = (seen.value(Outcome::Stiffness).unwrap_or(f64::NAN), laws.words.cuts_above_pa);
    let words = |pa: f64| Outcome::Stiffness.words(pa);
    match (low, high, seen.outcomes.cuts()) {
        (TextureWord::Cuts, _, false) if is < needs => {
            Some((format!("stiffness {}", words(is)), format!("{} of stiffness", words(needs - is))))
        }
        (TextureWord::Cuts, _, false) => {
            let is = words(is);
            Some((
                format!("stiffness {is}, which is enough, but it does not set in one piece"),
                String::new(),
            ))
        }
        (_, TextureWord::Pours | TextureWord::Ribbons | TextureWord::Dollops | TextureWord::Stands, true) => {
            Some((format!("it sets so that it is cut, stiffness {}", words(is)), String::new()))
        }
        _ => None,
    }
}

/// A value with as many figures as it takes to see on which side of its bounds it is.
fn beside(outcome: Outcome, v: f64, Bounds { low, high }: Bounds) -> String {
    let sides = |v: f64| (low.is_none_or(|low| v >= low), high.is_none_or(|high| v <= high));
    as_finely(outcome, v, |shown| sides(shown) == sides(v))
}

/// What is missing, never as nought.
fn missing(outcome: Outcome, off: f64) -> String {
    as_finely(outcome, off, |shown| shown > 0.0)
}

/// A value with the fewest figures that still tell something.
fn as_finely(outcome: Outcome, v: f64, tells: impl Fn(f64) -> bool) -> String {
    let all = (0..FINEST).map(|more| outcome.finely(v, more));
    all.into_iter().find(|(_, shown)| tells(*shown)).unwrap_or_else(|| outcome.finely(v, 0)).0
}

/// When it was sour, beside when it has to be; and by how much that is missed.
fn in_time(late: Late, holds: bool) -> (String, String) {
    let hours = |h: f64| number::with_unit(h, 1, "h");
    let line = number::plain(late.line);
    let most = format!("{}{}h at most", number::plain(late.by_h), number::NBSP);
    match late.after_h {
        Some(after) => {
            let over = after - late.by_h;
            let short = if holds || over <= 0.0 { String::new() } else { hours_beside(over, 0.0) };
            (format!("pH {line} after {}, {most}", hours_beside(after, late.by_h)), short)
        }
        None => {
            let still = Outcome::Ph.words(late.ph);
            (
                format!("still pH {still} after {}, and pH {line} wanted by then", hours(late.by_h)),
                String::new(),
            )
        }
    }
}

/// Hours with as many decimals as it takes to see on which side of a time they are.
fn hours_beside(h: f64, line: f64) -> String {
    let shown = |d: &usize| number::fixed(h, *d).parse::<f64>().is_ok_and(|v| (v > line) == (h > line));
    number::with_unit(h, (1..FINEST).find(shown).unwrap_or(FINEST), "h")
}

fn name(ask: &Ask<'_>, run: &Run, demand: &Demand, seen: &Seen) -> String {
    match demand {
        Demand::Want(want) => want.named(ask.design, ask.pantry),
        // The number, and why it is this one.
        Demand::DoneAsNow(now) if *now < seen.release_ph => {
            format!("pH {} or lower (as now)", number::fixed(*now, 1))
        }
        Demand::Done | Demand::DoneAsNow(_) => {
            format!("pH {} or lower ({})", number::fixed(seen.release_ph, 1), because(ask, run, seen))
        }
        Demand::InTime => "sours soon enough".to_owned(),
        Demand::TextureAsNow(word) => format!("texture {} (as now)", word.word()),
    }
}

/// Why a pot is ready at this pH and no higher: see `readiness::release_ph`.
fn because(ask: &Ask<'_>, run: &Run, seen: &Seen) -> String {
    let goals = &ask.design.goals;
    if goals.ph_at_most.is_some() {
        return "your design's own goal".to_owned();
    }
    let ready = &run.mix.laws.ready;
    if seen.release_ph > 0.5 * (ready.release_ph + ready.release_ph_strict) {
        return "sour enough".to_owned();
    }
    let mut why = Vec::new();
    if run.facts.starchy {
        why.push("with starch");
    }
    if goals.frail_eaters {
        why.push("for frail eaters");
    }
    if why.is_empty() {
        why.push("with a fresh base in it");
    }
    format!("needed {}", why.join(" and "))
}

/// Whether a pot keeps a rule.
fn kept(ask: &Ask<'_>, run: &Run, rule: &Want) -> bool {
    let going_in = &run.facts.content.ingoing;
    match rule {
        Want::Vegan => going_in.iter().all(|i| i.vegan),
        Want::GlutenFree => going_in.iter().all(|i| i.gluten_free),
        Want::NoCooking => !ask.design.steps.iter().any(cooks),
        Want::Only(keys) => {
            let d = ask.design;
            let bases = d.bases.iter().map(|l| &l.entry);
            let dry = d.sugars.iter().map(|l| &l.entry).chain(d.thickeners.iter().map(|l| &l.entry));
            let rest = d.additives.iter().map(|l| &l.entry).chain(d.cultures.iter().map(|l| &l.entry));
            bases.chain(dry).chain(rest).all(|key| keys.contains(key))
        }
        Want::Called(..) | Want::Within(..) => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_miss_is_told_in_as_many_figures_as_it_needs() {
        let nb = number::NBSP;
        assert_eq!(missing(Outcome::Ph, 0.3), "0.30");
        assert_eq!(missing(Outcome::Ph, 0.0004), "0.0004");
        assert_eq!(missing(Outcome::SugarLeft, 0.004), format!("0.004{nb}g/L"));
        assert_eq!(missing(Outcome::ReadyFrom, 0.004), format!("0.004{nb}h"));
        assert_eq!(missing(Outcome::ReadyFrom, 1.5), format!("1{nb}h 30{nb}min"));
        // A value beyond its bound is not printed as the bound.
        assert_eq!(beside(Outcome::Ph, 4.3004, Bounds { low: None, high: Some(4.3) }), "4.3004");
        assert_eq!(beside(Outcome::Ph, 4.496, Bounds { low: Some(4.5), high: None }), "4.496");
        assert_eq!(beside(Outcome::Ph, 4.2, Bounds { low: Some(4.5), high: None }), "4.20");
        let miss = |short: &str| Standing {
            name: "pH ≤ 4.3".to_owned(),
            margin: -0.1,
            value: "4.31".to_owned(),
            short: short.to_owned(),
            often: None,
        };
        assert_eq!(miss("0.01").words(), "pH ≤ 4.3: 4.31, missed by 0.01");
        assert_eq!(miss("").miss(), "pH ≤ 4.3 is missed");
    }

    #[test]
    fn in_time_is_told_by_the_hour() {
        let nb = number::NBSP;
        let late = |after_h| Late { by_h: 24.0, ph: 4.9, line: 4.6, after_h };
        assert_eq!(in_time(late(Some(11.2)), true).0, format!("pH 4.6 after 11.2{nb}h, 24{nb}h at most"));
        assert_eq!(in_time(late(Some(26.5)), false).1, format!("2.5{nb}h"));
        // A hair is told as a hair.
        let hair = in_time(late(Some(24.004)), false);
        assert_eq!(hair, (format!("pH 4.6 after 24.004{nb}h, 24{nb}h at most"), format!("0.004{nb}h")));
        assert!(in_time(late(None), false).0.starts_with("still pH 4.90 after 24.0"));
    }
}
