//! The fold *Nutrition, allergens, cost*: the table by the chosen custom, what is in it, what it costs.

use egui::{Align2, Color32, FontId, IdSalt, Response, RichText, Sense, Ui, WidgetInfo, pos2, vec2};

use potset_app::command::WindowCommand;
use potset_app::{Command, State};
use potset_base::label_rule::LabelRule;
use potset_base::measures::whole::weight;
use potset_base::number;
use potset_base::units::{self, Amounts};
use potset_doc::Kitchen;
use potset_judge::nutrition::Nutrition;
use potset_report::nutrition::{self, ADVICE};
use potset_ui_kit::tokens;
use potset_ui_kit::tokens::Tokens;
use potset_ui_kit::widgets::card;
use potset_ui_kit::widgets::picker::picker;
use potset_ui_kit::{fonts, widgets};

/// Draws the fold. `before`: the table shows the mix before the culture.
pub fn show(ui: &mut Ui, state: &State, before: &mut bool, out: &mut Vec<Command>) {
    let n = &state.answer.nutrition;
    if n.kg <= 0.0 {
        return;
    }
    let t = tokens::of(ui);
    let title = RichText::new("Nutrition, allergens, cost").font(fonts::semibold(tokens::BODY)).color(t.ink);
    egui::CollapsingHeader::new(title).id_salt("nutrition").show_unindented(ui, |ui| {
        card::frame(t).show(ui, |ui| {
            ui.set_width(ui.available_width());
            rule(ui, &state.kitchen, out);
            table(ui, n, state.kitchen.label_rule, before, t);
            for text in sentences(n, state) {
                widgets::wrapped(ui, &text, fonts::regular(tokens::SMALL + 1.0), t.ink);
            }
            for text in [state.kitchen.label_rule.statement(), ADVICE] {
                widgets::wrapped(ui, text, fonts::regular(tokens::SMALL), t.ink_soft);
            }
            if ui.link(RichText::new("Copy as a table").size(tokens::SMALL)).clicked() {
                out.push(WindowCommand::Copy(nutrition::text(n, state.kitchen.label_rule)).into());
            }
        });
    });
}

fn rule(ui: &mut Ui, kitchen: &Kitchen, out: &mut Vec<Command>) {
    let names = LabelRule::ALL.map(LabelRule::place);
    let now = kitchen.label_rule.place();
    if let Some(i) = picker(ui, IdSalt::new("label rule"), "Custom of the table", now, &names) {
        out.push(WindowCommand::Kitchen(Kitchen { label_rule: LabelRule::ALL[i], ..kitchen.clone() }).into());
    }
}

/// Height of a row, and how far the right edges of the two columns of figures are apart.
const ROW: f32 = 17.0;
const APART: f32 = 76.0;

fn table(ui: &mut Ui, n: &Nutrition, rule: LabelRule, before: &mut bool, t: &Tokens) {
    ui.spacing_mut().item_spacing.y = 3.0;
    ui.horizontal(|ui| {
        for (words, which) in [("as eaten", false), ("before the culture", true)] {
            if ui.selectable_label(*before == which, RichText::new(words).size(tokens::SMALL)).clicked() {
                *before = which;
            }
        }
    });
    let small = fonts::regular(tokens::SMALL);
    let serving = number::with_unit(n.serving_g, 0, "g");
    let last = if *before { "" } else { serving.as_str() };
    row(ui, &small, [("", t.ink_soft), ("100 g", t.ink_soft), (last, t.ink_soft)]);
    let font = fonts::regular(tokens::SMALL + 1.0);
    for line in nutrition::table(n, rule) {
        let color = if line.is_part { t.ink_soft } else { t.ink };
        let figures = if *before { [&line.before, ""] } else { [line.per_100g.as_str(), &line.per_serving] };
        let response = row(ui, &font, [(line.name, color), (figures[0], t.ink), (figures[1], t.ink)]);
        let told = format!(
            "{}: {} in 100 g as eaten, {} in a serving, {} in 100 g before the culture",
            line.name, line.per_100g, line.per_serving, line.before
        );
        response.widget_info(|| WidgetInfo::labeled(egui::accesskit::Role::Label, true, &told));
        response.on_hover_text(told);
    }
}

/// A row in the width that there is: a name at the left, two figures at the right.
fn row(ui: &mut Ui, font: &FontId, cells: [(&str, Color32); 3]) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::hover());
    let painter = ui.painter();
    let y = rect.center().y;
    painter.text(pos2(rect.left(), y), Align2::LEFT_CENTER, cells[0].0, font.clone(), cells[0].1);
    let right = rect.right();
    painter.text(pos2(right - APART, y), Align2::RIGHT_CENTER, cells[1].0, font.clone(), cells[1].1);
    painter.text(pos2(right, y), Align2::RIGHT_CENTER, cells[2].0, font.clone(), cells[2].1);
    response
}

/// What there is to eat, kg, in words.
fn eaten(kg: f64) -> String {
    match units::spoken().amounts {
        Amounts::Metric => number::with_unit(kg, 2, "kg"),
        Amounts::UsCustomary => weight(1000.0 * kg),
    }
}

/// What is said under the table.
fn sentences(n: &Nutrition, state: &State) -> Vec<String> {
    let kitchen = &state.kitchen;
    let mut out = vec![format!(
        "{} of {} to eat: {} servings.{}",
        eaten(n.kg),
        state.design().name,
        number::fixed(n.servings, 1),
        if n.strained > 0.0 {
            format!(
                " {} of the pot ran off as whey, counted without protein and fat.",
                number::with_unit(n.strained * 100.0, 0, "%")
            )
        } else {
            String::new()
        }
    )];
    out.push(nutrition::allergen_words(n, kitchen.label_rule));
    out.push(nutrition::gluten_words(n));
    out.push(if n.animal.is_empty() {
        "Vegan, as far as what goes in says.".to_owned()
    } else {
        format!("Not vegan: {}.", n.animal.join(", "))
    });
    out.extend(nutrition::lactose(n));
    out.extend(nutrition::cost_words(&n.cost, kitchen));
    if !n.cost.missing.is_empty() {
        out.push("Write prices on the page of the entry.".to_owned());
    }
    if !n.unknown.is_empty() {
        out.push(format!("Not known, counted as nothing: {}.", n.unknown.join(", ")));
    }
    out
}
