//! What is known of a pot besides its readings: its name, its times, packet, lots, who made it, stars, note.

use egui::accesskit::Role;
use egui::{Grid, Sense, Ui, WidgetInfo, vec2};

use crate::views::recipes::star;
use potset_app::batches::OpenBatch;
use potset_app::command::{BatchesCommand, WindowCommand};
use potset_app::{Command, State};
use potset_base::Note;
use potset_base::clock::{Moment, is_day};
use potset_doc::batch::Lot;
use potset_doc::batch::change::BatchChange;
use potset_doc::recipe::MOST_STARS;
use potset_report::batch::{day, use_by};
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::card::{boxed, quiet};
use potset_ui_kit::widgets::field::{area, field, refuse};
use potset_ui_kit::widgets::tick::tick;

/// Width of a field, points.
const WIDTH: f32 = 260.0;

/// What the card pushes.
struct Hand<'a> {
    state: &'a State,
    open: &'a OpenBatch,
    out: &'a mut Vec<Command>,
}

impl Hand<'_> {
    fn change(&mut self, change: BatchChange) {
        self.out.push(BatchesCommand::Change(self.open.file.clone(), vec![change]).into());
    }

    fn refuse(&mut self, field: &str, title: String, mend: &str) {
        self.out.push(WindowCommand::ShowRefusal(Note::error(field, title, mend)).into());
    }

    /// A time that is over, as it was typed.
    fn moment(&mut self, name: &str, typed: &str) -> Option<Moment> {
        let now = self.state.now;
        let read = now.map_or_else(|| Moment::parse(typed), |now| Moment::spoken_past(typed, now));
        let read = read.or_else(|| self.state.moment(typed));
        if read.is_none() {
            let title = format!("I don't know the time “{}”", typed.trim());
            self.refuse(name, title, "Type it like 21:40, yesterday 18:30 or 2026-12-01 18:30");
        }
        read
    }
}

/// Draws the card.
pub fn show(ui: &mut Ui, state: &State, open: &OpenBatch, out: &mut Vec<Command>) {
    let mut hand = Hand { state, open, out };
    boxed(ui, "About this pot", |ui| {
        Grid::new("about the pot").num_columns(2).spacing([14.0, 5.0]).show(ui, |ui| {
            fields(ui, &mut hand);
        });
        let note = &open.batch.note;
        if let Some(typed) = area(ui, "Note of the pot", note, "What you want to remember of it") {
            hand.change(BatchChange::Note(typed));
        }
        ends(ui, &mut hand);
    });
}

fn row(ui: &mut Ui, words: &str, show: impl FnOnce(&mut Ui)) {
    ui.label(words);
    ui.horizontal_wrapped(show);
    ui.end_row();
}

fn fields(ui: &mut Ui, hand: &mut Hand<'_>) {
    let batch = hand.open.batch.clone();
    row(ui, "Name", |ui| {
        if let Some(name) = field(ui, "Name of the pot", &batch.name, "Name", WIDTH)
            && !name.trim().is_empty()
        {
            hand.change(BatchChange::Name(name.trim().to_owned()));
        }
    });
    row(ui, "Stars", |ui| stars(ui, batch.stars, hand));
    row(ui, "Culture went in", |ui| culture(ui, hand));
    row(ui, "Taken out of the warmth", |ui| stopped(ui, hand));
    row(ui, "Packet", |ui| {
        if let Some(typed) = field(ui, "Packet of culture", &batch.packet, "such as B, opened in May", WIDTH)
        {
            hand.change(BatchChange::Packet(typed.trim().to_owned()));
        }
    });
    row(ui, "Lots", |ui| {
        let shown: Vec<String> = batch.lots.iter().map(|lot| format!("{}: {}", lot.of, lot.lot)).collect();
        if let Some(typed) = field(ui, "Lots", &shown.join("; "), "coconut milk: L2211; starch: 7", WIDTH) {
            match lots(&typed) {
                Some(lots) => hand.change(BatchChange::Lots(lots)),
                None => {
                    refuse(ui, "Lots", &typed);
                    hand.refuse(
                        "Lots",
                        "I don't know which lot is of what".to_owned(),
                        "Type it like coconut milk: L2211; starch: 7",
                    );
                }
            }
        }
    });
    row(ui, "Made by", |ui| {
        if let Some(typed) = field(ui, "Made by", &batch.who, "Name", WIDTH) {
            hand.change(BatchChange::Who(typed.trim().to_owned()));
        }
    });
    row(ui, "Use by", |ui| {
        let planned = use_by(&batch).map(|by| day(&by)).unwrap_or_default();
        if let Some(typed) = field(ui, "Use by", &batch.use_by, "2026-12-10", 120.0) {
            match typed.trim() {
                typed if typed.is_empty() || is_day(typed) => {
                    hand.change(BatchChange::UseBy(typed.to_owned()));
                }
                typed => {
                    refuse(ui, "Use by", typed);
                    hand.refuse("Use by", format!("“{typed}” is no day"), "Type it like 2026-12-10");
                }
            }
        }
        if batch.use_by.is_empty() && !planned.is_empty() {
            quiet(ui, &format!("by its design {planned}"));
        }
    });
}

/// "coconut milk: L2211; starch: 7" as lots.
fn lots(typed: &str) -> Option<Vec<Lot>> {
    let parts = typed.split(';').map(str::trim).filter(|part| !part.is_empty());
    parts
        .map(|part| {
            let (of, lot) = part.split_once(':')?;
            Some(Lot { of: of.trim().to_owned(), lot: lot.trim().to_owned() })
        })
        .collect()
}

fn stars(ui: &mut Ui, count: u8, hand: &mut Hand<'_>) {
    let t = tokens::of(ui);
    ui.spacing_mut().item_spacing.x = 2.0;
    for n in 1..=MOST_STARS {
        let (rect, response) = ui.allocate_exact_size(vec2(22.0, 22.0), Sense::click());
        let on = n <= count;
        star(ui, rect.center(), 8.0, if on || response.hovered() { t.accent } else { t.rail });
        let words = if n == 1 { "1 star".to_owned() } else { format!("{n} stars") };
        response.widget_info(|| WidgetInfo::selected(Role::Button, true, on, &words));
        // The same star once more takes it away.
        if response.clicked() {
            hand.change(BatchChange::Stars(if count == n { n - 1 } else { n }));
        }
        response.on_hover_text(words);
    }
}

/// When the culture went in.
fn culture(ui: &mut Ui, hand: &mut Hand<'_>) {
    let batch = hand.open.batch.clone();
    let shown = batch.start().map_or_else(String::new, Moment::text);
    if let Some(typed) = field(ui, "Culture went in", &shown, "21:40, or yesterday 18:30", WIDTH)
        && let Some(moment) = hand.moment("Culture went in", &typed)
    {
        let zone = hand.state.zone.name().to_owned();
        hand.change(BatchChange::CultureIn(moment.text(), zone));
    }
    let now = hand.state.now.filter(|_| batch.running() && batch.readings.is_empty());
    if let Some(now) = now {
        let button = ui.button("The culture goes in now");
        if button.clicked() {
            hand.change(BatchChange::CultureIn(now.text(), hand.state.zone.name().to_owned()));
        }
        button.on_hover_text("All times that follow are counted from now");
    }
}

/// When it was taken out of the warmth.
fn stopped(ui: &mut Ui, hand: &mut Hand<'_>) {
    let batch = hand.open.batch.clone();
    let shown = batch.stopped_h.and_then(|at_h| batch.moment(at_h)).map_or_else(String::new, Moment::text);
    if let Some(typed) = field(ui, "Taken out of the warmth", &shown, "not yet", WIDTH) {
        if typed.trim().is_empty() {
            hand.change(BatchChange::Stopped(None));
        } else if let Some(moment) = hand.moment("Taken out of the warmth", &typed) {
            match batch.hours_to(moment, &hand.state.zone).filter(|at_h| *at_h >= 0.0) {
                Some(at_h) => hand.change(BatchChange::Stopped(Some(at_h))),
                None => hand.refuse(
                    "Taken out of the warmth",
                    "This is before the culture went in".to_owned(),
                    "Give a later time, or correct when the culture went in",
                ),
            }
        }
    }
    let now_h = hand.state.now.and_then(|now| batch.hours_to(now, &hand.state.zone));
    if let Some(now_h) = now_h.filter(|h| *h >= 0.0 && batch.running() && batch.stopped_h.is_none())
        && ui.button("Stop now").on_hover_text("It goes into the cold now").clicked()
    {
        hand.change(BatchChange::Stopped(Some(now_h)));
    }
}

/// What ends it, and what leaves it out of learning.
fn ends(ui: &mut Ui, hand: &mut Hand<'_>) {
    let batch = hand.open.batch.clone();
    let mut ended = batch.ended;
    if tick(ui, &mut ended, "Ended: it is no longer followed").changed() {
        hand.change(BatchChange::Ended(ended));
    }
    let mut left_out = batch.left_out;
    if tick(ui, &mut left_out, "Left out: nothing is learnt from it").changed() {
        hand.change(BatchChange::LeftOut(left_out));
    }
    if !batch.code.is_empty() {
        quiet(ui, &format!("Code of its card: {}", batch.code));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lots_are_read_and_what_is_no_lot_is_refused() {
        let lot = |of: &str, lot: &str| Lot { of: of.to_owned(), lot: lot.to_owned() };
        assert_eq!(
            lots("coconut milk: L22; starch:7 ;"),
            Some(vec![lot("coconut milk", "L22"), lot("starch", "7")])
        );
        assert_eq!(lots(" "), Some(Vec::new()));
        assert_eq!(lots("L22"), None);
    }
}
