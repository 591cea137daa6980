//! The lever row: one thing a maker can turn, with slider, typed value, usual range and reset.

mod typing;

use std::cell::{Cell, RefCell};
use std::ops::RangeInclusive;

use egui::{
    Align, DragValue, IdSalt, Key, Layout, Rect, Response, Sense, Slider, SliderClamping, Stroke, Ui,
    UiBuilder, pos2, vec2,
};

use crate::tokens::{self, Tokens};
use crate::widgets::measured::{self, Measured};
use crate::widgets::rail::Rail;
use crate::widgets::typed::{self, spaced};
use crate::widgets::{beside_row, line_in};
use crate::{fonts, theme};
use potset_base::Note;
use potset_base::measures::Measure;
use potset_base::units;

/// One lever. Texts are shown as given; numbers are in `unit`.
#[derive(Clone, Debug)]
pub struct Lever<'a> {
    /// From the lever's own identity (`IdSalt::new((row_id, "amount"))`), never its place in a list.
    pub id_salt: IdSalt,
    pub name: &'a str,
    /// Whose it is, where several stand side by side: heard after the name.
    pub of: &'a str,
    pub unit: &'a str,
    pub value: f64,
    /// What slider and typing can reach. A value already outside is shown and kept.
    pub range: RangeInclusive<f64>,
    pub usual: Option<(f64, f64)>,
    /// The value in the saved file: a notch on the rail where it differs.
    pub saved: Option<f64>,
    /// What the reset dot returns to; the dot is shown only when the value differs.
    pub reset_to: Option<f64>,
    pub decimals: usize,
    pub step: Option<f64>,
    pub logarithmic: bool,
    /// The equivalent under the value ("1½ tbsp for 2 L"); cut with an ellipsis if too long.
    pub beside: &'a str,
    /// What it is and where the usual range comes from, shown on hover.
    pub hover: &'a str,
    /// How its amount is said in household measures; what stands beside it is then a menu of them.
    pub said: Option<Measured<'a>>,
}

/// What the maker's hand did to a lever in this frame.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Gesture {
    #[default]
    None,
    /// A drag began; the value of this frame already belongs to it.
    Started,
    /// A drag goes on, or an arrow key nudged: merge with what came just before.
    Going,
    /// A drag ended, a value was typed, reset or set by a screen reader, or the lever lost the
    /// keyboard (then often without a value): what follows is a new step.
    Ended,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub struct LeverOut {
    /// The new value, if it changed in this frame.
    pub value: Option<f64>,
    pub gesture: Gesture,
    /// The measure that was picked to say it in.
    pub measure: Option<Measure>,
}

/// Space left and right of the number inside its tint.
const VALUE_MARGIN: f32 = 4.0;

/// Where the parts of a row are; depends on the width only, never on the value.
struct Places {
    row: Rect,
    name: Rect,
    reset: Rect,
    slider: Rect,
    value: Rect,
    beside: Rect,
}

impl Places {
    fn new(row: Rect) -> Self {
        let split = row.right() - tokens::LEVER_VALUE_WIDTH.min(row.width() * 0.45);
        let below = row.right() - tokens::LEVER_BESIDE_WIDTH.min(row.width() * 0.5);
        let left = split - tokens::GAP;
        let part =
            |x0, x1, y0: f32, height| Rect::from_min_size(pos2(x0, row.top() + y0), vec2(x1 - x0, height));
        let dot = 16.0;
        Self {
            row,
            name: part(row.left(), left - dot, 0.0, 17.0),
            reset: part(left - dot, left, 0.0, 17.0),
            slider: part(row.left(), below - tokens::GAP, 17.0, 18.0),
            // The number has a margin for its hover tint; it hangs over so that the text lines up.
            value: part(split, row.right() + VALUE_MARGIN, -2.0, 20.0),
            beside: part(below, row.right(), 18.0, 16.0),
        }
    }
}

/// Where what stands beside the value of a row at `top_left` is, for rows that put something of their own there.
pub fn beside(top_left: egui::Pos2, width: f32) -> Rect {
    Places::new(Rect::from_min_size(top_left, vec2(width, tokens::LEVER_HEIGHT))).beside
}

impl Lever<'_> {
    /// Draws the row over the whole width of `ui`; always [`tokens::LEVER_HEIGHT`] high.
    pub fn show(self, ui: &mut Ui) -> LeverOut {
        let scale = units::scale(self.unit);
        if !scale.other() {
            return self.drawn(ui, &|text| self.read(text));
        }
        let out = self.in_scale(&scale).drawn(ui, &|text| Ok(scale.shown(self.read(text)?)));
        LeverOut { value: out.value.map(|shown| self.back(&scale, shown)), ..out }
    }

    fn drawn(&self, ui: &mut Ui, read: &dyn Fn(&str) -> Result<f64, Note>) -> LeverOut {
        let t = tokens::of(ui);
        let size = vec2(ui.available_width(), tokens::LEVER_HEIGHT);
        let (_, row) = ui.allocate_space(size);
        let builder = UiBuilder::new().id_salt(self.id_salt).max_rect(row);
        let ui = &mut ui.new_child(builder);
        let places = Places::new(row);

        let name = line_in(ui, places.name, self.name, fonts::regular(tokens::BODY), t.ink, Align::Min);
        beside_row(&name, row, |ui| self.explain(ui));
        let slid = self.slider(ui, &places, t);
        let typed = self.number(ui, &places, t, read);
        let mut by = None;
        if let Some(measured) = &self.said {
            let own = self.own_text(self.value);
            by = measured::menu(ui, places.beside, measured, (self.value, &own));
        } else if !self.beside.is_empty() {
            let font = fonts::regular(tokens::SMALL);
            line_in(ui, places.beside, self.beside, font, t.ink_soft, Align::Max);
        }
        let reset = self.reset_dot(ui, &places, t);
        // A value goes before a mere end: one part may lose the keyboard as another is pressed.
        let all = [reset, typed, slid];
        let with_value = all.iter().find(|out| out.value.is_some());
        let any = all.iter().find(|out| out.gesture != Gesture::None);
        LeverOut { measure: by, ..with_value.or(any).cloned().unwrap_or_default() }
    }

    /// Its name for a screen reader.
    fn heard(&self) -> String {
        if self.of.is_empty() { self.name.to_owned() } else { format!("{} of {}", self.name, self.of) }
    }

    fn rail(&self, rect: Rect) -> Rail {
        Rail { rect, range: self.range.clone(), logarithmic: self.logarithmic, smallest: self.smallest() }
    }

    fn slider(&self, ui: &mut Ui, places: &Places, t: &Tokens) -> LeverOut {
        let mut value = self.value;
        let builder = UiBuilder::new().max_rect(places.slider).layout(Layout::left_to_right(Align::Center));
        let mut place = ui.new_child(builder);
        theme::accent_rails(&mut place);
        let spacing = place.spacing_mut();
        spacing.slider_width = places.slider.width();
        spacing.interact_size.y = places.slider.height();
        let widgets = &mut place.visuals_mut().widgets;
        for state in [&mut widgets.inactive, &mut widgets.hovered, &mut widgets.active] {
            state.fg_stroke = Stroke::NONE; // the handle is painted below, with the marks
        }
        let mut slider = Slider::new(&mut value, self.range.clone())
            .show_value(false)
            .clamping(SliderClamping::Edits)
            .fixed_decimals(self.decimals)
            .logarithmic(self.logarithmic)
            .smallest_positive(self.smallest());
        if let Some(step) = self.step {
            slider = slider.step_by(step);
        }
        let response = place.add(slider).accessible_name(self.heard());
        self.describe(&response);
        let rail = self.rail(response.rect);
        if let Some((low, high)) = self.usual {
            rail.paint_end_ticks(ui, low, high, t);
        }
        if let Some(saved) = self.saved.filter(|&saved| self.differs(saved, value)) {
            rail.paint_notch(ui, saved, t);
        }
        rail.paint_handle(ui, &response, value, t);
        let gesture = gesture(&response, ui);
        beside_row(&response, places.row, |ui| self.explain(ui));
        self.out(value, gesture)
    }

    fn number(
        &self,
        ui: &mut Ui,
        places: &Places,
        t: &Tokens,
        read: &dyn Fn(&str) -> Result<f64, Note>,
    ) -> LeverOut {
        let mut value = self.value;
        let (untouched, refused) = (Cell::new(false), RefCell::new(None));
        let shown = self.text_of(value);
        // As wide as its place, however long the number: it does not move while the value changes.
        let layout = Layout::right_to_left(Align::Center).with_main_align(Align::Max);
        let mut place = ui.new_child(UiBuilder::new().max_rect(places.value).layout(layout));
        let crowded = self.crowded(&place, places.value.width() - 2.0 * VALUE_MARGIN);
        place.set_clip_rect(places.value.expand(2.0).intersect(ui.clip_rect()));
        let style = place.style_mut();
        if crowded {
            let small = fonts::semibold(tokens::SMALL);
            style.text_styles.insert(theme::strong(), small);
        }
        style.spacing.button_padding = vec2(VALUE_MARGIN, 1.0);
        let widgets = &mut style.visuals.widgets;
        widgets.inactive.weak_bg_fill = egui::Color32::TRANSPARENT;
        widgets.inactive.bg_stroke = Stroke::NONE;
        widgets.hovered.weak_bg_fill = t.accent_soft;
        widgets.hovered.bg_stroke = Stroke::NONE;
        for state in [&mut widgets.inactive, &mut widgets.hovered, &mut widgets.active] {
            state.fg_stroke.color = t.accent;
        }
        let drag = DragValue::new(&mut value)
            .speed(self.speed(ui, places.slider.width()))
            .range(self.range.clone())
            .clamp_existing_to_range(false)
            .update_while_editing(false)
            .clip_text(true)
            .max_decimals(self.decimals)
            .min_size(places.value.size())
            .custom_formatter(|value, _| self.text_of(value))
            .custom_parser(|text| {
                untouched.set(text.trim() == shown);
                if untouched.get() {
                    None
                } else {
                    read(text).map_err(|note| refused.replace(Some(note))).ok()
                }
            });
        let response = place.add(drag).accessible_name(self.heard());
        self.describe(&response);
        let gesture = gesture(&response, ui);
        beside_row(&response, places.row, |ui| self.explain(ui));
        if untouched.get() {
            // Looking at a value is no edit: neither rounds it nor pulls it into the range.
            value = self.value;
        } else if value.to_bits() != self.value.to_bits() {
            value = self.settled(value, gesture);
        }
        if let Some(note) = refused.take() {
            typed::refuse(ui.ctx(), note);
        }
        self.out(value, gesture)
    }

    /// A new number inside the range; on the grid of steps unless it was typed.
    fn settled(&self, value: f64, gesture: Gesture) -> f64 {
        let (low, high) = (*self.range.start(), *self.range.end());
        let value = match self.step {
            Some(step) if gesture != Gesture::Ended => low + ((value - low) / step).round() * step,
            _ => value,
        };
        value.max(low).min(high)
    }

    /// Whether some value of the range is too wide for the usual size. Asks the ends, not only the
    /// present value, so that the size does not change while dragging.
    fn crowded(&self, ui: &Ui, width: f32) -> bool {
        let font = fonts::semibold(tokens::BODY);
        let (low, high) = (*self.range.start(), *self.range.end());
        // In household measures some value between may have more digits than the ends.
        let between = self.said.map_or(low, |_| low + 0.123 * (high - low));
        [low, high, between, self.value].into_iter().any(|value| {
            let text = self.text_of(value);
            let galley = ui.painter().layout_no_wrap(text, font.clone(), ui.visuals().text_color());
            galley.size().x > width
        })
    }

    fn reset_dot(&self, ui: &Ui, places: &Places, t: &Tokens) -> LeverOut {
        let Some(start) = self.reset_to.filter(|&start| self.differs(start, self.value)) else {
            return LeverOut::default();
        };
        let response = ui.interact(places.reset, ui.scope_id().with("reset"), Sense::click());
        let label = format!("Reset {}", self.heard());
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::accesskit::Role::Button, ui.is_enabled(), &label)
        });
        let centre = places.reset.center();
        let radius = if response.hovered() { 4.5 } else { 3.5 };
        ui.painter().circle_filled(centre, radius, t.accent);
        if response.has_focus() {
            ui.painter().circle_stroke(centre, 6.5, Stroke::new(tokens::FOCUS, t.accent));
        }
        let clicked = response.clicked();
        response.on_hover_text(format!("{label} to {}", self.text_of(start)));
        if clicked { self.out(start, Gesture::Ended) } else { LeverOut::default() }
    }

    fn out(&self, value: f64, gesture: Gesture) -> LeverOut {
        // Bit by bit: any other number is a change, however small.
        let changed = value.to_bits() != self.value.to_bits() && value.is_finite();
        LeverOut { value: changed.then_some(value), gesture, ..LeverOut::default() }
    }

    /// The card on hover: name, usual range, then what the caller says.
    fn explain(&self, ui: &mut Ui) {
        let t = tokens::of(ui);
        ui.set_max_width(ui.spacing().tooltip_width);
        ui.style_mut().wrap_mode = Some(egui::TextWrapMode::Wrap);
        let strong = fonts::semibold(tokens::BODY);
        ui.label(egui::RichText::new(self.name).font(strong).color(t.ink));
        if let Some(words) = self.usual_words() {
            ui.label(egui::RichText::new(words).color(t.accent));
        }
        if !self.hover.is_empty() {
            ui.label(self.hover);
        }
    }

    fn describe(&self, response: &Response) {
        let text = [self.usual_words().unwrap_or_default(), self.hover.to_owned()];
        let text = text.into_iter().filter(|part| !part.is_empty());
        let description = text.collect::<Vec<_>>().join(". ");
        response.ctx.accesskit_node_builder(response.id, |node| {
            node.set_description(description);
            if node.value().is_none() {
                node.set_value(self.text_of(self.value));
            }
        });
    }

    /// "usual 10–15 g/L".
    fn usual_words(&self) -> Option<String> {
        let (low, high) = self.usual?;
        let unit = spaced(self.unit);
        let plain = |value| theme::number(value, 0..=self.decimals.max(2));
        Some(format!("usual {}–{}{unit}", plain(low), plain(high)))
    }

    fn text_of(&self, value: f64) -> String {
        self.said.and_then(|measured| measured.said.text(value)).unwrap_or_else(|| self.own_text(value))
    }

    /// In the lever's own unit.
    fn own_text(&self, value: f64) -> String {
        let number = theme::number(value, self.decimals..=self.decimals);
        format!("{number}{}", spaced(self.unit))
    }

    /// Whether two values differ by more than the noise of arithmetic.
    fn differs(&self, a: f64, b: f64) -> bool {
        (a - b).abs() > 1e-9 * a.abs().max(b.abs()).max(1e-3)
    }

    /// Where a logarithmic rail that starts at zero really starts.
    fn smallest(&self) -> f64 {
        let digits = i32::try_from(self.decimals).unwrap_or(6);
        10_f64.powi(-digits)
    }

    /// Change of a number per dragged point, as fast as the handle; per arrow key one step.
    fn speed(&self, ui: &Ui, rail: f32) -> f64 {
        let key = ui.input(|i| i.key_down(Key::ArrowUp) || i.key_down(Key::ArrowDown));
        if let Some(step) = self.step.filter(|_| key) {
            return step;
        }
        let span = if self.logarithmic && self.value > 0.0 {
            let start = self.range.start().max(self.smallest());
            self.value * (self.range.end() / start).ln()
        } else {
            self.range.end() - self.range.start()
        };
        (span / f64::from(rail.max(1.0))).abs().max(self.smallest())
    }
}

/// What happened to a slider or a dragged number.
pub(super) fn gesture(response: &Response, ui: &Ui) -> Gesture {
    let nudge = [Key::ArrowLeft, Key::ArrowRight, Key::ArrowUp, Key::ArrowDown];
    if response.drag_stopped() {
        Gesture::Ended
    } else if response.drag_started() {
        Gesture::Started
    } else if response.dragged() {
        Gesture::Going
    } else if response.changed() {
        let nudged = response.has_focus() && ui.input(|i| nudge.iter().any(|&k| i.key_down(k)));
        if nudged { Gesture::Going } else { Gesture::Ended }
    } else if response.lost_focus() {
        Gesture::Ended
    } else {
        Gesture::None
    }
}

#[cfg(test)]
mod tests;
