//! The curves of a forecast as points to draw, made once per revision.

use crate::kinds::{COUNT, Kind};
use potset_base::{Sugar, number};
use potset_doc::settings::Depth;
use potset_doubt::spread::Spread;
use potset_science::forecast::Forecast;
use potset_ui_kit::tokens::{Curve, Dash, Tokens};

/// Below this a sugar is not drawn, g/L.
pub const LEAST_SUGAR: f64 = 0.1;
/// Points on a straight line are left out: how far they may be from it, as a share of the range.
const STRAIGHT: f64 = 0.0005;
/// A thin layer that is drawn, % of the pot.
const LEAST_THIN: f64 = 1.0;

/// Which curve of the tokens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CurveStyle {
    Ph,
    Acid,
    AllSugar,
    Sugar(Sugar),
    Chilled,
    Warm,
    Culture(usize),
    Warmth,
}

impl CurveStyle {
    pub fn of(self, t: &Tokens) -> Curve {
        let rare = |dash| Curve { dash, ..t.other_sugars };
        match self {
            Self::Ph => t.ph,
            Self::Acid => t.acid,
            Self::AllSugar => t.sugar_total,
            Self::Sugar(sugar) => match sugar {
                Sugar::Lactose => t.lactose,
                Sugar::Sucrose => t.sucrose,
                Sugar::Glucose => t.glucose,
                Sugar::Fructose => t.fructose,
                Sugar::Galactose => t.galactose,
                Sugar::Maltose => t.other_sugars,
                Sugar::Raffinose => rare(Dash::SPARSE),
                Sugar::Stachyose => rare(Dash::LONG),
            },
            Self::Chilled => t.texture_chilled,
            Self::Warm => t.texture_warm,
            Self::Culture(index) => *t.culture(index),
            Self::Warmth => t.temperature,
        }
    }

    /// Whether it is drawn as it was before a drag.
    pub const fn drawn_as_earlier(self) -> bool {
        matches!(self, Self::Ph | Self::Acid | Self::AllSugar | Self::Chilled | Self::Warm)
    }

    /// Whether it is the curve that its strip is about.
    pub const fn leads(self) -> bool {
        matches!(self, Self::Ph | Self::AllSugar | Self::Chilled)
    }
}

/// One curve: time in h and the plotted quantity.
#[derive(Clone, Debug)]
pub struct Trace {
    pub look: CurveStyle,
    /// The direct label; `None` where the title says it all.
    pub label: Option<String>,
    pub italic: bool,
    /// Unbroken runs; a curve is broken where it has no value.
    pub runs: Vec<Vec<[f32; 2]>>,
}

impl Trace {
    pub fn new(look: CurveStyle, xs: &[f64], ys: &[f64], span: (f64, f64)) -> Self {
        Self { look, label: None, italic: false, runs: runs(xs, ys, (span.1 - span.0) * STRAIGHT) }
    }

    fn labelled(mut self, label: impl Into<String>) -> Self {
        self.label = Some(label.into());
        self
    }

    /// The plotted value at a time, on the straight lines between points.
    pub fn at(&self, t_h: f32) -> Option<f32> {
        let run = self.runs.iter().find(|run| run.last().is_some_and(|last| last[0] >= t_h))?;
        let next = run.partition_point(|point| point[0] < t_h);
        let (b, a) = (run.get(next)?, run.get(next.saturating_sub(1))?);
        if next == 0 {
            return (b[0] - t_h < 1e-4).then_some(b[1]);
        }
        Some(a[1] + (b[1] - a[1]) * (t_h - a[0]) / (b[0] - a[0]))
    }
}

/// A level drawn straight across with a quiet word.
#[derive(Clone, Debug)]
pub struct Level {
    pub at: f32,
    pub text: String,
}

/// The curves of one strip.
#[derive(Clone, Debug, Default)]
pub struct StripTraces {
    pub traces: Vec<Trace>,
    /// Time, lower and upper bound of the band around the first trace: that of 9 in 10 pots, and of half of them.
    pub band: Vec<[f32; 3]>,
    pub inner: Vec<[f32; 3]>,
    /// Time, and the share of the pot that is thin below, 0 to 1; empty where none is to be seen.
    pub thin: Vec<[f32; 2]>,
    /// The amount of sugar that was added.
    pub level: Option<Level>,
    /// Least and greatest plotted value.
    pub low: f64,
    pub high: f64,
}

/// The curves of all strips, of one revision of a forecast.
#[derive(Clone, Debug)]
pub struct Traces {
    pub revision: u64,
    pub strips: [StripTraces; COUNT],
}

impl Traces {
    /// `finished`: what is done to the pot after the hold, in words. With a spread each strip has its bands.
    pub fn new(
        forecast: &Forecast,
        revision: u64,
        finished: &str,
        spread: Option<&Spread>,
        depth: Depth,
    ) -> Self {
        let strip = |kind| {
            let strip = strip(kind, forecast, finished, depth);
            spread.map_or_else(
                || strip.clone(),
                |spread| banded(kind, strip.clone(), spread, forecast.horizon_h),
            )
        };
        Self { revision, strips: Kind::ALL.map(strip) }
    }

    /// Several forecasts as ghosts; nothing where there are none.
    pub fn together(all: &[&Forecast], revision: u64, numbered: bool, depth: Depth) -> Option<Self> {
        let mut strips: Option<[StripTraces; COUNT]> = None;
        for (i, forecast) in all.iter().enumerate() {
            let mut new = Self::new(forecast, revision, "", None, depth).strips;
            for trace in new.iter_mut().flat_map(|strip| &mut strip.traces) {
                trace.label = (numbered && trace.look.leads()).then(|| (i + 1).to_string());
            }
            match &mut strips {
                None => strips = Some(new),
                Some(strips) => {
                    for (strip, more) in strips.iter_mut().zip(new) {
                        strip.low = strip.low.min(more.low);
                        strip.high = strip.high.max(more.high);
                        strip.traces.extend(more.traces);
                    }
                }
            }
        }
        strips.map(|strips| Self { revision, strips })
    }
}

fn strip(kind: Kind, f: &Forecast, finished: &str, depth: Depth) -> StripTraces {
    let t = &f.t[..];
    let one = |look, ys: &[f64]| {
        let (low, high) = bounds([ys]);
        let trace = Trace::new(look, t, ys, kind.range(low, high));
        StripTraces { traces: vec![trace], low, high, ..StripTraces::default() }
    };
    match kind {
        Kind::Sourness => one(CurveStyle::Ph, &f.ph),
        Kind::Acid => one(CurveStyle::Acid, &f.acid_made),
        Kind::Warmth => one(CurveStyle::Warmth, &f.temperature),
        Kind::Sugar => sugar(f, depth),
        Kind::Texture => texture(f, finished, depth),
        Kind::Culture => culture(f),
    }
}

/// Puts the bands of a spread around the first curve of a strip.
fn banded(kind: Kind, strip: StripTraces, spread: &Spread, end_h: f64) -> StripTraces {
    let Some(band) = spread.band(kind.curve()) else { return strip };
    let plotted = |v: f64| if kind.logarithmic() { v.log10() } else { v };
    let edges = |low: usize, high: usize| -> Vec<[f32; 3]> {
        let pairs = band.edges[low].iter().zip(&band.edges[high]);
        // The pots are followed farther than the sheet goes.
        let shown = spread.t.partition_point(|t| *t < end_h) + 1;
        let all = spread.t.iter().zip(pairs).take(shown).map(|(t, (a, b))| [*t, plotted(*a), plotted(*b)]);
        all.filter(|p| p.iter().all(|v| v.is_finite())).map(|p| p.map(short)).collect()
    };
    let (outer, inner) = (edges(0, 4), edges(1, 3));
    let ends = |k: usize| outer.iter().map(move |p| f64::from(p[k])).collect::<Vec<_>>();
    let (low, high) = bounds([&ends(1)[..], &ends(2)]);
    StripTraces { low: strip.low.min(low), high: strip.high.max(high), band: outer, inner, ..strip }
}

fn sugar(f: &Forecast, depth: Depth) -> StripTraces {
    let per_litre = |ys: &[f64]| ys.iter().map(|g_kg| g_kg * f.density).collect::<Vec<_>>();
    let total = per_litre(&f.sugar_total);
    let (low, mut high) = bounds([&total[..]]);
    // Plain shows all sugar alone: each kind, and what was added, belong to the details.
    let details = depth == Depth::Details;
    let level = (details && f.added_g_l > LEAST_SUGAR)
        .then(|| Level { at: short(f.added_g_l), text: format!("added {}", number::fixed(f.added_g_l, 1)) });
    if level.is_some() {
        high = high.max(f.added_g_l);
    }
    let span = Kind::Sugar.range(low, high);
    let there = Sugar::ALL.into_iter().filter_map(|sugar| {
        let ys = per_litre(&f.sugars[sugar.index()]);
        ys.iter().any(|g| *g > LEAST_SUGAR).then_some((sugar, ys))
    });
    let there: Vec<_> = there.collect();
    let all = Trace::new(CurveStyle::AllSugar, &f.t, &total, span);
    let mut traces = Vec::new();
    if !details {
        traces.push(all);
    } else if let [(only, _)] = &there[..] {
        // Two curves on top of each other say no more than one.
        traces.push(all.labelled(format!("all sugar: {}", only.name())));
    } else {
        traces.push(all.labelled("all sugar"));
        traces.extend(
            there.iter().map(|(s, ys)| Trace::new(CurveStyle::Sugar(*s), &f.t, ys, span).labelled(s.name())),
        );
    }
    StripTraces { traces, level, low, high, ..StripTraces::default() }
}

fn texture(f: &Forecast, finished: &str, depth: Depth) -> StripTraces {
    let chilled_label = if finished.is_empty() {
        "tomorrow, from the fridge".to_owned()
    } else {
        format!("chilled, {finished}")
    };
    let log = |ys: &[f64]| ys.iter().map(|v| v.log10()).collect::<Vec<_>>();
    let (chilled, warm) = (log(&f.chilled.viscosity50), log(&f.warm.viscosity50));
    let (under, over) = (log(&f.chilled.low50), log(&f.chilled.high50));
    let (low, high) = bounds([&chilled[..], &warm, &under, &over]);
    let span = Kind::Texture.range(low, high);
    let band = f.t.iter().zip(under.iter().zip(&over));
    let band = band.filter(|(_, (a, b))| a.is_finite() && b.is_finite());
    StripTraces {
        traces: vec![
            Trace::new(CurveStyle::Chilled, &f.t, &chilled, span).labelled(chilled_label),
            Trace::new(CurveStyle::Warm, &f.t, &warm, span).labelled(if depth == Depth::Plain {
                "warm, in the jar"
            } else {
                "in the pot"
            }),
        ],
        band: band.map(|(t, (a, b))| [short(*t), short(*a), short(*b)]).collect(),
        thin: thin(f),
        low,
        high,
        ..StripTraces::default()
    }
}

fn thin(f: &Forecast) -> Vec<[f32; 2]> {
    let shares: Vec<f64> = f.chilled.at.iter().map(|t| 0.01 * t.thin_layer).collect();
    if shares.iter().all(|share| 100.0 * share < LEAST_THIN) {
        return Vec::new();
    }
    runs(&f.t, &shares, STRAIGHT).into_iter().flatten().collect()
}

fn culture(f: &Forecast) -> StripTraces {
    let (low, high) = bounds(f.species.iter().map(|species| &species.log10[..]));
    let span = Kind::Culture.range(low, high);
    let traces = f.species.iter().enumerate().map(|(index, species)| {
        let trace = Trace::new(CurveStyle::Culture(index), &f.t, &species.log10, span);
        Trace { italic: true, ..trace.labelled(species.name.clone()) }
    });
    StripTraces { traces: traces.collect(), low, high, ..StripTraces::default() }
}

/// Least and greatest of the values that are numbers; NaN when there are none.
pub fn bounds<'a>(curves: impl IntoIterator<Item = &'a [f64]>) -> (f64, f64) {
    let values = curves.into_iter().flatten().copied().filter(|value| value.is_finite());
    values.fold((f64::NAN, f64::NAN), |(low, high), value| (low.min(value), high.max(value)))
}

/// Unbroken runs of the points that are needed to draw the curve to within `tolerance`.
fn runs(xs: &[f64], ys: &[f64], tolerance: f64) -> Vec<Vec<[f32; 2]>> {
    let points: Vec<(f64, f64)> = xs.iter().copied().zip(ys.iter().copied()).collect();
    let pieces = points.split(|(_, y)| !y.is_finite()).filter(|piece| !piece.is_empty());
    pieces.map(|piece| straightened(piece, tolerance)).collect()
}

/// Leaves out points between two that are kept if the line passes all of them closely: from each
/// kept point a cone of slopes is narrowed until a point lies outside it.
fn straightened(points: &[(f64, f64)], tolerance: f64) -> Vec<[f32; 2]> {
    let kept = |&(x, y): &(f64, f64)| [short(x), short(y)];
    let Some(first) = points.first() else { return Vec::new() };
    let mut out = vec![kept(first)];
    let (mut from, mut last) = (*first, *first);
    let mut cone = (f64::NEG_INFINITY, f64::INFINITY);
    for &(x, y) in &points[1..] {
        let slope = |at: f64| (at - from.1) / (x - from.0).max(1e-12);
        if slope(y) < cone.0 || slope(y) > cone.1 {
            out.push(kept(&last));
            from = last;
            cone = (f64::NEG_INFINITY, f64::INFINITY);
        }
        let slope = |at: f64| (at - from.1) / (x - from.0).max(1e-12);
        cone = (cone.0.max(slope(y - tolerance)), cone.1.min(slope(y + tolerance)));
        last = (x, y);
    }
    if points.len() > 1 {
        out.push(kept(&last));
    }
    out
}

pub fn short(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_line_needs_two_points_and_a_gap_breaks_it() {
        let xs: Vec<f64> = (0..=20).map(f64::from).collect();
        let mut ys: Vec<f64> = xs.iter().map(|x| 40.0 + x * 0.1).collect();
        assert_eq!(runs(&xs, &ys, 0.01), [[[0.0, 40.0], [20.0, 42.0]]]);
        ys[10] = f64::NAN;
        let broken = runs(&xs, &ys, 0.01);
        assert_eq!(broken.len(), 2);
        assert_eq!(broken[1][0][0], 11.0);
    }

    #[test]
    fn what_is_left_out_lies_close() {
        let xs: Vec<f64> = (0..=240).map(|i| f64::from(i) * 0.15).collect();
        let ys: Vec<f64> = xs.iter().map(|x| 4.0 + 2.2 / (1.0 + (x - 10.0).exp())).collect();
        let trace = Trace::new(CurveStyle::Ph, &xs, &ys, (3.5, 7.0));
        assert!(trace.runs[0].len() < 80, "{}", trace.runs[0].len());
        for (x, y) in xs.iter().zip(&ys) {
            let drawn = trace.at(short(*x)).unwrap();
            assert!((f64::from(drawn) - y).abs() < 0.006, "{x}: {drawn} for {y}");
        }
    }
}
