//! Class: a lesson on the wall, and the list of lessons with those of the maker's own.

use std::path::PathBuf;
use std::sync::Arc;

use super::tell;
use crate::class::{ClassFile, Draft, DraftFrom, DraftWish, LessonRow, OWN, Playing};
use crate::columns::Holds;
use crate::command::{ClassCommand, WindowCommand};
use crate::effect::{DiskEffect, Effect, ScreenEffect};
use crate::jobs::class::{ClassFileJob, FreePlayJob, LessonJob};
use crate::state::State;
use potset_base::Note;
use potset_class::play::Asked;
use potset_class::prepare::MOST_PEOPLE;
use potset_class::{Play, Press, Shown, ShownPot, draft, pots};
use potset_doc::lesson::check::faults;
use potset_doc::lesson::{LessonCurve, LessonPot, PotOf};
use potset_doc::{Design, Lesson, assets, format};
use potset_forecast::lever::levers;
use potset_report::class::drafted;

/// Commands of the Class view.
pub fn class(state: &mut State, command: ClassCommand) -> Vec<Effect> {
    match command {
        ClassCommand::Open(key) => open(state, key),
        ClassCommand::Shown(number, shown) => came(state, number, shown),
        ClassCommand::Press(press) => pressed(state, &press),
        ClassCommand::Tick(seconds) => ticked(state, seconds),
        ClassCommand::Freed(number, values, pot) => freed(state, number, &values, pot),
        ClassCommand::Leave => leave(state),
        ClassCommand::New => new(state),
        ClassCommand::Wish(wish) => drafting(state, |draft| draft.wish = wish),
        ClassCommand::Write => write(state),
        ClassCommand::Words(lesson) => drafting(state, |draft| draft.lesson = Some(lesson)),
        ClassCommand::Preview => preview(state),
        ClassCommand::Keep => keep(state),
        ClassCommand::GiveUp => {
            state.class.draft = None;
            Vec::new()
        }
        ClassCommand::Change(key) => change(state, &key),
        ClassCommand::Remove(key) => remove(state, &key),
        ClassCommand::PutBack => put_back(state),
        ClassCommand::Move(key, sooner) => moved(state, &key, sooner),
        ClassCommand::People(people) => {
            state.class.people = people.clamp(1, MOST_PEOPLE);
            Vec::new()
        }
        ClassCommand::Still(still) => {
            state.settings.still = still;
            vec![DiskEffect::SaveSettings.into()]
        }
        ClassCommand::AskFile(what, key) => ask_file(state, what, key),
        ClassCommand::FileTo(what, key, path) => to_file(state, what, &key, path),
        ClassCommand::Written(path, Ok(())) => {
            state.said = Some(format!("Written to {}", path.display()));
            Vec::new()
        }
        ClassCommand::AskImport => vec![ScreenEffect::AskImportLesson.into()],
        ClassCommand::Import(path) => vec![DiskEffect::ReadLesson(path).into()],
        ClassCommand::Imported(_, Ok(lesson)) => add(state, *lesson),
        ClassCommand::Imported(_, Err(note)) | ClassCommand::Written(_, Err(note)) => tell(state, note),
    }
}

fn open(state: &mut State, key: String) -> Vec<Effect> {
    let Some(row) = state.class.lesson(&key) else { return Vec::new() };
    let lesson = Arc::clone(&row.lesson);
    on_the_wall(state, Some(key), lesson)
}

fn ticked(state: &mut State, seconds: f64) -> Vec<Effect> {
    if let Some(playing) = &mut state.class.playing {
        playing.play.tick(seconds);
    }
    Vec::new()
}

/// What came of the levers of free play, unless they were turned on since.
fn freed(state: &mut State, number: u64, values: &[f64], pot: Result<Arc<ShownPot>, Note>) -> Vec<Effect> {
    if number != state.class.question {
        return Vec::new();
    }
    match (pot, &mut state.class.playing) {
        (Ok(pot), Some(playing)) => {
            playing.play.came(values, pot);
            Vec::new()
        }
        (Err(note), Some(_)) => tell(state, note),
        (_, None) => Vec::new(),
    }
}

/// Begins a lesson of one's own: the pot on the bench beside the first that is kept beside it.
fn new(state: &mut State) -> Vec<Effect> {
    let second = state.columns.list.iter().find_map(|column| match column.holds {
        Holds::Kept(..) => Some(DraftFrom::Column(column.id)),
        Holds::Bench | Holds::Case(_) => None,
    });
    let wish = DraftWish { first: DraftFrom::Bench, second, of: LessonCurve::Sourness };
    state.class.draft = Some(Draft { key: None, wish, lesson: None });
    Vec::new()
}

fn drafting(state: &mut State, change: impl FnOnce(&mut Draft)) -> Vec<Effect> {
    if let Some(draft) = &mut state.class.draft {
        change(draft);
    }
    Vec::new()
}

/// Plays the draft.
fn preview(state: &mut State) -> Vec<Effect> {
    let lesson = state.class.draft.as_ref().and_then(|draft| draft.lesson.as_deref());
    let Some(lesson) = lesson.map(|lesson| Arc::new(lesson.clone())) else { return Vec::new() };
    on_the_wall(state, None, lesson)
}

/// Asks for the file of a lesson.
fn ask_file(state: &State, what: ClassFile, key: String) -> Vec<Effect> {
    let Some(row) = state.class.lesson(&key) else { return Vec::new() };
    let file = state.class.free_file(&row.lesson.title);
    let stem = file.strip_suffix(".ron").unwrap_or(&file);
    let name = match what {
        ClassFile::Lesson => file.clone(),
        ClassFile::HandOut => format!("{stem}-hand-out.pdf"),
        ClassFile::RunSheet => format!("{stem}-run-sheet.pdf"),
    };
    vec![ScreenEffect::AskLesson(what, key, name).into()]
}

/// Puts a lesson on the wall, and has its pots run.
fn on_the_wall(state: &mut State, key: Option<String>, lesson: Arc<Lesson>) -> Vec<Effect> {
    state.class.question += 1;
    let play = Play::new(lesson.answers().len(), lesson.hours, Vec::new(), state.settings.still);
    let job = LessonJob {
        number: state.class.question,
        lesson: Arc::clone(&lesson),
        pantry: Arc::clone(&state.pantry),
    };
    state.class.playing = Some(Playing { key, lesson, play, shown: None, levers: Vec::new() });
    vec![Effect::work(job)]
}

/// The pots of the lesson on the wall are there.
fn came(state: &mut State, number: u64, shown: Result<Arc<Shown>, Note>) -> Vec<Effect> {
    let current = number == state.class.question;
    let Some(playing) = state.class.playing.as_mut().filter(|_| current) else { return Vec::new() };
    if let Some(pot) = shown.as_ref().ok().and_then(|shown| shown.last()) {
        let all = levers(&pot.design, &state.pantry);
        let ids = playing.lesson.levers.iter().map(|lever| pots::lever(*lever));
        playing.levers =
            ids.filter_map(|id| all.iter().find(|lever| lever.lever_id == id)).cloned().collect();
        playing.play.levers_at(playing.levers.iter().map(|lever| lever.value).collect());
    }
    playing.shown = Some(shown);
    Vec::new()
}

/// Does what was pressed on the wall.
fn pressed(state: &mut State, press: &Press) -> Vec<Effect> {
    let Some(playing) = &mut state.class.playing else { return Vec::new() };
    match playing.play.press(press) {
        Asked::Nothing => Vec::new(),
        Asked::NextLesson => next_lesson(state),
        Asked::Forecast => free_play(state),
    }
}

fn free_play(state: &mut State) -> Vec<Effect> {
    let Some(playing) = &state.class.playing else { return Vec::new() };
    let (Some(free), Some(Ok(shown))) = (&playing.play.free, &playing.shown) else { return Vec::new() };
    let Some(pot) = shown.last() else { return Vec::new() };
    let levers = playing.levers.iter().map(|lever| lever.lever_id).collect();
    state.class.question += 1;
    vec![Effect::work(FreePlayJob {
        number: state.class.question,
        pot: pot.clone(),
        levers,
        values: free.values.clone(),
        hours: shown.hours,
        pantry: Arc::clone(&state.pantry),
    })]
}

/// The lesson after the one on the wall; after the last one, the list.
fn next_lesson(state: &mut State) -> Vec<Effect> {
    let key = state.class.playing.as_ref().and_then(|playing| playing.key.clone());
    let place = state.class.lessons.iter().position(|row| Some(&row.key) == key.as_ref());
    let next = place.and_then(|place| state.class.lessons.get(place + 1)).cloned();
    match next {
        Some(row) => on_the_wall(state, Some(row.key), row.lesson),
        None => leave(state),
    }
}

/// From the wall to the list, from a draft to the list, from the list to the view before. Nothing of the design changes.
fn leave(state: &mut State) -> Vec<Effect> {
    if state.class.playing.take().is_some() || state.class.draft.take().is_some() {
        return Vec::new();
    }
    super::update(state, WindowCommand::Show(state.came_from))
}

/// A design that a new lesson is made from.
fn design_of(state: &State, from: DraftFrom) -> Option<Design> {
    match from {
        DraftFrom::Bench => Some(state.design().clone()),
        DraftFrom::Column(id) => {
            let column = state.columns.list.iter().find(|column| column.id == id)?;
            Some((*state.column_design(&column.holds)).clone())
        }
        DraftFrom::Demo(name) => assets::demo(name).ok(),
    }
}

/// Writes the first texts of the draft.
fn write(state: &mut State) -> Vec<Effect> {
    let Some(wish) = state.class.draft.as_ref().map(|draft| draft.wish) else { return Vec::new() };
    let Some(first) = design_of(state, wish.first) else { return Vec::new() };
    let second = wish.second.and_then(|from| design_of(state, from));
    let words = drafted(&first, second.as_ref(), wish.of, &state.pantry);
    let lesson = draft::draft(&first, second.as_ref(), wish.of, words);
    if let Some(draft) = &mut state.class.draft {
        draft.lesson = Some(Box::new(lesson));
    }
    Vec::new()
}

/// Keeps the draft among the lessons.
fn keep(state: &mut State) -> Vec<Effect> {
    let Some(draft) = state.class.draft.clone() else { return Vec::new() };
    let Some(lesson) = draft.lesson else { return Vec::new() };
    if let Some(note) = faults(&lesson).into_iter().next() {
        return super::update(state, WindowCommand::ShowRefusal(note));
    }
    state.class.draft = None;
    let place = state.class.lessons.iter().position(|row| Some(&row.key) == draft.key.as_ref());
    let Some(row) = place.and_then(|place| state.class.lessons.get_mut(place)) else {
        return add(state, *lesson);
    };
    row.lesson = Arc::new(*lesson);
    let row = row.clone();
    keep_on_disk(state, &row)
}

/// A lesson more, at the head of the list.
fn add(state: &mut State, lesson: Lesson) -> Vec<Effect> {
    let file = state.class.free_file(&lesson.title);
    let row = LessonRow { key: format!("{OWN}{file}"), lesson: Arc::new(lesson) };
    state.said = Some(format!("Kept: {}", row.lesson.title));
    state.class.lessons.insert(0, row.clone());
    let mut effects = keep_on_disk(state, &row);
    effects.extend(ordered(state));
    effects
}

fn keep_on_disk(state: &mut State, row: &LessonRow) -> Vec<Effect> {
    let Some(file) = row.own_file() else { return Vec::new() };
    match format::write(&*row.lesson) {
        Ok(text) => vec![DiskEffect::KeepLesson { file: file.to_owned(), text }.into()],
        Err(note) => tell(state, note),
    }
}

/// Remembers the order.
fn ordered(state: &mut State) -> Vec<Effect> {
    state.settings.lessons = state.class.lessons.iter().map(|row| row.key.clone()).collect();
    vec![DiskEffect::SaveSettings.into()]
}

/// Opens the texts of a lesson. One that ships is copied first, with its designs whole.
fn change(state: &mut State, key: &str) -> Vec<Effect> {
    let Some(row) = state.class.lesson(key) else { return Vec::new() };
    let (own, lesson) = (row.own_file().is_some(), Arc::clone(&row.lesson));
    let lesson = match if own { Ok((*lesson).clone()) } else { whole(&lesson, state) } {
        Ok(lesson) => lesson,
        Err(note) => return tell(state, note),
    };
    let wish = DraftWish { first: DraftFrom::Bench, second: None, of: lesson.strips[0] };
    let key = own.then(|| key.to_owned());
    state.class.draft = Some(Draft { key, wish, lesson: Some(Box::new(lesson)) });
    Vec::new()
}

/// A lesson with its designs whole, as one of the maker's own holds them.
fn whole(lesson: &Lesson, state: &State) -> Result<Lesson, Note> {
    let made = |pot: &LessonPot| {
        let design = pots::design(lesson, pot, &state.pantry)?;
        Ok(LessonPot { name: pot.name.clone(), of: PotOf::Whole(Box::new(design)), alter: Vec::new() })
    };
    let second = lesson.second.as_ref().map(made).transpose()?;
    Ok(Lesson { first: made(&lesson.first)?, second, ..lesson.clone() })
}

fn remove(state: &mut State, key: &str) -> Vec<Effect> {
    let Some(place) = state.class.lessons.iter().position(|row| row.key == key) else { return Vec::new() };
    let Some(file) = state.class.lessons[place].own_file().map(str::to_owned) else { return Vec::new() };
    let row = state.class.lessons.remove(place);
    state.said = Some(format!("Removed: {}", row.lesson.title));
    state.class.removed = Some((place, row));
    vec![DiskEffect::DropLesson(file).into()]
}

/// The lesson that was removed last comes back.
fn put_back(state: &mut State) -> Vec<Effect> {
    let Some((place, row)) = state.class.removed.take() else { return Vec::new() };
    let place = place.min(state.class.lessons.len());
    state.class.lessons.insert(place, row.clone());
    let mut effects = keep_on_disk(state, &row);
    effects.extend(ordered(state));
    effects
}

fn moved(state: &mut State, key: &str, sooner: bool) -> Vec<Effect> {
    let lessons = &mut state.class.lessons;
    let Some(from) = lessons.iter().position(|row| row.key == key) else { return Vec::new() };
    let to = if sooner { from.checked_sub(1) } else { Some(from + 1) };
    let Some(to) = to.filter(|to| *to < lessons.len()) else { return Vec::new() };
    lessons.swap(from, to);
    ordered(state)
}

/// Writes a file of a lesson.
fn to_file(state: &mut State, what: ClassFile, key: &str, path: PathBuf) -> Vec<Effect> {
    let Some(row) = state.class.lesson(key) else { return Vec::new() };
    let lesson = match what {
        // Shared, it opens anywhere.
        ClassFile::Lesson => match whole(&row.lesson, state) {
            Ok(lesson) => Arc::new(lesson),
            Err(note) => return tell(state, note),
        },
        ClassFile::HandOut | ClassFile::RunSheet => Arc::clone(&row.lesson),
    };
    vec![Effect::work(ClassFileJob {
        path,
        what,
        lesson,
        people: state.class.people,
        pantry: Arc::clone(&state.pantry),
        kitchen: state.kitchen.clone(),
    })]
}
