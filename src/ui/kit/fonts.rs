//! The bundled type: one family in three faces, tabular figures by default, and the signs we print.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{FontData, FontDefinitions, FontFamily, FontId};

use potset_base::typeface;

/// Name of the family that holds the semibold face.
pub const SEMIBOLD: &str = "semibold";
/// Name of the family that holds the italic face.
pub const ITALIC: &str = "italic";

/// Every sign beyond plain letters that user texts may use; each has a glyph in all three faces.
pub const PRINTED_SIGNS: &str = "←↑→↓↔↩↪↶↷↺↻✓✗×÷±≈≤≥≠−°µμ·•…–—‘’“”‹›½¼¾⅓⅔⅛⅜⅝⅞\
    ₀₁₂₃₄₅₆₇₈₉⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺▲▼▶◀▸▾●○◆■□⚠★☆′″‰√∞∆∂∑€₹₩₺₽₫₱₴₦₪ΑΒΓΔΩαβγδθλμπρστφω\u{2009}\u{a0}\u{202f}\u{2011}";

/// The complete set of fonts: eframe is built without its default fonts.
///
/// Proportional and monospace are the regular face (its figures are tabular); the named families
/// [`SEMIBOLD`] and [`ITALIC`] fall back to it.
pub fn definitions() -> FontDefinitions {
    let faces = [("regular", typeface::REGULAR), (SEMIBOLD, typeface::SEMIBOLD), (ITALIC, typeface::ITALIC)];
    let font_data = faces
        .into_iter()
        .map(|(name, bytes)| (name.to_owned(), Arc::new(FontData::from_static(bytes))))
        .collect();
    let family = |names: &[&str]| names.iter().map(|&name| name.to_owned()).collect();
    let families = BTreeMap::from([
        (FontFamily::Proportional, family(&["regular"])),
        (FontFamily::Monospace, family(&["regular"])),
        (FontFamily::Name(SEMIBOLD.into()), family(&[SEMIBOLD, "regular"])),
        (FontFamily::Name(ITALIC.into()), family(&[ITALIC, "regular"])),
    ]);
    FontDefinitions { font_data, families }
}

/// The regular face at a size in points.
pub fn regular(size: f32) -> FontId {
    FontId::proportional(size)
}

/// The semibold face at a size in points.
pub fn semibold(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name(SEMIBOLD.into()))
}

/// The italic face at a size in points.
pub fn italic(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name(ITALIC.into()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::epaint::text::{Fonts, TextOptions};

    fn fonts() -> Fonts {
        Fonts::new(TextOptions::default(), definitions())
    }

    #[test]
    fn every_printed_sign_has_a_glyph_in_every_face() {
        let mut fonts = fonts();
        for font in [regular(13.0), semibold(13.0), italic(13.0)] {
            let missing: String = (PRINTED_SIGNS.chars())
                .chain(' '..='~')
                .filter(|&sign| !fonts.has_glyph(&font, sign))
                .collect();
            assert_eq!(missing, "", "missing in {font:?}");
        }
    }

    #[test]
    fn an_unbundled_sign_is_noticed() {
        assert!(!fonts().has_glyph(&regular(13.0), '漢'));
    }

    #[test]
    fn figures_are_tabular_also_after_shaping() {
        let mut fonts = fonts();
        let mut view = fonts.with_pixels_per_point(1.0);
        for font in [regular(13.0), semibold(24.0), italic(11.0)] {
            let mut width = |text: &str| {
                view.layout_no_wrap(text.to_owned(), font.clone(), egui::Color32::WHITE).size().x
            };
            let reference = width("00.0 °C");
            for text in ["11.1 °C", "77.7 °C", "17.4 °C", "41.7 °C"] {
                assert!((width(text) - reference).abs() < 1e-3, "{text} in {font:?}");
            }
        }
    }

    #[test]
    fn faces_stay_small() {
        for bytes in [typeface::REGULAR, typeface::SEMIBOLD, typeface::ITALIC] {
            assert!(bytes.len() < 150_000, "{} bytes", bytes.len());
        }
    }
}
