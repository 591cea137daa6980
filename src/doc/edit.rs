//! Edits: every change that a maker can make to a design, with its name for the undo menu.

mod label;

pub use label::label;

use super::culture_in;
use super::design::{
    AddedWhen, AdditiveLine, BaseLine, Clock, CultureLine, Design, Disturbed, GoesIn, LabelFigures, Powder,
    SugarLine, SweetWhen, ThickenerLine,
};
use super::goals::Goals;
use super::lines::{Pack, Packed, Packet};
use super::measured::{BaseMeasured, CultureMeasured};
use super::pantry::{EntryKind, Pantry};
use super::shelf::Line;
pub use super::shelf::LineKind;
use super::steps::{Event, Reading, Step};
use potset_base::measures::{Measure, SpoonSet};
use potset_base::words::Style;
use potset_base::{Note, shares};

/// A figure that a label may give, per 100 g.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LabelField {
    Fat,
    Protein,
    Sugars,
    Extract,
}

/// One change of a design.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    Rename(String),
    BaseLitres(usize, f64),
    /// Share of the volume of all bases, 0 to 1; the total stays, and what is not locked follows.
    BaseShare(usize, f64),
    BaseLock(usize, bool),
    BaseLabel(usize, LabelField, Option<f64>),
    /// All figures of a label at once.
    BaseFigures(usize, LabelFigures),
    BaseMeasured(usize, BaseMeasured),
    /// What the base comes in.
    BasePack(usize, Option<Pack>),
    /// What the label of a base says besides its figures.
    BasePacked(usize, Option<Packed>),
    SugarDose(usize, f64),
    SugarWhen(usize, SweetWhen),
    ThickenerDose(usize, f64),
    ThickenerMixedFirst(usize, bool),
    ThickenerGoesIn(usize, GoesIn),
    AdditiveDose(usize, f64),
    AdditiveWhen(usize, AddedWhen),
    CultureRate(usize, f64),
    CulturePowder(usize, Powder),
    CultureAge(usize, f64),
    /// Where it was kept, °C; nothing: the usual place.
    CultureKept(usize, Option<f64>),
    CultureOpened(usize, bool),
    CulturePacket(usize, Option<Packet>),
    CultureMeasured(usize, CultureMeasured),
    /// Puts another pantry entry in a line's place, at the same amount.
    Swap(LineKind, usize, String),
    /// Adds a pantry entry at an amount in the unit of its list.
    Add(LineKind, String, f64),
    Remove(LineKind, usize),
    /// The measure that a line's amount is said in; the amount stays.
    Measure(LineKind, usize, Measure),
    StartTemperature(f64),
    /// What the base is warmed or cooled to before the culture goes in.
    CultureTemperature(f64),
    HoldTemperature(f64),
    HoldHours(f64),
    Warmer(String),
    Events(Vec<Event>),
    Measured(Vec<Reading>),
    ChillTemperature(f64),
    ChillHours(f64),
    Steps(Vec<Step>),
    Style(Style),
    Disturbed(Disturbed),
    Vessel(String),
    PotCount(u32),
    /// g.
    Serving(f64),
    Goals(Goals),
    Clock(Clock),
    Spoons(SpoonSet),
    NotesText(String),
    /// A sentence of the card as the program says it, and the maker's own words; nothing takes those off.
    CardSentence(String, Option<String>),
    /// Takes an entry over as the pantry has it now.
    Renew(EntryKind, String),
    /// Several edits as one step of undo.
    Together(String, Vec<Edit>),
}

/// The design with the edit made. Entries new to it are copied from the pantry into its snapshot.
///
/// # Errors
/// A note that names the line or entry that is not there.
pub fn apply(design: &Design, edit: &Edit, pantry: &Pantry) -> Result<Design, Note> {
    let mut new = design.clone();
    change(&mut new, edit, pantry)?;
    new.refresh_snapshot(pantry);
    Ok(new)
}

fn missing(shelf: LineKind, index: usize) -> Note {
    Note::error(
        format!("{}s[{index}]", shelf.one()),
        format!("The design has no {} number {}", shelf.one(), index + 1),
        "Choose one of the lines of the design",
    )
}

fn line<T>(list: &mut [T], shelf: LineKind, index: usize) -> Result<&mut T, Note> {
    list.get_mut(index).ok_or_else(|| missing(shelf, index))
}

fn any_line(d: &mut Design, shelf: LineKind, i: usize) -> Result<&mut dyn Line, Note> {
    d.lines_mut(shelf).into_iter().nth(i).ok_or_else(|| missing(shelf, i))
}

fn known(d: &Design, pantry: &Pantry, kind: EntryKind, key: &str) -> Result<(), Note> {
    d.entry_of(pantry, kind, key).map(|_| ()).ok_or_else(|| {
        Note::error(
            kind.one(),
            format!("The pantry has no {} called {key}", kind.one()),
            "Pick an entry of the pantry, or open the design that brings it along",
        )
    })
}

fn no_hold() -> Note {
    Note::error("steps", "The design has no hold", "Add a hold step")
}

fn change(d: &mut Design, edit: &Edit, pantry: &Pantry) -> Result<(), Note> {
    match edit {
        Edit::Rename(name) => name.clone_into(&mut d.name),
        Edit::BaseLitres(i, litres) => line(&mut d.bases, LineKind::Bases, *i)?.litres = *litres,
        Edit::BaseShare(i, share) => move_share(d, *i, *share)?,
        Edit::BaseLock(i, locked) => line(&mut d.bases, LineKind::Bases, *i)?.locked = *locked,
        Edit::BaseLabel(i, field, value) => {
            let label = &mut line(&mut d.bases, LineKind::Bases, *i)?.label;
            *match field {
                LabelField::Fat => &mut label.fat,
                LabelField::Protein => &mut label.protein,
                LabelField::Sugars => &mut label.sugars,
                LabelField::Extract => &mut label.extract,
            } = *value;
        }
        Edit::BaseFigures(i, figures) => {
            line(&mut d.bases, LineKind::Bases, *i)?.label = figures.clone();
        }
        Edit::BaseMeasured(i, all) => line(&mut d.bases, LineKind::Bases, *i)?.measured = *all,
        Edit::CultureMeasured(i, all) => line(&mut d.cultures, LineKind::Cultures, *i)?.measured = *all,
        Edit::SugarDose(i, dose) => line(&mut d.sugars, LineKind::Sugars, *i)?.g_per_l = *dose,
        Edit::SugarWhen(i, when) => line(&mut d.sugars, LineKind::Sugars, *i)?.when = *when,
        Edit::AdditiveDose(i, dose) => line(&mut d.additives, LineKind::Additives, *i)?.g_per_l = *dose,
        Edit::AdditiveWhen(i, when) => line(&mut d.additives, LineKind::Additives, *i)?.when = *when,
        Edit::ThickenerDose(i, dose) => line(&mut d.thickeners, LineKind::Thickeners, *i)?.g_per_l = *dose,
        Edit::ThickenerMixedFirst(i, first) => {
            line(&mut d.thickeners, LineKind::Thickeners, *i)?.mixed_first = *first;
        }
        Edit::ThickenerGoesIn(i, when) => line(&mut d.thickeners, LineKind::Thickeners, *i)?.goes_in = *when,
        Edit::CultureRate(i, rate) => line(&mut d.cultures, LineKind::Cultures, *i)?.rate = *rate,
        Edit::CulturePowder(i, powder) => line(&mut d.cultures, LineKind::Cultures, *i)?.powder = *powder,
        Edit::CultureAge(i, days) => line(&mut d.cultures, LineKind::Cultures, *i)?.age_days = *days,
        Edit::CultureKept(i, c) => line(&mut d.cultures, LineKind::Cultures, *i)?.kept_c = *c,
        Edit::CulturePacket(i, packet) => line(&mut d.cultures, LineKind::Cultures, *i)?.packet = *packet,
        Edit::BasePacked(i, packed) => line(&mut d.bases, LineKind::Bases, *i)?.packed.clone_from(packed),
        Edit::BasePack(i, pack) => line(&mut d.bases, LineKind::Bases, *i)?.pack = *pack,
        Edit::CultureOpened(i, open) => line(&mut d.cultures, LineKind::Cultures, *i)?.opened = *open,
        Edit::Swap(shelf, i, key) => {
            known(d, pantry, shelf.kind(), key)?;
            any_line(d, *shelf, *i)?.swap(key);
        }
        Edit::Add(shelf, key, amount) => add(d, *shelf, key, *amount, pantry)?,
        Edit::Remove(shelf, i) => remove(d, *shelf, *i)?,
        Edit::Measure(shelf, i, by) => *any_line(d, *shelf, *i)?.measure_mut() = *by,
        Edit::Style(style) => d.style = *style,
        Edit::Disturbed(disturbed) => d.disturbed = *disturbed,
        Edit::Vessel(key) => {
            known(d, pantry, EntryKind::Vessel, key)?;
            key.clone_into(&mut d.pots.vessel);
        }
        Edit::PotCount(count) => d.pots.count = *count,
        Edit::Serving(grams) => d.pots.serving_g = *grams,
        Edit::Goals(goals) => d.goals = goals.clone(),
        Edit::Clock(clock) => clock.clone_into(&mut d.clock),
        Edit::Spoons(set) => {
            d.spoons = *set;
            lose_measures(d);
        }
        Edit::NotesText(text) => text.clone_into(&mut d.notes),
        Edit::CardSentence(generated, own) => d.card.set(generated, own.as_deref()),
        Edit::Renew(kind, key) => {
            if !d.snapshot.put(pantry, *kind, key) {
                return Err(Note::error(
                    kind.one(),
                    format!("The pantry has no {} called {key}", kind.one()),
                    "Keep the design's own copy, or swap the line for another entry",
                ));
            }
        }
        Edit::Together(_, edits) => {
            for edit in edits {
                change(d, edit, pantry)?;
            }
        }
        steps => change_steps(d, steps, pantry)?,
    }
    Ok(())
}

fn move_share(d: &mut Design, i: usize, share: f64) -> Result<(), Note> {
    line(&mut d.bases, LineKind::Bases, i)?;
    let litres = d.litres();
    let old: Vec<f64> = d.bases.iter().map(|b| b.litres).collect();
    let locked: Vec<bool> = d.bases.iter().map(|b| b.locked).collect();
    let new = shares::shift(&old, &locked, i, share)
        .map_err(|note| Note { field: format!("bases[{i}].share"), ..note })?;
    for ((line, share), locked) in d.bases.iter_mut().zip(new).zip(locked) {
        if !locked {
            line.litres = share * litres;
        }
    }
    Ok(())
}

/// Lines said in a measure that the spoon set lacks go back to the unit of their list.
fn lose_measures(d: &mut Design) {
    let set = d.spoons;
    for shelf in LineKind::ALL {
        for line in d.lines_mut(shelf).into_iter().filter(|line| !line.measure().in_set(set)) {
            *line.measure_mut() = shelf.usual();
        }
    }
}

fn change_steps(d: &mut Design, edit: &Edit, pantry: &Pantry) -> Result<(), Note> {
    match edit {
        Edit::Steps(steps) => steps.clone_into(&mut d.steps),
        Edit::StartTemperature(c) => {
            for step in &mut d.steps {
                if let Step::Start { from_c } = step {
                    *from_c = *c;
                }
            }
        }
        Edit::CultureTemperature(c) => culture_in::bring_to(&mut d.steps, *c),
        Edit::ChillTemperature(c) => {
            for step in &mut d.steps {
                if let Step::Chill { to_c, .. } = step {
                    *to_c = *c;
                }
            }
        }
        Edit::ChillHours(h) => {
            for step in &mut d.steps {
                if let Step::Chill { hours, .. } = step {
                    *hours = *h;
                }
            }
        }
        other => {
            if let Edit::Warmer(key) = other {
                known(d, pantry, EntryKind::Warmer, key)?;
            }
            let hold = d.hold_mut().ok_or_else(no_hold)?;
            match other {
                Edit::HoldTemperature(c) => hold.set_c = *c,
                Edit::HoldHours(h) => hold.hours = *h,
                Edit::Warmer(key) => key.clone_into(&mut hold.warmer),
                Edit::Events(events) => events.clone_into(&mut hold.events),
                Edit::Measured(readings) => readings.clone_into(&mut hold.measured),
                _ => {}
            }
        }
    }
    Ok(())
}

fn add(d: &mut Design, shelf: LineKind, key: &str, amount: f64, pantry: &Pantry) -> Result<(), Note> {
    known(d, pantry, shelf.kind(), key)?;
    let entry = key.to_owned();
    match shelf {
        LineKind::Bases => d.bases.push(BaseLine::new(entry, amount)),
        LineKind::Sugars => d.sugars.push(SugarLine::new(entry, amount)),
        LineKind::Thickeners => d.thickeners.push(ThickenerLine::new(entry, amount, false)),
        LineKind::Additives => d.additives.push(AdditiveLine::new(entry, amount, AddedWhen::default())),
        LineKind::Cultures => d.cultures.push(CultureLine::new(entry, amount)),
    }
    Ok(())
}

fn remove(d: &mut Design, shelf: LineKind, i: usize) -> Result<(), Note> {
    if shelf == LineKind::Bases && d.bases.len() == 1 && i == 0 {
        return Err(Note::error(
            "bases",
            "A pot needs a base",
            "Swap the base for another one instead of removing it",
        ));
    }
    any_line(d, shelf, i)?;
    d.take_line(shelf, i);
    Ok(())
}
