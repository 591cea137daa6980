//! One answer: forecast and judged.

use crate::judging;
use crate::next_pots::{self, Generation, LineAsk};
use crate::nutrition::{self, Nutrition};
use crate::ready::ReadyTime;
use crate::verdict::Verdict;
use potset_base::Note;
use potset_doc::pantry::{Outdated, outdated};
use potset_forecast::Facts;
use potset_forecast::learnt::placed;
use potset_forecast::scenario::{Run, Scenario};
use potset_science::Forecast;

/// The answer for the screen: a forecast and its verdict, or why there is none.
#[derive(Clone, Debug, Default)]
pub struct Answer {
    pub forecast: Forecast,
    pub facts: Facts,
    pub verdict: Verdict,
    /// When the possible pots are ready, where that was asked for.
    pub ready: Option<ReadyTime>,
    /// The pots that this one would start, where they were asked for.
    pub next_pots: Vec<Generation>,
    pub nutrition: Nutrition,
    /// Entries of the design that the pantry has otherwise now.
    pub outdated: Vec<Outdated>,
    /// The forecast uses something that pots taught.
    pub learnt: bool,
    /// Why there is no forecast.
    pub errors: Vec<Note>,
}

/// Answers a question whole.
pub fn answer(ask: &Scenario<'_>) -> Answer {
    answer_with(ask, None)
}

/// Answers a question whole, with the pots that this one would start if a line of them is asked for.
pub fn answer_with(ask: &Scenario<'_>, line: Option<&LineAsk>) -> Answer {
    answered(ask, ask.run(), line)
}

/// Answers a question whole, looking at least so many hours ahead.
pub fn answer_to(ask: &Scenario<'_>, horizon_h: f64) -> Answer {
    answered(ask, ask.run_to(horizon_h), None)
}

fn answered(ask: &Scenario<'_>, run: Result<Run, Vec<Note>>, line: Option<&LineAsk>) -> Answer {
    match run {
        Ok(run) => {
            let verdict = judging::judge(ask, &run);
            let next_pots = line.map_or_else(Vec::new, |line| next_pots::line(&run, line));
            let nutrition =
                nutrition::nutrition(&run.facts.content, &run.mix, &run.forecast, ask.design.pots.serving_g);
            Answer {
                forecast: run.forecast,
                facts: run.facts,
                verdict,
                ready: None,
                next_pots,
                nutrition,
                outdated: outdated(&ask.design.snapshot, ask.pantry),
                learnt: placed(ask, &run.mix.laws).is_some(),
                errors: Vec::new(),
            }
        }
        Err(errors) => Answer { errors, ..Answer::default() },
    }
}
