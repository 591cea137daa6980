//! A kitchen in °F and US amounts: nothing that a person reads holds °C, differences are not moved, what is typed is read in
//! °F, and files stay as they are.

use std::fs;

use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use potset_app::command::{AimCommand, BenchCommand, BesideCommand, FileCommand, WindowCommand};
use potset_app::session::Session;
use potset_app::state::View;
use potset_app::{Action, AppRunner, Command, State};
use potset_base::measures::{Measure, SpoonSet};
use potset_base::units::{self, Amounts, Degrees};
use potset_doc::edit::LineKind;
use potset_doc::kitchen::{FlaskReading, MeasuredWarmer};
use potset_doc::settings::{Depth, Theme};
use potset_doc::steps::{Event, Happening};
use potset_doc::{Edit, Kitchen, Settings, assets, format};
use potset_forecast::numbers::numbers;

use crate::cli::{potset_at, text};
use crate::ui::legible::{Drawn, drawn_by, faults};
use crate::ui::{Window, design, press, type_number, window_of};

/// Tall enough that no card is left out.
const TALL: (f32, f32) = (1280.0, 3200.0);

/// °F and cups, as the dialog chooses them.
fn us() -> Kitchen {
    Kitchen { degrees: Degrees::Fahrenheit, ..Kitchen::default() }.with_amounts(Amounts::UsCustomary)
}

fn state(demo: &str, depth: Depth, kitchen: Kitchen) -> State {
    let settings = Settings { theme: Theme::Light, depth, ..Settings::default() };
    let mut state = State::start(settings, kitchen).unwrap();
    state.session = Session::copy(assets::demo(demo).unwrap());
    state
}

/// Texts with °C; what the maker wrote down stays as it was written.
fn celsius(drawn: &[Drawn], notes: &str) -> Vec<String> {
    let own = |text: &str| text.split_whitespace().collect::<String>();
    let notes = own(notes);
    let told = drawn.iter().filter(|d| d.text.contains("°C") && own(&d.text) != notes);
    told.map(|d| d.text.clone()).collect()
}

#[test]
fn no_text_of_the_bench_is_in_celsius_over_all_demos() {
    let mut wrong = Vec::new();
    for (demo, _) in assets::DEMOS {
        for depth in [Depth::Plain, Depth::Details] {
            let state = state(demo, depth, us());
            let notes = state.design().notes.clone();
            let drawn = drawn_by(state, View::Bench, TALL, &[]);
            assert!(drawn.iter().any(|d| d.text.contains("°F")), "{demo}");
            wrong.extend(celsius(&drawn, &notes).into_iter().map(|text| format!("{demo}: {text}")));
        }
    }
    assert!(wrong.is_empty(), "{} texts:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_text_of_beside_aim_kitchen_and_my_pot_is_in_celsius() {
    let mut kitchen = us();
    kitchen.warmers.push(MeasuredWarmer { key: "heated_pot".into(), offset_c: 1.0, checked: String::new() });
    let mut wrong = Vec::new();
    for demo in ["coconut-pot.ron", "whole-milk-pot.ron", "coconut-agar.ron", "failed-too-hot.ron"] {
        for depth in [Depth::Plain, Depth::Details] {
            let beside: [Command; 2] = [
                BesideCommand::AddDemo("goat-pot.ron").into(),
                BenchCommand::Edit(Edit::HoldTemperature(38.5), None).into(),
            ];
            let aim: [Command; 1] = [AimCommand::Start.into()];
            let dialogs = [[Command::Do(Action::Kitchen)], [Command::Do(Action::MyPot)]];
            for (view, commands) in [
                (View::Beside, &beside[..]),
                (View::Aim, &aim[..]),
                (View::Bench, &dialogs[0][..]),
                (View::Bench, &dialogs[1][..]),
                (View::Pantry, &[][..]),
            ] {
                let state = state(demo, depth, kitchen.clone());
                let notes = state.design().notes.clone();
                let drawn = drawn_by(state, view, TALL, commands);
                let found = celsius(&drawn, &notes);
                wrong.extend(found.into_iter().map(|text| format!("{demo}, {}: {text}", view.words())));
            }
        }
    }
    assert!(wrong.is_empty(), "{} texts:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_text_of_a_us_kitchen_is_cut() {
    let mut wrong = Vec::new();
    for (demo, _) in assets::DEMOS {
        for size in [(1280.0, 800.0), (640.0, 400.0)] {
            let found = faults(&drawn_by(state(demo, Depth::Plain, us()), View::Bench, size, &[]));
            wrong.extend(found.into_iter().map(|fault| format!("{demo} at {size:?}: {fault}")));
        }
    }
    for view in [View::Bench, View::Beside, View::Aim, View::Pantry] {
        for size in [(1280.0, 800.0), (640.0, 400.0)] {
            let state = state("oat-and-coconut.ron", Depth::Details, us());
            let found = faults(&drawn_by(state, view, size, &[]));
            wrong.extend(found.into_iter().map(|fault| format!("{} at {size:?}: {fault}", view.words())));
        }
    }
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
}

fn shown(h: &Harness<'_, Window>, field: &str) -> String {
    h.get_by_role_and_label(Role::SpinButton, field).accesskit_node().value().unwrap_or_default()
}

fn bench(kitchen: Kitchen) -> Harness<'static, Window> {
    window_of([1280.0, 1900.0], state("coconut-pot.ron", Depth::Details, kitchen))
}

#[test]
fn what_is_typed_is_read_in_fahrenheit_and_celsius_when_it_says_so() {
    let mut h = bench(us());
    let set = |h: &Harness<'_, Window>| design(h).hold().unwrap().set_c;
    for (text, c, said) in
        [("104", 40.0, "104\u{a0}°F"), ("40.5 C", 40.5, "105\u{a0}°F"), ("113 °F", 45.0, "113\u{a0}°F")]
    {
        type_number(&mut h, "Hold at", text);
        assert!((set(&h) - c).abs() < 1e-9, "{text} gives {}", set(&h));
        assert_eq!(shown(&h, "Hold at"), said);
    }
    type_number(&mut h, "Hold at", "40 C");
    assert_eq!(set(&h), 40.0);
    // Out of reach: the reach is told in °F.
    type_number(&mut h, "Hold at", "40");
    let refused = h.state().shell.runner.state.refused.clone().unwrap();
    assert!(refused.title.starts_with("40\u{a0}°F is less"), "{refused}");
    assert_eq!(refused.mend, "Give 59\u{a0}°F to 140\u{a0}°F");
    assert_eq!(set(&h), 40.0);
}

#[test]
fn a_reset_gives_the_saved_warmth_back_to_the_last_bit() {
    let saved = design(&bench(us())).hold().unwrap().set_c;
    let mut h = bench(us());
    h.state_mut().shell.runner.state.session.history.mark_saved();
    type_number(&mut h, "Hold at", "111");
    press(&mut h, "Reset Hold at");
    assert_eq!(design(&h).hold().unwrap().set_c.to_bits(), saved.to_bits());
}

#[test]
fn a_lever_goes_by_whole_fahrenheit() {
    let mut h = bench(us());
    type_number(&mut h, "Hold at", "104");
    h.get_by_role_and_label(Role::Slider, "Hold at").focus();
    h.run();
    h.key_press(egui::Key::ArrowRight);
    h.run();
    let f = design(&h).hold().unwrap().set_c * 9.0 / 5.0 + 32.0;
    assert!((f - 105.0).abs() < 1e-9, "{f}");
}

#[test]
fn differences_are_not_moved_by_32() {
    let _speaking = units::speak(us().units());
    let reading = FlaskReading {
        key: "flask".into(),
        filled_c: 42.0,
        after_h: 12.0,
        reads_c: 41.5,
        room_c: 20.0,
        litres: 1.0,
    };
    let note = reading.fault(0, 1.0).unwrap();
    assert_eq!(note.sentence, "It cooled by 0.9\u{a0}°F, and your thermometer may err by 1.8\u{a0}°F");
    let mut kitchen = us();
    kitchen.warmers.push(MeasuredWarmer { key: "heated_pot".into(), offset_c: -2.0, checked: String::new() });
    let mut h = bench(kitchen);
    h.state_mut().shell.runner.run(Command::Do(Action::Kitchen));
    h.run();
    assert_eq!(shown(&h, "The thermometer may err by"), "1.8\u{a0}°F");
    assert_eq!(shown(&h, "Fridge"), "39.2\u{a0}°F");
    type_number(&mut h, "The thermometer may err by", "0.9");
    type_number(&mut h, "Room", "68");
    let kitchen = &h.state().shell.runner.state.kitchen;
    assert_eq!((kitchen.thermometer_c, kitchen.room_c), (0.5, 20.0));
}

#[test]
fn the_kitchen_chooses_and_what_stands_there_follows() {
    let mut h = bench(Kitchen::default());
    let steps = |h: &Harness<'_, Window>| {
        h.state().shell.runner.state.answer.facts.steps.iter().map(|s| s.words.clone()).collect::<Vec<_>>()
    };
    h.state_mut().shell.runner.run(BenchCommand::Edit(
        Edit::Events(vec![Event { at_h: 2.0, what: Happening::SetTo { c: 37.0 } }]),
        None,
    ));
    h.run();
    assert!(shown(&h, "Hold at").ends_with("°C") && steps(&h).iter().any(|s| s.contains("°C")));
    h.state_mut().shell.runner.run(Command::Do(Action::ShowFahrenheit));
    h.run();
    assert!(shown(&h, "Hold at").ends_with("°F"), "{}", shown(&h, "Hold at"));
    assert!(steps(&h).iter().all(|s| !s.contains("°C")), "{:?}", steps(&h));
    let state = &h.state().shell.runner.state;
    assert!(Action::ShowFahrenheit.disabled_reason(state).is_some());
    assert!(Action::ShowCelsius.disabled_reason(state).is_none());
    h.state_mut().shell.runner.run(Command::Do(Action::ShowCelsius));
    h.run();
    assert!(shown(&h, "Hold at").ends_with("°C"));
    // Nothing of it stays behind on this thread.
    assert_eq!(units::spoken(), units::Units::default());
}

#[test]
fn a_new_pot_of_a_us_kitchen_is_in_cups_and_spoons() {
    let mut runner = AppRunner::inline(state("coconut-pot.ron", Depth::Plain, us()));
    runner.run(FileCommand::MyPot(Box::default()));
    let made = runner.state.design();
    assert_eq!(made.spoons, SpoonSet::UnitedStates);
    assert_eq!((made.bases[0].measure, made.sugars[0].measure), (Measure::Cup, Measure::Tablespoon));
    runner.state.session.history.mark_saved();
    runner.run(Command::Do(Action::New));
    assert!(runner.state.design().bases.is_empty());
    for (shelf, key, amount, by) in [
        (LineKind::Bases, "coconut_cream_tinned", 0.8, Measure::Cup),
        (LineKind::Sugars, "white_sugar", 2.0, Measure::Teaspoon),
        (LineKind::Thickeners, "rice_starch_cold", 30.0, Measure::Tablespoon),
    ] {
        runner.run(BenchCommand::Edit(Edit::Add(shelf, key.to_owned(), amount), None));
        assert_eq!(runner.state.design().lines(shelf)[0].measure(), by, "{key}");
    }
    assert_eq!(runner.state.session.history.can_undo(), Some("Add thickener"));
    // In a metric kitchen all stays as it was.
    let mut metric = AppRunner::inline(state("coconut-pot.ron", Depth::Plain, Kitchen::default()));
    metric.run(FileCommand::MyPot(Box::default()));
    assert_eq!(
        metric.state.design().bases[0].measure,
        assets::demo("coconut-pot.ron").unwrap().bases[0].measure
    );
}

#[test]
fn a_whole_pot_is_said_in_cups_and_pounds() {
    let _speaking = units::speak(us().units());
    use potset_base::measures::whole::{volume, volume_span, weight};
    for (litres, words) in [
        (0.01, "2 tsp"),
        (0.03, "2 tbsp"),
        (0.06, "¼ cup"),
        (0.2, "6¾ fl oz"),
        (0.4, "1⅔ cups"),
        (1.0, "4¼ cups"),
        (2.0, "2 quarts"),
        (5.0, "5¼ quarts"),
    ] {
        assert_eq!(volume(litres, 2).replace('\u{a0}', " "), words, "{litres}");
    }
    for (grams, words) in [
        (0.4, "0.4 g"),
        (25.4, "0.9 oz"),
        (420.0, "15 oz"),
        (453.6, "1 lb"),
        (800.0, "1 lb 12 oz"),
        (452.0, "1 lb"),
    ] {
        assert_eq!(weight(grams).replace('\u{a0}', " "), words, "{grams}");
    }
    assert_eq!(volume_span(0.4, 1.0).replace('\u{a0}', " "), "1⅔ to 4¼ cups");
    assert_eq!(volume_span(0.4, 3.0).replace('\u{a0}', " "), "1⅔ cups to 3¼ quarts");
}

/// Every sentence that ships with a warmth in it is said in °F; what is left is a "per °C" of a cited figure.
#[test]
fn the_words_that_ship_are_said_in_fahrenheit() {
    let _speaking = units::speak(us().units());
    let pantry = assets::pantry().unwrap();
    let mut all: Vec<String> = potset_report::cautions::list().into_iter().map(|(_, text)| text).collect();
    let entries = pantry
        .all()
        .flat_map(|(_, e)| std::iter::once(e.handling().to_owned()).chain(e.hazards().iter().cloned()));
    let steps = pantry.raws.iter().flat_map(|raw| raw.steps.iter().cloned());
    let meanings = potset_report::glossary::words().iter().map(|(_, text)| text.clone());
    all.extend(entries.chain(steps).chain(meanings).map(|text| units::prose::prose(&text)));
    let names =
        numbers(&assets::demo("coconut-pot.ron").unwrap(), &pantry, &us(), &potset_doc::Learnt::default())
            .all;
    all.extend(names.iter().map(potset_forecast::numbers::Number::title));
    let (said, left): (Vec<_>, Vec<_>) =
        all.iter().filter(|t| t.contains('°')).partition(|text| !text.contains("°C"));
    assert!(said.len() > 100, "{}", said.len());
    assert!(left.iter().all(|text| text.contains("per °C")), "{left:?}");
    assert!(said.iter().any(|text| text.contains("a jump of about 90 °F")));
    assert!(said.iter().any(|text| text.contains("lost 18 °F warmer")));
    assert!(said.iter().any(|text| text.contains("frozen at 0 °F")));
}

#[test]
fn the_verdict_of_a_us_kitchen_speaks_fahrenheit() {
    let home = tempfile::tempdir().unwrap();
    let folder = home.path().join(".config/potset");
    fs::create_dir_all(&folder).unwrap();
    fs::write(folder.join("kitchen.ron"), format::write(&us()).unwrap()).unwrap();
    for (arguments, needs) in [
        (&["verdict", "failed-too-hot.ron"][..], true),
        (&["beside", "failed-too-hot.ron", "goat-pot.ron"][..], true),
        (&["pantry", "whole_cows_milk"][..], false),
        (&["matters", "goat-pot.ron"][..], false),
    ] {
        let out = potset_at(home.path(), arguments);
        let words = text(&out.stdout);
        assert!(out.status.success(), "{arguments:?}: {}", text(&out.stderr));
        assert_eq!(words.contains("°F"), needs || words.contains("°F"), "{words}");
        if needs {
            assert!(words.contains("°F") && !words.contains("°C"), "{words}");
        }
    }
    // A table for a spreadsheet stays in °C.
    let (us, usual) = (
        potset_at(home.path(), &["forecast", "goat-pot.ron", "--every", "120"]),
        crate::cli::potset(&["forecast", "goat-pot.ron", "--every", "120"]),
    );
    assert!(us.status.success() && us.stdout == usual.stdout);
    let far = ["aim", "goat-pot.ron", "--want", "ph<=4.4", "--move", "Hold at=30..90"];
    let refused = potset_at(home.path(), &far);
    assert!(text(&refused.stderr).contains("Hold at=59..140"), "{}", text(&refused.stderr));
}

#[test]
fn a_kitchen_is_remembered_as_it_speaks() {
    let written = format::write(&us()).unwrap();
    assert_eq!(format::read::<Kitchen>(written.as_bytes()).unwrap(), us());
    // What is as usual is not written: an older program still opens such a kitchen.
    let usual = format::write(&Kitchen::default()).unwrap();
    assert!(!usual.contains("degrees") && !usual.contains("amounts"));
    let mut runner = AppRunner::inline(state("coconut-pot.ron", Depth::Plain, Kitchen::default()));
    runner.run(WindowCommand::Kitchen(us()));
    assert_eq!(runner.state.kitchen.units(), us().units());
}
