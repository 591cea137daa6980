//! The folder of the house recipes read, and the versions of the open one.

use std::hash::{DefaultHasher, Hash, Hasher};

use crate::effect::Effect;
use crate::jobs::recipes::{Kept, RecipesJob, VersionsJob};
use crate::state::State;
use potset_doc::format;

/// What all jobs about the folder hang on.
pub fn kept(state: &State) -> Option<Kept> {
    let library = state.library()?;
    let list = state.aside.as_ref().map(|folder| folder.join("recipes.known"));
    Some(Kept { library, scenario: state.owned_scenario(), list, of: hangs_on(state) })
}

/// What the answers of recipes hang on besides their files, as a few signs.
fn hangs_on(state: &State) -> String {
    let mut hash = DefaultHasher::new();
    let own = format::write(&*state.shelves.own).unwrap_or_default();
    let kitchen = format::write(&state.kitchen).unwrap_or_default();
    (env!("CARGO_PKG_VERSION"), own, kitchen, state.settings.recipes.as_ref()).hash(&mut hash);
    format!("{:?} {:016x}", state.learnt, hash.finish())
}

/// Reads the folder, if there is one.
pub fn list(state: &mut State) -> Vec<Effect> {
    let Some(kept) = kept(state) else { return Vec::new() };
    state.recipes.question += 1;
    state.recipes.trouble = None;
    let shown = state.recipes.listed.list.clone();
    vec![Effect::work(RecipesJob::new(state.recipes.question, kept, shown))]
}

/// The versions of the open recipe.
pub fn versions(state: &mut State) -> Vec<Effect> {
    state.recipes.versions = None;
    let (Some(file), Some(kept)) = (state.recipes.open.clone(), kept(state)) else { return Vec::new() };
    vec![Effect::work(VersionsJob { file, kept, zone: state.zone.clone() })]
}
