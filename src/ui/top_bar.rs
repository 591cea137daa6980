//! The top bar: name with its unsaved mark, view, menus, finder, undo and redo, spoons. And the bottom line.

use egui::{Align, Button, Layout, RichText, TextEdit, Ui};

use potset_app::command::{BenchCommand, FileCommand, WindowCommand};
use potset_app::session::Outside;
use potset_app::state::View;
use potset_app::{Action, Command, State};
use potset_base::units::Degrees;
use potset_doc::settings::Depth;
use potset_doc::{Edit, assets};
use potset_explain::Reading;
use potset_report::batch::next_of_all;
use potset_report::explain::told;
use potset_ui_kit::widgets::focus_ring;
use potset_ui_kit::widgets::pill::pill;
use potset_ui_kit::{fonts, tokens};

/// What the bar keeps between frames.
#[derive(Default)]
pub struct TopBar {
    /// The name while it is being typed.
    name: Option<String>,
}

/// From this width on the menus stand apart; under it they fold into one.
const WIDE: f32 = 1540.0;
/// What stands beside the name where they do.
const FOLDED: f32 = 905.0;
/// Under this width names and keys give way.
const NARROW: f32 = 1070.0;
const NARROW_FOLDED: f32 = 820.0;
/// Under this width the views fold into a menu of their own.
const VIEWS_FOLD: f32 = 870.0;
const VIEWS_FOLDED: f32 = 600.0;

impl TopBar {
    /// Draws the bar.
    pub fn show(&mut self, ui: &mut Ui, state: &State, recent: &[(String, bool)], out: &mut Vec<Command>) {
        let wide = ui.available_width() >= WIDE;
        ui.horizontal_centered(|ui| {
            self.name(ui, state, wide, out);
            if wide {
                ui.add_space(12.0);
            }
            views(ui, state, out);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                act(ui, state, Action::Redo, "↷", out);
                act(ui, state, Action::Undo, "↶", out);
                ui.add_space(6.0);
                find(ui, wide, out);
                if wide {
                    ui.menu_button("Help", |ui| help(ui, state, out));
                    ui.menu_button("Numbers", |ui| numbers(ui, state, out));
                    ui.menu_button("Kitchen and settings", |ui| settings(ui, state, out));
                    ui.menu_button("Designs", |ui| designs(ui, state, recent, out));
                } else {
                    ui.menu_button("Menu", |ui| {
                        ui.menu_button("Designs", |ui| designs(ui, state, recent, out));
                        ui.menu_button("Kitchen and settings", |ui| settings(ui, state, out));
                        ui.menu_button("Numbers", |ui| numbers(ui, state, out));
                        ui.menu_button("Help", |ui| help(ui, state, out));
                    });
                }
                ui.add_space(6.0);
                depths(ui, state, out);
            });
        });
    }

    fn name(&mut self, ui: &mut Ui, state: &State, wide: bool, out: &mut Vec<Command>) {
        let t = tokens::of(ui);
        let shown = state.design().name.clone();
        let text = self.name.get_or_insert_with(|| shown.clone());
        let (folded, size) = match ui.ctx().content_rect().width() {
            width if width < VIEWS_FOLD => (VIEWS_FOLDED, 14.0),
            width if width < NARROW => (NARROW_FOLDED, 14.0),
            _ => (FOLDED, 17.0),
        };
        let edit = TextEdit::singleline(text)
            .font(fonts::semibold(size))
            .text_color(t.ink)
            .desired_width(if wide { 280.0 } else { (ui.available_width() - folded).clamp(90.0, 210.0) })
            .frame(egui::Frame::NONE)
            .id_salt("design name")
            .hint_text("Name of the design");
        let response = ui.add(edit);
        response.widget_info(|| {
            let mut info = egui::WidgetInfo::labeled(egui::accesskit::Role::TextInput, true, "Design name");
            info.current_text_value = Some(shown.clone());
            info
        });
        let response = response.on_hover_text(format!("{} · {}", shown, state.file_words()));
        if response.lost_focus() && *text != shown && !text.trim().is_empty() {
            out.push(BenchCommand::Edit(Edit::Rename(text.trim().to_owned()), None).into());
        }
        if !response.has_focus() {
            self.name = None;
        }
        let (mark, words) = if state.session.history.unsaved() {
            ("●", "Unsaved changes")
        } else {
            (" ", "No unsaved changes")
        };
        let label = ui.add_sized([12.0, 20.0], egui::Label::new(RichText::new(mark).color(t.accent)));
        label.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Label, true, words));
        label.on_hover_text(words);
    }
}

/// The views, the one in use marked; in a menu where there is no room for all.
fn views(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    ui.spacing_mut().item_spacing.x = 4.0;
    if ui.ctx().content_rect().width() < VIEWS_FOLD {
        let menu = ui.menu_button(format!("View: {}", state.view.words()), |ui| {
            for view in View::ALL {
                if ui.selectable_label(state.view == view, view.words()).clicked() {
                    out.push(WindowCommand::Show(view).into());
                    ui.close();
                }
            }
        });
        menu.response.on_hover_text("The other views");
        return;
    }
    for view in View::ALL {
        let action = action_of(view);
        let response = pill(ui, view.words(), state.view == view);
        if response.clicked() {
            out.push(WindowCommand::Show(view).into());
        }
        response.on_hover_text(format!("{} ({})", action.tip(), action.key_words()));
    }
    ui.add_space(4.0);
}

const fn action_of(view: View) -> Action {
    match view {
        View::Bench => Action::Bench,
        View::Beside => Action::Beside,
        View::Aim => Action::Aim,
        View::Recipes => Action::Recipes,
        View::Card => Action::Card,
        View::Pantry => Action::Pantry,
        View::Batches => Action::Batches,
        View::Mishap => Action::Mishap,
        View::Class => Action::Class,
    }
}

/// How much the bench shows: two depths, the one in use marked. Other views know one.
fn depths(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    ui.spacing_mut().item_spacing.x = 0.0;
    // The row runs from right to left.
    for (depth, action) in [(Depth::Details, Action::ShowDetails), (Depth::Plain, Action::ShowPlain)] {
        let response = pill(ui, depth.words(), state.settings.depth == depth);
        if response.clicked() {
            out.push(WindowCommand::Depth(depth).into());
        }
        response.on_hover_text(action.tip());
    }
}

/// A menu line for an action, with its key; barred ones say why.
fn item(ui: &mut Ui, state: &State, action: Action, out: &mut Vec<Command>) {
    let button = Button::new(action.label()).shortcut_text(action.key_words());
    let disabled_reason = action.disabled_reason(state);
    let response = ui.add_enabled(disabled_reason.is_none(), button);
    let clicked = response.clicked();
    response.on_hover_text(action.tip()).on_disabled_hover_text(disabled_reason.unwrap_or_default());
    if clicked {
        out.push(Command::Do(action));
        ui.close();
    }
}

/// A small button for an action.
fn act(ui: &mut Ui, state: &State, action: Action, sign: &str, out: &mut Vec<Command>) {
    let what = match action {
        Action::Undo if state.view == View::Batches => {
            state.batches.undo.last().map(|undo| undo.words.as_str())
        }
        Action::Undo => state.session.history.can_undo(),
        Action::Redo => state.session.history.can_redo(),
        _ => None,
    };
    let disabled_reason = action.disabled_reason(state);
    let button = Button::new(RichText::new(sign).size(16.0)).frame(false).min_size(egui::vec2(24.0, 24.0));
    let response = ui.add_enabled(disabled_reason.is_none(), button);
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::accesskit::Role::Button, disabled_reason.is_none(), action.label())
    });
    focus_ring(ui, &response, tokens::RADIUS_SMALL);
    let tip = format!("{} {} ({})", action.label(), what.unwrap_or_default(), action.key_words());
    if response.clicked() {
        out.push(Command::Do(action));
    }
    response.on_hover_text(tip).on_disabled_hover_text(disabled_reason.unwrap_or_default());
}

fn find(ui: &mut Ui, wide: bool, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let words = if wide { Action::Find.label() } else { "Find" };
    // Where there is little room the name of the design needs it more than the key.
    let key = if ui.ctx().content_rect().width() < NARROW { String::new() } else { Action::Find.key_words() };
    let button = Button::new(RichText::new(words).color(t.ink_soft))
        .shortcut_text(RichText::new(key).size(tokens::SMALL).color(t.ink_soft))
        .fill(t.well)
        .corner_radius(f32::from(tokens::RADIUS_PILL))
        .min_size(egui::vec2(if wide { 180.0 } else { 46.0 }, 26.0));
    let response = ui.add(button);
    response
        .widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, Action::Find.label()));
    if response.clicked() {
        out.push(Command::Do(Action::Find));
    }
    response.on_hover_text(Action::Find.tip());
}

fn spoons(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let menu = ui.menu_button(format!("Spoons: {}", state.design().spoons.words()), |ui| {
        for action in Action::ALL {
            if let Some(set) = action.spoons() {
                choice(ui, action, state.design().spoons == set, out);
            }
        }
    });
    menu.response.on_hover_text("Spoons for amounts");
}

fn choice(ui: &mut Ui, action: Action, on: bool, out: &mut Vec<Command>) {
    if ui.selectable_label(on, action.label()).on_hover_text(action.tip()).clicked() {
        out.push(Command::Do(action));
        ui.close();
    }
}

fn designs(ui: &mut Ui, state: &State, recent: &[(String, bool)], out: &mut Vec<Command>) {
    for action in [Action::MyPot, Action::New, Action::Open, Action::Save, Action::SaveAs] {
        item(ui, state, action, out);
    }
    ui.separator();
    ui.menu_button("Recent", |ui| {
        if recent.is_empty() {
            ui.label("Nothing opened or saved yet");
        }
        for (path, there) in recent {
            let name = std::path::Path::new(path)
                .file_name()
                .map_or(path.clone(), |n| n.to_string_lossy().into_owned());
            let response = ui.add_enabled(*there, Button::new(&name));
            if response.clicked() {
                out.push(FileCommand::Open(path.into()).into());
                ui.close();
            }
            response.on_hover_text(path).on_disabled_hover_text(format!("{path} is not there"));
            if !there && ui.small_button(format!("Remove {name} from the list")).clicked() {
                out.push(FileCommand::Forget(path.clone()).into());
            }
        }
    });
    ui.menu_button("Templates (invented)", |ui| {
        for (file, name) in assets::demo_names() {
            if ui.button(name).clicked() {
                out.push(FileCommand::OpenDemo(file).into());
                ui.close();
            }
        }
    });
    ui.separator();
    item(ui, state, Action::NextPots, out);
    item(ui, state, Action::CopyNumbers, out);
    item(ui, state, Action::Quit, out);
}

fn settings(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    item(ui, state, Action::Kitchen, out);
    spoons(ui, state, out);
    for (action, degrees) in
        [(Action::ShowCelsius, Degrees::Celsius), (Action::ShowFahrenheit, Degrees::Fahrenheit)]
    {
        choice(ui, action, state.kitchen.degrees == degrees, out);
    }
    ui.separator();
    for (action, theme) in [
        (Action::SystemTheme, potset_doc::settings::Theme::System),
        (Action::LightTheme, potset_doc::settings::Theme::Light),
        (Action::DarkTheme, potset_doc::settings::Theme::Dark),
    ] {
        choice(ui, action, state.settings.theme == theme, out);
    }
    ui.separator();
    for action in [Action::ZoomIn, Action::ZoomOut, Action::ZoomReset, Action::UnfoldAll] {
        item(ui, state, action, out);
    }
    ui.label(format!("Now {:.0} %", state.settings.zoom * 100.0));
}

/// The list of cited numbers, and every value of the pot to be explained.
fn numbers(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    item(ui, state, Action::Numbers, out);
    ui.menu_button("Explain a value", |ui| {
        let answer = &state.answer;
        let stop_h = answer.verdict.stop_h;
        let height = ui.ctx().content_rect().height() - 120.0;
        egui::ScrollArea::vertical().max_height(height).show(ui, |ui| {
            for reading in Reading::of(answer) {
                let Some((name, value)) = told(reading, answer, stop_h) else { continue };
                if ui.add(Button::new(name).shortcut_text(value)).clicked() {
                    out.push(WindowCommand::Explain(reading, stop_h).into());
                    ui.close();
                }
            }
            if answer.forecast.t.is_empty() {
                ui.label("There is no forecast");
            }
        });
    });
}

fn help(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    for action in [Action::Guide, Action::Tour, Action::Words, Action::Cautions, Action::Keys, Action::Find] {
        item(ui, state, action, out);
    }
}

/// What was done with the file last, or how the design stands to its file.
fn file_state(state: &State) -> String {
    if let Some(said) = &state.said {
        return said.clone();
    }
    let session = &state.session;
    let stands = match (session.outside, session.history.unsaved(), &session.path) {
        (Outside::Gone, ..) => "the file is gone",
        (Outside::Changed, true, _) => "unsaved changes, and the file changed on the disk",
        (Outside::Changed, false, _) => "the file changed on the disk",
        (Outside::Untouched, true, _) => "unsaved changes",
        (Outside::Untouched, false, Some(_)) => "saved",
        (Outside::Untouched, false, None) => "unchanged",
    };
    format!("{} · {stands}", state.file_words())
}

/// The bottom line: what is under way at the left, what to keep in mind at the right.
pub fn bottom_line(ui: &mut Ui, state: &State, busy: bool) {
    let t = tokens::of(ui);
    let quiet = |text: String| RichText::new(text).size(tokens::SMALL).color(t.ink_soft);
    ui.horizontal_centered(|ui| {
        let work = if busy { "forecasting…" } else { "forecast is up to date" };
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.label(quiet("Advice, not permission: follow local codes".to_owned()));
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let next = {
                    let pots = state.card.running.iter().map(|pot| &*pot.batch);
                    state.now.and_then(|now| next_of_all(pots, now, &state.zone))
                };
                // Where there is little room, what was done last or is to be done next comes first.
                let words = match next {
                    Some(next) if ui.ctx().content_rect().width() < NARROW => {
                        state.said.clone().unwrap_or(next)
                    }
                    Some(next) => format!("{} · {work} · {next}", file_state(state)),
                    None => format!("{} · {work}", file_state(state)),
                };
                let place = state.session.path.as_ref().map(|path| path.display().to_string());
                let label = ui.add(egui::Label::new(quiet(words)).truncate());
                ui.ctx().accesskit_node_builder(label.id, |node| {
                    node.set_live(egui::accesskit::Live::Polite);
                });
                if let Some(place) = place {
                    label.on_hover_text(place);
                }
            });
        });
    });
}
