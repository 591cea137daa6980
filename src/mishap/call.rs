//! A call: the plan, the possible pots of each cause, what was said and what is known.

use std::sync::Arc;

use crate::change;
use crate::data::{FACTS, FactKind, Symptom, data};
use crate::fact::{self, Fact, Truth};
use crate::plan::{self, Flaw};
use crate::pots::{self, Drawing, Group, POTS};
use crate::reason::{Said, Weights, apart, fits};
use crate::sign::Planned;
use potset_base::Note;
use potset_doc::Design;
use potset_doubt::spread::Sampler;
use potset_forecast::scenario::{OwnedScenario, Run};

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

/// A call: the plan, the possible pots of each cause, what was said.
#[derive(Clone, Debug)]
pub struct Mishap {
    pub(crate) case: OwnedScenario,
    pub(crate) sampler: Arc<Sampler>,
    planned: Planned,
    pub(crate) truth: Truth,
    pub(crate) flaws: Vec<Flaw>,
    /// How a pot looks with a flaw mended, flaw by flaw.
    mended: Vec<Option<Arc<Vec<pots::Pot>>>>,
    pub(crate) groups: Vec<Group>,
    /// Pots of two causes that were drawn before.
    two: Vec<(Vec<usize>, Arc<Vec<pots::Pot>>)>,
    pub(crate) said: Said,
    /// Questions that the caller cannot answer.
    pub(crate) passed: Vec<FactKind>,
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
            passed: Vec::new(),
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

    pub(crate) fn weights(&self) -> Weights {
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

    /// The questions that the caller cannot answer.
    pub fn pass(&mut self, kinds: Vec<FactKind>) {
        self.passed = kinds;
    }

    /// An answer; it takes the place of one to the same question.
    pub fn know(&mut self, fact: Fact) {
        self.said.known.retain(|own| own.kind != fact.kind);
        self.said.known.push(fact);
        self.draw_two();
    }

    /// What is known.
    pub fn known(&self) -> &[Fact] {
        &self.said.known
    }
}
