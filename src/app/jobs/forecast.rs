//! The forecast of the design on the bench, and what it rests on.

use super::numbers::NumbersJob;
use super::question::Question;
use super::spread::SpreadJob;
use super::{At, Job, Key, Step, fault};
use crate::command::{BenchCommand, Command, WindowCommand};
use potset_doubt::influence::influences;
use potset_doubt::spread::POTS;
use potset_judge::answer::answer_with;

/// Forecasts and judges; the spread and what it rests on follow.
pub struct ForecastJob(pub Question);

impl Job for ForecastJob {
    fn key(&self) -> Key {
        Key::Forecast
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let question = self.0;
        let answer = answer_with(&question.scenario.scenario(), question.line.as_ref());
        let done = Step::done(BenchCommand::Answered(question.number, Ok(Box::new(answer))).into());
        // The ready time needs the possible pots, whether bands are shown or not.
        done.and(NumbersJob(question.clone()))
            .and(SpreadJob::new(&question, POTS))
            .and(SensitivitiesJob(question))
    }

    fn fault(&self) -> Command {
        let note = fault("forecast", "The forecast", "Undo the last change");
        BenchCommand::Answered(self.0.number, Err(note)).into()
    }
}

/// Which figures move the forecast most.
pub struct SensitivitiesJob(pub Question);

impl Job for SensitivitiesJob {
    fn key(&self) -> Key {
        Key::Sensitivities
    }

    fn step(self: Box<Self>, at: &mut At<'_>) -> Step {
        match influences(&self.0.scenario.scenario(), &mut || at.go_on()) {
            // It was given up; without a newer question it is asked again in the next pause.
            list if list.is_empty() && !at.go_on() => Step::more(*self),
            list => Step::done(BenchCommand::Sensitivities(self.0.number, list).into()),
        }
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(fault(
            "What this rests on",
            "Looking for what this rests on",
            "Undo the last change",
        ))
        .into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::SweepCommand;
    use crate::jobs::Order;
    use crate::jobs::queue::Queue;
    use crate::jobs::sweep::SweepJob;
    use crate::state::State;
    use potset_doc::{Kitchen, Settings};
    use potset_forecast::lever::levers;
    use potset_search::sweep::{Axis, SweepAsk};

    #[test]
    fn the_first_picture_of_a_spread_waits_for_no_sweep() {
        let state = State::start(Settings::default(), Kitchen::default()).unwrap();
        let lever = levers(state.design(), &state.pantry).into_iter().find(|l| l.name == "Hold at").unwrap();
        let ask = SweepAsk::new(Axis::new(lever, 36.0, 44.0, 60).unwrap(), None).unwrap();
        let mut queue = Queue::default();
        let units = state.kitchen.units();
        queue.follow(Order::Work(Box::new(SweepJob::new(1, state.owned_scenario(), ask)), units));
        queue.follow(Order::Work(Box::new(ForecastJob(Question::of(&state))), units));
        let mut came = Vec::new();
        let mut tell = |result| {
            came.push(match result {
                Command::Bench(BenchCommand::Answered(..)) => "answer",
                Command::Bench(BenchCommand::Numbers(..)) => "numbers",
                Command::Bench(BenchCommand::Spread(_, spread)) if spread.complete() => "whole spread",
                Command::Bench(BenchCommand::Spread(..)) => "first picture",
                Command::Sweep(SweepCommand::Swept(..)) => "sweep",
                _ => "other",
            });
        };
        let short = |key: &Key| *key < Key::Matters;
        while queue.work(short, &mut || None, &mut tell) {}
        assert_eq!(came[..3], ["answer", "first picture", "numbers"], "{came:?}");
        assert!(came.contains(&"sweep") && came.last() == Some(&"whole spread"), "{came:?}");
    }
}
