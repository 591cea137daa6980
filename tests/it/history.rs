//! Undo: random runs of edits against a plain list of states; a drag is one step.

use potset_app::command::BenchCommand;
use potset_app::{Action, AppRunner, Command, State};
use potset_doc::{Design, Edit, History, Kitchen, Settings};
use proptest::prelude::*;

use crate::support::demo;

#[derive(Clone, Debug)]
enum Move {
    Edit(f64),
    Drag(Vec<f64>),
    Undo,
    Redo,
    Save,
}

fn moves() -> impl Strategy<Value = Vec<Move>> {
    let one = prop_oneof![
        4 => (0..40_u32).prop_map(|v| Move::Edit(f64::from(v))),
        2 => proptest::collection::vec((0..40_u32).prop_map(f64::from), 1..6).prop_map(Move::Drag),
        3 => Just(Move::Undo),
        2 => Just(Move::Redo),
        1 => Just(Move::Save),
    ];
    proptest::collection::vec(one, 1..60)
}

fn with(design: &Design, dose: f64) -> Design {
    let mut new = design.clone();
    new.sugars[0].g_per_l = dose;
    new
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn history_is_a_list_of_states_with_a_place(moves in moves()) {
        let start = demo("coconut-pot.ron");
        let mut history = History::new(start.clone(), true);
        let mut list = vec![start.sugars[0].g_per_l];
        let (mut place, mut saved) = (0_usize, Some(0_usize));
        for (n, step) in moves.iter().enumerate() {
            match step {
                Move::Edit(v) => {
                    history.push(with(&start, *v), "edit", None);
                    if list[place] != *v {
                        list.truncate(place + 1);
                        if saved.is_some_and(|s| s > place) { saved = None; }
                        list.push(*v);
                        place += 1;
                    }
                }
                Move::Drag(values) => {
                    let from = list[place];
                    for v in values {
                        history.push(with(&start, *v), "drag", Some(n as u64 + 1));
                    }
                    history.end_gesture();
                    let last = *values.last().unwrap();
                    let moved = values.iter().any(|v| *v != from);
                    if moved {
                        list.truncate(place + 1);
                        if saved.is_some_and(|s| s > place) { saved = None; }
                    }
                    if last != from {
                        list.push(last);
                        place += 1;
                    }
                }
                Move::Undo => {
                    prop_assert_eq!(history.undo(), place > 0);
                    place = place.saturating_sub(1);
                }
                Move::Redo => {
                    let can = place + 1 < list.len();
                    prop_assert_eq!(history.redo(), can);
                    if can { place += 1; }
                }
                Move::Save => {
                    history.mark_saved();
                    saved = Some(place);
                }
            }
            prop_assert_eq!(history.design().sugars[0].g_per_l, list[place]);
            prop_assert_eq!(history.unsaved(), saved != Some(place));
        }
    }
}

#[test]
fn undo_after_a_run_of_edits_returns_to_the_saved_state() {
    let mut runner = AppRunner::inline(State::start(Settings::default(), Kitchen::default()).unwrap());
    let before = runner.state.design().clone();
    for i in 0..30 {
        runner.run(BenchCommand::Edit(Edit::SugarDose(0, f64::from(i)), None));
        runner.run(BenchCommand::Edit(Edit::HoldTemperature(38.0 + 0.1 * f64::from(i)), None));
    }
    assert!(runner.state.session.history.unsaved());
    for _ in 0..60 {
        runner.run(Command::Do(Action::Undo));
    }
    assert_eq!(*runner.state.design(), before);
    assert!(!runner.state.session.history.unsaved());
}

#[test]
fn a_drag_taken_back_leaves_nothing() {
    let mut runner = AppRunner::inline(State::start(Settings::default(), Kitchen::default()).unwrap());
    let before = runner.state.design().clone();
    runner.run(BenchCommand::Began(1));
    for i in 0..5 {
        runner.run(BenchCommand::Edit(Edit::SugarDose(0, 20.0 + f64::from(i)), Some(1)));
    }
    assert!(runner.state.ghost.is_some());
    runner.run(BenchCommand::TakeBackDrag);
    assert_eq!(*runner.state.design(), before);
    assert!(runner.state.session.history.can_undo().is_none());
    assert!(runner.state.ghost.is_none());
}
