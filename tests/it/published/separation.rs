//! Separation, and what clusters, starch and dissolved thickeners do on their own: published figures and directions.

use potset_forecast::params;
use potset_science::params::{Laws, SeparationLaw, StarchLaw};
use potset_science::texture::emulsion::{Droplets, clustering, thickening};
use potset_science::texture::separation::{Clearing, Conditions, rate, sizes};
use potset_science::texture::serum::{dissolved, granules};
use potset_science::texture::starch::Packing;

fn laws() -> Laws {
    params::shipped().unwrap().laws()
}

fn raw() -> Conditions {
    Conditions {
        phi: 0.18,
        clustering: 0.3,
        solid: 0.0,
        at_rest: 0.0011,
        yield_pa: 0.0,
        gum_g_l: 0.0,
        droplet_um: 11.5,
    }
}

fn after(c: &Conditions, hours: f64, law: &SeparationLaw) -> f64 {
    let clearing = Clearing::of(c, 0.0, law);
    clearing.thin_layer(clearing.rate * hours, c.droplet_um, 80.0, &sizes(law))
}

#[test]
fn a_single_droplet_rises_as_stokes_says() {
    // Source: published rule, radius 1 µm, 90 kg/m³, 1 mPa·s: 17 mm a day (McClements, Food Emulsions).
    let law = SeparationLaw { density_gap: 90.0, ..laws().separation };
    let one = Conditions { phi: 0.0, clustering: 0.0, at_rest: 1e-3, ..raw() };
    let mm_a_day = rate(&one, &law) * 4.0 * 24.0;
    assert!((mm_a_day - 17.0).abs() < 0.5, "{mm_a_day}");
}

#[test]
fn raw_coconut_clears_in_a_day_and_what_is_fine_thick_or_held_does_not() {
    // Source: published direction, raw and homogenised coconut milk all cream in a day (Tangsuphoom and Coupland 2005);
    // common practice, a thickener holds them.
    let law = laws().separation;
    assert!(after(&raw(), 24.0, &law) > 25.0, "{}", after(&raw(), 24.0, &law));
    assert!(after(&Conditions { droplet_um: 1.0, ..raw() }, 24.0, &law) < 5.0);
    assert!(after(&Conditions { at_rest: 0.2, ..raw() }, 24.0, &law) < 5.0);
    // Source: published, Beris et al. 1985: 0.0476 of the droplet's weight per area, here 0.6 mPa, holds it.
    assert!(after(&Conditions { yield_pa: 0.01, ..raw() }, 24.0, &law) < 0.1);
    assert!(after(&raw(), 1000.0, &law) <= 100.0 * (1.0 - 0.18 / law.plug_packing));
}

#[test]
fn a_little_gum_hastens_the_rise() {
    // Source: published, J Agric Food Chem 2003, 51:265: below about 0.75 g/L of guar or xanthan creams faster.
    let law = laws().separation;
    assert!(rate(&Conditions { gum_g_l: 0.5, ..raw() }, &law) > 1.2 * rate(&raw(), &law));
}

#[test]
fn souring_and_cold_cluster_coconut_droplets_and_not_milk_fat() {
    // Source: published direction, coconut milk is least stable at pH 3.5-6.0, Monera and del Rosario.
    let law = laws().fat;
    let at = |plant, solid, ph| {
        thickening(0.18, clustering(&Droplets { plant, homogenised: 0.0, solid, ph }, &law), &law)
    };
    assert!(at(1.0, 0.0, 4.2) > 1.2 * at(1.0, 0.0, 6.4));
    assert!(at(1.0, 0.9, 4.2) > at(1.0, 0.0, 4.2));
    assert_eq!(at(0.0, 0.9, 4.2), at(0.0, 0.0, 6.6));
}

#[test]
fn the_first_gram_thickens() {
    let law = laws().starch;
    assert_eq!((dissolved(0.0, &law), granules(0.0, &law)), (1.0, 1.0));
    let mut before = 1.0;
    for i in 1..=300 {
        let x = 0.01 * f64::from(i);
        let now = granules(x, &law) * dissolved(5.0 * x, &law);
        assert!(now > before, "{x}");
        before = now;
    }
}

/// Viscosity of a starch in water at a shear rate and 25 °C, Pa·s.
fn in_water(g_l: f64, swelling: f64, consistency: f64, shear: f64, law: &StarchLaw) -> f64 {
    let mut packing = Packing::default();
    packing.add(g_l * 1e-3 * swelling, consistency, 1.0);
    let serum = 0.89e-3 * dissolved(g_l * law.soluble_cold, law) * granules(packing.effective(), law);
    serum + packing.paste(25.0, law).consistency * shear.powf(law.flow_index - 1.0)
}

#[test]
fn rice_starch_in_water() {
    // Source: doses of rice starch for 300 and 1500 mPa·s at 30 1/s, 3.75 and 5.57 g/100 g (supplement table to Vickers et
    // al., Dysphagia; that the two belong together is inferred, and whether it was cooked is not told). Level and
    // exponent of the paste were set with it, in round figures: a factor of 1.8, as any viscosity.
    let law = laws().starch;
    let pantry = crate::support::pantry();
    let rice = pantry.thickeners.iter().find(|t| t.key == "rice_starch_cold").unwrap();
    let potset_doc::pantry::Action::ColdStarch { swelling, consistency, .. } = &rice.action else { panic!() };
    let at = |g_l: f64| in_water(g_l, swelling.value, consistency.value, 30.0, &law);
    for (g_l, want) in [(37.5, 0.3), (55.7, 1.5)] {
        let got = at(g_l);
        assert!(got > want / 1.8 && got < want * 1.8, "{g_l} g/L: {got} against {want}");
    }
    let slope = (at(55.7) / at(37.5)).ln() / (55.7_f64 / 37.5).ln();
    assert!(slope > 3.0 && slope < 5.0, "{slope}");
}
