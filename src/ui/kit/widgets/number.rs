//! A number to type or to drag, where there is no room or no need for a whole lever.

use std::cell::{Cell, RefCell};
use std::ops::RangeInclusive;

use egui::{DragValue, Ui};

use crate::theme;
use crate::widgets::lever::{LeverOut, gesture};
use crate::widgets::typed::{self, spaced};
use potset_base::units;

/// One number in its unit.
#[derive(Clone, Debug)]
pub struct Number<'a> {
    /// What screen readers and tests call it; no two on one screen alike.
    pub name: &'a str,
    /// Of `value` and `range`; what is shown and typed is as it is said here.
    pub unit: &'a str,
    pub value: f64,
    /// What typing can reach. A value already outside is shown and kept.
    pub range: RangeInclusive<f64>,
    pub decimals: usize,
    /// Change per dragged point.
    pub speed: f64,
    pub hover: &'a str,
}

impl Number<'_> {
    /// Draws it; point or comma and the unit's own words are read.
    pub fn show(&self, ui: &mut Ui) -> LeverOut {
        let mut value = self.value;
        let (untouched, refused) = (Cell::new(false), RefCell::new(None));
        let shown = self.text_of(value);
        let drag = DragValue::new(&mut value)
            .speed(self.speed)
            .range(self.range.clone())
            .clamp_existing_to_range(false)
            .update_while_editing(false)
            .max_decimals(self.decimals)
            .custom_formatter(|value, _| self.text_of(value))
            .custom_parser(|text| {
                untouched.set(text.trim() == shown);
                if untouched.get() {
                    return None;
                }
                let read = typed::read(self.name, text, self.unit, &self.range, self.decimals);
                read.map_err(|note| refused.replace(Some(note))).ok()
            });
        let response = ui.push_id(("number", self.name), |ui| ui.add(drag)).inner.accessible_name(self.name);
        let gesture = gesture(&response, ui);
        if !self.hover.is_empty() {
            response.on_hover_text(self.hover);
        }
        if let Some(note) = refused.take() {
            typed::refuse(ui.ctx(), note);
        }
        // Looking at a value is no edit: neither rounds it nor pulls it into the range.
        let changed = !untouched.get() && value.is_finite() && value.to_bits() != self.value.to_bits();
        LeverOut { value: changed.then_some(value), gesture, ..LeverOut::default() }
    }

    /// As it is said here. Of a warmth in °F a tenth is kept, so that a reading is shown as it was typed.
    fn text_of(&self, value: f64) -> String {
        let scale = units::scale(self.unit);
        let decimals = if scale.other() { self.decimals.min(1) } else { self.decimals };
        format!("{}{}", theme::number(scale.shown(value), 0..=decimals), spaced(scale.unit))
    }
}
