//! The maker's hand on the levers: drags become gestures, values become edits.

use std::collections::HashMap;

use egui::{IdSalt, Ui};

use super::kept::{Kept, Reach};
use potset_app::command::{BenchCommand, BesideCommand, WindowCommand};
use potset_app::{Command, State};
use potset_base::Note;
use potset_base::measures::Said;
use potset_doc::edit::LineKind;
use potset_doc::history::Gesture as Id;
use potset_doc::settings::Depth;
use potset_doc::{Design, Edit};
use potset_forecast::lever::spans::Span;
use potset_ui_kit::tokens;
use potset_ui_kit::widgets::lever::{Gesture, Lever, LeverOut};
use potset_ui_kit::widgets::measured::Measured;
use potset_ui_kit::widgets::number::Number;
use potset_ui_kit::{fonts, widgets};

/// The live gesture, and what a blend is to reach.
#[derive(Default)]
pub struct HandState {
    pub reach: Reach,
    pub choices: HashMap<LineKind, Kept>,
    live: Option<(String, Id)>,
    next: Id,
}

impl HandState {
    /// Turns what a lever of the bench reports into commands.
    pub fn push(&mut self, lever: &str, gesture: Gesture, edit: Option<Edit>, out: &mut Vec<Command>) {
        self.turn(None, lever, gesture, edit, out);
    }

    /// The same for a lever of a column of Beside.
    pub fn push_column(
        &mut self,
        column: u64,
        lever: &str,
        gesture: Gesture,
        edit: Option<Edit>,
        out: &mut Vec<Command>,
    ) {
        self.turn(Some(column), &format!("{column} {lever}"), gesture, edit, out);
    }

    fn turn(
        &mut self,
        column: Option<u64>,
        lever: &str,
        gesture: Gesture,
        edit: Option<Edit>,
        out: &mut Vec<Command>,
    ) {
        let fresh = self.live.as_ref().is_none_or(|(name, _)| name != lever);
        let begins = gesture == Gesture::Started || (gesture == Gesture::Going && fresh);
        if gesture == Gesture::None && edit.is_none() {
            return;
        }
        if begins {
            self.next += 1;
            self.live = Some((lever.to_owned(), self.next));
            // Only the bench draws the curves of before.
            out.extend(column.is_none().then(|| BenchCommand::Began(self.next).into()));
        }
        let live = self.live.as_ref().filter(|(name, _)| name == lever).map(|(_, id)| *id);
        if let Some(edit) = edit {
            out.push(match column {
                None => BenchCommand::Edit(edit, live).into(),
                Some(id) => BesideCommand::Edit(id, edit, live).into(),
            });
        }
        if gesture == Gesture::Ended && live.is_some() {
            self.live = None;
            out.push(
                column.map_or_else(
                    || BenchCommand::EndGesture.into(),
                    |id| BesideCommand::EndGesture(id).into(),
                ),
            );
        }
    }
}

/// State to read, and where commands go.
pub struct EditContext<'a> {
    pub state: &'a State,
    pub view: &'a mut HandState,
    pub out: &'a mut Vec<Command>,
}

/// What a lever row needs besides its name.
pub struct Row<'a> {
    pub name: &'a str,
    pub unit: &'a str,
    pub value: f64,
    /// The value in the design as saved.
    pub saved: Option<f64>,
    pub range: (f64, f64),
    pub usual: Option<(f64, f64)>,
    pub decimals: usize,
    pub step: f64,
    pub beside: String,
    pub hover: String,
}

impl<'a> Row<'a> {
    /// The row of a number: nothing beside it, nothing on hover.
    pub fn new(name: &'a str, span: &Span, value: f64, saved: Option<f64>) -> Self {
        let Span { unit, range, usual, step, decimals } = *span;
        Self {
            name,
            unit,
            value,
            saved,
            range,
            usual,
            decimals,
            step,
            beside: String::new(),
            hover: String::new(),
        }
    }
}

impl EditContext<'_> {
    /// Draws a lever and pushes what the hand did.
    pub fn lever(&mut self, ui: &mut Ui, row: &Row<'_>, edit: impl FnOnce(f64) -> Edit) {
        self.show(ui, row, None, edit);
    }

    /// The same for the amount of a line, which is said in any measure. What the measure asks to be known stands below.
    pub fn amount(
        &mut self,
        ui: &mut Ui,
        row: &Row<'_>,
        (shelf, i): (LineKind, usize),
        said: Said<'_>,
        edit: impl FnOnce(f64) -> Edit,
    ) {
        let name = format!("Measure of the {} {}", shelf.one(), i + 1);
        let out = self.show(ui, row, Some(Measured { said, name: &name }), edit);
        if let Some(by) = out.measure {
            self.edit(Edit::Measure(shelf, i, by));
        }
        let shown = said.shown();
        if let Some(advice) = shown.advice().filter(|_| said.own != Some(shown)) {
            let t = tokens::of(ui);
            widgets::wrapped(ui, advice, fonts::regular(tokens::SMALL), t.ink_soft);
        }
    }

    fn show(
        &mut self,
        ui: &mut Ui,
        row: &Row<'_>,
        said: Option<Measured<'_>>,
        edit: impl FnOnce(f64) -> Edit,
    ) -> LeverOut {
        let out = Lever {
            id_salt: IdSalt::new(("lever", row.name)),
            name: row.name,
            of: "",
            unit: row.unit,
            value: row.value,
            range: row.range.0..=row.range.1,
            usual: row.usual,
            saved: row.saved,
            reset_to: row.saved,
            decimals: row.decimals,
            step: Some(row.step),
            logarithmic: false,
            beside: &row.beside,
            hover: &row.hover,
            said,
        }
        .show(ui);
        let edit = out.value.map(edit);
        self.view.push(row.name, out.gesture, edit, self.out);
        out
    }

    /// Draws a number to type or drag and pushes what the hand did.
    pub fn number(&mut self, ui: &mut Ui, number: &Number<'_>, edit: impl FnOnce(f64) -> Edit) {
        let out = number.show(ui);
        let edit = out.value.map(edit);
        self.view.push(number.name, out.gesture, edit, self.out);
    }

    /// Pushes one edit that is a step of its own.
    pub fn edit(&mut self, edit: Edit) {
        self.out.push(BenchCommand::Edit(edit, None).into());
    }

    /// Says why something that was asked for cannot be done.
    pub fn tell(&mut self, note: Note) {
        self.out.push(WindowCommand::ShowRefusal(note).into());
    }

    /// Whether only what a maker acts on is shown.
    pub fn plain(&self) -> bool {
        self.state.settings.depth == Depth::Plain
    }

    /// The design.
    pub fn design(&self) -> &Design {
        self.state.design()
    }

    /// The design as saved, for notches and resets.
    pub fn saved(&self) -> Option<&Design> {
        self.state.session.history.saved_design().map(AsRef::as_ref)
    }
}
