//! Who eats which sugar, and what becomes of it.

use super::Organism;
use potset_base::Sugar;

/// Uptake of the sugars of the pot by one organism: the rate factor, and each sugar's share.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Uptake {
    /// The largest of the weighted Monod terms, 0 to 1.
    pub factor: f64,
    /// Weighted Monod term of each sugar.
    pub terms: [f64; 8],
    /// Their sum.
    pub total: f64,
}

/// Monod terms of the sugars of the pot: `S/(S + Ks)`; organisms with the same Ks share them.
///
/// - `have` — mmol/kg of each sugar.
pub fn monod(have: &[f64; 8], half_saturation: f64, present: &[usize]) -> [f64; 8] {
    let mut out = [0.0; 8];
    for &s in present {
        let amount = have[s].max(0.0);
        out[s] = amount / (amount + half_saturation);
    }
    out
}

/// `γ_S = max_s w_s S/(S + Ks)`; each sugar's share of the uptake goes as its term.
///
/// - `monod` — see [`monod`], `present` — places of the sugars that are in the pot.
/// - Source: published form, Monod 1949, Annu Rev Microbiol 3:371; weights in the pantry.
pub fn uptake(organism: &Organism, monod: &[f64; 8], present: &[usize]) -> Uptake {
    let mut out = Uptake::default();
    for &s in present {
        let weight = organism.eats[s];
        if weight > 0.0 {
            let term = weight * monod[s];
            out.terms[s] = term;
            out.total += term;
            out.factor = out.factor.max(term);
        }
    }
    out
}

/// Hexose units of one molecule that this organism uses: all of them, less the galactose of lactose that it lets go.
pub fn used_hexoses(sugar: Sugar, galactose_released: f64) -> f64 {
    match sugar {
        Sugar::Lactose => 2.0 - galactose_released,
        other => other.hexoses(),
    }
}

/// Lactic acid from one molecule of a sugar, mol/mol. Lactose with its galactose let go gives 2, sucrose 4.
///
/// Source: derived, mass balance of homolactic and bifid fermentation with hydrolysis water; cell mass neglected.
pub fn lactic_per_molecule(organism: &Organism, sugar: Sugar) -> f64 {
    organism.lactic_per_hexose * used_hexoses(sugar, organism.galactose_released)
}
