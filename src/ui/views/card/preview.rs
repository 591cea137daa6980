//! The card as it prints, and what is written on it.

use std::sync::Arc;

use egui::{
    CentralPanel, ColorImage, IdSalt, Image, Panel, TextureHandle, TextureOptions, Ui, WidgetInfo, vec2,
};

use super::told;
use potset_app::card::{CardFile, CardTold, CardWish, Told};
use potset_app::command::{BenchCommand, CardCommand, WindowCommand};
use potset_app::{Action, Command, State};
use potset_doc::Edit;
use potset_paper::Size;
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::field::area;
use potset_ui_kit::widgets::picker::picker;

/// Width of the column with what can be changed.
const LEFT: f32 = 330.0;

/// The pages as textures, and the pictures that they are of.
#[derive(Default)]
pub struct PreviewState {
    of: Option<Arc<Result<Told, potset_base::Note>>>,
    pages: Vec<TextureHandle>,
}

/// Draws the page.
pub fn show(ui: &mut Ui, view: &mut PreviewState, state: &State, out: &mut Vec<Command>) {
    let frame = super::panel(ui);
    Panel::left("card texts")
        .resizable(false)
        .exact_size(LEFT.min(0.45 * ui.available_width()))
        .frame(frame)
        .show(ui, |ui| {
            column(ui, "card texts", super::GAP, |ui| {
                controls(ui, state, out);
                if let Some(Told::Card(card)) = told(ui, state) {
                    sentences(ui, card, out);
                }
            });
        });
    CentralPanel::default().frame(frame).show(ui, |ui| {
        column(ui, "card", super::GAP, |ui| {
            if let Some(Ok(Told::Card(card))) = state.card.told.as_deref() {
                pages(ui, view, state, card);
            } else if state.card.answered < state.card.question {
                quiet(ui, "The card is being made");
            }
        });
    });
}

fn controls(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let wish = &state.card.wish;
    boxed(ui, "Print", |ui| {
        ui.horizontal_wrapped(|ui| {
            let sizes: Vec<&str> = Size::ALL.iter().map(|size| size.words()).collect();
            if let Some(i) = picker(ui, IdSalt::new("paper"), "Paper", wish.size.words(), &sizes) {
                out.push(CardCommand::Wish(CardWish { size: Size::ALL[i], ..wish.clone() }).into());
            }
            let print = ui.add_enabled(state.aside.is_some(), egui::Button::new("Print…"));
            if print.clicked() {
                out.push(CardCommand::Print(CardFile::Card).into());
            }
            print.on_hover_text("Makes a PDF and opens it in your system's viewer, which prints it");
            let export = ui.button("Export…");
            if export.on_hover_text(Action::ExportCard.tip()).clicked() {
                out.push(Command::Do(Action::ExportCard));
            }
            if ui.button("Copy as text").clicked()
                && let Some(Ok(Told::Card(card))) = state.card.told.as_deref()
            {
                out.push(WindowCommand::Copy(card.text.clone()).into());
            }
        });
        quiet(ui, "For a fridge door, choose “wall”: it is read from two metres.");
    });
    boxed(ui, "Leaflet", |ui| {
        quiet(
            ui,
            "A page for whoever hands out the culture: dose, sugar, warmth, hour by hour, and what goes wrong.",
        );
        ui.horizontal_wrapped(|ui| {
            let print = ui.add_enabled(state.aside.is_some(), egui::Button::new("Print the leaflet…"));
            if print.clicked() {
                out.push(CardCommand::Print(CardFile::Leaflet).into());
            }
            if ui.button("Export the leaflet…").clicked() {
                out.push(CardCommand::AskExport(CardFile::Leaflet, "pdf").into());
            }
        });
    });
}

/// Sentences that the maker may put into other words.
fn sentences(ui: &mut Ui, card: &CardTold, out: &mut Vec<Command>) {
    let mut set = |generated: &str, own: Option<String>| {
        let edit = Edit::CardSentence(generated.to_owned(), own);
        out.push(BenchCommand::Edit(edit, None).into());
    };
    boxed(ui, "The steps in your own words", |ui| {
        for (i, step) in card.steps.iter().enumerate() {
            ui.push_id(("step", i), |ui| {
                let said = &step.said;
                if let Some(text) = area(ui, &format!("Step {}", i + 1), &said.words, &said.generated) {
                    set(&said.generated, Some(text));
                }
                if said.own && ui.small_button("As Potset says it").clicked() {
                    set(&said.generated, None);
                }
            });
        }
    });
    if card.outdated.is_empty() {
        return;
    }
    boxed(ui, "Your words with no place any more", |ui| {
        quiet(ui, "The design changed, and Potset says something else there now.");
        for own in &card.outdated {
            plain(ui, &own.own);
            if ui.small_button("Remove these words").clicked() {
                set(&own.generated, None);
            }
        }
    });
}

fn pages(ui: &mut Ui, view: &mut PreviewState, state: &State, card: &CardTold) {
    let same = match (&view.of, &state.card.told) {
        (Some(a), Some(b)) => Arc::ptr_eq(a, b),
        _ => false,
    };
    if !same {
        view.of.clone_from(&state.card.told);
        let load = |(i, page): (usize, &potset_app::card::PagePicture)| {
            let image = ColorImage::from_rgba_unmultiplied(page.size, &page.rgba);
            ui.ctx().load_texture(format!("card page {i}"), image, TextureOptions::LINEAR)
        };
        view.pages = card.pages.iter().enumerate().map(load).collect();
    }
    for (i, texture) in view.pages.iter().enumerate() {
        let size = texture.size_vec2();
        let width = ui.available_width().min(size.x);
        let image = Image::new(texture).fit_to_exact_size(vec2(width, width * size.y / size.x));
        let response = ui.add(image);
        let words = if i == 0 { card.text.clone() } else { format!("Page {} of the card", i + 1) };
        response.widget_info(|| WidgetInfo::labeled(egui::accesskit::Role::Image, true, &words));
        ui.add_space(8.0);
    }
}
