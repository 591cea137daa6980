//! The pot as it is eaten: strained, or with something stirred in after the hold.

use super::inputs::{Handling, TextureInputs};
use crate::mix::After;
use crate::params::StrainLaw;
use potset_numerics::interpolate::smooth_step;

/// Share of the pot that has run off as whey after some hours in a cloth.
///
/// `w = (1 − p/p_end) (1 − e^(−h/τ))`, faded out where too little protein gels to hold the rest back
///
/// - `protein` — gel-making protein, g/100 g; `hours` — h. Result — 0 to 1.
/// - Source: assumed form; by Darcy's law drainage slows as the gel packs (from memory).
pub fn strained(protein: f64, hours: f64, law: &StrainLaw) -> f64 {
    let holds = smooth_step(law.holds_from, law.holds_to, protein);
    holds * (1.0 - protein / law.end_protein).max(0.0) * (1.0 - (-hours / law.time_h).exp())
}

/// What the texture laws see of the finished pot.
///
/// Straining concentrates all but the whey (protein that runs off with it is neglected); what is stirred in thins all.
pub fn finished(pot: &TextureInputs, after: &After) -> TextureInputs {
    let factor = (1.0 - after.stirred_in) / (1.0 - after.strained);
    let mut out = pot.clone();
    for amount in [
        &mut out.dairy_protein,
        &mut out.soy_protein,
        &mut out.pea_protein,
        &mut out.nut_protein,
        &mut out.fat,
        &mut out.fat_volume,
        &mut out.calcium,
    ] {
        *amount *= factor;
    }
    out.fat_volume = out.fat_volume.min(0.74);
    for agent in &mut out.agents {
        agent.dose *= factor;
    }
    // A few drops need no stirring and a few drops of whey no cloth: handling comes in gradually.
    out.rougher = if after.strained > 0.0 {
        (Handling::Worked, smooth_step(0.0, 0.05, after.strained))
    } else {
        (Handling::Stirred, smooth_step(0.0, 0.02, after.stirred_in))
    };
    out
}

/// Whether the finished pot differs from the pot.
pub fn differs(after: &After) -> bool {
    after.strained > 0.0 || after.stirred_in > 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    const LAW: StrainLaw = StrainLaw { end_protein: 9.0, time_h: 3.0, holds_from: 0.5, holds_to: 1.5 };

    #[test]
    fn milk_loses_more_than_half_overnight_and_coconut_nothing() {
        // Source: common practice, a litre of strained milk yogurt leaves 400-500 g.
        let milk = strained(3.3, 12.0, &LAW);
        assert!(milk > 0.5 && milk < 0.65, "{milk}");
        assert_eq!(strained(0.3, 12.0, &LAW), 0.0);
        assert!(strained(9.5, 12.0, &LAW) <= 0.0);
    }
}
