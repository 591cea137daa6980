//! Both egui styles, built once from the tokens.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use egui::style::{HandleShape, NumberFormatter, TextCursorStyle, WidgetVisuals, Widgets};
use egui::{
    Color32, Context, CornerRadius, FontId, Margin, Shadow, Stroke, Style, TextStyle, Theme, Visuals, vec2,
};

use crate::fonts;
use crate::tokens::{self, Tokens};

/// One formatter for both styles, so that they compare equal.
static NUMBERS: LazyLock<NumberFormatter> = LazyLock::new(|| NumberFormatter::new(number));

/// Gives egui our light and dark style; [`egui::ThemePreference`] chooses between them.
pub fn install(ctx: &Context) {
    ctx.set_style_of(Theme::Light, style(tokens::tokens(false)));
    ctx.set_style_of(Theme::Dark, style(tokens::tokens(true)));
}

/// Text style of large readings.
pub fn reading() -> TextStyle {
    TextStyle::Name("reading".into())
}

/// Text style of values that can be changed, card titles and other emphasis at body size.
pub fn strong() -> TextStyle {
    TextStyle::Name("strong".into())
}

/// Text style of words set apart: band names, species.
pub fn apart() -> TextStyle {
    TextStyle::Name("apart".into())
}

/// A number as egui would print it, with a true minus; "–" when there is none.
pub fn number(value: f64, decimals: std::ops::RangeInclusive<usize>) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let text = egui::emath::format_with_decimals_in_range(value, decimals);
    let is_zero = text.chars().all(|sign| matches!(sign, '-' | '0' | '.'));
    match text.strip_prefix('-') {
        Some(zero) if is_zero => zero.to_owned(),
        Some(size) => format!("−{size}"),
        None => text,
    }
}

/// Makes sliders inside this `ui` fill their rail with the accent instead of the quiet tint.
pub fn accent_rails(ui: &mut egui::Ui) {
    let t = tokens::of(ui);
    ui.visuals_mut().selection.bg_fill = t.accent;
}

fn text_styles() -> BTreeMap<TextStyle, FontId> {
    BTreeMap::from([
        (TextStyle::Small, fonts::regular(tokens::SMALL)),
        (TextStyle::Body, fonts::regular(tokens::BODY)),
        (TextStyle::Button, fonts::regular(tokens::BODY)),
        (TextStyle::Monospace, fonts::regular(tokens::BODY)),
        (TextStyle::Heading, fonts::semibold(tokens::HEADING)),
        (reading(), fonts::semibold(tokens::READING)),
        (strong(), fonts::semibold(tokens::BODY)),
        (apart(), fonts::italic(tokens::SMALL)),
    ])
}

fn style(t: &Tokens) -> Style {
    let mut style = Style {
        text_styles: text_styles(),
        drag_value_text_style: strong(),
        number_formatter: NUMBERS.clone(),
        visuals: visuals(t),
        explanation_tooltips: false,
        animation_time: 0.08,
        ..Style::default()
    };
    let spacing = &mut style.spacing;
    spacing.item_spacing = vec2(tokens::GAP, tokens::GAP_SMALL);
    spacing.button_padding = vec2(9.0, 3.0);
    spacing.interact_size = vec2(36.0, 22.0);
    spacing.slider_rail_height = tokens::LEVER_RAIL;
    spacing.slider_width = 160.0;
    spacing.tooltip_width = 340.0;
    spacing.menu_margin = Margin::same(6);
    spacing.window_margin = Margin::same(12);
    spacing.icon_width = 15.0;
    spacing.icon_width_inner = 9.0;
    spacing.scroll.floating = true;
    spacing.scroll.bar_width = f32::from(tokens::SCROLL_BAR);
    style.interaction.tooltip_delay = 0.35;
    style.interaction.selectable_labels = false;
    style
}

fn visuals(t: &Tokens) -> Visuals {
    let mut visuals = if t.dark { Visuals::dark() } else { Visuals::light() };
    visuals.weak_text_color = Some(t.ink_soft);
    visuals.widgets = widgets(t);
    visuals.selection.bg_fill = t.accent_soft;
    visuals.selection.stroke = Stroke::new(tokens::FOCUS, t.accent);
    visuals.hyperlink_color = t.accent;
    visuals.faint_bg_color = t.hover;
    visuals.extreme_bg_color = t.well;
    visuals.text_edit_bg_color = Some(t.well);
    visuals.code_bg_color = t.hover;
    visuals.warn_fg_color = t.warn;
    visuals.error_fg_color = t.stop;
    visuals.window_fill = t.card;
    visuals.window_stroke = Stroke::new(tokens::HAIRLINE, t.card_edge);
    visuals.window_corner_radius = CornerRadius::same(tokens::RADIUS);
    visuals.menu_corner_radius = CornerRadius::same(tokens::RADIUS);
    visuals.window_shadow = shadow(t, 24);
    visuals.popup_shadow = shadow(t, 12);
    visuals.panel_fill = t.page;
    visuals.text_cursor = TextCursorStyle {
        stroke: Stroke::new(1.5, t.accent),
        // A blinking cursor would keep the window from coming to rest.
        blink: false,
        ..TextCursorStyle::default()
    };
    visuals.slider_trailing_fill = true;
    visuals.handle_shape = HandleShape::Circle;
    visuals.interact_cursor = None;
    visuals
}

fn shadow(t: &Tokens, blur: u8) -> Shadow {
    Shadow { offset: [0, 3], blur, spread: 0, color: t.shadow }
}

fn widgets(t: &Tokens) -> Widgets {
    let look = |fill: Color32, weak: Color32, edge: Stroke, text: Color32| WidgetVisuals {
        bg_fill: fill,
        weak_bg_fill: weak,
        bg_stroke: edge,
        corner_radius: CornerRadius::same(tokens::RADIUS_SMALL + 1),
        fg_stroke: Stroke::new(1.5, text),
        expansion: 0.0,
    };
    let hairline = |color| Stroke::new(tokens::HAIRLINE, color);
    Widgets {
        noninteractive: look(t.card, t.card, hairline(t.card_edge), t.ink),
        inactive: look(t.rail, t.card, hairline(t.card_edge), t.ink),
        hovered: look(t.accent, t.hover, hairline(t.mark), t.ink),
        // Also the look of what has the keyboard: the ring must be seen in both themes.
        active: look(t.accent, t.accent_soft, Stroke::new(tokens::FOCUS, t.accent), t.ink),
        open: look(t.rail, t.accent_soft, hairline(t.accent), t.ink),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_a_true_minus_and_no_negative_zero() {
        assert_eq!(number(-4.5, 1..=1), "−4.5");
        assert_eq!(number(-0.001, 1..=1), "0.0");
        assert_eq!(number(12.0, 0..=2), "12");
        assert_eq!(number(f64::NAN, 0..=2), "–");
    }

    #[test]
    fn both_themes_are_ours_and_the_preference_chooses() {
        let ctx = Context::default();
        install(&ctx);
        for (theme, dark) in [(Theme::Light, false), (Theme::Dark, true)] {
            ctx.set_theme(theme);
            let style = ctx.global_style();
            assert_eq!(style.visuals.dark_mode, dark);
            assert_eq!(style.visuals.panel_fill, tokens::tokens(dark).page);
            assert!(style.text_styles.contains_key(&reading()));
        }
    }
}
