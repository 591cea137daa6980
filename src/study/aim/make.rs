//! Makes one combination of picks a design that works: its mends are made, its doses are usual, its levers are ready to turn.

use super::choices::{Choice, Pick, Rules};
use super::moves::{AimAsk, Movable, Moves, Reach};
use super::proposal::added;
use super::stand::cooks;
use super::turn::Turn;
use crate::base::Severity;
use crate::doc::design::{GoesIn, SweetWhen};
use crate::doc::edit::{self, Shelf};
use crate::doc::pantry::{EntryKind, find};
use crate::doc::steps::{Step, Way};
use crate::doc::{Design, Edit, culture_in};
use crate::science::texture::inputs::AgentKind;
use crate::study::advice::Advice;
use crate::study::ask::{Ask, Run};
use crate::study::lever::lines::{key_at, place};
use crate::study::lever::{Knob, Lever, levers};
use crate::study::{mends, thickeners};

/// Rounds of mends; each may bring the next to light: cooked agar then sets too early.
const ROUNDS: usize = 3;
/// Sugar that a culture needs to find to sour a pot at all, g/kg; as the verdict has it.
const EDIBLE: f64 = 0.5;
/// Share of its stiffness that a gelling agent must have, for want of calcium or milk protein; as the advice has it.
const SUPPLIED: f64 = 0.6;

/// How a combination is made.
#[derive(Clone, Copy, Debug)]
pub struct How {
    /// Levers may be turned as far as they go at all.
    pub wide: bool,
    /// The design's own thickeners get the mends that they lack.
    pub mend: bool,
}

/// A combination as a design.
#[derive(Clone, Debug)]
pub struct Made {
    /// Edits of the picks and their mends, on the design that was asked about.
    pub edits: Vec<Edit>,
    /// What they do, a sentence each.
    pub said: Vec<String>,
    /// Entries that are not those of the design; another base is another pot and counts twice.
    pub swaps: usize,
    pub design: Design,
    pub turns: Vec<Turn>,
    /// Bases whose shares stay what they are when others are turned.
    pub held: Vec<usize>,
}

/// Makes a combination: one pick a choice.
///
/// Nothing comes of a pick that cannot be made to work: a thickener that needs heat where none is allowed, a gel without
/// what it gels with, a culture that finds no sugar.
#[must_use]
pub fn make(ask: &Ask<'_>, wish: &AimAsk, choices: &[Choice], combo: &[usize], how: How) -> Option<Made> {
    let rules = Rules::of(ask, wish);
    let (edits, said) = (Vec::new(), Vec::new());
    let mut making = Making { ask: *ask, wish, rules, edits, said, design: ask.design.clone() };
    let picked: Vec<(&Choice, &Pick)> =
        choices.iter().zip(combo).filter_map(|(c, i)| Some((c, c.picks.get(*i)?))).collect();
    // Lines are taken out last, the later ones first, so that places stay what they are.
    for (choice, pick) in picked.iter().filter(|(_, p)| **p != Pick::Remove) {
        making.pick(choice, pick)?;
    }
    let mut out: Vec<&Choice> = picked.iter().filter(|(_, p)| **p == Pick::Remove).map(|(c, _)| *c).collect();
    out.sort_by_key(|c| std::cmp::Reverse(c.line));
    for choice in out {
        let key = making.name_of(choice.shelf, choice.line)?;
        making.put(Edit::Remove(choice.shelf, choice.line))?;
        making.said.push(format!("Without {}", thickeners::lower(&key)));
    }
    if !making.rules.cooking() {
        making.uncook()?;
    }
    let swapped =
        picked.iter().any(|(c, p)| c.shelf == Shelf::Thickeners && matches!(p, Pick::Swap(_) | Pick::Add(_)));
    let kept = picked.iter().all(|(_, p)| **p == Pick::Keep);
    making.mend(swapped || (how.mend && wish.moves.entry(Shelf::Thickeners)), swapped, kept)?;
    let weight = |c: &Choice| if c.shelf == Shelf::Bases { 2 } else { 1 };
    let swaps = picked.iter().filter(|(_, p)| **p != Pick::Keep).map(|(c, _)| weight(c)).sum();
    let held = held_bases(ask.design, wish, &making.design);
    let turns = turns(ask, wish, (&making.design, &held), &picked, how.wide);
    let Making { edits, said, design, .. } = making;
    Some(Made { edits, said, swaps, design, turns, held })
}

struct Making<'a> {
    ask: Ask<'a>,
    wish: &'a AimAsk,
    rules: Rules<'a>,
    edits: Vec<Edit>,
    said: Vec<String>,
    design: Design,
}

impl Making<'_> {
    /// Makes an edit, unless it moves what is held.
    fn put(&mut self, edit: Edit) -> Option<()> {
        let design = edit::apply(&self.design, &edit, self.ask.pantry).ok()?;
        let value = |d: &Design, knob: Knob| knob.value(d, self.ask.pantry);
        let moved = |m: &Movable| {
            let Movable::Lever(knob) = m else { return false };
            let new = knob.carried(self.ask.design, &design).and_then(|knob| value(&design, knob));
            value(self.ask.design, *knob)
                .is_some_and(|was| new.is_none_or(|new| (new - was).abs() > 1e-9 * was.abs().max(1.0)))
        };
        if self.wish.moves.held.iter().any(moved) {
            return None;
        }
        self.design = design;
        self.edits.push(edit);
        Some(())
    }

    fn name_of(&self, shelf: Shelf, line: usize) -> Option<String> {
        let key = key_at(&self.design, shelf, line)?;
        Some(self.rules.entry(shelf, key)?.name().to_owned())
    }

    fn pick(&mut self, choice: &Choice, pick: &Pick) -> Option<()> {
        let Choice { shelf, line, .. } = *choice;
        match pick {
            Pick::Keep | Pick::Remove => {}
            Pick::Swap(key) => {
                let old = self.name_of(shelf, line)?;
                self.put(Edit::Swap(shelf, line, key.clone()))?;
                self.usual(shelf, line)?;
                let new = self.name_of(shelf, line)?;
                self.said.push(format!("{new} in the place of {}", thickeners::lower(&old)));
            }
            Pick::Add(key) => {
                let dose = self.usual_dose(shelf, key)?;
                self.put(Edit::Add(shelf, key.clone(), dose))?;
                self.usual(shelf, line)?;
                self.said.push(added(&self.name_of(shelf, line)?));
            }
        }
        Some(())
    }

    /// The middle of what is usual.
    fn usual_dose(&self, shelf: Shelf, key: &str) -> Option<f64> {
        let pantry = self.ask.pantry;
        let (low, high) = match shelf {
            Shelf::Sugars => find(&pantry.sugars, key)?.usual,
            Shelf::Thickeners => find(&pantry.thickeners, key)?.usual,
            Shelf::Bases | Shelf::Additives | Shelf::Cultures => return Some(1.0),
        };
        Some(0.5 * (low + high))
    }

    /// A line with a new entry: a usual dose, fresh, put in so that it does not clump.
    fn usual(&mut self, shelf: Shelf, line: usize) -> Option<()> {
        match shelf {
            Shelf::Thickeners => {
                let t = self.design.thickeners.get(line)?.clone();
                let dose = self.usual_dose(shelf, &t.entry)?;
                let lumps = find(&self.ask.pantry.thickeners, &t.entry)?.lumps.v;
                self.put(Edit::ThickenerDose(line, dose))?;
                if lumps > 0.0 && !t.mixed_first {
                    self.put(Edit::ThickenerMixedFirst(line, true))?;
                }
                if t.goes_in != GoesIn::WithTheBase {
                    self.put(Edit::ThickenerGoesIn(line, GoesIn::WithTheBase))?;
                }
            }
            Shelf::Sugars => {
                let late = self.design.sugars.get(line)?.when != SweetWhen::default();
                let key = self.design.sugars.get(line)?.entry.clone();
                if !late {
                    let dose = self.usual_dose(shelf, &key)?;
                    self.put(Edit::SugarDose(line, dose))?;
                }
            }
            Shelf::Cultures => {
                let c = self.design.cultures.get(line)?.clone();
                self.put(Edit::CultureRate(line, 1.0))?;
                if c.age_days > 0.0 || c.opened {
                    self.put(Edit::CultureAge(line, 0.0))?;
                    self.put(Edit::CultureOpened(line, false))?;
                }
            }
            Shelf::Bases | Shelf::Additives => {}
        }
        Some(())
    }

    /// Takes every cooking step out; what was hot before is then only warmed to what the culture needs.
    fn uncook(&mut self) -> Option<()> {
        if !self.design.steps.iter().any(cooks) {
            return Some(());
        }
        let culture_c = culture_in::temperature(&self.design.steps)
            .filter(|c| *c <= super::stand::COOKING_C)
            .unwrap_or_else(|| self.design.hold().map_or(40.0, |h| h.set_c.min(43.0)));
        let mut steps = self.design.steps.clone();
        steps.retain(|s| !cooks(s));
        let at = steps.iter().position(|s| matches!(s, Step::Cool { .. } | Step::CultureIn))?;
        let warmed =
            steps.iter().take_while(|s| **s != Step::CultureIn).any(|s| matches!(s, Step::Warm { .. }));
        if !warmed {
            steps.insert(at, Step::Warm { to_c: culture_c, way: Way::Bath });
        }
        self.put(Edit::Steps(steps))?;
        self.said.push("The base is not cooked".to_owned());
        Some(())
    }

    fn run(&self) -> Option<Run> {
        Ask { design: &self.design, ..self.ask }.run_coarse(0.0).ok()
    }

    /// Makes the mends that are needed for thickener and culture to work; nothing where one cannot be made.
    ///
    /// - `swapped` — a thickener is another one; `kept` — nothing is.
    fn mend(&mut self, may: bool, swapped: bool, kept: bool) -> Option<()> {
        for round in 0..=ROUNDS {
            let run = self.run()?;
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
            let mut told: Vec<Advice> = Vec::new();
            thickeners::advice(&Ask { design: &self.design, ..self.ask }, &run, &mut told);
            let Some(grave) = told.into_iter().find(|a| a.note.severity > Severity::Tip) else {
                return Some(());
            };
            let mend = grave.mend.filter(|m| may && (self.rules.cooking() || !cooking(&m.edit)));
            let made = mend.filter(|_| round < ROUNDS).and_then(|m| self.put(m.edit).map(|()| m.label));
            match made {
                Some(label) => self.said.push(label),
                None if !swapped => return Some(()),
                None => return None,
            }
        }
        None
    }

    /// Food for the culture: white sugar, or the first that the rules let in. Nothing where no sugar may move; to what is
    /// swapped, as `kept` tells that nothing is, it belongs like any other mend.
    fn feed(&mut self, kept: bool) -> Option<()> {
        let held = |m: &Movable| matches!(m, Movable::Lever(Knob::SugarDose(_)));
        if self.wish.moves.held.iter().any(held) {
            return None;
        }
        let named = self.wish.moves.levers.as_ref().filter(|_| !self.wish.moves.fed);
        let sugar = named.and_then(|all| all.iter().find(|r| matches!(r.knob, Knob::SugarDose(_))));
        if named.is_some() && sugar.is_none() && kept {
            return None;
        }
        if let Some(sugar) = sugar {
            let knob = sugar.knob.carried(self.ask.design, &self.design)?;
            let (_, line) = knob.line()?;
            let dose = self.usual_dose(Shelf::Sugars, key_at(&self.design, Shelf::Sugars, line)?)?;
            let (least, most) = sugar.bounds.unwrap_or((dose, dose));
            let unfed = self.design.clone();
            self.put(Edit::SugarDose(line, dose.clamp(least, most)))?;
            return (unfed != self.design).then_some(());
        }
        let key = "white_sugar";
        let white = self.rules.entry(Shelf::Sugars, key).filter(|e| self.rules.forbids(*e).is_none());
        let (edit, label) = if white.is_some() {
            let mend = mends::feed(&Ask { design: &self.design, ..self.ask });
            // How much of it is a lever, and is told as such.
            (mend.edit, "White sugar is added, to feed the culture".to_owned())
        } else {
            let key = self.rules.others(Shelf::Sugars, key, true).into_iter().next()?;
            let dose = self.usual_dose(Shelf::Sugars, &key)?;
            let name = self.ask.pantry.entry(EntryKind::Sugar, &key)?.name().to_owned();
            (Edit::Add(Shelf::Sugars, key, dose), format!("{name} is added, to feed the culture"))
        };
        let fed = self.design.clone();
        self.put(edit)?;
        self.said.push(label);
        // The same again would help no more.
        (fed != self.design).then_some(())
    }
}

/// Whether the culture finds nothing that it can live on.
#[must_use]
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

/// Bases of a made design whose shares the maker holds.
fn held_bases(asked: &Design, wish: &AimAsk, made: &Design) -> Vec<usize> {
    let held = |m: &Movable| match m {
        Movable::Lever(knob @ (Knob::BaseShare(i) | Knob::BaseLitres(i))) => {
            place(asked, made, Shelf::Bases, *i).filter(|_| wish.moves.holds(*knob))
        }
        _ => None,
    };
    wish.moves.held.iter().filter_map(held).collect()
}

/// The levers that may move on a made design.
fn turns(
    ask: &Ask<'_>,
    wish: &AimAsk,
    (design, held): (&Design, &[usize]),
    picked: &[(&Choice, &Pick)],
    wide: bool,
) -> Vec<Turn> {
    // Shares go as far as what is held lets them.
    let mut locked = design.clone();
    held.iter().for_each(|i| locked.bases[*i].locked = true);
    let mut all: Vec<(Lever, Reach, Option<f64>)> = levers(&locked, ask.pantry)
        .into_iter()
        .filter_map(|lever| {
            let own = Reach { knob: lever.knob, bounds: None, step: None };
            let Some((shelf, line)) = lever.knob.line() else {
                let was = lever.knob.value(ask.design, ask.pantry);
                return Some((lever, wish.moves.lever(own.knob)?, was));
            };
            let before = origin(ask.design, picked, shelf, line);
            let same = before.is_some_and(|b| key_at(ask.design, shelf, b) == key_at(design, shelf, line));
            let asked = before.map(|line| lever.knob.on_line(line));
            // How much of a new entry is for the search to say, whatever was said of another.
            let dose = !matches!(lever.knob, Knob::BaseLitres(_) | Knob::BaseShare(_) | Knob::BaseFat(_));
            let reach = match asked {
                Some(asked) if same || !dose => wish.moves.lever(asked)?,
                _ if dose && Moves::default().lever(lever.knob).is_some() => own,
                _ => return None,
            };
            let was = asked.filter(|_| same).and_then(|knob| knob.value(ask.design, ask.pantry));
            Some((lever, Reach { knob: own.knob, ..reach }, was))
        })
        .collect();
    // Where every share that is free moves, one of them follows from the others: one that the maker gave no bounds.
    let share = |k: Knob| matches!(k, Knob::BaseShare(_));
    let free = locked.bases.iter().filter(|b| !b.locked).count();
    if all.iter().filter(|(l, ..)| share(l.knob)).count() == free {
        let open = all.iter().rposition(|(l, r, _)| share(l.knob) && r.bounds.is_none());
        let follows = open.or_else(|| all.iter().rposition(|(l, ..)| share(l.knob)));
        if let Some(at) = follows {
            let (follower, reach, _) = all.remove(at);
            bound_others(&mut all, &follower, reach, &locked);
        }
    }
    let turn = |(lever, reach, was)| Turn::new(lever, reach, was, (design, ask.pantry), (&wish.wants, wide));
    all.into_iter().filter_map(turn).collect()
}

/// Of two shares the one that moves keeps the other within its bounds; of more, each at least leaves it its least.
fn bound_others(all: &mut [(Lever, Reach, Option<f64>)], follower: &Lever, reach: Reach, design: &Design) {
    let Some((low, high)) = reach.bounds else { return };
    let locked: f64 = design.bases.iter().filter(|b| b.locked).map(|b| b.litres).sum();
    let free = 100.0 * (1.0 - locked / design.litres());
    let mut shares: Vec<_> = all
        .iter_mut()
        .filter(|(l, ..)| matches!(l.knob, Knob::BaseShare(_)) && l.knob != follower.knob)
        .collect();
    let alone = shares.len() == 1;
    for (lever, reach, _) in &mut shares {
        let (from, to) = reach.bounds.unwrap_or(lever.range);
        reach.bounds = Some((if alone { from.max(free - high) } else { from }, to.min(free - low)));
    }
}

/// The line of the design that was asked about from which a line came; nothing where it was put in.
fn origin(asked: &Design, picked: &[(&Choice, &Pick)], shelf: Shelf, line: usize) -> Option<usize> {
    let gone =
        |l: &usize| picked.iter().any(|(c, p)| c.shelf == shelf && c.line == *l && **p == Pick::Remove);
    let there = (0..).take_while(|l| key_at(asked, shelf, *l).is_some());
    there.filter(|l| !gone(l)).nth(line)
}
