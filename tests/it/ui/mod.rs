//! The interface without a screen: every lever by its name, drags, undo, files, and that nothing jumps.

mod bench;
mod shell;

use egui::Vec2;
use egui_kittest::Harness;
use potset::app::{Desk, State};
use potset::doc::settings::Theme;
use potset::doc::{Kitchen, Settings};
use potset::ui::shell::{PathsBy, Shell};

/// The program with a flag for its first pass, in which only fonts and theme are set.
pub struct Window {
    pub shell: Shell,
    dressed: bool,
}

/// The whole window, headless, on the first demo design.
pub fn window(size: [f32; 2]) -> Harness<'static, Window> {
    let settings = Settings { theme: Theme::Light, ..Settings::default() };
    let state = State::start(settings, Kitchen::default()).unwrap();
    let window = Window { shell: Shell::new(Desk::inline(state), PathsBy::Typing), dressed: false };
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
