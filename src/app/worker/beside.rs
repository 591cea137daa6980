//! Work for the Beside view: the table of designs beside each other, and what each difference comes from.

use std::panic::{self, AssertUnwindSafe};
use std::path::PathBuf;
use std::sync::Arc;

use super::outcome::Outcome;
use crate::columns::Told;
use potset_base::Note;
use potset_compare::beside::{answers_knowing, causes, table};
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_doubt::ready_times::Known;
use potset_export::beside_file::Form;
use potset_forecast::scenario::Ask;
use potset_judge::answer::Answer;
use potset_science::Forecast;
use potset_store::files;

/// The columns to put beside each other.
#[derive(Clone, Debug)]
pub struct BesideQuestion {
    pub number: u64,
    pub ids: Vec<u64>,
    pub designs: Vec<Arc<Design>>,
    /// One stop line for all, h.
    pub stop_h: Option<f64>,
    pub pantry: Arc<Pantry>,
    pub kitchen: Kitchen,
    pub learnt: Learnt,
}

impl BesideQuestion {
    fn ask<'a>(&'a self, design: &'a Design) -> Ask<'a> {
        Ask { design, pantry: &self.pantry, kitchen: &self.kitchen, learnt: &self.learnt }
    }

    /// The designs as they are compared: with the common stop line where there is one.
    fn compared(&self) -> Vec<Arc<Design>> {
        let Some(hours) = self.stop_h else { return self.designs.clone() };
        let stopped = |design: &Arc<Design>| {
            let mut design = Design::clone(design);
            if let Some(hold) = design.hold_mut() {
                hold.hours = hours;
            }
            Arc::new(design)
        };
        self.designs.iter().map(stopped).collect()
    }
}

fn fault() -> Note {
    Note::error(
        "Beside",
        "Putting the designs beside each other ended in a fault of the program",
        "Take the design away that was put there last, and send it to the makers of the program",
    )
}

/// Forecasts of all columns, and the table of their differences; a panic in the model is caught and told.
#[must_use]
pub fn table_of(q: &BesideQuestion, known: &mut Known) -> Outcome {
    let work = || {
        let designs = q.compared();
        let all: Vec<&Design> = designs.iter().map(AsRef::as_ref).collect();
        let answers =
            all.first().map_or_else(Vec::new, |first| answers_knowing(&q.ask(first), &all, Some(known)));
        let told: Vec<&Answer> = answers.iter().collect();
        let beside = table(&all, &told, &q.pantry);
        let answers = answers.into_iter().map(Arc::new).collect();
        Box::new(Told { ids: q.ids.clone(), designs, answers, beside })
    };
    Outcome::Beside(q.number, panic::catch_unwind(AssertUnwindSafe(work)).map_err(|_| fault()))
}

/// What the difference of a design to the first comes from, as long as `go_on`. `i` counts the designs after the first.
#[must_use]
pub fn causes_of(q: &BesideQuestion, i: usize, go_on: &mut dyn FnMut() -> bool) -> Option<Outcome> {
    let work = || {
        let designs = q.compared();
        let (first, other) = (designs.first()?, designs.get(i + 1)?);
        causes(&q.ask(first), other, go_on)
    };
    let found = panic::catch_unwind(AssertUnwindSafe(work)).ok().flatten()?;
    Some(Outcome::Causes(q.number, i, found))
}

/// Writes the comparison to a file, in the form that its ending asks for; a panic is told.
#[must_use]
pub fn exported(path: PathBuf, told: &Told) -> Outcome {
    let work = || {
        let forecasts: Vec<&Forecast> = told.answers.iter().map(|a| &a.forecast).collect();
        let bytes = Form::of(&path)?.bytes(&told.beside, &forecasts)?;
        files::write_bytes(&path, &bytes)
    };
    let done = panic::catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|_| Err(fault()));
    Outcome::Exported(path, done)
}
