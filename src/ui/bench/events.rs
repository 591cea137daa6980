//! What happens in the hold: each event with its time and amount, to type, add and take out.

use egui::Ui;

use super::hand::EditContext;
use super::shelf::numbered;
use potset_base::units::WARMTH;
use potset_doc::Edit;
use potset_doc::steps::{Event, Happening};
use potset_ui_kit::widgets::number::Number;

/// The amount of an event: words before it, value, unit, range, decimals.
struct Amount {
    value: f64,
    unit: &'static str,
    range: std::ops::RangeInclusive<f64>,
    decimals: usize,
}

/// Draws the list, and the menu that adds to it.
pub fn show(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let Some(hold) = state.design().hold() else { return };
    for (i, event) in hold.events.iter().enumerate() {
        ui.push_id(("event", i), |ui| row(ui, hand, &hold.events, i, event));
    }
    let half = (hold.hours * 2.0).round() / 4.0;
    ui.menu_button("Something happens in the hold…", |ui| {
        for (words, what) in offered(hand) {
            if ui.button(words).clicked() {
                let mut more = hold.events.clone();
                more.push(Event { at_h: half, what });
                hand.edit(Edit::Events(more));
                ui.close();
            }
        }
    });
}

fn row(ui: &mut Ui, hand: &mut EditContext<'_>, events: &[Event], i: usize, event: &Event) {
    let with = |new: Event| {
        let mut all = events.to_vec();
        all[i] = new;
        Edit::Events(all)
    };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 5.0;
        ui.label("At");
        let name = numbered("Time of the event", i);
        let at = Number {
            name: &name,
            unit: "h",
            value: event.at_h,
            range: 0.0..=96.0,
            decimals: 2,
            speed: 0.05,
            hover: "Hours after the culture went in",
        };
        hand.number(ui, &at, |v| with(Event { at_h: v, what: event.what.clone() }));
        ui.label(words(&event.what));
        if let Some(amount) = amount(&event.what) {
            let name = numbered("Amount of the event", i);
            let number = Number {
                name: &name,
                unit: amount.unit,
                value: amount.value,
                speed: (amount.range.end() - amount.range.start()) * 0.002,
                range: amount.range,
                decimals: amount.decimals,
                hover: "",
            };
            hand.number(ui, &number, |v| with(Event { at_h: event.at_h, what: at_amount(&event.what, v) }));
        }
        let remove = ui.small_button("×").on_hover_text("Remove");
        let name = format!("Remove: {}", event.what.words());
        remove.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, &name));
        if remove.clicked() {
            let mut left = events.to_vec();
            left.remove(i);
            hand.edit(Edit::Events(left));
        }
    });
}

/// What can be added, in words, with its usual amount.
fn offered(hand: &EditContext<'_>) -> [(&'static str, Happening); 6] {
    let design = hand.design();
    let culture = design.cultures.first().map_or_else(|| "dairy_direct".to_owned(), |c| c.entry.clone());
    let sugar = design.sugars.first().map_or_else(|| "white_sugar".to_owned(), |s| s.entry.clone());
    [
        ("The pot is stirred", Happening::Stir),
        ("The power is off", Happening::PowerCut { minutes: 60.0 }),
        ("The pot is carried about", Happening::Move { minutes: 10.0 }),
        ("The warmer is set lower", Happening::SetTo { c: 37.0 }),
        ("Culture goes in again", Happening::LateCulture { entry: culture, rate: 1.0 }),
        ("Sugar goes in late", Happening::LateSugar { entry: sugar, g_per_l: 12.5 }),
    ]
}

const fn words(what: &Happening) -> &'static str {
    match what {
        Happening::Stir => "stirred",
        Happening::PowerCut { .. } => "no warmth for",
        Happening::LateSugar { .. } => "more sugar,",
        Happening::LateCulture { .. } => "more culture,",
        Happening::Move { .. } => "carried about for",
        Happening::SetTo { .. } => "warmer set to",
    }
}

fn amount(what: &Happening) -> Option<Amount> {
    let (value, unit, range, decimals) = match what {
        Happening::Stir => return None,
        Happening::PowerCut { minutes } => (*minutes, "min", 0.0..=1440.0, 0),
        Happening::Move { minutes } => (*minutes, "min", 0.0..=240.0, 0),
        Happening::LateSugar { g_per_l, .. } => (*g_per_l, "g/L", 0.0..=400.0, 1),
        Happening::LateCulture { rate, .. } => (*rate, "×", 0.0..=100.0, 2),
        Happening::SetTo { c } => (*c, WARMTH, 0.0..=60.0, 1),
    };
    Some(Amount { value, unit, range, decimals })
}

/// The event with another amount.
fn at_amount(what: &Happening, v: f64) -> Happening {
    let mut new = what.clone();
    match &mut new {
        Happening::Stir => {}
        Happening::PowerCut { minutes } | Happening::Move { minutes } => *minutes = v,
        Happening::LateSugar { g_per_l, .. } => *g_per_l = v,
        Happening::LateCulture { rate, .. } => *rate = v,
        Happening::SetTo { c } => *c = v,
    }
    new
}
