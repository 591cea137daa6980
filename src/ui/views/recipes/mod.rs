//! The Recipes view: the house recipes as a list, the page of one, the bin.

mod bin;
mod filters;
mod list;
mod page;
mod row;
mod start;

pub use self::row::star;

use std::path::Path;

use egui::{CentralPanel, Frame, Margin, Panel, Ui};

use potset_app::command::RecipesCommand;
use potset_app::recipes::RecipesPage;
use potset_app::{Command, State};
use potset_catalogue::recipes::{Find, found, tags, twins};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::column::column;
use potset_ui_kit::widgets::list::List;
use potset_ui_kit::widgets::pill::pill;

/// Between the parts of a column, points.
const GAP: f32 = 6.0;
/// From this width on list and page stand beside each other.
const WIDE: f32 = 900.0;
/// Width of the page of a recipe.
const RIGHT: f32 = 340.0;

/// What the view keeps between frames.
#[derive(Default)]
pub struct RecipesView {
    list: List,
    kept: Kept,
    page: page::PageState,
    start: start::StartState,
    /// What is being looked for while it is typed.
    text: Option<String>,
    /// The recipe in the bin that is asked about before it is deleted.
    delete: Option<u32>,
}

/// What is worked out of the list, and what for.
#[derive(Default)]
struct Kept {
    of: Option<(u64, Find)>,
    shown: Vec<usize>,
    tags: Vec<(String, usize)>,
    twins: Vec<(usize, usize)>,
}

/// Draws the view over the whole of `ui`; commands go into `out`.
///
/// - `documents` — where the folder of the recipes is offered to be.
pub fn show(
    ui: &mut Ui,
    view: &mut RecipesView,
    state: &State,
    documents: Option<&Path>,
    out: &mut Vec<Command>,
) {
    let t = tokens::of(ui);
    if state.settings.recipes.is_none() {
        CentralPanel::default()
            .frame(panel(ui))
            .show(ui, |ui| start::show(ui, &mut view.start, documents, out));
        return;
    }
    renew(view, state);
    let bar = Frame::new().fill(t.page).inner_margin(Margin::symmetric(14, 4));
    Panel::top("recipes pages").resizable(false).exact_size(36.0).frame(bar).show(ui, |ui| {
        ui.horizontal_centered(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            for page in RecipesPage::ALL {
                if pill(ui, page.words(), state.recipes.page == page).clicked() {
                    out.push(RecipesCommand::Page(page).into());
                }
            }
            ui.add_space(10.0);
            filters::folder(ui, state, out);
        });
    });
    if state.recipes.page == RecipesPage::Bin {
        CentralPanel::default().frame(panel(ui)).show(ui, |ui| bin::show(ui, view, state, out));
        return;
    }
    let frame = panel(ui);
    let wide = ui.available_width() >= WIDE;
    // The page comes first: what was typed in it is to be done before another recipe opens.
    if wide {
        Panel::right("recipe").resizable(false).exact_size(RIGHT).frame(frame).show(ui, |ui| {
            column(ui, "recipe", GAP, |ui| page::show(ui, view, state, false, out));
        });
    }
    CentralPanel::default().frame(frame).show(ui, |ui| {
        if wide || state.recipes.open.is_none() {
            filters::show(ui, view, state, out);
            list::show(ui, view, state, out);
        } else {
            column(ui, "recipe", GAP, |ui| page::show(ui, view, state, true, out));
        }
    });
}

fn renew(view: &mut RecipesView, state: &State) {
    let recipes = &state.recipes;
    let of = (recipes.number, recipes.find.clone());
    if view.kept.of.as_ref() == Some(&of) {
        return;
    }
    let all = &recipes.listed.list;
    // Another search starts at its top; a list that only grew stays where it is.
    if view.kept.of.as_ref().is_some_and(|(_, find)| *find != recipes.find) {
        view.list.top();
    }
    view.kept = Kept { of: Some(of), shown: found(all, &recipes.find), tags: tags(all), twins: twins(all) };
}

/// The frame of the panels.
fn panel(ui: &Ui) -> Frame {
    Frame::new().fill(tokens::of(ui).page).inner_margin(Margin::symmetric(9, 6))
}
