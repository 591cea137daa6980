//! Only what I have: the entries that may be in the pot, as a list to add to and take off from.

use egui::Ui;

use super::add::{Choice, add};
use potset_app::command::AimCommand;
use potset_app::{Command, State};
use potset_doc::Design;
use potset_doc::pantry::EntryKind;
use potset_search::aim::Want;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::tick::tick;

/// What the design is made of.
fn keys_of(design: &Design) -> Vec<String> {
    let lines = design.bases.iter().map(|l| &l.entry).chain(design.sugars.iter().map(|l| &l.entry));
    let lines = lines.chain(design.thickeners.iter().map(|l| &l.entry));
    let lines = lines.chain(design.additives.iter().map(|l| &l.entry));
    let mut keys: Vec<String> = lines.chain(design.cultures.iter().map(|l| &l.entry)).cloned().collect();
    keys.sort();
    keys.dedup();
    keys
}

/// Draws the card.
pub fn card(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let old = &state.aims.wants;
    let mut wants = old.clone();
    let at = wants.iter().position(|w| matches!(w, Want::Only(_)));
    Card::new("What I have").show(ui, |ui| {
        let mut on = at.is_some();
        if tick(ui, &mut on, "Use only what I have").changed() {
            match at {
                Some(i) => {
                    wants.remove(i);
                }
                None => wants.push(Want::Only(keys_of(state.design()))),
            }
        } else if let Some(Want::Only(keys)) = at.and_then(|i| wants.get_mut(i)) {
            list(ui, state, keys);
        }
    });
    if wants != *old {
        out.push(AimCommand::Wants(wants).into());
    }
}

fn list(ui: &mut Ui, state: &State, keys: &mut Vec<String>) {
    let name = |key: &str| {
        let found = EntryKind::EATEN.iter().find_map(|k| {
            let own = state.design().snapshot.entry(*k, key);
            own.or_else(|| state.pantry.entry(*k, key)).map(|e| e.name().to_owned())
        });
        found.unwrap_or_else(|| key.to_owned())
    };
    let mut gone = None;
    for (i, key) in keys.iter().enumerate() {
        ui.horizontal(|ui| {
            let name = name(key);
            let off = ui.small_button("×").on_hover_text(format!("Remove {name} from the list"));
            off.widget_info(|| {
                let said = format!("Remove {name} from the list");
                egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, said)
            });
            if off.clicked() {
                gone = Some(i);
            }
            ui.add(egui::Label::new(name).truncate());
        });
    }
    if let Some(i) = gone {
        keys.remove(i);
    }
    let mut others: Vec<Choice<'_>> = Vec::new();
    for kind in EntryKind::EATEN {
        let left = state.pantry.entries(kind).into_iter().filter(|e| !keys.iter().any(|k| k == e.key()));
        others.extend(left.map(|e| Choice {
            key: e.key(),
            name: e.name(),
            kind: kind.one(),
            aliases: e.aliases(),
        }));
    }
    others.sort_by_key(|c| c.name.to_lowercase());
    if let Some(i) = add(ui, "Add to what I have", "Add an entry…", &others) {
        keys.push(others[i].key.to_owned());
    }
}
