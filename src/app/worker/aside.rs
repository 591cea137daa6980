//! Work for sweeps and swaps of one design.

use std::panic::{self, AssertUnwindSafe};
use std::sync::Arc;

use super::outcome::Outcome;
use crate::sweeps::Swept;
use potset_base::Note;
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_forecast::outcome::Outcome as What;
use potset_forecast::scenario::Ask;
use potset_search::swap::{SwapAsk, swap};
use potset_search::sweep::{SweepAsk, Sweeper, goal_levels};

/// Points that are worked out before anything else is looked at: some ten milliseconds.
const CHUNK: usize = 64;

/// Points between two pictures, once the coarse one is there.
const PICTURE: usize = 256;

/// A design with all that its forecast hangs on.
#[derive(Clone, Debug)]
pub struct AsideQuestion {
    pub number: u64,
    pub design: Arc<Design>,
    pub pantry: Arc<Pantry>,
    pub kitchen: Kitchen,
    pub learnt: Learnt,
}

impl AsideQuestion {
    /// The design as a question.
    #[must_use]
    pub fn ask(&self) -> Ask<'_> {
        Ask { design: &self.design, pantry: &self.pantry, kitchen: &self.kitchen, learnt: &self.learnt }
    }
}

/// A design to be swept.
#[derive(Clone, Debug)]
pub struct SweepQuestion {
    pub of: AsideQuestion,
    pub ask: SweepAsk,
}

/// A swap to be looked at.
#[derive(Clone, Debug)]
pub struct SwapQuestion {
    pub of: AsideQuestion,
    pub wish: SwapAsk,
}

/// A sweep under way.
pub struct Sweeping {
    of: AsideQuestion,
    sweeper: Sweeper,
    levels: Vec<(What, Vec<(f64, String)>)>,
    pictured: usize,
}

impl Sweeping {
    /// A sweep with nothing worked out.
    #[must_use]
    pub fn new(question: SweepQuestion) -> Self {
        let SweepQuestion { of, ask } = question;
        let levels = panic::catch_unwind(AssertUnwindSafe(|| levels(&of, &ask))).unwrap_or_default();
        Self { of, sweeper: Sweeper::new(ask), levels, pictured: 0 }
    }

    /// Works out some more points: what there is to be shown now, and whether there are more. A panic ends the sweep.
    pub fn more(&mut self) -> (Option<Outcome>, bool) {
        let step = || self.sweeper.next(&self.of.ask(), CHUNK);
        let Ok(more) = panic::catch_unwind(AssertUnwindSafe(step)) else { return (None, false) };
        let done = self.sweeper.sweep().done;
        let due = self.pictured == 0 || done >= self.pictured + PICTURE || !more;
        if due {
            self.pictured = done;
        }
        (due.then(|| self.picture()), more)
    }

    fn picture(&self) -> Outcome {
        let swept = Swept { sweep: self.sweeper.sweep().clone(), levels: self.levels.clone() };
        Outcome::Swept(self.of.number, Arc::new(swept))
    }
}

/// Values at which something changes, of each outcome that can be shown.
fn levels(of: &AsideQuestion, sweep: &SweepAsk) -> Vec<(What, Vec<(f64, String)>)> {
    let ask = of.ask();
    let Ok(run) = ask.run() else { return Vec::new() };
    What::SWEPT.into_iter().map(|outcome| (outcome, goal_levels(outcome, &ask, &run, sweep))).collect()
}

/// A whole sweep here and now.
#[must_use]
pub fn sweep_whole(question: SweepQuestion) -> Outcome {
    let mut sweeping = Sweeping::new(question);
    loop {
        if let (outcome, false) = sweeping.more() {
            return outcome.unwrap_or_else(|| sweeping.picture());
        }
    }
}

/// Looks at a swap; a panic in the model is told.
#[must_use]
pub fn swapped(question: &SwapQuestion) -> Outcome {
    let told = panic::catch_unwind(AssertUnwindSafe(|| swap(&question.of.ask(), &question.wish)));
    let fault = || {
        Note::error(
            "Swap",
            "Looking at the swap ended in a fault of the program",
            "Pick another entry, and send the design to the makers of the program",
        )
    };
    Outcome::Swapped(question.of.number, Arc::new(told.unwrap_or_else(|_| Err(fault()))))
}
