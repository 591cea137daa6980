//! The forecast: every curve against time, with named contributions.

use super::texture::Texture;
use super::texture::wheying::Whey;
use potset_base::Sugar;
use potset_numerics::interpolate::{curve, first_below};

pub use super::texture::Part;

/// An organism's curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Species {
    pub key: String,
    pub name: String,
    /// log10 cfu/g.
    pub log10: Vec<f64>,
    /// Acid made by it so far, mmol/kg (lactic and acetic).
    pub acid: Vec<f64>,
}

/// Curves of a texture, at one temperature course.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TextureCurves {
    pub viscosity50: Vec<f64>,
    pub low50: Vec<f64>,
    pub high50: Vec<f64>,
    pub stiffness_pa: Vec<f64>,
    pub at: Vec<Texture>,
}

impl TextureCurves {
    /// Adds a point.
    pub fn push(&mut self, texture: Texture) {
        self.viscosity50.push(texture.viscosity50);
        self.low50.push(texture.low50);
        self.high50.push(texture.high50);
        self.stiffness_pa.push(texture.stiffness_pa);
        self.at.push(texture);
    }
}

/// A pot's forecast, per kg of pot mix. All curves share the times of `t`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Forecast {
    /// h since the culture went in.
    pub t: Vec<f64>,
    pub temperature: Vec<f64>,
    pub ph: Vec<f64>,
    /// mmol/kg.
    pub lactic: Vec<f64>,
    pub acetic: Vec<f64>,
    /// Undissociated lactic acid, mmol/kg.
    pub undissociated: Vec<f64>,
    /// % as lactic acid.
    pub acid_made: Vec<f64>,
    pub titratable: Vec<f64>,
    /// g/kg, in the order of [`Sugar::ALL`].
    pub sugars: [Vec<f64>; 8],
    pub sugar_total: Vec<f64>,
    /// Sugars that are in the pot at some time.
    pub sugars_there: Vec<Sugar>,
    pub species: Vec<Species>,
    /// Texture in the pot, at its own temperature.
    pub warm: TextureCurves,
    /// Texture if the hold ended then: chilled, after the hours of the chill.
    pub chilled: TextureCurves,
    /// kg/L.
    pub density: f64,
    pub stop_h: f64,
    pub horizon_h: f64,
    /// g/L of sugar that was added for the culture.
    pub added_g_l: f64,
}

impl Forecast {
    /// A curve's value at a time.
    pub fn value(&self, ys: &[f64], t_h: f64) -> f64 {
        curve(&self.t, ys, t_h)
    }

    /// When the pH first comes down to a level, h.
    pub fn time_to_ph(&self, level: f64) -> Option<f64> {
        first_below(&self.t, &self.ph, level)
    }

    /// Place of the last point at or before a time.
    pub fn index(&self, t_h: f64) -> usize {
        self.t.partition_point(|t| *t <= t_h + 1e-9).saturating_sub(1)
    }

    /// Texture in the pot and chilled at a time: numbers on the straight line between the points beside it.
    pub fn textures(&self, t_h: f64) -> Option<(Texture, Texture)> {
        let i = self.index(t_h);
        let (t0, t1) = (self.t.get(i)?, self.t.get(i + 1).or_else(|| self.t.get(i))?);
        let share = if t1 > t0 { ((t_h - t0) / (t1 - t0)).clamp(0.0, 1.0) } else { 0.0 };
        let at = |curves: &TextureCurves| {
            let first = curves.at.get(i)?;
            Some(first.towards(curves.at.get(i + 1).unwrap_or(first), share))
        };
        Some((at(&self.warm)?, at(&self.chilled)?))
    }

    /// Whey of the chilled pot at a time.
    pub fn whey(&self, t_h: f64) -> Whey {
        self.textures(t_h).map_or_else(Whey::default, |(_, chilled)| chilled.whey)
    }

    /// Thin layer below at a time, % of the pot: in the hold, and after the chill if it ended then.
    pub fn thin_layer(&self, t_h: f64) -> (f64, f64) {
        self.textures(t_h).map_or((0.0, 0.0), |(warm, chilled)| (warm.thin_layer, chilled.thin_layer))
    }

    /// Sugars at a time, g/kg.
    pub fn sugars_at(&self, t_h: f64) -> [f64; 8] {
        std::array::from_fn(|s| self.value(&self.sugars[s], t_h))
    }
}
