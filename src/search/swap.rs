//! Swaps: another base, sugar, thickener or culture at its usual rate, or so that thickness or tang stay as they were.

mod brings;
mod names;
mod seek;
mod warned;
mod wish;

pub use self::brings::Brings;
pub use self::names::Names;
pub use self::seek::Nearest;
use self::seek::{CLOSE, rounded, seek};
use self::warned::{cautions, warnings};
pub use self::wish::SwapAsk;
use potset_base::{Note, Severity};
use potset_doc::Edit;
use potset_doc::design::BaseLine;
use potset_doc::edit::{self, LineKind};
use potset_doc::pantry;
use potset_forecast::lever::{Lever, LeverId, levers, spans};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::advice::Advice;
use potset_judge::outcomes::Outcomes;

/// Rounds in which thickness and tang are brought to what they were, one after the other. Source: assumed; two do nearly always.
const ROUNDS: usize = 6;

/// A swap that can be taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Swapped {
    /// One step of undo.
    pub edit: Edit,
    pub names: Names,
    /// Of a base, the line as it was, and the litres that the new one is used for.
    pub base: Option<(BaseLine, (f64, f64))>,
    /// Usual amount of what is swapped in, or the dose that keeps the thickness.
    pub doses: Vec<SolvedLever>,
    /// The pot is as thick without any of this thickener.
    pub needless: Option<String>,
    /// Moved, or found to do, so that the tang stays.
    pub hours: Option<SolvedLever>,
    /// What is warned of that was not before.
    pub warned: Vec<Advice>,
    pub brings: Brings,
    pub before: Outcomes,
    pub after: Outcomes,
}

/// Why a swap cannot be.
#[derive(Clone, Debug, PartialEq)]
pub enum Refused {
    /// It cannot be asked.
    Asked(Box<Note>),
    /// Thickness and tang move each other; of this field.
    EachMovesTheOther(String),
    OutOfReach(Box<OutOfReach>),
}

/// An outcome that cannot be as it was, with the nearest that can be reached.
#[derive(Clone, Debug, PartialEq)]
pub struct OutOfReach {
    pub field: String,
    /// What was to be swapped in.
    pub new: String,
    pub outcome: Observable,
    pub was: f64,
    pub lever: Lever,
    pub near: Nearest,
    /// What a thickener needs that it does not get; the first mend of these comes before all others.
    pub warned: Vec<Advice>,
}

impl From<Note> for Refused {
    fn from(note: Note) -> Self {
        Self::Asked(Box::new(note))
    }
}

/// Swaps an entry.
///
/// # Errors
/// Where there is no such line or entry, where there is no forecast, where there is no thickener to solve for, or where
/// thickness or tang cannot be as they were: with the nearest that can be reached.
pub fn swap(ask: &Scenario<'_>, wish: &SwapAsk) -> Result<Swapped, Refused> {
    let names = Names::of(ask, wish)?;
    let first_note = |notes: Vec<Note>| {
        let error = notes.into_iter().find(|n| n.severity == Severity::Error);
        error.unwrap_or_else(|| Note::error("design", "There is no forecast", "Undo the last change"))
    };
    let old = ask.run().map_err(first_note)?;
    let before = Outcomes::of(ask, &old);
    if names.same {
        return Ok(Swapped {
            edit: Edit::Together(names.title(wish), Vec::new()),
            names,
            base: None,
            doses: Vec::new(),
            needless: None,
            hours: None,
            warned: Vec::new(),
            brings: Brings::default(),
            before,
            after: before,
        });
    }
    let mut plan = Plan::new(ask, wish, &names, before)?;
    plan.solve()?;
    let edit = Edit::Together(names.title(wish), plan.edits());
    let design = edit::apply(ask.design, &edit, ask.pantry)?;
    let new_ask = Scenario { design: &design, ..*ask };
    let new = new_ask.run().map_err(first_note)?;
    let after = Outcomes::of(&new_ask, &new);
    let (base, needless) = (plan.base(), plan.needless());
    let warned = cautions(ask, &old, &new_ask, &new);
    let brings = Brings::of(ask, &old, &new_ask, &new);
    let Plan { doses, hours, .. } = plan;
    Ok(Swapped { edit, names, base, doses, needless, hours, warned, brings, before, after })
}

/// One number that is solved, or set to what is usual.
#[derive(Clone, Debug, PartialEq)]
pub struct SolvedLever {
    pub lever: Lever,
    /// Before the swap.
    pub old: f64,
    pub now: f64,
    pub solved: bool,
}

impl SolvedLever {
    pub fn moved(&self) -> bool {
        (self.now - self.old).abs() > 1e-9
    }
}

/// A swap with the numbers that go with it.
struct Plan<'a> {
    ask: &'a Scenario<'a>,
    wish: &'a SwapAsk,
    names: &'a Names,
    before: Outcomes,
    /// Usual amount of what is swapped in, or the dose that keeps the thickness.
    doses: Vec<SolvedLever>,
    /// Which of them is solved for thickness.
    thick: Option<usize>,
    hours: Option<SolvedLever>,
}

impl<'a> Plan<'a> {
    fn new(
        ask: &'a Scenario<'a>,
        wish: &'a SwapAsk,
        names: &'a Names,
        before: Outcomes,
    ) -> Result<Self, Note> {
        let swapped = edit::apply(ask.design, &swap_only(wish), ask.pantry)?;
        let all = levers(&swapped, ask.pantry);
        let turned = |lever_id: LeverId| {
            let lever = all.iter().find(|l| l.lever_id == lever_id)?.clone();
            Some(SolvedLever { old: lever.value, now: lever.value, lever, solved: false })
        };
        let own = match wish.shelf {
            LineKind::Sugars => Some(LeverId::SugarDose(wish.line)),
            LineKind::Thickeners => Some(LeverId::ThickenerDose(wish.line)),
            LineKind::Cultures => Some(LeverId::CultureRate(wish.line)),
            LineKind::Bases | LineKind::Additives => None,
        };
        let mut doses: Vec<SolvedLever> = own.and_then(turned).into_iter().collect();
        for dose in &mut doses {
            dose.now = dose.lever.usual_middle().unwrap_or(dose.now);
        }
        let mut thick = None;
        if wish.equal_thickness {
            if wish.shelf != LineKind::Thickeners {
                doses.push(turned(LeverId::ThickenerDose(0)).ok_or_else(|| {
                    let title = "There is no thickener whose dose could keep the thickness";
                    Note::error("thickeners", title, "Add a thickener first, or swap at the usual amount")
                })?);
            }
            thick = doses.len().checked_sub(1);
        }
        let hours = if wish.equal_tang { turned(LeverId::HoldHours) } else { None };
        if hours.is_some() && before.get(Observable::Tang).is_none_or(|t| t < 0.01) {
            let title = "The pot makes no acid: there is no tang to keep";
            return Err(Note::error(
                "cultures",
                title,
                "Swap at the usual amount, or give the pot a culture",
            ));
        }
        Ok(Self { ask, wish, names, before, doses, thick, hours })
    }

    fn edits(&self) -> Vec<Edit> {
        let turned = self.doses.iter().chain(&self.hours).filter(|t| t.moved());
        std::iter::once(swap_only(self.wish))
            .chain(turned.map(|t| t.lever.lever_id.edit(self.ask.design, t.now)))
            .collect()
    }

    /// How far an outcome is from what it was, as a difference of logarithms, with one more number turned.
    fn off(&self, outcome: Observable, lever_id: LeverId, v: f64) -> Option<f64> {
        let mut edits = self.edits();
        edits.push(lever_id.edit(self.ask.design, v));
        let run = self.ask.with(&Edit::Together(String::new(), edits))?;
        Some(outcome.scaled(read(outcome, &run)) - outcome.scaled(self.before.get(outcome)?))
    }

    /// Brings thickness and tang to what they were, one after the other, until both hold.
    fn solve(&mut self) -> Result<(), Refused> {
        for _ in 0..ROUNDS {
            let mut moved = false;
            if let Some(at) = self.thick {
                let dose = self.doses[at].clone();
                let new = self.solved(Observable::Texture, dose)?;
                moved = new.now.to_bits() != self.doses[at].now.to_bits() && self.hours.is_some();
                self.doses[at] = new;
            }
            if let Some(hours) = self.hours.clone() {
                let new = self.solved(Observable::Tang, hours.clone())?;
                moved |= new.now.to_bits() != hours.now.to_bits() && self.thick.is_some();
                self.hours = Some(new);
            }
            if !moved {
                return Ok(());
            }
        }
        Err(Refused::EachMovesTheOther(self.field()))
    }

    /// A number turned so that an outcome is as it was.
    fn solved(&self, outcome: Observable, turned: SolvedLever) -> Result<SolvedLever, Refused> {
        let off = |v: f64| self.off(outcome, turned.lever.lever_id, v);
        // What holds as it is is left alone.
        if off(turned.now).is_some_and(|d| d.abs() < CLOSE) {
            return Ok(SolvedLever { solved: true, ..turned });
        }
        let found = seek(turned.now, turned.lever.range, off)
            .map_err(|near| self.out_of_reach(outcome, &turned, near))?;
        let does = |v: f64| off(v).is_some_and(|d| d.abs() < CLOSE);
        let now = if found.to_bits() == turned.now.to_bits() {
            found
        } else {
            rounded(found, turned.lever.decimals, does)
        };
        Ok(SolvedLever { now, solved: true, ..turned })
    }

    fn field(&self) -> String {
        format!("{}s[{}]", self.wish.shelf.one(), self.wish.line)
    }

    /// Why an outcome cannot be as it was.
    fn out_of_reach(&self, outcome: Observable, turned: &SolvedLever, near: Nearest) -> Refused {
        let (lever, was) = (turned.lever.clone(), self.before.get(outcome).unwrap_or(f64::NAN));
        // A thickener that does nothing comes nearest at nothing of it: what it needs is told at its usual dose.
        let own = self.wish.shelf == LineKind::Thickeners && outcome == Observable::Texture;
        let warned =
            self.warnings_at(lever.lever_id, lever.usual_middle().filter(|_| own).unwrap_or(near.at));
        let (field, new) = (self.field(), self.names.new.clone());
        Refused::OutOfReach(Box::new(OutOfReach { field, new, outcome, was, lever, near, warned }))
    }

    /// What the swapped design is warned of that the old one is not.
    fn warnings_at(&self, lever_id: LeverId, v: f64) -> Vec<Advice> {
        let mut edits = self.edits();
        edits.push(lever_id.edit(self.ask.design, v));
        let edit = Edit::Together(String::new(), edits);
        let Ok(design) = edit::apply(self.ask.design, &edit, self.ask.pantry) else { return Vec::new() };
        let new_ask = Scenario { design: &design, ..*self.ask };
        let (Ok(old), Ok(new)) = (self.ask.run(), new_ask.run()) else { return Vec::new() };
        warnings(self.ask, &old, &new_ask, &new)
    }

    /// The thickener that is solved for, where the pot is as thick without any of it.
    fn needless(&self) -> Option<String> {
        let lever = &self.doses.get(self.thick?)?.lever;
        let off = self.off(Observable::Texture, lever.lever_id, 0.0)?;
        (off.abs() < CLOSE).then(|| lever.name.clone())
    }

    fn base(&self) -> Option<(BaseLine, (f64, f64))> {
        let bases = &self.ask.design.bases;
        let line = bases.get(self.wish.line).filter(|_| self.wish.shelf == LineKind::Bases)?;
        let (own, shelves) = (&self.ask.design.snapshot.bases, &self.ask.pantry.bases);
        let entry = pantry::find(own, &self.wish.entry).or_else(|| pantry::find(shelves, &self.wish.entry));
        Some((line.clone(), spans::litres(entry).range))
    }
}

fn swap_only(wish: &SwapAsk) -> Edit {
    Edit::Swap(wish.shelf, wish.line, wish.entry.clone())
}

/// Thickness or tang at the stop line, without the cost of all outcomes.
fn read(outcome: Observable, run: &Run) -> f64 {
    let f = &run.forecast;
    let curve = if outcome == Observable::Texture { &f.chilled.viscosity50 } else { &f.undissociated };
    f.value(curve, run.mix.stop_h)
}
