//! Gelling agents: stiffness against dose, dissolving, setting and stirring.

use super::inputs::AgentKind;
use crate::numerics::interpolate::smooth_step;

/// Stiffness of a wholly dissolved and set gelling agent, Pa; 0 for starches.
///
/// `G' = G_ref (c/c_ref)^n`, faded in around the least dose that sets
///
/// - `dose` — g per L of water phase.
/// - Source: from memory for agar and gelatin, see the pantry; the fade (0.7 to 1.3 of the least dose) assumed.
#[must_use]
pub fn stiffness(kind: &AgentKind, dose: f64) -> f64 {
    match *kind {
        AgentKind::Gel { stiffness_pa, reference_g_l, exponent, least_g_l, .. } => {
            let fade =
                if least_g_l > 0.0 { smooth_step(0.7 * least_g_l, 1.3 * least_g_l, dose) } else { 1.0 };
            fade * stiffness_pa * (dose / reference_g_l).powf(exponent)
        }
        _ => 0.0,
    }
}

/// Share of the stiffness left after stirring a set gel; 1 for starches.
#[must_use]
pub fn left_after_stirring(kind: &AgentKind) -> f64 {
    match *kind {
        AgentKind::Gel { after_stirring, .. } => after_stirring,
        _ => 1.0,
    }
}
