//! What an own entry says of itself: ticks for allergens, vegan and gluten-free, fields for other names and cautions.

use egui::Ui;

use potset_app::Command;
use potset_app::command::PantryCommand;
use potset_base::allergen::allergens;
use potset_catalogue::pantry_page::Page;
use potset_doc::own::{About, OwnEdit};
use potset_ui_kit::widgets::card::Card;
use potset_ui_kit::widgets::field::{area, field};
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Room for the longest allergen with its box, points.
const TICK: f32 = 160.0;

/// Draws the card; nothing for what ships and for what is no food.
pub fn card(ui: &mut Ui, page: &Page, out: &mut Vec<Command>) {
    let Some((vegan, gluten_free)) = page.claims.filter(|_| page.own) else { return };
    let mut put =
        |about| out.push(PantryCommand::Own(OwnEdit::About(page.kind, page.key.clone(), about)).into());
    Card::new("What the entry says").quiet("yours to change").show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            let (mut vegan, mut free) = (vegan, gluten_free);
            if tick(ui, &mut vegan, "Vegan").changed() {
                put(About::Vegan(vegan));
            }
            if tick(ui, &mut free, "Gluten-free").changed() {
                put(About::GlutenFree(free));
            }
        });
        let t = tokens::of(ui);
        wrapped(ui, "Allergens in it", fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
        let fit = if ui.available_width() < 3.0 * TICK { 2 } else { 3 };
        for row in allergens().chunks(fit) {
            ui.columns(fit, |columns| {
                for (ui, allergen) in columns.iter_mut().zip(row) {
                    let mut named = page.allergen_keys.contains(&allergen.key);
                    if tick(ui, &mut named, allergen.words()).changed() {
                        put(About::Allergen(allergen.key.clone(), named));
                    }
                }
            });
        }
        let width = ui.available_width();
        let names = page.aliases.join(", ");
        if let Some(text) = field(ui, "Other names", &names, "Other names, with commas between", width) {
            put(About::Aliases(text.split(',').map(str::to_owned).collect()));
        }
        let cautions = page.hazards.join("\n");
        if let Some(text) = area(ui, "Cautions", &cautions, "Cautions, one a line") {
            put(About::Cautions(text.lines().map(str::to_owned).collect()));
        }
    });
}
