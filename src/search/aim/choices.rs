//! What can only be one thing or another: which base, thickener, culture and warmer, and what a rule forbids that is there.

use super::moves::{AimAsk, ENTRIES};
use super::want::Want;
use potset_doc::edit::LineKind;
use potset_doc::pantry::{BaseKind, Entry, EntryKind, Form, Sterility, Warmer, Warming, find};
use potset_doc::{Design, Pantry};
use potset_forecast::lever::lines::{self, keys};
use potset_forecast::lever::{LeverId, spans};
use potset_forecast::scenario::Scenario;

/// What may be done with a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Pick {
    Keep,
    /// Another entry in its place.
    Swap(String),
    /// An entry where there is none.
    Add(String),
    Remove,
}

/// Where another entry can stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    Line(LineKind, usize),
    /// What keeps the pot warm.
    Warmer,
}

/// A place that can be otherwise, the likeliest pick first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    pub of: Place,
    pub picks: Vec<Pick>,
}

impl Choice {
    /// Another entry, or what is there.
    fn or(of: Place, others: Vec<String>, pick: fn(String) -> Pick) -> Self {
        Self { of, picks: std::iter::once(Pick::Keep).chain(others.into_iter().map(pick)).collect() }
    }

    /// Whether it is of a list.
    pub fn on(&self, shelf: LineKind) -> bool {
        matches!(self.of, Place::Line(s, _) if s == shelf)
    }
}

/// A rule that leaves no pick for a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruled {
    pub rule: Want,
    /// The list, and the name of what stands there; nothing where it is how the base is heated.
    pub line: Option<(LineKind, String)>,
    pub left: Left,
}

/// Why nothing else is left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Left {
    /// It is held.
    Held,
    /// Nothing else of what there is fits; a few names of what would.
    AtHand(Vec<String>),
    /// Nothing else of the pantry fits.
    Pantry,
}

/// A base for a pot is one that is used by the litre; creams and powders go beside one. Source: assumed, by the usual litres.
const POT_LITRES: f64 = 2.0;

/// What a design may be made of.
pub struct Rules<'a> {
    ask: &'a Scenario<'a>,
    wish: &'a AimAsk,
    /// Rules that the design keeps stay kept, though nobody says so; and no allergen that is not in it comes in.
    kept: Vec<Want>,
    allergens: Vec<String>,
}

/// The line of a list in which another entry may be put: of the bases the one with most in it.
pub fn main_line(design: &Design, shelf: LineKind) -> usize {
    let bases = design.bases.iter().enumerate();
    let most = bases.max_by(|a, b| a.1.litres.total_cmp(&b.1.litres).then(b.0.cmp(&a.0)));
    if shelf == LineKind::Bases { most.map_or(0, |(i, _)| i) } else { 0 }
}

impl<'a> Rules<'a> {
    /// The rules of a design and its wants.
    pub fn of(ask: &'a Scenario<'a>, wish: &'a AimAsk) -> Self {
        let entries = || {
            let all =
                LineKind::ALL.into_iter().flat_map(|shelf| keys(ask.design, shelf).map(move |k| (shelf, k)));
            all.filter_map(|(shelf, key)| lines::entry(ask.design, ask.pantry, shelf, key))
        };
        let kept = |rule: &Want| !entries().any(|e| rule.bars(e));
        let kept = [Want::Vegan, Want::GlutenFree].into_iter().filter(kept).collect();
        Self { ask, wish, kept, allergens: entries().flat_map(|e| e.allergens().iter().cloned()).collect() }
    }

    /// An entry, the design's own copy first.
    pub fn entry(&self, shelf: LineKind, key: &str) -> Option<&'a dyn Entry> {
        lines::entry(self.ask.design, self.ask.pantry, shelf, key)
    }

    /// The first rule that keeps an entry out.
    pub fn forbids(&self, entry: &dyn Entry) -> Option<&'a Want> {
        self.wish.wants.iter().find(|want| want.bars(entry))
    }

    /// Whether only what is at hand may be used.
    pub fn at_hand(&self) -> bool {
        self.wish.wants.iter().any(|w| matches!(w, Want::Only(_)))
    }

    /// Whether cooking is allowed.
    pub fn cooking(&self) -> bool {
        !self.wish.wants.contains(&Want::NoCooking)
    }

    /// Whether an entry brings in what the design is free of.
    fn brings(&self, entry: &dyn Entry) -> bool {
        self.kept.iter().any(|rule| rule.bars(entry))
            || entry.allergens().iter().any(|a| !self.allergens.contains(a))
    }

    /// Keys of a list that could stand in a line; where it must change, also those that bring in something new.
    pub fn others(&self, shelf: LineKind, but: &str, must: bool) -> Vec<String> {
        let pantry: &Pantry = self.ask.pantry;
        let usable = |key: &str| match shelf {
            LineKind::Bases => self.pot_base(key),
            LineKind::Cultures => {
                let culture = find(&pantry.cultures, key);
                culture.is_some_and(|c| self.at_hand() || c.form == Form::FreezeDried)
            }
            LineKind::Sugars => find(&pantry.sugars, key).is_some_and(|s| !s.not_food),
            LineKind::Thickeners => true,
            LineKind::Additives => false,
        };
        let all = pantry.entries(shelf.kind()).into_iter().filter(|e| e.key() != but);
        all.filter(|e| usable(e.key()) && self.forbids(*e).is_none() && (must || !self.brings(*e)))
            .map(|e| e.key().to_owned())
            .collect()
    }

    /// Whether a base could be the main one of a pot: used by the litre, and in need of no boil of its own.
    fn pot_base(&self, key: &str) -> bool {
        find(&self.ask.pantry.bases, key).is_some_and(|b| {
            let liquid = b.kind != BaseKind::Water && b.bulk_density.is_none();
            liquid && (self.at_hand() || (b.usual_litres.1 >= POT_LITRES && b.sterility != Sterility::Fresh))
        })
    }

    /// All that can or must be otherwise.
    ///
    /// # Errors
    /// The rule that leaves nothing for a line.
    pub fn choices(&self) -> Result<Vec<Choice>, Ruled> {
        let mut all = Vec::new();
        let heated =
            [LeverId::HeatTo, LeverId::HeatFor].into_iter().any(|lever_id| self.wish.moves.holds(lever_id));
        if heated && !self.cooking() {
            return Err(Ruled { rule: Want::NoCooking, line: None, left: Left::Held });
        }
        for shelf in LineKind::ALL {
            let main = main_line(self.ask.design, shelf);
            let lines: Vec<&str> = keys(self.ask.design, shelf).collect();
            for (line, key) in lines.iter().enumerate() {
                let picks = self.picks((shelf, line), key, line == main, lines.len())?;
                if picks != [Pick::Keep] {
                    all.push(Choice { of: Place::Line(shelf, line), picks });
                }
            }
            if lines.is_empty()
                && shelf == LineKind::Thickeners
                && self.wish.moves.entry(EntryKind::Thickener)
            {
                all.push(Choice::or(Place::Line(shelf, 0), self.others(shelf, "", false), Pick::Add));
            }
        }
        let warmers = self.warmers();
        if !warmers.is_empty() {
            all.push(Choice::or(Place::Warmer, warmers, Pick::Swap));
        }
        Ok(all)
    }

    /// Warmers that could keep the pot warm instead: those that were measured in this kitchen, and where the design's own has no
    /// heater one of the pantry that has. Those with a heater differ in how fast they follow, which one logged pot tells better
    /// than a search: one of them stands for all. Nothing where logged temperatures stand in for the warmer.
    fn warmers(&self) -> Vec<String> {
        let (design, pantry) = (self.ask.design, self.ask.pantry);
        let hold =
            design.hold().filter(|h| h.measured.is_empty() && self.wish.moves.entry(EntryKind::Warmer));
        let Some(hold) = hold else { return Vec::new() };
        let (usual_low, usual_high) = spans::CULTURE_IN.usual.unwrap_or(spans::CULTURE_IN.range);
        let (low, high) = (usual_low.min(hold.set_c), usual_high.max(hold.set_c));
        let room = |w: &Warmer| w.holds_litres.is_none_or(|most| most >= design.litres());
        let fits = |w: &&Warmer| w.key != hold.warmer && room(w) && w.usual.0 <= high && w.usual.1 >= low;
        let heated = |w: &Warmer| matches!(w.warming, Warming::Heated { .. });
        let own = self.ask.kitchen.warmers.iter().filter_map(|m| find(&pantry.warmers, &m.key)).filter(fits);
        let mut all: Vec<String> = own.map(|w| w.key.clone()).collect();
        let has_heater = design.entry(pantry, &hold.warmer).is_none_or(heated);
        if !has_heater && !self.at_hand() {
            let one = pantry.warmers.iter().filter(fits).find(|w| heated(w) && !all.contains(&w.key));
            all.extend(one.map(|w| w.key.clone()));
        }
        all
    }

    fn picks(
        &self,
        (shelf, line): (LineKind, usize),
        key: &str,
        main: bool,
        lines: usize,
    ) -> Result<Vec<Pick>, Ruled> {
        let Some(entry) = self.entry(shelf, key) else { return Ok(vec![Pick::Keep]) };
        let rule = self.forbids(entry);
        let amount_held = self.wish.moves.holds_line(shelf, line);
        let kind = shelf.kind();
        let listed = ENTRIES.contains(&kind);
        let entry_moves = main && listed && self.wish.moves.entry(kind) && !amount_held;
        let held = amount_held || (main && listed && !self.wish.moves.entry(kind));
        let mut picks = Vec::new();
        match rule {
            None => {
                picks.push(Pick::Keep);
                if entry_moves {
                    picks.extend(self.others(shelf, key, false).into_iter().map(Pick::Swap));
                }
            }
            Some(rule) => {
                let needed = matches!(shelf, LineKind::Bases | LineKind::Cultures) && (main || lines == 1);
                if !needed && !amount_held {
                    picks.push(Pick::Remove);
                }
                if !held && shelf != LineKind::Additives {
                    picks.extend(self.others(shelf, key, true).into_iter().map(Pick::Swap));
                }
                if picks.is_empty() {
                    return Err(self.ruled(rule, shelf, entry, held));
                }
            }
        }
        Ok(picks)
    }

    fn ruled(&self, rule: &Want, shelf: LineKind, entry: &dyn Entry, held: bool) -> Ruled {
        let left = match (held, self.at_hand()) {
            (true, _) => Left::Held,
            (false, true) => Left::AtHand(self.fits(shelf)),
            (false, false) => Left::Pantry,
        };
        Ruled { rule: rule.clone(), line: Some((shelf, entry.name().to_owned())), left }
    }

    /// A few names of entries that all rules but the list at hand let in.
    fn fits(&self, shelf: LineKind) -> Vec<String> {
        let all = self.ask.pantry.entries(shelf.kind()).into_iter();
        let lets = |e: &dyn Entry| self.wish.wants.iter().all(|w| matches!(w, Want::Only(_)) || !w.bars(e));
        let usable = |e: &dyn Entry| match shelf {
            LineKind::Bases => find(&self.ask.pantry.bases, e.key())
                .is_some_and(|b| b.usual_litres.1 >= POT_LITRES && b.kind != BaseKind::Water),
            _ => true,
        };
        all.filter(|e| lets(*e) && usable(*e)).map(|e| e.name().to_owned()).take(3).collect()
    }
}
