//! The direct labels of a strip: words with a fixed place, and the names beside the curves.

use egui::{FontId, Rect, Ui, Vec2, pos2, vec2};

use crate::frame::{Frame, Scene};
use crate::kinds::Kind;
use crate::labels::{self, Course, Wish};
use crate::paint::{self, Texts};
use potset_base::words::{TextureWord, WORD_BOUNDS};
use potset_doc::settings::Depth;
use potset_ui_kit::{fonts, tokens};

/// The labels of a strip: where they are, and what that was worked out for.
#[derive(Default)]
pub struct Labels {
    known: Option<Known>,
    /// From the top left of the curves; whether a curve runs through it.
    rects: Vec<(Rect, bool)>,
    /// The same for the words with a fixed place.
    fixed: Vec<(String, Rect, bool)>,
    /// The place that each name has had so far.
    habits: Vec<(String, usize)>,
}

/// What the places of labels depend on.
#[derive(Clone, Copy, PartialEq)]
struct Known {
    revision: u64,
    size: Vec2,
    range: (f64, f64),
    horizon_h: f64,
    scale: f32,
}

/// Draws the words with a fixed place and the names beside the curves.
pub fn show(ui: &Ui, frame: &Frame<'_>, scene: &Scene<'_>, labels: &mut Labels, texts: &mut Texts) {
    let known = Known {
        revision: scene.shown.revision,
        size: frame.plot.size(),
        range: frame.range,
        horizon_h: frame.time.horizon_h,
        scale: ui.pixels_per_point(),
    };
    if labels.known != Some(known) {
        labels.work_out(ui, frame, scene);
        labels.known = Some(known);
    }
    if frame.kind == Kind::Texture && scene.shown.depth == Depth::Plain {
        texture_axis(ui, frame, scene, texts);
    }
    let origin = frame.plot.min.to_vec2();
    let behind = |place: &Rect| frame.behind(place.center(), scene);
    for (text, rect, struck) in &labels.fixed {
        let color = if frame.kind == Kind::Sourness { scene.t.warn } else { scene.t.ink_soft };
        let place = rect.translate(origin);
        let plate = struck.then(|| behind(&place));
        texts.push(ui, paint::plated(ui, place.left_center(), text, fixed_font(frame.kind), color, plate));
    }
    for (named, (rect, struck)) in named(frame).zip(&labels.rects) {
        let place = rect.translate(origin);
        let plate = struck.then(|| behind(&place));
        let color = match named.curve {
            Some(look) => look.of(scene.t).label,
            None => scene.t.ink_soft,
        };
        texts.push(ui, paint::plated(ui, place.left_center(), named.text, named.font, color, plate));
    }
}

/// A name with its font; no curve stands for the level of what was added.
struct Named<'a> {
    text: &'a str,
    font: FontId,
    curve: Option<crate::traces::CurveStyle>,
}

/// Curves that have a name, in the order in which they choose, then the level.
fn named<'a>(frame: &'a Frame<'_>) -> impl Iterator<Item = Named<'a>> {
    let curves = frame.now.traces.iter().filter_map(|trace| {
        let text = trace.label.as_deref()?;
        let font = if trace.italic { fonts::italic(tokens::SMALL) } else { fonts::semibold(tokens::SMALL) };
        Some(Named { text, font, curve: Some(trace.look) })
    });
    let level = frame.now.level.iter();
    curves.chain(level.map(|level| Named {
        text: &level.text,
        font: fonts::regular(tokens::SMALL),
        curve: None,
    }))
}

impl Labels {
    fn work_out(&mut self, ui: &Ui, frame: &Frame<'_>, scene: &Scene<'_>) {
        let plot = frame.plot;
        let local = |value: f32| frame.y(f64::from(value)) - plot.top();
        let traces = &frame.now.traces;
        let horizon = crate::traces::short(frame.time.horizon_h);
        let mut courses: Vec<Course> =
            (traces.iter()).map(|trace| Course::new(|share| trace.at(share * horizon).map(local))).collect();
        if let Some(level) = &frame.now.level {
            courses.push(Course::new(|_| Some(local(level.at))));
        }
        let curve_of = |look| traces.iter().position(|trace| Some(trace.look) == look);
        let wishes: Vec<Wish> = named(frame)
            .map(|named| Wish {
                size: paint::size(ui, named.text, named.font),
                curve: curve_of(named.curve).unwrap_or(traces.len()),
                // The right end belongs to the texture words, and the level is quiet.
                left: frame.kind == Kind::Texture || named.curve.is_none(),
                habit: self.habits.iter().find(|(name, _)| name == named.text).map(|(_, index)| *index),
            })
            .collect();
        let struck = |rect: &Rect| courses.iter().any(|course| course.strikes(rect, plot.width()) > 0.0);
        self.fixed =
            fixed(ui, frame, scene).into_iter().map(|(text, rect)| (text, rect, struck(&rect))).collect();
        let taken: Vec<Rect> = self.fixed.iter().map(|(_, rect, _)| *rect).collect();
        let placed = labels::place(plot.size(), &wishes, &courses, &taken);
        self.habits =
            named(frame).zip(&placed).map(|(named, (_, index))| (named.text.to_owned(), *index)).collect();
        self.rects = placed.into_iter().map(|(rect, _)| (rect, struck(&rect))).collect();
    }
}

/// The font of the words with a fixed place.
pub fn fixed_font(kind: Kind) -> FontId {
    if kind == Kind::Texture { fonts::italic(tokens::SMALL) } else { fonts::regular(tokens::SMALL) }
}

/// Words with a fixed place and their rects from the top left of the curves.
///
/// In the plain depth the texture words stand left of the curves, in the place of numbers: see [`texture_axis`].
pub fn fixed(ui: &Ui, frame: &Frame<'_>, scene: &Scene<'_>) -> Vec<(String, Rect)> {
    let plot = frame.plot;
    let font = fixed_font(frame.kind);
    match frame.kind {
        Kind::Sourness => {
            let text = scene.sour.words();
            let size = paint::size(ui, &text, font);
            // At the left a pot is not sour yet: no curve is so low there, unless it is a fast one, which lies below the
            // line at the right.
            let y = frame.y(scene.sour.ph()) - plot.top() - size.y - 0.5;
            let ends_h = frame.time.hours(plot.left() + 8.0 + size.x);
            let curve = frame.now.traces.first().and_then(|trace| trace.at(crate::traces::short(ends_h)));
            let fast = curve.is_some_and(|ph| frame.y(f64::from(ph)) - plot.top() > y - 2.0);
            let x = if fast { plot.width() - size.x - 4.0 } else { 4.0 };
            vec![(text, Rect::from_min_size(pos2(x, y), size))]
        }
        Kind::Texture if scene.shown.depth == Depth::Plain => Vec::new(),
        Kind::Texture => texture_words(ui, frame, &font),
        _ => Vec::new(),
    }
}

/// The texture words left of the curves, each in the middle of its span; one without room stays away.
fn texture_axis(ui: &Ui, frame: &Frame<'_>, scene: &Scene<'_>, texts: &mut Texts) {
    let plot = frame.plot;
    let edges = edges(frame);
    let mut free = f32::INFINITY;
    for (word, edge) in TextureWord::ALL.into_iter().zip(edges.windows(2)) {
        let font = fixed_font(frame.kind);
        let high = paint::size(ui, word.word(), font.clone()).y;
        let y = (0.5 * (edge[0] + edge[1])).clamp(0.5 * high, (plot.height() - 0.5 * high).max(0.5 * high));
        if y + 0.5 * high > free || edge[0] < edge[1] {
            continue;
        }
        free = y - 0.5 * high;
        let at = pos2(plot.left() - 6.0, plot.top() + y);
        texts.push(ui, paint::right(ui, at, word.word(), font, scene.t.ink_soft));
    }
}

/// Where the texture words begin and end, from the top of the curves, from thin to thick.
fn edges(frame: &Frame<'_>) -> [f32; 5] {
    let high = frame.plot.height();
    let bounds = WORD_BOUNDS.map(|bound| (frame.y(bound.log10()) - frame.plot.top()).clamp(0.0, high));
    [high, bounds[0], bounds[1], bounds[2], 0.0]
}

/// The words between their bounds; every second one steps aside where the bands are narrow.
fn texture_words(ui: &Ui, frame: &Frame<'_>, font: &FontId) -> Vec<(String, Rect)> {
    let plot = frame.plot;
    let edges = edges(frame);
    let size = |word: TextureWord| paint::size(ui, word.word(), font.clone());
    let narrowest = (edges[1] - edges[2]).min(edges[2] - edges[3]);
    let narrow = narrowest < size(TextureWord::Ribbons).y - 2.0;
    let mut out = Vec::new();
    let bands = TextureWord::ALL.into_iter().zip(edges.windows(2)).enumerate();
    for (index, (word, edge)) in bands {
        let size = size(word);
        let aside = if narrow && index % 2 == 1 { 48.0 } else { 0.0 };
        let y = ((edge[0] + edge[1] - size.y) / 2.0).clamp(-1.0, (plot.height() - size.y).max(0.0) + 1.0);
        // As far right as no curve strikes it; nowhere where one does everywhere: the title says the word, too.
        let place = |k: u8| {
            let at = pos2(plot.width() - 4.0 - aside - size.x - STEP * f32::from(k), y);
            Rect::from_min_size(at, vec2(size.x, size.y))
        };
        let clear = |rect: &Rect| {
            let taken = out.iter().any(|(_, other): &(String, Rect)| other.intersects(*rect));
            rect.left() > 0.0 && !taken && !struck(frame, *rect)
        };
        if let Some(rect) = (0..PLACES).map(place).find(clear) {
            out.push((word.word().to_owned(), rect));
        }
    }
    out
}

/// Where a texture word is tried: so many places, so far from each other, points.
const PLACES: u8 = 9;
const STEP: f32 = 56.0;

/// Whether a curve runs through a place, which is in points from the top left of the curves.
fn struck(frame: &Frame<'_>, place: Rect) -> bool {
    let rows = place.y_range().expand(1.0);
    (0..=8_u8).any(|k| {
        let x = frame.plot.left() + place.left() + place.width() * f32::from(k) / 8.0;
        let at = crate::traces::short(frame.time.hours(x));
        let curves = frame.now.traces.iter().filter_map(|trace| trace.at(at));
        curves.into_iter().any(|v| rows.contains(frame.y(f64::from(v)) - frame.plot.top()))
    })
}
