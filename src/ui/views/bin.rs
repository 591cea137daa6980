//! A bin: what was thrown away, until it is put back or deleted for good.

use egui::Ui;

use potset_app::State;
use potset_app::recipes::Thrown;
use potset_base::clock::Moment;
use potset_ui_kit::widgets::card::{boxed, nothing};
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// What is to be done with something in a bin, by its place there.
pub enum BinWish {
    PutBack(u32),
    Delete(u32),
}

/// Draws what is in a bin.
///
/// - `empty` — what waits here, said where nothing does.
/// - `question` — asked before something is deleted.
/// - `asked` — what that is.
pub fn show(
    ui: &mut Ui,
    (empty, question): (&str, &str),
    thrown: &[Thrown],
    asked: &mut Option<u32>,
    state: &State,
) -> Option<BinWish> {
    if thrown.is_empty() {
        nothing(ui, "The bin is empty", empty, |_| {});
        return None;
    }
    let mut wish = None;
    for thrown in thrown {
        boxed(ui, thrown.name.as_deref().unwrap_or(&thrown.file), |ui| {
            let when = Moment::of_instant(thrown.at_s, &state.zone).date_and_time();
            let words = format!("{}, thrown away {when}", thrown.file);
            wrapped(ui, &words, fonts::regular(tokens::SMALL), tokens::of(ui).ink_soft);
            ui.horizontal_wrapped(|ui| wish = buttons(ui, question, asked, thrown.number).or(wish.take()));
        });
    }
    wish
}

fn buttons(ui: &mut Ui, question: &str, asked: &mut Option<u32>, number: u32) -> Option<BinWish> {
    if *asked == Some(number) {
        ui.label(question);
        let delete = ui.button("Delete for good").clicked();
        if delete || ui.button("Keep it").clicked() {
            *asked = None;
        }
        return delete.then_some(BinWish::Delete(number));
    }
    let back = ui.button("Put back").clicked();
    if ui.button("Delete…").clicked() {
        *asked = Some(number);
    }
    back.then_some(BinWish::PutBack(number))
}
