//! What a maker measured, in the place of the pantry's figures: start pH, acidity and buffer of a base, cells of a culture.

use super::lookup::Lookup;
use super::sites::{balanced, held_sites, shape};
use potset_base::constants::LACTIC_G_MOL;
use potset_base::{Note, number};
use potset_doc::design::{BaseLine, CultureLine};
use potset_doc::measured::{Cells, Titration};
use potset_doc::pantry::{Base, Culture};
use potset_science::acid_base::charge_balance::dissociated;
use potset_science::acid_base::sites;

/// Least fall of pH in a titration that still tells a buffer. Source: assumed, several times what a meter is off by.
const LEAST_FALL: f64 = 0.3;

/// Buffers that a base can have, mmol/(kg pH): from hardly more than water to far above any concentrate. Source: assumed.
const BUFFERS: (f64, f64) = (0.2, 300.0);

/// pH of a base line as it goes into the pot: as measured, or as the pantry has it.
pub fn ph(line: &BaseLine, entry: &Base) -> f64 {
    line.measured.ph.map_or(entry.ph.value, |figure| figure.value)
}

/// Titratable acidity of a base line, % lactic acid.
pub fn start_acidity(line: &BaseLine, entry: &Base) -> f64 {
    line.measured.acidity.map_or(entry.start_acidity.value, |figure| figure.value)
}

/// Mean buffer of a base line from its titration, mmol/(kg pH); nothing where it was not titrated.
///
/// `b = (L α(pH) − U_0)/(U_1 − U_0)`: the acid that dissociates at the pH it came to is what the sites of the base take up,
/// and that grows with the buffer in a straight line; `U_0` without any and `U_1` with 1 mmol/(kg pH), the salts that the
/// base holds in both.
///
/// Source: derived, the charge balance solved for the buffer.
///
/// # Errors
/// A note if the pH hardly fell, or if no base takes up so little or so much.
pub fn buffer(look: &Lookup<'_>, i: usize, line: &BaseLine, entry: &Base) -> Result<Option<f64>, Note> {
    let Some(Titration { lactic_g_per_kg, to_ph, .. }) = line.measured.titration else { return Ok(None) };
    let ph0 = ph(line, entry);
    let refuse = |field: &str, title: String, sentence: String, mend: &str| {
        let field = format!("bases[{i}].measured.titration.{field}");
        Err(Note { sentence, ..Note::error(field, title, mend) })
    };
    if to_ph > ph0 - LEAST_FALL {
        return refuse(
            "to_ph",
            format!("The titration of {} does not show how much acid it takes", entry.name),
            format!("The titration went from pH {} to {}", number::fixed(ph0, 2), number::fixed(to_ph, 2)),
            "Put in acid until the pH is down by half a unit or more, or give the start pH too",
        );
    }
    let held = held_sites(look, entry, 1.0)?;
    let with = |mean: f64| -> Result<f64, Note> {
        let mut all = sites::scaled(&shape(look, &entry.buffer_shape)?, mean, 1.0);
        all.extend_from_slice(&held);
        Ok(balanced(look, all, ph0, entry.ionic_strength.value).uptake(to_ph))
    };
    let (none, one) = (with(0.0)?, with(1.0)?);
    let acid = lactic_g_per_kg * 1e3 / LACTIC_G_MOL * dissociated(to_ph, look.laws.acids.lactic_pka);
    let buffer = (acid - none) / (one - none);
    if (BUFFERS.0..=BUFFERS.1).contains(&buffer) {
        return Ok(Some(buffer));
    }
    let way = if buffer > BUFFERS.1 { "much" } else { "little" };
    refuse(
        "lactic_g_per_kg",
        format!("No base takes up so {way} acid as this titration of {} says", entry.name),
        format!(
            "{} g/kg from pH {} to {}",
            number::plain(lactic_g_per_kg),
            number::fixed(ph0, 2),
            number::fixed(to_ph, 2)
        ),
        "Check the acid (pure, per kg of the base) and both pH values",
    )
}

/// Factor on the counts of a culture's entry that makes them those that were counted; nothing where nobody counted.
///
/// Source: derived, cells are neither lost nor made on the way from the packet into `kg` of mix.
pub fn count_factor(look: &Lookup<'_>, line: &CultureLine, entry: &Culture, kg: f64) -> Option<f64> {
    let litres = look.design.litres();
    // At the packet's own rate, in the whole pot.
    let cells = match line.measured.count?.cells {
        Cells::PerGram(cfu) => cfu * line.grams_per_litre(entry) * litres,
        Cells::InPacket { cfu, litres: packet } => cfu * litres / packet,
    };
    let shipped: f64 = entry.doses.iter().map(|dose| dose.cfu_per_g.value).sum();
    (shipped > 0.0).then(|| cells / (kg * 1e3) / shipped)
}
