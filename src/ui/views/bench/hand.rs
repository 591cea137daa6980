//! The maker's hand on the levers: drags become gestures, values become edits.

use egui::{IdSalt, Ui};

use crate::app::{Command, State};
use crate::doc::history::Gesture as Id;
use crate::doc::{Design, Edit};
use crate::ui::widgets::lever::{Gesture, Lever};
use crate::ui::widgets::number::Number;

/// The live gesture.
#[derive(Default)]
pub struct HandState {
    live: Option<(String, Id)>,
    next: Id,
}

impl HandState {
    /// Turns what a lever reports into commands.
    pub fn push(&mut self, lever: &str, gesture: Gesture, edit: Option<Edit>, out: &mut Vec<Command>) {
        let fresh = self.live.as_ref().is_none_or(|(name, _)| name != lever);
        match gesture {
            Gesture::None if edit.is_none() => return,
            Gesture::Started => self.begin(lever, out),
            Gesture::Going if fresh => self.begin(lever, out),
            Gesture::None | Gesture::Going | Gesture::Ended => {}
        }
        let live = self.live.as_ref().filter(|(name, _)| name == lever).map(|(_, id)| *id);
        if let Some(edit) = edit {
            out.push(Command::Edit(edit, live));
        }
        if gesture == Gesture::Ended && live.is_some() {
            self.live = None;
            out.push(Command::EndGesture);
        }
    }

    fn begin(&mut self, lever: &str, out: &mut Vec<Command>) {
        self.next += 1;
        self.live = Some((lever.to_owned(), self.next));
        out.push(Command::Began(self.next));
    }
}

/// State to read, and where commands go.
pub struct Hand<'a> {
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
    pub logarithmic: bool,
    pub beside: String,
    pub hover: String,
}

impl Hand<'_> {
    /// Draws a lever and pushes what the hand did.
    pub fn lever(&mut self, ui: &mut Ui, row: &Row<'_>, edit: impl FnOnce(f64) -> Edit) {
        let out = Lever {
            id_salt: IdSalt::new(("lever", row.name)),
            name: row.name,
            unit: row.unit,
            value: row.value,
            range: row.range.0..=row.range.1,
            usual: row.usual,
            saved: row.saved,
            reset_to: row.saved,
            decimals: row.decimals,
            step: Some(row.step),
            logarithmic: row.logarithmic,
            beside: &row.beside,
            hover: &row.hover,
        }
        .show(ui);
        let edit = out.value.map(edit);
        self.view.push(row.name, out.gesture, edit, self.out);
    }

    /// Draws a number to type or drag and pushes what the hand did.
    pub fn number(&mut self, ui: &mut Ui, number: &Number<'_>, edit: impl FnOnce(f64) -> Edit) {
        let out = number.show(ui);
        let edit = out.value.map(edit);
        self.view.push(number.name, out.gesture, edit, self.out);
    }

    /// Pushes one edit that is a step of its own.
    pub fn edit(&mut self, edit: Edit) {
        self.out.push(Command::Edit(edit, None));
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
