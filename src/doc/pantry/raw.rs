//! Starting ingredients that a base is made from at home: nuts, seeds, grains, beans, coconut flesh.

use super::base::{BaseKind, Composition};
use super::figures::figures;
use super::nutrients::Nutrients;
use super::ticket::Ticket;
use potset_base::Cited;

figures! {
    /// Shares of 1 that pass the cloth when the ground mass is strained once, at the usual ratio of water.
    pub struct Passes {
        pub fat: Cited,
        pub protein: Cited,
        /// Sugars and whatever else dissolves.
        pub sugars: Cited,
        pub starch: Cited,
        /// Carbohydrate that is neither sugar nor starch, and fibre.
        pub fibre: Cited,
        pub ash: Cited,
    }

    /// Starting ingredient for a base.
    pub struct Raw {
        pub key: String,
        pub name: String,
        #[serde(default)]
        pub aliases: Vec<String>,
        pub kind: BaseKind,
        pub vegan: bool,
        pub gluten_free: bool,
        #[serde(default)]
        pub allergens: Vec<String>,
        /// As bought, g per 100 g.
        pub composition: Composition,
        pub nutrients: Nutrients = default,
        pub passes: Passes,
        /// Liquid that the squeezed pulp keeps, g per g of dry pulp.
        pub pulp_holds: Cited,
        /// Water taken up when it is soaked, g per g; the soaking water is poured off.
        pub soak_takes: Cited,
        /// Usual soak, h; both 0 where none is needed.
        pub soak_h: (f64, f64),
        /// Usual boil of the strained or ground mass, min; both 0 where none is needed.
        pub boil_min: (f64, f64),
        /// Usual water for grinding, g per g of starting ingredient.
        pub usual_water: (f64, f64),
        /// Whether it is usually strained.
        pub strained: bool,
        /// Level cup, g/mL.
        pub bulk_density: Cited,
        /// Key of the base that pH, buffer shape, droplets and the like are taken from.
        pub like: String,
        pub handling: String = default,
        /// What to do, one sentence each, in order.
        #[serde(default)]
        pub steps: Vec<String>,
        /// What keeps it clean and wholesome.
        #[serde(default)]
        pub hygiene: Vec<String>,
        pub ticket: Ticket = default,
    }
}
