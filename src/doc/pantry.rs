//! The pantry: what designs are made from. Every figure is cited.

use serde::{Deserialize, Serialize};

use crate::base::{Cited, Sugar};

/// A kind of base; it decides the shape of the buffer, the cautions and how missing figures are filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BaseKind {
    Dairy,
    Coconut,
    Soy,
    Oat,
    Nut,
    Pea,
    Rice,
    Water,
}

/// How sterile a base is when the maker opens it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sterility {
    /// Canned or UHT: free of living spores until opened.
    Canned,
    Pasteurised,
    /// Raw or home-made.
    Fresh,
}

/// How a fat figure read off a label moves the rest of the composition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FatFollows {
    /// Less fat means more water: all solids and the buffer go with the fat (coconut and nut bases).
    Dilution,
    /// Fat is taken out or put in, the rest keeps its ratio to water (dairy, soy).
    Skimming,
}

/// A sugar and how much of it, g per 100 g.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SugarShare {
    pub sugar: Sugar,
    pub g_per_100g: Cited,
}

/// Composition, g per 100 g. Water is what is left.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Composition {
    pub fat: Cited,
    pub protein: Cited,
    /// Carbohydrate without fibre, the sugars included.
    pub carbohydrate: Cited,
    pub starch: Cited,
    pub fibre: Cited,
    pub ash: Cited,
    /// mg per 100 g.
    pub calcium: Cited,
    #[serde(default)]
    pub sugars: Vec<SugarShare>,
}

/// One proton-binding site: amount [relative or mmol/kg], pK, cooperativity.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Site {
    pub name: String,
    pub amount: Cited,
    pub pk: Cited,
    pub n: Cited,
}

/// A set of sites that gives the shape of a buffer; the base's mean buffer gives its size.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BufferShape {
    pub key: String,
    pub name: String,
    pub sites: Vec<Site>,
}

/// A base: milk, coconut cream, soy drink, water.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Base {
    pub key: String,
    pub name: String,
    #[serde(default)]
    pub aliases: Vec<String>,
    pub kind: BaseKind,
    pub sterility: Sterility,
    /// Fat droplets finely broken up when bought.
    pub homogenised: bool,
    pub vegan: bool,
    pub gluten_free: bool,
    #[serde(default)]
    pub allergens: Vec<String>,
    pub composition: Composition,
    /// g/mL at room temperature.
    pub density: Cited,
    pub ph: Cited,
    /// Mean buffer 6.5 to 4.3 as bought, mmol/(kg pH).
    pub mean_buffer: Cited,
    /// Key of a [`BufferShape`].
    pub buffer_shape: String,
    /// Titratable acidity before the culture, % lactic.
    pub start_acidity: Cited,
    /// mol/L.
    pub ionic_strength: Cited,
    /// Share of the whey protein that its maker's heat has already denatured, 0 to 1.
    pub whey_denatured: Cited,
    /// Mean diameter of the fat droplets, µm.
    pub droplet_um: Cited,
    pub fat_follows: FatFollows,
    /// Usual fat on labels, g per 100 g.
    pub usual_fat: (f64, f64),
    /// Usual amount, L.
    pub usual_litres: (f64, f64),
    #[serde(default)]
    pub handling: String,
}

/// A sugar or sweet thing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sweetener {
    pub key: String,
    pub name: String,
    #[serde(default)]
    pub aliases: Vec<String>,
    pub vegan: bool,
    pub gluten_free: bool,
    #[serde(default)]
    pub allergens: Vec<String>,
    /// g per 100 g.
    pub water: Cited,
    pub sugars: Vec<SugarShare>,
    /// Level spoon, g/mL.
    pub bulk_density: Cited,
    /// Usual dose for feeding a culture, g/L.
    pub usual: (f64, f64),
    #[serde(default)]
    pub handling: String,
    #[serde(default)]
    pub hazards: Vec<String>,
}

/// How a thickener works.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Action {
    /// A starch that swells without cooking.
    ColdStarch {
        /// g swollen per g dry.
        swelling: Cited,
        /// Consistency at full packing, Pa·s^n.
        consistency: Cited,
        /// Stiffness at full packing, Pa.
        stiffness: Cited,
        /// Time constant of swelling in the warm, min.
        swelling_min: Cited,
    },
    /// A starch that must be cooked.
    CookStarch {
        swelling: Cited,
        consistency: Cited,
        stiffness: Cited,
        onset_c: Cited,
        peak_c: Cited,
        end_c: Cited,
        /// Fully swollen at, °C.
        full_c: Cited,
    },
    /// A gelling agent that is dissolved hot and sets as it cools: `G' = stiffness (c / reference)^exponent`.
    Gel {
        stiffness_pa: Cited,
        reference_g_l: Cited,
        exponent: Cited,
        /// Below this dose it does not set, g/L.
        least_g_l: Cited,
        dissolve_c: Cited,
        set_c: Cited,
        melt_c: Cited,
        /// Share of the stiffness left when the set gel is stirred.
        after_stirring: Cited,
    },
}

/// A thickener.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Thickener {
    pub key: String,
    pub name: String,
    #[serde(default)]
    pub aliases: Vec<String>,
    pub vegan: bool,
    pub gluten_free: bool,
    #[serde(default)]
    pub allergens: Vec<String>,
    pub action: Action,
    /// Dose that cuts centrifuged whey to 1/e, g/L.
    pub whey_efold: Cited,
    /// Share lost in lumps when stirred in dry, 0 to 1.
    pub lumps: Cited,
    pub bulk_density: Cited,
    /// Usual dose, g/L.
    pub usual: (f64, f64),
    #[serde(default)]
    pub handling: String,
}

/// A sugar that an organism eats, and how readily: 1 for its first choices.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Eats {
    pub sugar: Sugar,
    pub weight: Cited,
}

/// An organism that helps another along: proto-cooperation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Helper {
    /// Key of the helping organism.
    pub organism: String,
    /// Share of the rate that hangs on the help, 0 to 1.
    pub share: Cited,
    /// Count at half the help, cfu/g.
    pub half_count: Cited,
}

/// An organism with its rates and limits.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Organism {
    pub key: String,
    /// Short name in italics on the screen, "S. thermophilus".
    pub name: String,
    pub full_name: String,
    /// 1/h.
    pub growth_rate: Cited,
    pub temperature_min_c: Cited,
    pub temperature_opt_c: Cited,
    pub temperature_max_c: Cited,
    pub ph_min: Cited,
    pub ph_opt: Cited,
    pub ph_max: Cited,
    /// Undissociated lactic acid that stops it, mmol/kg.
    pub acid_ceiling: Cited,
    pub acid_exponent: Cited,
    /// Lactic acid per new cell, pmol/cfu.
    pub acid_per_cell: Cited,
    /// Lactic acid per cell and hour at 42 °C, pmol/(cfu h).
    pub acid_per_cell_hour: Cited,
    /// mol lactic acid per mol hexose.
    pub lactic_per_hexose: Cited,
    /// mol acetic acid per mol hexose.
    pub acetic_per_hexose: Cited,
    /// Share of lactose's galactose that is let go, 0 to 1.
    pub galactose_released: Cited,
    /// Half-saturation of sugar uptake, mmol/kg.
    pub half_saturation: Cited,
    /// Decimal reduction time at 60 °C, min.
    pub d60_min: Cited,
    /// Temperature rise for a tenfold faster death, °C.
    pub z_c: Cited,
    pub eats: Vec<Eats>,
    #[serde(default)]
    pub helpers: Vec<Helper>,
}

/// One organism of a culture and its count in the pot at packet rate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Dose {
    pub organism: String,
    /// Living cells per g of pot mix at the packet's rate, cfu/g.
    pub cfu_per_g: Cited,
}

/// How much acid a culture still makes in the cold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ColdAcid {
    Mild,
    Medium,
    Sharp,
}

/// A culture as bought.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Culture {
    pub key: String,
    pub name: String,
    #[serde(default)]
    pub aliases: Vec<String>,
    pub vegan: bool,
    #[serde(default)]
    pub allergens: Vec<String>,
    pub doses: Vec<Dose>,
    /// Pace in dairy bases, 1 = the organisms' own rates.
    pub speed_dairy: Cited,
    /// Pace in plant bases.
    pub speed_plant: Cited,
    /// Lag as work to be done: growth rate × lag time.
    pub lag_work: Cited,
    pub cold_acid: ColdAcid,
    /// Weight of powder at the packet's rate, g/L.
    pub grams_per_litre: Cited,
    /// Usual rate, × packet rate.
    pub usual: (f64, f64),
    #[serde(default)]
    pub handling: String,
}

/// A vessel with its still-air and fridge time constants for one litre.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vessel {
    pub key: String,
    pub name: String,
    pub litres: f64,
    /// Time constant in still air, 1 L, h.
    pub air_h: Cited,
    /// Time constant in a fridge, 1 L, h.
    pub fridge_h: Cited,
}

/// What a warmer does to a pot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Warming {
    /// Goes to its set point and stays there.
    Heated {
        /// What the pot really reaches above the set point, °C.
        offset_c: Cited,
        /// Time constant of warming one litre, h.
        warming_h: Cited,
    },
    /// Keeps what it was given and loses it slowly to the room.
    Insulated {
        /// Time constant of cooling one litre, h.
        cooling_h: Cited,
    },
    /// A warm place: the pot takes its temperature.
    Place {
        /// Time constant of one litre in it, h.
        warming_h: Cited,
    },
}

/// A warmer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Warmer {
    pub key: String,
    pub name: String,
    pub warming: Warming,
    /// Usual setting or place temperature, °C.
    pub usual: (f64, f64),
    #[serde(default)]
    pub handling: String,
}

/// All entries.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pantry {
    #[serde(default)]
    pub buffer_shapes: Vec<BufferShape>,
    #[serde(default)]
    pub bases: Vec<Base>,
    #[serde(default)]
    pub sugars: Vec<Sweetener>,
    #[serde(default)]
    pub thickeners: Vec<Thickener>,
    #[serde(default)]
    pub organisms: Vec<Organism>,
    #[serde(default)]
    pub cultures: Vec<Culture>,
    #[serde(default)]
    pub vessels: Vec<Vessel>,
    #[serde(default)]
    pub warmers: Vec<Warmer>,
}

/// Anything with a key.
pub trait Keyed {
    fn key(&self) -> &str;
}

macro_rules! keyed {
    ($($kind:ty),*) => { $(impl Keyed for $kind { fn key(&self) -> &str { &self.key } })* };
}
keyed!(BufferShape, Base, Sweetener, Thickener, Organism, Culture, Vessel, Warmer);

/// The entry with this key.
pub fn find<'a, T: Keyed>(list: &'a [T], key: &str) -> Option<&'a T> {
    list.iter().find(|entry| entry.key() == key)
}

/// Adds a copy of an entry unless one with its key is there.
pub fn keep<T: Keyed + Clone>(list: &mut Vec<T>, entry: Option<&T>) {
    if let Some(entry) = entry
        && find(list, entry.key()).is_none()
    {
        list.push(entry.clone());
    }
}
