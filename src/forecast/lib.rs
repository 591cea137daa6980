//! The only place that knows both the document and the model: design, pantry, kitchen and what was learnt become a mix.

pub mod acting;
pub mod additions;
pub mod after;
pub mod blend;
pub mod content;
pub mod cultures;
pub mod evidence;
pub mod facts;
pub mod flask;
pub mod hygiene;
pub mod learnt;
pub mod lever;
pub mod lookup;
pub mod measured;
pub mod measured_readings;
pub mod numbers;
pub mod observable;
pub mod params;
pub mod place;
pub mod scenario;
mod sites;
pub mod thickeners;
pub mod timeline;

use std::sync::Arc;

pub use facts::Facts;

use potset_base::units;
use potset_base::{Note, Sugar};
use potset_doc::{Design, Kitchen, Learnt, Pantry, check};
use potset_science::Mix;
use potset_science::params::Laws;
use scenario::Scenario;

/// What a design compiles to: a mix where that is possible, facts about it, and notes.
#[derive(Clone, Debug, Default)]
pub struct Compiled {
    pub mix: Option<Mix>,
    pub facts: Facts,
    pub notes: Vec<Note>,
}

/// Compiles a design. The same four arguments give the same mix.
///
/// There is no mix if the design has faults (out of range, steps out of order, entries missing); the notes name them.
pub fn compile(design: &Design, pantry: &Pantry, kitchen: &Kitchen, learnt: &Learnt) -> Compiled {
    match params::shipped() {
        Ok(params) => compile_with(&Scenario { design, pantry, kitchen, learnt }, &Arc::new(params.laws())),
        Err(note) => Compiled { notes: vec![note.clone()], ..Compiled::default() },
    }
}

/// As [`compile`], with laws of the caller's: for studies that move a parameter.
pub fn compile_with(scenario: &Scenario<'_>, laws: &Arc<Laws>) -> Compiled {
    let _speaking = units::speak(scenario.kitchen.units());
    let mut notes = check::faults(scenario.design);
    notes.extend(check::missing_entries(scenario.design, scenario.pantry));
    if !notes.is_empty() {
        return Compiled { notes, ..Compiled::default() };
    }
    match learnt::placed(scenario, laws) {
        Some(placed) => placed.compile(scenario.pantry),
        None => compile_drawn(scenario, laws),
    }
}

/// As [`compile_with`], for one of many pots drawn about a design that is in order: what is spooned or weighed may come
/// out beyond what can be typed. What cannot be a pot is still told. What pots taught is in the drawn figures already.
pub fn compile_drawn(scenario: &Scenario<'_>, laws: &Arc<Laws>) -> Compiled {
    // On whatever thread: many pots are compiled side by side.
    let _speaking = units::speak(scenario.kitchen.units());
    let mut notes = Vec::new();
    let Scenario { design, pantry, kitchen, .. } = *scenario;
    let look = lookup::Lookup { design, pantry, kitchen, laws };
    match build(&look, Arc::clone(laws), &mut notes) {
        Ok((mix, facts)) => Compiled { mix: Some(mix), facts, notes },
        Err(note) => {
            notes.push(note);
            Compiled { notes, ..Compiled::default() }
        }
    }
}

fn build(look: &lookup::Lookup<'_>, laws: Arc<Laws>, notes: &mut Vec<Note>) -> Result<(Mix, Facts), Note> {
    let blend = blend::blend(look)?;
    let timeline = timeline::timeline(look, &blend, notes)?;
    let (lactase, sugars) = after::lactase(look, &blend, &timeline)?;
    let sugar_g_kg: f64 = Sugar::ALL.iter().map(|s| blend.sugars[s.index()] * s.g_mol() * 1e-3).sum();
    let held = additions::inhibitors(&blend.additions, blend.shares.water, sugar_g_kg);
    let living = cultures::cultures(look, &blend, &held)?;
    let texture = thickeners::texture(look, &blend, &timeline, living.ropy)?;
    let after = after::after(look, &blend, &texture)?;
    let mix = Mix {
        organisms: living.organisms,
        sugars,
        added_g_l: blend.added_g_l,
        balance: blend.balance.clone(),
        carried: [living.carried + blend.additions.acids[0], blend.additions.acids[1]],
        lactase,
        gassing: blend.additions.gassing.clone(),
        water: blend.shares.water,
        start_acidity: blend.start_acidity,
        density: blend.density,
        course: timeline.hold.clone(),
        additions: living.additions,
        texture,
        chill: timeline.chill,
        after,
        stop_h: timeline.stop_h,
        horizon_h: timeline.horizon_h,
        laws,
    };
    let content = content::content(look, &blend)?;
    let hygiene = hygiene::facts(look, &blend, &timeline, &mix);
    let facts =
        Facts { content, hygiene, ..facts::facts(look, &blend, timeline, &mix, (living.doses, living.lost)) };
    Ok((mix, facts))
}
