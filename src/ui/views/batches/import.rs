//! A logger's file: its first rows with what each column holds, what is wrong and what is odd, and its course before it is used.

use egui::{Grid, IdSalt, RichText, ScrollArea, Sense, Stroke, Ui, vec2};

use super::act;
use crate::views::paint::{self, Plot};
use potset_app::batches::{LoggerState, LoggerTold, LoggerWish};
use potset_app::command::BatchesCommand;
use potset_app::{Action, Command, State};
use potset_base::number::ticks;
use potset_base::units::{self, Degrees};
use potset_doc::batch::check::MOST_LOGGED;
use potset_logger::{DayOrder, Decimal, Delimiter, Layout, Role, Rows};
use potset_ui_kit::widgets::card::nothing;
use potset_ui_kit::widgets::card::{boxed, plain, quiet};
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::widgets::picker::{picker, width};
use potset_ui_kit::widgets::tick::tick;
use potset_ui_kit::widgets::wrapped;
use potset_ui_kit::{fonts, tokens};

/// Faults that are shown at first; the rest follow on demand.
const FAULTS: usize = 8;
/// What a column may hold, what is chosen most first.
const ROLES: [Role; 11] = [
    Role::Skip,
    Role::Warmth,
    Role::Ph,
    Role::Time,
    Role::Day,
    Role::Clock,
    Role::Elapsed,
    Role::Hours,
    Role::Minutes,
    Role::Seconds,
    Role::Milliseconds,
];
/// Height of the curve, and room at its left, points.
const HEIGHT: f32 = 110.0;
const LEFT: f32 = 44.0;

/// Draws the page.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let Some(open) = &state.batches.open else {
        let text = "A logger's temperatures belong to a pot. Open that pot in “This pot” first.";
        nothing(ui, "No pot is open", text, |_| {});
        return;
    };
    let Some(logger) = &state.batches.logger else {
        let text = "Choose the file that your logger wrote, or drop it on the window. You see its columns before anything is \
                    used, and no row is dropped without being told.";
        let title = format!("A logger's file for {}", open.batch.name);
        nothing(ui, &title, text, |ui| act(ui, state, Action::ReadLogger, out));
        return;
    };
    if let Some(note) = &logger.trouble {
        nothing(ui, "The file cannot be read", &note.line(), |ui| act(ui, state, Action::ReadLogger, out));
        return;
    }
    let Some(told) = &logger.told else {
        quiet(ui, "The file is read now");
        return;
    };
    let mut hand = Hand { logger, told, out };
    let file = logger.path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    boxed(ui, &format!("{file}, for {}", open.batch.name), |ui| {
        layout(ui, &mut hand);
        table(ui, &mut hand);
    });
    match &told.rows {
        Err(note) => boxed(ui, "Not readable this way", |ui| {
            let words = format!("{}. {}", note.title, note.mend);
            wrapped(ui, &words, fonts::regular(tokens::BODY), tokens::of(ui).warn);
        }),
        Ok(rows) => {
            boxed(ui, "What was read", |ui| found(ui, &mut hand, rows));
            boxed(ui, "Its course", |ui| course(ui, &mut hand));
        }
    }
    buttons(ui, &mut hand);
}

struct Hand<'a> {
    logger: &'a LoggerState,
    told: &'a LoggerTold,
    out: &'a mut Vec<Command>,
}

impl Hand<'_> {
    fn wish(&mut self, change: impl FnOnce(&mut LoggerWish)) {
        let mut wish = self.logger.wish.clone();
        change(&mut wish);
        self.out.push(BatchesCommand::LoggerWish(wish).into());
    }

    /// Reads it by another layout; what was doubtful was looked at then.
    fn layout(&mut self, change: impl FnOnce(&mut Layout)) {
        // What was chosen a moment ago may not be read yet.
        let mut layout = self.logger.wish.layout.clone().unwrap_or_else(|| self.told.layout.clone());
        change(&mut layout);
        layout.doubts.clear();
        self.wish(|wish| wish.layout = Some(layout));
    }
}

/// What parts columns, decimals, the order of dates, degrees.
fn layout(ui: &mut Ui, hand: &mut Hand<'_>) {
    let layout = hand.told.layout.clone();
    ui.horizontal_wrapped(|ui| {
        let all: Vec<String> = Delimiter::USUAL.iter().map(|one| one.words()).collect();
        let names: Vec<&str> = all.iter().map(String::as_str).collect();
        ui.label("Columns are parted by");
        if let Some(i) = picker(ui, IdSalt::new("parted"), "Parted by", &layout.delimiter.words(), &names) {
            hand.layout(|layout| layout.delimiter = Delimiter::USUAL[i]);
        }
        let names = Decimal::ALL.map(Decimal::words);
        if let Some(i) = picker(ui, IdSalt::new("decimal"), "Decimals", layout.decimal.words(), &names) {
            hand.layout(|layout| layout.decimal = Decimal::ALL[i]);
        }
        let names = DayOrder::ALL.map(DayOrder::words);
        if let Some(i) = picker(ui, IdSalt::new("order"), "Order of dates", layout.order.words(), &names) {
            hand.layout(|layout| layout.order = DayOrder::ALL[i]);
        }
        let degrees = [Degrees::Celsius, Degrees::Fahrenheit];
        let current = usize::from(layout.degrees == Degrees::Fahrenheit);
        if let Some(i) = picker(ui, IdSalt::new("degrees"), "Degrees", ["°C", "°F"][current], &["°C", "°F"])
        {
            hand.layout(|layout| layout.degrees = degrees[i]);
        }
    });
    for doubt in &layout.doubts {
        wrapped(ui, doubt.words(), fonts::regular(tokens::BODY), tokens::of(ui).warn);
    }
}

/// The first rows, with a choice of what each column holds above them.
fn table(ui: &mut Ui, hand: &mut Hand<'_>) {
    let t = tokens::of(ui);
    let told = hand.told;
    let preview = &told.preview;
    quiet(ui, "Say above each column what it holds:");
    ScrollArea::both().id_salt("rows of the logger").max_height(230.0).auto_shrink([false, true]).show(
        ui,
        |ui| {
            Grid::new("rows").striped(true).spacing([12.0, 3.0]).show(ui, |ui| {
                ui.label("");
                for column in 0..preview.columns {
                    let role = told.layout.columns.get(column).copied().unwrap_or_default();
                    let names = ROLES.map(Role::words);
                    let name = format!("Column {}", column + 1);
                    // A grid gives a picker no width of its own.
                    let picked = ui.horizontal(|ui| {
                        ui.set_min_width(width(ui, role.words()));
                        picker(ui, IdSalt::new(("role", column)), &name, role.words(), &names)
                    });
                    if let Some(i) = picked.inner {
                        hand.layout(|layout| layout.set(column, ROLES[i]));
                    }
                }
                ui.end_row();
                let mut cells = |row: &str, cells: &[String], color| {
                    ui.label(RichText::new(row).color(t.ink_soft));
                    for cell in cells {
                        ui.label(RichText::new(cell).color(color));
                    }
                    ui.end_row();
                };
                if let Some(header) = &preview.header {
                    cells("title", header, t.ink_soft);
                }
                for (row, text) in &preview.rows {
                    cells(&row.to_string(), text, t.ink);
                }
            });
        },
    );
}

/// Counts, faults by their row, and what is odd.
fn found(ui: &mut Ui, hand: &mut Hand<'_>, rows: &Rows) {
    let t = tokens::of(ui);
    let told = &rows.told;
    let words = format!(
        "{} rows: {} read, {} not, {} of titles or empty",
        told.rows,
        rows.points.len(),
        rows.faults.len(),
        told.titles + told.blank
    );
    wrapped(ui, &words, fonts::semibold(tokens::BODY), t.ink);
    for words in told.lines() {
        plain(ui, &words);
    }
    for fault in rows.faults.iter().take(FAULTS) {
        wrapped(ui, &fault.words(), fonts::regular(tokens::BODY), t.warn);
    }
    if rows.faults.len() > FAULTS {
        let rest = format!("{} more rows that could not be read", rows.faults.len() - FAULTS);
        ui.collapsing(rest, |ui| {
            // A damaged file may hold thousands: only those in sight are drawn.
            ScrollArea::vertical().max_height(160.0).show_rows(
                ui,
                18.0,
                rows.faults.len() - FAULTS,
                |ui, range| {
                    for fault in &rows.faults[FAULTS..][range] {
                        ui.add(egui::Label::new(fault.words()).truncate());
                    }
                },
            );
        });
    }
    let mut keep = hand.logger.wish.keep_spikes;
    if told.find(|odd| matches!(odd, potset_logger::Odd::Spike)).is_some()
        && tick(ui, &mut keep, "Keep values that jump away and back").changed()
    {
        hand.wish(|wish| wish.keep_spikes = keep);
    }
}

/// When the file begins, and its curve.
fn course(ui: &mut Ui, hand: &mut Hand<'_>) {
    let told = hand.told;
    let mut by_clock = hand.logger.wish.begins_h.is_none();
    if tick(ui, &mut by_clock, "Its times are those of the clock, or count from the culture").changed() {
        hand.wish(|wish| wish.begins_h = (!by_clock).then_some(0.0));
    }
    if let Some(begins) = hand.logger.wish.begins_h {
        ui.horizontal_wrapped(|ui| {
            ui.label("It begins so long after the culture went in");
            let number = Number {
                name: "The file begins",
                unit: "h",
                value: begins,
                range: -48.0..=480.0,
                decimals: 2,
                speed: 0.1,
                hover: "Less than nothing where the logger was switched on before",
            };
            if let Some(value) = number.show(ui).value {
                hand.wish(|wish| wish.begins_h = Some(value));
            }
        });
    }
    if told.beyond > 0 {
        let words = format!(
            "{} values lie more than a day before the culture went in, or months after it. They are left out",
            told.beyond
        );
        wrapped(ui, &words, fonts::regular(tokens::BODY), tokens::of(ui).warn);
    }
    let (Some(first), Some(last)) = (told.drawn.first(), told.drawn.last()) else {
        quiet(
            ui,
            "No temperature falls into the time of this pot. Check the time of the culture, or when the file begins.",
        );
        return;
    };
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT + 22.0), Sense::hover());
    let inner = egui::Rect::from_min_max(rect.min + vec2(LEFT, 2.0), rect.max - vec2(8.0, 22.0));
    let (low, high) = told
        .drawn
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (_, c)| (low.min(*c), high.max(*c)));
    let plot = Plot { rect: inner, x: (first.0, last.0.max(first.0 + 0.1)), y: (low - 2.0, high + 2.0) };
    let t = tokens::of(ui);
    ui.painter().rect_filled(plot.rect, 0.0, t.sheet);
    paint::grid_y(ui, &plot, ticks(plot.y, 4.0, units::WARMTH));
    paint::axis(ui, &plot, |_| None);
    plot.inside(ui)
        .line(plot.path(told.drawn.iter().copied()), Stroke::new(tokens::CURVE, t.temperature.line));
    if told.course.len() > MOST_LOGGED {
        let words = format!("A pot keeps {MOST_LOGGED} values of it, all peaks among them");
        quiet(ui, &words);
    }
}

fn buttons(ui: &mut Ui, hand: &mut Hand<'_>) {
    let told = hand.told;
    ui.horizontal_wrapped(|ui| {
        let any = !told.course.is_empty();
        if ui.add_enabled(any, egui::Button::new("Use its warmth")).clicked() {
            hand.out.push(BatchesCommand::UseLogger(false).into());
        }
        if !told.ph.is_empty() {
            let both = ui.button("Use its warmth and pH");
            if both.on_hover_text("A pH reading is taken every two hours").clicked() {
                hand.out.push(BatchesCommand::UseLogger(true).into());
            }
        }
        if ui.button("Another file…").clicked() {
            hand.out.push(BatchesCommand::AskLogger.into());
        }
        if ui.button("Cancel").clicked() {
            hand.out.push(BatchesCommand::CloseLogger.into());
        }
    });
}
