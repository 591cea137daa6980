//! Every cited number that the design on the bench rests on.

use std::sync::Arc;

use super::question::Question;
use super::{At, Job, Key, Step, fault};
use crate::command::{BenchCommand, Command, WindowCommand};
use potset_forecast::numbers::{Basis, Numbers, numbers};

/// The list that was made last, and what it hangs on.
pub type Listed = Option<(Basis, Arc<Numbers>)>;

/// Lists the numbers.
pub struct NumbersJob(pub Question);

impl Job for NumbersJob {
    fn key(&self) -> Key {
        Key::Numbers
    }

    fn step(self: Box<Self>, at: &mut At<'_>) -> Step {
        let scenario = &self.0.scenario;
        let basis = Basis::of(&scenario.design, &scenario.pantry, &scenario.kitchen);
        let all = match at.listed.take() {
            Some((of, all)) if of == basis => all,
            _ => Arc::new(numbers(&scenario.design, &scenario.pantry, &scenario.kitchen, &scenario.learnt)),
        };
        *at.listed = Some((basis, Arc::clone(&all)));
        Step::done(BenchCommand::Numbers(self.0.number, all).into())
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(fault("Numbers", "Listing the numbers", "Undo the last change")).into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{AppRunner, State};
    use potset_doc::design::Disturbed;
    use potset_doc::edit::LineKind;
    use potset_doc::kitchen::FlaskReading;
    use potset_doc::readings::{BaseMeasured, CultureMeasured, Factor, Figure};
    use potset_doc::{Edit, Kitchen, Settings};

    /// Edits of every kind that may change what the list says; after each, the kept list is the one that is made anew.
    #[test]
    fn a_kept_list_is_the_list_that_would_be_made_anew() {
        let state = State::start(Settings::default(), Kitchen::default()).unwrap();
        let mut runner = AppRunner::inline(state);
        let measured =
            BaseMeasured { ph: Some(Figure { value: 6.1, within: None }), ..BaseMeasured::default() };
        let pace =
            CultureMeasured { pace: Some(Factor { value: 0.8, times: None }), ..CultureMeasured::default() };
        let edits = [
            (Edit::SugarDose(0, 14.0), true),
            (Edit::HoldHours(20.0), true),
            (Edit::BaseMeasured(0, measured), false),
            (Edit::BaseMeasured(0, BaseMeasured::default()), false),
            (Edit::CultureMeasured(0, pace), false),
            (Edit::CultureAge(0, 90.0), false),
            (Edit::Add(LineKind::Thickeners, "agar".to_owned(), 2.0), false),
            (Edit::ThickenerDose(0, 3.0), true),
            (Edit::Swap(LineKind::Bases, 0, "whole_cows_milk".to_owned()), false),
            (Edit::Disturbed(Disturbed::StirredByHand), false),
        ];
        for (edit, kept) in edits {
            let before = Arc::clone(&runner.state.numbers);
            runner.run(BenchCommand::Edit(edit.clone(), None));
            let now = &runner.state.numbers;
            let anew = numbers(runner.state.design(), &runner.state.pantry, &runner.state.kitchen, &runner.state.learnt);
            assert_eq!((&now.all, &now.uses), (&anew.all, &anew.uses), "{edit:?}");
            assert_eq!(Arc::ptr_eq(&before, now), kept, "{edit:?}");
        }
    }

    /// A reading of a flask that the design uses renews the list, and stands in it.
    #[test]
    fn a_reading_of_a_flask_renews_the_list() {
        let mut runner = AppRunner::inline(State::start(Settings::default(), Kitchen::default()).unwrap());
        runner.run(BenchCommand::Edit(Edit::Warmer("insulated_flask".to_owned()), None));
        let own = |numbers: &Numbers| {
            numbers.all.iter().filter(|n| n.used && n.own && n.key.ends_with("cooling_h")).count()
        };
        assert_eq!(own(&runner.state.numbers), 0);
        let reading = FlaskReading {
            key: String::new(),
            filled_c: 42.0,
            after_h: 12.0,
            reads_c: 36.0,
            room_c: 21.0,
            litres: 1.0,
        };
        let mut kitchen = Kitchen::default();
        kitchen.set_flask_readings("insulated_flask", [reading]);
        runner.run(WindowCommand::Kitchen(kitchen));
        assert_eq!(own(&runner.state.numbers), 1);
    }
}
