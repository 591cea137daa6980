//! The readings of the verdict: a large word with its figure, and the card of the ready window. Each value can be pressed.

use egui::accesskit::Role;
use egui::{Align, Label, Rect, Response, RichText, Sense, Ui, WidgetInfo, pos2, vec2};

use crate::widgets::{card, line_in, note, wrapped};
use crate::{fonts, tokens};

/// One reading of the verdict at the stop line.
#[derive(Clone, Copy, Debug)]
pub struct Reading<'a> {
    /// What is read and when ("Texture, tomorrow from the fridge").
    pub caption: &'a str,
    /// The word, large ("dollops").
    pub word: &'a str,
    /// The figure at the right ("0.7 Pa·s").
    pub figure: &'a str,
    /// Quiet values below, each pressable on its own.
    pub below: &'a [String],
    /// A quiet sentence under them; wraps; may be empty.
    pub sentence: &'a str,
}

/// What a reading's values say to the hand, and the card that they stand on.
pub struct Pressable {
    pub word: Response,
    pub figure: Response,
    pub below: Vec<Response>,
    pub card: Rect,
}

impl Reading<'_> {
    pub fn show(self, ui: &mut Ui) -> Pressable {
        let t = tokens::of(ui);
        let shown = card::frame(t).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 2.0;
            let size = vec2(ui.available_width(), 15.0);
            let (row, _) = ui.allocate_exact_size(size, Sense::hover());
            let caption = fonts::regular(tokens::SMALL + 1.0);
            line_in(ui, row, self.caption, caption, t.ink_soft, Align::Min);

            let size = vec2(ui.available_width(), 30.0);
            let (row, _) = ui.allocate_exact_size(size, Sense::hover());
            // The figure keeps its width; a long word gives way.
            let figure =
                row.with_min_x(row.left() + row.width() * if self.figure.is_empty() { 1.0 } else { 0.4 });
            let strong = fonts::semibold(tokens::HEADING);
            let figure = line_in(ui, figure, self.figure, strong, t.ink, Align::Max);
            let end = pos2(figure.rect.left() - tokens::GAP, row.bottom());
            let word = Rect::from_min_max(row.min, end);
            let large = fonts::semibold(tokens::READING);
            let word = line_in(ui, word, self.word, large, t.ink, Align::Min);
            // The keyboard goes from left to right.
            let word = self.pressable(ui, word.rect, "word", self.word);
            let figure = match self.figure {
                "" => word.clone(),
                figure_text => self.pressable(ui, figure.rect, "figure", figure_text),
            };
            let below = values(ui, self.caption, self.below);
            if !self.sentence.is_empty() {
                wrapped(ui, self.sentence, fonts::regular(tokens::SMALL), t.ink_soft);
            }
            (word, figure, below)
        });
        let (word, figure, below) = shown.inner;
        Pressable { word, figure, below, card: shown.response.rect }
    }

    fn pressable(&self, ui: &Ui, rect: Rect, salt: &str, value: &str) -> Response {
        let response = ui.interact(rect, ui.scope_id().with((self.caption, salt)), Sense::click());
        let name = format!("Explain {}: {value}", self.caption);
        response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), &name));
        underline(ui, &response);
        response.on_hover_cursor(egui::CursorIcon::PointingHand)
    }
}

/// Quiet values in rows that break between them; the dot that parts two values does not hang at an end.
fn values(ui: &mut Ui, caption: &str, texts: &[String]) -> Vec<Response> {
    if texts.is_empty() {
        return Vec::new();
    }
    let t = tokens::of(ui);
    let lay =
        |text: &str| ui.painter().layout_no_wrap(text.to_owned(), fonts::regular(tokens::SMALL), t.ink_soft);
    let (dot, width) = (lay(" · "), ui.available_width());
    let height = dot.size().y + 1.0;
    let galleys: Vec<_> = texts.iter().map(|text| lay(text)).collect();
    let (mut at, mut places) = (egui::Vec2::ZERO, Vec::new());
    for galley in &galleys {
        if at.x > 0.0 && at.x + dot.size().x + galley.size().x > width {
            at = vec2(0.0, at.y + height);
        }
        let parted = at.x > 0.0;
        let left = if parted { at.x + dot.size().x } else { 0.0 };
        places.push((vec2(left, at.y), parted));
        at.x = left + galley.size().x;
    }
    let (room, _) = ui.allocate_exact_size(vec2(width, at.y + height), Sense::hover());
    let mut out = Vec::new();
    for (i, ((galley, text), (offset, parted))) in galleys.into_iter().zip(texts).zip(places).enumerate() {
        let rect = Rect::from_min_size(room.min + offset, vec2(galley.size().x.min(width), height));
        if parted {
            ui.painter().galley(rect.min - vec2(dot.size().x, 0.0), dot.clone(), t.ink_soft);
        }
        ui.painter().with_clip_rect(rect.intersect(ui.clip_rect())).galley(rect.min, galley, t.ink_soft);
        let response = ui.interact(rect, ui.scope_id().with((caption, "below", i)), Sense::click());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), text));
        underline(ui, &response);
        out.push(response.on_hover_cursor(egui::CursorIcon::PointingHand));
    }
    out
}

/// The sign of a value that can be followed: a line in the accent under pointer or keyboard, and the ring of the latter.
pub fn underline(ui: &Ui, response: &Response) {
    let t = tokens::of(ui);
    if response.hovered() || response.has_focus() {
        let stroke = egui::Stroke::new(tokens::HAIRLINE, t.accent);
        ui.painter().hline(response.rect.x_range(), response.rect.bottom(), stroke);
    }
    if response.has_focus() {
        let ring = egui::Stroke::new(tokens::FOCUS, t.accent);
        let rect = response.rect.expand2(vec2(2.0, 0.0));
        ui.painter().rect_stroke(rect, tokens::RADIUS_SMALL, ring, egui::StrokeKind::Outside);
    }
}

/// The card of the ready time.
#[derive(Clone, Copy, Debug)]
pub struct ReadyCard<'a> {
    /// The whole answer in one sentence, for the ear.
    pub sentence: &'a str,
    /// The same in large words.
    pub large: &'a str,
    /// Quiet words below; may be empty.
    pub below: &'a str,
    /// Most pots are ready at the stop, and nothing is to be thrown away.
    pub good: bool,
    /// It is not of all possible pots of this design yet.
    pub pale: bool,
    /// What pressing the mend does; nothing where there is none, or where it stands elsewhere.
    pub mend: Option<&'a str>,
    /// Lines that are kept free below, with that of the mend.
    pub lines: usize,
}

/// A card that was drawn.
pub struct ReadyShown {
    pub pressable: Pressable,
    /// The mend was pressed.
    pub pressed: bool,
}

/// The card of the ready time: large words that can be pressed, quiet words below, a mend. Where most pots are not ready at the
/// stop it is not green, and has the edge of a note to watch. It keeps its height while a lever is dragged.
pub fn ready_card(ui: &mut Ui, card: &ReadyCard<'_>) -> ReadyShown {
    let t = tokens::of(ui);
    let (ink, soft) = if card.good { (t.ready_ink, t.ready_ink_soft) } else { (t.ink, t.ink_soft) };
    let ink = if card.pale { soft } else { ink };
    let mut frame = card::frame(t);
    if card.good {
        frame = frame.fill(t.ready_card).stroke(egui::Stroke::new(tokens::HAIRLINE, t.ready_card));
    }
    let shown = frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        wrapped(ui, "Ready", fonts::regular(tokens::SMALL + 1.0), soft);
        let text = RichText::new(card.large).font(fonts::semibold(tokens::READING)).color(ink);
        let response = ui.add(Label::new(text).wrap().selectable(false).sense(Sense::click()));
        // What the eye sees as pale is said to the ear.
        let said = format!("{}{}", card.sentence, if card.pale { "; still being worked out" } else { "" });
        response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), &said));
        underline(ui, &response);
        let small = || fonts::regular(tokens::SMALL);
        let line = ui.painter().layout_no_wrap("A".to_owned(), small(), soft).size().y;
        let room = line * card.lines as f32;
        let pressed = ui
            .scope(|ui| {
                ui.set_min_height(room);
                if !card.below.is_empty() {
                    wrapped(ui, card.below, small(), soft);
                }
                card.mend.is_some_and(|mend| note::mend_link(ui, mend).clicked())
            })
            .inner;
        (response.on_hover_cursor(egui::CursorIcon::PointingHand), pressed)
    });
    let (word, pressed) = shown.inner;
    let card_rect = shown.response.rect;
    if !card.good {
        note::edge(ui, card_rect, t.note_watch);
    }
    ReadyShown {
        pressable: Pressable { figure: word.clone(), word, below: Vec::new(), card: card_rect },
        pressed,
    }
}
