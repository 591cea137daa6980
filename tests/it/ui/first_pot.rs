//! The first ten minutes of someone who never saw the program: their own pot, an answer, a change, a file.

use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::state::Dialog;
use potset_app::{AppRunner, State};
use potset_base::measures::Measure;
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Kitchen, Settings};
use potset_store::folders::Folders;
use potset_ui_dialogs::paths::PathsBy;

use super::{Window, design, pick, type_number, window_by};

/// An invented label, as it is copied: in one line.
const LABEL: &str = "Millpond coconut milk. Per 100 g: energy 690 kJ, fat 16 g, of which saturates 14 g, carbohydrate \
                     2.9 g, of which sugars 1.9 g, protein 1.4 g, salt 0.03 g. Ingredients: coconut extract 68 %, water.";

/// Presses of the mouse, counted.
struct Hand {
    clicks: usize,
}

impl Hand {
    fn press(&mut self, h: &mut Harness<'_, Window>, label: &str) {
        self.clicks += 1;
        super::press(h, label);
    }

    fn pick(&mut self, h: &mut Harness<'_, Window>, picker: &str, line: &str) {
        self.clicks += 2;
        pick(h, picker, line);
    }

    fn words(&mut self, h: &mut Harness<'_, Window>, role: Role, field: &str, text: &str) {
        self.clicks += 1;
        h.get_by_role_and_label(role, field).focus();
        h.run();
        h.get_by_role_and_label(role, field).type_text(text);
        h.run();
    }

    fn number(&mut self, h: &mut Harness<'_, Window>, field: &str, text: &str) {
        self.clicks += 1;
        type_number(h, field, text);
    }
}

/// The window of someone's first start.
fn first_start(home: &std::path::Path) -> Harness<'static, Window> {
    let at = |name: &str| home.join(name);
    let folders =
        Folders { settings: at("settings"), state: at("state"), documents: at("Documents"), own: at("own") };
    std::fs::create_dir_all(&folders.documents).unwrap();
    let settings = Settings { theme: Theme::Light, ..Settings::default() };
    let mut state = State::start(settings, Kitchen::default()).unwrap();
    state.dialog = Dialog::MyPot;
    window_by([1280.0, 800.0], AppRunner::threaded(state, Some(folders), || {}), PathsBy::Typing)
}

/// Waits for the worker.
fn settled(h: &mut Harness<'_, Window>, done: impl Fn(&State) -> bool) {
    for _ in 0..600 {
        h.run();
        if done(&h.state().shell.runner.state) {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    panic!("the worker never came to an end");
}

#[test]
fn a_cook_has_their_own_pot_an_answer_and_a_file_in_at_most_twenty_presses() {
    let home = tempfile::tempdir().unwrap();
    let mut h = first_start(home.path());
    let mut hand = Hand { clicks: 0 };
    assert_eq!(h.state().shell.runner.state.settings.depth, Depth::Plain, "the first start is plain");

    // What is in the tin, the packet and the kitchen.
    hand.words(&mut h, Role::MultilineTextInput, "Words of its label", LABEL);
    settled(&mut h, |state| state.shelves.label.read.as_ref().is_some_and(|read| read.1.line.is_some()));
    h.get_by_label_contains("Read: ");
    hand.number(&mut h, "What the packet weighs", "2");
    hand.number(&mut h, "Litres that it makes", "8");
    hand.words(&mut h, Role::TextInput, "How much of it you use", "a tenth");
    hand.pick(&mut h, "What keeps it warm", "Insulated flask");
    // After 12 h in a room of 21 °C it still read 39 °C.
    hand.press(&mut h, "I read a pot of water in it");
    hand.number(&mut h, "What it reads then", "39");
    hand.press(&mut h, "Make my pot");

    let kitchen = &h.state().shell.runner.state.kitchen;
    assert!((kitchen.flasks[0].reads_c - 39.0).abs() < 1e-9 && kitchen.flasks.len() == 1);
    assert!(h.state().shell.runner.state.session.history.unsaved(), "closing now would lose the answers");
    let made = design(&h);
    assert_eq!(made.bases.len(), 1);
    assert!((made.litres() - 0.8).abs() < 1e-9, "2 tins of 400 mL");
    assert_eq!((made.bases[0].measure, made.bases[0].label.fat), (Measure::Tin, Some(16.0)));
    assert!((made.cultures[0].rate - 1.0).abs() < 1e-9, "a tenth of what makes 8 L, for 0.8 L");
    assert_eq!(made.hold().unwrap().warmer, "insulated_flask");

    h.get_by_label("What goes in");
    hand.press(&mut h, "Skip the tour");
    assert!(h.state().shell.runner.state.settings.toured);

    // The answer in the reader's order.
    settled(&mut h, |state| state.doubt.current(state.question) && state.doubt.shown().is_some());
    for question in ["Explain Texture", "Explain Tang", "Explain Sweetness"] {
        h.get_by_label_contains(question);
    }

    // Thicker, by the lever.
    let before = h.state().shell.runner.state.answer.verdict.texture.clone().unwrap();
    hand.number(&mut h, "Thickener amount", "40");
    settled(&mut h, |state| state.answered == state.question);
    let after = h.state().shell.runner.state.answer.verdict.texture.clone().unwrap();
    assert!(after.chilled > before.chilled, "{} to {}", before.chilled, after.chilled);

    // Saved, and there again.
    h.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::S);
    h.run();
    hand.press(&mut h, "Save");
    let path = home.path().join("Documents/my-pot.ron");
    assert!(path.is_file());
    let saved = potset_store::files::design(&path).unwrap();
    assert_eq!(saved, design(&h));
    assert!(hand.clicks <= 20, "{} presses", hand.clicks);
}

#[test]
fn an_amount_that_nobody_can_read_is_said_and_nothing_is_lost() {
    let home = tempfile::tempdir().unwrap();
    let mut h = first_start(home.path());
    let mut hand = Hand { clicks: 0 };
    hand.words(&mut h, Role::TextInput, "How much of it you use", "a bit");
    hand.press(&mut h, "Make my pot");
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::MyPot);
    assert!(h.state().shell.runner.state.refused.as_ref().unwrap().line().contains("How much of it you use"));
    hand.press(&mut h, "Skip");
    assert_eq!(h.state().shell.runner.state.dialog, Dialog::None);
}
