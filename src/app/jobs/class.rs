//! What Class has worked out: the pots of a lesson, what comes of a turned lever, and files of a lesson.

use std::path::PathBuf;
use std::sync::Arc;

use super::{At, Job, Key, Step, fault};
use crate::class::ClassFile;
use crate::command::{ClassCommand, Command};
use potset_base::Note;
use potset_class::prepare::{ClassAsk, prepare};
use potset_class::{ShownPot, pots, show};
use potset_doc::{Kitchen, Lesson, Pantry};
use potset_forecast::lever::LeverId;
use potset_paper::{Form, Size, numbered};
use potset_report::class::{RunSheetAsk, handout, run_sheet};
use potset_store::{files, lessons};

/// What is tried before a fault is told.
const MEND: &str = "Play another lesson";

/// Runs the pots of a lesson, each once.
pub struct LessonJob {
    pub number: u64,
    pub lesson: Arc<Lesson>,
    pub pantry: Arc<Pantry>,
}

impl Job for LessonJob {
    fn key(&self) -> Key {
        Key::Lesson
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let shown = show(&self.lesson, &self.pantry).map(Arc::new);
        Step::done(ClassCommand::Shown(self.number, shown).into())
    }

    fn fault(&self) -> Command {
        ClassCommand::Shown(self.number, Err(fault("Class", "Running the lesson", MEND))).into()
    }
}

/// Runs the last pot of a lesson with its levers turned.
pub struct FreePlayJob {
    pub number: u64,
    pub pot: ShownPot,
    pub levers: Vec<LeverId>,
    pub values: Vec<f64>,
    pub hours: f64,
    pub pantry: Arc<Pantry>,
}

impl Job for FreePlayJob {
    fn key(&self) -> Key {
        Key::FreePlay
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let turned = pots::turned(&self.pot, &self.levers, &self.values, &self.pantry, self.hours);
        Step::done(ClassCommand::Freed(self.number, self.values, turned.map(Arc::new)).into())
    }

    fn fault(&self) -> Command {
        let note = fault("Class", "Turning the lever", MEND);
        ClassCommand::Freed(self.number, self.values.clone(), Err(note)).into()
    }
}

/// Writes a file of a lesson.
pub struct ClassFileJob {
    pub path: PathBuf,
    pub what: ClassFile,
    pub lesson: Arc<Lesson>,
    pub people: u32,
    pub pantry: Arc<Pantry>,
    pub kitchen: Kitchen,
}

impl ClassFileJob {
    fn write(&self) -> Result<(), Note> {
        let Self { path, what, lesson, people, pantry, kitchen } = self;
        let sheet = match what {
            ClassFile::Lesson => return lessons::write(path, lesson),
            ClassFile::HandOut => handout(lesson, &show(lesson, pantry)?),
            ClassFile::RunSheet => {
                let ask = ClassAsk { lesson, people: *people, begins: None, zone: None, pantry, kitchen };
                let plan = prepare(&ask)?;
                run_sheet(&RunSheetAsk { lesson, plan: &plan, begins: None, pantry, kitchen })
            }
        };
        for (i, bytes) in Form::of(path)?.files(&sheet, Size::default())?.iter().enumerate() {
            files::write_bytes(&numbered(path, i + 1), bytes)?;
        }
        Ok(())
    }
}

impl Job for ClassFileJob {
    fn key(&self) -> Key {
        Key::Export(self.path.clone())
    }

    fn step(self: Box<Self>, _: &mut At<'_>) -> Step {
        let done = self.write();
        Step::done(ClassCommand::Written(self.path, done).into())
    }

    fn fault(&self) -> Command {
        ClassCommand::Written(self.path.clone(), Err(fault("Class", "Writing the file", MEND))).into()
    }
}
