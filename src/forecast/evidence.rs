//! A published case as a mix: the same path as a design, with what the source says in place of the pantry's figures.

use super::{Compiled, compile};
use potset_base::measures::Measure;
use potset_base::{Cited, Note, Source, SourceKind, Spread};
use potset_doc::evidence::{BaseAs, Pot, Prior};
use potset_doc::pantry::{Base, BaseKind, Culture, SugarShare, all_sugars, find};
use potset_doc::steps::{Reading, Step, Way};
use potset_doc::{Design, Kitchen, Learnt, Pantry, format};

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
pub fn missing<'a>(pot: &'a Pot, pantry: &Pantry) -> Option<&'a str> {
    let base = pot.bases.iter().map(|b| &b.entry).find(|key| find(&pantry.bases, key).is_none());
    let organism =
        || pot.cells.iter().map(|c| &c.organism).find(|key| find(&pantry.organisms, key).is_none());
    let thickener =
        || pot.thickeners.iter().map(|(key, _)| key).find(|key| find(&pantry.thickeners, key).is_none());
    base.or_else(organism).or_else(thickener).map(String::as_str)
}

/// The laboratory of a case: it weighs exactly, its cold store is the fridge, and its thermometer is off by what is not
/// known of the hold temperature.
pub fn laboratory(pot: &Pot) -> Kitchen {
    Kitchen {
        fridge_c: pot.store_c,
        thermometer_c: pot.hold_within_c,
        scale_step_g: 0.0,
        scale_repeat_g: 0.0,
        ..Kitchen::default()
    }
}

/// Compiles a case's pot with its hold at `hold_c` for `hours`, in its laboratory.
///
/// # Errors
/// A note if an entry is missing or the case cannot be a pot.
pub fn pot(pot: &Pot, hold_c: f64, knobs: &Knobs, pantry: &Pantry) -> Result<Compiled, Note> {
    let design = design(pot, hold_c, knobs, pantry)?;
    let compiled = compile(&design, pantry, &laboratory(pot), &Learnt::default());
    if compiled.mix.is_none() {
        let why = compiled.notes.first().map_or_else(String::new, Note::line);
        return Err(Note::error("pot", format!("The case cannot be worked out: {why}"), "Mend the case"));
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
        line.measure = Measure::Gram;
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
    hold_at(&mut design, hold_c, pot.hours);
    if let Some((to_c, minutes)) = pot.heat {
        design.steps.insert(1, Step::HeatTreat { to_c, minutes, way: Way::Pan });
        design.steps.insert(2, Step::Cool { to_c: hold_c, way: Way::ColdWater });
    }
    Ok(design)
}

/// Sets a design's hold. Laboratories hold their baths: the temperature is taken as told from the first minute.
pub fn hold_at(design: &mut Design, hold_c: f64, hours: f64) {
    if let Some(hold) = design.hold_mut() {
        hold.set_c = hold_c;
        hold.hours = hours;
        hold.measured = [0.0, hours].map(|at_h| Reading { at_h, c: hold_c }).to_vec();
    }
}

/// Puts the source's own figures over the pantry's. What it tells has no spread left; what it scales keeps its own in
/// proportion.
fn overrule(base: &mut Base, own: &BaseAs, buffer: f64) {
    let c = &mut base.composition;
    for cited in [&mut c.protein, &mut c.carbohydrate, &mut c.ash] {
        scale(cited, own.solids);
    }
    for share in &mut c.sugars {
        scale(&mut share.g_per_100g, own.solids);
    }
    scale(&mut base.mean_buffer, own.solids);
    scale(&mut base.start_acidity, own.solids);
    for (figure, said) in [
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
        if let Some(v) = said {
            *figure = own_figure(v, &figure.unit);
        }
    }
    if !own.sugars.is_empty() {
        let before = all_sugars(&c.sugars);
        let now: f64 = own.sugars.iter().map(|(_, g)| g).sum();
        let cited = |g: f64| within(own_figure(g, "g/100 g"), own.sugars_within, "case sugars");
        c.sugars =
            own.sugars.iter().map(|(sugar, g)| SugarShare { sugar: *sugar, g_per_100g: cited(*g) }).collect();
        if own.carbohydrate.is_none() {
            shift(&mut c.carbohydrate, now - before, now);
        }
    }
    base.homogenised = own.homogenised.unwrap_or(base.homogenised);
    scale(&mut base.mean_buffer, buffer);
}

fn own_figure(v: f64, unit: &str) -> Cited {
    Cited::new(v, unit, SourceKind::Published, "the case's own source")
}

/// A figure that its case assumes: known to bounds that are factors on it, together with others of its group.
fn within(cited: Cited, bounds: Option<(f64, f64)>, group: &str) -> Cited {
    let Some((low, high)) = bounds else { return cited };
    if cited.value <= 0.0 {
        return cited;
    }
    Cited {
        spread: Spread::LogNormal(cited.value * low, cited.value * high),
        group: group.to_owned(),
        from: Source { kind: SourceKind::Assumed, text: "the case does not tell it".to_owned() },
        ..cited
    }
}

/// What a case takes for a figure before any reading.
fn taken(prior: Prior) -> Cited {
    Cited {
        spread: Spread::LogNormal(prior.low, prior.high),
        from: Source { kind: SourceKind::Assumed, text: "the case's own, before any reading".to_owned() },
        ..own_figure(prior.value, "")
    }
}

fn scale(cited: &mut Cited, by: f64) {
    cited.value *= by;
    cited.spread = cited.spread.map(|v| v * by);
}

/// Moves a figure and its bounds, none below the least.
fn shift(cited: &mut Cited, by: f64, least: f64) {
    let to = |v: f64| (v + by).max(least);
    cited.spread = cited.spread.map(to);
    cited.value = to(cited.value);
}

/// The case's culture: the pantry's dairy pair with the case's cells, pace and lag.
fn culture(pot: &Pot, knobs: &Knobs, pantry: &Pantry) -> Result<Culture, Note> {
    let lack =
        || Note::error("culture", "The pantry has no dairy pair to start from", "Add it to the pantry");
    let mut culture = find(&pantry.cultures, "dairy_pair").ok_or_else(lack)?.clone();
    culture.key = CULTURE.to_owned();
    let blank = culture.doses.first().ok_or_else(lack)?.clone();
    culture.doses = pot
        .cells
        .iter()
        .map(|cells| {
            let mut dose = blank.clone();
            dose.organism.clone_from(&cells.organism);
            dose.cfu_per_g = within(own_figure(cells.cfu_per_g, "cfu/g"), pot.cells_within, "case dose");
            dose
        })
        .collect();
    if let Some(speed) = pot.speed {
        culture.speed_dairy = taken(speed);
        culture.speed_plant = taken(speed);
    }
    if let Some(lag) = pot.lag {
        culture.lag_work = taken(lag);
    }
    scale(&mut culture.speed_dairy, knobs.speed);
    scale(&mut culture.speed_plant, knobs.speed);
    scale(&mut culture.lag_work, knobs.lag);
    culture.cold_acid = pot.cold;
    Ok(culture)
}

/// Pace, lag and buffer, mmol/(kg pH), that a case's pot has before any fit: what the case says, or what the pantry has.
///
/// # Errors
/// A note if the pantry lacks an entry.
pub fn said(pot: &Pot, pantry: &Pantry) -> Result<[f64; 3], Note> {
    let (pair, own, base) = entries(pot, pantry)?;
    let speed = if base.kind == BaseKind::Dairy { &pair.speed_dairy } else { &pair.speed_plant };
    Ok([
        pot.speed.map_or(speed.value, |prior| prior.value),
        pot.lag.map_or(pair.lag_work.value, |prior| prior.value),
        own.mean_buffer.unwrap_or(base.mean_buffer.value * own.solids),
    ])
}

/// The pantry's dairy pair, which a case's culture is made from, and its first base as told and as the pantry has it.
fn entries<'a>(pot: &'a Pot, pantry: &'a Pantry) -> Result<(&'a Culture, &'a BaseAs, &'a Base), Note> {
    let lack = |what: &str| Note::error(what, "The pantry lacks it", "Add it to the pantry");
    let pair = find(&pantry.cultures, "dairy_pair").ok_or_else(|| lack("dairy_pair"))?;
    let own = pot.bases.first().ok_or_else(|| lack("base"))?;
    let base = find(&pantry.bases, &own.entry).ok_or_else(|| lack(&own.entry))?;
    Ok((pair, own, base))
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
    let (pair, _, base) = entries(pot, pantry)?;
    let speed = if base.kind == BaseKind::Dairy { &pair.speed_dairy } else { &pair.speed_plant };
    Ok([
        pot.speed.map_or_else(|| of(speed, "speed"), |p| Ok(sigma(p.low, p.high)))?,
        pot.lag.map_or_else(|| of(&pair.lag_work, "lag"), |p| Ok(sigma(p.low, p.high)))?,
        of(&base.mean_buffer, "buffer")?,
    ])
}
