//! What the sheet draws, and what the maker did on it.

use egui::Id;

use super::kinds::{COUNT, Kind};
use super::layout::Stands;
use super::traces::Traces;
use potset_base::clock::Moment;
use potset_base::number;
use potset_base::words::ACID_LINE_PH;
use potset_doc::settings::Depth;
use potset_doubt::spread::Spread;
use potset_explain::Reading;
use potset_judge::readiness::Window;
use potset_judge::ready::ReadyTime;
use potset_judge::ready::shown_h;
use potset_judge::verdict::Verdict;
use potset_science::forecast::Forecast;
use potset_ui_kit::widgets::lever::Gesture;

/// What the sheet draws.
#[derive(Clone, Copy, Debug)]
pub struct Shown<'a> {
    pub forecast: &'a Forecast,
    /// Other forecasts, drawn thin: as it was before a drag, or settings that Aim found, these with their numbers.
    pub ghosts: &'a [&'a Forecast],
    pub numbered: bool,
    pub verdict: &'a Verdict,
    /// How much of it is drawn.
    pub depth: Depth,
    /// Changes whenever `forecast` changes.
    pub revision: u64,
    /// What most pots do, and a number that changes whenever it changes.
    pub spread: Option<&'a Spread>,
    /// When the possible pots are ready; nothing while it is not known.
    pub ready: Option<&'a ReadyTime>,
    /// Both are of the pot as it was before the last change.
    pub spread_outdated: bool,
    pub spread_revision: u64,
    /// Changes whenever `ghosts` change.
    pub ghost_revision: u64,
    pub stop_h: f64,
    /// When the culture goes in, if it is known.
    pub start: Option<Moment>,
    /// What is done to the pot after the hold, in words; empty if nothing.
    pub finished: &'static str,
    /// Keys of the strips that are folded.
    pub folded: &'a [String],
    /// The stop line is shown only.
    pub fixed: bool,
    /// What several sheets next to each other have in common.
    pub shared: Option<Shared<'a>>,
    /// What was measured.
    pub dots: &'a [Dot],
}

/// What sheets next to each other have in common.
#[derive(Clone, Copy, Debug)]
pub struct Shared<'a> {
    /// Where the time axis ends, h.
    pub horizon_h: f64,
    pub bounds: &'a Bounds,
    /// The time under the pointer on another sheet, h.
    pub cursor_h: Option<f64>,
}

/// Least and greatest plotted value of each strip; NaN where there is none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds(pub [(f64, f64); COUNT]);

impl Bounds {
    /// Bounds that hold all of several forecasts.
    pub fn of<'a>(forecasts: impl IntoIterator<Item = &'a Forecast>) -> Self {
        let mut out = [(f64::NAN, f64::NAN); COUNT];
        for forecast in forecasts {
            for (bound, strip) in
                out.iter_mut().zip(Traces::new(forecast, 0, "", None, Depth::Details).strips)
            {
                *bound = (bound.0.min(strip.low), bound.1.max(strip.high));
            }
        }
        Self(out)
    }
}

/// The line across the sourness strip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SourLine {
    /// The pH at which the pot may be ready.
    Enough(f64),
    /// The line of acid food: where pots stand together that need not come to the same.
    AcidFood,
}

impl SourLine {
    pub const fn ph(self) -> f64 {
        match self {
            Self::Enough(ph) => ph,
            Self::AcidFood => ACID_LINE_PH,
        }
    }

    pub fn words(self) -> String {
        let ph = number::plain((self.ph() * 100.0).round() / 100.0);
        match self {
            Self::Enough(_) => format!("sour enough: pH {ph}"),
            Self::AcidFood => format!("pH {ph}"),
        }
    }
}

/// A measured value on a strip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    pub strip: Kind,
    pub t_h: f64,
    /// In the unit of the strip.
    pub value: f64,
}

impl Dot {
    pub const fn ph(t_h: f64, value: f64) -> Self {
        Self { strip: Kind::Sourness, t_h, value }
    }

    pub const fn acid(t_h: f64, value: f64) -> Self {
        Self { strip: Kind::Acid, t_h, value }
    }
}

impl Shown<'_> {
    /// The span in which most possible pots are ready together, as far as it is drawn.
    pub fn window(&self) -> Option<Window> {
        let window = self.ready.and_then(|ready| ready.window.as_ref())?;
        // It begins at the hour that is told.
        let from_h = shown_h(window.from_h).min(window.to_h);
        (from_h < self.horizon_h()).then(|| Window { from_h, ..window.clone() })
    }

    /// The line across the sourness strip.
    pub fn sour_line(&self) -> SourLine {
        self.verdict.release.map_or(SourLine::AcidFood, |release| SourLine::Enough(release.ph))
    }

    /// Where the time axis ends, h.
    pub fn horizon_h(&self) -> f64 {
        self.shared.map_or(self.forecast.horizon_h, |shared| shared.horizon_h)
    }

    /// How a strip stands on the sheet.
    pub fn stands(&self, kind: Kind) -> Stands {
        match (kind.shown(self.depth), self.folded.iter().any(|key| key == kind.key())) {
            (false, _) => Stands::Away,
            (true, true) => Stands::Folded,
            (true, false) => Stands::Open,
        }
    }
}

/// What the maker did on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum SheetAction {
    /// The stop line moved, h.
    Stop(f64, Gesture),
    /// Fold or unfold a strip by its key.
    Fold(&'static str),
    /// A value is under the pointer, has the keyboard or was pressed: the widget, what it is, and of which time, h.
    Follow(Id, Reading, f64),
    /// Copy the table behind the sheet.
    CopyNumbers,
    /// The time under the pointer, h.
    Cursor(f64),
}
