//! Proton-binding sites of what goes in.

use crate::additions::Additions;
use crate::lookup::Lookup;
use potset_base::Note;
use potset_doc::pantry::{Additive, Base, BufferShape};
use potset_science::acid_base::activity::davies;
use potset_science::acid_base::charge_balance::Brought;
use potset_science::acid_base::{Balance, Site};

pub(super) fn shape(look: &Lookup<'_>, key: &str) -> Result<Vec<Site>, Note> {
    Ok(look
        .entry::<BufferShape>(key)?
        .sites
        .iter()
        .map(|s| Site { amount: s.amount.value, pk: s.pk.value, n: s.n.value })
        .collect())
}

/// Sites of the salts that a base holds as bought, by its share of the mix.
pub(super) fn held_sites(look: &Lookup<'_>, base: &Base, share: f64) -> Result<Vec<Site>, Note> {
    let mut held = Additions::default();
    for salt in &base.holds {
        held.take(look.entry::<Additive>(&salt.additive)?, salt.g_per_kg.value * share, false);
    }
    let Brought { sites, .. } = held.brought;
    Ok(sites)
}

pub(super) fn balanced(look: &Lookup<'_>, sites: Vec<Site>, ph0: f64, ionic_strength: f64) -> Balance {
    Balance {
        sites,
        ph0,
        activity: davies(ionic_strength),
        lactic_pka: look.laws.acids.lactic_pka,
        acetic_pka: look.laws.acids.acetic_pka,
    }
}
