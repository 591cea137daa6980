//! The goals card: what the maker wants, and which goals hold at the stop.

use egui::{IdSalt, RichText, Ui};

use super::hand::EditContext;
use potset_base::words::{TangWord, TextureWord};
use potset_doc::Edit;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::{fonts, tokens};

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let t = tokens::of(ui);
    let states = &hand.state.answer.verdict.goals;
    let hold = states.iter().filter(|(_, holds)| *holds).count();
    let quiet = format!("{hold} of {} hold at the stop", states.len());
    let names: Vec<String> =
        states.iter().map(|(name, holds)| format!("{} {name}", if *holds { "✓" } else { "✗" })).collect();
    let goals = hand.design().goals.clone();
    Card::new("Goals").quiet(&quiet).show(ui, |ui| {
        let line = RichText::new(names.join("  ·  ")).font(fonts::regular(tokens::SMALL + 1.0)).color(t.ink);
        ui.add(egui::Label::new(line).wrap());
        egui::CollapsingHeader::new(RichText::new("Change the goals").color(t.ink_soft))
            .id_salt("goals")
            .show(ui, |ui| {
                let mut new = goals.clone();
                words(ui, "Texture", (&TextureWord::ALL, TextureWord::word), &mut new.texture);
                words(ui, "Tang", (&TangWord::ALL, TangWord::word), &mut new.tang);
                limit(ui, "pH at most", &mut new.ph_at_most, (3.6..=4.6, 4.4, 2, ""));
                limit(
                    ui,
                    "Sugar left at most",
                    &mut new.sugar_left_at_most,
                    (0.0..=60.0, 15.0, 1, "\u{a0}g/L"),
                );
                limit(ui, "Whey at most", &mut new.whey_at_most, (0.0..=20.0, 3.0, 1, "\u{a0}%"));
                limit(
                    ui,
                    "Thin layer at most",
                    &mut new.thin_layer_at_most,
                    (0.0..=60.0, 10.0, 0, "\u{a0}%"),
                );
                let mut frail = new.frail_eaters;
                if tick(ui, &mut frail, "For the very young, old, pregnant or ill").changed() {
                    new.frail_eaters = frail;
                }
                if new != goals {
                    hand.edit(Edit::Goals(new));
                }
            });
    });
}

/// Range, first value, decimals and unit of a limit.
type Limit = (std::ops::RangeInclusive<f64>, f64, usize, &'static str);

/// A limit that may be set or left open.
fn limit(ui: &mut Ui, name: &str, value: &mut Option<f64>, (range, first, decimals, unit): Limit) {
    ui.horizontal(|ui| {
        let mut on = value.is_some();
        let box_ = tick(ui, &mut on, name);
        if box_.changed() {
            *value = on.then_some(first);
        }
        if let Some(number) = value {
            let typed = Number { name, unit, value: *number, range, decimals, speed: 0.02, hover: "" };
            if let Some(v) = typed.show(ui).value {
                *number = v;
            }
        }
    });
}

/// The first and the last word that a goal lets in; a goal that is not set lets in all.
fn words<W: Copy + PartialEq>(
    ui: &mut Ui,
    name: &str,
    (all, word): (&[W], fn(W) -> &'static str),
    goal: &mut Option<(W, W)>,
) {
    let words: Vec<&str> = all.iter().copied().map(word).collect();
    let place = |w: W| all.iter().position(|x| *x == w).unwrap_or(0);
    let (low, high) = goal.map_or((0, all.len() - 1), |(low, high)| (place(low), place(high)));
    if let Some((a, b)) = span(ui, name, &words, low, high) {
        *goal = all.get(a).copied().zip(all.get(b).copied());
    }
}

/// Two pickers for a span of words; the span never turns round.
fn span(ui: &mut Ui, name: &str, words: &[&str], low: usize, high: usize) -> Option<(usize, usize)> {
    let mut out = None;
    ui.horizontal(|ui| {
        ui.label(name);
        ui.spacing_mut().combo_width = 84.0;
        let salt = IdSalt::new(("from", name));
        if let Some(i) = picker(ui, salt, &format!("{name} from"), words[low], words) {
            out = Some((i, high.max(i)));
        }
        ui.label("to");
        let salt = IdSalt::new(("to", name));
        if let Some(i) = picker(ui, salt, &format!("{name} to"), words[high], words) {
            out = Some((low.min(i), i));
        }
    });
    out
}
