//! What all strips of a frame share, and where the curves of one stand.

use egui::{Id, Pos2, Rangef, Rect, pos2};

use super::kinds::Kind;
use super::layout::Time;
use super::shown::{Shown, SourLine};
use super::traces::{StripTraces, short};
use potset_judge::readiness::Window;
use potset_ui_kit::tokens::Tokens;

/// What all strips of a frame share.
pub struct Scene<'a> {
    pub shown: &'a Shown<'a>,
    pub t: &'static Tokens,
    pub time: Time,
    /// The time that the title rows read.
    pub read_h: f64,
    /// Whether that is the time under the pointer.
    pub read: bool,
    pub window: Option<Window>,
    pub sour: SourLine,
    pub id: Id,
}

impl Scene<'_> {
    /// Where the ready window is; empty if there is none.
    pub fn ready(&self) -> Rangef {
        let Some(window) = &self.window else { return Rangef::NOTHING };
        let x = |hours: f64| self.time.x(hours.clamp(0.0, self.time.horizon_h));
        let right = if window.closes.is_none() { self.time.right } else { x(window.to_h) };
        Rangef::new(x(window.from_h), right)
    }
}

/// A strip's curves on the screen.
pub struct Frame<'a> {
    pub kind: Kind,
    pub plot: Rect,
    pub time: Time,
    pub now: &'a StripTraces,
    pub ghost: Option<&'a StripTraces>,
    /// In plotted units.
    pub range: (f64, f64),
}

impl Frame<'_> {
    pub fn new<'a>(
        kind: Kind,
        plot: Rect,
        time: Time,
        (now, ghost): (&'a StripTraces, Option<&'a StripTraces>),
        shared: Option<(f64, f64)>,
    ) -> Frame<'a> {
        // Both, so that the range does not change where a drag leaves the old curve behind.
        let (low, high) = ghost.map_or((now.low, now.high), |g| (now.low.min(g.low), now.high.max(g.high)));
        let (low, high) = shared.map_or((low, high), |s| (low.min(s.0), high.max(s.1)));
        Frame { kind, plot, time, now, ghost, range: kind.range(low, high) }
    }

    /// The height of a value in plotted units.
    pub fn y(&self, value: f64) -> f32 {
        let (from, to) = self.range;
        self.plot.bottom() - self.plot.height() * short((value - from) / (to - from))
    }

    /// The colour behind the curves at a place.
    pub fn behind(&self, at: Pos2, scene: &Scene<'_>) -> egui::Color32 {
        let t = scene.t;
        let plain = if scene.ready().contains(at.x) { t.ready_fill } else { t.sheet };
        let hours = short(self.time.hours(at.x));
        let Some(trace) = self.now.traces.first() else { return plain };
        let look = trace.look.of(t);
        let next = self.now.band.partition_point(|point| point[0] < hours);
        let between =
            |[_, low, high]: &[f32; 3]| (self.y(f64::from(*high))..=self.y(f64::from(*low))).contains(&at.y);
        if self.now.band.get(next).is_some_and(between) {
            plain.blend(look.band())
        } else if self.kind == Kind::Sugar
            && trace.at(hours).is_some_and(|value| at.y > self.y(f64::from(value)))
        {
            plain.blend(look.area())
        } else {
            plain
        }
    }

    pub fn path(&self, run: &[[f32; 2]]) -> Vec<Pos2> {
        run.iter().map(|[h, value]| pos2(self.time.x(f64::from(*h)), self.y(f64::from(*value)))).collect()
    }
}
