//! The table of trade-offs: what the settings give against each other and against the design as it is.

use egui::Ui;

use crate::views::beside::tables::{Cell, row, rule};
use potset_app::State;
use potset_app::aims::TargetResult;
use potset_doc::settings::Depth;
use potset_report::aim::{chance_name, chances, trade_offs};
use potset_search::aim::Proposal;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Draws the table of some settings.
pub fn show(ui: &mut Ui, state: &State, aimed: &TargetResult, all: &[Proposal]) {
    if all.is_empty() {
        return;
    }
    let plain = state.settings.depth == Depth::Plain;
    let mut rows = trade_offs(&aimed.now, all);
    rows.retain(|line| !plain || !line.is_laboratory());
    Card::new("Trade-offs").quiet("bold: a person would notice").show(ui, |ui| {
        if rows.is_empty() {
            let t = tokens::of(ui);
            wrapped(ui, "A person would notice no difference", fonts::regular(tokens::BODY), t.ink_soft);
        }
        let counted = all.iter().any(|p| p.chance.spread());
        if rows.is_empty() && !counted {
            return;
        }
        let mut head = vec![Cell { text: "as it is".to_owned(), soft: true, ..Cell::default() }];
        // What is shown where nothing reaches it is no setting of those that were looked for.
        let name = |i: usize| match aimed.found.blocked {
            Some(_) => "the one above".to_owned(),
            None => format!("setting {i}"),
        };
        head.extend((1..=all.len()).map(|i| Cell { text: name(i), soft: true, ..Cell::default() }));
        row(ui, "", &head);
        for line in &rows {
            rule(ui);
            // In Plain a texture is its word; the number behind it is a laboratory's.
            let word = |place: usize| if plain { line.word(place).map(str::to_owned) } else { None };
            let told = |d: f64| {
                if line.outcome.in_words() && plain {
                    String::new()
                } else {
                    line.outcome.difference_words(d)
                }
            };
            let now = word(0).unwrap_or_else(|| line.now_words());
            let mut cells = vec![Cell { text: now, ..Cell::default() }];
            cells.extend(line.then.iter().enumerate().map(|(i, v)| Cell {
                text: word(i + 1).unwrap_or_else(|| line.then_words(i)),
                below: line.difference(i).map_or_else(String::new, told),
                strong: line.noticed[i] && line.outcome.shows_notice(),
                soft: v.is_none(),
            }));
            row(ui, &line.name(), &cells);
        }
        if counted {
            rule(ui);
            let own = aimed.found.as_is.as_ref().and_then(|own| own.chance.as_ref());
            let chances = std::iter::once(own).chain(all.iter().map(|p| Some(&p.chance)));
            let cells: Vec<Cell> =
                chances.map(|c| Cell { text: chances::cell(c), ..Cell::default() }).collect();
            row(ui, chance_name(&aimed.found), &cells);
        }
    });
}
