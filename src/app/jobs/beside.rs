//! Designs beside each other: the table, what each difference comes from, and the file with both.

use std::path::PathBuf;
use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::columns::ComparisonResult;
use crate::command::{BesideCommand, Command, WindowCommand};
use potset_base::Note;
use potset_compare::beside::{answers_knowing, causes, table};
use potset_doc::Design;
use potset_export::beside_file::Form;
use potset_forecast::scenario::OwnedScenario;
use potset_judge::answer::Answer;
use potset_science::Forecast;
use potset_store::files;

/// The columns to put beside each other.
#[derive(Clone, Debug)]
pub struct Columns {
    pub number: u64,
    pub ids: Vec<u64>,
    pub designs: Vec<Arc<Design>>,
    /// The question that each design is asked with.
    pub scenario: OwnedScenario,
}

/// Forecasts all columns and puts them beside each other; the causes follow.
pub struct BesideJob(pub Columns);

impl Job for BesideJob {
    fn key(&self) -> Key {
        Key::Beside
    }

    fn step(self: Box<Self>, at: &mut At<'_>) -> Step {
        let columns = self.0;
        let all: Vec<&Design> = columns.designs.iter().map(AsRef::as_ref).collect();
        let answers = all.first().map_or_else(Vec::new, |first| {
            answers_knowing(&columns.scenario.of(first), &all, Some(at.known))
        });
        let refs: Vec<&Answer> = answers.iter().collect();
        let beside = table(&all, &refs, &columns.scenario.pantry);
        let answers = answers.into_iter().map(Arc::new).collect();
        let told =
            ComparisonResult { ids: columns.ids.clone(), designs: columns.designs.clone(), answers, beside };
        let done = Step::done(BesideCommand::Told(columns.number, Ok(Box::new(told))).into());
        done.and(CausesJob { columns, next: 1 })
    }

    fn fault(&self) -> Command {
        BesideCommand::Told(self.0.number, Err(broken())).into()
    }
}

/// What the differences of the columns to the first come from, one column after the other.
struct CausesJob {
    columns: Columns,
    next: usize,
}

impl Job for CausesJob {
    fn key(&self) -> Key {
        Key::Causes
    }

    fn step(mut self: Box<Self>, at: &mut At<'_>) -> Step {
        let Columns { number, designs, scenario, .. } = &self.columns;
        let (Some(first), Some(other)) = (designs.first(), designs.get(self.next)) else {
            return Step::default();
        };
        let found = causes(&scenario.of(first), other, &mut || at.go_on());
        let result = found.map(|found| BesideCommand::Caused(*number, self.next - 1, found).into());
        if result.is_some() || at.go_on() {
            self.next += 1;
        }
        Step { result, ..Step::more(*self) }
    }

    fn fault(&self) -> Command {
        WindowCommand::Failed(broken()).into()
    }
}

/// Writes the comparison to a file, in the form that its ending asks for.
pub struct ExportJob(pub PathBuf, pub Arc<ComparisonResult>);

impl ExportJob {
    fn write(&self) -> Result<(), Note> {
        let forecasts: Vec<&Forecast> = self.1.answers.iter().map(|a| &a.forecast).collect();
        let bytes = Form::of(&self.0)?.bytes(&self.1.beside, &forecasts)?;
        files::write_bytes(&self.0, &bytes)
    }
}

impl Job for ExportJob {
    fn key(&self) -> Key {
        Key::Export(self.0.clone())
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let done = self.write();
        Step::done(BesideCommand::Exported(self.0, done).into())
    }

    fn fault(&self) -> Command {
        BesideCommand::Exported(self.0.clone(), Err(broken())).into()
    }
}

fn broken() -> Note {
    fault("Beside", "Putting the designs beside each other", "Remove the design that you added last")
}
