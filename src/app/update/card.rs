//! The Card view: the card, another amount, the clock, the packet, and the pots under way.

use std::path::PathBuf;
use std::sync::Arc;

use super::bench::change;
use super::tell;
use crate::book::BookChange;
use crate::card::{CardFile, ScaleKind, Told};
use crate::columns::Holds;
use crate::command::{BenchCommand, CardCommand};
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::jobs::card::{CardJob, CardQuestion};
use crate::jobs::card_file::CardFileJob;
use crate::session::Outside;
use crate::state::State;
use potset_doc::batch::change::BatchChange;
use potset_doc::pantry::Base;
use potset_store::library::file_name;

/// Commands of the Card view.
pub fn card(state: &mut State, command: CardCommand) -> Vec<Effect> {
    match command {
        CardCommand::Page(page) => {
            state.card.page = page;
            shown(state)
        }
        CardCommand::Wish(mut wish) => {
            // Another kind of amount begins at what there is now.
            if wish.scale != state.card.wish.scale {
                wish.count = count_now(state, wish.scale);
            }
            state.card.wish = wish;
            shown(state)
        }
        CardCommand::Told(number, told) => {
            if number == state.card.question {
                state.card.answered = number;
                state.card.told = Some(told);
            }
            Vec::new()
        }
        CardCommand::UseScaled => {
            let told = state.card.told.clone();
            let Some(Ok(Told::Scale(scaled))) = told.as_deref() else { return Vec::new() };
            let edit = scaled.edit.clone();
            let mut effects = change(state, &edit, None);
            effects.extend(super::update(state, BenchCommand::EndGesture));
            effects
        }
        CardCommand::Begin => {
            let told = state.card.told.clone();
            let Some(Ok(Told::Clock(clock))) = told.as_deref() else { return Vec::new() };
            vec![DiskEffect::Book(BookChange::Begin(clock.pot.clone())).into()]
        }
        CardCommand::CultureIn(i) => {
            let Some(now) = state.now else { return Vec::new() };
            changed(state, i, BatchChange::CultureIn(now.text(), state.zone.name().to_owned()))
        }
        CardCommand::End(i) => changed(state, i, BatchChange::Ended(true)),
        CardCommand::AskExport(what, ending) => {
            vec![ScreenEffect::AskCard(what, format!("{}.{ending}", stem(state, what))).into()]
        }
        CardCommand::ExportTo(what, path) => export(state, what, path, false),
        CardCommand::Print(what) => match &state.aside {
            Some(folder) => {
                export(state, what, folder.join("print").join(format!("{}.pdf", stem(state, what))), true)
            }
            None => Vec::new(),
        },
        CardCommand::Exported(path, Ok(())) => {
            state.said = Some(format!("Written to {}", path.display()));
            Vec::new()
        }
        CardCommand::Exported(_, Err(note)) => tell(state, note),
    }
}

/// Changes a pot under way.
fn changed(state: &State, i: usize, change: BatchChange) -> Vec<Effect> {
    let Some(pot) = state.card.running.get(i) else { return Vec::new() };
    vec![DiskEffect::Book(BookChange::Change(pot.file.clone(), vec![change])).into()]
}

/// What the open page asks.
fn question(state: &State) -> CardQuestion {
    let recipe = state.library().and_then(|library| {
        let file = library.file_of(state.session.path.as_ref()?)?;
        // What was changed since it was saved is no version yet.
        let saved = !state.session.history.unsaved() && state.session.outside == Outside::Untouched;
        saved.then_some((library, file))
    });
    let others = state.columns.list.iter().filter_map(|column| match &column.holds {
        Holds::Kept(session, _) => Some(Arc::clone(session.history.design())),
        Holds::Bench | Holds::Case(_) => None,
    });
    CardQuestion {
        number: state.card.question,
        scenario: state.owned_scenario(),
        spread: state.doubt.spread.clone().filter(|s| state.doubt.current(state.question) && s.complete()),
        page: state.card.page,
        wish: state.card.wish.clone(),
        recipe,
        zone: state.zone.clone(),
        now: state.now,
        running: state.card.running.clone(),
        others: others.collect(),
    }
}

/// How many of a kind the design makes now.
fn count_now(state: &State, kind: ScaleKind) -> f64 {
    let design = state.design();
    match kind {
        ScaleKind::Jars => f64::from(design.pots.count),
        ScaleKind::Packs => {
            let base = design.bases.first();
            let entry = base.and_then(|base| design.entry::<Base>(&state.pantry, &base.entry));
            let pack = base.and_then(|base| base.with_pack(entry, &state.pantry).pack);
            let packs = base.zip(pack).map_or(1.0, |(base, pack)| 1000.0 * base.litres / pack.ml);
            packs.round().max(1.0)
        }
        ScaleKind::Servings => state.answer.nutrition.servings.round().max(1.0),
        ScaleKind::Litres | ScaleKind::Packet | ScaleKind::Warmer => design.litres(),
    }
}

/// Asks what the open page shows.
pub fn shown(state: &mut State) -> Vec<Effect> {
    if state.card.question == 0 {
        state.card.wish.count = count_now(state, state.card.wish.scale);
        let steps = &state.design().steps;
        if let Some(c) = potset_doc::culture_in::temperature(steps) {
            state.card.wish.to_c = c;
        }
    }
    state.card.question += 1;
    vec![Effect::work(CardJob(question(state)))]
}

/// The name of a file of this design, without its ending.
fn stem(state: &State, what: CardFile) -> String {
    let name = file_name(&state.design().name);
    let name = name.strip_suffix(".ron").unwrap_or(&name).to_owned();
    match what {
        CardFile::Card => name,
        CardFile::Leaflet => format!("{name}-leaflet"),
        CardFile::Labels(_) => format!("{name}-labels"),
    }
}

fn export(state: &State, what: CardFile, path: PathBuf, open: bool) -> Vec<Effect> {
    vec![Effect::work(CardFileJob { question: question(state), path, what, open })]
}
