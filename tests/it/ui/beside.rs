//! The Beside view without a screen: columns come and go, keys alone do, the sentence is heard, nothing is lost.

use egui::accesskit::{Live, Role};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_app::columns::{BesidePage, Holds};
use potset_app::command::{BenchCommand, BesideCommand, SweepCommand, WindowCommand};
use potset_app::state::{Dialog, View};
use potset_app::{Action, Command};
use potset_doc::Edit;
use potset_doc::edit::LineKind;
use potset_forecast::observable::Observable;
use potset_report::beside::sentence;
use potset_search::swap::SwapAsk;

use super::{Window, design, press, window_on};

type H = Harness<'static, Window>;

const WIDE: [f32; 2] = [1280.0, 800.0];
/// 1280x800 at 150 %.
const NARROW: [f32; 2] = [853.0, 533.0];

fn run(h: &mut H, command: Command) {
    h.state_mut().shell.runner.run(command);
    h.run();
}

fn beside(h: &mut H, command: BesideCommand) {
    run(h, Command::Beside(command));
}

fn state(h: &H) -> &potset_app::State {
    &h.state().shell.runner.state
}

fn open(size: [f32; 2], others: &[&'static str]) -> H {
    let mut h = window_on(size, "whole-milk-pot.ron");
    run(&mut h, Command::Window(WindowCommand::Show(View::Beside)));
    for other in others {
        beside(&mut h, BesideCommand::AddDemo(other));
    }
    h
}

fn ids(h: &H) -> Vec<u64> {
    state(h).columns.list.iter().map(|c| c.id).collect()
}

#[test]
fn alone_it_says_what_it_is_for_and_begins_with_one_press() {
    let mut h = open(WIDE, &[]);
    press(&mut h, "A coconut pot");
    assert_eq!(state(&h).columns.list.len(), 2);
    assert!(h.query_by_label("Remove Six jars for Tuesday").is_some());
}

#[test]
fn the_sentence_is_heard_and_said_again_when_it_changes() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    let told = sentence(&state(&h).columns.told.beside, 1);
    assert!(told.contains("more until it is ready"), "{told}");
    {
        let node = h.get_by_label(&told);
        assert_eq!(node.accesskit_node().live(), Live::Polite);
    }
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::HoldTemperature(36.0), None)));
    let changed = sentence(&state(&h).columns.told.beside, 1);
    assert_ne!(told, changed);
    assert!(h.query_by_label(&changed).is_some());
}

#[test]
fn four_designs_fit_and_a_fifth_is_refused() {
    let all = ["coconut-pot.ron", "oat-and-coconut.ron", "strained-milk-pot.ron"];
    for size in [WIDE, [1920.0, 1080.0]] {
        for over in [false, true] {
            let mut h = open(size, &all);
            beside(&mut h, BesideCommand::LaidOver(over));
            inside(&h, size);
            let before = ids(&h);
            beside(&mut h, BesideCommand::AddDemo("soy-set-pots.ron"));
            assert_eq!(ids(&h), before);
            assert!(state(&h).notices.iter().any(|n| n.title.contains("At most 4")));
        }
    }
    for page in BesidePage::ALL {
        let mut h = open(NARROW, &["coconut-pot.ron"]);
        beside(&mut h, BesideCommand::Page(page));
        inside(&h, NARROW);
    }
}

/// Everything that can be pressed lies inside of the window, as far as it is not in a scroll area.
fn inside(h: &H, [width, height]: [f32; 2]) {
    let all = h.root().children_recursive();
    let buttons = all.filter(|n| n.accesskit_node().role() == Role::Button);
    for node in buttons {
        let name = node.accesskit_node().label().unwrap_or_default();
        let rect = node.rect();
        if ["Take ", "Duplicate ", "Go on ", "Move "].iter().any(|start| name.starts_with(start)) {
            assert!(
                rect.left() >= 0.0 && rect.right() <= width && rect.bottom() <= height,
                "{name}: {rect:?}"
            );
        }
    }
}

#[test]
fn duplicate_and_change_is_one_press_and_keeps_what_was_there() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::HoldHours(7.0), None)));
    let was = design(&h);
    press(&mut h, "Duplicate Whole milk pot and change the copy");
    assert_eq!(state(&h).view, View::Bench);
    assert_eq!(design(&h).name, "Whole milk pot, changed");
    assert_eq!(design(&h).hold().unwrap().hours, 7.0);
    // What was on the bench stands beside it with its unsaved change.
    let kept = state(&h).columns.list.iter().find_map(|c| match &c.holds {
        Holds::Kept(session, _) if session.history.unsaved() => Some(session.history.design().clone()),
        _ => None,
    });
    assert_eq!(*kept.unwrap(), was);
    // And comes back with its undo.
    let id = state(&h).columns.unsaved().next().unwrap().0;
    beside(&mut h, BesideCommand::ToBench(id));
    assert_eq!(design(&h), was);
    run(&mut h, Command::Do(Action::Undo));
    assert_eq!(design(&h).hold().unwrap().hours, 9.0);
}

#[test]
fn unsaved_columns_are_asked_about_before_anything_is_lost() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    let milk = design(&h).name;
    let coconut = ids(&h)[1];
    beside(&mut h, BesideCommand::ToBench(coconut));
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::SugarDose(0, 20.0), None)));
    let milk_id = state(&h).columns.list.iter().find(|c| matches!(c.holds, Holds::Kept(..))).unwrap().id;
    beside(&mut h, BesideCommand::ToBench(milk_id));
    assert_eq!(design(&h).name, milk);
    // Taking it away asks; Cancel leaves all as it was.
    let unsaved = state(&h).columns.unsaved().next().unwrap().0;
    beside(&mut h, BesideCommand::Remove(unsaved));
    assert!(matches!(state(&h).dialog, Dialog::Unsaved(_)));
    press(&mut h, "Cancel");
    assert_eq!((design(&h).name, state(&h).columns.list.len()), (milk.clone(), 2));
    // Quitting asks for it, too.
    run(&mut h, Command::Do(Action::Quit));
    assert!(matches!(state(&h).dialog, Dialog::Unsaved(_)));
    assert_eq!(design(&h).sugars[0].g_per_l, 20.0);
    press(&mut h, "Cancel");
    // Given up, the quit leaves all as it was; Discard takes the column away and brings the other back.
    assert_eq!(design(&h).name, milk);
    let unsaved = state(&h).columns.unsaved().next().unwrap().0;
    beside(&mut h, BesideCommand::Remove(unsaved));
    press(&mut h, "Discard");
    assert_eq!((design(&h).name, state(&h).columns.list.len()), (milk, 1));
}

#[test]
fn columns_move_and_the_first_is_what_all_are_compared_with() {
    let mut h = open(WIDE, &["coconut-pot.ron", "oat-and-coconut.ron"]);
    let before = ids(&h);
    press(&mut h, "Move Six jars for Tuesday to the left");
    assert_eq!(ids(&h), [before[1], before[0], before[2]]);
    let told = &state(&h).columns.told.beside;
    assert_eq!(told.names[0], "Six jars for Tuesday");
    let sentences: Vec<String> = (1..told.names.len()).map(|i| sentence(told, i)).collect();
    assert!(sentences.iter().all(|s| s.contains("beside Six jars for Tuesday")), "{sentences:?}");
}

#[test]
fn one_stop_line_for_all_reads_all_at_one_hour_and_changes_nothing() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    let (milk, coconut) = (design(&h), state(&h).columns.told.designs[1].clone());
    press(&mut h, "One stop line");
    beside(&mut h, BesideCommand::Stop(Some(12.0)));
    let told = &state(&h).columns.told;
    assert!(told.answers.iter().all(|a| a.forecast.stop_h == 12.0));
    // The stop line is no input of its own then.
    assert!(told.beside.inputs.iter().all(|r| r.name != "you stop at"));
    assert_eq!(design(&h), milk);
    press(&mut h, "One stop line");
    assert_eq!(state(&h).columns.told.designs[1], coconut);
}

#[test]
fn keys_alone_open_it_add_to_it_and_leave_it() {
    let mut h = window_on(WIDE, "whole-milk-pot.ron");
    h.key_press_modifiers(Modifiers::COMMAND, Key::Num2);
    h.run();
    assert_eq!(state(&h).view, View::Beside);
    h.key_press_modifiers(Modifiers::COMMAND, Key::D);
    h.run();
    assert_eq!((state(&h).view, state(&h).columns.list.len()), (View::Bench, 2));
    h.key_press_modifiers(Modifiers::COMMAND, Key::Num2);
    h.run();
    // By Tab to a page, and Enter.
    h.get_by_role_and_label(Role::Tab, "Differences").focus();
    h.key_press(Key::Enter);
    h.run();
    assert_eq!(state(&h).columns.page, BesidePage::Differences);
    h.key_press_modifiers(Modifiers::COMMAND, Key::Num1);
    h.run();
    assert_eq!(state(&h).view, View::Bench);
}

#[test]
fn a_published_pot_stands_beside_with_its_readings() {
    let mut h = open(WIDE, &[]);
    let key = potset_app::columns::cases()[0].key.clone();
    beside(&mut h, BesideCommand::AddCase(key));
    let columns = &state(&h).columns;
    assert_eq!(columns.told.answers.len(), 2);
    let Holds::Case(case) = &columns.list[1].holds else { panic!("no case") };
    assert!(!case.measured.is_empty() && case.place.starts_with("published"));
    assert!(columns.told.answers[1].errors.is_empty());
    // All that are offered can be had.
    for case in potset_app::columns::cases() {
        assert!(potset_app::columns::case(&case.key, &state(&h).pantry).is_ok(), "{}", case.key);
    }
}

#[test]
fn a_bad_file_is_told_and_the_columns_stay() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    beside(&mut h, BesideCommand::AddFile("not-there.ron".into()));
    assert_eq!(state(&h).columns.list.len(), 2);
    assert!(state(&h).notices.iter().any(|n| n.line().contains("not-there")));
}

#[test]
fn a_column_without_forecast_says_why() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    run(
        &mut h,
        Command::Bench(BenchCommand::Edit(
            Edit::BaseLabel(0, potset_doc::edit::LabelField::Fat, Some(150.0)),
            None,
        )),
    );
    let told = &state(&h).columns.told;
    if told.answers[0].errors.is_empty() {
        // The edit was refused: then it was told.
        assert!(!state(&h).notices.is_empty());
    } else {
        assert!(sentence(&told.beside, 1).starts_with("There is no forecast of Whole milk pot"));
    }
}

#[test]
fn a_point_of_a_sweep_becomes_the_design_and_is_undone_in_one_step() {
    let mut h = open(WIDE, &[]);
    let before = design(&h);
    beside(&mut h, BesideCommand::Page(BesidePage::Sweep));
    let swept = state(&h).sweeps.swept.clone().unwrap();
    assert!(swept.sweep.complete());
    let wanted = swept.sweep.ask.knobs(10, 20);
    // By keys alone: to the map, along it, Enter.
    let map = h
        .root()
        .children_recursive()
        .find(|n| n.accesskit_node().label().is_some_and(|l| l.starts_with("Map of")));
    map.expect("a map").focus();
    h.run();
    h.key_press(Key::ArrowRight);
    h.key_press(Key::ArrowUp);
    h.run();
    h.key_press(Key::Enter);
    h.run();
    assert_ne!(design(&h), before);
    run(&mut h, Command::Do(Action::Undo));
    assert_eq!(design(&h), before);
    run(&mut h, Command::Sweep(SweepCommand::Take(10, 20)));
    for (lever_id, v) in wanted {
        let now = lever_id.value(&design(&h), &state(&h).pantry).unwrap();
        assert!((now - v).abs() < 1e-9, "{lever_id:?}: {now} for {v}");
    }
    assert!(state(&h).session.history.can_undo().unwrap().starts_with("Sweep"));
    // A point of the sweep has the same sweep: what is worked out stays, and is what would be worked out anew.
    let question = state(&h).sweeps.question;
    let kept = state(&h).sweeps.swept.clone().unwrap();
    run(&mut h, Command::Sweep(SweepCommand::Take(30, 5)));
    assert_eq!(state(&h).sweeps.question, question);
    assert!(std::sync::Arc::ptr_eq(&kept, state(&h).sweeps.swept.as_ref().unwrap()));
    let wish = state(&h).sweeps.wish.unwrap();
    run(&mut h, Command::Sweep(SweepCommand::Wish(wish)));
    let anew = state(&h).sweeps.swept.clone().unwrap();
    assert!(anew.sweep.complete() && anew.sweep.cells == kept.sweep.cells);
    // Any other edit asks again.
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::HoldHours(7.25), None)));
    assert!(state(&h).sweeps.question > question + 1);
}

#[test]
fn a_range_that_cannot_be_swept_leaves_no_map_of_another() {
    let mut h = open(WIDE, &[]);
    beside(&mut h, BesideCommand::Page(BesidePage::Sweep));
    let mut wish = state(&h).sweeps.wish.unwrap();
    std::mem::swap(&mut wish.x.from, &mut wish.x.to);
    run(&mut h, Command::Sweep(SweepCommand::Wish(wish)));
    assert!(state(&h).sweeps.swept.is_none());
    let fault = state(&h).sweeps.fault.clone().unwrap().line();
    assert!(h.query_by_label_contains(&fault).is_some(), "{fault}");
    std::mem::swap(&mut wish.x.from, &mut wish.x.to);
    run(&mut h, Command::Sweep(SweepCommand::Wish(wish)));
    assert!(state(&h).sweeps.fault.is_none() && state(&h).sweeps.swept.is_some());
}

#[test]
fn a_sweep_of_one_lever_has_a_curve_for_each_outcome() {
    let mut h = open(WIDE, &[]);
    beside(&mut h, BesideCommand::Page(BesidePage::Sweep));
    let wish = state(&h).sweeps.wish.unwrap();
    run(&mut h, Command::Sweep(SweepCommand::Wish(potset_app::sweeps::SweepWish { y: None, ..wish })));
    let label = h
        .root()
        .children_recursive()
        .find_map(|n| n.accesskit_node().label().filter(|l| l.starts_with("Curves over")));
    let label = label.expect("curves");
    for outcome in [Observable::ReadyFrom, Observable::Texture, Observable::SugarLeft, Observable::Whey] {
        assert!(label.contains(outcome.name()), "{} is not in {label}", outcome.name());
    }
}

#[test]
fn a_swap_is_looked_at_put_beside_taken_and_undone() {
    let mut h = window_on(WIDE, "coconut-pot.ron");
    run(&mut h, Command::Window(WindowCommand::Show(View::Beside)));
    beside(&mut h, BesideCommand::Page(BesidePage::Swap));
    let before = design(&h);
    let wish = SwapAsk {
        shelf: LineKind::Thickeners,
        line: 0,
        entry: "tapioca_cold".to_owned(),
        equal_thickness: true,
        equal_tang: false,
    };
    let key =
        state(&h).pantry.thickeners.iter().map(|t| t.key.clone()).find(|k| *k != before.thickeners[0].entry);
    let wish = SwapAsk { entry: key.unwrap(), ..wish };
    run(&mut h, Command::Sweep(SweepCommand::Swap(SwapAsk { equal_thickness: false, ..wish.clone() })));
    assert!(state(&h).sweeps.swap.told.as_ref().unwrap().is_ok());
    assert_eq!(design(&h), before);
    press(&mut h, "Add it to Beside");
    assert_eq!((design(&h), state(&h).columns.list.len()), (before.clone(), 2));
    beside(&mut h, BesideCommand::Page(BesidePage::Swap));
    press(&mut h, "Use it");
    assert_eq!(design(&h).thickeners[0].entry, wish.entry);
    run(&mut h, Command::Do(Action::Undo));
    assert_eq!(design(&h), before);
}

#[test]
fn the_comparison_is_copied_as_a_table() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    run(&mut h, Command::Do(Action::CopyBeside));
    let copied = h.output().platform_output.commands.iter().find_map(|c| match c {
        egui::OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    });
    let copied = copied.expect("copied text");
    assert!(copied.starts_with("kind\tpart\tname\tunit\tWhole milk pot\tSix jars for Tuesday\n"), "{copied}");
}

#[test]
fn a_quit_that_is_given_up_throws_nothing_away() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    let coconut = ids(&h)[1];
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::HoldHours(7.0), None)));
    beside(&mut h, BesideCommand::ToBench(coconut));
    run(&mut h, Command::Bench(BenchCommand::Edit(Edit::SugarDose(0, 20.0), None)));
    run(&mut h, Command::Do(Action::Quit));
    press(&mut h, "Discard");
    assert!(matches!(state(&h).dialog, Dialog::Unsaved(_)), "the other one is asked about, too");
    press(&mut h, "Cancel");
    assert!(state(&h).session.history.unsaved() && state(&h).session.at_stake());
    assert_eq!(state(&h).columns.unsaved().count(), 1);
    assert_eq!(state(&h).unsaved(true).len(), 2);
    // The bench and the view are as they were.
    assert_eq!(state(&h).design().name, "Six jars for Tuesday");
    assert_eq!(state(&h).view, View::Bench);
    beside(&mut h, BesideCommand::Page(BesidePage::Differences));
    run(&mut h, Command::Window(WindowCommand::Show(View::Beside)));
    run(&mut h, Command::Do(Action::Quit));
    press(&mut h, "Discard");
    assert_eq!(state(&h).view, View::Bench, "what is asked about is in sight");
    press(&mut h, "Cancel");
    assert_eq!(state(&h).design().name, "Six jars for Tuesday");
    assert_eq!(state(&h).view, View::Beside);
}

#[test]
fn the_levers_of_every_column_turn_where_they_stand() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    press(&mut h, "Levers");
    assert!(state(&h).columns.levers);
    let of = |h: &H, i: usize| state(h).column_design(&state(h).columns.list[i].holds);
    let (bench, other) = (of(&h, 0), of(&h, 1));
    let hours = other.hold().unwrap().hours;
    let answered = state(&h).columns.told_number;
    super::type_number(&mut h, "Stop at of Six jars for Tuesday", "20");
    assert_ne!(hours, 20.0);
    assert_eq!(of(&h, 1).hold().unwrap().hours, 20.0);
    assert_eq!(of(&h, 0), bench, "the other column stays as it was");
    // What was worked out of it is of the changed design.
    assert!(state(&h).columns.told_number > answered);
    assert_eq!(state(&h).columns.told.designs[1].hold().unwrap().hours, 20.0);
    press(&mut h, "Undo in Six jars for Tuesday");
    assert_eq!(of(&h, 1), other);
    // On the bench it is the design of the bench that is turned, with its own undo.
    super::type_number(&mut h, "Stop at of Whole milk pot", "9");
    assert_eq!(design(&h).hold().unwrap().hours, 9.0);
    super::undo(&mut h, 1);
    assert_eq!(design(&h), *bench);
}

#[test]
fn a_drag_of_a_columns_lever_is_one_step_and_counts_as_unsaved() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    let id = ids(&h)[1];
    for (hours, gesture) in [(19.0, 7), (20.0, 7), (21.0, 7)] {
        beside(&mut h, BesideCommand::Edit(id, Edit::HoldHours(hours), Some(gesture)));
    }
    beside(&mut h, BesideCommand::EndGesture(id));
    let Holds::Kept(session, _) = &state(&h).columns.list[1].holds else { panic!("a design of its own") };
    assert!(session.history.unsaved());
    beside(&mut h, BesideCommand::Undo(id));
    let Holds::Kept(session, _) = &state(&h).columns.list[1].holds else { panic!("a design of its own") };
    assert!(!session.history.unsaved() && session.history.can_undo().is_none());
}

#[test]
fn a_published_pot_has_no_levers_and_says_why() {
    let mut h = open(WIDE, &[]);
    let key = potset_app::columns::cases()[0].key.clone();
    beside(&mut h, BesideCommand::AddCase(key));
    press(&mut h, "Levers");
    assert!(h.query_by_label("A published pot stays as it was measured.").is_some());
    let id = ids(&h)[1];
    beside(&mut h, BesideCommand::Edit(id, Edit::HoldHours(7.0), None));
    assert!(state(&h).notices.iter().any(|n| n.title.contains("stays as it was measured")));
}

#[test]
fn what_a_swap_brings_anew_stands_above_the_button() {
    let mut h = open(WIDE, &["coconut-pot.ron"]);
    beside(&mut h, BesideCommand::Page(BesidePage::Swap));
    let entry = "soy_drink_unsweetened".to_owned();
    let wish = SwapAsk { shelf: LineKind::Bases, line: 0, entry, equal_thickness: false, equal_tang: false };
    run(&mut h, Command::Sweep(SweepCommand::Swap(wish)));
    let said = h.get_by_label("New allergen in the pot: soy").rect();
    assert!(said.bottom() < h.get_by_label("Use it").rect().top());
}
