//! What is wanted: words of texture and tang, bounds of what can be counted, rules, and anything else as it is typed.

use egui::{IdSalt, RichText, Ui};

use potset_app::command::AimCommand;
use potset_app::{Command, State};
use potset_base::words::capital;
use potset_doc::fields;
use potset_forecast::observable::Observable;
use potset_search::aim::{Bounds, Want};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::field::field;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::wrapped;

/// Outcomes that have a line of their own, with the bound that a maker asks for and where it starts (common practice).
const LINES: [(Observable, f64); 7] = [
    (Observable::Ph, 4.3),
    (Observable::SugarLeft, 20.0),
    (Observable::ReadyFrom, 24.0),
    (Observable::Whey, 3.0),
    (Observable::ThinLayer, 10.0),
    (Observable::Fat, 10.0),
    (Observable::Cost, 5.0),
];

/// Draws the card.
pub fn card(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let old = &state.aims.wants;
    let mut wants = old.clone();
    Card::new("Goals").show(ui, |ui| {
        words(ui, Observable::Texture, &mut wants);
        words(ui, Observable::Tang, &mut wants);
        for (outcome, first) in LINES {
            bound(ui, outcome, first, &mut wants);
        }
        ui.horizontal_wrapped(|ui| {
            rule(ui, Want::Vegan, "Vegan", &mut wants);
            rule(ui, Want::GlutenFree, "Gluten-free", &mut wants);
            rule(ui, Want::NoCooking, "No cooking", &mut wants);
        });
        others(ui, &mut wants);
        always(ui);
        typed(ui, state, out);
    });
    if wants != *old {
        out.push(AimCommand::Wants(wants).into());
    }
}

/// What counts whatever is wanted.
fn always(ui: &mut Ui) {
    let words = "Always checked: sour enough, soon enough";
    let hover = "A pot that is not sour enough when you stop is not ready. One that sours too late must be thrown \
                 away. Every search asks for both, and counts both.";
    let font = potset_ui_kit::fonts::regular(tokens::SMALL + 1.0);
    wrapped(ui, words, font, tokens::of(ui).ink_soft).on_hover_text(hover);
}

/// Wants as they are typed. What cannot be read stays in the field, with the reason below it.
fn typed(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let aims = &state.aims;
    let hint = "dollops, bright tang, within 24 h";
    ui.horizontal(|ui| {
        ui.label(small("Or type it", ui));
        if let Some(text) = field(ui, "Type a goal", &aims.typed, hint, ui.available_width() - 8.0) {
            out.push(AimCommand::Type(text).into());
        }
    });
    if let Some(fault) = &aims.typed_fault {
        let t = tokens::of(ui);
        let font = potset_ui_kit::fonts::regular(tokens::SMALL + 1.0);
        let told = wrapped(ui, &fields::line(fault), font, t.stop);
        ui.ctx().accesskit_node_builder(told.id, |node| node.set_live(egui::accesskit::Live::Assertive));
    }
}

fn small(text: &str, ui: &Ui) -> RichText {
    RichText::new(text).size(tokens::SMALL + 1.0).color(tokens::of(ui).ink_soft)
}

/// Two pickers of the words of an outcome, from and to, with "any" for none.
fn words(ui: &mut Ui, outcome: Observable, wants: &mut Vec<Want>) {
    let scale = outcome.wanted().scale;
    let name = capital(outcome.wanted().name);
    let of =
        |w: &Want| if let Want::Called(o, a, b) = w { (*o == outcome).then_some((*a, *b)) } else { None };
    let now = wants.iter().find_map(of);
    let mut new = now;
    ui.horizontal(|ui| {
        ui.label(&name);
        let from: Vec<&str> = std::iter::once("any").chain(scale.iter().copied()).collect();
        let current = now.map_or("any", |(low, _)| scale[low]);
        if let Some(i) = picker(ui, IdSalt::new((&name, "from")), &format!("{name} from"), current, &from) {
            new = i.checked_sub(1).map(|low| (low, now.map_or(low, |(_, high)| high.max(low))));
        }
        if let Some((low, high)) = now {
            ui.label("to");
            let salt = IdSalt::new((&name, "to"));
            if let Some(i) = picker(ui, salt, &format!("{name} to"), scale[high], &scale[low..]) {
                new = Some((low, low + i));
            }
        }
    });
    if new != now {
        wants.retain(|w| of(w).is_none());
        wants.extend(new.map(|(low, high)| Want::Called(outcome, low, high)));
    }
}

/// One outcome: a tick, and its highest value. What was typed with another form stands below instead.
fn bound(ui: &mut Ui, outcome: Observable, first: f64, wants: &mut Vec<Want>) {
    let is = |w: &Want| matches!(w, Want::Within(o, Bounds { low: None, high: Some(_) }) if *o == outcome);
    let at = wants.iter().position(is);
    let value = at.and_then(|i| if let Want::Within(_, b) = &wants[i] { b.high } else { None });
    ui.horizontal(|ui| {
        let mut on = value.is_some();
        let name = capital(outcome.wanted().name);
        let label = if outcome == Observable::ReadyFrom {
            "Ready within".to_owned()
        } else {
            format!("{name} at most")
        };
        if tick(ui, &mut on, label.as_str()).changed() {
            match at {
                Some(i) => {
                    wants.remove(i);
                }
                None => wants.push(Want::at_most(outcome, first)),
            }
            return;
        }
        if let (Some(value), Some(i)) = (value, at) {
            let (low, high) = outcome.wanted().range;
            let number = Number {
                name: &format!("{label}, value"),
                unit: outcome.unit(),
                value,
                range: low..=high,
                decimals: 2,
                speed: if outcome == Observable::Ph { 0.01 } else { 0.1 },
                hover: "",
            };
            if let Some(v) = number.show(ui).value {
                wants[i] = Want::at_most(outcome, v);
            }
        }
    });
}

fn rule(ui: &mut Ui, want: Want, name: &str, wants: &mut Vec<Want>) {
    let mut on = wants.contains(&want);
    if tick(ui, &mut on, name).changed() {
        if on {
            wants.push(want);
        } else {
            wants.retain(|w| *w != want);
        }
    }
}

/// Wants that have no line above, each with a way to take it off.
fn others(ui: &mut Ui, wants: &mut Vec<Want>) {
    let plain = |w: &Want| match w {
        Want::Within(q, Bounds { low: None, high: Some(_) }) => LINES.iter().any(|(l, ..)| l == q),
        Want::Within(..) => false,
        _ => true,
    };
    let mut gone = None;
    for (i, want) in wants.iter().enumerate().filter(|(_, w)| !plain(w)) {
        ui.horizontal(|ui| {
            ui.label(want.words());
            let off = ui.small_button("Remove");
            off.widget_info(|| {
                let name = format!("Remove {}", want.words());
                egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, name)
            });
            if off.clicked() {
                gone = Some(i);
            }
        });
    }
    if let Some(i) = gone {
        wants.remove(i);
    }
}
