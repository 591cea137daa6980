//! What the hygiene of a pot hangs on before anything is forecast: where the base comes from, what heat it saw, how long it
//! stood, and what is planned after the hold.

use super::blend::{Blend, Part};
use super::lookup::Lookup;
use super::timeline::Timeline;
use potset_base::choices;
use potset_doc::Design;
use potset_doc::pantry::{BaseKind, Culture, Form, Sterility, find};
use potset_doc::steps::{Step, Way};
use potset_science::Mix;
use potset_science::params::{HygieneLaw, Laws};
use potset_science::thermal::Course;

choices! {
    /// The row of the cautions on souring that holds for a pot kept at its warmth.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
    pub enum Souring: key {
        /// A tinned, long-life or boiled base.
        #[default]
        Canned => "canned",
        /// Pasteurised or heated milk with a culture that likes it cool.
        Mesophilic => "mesophilic",
        /// Pasteurised or heated milk.
        Dairy => "dairy",
        /// All else.
        Strict => "strict",
    }
}

/// Facts for the judge of hygiene.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HygieneFacts {
    /// Temperature before the culture, h from the first step.
    pub before: Course,
    /// When the packs are opened, h on that course.
    pub opened_h: f64,
    /// Until when it stands and is not worked on, h on that course: what comes after brings it to the culture.
    pub stood_until_h: f64,
    /// °C before anything is done.
    pub start_c: f64,
    /// pH of the bases as bought, by weight.
    pub base_ph: f64,
    /// The pot is for frail eaters.
    pub frail: bool,
    pub souring: Souring,
    /// Fresh coconut and raw nuts that are not boiled, by name.
    pub raw: Vec<String>,
    /// Raw milk that is not heated enough, by name.
    pub raw_milk: Vec<String>,
    /// A culture saved from the last pot in a plant base.
    pub saved_culture: bool,
    /// The base is milk alone: no upper limit of warmth is told for its row.
    pub all_dairy: bool,
    /// Whether the plan has a chill step.
    pub chills: bool,
    /// Planned store: days and °C.
    pub store: Option<(f64, f64)>,
}

/// Collects the facts.
pub fn facts(look: &Lookup<'_>, blend: &Blend<'_>, timeline: &Timeline, mix: &Mix) -> HygieneFacts {
    let law = &look.laws.hygiene;
    let before = &timeline.before;
    let steps = &look.design.steps;
    let saved_culture = saved_culture(look) && blend.dairy < 0.5;
    let mut souring = blend.parts.iter().map(|p| row_of(look, p, before)).max().unwrap_or_default();
    let all_dairy = blend.parts.iter().all(|p| matches!(p.entry.kind, BaseKind::Dairy | BaseKind::Water));
    if saved_culture {
        souring = Souring::Strict;
    } else if souring == Souring::Dairy && all_dairy && likes_it_cool(mix, look.laws) {
        souring = Souring::Mesophilic;
    }
    let named = |of: &dyn Fn(&Part<'_>) -> bool| {
        blend.parts.iter().filter(|p| of(p)).map(|p| p.entry.name.clone()).collect()
    };
    let start_c =
        steps.iter().find_map(|s| if let Step::Start { from_c } = s { Some(*from_c) } else { None });
    HygieneFacts {
        opened_h: opened_h(look.design, blend, timeline),
        stood_until_h: stood_until_h(look.design, timeline),
        start_c: start_c.unwrap_or(look.kitchen.room_c),
        base_ph: blend.parts.iter().map(|p| p.ph * p.kg / blend.kg).sum(),
        frail: look.design.goals.frail_eaters,
        souring,
        raw: named(&|p| raw(look, p) && !boiled(p.entry.kind, before, law)),
        raw_milk: named(&|p| {
            p.entry.kind == BaseKind::Dairy
                && sterility(look, p) == Sterility::Fresh
                && !pasteurised(before, law)
        }),
        saved_culture,
        all_dairy,
        chills: steps.iter().any(|s| matches!(s, Step::Chill { .. })),
        store: steps
            .iter()
            .find_map(|s| if let Step::Store { days, at_c } = s { Some((*days, *at_c)) } else { None }),
        before: before.clone(),
    }
}

/// How sterile a base comes: by the design's own copy or by the pantry's entry, whichever is the more careful.
fn sterility(look: &Lookup<'_>, part: &Part<'_>) -> Sterility {
    let shipped = find(&look.pantry.bases, &part.entry.key).map(|b| b.sterility);
    shipped.map_or(part.entry.sterility, |shipped| shipped.max(part.entry.sterility))
}

/// Fresh coconut or raw nuts.
fn raw(look: &Lookup<'_>, part: &Part<'_>) -> bool {
    sterility(look, part) == Sterility::Fresh && matches!(part.entry.kind, BaseKind::Coconut | BaseKind::Nut)
}

/// The row of one base; water has none of its own.
fn row_of(look: &Lookup<'_>, part: &Part<'_>, before: &Course) -> Souring {
    let law = &look.laws.hygiene;
    match (part.entry.kind, sterility(look, part)) {
        (BaseKind::Water, _) => Souring::Canned,
        (BaseKind::Dairy, Sterility::Canned | Sterility::Pasteurised) => Souring::Dairy,
        (BaseKind::Dairy, Sterility::Fresh) if pasteurised(before, law) => Souring::Dairy,
        (BaseKind::Dairy, Sterility::Fresh) => Souring::Strict,
        (_, Sterility::Canned) => Souring::Canned,
        (kind, _) if boiled(kind, before, law) => Souring::Canned,
        _ => Souring::Strict,
    }
}

/// Whether the base was boiled, by what counts as that for its kind.
fn boiled(kind: BaseKind, before: &Course, law: &HygieneLaw) -> bool {
    let least_c = if kind == BaseKind::Coconut { law.boiled_coconut_c } else { law.boiled_c };
    // A step that keeps exactly this warmth counts.
    let level = least_c - 1e-6;
    let warm = |(from, to): &(f64, f64)| before.at(0.5 * (from + to)) >= level;
    let hours: f64 = before.cut_at(&[level]).iter().filter(|s| warm(s)).map(|(from, to)| to - from).sum();
    hours * 60.0 >= law.boiled_min - 1e-6
}

/// Whether the base saw the heat of pasteurising before the culture.
fn pasteurised(before: &Course, law: &HygieneLaw) -> bool {
    let spans = before.cut_at(&[law.hot_c]);
    spans.iter().map(|span| pasteurising(before, *span, law)).sum::<f64>() >= 1.0
}

/// Heat of a span in units of pasteurising: 1 and more is enough.
///
/// `∫ 10^((T − Tp)/z) dt / tp`, by the middle of short pieces. Source: derived, see `hygiene.pasteurised_z_c`.
pub fn pasteurising(course: &Course, (from, to): (f64, f64), law: &HygieneLaw) -> f64 {
    const PIECES: u32 = 24;
    let step = (to - from) / f64::from(PIECES);
    let at = |k: u32| course.at(from + (f64::from(k) + 0.5) * step);
    let rate = |c: f64| {
        if c < law.hot_c { 0.0 } else { 10.0_f64.powf((c - law.pasteurised_c) / law.pasteurised_z_c) }
    };
    (0..PIECES).map(|k| rate(at(k))).sum::<f64>() * step * 3600.0 / law.pasteurised_s
}

/// Whether a culture saved from the last pot goes in.
fn saved_culture(look: &Lookup<'_>) -> bool {
    let from_pot = |key: &str| look.entry::<Culture>(key).is_ok_and(|c| c.form == Form::BackSlop);
    look.design.cultures.iter().any(|line| line.rate > 0.0 && from_pot(&line.entry))
}

/// Whether every organism of the culture does best below the warmth that the strict row asks for.
fn likes_it_cool(mix: &Mix, laws: &Laws) -> bool {
    !mix.organisms.is_empty() && mix.organisms.iter().all(|o| o.temperature[1] < laws.ready.cold_below_c)
}

/// When the last stand before the culture ends.
fn stood_until_h(design: &Design, timeline: &Timeline) -> f64 {
    let before = design.steps.iter().take(timeline.steps.len());
    let stood = before.enumerate().filter(|(_, s)| matches!(s, Step::Stand { .. })).map(|(i, _)| i + 1);
    timeline.steps.iter().take(stood.max().unwrap_or(0)).map(|s| s.hours).sum()
}

/// When the packs are opened: commercially sterile ones stay closed while they are warmed in water.
fn opened_h(design: &Design, blend: &Blend<'_>, timeline: &Timeline) -> f64 {
    let closed = |p: &Part<'_>| p.entry.sterility == Sterility::Canned || p.entry.kind == BaseKind::Water;
    if !blend.parts.iter().all(closed) {
        return 0.0;
    }
    let in_water =
        |s: &&Step| matches!(s, Step::Start { .. } | Step::Warm { way: Way::TapWater | Way::Bath, .. });
    let sealed = design.steps.iter().take_while(in_water).count();
    timeline.steps.iter().take(sealed).map(|s| s.hours).sum()
}
