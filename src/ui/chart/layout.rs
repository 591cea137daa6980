//! Where everything is: the time axis, the heights of the strips, the parts of the sheet.

use egui::{Rect, pos2};

use crate::kinds::{COUNT, Kind};

/// How a strip stands on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    Open,
    /// Its title row alone.
    Folded,
    /// Not at all: it belongs to the other depth.
    Away,
}

impl Stands {
    /// The least height, with the title.
    const fn least(self) -> f32 {
        match self {
            Self::Open => LEAST,
            Self::Folded => TITLE,
            Self::Away => 0.0,
        }
    }
}

/// Left of the curves: the fold triangles, and the numbers or words of the y axes.
pub const GUTTER: f32 = 54.0;
/// Right of the curves.
pub const MARGIN: f32 = 18.0;
/// Above the strips: the name of the ready window and the copy button.
pub const HEADER: f32 = 22.0;
/// The row of a strip's title; all there is of a folded strip.
pub const TITLE: f32 = 18.0;
/// Between the title row and the curves, and below the curves.
pub const ABOVE: f32 = 2.0;
pub const BELOW: f32 = 4.0;
/// The least height of an open strip, with its title.
pub const LEAST: f32 = 64.0;
/// The row of the hours, and of the clock times below it.
pub const AXIS: f32 = 24.0;
pub const CLOCK: f32 = 14.0;
/// The strips come first: what they must have beyond the least before clock times get a row.
const CLOCK_SPARE: f32 = 60.0;

/// The time axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Time {
    pub left: f32,
    pub right: f32,
    pub horizon_h: f64,
}

impl Time {
    pub fn x(&self, hours: f64) -> f32 {
        let fraction = (hours / self.horizon_h) as f32;
        self.left + (self.right - self.left) * fraction
    }

    pub fn hours(&self, x: f32) -> f64 {
        let fraction = f64::from((x - self.left) / (self.right - self.left).max(1.0));
        fraction * self.horizon_h
    }

    /// Hours between two ticks.
    pub fn step_h(&self) -> f64 {
        match self.horizon_h {
            h if h <= 18.0 => 3.0,
            h if h < 72.0 => 6.0,
            _ => 12.0,
        }
    }

    /// Places of the ticks, from the start on.
    pub fn ticks(&self) -> impl Iterator<Item = f64> {
        let (step, end) = (self.step_h(), self.horizon_h + 1e-6);
        (0..=100_u32).map(move |k| f64::from(k) * step).take_while(move |at| *at <= end)
    }
}

/// The parts of the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Places {
    pub whole: Rect,
    pub header: Rect,
    pub body: Rect,
    /// The row of the hours.
    pub axis: Rect,
    /// The row of the clock times, if there is room.
    pub clock: Option<Rect>,
    pub heights: [f32; COUNT],
    pub scrolls: bool,
}

impl Places {
    pub fn new(whole: Rect, strips: [Stands; COUNT], has_clock: bool) -> Self {
        let room = whole.height() - HEADER - AXIS;
        let needs = least(strips);
        let clock = if has_clock && needs + CLOCK + CLOCK_SPARE <= room { CLOCK } else { 0.0 };
        let top = whole.top() + HEADER;
        let bottom = (whole.bottom() - AXIS - clock).max(top);
        let row = |from, to| Rect::from_x_y_ranges(whole.x_range(), from..=to);
        Self {
            whole,
            header: row(whole.top(), top),
            body: row(top, bottom),
            axis: row(bottom, bottom + AXIS),
            clock: (clock > 0.0).then(|| row(bottom + AXIS, bottom + AXIS + clock)),
            heights: heights(strips, bottom - top),
            scrolls: needs > bottom - top + 0.5,
        }
    }

    pub fn time(&self, horizon_h: f64) -> Time {
        let left = self.whole.left() + GUTTER;
        let right = (self.whole.right() - MARGIN).max(left + 1.0);
        Time { left, right, horizon_h: horizon_h.max(0.25) }
    }

    /// Where curves, bands and lines through all strips are drawn.
    pub fn through(&self, time: &Time) -> Rect {
        Rect::from_min_max(pos2(time.left, self.header.top()), pos2(time.right, self.body.bottom()))
    }
}

/// The least height of all strips together.
fn least(strips: [Stands; COUNT]) -> f32 {
    strips.iter().map(|strip| strip.least()).sum()
}

/// The height of each strip with its title: the least one, and a share of what is left over.
fn heights(strips: [Stands; COUNT], room: f32) -> [f32; COUNT] {
    let weight = |kind: Kind| if strips[kind.index()] == Stands::Open { kind.weight() } else { 0.0 };
    let weights: f32 = Kind::ALL.into_iter().map(weight).sum();
    let spare = (room - least(strips)).max(0.0);
    Kind::ALL.map(|kind| strips[kind.index()].least() + spare * weight(kind) / weights.max(f32::EPSILON))
}

/// The curves' part of a strip.
pub fn plot_of(strip: Rect, time: &Time) -> Rect {
    Rect::from_min_max(
        pos2(time.left, strip.top() + TITLE + ABOVE),
        pos2(time.right, (strip.bottom() - BELOW).max(strip.top() + TITLE + ABOVE)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::vec2;
    use potset_doc::settings::Depth;

    fn places(width: f32, height: f32, strips: [Stands; COUNT]) -> Places {
        Places::new(Rect::from_min_size(pos2(0.0, 0.0), vec2(width, height)), strips, true)
    }

    #[test]
    fn strips_fill_the_body_or_scroll() {
        let roomy = places(650.0, 730.0, [Stands::Open; COUNT]);
        assert!((roomy.heights.iter().sum::<f32>() - roomy.body.height()).abs() < 0.1);
        assert!(roomy.clock.is_some() && !roomy.scrolls);
        let tight = places(500.0, 470.0, [Stands::Open; COUNT]);
        assert!(!tight.scrolls, "it just fits");
        let tiny = places(500.0, 300.0, [Stands::Open; COUNT]);
        assert!(tiny.scrolls && tiny.clock.is_none());
        assert!(tiny.heights.iter().all(|height| *height >= LEAST));
        let folded = places(500.0, 300.0, [Stands::Folded; COUNT]);
        assert_eq!(folded.heights, [TITLE; COUNT]);
        let plain = Kind::ALL.map(|kind| if kind.shown(Depth::Plain) { Stands::Open } else { Stands::Away });
        let plain = places(500.0, 300.0, plain);
        assert_eq!(plain.heights[Kind::Acid.index()], 0.0);
        assert!((plain.heights.iter().sum::<f32>() - plain.body.height()).abs() < 0.1 && !plain.scrolls);
    }

    #[test]
    fn the_axis_goes_there_and_back() {
        let time = places(650.0, 730.0, [Stands::Open; COUNT]).time(36.0);
        assert!((time.hours(time.x(24.25)) - 24.25).abs() < 1e-4);
        let ticks = |horizon_h| Time { horizon_h, ..time }.ticks().collect::<Vec<_>>();
        assert_eq!(ticks(36.0), [0.0, 6.0, 12.0, 18.0, 24.0, 30.0, 36.0]);
        assert_eq!(ticks(12.0), [0.0, 3.0, 6.0, 9.0, 12.0]);
        assert_eq!(ticks(72.0).len(), 7);
    }
}
