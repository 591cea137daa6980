//! The levers of the designs beside each other, each below its own curves and turned where it stands.

use egui::{IdSalt, Rect, Ui, UiBuilder, vec2};

use potset_app::columns::{Column, Holds};
use potset_app::command::BesideCommand;
use potset_app::{Command, State};
use potset_base::measures::whole::{volume, weight};
use potset_base::number;
use potset_base::units::{self, Amounts};
use potset_doc::Design;
use potset_doc::settings::Depth;
use potset_forecast::lever::{Lever as Turned, LeverId, levers};
use potset_ui_bench::HandState;
use potset_ui_kit::widgets::column::column as scrolled;
use potset_ui_kit::widgets::lever::Lever;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// How much of a column's height its levers take, and the most that they take, points.
const SHARE: f32 = 0.42;
const MOST: f32 = 290.0;

/// The room of the levers under curves that have so much height together.
pub fn height(whole: f32) -> f32 {
    (SHARE * whole).min(MOST)
}

/// Draws the levers of a column.
pub fn show(
    ui: &mut Ui,
    rect: Rect,
    (column, name): (&Column, &str),
    hand: &mut HandState,
    state: &State,
    out: &mut Vec<Command>,
) {
    let t = tokens::of(ui);
    // The bar has room of its own, at the right of the numbers.
    let room = rect.shrink2(vec2(6.0, 4.0)).with_max_x(rect.right() - f32::from(tokens::SCROLL_BAR));
    let builder = UiBuilder::new().max_rect(room).id_salt(("levers", column.id));
    let mut place = ui.new_child(builder);
    let session = match &column.holds {
        Holds::Bench => &state.session,
        Holds::Kept(session, _) => session,
        Holds::Case(_) => {
            let words = "A published pot stays as it was measured.";
            wrapped(&mut place, words, fonts::regular(tokens::BODY), t.ink_soft);
            let room = state.columns.full().is_none();
            if place.add_enabled(room, egui::Button::new("Duplicate it and change the copy")).clicked() {
                out.push(BesideCommand::Duplicate(column.id).into());
            }
            return;
        }
    };
    let design = session.history.design();
    let saved = session.history.saved_design();
    scrolled(&mut place, "levers", tokens::GAP_SMALL, |ui| {
        let undo = session.history.can_undo();
        let button = ui.add_enabled(undo.is_some(), egui::Button::new("Undo"));
        let words = format!("Undo in {name}");
        button
            .widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, undo.is_some(), &words));
        if button.on_hover_text(undo.unwrap_or_default()).clicked() {
            out.push(BesideCommand::Undo(column.id).into());
        }
        for lever in levers(design, &state.pantry) {
            if state.settings.depth == Depth::Plain && !acts(lever.lever_id) {
                continue;
            }
            let before = saved.and_then(|saved| lever.lever_id.value(saved, &state.pantry));
            let told = row(&lever, (column.id, name), before, &grams(&lever, design)).show(ui);
            let edit = told.value.map(|v| lever.lever_id.edit(design, v));
            hand.push_column(column.id, &lever.name, told.gesture, edit, out);
        }
    });
}

fn row<'a>(lever: &'a Turned, (id, of): (u64, &'a str), saved: Option<f64>, beside: &'a str) -> Lever<'a> {
    Lever {
        id_salt: IdSalt::new(("lever of a column", id, &lever.name)),
        name: &lever.name,
        of,
        unit: lever.unit,
        value: lever.value,
        range: lever.range.0..=lever.range.1,
        usual: lever.usual,
        saved,
        reset_to: saved,
        decimals: lever.decimals,
        step: Some(lever.step),
        logarithmic: false,
        beside,
        hover: "",
        said: None,
    }
}

/// What a dose weighs in the whole pot.
fn grams(lever: &Turned, design: &Design) -> String {
    match lever.lever_id {
        LeverId::SugarDose(_) | LeverId::ThickenerDose(_) | LeverId::AdditiveDose(_) => {
            let grams = lever.value * design.litres();
            match units::spoken().amounts {
                Amounts::Metric => {
                    format!("{} g in {} L", number::rough(grams), number::rough(design.litres()))
                }
                Amounts::UsCustomary => format!("{} in {}", weight(grams), volume(design.litres(), 3)),
            }
        }
        _ => String::new(),
    }
}

/// What a maker turns first: the levers that the plain bench has, too.
const fn acts(id: LeverId) -> bool {
    matches!(
        id,
        LeverId::BaseLitres(_)
            | LeverId::BaseShare(_)
            | LeverId::SugarDose(_)
            | LeverId::ThickenerDose(_)
            | LeverId::CultureRate(_)
            | LeverId::CultureIn
            | LeverId::HoldTemperature
            | LeverId::HoldHours
    )
}
