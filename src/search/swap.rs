//! Swaps: another base, sugar, thickener or culture at its usual rate, or so that thickness or tang stay as they were.

mod names;
mod seek;
mod warned;
mod wish;

use self::names::Names;
use self::seek::{CLOSE, Nearest, rounded, seek};
use self::warned::warnings;
pub use self::wish::SwapAsk;
use potset_base::words::lower;
use potset_base::{Note, Severity, number};
use potset_doc::Edit;
use potset_doc::design::LabelFigures;
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
    /// What was changed, a sentence each.
    pub said: Vec<String>,
    /// What thickeners are warned of that they were not before.
    pub warned: Vec<Advice>,
    pub before: Outcomes,
    pub after: Outcomes,
}

/// Why a swap cannot be.
#[derive(Clone, Debug, PartialEq)]
pub struct Refused {
    pub note: Box<Note>,
    /// What a thickener needs that it does not get; the first mend of these comes before that of the note.
    pub warned: Vec<Advice>,
}

impl From<Note> for Refused {
    fn from(note: Note) -> Self {
        Self { note: Box::new(note), warned: Vec::new() }
    }
}

/// Swaps an entry.
///
/// # Errors
/// A note where there is no such line or entry, where there is no forecast, where there is no thickener to solve for, or where
/// thickness or tang cannot be as they were: with the nearest that can be reached.
pub fn swap(ask: &Scenario<'_>, wish: &SwapAsk) -> Result<Swapped, Refused> {
    let names = Names::of(ask, wish)?;
    let first_note = |notes: Vec<Note>| {
        let error = notes.into_iter().find(|n| n.severity == Severity::Error);
        error.unwrap_or_else(|| Note::error("design", "There is no forecast", "Change what was changed last"))
    };
    let old = ask.run().map_err(first_note)?;
    let before = Outcomes::of(ask, &old);
    if names.same {
        let said = vec![format!("{} is what is there: nothing changes", names.new)];
        return Ok(Swapped {
            edit: Edit::Together(names.title(wish), Vec::new()),
            said,
            warned: Vec::new(),
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
    let (said, warned) = (plan.said(&before, &after), warnings(ask, &old, &new_ask, &new));
    Ok(Swapped { edit, said, warned, before, after })
}

/// One number that is solved, or set to what is usual.
#[derive(Clone, Debug)]
struct SolvedLever {
    lever: Lever,
    /// Before the swap.
    old: f64,
    now: f64,
    solved: bool,
}

impl SolvedLever {
    fn moved(&self) -> bool {
        (self.now - self.old).abs() > 1e-9
    }

    /// "18.5 g/L instead of 16.0"; as many decimals as either needs.
    fn words(&self) -> String {
        let needs = |v: f64| {
            let shown = |d: &usize| (v - number::fixed(v, *d).parse().unwrap_or(v)).abs() < 1e-9;
            (self.lever.decimals..self.lever.decimals + 4).find(shown).unwrap_or(self.lever.decimals)
        };
        let decimals = needs(self.now).max(needs(self.old));
        let now = number::with_unit(self.now, decimals, self.lever.unit);
        format!("{now} instead of {}", number::fixed(self.old, decimals))
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
                    Note::error("thickeners", title, "Add a thickener first, or swap at the usual rate")
                })?);
            }
            thick = doses.len().checked_sub(1);
        }
        let hours = if wish.equal_tang { turned(LeverId::HoldHours) } else { None };
        if hours.is_some() && before.get(Observable::Tang).is_none_or(|t| t < 0.01) {
            let title = "The pot makes no acid, so there is no tang to keep";
            return Err(Note::error("cultures", title, "Swap at the usual rate, or give the pot a culture"));
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
        let title = "Thickness and tang cannot both be kept: each moves the other";
        Err(Note::error(self.field(), title, "Keep one of them, or swap at the usual rate").into())
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

    /// Why an outcome cannot be as it was, with the nearest that can be reached.
    fn out_of_reach(&self, outcome: Observable, turned: &SolvedLever, near: Nearest) -> Refused {
        let (lever, was) = (&turned.lever, self.before.get(outcome).unwrap_or(f64::NAN));
        let kept = if outcome == Observable::Texture { "thickness" } else { "tang" };
        let (low, high) = lever.range;
        let reach = format!("{}: {} to {} can be had", lever.name, lever.words(low), lever.words(high));
        let sentence = near.off.map_or_else(
            || format!("{reach}, and there is no forecast for any of it"),
            |off| {
                let (reached, was) = (precise(outcome, was.max(1e-9) * off.exp()), precise(outcome, was));
                format!("{reach}; {} comes nearest, with {reached} against {was}", lever.words(near.at))
            },
        );
        // A thickener that does nothing comes nearest at nothing of it: what it needs is told at its usual dose.
        let own = self.wish.shelf == LineKind::Thickeners && outcome == Observable::Texture;
        let warned =
            self.warnings_at(lever.lever_id, lever.usual_middle().filter(|_| own).unwrap_or(near.at));
        let title = format!("{} cannot give the same {kept}", self.names.new);
        let note = Note::error(self.field(), title, "Swap at the usual rate, or pick another entry");
        Refused { note: Box::new(Note { sentence, ..note }), warned }
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

    /// What was changed, a sentence each.
    fn said(&self, before: &Outcomes, after: &Outcomes) -> Vec<String> {
        let mut said = vec![format!("{} in the place of {}", self.names.new, lower(&self.names.old))];
        if self.wish.shelf == LineKind::Bases {
            said.extend(self.base_said());
        }
        let both = |outcome: Observable| {
            let words = |o: &Outcomes| o.get(outcome).map_or_else(String::new, |v| precise(outcome, v));
            format!("{} against {}", words(after), words(before))
        };
        for dose in &self.doses {
            let own = dose.lever.name == self.names.new;
            let of = if own { String::new() } else { format!("{} ", dose.lever.name) };
            let stays = format!("{}stays at {}", if own { "It " } else { &of }, dose.lever.words(dose.now));
            said.push(match (dose.solved, dose.moved()) {
                (true, true) => {
                    format!("{of}{} for the same thickness ({})", dose.words(), both(Observable::Texture))
                }
                (true, false) => format!("{stays}: the thickness is the same"),
                (false, true) => format!("{of}{}: the usual rate", dose.words()),
                (false, false) => format!("{stays}, the usual rate"),
            });
        }
        if let Some(dose) = self.thick.and_then(|at| self.doses.get(at))
            && self.off(Observable::Texture, dose.lever.lever_id, 0.0).is_some_and(|d| d.abs() < CLOSE)
        {
            said.push(format!("The pot is as thick without any {}", lower(&dose.lever.name)));
        }
        if let Some(hours) = &self.hours {
            said.push(if hours.moved() {
                let (now, old) = (number::hours(hours.now), number::hours(hours.old));
                format!("Stop after {now} instead of {old} for the same tang ({})", both(Observable::Tang))
            } else {
                format!("Stop after {} as before: the tang is the same", number::hours(hours.now))
            });
        }
        said
    }

    fn base_said(&self) -> Vec<String> {
        let mut said = Vec::new();
        let Some(line) = self.ask.design.bases.get(self.wish.line) else { return said };
        if line.label != LabelFigures::default() {
            said.push(format!(
                "The label figures of {} go: those of the pantry count",
                lower(&self.names.old)
            ));
        }
        if !line.measured.is_empty() {
            said.push(format!("What you measured of {} goes too", lower(&self.names.old)));
        }
        let (own, shelves) = (&self.ask.design.snapshot.bases, &self.ask.pantry.bases);
        let entry = pantry::find(own, &self.wish.entry).or_else(|| pantry::find(shelves, &self.wish.entry));
        let (least, most) = spans::litres(entry).range;
        if !(least..=most).contains(&line.litres) {
            said.push(format!(
                "{} L of it is more or less than it is used for ({} to {} L): look at the amount",
                number::plain(line.litres),
                number::plain(least),
                number::plain(most)
            ));
        }
        said
    }
}

/// A reading with one figure more than usual, for what is said to be the same.
fn precise(outcome: Observable, v: f64) -> String {
    if v < 1e-6 {
        return "none".to_owned();
    }
    format!("{}{}{}", number::figures(v, 3), number::NBSP, outcome.unit())
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
