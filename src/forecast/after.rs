//! What lactase does before the culture, and what is done to the pot after its hold.

use super::additions;
use super::blend::Blend;
use super::lookup::Lookup;
use super::timeline::Timeline;
use potset_base::{Note, number};
use potset_doc::steps::Step;
use potset_science::kinetics::lactase;
use potset_science::mix::After;
use potset_science::texture::{TextureInputs, finished};

/// Lactase that still works when the culture goes in, units/kg, and the sugars by then, mmol/kg.
///
/// # Errors
/// A note if the split cannot be computed.
pub fn lactase(look: &Lookup<'_>, blend: &Blend<'_>, time: &Timeline) -> Result<(f64, [f64; 8]), Note> {
    let law = &look.laws.lactase;
    let units = blend.additions.lactase_base;
    let sugars = lactase::after(units, blend.sugars, &time.before, blend.balance.ph0, law).map_err(|e| {
        Note::error(
            "additives",
            format!("The lactase before the hold could not be worked out: {e}"),
            "Lower the dose of lactase, or add it with the culture",
        )
    })?;
    let left = time
        .before
        .spans()
        .enumerate()
        .map(|(i, (from, to))| time.before.in_piece(i, from).max(time.before.in_piece(i, to)))
        .fold(1.0_f64, |left, c| left.min(lactase::kept(c, law)));
    Ok((units * left + blend.additions.lactase_culture, sugars))
}

/// What is done after the hold.
///
/// # Errors
/// A note if an entry is missing, or if more should run off than there is water.
pub fn after(look: &Lookup<'_>, blend: &Blend<'_>, texture: &TextureInputs) -> Result<After, Note> {
    let protein = texture.gelling_protein();
    let mut out = After::default();
    for step in &look.design.steps {
        match step {
            Step::Strain { removed: Some(share), .. } => out.strained = *share,
            Step::Strain { hours, removed: None } => {
                out.strained = finished::strained(protein, *hours, &look.laws.strain);
            }
            Step::Store { days, at_c } => (out.days, out.kept_c) = (*days, *at_c),
            _ => {}
        }
    }
    // Whey is water with what is dissolved in it: solids stay in the cloth.
    if out.strained >= blend.shares.water {
        return Err(Note::error(
            "steps",
            format!(
                "No more can run off than there is water: the mix holds {} %",
                number::fixed(100.0 * blend.shares.water, 0)
            ),
            "Strain less off, or put water in",
        ));
    }
    // It is stirred into what the cloth has left.
    let left_kg = blend.kg * (1.0 - out.strained);
    (out.stirred_in, out.sugars, out.acid) = additions::stirred_in(look, left_kg)?;
    Ok(out)
}
