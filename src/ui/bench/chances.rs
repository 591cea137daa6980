//! How sure it is: the chance that each goal holds at the stop line, what most pots come to, and cautions in chances.

use egui::{RichText, Ui};

use potset_app::{Action, Command, State};
use potset_base::number;
use potset_doubt::spread::Spread;
use potset_forecast::observable::Observable;
use potset_report::spread as say;
use potset_ui_kit::widgets::bars::{Bar, bars};
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::note::NoteCard;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// What is said of numbers of the design before, until those of this one are there.
pub const AS_IT_WAS: &str = "As it was; being worked out";

/// What most pots come to, as the card tells it.
const TOLD: [(Observable, &str); 6] = [
    (Observable::Texture, "texture"),
    (Observable::Ph, "pH"),
    (Observable::SugarLeft, "sugar left"),
    (Observable::SourAt, "pH 4.6 after"),
    (Observable::Whey, "whey"),
    (Observable::ThinLayer, "thin layer"),
];

/// Draws the card with its cautions; only the way to it where the spread is hidden.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    if !state.settings.spread {
        let text = RichText::new("Show how sure this is").size(tokens::SMALL + 1.0);
        if ui.link(text).on_hover_text(Action::Spread.tip()).clicked() {
            out.push(Command::Do(Action::Spread));
        }
        return;
    }
    let t = tokens::of(ui);
    let shown = state.doubt.shown();
    let quiet = match shown {
        Some(_) if state.doubt.outdated(state.question) => "as it was".to_owned(),
        Some(spread) => format!("of {} pots", spread.made()),
        None => String::new(),
    };
    if shown.is_none() && state.doubt.trouble.is_none() {
        return;
    }
    let hide = |ui: &mut Ui| {
        let button =
            egui::Button::new(RichText::new("Hide").size(tokens::SMALL).color(t.ink_soft)).frame(false);
        let response = ui.add(button).on_hover_text(Action::Spread.tip());
        response
            .widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, "Hide the range"));
        if response.clicked() {
            out.push(Command::Do(Action::Spread));
        }
    };
    Card::new("How sure").quiet(&quiet).menu(hide).show(ui, |ui| match (shown, &state.doubt.trouble) {
        (Some(spread), _) => body(ui, spread),
        (None, Some(why)) => {
            let said = format!("It could not be worked out. {}", why.title);
            wrapped(ui, &said, fonts::regular(tokens::SMALL), t.warn);
        }
        (None, None) => {}
    });
    let Some(spread) = shown else { return };
    for caution in &spread.cautions {
        let (edge, mark) = if caution.discard { (t.note_stop, "⚠") } else { (t.note_watch, "") };
        let sentence = say::caution(caution);
        NoteCard { edge, mark, sentence: &sentence, more: "", mend: None }.show(ui);
    }
}

/// The name of a goal without what is said of it in brackets, for a narrow row.
fn short(name: &str) -> &str {
    name.split(" (").next().unwrap_or(name)
}

fn body(ui: &mut Ui, spread: &Spread) {
    let t = tokens::of(ui);
    let small = || fonts::regular(tokens::SMALL);
    wrapped(ui, &format!("Goals at the stop line, {}", number::hours(spread.stop_h)), small(), t.ink_soft);
    let mut rows: Vec<(&str, f64, String)> =
        spread.goals.iter().map(|g| (short(&g.name), g.at_stop.share(), g.at_stop.brief())).collect();
    rows.push(("all of them", spread.at_stop.share(), spread.at_stop.brief()));
    let last = rows.len() - 1;
    let drawn: Vec<Bar<'_>> = rows
        .iter()
        .enumerate()
        .map(|(i, (name, share, value))| Bar {
            name,
            amount: *share,
            value,
            color: if i == last { t.ready_ink } else { t.mark },
        })
        .collect();
    bars(ui, &drawn, Some(1.0));
    wrapped(ui, "usually between", small(), t.ink_soft);
    egui::Grid::new("usual range of the pots")
        .num_columns(2)
        .spacing(egui::vec2(10.0, 1.0))
        .min_row_height(15.0)
        .show(ui, |ui| {
            for (outcome, name) in TOLD {
                let Some(o) = spread.outcome(outcome) else { continue };
                let cell = |text: &str, color| RichText::new(text).size(tokens::SMALL).color(color);
                ui.label(cell(name, t.ink_soft));
                ui.label(cell(&say::outcome_span(o), t.ink)).on_hover_text(say::outcome(o));
                ui.end_row();
            }
        });
    for aside in &spread.asides {
        wrapped(ui, &say::aside(aside), small(), t.ink_soft);
    }
    if let Some(failed) = say::failed(spread) {
        wrapped(ui, &failed, small(), t.warn);
    }
}
