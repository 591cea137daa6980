//! Actions of the table.

use super::bench::change;
use super::{asked, close_dialog, files, pantry};
use crate::action::Action;
use crate::batches::BatchesPage;
use crate::card::CardFile;
use crate::command::{
    AimCommand, BatchesCommand, BesideCommand, CardCommand, ClassCommand, RecipesCommand, WindowCommand,
};
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::shelves::{PantryPage, PantryState};
use crate::state::{Dialog, State, Then, View};
use potset_base::units::Degrees;
use potset_doc::settings::{Depth, Theme};
use potset_doc::{Edit, Kitchen};

/// Carries out an action, if it can be done now.
pub fn act(state: &mut State, action: Action) -> Vec<Effect> {
    if action.disabled_reason(state).is_some() {
        return Vec::new();
    }
    if let Some(set) = action.spoons() {
        return change(state, &Edit::Spoons(set), None);
    }
    if let Some(i) = action.setting() {
        return super::update(state, AimCommand::Take(i));
    }
    match action {
        Action::New => files::first_ask(state, Then::New),
        Action::Open => files::first_ask(state, Then::Ask),
        Action::Save | Action::SaveAs => save(state, action == Action::SaveAs),
        Action::Undo if state.view == View::Pantry => shelves(state, PantryState::undo),
        Action::Redo if state.view == View::Pantry => shelves(state, PantryState::redo),
        Action::Undo if state.view == View::Recipes => super::update(state, RecipesCommand::Undo),
        Action::Undo if state.view == View::Batches => super::update(state, BatchesCommand::Undo),
        Action::Undo if state.view == View::Class => super::update(state, ClassCommand::PutBack),
        Action::Undo => {
            state.session.history.undo();
            moved(state)
        }
        Action::Redo => {
            state.session.history.redo();
            moved(state)
        }
        Action::Find => window(state, Dialog::Find),
        Action::MyPot => window(state, Dialog::MyPot),
        Action::Tour => {
            state.tour = Some(0);
            go(state, View::Bench)
        }
        Action::Guide => window(state, Dialog::Guide),
        Action::Words => window(state, Dialog::Words),
        Action::Kitchen => window(state, Dialog::Kitchen),
        Action::ShowCelsius | Action::ShowFahrenheit => degrees(state, action),
        Action::Numbers => window(state, Dialog::Numbers),
        Action::Cautions => window(state, Dialog::Cautions),
        Action::Keys => window(state, Dialog::Keys),
        Action::NextPots => {
            window(state, Dialog::NextPots);
            // Its pots are not in the answer that is shown.
            if state.asked_line().is_some() { asked(state) } else { Vec::new() }
        }
        Action::LightTheme | Action::DarkTheme | Action::SystemTheme => theme(state, action),
        Action::ShowPlain | Action::ShowDetails => depth(state, action),
        Action::ZoomIn => zoom(state, 0.125),
        Action::ZoomOut => zoom(state, -0.125),
        Action::ZoomReset => super::update(state, WindowCommand::Zoom(1.0)),
        Action::UnfoldAll => {
            state.settings.folded.clear();
            vec![DiskEffect::SaveSettings.into()]
        }
        Action::Spread => spread(state),
        Action::CopyNumbers => copy_numbers(state),
        Action::Bench => go(state, View::Bench),
        Action::Beside => go(state, View::Beside),
        Action::Aim => go(state, View::Aim),
        Action::Recipes => go(state, View::Recipes),
        Action::Card => go(state, View::Card),
        Action::Pantry => go(state, View::Pantry),
        Action::Batches => go(state, View::Batches),
        Action::Mishap => go(state, View::Mishap),
        Action::Class => go(state, View::Class),
        Action::StillMotion => super::update(state, ClassCommand::Still(!state.settings.still)),
        Action::BeginPot => super::update(state, BatchesCommand::Begin(None)),
        Action::ReadLogger => super::update(state, BatchesCommand::AskLogger),
        Action::Learn => learn(state),
        Action::LookForSettings => look(state),
        Action::StopLooking => super::update(state, AimCommand::Stop),
        Action::ShowSettings => super::update(state, AimCommand::OnBench(true)),
        Action::CopySettings => {
            state.aims.text(&state.learnt).map(|text| ScreenEffect::Copy(text).into()).into_iter().collect()
        }
        Action::AddBeside => vec![ScreenEffect::AskAdd.into()],
        Action::KeepBeside => super::update(state, BesideCommand::AddCopy),
        Action::ExportTable | Action::ExportPicture => {
            super::update(state, BesideCommand::AskExport(action == Action::ExportPicture))
        }
        Action::CopyBeside => copy_beside(state),
        Action::DuplicateAndChange => {
            let id = state.columns.list[state.columns.bench()].id;
            super::update(state, BesideCommand::Duplicate(id))
        }
        Action::ExportCard => super::update(state, CardCommand::AskExport(CardFile::Card, "pdf")),
        Action::ImportRecipes | Action::ExportRecipes => bring(state, action == Action::ExportRecipes),
        Action::ReadLabel => pantry_page(state, PantryPage::Label),
        Action::MakeBase => pantry_page(state, PantryPage::Making),
        Action::TakeIn => vec![ScreenEffect::AskTakeIn.into()],
        Action::Quit => files::first_ask(state, Then::Quit),
        Action::TakeSetting1
        | Action::TakeSetting2
        | Action::TakeSetting3
        | Action::MetricSpoons
        | Action::AustralianSpoons
        | Action::UnitedStatesSpoons
        | Action::ImperialSpoons => Vec::new(),
    }
}

/// Looks for settings, and shows what is found.
fn look(state: &mut State) -> Vec<Effect> {
    let mut effects = go(state, View::Aim);
    effects.extend(super::update(state, AimCommand::Start));
    effects
}

/// Works out what pots taught, and shows it.
fn learn(state: &mut State) -> Vec<Effect> {
    state.batches.page = BatchesPage::Taught;
    let mut effects = go(state, View::Batches);
    effects.extend(super::update(state, BatchesCommand::Learn));
    effects
}

/// Shows a page of the pantry.
fn pantry_page(state: &mut State, page: PantryPage) -> Vec<Effect> {
    pantry::turn_to(state, page);
    go(state, View::Pantry)
}

fn go(state: &mut State, view: View) -> Vec<Effect> {
    super::update(state, WindowCommand::Show(view))
}

/// Asks for the folder that recipes are copied from, or into.
fn bring(state: &mut State, out: bool) -> Vec<Effect> {
    super::update(state, if out { RecipesCommand::AskExport } else { RecipesCommand::AskImport })
}

fn save(state: &mut State, elsewhere: bool) -> Vec<Effect> {
    // A save that was asked for by closing, and given up since, closes nothing now.
    state.after_save = None;
    if elsewhere { files::ask_save(state) } else { files::save(state) }
}

fn copy_beside(state: &State) -> Vec<Effect> {
    vec![ScreenEffect::Copy(potset_export::beside::tabs(&state.columns.told.beside)).into()]
}

fn theme(state: &mut State, action: Action) -> Vec<Effect> {
    let theme = match action {
        Action::LightTheme => Theme::Light,
        Action::DarkTheme => Theme::Dark,
        _ => Theme::System,
    };
    super::update(state, WindowCommand::Theme(theme))
}

fn depth(state: &mut State, action: Action) -> Vec<Effect> {
    let depth = if action == Action::ShowPlain { Depth::Plain } else { Depth::Details };
    super::update(state, WindowCommand::Depth(depth))
}

/// Has the kitchen say warmth so.
fn degrees(state: &mut State, action: Action) -> Vec<Effect> {
    let fahrenheit = action == Action::ShowFahrenheit;
    let degrees = if fahrenheit { Degrees::Fahrenheit } else { Degrees::Celsius };
    let kitchen = Kitchen { degrees, ..state.kitchen.clone() };
    super::update(state, WindowCommand::Kitchen(kitchen))
}

/// Shows the spread, or hides it.
fn spread(state: &mut State) -> Vec<Effect> {
    state.settings.spread = !state.settings.spread;
    state.doubt.number += 1;
    vec![DiskEffect::SaveSettings.into()]
}

/// A change of the maker's pantry taken back, or made again.
fn shelves(state: &mut State, go: fn(&mut PantryState) -> bool) -> Vec<Effect> {
    if go(&mut state.shelves) { pantry::renewed(state) } else { Vec::new() }
}

fn moved(state: &mut State) -> Vec<Effect> {
    state.ghost = None;
    let mut effects = asked(state);
    let unsaved = state.session.history.unsaved();
    effects.push(if unsaved { DiskEffect::KeepRecovery } else { DiskEffect::DropRecovery }.into());
    effects
}

fn copy_numbers(state: &State) -> Vec<Effect> {
    let f = &state.answer.forecast;
    // Bands of the design as it was do not go with the curves of the one that is.
    let spread = state.doubt.shown().filter(|_| state.doubt.current(state.question));
    let times = potset_export::csv::times(0.5, f.horizon_h);
    let table = potset_export::csv::forecast(f, state.answer.facts.acidity_at_line, spread, &times);
    vec![ScreenEffect::Copy(table.replace(',', "\t")).into()]
}

fn window(state: &mut State, dialog: Dialog) -> Vec<Effect> {
    if state.dialog == dialog {
        close_dialog(state);
    } else {
        state.dialog = dialog;
    }
    Vec::new()
}

fn zoom(state: &mut State, by: f32) -> Vec<Effect> {
    super::update(state, WindowCommand::Zoom(state.settings.zoom + by))
}
