//! Warmth and hold: temperatures, times, and the steps before the culture.

use super::hand::{EditContext, Row};
use super::{before, events};
use egui::{IdSalt, RichText, Ui};
use potset_app::command::BenchCommand;
use potset_base::number;
use potset_base::units::prose::prose;
use potset_base::units::said::{warmth_apart_plain, warmth_span};
use potset_doc::pantry::{Warmer, Warming};
use potset_doc::{Edit, culture_in};
use potset_forecast::lever::spans;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::picker::{self, picker};

/// Draws the card of warmth and hold.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let design = state.design();
    let Some(hold) = design.hold() else { return };
    let all = &state.pantry.warmers;
    let entry = design.entry::<Warmer>(&state.pantry, &hold.warmer);
    let names: Vec<&str> = all.iter().map(|w| w.name.as_str()).collect();
    let current = entry.map_or(hold.warmer.as_str(), |w| w.name.as_str());
    let mut slot = Vec::new();
    let card = Card::new("Warmth and time").menu_of(picker::width(ui, current), |ui| {
        if let Some(i) = picker(ui, IdSalt::new("warmer"), "Warmer", current, &names)
            && let Some(warmer) = all.get(i)
        {
            slot.push(potset_app::Command::Bench(BenchCommand::Edit(Edit::Warmer(warmer.key.clone()), None)));
        }
    });
    card.show(ui, |ui| {
        let flask = entry.is_some_and(|e| matches!(e.warming, Warming::Insulated { .. }));
        // A flask is warmed by what goes into it, and by nothing else.
        if flask || !hand.plain() {
            culture_goes_in(ui, hand);
        }
        if !flask {
            hold_at(ui, hand, hold.set_c, entry);
        }
        stop_after(ui, hand, hold.hours);
        if !hand.plain() {
            steps(ui, hand);
        }
    });
    hand.out.append(&mut slot);
}

fn culture_goes_in(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let facts = &hand.state.answer.facts;
    let value = culture_in::temperature(&hand.design().steps).unwrap_or(facts.culture_in_c);
    let saved = hand.saved().and_then(|d| culture_in::temperature(&d.steps));
    let hours: f64 = facts.steps.iter().map(|s| s.hours).sum();
    let row = Row {
        beside: match hours {
            h if h <= 0.0 => String::new(),
            // Minutes do not matter beside a rest of a day, and there is no room for them.
            h if h >= 10.0 => format!("{} to get there", number::hours(h.round())),
            h => format!("{} to get there", number::hours(h)),
        },
        hover: prose(
            "Warmth of the base when you add the culture. Usual 37 to 43 °C (common practice). At 50 °C a culture \
             stops working",
        ),
        ..Row::new("Add culture at", &spans::CULTURE_IN, value, saved)
    };
    hand.lever(ui, &row, Edit::CultureTemperature);
}

fn hold_at(ui: &mut Ui, hand: &mut EditContext<'_>, set_c: f64, entry: Option<&Warmer>) {
    let saved = hand.saved().and_then(|d| d.hold().map(|h| h.set_c));
    let beside = match entry.map(|e| &e.warming) {
        Some(Warming::Heated { offset_c, .. }) => offset_c
            .spread
            .bounds()
            .map_or_else(String::new, |(low, high)| format!("± {}", warmth_apart_plain(0.5 * (high - low)))),
        _ => String::new(),
    };
    let row = Row {
        beside,
        hover: entry.map_or_else(String::new, |e| {
            format!("{}. Usual {}. {}", e.name, warmth_span(e.usual.0, e.usual.1), prose(&e.handling))
        }),
        ..Row::new("Hold at", &spans::hold_at(entry), set_c, saved)
    };
    hand.lever(ui, &row, Edit::HoldTemperature);
}

fn stop_after(ui: &mut Ui, hand: &mut EditContext<'_>, hours: f64) {
    let beside = hand.design().start().map_or_else(String::new, |start| start.after(hours).day_and_time());
    let saved = hand.saved().and_then(|d| d.hold().map(|h| h.hours));
    let span = spans::stop_after(hand.state.answer.facts.dairy);
    let row = Row {
        beside,
        hover:
            "The planned end of the hold. Usual 8 to 10 h for dairy, up to 24 h for coconut (common practice)"
                .to_owned(),
        ..Row::new("Stop at", &span, hours, saved)
    };
    hand.lever(ui, &row, Edit::HoldHours);
}

/// The steps before the hold in words, with heat treatment and happenings to add or take away.
fn steps(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let t = tokens::of(ui);
    let title = RichText::new("Steps").color(t.ink_soft);
    egui::CollapsingHeader::new(title).id_salt("steps").show(ui, |ui| {
        let quiet = |text: String| RichText::new(text).size(tokens::SMALL).color(t.ink_soft);
        for step in &hand.state.answer.facts.steps {
            let time =
                if step.hours > 0.0 { format!(" · {}", number::hours(step.hours)) } else { String::new() };
            ui.add(egui::Label::new(quiet(format!("{}{time}", step.words))).wrap());
        }
        before::show(ui, hand);
        events::show(ui, hand);
    });
}
