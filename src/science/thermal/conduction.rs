//! Heat that goes in by conduction alone: the centre of a tin that nobody shakes, or of a set gel. First term of the series.
//!
//! `θ = A exp(−λ² Fo)`, with `θ = (T − T∞)/(T0 − T∞)`, `Fo = α t/R²`, `Bi = h R/k`
//!
//! - R is the radius, of a plate half its thickness; h the heat transfer outside, W/(m² K); k the conductivity, W/(m K); α the
//!   diffusivity, m²/s.
//! - Valid for Fo above 0.2; before that the centre has hardly moved, and θ is held at 1.
//! - Source: published, Çengel, Heat and Mass Transfer, one-term approximations (plate, cylinder, sphere).

use std::f64::consts::{FRAC_PI_2, PI};

use potset_numerics::root;

/// The form of what is warmed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Body {
    Plate,
    Cylinder,
    Sphere,
}

/// First zero of the Bessel function J0. Source: published, Abramowitz and Stegun 1964, table 9.5.
const FIRST_ZERO: f64 = 2.404_825_557_695_773;

/// Bessel function of a whole order: `J_n(x) = (1/π) ∫₀^π cos(n τ − x sin τ) dτ`.
/// Source: published, Abramowitz and Stegun 1964, 9.1.21. The sum is exact to the last figure here, since the integrand is
/// periodic and smooth.
fn bessel(n: f64, x: f64) -> f64 {
    const PARTS: u32 = 48;
    let at = |k: u32| {
        let angle = PI * (f64::from(k) + 0.5) / f64::from(PARTS);
        (n * angle - x * angle.sin()).cos()
    };
    (0..PARTS).map(at).sum::<f64>() / f64::from(PARTS)
}

/// First root λ and factor A of a body at a Biot number; nothing where the number is not above zero.
pub fn first_term(body: Body, biot: f64) -> Option<(f64, f64)> {
    if !(biot.is_finite() && biot > 0.0) {
        return None;
    }
    const EDGE: f64 = 1e-9;
    let (law, most): (fn(f64, f64) -> f64, f64) = match body {
        Body::Plate => (|l, bi| l * l.sin() - bi * l.cos(), FRAC_PI_2),
        Body::Cylinder => (|l, bi| l * bessel(1.0, l) - bi * bessel(0.0, l), FIRST_ZERO),
        Body::Sphere => (|l, bi| (1.0 - bi) * l.sin() - l * l.cos(), PI),
    };
    let root = root::between(|l| law(l, biot), EDGE, most - EDGE, 1e-12).ok()?;
    let (sin, cos) = root.sin_cos();
    let factor = match body {
        Body::Plate => 4.0 * sin / (2.0 * root + (2.0 * root).sin()),
        Body::Cylinder => {
            let (j0, j1) = (bessel(0.0, root), bessel(1.0, root));
            2.0 * j1 / (root * (j0 * j0 + j1 * j1))
        }
        Body::Sphere => 4.0 * (sin - root * cos) / (2.0 * root - (2.0 * root).sin()),
    };
    Some((root, factor))
}

/// How far the centre is from its surroundings, as a share of how far it was at first: 1 down to 0.
pub fn centre(body: Body, biot: f64, fourier: f64) -> f64 {
    first_term(body, biot).map_or(1.0, |(root, factor)| (factor * (-root * root * fourier).exp()).min(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_and_factors_are_those_of_the_tables() {
        // Source: published, Çengel, table of one-term coefficients (plate and cylinder at Bi 0.1, 1, 10, 100).
        for (bi, plate, cylinder) in [
            (0.1, (0.3111, 1.0161), (0.4417, 1.0246)),
            (1.0, (0.8603, 1.1191), (1.2558, 1.2071)),
            (10.0, (1.4289, 1.2620), (2.1795, 1.5677)),
            (100.0, (1.5552, 1.2731), (2.3809, 1.6015)),
        ] {
            for (body, (root, factor)) in [(Body::Plate, plate), (Body::Cylinder, cylinder)] {
                let (l, a) = first_term(body, bi).unwrap();
                assert!((l - root).abs() < 1e-4 && (a - factor).abs() < 1e-4, "{body:?} {bi}: {l} {a}");
            }
        }
        for bi in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(first_term(Body::Sphere, bi), None);
        }
    }

    #[test]
    fn an_egg_in_hot_water() {
        // Source: from memory, Çengel, example of a boiled egg: 5 cm, 5 to 70 °C in water of 95 °C, h 1200, k 0.627,
        // diffusivity 0.151e-6 m²/s: Bi 47.8, 865 s by the table's roots.
        let (radius, diffusivity) = (0.025, 0.151e-6);
        let (root, factor) = first_term(Body::Sphere, 1200.0 * radius / 0.627).unwrap();
        let fourier = -((70.0 - 95.0) / (5.0 - 95.0) / factor).ln() / (root * root);
        let seconds = fourier * radius * radius / diffusivity;
        assert!((seconds - 865.0).abs() < 3.0, "{seconds}");
    }

    #[test]
    fn the_centre_only_nears_its_surroundings() {
        let all: Vec<f64> = (0..20_u32).map(|k| centre(Body::Cylinder, 5.0, 0.1 * f64::from(k))).collect();
        assert!(all[0] == 1.0 && all.windows(2).all(|pair| pair[1] <= pair[0]) && all[19] > 0.0, "{all:?}");
    }
}
