//! The interface without a screen: every lever by its name, drags, undo, files, and that nothing jumps.

mod adding;
mod aim;
mod batches;
mod bench;
mod beside;
mod blend;
mod class;
mod first_pot;
mod kitchen_table;
pub mod legible;
mod measured;
mod measures;
mod mishap;
mod next_pots;
mod numbers;
mod nutrition;
pub mod recipes;
mod saving;
mod shell;
mod spread;

use egui::accesskit::Role;
use egui::{Key, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use potset_app::session::Session;
use potset_app::{AppRunner, State};
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Design, Kitchen, Settings};
use potset_ui::shell::Shell;
use potset_ui_dialogs::paths::PathsBy;

/// The program with a flag for its first pass, in which only fonts and theme are set.
pub struct Window {
    pub shell: Shell,
    dressed: bool,
}

/// The whole window, headless, on the first demo design.
pub fn window(size: [f32; 2]) -> Harness<'static, Window> {
    window_on(size, "coconut-pot.ron")
}

/// The same on a design of the tests, as if it were a demo.
pub fn window_on(size: [f32; 2], name: &str) -> Harness<'static, Window> {
    let settings = Settings { theme: Theme::Light, depth: Depth::Details, ..Settings::default() };
    let mut state = State::start(settings, Kitchen::default()).unwrap();
    state.session = Session::copy(crate::support::demo(name));
    window_of(size, state)
}

/// The whole window on a state.
pub fn window_of(size: [f32; 2], state: State) -> Harness<'static, Window> {
    window_by(size, AppRunner::inline(state), PathsBy::Typing)
}

/// The whole window on a desk.
pub fn window_by(size: [f32; 2], runner: AppRunner, paths: PathsBy) -> Harness<'static, Window> {
    let window = Window { shell: Shell::new(runner, paths), dressed: false };
    let mut harness = Harness::builder().with_size(Vec2::from(size)).with_max_steps(20).build_ui_state(
        |ui, window: &mut Window| {
            if !window.dressed {
                Shell::dress(ui.ctx());
                window.dressed = true;
                ui.ctx().request_repaint();
                return;
            }
            window.shell.logic(ui.ctx());
            window.shell.ui(ui);
        },
        window,
    );
    harness.run();
    harness
}

/// The design that is open.
pub fn design(h: &Harness<'_, Window>) -> Design {
    h.state().shell.runner.state.design().clone()
}

/// Presses what has a name, and lets the window settle.
pub fn press(h: &mut Harness<'_, Window>, label: &str) {
    h.get_by_label(label).click();
    h.run();
}

/// Picks a line of a picker.
pub fn pick(h: &mut Harness<'_, Window>, picker: &str, line: &str) {
    h.get_by_role_and_label(Role::ComboBox, picker).click();
    h.run();
    h.get_by_role_and_label(Role::Button, line).click();
    h.run();
}

/// Types a number into its field.
pub fn type_number(h: &mut Harness<'_, Window>, field: &str, text: &str) {
    h.get_by_role_and_label(Role::SpinButton, field).focus();
    h.run();
    h.get_by_role_and_label(Role::SpinButton, field).type_text(text);
    h.run();
    h.key_press(Key::Enter);
    h.run();
}

/// Takes back so many steps.
pub fn undo(h: &mut Harness<'_, Window>, steps: usize) {
    for _ in 0..steps {
        h.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
        h.run();
    }
}
