//! Pots under way: what is now and what is next.

use egui::{Grid, RichText, Ui};

use potset_app::command::{BatchesCommand, CardCommand, WindowCommand};
use potset_app::state::View;
use potset_app::{Command, State};
use potset_report::batch::underway;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Draws each pot under way.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let Some(now) = state.now else { return };
    let t = tokens::of(ui);
    for (i, under_way) in state.card.running.iter().enumerate() {
        let pot = &under_way.batch;
        let title = format!("Under way: {} (code {})", pot.name, pot.code);
        boxed(ui, &title, |ui| {
            ui.push_id(("running", i), |ui| {
                let Some(told) = underway(pot, now, &state.zone) else {
                    quiet(ui, "When it began cannot be read. End it, and begin it again.");
                    buttons(ui, (i, &under_way.file), false, out);
                    return;
                };
                let next = told.next.as_deref().unwrap_or("Nothing more to do: eat it");
                wrapped(ui, next, fonts::semibold(tokens::READING * 0.8), t.ink);
                match &told.now {
                    Some(last) => quiet(ui, &format!("Last: {last}")),
                    None => quiet(ui, "It has not begun yet"),
                }
                Grid::new("lines").num_columns(2).spacing([18.0, 4.0]).show(ui, |ui| {
                    for (when, what, over) in &told.lines {
                        let color = if *over { t.ink_soft } else { t.ink };
                        let mark = if *over { "✓ " } else { "" };
                        ui.label(RichText::new(format!("{mark}{when}")).color(color));
                        ui.label(RichText::new(what).color(color));
                        ui.end_row();
                    }
                });
                let before = pot.plan.iter().any(|line| line.at_h < 0.0);
                buttons(ui, (i, &under_way.file), before && told.lines.iter().any(|(_, _, over)| !over), out);
            });
        });
    }
}

fn buttons(ui: &mut Ui, (i, file): (usize, &str), culture: bool, out: &mut Vec<Command>) {
    ui.horizontal_wrapped(|ui| {
        if culture {
            let button = ui.button("The culture goes in now");
            if button.on_hover_text("All times that follow are counted from now").clicked() {
                out.push(CardCommand::CultureIn(i).into());
            }
        }
        if ui.button("Open in Batches").on_hover_text("Its readings, and the forecast from now on").clicked()
        {
            out.push(BatchesCommand::Open(Some(file.to_owned())).into());
            out.push(WindowCommand::Show(View::Batches).into());
        }
        if ui.button("End this pot").on_hover_text("It is no longer followed").clicked() {
            out.push(CardCommand::End(i).into());
        }
    });
}
