//! The steps before the culture: where the base starts, rests, and heating it.

use egui::{IdSalt, Ui};

use super::hand::{EditContext, Row};
use super::shelf::{numbered, of_span};
use potset_base::units::prose::prose;
use potset_doc::Edit;
use potset_doc::steps::{Step, Way};
use potset_forecast::lever::spans;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::widgets::tick::tick;

/// Where a base may rest.
const RESTS: [Way; 4] = [Way::Fridge, Way::Room, Way::TapWater, Way::Bath];

/// Draws the start, the rests and the heating, each to change, add or take out.
pub fn show(ui: &mut Ui, hand: &mut EditContext<'_>) {
    start(ui, hand);
    rests(ui, hand);
    heat(ui, hand);
}

fn start(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let from = |d: &potset_doc::Design| {
        d.steps.iter().find_map(|s| if let Step::Start { from_c } = s { Some(*from_c) } else { None })
    };
    if let Some(value) = from(hand.design()) {
        let row = Row {
            hover: "Temperature of the base before anything is done to it: fridge or cupboard".to_owned(),
            ..Row::new("Base starts at", &spans::START, value, hand.saved().and_then(from))
        };
        hand.lever(ui, &row, Edit::StartTemperature);
    }
}

/// Every rest before the culture, and the button that adds one: for lactase to work, or a wait.
fn rests(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let state = hand.state;
    let steps = &state.design().steps;
    let stands = steps.iter().enumerate().filter_map(|(at, step)| match step {
        Step::Stand { hours, way } => Some((at, *hours, *way)),
        _ => None,
    });
    for (i, (at, hours, way)) in stands.enumerate() {
        ui.push_id(("rest", i), |ui| rest(ui, hand, steps, (i, at), (hours, way)));
    }
    let add =
        ui.button("Let it stand…").on_hover_text("A rest before heat and culture: for lactase, or a wait");
    if add.clicked() {
        let mut new = steps.clone();
        let early = |s: &Step| matches!(s, Step::Start { .. } | Step::Stand { .. });
        let at = new.iter().position(|s| !early(s)).unwrap_or(new.len());
        // A day in the fridge is what lactase is given (common practice).
        new.insert(at, Step::Stand { hours: 24.0, way: Way::Fridge });
        hand.edit(Edit::Steps(new));
    }
}

/// One rest: hours, where, and the sign that takes it out. `i` counts rests, `at` steps.
fn rest(
    ui: &mut Ui,
    hand: &mut EditContext<'_>,
    steps: &[Step],
    (i, at): (usize, usize),
    (hours, way): (f64, Way),
) {
    let with = |step: Step| {
        let mut new = steps.to_vec();
        new[at] = step;
        Edit::Steps(new)
    };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 5.0;
        ui.label("Rest");
        let name = numbered("Hours of standing", i);
        let hover = "A rest before the culture: for lactase to split the lactose, or a wait";
        let number = of_span(&name, &spans::REST, hours, 0.1, hover);
        hand.number(ui, &number, |hours| with(Step::Stand { hours, way }));
        ui.spacing_mut().combo_width = 120.0;
        let names = RESTS.map(Way::words);
        let salt = IdSalt::new(("stands", i));
        if let Some(picked) = picker(ui, salt, &numbered("Where it stands", i), way.words(), &names) {
            hand.edit(with(Step::Stand { hours, way: RESTS[picked] }));
        }
        let remove = ui.small_button("×").on_hover_text("Remove");
        let name = numbered("Remove the rest", i);
        remove.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, &name));
        if remove.clicked() {
            let mut new = steps.to_vec();
            new.remove(at);
            hand.edit(Edit::Steps(new));
        }
    });
}

fn heat(ui: &mut Ui, hand: &mut EditContext<'_>) {
    let heated = hand.design().steps.iter().position(|s| matches!(s, Step::HeatTreat { .. }));
    let mut on = heated.is_some();
    if tick(ui, &mut on, "Heat the base first").changed() {
        let mut steps = hand.design().steps.clone();
        match heated {
            Some(i) => {
                steps.remove(i);
            }
            None => {
                let early = |s: &Step| matches!(s, Step::Start { .. } | Step::Stand { .. });
                let at = steps.iter().position(|s| !early(s)).unwrap_or(steps.len());
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
    let with = |hand: &EditContext<'_>, step: Step| {
        let mut steps = hand.design().steps.clone();
        steps[i] = step;
        Edit::Steps(steps)
    };
    let saved = |hand: &EditContext<'_>, pick: fn(f64, f64) -> f64| {
        hand.saved().and_then(|d| match d.steps.get(i) {
            Some(Step::HeatTreat { to_c, minutes, .. }) => Some(pick(*to_c, *minutes)),
            _ => None,
        })
    };
    let row = Row {
        hover: prose(
            "Heat makes milk's whey protein part of the gel: 85 °C for 20 to 30 min, or 90 to 95 °C for 5 min \
             (published, Foods 2014 3:176)",
        ),
        ..Row::new("Heat to", &spans::HEAT_TO, to_c, saved(hand, |c, _| c))
    };
    let now = with(hand, Step::HeatTreat { to_c, minutes, way });
    hand.lever(ui, &row, |v| replace(&now, i, Step::HeatTreat { to_c: v, minutes, way }));
    let row = Row {
        hover: row.hover,
        ..Row::new("Keep it there", &spans::HEAT_FOR, minutes, saved(hand, |_, m| m))
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
