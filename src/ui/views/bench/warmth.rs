//! Warmth and hold, and the chill: temperatures, times, and the steps before the culture.

use egui::{IdSalt, RichText, Ui};

use super::hand::{Hand, Row};
use crate::base::number;
use crate::doc::Edit;
use crate::doc::pantry::{self, Warming};
use crate::doc::steps::{Event, Happening, Step, Way};
use crate::ui::tokens;
use crate::ui::widgets::card::Card;
use crate::ui::widgets::picker::picker;
use crate::ui::widgets::tick::tick;

/// Draws the card of warmth and hold.
pub fn card(ui: &mut Ui, hand: &mut Hand<'_>) {
    let state = hand.state;
    let design = state.design();
    let Some(hold) = design.hold() else { return };
    let all = &state.pantry.warmers;
    let entry =
        pantry::find(&design.snapshot.warmers, &hold.warmer).or_else(|| pantry::find(all, &hold.warmer));
    let names: Vec<&str> = all.iter().map(|w| w.name.as_str()).collect();
    let current = entry.map_or(hold.warmer.as_str(), |w| w.name.as_str());
    let mut slot = Vec::new();
    let card = Card::new("Warmth and hold").menu(|ui| {
        if let Some(i) = picker(ui, IdSalt::new("warmer"), "Warmer", current, &names)
            && let Some(warmer) = all.get(i)
        {
            slot.push(crate::app::Command::Edit(Edit::Warmer(warmer.key.clone()), None));
        }
    });
    card.show(ui, |ui| {
        culture_in(ui, hand);
        if !entry.is_some_and(|e| matches!(e.warming, Warming::Insulated { .. })) {
            hold_at(ui, hand, hold.set_c, entry);
        }
        stop_after(ui, hand, hold.hours);
        steps(ui, hand);
    });
    hand.out.append(&mut slot);
}

fn culture_in(ui: &mut Ui, hand: &mut Hand<'_>) {
    let before = |steps: &[Step]| {
        steps
            .iter()
            .take_while(|s| **s != Step::CultureIn)
            .filter_map(|s| match s {
                Step::Warm { to_c, .. } | Step::Cool { to_c, .. } => Some(*to_c),
                _ => None,
            })
            .last()
    };
    let facts = &hand.state.answer.facts;
    let value = before(&hand.design().steps).unwrap_or(facts.culture_in_c);
    let hours: f64 = facts.steps.iter().map(|s| s.hours).sum();
    let row = Row {
        name: "Culture in at",
        unit: "°C",
        value,
        saved: hand.saved().and_then(|d| before(&d.steps)),
        range: (5.0, 60.0),
        usual: Some((37.0, 43.0)),
        decimals: 1,
        step: 0.5,
        logarithmic: false,
        beside: if hours > 0.0 { format!("{} to get there", number::hours(hours)) } else { String::new() },
        hover:
            "What the base is brought to before the culture goes in. Usual 37 to 43 °C (common practice); \
                50 °C is taken as the end of a culture"
                .to_owned(),
    };
    hand.lever(ui, &row, Edit::CultureTemperature);
}

fn hold_at(ui: &mut Ui, hand: &mut Hand<'_>, set_c: f64, entry: Option<&pantry::Warmer>) {
    let beside = match entry.map(|e| &e.warming) {
        Some(Warming::Heated { offset_c, .. }) => offset_c
            .spread
            .bounds()
            .map_or_else(String::new, |(low, high)| format!("± {} °C", number::plain(0.5 * (high - low)))),
        _ => String::new(),
    };
    let row = Row {
        name: "Hold at",
        unit: "°C",
        value: set_c,
        saved: hand.saved().and_then(|d| d.hold().map(|h| h.set_c)),
        range: (15.0, 60.0),
        usual: entry.map(|e| e.usual),
        decimals: 1,
        step: 0.5,
        logarithmic: false,
        beside,
        hover: entry.map_or_else(String::new, |e| {
            format!(
                "{}. Usual {} to {} °C. {}",
                e.name,
                number::plain(e.usual.0),
                number::plain(e.usual.1),
                e.handling
            )
        }),
    };
    hand.lever(ui, &row, Edit::HoldTemperature);
}

fn stop_after(ui: &mut Ui, hand: &mut Hand<'_>, hours: f64) {
    let beside = hand.design().start().map_or_else(String::new, |start| start.after(hours).day_and_time());
    let coconut = hand.state.answer.facts.dairy < 0.5;
    let row = Row {
        name: "Stop after",
        unit: "h",
        value: hours,
        saved: hand.saved().and_then(|d| d.hold().map(|h| h.hours)),
        range: (0.5, 48.0),
        usual: Some(if coconut { (12.0, 24.0) } else { (6.0, 10.0) }),
        decimals: 2,
        step: 0.25,
        logarithmic: false,
        beside,
        hover:
            "The planned end of the hold. Usual 8 to 10 h for dairy, up to 24 h for coconut (common practice)"
                .to_owned(),
    };
    hand.lever(ui, &row, Edit::HoldHours);
}

/// The steps before the hold in words, with heat treatment and happenings to add or take away.
fn steps(ui: &mut Ui, hand: &mut Hand<'_>) {
    let t = tokens::of(ui);
    let title = RichText::new("Steps").color(t.ink_soft);
    egui::CollapsingHeader::new(title).id_salt("steps").show(ui, |ui| {
        let quiet = |text: String| RichText::new(text).size(tokens::SMALL).color(t.ink_soft);
        for step in &hand.state.answer.facts.steps {
            let time =
                if step.hours > 0.0 { format!(" · {}", number::hours(step.hours)) } else { String::new() };
            ui.add(egui::Label::new(quiet(format!("{}{time}", step.words))).wrap());
        }
        start_and_heat(ui, hand);
        happenings(ui, hand);
    });
}

fn start_and_heat(ui: &mut Ui, hand: &mut Hand<'_>) {
    let from = |d: &crate::doc::Design| {
        d.steps.iter().find_map(|s| if let Step::Start { from_c } = s { Some(*from_c) } else { None })
    };
    if let Some(value) = from(hand.design()) {
        let row = Row {
            name: "Base starts at",
            unit: "°C",
            value,
            saved: hand.saved().and_then(from),
            range: (0.0, 45.0),
            usual: Some((4.0, 25.0)),
            decimals: 1,
            step: 0.5,
            logarithmic: false,
            beside: String::new(),
            hover: "Temperature of the base before anything is done to it: fridge or cupboard".to_owned(),
        };
        hand.lever(ui, &row, Edit::StartTemperature);
    }
    let heated = hand.design().steps.iter().position(|s| matches!(s, Step::HeatTreat { .. }));
    let mut on = heated.is_some();
    if tick(ui, &mut on, "Heat the base first").changed() {
        let mut steps = hand.design().steps.clone();
        match heated {
            Some(i) => {
                steps.remove(i);
            }
            None => {
                let at = usize::from(matches!(steps.first(), Some(Step::Start { .. })));
                steps.insert(at, Step::HeatTreat { to_c: 85.0, minutes: 20.0, way: Way::Pan });
                if !steps.iter().any(|s| matches!(s, Step::Cool { .. })) {
                    let culture = steps.iter().position(|s| *s == Step::CultureIn).unwrap_or(at + 1);
                    let to_c = hand.design().hold().map_or(41.0, |h| h.set_c.min(43.0));
                    steps.insert(culture, Step::Cool { to_c, way: Way::ColdWater });
                }
            }
        }
        hand.edit(Edit::Steps(steps));
    }
    let Some(i) = heated else { return };
    let Some(Step::HeatTreat { to_c, minutes, way }) = hand.design().steps.get(i).cloned() else { return };
    let with = |hand: &Hand<'_>, step: Step| {
        let mut steps = hand.design().steps.clone();
        steps[i] = step;
        Edit::Steps(steps)
    };
    let saved = |hand: &Hand<'_>, pick: fn(f64, f64) -> f64| {
        hand.saved().and_then(|d| match d.steps.get(i) {
            Some(Step::HeatTreat { to_c, minutes, .. }) => Some(pick(*to_c, *minutes)),
            _ => None,
        })
    };
    let row = Row {
        name: "Heat to",
        unit: "°C",
        value: to_c,
        saved: saved(hand, |c, _| c),
        range: (60.0, 100.0),
        usual: Some((82.0, 95.0)),
        decimals: 1,
        step: 0.5,
        logarithmic: false,
        beside: String::new(),
        hover: "Heat makes milk's whey protein part of the gel: 85 °C for 20 to 30 min, or 90 to 95 °C for 5 min \
                (published, Foods 2014 3:176)"
            .to_owned(),
    };
    let now = with(hand, Step::HeatTreat { to_c, minutes, way });
    hand.lever(ui, &row, |v| replace(&now, i, Step::HeatTreat { to_c: v, minutes, way }));
    let row = Row {
        name: "Keep it there",
        unit: "min",
        value: minutes,
        saved: saved(hand, |_, m| m),
        range: (0.0, 60.0),
        usual: Some((5.0, 30.0)),
        decimals: 0,
        step: 1.0,
        ..row
    };
    hand.lever(ui, &row, |v| replace(&now, i, Step::HeatTreat { to_c, minutes: v, way }));
}

/// The steps of an edit with one of them replaced.
fn replace(edit: &Edit, i: usize, step: Step) -> Edit {
    let mut edit = edit.clone();
    if let Edit::Steps(steps) = &mut edit
        && let Some(place) = steps.get_mut(i)
    {
        *place = step;
    }
    edit
}

fn happenings(ui: &mut Ui, hand: &mut Hand<'_>) {
    let Some(hold) = hand.design().hold() else { return };
    let (events, half) = (hold.events.clone(), (hold.hours * 2.0).round() / 4.0);
    for (i, event) in events.iter().enumerate() {
        let what = event.what.words();
        ui.horizontal(|ui| {
            ui.label(format!("At {}: {what}", number::hours(event.at_h)));
            let remove = ui.small_button("×").on_hover_text("Take it out");
            let name = format!("Take out: {what}");
            remove.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, &name));
            if remove.clicked() {
                let mut left = events.clone();
                left.remove(i);
                hand.edit(Edit::Events(left));
            }
        });
    }
    let key = hand.design().cultures.first().map_or_else(|| "dairy_direct".to_owned(), |c| c.entry.clone());
    let late_culture = Happening::LateCulture { entry: key, rate: 1.0 };
    ui.menu_button("Something happens in the hold…", |ui| {
        for (words, what) in [
            ("The pot is stirred", Happening::Stir),
            ("The power is off for an hour", Happening::PowerCut { minutes: 60.0 }),
            ("The pot is carried about for ten minutes", Happening::Move { minutes: 10.0 }),
            ("The warmer is set lower, to 37 °C", Happening::SetTo { c: 37.0 }),
            ("Culture goes in again", late_culture),
            ("Sugar goes in late", Happening::LateSugar { entry: "white_sugar".to_owned(), g_per_l: 12.5 }),
        ] {
            if ui.button(words).clicked() {
                let mut more = events.clone();
                more.push(Event { at_h: half, what });
                hand.edit(Edit::Events(more));
                ui.close();
            }
        }
    });
}

/// Draws the card of the chill.
pub fn chill_card(ui: &mut Ui, hand: &mut Hand<'_>) {
    let Some((to_c, hours)) = hand.design().chill() else { return };
    let facts = &hand.state.answer.facts;
    let each = hand.design().litres() / f64::from(hand.design().pots.count.max(1));
    let beside = if facts.chill_h.is_finite() {
        format!("about {} h for {} L", number::fixed(facts.chill_h, 0), number::figures(each, 2))
    } else {
        String::new()
    };
    let hover = "A pot is judged cold, the day after: fat needs hours below 10 °C to set firm";
    Card::new("Chill").quiet("fridge").show(ui, |ui| {
        let row = Row {
            name: "Cool to",
            unit: "°C",
            value: to_c,
            saved: hand.saved().and_then(|d| d.chill().map(|c| c.0)),
            range: (1.0, 20.0),
            usual: Some((4.0, 7.0)),
            decimals: 1,
            step: 0.5,
            logarithmic: false,
            beside,
            hover: hover.to_owned(),
        };
        hand.lever(ui, &row, Edit::ChillTemperature);
        let row = Row {
            name: "Leave it",
            unit: "h",
            value: hours,
            saved: hand.saved().and_then(|d| d.chill().map(|c| c.1)),
            range: (1.0, 48.0),
            usual: Some((8.0, 24.0)),
            decimals: 0,
            step: 1.0,
            beside: String::new(),
            ..row
        };
        hand.lever(ui, &row, Edit::ChillHours);
    });
}
