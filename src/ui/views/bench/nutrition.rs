//! The fold *Nutrition, allergens, cost*: the table by the chosen custom, what is in it, what it costs.

use egui::{Grid, IdSalt, RichText, Ui};

use crate::app::{Command, State};
use crate::base::label_rule::LabelRule;
use crate::base::number;
use crate::doc::Kitchen;
use crate::study::nutrition::{self, ADVICE, Nutrition};
use crate::ui::tokens::{self, Tokens};
use crate::ui::widgets::picker::picker;
use crate::ui::{fonts, widgets, widgets::card};

/// Draws the fold.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
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
            table(ui, n, state.kitchen.label_rule, t);
            for text in sentences(n, state) {
                widgets::wrapped(ui, &text, fonts::regular(tokens::SMALL + 1.0), t.ink);
            }
            for text in [state.kitchen.label_rule.statement(), ADVICE] {
                widgets::wrapped(ui, text, fonts::regular(tokens::SMALL), t.ink_soft);
            }
            if ui.link(RichText::new("Copy as a table").size(tokens::SMALL)).clicked() {
                out.push(Command::Copy(nutrition::text(n, state.kitchen.label_rule)));
            }
        });
    });
}

fn rule(ui: &mut Ui, kitchen: &Kitchen, out: &mut Vec<Command>) {
    let names = LabelRule::ALL.map(LabelRule::place);
    let now = kitchen.label_rule.place();
    if let Some(i) = picker(ui, IdSalt::new("label rule"), "Custom of the table", now, &names) {
        out.push(Command::Kitchen(Kitchen { label_rule: LabelRule::ALL[i], ..kitchen.clone() }));
    }
}

fn table(ui: &mut Ui, n: &Nutrition, rule: LabelRule, t: &Tokens) {
    let small = |text: &str| RichText::new(text).size(tokens::SMALL).color(t.ink_soft);
    let serving = format!("a serving, {}", number::with_unit(n.serving_g, 0, "g"));
    Grid::new("nutrition table").num_columns(4).spacing([8.0, 2.0]).show(ui, |ui| {
        for head in ["", "100 g before", "100 g eaten", &serving] {
            ui.label(small(head));
        }
        ui.end_row();
        for row in nutrition::table(n, rule) {
            let soft = row.name.starts_with("of which");
            let name = RichText::new(row.name).size(tokens::SMALL + 1.0);
            ui.label(if soft { name.color(t.ink_soft) } else { name.color(t.ink) });
            for figure in [&row.before, &row.per_100g, &row.per_serving] {
                ui.label(RichText::new(figure).size(tokens::SMALL + 1.0).color(t.ink));
            }
            ui.end_row();
        }
    });
}

/// What is said under the table.
fn sentences(n: &Nutrition, state: &State) -> Vec<String> {
    let kitchen = &state.kitchen;
    let mut out = vec![format!(
        "{} of {} to eat: {} servings.{}",
        number::with_unit(n.kg, 2, "kg"),
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
    let c = &n.cost;
    if c.known > 0.0 {
        out.push(format!(
            "Costs {}: {} a serving, {} a kilogram.",
            kitchen.money(c.known),
            kitchen.money(c.per_serving),
            kitchen.money(c.per_kg)
        ));
    }
    if !c.missing.is_empty() {
        out.push(format!("No price yet: {}. Put prices in on the page of the entry.", c.missing.join(", ")));
    }
    if !n.unknown.is_empty() {
        out.push(format!("Not known, counted as nothing: {}.", n.unknown.join(", ")));
    }
    out
}
