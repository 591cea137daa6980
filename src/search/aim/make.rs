//! Makes one combination of picks a design that works: its mends are made, its doses are usual, its levers are ready to turn.

use super::choices::{Choice, Pick, Place, Rules};
use super::moves::{AimAsk, Beyond, Movable};
use super::turn::SearchLever;
use super::turns::{held_bases, removed, turns};
use potset_base::Severity;
use potset_doc::design::{GoesIn, SweetWhen};
use potset_doc::edit::{self, LineKind};
use potset_doc::pantry::{EntryKind, Warmer, find};
use potset_doc::{Design, Edit};
use potset_forecast::lever::lines::key_at;
use potset_forecast::lever::{LeverId, levers};
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::mends::{self, FOOD, cooks};
use potset_judge::thickeners;
use potset_science::texture::inputs::AgentKind;

/// Rounds of mends; each may bring the next to light: cooked agar then sets too early.
const ROUNDS: usize = 3;
/// Sugar that a culture needs to find to sour a pot at all, g/kg; as the verdict has it.
const EDIBLE: f64 = 0.5;
/// Share of its stiffness that a gelling agent must have, for want of calcium or milk protein; as the advice has it.
const SUPPLIED: f64 = 0.6;

/// How a combination is made.
#[derive(Clone, Copy, Debug)]
pub struct How {
    /// How far levers may be turned.
    pub beyond: Beyond,
    /// The design's own thickeners get the mends that they lack.
    pub mend: bool,
}

/// What a combination does besides turning levers; entries by their names.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    Swapped {
        new: String,
        old: String,
    },
    Added(String),
    /// Added to feed the culture; how much of it is a lever, and is told as such.
    Fed(String),
    Without(String),
    /// What was cooked is only warmed.
    Uncooked,
    Mended(mends::How),
}

/// A combination as a design.
#[derive(Clone, Debug)]
pub struct CandidateDesign {
    /// Edits of the picks and their mends, on the design that was asked about.
    pub edits: Vec<Edit>,
    pub said: Vec<Said>,
    /// Entries that are not those of the design; another base is another pot and counts twice.
    pub swaps: usize,
    /// What else is done otherwise for them to work: cooking, feeding, mixing first.
    pub mends: usize,
    pub design: Design,
    pub turns: Vec<SearchLever>,
    /// Bases whose shares stay what they are when others are turned.
    pub held: Vec<usize>,
}

/// Makes a combination: one pick a choice.
///
/// Nothing comes of a pick that cannot be made to work: a thickener that needs heat where none is allowed, a gel without
/// what it gels with, a culture that finds no sugar.
pub fn make(
    ask: &Scenario<'_>,
    wish: &AimAsk,
    choices: &[Choice],
    combo: &[usize],
    how: How,
) -> Option<CandidateDesign> {
    let rules = Rules::of(ask, wish);
    let (edits, said) = (Vec::new(), Vec::new());
    let mut making = Making { ask: *ask, wish, rules, edits, said, design: ask.design.clone() };
    let picked: Vec<(&Choice, &Pick)> =
        choices.iter().zip(combo).filter_map(|(c, i)| Some((c, c.picks.get(*i)?))).collect();
    // Lines are taken out last, the later ones first, so that places stay what they are.
    for (choice, pick) in picked.iter().filter(|(_, p)| **p != Pick::Remove) {
        making.pick(choice, pick)?;
    }
    let mut out: Vec<(LineKind, usize)> = removed(&picked).collect();
    out.sort_by_key(|(_, line)| std::cmp::Reverse(*line));
    for (shelf, line) in out {
        let name = making.name_of(shelf, line)?;
        making.put(Edit::Remove(shelf, line))?;
        making.said.push(Said::Without(name));
    }
    if !making.rules.cooking() && making.design.steps.iter().any(cooks) {
        making.put(mends::uncook(&making.design)?)?;
        making.said.push(Said::Uncooked);
    }
    let swapped =
        picked.iter().any(|(c, p)| c.on(LineKind::Thickeners) && matches!(p, Pick::Swap(_) | Pick::Add(_)));
    let kept = picked.iter().all(|(_, p)| **p == Pick::Keep);
    making.mend(swapped || (how.mend && wish.moves.entry(EntryKind::Thickener)), swapped, kept)?;
    let weight = |c: &Choice| if c.on(LineKind::Bases) { 2 } else { 1 };
    let swapped: Vec<&Choice> = picked.iter().filter(|(_, p)| **p != Pick::Keep).map(|(c, _)| *c).collect();
    let swaps = swapped.iter().map(|c| weight(c)).sum();
    let held = held_bases(ask.design, wish, &making.design);
    let turns = turns(ask, wish, (&making.design, &held), &picked, how.beyond);
    let Making { edits, said, design, .. } = making;
    let mends = said.len().saturating_sub(swapped.len());
    Some(CandidateDesign { edits, said, swaps, mends, design, turns, held })
}

struct Making<'a> {
    ask: Scenario<'a>,
    wish: &'a AimAsk,
    rules: Rules<'a>,
    edits: Vec<Edit>,
    said: Vec<Said>,
    design: Design,
}

impl Making<'_> {
    /// Makes an edit, unless it moves what is held; one that changes nothing is none.
    fn put(&mut self, edit: Edit) -> Option<()> {
        let design = edit::apply(&self.design, &edit, self.ask.pantry).ok()?;
        if design == self.design {
            return Some(());
        }
        let value = |d: &Design, lever_id: LeverId| lever_id.value(d, self.ask.pantry);
        let moved = |m: &Movable| {
            let Movable::Lever(lever_id) = m else { return false };
            let new =
                lever_id.carried(self.ask.design, &design).and_then(|lever_id| value(&design, lever_id));
            value(self.ask.design, *lever_id)
                .is_some_and(|was| new.is_none_or(|new| (new - was).abs() > 1e-9 * was.abs().max(1.0)))
        };
        if self.wish.moves.held.iter().any(moved) {
            return None;
        }
        self.design = design;
        self.edits.push(edit);
        Some(())
    }

    fn name_of(&self, shelf: LineKind, line: usize) -> Option<String> {
        let key = key_at(&self.design, shelf, line)?;
        Some(self.rules.entry(shelf, key)?.name().to_owned())
    }

    fn pick(&mut self, choice: &Choice, pick: &Pick) -> Option<()> {
        let (shelf, line) = match (choice.of, pick) {
            (Place::Line(shelf, line), _) => (shelf, line),
            (Place::Warmer, Pick::Swap(key)) => return self.warm_by(key),
            (Place::Warmer, _) => return Some(()),
        };
        match pick {
            Pick::Keep | Pick::Remove => {}
            Pick::Swap(key) => {
                let old = self.name_of(shelf, line)?;
                self.put(Edit::Swap(shelf, line, key.clone()))?;
                self.usual(shelf, line)?;
                let new = self.name_of(shelf, line)?;
                self.said.push(Said::Swapped { new, old });
            }
            Pick::Add(key) => {
                self.put(Edit::Add(shelf, key.clone(), 1.0))?;
                self.usual(shelf, line)?;
                self.said.push(Said::Added(self.name_of(shelf, line)?));
            }
        }
        Some(())
    }

    /// Another warmer, set to what is usual for it and as near to what was as that lets it.
    fn warm_by(&mut self, key: &str) -> Option<()> {
        let old = self.design.hold()?.clone();
        let name = |key: &str| {
            let warmer = self.design.entry::<Warmer>(self.ask.pantry, key)?;
            Some((warmer.name.clone(), warmer.usual))
        };
        let ((was, _), (new, (low, high))) = (name(&old.warmer)?, name(key)?);
        self.put(Edit::Warmer(key.to_owned()))?;
        self.put(Edit::HoldTemperature(old.set_c.clamp(low.min(high), high)))?;
        self.said.push(Said::Swapped { new, old: was });
        Some(())
    }

    /// The middle of what is usual for a number of the design.
    fn usually(&self, lever_id: LeverId) -> Option<f64> {
        levers(&self.design, self.ask.pantry).iter().find(|l| l.lever_id == lever_id)?.usual_middle()
    }

    /// A line with a new entry: a usual dose, fresh, put in so that it does not clump.
    fn usual(&mut self, shelf: LineKind, line: usize) -> Option<()> {
        let edits = match shelf {
            LineKind::Thickeners => {
                let t = self.design.thickeners.get(line)?;
                let lumps = find(&self.ask.pantry.thickeners, &t.entry)?.lumps.value > 0.0;
                vec![
                    Edit::ThickenerDose(line, self.usually(LeverId::ThickenerDose(line))?),
                    Edit::ThickenerMixedFirst(line, lumps || t.mixed_first),
                    Edit::ThickenerGoesIn(line, GoesIn::WithTheBase),
                ]
            }
            LineKind::Sugars if self.design.sugars.get(line)?.when == SweetWhen::default() => {
                vec![Edit::SugarDose(line, self.usually(LeverId::SugarDose(line))?)]
            }
            LineKind::Cultures => {
                vec![
                    Edit::CultureRate(line, 1.0),
                    Edit::CultureAge(line, 0.0),
                    Edit::CultureOpened(line, false),
                ]
            }
            LineKind::Sugars | LineKind::Bases | LineKind::Additives => Vec::new(),
        };
        edits.into_iter().try_for_each(|edit| self.put(edit))
    }

    fn ask(&self) -> Scenario<'_> {
        Scenario { design: &self.design, ..self.ask }
    }

    /// Makes the mends that are needed for thickener and culture to work; nothing where one cannot be made.
    ///
    /// - `swapped` — a thickener is another one; `kept` — nothing is.
    fn mend(&mut self, may: bool, swapped: bool, kept: bool) -> Option<()> {
        for round in 0..=ROUNDS {
            let run = self.ask().run_coarse(0.0).ok()?;
            if hungry(&run) {
                match self.feed(kept) {
                    Some(()) => continue,
                    // What the design has and does not work may stay so.
                    None if kept => {}
                    None => return None,
                }
            }
            let starved = run
                .mix
                .texture
                .agents
                .iter()
                .take(self.design.thickeners.len())
                .any(|a| matches!(a.kind, AgentKind::Gel { supplied, .. } if supplied < SUPPLIED));
            if swapped && starved {
                return None;
            }
            let told = thickeners::advice(&self.ask(), &run);
            let Some(grave) = told.into_iter().find(|a| a.severity > Severity::Tip) else {
                return Some(());
            };
            let mend = grave.mend.filter(|m| may && (self.rules.cooking() || !cooking(&m.edit())));
            let made = mend.filter(|_| round < ROUNDS).and_then(|m| self.put(m.edit()).map(|()| m.how));
            match made {
                Some(how) => self.said.push(Said::Mended(how)),
                None if !swapped => return Some(()),
                None => return None,
            }
        }
        None
    }

    /// Food for the culture: white sugar, or the first that the rules let in. Nothing where no sugar may move; to what is
    /// swapped, as `kept` tells that nothing is, it belongs like any other mend.
    fn feed(&mut self, kept: bool) -> Option<()> {
        let held = |m: &Movable| matches!(m, Movable::Lever(LeverId::SugarDose(_)));
        if self.wish.moves.held.iter().any(held) {
            return None;
        }
        let named = self.wish.moves.levers.as_ref().filter(|_| !self.wish.moves.fed);
        let sugar = named.and_then(|all| all.iter().find(|r| matches!(r.lever_id, LeverId::SugarDose(_))));
        if named.is_some() && sugar.is_none() && kept {
            return None;
        }
        let before = self.design.clone();
        let white = self.rules.entry(LineKind::Sugars, FOOD).filter(|e| self.rules.forbids(*e).is_none());
        if let Some(sugar) = sugar {
            let lever_id = sugar.lever_id.carried(self.ask.design, &self.design)?;
            let dose = self.usually(lever_id)?;
            let (least, most) = sugar.bounds.unwrap_or((dose, dose));
            self.put(lever_id.edit(&self.design, dose.clamp(least, most)))?;
        } else if let Some(white) = white {
            self.put(mends::feed(&self.ask()).edit())?;
            self.said.push(Said::Fed(white.name().to_owned()));
        } else {
            let key = self.rules.others(LineKind::Sugars, FOOD, true).into_iter().next()?;
            let line = self.design.sugars.len();
            self.put(Edit::Add(LineKind::Sugars, key, 1.0))?;
            self.usual(LineKind::Sugars, line)?;
            self.said.push(Said::Fed(self.name_of(LineKind::Sugars, line)?));
        }
        // The same again would help no more.
        (before != self.design).then_some(())
    }
}

/// Whether the culture finds nothing that it can live on.
pub fn hungry(run: &Run) -> bool {
    run.facts.edible_g_kg < EDIBLE && !run.mix.organisms.is_empty()
}

/// Whether an edit brings a cooking step in.
fn cooking(edit: &Edit) -> bool {
    match edit {
        Edit::Steps(steps) => steps.iter().any(cooks),
        Edit::Together(_, edits) => edits.iter().any(cooking),
        _ => false,
    }
}
