//! Possible pots of each cause: drawn with all that is not known, changed as the cause has it, and forecast.

use std::sync::Arc;

use crate::change;
use crate::data::{Cause, FACTS, MishapTable, SYMPTOMS};
use crate::fact::Truth;
use crate::sign::{self, Planned};
use potset_doc::{Design, Pantry};
use potset_doubt::spread::Sampler;
use potset_forecast::scenario::Run;
use potset_judge::hygiene::Against;
use potset_numerics::samples;

/// Pots of one cause, and of two together. Source: assumed; a share of a cause is good to a few hundredths with so many, and
/// the first answer is there in a third of a second.
pub const POTS: usize = 20;
const POTS_OF_TWO: usize = 8;

/// Seed of the sizes of causes.
const SEED: u64 = 20;

/// One pot that went wrong.
#[derive(Clone, Debug)]
pub struct Pot {
    /// Chance that each symptom is there.
    pub there: [f64; SYMPTOMS],
    pub truth: Truth,
    /// The sizes of its causes, 0 to 1.
    pub sizes: Vec<f64>,
    /// Why it is to be thrown away by the rules of hygiene.
    pub lost: Option<Arc<Against>>,
}

/// Pots of one cause, or of two together.
#[derive(Clone, Debug)]
pub struct Group {
    /// Places in the table.
    pub causes: Vec<usize>,
    /// How likely before anything was said, against the others.
    pub prior: f64,
    /// Chances that the maker answers as planned, question by question.
    pub unaware: [f64; FACTS],
    /// The plan itself has this flaw: its place among the flaws.
    pub flaw: Option<usize>,
    pub pots: Arc<Vec<Pot>>,
}

/// What pots are drawn with.
pub struct Drawing<'a> {
    pub sampler: &'a Sampler,
    pub planned: &'a Planned,
    pub pantry: &'a Pantry,
    pub table: &'static MishapTable,
}

impl Drawing<'_> {
    /// One pot of a run.
    pub fn pot(&self, design: &Design, run: &Run, causes: &[(&Cause, f64)]) -> Pot {
        let (causes, sizes): (Vec<&Cause>, Vec<f64>) = causes.iter().copied().unzip();
        Pot {
            there: sign::there(run, self.planned, &causes),
            truth: Truth::of(design, run, &causes, self.table),
            sizes,
            lost: Against::discard(run).map(Arc::new),
        }
    }

    /// Pots of several lists of causes, all worked side by side.
    pub fn groups(&self, lists: &[Vec<usize>]) -> Vec<Arc<Vec<Pot>>> {
        let each = |list: &Vec<usize>| if list.len() > 1 { POTS_OF_TWO } else { POTS };
        let places: Vec<(usize, usize)> =
            lists.iter().enumerate().flat_map(|(g, list)| (0..each(list)).map(move |k| (g, k))).collect();
        // Sizes fill their ends evenly, each cause by its own stream.
        let sizes: Vec<Vec<f64>> =
            (0..self.table.causes.len()).map(|c| samples::side(SEED, c as u64, POTS, POTS)).collect();
        let (table, sizes) = (self.table, &sizes);
        let numbers: Vec<usize> = places.iter().map(|(_, k)| *k).collect();
        let causes = |i: usize| {
            let (g, k) = places[i];
            lists[g].iter().map(move |c| (&table.causes[*c], sizes[*c][k]))
        };
        let changed = |i: usize, design: &mut Design| {
            causes(i).for_each(|(cause, at)| change::apply(&cause.change, at, design, self.pantry));
        };
        let pots = self.sampler.each_changed(&numbers, changed, |i, scenario, run| {
            let causes: Vec<(&Cause, f64)> = causes(i).collect();
            self.pot(scenario.design, &run, &causes)
        });
        let mut groups: Vec<Vec<Pot>> = vec![Vec::new(); lists.len()];
        for ((g, _), pot) in places.iter().zip(pots) {
            // A pot without a forecast says nothing of its cause; the others of its group stand for it.
            groups[*g].extend(pot.ok());
        }
        groups.into_iter().map(Arc::new).collect()
    }
}
