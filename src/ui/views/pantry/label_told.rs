//! What was understood of a label: warnings, kind, figures, class, the pot that it gives, and line by line.

use egui::{Align, Button, Rect, Sense, Ui, vec2};

use potset_app::command::{BenchCommand, PantryCommand, WindowCommand};
use potset_app::shelves::PantryPage;
use potset_app::state::View;
use potset_app::{Command, State};
use potset_base::{Severity, number};
use potset_catalogue::label::{
    LabelStudy, LineTold, Placed, Understood, Value, as_entry, into_design, lines,
};
use potset_doc::label::LabelReading;
use potset_doc::own::OwnEdit;
use potset_ui_kit::widgets::card::{Card, nothing};
use potset_ui_kit::widgets::note::NoteCard;
use potset_ui_kit::widgets::{line_in, pair, wrapped};
use potset_ui_kit::{fonts, tokens};

/// What the page keeps between frames.
#[derive(Default)]
pub struct LabelState {
    /// The lines of the reading with this number.
    lines: (u64, Vec<LineTold>),
}

impl LabelState {
    /// The lines are told anew with each reading.
    pub fn renew(&mut self, state: &State) {
        let desk = &state.shelves.label;
        if desk.answered == desk.question && self.lines.0 != desk.answered {
            let told = desk.read.as_ref().map_or_else(Vec::new, |read| lines(&desk.text, &read.0));
            self.lines = (desk.answered, told);
        }
    }
}

/// Draws the right column.
pub fn show(ui: &mut Ui, view: &LabelState, state: &State, out: &mut Vec<Command>) {
    let Some(read) = &state.shelves.label.read else {
        empty(ui);
        return;
    };
    let (reading, study) = (&read.0, &read.1);
    for note in &study.notes {
        let t = tokens::of(ui);
        let (edge, mark) = match note.severity {
            Severity::Tip => (t.note_info, ""),
            Severity::Watch => (t.note_watch, "⚠"),
            Severity::Stop | Severity::Error => (t.note_stop, "⚠"),
        };
        let more = match (note.sentence.as_str(), note.mend.as_str()) {
            (sentence, "") => sentence.to_owned(),
            ("", mend) => mend.to_owned(),
            (sentence, mend) => format!("{sentence}. {mend}"),
        };
        NoteCard { edge, mark, sentence: &note.title, more: &more, mend: None }.show(ui);
    }
    what(ui, study);
    actions(ui, reading, study, state, out);
    figures(ui, study);
    if let Some(placed) = &study.class {
        class(ui, study, placed);
    }
    by_line(ui, &view.lines.1);
}

fn empty(ui: &mut Ui) {
    let text = "Type or paste the words of a label at the left, or press one of the invented ones. Here you will see \
                what kind of base it is, its figures in 100 g, and what in it works against a culture. You will also \
                see how much of a coconut product is cream, and how the pot would differ.";
    nothing(ui, "No label is read yet", text, |_| ());
}

fn what(ui: &mut Ui, study: &LabelStudy) {
    Card::new("What it is").show(ui, |ui| {
        pair(ui, "kind of base", &study.kind_words());
        match &study.entry {
            Some(entry) => {
                let words = format!("{} ({}: {})", entry.name, entry.sure.words(), entry.why);
                pair(ui, "nearest entry", &words);
            }
            None if study.kind.is_some() => {
                pair(ui, "nearest entry", "the pantry has none of this kind");
            }
            None => {}
        }
        if let Some(extract) = study.extract {
            pair(ui, "declared share of the base", &format!("{} %", number::plain(extract)));
        }
        if !study.thickening.is_empty() {
            pair(ui, "thickens already", &study.thickening.join(", "));
        }
        match &study.against {
            Some(Ok(difference)) => {
                pair(ui, "the pot", &difference.sentence());
            }
            Some(Err(why)) => {
                pair(ui, "the pot", &format!("no forecast. {why}"));
            }
            None => {}
        }
        if !study.left_out.is_empty() {
            let words = study.left_out.join(", ");
            pair(ui, "not in this forecast, because no amount is known", &words);
        }
    });
}

fn actions(ui: &mut Ui, reading: &LabelReading, study: &LabelStudy, state: &State, out: &mut Vec<Command>) {
    let edit = into_design(reading, study);
    let none = if study.impossible {
        "A figure of the label cannot be true: check it against the packet first"
    } else {
        "No entry of the pantry is near enough to stand for this label"
    };
    ui.horizontal_wrapped(|ui| {
        let put = ui.add_enabled(edit.is_some(), Button::new("Put into the design"));
        let pressed = put.clicked();
        let tip = "The nearest entry with the label's figures, in place of the design's first base. Undo goes back \
                   in one step";
        put.on_hover_text(tip).on_disabled_hover_text(none);
        if let Some(edit) = edit.filter(|_| pressed) {
            out.push(BenchCommand::Edit(edit, None).into());
            out.push(WindowCommand::Show(View::Bench).into());
        }
        let keep = ui.add_enabled(study.line.is_some(), Button::new("Keep as an entry of mine"));
        let pressed = keep.clicked();
        keep.on_hover_text("A copy of the nearest entry with the stated figures").on_disabled_hover_text(none);
        if pressed && let Some(entry) = as_entry(reading, study, &state.pantry) {
            out.push(PantryCommand::Own(OwnEdit::Add(Box::new(entry))).into());
            out.push(PantryCommand::Page(PantryPage::Entries).into());
        }
    });
}

/// A row of three: name, value, quiet words.
fn row(ui: &mut Ui, [name, value, quiet]: [&str; 3], weak: bool) {
    let t = tokens::of(ui);
    let (row, _) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), Sense::hover());
    let part = |from: f32, to: f32| Rect::from_x_y_ranges(row.left() + from..=row.left() + to, row.y_range());
    let width = row.width();
    let (names, values) = ((0.36 * width).min(190.0), 110.0);
    line_in(ui, part(0.0, names), name, fonts::regular(tokens::BODY - 0.5), t.ink, Align::Min);
    line_in(ui, part(names, names + values), value, fonts::semibold(tokens::BODY - 0.5), t.ink, Align::Max);
    let color = if weak { t.warn } else { t.ink_soft };
    let rest = part(names + values + tokens::GAP, width);
    line_in(ui, rest, quiet, fonts::regular(tokens::SMALL + 0.5), color, Align::Min);
}

fn figures(ui: &mut Ui, study: &LabelStudy) {
    if study.values.is_empty() {
        return;
    }
    Card::new("In 100 g").quiet("stated, or filled in from the nearest entry").show(ui, |ui| {
        for value in &study.values {
            let shown = format!("{}{}g", number::figures(value.value, 3), number::NBSP);
            let weak = !value.stated || value.impossible;
            row(ui, [value.nutrient.words(), &shown, &how_sure(value)], weak);
        }
    });
}

fn how_sure(value: &Value) -> String {
    let bounds = format!("{} to {} g", number::figures(value.low, 2), number::figures(value.high, 2));
    match (value.stated, value.low < value.high) {
        _ if value.impossible => "stated, and cannot be true".to_owned(),
        _ if !value.worked.is_empty() && value.low < value.high => format!("{}, {bounds}", value.worked),
        _ if !value.worked.is_empty() => value.worked.clone(),
        (true, false) => "stated".to_owned(),
        (true, true) => format!("stated as less than, {bounds}"),
        (false, _) => format!("filled in, usually {bounds}"),
    }
}

fn class(ui: &mut Ui, study: &LabelStudy, placed: &Placed) {
    let title = "As a coconut product";
    let sure = if placed.borderline { "borderline" } else { "" };
    Card::new(title).quiet(sure).show(ui, |ui| {
        let misses =
            if placed.misses.is_empty() { String::new() } else { format!("; it misses {}", placed.misses) };
        pair(ui, "class by Codex CXS 240", &format!("{}{misses}", placed.class));
        if let Some(share) = study.cream_words() {
            pair(ui, "cream share", &share);
        }
        for m in &placed.margins {
            let value = format!("{} g", number::fixed(m.has, 1));
            let quiet = format!("limit {} g, margin {} g", number::fixed(m.limit, 1), number::fixed(m.by, 1));
            row(ui, [m.what, &value, &quiet], m.by < 0.0);
        }
        let t = tokens::of(ui);
        wrapped(ui, &placed.how(), fonts::regular(tokens::SMALL), t.ink_soft);
    });
}

fn by_line(ui: &mut Ui, lines: &[LineTold]) {
    let unread = lines.iter().filter(|l| l.understood != Understood::Wholly).count();
    let quiet = match unread {
        0 => "every line was understood".to_owned(),
        1 => "one line was not understood, or not wholly".to_owned(),
        n => format!("{n} lines were not understood, or not wholly"),
    };
    Card::new("Line by line").quiet(&quiet).show(ui, |ui| {
        for line in lines {
            let t = tokens::of(ui);
            let (told, color) = match line.understood {
                Understood::Wholly => (line.taken.clone(), t.ink_soft),
                Understood::Partly => (format!("⚠ not wholly understood: {}", line.taken), t.warn),
                Understood::Not => ("⚠ not understood".to_owned(), t.warn),
            };
            let text = format!("{}  {}", line.number, line.text);
            wrapped(ui, &text, fonts::regular(tokens::BODY - 0.5), t.ink);
            ui.indent(("line", line.number), |ui| {
                wrapped(ui, &told, fonts::regular(tokens::SMALL + 0.5), color);
            });
        }
    });
}
