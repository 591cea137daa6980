//! The Recipes view: the folder of the house recipes, what is looked for in it, and its changes.

use std::path::PathBuf;
use std::sync::Arc;

use super::files::first_ask;
use super::listing::{kept, list, versions};
use super::tell;
use crate::command::{BesideCommand, RecipeTo, RecipesCommand};
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::jobs::recipes::{BinJob, CopyRecipesJob, RecipeAnswersJob, WatchRecipes};
use crate::recipes::{Listed, RecipeChange, RecipesPage};
use crate::state::{State, Then, View};
use potset_base::Note;
use potset_catalogue::recipes::found;
use potset_doc::recipe::KnownRecipe;
use potset_store::library::Copied;

/// Commands of the Recipes view.
pub fn recipes(state: &mut State, command: RecipesCommand) -> Vec<Effect> {
    match command {
        RecipesCommand::Folder(folder) => {
            state.settings.recipes = Some(folder.display().to_string());
            state.recipes = crate::recipes::RecipesState {
                question: state.recipes.question,
                number: state.recipes.number + 1,
                ..Default::default()
            };
            let mut effects = vec![DiskEffect::SaveSettings.into(), DiskEffect::MakeLibrary.into()];
            effects.extend(list(state));
            effects
        }
        RecipesCommand::Page(page) => {
            state.recipes.page = page;
            if page == RecipesPage::Bin { bin(state) } else { Vec::new() }
        }
        RecipesCommand::Find(find) => {
            state.recipes.find = find;
            state.recipes.number += 1;
            Vec::new()
        }
        RecipesCommand::Open(file) => {
            state.recipes.open = file;
            versions(state)
        }
        RecipesCommand::ToBench(file) => {
            let Some(library) = state.library() else { return Vec::new() };
            state.view = View::Bench;
            first_ask(state, Then::Open(library.path(&file)))
        }
        RecipesCommand::Beside(file) => {
            let Some(library) = state.library() else { return Vec::new() };
            let mut effects = super::window::show(state, View::Beside);
            effects.extend(super::update(state, BesideCommand::AddFile(library.path(&file))));
            effects
        }
        RecipesCommand::Change(change) => {
            vec![DiskEffect::Recipe(change).into()]
        }
        RecipesCommand::Changed(change, done) => changed(state, &change, done),
        RecipesCommand::MadeToday(file) => made_today(state, file),
        RecipesCommand::Undo => match state.recipes.undo.take() {
            Some((_, change)) => vec![DiskEffect::Recipe(change).into()],
            None => Vec::new(),
        },
        RecipesCommand::AskImport => vec![ScreenEffect::AskImport.into()],
        RecipesCommand::AskExport => vec![ScreenEffect::AskExportAll.into()],
        RecipesCommand::Import(other) => copy(state, other, false),
        RecipesCommand::Export(other) => copy(state, other, true),
        RecipesCommand::Copied(other, out, copied) => told(state, (other, out), copied),
        RecipesCommand::Listed(number, listed) => listed_now(state, number, *listed),
        RecipesCommand::NotListed(number, note) => {
            if number == state.recipes.question {
                state.recipes.trouble = Some(note);
            }
            Vec::new()
        }
        RecipesCommand::Answered(number, all) => {
            answered(state, number, &all);
            Vec::new()
        }
        RecipesCommand::Versions(file, all) => {
            if state.recipes.open.as_ref() == Some(&file) {
                state.recipes.versions = Some((file, all));
            }
            Vec::new()
        }
        RecipesCommand::Bin(bin) => {
            state.recipes.bin = bin;
            Vec::new()
        }
        // It is looked after only while it is looked at.
        RecipesCommand::Touched if state.view == View::Recipes => list(state),
        RecipesCommand::Touched => Vec::new(),
    }
}

fn listed_now(state: &mut State, number: u64, listed: Listed) -> Vec<Effect> {
    if number != state.recipes.question {
        return Vec::new();
    }
    let whole = listed.left == 0;
    let recipes = &mut state.recipes;
    // While files are read the old list stays where it is the longer one.
    if whole || listed.list.len() >= recipes.listed.list.len() {
        recipes.listed = listed;
        recipes.number += 1;
    }
    if !whole {
        return Vec::new();
    }
    if recipes.open.as_ref().is_some_and(|file| recipes.recipe(file).is_none()) {
        recipes.open = None;
    }
    let mut effects = answers(state);
    effects.extend(watch(state));
    effects
}

/// Has the folder looked after.
fn watch(state: &State) -> Option<Effect> {
    let library = state.library()?;
    let known = state.recipes.listed.stamps.clone();
    Some(Effect::work(WatchRecipes { library, known }))
}

/// Finds out what comes of the recipes of which it is not known, those in sight first.
fn answers(state: &mut State) -> Vec<Effect> {
    let Some(kept) = kept(state) else { return Vec::new() };
    let recipes = &mut state.recipes;
    let all = &recipes.listed.list;
    let order = found(all, &recipes.find);
    let mut first: Vec<bool> = vec![false; all.len()];
    order.iter().for_each(|i| first[*i] = true);
    let rest = (0..all.len()).filter(|i| !first[*i]);
    let mut left: Vec<_> = order
        .iter()
        .copied()
        .chain(rest)
        .map(|i| Arc::clone(&all[i]))
        .filter(|r| r.answer.is_none())
        .collect();
    left.reverse();
    recipes.unanswered = left.len();
    let done: Vec<KnownRecipe> =
        all.iter().filter(|one| one.answer.is_some()).map(|one| one.known()).collect();
    vec![Effect::work(RecipeAnswersJob { number: recipes.question, kept, left, done })]
}

fn answered(state: &mut State, number: u64, new: &[Arc<potset_catalogue::recipes::Recipe>]) {
    let recipes = &mut state.recipes;
    if number != recipes.question {
        return;
    }
    for one in new {
        if let Some(place) =
            recipes.listed.list.iter_mut().find(|old| old.file == one.file && old.stamp == one.stamp)
        {
            *place = Arc::clone(one);
        }
    }
    recipes.unanswered = recipes.unanswered.saturating_sub(new.len());
    recipes.number += 1;
}

/// What a change is called, and what takes it back.
fn back(state: &State, change: &RecipeChange, to: &RecipeTo) -> Option<(String, RecipeChange)> {
    let recipe = |file: &str| state.recipes.recipe(file);
    let name = |file: &str| recipe(file).map_or_else(|| file.to_owned(), |one| one.summary.name.clone());
    Some(match (change, to) {
        (RecipeChange::Rename(file, _), RecipeTo::File(new)) => {
            (format!("Renamed {}", name(file)), RecipeChange::Rename(new.clone(), name(file)))
        }
        (RecipeChange::Tags(file, _), _) => {
            let tags = recipe(file)?.summary.tags.clone();
            (format!("Changed the tags of {}", name(file)), RecipeChange::Tags(file.clone(), tags))
        }
        (RecipeChange::Stars(file, _), _) => {
            let stars = recipe(file)?.record.stars;
            (format!("Changed the stars of {}", name(file)), RecipeChange::Stars(file.clone(), stars))
        }
        (RecipeChange::Made(file, _), _) => {
            let made = recipe(file)?.record.made.clone();
            (format!("Changed when {} was made", name(file)), RecipeChange::Made(file.clone(), made))
        }
        (RecipeChange::Duplicate(file), RecipeTo::File(new)) => {
            (format!("Duplicated {}", name(file)), RecipeChange::ThrowAway(new.clone()))
        }
        (RecipeChange::ThrowAway(file), RecipeTo::Bin(number)) => {
            (format!("Moved {} to the bin", name(file)), RecipeChange::PutBack(*number))
        }
        (RecipeChange::PutBack(_), RecipeTo::File(file)) => {
            ("Put a recipe back".to_owned(), RecipeChange::ThrowAway(file.clone()))
        }
        (RecipeChange::Restore(file, number), _) => {
            let (_, versions) = state.recipes.versions.as_ref()?;
            let last = versions.first()?.number;
            let words = format!("Put version {number} of {} back", name(file));
            (words, RecipeChange::Restore(file.clone(), last))
        }
        _ => return None,
    })
}

fn changed(state: &mut State, change: &RecipeChange, done: Result<RecipeTo, Note>) -> Vec<Effect> {
    let to = match done {
        Ok(to) => to,
        Err(note) => {
            state.refused = Some(note);
            return Vec::new();
        }
    };
    let back = back(state, change, &to);
    state.said = back.as_ref().map(|(words, _)| words.clone());
    state.recipes.undo = back;
    match (change, &to) {
        (
            RecipeChange::Rename(..) | RecipeChange::Duplicate(_) | RecipeChange::PutBack(_),
            RecipeTo::File(file),
        ) => {
            state.recipes.open = Some(file.clone());
            state.recipes.page = RecipesPage::Kept;
        }
        (RecipeChange::ThrowAway(_), _) => state.recipes.open = None,
        _ => {}
    }
    let mut effects = Vec::new();
    // What lies on the bench as it was saved is put back there, too.
    if let RecipeChange::Restore(file, _) | RecipeChange::Tags(file, _) = change
        && state.is_on_bench(file)
        && !state.session.history.unsaved()
        && let Some(path) = state.session.path.clone()
    {
        effects.push(DiskEffect::Read(path).into());
    }
    effects.extend(list(state));
    effects.extend(versions(state));
    effects.extend(bin(state));
    effects
}

fn bin(state: &State) -> Vec<Effect> {
    state.library().map(|library| Effect::work(BinJob::Recipes(library))).into_iter().collect()
}

/// Notes that a recipe was made on the day that it is now.
fn made_today(state: &mut State, file: String) -> Vec<Effect> {
    let (Some(now), Some(one)) = (state.now, state.recipes.recipe(&file)) else { return Vec::new() };
    let mut made = one.record.made.clone();
    made.push(now.day());
    made.sort();
    vec![DiskEffect::Recipe(RecipeChange::Made(file, made)).into()]
}

fn copy(state: &mut State, other: PathBuf, out: bool) -> Vec<Effect> {
    let Some(library) = state.library() else { return Vec::new() };
    vec![Effect::work(CopyRecipesJob { library, other, out })]
}

/// What came of copying, said.
fn told(state: &mut State, (other, out): (PathBuf, bool), copied: Result<Copied, Note>) -> Vec<Effect> {
    match copied {
        Ok(done) => {
            let way = if out { "copied to" } else { "copied from" };
            let there = match done.there {
                0 => String::new(),
                n => format!(", {n} were there already"),
            };
            let left = match done.left.len() {
                0 => String::new(),
                n => format!(", {n} could not be read"),
            };
            state.said = Some(format!("{} recipes {way} {}{there}{left}", done.copied, other.display()));
            for note in done.left {
                tell(state, note);
            }
        }
        Err(note) => state.refused = Some(note),
    }
    if out { Vec::new() } else { list(state) }
}
