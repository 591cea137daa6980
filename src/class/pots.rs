//! The pots of a lesson: their designs, and the one forecast of each.

use std::sync::Arc;

use potset_base::{Note, Severity};
use potset_doc::lesson::{Alter, Lesson, LessonLever, LessonPot, PotOf, Which, no_first};
use potset_doc::steps::Step;
use potset_doc::{Design, Edit, Kitchen, Learnt, Pantry, assets, edit};
use potset_forecast::lever::LeverId;
use potset_forecast::scenario::Scenario;
use potset_judge::answer::{Answer, answer_to};

/// A pot with what comes of it.
#[derive(Clone, Debug)]
pub struct ShownPot {
    /// How the room calls it.
    pub name: String,
    pub design: Arc<Design>,
    pub answer: Arc<Answer>,
}

/// The pots of a lesson, run.
#[derive(Clone, Debug)]
pub struct Shown {
    /// One or two.
    pub pots: Vec<ShownPot>,
    /// Hours shown.
    pub hours: f64,
}

impl Shown {
    /// A pot of it.
    pub fn pot(&self, which: Which) -> Option<&ShownPot> {
        self.pots.get(which as usize)
    }

    /// The pot that is guessed at and that the levers turn.
    pub fn last(&self) -> Option<&ShownPot> {
        self.pots.last()
    }
}

/// The lever of a design that a lesson names.
pub const fn lever(lever: LessonLever) -> LeverId {
    match lever {
        LessonLever::Litres(i) => LeverId::BaseLitres(i),
        LessonLever::Share(i) => LeverId::BaseShare(i),
        LessonLever::Sugar(i) => LeverId::SugarDose(i),
        LessonLever::Thickener(i) => LeverId::ThickenerDose(i),
        LessonLever::Culture(i) => LeverId::CultureRate(i),
        LessonLever::CultureAge(i) => LeverId::CultureAge(i),
        LessonLever::HeatTo => LeverId::HeatTo,
        LessonLever::HeatFor => LeverId::HeatFor,
        LessonLever::CultureIn => LeverId::CultureIn,
        LessonLever::HoldAt => LeverId::HoldTemperature,
        LessonLever::StopAt => LeverId::HoldHours,
        LessonLever::ChillFor => LeverId::ChillFor,
        LessonLever::Rest(i) => LeverId::Rest(i),
    }
}

/// The design of a pot of a lesson.
///
/// # Errors
/// A note that names what of it is not there.
pub fn design(lesson: &Lesson, pot: &LessonPot, pantry: &Pantry) -> Result<Design, Note> {
    let mut design = match &pot.of {
        PotOf::First => origin(&lesson.first.of)?,
        own => origin(own)?,
    };
    let first = (pot.of == PotOf::First).then_some(&lesson.first.alter);
    for alter in first.into_iter().flatten().chain(&pot.alter) {
        design = edit::apply(&design, &edit_of(alter, &design), pantry)?;
    }
    pot.name.clone_into(&mut design.name);
    Ok(design)
}

/// The design that a pot comes from, before what is otherwise.
fn origin(of: &PotOf) -> Result<Design, Note> {
    match of {
        PotOf::Demo(name) => assets::demo(name),
        PotOf::Whole(design) => Ok((**design).clone()),
        PotOf::First => Err(no_first()),
    }
}

/// What is otherwise, as an edit of a design.
fn edit_of(alter: &Alter, design: &Design) -> Edit {
    match alter {
        Alter::Set(which, v) => lever(*which).edit(design, *v),
        Alter::Swap(list, i, key) => Edit::Swap(*list, *i, key.clone()),
        Alter::Add(list, key, amount) => Edit::Add(*list, key.clone(), *amount),
        Alter::Remove(list, i) => Edit::Remove(*list, *i),
        Alter::Before(before) => {
            let after = design.steps.iter().skip_while(|step| !matches!(step, Step::CultureIn)).cloned();
            Edit::Steps(before.iter().cloned().chain(after).collect())
        }
    }
}

/// Runs a design as a lesson shows it.
///
/// # Errors
/// Why there is no forecast.
pub fn run(design: &Design, pantry: &Pantry, hours: f64) -> Result<Answer, Note> {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let answer = answer_to(&Scenario { design, pantry, kitchen: &kitchen, learnt: &learnt }, hours);
    let fault = answer.errors.iter().find(|note| note.severity == Severity::Error);
    match fault.or_else(|| answer.errors.first()) {
        Some(note) => Err(note.clone()),
        None => Ok(answer),
    }
}

/// A pot with levers at other values, run.
///
/// # Errors
/// Why it cannot be made so.
pub fn turned(
    pot: &ShownPot,
    levers: &[LeverId],
    values: &[f64],
    pantry: &Pantry,
    hours: f64,
) -> Result<ShownPot, Note> {
    let mut design = (*pot.design).clone();
    for (lever, v) in levers.iter().zip(values) {
        design = edit::apply(&design, &lever.edit(&design, *v), pantry)?;
    }
    let answer = Arc::new(run(&design, pantry, hours)?);
    Ok(ShownPot { name: pot.name.clone(), design: Arc::new(design), answer })
}

/// Runs the pots of a lesson, each once.
///
/// # Errors
/// Why one of them cannot be made, with the pot's name.
pub fn show(lesson: &Lesson, pantry: &Pantry) -> Result<Shown, Note> {
    let mut pots = Vec::new();
    for pot in lesson.pots() {
        let named = |note: Note| Note { field: format!("{}, {}", pot.name, note.field), ..note };
        let design = design(lesson, pot, pantry).map_err(named)?;
        let answer = run(&design, pantry, lesson.hours).map_err(named)?;
        pots.push(ShownPot { name: pot.name.clone(), design: Arc::new(design), answer: Arc::new(answer) });
    }
    Ok(Shown { pots, hours: lesson.hours })
}
