//! Growth, acid and pH against an independent program: SciPy LSODA at a relative tolerance of 1e-10.
//!
//! Cases and answers are in `tests/reference/cases.ron`, written by `python3 tests/reference/reference.py`, which
//! needs `pip install numpy scipy`. Every quantity must agree to within 1e-4 · max(|y|, scale); the scale is 1 for
//! each: 1 pH, 1 mmol/kg of an acid or a sugar, one decade of a count, 1 °C. Of organisms below 1e-3 cfu/g only that
//! they are below is compared, since there is nobody left to count.

mod cases;

use potset_base::Sugar;
use potset_numerics::ode::Tolerance;
use potset_science::Forecast;
use potset_science::simulate::{TOLERANCE, simulate_kinetics};

use cases::{Case, all, named};

/// Largest deviation that passes, as a part of max(|y|, scale).
const WITHIN: f64 = 1e-4;
/// Scale of each quantity, in its own unit: pH, mmol/kg, log10 cfu/g, °C.
const SCALE: f64 = 1.0;
/// log10 of the count below which an organism is as good as gone.
const GONE: f64 = -3.0;

/// The largest deviation, as a part of max(|y|, scale), and where it is.
#[derive(Clone, Debug, Default)]
struct Worst {
    deviation: f64,
    place: String,
}

impl Worst {
    fn curve(&mut self, what: &str, times: &[f64], got: &[f64], wanted: &[f64]) {
        assert_eq!((got.len(), wanted.len()), (times.len(), times.len()), "{what}");
        for ((t, got), wanted) in times.iter().zip(got).zip(wanted) {
            self.point(what, *t, *got, *wanted);
        }
    }

    fn point(&mut self, what: &str, t: f64, got: f64, wanted: f64) {
        let deviation = (got - wanted).abs() / wanted.abs().max(SCALE);
        // Not a number counts as the worst of all.
        if deviation.is_nan() || deviation > self.deviation {
            *self = Self { deviation, place: format!("{what} at {t} h: {got}, reference {wanted}") };
        }
    }
}

fn compared(case: &Case, f: &Forecast) -> Worst {
    let mut worst = Worst::default();
    let t = &case.times;
    worst.curve("temperature", t, &f.temperature, &case.temperature);
    worst.curve("pH", t, &f.ph, &case.ph);
    worst.curve("lactic acid", t, &f.lactic, &case.lactic);
    worst.curve("acetic acid", t, &f.acetic, &case.acetic);
    for sugar in Sugar::ALL {
        let mmol: Vec<f64> = f.sugars[sugar.index()].iter().map(|g_kg| g_kg * 1e3 / sugar.g_mol()).collect();
        let nothing = vec![0.0; t.len()];
        let wanted = case.sugars_at.iter().find(|(s, _)| *s == sugar).map_or(&nothing, |(_, y)| y);
        worst.curve(sugar.name(), t, &mmol, wanted);
    }
    assert_eq!(f.species.len(), case.log10.len());
    for (species, wanted) in f.species.iter().zip(&case.log10) {
        assert_eq!((species.log10.len(), wanted.len()), (t.len(), t.len()));
        for ((t, got), wanted) in t.iter().zip(&species.log10).zip(wanted) {
            if *wanted < GONE {
                assert!(*got < GONE, "{}: {} at {t} h should be gone, got {got}", case.name, species.key);
            } else {
                worst.point(&species.key, *t, *got, *wanted);
            }
        }
    }
    worst
}

fn deviation(case: &Case) -> Worst {
    compared(case, &simulate_kinetics(&case.mix(), &case.times, TOLERANCE).unwrap())
}

fn check(name: &str) {
    let case = named(name);
    let worst = deviation(&case);
    println!("{name} ({}): {:.1e}, {}", case.about, worst.deviation, worst.place);
    assert!(worst.deviation <= WITHIN, "{name}: {:.1e}, {}", worst.deviation, worst.place);
}

#[test]
fn milk() {
    check("milk");
}

#[test]
fn coconut() {
    check("coconut");
}

#[test]
fn no_usable_sugar() {
    check("no usable sugar");
    let case = named("no usable sugar");
    assert!(case.ph.iter().all(|ph| *ph == case.ph0) && case.lactic.iter().all(|l| *l == 0.0));
}

#[test]
fn over_hot() {
    check("over-hot");
    // The case does kill: the reference itself has the culture gone at the end.
    assert!(named("over-hot").log10.iter().all(|log| *log.last().unwrap() < GONE));
}

#[test]
fn cold_start() {
    check("cold start");
}

#[test]
fn long_hold() {
    check("long hold");
}

#[test]
fn adjuncts() {
    check("adjuncts");
    assert!(*named("adjuncts").acetic.last().unwrap() > 3.0, "too little acetic acid to be a test");
}

#[test]
fn late_sugar_and_power_cut() {
    check("late sugar and power cut");
}

#[test]
fn sugar_runs_out() {
    check("sugar runs out");
}

#[test]
fn late_culture_on_a_measured_course() {
    check("late culture, measured course");
}

#[test]
fn six_weeks_in_the_cold() {
    check("six weeks in the cold");
    // Enough is lost to be a test.
    let case = named("six weeks in the cold");
    let lost =
        |i: usize| case.log10[i].iter().fold(0.0_f64, |a, b| a.max(*b)) - case.log10[i].last().unwrap();
    assert!(lost(0) > 0.3 && lost(1) > 2.0, "{} and {}", lost(0), lost(1));
}

#[test]
fn every_stored_case_is_compared() {
    let compared = [
        "milk",
        "coconut",
        "no usable sugar",
        "over-hot",
        "cold start",
        "long hold",
        "adjuncts",
        "late sugar and power cut",
        "sugar runs out",
        "late culture, measured course",
        "six weeks in the cold",
    ];
    let stored: Vec<String> = all().into_iter().map(|case| case.name).collect();
    assert_eq!(stored, compared);
}

/// A changed case is to be caught. The changes are small: half a per cent or so of a constant.
fn caught(name: &str, what: &str, change: impl FnOnce(&mut Case)) {
    let mut case = named(name);
    change(&mut case);
    let worst = deviation(&case);
    println!("{name}, {what}: {:.1e}, {}", worst.deviation, worst.place);
    assert!(worst.deviation > 3.0 * WITHIN, "{name}: {what} is not noticed: {:.1e}", worst.deviation);
}

#[test]
fn a_changed_constant_of_an_organism_is_caught() {
    caught("milk", "growth rate", |case| case.organisms[0].growth_rate *= 1.005);
    caught("milk", "acid per cell", |case| case.organisms[1].acid_per_cell *= 1.005);
    caught("milk", "acid per cell and hour", |case| case.organisms[1].acid_per_cell_hour *= 1.005);
    caught("milk", "acid ceiling", |case| case.organisms[0].acid_ceiling *= 1.005);
    caught("coconut", "optimum temperature", |case| case.organisms[2].temperature[1] += 0.2);
    caught("coconut", "lowest pH", |case| case.organisms[0].ph[0] += 0.01);
    caught("coconut", "lag", |case| case.organisms[0].lag_work *= 1.005);
    caught("coconut", "speed", |case| case.organisms[0].speed *= 1.005);
    caught("coconut", "help", |case| case.organisms[0].helpers[0].1 *= 1.01);
    caught("sugar runs out", "half saturation", |case| case.organisms[0].half_saturation *= 1.01);
    caught("over-hot", "death", |case| case.organisms[0].d60_min *= 1.005);
    caught("over-hot", "z", |case| case.organisms[0].z_c *= 1.005);
    caught("six weeks in the cold", "loss in the cold", |case| case.organisms[1].cold_loss *= 1.01);
    caught("adjuncts", "acetic acid", |case| case.organisms[3].acetic_per_hexose *= 1.005);
    caught("adjuncts", "galactose let go", |case| case.organisms[2].galactose_released += 0.05);
    caught("late culture, measured course", "exponent", |case| case.organisms[0].acid_exponent *= 1.01);
    caught("late culture, measured course", "cold acid", |case| case.organisms[0].cold_factor *= 1.01);
    caught("late culture, measured course", "late count", |case| case.additions[0].counts[1] *= 1.01);
}

#[test]
fn a_changed_constant_of_the_pot_is_caught() {
    caught("milk", "count ceiling", |case| case.law.count_ceiling *= 1.01);
    caught("milk", "a site", |case| case.sites[7].0 *= 1.005);
    caught("milk", "lactic pK", |case| case.lactic_pka += 0.01);
    caught("milk", "activity", |case| case.activity *= 0.9);
    caught("adjuncts", "acetic pK", |case| case.acetic_pka += 0.02);
    caught("milk", "resting shift", |case| case.law.resting_shift_c += 0.2);
    caught("late culture, measured course", "cold energy", |case| case.law.cold_energy *= 1.01);
    caught("late culture, measured course", "end of the cold law", |case| case.law.cold_to_c += 1.0);
    caught("six weeks in the cold", "loss ten degrees warmer", |case| case.law.store_q10 *= 1.01);
    caught("six weeks in the cold", "delay", |case| case.law.store_delay_days *= 1.02);
    caught("cold start", "time constant", |case| {
        if let cases::Way::Newton { tau_h, .. } = &mut case.course[0].law {
            *tau_h *= 1.005;
        }
    });
    caught("late sugar and power cut", "late sugar", |case| case.additions[0].sugars[1] *= 1.005);
}

#[test]
fn the_stated_tolerance_stands_well_inside_the_comparison() {
    // The integrator's own error on top of the stored times: against a run ten thousand times finer.
    let fine = Tolerance { relative: 1e-11, absolute: 1e-11 };
    for case in all() {
        let mix = case.mix();
        let times: Vec<f64> = (0..=240).map(|i| mix.horizon_h * f64::from(i) / 240.0).collect();
        let run = |tolerance| simulate_kinetics(&mix, &times, tolerance).unwrap();
        let (usual, fine) = (run(TOLERANCE), run(fine));
        let error = usual.ph.iter().zip(&fine.ph).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        println!("{}: pH to {error:.1e}", case.name);
        assert!(error < 5e-5, "{}: pH {error:.1e} from the fine run", case.name);
    }
}
