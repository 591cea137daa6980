//! How far the model is off published readings, in the window of numbers.

use egui::{Grid, RichText, Ui, vec2};

use potset_doc::assets::EVIDENCE_HEADLINE;
use potset_ui_kit::{fonts, tokens};

/// What the figures of the table mean.
const MEANS: &str = "Root mean square difference in scatters of the reading, 1 where the model is as good as the readings; in \
                     brackets how many. The last three columns: cases that helped to set shared figures, cases that were seen \
                     while a figure was chosen, and cases that only check.";

/// Cells of the rows of a table of Markdown, its rule left out.
fn rows(table: &str) -> impl Iterator<Item = Vec<&str>> {
    table
        .lines()
        .filter(|line| !line.contains("--"))
        .map(|line| line.trim_matches('|').split('|').map(str::trim).collect())
}

/// The fold with the table.
pub fn show(ui: &mut Ui) {
    let t = tokens::of(ui);
    let font = fonts::regular(tokens::SMALL + 1.0);
    let title = RichText::new("How far it is off published readings").color(t.ink_soft);
    egui::CollapsingHeader::new(title).id_salt("evidence headline").show(ui, |ui| {
        ui.add(egui::Label::new(RichText::new(MEANS).font(font.clone()).color(t.ink_soft)).wrap());
        egui::ScrollArea::vertical().id_salt("evidence rows").max_height(200.0).show(ui, |ui| {
            Grid::new("evidence headline rows").spacing(vec2(18.0, 2.0)).show(ui, |ui| {
                for (i, row) in rows(EVIDENCE_HEADLINE).enumerate() {
                    let color = if i == 0 { t.ink_soft } else { t.ink };
                    for cell in row {
                        ui.label(RichText::new(cell).font(font.clone()).color(color));
                    }
                    ui.end_row();
                }
            });
        });
    });
    ui.add_space(tokens::GAP_SMALL);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_has_every_column() {
        let all: Vec<_> = rows(EVIDENCE_HEADLINE).collect();
        assert!(all.len() > 10);
        assert!(all.iter().all(|row| row.len() == all[0].len()), "{all:?}");
    }
}
