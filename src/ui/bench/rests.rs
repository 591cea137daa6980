//! What the forecast rests on: the ten figures that move it most, each with the kind of its source and what it does.

use egui::{Align, Rect, RichText, Sense, Ui, vec2};

use potset_app::{Action, Command, State};
use potset_base::number::{self, NBSP};
use potset_base::units::prose::prose;
use potset_doubt::influence::Influence;
use potset_forecast::numbers::{Kind, Numbers};
use potset_ui_kit::fonts;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card;
use potset_ui_kit::widgets::{kind_mark, line_in};

/// Figures that are told.
const TOLD: usize = 10;
const ROW: f32 = 18.0;

/// Draws the list; nothing before it has been found out for the first time.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let list: Vec<&Influence> = state.sensitivities.iter().take(TOLD).collect();
    if list.is_empty() {
        return;
    }
    let t = tokens::of(ui);
    ui.label(RichText::new("What this rests on").font(fonts::semibold(tokens::BODY)).color(t.ink));
    let said = sentence(&list);
    let weak = list.iter().any(|i| i.weak());
    let color = if weak { t.warn } else { t.ink_soft };
    ui.add(egui::Label::new(RichText::new(said).size(tokens::SMALL).color(color)).wrap());
    card::frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 0.0;
        for influence in list {
            row(ui, influence, &state.numbers);
        }
    });
    if ui.link(RichText::new("Where all the numbers come from").size(tokens::SMALL)).clicked() {
        out.push(Command::Do(Action::Numbers));
    }
}

/// How many of the figures are weak, in words.
pub fn sentence(list: &[&Influence]) -> String {
    let weak = list.iter().filter(|i| i.weak()).count();
    let all = list.len();
    match weak {
        0 => format!(
            "The {all} figures that move this forecast most are published, derived, fitted or common practice."
        ),
        1 => format!("Of the {all} figures that move this forecast most, one is assumed or from memory."),
        n => format!("Of the {all} figures that move this forecast most, {n} are assumed or from memory."),
    }
}

/// What a figure does between its likely bounds, by what a person would notice most.
pub fn effect(influence: &Influence) -> String {
    let half = influence.moves.map(|m| 0.5 * m.abs());
    match influence.most() {
        0 => format!("pH ±{NBSP}{}", number::fixed(half[0], 2)),
        1 => format!("±{NBSP}{}{NBSP}h to 4.6", number::fixed(half[1], 1)),
        2 => format!("×÷{NBSP}{} thick", number::figures(half[2].exp(), 2)),
        3 => format!("sugar ±{NBSP}{}", number::fixed(half[3], 1)),
        _ => format!("±{NBSP}{}{NBSP}% thin", number::fixed(half[4], 0)),
    }
}

fn row(ui: &mut Ui, influence: &Influence, numbers: &Numbers) {
    let t = tokens::of(ui);
    let kind = Kind::of(&influence.cited.from);
    let (name, of) = numbers
        .all
        .iter()
        .find(|n| n.key == influence.path)
        .map_or((influence.path.as_str(), ""), |n| (n.name.as_str(), n.group.as_str()));
    let title = prose(&format!("{name} ({of})"));
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::hover());
    let does = effect(influence);
    response.widget_info(|| {
        let said = format!("{title}, {}: {does}", kind.words());
        egui::WidgetInfo::labeled(egui::accesskit::Role::Label, true, said)
    });
    kind_mark::paint(ui, rect.left_center() + vec2(kind_mark::SIDE * 0.5, 0.0), kind);
    let middle = rect.right() - rect.width() * 0.32;
    let place = Rect::from_x_y_ranges(
        rect.left() + kind_mark::SIDE + tokens::GAP_SMALL..=middle - tokens::GAP_SMALL,
        rect.y_range(),
    );
    let small = fonts::regular(tokens::SMALL);
    line_in(ui, place, &title, small.clone(), t.ink_soft, Align::Min);
    line_in(ui, rect.with_min_x(middle), &does, small, t.ink, Align::Max);
    response.on_hover_text(format!("{title}\n{}", influence.cited.line()));
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::{Cited, Source, SourceKind, Spread};

    fn influence(kind: SourceKind, moves: [f64; 5]) -> Influence {
        let from = Source { kind, text: "a test".to_owned() };
        let (unit, group, valid) = (String::new(), String::new(), String::new());
        let cited = Cited { value: 1.0, unit, spread: Spread::Uniform(0.5, 2.0), group, valid, from };
        Influence::new("gel.heated_pa".to_owned(), cited, moves)
    }

    #[test]
    fn weak_ones_are_counted_and_effects_are_in_the_makers_units() {
        let firm = influence(SourceKind::Published, [0.0, 4.0, 0.0, 0.0, 0.0]);
        let weak = influence(SourceKind::Assumed, [0.0, 0.0, 1.386, 0.0, 0.0]);
        assert_eq!(effect(&firm), "±\u{a0}2.0\u{a0}h to 4.6");
        assert_eq!(effect(&weak), "×÷\u{a0}2.0 thick");
        assert!(sentence(&[&firm, &weak]).contains("one is assumed or from memory"));
        assert!(sentence(&[&firm]).contains("published, derived"));
    }
}
