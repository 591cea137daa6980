//! Sweep: one lever or two over a range, a forecast at each point, and any outcome as a line or a map of it.

pub mod axis;
pub mod contour;
mod sweeper;

pub use axis::{Axis, SweepAsk};
pub use sweeper::Sweeper;

use potset_base::Note;
use potset_doc::Edit;
use potset_forecast::lever;
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::outcomes::{Outcomes, differ_among};

/// Distances between points that are worked out one after the other: a coarse picture is there at once.
pub const STRIDES: [usize; 4] = [8, 4, 2, 1];

/// What comes of one point.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    pub outcomes: Outcomes,
    /// Least margin of the goals at the stop line: 0 or more, all hold. Each goal has a unit of its own, so only its sign and
    /// where it is nought say something.
    pub margin: Option<f64>,
    /// The goal of the least margin, where it does not hold.
    pub failing: Option<String>,
}

/// One point of a sweep.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Cell {
    #[default]
    Waiting,
    /// There is no forecast: why, in a few words.
    Never(String),
    Point(Box<Point>),
}

impl Cell {
    /// What comes of it, if there is a forecast.
    pub const fn point(&self) -> Option<&Point> {
        if let Self::Point(point) = self { Some(&**point) } else { None }
    }
}

/// A sweep as far as it is worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Sweep {
    pub ask: SweepAsk,
    /// Row by row: the point `(ix, iy)` is at `iy * ask.x.points() + ix`.
    pub cells: Vec<Cell>,
    /// Points that are worked out.
    pub done: usize,
}

impl Sweep {
    /// A sweep with nothing worked out.
    pub fn new(ask: SweepAsk) -> Self {
        let (nx, ny) = ask.size();
        Self { ask, cells: vec![Cell::Waiting; nx * ny], done: 0 }
    }

    /// Whether every point is worked out.
    pub fn complete(&self) -> bool {
        self.done == self.cells.len()
    }

    /// A point; nothing outside of the grid.
    pub fn cell(&self, ix: usize, iy: usize) -> Option<&Cell> {
        let (nx, ny) = self.ask.size();
        if ix < nx && iy < ny { self.cells.get(iy * nx + ix) } else { None }
    }

    /// What is to be shown at a point: itself, or the nearest coarser one before it that is worked out.
    pub fn shown(&self, ix: usize, iy: usize) -> Option<&Cell> {
        let at = |s: usize| self.cell(ix - ix % s, iy - iy % s).filter(|c| **c != Cell::Waiting);
        STRIDES.into_iter().rev().find_map(at)
    }

    /// An outcome at a point.
    pub fn value(&self, ix: usize, iy: usize, outcome: Observable) -> Option<f64> {
        self.cell(ix, iy)?.point()?.outcomes.get(outcome)
    }

    /// Least and greatest value of an outcome so far.
    pub fn range(&self, outcome: Observable) -> Option<(f64, f64)> {
        let values = self.cells.iter().filter_map(|c| c.point()?.outcomes.get(outcome));
        values.fold(None, |range, v| Some(range.map_or((v, v), |(a, b): (f64, f64)| (a.min(v), b.max(v)))))
    }

    /// Whether a person would notice no difference between any two points so far; not asked of what nobody tastes.
    pub fn unnoticed(&self, outcome: Observable) -> bool {
        let points: Vec<&Outcomes> =
            self.cells.iter().filter_map(|c| c.point().map(|p| &p.outcomes)).collect();
        outcome.on_paper().is_none() && !differ_among(&points, outcome)
    }

    /// The finest distance between points that is worked out over the whole grid.
    pub fn stride(&self) -> Option<usize> {
        STRIDES
            .into_iter()
            .rev()
            .find(|s| self.lattice(*s).all(|(ix, iy)| self.cell(ix, iy) != Some(&Cell::Waiting)))
    }

    /// Places of every `stride`-th point, row by row.
    fn lattice(&self, stride: usize) -> impl Iterator<Item = (usize, usize)> + use<> {
        let (nx, ny) = self.ask.size();
        (0..ny).step_by(stride).flat_map(move |iy| (0..nx).step_by(stride).map(move |ix| (ix, iy)))
    }

    /// Lines along which an outcome has a value, in places of the grid; on the finest points that are all worked out. An
    /// outcome that a person notices by factors is taken by its logarithm between points.
    pub fn contour(&self, outcome: Observable, level: f64) -> Vec<contour::Line> {
        let value = |ix, iy| self.value(ix, iy, outcome).map(|v| outcome.scaled(v));
        self.lines(value, outcome.scaled(level))
    }

    /// Lines between where all goals hold and where one does not, in places of the grid.
    pub fn edge_of_goals(&self) -> Vec<contour::Line> {
        self.lines(|ix, iy| self.cell(ix, iy)?.point()?.margin, 0.0)
    }

    fn lines(&self, value: impl Fn(usize, usize) -> Option<f64>, level: f64) -> Vec<contour::Line> {
        let Some(stride) = self.stride() else { return Vec::new() };
        let values: Vec<Option<f64>> = self.lattice(stride).map(|(ix, iy)| value(ix, iy)).collect();
        let mut lines = contour::lines(&values, self.ask.size().0.div_ceil(stride), level);
        let wide = stride as f64;
        for point in lines.iter_mut().flatten() {
            *point = (point.0 * wide, point.1 * wide);
        }
        lines
    }

    /// The edit that makes a point the design, as one step of undo: "Sweep: Hold at 41.0 °C, Rice starch 14.0 g/L".
    ///
    /// # Errors
    /// Why the design cannot be turned so: it is another one than the sweep was made of.
    pub fn edit(&self, ask: &Scenario<'_>, ix: usize, iy: usize) -> Result<Edit, Note> {
        let edits = lever::turned(ask, &self.ask.knobs(ix, iy))?;
        Ok(Edit::Together(format!("Sweep: {}", self.ask.words(ix, iy)), edits))
    }

    /// The point nearest to a design; nothing where the design lies outside of the sweep.
    pub fn nearest(&self, ask: &Scenario<'_>) -> Option<(usize, usize)> {
        let along = |axis: &Axis| axis.nearest(axis.lever().lever_id.value(ask.design, ask.pantry)?);
        Some((along(&self.ask.x)?, self.ask.y.as_ref().map_or(Some(0), along)?))
    }
}
