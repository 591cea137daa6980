//! The charge balance: pH from the acid made, solved by Newton's rule from a table.

use std::f64::consts::LN_10;

use super::sites::{self, Site};
use potset_numerics::{Error, root};

/// Lowest pH that is looked for.
const LOWEST: f64 = 1.5;
/// Highest start pH that is looked for.
const HIGHEST: f64 = 12.0;
/// Distance of the table's nodes; the quintic between them is then exact to 1e-9 mmol/kg. A power of two divides fast.
const STEP: f64 = 1.0 / 64.0;
/// Distance of the entries in acid that say which cell to begin with, mmol/kg.
const ACID_STEP: f64 = 0.5;
const ACID_ENTRIES: usize = 512;
/// A step of Newton's rule below this part of `STEP` leaves an error of its square: a residual below 1e-9 mmol/kg.
const LAST_STEP: f64 = 5e-5;

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
pub fn dissociated(ph: f64, pka: f64) -> f64 {
    1.0 / (1.0 + (LN_10 * (pka - ph)).exp())
}

impl Balance {
    /// Protons that the mix has taken up between its start and this pH, mmol/kg.
    pub fn uptake(&self, ph: f64) -> f64 {
        sites::bound(&self.sites, ph) - sites::bound(&self.sites, self.ph0) + hydrogen(ph, self.activity)
            - hydrogen(self.ph0, self.activity)
    }

    /// Lactic acid that brings the mix from its start to a pH, mmol/kg; negative above the start.
    pub fn lactic_to(&self, ph: f64) -> f64 {
        self.uptake(ph) / dissociated(ph, self.lactic_pka)
    }

    /// What is missing in the balance at this pH, mmol/kg; it falls as pH rises and is 0 at the pH sought.
    pub fn residual(&self, ph: f64, lactic: f64, acetic: f64) -> f64 {
        self.uptake(ph)
            - lactic * dissociated(ph, self.lactic_pka)
            - acetic * dissociated(ph, self.acetic_pka)
    }

    /// pH without the table, slowly: for checks.
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

/// How sour a mix is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Acidity {
    pub ph: f64,
    /// Undissociated lactic acid, mmol/kg.
    pub undissociated: f64,
}

/// The balance tabulated for speed, in cells from the start pH down.
#[derive(Clone, Debug)]
pub struct PhTable {
    balance: Balance,
    cells: Vec<Cell>,
    /// The cell where `i·ACID_STEP` mmol/kg of acid lies.
    begin: Vec<usize>,
}

/// One step of pH; `u` runs from 0 to 1 as pH falls by `STEP`.
#[derive(Clone, Copy, Debug)]
struct Cell {
    /// Uptake as powers of `u`.
    uptake: [f64; 6],
    /// Dissociated share of lactic acid as powers of `u`.
    lactic: [f64; 6],
    /// Lactic acid alone that brings the mix to the two ends.
    acid: [f64; 2],
    /// `u` as powers, from the first on, of the acid above the first of them.
    guess: [f64; 3],
}

/// A value at a node, with its first and half its second derivative by `u`.
type Node = [f64; 3];

/// The powers of the quintic between two nodes.
fn quintic(a: Node, b: Node) -> [f64; 6] {
    let r = b[0] - a[0] - a[1] - a[2];
    let s = b[1] - a[1] - 2.0 * a[2];
    let t = b[2] - a[2];
    let [d, e, f] = [10.0 * r - 4.0 * s + t, -15.0 * r + 7.0 * s - 2.0 * t, 6.0 * r - 3.0 * s + t];
    [a[0], a[1], a[2], d, e, f]
}

/// Value and slope of a quintic.
fn at([a, b, c, d, e, f]: [f64; 6], u: f64) -> (f64, f64) {
    let value = a + u * (b + u * (c + u * (d + u * (e + u * f))));
    let slope = b + u * (2.0 * c + u * (3.0 * d + u * (4.0 * e + u * 5.0 * f)));
    (value, slope)
}

impl Cell {
    /// The cell between two nodes of uptake and of the dissociated share.
    fn between(uptake: [Node; 2], lactic: [Node; 2]) -> Self {
        let acid = [0, 1].map(|i| uptake[i][0] / lactic[i][0]);
        // The inverse of the acid's curve, by its slopes at the ends.
        let per = 1.0 / (acid[1] - acid[0]);
        let [first, last] = [0, 1].map(|i| lactic[i][0] / (uptake[i][1] - acid[i] * lactic[i][1]) / per);
        Self {
            uptake: quintic(uptake[0], uptake[1]),
            lactic: quintic(lactic[0], lactic[1]),
            acid,
            guess: [
                first * per,
                (3.0 - 2.0 * first - last) * per * per,
                (first + last - 2.0) * per * per * per,
            ],
        }
    }
}

impl PhTable {
    /// Builds the table.
    pub fn new(balance: Balance) -> Self {
        let uptake = uptakes(&balance);
        let mut lactic = vec![[0.0; 3]; uptake.len()];
        add_site(&mut lactic, &Site { amount: -1.0, pk: balance.lactic_pka, n: 1.0 }, balance.ph0);
        for node in &mut lactic {
            node[0] += 1.0;
        }
        let mut begin = Vec::with_capacity(ACID_ENTRIES);
        let mut cells = Vec::with_capacity(uptake.len());
        for (uptake, lactic) in uptake.windows(2).zip(lactic.windows(2)) {
            let cell = Cell::between([uptake[0], uptake[1]], [lactic[0], lactic[1]]);
            while begin.len() < ACID_ENTRIES && begin.len() as f64 * ACID_STEP < cell.acid[1] {
                begin.push(cells.len());
            }
            cells.push(cell);
        }
        Self { balance, cells, begin }
    }

    /// The exact balance behind the table.
    pub const fn balance(&self) -> &Balance {
        &self.balance
    }

    /// pH after so much lactic and acetic acid, mmol/kg.
    ///
    /// The residual of the exact balance is below 1e-9 mmol/kg; with no acid the answer is the start pH exactly.
    pub fn ph(&self, lactic: f64, acetic: f64) -> f64 {
        self.acidity(lactic, acetic).ph
    }

    /// pH as [`Self::ph`], with the undissociated lactic acid that comes out on the way.
    pub fn acidity(&self, lactic: f64, acetic: f64) -> Acidity {
        if lactic + acetic <= 0.0 {
            return Acidity { ph: self.balance.ph0, undissociated: 0.0 };
        }
        let mut x = self.first_guess(lactic + acetic);
        for _ in 0..8 {
            // Rounding may put what is next to the start pH above it.
            let Some(cell) = self.cells.get(x as usize).filter(|_| x > -1.0) else { break };
            let u = x - x.trunc();
            let (uptake, slope) = at(cell.uptake, u);
            let (alpha, alpha_slope) = at(cell.lactic, u);
            let mut residual = uptake - lactic * alpha;
            let mut steep = slope - lactic * alpha_slope;
            if acetic > 0.0 {
                let alpha = dissociated(self.balance.ph0 - x * STEP, self.balance.acetic_pka);
                residual -= acetic * alpha;
                steep += acetic * LN_10 * STEP * alpha * (1.0 - alpha);
            }
            let step = residual / steep;
            x -= step;
            if step.abs() < LAST_STEP {
                let undissociated = lactic * (1.0 - alpha + alpha_slope * step);
                return Acidity { ph: self.balance.ph0 - x * STEP, undissociated };
            }
        }
        let ph = self.balance.ph(lactic, acetic);
        Acidity { ph, undissociated: lactic * (1.0 - dissociated(ph, self.balance.lactic_pka)) }
    }

    /// Steps from the start pH as if all the acid were lactic.
    fn first_guess(&self, acid: f64) -> f64 {
        let entry = ((acid / ACID_STEP) as usize).min(self.begin.len().saturating_sub(1));
        let mut i = self.begin.get(entry).copied().unwrap_or(0);
        while self.cells.get(i).is_some_and(|cell| cell.acid[1] < acid) {
            i += 1;
        }
        let Some(cell) = self.cells.get(i) else { return i as f64 };
        let more = acid - cell.acid[0];
        let [a, b, c] = cell.guess;
        i as f64 + more * (a + more * (b + more * c))
    }
}

/// Uptake at the start pH and at each step below it.
fn uptakes(balance: &Balance) -> Vec<Node> {
    let last = 2.4_f64.min(balance.ph0 - 0.5);
    let count = ((balance.ph0 - last) / STEP).ceil() as usize + 1;
    let mut free = hydrogen(balance.ph0, balance.activity);
    let h0 = sites::bound(&balance.sites, balance.ph0) + free;
    let grows = (LN_10 * STEP).exp();
    let k = LN_10 * STEP;
    let mut nodes = Vec::with_capacity(count);
    for _ in 0..count {
        nodes.push([free - h0, k * free, 0.5 * k * k * free]);
        free *= grows;
    }
    for site in &balance.sites {
        add_site(&mut nodes, site, balance.ph0);
    }
    nodes
}

/// Adds one site to every node. `10^(n (pH − pK))` falls by a fixed factor from node to node.
fn add_site(nodes: &mut [Node], site: &Site, ph0: f64) {
    let mut x = (LN_10 * site.n * (ph0 - site.pk)).exp();
    let k = LN_10 * site.n * STEP;
    let factor = (-k).exp();
    for node in nodes {
        let share = 1.0 / (1.0 + x);
        let value = site.amount * share;
        let slope = k * value * (1.0 - share);
        node[0] += value;
        node[1] += slope;
        node[2] += 0.5 * k * slope * (1.0 - 2.0 * share);
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
