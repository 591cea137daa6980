//! The long sheet: all curves of a forecast in strips over one time axis.
//!
//! The ready window, the stop line and the cursor go through all strips; every title row reads the
//! time of the cursor, or else of the stop line. Points, ranges and places of labels are worked out
//! once per revision of the forecast.

mod axis;
mod direct;
mod frame;
mod ghosts;
mod kinds;
mod labels;
mod layout;
pub mod over;
mod paint;
mod shown;
mod stop;
mod strip;
mod thin;
mod traces;
mod words;

use egui::accesskit::Role;
use egui::{Align2, Id, Rect, Response, ScrollArea, Sense, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2};

use self::direct::Labels;
use self::frame::Scene;
use self::kinds::{COUNT, Kind};
use self::layout::{Places, Stands};
use self::paint::Texts;
pub use self::shown::{Bounds, Dot, Shared, SheetAction, Shown};
use self::traces::{StripTraces, Traces};
use potset_doc::settings::Depth;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{self, Tokens};

/// What the eye needs between frames.
#[derive(Default)]
pub struct SheetState {
    now: Option<Traces>,
    spread_revision: u64,
    depth: Option<Depth>,
    ghost: Option<Traces>,
    labels: [Labels; COUNT],
    drag: Option<stop::Drag>,
    /// The keys moved the stop line since its pill got the keyboard.
    nudged: bool,
}

/// Draws the sheet over all the room of `ui`.
pub fn show(ui: &mut Ui, state: &mut SheetState, shown: &Shown<'_>) -> Vec<SheetAction> {
    let whole = room(ui);
    let t = tokens::of(ui);
    ui.painter().rect_filled(whole, 0, t.sheet);
    if shown.forecast.t.is_empty() {
        empty(ui, whole, t);
        return Vec::new();
    }
    state.remember(shown);
    let id = ui.scope_id().with("long sheet");
    let sheet = ui.interact(whole, id, Sense::hover());
    let horizon_h = state.drag.map_or(shown.horizon_h(), |drag| drag.horizon_h);
    let places = Places::new(whole, Kind::ALL.map(|kind| shown.stands(kind)), shown.start.is_some());
    let time = places.time(horizon_h);
    let line = (!shown.fixed).then(|| stop::line(ui, id, &places, &time, shown));
    let pill_rect = stop::pill_rect(ui, &places, &time, shown.stop_h);

    let held = state.drag.is_some() || line.as_ref().is_some_and(|line| line.hovered() || line.dragged());
    let pointer = cursor(ui, &sheet, &places, &time).filter(|at| !held && !pill_rect.contains(*at));
    let elsewhere = shown.shared.and_then(|shared| shared.cursor_h);
    let cursor = pointer.map(|at| time.hours(at.x)).or(elsewhere);
    let read_h = cursor.unwrap_or(shown.stop_h).clamp(0.0, shown.forecast.horizon_h);
    let scene = Scene {
        shown,
        t,
        time,
        read_h,
        read: cursor.is_some(),
        window: shown.window(),
        sour: shown.sour_line(),
        id,
    };

    let beside_others = pointer.filter(|_| shown.shared.is_some());
    let mut actions: Vec<SheetAction> =
        beside_others.map(|at| SheetAction::Cursor(time.hours(at.x))).into_iter().collect();
    let mut texts = Texts::default();
    ready_window(ui, &places, &scene, &mut texts);
    let nothing = StripTraces::default();
    actions.extend(strips(ui, &places, |ui, kind, rect| {
        if shown.stands(kind) == Stands::Away {
            return None;
        }
        let index = kind.index();
        let now = state.now.as_ref().map_or(&nothing, |traces| &traces.strips[index]);
        let ghost = state.ghost.as_ref().map(|traces| &traces.strips[index]);
        strip::show(ui, rect, kind, &scene, (now, ghost), &mut state.labels[index], &mut texts)
    }));

    let stop_x = time.x(shown.stop_h.clamp(0.0, horizon_h));
    if let Some(hours) = cursor {
        let stroke = Stroke::new(tokens::HAIRLINE, t.ink_soft);
        texts.vline(ui, time.x(hours.min(horizon_h)), places.body.top(), places.body.bottom(), stroke);
    }
    let grip = if held { tokens::CURVE_STRONG } else { tokens::CURVE };
    texts.vline(ui, stop_x, places.header.top() + 2.0, pill_rect.top(), Stroke::new(grip, t.stop_line));
    axis::show(ui, &places, &scene, pill_rect, cursor.is_some());
    let pill = stop::pill(ui, id, pill_rect, shown, t);
    if let Some(line) = line {
        if line.drag_started() || pill.drag_started() {
            pill.request_focus();
        }
        actions.extend(stop::dragged(ui, &mut state.drag, [&line, &pill], &time, shown.stop_h));
        if state.drag.is_none() {
            actions.extend(stop::keyed(ui, &pill, &mut state.nudged, shown));
        }
    }
    actions.extend(copy(ui, &sheet, copy_rect(&places), &scene));
    actions
}

impl SheetState {
    /// Keeps the points of the revisions shown.
    fn remember(&mut self, shown: &Shown<'_>) {
        let finished = shown.finished;
        let known = self.now.as_ref().is_some_and(|traces| traces.revision == shown.revision)
            && self.depth == Some(shown.depth);
        if self.depth != Some(shown.depth) {
            self.depth = Some(shown.depth);
            self.ghost = None;
            self.labels = Default::default();
        }
        if !known || self.spread_revision != shown.spread_revision {
            self.spread_revision = shown.spread_revision;
            self.now = Some(Traces::new(shown.forecast, shown.revision, finished, shown.spread, shown.depth));
        }
        if self.ghost.as_ref().map(|traces| traces.revision)
            != shown.ghosts.first().map(|_| shown.ghost_revision)
        {
            self.ghost = Traces::together(shown.ghosts, shown.ghost_revision, shown.numbered, shown.depth);
        }
    }
}

/// All the room there is; without an end below, as much as is needed.
fn room(ui: &mut Ui) -> Rect {
    let mut room = ui.available_rect_before_wrap();
    if !room.height().is_finite() {
        let least = layout::LEAST * 6.0 + layout::HEADER + layout::AXIS;
        room.set_height(least);
    }
    ui.allocate_rect(room, Sense::hover()).rect
}

fn empty(ui: &Ui, whole: Rect, t: &Tokens) {
    let response = ui.interact(whole, ui.scope_id().with("no forecast"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), words::EMPTY));
    let font = fonts::regular(tokens::BODY);
    let galley =
        ui.painter().layout(words::EMPTY.to_owned(), font, t.ink_soft, whole.width() - 2.0 * tokens::PAD);
    ui.painter().galley(
        Align2::CENTER_CENTER.anchor_size(whole.center(), galley.size()).min,
        galley,
        t.ink_soft,
    );
}

/// Where the pointer is over the curves.
fn cursor(ui: &Ui, sheet: &Response, places: &Places, time: &layout::Time) -> Option<egui::Pos2> {
    let at = ui.input(|i| i.pointer.hover_pos()).filter(|_| sheet.contains_pointer())?;
    let below = places.axis.bottom();
    (time.left..=time.right)
        .contains(&at.x)
        .then_some(at)
        .filter(|at| at.y > places.header.bottom() && at.y < below)
}

/// The green span in which all goals hold, with its words at the top.
fn ready_window(ui: &Ui, places: &Places, scene: &Scene<'_>, texts: &mut Texts) {
    let Some(ready) = scene.shown.ready.filter(|_| scene.window.is_some()) else { return };
    let through = places.through(&scene.time);
    let band = Rect::from_x_y_ranges(scene.ready(), through.y_range());
    ui.painter().rect_filled(band, 0, scene.t.ready_fill);
    let text = words::ready(ready, scene.shown.spread_outdated);
    let font = fonts::semibold(tokens::SMALL);
    let width = paint::size(ui, &text, font.clone()).x;
    let most = copy_rect(places).left() - 4.0 - width;
    let at = pos2((band.left() + 6.0).min(most).max(through.left()), places.header.top() + 10.0);
    texts.push(ui, paint::left(ui, at, &text, font, scene.t.ready_ink));
}

/// Draws each strip in view at its place, in a scroll area where they do not all fit.
fn strips(
    ui: &mut Ui,
    places: &Places,
    mut draw: impl FnMut(&mut Ui, Kind, Rect) -> Option<SheetAction>,
) -> Vec<SheetAction> {
    let body = places.body;
    let mut inner = ui.new_child(UiBuilder::new().id_salt("strips").max_rect(body));
    inner.set_clip_rect(body.expand2(vec2(0.0, 1.0)).intersect(ui.clip_rect()));
    let mut stack = |ui: &mut Ui, top: f32| {
        let mut actions = Vec::new();
        let mut y = top;
        for kind in Kind::ALL {
            let rect = Rect::from_x_y_ranges(body.x_range(), y..=y + places.heights[kind.index()]);
            y = rect.bottom();
            if ui.is_rect_visible(rect) {
                actions.extend(draw(ui, kind, rect));
            }
        }
        actions
    };
    if !places.scrolls {
        return stack(&mut inner, body.top());
    }
    let scrolled = ScrollArea::vertical().auto_shrink(false).show(&mut inner, |ui| {
        let (_, all) = ui.allocate_space(vec2(body.width(), places.heights.iter().sum()));
        stack(ui, all.top())
    });
    scrolled.inner
}

fn copy_rect(places: &Places) -> Rect {
    let right = places.whole.right() - layout::MARGIN + 6.0;
    Rect::from_min_size(pos2(right - 24.0, places.header.top() + 1.0), vec2(24.0, tokens::PRESS))
}

/// The copy button at the top right, and the same in the context menu.
fn copy(ui: &Ui, sheet: &Response, rect: Rect, scene: &Scene<'_>) -> Option<SheetAction> {
    let t = scene.t;
    let id: Id = scene.id.with("copy");
    let button = ui.interact(rect, id, Sense::click());
    button.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), words::COPY));
    let (color, behind) = if button.hovered() { (t.accent, t.hover) } else { (t.mark, t.sheet) };
    if button.hovered() {
        ui.painter().rect_filled(rect, tokens::RADIUS_SMALL, behind);
    }
    paint::copy_sign(ui, rect.center(), color, behind);
    if button.has_focus() {
        paint::ring(ui, rect, t);
    }
    let mut wanted = button.clicked();
    button.on_hover_text(words::COPY);
    sheet.container_context_menu(|ui| {
        if ui.button(words::COPY).clicked() {
            wanted = true;
            ui.close();
        }
    });
    wanted.then_some(SheetAction::CopyNumbers)
}

#[cfg(test)]
mod tests;
