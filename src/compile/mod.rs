//! The only place that knows both the document and the model: design, pantry, kitchen and what was learnt become a mix.

pub mod blend;
pub mod cultures;
pub mod evidence;
pub mod facts;
pub mod lookup;
pub mod params;
pub mod thickeners;
pub mod timeline;

use std::sync::Arc;

pub use facts::Facts;

use crate::base::Note;
use crate::doc::{Design, Kitchen, Learnt, Pantry, check};
use crate::science::Mix;

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
#[must_use]
pub fn compile(design: &Design, pantry: &Pantry, kitchen: &Kitchen, learnt: &Learnt) -> Compiled {
    let mut notes = check::faults(design);
    notes.extend(check::missing_entries(design, pantry));
    if !notes.is_empty() {
        return Compiled { notes, ..Compiled::default() };
    }
    let params = match params::shipped() {
        Ok(params) => params,
        Err(note) => return Compiled { notes: vec![note.clone()], ..Compiled::default() },
    };
    let laws = Arc::new(params.laws());
    let look = lookup::Lookup { design, pantry, kitchen, learnt, laws: &laws };
    match build(&look, Arc::clone(&laws), &mut notes) {
        Ok((mix, facts)) => Compiled { mix: Some(mix), facts, notes },
        Err(note) => {
            notes.push(note);
            Compiled { notes, ..Compiled::default() }
        }
    }
}

fn build(
    look: &lookup::Lookup<'_>,
    laws: Arc<crate::science::params::Laws>,
    notes: &mut Vec<Note>,
) -> Result<(Mix, Facts), Note> {
    let blend = blend::blend(look)?;
    let timeline = timeline::timeline(look, &blend, notes)?;
    let (organisms, additions, doses) = cultures::cultures(look, &blend)?;
    let texture = thickeners::texture(look, &blend, &timeline)?;
    let cold = timeline.hold.lowest_until(timeline.stop_h) < laws.ready.cold_below_c;
    let caution = timeline::caution_row(look, &blend, cold);
    let mix = Mix {
        organisms,
        sugars: blend.sugars,
        added_g_l: blend.added_g_l,
        balance: blend.balance.clone(),
        start_acidity: blend.start_acidity,
        density: blend.density,
        course: timeline.hold.clone(),
        additions,
        texture,
        chill: timeline.chill,
        stop_h: timeline.stop_h,
        horizon_h: timeline.horizon_h,
        caution,
        laws,
    };
    let facts = facts::facts(look, &blend, timeline, &mix, doses, cold);
    Ok((mix, facts))
}
