//! The spread on the bench: bands that can be hidden, chances, cautions, what matters; and that an edit outdates it.

use egui::{Key, Modifiers, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_app::command::BenchCommand;
use potset_app::{Action, Command};
use potset_base::Note;
use potset_doc::Edit;

use super::{Window, press, window, window_on};

type H = Harness<'static, Window>;

const POTS: usize = 64;

fn spread(h: &mut H, with_matters: bool) {
    h.state_mut().shell.runner.spread(POTS, with_matters);
    h.run();
}

#[test]
fn the_card_says_how_sure_it_is_and_a_press_or_a_key_hides_it() {
    let mut h = window([1280.0, 1000.0]);
    assert!(h.query_by_label_contains("usually between").is_none(), "before there is a spread");
    spread(&mut h, false);
    assert!(h.query_by_label_contains("of 64 pots").is_some());
    // Each strip says in its sentence what most pots do.
    for name in ["Sourness", "Acid made", "Sugar left", "Texture", "Culture", "Warmth"] {
        let start = format!("{name}: ");
        let named = |label: Option<String>| label.is_some_and(|label| label.starts_with(&start));
        let all = h.query_all_by_label_contains(&start);
        assert_eq!(all.filter(|n| named(n.accesskit_node().label())).count(), 1, "{name}");
    }
    assert_eq!(h.query_all_by_label_contains("at the stop line usually between").count(), 6);
    press(&mut h, "Hide the range");
    assert!(!h.state().shell.runner.state.settings.spread);
    assert_eq!(h.query_all_by_label_contains("usually between").count(), 0);
    assert!(h.query_by_label("Show how sure this is").is_some());
    h.key_press_modifiers(Modifiers::COMMAND, Key::B);
    h.run();
    assert!(h.state().shell.runner.state.settings.spread);
}

#[test]
fn the_cursor_reads_the_band() {
    let mut h = window([1280.0, 1000.0]);
    spread(&mut h, false);
    let plot = h.get_by_label_contains("Sourness: ").rect();
    h.hover_at(pos2(plot.left() + plot.width() / 3.0, plot.center().y));
    h.run();
    let said = h.query_all_by_label_contains("Sourness at 12.0").count();
    assert_eq!(said, 1);
    assert!(h.query_by_label_contains("Sourness at 12.0\u{a0}h: pH").is_some());
    let band = h.query_all_by_label_contains("usually between").count();
    assert!(band >= 7, "sentences and the readings under the cursor: {band}");
}

#[test]
fn an_answer_to_an_older_question_is_dropped() {
    let mut h = window([1280.0, 800.0]);
    spread(&mut h, true);
    let (old, number) = {
        let state = &h.state().shell.runner.state;
        (state.doubt.spread.clone().unwrap(), state.question)
    };
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::HoldHours(30.0), None));
    h.run();
    h.state_mut().shell.runner.run(BenchCommand::Spread(number, std::sync::Arc::default()));
    let state = &h.state().shell.runner.state;
    assert_eq!(*state.doubt.spread.clone().unwrap(), *old, "the newer question has no spread yet");
    spread(&mut h, false);
    let state = &h.state().shell.runner.state;
    assert!((state.doubt.shown().unwrap().stop_h - 30.0).abs() < 1e-9);
}

#[test]
fn what_matters_is_told_in_three_lists() {
    let mut h = window([1280.0, 2400.0]);
    spread(&mut h, true);
    press(&mut h, "What matters");
    for head in ["What you can turn", "What you can find out", "Which reading helps most"] {
        assert!(h.query_by_label(head).is_some(), "{head}");
    }
    assert!(h.query_by_label_contains("a pH reading with a meter, at").is_some());
    press(&mut h, "Copy what matters");
}

#[test]
fn slow_pots_are_told_as_chances() {
    let mut h = window_on([1280.0, 2000.0], "failed-too-hot.ron");
    spread(&mut h, false);
    assert!(h.query_by_label_contains("possible pots would have to be thrown away").is_some());
}

#[test]
fn a_pot_without_a_forecast_has_no_spread() {
    let mut h = window([1280.0, 800.0]);
    spread(&mut h, false);
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::ChillTemperature(2.0), None));
    h.run();
    assert!(!h.state().shell.runner.state.answer.errors.is_empty(), "the fridge is at 4 °C");
    assert!(h.state().shell.runner.state.doubt.shown().is_none());
    h.state_mut().shell.runner.run(Command::Do(Action::Spread));
    h.run();
    assert!(h.state().shell.runner.state.doubt.shown().is_none());
}

#[test]
fn what_is_of_the_pot_before_is_said_to_be_and_nothing_jumps() {
    let mut h = window([1280.0, 1000.0]);
    spread(&mut h, false);
    let sure = h.get_by_label("How sure").rect();
    let last = |h: &H| h.query_all_by_label_contains("reached last").count();
    let before = |h: &H| {
        h.query_all_by_label_contains("s it was").map(|n| n.accesskit_node().label()).collect::<Vec<_>>()
    };
    assert!(last(&h) == 1 && before(&h).is_empty(), "{:?}", before(&h));
    // Another pot: until its own spread is there, neither the card nor the sheet claims the old one to be it.
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::HoldHours(23.5), None));
    h.run();
    assert!(h.query_by_label_contains("still being worked out").is_some(), "the last answer stays, pale");
    let strips = h.query_all_by_label_contains("as it was, at the stop line usually between").count();
    assert_eq!(strips, 6);
    assert_eq!(h.get_by_label("How sure").rect(), sure, "the cards below stay where they are");
    spread(&mut h, false);
    assert!(last(&h) == 1 && before(&h).is_empty(), "{:?}", before(&h));
}

#[test]
fn what_cannot_be_worked_out_is_not_waited_for() {
    let mut h = window([1280.0, 2000.0]);
    spread(&mut h, true);
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::HoldHours(30.0), None));
    let question = h.state().shell.runner.state.question;
    let why = Note::error("spread", "Its tin cannot be", "Look at it");
    h.state_mut().shell.runner.run(BenchCommand::NoSpread(question - 1, why.clone()));
    h.run();
    assert!(h.query_by_label_contains("could not be worked out").is_none(), "that is of another pot");
    h.state_mut().shell.runner.run(BenchCommand::NoSpread(question, why));
    h.run();
    press(&mut h, "What matters");
    assert!(h.query_by_label("It could not be worked out. Its tin cannot be").is_some());
    assert!(h.query_by_label("It could not be worked out for this design").is_some());
    assert_eq!(h.query_all_by_label_contains("eing worked out").count(), 0);
    assert_eq!(h.query_all_by_label_contains("8 in 10").count(), 0, "the likely line stands in");
    // Another design is another question.
    spread(&mut h, true);
    assert!(h.query_by_label_contains("could not be worked out").is_none());
}

#[test]
fn why_there_is_no_spread_is_told() {
    let mut h = window([1280.0, 800.0]);
    spread(&mut h, false);
    h.state_mut().shell.runner.run(BenchCommand::Edit(Edit::ChillTemperature(2.0), None));
    spread(&mut h, false);
    let why = h.state().shell.runner.state.doubt.trouble.clone().unwrap();
    assert!(why.title.contains("never reached"), "{why}");
}
