//! A base made at home from starting ingredients: how much comes through the cloth, what is in it, what it costs.
//!
//! **Starting ingredients.** `catalogue/making.rs` is a mass balance over the cloth; shares that pass are data of
//! the raw entry. The base that
//! comes of it takes pH, buffer shape and droplets from the entry named by `like`, its buffer by protein.

use potset_base::{Cited, Note, SourceKind, Spread, number};
use potset_doc::Pantry;
use potset_doc::pantry::{
    At, Base, BufferShape, Composition, EntryKind, Figures, Nutrients, Raw, Sterility, Ticket, all_sugars,
    find, key_for,
};
use potset_forecast::params;
use potset_science::thermal::choi_okos::{Shares, density};

/// How a base is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Making {
    /// Key of the starting ingredient; empty: the first of the pantry.
    pub raw: String,
    /// Starting ingredient as bought, g.
    pub grams: f64,
    /// Water for grinding, g per g of starting ingredient.
    pub water: f64,
    pub soaked: bool,
    pub strained: bool,
    pub boiled: bool,
}

impl Default for Making {
    fn default() -> Self {
        Self { raw: String::new(), grams: 200.0, water: 4.0, soaked: true, strained: true, boiled: false }
    }
}

impl Making {
    /// The usual way with a starting ingredient.
    pub fn usual(raw: &Raw, grams: f64) -> Self {
        Self {
            raw: raw.key.clone(),
            grams,
            water: 0.5 * (raw.usual_water.0 + raw.usual_water.1),
            soaked: raw.soak_h.1 > 0.0,
            strained: raw.strained,
            boiled: raw.boil_min.1 > 0.0,
        }
    }

    /// The starting ingredient that is meant.
    pub fn raw<'a>(&self, pantry: &'a Pantry) -> Option<&'a Raw> {
        find(&pantry.raws, &self.raw).or_else(|| pantry.raws.first())
    }
}

/// A base that was made.
#[derive(Clone, Debug, PartialEq)]
pub struct MadeBase {
    /// The new entry, with a key that the pantry has not yet.
    pub base: Base,
    pub kg: f64,
    pub litres: f64,
    /// Pressed pulp, with the liquid that it keeps, g.
    pub pulp_g: f64,
    /// Water taken up by soaking, g.
    pub soaked_g: f64,
    /// Money per litre, if the starting ingredient has a price.
    pub price_per_litre: Option<f64>,
    pub steps: Vec<String>,
    pub hygiene: Vec<String>,
}

/// Longest ratio of water that is worked out, g per g.
const MOST_WATER: f64 = 30.0;

/// Makes a base, by mass balance: what passes the cloth comes to the yield; the pulp keeps the rest and some liquid.
///
/// `yield = raw + soaked + water − pulp (1 + held)`, with `pulp` the dry matter that does not pass; share of a part
/// `= raw · part · passes / yield`. What boils off is taken to be filled up again.
///
/// # Errors
/// A note that names the field and the mend: amounts out of range, no such starting ingredient, nothing that runs
/// through the cloth.
pub fn make(making: &Making, pantry: &Pantry) -> Result<MadeBase, Note> {
    let raw = making.raw(pantry).ok_or_else(|| {
        Note::error(
            "starting ingredient",
            "The pantry has no starting ingredient",
            "Import a starting ingredient first",
        )
    })?;
    for (field, value, least, most, unit) in [
        ("Starting ingredient", making.grams, 1.0, 50_000.0, "g"),
        ("Water for grinding", making.water, 0.1, MOST_WATER, "g per g"),
    ] {
        if !(least..=most).contains(&value) {
            let mend = format!("Give {} to {} {unit}", number::plain(least), number::plain(most));
            return Err(Note::error(field, format!("{field} is out of range"), mend));
        }
    }
    let like = find(&pantry.bases, &raw.like).ok_or_else(|| {
        Note::error(
            raw.name.clone(),
            format!("It is made like the base {}, which is not in the pantry", raw.like),
            "Import that base, or choose another starting ingredient",
        )
    })?;
    let parts = Parts::of(raw, making.strained);
    let soaked_g = if making.soaked { making.grams * raw.soak_takes.value } else { 0.0 };
    let poured = making.grams + soaked_g + making.grams * making.water;
    let pulp_dry = making.grams * parts.stays / 100.0;
    let pulp_g = pulp_dry * (1.0 + if making.strained { raw.pulp_holds.value } else { 0.0 });
    let grams = poured - pulp_g;
    if grams < 0.1 * poured {
        return Err(Note::error(
            "Water for grinding",
            "Hardly anything runs through the cloth",
            "Use more water, or leave the cloth out",
        ));
    }
    let share = making.grams / grams;
    let base = entry(making, raw, like, pantry, parts, share);
    let c = &base.composition;
    let shares = Shares {
        protein: c.protein.value / 100.0,
        fat: c.fat.value / 100.0,
        carbohydrate: c.carbohydrate.value / 100.0,
        fibre: c.fibre.value / 100.0,
        ash: c.ash.value / 100.0,
        water: 1.0
            - (c.protein.value + c.fat.value + c.carbohydrate.value + c.fibre.value + c.ash.value) / 100.0,
    };
    let kg_l = density(&shares, 20.0) / 1000.0;
    let litres = grams / 1000.0 / kg_l;
    let money = raw
        .ticket
        .price
        .and_then(|p| p.per_gram(raw.bulk_density.value))
        .map(|per_gram| per_gram * making.grams / litres);
    let base = Base { density: worked(kg_l, "g/mL", "from its composition (Choi and Okos 1986)"), ..base };
    Ok(MadeBase {
        base,
        kg: grams / 1000.0,
        litres,
        pulp_g,
        soaked_g,
        price_per_litre: money,
        steps: raw.steps.clone(),
        hygiene: raw.hygiene.clone(),
    })
}

/// What passes the cloth and what stays, per 100 g of starting ingredient.
struct Parts {
    composition: Composition,
    nutrients: Nutrients,
    /// Dry matter that stays, g.
    stays: f64,
}

impl Parts {
    fn of(raw: &Raw, strained: bool) -> Self {
        let through = |cited: &Cited| if strained { cited.value } else { 1.0 };
        let (whole, p) = (&raw.composition, &raw.passes);
        let (mut c, mut nutrients) = (whole.clone(), raw.nutrients.clone());
        let Nutrients { saturates, sodium, phosphorus, .. } = &mut nutrients;
        let known = [(saturates, &p.fat), (sodium, &p.ash), (phosphorus, &p.ash)].into_iter();
        let known = known.filter_map(|(figure, passes)| Some((figure.as_mut()?, passes)));
        let sugars = c.sugars.iter_mut().map(|s| (&mut s.g_per_100g, &p.sugars));
        let figures = [
            (&mut c.fat, &p.fat),
            (&mut c.protein, &p.protein),
            (&mut c.starch, &p.starch),
            (&mut c.fibre, &p.fibre),
            (&mut c.ash, &p.ash),
            (&mut c.calcium, &p.ash),
        ];
        for (figure, passes) in figures.into_iter().chain(sugars).chain(known) {
            figure.value *= through(passes);
        }
        // Carbohydrate that is neither sugar nor starch goes the way of the fibre.
        let other = (whole.carbohydrate.value - all_sugars(&whole.sugars) - whole.starch.value).max(0.0);
        c.carbohydrate.value = all_sugars(&c.sugars) + c.starch.value + other * through(&p.fibre);
        let dry = |c: &Composition| {
            c.fat.value + c.protein.value + c.carbohydrate.value + c.fibre.value + c.ash.value
        };
        Self { stays: (dry(whole) - dry(&c)).max(0.0), composition: c, nutrients }
    }
}

/// Mean buffer of a plant base from its composition, mmol/(kg pH); `mixing` of the parameters has its figures.
///
/// - `protein` — g/100 g; `phosphorus` — mg/100 g.
fn by_composition(protein: f64, phosphorus: f64) -> f64 {
    params::shipped().map_or(f64::NAN, |p| {
        let law = p.laws().mixing;
        law.buffer_protein * protein + law.buffer_phosphorus * phosphorus + law.buffer_rest
    })
}

fn worked(v: f64, unit: &str, text: &str) -> Cited {
    Cited::new(v, unit, SourceKind::Derived, text)
}

fn entry(making: &Making, raw: &Raw, like: &Base, pantry: &Pantry, parts: Parts, share: f64) -> Base {
    let way = if making.strained { "strained" } else { "unstrained" };
    let name = format!("{}, made 1:{}, {way}", raw.name, number::plain(making.water));
    let text = format!(
        "mass balance of {} ground in {} g water per g, {way}",
        raw.name,
        number::plain(making.water)
    );
    let Parts { mut composition, nutrients, .. } = parts;
    let (fat, phosphorus) = (composition.fat.value, nutrients.phosphorus.as_ref().map_or(0.0, |p| p.value));
    let mut nutrients =
        Nutrients { saturates: nutrients.saturates, sodium: nutrients.sodium, ..Nutrients::default() };
    let mut diluted =
        |_: &At<'_>, figure: &mut Cited| *figure = worked(figure.value * share, &figure.unit, &text);
    composition.visit(&At::Unasked, &mut diluted);
    nutrients.visit(&At::Unasked, &mut diluted);
    let buffer = by_composition(composition.protein.value, phosphorus * share);
    let (least, most) =
        like.mean_buffer.spread.bounds().unwrap_or((like.mean_buffer.value, like.mean_buffer.value));
    let scale = |v: f64| if like.mean_buffer.value > 0.0 { v * buffer / like.mean_buffer.value } else { v };
    let salts = if like.composition.ash.value > 0.0 {
        composition.ash.value / like.composition.ash.value
    } else {
        1.0
    };
    Base {
        key: key_for(&name, |k| pantry.entry(EntryKind::Base, k).is_some()),
        name,
        aliases: Vec::new(),
        kind: raw.kind,
        sterility: if making.boiled { Sterility::Pasteurised } else { Sterility::Fresh },
        homogenised: false,
        vegan: raw.vegan,
        gluten_free: raw.gluten_free,
        allergens: raw.allergens.clone(),
        composition,
        mean_buffer: Cited {
            spread: if least > 0.0 { Spread::LogNormal(scale(least), scale(most)) } else { Spread::Exact },
            ..worked(
                buffer,
                "mmol/(kg pH)",
                "from its protein and phosphorus; no pair of pH and acidity of it",
            )
        },
        ionic_strength: worked(
            like.ionic_strength.value * salts,
            "mol/L",
            &format!("{}'s, in proportion to ash", like.name),
        ),
        density: like.density.clone(),
        usual_fat: (0.5 * fat * share, 1.5 * fat * share),
        usual_litres: (0.5, 4.0),
        bulk_density: None,
        holds: Vec::new(),
        nutrients,
        handling: raw.steps.join(" "),
        hazards: raw.hygiene.clone(),
        ticket: Ticket::default(),
        ..like.clone()
    }
}

/// The shipped base of the same kind that is nearest in fat and protein, to hold it against.
pub fn nearest<'a>(base: &Base, pantry: &'a Pantry) -> Option<&'a Base> {
    // Figures under half a gram are alike, as where labels are compared.
    let apart = |a: &Cited, b: &Cited| ((a.value + 0.5) / (b.value + 0.5)).ln().abs();
    let far = |other: &Base| {
        apart(&base.composition.fat, &other.composition.fat)
            + apart(&base.composition.protein, &other.composition.protein)
    };
    let nearest = |fits: &dyn Fn(&&Base) -> bool| {
        pantry.bases.iter().filter(fits).min_by(|a, b| far(a).total_cmp(&far(b)))
    };
    // One of the same nut first.
    nearest(&|b| b.kind == base.kind && b.allergens == base.allergens)
        .or_else(|| nearest(&|b| b.kind == base.kind))
}

/// The base with what it needs, to keep it as an entry.
pub fn as_entry(made: &MadeBase, pantry: &Pantry) -> Pantry {
    let mut out = Pantry { bases: vec![made.base.clone()], ..Pantry::default() };
    out.keep(pantry.get::<BufferShape>(&made.base.buffer_shape));
    out
}

/// The key of the base where it is in the pantry already, made in just this way.
pub fn kept<'a>(made: &MadeBase, pantry: &'a Pantry) -> Option<&'a str> {
    let same = |b: &&Base| b.name == made.base.name && b.composition == made.base.composition;
    pantry.bases.iter().find(same).map(|b| b.key.as_str())
}
