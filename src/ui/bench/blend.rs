//! Blends in the base card: shares in percent of the volume with locks, and the fat or protein to be reached.

use egui::{IdSalt, Ui};

use super::hand::{EditContext, Row};
use super::shelf::numbered;
use potset_base::number;
use potset_catalogue::mixing_square::{self, Figure};
use potset_doc::pantry::EntryKind;
use potset_doc::{Design, Edit};
use potset_forecast::lever::{self, spans};
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::{lever as lever_row, wrapped};
use potset_ui_kit::{fonts, tokens};

/// The share of a base, with its lock.
pub fn share(ui: &mut Ui, hand: &mut EditContext<'_>, i: usize) {
    let design = hand.state.design();
    let Some(line) = design.bases.get(i) else { return };
    let total = design.litres();
    let (low, high) = lever::share_room(design, i);
    let name = numbered("Share", i);
    let saved = |d: &Design| d.bases.get(i).map(|b| 100.0 * b.litres / d.litres());
    let row = Row {
        hover: "Percent of the volume of all bases. The total litres stay. The other bases follow, except locked ones"
            .to_owned(),
        ..Row::new(&name, &spans::SHARE, 100.0 * line.litres / total, hand.saved().and_then(saved))
    };
    let at = ui.cursor().left_top();
    let width = ui.available_width();
    ui.add_enabled_ui(low < high, |ui| {
        hand.lever(ui, &row, |v| Edit::BaseShare(i, (v / 100.0).clamp(low, high)));
    });
    let mut lock = line.locked;
    let place = lever_row::beside(at, width);
    let place = egui::UiBuilder::new()
        .id_salt(("lock", i))
        .max_rect(place)
        .layout(egui::Layout::right_to_left(egui::Align::Center));
    let mut place = ui.new_child(place);
    place.spacing_mut().interact_size.y = 16.0;
    let response = tick(&mut place, &mut lock, numbered("Lock", i));
    if response.on_hover_text("Its share stays while another is moved").changed() {
        hand.edit(Edit::BaseLock(i, lock));
    }
}

/// What the bases hold together, and a blend of two of them that holds something else.
pub fn reach(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let design = state.design();
    let t = tokens::of(ui);
    let held = |figure| mixing_square::held(design, &state.pantry, figure).unwrap_or(f64::NAN);
    let (fat, protein) = (held(Figure::Fat), held(Figure::Protein));
    let words = format!(
        "Bases together: {} g fat, {} g protein in 100 g",
        number::fixed(fat, 1),
        number::fixed(protein, 1)
    );
    wrapped(ui, &words, fonts::regular(tokens::SMALL), t.ink_soft);
    let mut reach = hand.view.reach;
    let count = design.bases.len();
    if reach.pair.0 >= count || reach.pair.1 >= count {
        reach.pair = (0, 1);
    }
    // What is to be reached stays as it was first shown: it must not move while a lever is dragged.
    let wanted = reach.wanted.unwrap_or_else(|| (held(reach.figure) * 10.0).round() / 10.0);
    reach.wanted = Some(wanted).filter(|w| w.is_finite());
    ui.horizontal(|ui| {
        let names = ["Reach a fat of", "Reach a protein of"];
        let now = Figure::ALL.iter().position(|f| *f == reach.figure).unwrap_or(0);
        let salt = IdSalt::new("what to reach");
        if let Some(picked) = picker(ui, salt, "What to reach", names[now], &names) {
            reach.figure = Figure::ALL[picked];
            reach.wanted = None;
        }
        let number = Number {
            name: "Value to reach",
            unit: "g/100 g",
            value: wanted,
            range: 0.0..=100.0,
            decimals: 2,
            speed: 0.1,
            hover: "Of all bases together, before sugar and thickener. Label figures go before those of the pantry",
        };
        if let Some(value) = number.show(ui).value {
            reach.wanted = Some(value);
        }
        let hover = "Sets the litres of the two bases to reach this value. The total litres stay (mixing square)";
        if ui.button("Blend").on_hover_text(hover).clicked() {
            match mixing_square::blend(design, &state.pantry, reach.pair, reach.figure, wanted) {
                Ok(edit) => hand.edit(edit),
                Err(note) => hand.tell(note),
            }
        }
    });
    if count > 2 {
        reach.pair = pair(ui, hand, reach.pair);
    }
    hand.view.reach = reach;
}

/// Which two are blended, where there are more.
fn pair(ui: &mut Ui, hand: &EditContext<'_>, pair: (usize, usize)) -> (usize, usize) {
    let state = hand.state;
    let design = state.design();
    let names: Vec<String> = (design.bases.iter().enumerate())
        .map(|(i, line)| {
            let name = design.name_of(&state.pantry, EntryKind::Base, &line.entry);
            format!("{} {name}", i + 1)
        })
        .collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let (mut first, mut second) = pair;
    for (words, name, which) in
        [("of", "First of the blend", &mut first), ("and", "Second of the blend", &mut second)]
    {
        ui.horizontal(|ui| {
            ui.label(words);
            if let Some(picked) = picker(ui, IdSalt::new(name), name, names[*which], &names) {
                *which = picked;
            }
        });
    }
    (first, second)
}
