//! The readings of a pot by time; each can be corrected in the reading line, or removed.

use egui::accesskit::Role;
use egui::{Grid, Ui, WidgetInfo};

use potset_app::batches::OpenBatch;
use potset_app::command::BatchesCommand;
use potset_app::{Command, State};
use potset_base::clock::Moment;
use potset_doc::batch::change::BatchChange;
use potset_doc::batch::{Batch, BatchReading};
use potset_doc::settings::Depth;
use potset_report::batch::{reading, when};
use potset_report::learn::logged;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::widgets::wrapped;

/// Draws the table.
pub fn show(ui: &mut Ui, state: &State, open: &OpenBatch, out: &mut Vec<Command>) {
    let batch = &open.batch;
    boxed(ui, "Readings", |ui| {
        if batch.readings.is_empty() {
            quiet(ui, "None yet. Type the first one above.");
        }
        let details = state.settings.depth == Depth::Details;
        let words = (ui.available_width() - 250.0).max(120.0);
        Grid::new("readings").num_columns(3).spacing([14.0, 4.0]).show(ui, |ui| {
            for (place, one) in batch.readings.iter().enumerate() {
                let (clock, after) = when(batch, one.at_h);
                let label = ui.label(if clock.is_empty() { &after } else { &clock });
                label.on_hover_text(&after);
                ui.scope(|ui| {
                    ui.set_width(words);
                    wrapped(
                        ui,
                        &told(open, one, place, details),
                        fonts::regular(tokens::BODY),
                        tokens::of(ui).ink,
                    );
                });
                buttons(ui, open, one, place, out);
                ui.end_row();
            }
        });
        warmth(ui, open, out);
    });
}

/// A reading, with the scatter that it counts with where numbers are shown.
fn told(open: &OpenBatch, one: &BatchReading, place: usize, details: bool) -> String {
    let words = reading(one);
    let sigma = open.sigmas.iter().find(|(of, _)| *of == place).filter(|_| details);
    match (one.what, sigma) {
        (potset_doc::batch::Observed::Ph(_) | potset_doc::batch::Observed::Strip(_), Some((_, sigma))) => {
            format!("{words} (counts with ± {})", potset_base::number::fixed(*sigma, 2))
        }
        _ => words,
    }
}

fn buttons(ui: &mut Ui, open: &OpenBatch, one: &BatchReading, place: usize, out: &mut Vec<Command>) {
    ui.horizontal(|ui| {
        let named = |words: &str| format!("{words} the reading {}", place + 1);
        let correct = ui.small_button("Correct");
        correct.widget_info(|| WidgetInfo::labeled(Role::Button, true, named("Correct")));
        if correct.on_hover_text("Puts it into the line above; Enter saves it in its place").clicked() {
            out.push(BatchesCommand::Put(typed(&open.batch, one), Some(place)).into());
        }
        let remove = ui.small_button("Remove");
        remove.widget_info(|| WidgetInfo::labeled(Role::Button, true, named("Remove")));
        if remove.on_hover_text("Undo brings it back").clicked() {
            let change = BatchChange::Remove(Box::new(one.clone()));
            out.push(BatchesCommand::Change(open.file.clone(), vec![change]).into());
        }
    });
}

/// A reading as it would be typed.
fn typed(batch: &Batch, one: &BatchReading) -> String {
    let time = batch
        .moment(one.at_h)
        .map_or_else(|| format!("+{} h", potset_base::number::plain(one.at_h)), Moment::text);
    let mut parts = vec![time, one.what.words()];
    if !one.photo.is_empty() {
        parts.push(format!("photo {}", one.photo));
    }
    if !one.who.is_empty() {
        parts.push(format!("by {}", one.who));
    }
    if !one.note.is_empty() {
        parts.push(format!("note {}", one.note));
    }
    parts.retain(|part| !part.is_empty());
    parts.join(" ")
}

/// What a logger told.
fn warmth(ui: &mut Ui, open: &OpenBatch, out: &mut Vec<Command>) {
    let Some(own) = &open.batch.logged else { return };
    let ends = own
        .course
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), point| (low.min(point.c), high.max(point.c)));
    ui.horizontal_wrapped(|ui| {
        let range = format!("{} to {}", logged(ends.0), logged(ends.1));
        quiet(ui, &format!("Logger: {} temperatures of {}, {range}", own.course.len(), own.file));
        if ui.small_button("Remove the logger's warmth").clicked() {
            out.push(BatchesCommand::Change(open.file.clone(), vec![BatchChange::Logged(None)]).into());
        }
    });
}
