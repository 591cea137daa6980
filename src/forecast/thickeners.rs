//! Thickeners and handling as the texture laws see them.

use super::blend::Blend;
use super::lookup::Lookup;
use super::timeline::Timeline;
use potset_base::Note;
use potset_base::words::Style;
use potset_doc::design::{Disturbed, GoesIn, ThickenerLine};
use potset_doc::pantry::{Action, Need, Thickener};
use potset_doc::steps::Happening;
use potset_science::params::GelLaw;
use potset_science::texture::inputs::{Activated, Agent, AgentKind, Handling, Heat, TextureInputs};
use potset_science::texture::pot::MOST_AGENTS;
use potset_science::texture::{activation, whey_protein};

/// Everything that the texture laws need.
///
/// # Errors
/// A note if a thickener is missing.
pub fn texture(
    look: &Lookup<'_>,
    blend: &Blend<'_>,
    timeline: &Timeline,
    ropy: f64,
) -> Result<TextureInputs, Note> {
    let laws = look.laws;
    let own = own_starch(look, blend);
    let lines: Vec<&ThickenerLine> = look.design.thickeners.iter().chain(&own).collect();
    if lines.len() > MOST_AGENTS {
        return Err(Note::error(
            "thickeners",
            format!("The pot would hold {} thickeners", lines.len()),
            format!("Keep it to {MOST_AGENTS}"),
        ));
    }
    let agents = lines
        .iter()
        .map(|line| Ok(agent(look, line, look.entry::<Thickener>(&line.entry)?, blend, timeline)))
        .collect::<Result<Vec<_>, Note>>()?;
    let synergies = synergies(look, &lines)?;
    let fat_density =
        blend.plant_fat * laws.fat.coconut_density + (1.0 - blend.plant_fat) * laws.fat.milk_density;
    let stirred_at = look
        .design
        .hold()
        .into_iter()
        .flat_map(|hold| &hold.events)
        .filter(|e| matches!(e.what, Happening::Stir | Happening::Move { .. }))
        .map(|e| e.at_h)
        .collect();
    let hottest = timeline.before.spans().enumerate().fold(timeline.culture_in_c, |hot, (i, (from, to))| {
        hot.max(timeline.before.in_piece(i, from)).max(timeline.before.in_piece(i, to))
    });
    let heat = whey_protein::integral_for(blend.whey_denatured)
        + whey_protein::integral(&timeline.before, &laws.whey);
    Ok(TextureInputs {
        dairy_protein: blend.dairy_protein * 100.0,
        soy_protein: blend.soy_protein * 100.0,
        pea_protein: blend.pea_protein * 100.0,
        nut_protein: blend.nut_protein * 100.0,
        gel_strength: blend.gel_strength,
        calcium: blend.calcium,
        ropy,
        fat: blend.fat * 100.0,
        fat_volume: blend.fat * blend.density / fat_density,
        plant_fat: blend.plant_fat,
        coconut_fat: blend.coconut_fat,
        homogenised: blend.homogenised,
        dairy: blend.dairy,
        droplet_um: blend.droplet_um,
        height_mm: height_mm(look.design.litres() / f64::from(look.design.pots.count.max(1))),
        agents,
        synergies,
        heat: Heat { whey_integral: heat, hottest_c: hottest },
        handling: handling(look.design.disturbed, look.design.style),
        rougher: (Handling::Spooned, 0.0),
        set_style: look.design.style == Style::Set,
        stirred_at,
        left_out: 1.0,
        cold_days: timeline.chill.hours / 24.0,
        chilled_c: timeline.chill.to_c,
    })
}

/// Height of so many litres in a jar as wide as it is high, mm. Source: assumed shape.
fn height_mm(litres: f64) -> f64 {
    (4.0 * litres.max(1e-3) / std::f64::consts::PI).cbrt() * 100.0
}

/// The bases' own starch as thickener lines that go in with the base, without lumps.
fn own_starch(look: &Lookup<'_>, blend: &Blend<'_>) -> Vec<ThickenerLine> {
    blend
        .parts
        .iter()
        .filter_map(|part| {
            let entry = part.entry.own_starch.clone()?;
            let grams = part.kg * part.entry.composition.starch.value * 10.0;
            let g_per_l = grams / look.design.litres();
            Some(ThickenerLine::new(entry, g_per_l, true))
        })
        .filter(|line| line.g_per_l > 0.0)
        .collect()
}

/// Pairs of thickeners that do more together.
fn synergies(look: &Lookup<'_>, lines: &[&ThickenerLine]) -> Result<Vec<(usize, usize, f64)>, Note> {
    let mut out = Vec::new();
    for (a, line) in lines.iter().enumerate() {
        for synergy in &look.entry::<Thickener>(&line.entry)?.synergies {
            let others = lines.iter().enumerate().skip(a + 1);
            let with = others.filter(|(_, l)| l.entry == synergy.with);
            out.extend(with.map(|(b, _)| (a, b, synergy.factor.value)));
        }
    }
    Ok(out)
}

/// Handling: what the maker says, or what the style cannot do without.
fn handling(disturbed: Disturbed, style: Style) -> Handling {
    let said = match disturbed {
        Disturbed::SpoonOnly => Handling::Spooned,
        Disturbed::StirredByHand => Handling::Stirred,
        Disturbed::Worked => Handling::Worked,
        Disturbed::Blended => Handling::Blended,
    };
    match (style, said) {
        (Style::Stirred, Handling::Spooned) => Handling::Stirred,
        (Style::Strained, Handling::Spooned | Handling::Stirred) => Handling::Worked,
        (Style::Drinking, _) => Handling::Blended,
        _ => said,
    }
}

fn agent(
    look: &Lookup<'_>,
    line: &ThickenerLine,
    entry: &Thickener,
    blend: &Blend<'_>,
    time: &Timeline,
) -> Agent {
    let lumps = if line.mixed_first { 0.0 } else { entry.lumps.value };
    let (kind, swelling, consistency, stiffness) = kind(entry, blend, &look.laws.gel);
    Agent {
        key: entry.key.clone(),
        name: entry.name.clone(),
        kind,
        dose: line.g_per_l * look.design.litres() / blend.litres * (1.0 - lumps),
        swelling,
        consistency,
        stiffness,
        whey_efold: entry.whey_efold.value,
        weeps_per_day: entry.weeps_per_day.as_ref().map_or(0.0, |w| w.value),
        before: before(look, line, &kind, time),
    }
}

fn kind(entry: &Thickener, blend: &Blend<'_>, gel: &GelLaw) -> (AgentKind, f64, f64, f64) {
    match &entry.action {
        Action::ColdStarch { swelling, consistency, stiffness, swelling_min } => (
            AgentKind::ColdStarch { swelling_h: swelling_min.value / 60.0 },
            swelling.value,
            consistency.value,
            stiffness.value,
        ),
        Action::CookStarch { swelling, consistency, stiffness, onset_c, peak_c, end_c, full_c } => (
            AgentKind::CookStarch {
                onset_c: onset_c.value,
                peak_c: peak_c.value,
                end_c: end_c.value,
                full_c: full_c.value,
                overcooks_c: entry.overcooks_c.as_ref().map_or(f64::INFINITY, |c| c.value),
            },
            swelling.value,
            consistency.value,
            stiffness.value,
        ),
        Action::Gum { consistency, exponent, index, index_fall, dissolve_c } => (
            AgentKind::Gum {
                consistency: consistency.value,
                exponent: exponent.value,
                index: index.value,
                index_fall: index_fall.value,
                dissolve_c: dissolve_c.value,
            },
            0.0,
            0.0,
            0.0,
        ),
        // Protein powder has joined the protein of the blend already.
        Action::Protein { .. } => (AgentKind::Filler { per_g_l: 0.0 }, 0.0, 0.0, 0.0),
        Action::Filler { per_g_l } => (AgentKind::Filler { per_g_l: per_g_l.value }, 0.0, 0.0, 0.0),
        Action::Gel {
            stiffness_pa,
            reference_g_l,
            exponent,
            least_g_l,
            dissolve_c,
            set_c,
            melt_c,
            after_stirring,
            needs,
            left_at_ph4,
        } => (
            AgentKind::Gel {
                stiffness_pa: stiffness_pa.value,
                reference_g_l: reference_g_l.value,
                exponent: exponent.value,
                least_g_l: least_g_l.value,
                dissolve_c: dissolve_c.value,
                set_c: set_c.value,
                melt_c: melt_c.value,
                after_stirring: after_stirring.value,
                supplied: needs.as_ref().map_or(1.0, |(need, least)| {
                    let there = match need {
                        Need::Calcium => blend.calcium / gel.calcium_enough,
                        Need::MilkProtein => blend.dairy_protein * 100.0 / gel.protein_reference,
                    };
                    least.value + (1.0 - least.value) * there.clamp(0.0, 1.0)
                }),
                left_at_ph4: left_at_ph4.as_ref().map_or(1.0, |l| l.value),
            },
            0.0,
            0.0,
            0.0,
        ),
    }
}

/// What heat and time did to a thickener before the culture was stirred in.
fn before(look: &Lookup<'_>, line: &ThickenerLine, kind: &AgentKind, time: &Timeline) -> Activated {
    if line.goes_in == GoesIn::WithTheCulture {
        return Activated::default();
    }
    let law = &look.laws.starch;
    let mut state = activation::through(kind, &time.before, law);
    if let Some(part) = &time.cooked_part {
        let cooked = activation::through(kind, part, law);
        state.share = state.share.max(cooked.share);
        state.swelling_h += cooked.swelling_h;
    }
    // The stir that brings the culture in breaks what has set by then.
    state.broken = match kind {
        AgentKind::Gel { .. } => state.share * activation::set_at(kind, time.culture_in_c, time.culture_in_c),
        _ => 0.0,
    };
    state
}
