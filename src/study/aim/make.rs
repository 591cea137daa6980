//! Makes one combination of picks a design that works: its mends are made, its doses are usual, its levers are ready to turn.

use super::choices::{Choice, Pick, Rules, key_at};
use super::moves::{AimAsk, Reach};
use super::proposal::added;
use super::stand::cooks;
use super::turn::Turn;
use crate::base::Severity;
use crate::doc::design::{GoesIn, SweetWhen};
use crate::doc::edit::{self, Shelf};
use crate::doc::pantry::{EntryKind, find};
use crate::doc::steps::{Step, Way};
use crate::doc::{Design, Edit};
use crate::science::texture::inputs::AgentKind;
use crate::study::advice::Advice;
use crate::study::ask::{Ask, Run};
use crate::study::lever::{Knob, culture_in, levers};
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
}

/// Makes a combination: one pick a choice.
///
/// Nothing comes of a pick that cannot be made to work: a thickener that needs heat where none is allowed, a gel without
/// what it gels with, a culture that finds no sugar.
#[must_use]
pub fn make(ask: &Ask<'_>, wish: &AimAsk, choices: &[Choice], combo: &[usize], how: How) -> Option<Made> {
    let rules = Rules::of(ask, wish);
    let mut making =
        Making { ask: *ask, rules, edits: Vec::new(), said: Vec::new(), design: ask.design.clone() };
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
    making.mend(swapped || (how.mend && wish.moves.entry(Shelf::Thickeners)), swapped)?;
    let weight = |c: &Choice| if c.shelf == Shelf::Bases { 2 } else { 1 };
    let swaps = picked.iter().filter(|(_, p)| **p != Pick::Keep).map(|(c, _)| weight(c)).sum();
    let turns = turns(ask, wish, &making.design, &picked, how.wide);
    let Making { edits, said, design, .. } = making;
    Some(Made { edits, said, swaps, design, turns })
}

struct Making<'a> {
    ask: Ask<'a>,
    rules: Rules<'a>,
    edits: Vec<Edit>,
    said: Vec<String>,
    design: Design,
}

impl Making<'_> {
    fn put(&mut self, edit: Edit) -> Option<()> {
        self.design = edit::apply(&self.design, &edit, self.ask.pantry).ok()?;
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
        let culture_c = culture_in(&self.design.steps)
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
    fn mend(&mut self, may: bool, swapped: bool) -> Option<()> {
        for round in 0..=ROUNDS {
            let run = self.run()?;
            if run.facts.edible_g_kg < EDIBLE && !run.mix.organisms.is_empty() {
                self.feed()?;
                continue;
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
            match mend {
                Some(mend) if round < ROUNDS => {
                    self.put(mend.edit)?;
                    self.said.push(mend.label);
                }
                // What the design has and does not work may stay so.
                _ if !swapped => return Some(()),
                _ => return None,
            }
        }
        None
    }

    /// Food for the culture: white sugar, or the first that the rules let in.
    fn feed(&mut self) -> Option<()> {
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

/// Whether an edit brings a cooking step in.
fn cooking(edit: &Edit) -> bool {
    match edit {
        Edit::Steps(steps) => steps.iter().any(cooks),
        Edit::Together(_, edits) => edits.iter().any(cooking),
        _ => false,
    }
}

/// The levers that may move on a made design.
fn turns(
    ask: &Ask<'_>,
    wish: &AimAsk,
    design: &Design,
    picked: &[(&Choice, &Pick)],
    wide: bool,
) -> Vec<Turn> {
    let changed = |shelf, line| key_at(ask.design, shelf, line) != key_at(design, shelf, line);
    let removed = |shelf: Shelf| picked.iter().any(|(c, p)| c.shelf == shelf && **p == Pick::Remove);
    let mut shares = 0;
    levers(design, ask.pantry)
        .into_iter()
        .filter_map(|lever| {
            let new = match lever.knob {
                Knob::SugarDose(i) => changed(Shelf::Sugars, i),
                Knob::ThickenerDose(i) => changed(Shelf::Thickeners, i),
                Knob::CultureRate(i) => changed(Shelf::Cultures, i),
                _ => false,
            };
            // The last share follows from the others.
            if matches!(lever.knob, Knob::BaseShare(_)) {
                shares += 1;
                if shares >= design.bases.iter().filter(|b| !b.locked).count() {
                    return None;
                }
            }
            let own = Reach { knob: lever.knob, bounds: None, step: None };
            let reach = if new { own } else { wish.moves.lever(lever.knob)? };
            let renumbered = match lever.knob {
                Knob::SugarDose(_) => removed(Shelf::Sugars),
                Knob::ThickenerDose(_) => removed(Shelf::Thickeners),
                Knob::CultureRate(_) => removed(Shelf::Cultures),
                Knob::BaseShare(_) => removed(Shelf::Bases),
                _ => false,
            };
            let was = if new || renumbered { None } else { lever.knob.value(ask.design, ask.pantry) };
            Turn::new(lever, reach, was, (design, ask.pantry), (&wish.wants, wide))
        })
        .collect()
}
