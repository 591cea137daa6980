//! The bar of the Beside view: pages, columns or laid over, one stop line or each its own, and what to add.

use egui::{Button, ScrollArea, Ui};

use potset_app::columns::{self, BesidePage};
use potset_app::command::BesideCommand;
use potset_app::{Action, Command, State};
use potset_doc::{assets, fields};
use potset_ui_kit::widgets::pill::pill;
use potset_ui_kit::widgets::tick::tick;

/// Draws the pages, and whether curves stand in columns or over each other, in a row.
pub fn pages(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let columns = &state.columns;
    ui.spacing_mut().item_spacing.x = 4.0;
    for page in BesidePage::ALL {
        if pill(ui, page.words(), columns.page == page).clicked() {
            out.push(BesideCommand::Page(page).into());
        }
    }
    ui.add_space(10.0);
    if columns.list.len() > 1 && columns.page == BesidePage::Curves {
        for (words, over) in [("In columns", false), ("Laid over", true)] {
            if pill(ui, words, columns.laid_over == over).clicked() {
                out.push(BesideCommand::LaidOver(over).into());
            }
        }
        ui.add_space(10.0);
    }
}

/// Draws the ticks, and at the right what can be added and handed out, in a row.
pub fn rest(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let columns = &state.columns;
    ui.spacing_mut().item_spacing.x = 4.0;
    if columns.list.len() > 1 && columns.page == BesidePage::Curves {
        let mut shown = columns.levers;
        let response = tick(ui, &mut shown, "Levers".to_owned());
        if response.on_hover_text("The levers of each design, below its curves").changed() {
            out.push(BesideCommand::Levers(shown).into());
        }
        ui.add_space(10.0);
    }
    if columns.list.len() > 1 && matches!(columns.page, BesidePage::Curves | BesidePage::Differences) {
        let mut common = columns.common_stop.is_some();
        let response = tick(ui, &mut common, "One stop line".to_owned());
        if response
            .on_hover_text("All designs are read at the same hour; nothing is changed in them")
            .changed()
        {
            let own = state.design().hold().map(|h| h.hours);
            out.push(BesideCommand::Stop(own.filter(|_| common)).into());
        }
    }
    ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
        add(ui, state, out);
        hand_out(ui, state, out);
    });
}

/// The menu of ways to hand the comparison out.
fn hand_out(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    // What is handed out are the columns: not where a sweep or a swap is in sight.
    let columns = matches!(state.columns.page, BesidePage::Curves | BesidePage::Differences);
    if !columns || Action::CopyBeside.disabled_reason(state).is_some() {
        return;
    }
    ui.menu_button("Export…", |ui| {
        for action in [Action::CopyBeside, Action::ExportTable, Action::ExportPicture] {
            if ui.button(action.label()).on_hover_text(action.tip()).clicked() {
                out.push(Command::Do(action));
                ui.close();
            }
        }
    });
}

/// The menu of what can be put beside.
pub fn add(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let full = state.columns.full();
    ui.add_enabled_ui(full.is_none(), |ui| {
        let menu = ui.menu_button("Add a design…", |ui| choices(ui, state, out));
        let why = full.map_or_else(String::new, |note| fields::line(&note));
        menu.response.on_hover_text("Another design, a file or a published pot").on_disabled_hover_text(why);
    });
}

/// What can be put beside: copies, files, demo designs, published pots.
pub fn choices(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    for action in [Action::DuplicateAndChange, Action::KeepBeside, Action::AddBeside] {
        let button = Button::new(action.label()).shortcut_text(action.key_words());
        if ui.add(button).on_hover_text(action.tip()).clicked() {
            out.push(Command::Do(action));
            ui.close();
        }
    }
    ui.separator();
    ui.menu_button("Recent", |ui| {
        if state.settings.recent.is_empty() {
            ui.label("Nothing opened or saved yet");
        }
        for path in &state.settings.recent {
            let path = std::path::PathBuf::from(path);
            let name = path.file_name().map_or_else(String::new, |n| n.to_string_lossy().into_owned());
            if ui.button(name).clicked() {
                out.push(BesideCommand::AddFile(path).into());
                ui.close();
            }
        }
    });
    ui.menu_button("Demo designs (invented)", |ui| {
        for (file, name) in assets::demo_names() {
            if ui.button(name).clicked() {
                out.push(BesideCommand::AddDemo(file).into());
                ui.close();
            }
        }
    });
    ui.menu_button("Published pots", |ui| {
        let height = ui.ctx().content_rect().height() * 0.6;
        ScrollArea::vertical().max_height(height).show(ui, |ui| {
            for case in columns::cases() {
                if ui.button(&case.name).on_hover_text(&case.citation).clicked() {
                    out.push(BesideCommand::AddCase(case.key.clone()).into());
                    ui.close();
                }
            }
        });
    });
}
