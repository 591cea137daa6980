//! What a label means for a pot: kind of base, nearest entry, missing figures, warnings, Codex class, cream share, and how
//! the pot would differ.

mod class;
mod compare;
mod entry;
mod infer;
mod lines;
mod warnings;

pub use class::{Margin, Placed};
pub use compare::Difference;
pub use entry::{as_entry, into_design};
pub use infer::{Matched, Sureness, Value};
pub use lines::{LineTold, Understood, lines};

use crate::base::Note;
use crate::compile::facts;
use crate::compile::params;
use crate::doc::design::LabelFigures;
use crate::doc::label::{self, LabelReading, Nutrient};
use crate::doc::pantry::{Base, BaseKind, find};
use crate::doc::{Kitchen, Learnt, Pantry};

/// What was inferred from a label, and how sure.
#[derive(Clone, Debug, Default)]
pub struct LabelStudy {
    pub kind: Option<BaseKind>,
    pub kind_sure: Sureness,
    /// Why that kind.
    pub kind_why: String,
    /// The nearest base of the pantry.
    pub entry: Option<Matched>,
    /// Figures per 100 g: stated ones, and those filled in from the entry.
    pub values: Vec<Value>,
    /// Why the base counts as sweetened.
    pub sweetened: Option<String>,
    /// What thickens already.
    pub thickening: Vec<String>,
    /// Declared extract, %.
    pub extract: Option<f64>,
    pub class: Option<Placed>,
    pub cream_share: Option<f64>,
    /// Doubts about the figures, and warnings.
    pub notes: Vec<Note>,
    /// What goes into a design's line of this base.
    pub line: Option<(String, LabelFigures)>,
    /// What acts in the pot and is not in that forecast, since the label gives no amount.
    pub left_out: Vec<String>,
    /// How the pot differs from the reference base; or why that is not known.
    pub against: Option<Result<Difference, String>>,
}

impl LabelStudy {
    /// A figure per 100 g.
    #[must_use]
    pub fn value(&self, nutrient: Nutrient) -> Option<&Value> {
        self.values.iter().find(|v| v.nutrient == nutrient)
    }
}

/// What the label says with no model: kind, entry, figures, warnings, class.
#[must_use]
pub fn infer(reading: &LabelReading, pantry: &Pantry) -> LabelStudy {
    let (kind, kind_sure, kind_why) = infer::kind(reading);
    let mut out = LabelStudy { kind, kind_sure, kind_why, ..LabelStudy::default() };
    out.entry = kind.and_then(|kind| infer::entry(reading, kind, pantry));
    let base = out.entry.as_ref().and_then(|m| find(&pantry.bases, &m.key));
    out.extract = kind.and_then(|kind| infer::extract(reading, kind));
    let stated = infer::stated(reading, base, out.extract);
    out.values = infer::values(reading, base, &stated);
    out.sweetened = infer::sweetened(reading, base, &stated);
    out.thickening = warnings::thickening(reading, pantry);
    out.left_out = warnings::left_out(reading);
    out.notes = label::doubts(reading);
    out.notes.extend(warnings::warnings(reading, kind, base, out.sweetened.as_deref()));
    coconut(&mut out, &stated);
    out.line = base.map(|base| (base.key.clone(), stated));
    out
}

/// As [`infer()`], with the forecast beside the reference base of the kind.
#[must_use]
pub fn study(reading: &LabelReading, pantry: &Pantry, kitchen: &Kitchen, learnt: &Learnt) -> LabelStudy {
    let mut out = infer(reading, pantry);
    if let (Some(kind), Some((key, figures))) = (out.kind, &out.line) {
        out.against = Some(compare::compare(kind, (key, figures), pantry, (kitchen, learnt)));
    }
    out
}

/// Class and cream share of a coconut product whose fat is told.
fn coconut(out: &mut LabelStudy, stated: &LabelFigures) {
    let (Some(BaseKind::Coconut), Some(fat)) = (out.kind, stated.fat) else { return };
    let Ok(params) = params::shipped() else { return };
    let law = params.laws().coconut;
    out.cream_share = Some(facts::cream_share(fat, stated.extract, &law));
    let other: Option<f64> = [Nutrient::Protein, Nutrient::Carbohydrate, Nutrient::Fibre]
        .into_iter()
        .map(|n| out.value(n).map(|v| v.v))
        .sum();
    let filled = out.values.iter().any(|v| !v.stated && v.nutrient != Nutrient::Sugars);
    // More than the whole is no composition; the doubts say so.
    out.class = other
        .filter(|other| fat + other <= 100.0)
        .map(|other| class::place(fat, other, filled, out.sweetened.is_some(), &law));
}

/// A base's name for sentences.
fn named(base: &Base) -> &str {
    &base.name
}
