//! Next pots from this one: a line of pots, each started with some of the last.

use egui::{Align, Grid, IdSalt, Label, Layout, RichText, ScrollArea, Ui, vec2};

use super::window;
use potset_app::command::BenchCommand;
use potset_app::{Action, Command, State};
use potset_base::number;
use potset_judge::next_pots::{FOLLOWED, Generation, LineAsk, USUAL, renew_at};
use potset_report::cautions::DEFER;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::lever::Lever;

/// Said under every line of pots.
const CAUTION: &str = "Only souring is computed, not other germs, phages or drift of the strains. Start anew when a \
                       pot smells or looks odd, or does not sour. Keep what starts the next pot cold and clean.";

/// Width of a column of figures and height of a row, points.
const COLUMN: f32 = 92.0;
const ROW: f32 = 19.0;

/// Draws the window.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let mut line = state.line;
    let mut done = false;
    let closed = window(ui, "Next pots from this one", 476.0, |ui| {
        let most = (ui.ctx().content_rect().height() - 150.0).max(160.0);
        ScrollArea::vertical().max_height(most).show(ui, |ui| {
            levers(ui, &mut line);
            ui.add_space(6.0);
            body(ui, state);
        });
        ui.add_space(6.0);
        done = ui.button("Close").clicked();
    });
    if line != state.line {
        out.push(BenchCommand::Line(line).into());
    }
    if closed || done {
        out.push(Command::Do(Action::NextPots));
    }
}

fn levers(ui: &mut Ui, line: &mut LineAsk) {
    let grams = Lever {
        said: None,
        id_salt: IdSalt::new(("next pots", "grams")),
        name: "Of the last pot",
        of: "",
        unit: "g/L",
        value: line.g_per_l,
        range: 5.0..=150.0,
        usual: Some((20.0, 30.0)),
        saved: None,
        reset_to: Some(LineAsk::default().g_per_l),
        decimals: 0,
        step: Some(5.0),
        logarithmic: false,
        beside: "",
        hover: "What is kept of a pot to start the next (common practice: 2 to 3 %)",
    };
    line.g_per_l = grams.show(ui).value.unwrap_or(line.g_per_l);
    let days = Lever {
        said: None,
        id_salt: IdSalt::new(("next pots", "days")),
        name: "Days between pots",
        of: "",
        unit: "days",
        value: line.days,
        range: 1.0..=28.0,
        usual: Some((2.0, 7.0)),
        saved: None,
        reset_to: Some(LineAsk::default().days),
        decimals: 0,
        step: Some(1.0),
        logarithmic: false,
        beside: "",
        hover: "How long it stands in the fridge meanwhile (common practice: a week at most)",
    };
    line.days = days.show(ui).value.unwrap_or(line.days);
}

fn body(ui: &mut Ui, state: &State) {
    let t = tokens::of(ui);
    let quiet = |text: &str| Label::new(RichText::new(text).color(t.ink_soft)).wrap();
    let pots = &state.answer.next_pots;
    if pots.is_empty() {
        let words = state.answer.errors.first().map_or("Following the pots…", |e| e.title.as_str());
        ui.add(quiet(words));
    } else {
        table(ui, pots);
        ui.add_space(6.0);
        ui.add(Label::new(RichText::new(renewal(pots)).color(t.ink)).wrap());
    }
    ui.add_space(4.0);
    ui.add(quiet(&format!("{CAUTION} {DEFER}.")));
}

fn table(ui: &mut Ui, pots: &[Generation]) {
    let t = tokens::of(ui);
    // Columns keep their width whatever stands in them.
    let right = |ui: &mut Ui, text: RichText| {
        let layout = Layout::right_to_left(Align::Center);
        let cell = ui.allocate_ui_with_layout(vec2(COLUMN, ROW), layout, |ui| {
            ui.set_min_width(COLUMN);
            ui.label(text)
        });
        cell.inner
    };
    Grid::new("generations").num_columns(5).spacing(vec2(10.0, 0.0)).min_row_height(ROW).show(ui, |ui| {
        let head = |name: &str| RichText::new(name).size(tokens::SMALL).color(t.ink_soft);
        ui.label(head("Pot"));
        for name in ["Million cells/g", "Acid carried in", "pH 4.6 after", "pH at the stop"] {
            right(ui, head(name));
        }
        ui.end_row();
        for pot in pots {
            let name = if pot.number == 0 { "this one".to_owned() } else { format!("{}", pot.number) };
            ui.label(name);
            let each: Vec<String> =
                pot.each.iter().map(|(name, count)| format!("{name}: {}", millions(*count))).collect();
            right(ui, RichText::new(millions(pot.start))).on_hover_text(each.join("\n"));
            right(ui, RichText::new(format!("{} %", number::fixed(pot.carried_percent, 3))));
            right(ui, RichText::new(pot.line_h.map_or_else(|| "not at all".to_owned(), number::hours)));
            right(ui, RichText::new(number::fixed(pot.ph, 2)));
            ui.end_row();
        }
    });
}

/// Cells in millions, "1.9" or "under 0.01".
fn millions(count: f64) -> String {
    if count < 1e4 { "under 0.01".to_owned() } else { number::figures(count / 1e6, 2) }
}

/// When to take a fresh packet, and why.
fn renewal(pots: &[Generation]) -> String {
    let due = renew_at(pots, USUAL);
    let slow = renew_at(pots, FOLLOWED + 1) == due;
    let why = if slow {
        "it would sour a quarter later than the first pot, or not at all"
    } else {
        "common practice, since a line drifts and picks up other germs, not computed here"
    };
    format!("Use a fresh packet for pot {due}: {why}.")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pot(number: u32, line_h: Option<f64>) -> Generation {
        Generation { number, start: 1e7, each: Vec::new(), carried_percent: 0.02, line_h, ph: 4.3 }
    }

    #[test]
    fn cells_that_are_hardly_there_take_no_room() {
        assert_eq!(millions(1.94e6), "1.9");
        assert_eq!(millions(1e-9), "under 0.01");
    }

    #[test]
    fn a_fresh_packet_is_due_by_practice_or_when_pots_slow_down() {
        let steady: Vec<Generation> = (0..=6).map(|n| pot(n, Some(5.0))).collect();
        assert!(renewal(&steady).starts_with("Use a fresh packet for pot 6: common practice"));
        let mut slow = steady;
        slow[3].line_h = Some(6.5);
        assert!(renewal(&slow).starts_with("Use a fresh packet for pot 3: it would sour"));
        slow[2].line_h = None;
        assert!(renewal(&slow).starts_with("Use a fresh packet for pot 2: it would sour"));
    }
}
