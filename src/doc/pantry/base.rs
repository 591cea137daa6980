//! Bases: composition, buffer, density, and what their maker did to them.

use serde::{Deserialize, Serialize};

use super::figures::figures;
use super::nutrients::Nutrients;
use super::ticket::Ticket;
use crate::lines::Pack;
use potset_base::{Cited, Sugar, choices};

choices! {
    /// A kind of base; it decides the shape of the buffer, the cautions and how missing figures are filled.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum BaseKind: words {
        Dairy => "dairy",
        Coconut => "coconut",
        Soy => "soy",
        Oat => "oat",
        Nut => "nut",
        Pea => "pea",
        Rice => "rice",
        Water => "water",
    }
}

choices! {
    /// How sterile a base is when the maker opens it, the most sterile first.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Sterility: words {
        /// Canned or UHT: free of living spores until opened.
        Canned => "tinned or long-life, commercially sterile until opened",
        Pasteurised => "pasteurised",
        /// Raw or home-made.
        Fresh => "raw or home-made",
    }
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

figures! {
    /// A sugar and how much of it, g per 100 g.
    pub struct SugarShare {
        pub sugar: Sugar,
        pub g_per_100g: Cited,
    }

    /// Composition, g per 100 g. Water is what is left.
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
    pub struct Site {
        pub name: String,
        pub amount: Cited,
        pub pk: Cited,
        pub n: Cited,
    }

    /// A set of sites that gives the shape of a buffer; the base's mean buffer gives its size.
    pub struct BufferShape {
        pub key: String,
        pub name: String,
        pub sites: Vec<Site>,
    }

    /// An additive that a base holds as bought.
    pub struct Holds {
        /// Key of an [`super::Additive`].
        pub additive: String,
        pub g_per_kg: Cited,
    }

    /// A base: milk, coconut cream, soy drink, water.
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
        /// Pace of a plant-base culture in it against tinned coconut cream; empty: the usual one of its kind.
        pub pace: Option<Cited> = default,
        /// Strength of its acid gel against that of cow's milk at the same protein.
        pub gel_strength: Option<Cited> = default,
        /// Key of the thickener that its own starch behaves like.
        pub own_starch: Option<String> = default,
        /// Salts and preservatives that its maker put in; its pH as bought counts them already.
        pub holds: Vec<Holds> = default,
        /// Usual fat on labels, g per 100 g.
        pub usual_fat: (f64, f64),
        /// What it is sold in (common practice); the first is taken where a design says nothing.
        pub packs: Vec<Pack> = default,
        /// Usual amount, L.
        pub usual_litres: (f64, f64),
        /// A powder: level spoon, g/mL. Its density is that of the dissolved powder: the volume that it adds to a pot.
        pub bulk_density: Option<Cited> = default,
        pub nutrients: Nutrients = default,
        #[serde(default)]
        pub handling: String,
        pub hazards: Vec<String> = default,
        pub ticket: Ticket = default,
    }
}

/// All sugars together, g per 100 g.
pub fn all_sugars(sugars: &[SugarShare]) -> f64 {
    sugars.iter().map(|share| share.g_per_100g.value).sum()
}
