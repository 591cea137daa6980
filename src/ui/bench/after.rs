//! After the hold: the chill, straining in a cloth, and keeping in the fridge.

use egui::{IdSalt, RichText, Ui};

use super::hand::{EditContext, Row};
use super::shelf::of_span;
use potset_base::measures::whole::volume;
use potset_base::number::{self, NBSP};
use potset_base::units::WARMTH;
use potset_base::units::prose::prose;
use potset_doc::steps::{LONGEST_STORE_DAYS, Step};
use potset_doc::{Design, Edit};
use potset_forecast::lever::spans;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;

/// First values of what is added (common practice: overnight in a cloth; a week in the fridge).
const STRAIN_H: f64 = 6.0;
const STRAIN_SHARE: f64 = 0.5;
const KEEP_DAYS: f64 = 7.0;

/// Draws the card.
pub fn card(ui: &mut Ui, hand: &mut EditContext<'_>) {
    Card::new("Chill").quiet("fridge").show(ui, |ui| {
        chill(ui, hand);
        strain(ui, hand);
        keep(ui, hand);
    });
}

fn chill(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let Some((to_c, hours)) = hand.design().chill() else { return };
    let facts = &hand.state.answer.facts;
    let each = hand.design().litres() / f64::from(hand.design().pots.count.max(1));
    let beside = if facts.chill_h.is_finite() {
        format!("about {} h for {}", number::fixed(facts.chill_h, 0), volume(each, 2).replace(NBSP, " "))
    } else {
        String::new()
    };
    let saved = hand.saved().and_then(Design::chill);
    let hover = prose("A pot is judged cold, the day after. Fat needs hours below 10 °C to set firm");
    let row = Row { beside, hover, ..Row::new("Chill to", &spans::CHILL_TO, to_c, saved.map(|c| c.0)) };
    hand.lever(ui, &row, Edit::ChillTemperature);
    let row = Row {
        hover: row.hover,
        ..Row::new("Hours in the fridge", &spans::CHILL_FOR, hours, saved.map(|c| c.1))
    };
    hand.lever(ui, &row, Edit::ChillHours);
}

/// The steps with one added, changed or taken out.
fn with(steps: &[Step], at: Option<usize>, step: Option<Step>) -> Edit {
    let mut new = steps.to_vec();
    match (at, step) {
        (Some(at), Some(step)) => new[at] = step,
        (Some(at), None) => {
            new.remove(at);
        }
        // Straining comes before keeping, both after all else.
        (None, Some(step @ Step::Strain { .. })) => {
            let keep = new.iter().position(|s| matches!(s, Step::Store { .. })).unwrap_or(new.len());
            new.insert(keep, step);
        }
        (None, Some(step)) => new.push(step),
        (None, None) => {}
    }
    Edit::Steps(new)
}

fn strain(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let steps = &state.design().steps;
    let at = steps.iter().position(|s| matches!(s, Step::Strain { .. }));
    let mut on = at.is_some();
    if tick(ui, &mut on, "Strain in a cloth").changed() {
        hand.edit(with(steps, at, on.then_some(Step::Strain { hours: STRAIN_H, removed: None })));
    }
    let Some(Step::Strain { hours, removed }) = at.and_then(|at| steps.get(at)).cloned() else { return };
    ui.horizontal(|ui| {
        ui.spacing_mut().combo_width = 150.0;
        let words = ["for some hours", "until a share is off"];
        let salt = IdSalt::new("strained until");
        let now = words[usize::from(removed.is_some())];
        if let Some(picked) = picker(ui, salt, "Strained until", now, &words) {
            let removed = (picked == 1).then_some(STRAIN_SHARE);
            hand.edit(with(steps, at, Some(Step::Strain { hours, removed })));
        }
        match removed {
            None => {
                let hover = "In the cold. Overnight is usual for a thick pot (common practice)";
                let number = of_span("Hours in the cloth", &spans::STRAIN_FOR, hours, 0.1, hover);
                hand.number(ui, &number, |hours| {
                    with(steps, at, Some(Step::Strain { hours, removed: None }))
                });
            }
            Some(share) => {
                let hover = "Of the pot, as whey. Half is usual for a thick pot (common practice)";
                let number = of_span("Share run off", &spans::STRAIN_OFF, share * 100.0, 0.5, hover);
                hand.number(ui, &number, |v| {
                    with(steps, at, Some(Step::Strain { hours, removed: Some(v / 100.0) }))
                });
            }
        }
    });
    let t = tokens::of(ui);
    let facts = &state.answer.facts;
    let words = format!(
        "{} % runs off: {} of {} stay in the cloth",
        number::fixed(facts.strained * 100.0, 0),
        volume(facts.litres * (1.0 - facts.strained), 2),
        volume(facts.litres, 2)
    )
    .replace(NBSP, " ");
    ui.add(egui::Label::new(RichText::new(words).size(tokens::SMALL).color(t.ink_soft)).wrap());
}

fn keep(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let steps = &state.design().steps;
    let at = steps.iter().position(|s| matches!(s, Step::Store { .. }));
    let mut on = at.is_some();
    if tick(ui, &mut on, "Keep in the fridge").changed() {
        let first = Step::Store { days: KEEP_DAYS, at_c: state.kitchen.fridge_c };
        hand.edit(with(steps, at, on.then_some(first)));
    }
    let Some(Step::Store { days, at_c }) = at.and_then(|at| steps.get(at)).cloned() else { return };
    ui.horizontal(|ui| {
        let number = Number {
            name: "Days kept",
            unit: "days",
            value: days,
            range: 0.0..=LONGEST_STORE_DAYS,
            decimals: 0,
            speed: 0.2,
            hover: "Home practice keeps a pot 7 to 14 days (common practice)",
        };
        hand.number(ui, &number, |days| with(steps, at, Some(Step::Store { days, at_c })));
        ui.label("at");
        let number = Number {
            name: "Fridge of this pot",
            unit: WARMTH,
            value: at_c,
            range: 0.0..=20.0,
            decimals: 1,
            speed: 0.1,
            hover: &prose("5 °C or below (common practice)"),
        };
        hand.number(ui, &number, |at_c| with(steps, at, Some(Step::Store { days, at_c })));
    });
}
