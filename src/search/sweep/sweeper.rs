//! Works out a sweep a few points at a time, coarse points first, on all cores.

use rayon::prelude::*;

use super::axis::SweepAsk;
use super::{Cell, Point, STRIDES, Sweep};
use potset_base::{Note, Severity};
use potset_doc::{Edit, edit};
use potset_forecast::compile;
use potset_forecast::lever::{self, LeverId};
use potset_forecast::scenario::{Run, Scenario};
use potset_judge::outcomes::Outcomes;
use potset_judge::readiness::{self, goals_of};

/// A sweep that is being worked out.
#[derive(Clone, Debug)]
pub struct Sweeper {
    sweep: Sweep,
    /// Places of all cells, coarse ones first.
    order: Vec<usize>,
    /// How far every point looks ahead, h: what comes late at one must not count as what never comes at another.
    far_h: Option<f64>,
}

impl Sweeper {
    /// A sweep with nothing worked out yet.
    pub fn new(ask: SweepAsk) -> Self {
        let (nx, ny) = ask.size();
        let mut order: Vec<usize> = (0..nx * ny).collect();
        // The sort keeps rows in order within a stride.
        order.sort_by_key(|at| {
            let (ix, iy) = (at % nx, at / nx);
            STRIDES.iter().position(|s| ix % s == 0 && iy % s == 0)
        });
        Self { sweep: Sweep::new(ask), order, far_h: None }
    }

    /// The sweep as far as it is.
    pub const fn sweep(&self) -> &Sweep {
        &self.sweep
    }

    /// The sweep as far as it is, to keep.
    pub fn into_sweep(self) -> Sweep {
        self.sweep
    }

    /// Works out the next `n` points; whether there are more. The same on any number of threads.
    ///
    /// - `ask` — the design that is swept, the same at each call.
    pub fn next(&mut self, ask: &Scenario<'_>, n: usize) -> bool {
        let far_h = *self.far_h.get_or_insert_with(|| horizon(ask, &self.sweep.ask));
        let done = self.sweep.done;
        let now = &self.order[done..self.order.len().min(done + n)];
        let wanted = &self.sweep.ask;
        let nx = wanted.size().0;
        let new: Vec<Cell> =
            now.par_iter().map(|at| cell(ask, &wanted.knobs(at % nx, at / nx), far_h)).collect();
        for (at, cell) in now.iter().zip(new) {
            self.sweep.cells[*at] = cell;
        }
        self.sweep.done += now.len();
        !self.sweep.complete()
    }
}

/// The forecast of one point; coarse, for there are thousands.
fn forecast(ask: &Scenario<'_>, far_h: f64) -> Result<Run, Vec<Note>> {
    ask.run_coarse(far_h)
}

/// The farthest that a corner of the sweep looks ahead, h.
fn horizon(ask: &Scenario<'_>, sweep: &SweepAsk) -> f64 {
    let (nx, ny) = sweep.size();
    let corners = [(0, 0), (nx - 1, 0), (0, ny - 1), (nx - 1, ny - 1)];
    let ahead = |(ix, iy): (usize, usize)| {
        let edits = lever::turned(ask, &sweep.knobs(ix, iy)).ok()?;
        let design = edit::apply(ask.design, &Edit::Together(String::new(), edits), ask.pantry).ok()?;
        let mix = compile(&design, ask.pantry, ask.kitchen, ask.learnt).mix?;
        Some(mix.horizon_h)
    };
    corners.into_iter().filter_map(ahead).fold(0.0, f64::max)
}

/// One point: the design with its knobs turned, forecast and judged.
fn cell(ask: &Scenario<'_>, knobs: &[(LeverId, f64)], far_h: f64) -> Cell {
    let turned = lever::turned(ask, knobs).map(|edits| Edit::Together(String::new(), edits));
    let design = match turned.and_then(|edit| edit::apply(ask.design, &edit, ask.pantry)) {
        Ok(design) => design,
        Err(note) => return Cell::Never(note.title),
    };
    let ask = Scenario { design: &design, ..*ask };
    match forecast(&ask, far_h) {
        Ok(run) => Cell::Point(Box::new(point(&ask, &run))),
        Err(notes) => {
            let why = notes.into_iter().find(|n| n.severity == Severity::Error);
            Cell::Never(why.map_or_else(|| "There is no forecast".to_owned(), |n| n.title))
        }
    }
}

fn point(ask: &Scenario<'_>, run: &Run) -> Point {
    let goals = goals_of(ask, run);
    let least = readiness::margins(&run.forecast.t, &goals, run.mix.stop_h)
        .into_iter()
        .min_by(|a, b| a.1.total_cmp(&b.1));
    Point {
        outcomes: Outcomes::of(ask, run),
        margin: least.map(|(_, margin)| margin),
        failing: least.filter(|(_, margin)| *margin < 0.0).map(|(name, _)| name.to_owned()),
    }
}
