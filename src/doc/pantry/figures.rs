//! Every cited figure of the pantry by its path, to list it or to change it. A field cannot be forgotten: each type is taken
//! apart by name.

use super::{
    Action, Additive, Base, BufferShape, Composition, Culture, Dose, Eats, Group, Helper, Holds,
    InhibitorShare, Nutrients, Organism, Pantry, Passes, Raw, Sensitivity, Site, SugarShare, Sweetener,
    Synergy, Thickener, Vessel, Warmer, Warming,
};
use potset_base::Cited;

/// Sees a figure: its path ("thickeners.agar.action.stiffness_pa") and the figure.
pub type See<'a> = dyn FnMut(&str, &mut Cited) + 'a;

/// Sees a figure without its path: no text is made, for work that goes over all figures thousands of times.
pub type SeeBare<'a> = dyn FnMut(&mut Cited) + 'a;

/// Something that holds cited figures.
pub trait Figures {
    /// Shows every figure in the order of the file.
    fn figures(&mut self, path: &str, see: &mut See<'_>);

    /// The same figures in the same order.
    fn bare(&mut self, see: &mut SeeBare<'_>);

    /// What tells it from its neighbours in a list.
    fn label(&self) -> Option<String> {
        None
    }
}

impl Figures for Cited {
    fn figures(&mut self, path: &str, see: &mut See<'_>) {
        see(path, self);
    }

    fn bare(&mut self, see: &mut SeeBare<'_>) {
        see(self);
    }
}

impl<T: Figures> Figures for Option<T> {
    fn figures(&mut self, path: &str, see: &mut See<'_>) {
        if let Some(inner) = self {
            inner.figures(path, see);
        }
    }

    fn bare(&mut self, see: &mut SeeBare<'_>) {
        if let Some(inner) = self {
            inner.bare(see);
        }
    }
}

impl<T: Figures> Figures for Vec<T> {
    fn figures(&mut self, path: &str, see: &mut See<'_>) {
        for (i, one) in self.iter_mut().enumerate() {
            let name = one.label().unwrap_or_else(|| i.to_string());
            one.figures(&format!("{path}.{name}"), see);
        }
    }

    fn bare(&mut self, see: &mut SeeBare<'_>) {
        for one in self {
            one.bare(see);
        }
    }
}

/// A choice with one figure behind it.
impl<A, T: Figures> Figures for (A, T) {
    fn figures(&mut self, path: &str, see: &mut See<'_>) {
        self.1.figures(path, see);
    }

    fn bare(&mut self, see: &mut SeeBare<'_>) {
        self.1.bare(see);
    }
}

/// Takes a type apart: the fields that hold figures, the fields that do not, and its label.
macro_rules! figures {
    ($($kind:ty { see: [$($seen:ident),* $(,)?], skip: [$($skipped:ident),* $(,)?], label: $label:expr }),* $(,)?) => {
        $(impl Figures for $kind {
            fn figures(&mut self, path: &str, see: &mut See<'_>) {
                let Self { $($seen,)* $($skipped: _,)* } = self;
                $($seen.figures(&format!("{path}.{}", stringify!($seen)), see);)*
            }

            fn bare(&mut self, see: &mut SeeBare<'_>) {
                let Self { $($seen,)* .. } = self;
                $($seen.bare(see);)*
            }

            fn label(&self) -> Option<String> {
                let label: fn(&Self) -> Option<String> = $label;
                label(self)
            }
        })*
    };
}

/// The same for the variants of a choice.
macro_rules! figures_of_variants {
    ($kind:ident { $($variant:ident { see: [$($seen:ident),*], skip: [$($skipped:ident),*] }),* $(,)? }) => {
        impl Figures for $kind {
            fn figures(&mut self, path: &str, see: &mut See<'_>) {
                match self {
                    $(Self::$variant { $($seen,)* $($skipped: _,)* } => {
                        $($seen.figures(&format!("{path}.{}", stringify!($seen)), see);)*
                    })*
                }
            }

            fn bare(&mut self, see: &mut SeeBare<'_>) {
                match self {
                    $(Self::$variant { $($seen,)* .. } => {
                        $($seen.bare(see);)*
                    })*
                }
            }
        }
    };
}

figures_of_variants!(Action {
    ColdStarch { see: [swelling, consistency, stiffness, swelling_min], skip: [] },
    CookStarch { see: [swelling, consistency, stiffness, onset_c, peak_c, end_c, full_c], skip: [] },
    Gum { see: [consistency, exponent, index, index_fall, dissolve_c], skip: [] },
    Protein { see: [protein, fat, ash, sugars, buffer], skip: [kind] },
    Filler { see: [per_g_l], skip: [] },
    Gel {
        see: [
            stiffness_pa, reference_g_l, exponent, least_g_l, dissolve_c, set_c, melt_c, after_stirring, needs,
            left_at_ph4
        ],
        skip: []
    },
});

figures_of_variants!(Warming {
    Heated { see: [offset_c, warming_h], skip: [] },
    Insulated { see: [cooling_h], skip: [] },
    Place { see: [warming_h], skip: [] },
});

figures!(
    SugarShare { see: [g_per_100g], skip: [sugar], label: |s| Some(s.sugar.name().to_owned()) },
    Composition {
        see: [fat, protein, carbohydrate, starch, fibre, ash, calcium, sugars],
        skip: [],
        label: |_| None
    },
    Nutrients {
        see: [
            energy,
            water,
            fat,
            saturates,
            protein,
            carbohydrate,
            fibre,
            polyols,
            acids,
            ash,
            sodium,
            calcium,
            phosphorus
        ],
        skip: [energy_rule],
        label: |_| None
    },
    Passes { see: [fat, protein, sugars, starch, fibre, ash], skip: [], label: |_| None },
    Raw {
        see: [composition, nutrients, passes, pulp_holds, soak_takes, bulk_density],
        skip: [
            key,
            name,
            aliases,
            kind,
            vegan,
            gluten_free,
            allergens,
            soak_h,
            boil_min,
            usual_water,
            strained,
            like,
            handling,
            steps,
            hygiene,
            ticket
        ],
        label: |r| Some(r.key.clone())
    },
    Site { see: [amount, pk, n], skip: [name], label: |s| Some(s.name.clone()) },
    BufferShape { see: [sites], skip: [key, name], label: |s| Some(s.key.clone()) },
    Holds { see: [g_per_kg], skip: [additive], label: |h| Some(h.additive.clone()) },
    Base {
        see: [
            composition,
            density,
            ph,
            mean_buffer,
            start_acidity,
            ionic_strength,
            whey_denatured,
            droplet_um,
            pace,
            gel_strength,
            holds,
            bulk_density,
            nutrients
        ],
        skip: [
            key,
            name,
            aliases,
            kind,
            sterility,
            homogenised,
            vegan,
            gluten_free,
            allergens,
            buffer_shape,
            fat_follows,
            own_starch,
            usual_fat,
            usual_litres,
            handling,
            hazards,
            ticket
        ],
        label: |b| Some(b.key.clone())
    },
    Sweetener {
        see: [water, sugars, bulk_density, sweetness, nutrients],
        skip: [key, name, aliases, vegan, gluten_free, allergens, not_food, usual, handling, hazards, ticket],
        label: |s| Some(s.key.clone())
    },
    Synergy { see: [factor], skip: [with], label: |s| Some(s.with.clone()) },
    Thickener {
        see: [
            groups,
            action,
            synergies,
            overcooks_c,
            weeps_per_day,
            whey_efold,
            lumps,
            bulk_density,
            nutrients
        ],
        skip: [key, name, aliases, vegan, gluten_free, allergens, usual, handling, hazards, ticket],
        label: |t| Some(t.key.clone())
    },
    Group { see: [mmol_per_g, pk, bound], skip: [name], label: |g| Some(g.name.clone()) },
    InhibitorShare { see: [per_g], skip: [inhibitor], label: |i| Some(i.inhibitor.words().to_owned()) },
    Additive {
        see: [
            groups,
            inhibits,
            lactase_per_g,
            calcium,
            lactic,
            acetic,
            sugars,
            water,
            bulk_density,
            nutrients
        ],
        skip: [key, name, aliases, vegan, gluten_free, allergens, gas, usual, handling, hazards, ticket],
        label: |a| Some(a.key.clone())
    },
    Eats { see: [weight], skip: [sugar], label: |e| Some(e.sugar.name().to_owned()) },
    Helper { see: [share, half_count], skip: [organism], label: |h| Some(h.organism.clone()) },
    Sensitivity { see: [half, steepness], skip: [to], label: |s| Some(s.to.words().to_owned()) },
    Organism {
        see: [
            growth_rate,
            temperature_min_c,
            temperature_opt_c,
            temperature_max_c,
            ph_min,
            ph_opt,
            ph_max,
            acid_ceiling,
            acid_exponent,
            acid_per_cell,
            acid_per_cell_hour,
            lactic_per_hexose,
            acetic_per_hexose,
            galactose_released,
            half_saturation,
            d60_min,
            z_c,
            cold_loss,
            eats,
            helpers,
            sensitive
        ],
        skip: [key, name, full_name],
        label: |o| Some(o.key.clone())
    },
    Dose {
        see: [cfu_per_g, lag_work, galactose_released],
        skip: [organism],
        label: |d| Some(d.organism.clone())
    },
    Culture {
        see: [doses, speed_dairy, speed_plant, lag_work, carried_acid, grams_per_litre],
        skip: [
            key, name, aliases, vegan, gluten, allergens, cold_acid, form, ropy, usual, handling, hazards,
            ticket
        ],
        label: |c| Some(c.key.clone())
    },
    Vessel {
        see: [air_h, fridge_h],
        skip: [key, name, litres, handling, ticket],
        label: |v| Some(v.key.clone())
    },
    Warmer {
        see: [warming],
        skip: [key, name, holds_litres, usual, handling, ticket],
        label: |w| Some(w.key.clone())
    },
);

impl Pantry {
    /// Shows every figure of every entry, to read or to change.
    pub fn each_figure(&mut self, see: &mut See<'_>) {
        let Self {
            buffer_shapes,
            bases,
            sugars,
            thickeners,
            additives,
            organisms,
            cultures,
            vessels,
            warmers,
            raws,
        } = self;
        buffer_shapes.figures("buffer_shapes", see);
        bases.figures("bases", see);
        sugars.figures("sugars", see);
        thickeners.figures("thickeners", see);
        additives.figures("additives", see);
        organisms.figures("organisms", see);
        cultures.figures("cultures", see);
        vessels.figures("vessels", see);
        warmers.figures("warmers", see);
        raws.figures("raws", see);
    }

    /// The same figures in the same order, without their paths.
    pub fn each_bare(&mut self, see: &mut SeeBare<'_>) {
        self.buffer_shapes.bare(see);
        self.bases.bare(see);
        self.sugars.bare(see);
        self.thickeners.bare(see);
        self.additives.bare(see);
        self.organisms.bare(see);
        self.cultures.bare(see);
        self.vessels.bare(see);
        self.warmers.bare(see);
        self.raws.bare(see);
    }

    /// Every figure with its path.
    #[must_use]
    pub fn figures(&self) -> Vec<(String, Cited)> {
        let mut all = Vec::new();
        self.clone().each_figure(&mut |path, cited| all.push((path.to_owned(), cited.clone())));
        all
    }
}

#[cfg(test)]
mod tests {
    use crate::assets;

    #[test]
    fn every_figure_of_the_file_is_seen_once() {
        let all = assets::pantry().unwrap().figures();
        assert_eq!(all.len(), assets::PANTRY.matches("from: (kind:").count());
        let mut paths: Vec<&String> = all.iter().map(|(path, _)| path).collect();
        paths.sort();
        paths.dedup();
        assert_eq!(paths.len(), all.len());
    }

    #[test]
    fn without_paths_they_come_in_the_same_order() {
        let mut pantry = assets::pantry().unwrap();
        let mut bare = Vec::new();
        pantry.each_bare(&mut |cited| bare.push(cited.clone()));
        let with: Vec<_> = pantry.figures().into_iter().map(|(_, cited)| cited).collect();
        assert!(bare == with);
    }
}
