//! What the maker writes on an entry's ticket: price, the name of a photo, a remark. The shipped pantry has none.

use crate::parts::parts;
use potset_base::choices;
use serde::{Deserialize, Serialize};

choices! {
    /// What a price is for.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum SoldBy: unit {
        #[default]
        Gram => "g",
        Kilogram => "kg",
        Millilitre => "mL",
        Litre => "L",
    }
}

parts! {
    /// A price: so much money buys so much.
    #[derive(Copy)]
    pub struct Price {
        /// In the kitchen's currency.
        pub money: f64,
        pub buys: f64,
        pub by: SoldBy,
    }
}

impl Price {
    /// Money per gram; volumes are weighed with a density, g/mL. Nothing if it buys nothing.
    pub fn per_gram(self, density: f64) -> Option<f64> {
        let grams = self.buys
            * match self.by {
                SoldBy::Gram => 1.0,
                SoldBy::Kilogram => 1000.0,
                SoldBy::Millilitre => density,
                SoldBy::Litre => 1000.0 * density,
            };
        (grams > 0.0 && self.money >= 0.0).then(|| self.money / grams)
    }
}

parts! {
    /// The ticket of an entry.
    #[derive(Default)]
    pub struct Ticket {
        pub price: Option<Price> = default,
        /// File name of a photo beside the maker's pantry.
        pub photo: String = default,
        pub remark: String = default,
    }
}

impl Ticket {
    /// True if nothing is written on it.
    pub fn is_blank(&self) -> bool {
        *self == Self::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_is_told_per_gram() {
        let tin = Price { money: 2.0, buys: 400.0, by: SoldBy::Millilitre };
        assert!((tin.per_gram(1.0).unwrap() - 0.005).abs() < 1e-12);
        let kilo = Price { money: 2.0, buys: 1.0, by: SoldBy::Kilogram };
        assert!((kilo.per_gram(7.0).unwrap() - 0.002).abs() < 1e-12);
        assert_eq!(Price { buys: 0.0, ..kilo }.per_gram(1.0), None);
    }
}
