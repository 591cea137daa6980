//! What heat and time do to a thickener: cooked, dissolved, swollen; set, and broken by stirring.

use super::inputs::{Activated, AgentKind};
use crate::params::StarchLaw;
use crate::thermal::Course;
use potset_numerics::interpolate::logistic;

/// Share that would be cooked or dissolved if a temperature were kept, 0 to 1.
///
/// - Cook-up starch: `1/(1 + e^(−(T − Tp)/w))`, `w = (Tc − To)/6`, times the swelling `(T − To)/(Tfull − To)` in 0-1.
/// - Gelling agent: 0 at 5 °C below its dissolving temperature, 1 at it, a straight line between.
/// - Cold-swelling starch: 1.
/// - Source: assumed forms on published ranges (Belitz, Grosch and Schieberle, Food Chemistry, Table 4.24; J Food Eng
///   2002, 53:39).
pub fn kept_at(kind: &AgentKind, c: f64) -> f64 {
    match *kind {
        AgentKind::ColdStarch { .. } | AgentKind::Filler { .. } => 1.0,
        AgentKind::CookStarch { onset_c, peak_c, end_c, full_c, .. } => {
            let cooked = logistic(c, peak_c, (end_c - onset_c) / 6.0);
            cooked * ((c - onset_c) / (full_c - onset_c)).clamp(0.0, 1.0)
        }
        AgentKind::Gum { dissolve_c: 0.0, .. } => 1.0,
        AgentKind::Gel { dissolve_c, .. } | AgentKind::Gum { dissolve_c, .. } => {
            ((c - dissolve_c + 5.0) / 5.0).clamp(0.0, 1.0)
        }
    }
}

/// Share of a starch's swelling that over-cooking leaves; 1 for all that does not break.
///
/// Source: assumed shape and size; that tapioca and potato thin when cooked or sheared too hard is from memory.
pub fn unbroken(kind: &AgentKind, hottest_c: f64, law: &StarchLaw) -> f64 {
    match *kind {
        AgentKind::CookStarch { overcooks_c, .. } if overcooks_c.is_finite() => {
            1.0 - (1.0 - law.overcooked_left) * logistic(hottest_c, overcooks_c, 1.5)
        }
        _ => 1.0,
    }
}

/// Share of a dissolved gelling agent that is set at a temperature, 0 to 1; 1 for all others.
pub fn set_at(kind: &AgentKind, c: f64, coldest_c: f64) -> f64 {
    const WIDTH_C: f64 = 1.5;
    match *kind {
        AgentKind::Gel { set_c, melt_c, .. } => {
            let now = logistic(-c, -set_c, WIDTH_C);
            // Once set it stays so until it melts.
            let kept = logistic(-coldest_c, -set_c, WIDTH_C) * logistic(-c, -melt_c, WIDTH_C);
            now.max(kept)
        }
        _ => 1.0,
    }
}

/// Runs a thickener through a course: cooking takes its time constant, and is never undone.
pub fn through(kind: &AgentKind, course: &Course, law: &StarchLaw) -> Activated {
    const PARTS: u32 = 48;
    let mut state = Activated::default();
    for (i, (start, end)) in course.spans().enumerate() {
        let width = (end - start) / f64::from(PARTS);
        let approach = 1.0 - (-width * 3600.0 / law.cook_s).exp();
        for k in 0..PARTS {
            let c = course.in_piece(i, start + (f64::from(k) + 0.5) * width);
            let goal = kept_at(kind, c);
            state.hottest_c = state.hottest_c.max(c);
            if goal > state.share {
                state.share += (goal - state.share) * approach;
            }
            state.swelling_h += width * swelling_rate(c, law);
        }
    }
    state
}

/// Pace of cold swelling: `cold_rate` at 5 °C and below, 1 from 20 °C on.
pub fn swelling_rate(c: f64, law: &StarchLaw) -> f64 {
    law.cold_rate + (1.0 - law.cold_rate) * ((c - 5.0) / 15.0).clamp(0.0, 1.0)
}
