//! The window around the views: what is shown, how it looks, what is said in it.

use super::{asked, close_dialog, tell};
use crate::command::WindowCommand;
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::jobs::used::LookThroughJob;
use crate::state::{Dialog, State, View};

/// Largest and smallest zoom.
pub const ZOOM: std::ops::RangeInclusive<f32> = 0.75..=2.5;

/// Commands of the window.
pub fn window(state: &mut State, command: WindowCommand) -> Vec<Effect> {
    match command {
        WindowCommand::Show(view) => return show(state, view),
        WindowCommand::Explain(reading, t_h) => state.dialog = Dialog::Explain(reading, t_h),
        WindowCommand::CloseDialog => close_dialog(state),
        WindowCommand::Copy(text) => return vec![ScreenEffect::Copy(text).into()],
        WindowCommand::Theme(theme) => {
            state.settings.theme = theme;
            return vec![DiskEffect::SaveSettings.into()];
        }
        WindowCommand::Zoom(zoom) => {
            state.settings.zoom = zoom.clamp(*ZOOM.start(), *ZOOM.end());
            return vec![DiskEffect::SaveSettings.into()];
        }
        WindowCommand::Depth(depth) => {
            state.settings.depth = depth;
            return vec![DiskEffect::SaveSettings.into()];
        }
        WindowCommand::Tour(place) => {
            state.tour = place;
            if place.is_none() && !state.settings.toured {
                state.settings.toured = true;
                return vec![DiskEffect::SaveSettings.into()];
            }
        }
        WindowCommand::Fold(key) => return fold(state, key),
        WindowCommand::Kitchen(kitchen) => {
            if kitchen != state.kitchen {
                state.kitchen = kitchen;
                let mut effects = asked(state);
                effects.push(DiskEffect::SaveKitchen.into());
                return effects;
            }
        }
        WindowCommand::Failed(note) => return tell(state, note),
        WindowCommand::Dismiss(i) => {
            if i < state.notices.len() {
                state.notices.remove(i);
            }
        }
        WindowCommand::ShowRefusal(note) => state.refused = Some(note),
        WindowCommand::DismissRefusal => state.refused = None,
        WindowCommand::Said(words) => state.said = Some(words),
    }
    Vec::new()
}

/// Shows a view, and asks what it needs.
pub fn show(state: &mut State, view: View) -> Vec<Effect> {
    let new = state.view != view;
    if new && view == View::Class {
        state.came_from = state.view;
    }
    state.view = view;
    state.refused = None;
    match view {
        // It looks through the designs at hand, to tell where entries are used.
        View::Pantry if new => {
            let paths = state.settings.recent.iter().map(Into::into).collect();
            return vec![Effect::work(LookThroughJob(paths))];
        }
        View::Beside if new => return super::beside::shown(state),
        View::Aim if new => super::aims::arrive(state),
        View::Recipes if new => return super::listing::list(state),
        View::Card if new => return super::card::shown(state),
        View::Batches if new => return super::batches::shown(state),
        View::Mishap if new => super::mishap::shown(state),
        View::Bench
        | View::Beside
        | View::Aim
        | View::Card
        | View::Recipes
        | View::Pantry
        | View::Batches
        | View::Mishap
        | View::Class => {}
    }
    Vec::new()
}

/// Folds a strip, or unfolds it.
fn fold(state: &mut State, key: &str) -> Vec<Effect> {
    let folded = &mut state.settings.folded;
    if folded.iter().any(|k| k == key) {
        folded.retain(|k| k != key);
    } else {
        folded.push(key.to_owned());
    }
    vec![DiskEffect::SaveSettings.into()]
}
