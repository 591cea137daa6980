//! Sweeps and swaps of the design on the bench: what is asked, and what came of it.

use std::sync::Arc;

use potset_base::Note;
use potset_doc::edit::LineKind;
use potset_forecast::lever::{Lever, LeverId};
use potset_forecast::observable::Observable;
use potset_search::swap::{SwapAsk, Swapped};
use potset_search::sweep::{Axis, Sweep, SweepAsk};

/// Points along each of two levers, and along one alone.
const POINTS: (usize, usize) = (60, 120);

/// A lever of a sweep and its span.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeverSpan {
    pub lever_id: LeverId,
    pub from: f64,
    pub to: f64,
}

impl LeverSpan {
    /// A lever over what is usual, or around the design where that is not known.
    pub fn usual(lever: &Lever) -> Self {
        let (low, high) = lever.range;
        let (a, b) = lever.usual.unwrap_or((0.5 * lever.value, 1.5 * lever.value));
        // The design itself shall lie inside, with some room on both sides.
        let (a, b) = (a.min(lever.value), b.max(lever.value));
        let room = 0.5 * (b - a).max(lever.step);
        Self { lever_id: lever.lever_id, from: (a - room).max(low), to: (b + room).min(high) }
    }
}

/// What is to be swept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SweepWish {
    pub x: LeverSpan,
    pub y: Option<LeverSpan>,
}

impl SweepWish {
    /// A thickener's dose, else the hold's warmth, against what is likely to matter beside it.
    pub fn first(levers: &[Lever]) -> Option<Self> {
        let find = |wanted: &[LeverId]| {
            wanted
                .iter()
                .find_map(|lever_id| levers.iter().find(|l| l.lever_id == *lever_id))
                .map(LeverSpan::usual)
        };
        let x = find(&[LeverId::HoldHours, LeverId::HoldTemperature])?;
        let y = find(&[LeverId::ThickenerDose(0), LeverId::BaseFat(0), LeverId::SugarDose(0)]);
        Some(Self { x, y: y.filter(|y| y.lever_id != x.lever_id) })
    }

    /// As a question.
    ///
    /// # Errors
    /// A note where the design has no such lever any more, or the span cannot be.
    pub fn ask(&self, levers: &[Lever]) -> Result<SweepAsk, Note> {
        let points = if self.y.is_some() { POINTS.0 } else { POINTS.1 };
        let axis = |turned: &LeverSpan| {
            let lever = levers.iter().find(|l| l.lever_id == turned.lever_id).ok_or_else(|| {
                Note::error("Sweep", "The design has no such lever any more", "Pick another lever")
            })?;
            Axis::new(lever.clone(), turned.from, turned.to, points)
        };
        SweepAsk::new(axis(&self.x)?, self.y.as_ref().map(axis).transpose()?)
    }
}

/// A sweep as far as it is worked out, with the values at which something changes for the maker.
#[derive(Clone, Debug)]
pub struct Swept {
    pub sweep: Sweep,
    pub levels: Vec<(Observable, Vec<(f64, String)>)>,
}

/// What is swept and swapped.
#[derive(Clone, Debug)]
pub struct Sweeps {
    pub wish: Option<SweepWish>,
    pub outcome: Observable,
    /// Goes up with every question; answers to older ones are dropped.
    pub question: u64,
    pub swept: Option<Arc<Swept>>,
    /// Goes up with everything that came of it.
    pub number: u64,
    /// Why the sweep cannot be.
    pub fault: Option<Note>,
    /// It was stopped by hand.
    pub stopped: bool,
    /// The edit that is being made changes nothing of it.
    pub stays: bool,
    pub swap: SwapDesk,
}

impl Default for Sweeps {
    fn default() -> Self {
        Self {
            wish: None,
            outcome: Observable::Texture,
            question: 0,
            swept: None,
            number: 0,
            fault: None,
            stopped: false,
            stays: false,
            swap: SwapDesk::default(),
        }
    }
}

/// A swap that is looked at.
#[derive(Clone, Debug)]
pub struct SwapDesk {
    pub wish: SwapAsk,
    pub question: u64,
    pub answered: u64,
    pub told: Option<Arc<Result<Swapped, Note>>>,
}

impl Default for SwapDesk {
    fn default() -> Self {
        let wish = SwapAsk {
            shelf: LineKind::Thickeners,
            line: 0,
            entry: String::new(),
            equal_thickness: false,
            equal_tang: false,
        };
        Self { wish, question: 0, answered: 0, told: None }
    }
}
