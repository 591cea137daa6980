//! Parameters of droplets in a serum: starch, solid fat and the emulsion, separation.

use serde::Deserialize;

use potset_base::Cited;

laws! {
    /// Starch by swollen volume.
    Starch => StarchLaw {
        consistency_exponent,
        stiffness_exponent,
        flow_index,
        /// Per °C, from 25.
        temperature_slope,
        reference_c,
        /// Intrinsic viscosity of dissolved starch, mL/g, and the factor of its square.
        intrinsic_ml_g,
        huggins,
        /// Share of a starch that dissolves: swollen in the cold, and cooked.
        soluble_cold,
        soluble_cooked,
        /// Granules that flow past each other: largest packing, exponent, and the share of the packing where it is held.
        packing_most,
        packing_exponent,
        packing_held,
        /// Time constant of cooking, s.
        cook_s,
        /// Share of the swelling left when cooked too hot.
        overcooked_left,
        /// Slowing of cold swelling at 5 °C.
        cold_rate,
    }
}

laws! {
    /// Solid fat and the emulsion.
    Fat => FatLaw {
        coconut_density,
        milk_density,
        /// Share of an ideal fat-crystal network: as made at home, and homogenised.
        network_home,
        network_homogenised,
        network_pa,
        network_exponent,
        /// Largest packing of droplets that flow.
        droplet_packing,
        /// Clustering: of milk fat; of plant fat, and what homogenising, souring and solid fat add to it.
        cluster_dairy,
        cluster_plant,
        cluster_homogenised,
        cluster_soured,
        cluster_solid,
        /// pH where souring begins to cluster plant droplets, and where it is at its most.
        sour_from_ph,
        sour_full_ph,
        /// Flow index of coconut emulsions: value at 15 g/100 g, fall per g/100 g, least.
        index_at_15,
        index_fall,
        index_least,
        index_soured,
        /// Serum viscosity, Pa·s, at 5 °C and its fall per °C: coconut and other plants; dairy.
        plant_serum,
        plant_serum_fall,
        dairy_serum,
        dairy_serum_fall,
    }
}

laws! {
    /// Separation: rising droplets, and the plug that they pack.
    Separation => SeparationLaw {
        /// kg/m³ between serum and liquid fat, and what solid fat takes off.
        density_gap,
        density_gap_solid,
        hindrance_exponent,
        /// `τ_y/(Δρ g d)` that holds a droplet.
        held_by,
        /// Gum in g/L that draws droplets together most, and how much faster they rise then.
        depletion_g_l,
        depletion,
        /// Packing of the plug: single droplets, and clusters.
        plug_packing,
        plug_packing_clusters,
        /// Sigma of the logarithm of droplet size.
        size_spread,
        /// Volume share of fat at which a cleared layer is mostly thin.
        thin_phi,
    }
}
