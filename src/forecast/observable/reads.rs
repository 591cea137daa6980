//! Where an outcome is found: among the goals of a design, and along the curves of a forecast.

use super::Observable;
use potset_doc::goals::Goals;
use potset_science::Forecast;
use potset_science::texture::pot::Texture;

impl Observable {
    /// Those that a goal keeps under a number beside the pH, by the word of the goal.
    pub const KEPT_UNDER: [(Self, &'static str); 3] =
        [(Self::SugarLeft, "sugar"), (Self::Whey, "whey"), (Self::ThinLayer, "thin layer")];

    /// The goal that keeps it under a number, where there is such a one.
    pub const fn goal(self, goals: &mut Goals) -> Option<&mut Option<f64>> {
        match self {
            Self::Ph => Some(&mut goals.ph_at_most),
            Self::SugarLeft => Some(&mut goals.sugar_left_at_most),
            Self::Whey => Some(&mut goals.whey_at_most),
            Self::ThinLayer => Some(&mut goals.thin_layer_at_most),
            _ => None,
        }
    }

    /// What a design's goals let it be at most.
    pub fn at_most(self, goals: &Goals) -> Option<f64> {
        self.goal(&mut goals.clone()).and_then(|most| *most)
    }

    /// Its course, in its unit, at the times of a forecast; nothing for what only the whole pot has.
    pub fn course(self, f: &Forecast) -> Vec<f64> {
        let chilled = |read: fn(&Texture) -> f64| f.chilled.at.iter().map(read).collect();
        match self {
            Self::Ph => f.ph.clone(),
            Self::Tang => f.undissociated.clone(),
            Self::SugarLeft => f.sugar_total.iter().map(|g| g * f.density).collect(),
            Self::Texture => f.chilled.viscosity50.clone(),
            Self::Stiffness => f.chilled.stiffness_pa.clone(),
            Self::Whey => chilled(|t| t.whey.standing),
            Self::ThinLayer => chilled(|t| t.thin_layer),
            _ => Vec::new(),
        }
    }
}
