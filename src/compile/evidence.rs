//! A published case as a mix: the same path as a design, with what the source says in place of the pantry's figures.

use super::{Compiled, compile};
use crate::base::{Cited, Note, Source, SourceKind, Spread};
use crate::doc::evidence::{BaseAs, Pot};
use crate::doc::pantry::{Base, BaseKind, Culture, SugarShare, find};
use crate::doc::steps::{Reading, Step, Way};
use crate::doc::{Design, Kitchen, Learnt, Pantry, format};

/// What a fit may turn in a case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Knobs {
    /// Factor on the case's pace.
    pub speed: f64,
    /// Factor on its lag.
    pub lag: f64,
    /// Factor on its buffer.
    pub buffer: f64,
}

impl Knobs {
    /// The case as it stands.
    pub const NONE: Self = Self { speed: 1.0, lag: 1.0, buffer: 1.0 };
}

/// Key of the case's own culture in its design.
const CULTURE: &str = "case";

/// A design with one of each line, to be filled in: fields that a case has no word for keep their defaults.
const BLANK: &str = r#"(
    name: "case",
    bases: [(entry: "", litres: 1.0)],
    thickeners: [(entry: "", g_per_l: 0.0, mixed_first: true)],
    cultures: [(entry: "case", rate: 1.0)],
    steps: [start(from_c: 20.0), culture_in, hold((warmer: "heated_pot", set_c: 42.0, hours: 24.0))],
    style: set,
    pots: (vessel: "jar_1l", count: 1),
)"#;

/// The pantry entry that a case needs and the pantry lacks, if any.
#[must_use]
pub fn missing<'a>(pot: &'a Pot, pantry: &Pantry) -> Option<&'a str> {
    let base = pot.bases.iter().map(|b| &b.entry).find(|key| find(&pantry.bases, key).is_none());
    let organism =
        || pot.cells.iter().map(|c| &c.organism).find(|key| find(&pantry.organisms, key).is_none());
    let thickener =
        || pot.thickeners.iter().map(|(key, _)| key).find(|key| find(&pantry.thickeners, key).is_none());
    base.or_else(organism).or_else(thickener).map(String::as_str)
}

/// Compiles a case's pot with its hold at `hold_c` for `hours`, in a usual kitchen with its cold store as the fridge.
///
/// # Errors
/// A note if an entry is missing or the case cannot be a pot.
pub fn pot(pot: &Pot, hold_c: f64, knobs: &Knobs, pantry: &Pantry) -> Result<Compiled, Note> {
    let design = design(pot, hold_c, knobs, pantry)?;
    let kitchen = Kitchen { fridge_c: pot.store_c, ..Kitchen::default() };
    let compiled = compile(&design, pantry, &kitchen, &Learnt::default());
    if compiled.mix.is_none() {
        let why = compiled.notes.first().map_or_else(String::new, Note::line);
        return Err(Note::error("pot", format!("It does not compile: {why}"), "Mend the case"));
    }
    Ok(compiled)
}

/// A case's pot as a design, with what the source says in place of the pantry's figures.
///
/// # Errors
/// A note if an entry is missing.
pub fn design(pot: &Pot, hold_c: f64, knobs: &Knobs, pantry: &Pantry) -> Result<Design, Note> {
    let lack =
        |what: &str, key: &str| Note::error(what, format!("There is no {key}"), "Add it to the pantry");
    let mut design: Design = format::asset(BLANK)?;
    let line = design.bases.pop().ok_or_else(|| lack("bases", "line"))?;
    for (i, own) in pot.bases.iter().enumerate() {
        let entry = find(&pantry.bases, &own.entry).ok_or_else(|| lack("base", &own.entry))?;
        let mut base = entry.clone();
        base.key = format!("base_{i}");
        overrule(&mut base, own, knobs.buffer);
        let mut line = line.clone();
        line.entry.clone_from(&base.key);
        line.litres = own.litres;
        design.bases.push(line);
        design.snapshot.bases.push(base);
    }
    let thickener = design.thickeners.pop();
    for (key, g_per_l) in &pot.thickeners {
        let mut line = thickener.clone().ok_or_else(|| lack("thickeners", "line"))?;
        line.entry.clone_from(key);
        line.g_per_l = *g_per_l;
        design.thickeners.push(line);
    }
    if pot.cells.is_empty() {
        design.cultures.clear();
    } else {
        design.snapshot.cultures.push(culture(pot, knobs, pantry)?);
    }
    design.style = pot.style;
    design.pots.vessel.clone_from(&pot.vessel);
    // One pot of the stated amount: the blend is per kg, only the time constants go by it.
    let litres = design.litres();
    for line in &mut design.bases {
        line.litres *= pot.vessel_litres / litres;
    }
    if let Some(hold) = design.hold_mut() {
        hold.set_c = hold_c;
        hold.hours = pot.hours;
        // Laboratories hold their baths: the temperature is taken as told from the first minute.
        hold.measured = [0.0, pot.hours].map(|at_h| Reading { at_h, c: hold_c }).to_vec();
    }
    if let Some((to_c, minutes)) = pot.heat {
        design.steps.insert(1, Step::HeatTreat { to_c, minutes, way: Way::Pan });
        design.steps.insert(2, Step::Cool { to_c: hold_c, way: Way::ColdWater });
    }
    Ok(design)
}

/// Puts the source's own figures over the pantry's.
fn overrule(base: &mut Base, own: &BaseAs, buffer: f64) {
    let c = &mut base.composition;
    for cited in [&mut c.protein, &mut c.carbohydrate, &mut c.ash] {
        cited.v *= own.solids;
    }
    for share in &mut c.sugars {
        share.g_per_100g.v *= own.solids;
    }
    base.mean_buffer.v *= own.solids;
    base.start_acidity.v *= own.solids;
    for (figure, told) in [
        (&mut base.ph, own.ph),
        (&mut base.mean_buffer, own.mean_buffer),
        (&mut base.start_acidity, own.start_acidity),
        (&mut base.whey_denatured, own.whey_denatured),
        (&mut c.fat, own.fat),
        (&mut c.protein, own.protein),
        (&mut c.carbohydrate, own.carbohydrate),
        (&mut c.fibre, own.fibre),
        (&mut c.ash, own.ash),
    ] {
        figure.v = told.unwrap_or(figure.v);
    }
    if !own.sugars.is_empty() {
        let before: f64 = c.sugars.iter().map(|s| s.g_per_100g.v).sum();
        let now: f64 = own.sugars.iter().map(|(_, g)| g).sum();
        c.sugars = own
            .sugars
            .iter()
            .map(|(sugar, g)| SugarShare { sugar: *sugar, g_per_100g: told(*g, "g/100 g") })
            .collect();
        if own.carbohydrate.is_none() {
            c.carbohydrate.v = (c.carbohydrate.v + now - before).max(now);
        }
    }
    base.homogenised = own.homogenised.unwrap_or(base.homogenised);
    base.mean_buffer.v *= buffer;
}

fn told(v: f64, unit: &str) -> Cited {
    Cited {
        v,
        unit: unit.to_owned(),
        spread: Spread::Exact,
        group: String::new(),
        valid: String::new(),
        from: Source { kind: SourceKind::Published, text: "the case's own source".to_owned() },
    }
}

/// The case's culture: the pantry's dairy pair with the case's cells, pace and lag.
fn culture(pot: &Pot, knobs: &Knobs, pantry: &Pantry) -> Result<Culture, Note> {
    let lack = || Note::error("culture", "There is no dairy_pair to start from", "Add it to the pantry");
    let mut culture = find(&pantry.cultures, "dairy_pair").ok_or_else(lack)?.clone();
    culture.key = CULTURE.to_owned();
    let blank = culture.doses.first().ok_or_else(lack)?.clone();
    culture.doses = pot
        .cells
        .iter()
        .map(|cells| {
            let mut dose = blank.clone();
            dose.organism.clone_from(&cells.organism);
            dose.cfu_per_g.v = cells.cfu_per_g;
            dose
        })
        .collect();
    if let Some(speed) = pot.speed {
        culture.speed_dairy.v = speed.v;
        culture.speed_plant.v = speed.v;
    }
    if let Some(lag) = pot.lag {
        culture.lag_work.v = lag.v;
    }
    culture.speed_dairy.v *= knobs.speed;
    culture.speed_plant.v *= knobs.speed;
    culture.lag_work.v *= knobs.lag;
    culture.cold_acid = pot.cold;
    Ok(culture)
}

/// Sigmas of the logarithms of pace, lag and buffer before any reading: from the case, or from the pantry.
///
/// # Errors
/// A note if the pantry lacks an entry or a spread.
pub fn priors(pot: &Pot, pantry: &Pantry) -> Result<[f64; 3], Note> {
    let lack = |what: &str| Note::error(what, "There is no spread to take as prior", "Give the case its own");
    let sigma = |low: f64, high: f64| (high / low).ln() / (2.0 * 1.644_853_6);
    let of = |cited: &Cited, what: &str| {
        cited
            .spread
            .bounds()
            .filter(|(low, _)| *low > 0.0)
            .map(|(l, h)| sigma(l, h))
            .ok_or_else(|| lack(what))
    };
    let pair = find(&pantry.cultures, "dairy_pair").ok_or_else(|| lack("dairy_pair"))?;
    let base = pot.bases.first().and_then(|b| find(&pantry.bases, &b.entry)).ok_or_else(|| lack("base"))?;
    let speed = if base.kind == BaseKind::Dairy { &pair.speed_dairy } else { &pair.speed_plant };
    Ok([
        pot.speed.map_or_else(|| of(speed, "speed"), |p| Ok(sigma(p.low, p.high)))?,
        pot.lag.map_or_else(|| of(&pair.lag_work, "lag"), |p| Ok(sigma(p.low, p.high)))?,
        of(&base.mean_buffer, "buffer")?,
    ])
}
