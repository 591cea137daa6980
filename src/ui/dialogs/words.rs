//! The words of the program, each explained once, and the guide: lists with a field to filter them.

use egui::{Id, ScrollArea, TextEdit, Ui};

use super::window;
use potset_app::{Action, Command};
use potset_base::units::prose::prose;
use potset_base::words::capital;
use potset_report::glossary;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// The words of the program.
pub fn show(ui: &mut Ui, out: &mut Vec<Command>) {
    if list(ui, "Words", glossary::words()) {
        out.push(Command::Do(Action::Words));
    }
}

/// What can be done with it.
pub fn guide(ui: &mut Ui, out: &mut Vec<Command>) {
    if list(ui, "Guide", glossary::guide()) {
        out.push(Command::Do(Action::Guide));
    }
}

/// A window with a list of titles and texts; true if it was asked to close.
fn list(ui: &mut Ui, title: &str, all: &[(String, String)]) -> bool {
    let t = tokens::of(ui);
    let id = Id::unique(("filter of", title));
    let mut filter = ui.data(|d| d.get_temp::<String>(id)).unwrap_or_default();
    let mut done = false;
    let height = ui.ctx().content_rect().height() - 220.0;
    let closed = window(ui, title, 520.0, |ui| {
        let field = TextEdit::singleline(&mut filter).desired_width(260.0).hint_text("Filter");
        ui.add(field).widget_info(|| {
            egui::WidgetInfo::labeled(egui::accesskit::Role::TextInput, true, "Filter the list")
        });
        ui.add_space(6.0);
        ScrollArea::vertical().max_height(height).auto_shrink([false, true]).show(ui, |ui| {
            let wanted = filter.trim().to_lowercase();
            let fits = |(word, text): &&(String, String)| {
                word.to_lowercase().contains(&wanted) || text.to_lowercase().contains(&wanted)
            };
            for (word, text) in all.iter().filter(fits) {
                wrapped(ui, &capital(word), fonts::semibold(tokens::BODY), t.ink);
                wrapped(ui, &prose(text), fonts::regular(tokens::BODY), t.ink_soft);
                ui.add_space(5.0);
            }
        });
        done = ui.button("Close").clicked();
    });
    ui.data_mut(|d| d.insert_temp(id, filter));
    closed || done
}
