//! The charge balance: pH from the acid made, solved by Newton's rule from a table.

use std::f64::consts::LN_10;

use super::sites::{self, Site};
use crate::numerics::{Error, root};

/// Lowest pH that is looked for.
const LOWEST: f64 = 1.5;
/// Highest start pH that is looked for.
const HIGHEST: f64 = 12.0;
/// Distance of the table's nodes; the cubic between them is then exact to 1e-9 mmol/kg.
const STEP: f64 = 0.004;
/// Distance of the start table's nodes in acid, mmol/kg.
const ACID_STEP: f64 = 0.5;
const ACID_NODES: usize = 512;

/// A base's side of the balance, and the acids' constants.
///
/// `k [B(pH) − B(pH0)] + ([H+] − [H+]0)/f = L α(pH; pK_L) + A α(pH; pK_A)`, `α = 1/(1 + 10^(pK − pH))`
///
/// Source: published form (electroneutrality); constants in `assets/parameters.ron`.
#[derive(Clone, Debug, PartialEq)]
pub struct Balance {
    /// Sites of the pot mix, mmol/kg.
    pub sites: Vec<Site>,
    /// pH before any acid is made.
    pub ph0: f64,
    /// Activity coefficient f of the hydrogen ion.
    pub activity: f64,
    pub lactic_pka: f64,
    pub acetic_pka: f64,
}

/// Hydrogen ions per kg, mmol, at a pH: `10^(3 − pH)/f`.
fn hydrogen(ph: f64, activity: f64) -> f64 {
    (LN_10 * (3.0 - ph)).exp() / activity
}

/// Dissociated share of a weak acid, 0 to 1: `1/(1 + 10^(pK − pH))`.
#[must_use]
pub fn dissociated(ph: f64, pka: f64) -> f64 {
    1.0 / (1.0 + (LN_10 * (pka - ph)).exp())
}

impl Balance {
    /// Protons that the mix has taken up between its start and this pH, mmol/kg.
    #[must_use]
    pub fn uptake(&self, ph: f64) -> f64 {
        sites::bound(&self.sites, ph) - sites::bound(&self.sites, self.ph0) + hydrogen(ph, self.activity)
            - hydrogen(self.ph0, self.activity)
    }

    /// What is missing in the balance at this pH, mmol/kg; it falls as pH rises and is 0 at the pH sought.
    #[must_use]
    pub fn residual(&self, ph: f64, lactic: f64, acetic: f64) -> f64 {
        self.uptake(ph)
            - lactic * dissociated(ph, self.lactic_pka)
            - acetic * dissociated(ph, self.acetic_pka)
    }

    /// pH without the table, slowly: for checks.
    #[must_use]
    pub fn ph(&self, lactic: f64, acetic: f64) -> f64 {
        if lactic + acetic <= 0.0 {
            return self.ph0;
        }
        root::between(|ph| self.residual(ph, lactic, acetic), LOWEST, self.ph0, 1e-13).unwrap_or(LOWEST)
    }
}

/// Sites that come with a fixed number of protons on them, mmol/kg of mix: an acid, a neutral salt, chalk.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Brought {
    pub sites: Vec<Site>,
    /// Protons that they hold as bought.
    pub held: f64,
}

/// Start pH of lots that are put together: where the protons that one gives are taken up by the others.
///
/// - `lots` — each lot's balance, its sites scaled by its share of the mix already, and that share; `brought` — acids
///   and salts.
///
/// # Errors
/// [`Error::NoRoot`] if a pH or a buffer is not a number, or an acid is more than pH 1.5 to 12 can tell.
pub fn start_ph(lots: &[(Balance, f64)], brought: &Brought) -> Result<f64, Error> {
    let (low, high) = lots.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (lot, _)| {
        (low.min(lot.ph0), high.max(lot.ph0))
    });
    let alone = brought.sites.is_empty();
    if alone && high - low < 1e-12 {
        return Ok(low);
    }
    let residual = |ph: f64| {
        lots.iter()
            .map(|(lot, share)| {
                let bound = sites::bound(&lot.sites, ph) - sites::bound(&lot.sites, lot.ph0);
                bound + share * (hydrogen(ph, lot.activity) - hydrogen(lot.ph0, lot.activity))
            })
            .sum::<f64>()
            + sites::bound(&brought.sites, ph)
            - brought.held
    };
    let (low, high) = if alone { (low, high) } else { (LOWEST, HIGHEST) };
    root::between(residual, low, high, 1e-12)
}

/// The balance tabulated for speed: uptake by cubics on a fine grid, and a first guess by the acid made.
#[derive(Clone, Debug)]
pub struct PhTable {
    balance: Balance,
    first: f64,
    /// Uptake and its slope at `first + i·STEP`.
    nodes: Vec<[f64; 2]>,
    /// First guess of pH at `i·ACID_STEP` mmol/kg of acid.
    guess: Vec<f64>,
    lactic_factor: f64,
    acetic_factor: f64,
}

impl PhTable {
    /// Builds the tables.
    #[must_use]
    pub fn new(balance: Balance) -> Self {
        let first = 2.4_f64.min(balance.ph0 - 0.5);
        let count = ((balance.ph0 - first) / STEP).ceil() as usize + 2;
        let h0 = sites::bound(&balance.sites, balance.ph0) + hydrogen(balance.ph0, balance.activity);
        let mut nodes = vec![[-h0, 0.0]; count];
        for site in &balance.sites {
            add_site(&mut nodes, site, first);
        }
        for (i, node) in nodes.iter_mut().enumerate() {
            let free = hydrogen(first + i as f64 * STEP, balance.activity);
            node[0] += free;
            node[1] -= LN_10 * free;
        }
        let mut table = Self {
            lactic_factor: (LN_10 * balance.lactic_pka).exp(),
            acetic_factor: (LN_10 * balance.acetic_pka).exp(),
            balance,
            first,
            nodes,
            guess: Vec::with_capacity(ACID_NODES),
        };
        table.fill_guesses();
        table
    }

    /// Walks down in pH once: at each node the acid that would bring the mix there is known outright.
    fn fill_guesses(&mut self) {
        let acid_at = |i: usize| {
            let ph = self.first + i as f64 * STEP;
            self.nodes[i][0] / dissociated(ph, self.balance.lactic_pka)
        };
        let mut guess = Vec::with_capacity(ACID_NODES);
        let mut i = self.nodes.len() - 1;
        let mut above = acid_at(i);
        for k in 0..ACID_NODES {
            let acid = k as f64 * ACID_STEP;
            let mut below = above;
            while i > 0 {
                below = acid_at(i - 1);
                if below >= acid {
                    break;
                }
                above = below;
                i -= 1;
            }
            let share = if below > above { ((acid - above) / (below - above)).clamp(0.0, 1.0) } else { 0.0 };
            guess.push(self.first + (i as f64 - share) * STEP);
        }
        self.guess = guess;
    }

    /// The exact balance behind the table.
    #[must_use]
    pub const fn balance(&self) -> &Balance {
        &self.balance
    }

    /// pH after so much lactic and acetic acid, mmol/kg.
    ///
    /// The residual of the exact balance is below 1e-9 mmol/kg; with no acid the answer is the start pH exactly.
    #[must_use]
    pub fn ph(&self, lactic: f64, acetic: f64) -> f64 {
        let acid = lactic + acetic;
        if acid <= 0.0 {
            return self.balance.ph0;
        }
        let mut ph = self.first_guess(acid);
        for _ in 0..8 {
            let Some((uptake, slope)) = self.uptake(ph) else { break };
            let free = (-LN_10 * ph).exp();
            let alpha = 1.0 / (1.0 + self.lactic_factor * free);
            let mut residual = uptake - lactic * alpha;
            let mut steep = slope - lactic * LN_10 * alpha * (1.0 - alpha);
            if acetic > 0.0 {
                let alpha = 1.0 / (1.0 + self.acetic_factor * free);
                residual -= acetic * alpha;
                steep -= acetic * LN_10 * alpha * (1.0 - alpha);
            }
            let step = residual / steep;
            ph -= step;
            // Newton's rule squares the error: after a step of 1e-7 what is left is far below rounding.
            if step.abs() < 1e-7 {
                return ph;
            }
        }
        self.balance.ph(lactic, acetic)
    }

    fn first_guess(&self, acid: f64) -> f64 {
        let x = acid / ACID_STEP;
        let i = x as usize;
        match (self.guess.get(i), self.guess.get(i + 1)) {
            (Some(a), Some(b)) => a + (b - a) * (x - i as f64),
            _ => self.guess.last().copied().unwrap_or(self.first),
        }
    }

    /// Uptake and slope by the cubic of the cell; `None` outside the table.
    fn uptake(&self, ph: f64) -> Option<(f64, f64)> {
        let x = (ph - self.first) / STEP;
        if x.is_nan() || x < 0.0 {
            return None;
        }
        let i = x as usize;
        let (a, b) = (self.nodes.get(i)?, self.nodes.get(i + 1)?);
        let u = x - i as f64;
        let (ma, mb) = (a[1] * STEP, b[1] * STEP);
        let rise = b[0] - a[0];
        let c2 = 3.0 * rise - 2.0 * ma - mb;
        let c3 = ma + mb - 2.0 * rise;
        let value = a[0] + u * (ma + u * (c2 + u * c3));
        let slope = (ma + u * (2.0 * c2 + 3.0 * c3 * u)) / STEP;
        Some((value, slope))
    }
}

/// Adds one site's uptake and slope to every node. `10^(n (pH − pK))` grows by a fixed factor from node to node.
fn add_site(nodes: &mut [[f64; 2]], site: &Site, first: f64) {
    let mut x = (LN_10 * site.n * (first - site.pk)).exp();
    let factor = (LN_10 * site.n * STEP).exp();
    let steep = -site.amount * site.n * LN_10;
    for node in nodes {
        let free = 1.0 / (1.0 + x);
        node[0] += site.amount * free;
        node[1] += steep * free * (1.0 - free);
        x *= factor;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn milk() -> Balance {
        let sites = [
            (10.5, 6.7, 1.0),
            (13.0, 5.15, 1.8),
            (9.0, 5.7, 1.0),
            (9.0, 4.5, 1.0),
            (9.0, 3.0, 1.0),
            (7.0, 6.0, 1.0),
            (6.0, 6.5, 1.0),
            (18.0, 4.8, 1.0),
            (19.0, 4.1, 1.0),
        ];
        Balance {
            sites: sites.iter().map(|&(amount, pk, n)| Site { amount, pk, n }).collect(),
            ph0: 6.65,
            activity: 0.8,
            lactic_pka: 3.86,
            acetic_pka: 4.76,
        }
    }

    #[test]
    fn residual_of_the_exact_balance_is_below_a_billionth() {
        let table = PhTable::new(milk());
        for i in 1..400 {
            let lactic = f64::from(i) * 0.7;
            for acetic in [0.0, 0.3 * lactic] {
                let ph = table.ph(lactic, acetic);
                let residual = table.balance().residual(ph, lactic, acetic);
                assert!(residual.abs() < 1e-9, "{lactic} {acetic}: {ph} {residual}");
            }
        }
    }

    #[test]
    fn table_of_lactic_acid_needed_in_standard_milk() {
        // Source: derived, the curve tabulated with these sites at k = 1, pH0 6.65 (rounded there to 2-3 figures).
        let table = PhTable::new(milk());
        for (ph, lactic, within) in
            [(6.0, 11.2, 0.02), (5.2, 33.5, 0.02), (4.6, 62.0, 0.02), (4.0, 118.0, 0.02)]
        {
            let got = table.ph(lactic, 0.0);
            assert!((got - ph).abs() < within, "{got} for {ph}");
        }
    }

    #[test]
    fn no_acid_no_change_and_huge_acid_no_panic() {
        let table = PhTable::new(milk());
        assert!((table.ph(0.0, 0.0) - 6.65).abs() < 1e-12);
        let ph = table.ph(1e5, 0.0);
        assert!(ph > 1.0 && ph < 2.6, "{ph}");
    }

    #[test]
    fn pure_weak_acids_have_their_handbook_ph() {
        // Sources: from memory, textbook 0.10 mol/L acetic pH 2.88 (Ka 1.8e-5); 0.01 at f = 1. Water before: pH 7.
        let water =
            Balance { sites: Vec::new(), ph0: 7.0, activity: 1.0, lactic_pka: 3.86, acetic_pka: 4.745 };
        let table = PhTable::new(water);
        assert!((table.ph(0.0, 100.0) - 2.875).abs() < 0.01);
        // Published: 0.3494 mol/L lactic acid, Ka 1.38e-4, pH 2.163 (chemistry question-and-answer, worked).
        assert!((table.ph(349.4, 0.0) - 2.163).abs() < 0.01);
    }
}
