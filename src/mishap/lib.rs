//! Why a pot went wrong: causes weighed by simulated pots, the next question, what to do.
//!
//! - `data` is the table of symptoms, causes and questions, `assets/mishaps.ron`.
//! - `change` makes a cause of a design: what was really done. `pots` draws possible pots with all that is not known, changes
//!   them so and forecasts them; `sign` says what a caller would see of each, `fact` what would be answered of it.
//! - `plan` finds what is wrong with the plan itself, by the judge of every design.
//! - `reason` weighs the causes: prior times how likely what was said and known is of their pots. Where one cause does not
//!   make all that was said, pots of two causes together are drawn, too.
//! - `read` reads what is typed of a call.
//! - `next` picks the question whose answer is expected to tell most, and `mend` what of the plan is changed next time.
//!
//! Source: the weighing is Bayes' rule over simulated pots (importance weights); the question is the one of most expected
//! information (published, Lindley 1956, "On a measure of the information provided by an experiment").

#[cfg(test)]
mod calls;
mod change;
mod data;
mod fact;
#[cfg(test)]
mod hand;
mod mend;
mod next;
mod plan;
mod pots;
mod read;
mod reason;
mod sign;

use std::sync::Arc;

pub use data::{Asked, Cause, ErrorOf, FactKind, FactRow, MishapTable, Symptom, SymptomRow, data};
pub use fact::{Fact, FactValue};
pub use next::{Question, STANDS_OUT};

use data::FACTS;
use fact::Truth;
use plan::Flaw;
use pots::{Drawing, Group, POTS};
use potset_base::Note;
use potset_doc::Design;
use potset_doubt::spread::Sampler;
use potset_forecast::scenario::{OwnedScenario, Run};
use potset_judge::hygiene::Against;
use potset_judge::mends::Mend;
use potset_science::Forecast;
use reason::{Said, Weights, apart, by_cause, fits, lost};
use sign::Planned;

/// A flaw of the plan is likelier than any slip of the hand, against the priors of the table. Source: assumed.
const FLAW: f64 = 150.0;

/// A flaw that would look the same without it is hardly the cause.
const LEAST_FLAW: f64 = 0.03;

/// How much less a flaw counts that mainly makes something else than was seen. Source: assumed.
const ELSEWHERE: f64 = 0.2;

/// Two causes at once are so much rarer than one times the other. Source: assumed.
const TWO: f64 = 0.2;

/// A symptom that the best cause gives with less than this chance has another cause beside it. Source: assumed.
const NOT_MADE: f64 = 0.4;

/// A strip that shows this or less shows a pot that has soured, whatever it errs by. Source: derived, pH 4.6 less the 0.3 that
/// dry strips err by (common practice).
const CLEARS_PH: f64 = 4.3;

/// From this chance on no reading of a strip keeps a pot from being thrown away. Source: assumed.
const SURELY_LOST: f64 = 0.6;

/// Most pairs that are drawn, and causes of each symptom that are put together.
const PAIRS: usize = 6;
const OF_EACH: usize = 2;

/// Seed of the possible pots.
const SEED: u64 = 1;

/// A pot that went wrong, as it was planned, and what is told of it.
#[derive(Clone, Debug)]
pub struct MishapCase {
    pub scenario: OwnedScenario,
    pub saw: Vec<Symptom>,
    pub known: Vec<Fact>,
}

/// How likely a cause is, in a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chance {
    Unlikely,
    Possible,
    MostLikely,
}

impl Chance {
    /// Of a chance from 0 to 1. Source: assumed.
    fn of(chance: f64, best: bool) -> Self {
        match chance {
            c if best && c >= 0.4 => Self::MostLikely,
            c if c >= 0.08 => Self::Possible,
            _ => Self::Unlikely,
        }
    }
}

/// A cause in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct RankedCause {
    /// Its place in the table.
    pub cause: usize,
    /// 0 to 1.
    pub chance: f64,
    pub word: Chance,
    /// The plan itself has this flaw.
    pub in_plan: bool,
    /// Another cause that most of its pots have besides.
    pub with: Option<usize>,
}

/// Causes in the order of their chances.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ranking {
    pub causes: Vec<RankedCause>,
    /// For each symptom that was said, what most likely made it by itself.
    pub apart: Vec<(Symptom, usize)>,
    /// How likely the rules of hygiene throw it away, and by which finding.
    pub lost: f64,
    pub against: Option<Arc<Against>>,
}

/// What comes next.
#[derive(Clone, Debug, PartialEq)]
pub enum Next {
    /// The best question first.
    Ask(Vec<Question>),
    /// One cause stands out: its place in the table.
    StandsOut(usize),
    /// Nothing that can be asked tells more: the cause whose test would.
    Test(usize),
}

/// Why a pot is thrown away.
#[derive(Clone, Debug, PartialEq)]
pub enum ThrowAway {
    /// What was seen does it by itself.
    Seen(Symptom),
    /// The rules of hygiene do, in the pots that it may be.
    Rule(Arc<Against>),
    /// A cause that it may have does: its place in the table.
    Cause(usize),
}

/// What to do.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatToDo {
    pub throw_away: Option<ThrowAway>,
    /// The cause whose rescue is told; nothing where something speaks against eating it.
    pub rescue: Option<usize>,
    /// The cause that is answered next time, and the change of the plan, where the plan can answer it.
    pub next_time: Option<(usize, Option<Mend>)>,
}

/// A call: the plan, the possible pots of each cause, what was said.
#[derive(Clone, Debug)]
pub struct Mishap {
    case: OwnedScenario,
    sampler: Arc<Sampler>,
    planned: Planned,
    truth: Truth,
    flaws: Vec<Flaw>,
    /// How a pot looks with a flaw mended, flaw by flaw.
    mended: Vec<Option<Arc<Vec<pots::Pot>>>>,
    groups: Vec<Group>,
    /// Pots of two causes that were drawn before.
    two: Vec<(Vec<usize>, Arc<Vec<pots::Pot>>)>,
    said: Said,
}

impl Mishap {
    /// Draws and forecasts the possible pots of every cause.
    ///
    /// # Errors
    /// The notes that say why there is no forecast of the plan.
    pub fn open(case: MishapCase) -> Result<Self, Vec<Note>> {
        let MishapCase { scenario: owned, saw, known } = case;
        let mut design = (*owned.design).clone();
        design.refresh_snapshot(&owned.pantry);
        let owned = OwnedScenario { design: Arc::new(design), ..owned };
        let scenario = owned.scenario();
        let sampler = Sampler::new(&scenario, SEED, POTS)?;
        let run = sampler.likely().clone();
        let goal = owned.design.goals.texture.map(|(from, _)| from);
        let truth = Truth::of(&owned.design, &run, &[], data());
        let flaws = plan::flaws(&scenario, &run);
        // Who makes a plan with a flaw expects a pot without it.
        let mended = flaws.iter().filter_map(|flaw| plan::mended(flaw, &owned.design, &owned.pantry));
        let better: Vec<Run> = mended.filter_map(|design| owned.of(&design).run_coarse(0.0).ok()).collect();
        let planned = Planned::of(&run, &better, goal);
        let mut all = Self {
            sampler: Arc::new(sampler),
            planned,
            truth,
            flaws,
            mended: Vec::new(),
            groups: Vec::new(),
            two: Vec::new(),
            said: Said { saw, known },
            case: owned,
        };
        all.draw_single();
        all.draw_two();
        Ok(all)
    }

    fn drawing(&self) -> Drawing<'_> {
        Drawing { sampler: &self.sampler, planned: &self.planned, pantry: &self.case.pantry, table: data() }
    }

    /// The pots of each cause by itself, and those that the plan's own flaws make.
    fn draw_single(&mut self) {
        let table = data();
        let design = Arc::clone(&self.case.design);
        let place = |key: &str| table.causes.iter().position(|cause| cause.key == key);
        let flawed: Vec<usize> = self.flaws.iter().filter_map(|flaw| place(flaw.cause)).collect();
        let lists: Vec<Vec<usize>> = (0..table.causes.len())
            .filter(|c| !flawed.contains(c) && change::can_be(&table.causes[*c], &design, &self.case.pantry))
            .map(|c| vec![c])
            .collect();
        let pots = self.drawing().groups(&lists);
        let group = |(causes, pots): (Vec<usize>, Arc<Vec<pots::Pot>>)| {
            let cause = &table.causes[causes[0]];
            Group { prior: cause.prior, unaware: fact::unaware(&[cause]), flaw: None, causes, pots }
        };
        self.groups = lists.into_iter().zip(pots).map(group).collect();
        let as_planned =
            place("as_planned").and_then(|c| self.groups.iter().find(|g| g.causes == [c])).cloned();
        let Some(as_planned) = as_planned else { return };
        for (at, flaw) in self.flaws.iter().enumerate() {
            let Some(c) = place(flaw.cause) else { continue };
            // What a flaw of the plan shows by the table, its pots show too.
            let shown = |pot: &pots::Pot| {
                let mut pot = pot.clone();
                for (symptom, chance) in &table.causes[c].shows {
                    let own = &mut pot.there[*symptom as usize];
                    *own = own.max(*chance);
                }
                for (kind, answer) in &table.causes[c].tells {
                    pot.truth.answer(*kind, answer, table);
                }
                pot
            };
            let pots = Arc::new(as_planned.pots.iter().map(shown).collect());
            self.groups.push(Group {
                causes: vec![c],
                prior: 0.0,
                unaware: [0.5; FACTS],
                flaw: Some(at),
                pots,
            });
        }
        let mended = self.flaws.iter().map(|flaw| {
            let other = plan::mended(flaw, &design, &self.case.pantry)?;
            let as_mended = |_: usize, to: &mut Design| *to = other.clone();
            let drawing = self.drawing();
            let see = |_: usize, scenario: &potset_forecast::scenario::Scenario<'_>, run: Run| {
                drawing.pot(scenario.design, &run, &[])
            };
            let pots = self.sampler.each_changed(&[0, 1, 2, 3], as_mended, see);
            Some(Arc::new(pots.into_iter().filter_map(Result::ok).collect()))
        });
        self.mended = mended.collect();
        self.weigh_flaws();
    }

    /// A flaw counts as far as the pot would look otherwise without it.
    fn weigh_flaws(&mut self) {
        let (table, saw) = (data(), self.said.saw.clone());
        for group in &mut self.groups {
            let Some(flaw) = group.flaw else { continue };
            let explains = self.mended.get(flaw).and_then(Option::as_ref).map_or(0.5, |mended| {
                1.0 - fits(mended, &saw, table) / fits(&group.pots, &saw, table).max(1e-300)
            });
            let mainly = &table.causes[group.causes[0]].mainly;
            let here = mainly.is_empty() || saw.iter().any(|symptom| mainly.contains(symptom));
            group.prior = FLAW * explains.clamp(LEAST_FLAW, 1.0) * if here { 1.0 } else { ELSEWHERE };
        }
    }

    /// Pots of two causes together, where the best one does not make all that was said.
    fn draw_two(&mut self) {
        self.groups.retain(|group| group.causes.len() == 1);
        let table = data();
        let weights = self.weights();
        let chances = weights.groups();
        let best = (0..chances.len()).max_by(|a, b| chances[*a].total_cmp(&chances[*b]));
        let Some(best) = best.filter(|_| self.said.saw.len() > 1) else { return };
        let pots = &self.groups[best].pots;
        let makes = |s: &Symptom| {
            pots.iter().map(|pot| pot.there[*s as usize]).sum::<f64>() / pots.len().max(1) as f64 >= NOT_MADE
        };
        if self.said.saw.iter().all(makes) {
            return;
        }
        let single: Vec<usize> =
            self.groups.iter().filter(|g| g.flaw.is_none()).map(|g| g.causes[0]).collect();
        let by_symptom: Vec<Vec<usize>> = apart(&self.groups, &self.said, &self.truth, table)
            .into_iter()
            .map(|(_, all)| {
                let causes = all.into_iter().map(|(c, _)| c);
                let real = causes.filter(|c| single.contains(c) && table.causes[*c].key != "as_planned");
                real.take(OF_EACH).collect()
            })
            .collect();
        let mut pairs: Vec<Vec<usize>> = Vec::new();
        for (i, these) in by_symptom.iter().enumerate() {
            for others in &by_symptom[i + 1..] {
                for (a, b) in these.iter().flat_map(|a| others.iter().map(move |b| (*a, *b))) {
                    let pair = vec![a.min(b), a.max(b)];
                    if a != b && !pairs.contains(&pair) {
                        pairs.push(pair);
                    }
                }
            }
        }
        pairs.truncate(PAIRS);
        let new: Vec<Vec<usize>> =
            pairs.iter().filter(|pair| self.two.iter().all(|(own, _)| own != *pair)).cloned().collect();
        let drawn = self.drawing().groups(&new);
        self.two.extend(new.into_iter().zip(drawn));
        let known =
            |pair: &Vec<usize>| self.two.iter().find(|(own, _)| own == pair).map(|(_, p)| Arc::clone(p));
        let pots: Vec<_> = pairs.iter().map(|pair| known(pair).unwrap_or_default()).collect();
        let whole: f64 = table.causes.iter().map(|cause| cause.prior).sum();
        for (causes, pots) in pairs.into_iter().zip(pots) {
            let (a, b) = (&table.causes[causes[0]], &table.causes[causes[1]]);
            let prior = TWO * a.prior * b.prior / whole;
            let unaware = fact::unaware(&[a, b]);
            self.groups.push(Group { causes, prior, unaware, flaw: None, pots });
        }
    }

    fn weights(&self) -> Weights {
        Weights::of(&self.groups, &self.said, &self.truth, data())
    }

    /// The same pot with all that is said and known anew.
    pub fn with(&self, saw: Vec<Symptom>, known: Vec<Fact>) -> Self {
        let mut all = self.clone();
        all.said = Said { saw, known };
        all.weigh_flaws();
        all.draw_two();
        all
    }

    /// What was said of its looks, anew.
    pub fn saw(&mut self, saw: Vec<Symptom>) {
        self.said.saw = saw;
        self.weigh_flaws();
        self.draw_two();
    }

    /// An answer; it takes the place of one to the same question.
    pub fn know(&mut self, fact: Fact) {
        self.said.known.retain(|own| own.kind != fact.kind);
        self.said.known.push(fact);
        self.draw_two();
    }

    /// Takes an answer back.
    pub fn forget(&mut self, kind: FactKind) {
        self.said.known.retain(|own| own.kind != kind);
        self.draw_two();
    }

    /// What is known.
    pub fn known(&self) -> &[Fact] {
        &self.said.known
    }

    /// What was said of its looks.
    pub fn said(&self) -> &[Symptom] {
        &self.said.saw
    }

    /// The plan.
    pub const fn case(&self) -> &OwnedScenario {
        &self.case
    }

    /// The causes, the likeliest first.
    pub fn rank(&self) -> Ranking {
        let table = data();
        let weights = self.weights();
        let chances = weights.groups();
        let all = by_cause(&self.groups, &chances, table);
        let mut order: Vec<usize> = (0..all.len()).filter(|c| all[*c] > 0.0).collect();
        order.sort_by(|a, b| all[*b].total_cmp(&all[*a]));
        let causes = order.iter().enumerate().map(|(i, c)| {
            let single = |flaw: bool| {
                let own = self.groups.iter().zip(&chances);
                own.filter(|(g, _)| g.causes == [*c] && g.flaw.is_some() == flaw).map(|(_, p)| p).sum::<f64>()
            };
            RankedCause {
                cause: *c,
                chance: all[*c],
                word: Chance::of(all[*c], i == 0),
                in_plan: single(true) > 0.0,
                with: self.partner(*c, all[*c], &chances),
            }
        });
        let (lost, against) = self.lost(&weights);
        let apart = apart(&self.groups, &self.said, &self.truth, table);
        let apart = apart.into_iter().filter_map(|(s, all)| Some((s, all.first()?.0))).collect();
        Ranking { causes: causes.collect(), apart, lost, against }
    }

    /// How likely the pot is to be thrown away. A strip that errs by 0.3 clears no pot that may be at the limit.
    fn lost(&self, weights: &Weights) -> (f64, Option<Arc<Against>>) {
        let told = lost(&self.groups, weights);
        let clears = |fact: &Fact| {
            fact.kind != FactKind::Ph || matches!(fact.value, FactValue::Number(ph) if ph <= CLEARS_PH)
        };
        let known: Vec<Fact> = self.said.known.iter().copied().filter(clears).collect();
        if known.len() == self.said.known.len() {
            return told;
        }
        let said = Said { saw: self.said.saw.clone(), known };
        let without = lost(&self.groups, &Weights::of(&self.groups, &said, &self.truth, data()));
        if without.0 > told.0 { without } else { told }
    }

    /// The cause that most pots of this one have besides.
    fn partner(&self, cause: usize, chance: f64, chances: &[f64]) -> Option<usize> {
        let pairs =
            self.groups.iter().zip(chances).filter(|(g, _)| g.causes.len() == 2 && g.causes.contains(&cause));
        let (group, best) = pairs.max_by(|a, b| a.1.total_cmp(b.1))?;
        (*best > 0.5 * chance).then(|| group.causes.iter().copied().find(|c| *c != cause))?
    }

    /// What comes next.
    ///
    /// - `skipped` — questions that the caller could not answer.
    pub fn next(&self, skipped: &[FactKind]) -> Next {
        let ranking = self.rank();
        let Some(best) = ranking.causes.first() else { return Next::Test(0) };
        let leave_out: Vec<FactKind> =
            self.said.known.iter().map(|fact| fact.kind).chain(skipped.iter().copied()).collect();
        let seen = data().throw_away.iter().any(|row| self.said.saw.contains(&row.symptom));
        // Whether it is thrown away may hang on its sourness: that is asked before the call ends.
        let sourness = !seen
            && (self.said.throw_away_from()..SURELY_LOST).contains(&ranking.lost)
            && !leave_out.contains(&FactKind::Ph);
        let last = |next: Next| {
            let question = Question { kind: FactKind::Ph, tells: 0.0 };
            if sourness { Next::Ask(vec![question]) } else { next }
        };
        if best.chance >= STANDS_OUT {
            return last(Next::StandsOut(best.cause));
        }
        let all = next::questions(&self.groups, &self.weights(), &self.truth, data(), &leave_out);
        if all.is_empty() { last(Next::Test(best.cause)) } else { Next::Ask(all) }
    }

    /// What to do with the pot, and next time.
    pub fn what_to_do(&self, ranking: &Ranking) -> WhatToDo {
        let table = data();
        let seen = table.throw_away.iter().map(|row| row.symptom).find(|s| self.said.saw.contains(s));
        let rule = || {
            ranking
                .against
                .clone()
                .filter(|_| ranking.lost >= self.said.throw_away_from())
                .map(ThrowAway::Rule)
        };
        let cause = || {
            let may = ranking.causes.iter().filter(|c| table.causes[c.cause].throw_away);
            may.filter(|c| c.chance >= self.said.throw_away_from()).map(|c| ThrowAway::Cause(c.cause)).next()
        };
        let throw_away = seen.map(ThrowAway::Seen).or_else(rule).or_else(cause);
        let best = ranking.causes.first();
        let rescue = best
            .map(|best| best.cause)
            .filter(|c| throw_away.is_none() && !table.causes[*c].rescue.is_empty());
        let next_time = best.map(|best| (best.cause, self.mend_of(best)));
        WhatToDo { throw_away, rescue, next_time }
    }

    fn mend_of(&self, best: &RankedCause) -> Option<Mend> {
        let key = &data().causes[best.cause].key;
        let flaw = self.flaws.iter().find(|flaw| best.in_plan && flaw.cause == key);
        let own = || mend::mend(key, &self.case.scenario());
        flaw.map_or_else(own, |flaw| flaw.mend.clone())
    }

    /// The forecast of the plan.
    pub fn planned(&self) -> &Forecast {
        &self.sampler.likely().forecast
    }

    /// The pot as it was made if this is the cause: in the middle of its size.
    pub fn design_of(&self, cause: &RankedCause) -> Design {
        let mut design = (*self.case.design).clone();
        if !cause.in_plan {
            for c in std::iter::once(cause.cause).chain(cause.with) {
                change::apply(&data().causes[c].change, 0.5, &mut design, &self.case.pantry);
            }
        }
        design
    }

    /// The curves of that pot, as likely.
    ///
    /// # Errors
    /// The notes that say why there is no forecast.
    pub fn curves_of(&self, cause: &RankedCause) -> Result<Forecast, Vec<Note>> {
        let design = self.design_of(cause);
        self.case.of(&design).run().map(|run| run.forecast)
    }
}
