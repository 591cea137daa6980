//! A card: title at the left, quiet words at the right, an optional menu to add to it.

use egui::{Align, CornerRadius, Frame, InnerResponse, Margin, Sense, Stroke, Ui, UiBuilder, vec2};

use crate::fonts;
use crate::tokens::{self, Tokens};
use crate::widgets::{line_in, wrapped};

/// What stands at the right end of a card's head.
type Slot<'a> = Box<dyn FnOnce(&mut Ui) + 'a>;

/// A card in the making order, or any other group that belongs together.
pub struct Card<'a> {
    title: &'a str,
    quiet: &'a str,
    menu: Option<Slot<'a>>,
    /// How wide it is; one that does not fit beside the title gets a row of its own.
    menu_width: f32,
}

impl<'a> Card<'a> {
    pub fn new(title: &'a str) -> Self {
        Self { title, quiet: "", menu: None, menu_width: 0.0 }
    }

    /// Quiet words at the right; long ones get lines of their own below.
    pub fn quiet(mut self, quiet: &'a str) -> Self {
        self.quiet = quiet;
        self
    }

    /// Small buttons or a menu at the far right, laid out from right to left.
    pub fn menu(mut self, menu: impl FnOnce(&mut Ui) + 'a) -> Self {
        self.menu = Some(Box::new(menu));
        self
    }

    /// The same with its width, so that no name in it is cut.
    pub fn menu_of(self, width: f32, menu: impl FnOnce(&mut Ui) + 'a) -> Self {
        Self { menu_width: width, ..self.menu(menu) }
    }

    /// Draws the card over the whole width of `ui`.
    pub fn show<R>(self, ui: &mut Ui, body: impl FnOnce(&mut Ui) -> R) -> InnerResponse<R> {
        let t = tokens::of(ui);
        frame(t).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 3.0;
            let quiet = self.quiet;
            if !self.head(ui, t) {
                wrapped(ui, quiet, fonts::regular(tokens::SMALL + 1.0), t.ink_soft);
            }
            body(ui)
        })
    }

    /// Draws the head; false if its quiet words did not fit into it.
    fn head(self, ui: &mut Ui, t: &Tokens) -> bool {
        let strong = fonts::semibold(tokens::BODY);
        let title = ui.painter().layout_no_wrap(self.title.to_owned(), strong.clone(), t.ink).size().x;
        let beside = title + tokens::GAP + self.menu_width <= ui.available_width();
        let one = vec2(ui.available_width(), 18.0);
        let (row, _) = ui.allocate_exact_size(one, Sense::hover());
        let mut right = row.right();
        if let Some(menu) = self.menu {
            let row = if beside {
                row
            } else {
                ui.allocate_exact_size(vec2(one.x, tokens::PRESS), Sense::hover()).0
            };
            let layout = egui::Layout::right_to_left(Align::Center);
            let mut slot = ui.new_child(UiBuilder::new().max_rect(row).layout(layout));
            slot.spacing_mut().button_padding = vec2(6.0, 0.0);
            slot.spacing_mut().interact_size.y = tokens::PRESS;
            menu(&mut slot);
            if beside {
                right = slot.min_rect().left() - tokens::GAP;
            }
        }
        let title = row.with_max_x(right);
        let title = line_in(ui, title, self.title, strong, t.ink, Align::Min);
        let quiet = row.with_max_x(right).with_min_x(title.rect.right() + tokens::GAP);
        if self.quiet.is_empty() {
            return true;
        }
        let font = fonts::regular(tokens::SMALL + 1.0);
        let wide = ui.painter().layout_no_wrap(self.quiet.to_owned(), font.clone(), t.ink_soft).size().x;
        let fits = wide <= quiet.width();
        if fits {
            line_in(ui, quiet, self.quiet, font, t.ink_soft, Align::Max);
        }
        fits
    }
}

/// A card in the place of what is not there yet: what that is, how it comes there, and what follows.
pub fn nothing(ui: &mut Ui, title: &str, text: &str, then: impl FnOnce(&mut Ui)) {
    let t = tokens::of(ui);
    frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        wrapped(ui, title, fonts::semibold(tokens::BODY), t.ink);
        wrapped(ui, text, fonts::regular(tokens::BODY), t.ink_soft);
        then(ui);
    });
}

/// A card with a heading over its words, as wide as there is room.
pub fn boxed<R>(ui: &mut Ui, title: &str, body: impl FnOnce(&mut Ui) -> R) -> R {
    let t = tokens::of(ui);
    let shown = frame(t).show(ui, |ui| {
        ui.set_width(ui.available_width());
        wrapped(ui, title, fonts::semibold(tokens::HEADING), t.ink);
        ui.add_space(2.0);
        body(ui)
    });
    shown.inner
}

/// A quiet line of a card.
pub fn quiet(ui: &mut Ui, words: &str) {
    wrapped(ui, words, fonts::regular(tokens::BODY), tokens::of(ui).ink_soft);
}

/// A plain line of a card.
pub fn plain(ui: &mut Ui, words: &str) {
    wrapped(ui, words, fonts::regular(tokens::BODY), tokens::of(ui).ink);
}

/// The frame of a card.
pub fn frame(t: &Tokens) -> Frame {
    let [x, y] = tokens::CARD_MARGIN;
    Frame::new()
        .fill(t.card)
        .stroke(Stroke::new(tokens::HAIRLINE, t.card_edge))
        .corner_radius(CornerRadius::same(tokens::RADIUS))
        .inner_margin(Margin::symmetric(x, y))
}
