//! Energy of food from what it is made of.

/// What an amount of food is made of, g; sodium and calcium in mg.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Macros {
    pub fat: f64,
    pub saturates: f64,
    pub protein: f64,
    /// Without fibre, polyols and organic acids; sugars included.
    pub carbohydrate: f64,
    /// All mono- and disaccharides: raffinose and stachyose are none.
    pub sugars: f64,
    pub lactose: f64,
    pub galactose: f64,
    pub fibre: f64,
    /// Those that give energy.
    pub polyols: f64,
    /// Polyols that give none: erythritol.
    pub idle: f64,
    /// Lactic, acetic and what acid was put in.
    pub acids: f64,
    pub sodium: f64,
    pub calcium: f64,
}

impl Macros {
    /// Both together.
    pub fn plus(self, other: Self) -> Self {
        self.with(other, |a, b| a + b)
    }

    /// A share or a multiple of it.
    pub fn times(self, factor: f64) -> Self {
        self.with(self, |a, _| a * factor)
    }

    fn with(self, o: Self, f: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            fat: f(self.fat, o.fat),
            saturates: f(self.saturates, o.saturates),
            protein: f(self.protein, o.protein),
            carbohydrate: f(self.carbohydrate, o.carbohydrate),
            sugars: f(self.sugars, o.sugars),
            lactose: f(self.lactose, o.lactose),
            galactose: f(self.galactose, o.galactose),
            fibre: f(self.fibre, o.fibre),
            polyols: f(self.polyols, o.polyols),
            idle: f(self.idle, o.idle),
            acids: f(self.acids, o.acids),
            sodium: f(self.sodium, o.sodium),
            calcium: f(self.calcium, o.calcium),
        }
    }

    /// kJ: `17 P + 37 F + 17 C + 8 fibre + 10 polyols + 13 organic acids`.
    ///
    /// Source: published, Regulation (EU) 1169/2011 annex XIV.
    pub fn kilojoules(&self) -> f64 {
        17.0 * (self.protein + self.carbohydrate)
            + 37.0 * self.fat
            + 8.0 * self.fibre
            + 10.0 * self.polyols
            + 13.0 * self.acids
    }

    /// kcal: `4 P + 9 F + 4 C + 2 fibre + 2.4 polyols + 3 organic acids`.
    ///
    /// Source: published, Regulation (EU) 1169/2011 annex XIV.
    pub fn kilocalories(&self) -> f64 {
        4.0 * (self.protein + self.carbohydrate)
            + 9.0 * self.fat
            + 2.0 * self.fibre
            + 2.4 * self.polyols
            + 3.0 * self.acids
    }

    /// kcal by the general factors of the United States: `4 P + 9 F + 4 (carbohydrate by difference)`; carbohydrate by
    /// difference holds fibre, polyols and organic acids.
    ///
    /// Source: from memory, 21 CFR 101.9(c)(1)(i)(B).
    pub fn kilocalories_us(&self) -> f64 {
        4.0 * (self.protein + self.by_difference() - self.idle) + 9.0 * self.fat
    }

    /// Carbohydrate by difference: all that is not water, fat, protein or ash.
    pub fn by_difference(&self) -> f64 {
        self.carbohydrate + self.fibre + self.polyols + self.idle + self.acids
    }
}

/// Energy, kcal, by a food's own factors for protein, fat and carbohydrate by difference.
///
/// Source: from memory, the specific Atwater factors of USDA Agriculture Handbook 74; they give the energies of the
/// tables back.
pub fn by_factors(protein: f64, fat: f64, by_difference: f64, factors: [f64; 3]) -> f64 {
    factors[0] * protein + factors[1] * fat + factors[2] * by_difference
}

/// Specific factors of milk and its products.
pub const MILK: [f64; 3] = [4.27, 8.79, 3.87];
/// Nuts, coconut, legumes.
pub const NUT: [f64; 3] = [3.47, 8.37, 4.07];
/// Cereals: flours of wheat and rice.
pub const CEREAL: [f64; 3] = [3.91, 8.37, 4.12];
/// Sugar and syrups.
pub const SUGAR: [f64; 3] = [0.0, 0.0, 3.87];
/// Starches.
pub const STARCH: [f64; 3] = [2.73, 8.37, 4.16];
/// Honey.
pub const HONEY: [f64; 3] = [3.36, 8.37, 3.68];
/// Gelatine.
pub const GELATINE: [f64; 3] = [3.90, 9.02, 3.87];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn general_factors() {
        // Source: derived, 4/9/4 on USDA SR 01077 (3.15, 3.25, 4.80): 61.05 kcal, SR states 61; EU 255 kJ.
        let milk = Macros { protein: 3.15, fat: 3.25, carbohydrate: 4.80, ..Macros::default() };
        assert!((milk.kilocalories() - 61.05).abs() < 0.1);
        assert!((milk.kilocalories_us() - 61.05).abs() < 0.1);
        assert!((milk.kilojoules() - 255.0).abs() < 1.0);
    }

    #[test]
    fn specific_factors_give_the_tables_back() {
        // Source: published, energies of USDA SR 01077, 12118, 01091, 12087, 19335, 20027, 19296.
        for (factors, protein, fat, carbohydrate, kcal) in [
            (MILK, 3.15, 3.25, 4.80, 61.0),
            (NUT, 2.02, 21.33, 2.81, 197.0),
            (MILK, 36.16, 0.77, 51.98, 362.0),
            (NUT, 18.22, 43.85, 30.19, 553.0),
            (SUGAR, 0.0, 0.0, 99.98, 387.0),
            (STARCH, 0.26, 0.05, 91.27, 381.0),
            (HONEY, 0.30, 0.0, 82.40, 304.0),
        ] {
            let got = by_factors(protein, fat, carbohydrate, factors);
            assert!((got - kcal).abs() <= 0.5, "{got} for {kcal}");
        }
    }

    #[test]
    fn organic_acids_count() {
        // Source: derived, annex XIV on Danish Frida 12: 275.6 kJ and 65.8 kcal.
        let yogurt =
            Macros { protein: 3.8, fat: 3.6, carbohydrate: 2.5 + 1.13, acids: 1.24, ..Macros::default() };
        assert!((yogurt.kilojoules() - 275.6).abs() < 0.5, "{}", yogurt.kilojoules());
        assert!((yogurt.kilocalories() - 65.8).abs() < 0.5, "{}", yogurt.kilocalories());
    }
}
