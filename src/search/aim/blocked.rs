//! Why nothing reaches what is wanted: the demand that blocks, by how much, and the nearest that can be reached.

use super::choices::Ruled;
use super::proposal::{Proposal, Refused};
use super::stand::Standing;
use super::want::Want;
use potset_base::words::capital;
use potset_forecast::scenario::Ask;

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

    pub(super) fn plain(demand: String, sentence: String, mend: String) -> Self {
        let (standings, ends) = (Vec::new(), Vec::new());
        Self { by: By::Demand, demand, sentence, mend, standings, nearest: None, discard: None, ends }
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

/// In which way a demand blocks.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum How {
    /// Even with nothing else asked.
    Alone,
    /// When all else holds.
    Gives,
    /// Several stand in each other's way.
    Together,
}

/// What blocks, by the nearest setting that was found.
pub(super) fn words(demand: usize, how: How, nearest: Proposal, refused: &[Refused]) -> Blocked {
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
