//! What a label means for a pot: kind of base, nearest entry, missing figures, warnings, Codex class, cream share, and how
//! the pot would differ.

mod class;
mod compare;
mod entry;
mod figures;
mod infer;
mod lines;
mod of_base;
mod warnings;

pub use class::{Margin, Placed};
pub use compare::Difference;
pub use entry::{as_entry, into_design, packed};
pub use figures::Value;
pub use infer::{Matched, Sureness};
pub use lines::{LineTold, Understood, lines};

use potset_base::{Note, Severity};
use potset_doc::design::LabelFigures;
use potset_doc::label::{self, LabelReading, Nutrient};
use potset_doc::pantry::{Base, BaseKind, find};
use potset_doc::{Kitchen, Learnt, Pantry};
use potset_forecast::{facts, params};

/// What was inferred from a label, and how sure.
#[derive(Clone, Debug, Default)]
pub struct LabelStudy {
    pub kind: Option<BaseKind>,
    pub kind_sure: Sureness,
    /// Why that kind.
    pub kind_why: String,
    /// The nearest base of the pantry.
    pub entry: Option<Matched>,
    /// A figure cannot be true, so nothing is filled in, classed or put into a pot.
    pub impossible: bool,
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
    /// The cream share in words, if it is a coconut product whose fat is told.
    pub fn cream_words(&self) -> Option<String> {
        self.cream_share.map(facts::cream_words)
    }

    /// The kind in words, how sure, and why: "coconut (sure: …)", "not known: …".
    pub fn kind_words(&self) -> String {
        match self.kind {
            Some(kind) => format!("{} ({}: {})", kind.words(), self.kind_sure.words(), self.kind_why),
            None => format!("not known: {}", self.kind_why),
        }
    }

    /// A figure per 100 g.
    pub fn value(&self, nutrient: Nutrient) -> Option<&Value> {
        self.values.iter().find(|v| v.nutrient == nutrient)
    }
}

/// What the label says with no model: kind, entry, figures, warnings, class.
pub fn infer(reading: &LabelReading, pantry: &Pantry) -> LabelStudy {
    let (kind, kind_sure, kind_why) = infer::kind(reading);
    let mut out = LabelStudy { kind, kind_sure, kind_why, ..LabelStudy::default() };
    out.entry = kind.and_then(|kind| infer::entry(reading, kind, pantry));
    let base = out.entry.as_ref().and_then(|m| find(&pantry.bases, &m.key));
    out.extract = kind.and_then(|kind| infer::extract(reading, kind));
    let stated = figures::stated(reading, base, out.extract);
    out.impossible = !label::impossible(reading).is_empty();
    out.values = figures::values(reading, base, &stated);
    out.sweetened = infer::sweetened(reading, base, &stated);
    out.thickening = warnings::thickening(reading, pantry);
    out.left_out = warnings::left_out(reading);
    if stated.sugars.is_none() && !out.impossible {
        out.left_out.extend(infer::sweet(reading).map(|sugar| sugar.name.clone()));
    }
    out.notes = label::doubts(reading);
    out.notes.extend(foreign(reading));
    out.notes.extend(warnings::warnings(reading, kind, base, out.sweetened.as_deref()));
    if !out.impossible {
        coconut(&mut out, reading, &stated);
        out.line = base.map(|base| (base.key.clone(), stated));
    }
    out
}

/// As [`infer()`], with the forecast beside the reference base of the kind.
pub fn study(reading: &LabelReading, pantry: &Pantry, kitchen: &Kitchen, learnt: &Learnt) -> LabelStudy {
    let mut out = infer(reading, pantry);
    if let (Some(kind), Some((key, figures))) = (out.kind, &out.line) {
        out.against = Some(compare::compare(kind, (key, figures), pantry, (kitchen, learnt)));
    } else if out.impossible {
        out.against = Some(Err("The figures of the label cannot be true".to_owned()));
    }
    out
}

/// Most lines say nothing to the reader: it may be another tongue.
fn foreign(reading: &LabelReading) -> Option<Note> {
    let strange = reading.unread.iter().filter(|line| !reading.understood.contains(&line.number)).count();
    let all = reading.understood.len() + strange;
    (strange > 1 && 2 * strange > all).then(|| Note {
        severity: Severity::Watch,
        field: "label".to_owned(),
        title: "Most lines were not understood".to_owned(),
        sentence: format!("{strange} of {all} lines; labels are read in English only"),
        mend: "Type the figures and the list of ingredients in English".to_owned(),
    })
}

/// Class and cream share of a coconut product whose fat is told.
fn coconut(out: &mut LabelStudy, reading: &LabelReading, stated: &LabelFigures) {
    let (Some(BaseKind::Coconut), Some(fat)) = (out.kind, stated.fat) else { return };
    let Ok(params) = params::shipped() else { return };
    let law = params.laws().coconut;
    out.cream_share = Some(facts::cream_share(fat, stated.extract, &law));
    let other: Option<f64> = [Nutrient::Protein, Nutrient::Carbohydrate, Nutrient::Fibre]
        .into_iter()
        .map(|n| out.value(n).map(|v| v.value))
        .sum();
    let filled = out.values.iter().any(|v| !v.stated && v.nutrient != Nutrient::Sugars);
    // More than the whole is no composition; the doubts say so.
    out.class = other
        .filter(|other| fat + other <= 100.0)
        .map(|other| class::place(fat, other, filled, out.sweetened.is_some(), &law));
    let name = reading.name.as_deref().unwrap_or_default();
    out.notes.extend(out.class.as_ref().and_then(|placed| class::contradicts(name, fat, placed, &law)));
}

/// A base's name for sentences.
fn named(base: &Base) -> &str {
    &base.name
}
