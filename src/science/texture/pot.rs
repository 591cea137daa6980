//! What the texture of a pot is at one moment, and the moment that it is asked for.

use super::separation::Clearing;
use super::wheying;
use potset_base::choices;
use potset_base::words::TextureWord;

choices! {
    /// What carries load in a pot.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
    pub enum Part: words {
        Protein => "protein gel",
        Starch => "starch, swollen",
        GellingAgent => "gelling agent",
        Gum => "gum",
        SolidFat => "solid fat",
        Emulsion => "emulsion",
    }
}

/// Texture at one moment and temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Texture {
    /// Apparent viscosity at 50 and 10 1/s, Pa·s.
    pub viscosity50: f64,
    pub viscosity10: f64,
    /// 5 % and 95 % bounds of the first.
    pub low50: f64,
    pub high50: f64,
    pub yield_pa: f64,
    /// G' of the undisturbed pot, Pa.
    pub stiffness_pa: f64,
    pub whey: wheying::Whey,
    /// Thin layer below, % of the pot, by [`super::whole::PotTexture::separated`].
    pub thin_layer: f64,
    pub clearing: Clearing,
    /// Stress at 50 1/s that each part carries, Pa, in the order of [`Part::ALL`].
    pub parts: [f64; 6],
    /// Stiff enough and undisturbed, so that it is cut.
    pub cut: bool,
    pub word: TextureWord,
    pub word_low: TextureWord,
    pub word_high: TextureWord,
}

impl Texture {
    /// The texture a share of the way to another one. Words and `cut` are those of the nearer end.
    pub fn towards(&self, other: &Self, share: f64) -> Self {
        let between = |a: f64, b: f64| a + share * (b - a);
        let near = if share < 0.5 { self } else { other };
        Self {
            viscosity50: between(self.viscosity50, other.viscosity50),
            viscosity10: between(self.viscosity10, other.viscosity10),
            low50: between(self.low50, other.low50),
            high50: between(self.high50, other.high50),
            yield_pa: between(self.yield_pa, other.yield_pa),
            stiffness_pa: between(self.stiffness_pa, other.stiffness_pa),
            whey: wheying::Whey {
                centrifuged: between(self.whey.centrifuged, other.whey.centrifuged),
                standing: between(self.whey.standing, other.whey.standing),
                cut: between(self.whey.cut, other.whey.cut),
            },
            thin_layer: between(self.thin_layer, other.thin_layer),
            parts: std::array::from_fn(|i| between(self.parts[i], other.parts[i])),
            ..*near
        }
    }
}

/// The moment that a texture is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Hours since the culture went in.
    pub t_h: f64,
    pub ph: f64,
    pub c: f64,
    /// Hottest and coldest of the hold so far, °C.
    pub hottest_c: f64,
    pub coldest_c: f64,
    /// Temperature in which the gel was made, °C.
    pub made_at_c: f64,
    /// `∫ k dt` of whey protein during the hold.
    pub whey_integral: f64,
    pub days: f64,
    /// How far the gel had set when it was stirred or jolted in the hold, 0 to 1; 0 if it never was.
    pub stirred: f64,
}

/// Most thickeners in one pot, a base's own starch among them; `compile` refuses more.
pub const MOST_AGENTS: usize = 16;
