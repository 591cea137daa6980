//! The page of a recipe: what it is, what can be done with it, its versions.

use egui::accesskit::Role;
use egui::{Sense, Ui, WidgetInfo, vec2};

use super::{RecipesView, row};
use potset_app::command::{BatchesCommand, RecipesCommand, WindowCommand};
use potset_app::recipes::RecipeChange;
use potset_app::state::View;
use potset_app::{Command, State};
use potset_base::clock::day_words;
use potset_catalogue::recipes::Recipe;
use potset_doc::recipe::MOST_STARS;
use potset_report::recipes::{answer_words, made_words};
use potset_ui_kit::widgets::field::field;
use potset_ui_kit::widgets::{card, wrapped};
use potset_ui_kit::{fonts, tokens};

/// What the page keeps between frames.
#[derive(Default)]
pub struct PageState {
    /// Versions whose changes are shown.
    unfolded: Option<u32>,
}

/// Draws the page.
///
/// - `back` — the list is behind it.
pub fn show(ui: &mut Ui, view: &mut RecipesView, state: &State, back: bool, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    if back && ui.button("← All recipes").clicked() {
        out.push(RecipesCommand::Open(None).into());
    }
    let Some(one) = state.recipes.opened() else {
        let text =
            "Press a recipe to see its versions, stars and tags. Enter puts the marked one on the bench.";
        wrapped(ui, text, fonts::regular(tokens::BODY), t.ink_soft);
        return;
    };
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        head(ui, one, state, out);
    });
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        marks(ui, one, state, out);
    });
    twin(ui, view, one, state, out);
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        versions(ui, &mut view.page, one, state, out);
    });
}

fn change(out: &mut Vec<Command>, change: RecipeChange) {
    out.push(RecipesCommand::Change(change).into());
}

fn head(ui: &mut Ui, one: &Recipe, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let file = || one.file.clone();
    let moved = state.disabled_move(&one.file);
    if moved.is_some() {
        wrapped(ui, &one.summary.name, fonts::semibold(tokens::HEADING), t.ink);
    } else if let Some(name) = field(ui, "Name of the recipe", &one.summary.name, "Name", f32::INFINITY)
        && !name.trim().is_empty()
    {
        change(out, RecipeChange::Rename(file(), name.trim().to_owned()));
    }
    let (word, below) = answer_words(one.answer.as_ref(), one.summary.hold_h);
    wrapped(ui, &word, fonts::semibold(tokens::BODY), t.ink);
    wrapped(ui, &below, fonts::regular(tokens::BODY), t.ink_soft);
    let code = one.answer.as_ref().map_or(String::new(), |a| format!(" · code {}", a.code));
    wrapped(ui, &format!("{}{code}", one.file), fonts::regular(tokens::SMALL), t.ink_soft);
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        if ui.button("Put on the bench").clicked() {
            out.push(RecipesCommand::ToBench(file()).into());
        }
        let card = ui.button("Card…");
        if card
            .on_hover_text("Puts it on the bench, and shows its card to print, its clock and its packet")
            .clicked()
        {
            out.push(RecipesCommand::ToBench(file()).into());
            out.push(WindowCommand::Show(View::Card).into());
        }
        let begin = ui.button("Begin a pot");
        if begin
            .on_hover_text("Begins a pot from this recipe as it is saved, and shows it in Batches")
            .clicked()
        {
            out.push(BatchesCommand::Begin(Some(file())).into());
        }
        let full = state.columns.full();
        let beside = ui.add_enabled(full.is_none(), egui::Button::new("Put beside"));
        if beside.clicked() {
            out.push(RecipesCommand::Beside(file()).into());
        }
        beside.on_disabled_hover_text("Four designs are beside each other already");
        if ui.button("Duplicate").clicked() {
            change(out, RecipeChange::Duplicate(file()));
        }
        let bin = ui.add_enabled(moved.is_none(), egui::Button::new("Move to the bin"));
        if bin.clicked() {
            change(out, RecipeChange::ThrowAway(file()));
        }
        bin.on_disabled_hover_text(moved.unwrap_or_default());
    });
    if let Some(why) = moved {
        wrapped(ui, why, fonts::regular(tokens::SMALL), t.ink_soft);
    }
}

fn marks(ui: &mut Ui, one: &Recipe, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        for n in 1..=MOST_STARS {
            let (rect, response) = ui.allocate_exact_size(vec2(22.0, 22.0), Sense::click());
            let on = n <= one.record.stars;
            let color = if on || response.hovered() { t.accent } else { t.rail };
            row::star(ui, rect.center(), 8.0, color);
            let words = if n == 1 { "1 star".to_owned() } else { format!("{n} stars") };
            response.widget_info(|| WidgetInfo::selected(Role::Button, true, on, &words));
            // The same star once more takes it away.
            if response.clicked() {
                let stars = if one.record.stars == n { n - 1 } else { n };
                change(out, RecipeChange::Stars(one.file.clone(), stars));
            }
            response.on_hover_text(words);
        }
    });
    let tags = one.summary.tags.join(", ");
    if let Some(text) =
        field(ui, "Tags of the recipe", &tags, "Tags, with commas between them", f32::INFINITY)
    {
        let tags = text.split(',').map(str::trim).filter(|tag| !tag.is_empty()).map(str::to_owned).collect();
        change(out, RecipeChange::Tags(one.file.clone(), tags));
    }
    let made = made_words(one.record.made.len(), one.last_made().map(day_words));
    let made = if made.is_empty() { "not made yet".to_owned() } else { made };
    ui.horizontal_wrapped(|ui| {
        wrapped(ui, &made, fonts::regular(tokens::BODY), t.ink_soft);
        let button = ui.add_enabled(state.now.is_some(), egui::Button::new("Made today"));
        if button.clicked() {
            out.push(RecipesCommand::MadeToday(one.file.clone()).into());
        }
        button.on_disabled_hover_text("There is no clock here");
    });
}

/// Another recipe of the same name: the same recipe may have been changed in two places.
fn twin(ui: &mut Ui, view: &RecipesView, one: &Recipe, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let all = &state.recipes.listed.list;
    let Some(at) = all.iter().position(|other| other.file == one.file) else { return };
    let other = view.kept.twins.iter().find_map(|(a, b)| match at {
        at if at == *a => all.get(*b),
        at if at == *b => all.get(*a),
        _ => None,
    });
    let Some(other) = other else { return };
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let words = format!(
            "{} has the same name. It may be this recipe, changed in another place. Both are kept.",
            other.file
        );
        wrapped(ui, &words, fonts::regular(tokens::BODY), t.warn);
        if ui.button("Put both beside each other").clicked() {
            out.push(RecipesCommand::Beside(other.file.clone()).into());
            out.push(RecipesCommand::Beside(one.file.clone()).into());
        }
    });
}

fn versions(ui: &mut Ui, page: &mut PageState, one: &Recipe, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    wrapped(ui, "Versions", fonts::semibold(tokens::BODY), t.ink);
    let quiet = fonts::regular(tokens::SMALL);
    let all = state.recipes.versions.as_ref().filter(|(file, _)| *file == one.file).map(|(_, all)| all);
    let Some(all) = all.filter(|all| !all.is_empty()) else {
        wrapped(ui, "None yet: each save keeps one.", quiet, t.ink_soft);
        return;
    };
    for (i, version) in all.iter().enumerate() {
        let now = version.since.as_ref().is_ok_and(Vec::is_empty);
        ui.horizontal_wrapped(|ui| {
            let words = format!("{} · {}", version.number, version.when);
            wrapped(ui, &words, fonts::regular(tokens::BODY), t.ink);
            match &version.since {
                Err(why) => {
                    wrapped(ui, why, quiet.clone(), t.warn);
                }
                Ok(_) if now => {
                    wrapped(
                        ui,
                        if i == 0 { "as it is now" } else { "the same as now" },
                        quiet.clone(),
                        t.ink_soft,
                    );
                }
                Ok(since) => {
                    let shown = page.unfolded == Some(version.number);
                    let words = if shown { "Hide" } else { "Changed since" };
                    if ui.small_button(format!("{words} ({})", since.len())).clicked() {
                        page.unfolded = (!shown).then_some(version.number);
                    }
                    let busy = state.disabled_restore(&one.file);
                    let back = ui.add_enabled(busy.is_none(), egui::Button::new("Put back").small());
                    if back.clicked() {
                        change(out, RecipeChange::Restore(one.file.clone(), version.number));
                    }
                    back.on_disabled_hover_text(busy.unwrap_or_default());
                }
            }
        });
        if let (true, Ok(since)) = (page.unfolded == Some(version.number), &version.since) {
            for line in since {
                wrapped(ui, line, quiet.clone(), t.ink_soft);
            }
        }
    }
}
