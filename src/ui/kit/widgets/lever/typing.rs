//! How a lever reads what was typed, and how it is drawn in numbers that are said otherwise than the document has them.

use super::Lever;
use crate::theme;
use crate::widgets::typed::{self, spaced};
use potset_base::units::Scale;
use potset_base::{Note, number};

impl<'a> Lever<'a> {
    /// What was typed, in the lever's unit.
    pub(super) fn read(&self, text: &str) -> Result<f64, Note> {
        let Some(measured) = &self.said else {
            return typed::read(self.name, text, self.unit, &self.range, self.decimals);
        };
        let value = measured.said.read(self.name, text)?;
        let (low, high) = (*self.range.start(), *self.range.end());
        if (low..=high).contains(&value) {
            return Ok(value);
        }
        let unit = spaced(self.unit);
        let plain = |v| theme::number(v, 0..=self.decimals);
        Err(Note {
            sentence: format!("“{}” is {}{unit}", text.trim(), number::rough(value)),
            ..Note::error(
                self.name,
                "This is more or less than the lever can reach",
                format!("Give {} to {}{unit}, or change how much the pot holds", plain(low), plain(high)),
            )
        })
    }

    /// The lever in the numbers that are said here: whole ones, on whose grid the handle goes.
    pub(super) fn in_scale(&self, scale: &Scale<'a>) -> Self {
        let shown = |v| scale.shown(v);
        Self {
            unit: scale.unit,
            value: shown(self.value),
            range: shown(*self.range.start()).ceil()..=shown(*self.range.end()).floor(),
            usual: self.usual.map(|(low, high)| (shown(low).round(), shown(high).round())),
            saved: self.saved.map(shown),
            reset_to: self.reset_to.map(shown),
            decimals: scale.decimals(self.decimals),
            step: self.step.map(|_| 1.0),
            ..self.clone()
        }
    }

    /// A number that is said here in the lever's own unit; what it is reset to, to the last bit.
    pub(super) fn back(&self, scale: &Scale<'_>, shown: f64) -> f64 {
        let own = self.reset_to.filter(|own| scale.shown(*own).to_bits() == shown.to_bits());
        own.unwrap_or_else(|| scale.back(shown))
    }
}
