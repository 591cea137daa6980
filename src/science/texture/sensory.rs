//! Texture as a person meets it: thickness 0-100, line spread, slump, and the word.

use crate::params::WordLaw;
use potset_base::constants::GRAVITY;
use potset_base::words::TextureWord;

/// Thickness 0-100: `100 log10(η50 / 3 mPa·s) / log10(2000)`; one just-noticeable step (26 %) is 3 points.
///
/// Source: derived, Weber-Fechner law and just-noticeable steps of Camacho et al. 2015; both ends of the
/// scale assumed.
pub fn thickness(viscosity50: f64) -> f64 {
    (100.0 * (viscosity50 / 0.003).log10() / 2000.0_f64.log10()).clamp(0.0, 100.0)
}

/// Line spread, cm: `5.44 − 1.11 log10(η, mPa·s)`.
///
/// Source: fitted to four published points, PubMed 15129413, within 0.1 cm; valid for 1 mPa·s to 10 Pa·s.
pub fn line_spread_cm(viscosity50: f64) -> f64 {
    (5.44 - 1.11 * (viscosity50 * 1e3).log10()).clamp(0.0, 5.5)
}

/// Slump in a 5 cm wide trough, cm: `L = (9/8 q² ρ g / τ_y)^(1/3) − 5`, q = 19 cm².
///
/// Source: derived, lubrication estimate; yield stress as the controlling property published, Perona 2005.
pub fn slump_cm(yield_pa: f64, density: f64) -> f64 {
    const AREA_M2: f64 = 19e-4;
    let length = (1.125 * AREA_M2 * AREA_M2 * density * 1e3 * GRAVITY / yield_pa.max(1e-6)).cbrt();
    (length * 100.0 - 5.0).clamp(0.0, 24.0)
}

/// The word for an apparent viscosity at 50 1/s, Pa·s; `cut` when the pot is undisturbed and led by a stiff gel.
pub fn word(viscosity50: f64, cut: bool, law: &WordLaw) -> TextureWord {
    if cut {
        TextureWord::Cuts
    } else if viscosity50 < law.pours_below {
        TextureWord::Pours
    } else if viscosity50 < law.ribbons_below {
        TextureWord::Ribbons
    } else if viscosity50 < law.dollops_below {
        TextureWord::Dollops
    } else {
        TextureWord::Stands
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn line_spread_of_the_published_foods() {
        // Source: published, PubMed 15129413: 0.9, 63.1, 671, 10 031 mPa·s spread 5.5, 3.4, 2.4, 1.0 cm.
        for (mpa_s, cm) in [(0.9, 5.5), (63.1, 3.4), (671.0, 2.4), (10_031.0, 1.0)] {
            assert!((line_spread_cm(mpa_s * 1e-3) - cm).abs() < 0.11);
        }
    }

    #[test]
    fn slump_of_the_table() {
        // Source: derived, the law worked by hand: yield 5/20/87 Pa give 15/7.7/2.8 cm.
        for (pa, cm) in [(5.0, 15.0), (20.0, 7.7), (87.0, 2.8)] {
            assert!((slump_cm(pa, 1.03) - cm).abs() < 0.5, "{pa}: {}", slump_cm(pa, 1.03));
        }
    }

    #[test]
    fn thickness_of_milk_and_yogurt() {
        assert!(thickness(0.0031) < 2.0);
        assert!((thickness(0.8) - 73.0).abs() < 1.0);
    }
}
