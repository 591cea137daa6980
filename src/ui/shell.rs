//! The window: bars, view, dialogs and notices; keys, dropped files, and what only the screen can do.

use std::path::PathBuf;

use egui::{Frame, Key, Margin, Modifiers, Panel, Ui, ViewportCommand};

use super::top_bar::{TopBar, bottom_line};
use super::tour;
use super::views::aim;
use super::views::batches::{self, BatchesView};
use super::views::beside::{self, BesideState};
use super::views::card::{self, CardView};
use super::views::class::{self, ClassView};
use super::views::mishap::{self, MishapView};
use super::views::pantry::{self, PantryState};
use super::views::recipes::{self, RecipesView};
use potset_app::command::{
    BatchesCommand, BenchCommand, BesideCommand, ClassCommand, FileCommand, WindowCommand,
};
use potset_app::effect::ScreenEffect;
use potset_app::state::{Dialog, View};
use potset_app::{Action, AppRunner, Command, State};
use potset_base::Severity;
use potset_base::units;
use potset_doc::fields;
use potset_doc::settings::Theme;
use potset_report::hygiene::headline;
use potset_ui_bench::BenchState;
use potset_ui_dialogs::Dialogs;
use potset_ui_dialogs::paths::{Asking, PathsBy, Want};
use potset_ui_kit::widgets::{typed, wrapped};
use potset_ui_kit::{fonts, theme, tokens};

/// The program on the screen.
pub struct Shell {
    pub runner: AppRunner,
    paths: PathsBy,
    top_bar: TopBar,
    bench: BenchState,
    beside: BesideState,
    pantry: PantryState,
    recipes: RecipesView,
    card: CardView,
    batches: BatchesView,
    mishap: MishapView,
    class: ClassView,
    dialogs: Dialogs,
    asking: Option<Asking>,
    /// Where the last file was that was asked for.
    folder: Option<PathBuf>,
    recent: Vec<(String, bool)>,
    recent_of: Vec<String>,
    dressed: Option<(Theme, f32)>,
    title: String,
    quitting: bool,
}

impl Shell {
    /// A window on a runner.
    pub fn new(runner: AppRunner, paths: PathsBy) -> Self {
        Self {
            runner,
            paths,
            top_bar: TopBar::default(),
            bench: BenchState::default(),
            beside: BesideState::default(),
            pantry: PantryState::default(),
            recipes: RecipesView::default(),
            card: CardView::default(),
            batches: BatchesView::default(),
            mishap: MishapView::default(),
            class: ClassView::default(),
            dialogs: Dialogs::default(),
            asking: None,
            folder: None,
            recent: Vec::new(),
            recent_of: Vec::new(),
            dressed: None,
            title: String::new(),
            quitting: false,
        }
    }

    /// Fonts and both themes; once, before the first frame.
    pub fn dress(ctx: &egui::Context) {
        ctx.set_fonts(fonts::definitions());
        theme::install(ctx);
        ctx.options_mut(|o| o.zoom_with_keyboard = false);
    }

    /// Polls the worker and follows settings; also while the window is hidden.
    pub fn logic(&mut self, ctx: &egui::Context) {
        self.runner.look_at_the_clock();
        // What is next of a pot under way is told in minutes.
        if self.runner.state.now.is_some() && !self.runner.state.card.running.is_empty() {
            ctx.request_repaint_after(std::time::Duration::from_secs(60));
        }
        self.runner.poll();
        let settings = &self.runner.state.settings;
        let wanted = (settings.theme, settings.zoom);
        if self.dressed != Some(wanted) {
            ctx.set_theme(match wanted.0 {
                Theme::System => egui::ThemePreference::System,
                Theme::Light => egui::ThemePreference::Light,
                Theme::Dark => egui::ThemePreference::Dark,
            });
            ctx.set_zoom_factor(wanted.1);
            self.dressed = Some(wanted);
        }
        let mark = if self.runner.state.session.history.unsaved() { "• " } else { "" };
        let title = format!("{mark}{} – Potset", self.runner.state.design().name);
        if title != self.title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    /// Draws everything and carries out what was asked for.
    pub fn ui(&mut self, ui: &mut Ui) {
        let _speaking = units::speak(self.runner.units());
        let mut out = Vec::new();
        self.keys(ui, &mut out);
        dropped(ui, &self.runner.state, &mut out);
        if ui.input(|i| i.viewport().close_requested()) && !self.quitting {
            ui.ctx().send_viewport_cmd(ViewportCommand::CancelClose);
            out.push(FileCommand::CloseAsked.into());
        }
        if ui.input(|i| i.focused && i.events.iter().any(|e| matches!(e, egui::Event::WindowFocused(true)))) {
            self.runner.look_outside();
        }
        self.refresh_recent();
        let wall = self.runner.state.view == View::Class && self.runner.state.class.on_the_wall();
        if wall {
            class::on_the_wall(ui, &mut self.class, &self.runner.state, &mut out);
        } else {
            self.views(ui, &mut out);
        }
        let state = &self.runner.state;
        self.dialogs.show(ui, state, &mut out);
        if let Some(asking) = self.asking.take() {
            let (folder, before) = (asking.folder(), out.len());
            self.asking = asking.show(ui, &self.runner, &mut out);
            if out.len() > before {
                self.folder = folder;
            }
        }
        refusal(ui, state, &mut out);
        out.extend(typed::refused(ui.ctx()).map(|note| WindowCommand::ShowRefusal(note).into()));
        for command in out {
            self.runner.run(command);
        }
        self.outward(ui);
    }

    /// Bars, notices, the view, and the tour over it.
    fn views(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let t = tokens::of(ui);
        let bar = |fill, y| Frame::new().fill(fill).inner_margin(Margin::symmetric(14, y));
        let state = &self.runner.state;
        Panel::top("top bar").exact_size(46.0).frame(bar(t.page, 4)).show(ui, |ui| {
            self.top_bar.show(ui, state, &self.recent, out);
        });
        let busy = self.runner.busy();
        Panel::bottom("bottom line").exact_size(24.0).frame(bar(t.page, 2)).show(ui, |ui| {
            bottom_line(ui, state, busy);
        });
        notices(ui, state, out);
        lost(ui, state);
        match state.view {
            View::Bench => potset_ui_bench::show(ui, &mut self.bench, state, out),
            View::Beside => beside::show(ui, &mut self.beside, state, out),
            View::Aim => aim::show(ui, state, out),
            View::Card => card::show(ui, &mut self.card, state, out),
            View::Batches => batches::show(ui, &mut self.batches, state, out),
            View::Mishap => mishap::show(ui, &mut self.mishap, state, out),
            View::Class => class::show(ui, state, out),
            View::Recipes => {
                let documents = self.runner.documents();
                recipes::show(ui, &mut self.recipes, state, documents.as_deref(), out);
            }
            View::Pantry => pantry::show(ui, &mut self.pantry, state, out),
        }
        if state.dialog == Dialog::None {
            tour::show(ui, state, out);
        }
    }

    fn refresh_recent(&mut self) {
        let listed = &self.runner.state.settings.recent;
        if *listed != self.recent_of {
            self.recent_of.clone_from(listed);
            self.recent = self.runner.recent();
        }
    }

    /// Keys of the table of actions; text fields keep their own undo and copy.
    fn keys(&self, ui: &Ui, out: &mut Vec<Command>) {
        let typing = ui.ctx().text_edit_focused();
        let state = &self.runner.state;
        let in_class = state.view == View::Class;
        let wall = in_class && state.class.on_the_wall();
        let escape = ui.input(|i| i.key_pressed(Key::Escape)) && !typing;
        if state.dialog == Dialog::None && self.asking.is_none() && escape && !wall {
            // Leaving the class changes nothing in the open design.
            out.push(if in_class { ClassCommand::Leave.into() } else { BenchCommand::TakeBackDrag.into() });
        }
        // Shifted keys first, so that Ctrl+Shift+Z is not taken for Ctrl+Z.
        let mut table: Vec<Action> = Action::ALL.into_iter().filter(|a| a.key().is_some()).collect();
        table.sort_by_key(|a| !a.key().is_some_and(|k| k.shift));
        for action in table {
            let Some(press) = action.key() else { continue };
            if typing && matches!(action, Action::Undo | Action::Redo) {
                continue;
            }
            // On the wall nothing reaches the open design.
            if wall && !matches!(action, Action::ZoomIn | Action::ZoomOut | Action::ZoomReset | Action::Quit)
            {
                continue;
            }
            let Some(key) = Key::from_name(press.key) else { continue };
            let modifiers =
                if press.shift { Modifiers::COMMAND | Modifiers::SHIFT } else { Modifiers::COMMAND };
            let plus = press.key == "+" && ui.input_mut(|i| i.consume_key(Modifiers::COMMAND, Key::Equals));
            if plus || ui.input_mut(|i| i.consume_key(modifiers, key)) {
                out.push(Command::Do(action));
            }
        }
    }

    fn outward(&mut self, ui: &Ui) {
        for outward in self.runner.take_outward() {
            match outward {
                ScreenEffect::AskOpen => self.ask_path(Want::Open, ui),
                ScreenEffect::AskSave(name) => self.ask_path(Want::Save(name), ui),
                ScreenEffect::AskAdd => self.ask_path(Want::Add, ui),
                ScreenEffect::AskExport(name) => self.ask_path(Want::Export(name), ui),
                ScreenEffect::AskTakeIn => self.ask_path(Want::TakeIn, ui),
                ScreenEffect::AskCard(what, name) => self.ask_path(Want::Card(what, name), ui),
                ScreenEffect::AskBatchFile(what, name) => self.ask_path(Want::Batch(what, name), ui),
                ScreenEffect::AskCallLog(name) => self.ask_path(Want::CallLog(name), ui),
                ScreenEffect::AskLesson(what, key, name) => self.ask_path(Want::Lesson(what, key, name), ui),
                ScreenEffect::AskImportLesson => self.ask_path(Want::ImportLesson, ui),
                ScreenEffect::AskLogger => self.ask_path(Want::Logger, ui),
                ScreenEffect::AskImportBatches => self.ask_path(Want::ImportBatches, ui),
                ScreenEffect::AskImport => self.ask_path(Want::ImportFolder, ui),
                ScreenEffect::AskExportAll => self.ask_path(Want::ExportFolder, ui),
                ScreenEffect::AskShare(name) => self.ask_path(Want::Share(name), ui),
                ScreenEffect::Copy(text) => ui.ctx().copy_text(text),
                ScreenEffect::Quit => {
                    self.quitting = true;
                    ui.ctx().send_viewport_cmd(ViewportCommand::Close);
                }
            }
        }
    }

    fn ask_path(&mut self, want: Want, ui: &Ui) {
        // Asked for the same again, what was typed stays.
        if !self.asking.as_ref().is_some_and(|asking| asking.is_for(&want)) {
            let state = &self.runner.state;
            let own = state.session.path.as_ref().and_then(|p| p.parent()).map(PathBuf::from);
            let recipes = state.settings.recipes.as_ref().map(PathBuf::from);
            // A design goes where it was, or to the recipes; all else where the last file was.
            let saves = matches!(want, Want::Save(_));
            let last = self.folder.clone();
            let folder = if saves { own.or(recipes).or(last) } else { last.or(own) };
            let folder = folder.or_else(|| self.runner.documents()).unwrap_or_default();
            self.asking = Some(Asking::new(want, folder, self.paths));
        }
        ui.ctx().request_repaint();
    }
}

/// Opens a design that is dropped on the window; in the Beside view each one gets a column, and on an open pot what is no
/// design is a logger's file.
fn dropped(ui: &Ui, state: &State, out: &mut Vec<Command>) {
    let view = state.view;
    let paths: Vec<PathBuf> =
        ui.input(|i| i.raw.dropped_files.iter().map(|f| f.path().to_path_buf()).collect());
    if view == View::Beside {
        out.extend(paths.into_iter().map(|path| Command::Beside(BesideCommand::AddFile(path))));
        return;
    }
    if let Some(path) = paths.into_iter().next() {
        let logger = view == View::Batches && path.extension().is_none_or(|ending| ending != "ron");
        if logger && state.batches.open.is_some() {
            out.push(BatchesCommand::Logger(path).into());
            return;
        }
        out.push(FileCommand::Open(path).into());
    }
}

/// That the pot on the bench is to be thrown away, above every view that does not say so itself.
fn lost(ui: &mut Ui, state: &State) {
    let verdict = &state.answer.verdict;
    // The bench says it itself: on its first card, or in the line under the chart.
    let said = state.view == View::Bench;
    if said || !state.answer.errors.is_empty() || verdict.hygiene.discard().is_none() {
        return;
    }
    let t = tokens::of(ui);
    let frame = Frame::new().fill(t.page).inner_margin(Margin::symmetric(14, 4));
    Panel::top("to be thrown away").resizable(false).frame(frame).show(ui, |ui| {
        let said = format!("⚠ {}. {}", state.design().name, headline(verdict));
        wrapped(ui, &said, fonts::semibold(tokens::BODY), t.stop);
    });
}

/// Notices of what went wrong, each with its mend, until they are dismissed.
fn notices(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    if state.notices.is_empty() {
        return;
    }
    let t = tokens::of(ui);
    let frame = Frame::new().fill(t.card).inner_margin(Margin::symmetric(14, 5));
    Panel::top("notices").resizable(false).frame(frame).show(ui, |ui| {
        for (i, note) in state.notices.iter().enumerate() {
            ui.horizontal_wrapped(|ui| {
                let (sign, color) = match note.severity {
                    Severity::Tip => ("✓", t.accent),
                    _ => ("⚠", t.stop),
                };
                ui.label(egui::RichText::new(sign).color(color));
                ui.add(egui::Label::new(fields::line(note)).wrap());
                let close = ui.small_button("Dismiss");
                if close.clicked() {
                    out.push(WindowCommand::Dismiss(i).into());
                }
            });
        }
    });
}

/// Why the last thing typed was not taken: over the foot of the window, so that nothing moves.
fn refusal(ui: &Ui, state: &State, out: &mut Vec<Command>) {
    let Some(note) = &state.refused else { return };
    let t = tokens::of(ui);
    let frame = Frame::new()
        .fill(t.card)
        .stroke(egui::Stroke::new(tokens::CURVE, t.stop))
        .corner_radius(tokens::RADIUS)
        .inner_margin(Margin::symmetric(12, 6));
    let width = (ui.ctx().content_rect().width() - 60.0).min(640.0);
    egui::Area::new(egui::Id::unique("refusal"))
        .order(egui::Order::Tooltip)
        .anchor(egui::Align2::CENTER_BOTTOM, egui::vec2(0.0, -32.0))
        .show(ui.ctx(), |ui| {
            frame.show(ui, |ui| {
                ui.set_max_width(width);
                ui.horizontal_wrapped(|ui| {
                    ui.label(egui::RichText::new("⚠").color(t.stop));
                    let label = ui.add(egui::Label::new(fields::line(note)).wrap());
                    ui.ctx().accesskit_node_builder(label.id, |node| {
                        node.set_live(egui::accesskit::Live::Assertive);
                    });
                    if ui.small_button("Dismiss").clicked() {
                        out.push(WindowCommand::DismissRefusal.into());
                    }
                });
            });
        });
}

impl eframe::App for Shell {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        Self::logic(self, ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        Self::ui(self, ui);
    }
}
