//! What is looked for among the recipes, and the folder that they are in.

use egui::accesskit::Role;
use egui::{IdSalt, TextEdit, Ui, WidgetInfo};

use super::RecipesView;
use potset_app::command::RecipesCommand;
use potset_app::{Action, Command, State};
use potset_base::words::TextureWord;
use potset_catalogue::recipes::{Find, Order};
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// The folder, and what brings recipes in and out.
pub fn folder(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    for (action, words) in
        [(Action::ImportRecipes, "Import a folder…"), (Action::ExportRecipes, "Export all…")]
    {
        if ui.button(words).on_hover_text(action.tip()).clicked() {
            out.push(Command::Do(action));
        }
    }
    if let Some((words, _)) = &state.recipes.undo {
        let undo = ui.button("Undo");
        if undo.on_hover_text(format!("{words}: take that back (Ctrl+Z)")).clicked() {
            out.push(RecipesCommand::Undo.into());
        }
    }
}

/// The row of what is looked for.
pub fn show(ui: &mut Ui, view: &mut RecipesView, state: &State, out: &mut Vec<Command>) {
    let find = &state.recipes.find;
    let mut new = find.clone();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 8.0;
        let text = view.text.get_or_insert_with(|| find.text.clone());
        let edit = TextEdit::singleline(text).desired_width(190.0).hint_text("Name, base, tag, code");
        let field = ui.add(edit);
        field.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, "Search the recipes"));
        view.list.keys_from(ui, &field);
        new.text.clone_from(text);
        if !field.has_focus() {
            view.text = None;
        }
        tick(ui, &mut new.vegan, "vegan");
        tick(ui, &mut new.gluten_free, "gluten-free");
        tick(ui, &mut new.starred, "with stars");
        tagged(ui, view, &mut new);
        texture(ui, &mut new);
        let orders: Vec<&str> = Order::ALL.iter().map(|order| order.words()).collect();
        if let Some(i) = picker(ui, IdSalt::new("order"), "Order of the recipes", new.order.words(), &orders)
        {
            new.order = Order::ALL[i];
        }
        if !find.is_open()
            && ui.button("Clear").on_hover_text("Looks for nothing: shows all recipes").clicked()
        {
            new = Find { order: find.order, ..Find::default() };
            view.text = None;
        }
    });
    if new != *find {
        out.push(RecipesCommand::Find(new).into());
    }
    told(ui, view, state);
}

fn tagged(ui: &mut Ui, view: &RecipesView, new: &mut Find) {
    let any = "any tag".to_owned();
    let words = |tag: &(String, usize)| format!("{} ({})", tag.0, tag.1);
    let all: Vec<String> = std::iter::once(any.clone()).chain(view.kept.tags.iter().map(words)).collect();
    let options: Vec<&str> = all.iter().map(String::as_str).collect();
    let current = new.tag.as_ref().and_then(|tag| view.kept.tags.iter().find(|(name, _)| name == tag));
    let current = current.map_or(any, words);
    if let Some(i) = picker(ui, IdSalt::new("tag"), "Tag", &current, &options) {
        new.tag = i.checked_sub(1).map(|i| view.kept.tags[i].0.clone());
    }
}

fn texture(ui: &mut Ui, new: &mut Find) {
    let any = "any texture";
    let options: Vec<&str> = std::iter::once(any).chain(TextureWord::ALL.map(TextureWord::word)).collect();
    let current = new.texture.map_or(any, TextureWord::word);
    if let Some(i) = picker(ui, IdSalt::new("texture"), "Texture", current, &options) {
        new.texture = i.checked_sub(1).map(|i| TextureWord::ALL[i]);
    }
}

/// How many there are, and what is still under way.
fn told(ui: &mut Ui, view: &RecipesView, state: &State) {
    let t = tokens::of(ui);
    let recipes = &state.recipes;
    let all = recipes.listed.list.len();
    let shown = view.kept.shown.len();
    let many = if all == 1 { "recipe" } else { "recipes" };
    let mut words = if shown == all { format!("{all} {many}") } else { format!("{shown} of {all} {many}") };
    if recipes.listed.left > 0 {
        words += &format!(" · {} files still to be read", recipes.listed.left);
    } else if recipes.unanswered > 0 {
        words += &format!(" · what comes of {} is being worked out", recipes.unanswered);
    }
    match recipes.listed.bad.len() {
        0 => {}
        1 => words += &format!(" · 1 file is no recipe: {}", recipes.listed.bad[0].line()),
        n => words += &format!(" · {n} files are no recipes, the first: {}", recipes.listed.bad[0].line()),
    }
    wrapped(ui, &words, fonts::regular(tokens::SMALL), t.ink_soft);
}
