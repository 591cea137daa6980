//! What really went into a pot, where that was not what the design says.

use egui::{Grid, Ui};

use potset_app::Command;
use potset_app::batches::OpenBatch;
use potset_app::command::{BatchesCommand, WindowCommand};
use potset_doc::Pantry;
use potset_doc::batch::change::BatchChange;
use potset_doc::edit::LineKind;
use potset_report::scale::amount;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::widgets::field::field;

/// Width of a field, points.
const WIDTH: f32 = 120.0;

/// Draws the lines of the design with what went in.
pub fn show(ui: &mut Ui, open: &OpenBatch, out: &mut Vec<Command>) {
    let design = &open.batch.design;
    // A batch has its own copy of all that it is made from.
    let own = Pantry::default();
    boxed(ui, "What went in", |ui| {
        quiet(ui, "As the design had it. Where you put in more or less, type that: 17 g, 2 tbsp, 0.9 L.");
        Grid::new("what went in").num_columns(3).spacing([14.0, 5.0]).show(ui, |ui| {
            for kind in LineKind::ALL {
                for (i, line) in design.lines(kind).iter().enumerate() {
                    let Some((said, value)) = design.said_of(kind, i, &own) else { continue };
                    let name = design.name_of(&own, kind.kind(), line.entry());
                    let whole = amount(&said, value);
                    let (shown, beside) = whole.split_once(", ").unwrap_or((&whole, ""));
                    ui.label(name);
                    // A grid gives a field no width of its own.
                    let typed = ui
                        .horizontal(|ui| {
                            ui.set_min_width(WIDTH + 12.0);
                            field(ui, &format!("Went in: {name}"), shown, "", WIDTH)
                        })
                        .inner;
                    if let Some(typed) = typed {
                        match said.read(name, &typed) {
                            Ok(new) => {
                                let change = BatchChange::WentIn(kind, i, new);
                                out.push(BatchesCommand::Change(open.file.clone(), vec![change]).into());
                            }
                            Err(note) => out.push(WindowCommand::ShowRefusal(note).into()),
                        }
                    }
                    ui.label(beside);
                    ui.end_row();
                }
            }
        });
    });
}
