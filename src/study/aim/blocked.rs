//! Why nothing reaches what is wanted: the demand that blocks, by how much, and the nearest that can be reached.

use super::choices::Ruled;
use super::discard;
use super::make::hungry;
use super::problem::{Objective, SearchProblem, own_and_others, worth};
use super::proposal::{Count, Proposal, Refused, read};
use super::search::{Found, Looked, Walked, nearest};
use super::stand::{self, Demand, Standing, least};
use super::want::Want;
use crate::base::words::capital;
use crate::study::ask::Ask;

/// Combinations for which it is asked.
const TOP: usize = 4;
/// Combinations besides, that are the most promising for the one demand. Source: assumed.
const OWN_TOP: usize = 2;
/// Settings that are walked from once more. Source: assumed.
const SEEDS: usize = 8;
/// A demand still counts as held within this, steps: settings are rounded, and nobody notices. Source: assumed.
const HELD: f64 = -0.1;

/// What blocks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// A demand that is missed, or a rule.
    Demand,
    /// It is only that prices are missing.
    Prices,
    /// What would work would have to be thrown away.
    Caution,
}

/// Why there is no proposal.
#[derive(Clone, Debug, PartialEq)]
pub struct Blocked {
    pub by: By,
    /// The demand that blocks, in words: "pH ≤ 3.2".
    pub demand: String,
    /// Why, with numbers.
    pub sentence: String,
    /// What to do about it.
    pub mend: String,
    /// How the nearest setting stands to each demand.
    pub standings: Vec<Standing>,
    /// The nearest setting, to look at or to take; all else than what blocks holds in it, where that can be.
    pub nearest: Option<Proposal>,
    /// Why that one must not be used: it would have to be thrown away.
    pub discard: Option<String>,
    /// Levers that stand at an end of their bounds there.
    pub ends: Vec<String>,
}

impl Blocked {
    /// By a rule that leaves nothing for a line.
    pub(super) fn by_rule(ask: &Ask<'_>, ruled: &Ruled) -> Self {
        let Ruled { rule, sentence, mend } = ruled;
        Self::plain(rule.named(ask.design, ask.pantry), sentence.clone(), mend.clone())
    }

    /// A cost that cannot be told.
    pub(super) fn no_price(want: &Want, missing: &[String]) -> Self {
        let what = if missing.is_empty() { "anything".to_owned() } else { missing.join(", ") };
        let sentence = format!("nothing says what {what} cost{}", if missing.len() > 1 { "" } else { "s" });
        let mend = "Write the prices on the tickets in the pantry, and look again".to_owned();
        Self { by: By::Prices, ..Self::plain(want.words(), sentence, mend) }
    }

    fn plain(demand: String, sentence: String, mend: String) -> Self {
        let (standings, ends) = (Vec::new(), Vec::new());
        Self { by: By::Demand, demand, sentence, mend, standings, nearest: None, discard: None, ends }
    }

    /// What the other wants come to when the rule that blocks is given up.
    pub(super) fn reach_without(&mut self, found: Found) {
        let surer = if found.proposals.is_empty() { "" } else { "; a setting that works more often follows" };
        let own = found.as_is.as_ref().filter(|own| own.does());
        if let Some(own) = own {
            let often = own.often();
            self.sentence
                .push_str(&format!(". Without it, your design already does the rest {often}{surer}"));
        } else if !found.proposals.is_empty() {
            let said = if self.by == By::Prices {
                ". All else was looked for without it, and can be reached"
            } else {
                ". All else can be reached without it"
            };
            self.sentence.push_str(said);
        }
        if let Some(first) = found.proposals.into_iter().next() {
            self.standings = first.standings.clone();
            self.nearest = Some(first);
        } else if let Some(inner) = found.blocked {
            self.sentence.push_str(&format!(". Without it, {} blocks too: {}", inner.demand, inner.sentence));
            self.standings = inner.standings;
            (self.nearest, self.discard) = (inner.nearest, inner.discard);
            self.ends = inner.ends;
        }
    }

    /// What it comes to.
    #[must_use]
    pub const fn head(&self) -> &'static str {
        if matches!(self.by, By::Prices) { "Prices are missing" } else { "Nothing reaches it" }
    }

    /// The reason as one line.
    #[must_use]
    pub fn line(&self) -> String {
        let verb = match self.by {
            By::Demand => "blocks",
            By::Prices => "cannot be judged",
            By::Caution => return capital(&self.sentence),
        };
        capital(&format!("{} {verb}: {}", self.demand, self.sentence))
    }

    /// What the setting that comes with it is.
    #[must_use]
    pub fn nearest_head(&self) -> &'static str {
        match &self.nearest {
            Some(nearest) if nearest.holds() => "A setting that reaches all else",
            Some(nearest) if nearest.changes() == 0 => "Your design: nothing that was found comes nearer",
            _ => "The nearest that was found",
        }
    }

    /// The setting that comes with it, if there is one to take: one that changes something, and that is not thrown away.
    #[must_use]
    pub fn to_take(&self) -> Option<&Proposal> {
        self.nearest.as_ref().filter(|nearest| nearest.changes() > 0 && self.discard.is_none())
    }

    /// Why that setting must not be used, in words.
    #[must_use]
    pub fn warning(&self) -> Option<String> {
        self.discard.as_ref().map(|why| format!("Do not use this one: {why}"))
    }

    /// How that setting stands, in one line.
    #[must_use]
    pub fn headline(&self) -> Option<String> {
        let nearest = self.nearest.as_ref()?;
        // The want that was given up is none of those that it was judged by.
        let words = nearest.headline();
        Some(if nearest.holds() {
            words.replacen("All goals hold", "All other goals hold", 1)
        } else {
            words
        })
    }
}

/// What is to be tried: each demand with bounds, alone and while all others hold, for the combinations that are most promising
/// for all demands, and for those that are so for this one.
pub(super) fn raised(order: &[usize], looked: &[Looked], demands: &[Demand]) -> Vec<Walked> {
    let mut all = Vec::new();
    for (demand, by_own) in by_one(looked, demands) {
        let top = &order[..order.len().min(TOP)];
        let own = by_own.into_iter().filter(|at| !top.contains(at)).take(OWN_TOP);
        for at in top.iter().copied().chain(own) {
            let setting = &looked[at].settings[0];
            all.extend([true, false].map(|alone| {
                Walked { at, setting: setting.clone(), objective: Objective::Raised { demand, alone } }
            }));
        }
    }
    all
}

/// Each demand with bounds, and the combinations in the order in which their best settings hold that one demand.
pub(super) fn by_one(looked: &[Looked], demands: &[Demand]) -> Vec<(usize, Vec<usize>)> {
    let ordered = |(demand, places): (usize, std::ops::Range<usize>)| {
        let own = |at: &usize| {
            let each = looked[*at].settings.iter().map(|s| least(&s.margins[places.clone()]));
            each.fold(stand::UNKNOWN, f64::max)
        };
        let mut by_own: Vec<usize> = (0..looked.len()).collect();
        by_own.sort_by(|a, b| own(b).total_cmp(&own(a)));
        (demand, by_own)
    };
    bounded(demands).map(ordered).collect()
}

/// Demands with bounds, and the places of their margins.
fn bounded(demands: &[Demand]) -> impl Iterator<Item = (usize, std::ops::Range<usize>)> + '_ {
    (0..demands.len()).map(|d| (d, stand::places(demands, d))).filter(|(_, places)| !places.is_empty())
}

/// What was tried of single demands: the demand, the margin of it and of all others, and the setting.
fn tried<'a>(walked: &'a [Walked], demands: &'a [Demand]) -> impl Iterator<Item = Tried<'a>> + 'a {
    walked.iter().filter_map(|walked| {
        let Objective::Raised { demand, .. } = walked.objective else { return None };
        let (own, others) = own_and_others(&walked.setting.margins, &stand::places(demands, demand));
        Some(Tried { walked, demand, own, others })
    })
}

struct Tried<'a> {
    walked: &'a Walked,
    demand: usize,
    own: f64,
    others: f64,
}

/// Settings to walk from before it is said that nothing reaches it: what was brought to hold one demand, and came nearest to
/// the others.
pub(super) fn seeds(walked: &[Walked], demands: &[Demand]) -> Vec<Walked> {
    let mut best: Vec<Tried<'_>> = tried(walked, demands).filter(|t| t.own >= HELD).collect();
    best.sort_by(|a, b| b.others.total_cmp(&a.others));
    let mut all: Vec<Walked> = Vec::new();
    for t in best {
        let there = |w: &Walked| w.at == t.walked.at && w.setting == t.walked.setting;
        if all.len() < SEEDS && !all.iter().any(there) {
            all.push(Walked { objective: Objective::Surest, ..t.walked.clone() });
        }
    }
    all
}

/// Puts what was tried into words.
///
/// - `count` — how the nearest setting is read; `trimmed` — takes out of the nearest setting what brings it no nearer.
pub(super) fn told(
    ask: &Ask<'_>,
    looked: &[Looked],
    demands: &[Demand],
    walked: &[Walked],
    refused: &[Refused],
    count: Count,
    trimmed: impl FnOnce(&Proposal) -> Proposal,
) -> Blocked {
    let nothing = |sentence: &str| {
        let mend = "Let more move, or ask for less".to_owned();
        Blocked::plain("what goes in".to_owned(), sentence.to_owned(), mend)
    };
    let Some((near_at, near)) = nearest(looked) else {
        return nothing("No combination of what may go in gives a pot with a forecast");
    };
    let (demand, how, at, values) = match blocking(walked, demands) {
        Some((t, how)) => (t.demand, how, t.walked.at, &t.walked.setting.values),
        None => {
            // The demand that is missed most at the nearest setting.
            let of = |places: std::ops::Range<usize>| least(&near.margins[places]);
            let worst = bounded(demands).min_by(|a, b| of(a.1.clone()).total_cmp(&of(b.1.clone())));
            (worst.map_or(0, |(d, _)| d), How::Together, near_at, &near.values)
        }
    };
    let problem = SearchProblem { ask, made: &looked[at].made, demands };
    let Some(nearest) = read(&problem, &looked[at].combo, values, count).map(|n| trimmed(&n)) else {
        return nothing("The nearest setting gives no forecast");
    };
    let on = Ask { design: &nearest.design, ..*ask };
    let starves = on.run_coarse(0.0).is_ok_and(|run| hungry(&run));
    let discard = on.run().ok().and_then(|run| discard::of_likely(&on, &run));
    let told = Blocked { discard, ..words(demand, how, nearest, refused) };
    let food = "The culture finds nothing that it can live on: let a sugar move, or put one in";
    if starves { Blocked { mend: food.to_owned(), ..told } } else { told }
}

/// The demand that blocks, if one does alone: what is not to be had even with nothing else asked, the one farthest off first;
/// else the want that has to give least while all others hold. What every pot keeps is not given up.
fn blocking<'a>(walked: &'a [Walked], demands: &'a [Demand]) -> Option<(Tried<'a>, How)> {
    let best = |demand: usize, rank: &dyn Fn(&Tried<'_>) -> f64| {
        let all = tried(walked, demands).filter(|t| t.demand == demand && rank(t) > f64::NEG_INFINITY);
        all.max_by(|a, b| rank(a).total_cmp(&rank(b)))
    };
    let alone = bounded(demands).filter_map(|(d, _)| best(d, &|t| t.own)).filter(|t| t.own < HELD);
    if let Some(alone) = alone.min_by(|a, b| a.own.total_cmp(&b.own)) {
        return Some((alone, How::Alone));
    }
    let rank = |t: &Tried<'_>| if t.others >= HELD { worth((t.own, t.others)) } else { f64::NEG_INFINITY };
    let given = |want: bool| {
        let of_kind = bounded(demands).filter(|(d, _)| matches!(demands[*d], Demand::Want(_)) == want);
        of_kind.filter_map(|(d, _)| best(d, &rank)).max_by(|a, b| rank(a).total_cmp(&rank(b)))
    };
    given(true).or_else(|| given(false)).filter(|t| t.own < 0.0).map(|t| (t, How::Gives))
}

/// In which way a demand blocks.
#[derive(Clone, Copy, PartialEq, Eq)]
enum How {
    /// Even with nothing else asked.
    Alone,
    /// When all else holds.
    Gives,
    /// Several stand in each other's way.
    Together,
}

fn words(demand: usize, how: How, nearest: Proposal, refused: &[Refused]) -> Blocked {
    let standings = nearest.standings.clone();
    let Some(own) = standings.get(demand).cloned() else {
        return Blocked::plain(String::new(), String::new(), String::new());
    };
    let stop =
        refused.iter().find_map(|r| if let Refused::Discard(why) = r { Some(why.clone()) } else { None });
    if let (Some(why), true) = (&stop, own.holds()) {
        let sentence = format!("what would work is ruled out by a caution: {why}");
        let mend = "Ask for less, or let more move".to_owned();
        return Blocked {
            by: By::Caution,
            standings,
            ends: nearest.ends.clone(),
            nearest: Some(nearest),
            ..Blocked::plain(why.clone(), sentence, mend)
        };
    }
    let missed: Vec<&Standing> = standings.iter().filter(|s| !s.holds()).collect();
    let reach = if own.value.is_empty() { "it does not hold".to_owned() } else { own.value.clone() };
    let short = if own.short.is_empty() { String::new() } else { format!(", {} short of it", own.short) };
    let is_nearest = if nearest.changes() > 0 {
        format!("{reach} is the nearest that was found{short}")
    } else {
        format!("nothing that was found comes nearer than your design, {reach}{short}")
    };
    // What misses by a hair is missed.
    let how = if how == How::Gives && missed.len() > 1 { How::Together } else { how };
    let (sentence, mend) = match how {
        How::Alone => (
            format!("even with nothing else asked, {is_nearest}"),
            "Ask for less of it, let more move, or start from another design",
        ),
        How::Gives => (
            format!("with all else as wanted, {is_nearest}"),
            "Ask for less of it, or give up one of the others",
        ),
        How::Together => {
            let all: Vec<String> =
                missed
                    .iter()
                    .filter(|s| s.name != own.name)
                    .map(|s| {
                        if s.short.is_empty() {
                            s.name.clone()
                        } else {
                            format!("{} (by {})", s.name, s.short)
                        }
                    })
                    .collect();
            let others =
                if all.is_empty() { String::new() } else { format!("; missed with it: {}", all.join(", ")) };
            (format!("{is_nearest}{others}"), "Give up one of those that are missed")
        }
    };
    let ends = nearest.ends.clone();
    Blocked { standings, nearest: Some(nearest), ends, ..Blocked::plain(own.name, sentence, mend.to_owned()) }
}
