//! The only place with colours, dash patterns, gaps, radii and text sizes.

use egui::{Color32, Pos2, Shape, Stroke, Ui};

use potset_base::palette;

/// Text sizes in points.
pub const SMALL: f32 = 11.0;
pub const BODY: f32 = 13.0;
pub const HEADING: f32 = 15.0;
pub const READING: f32 = 24.0;

/// Gaps and margins in points.
pub const GAP_SMALL: f32 = 4.0;
pub const GAP: f32 = 8.0;
pub const PAD: f32 = 12.0;
/// Width of a scroll bar under the pointer; so much margin at the right of what scrolls is its own.
pub const SCROLL_BAR: i8 = 7;
/// Horizontal and vertical margin inside a card.
pub const CARD_MARGIN: [i8; 2] = [12, 8];

/// Corner radii in points.
pub const RADIUS_SMALL: u8 = 4;
pub const RADIUS: u8 = 8;
pub const RADIUS_PILL: u8 = 14;

/// Line widths in points.
pub const HAIRLINE: f32 = 1.0;
pub const CURVE: f32 = 2.0;
pub const CURVE_STRONG: f32 = 2.5;
pub const FOCUS: f32 = 2.0;
pub const NOTE_EDGE: f32 = 4.0;

/// The lever row: its height and its parts.
pub const LEVER_HEIGHT: f32 = 40.0;
pub const LEVER_VALUE_WIDTH: f32 = 118.0;
pub const LEVER_BESIDE_WIDTH: f32 = 144.0;
pub const LEVER_RAIL: f32 = 3.0;
/// The least size of anything to press.
pub const PRESS: f32 = 20.0;

/// The wall of a class, as shares of its height. Capitals of the bundled type are 0.727 of its size, so the least text has
/// capitals of 3.4 % of the height; 3.3 % are asked for. Source of the larger ones, of gap and line: assumed, by eye.
pub const WALL_TEXT: f32 = 0.0465;
pub const WALL_LARGE: f32 = 0.075;
pub const WALL_HUGE: f32 = 0.105;
pub const WALL_GAP: f32 = 0.02;
pub const WALL_LINE: f32 = 0.007;

/// How strongly a band or an area under a curve is tinted with the curve's colour.
pub const BAND_OPACITY: f32 = 0.20;
pub const AREA_OPACITY: f32 = 0.15;
pub const GHOST_OPACITY: f32 = 0.45;

/// A dash pattern: lengths of ink and gap in turn, in points; empty is a solid line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dash(pub &'static [f32]);

impl Dash {
    pub const SOLID: Self = Self(&[]);
    pub const DASHED: Self = Self(&[7.0, 4.0]);
    pub const DOTTED: Self = Self(&[2.0, 3.0]);
    pub const DASH_DOT: Self = Self(&[8.0, 3.0, 2.0, 3.0]);
    pub const LONG: Self = Self(&[13.0, 4.0]);
    pub const SHORT: Self = Self(&[4.0, 3.0]);
    pub const DASH_DOT_DOT: Self = Self(&[9.0, 3.0, 2.0, 3.0, 2.0, 3.0]);
    pub const SPARSE: Self = Self(&[2.0, 6.0]);

    /// The same for a line of another width than that of a curve: its pattern grows with it.
    pub fn shapes_wide(self, path: &[Pos2], stroke: Stroke) -> Vec<Shape> {
        self.shapes_times(path, stroke, stroke.width / CURVE)
    }

    /// The path as shapes with this pattern.
    pub fn shapes(self, path: &[Pos2], stroke: Stroke) -> Vec<Shape> {
        self.shapes_times(path, stroke, 1.0)
    }

    fn shapes_times(self, path: &[Pos2], stroke: Stroke, times: f32) -> Vec<Shape> {
        if self.0.is_empty() {
            return vec![Shape::line(path.to_vec(), stroke)];
        }
        let lengths = |first| self.0.iter().skip(first).step_by(2).map(|length| length * times);
        let (ink, gaps): (Vec<f32>, Vec<f32>) = (lengths(0).collect(), lengths(1).collect());
        Shape::dashed_line_with_offset(path, stroke, &ink, &gaps, 0.0)
    }
}

/// How one quantity is drawn: line, its label beside it, and a dash as second code.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve {
    /// At least 3:1 against the sheet and the ready window.
    pub line: Color32,
    /// The same hue as text: at least 4.5:1 there.
    pub label: Color32,
    pub dash: Dash,
}

impl Curve {
    /// The tint of the band around the line.
    pub fn band(&self) -> Color32 {
        self.line.gamma_multiply(BAND_OPACITY)
    }

    /// The tint of the area under the line.
    pub fn area(&self) -> Color32 {
        self.line.gamma_multiply(AREA_OPACITY)
    }

    /// The line as it was before a drag.
    pub fn ghost(&self) -> Color32 {
        self.line.gamma_multiply(GHOST_OPACITY)
    }

    pub fn stroke(&self) -> Stroke {
        Stroke::new(CURVE, self.line)
    }
}

impl Tokens {
    /// The look of the n-th culture; the ninth looks like the first.
    pub fn culture(&self, index: usize) -> &Curve {
        &self.cultures[index % self.cultures.len()]
    }
}

/// The tokens of a theme.
pub fn tokens(dark: bool) -> &'static Tokens {
    if dark { &DARK } else { &LIGHT }
}

/// The tokens of the theme that this `ui` is drawn in.
pub fn of(ui: &Ui) -> &'static Tokens {
    tokens(ui.visuals().dark_mode)
}

const fn rgb(hex: u32) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

const fn curve((line, label): (u32, u32), dash: Dash) -> Curve {
    Curve { line: rgb(line), label: rgb(label), dash }
}

/// Declares [`Tokens`] and its two themes: each colour once, light and dark beside each other.
macro_rules! themes {
    (
        colours { $($(#[$doc:meta])* $name:ident: $light:expr, $dark:expr;)* }
        curves { $($curve:ident: $on_light:expr, $on_dark:expr, $dash:ident;)* }
        cultures { $($here:expr, $there:expr, $mark:ident;)* }
    ) => {
        /// The colours of one theme.
        #[derive(Clone, Debug, PartialEq)]
        pub struct Tokens {
            pub dark: bool,
            pub shadow: Color32,
            $($(#[$doc])* pub $name: Color32,)*
            $(pub $curve: Curve,)*
            /// In the order in which the cultures of a design are listed.
            pub cultures: [Curve; 8],
        }

        static LIGHT: Tokens = Tokens {
            dark: false,
            shadow: Color32::from_black_alpha(28),
            $($name: rgb($light),)*
            $($curve: curve($on_light, Dash::$dash),)*
            cultures: [$(curve($here, Dash::$mark)),*],
        };

        static DARK: Tokens = Tokens {
            dark: true,
            shadow: Color32::from_black_alpha(110),
            $($name: rgb($dark),)*
            $($curve: curve($on_dark, Dash::$dash),)*
            cultures: [$(curve($there, Dash::$mark)),*],
        };
    };
}

// Curve colours. Hues of the eight-colour set of Okabe and Ito (2008), "Color Universal Design:
// how to make figures and presentations that are friendly to colorblind people": orange E69F00,
// sky blue 56B4E9, bluish green 009E73, yellow F0E442, blue 0072B2, vermillion D55E00, reddish
// purple CC79A7, black. Adapted: the set is made for filled areas on white, so each hue keeps its
// angle in the Oklab space but is darkened (light theme) or lightened (dark theme) as far as the
// contrast rules of the tests below ask; black becomes a grey. Dashes tell apart what is left.

themes! {
    colours {
        /// Behind everything: bars, columns.
        page: 0xf3ede2, 0x262320;
        card: palette::CARD, 0x2c2926;
        card_edge: 0xe2d9ca, 0x3d3833;
        /// Behind the curves.
        sheet: palette::SHEET, 0x1e1c1a;
        /// The quiet grid and separators.
        rule: palette::RULE, 0x332f2b;
        /// A rail not yet filled, an empty bar.
        rail: palette::RAIL, 0x413c36;
        /// Marks on a rail: end ticks, the saved notch.
        mark: palette::MARK, 0xa79c8e;
        /// A text field and other wells.
        well: 0xfffdf9, 0x1e1c1a;
        /// Under the pointer.
        hover: 0xe9e1d3, 0x38342f;

        ink: palette::INK, 0xefe8dd;
        ink_soft: palette::INK_SOFT, 0xafa496;

        /// The one colour of what can be changed, as text and as fill.
        accent: 0x0b6e6e, 0x5cc2b8;
        /// Behind what is chosen.
        accent_soft: 0xcfe6e2, 0x23423f;
        /// Text on a fill of `accent`.
        on_accent: 0xffffff, 0x12302d;

        /// The ready window on the sheet.
        ready_fill: 0xe3edd6, 0x273222;
        /// The ready card and its texts.
        ready_card: palette::READY, 0x30452a;
        ready_ink: 0x2a2420, 0xefe8dd;
        ready_ink_soft: palette::READY_EDGE, 0xbcc4ae;

        /// Text that warns, and lines of limits.
        warn: palette::WARN, 0xf0a860;
        /// Text that says stop.
        stop: 0xa8243a, 0xf28b8b;

        note_info: 0x0b6e6e, 0x5cc2b8;
        note_watch: 0xb4530a, 0xf0a860;
        note_stop: 0xa8243a, 0xf28b8b;

        /// The planned end of the hold.
        stop_line: palette::STOP_LINE, 0x5cc2b8;
    }
    curves {
        ph: palette::PH, (0x56b4e9, 0x56b4e9), SOLID;
        acid: palette::ACID, (0xd48bb3, 0xd48bb3), SOLID;
        sugar_total: palette::SUGAR, (0xe69f00, 0xe69f00), SOLID;
        sucrose: (0x8f8601, 0x716a02), (0xd6cb4a, 0xd6cb4a), DASHED;
        glucose: (0xd55e00, 0xae4b00), (0xe2691b, 0xed742a), DOTTED;
        fructose: (0xbb6997, 0x9d4e7b), (0xcc79a7, 0xd07dab), DASH_DOT;
        lactose: (0x0072b2, 0x006dab), (0x3793d6, 0x429de0), LONG;
        galactose: (0x298dc0, 0x00709e), (0x56b4e9, 0x56b4e9), SHORT;
        other_sugars: (0x555555, 0x555555), (0xaeaeae, 0xaeaeae), DASH_DOT_DOT;
        texture_chilled: palette::TEXTURE, (0x23ab7f, 0x23ab7f), SOLID;
        texture_warm: (0xae4b00, 0xae4b00), (0xed742a, 0xed742a), DASHED;
        temperature: palette::WARMTH, (0xe2691b, 0xed742a), SOLID;
    }
    cultures {
        (0xbb6997, 0x9d4e7b), (0xcc79a7, 0xd07dab), SOLID;
        (0x298dc0, 0x00709e), (0x56b4e9, 0x56b4e9), DASHED;
        (0x8f8601, 0x716a02), (0xd6cb4a, 0xd6cb4a), DOTTED;
        (0x00976e, 0x017756), (0x0aa175, 0x23ab7f), DASH_DOT;
        (0xb27a03, 0x8c5f01), (0xe69f00, 0xe69f00), LONG;
        (0x0072b2, 0x006dab), (0x3793d6, 0x429de0), SHORT;
        (0xd55e00, 0xae4b00), (0xe2691b, 0xed742a), DASH_DOT_DOT;
        (0x555555, 0x555555), (0xaeaeae, 0xaeaeae), SPARSE;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance, WCAG 2.1: `0.2126 R + 0.7152 G + 0.0722 B` of the linear parts.
    fn luminance(color: Color32) -> f64 {
        let [r, g, b] = [color.r(), color.g(), color.b()].map(|part| {
            let part = f64::from(part) / 255.0;
            if part <= 0.03928 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
        });
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    /// Contrast ratio, WCAG 2.1: `(L1 + 0.05) / (L2 + 0.05)`, the lighter first.
    fn contrast(a: Color32, b: Color32) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    fn curves(t: &Tokens) -> Vec<Curve> {
        let mut all = vec![t.ph, t.acid, t.texture_chilled, t.texture_warm, t.temperature];
        all.extend(sugars(t));
        all.extend(t.cultures);
        all
    }

    fn sugars(t: &Tokens) -> [Curve; 7] {
        [t.sugar_total, t.sucrose, t.glucose, t.fructose, t.lactose, t.galactose, t.other_sugars]
    }

    #[test]
    fn contrast_of_black_and_white_is_21() {
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-9);
    }

    #[test]
    fn text_reads_on_every_surface_it_is_used_on() {
        for t in [&LIGHT, &DARK] {
            let plain = [t.page, t.card, t.sheet, t.well, t.hover, t.ready_fill];
            let chosen = [t.page, t.card, t.sheet, t.accent_soft, t.ready_fill];
            let soft = [t.page, t.card, t.sheet, t.well, t.ready_fill];
            let pairs = [
                ("ink", t.ink, &plain[..]),
                ("ink on chosen", t.ink, &[t.accent_soft]),
                ("ink_soft", t.ink_soft, &soft),
                ("accent", t.accent, &chosen),
                ("on_accent", t.on_accent, &[t.accent]),
                ("ready_ink", t.ready_ink, &[t.ready_card, t.ready_fill]),
                ("ready_ink_soft", t.ready_ink_soft, &[t.ready_card]),
                ("warn", t.warn, &soft),
                ("stop", t.stop, &soft),
            ];
            for (name, text, surfaces) in pairs {
                for &surface in surfaces {
                    let ratio = contrast(text, surface);
                    assert!(ratio >= 4.5, "{name}, dark {}: {ratio:.2} on {surface:?}", t.dark);
                }
            }
        }
    }

    #[test]
    fn curves_and_their_labels_stand_out() {
        for t in [&LIGHT, &DARK] {
            for (index, curve) in curves(t).into_iter().enumerate() {
                for surface in [t.sheet, t.ready_fill] {
                    let (line, label) = (curve.line, curve.label);
                    assert!(contrast(line, surface) >= 3.0, "line {index}, dark {}", t.dark);
                    assert!(contrast(label, surface) >= 4.5, "label {index}, dark {}", t.dark);
                }
            }
            for mark in [t.mark, t.stop_line, t.note_info, t.note_watch, t.note_stop] {
                assert!(contrast(mark, t.card) >= 3.0);
            }
        }
    }

    #[test]
    fn dashes_differ_within_a_strip() {
        for t in [&LIGHT, &DARK] {
            for strip in [&t.cultures[..], &sugars(t), &[t.texture_chilled, t.texture_warm]] {
                for (k, curve) in strip.iter().enumerate() {
                    assert!(strip[..k].iter().all(|other| other.dash != curve.dash));
                }
            }
        }
    }
}
