//! All thickeners of a pot at a moment: what is swollen, dissolved, set or broken of each.

use super::inputs::{Agent, AgentKind, Handling, TextureInputs};
use super::pot::{MOST_AGENTS, Moment};
use super::{activation, emulsion, gelling_agent, gum, starch};
use crate::params::Laws;

/// All thickeners at a moment.
#[derive(Default)]
pub(super) struct Agents {
    pub(super) starch: starch::Packing,
    /// Starch and gum that are dissolved, g per L of water phase.
    pub(super) dissolved: f64,
    pub(super) gums: f64,
    /// Working dose of each agent, g per L of water phase, and the factor of what helps it.
    pub(super) doses: [f64; MOST_AGENTS],
    pub(super) helped: [f64; MOST_AGENTS],
    /// Stiffness of the set gelling agents, undisturbed and as it flows, Pa.
    pub(super) set_pa: f64,
    pub(super) flowing_pa: f64,
    pub(super) efolds: f64,
    /// The same of the gelling agents alone.
    pub(super) gel_efolds: f64,
    pub(super) weeps_per_day: f64,
    /// Factor of fillers on the consistency of all else.
    pub(super) filled: f64,
}

impl Agents {
    pub(super) fn at(pot: &TextureInputs, at: &Moment, laws: &Laws) -> Self {
        let mut all = Self { filled: 1.0, helped: [1.0; MOST_AGENTS], ..Self::default() };
        let water = (1.0 - pot.fat_volume).max(0.05);
        let mut shares = [0.0; MOST_AGENTS];
        for (i, agent) in pot.agents.iter().enumerate().take(MOST_AGENTS) {
            shares[i] = share(agent, at);
            all.doses[i] = agent.dose / water * shares[i];
        }
        for (a, b, factor) in &pot.synergies {
            let factor = gum::together(all.doses[*a], all.doses[*b], *factor);
            all.helped[*a] *= factor;
            all.helped[*b] *= factor;
        }
        for (i, agent) in pot.agents.iter().enumerate().take(MOST_AGENTS) {
            all.add(agent, i, shares[i], (pot, at, laws));
        }
        all
    }

    fn add(
        &mut self,
        agent: &Agent,
        i: usize,
        share: f64,
        (pot, at, laws): (&TextureInputs, &Moment, &Laws),
    ) {
        let dose = self.doses[i];
        match agent.kind {
            AgentKind::ColdStarch { .. } | AgentKind::CookStarch { .. } => {
                let hottest = agent.before.hottest_c.max(at.hottest_c);
                let left = activation::unbroken(&agent.kind, hottest, &laws.starch);
                let volume = dose * 1e-3 * agent.swelling * left;
                self.starch.add(volume, agent.consistency, agent.stiffness);
                let cold = matches!(agent.kind, AgentKind::ColdStarch { .. });
                let soluble = if cold { laws.starch.soluble_cold } else { laws.starch.soluble_cooked };
                self.dissolved += dose * soluble;
                self.weeps_per_day += agent.weeps_per_day * share;
            }
            AgentKind::Gum { .. } => self.gums += dose,
            AgentKind::Filler { per_g_l } => self.filled *= 1.0 + per_g_l * dose,
            AgentKind::Gel { .. } => {
                let left = gelling_agent::left_after_stirring(&agent.kind);
                let whole = 1.0 - agent.before.broken * (1.0 - left);
                let stiff = gelling_agent::stiffness(&agent.kind, dose)
                    * gelling_agent::left_by_acid(&agent.kind, at.ph)
                    * activation::set_at(&agent.kind, at.c, at.coldest_c)
                    * self.helped[i]
                    * whole;
                // A stir in the hold breaks only what is set there; handling after the chill breaks all.
                let in_hold = if pot.stirred_at.iter().any(|s| *s <= at.t_h) {
                    activation::set_at(&agent.kind, at.made_at_c, at.made_at_c)
                } else {
                    0.0
                };
                let after = if pot.handling == Handling::Spooned { pot.rougher.1 } else { 1.0 };
                let jolted = after.max(in_hold);
                self.set_pa += stiff;
                self.flowing_pa += stiff * (1.0 - jolted * (1.0 - left));
            }
        }
        let efolds = share * agent.dose / agent.whey_efold;
        self.efolds += efolds;
        if matches!(agent.kind, AgentKind::Gel { .. }) {
            self.gel_efolds += efolds;
        }
    }
}

/// Share of an agent that is swollen, cooked or dissolved at a moment.
fn share(agent: &Agent, at: &Moment) -> f64 {
    if let AgentKind::ColdStarch { swelling_h } = agent.kind {
        1.0 - (-(agent.before.swelling_h + at.t_h) / swelling_h).exp()
    } else {
        agent.before.share.max(activation::kept_at(&agent.kind, at.hottest_c))
    }
}

/// Stress of all gums at two shear rates of the stirred pot among its droplets, and at one of the serum at rest, Pa, with
/// what they do together. The droplets are given as `ln r` and `ln(1 − φ)`.
pub(super) fn gums(
    pot: &TextureInputs,
    agents: &Agents,
    (stirred, rest): ([f64; 2], f64),
    (ln_thickening, ln_free): (f64, f64),
) -> ([f64; 2], f64) {
    let mut total = ([0.0; 2], 0.0);
    for (i, agent) in pot.agents.iter().enumerate().take(MOST_AGENTS) {
        let Some((consistency, n)) = gum::power_law(&agent.kind, agents.doses[i]) else { continue };
        let consistency = agents.helped[i] * consistency;
        let among = consistency * emulsion::on_matrix(ln_thickening, ln_free, n);
        for (sum, shear) in total.0.iter_mut().zip(stirred) {
            *sum += among * shear.powf(n);
        }
        total.1 += consistency * emulsion::on_matrix(0.0, ln_free, n) * rest.powf(n);
    }
    total
}
