//! What must hold for every pot: mass, carbon and charge; order; limits; and the same bits for the same design.
//!
//! Designs are drawn from the shipped pantry by a seeded generator: the same cases on each run.

use potset_base::Sugar;
use potset_base::constants::{ACETIC_G_MOL, LACTIC_G_MOL, WATER_G_MOL};
use potset_base::words::Style;
use potset_doc::Design;
use potset_doc::design::{
    AddedWhen, AdditiveLine, BaseLine, CultureLine, Disturbed, GoesIn, LabelFigures, SugarLine, SweetWhen,
    ThickenerLine,
};
use potset_doc::format;
use potset_doc::pantry::{Base, Warming};
use potset_doc::steps::{Event, Happening, Hold, Reading, Step, Way};
use potset_numerics::interpolate::first_below;
use potset_numerics::ode::Tolerance;
use potset_science::simulate::{TOLERANCE, simulate_kinetics};
use potset_science::{Forecast, Mix, simulate};
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};

use crate::support::{compiled, demo, mix, pantry};

/// Cases of the checks that every pot must pass.
const CASES: u32 = 256;
/// Cases of the checks that run two pots each.
const PAIRS: u32 = 96;
/// What roundings in the mix may do to the solution, over the scale of each curve: a kink of a rate inside a step (at the
/// lowest pH of growth, say) leaves some 1e-7 even at tight tolerances.
const ROUNDING: f64 = 1e-6;
/// What they may do to a forecast: they steer the integrator's steps, so two runs may differ by its whole error.
const STEERING: f64 = 2e-3;
/// Tolerances near the end of double precision: what is left is the model, not the integrator.
const TIGHT: Tolerance = Tolerance { relative: 1e-11, absolute: 1e-11 };

/// Runs a check on seeded cases.
pub fn check<S: Strategy>(cases: u32, strategy: &S, test: impl Fn(S::Value) -> Result<(), TestCaseError>) {
    let config = Config { cases, failure_persistence: None, max_shrink_iters: 400, ..Config::default() };
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(config, rng);
    if let Err(failure) = runner.run(strategy, test) {
        panic!("{failure}");
    }
}

fn compile(design: &Design) -> Result<Mix, TestCaseError> {
    let compiled = compiled(design);
    compiled.mix.ok_or_else(|| {
        // A powder by itself cannot be strained, and is told so: no pot to look at.
        if compiled.notes.iter().any(|n| n.title.starts_with("No more can run off")) {
            return TestCaseError::reject("strained beyond its water");
        }
        TestCaseError::fail(format!("it does not compile: {:?}", compiled.notes))
    })
}

fn tight(mix: &Mix, times: &[f64]) -> Result<Forecast, TestCaseError> {
    simulate_kinetics(mix, times, TIGHT).map_err(|e| TestCaseError::fail(e.to_string()))
}

fn run(mix: &Mix) -> Result<Forecast, TestCaseError> {
    simulate(mix).map_err(|e| TestCaseError::fail(e.to_string()))
}

// ---------------------------------------------------------------------------------------------
// Designs

fn base() -> impl Strategy<Value = BaseLine> {
    (select(pantry().bases), 0.2..4.0_f64, proptest::option::of(0.6..1.4_f64)).prop_map(
        |(entry, litres, fat)| BaseLine {
            label: LabelFigures {
                fat: fat.and_then(|share| label_fat(&entry, share)),
                ..LabelFigures::default()
            },
            ..BaseLine::new(entry.key, litres)
        },
    )
}

/// A fat figure near the usual one; water has none.
fn label_fat(entry: &Base, share: f64) -> Option<f64> {
    let usual = entry.composition.fat.value;
    (usual > 0.0).then_some(usual * share)
}

fn sugar() -> impl Strategy<Value = SugarLine> {
    (select(keys(&pantry().sugars, |s| &s.key)), 0.0..40.0_f64)
        .prop_map(|(entry, g_per_l)| SugarLine::new(entry, g_per_l))
}

/// One sugar in four is stirred in after the hold.
fn sweet() -> impl Strategy<Value = SugarLine> {
    (sugar(), 0..4_u8).prop_map(|(mut line, when)| {
        if when == 0 {
            line.when = SweetWhen::AfterTheHold;
        }
        line
    })
}

fn additive() -> impl Strategy<Value = AdditiveLine> {
    (select(pantry().additives), 0.0..1.5_f64, select(AddedWhen::ALL.to_vec()))
        .prop_map(|(entry, share, when)| AdditiveLine::new(entry.key, share * entry.usual.1, when))
}

fn thickener() -> impl Strategy<Value = ThickenerLine> {
    (select(keys(&pantry().thickeners, |t| &t.key)), 0.0..40.0_f64, any::<bool>(), any::<bool>()).prop_map(
        |(entry, g_per_l, mixed_first, early)| ThickenerLine {
            goes_in: if early { GoesIn::WithTheBase } else { GoesIn::WithTheCulture },
            ..ThickenerLine::new(entry, g_per_l, mixed_first)
        },
    )
}

fn culture() -> impl Strategy<Value = CultureLine> {
    (select(keys(&pantry().cultures, |c| &c.key)), 0.0..10.0_f64)
        .prop_map(|(entry, rate)| CultureLine::new(entry, rate))
}

/// A culture of any age, kept anywhere.
fn aged() -> impl Strategy<Value = CultureLine> {
    (culture(), 0.0..90.0_f64, proptest::option::of(-20.0..25.0_f64), any::<bool>())
        .prop_map(|(line, age_days, kept_c, opened)| CultureLine { age_days, kept_c, opened, ..line })
}

fn happening() -> impl Strategy<Value = Happening> {
    prop_oneof![
        Just(Happening::Stir),
        (5.0..300.0_f64).prop_map(|minutes| Happening::PowerCut { minutes }),
        (1.0..60.0_f64).prop_map(|minutes| Happening::Move { minutes }),
        (20.0..50.0_f64).prop_map(|c| Happening::SetTo { c }),
        sugar().prop_map(|s| Happening::LateSugar { entry: s.entry, g_per_l: s.g_per_l }),
        culture().prop_map(|c| Happening::LateCulture { entry: c.entry, rate: c.rate }),
    ]
}

fn hold() -> impl Strategy<Value = Hold> {
    let event = (0.0..1.0_f64, happening());
    (
        select(keys(&pantry().warmers, |w| &w.key)),
        20.0..60.0_f64,
        1.0..40.0_f64,
        proptest::collection::vec(event, 0..=3),
    )
        .prop_map(|(warmer, set_c, hours, events)| Hold {
            warmer,
            set_c,
            hours,
            events: events.into_iter().map(|(share, what)| Event { at_h: share * hours, what }).collect(),
            measured: Vec::new(),
        })
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let heat = proptest::option::of((70.0..90.0_f64, 0.0..40.0_f64));
    let stand = proptest::option::of(0.5..14.0_f64);
    let strain = proptest::option::of((0.0..24.0_f64, proptest::option::of(0.0..0.7_f64)));
    (2.0..30.0_f64, heat, 30.0..48.0_f64, hold(), 5.0..8.0_f64, 0.0..24.0_f64, stand, strain).prop_map(
        |(from_c, heat, culture_c, hold, chill_c, chill_h, stand, strain)| {
            let mut steps = vec![Step::Start { from_c }];
            if let Some(hours) = stand {
                steps.push(Step::Stand { hours, way: Way::Fridge });
            }
            if let Some((to_c, minutes)) = heat {
                steps.push(Step::HeatTreat { to_c, minutes, way: Way::Pan });
                steps.push(Step::Cool { to_c: culture_c, way: Way::ColdWater });
            } else {
                steps.push(Step::Warm { to_c: culture_c, way: Way::Bath });
            }
            steps.push(Step::CultureIn);
            steps.push(Step::Hold(hold));
            steps.push(Step::Chill { to_c: chill_c, hours: chill_h, way: Way::Fridge });
            if let Some((hours, removed)) = strain {
                steps.push(Step::Strain { hours, removed });
            }
            steps.push(Step::Store { days: 28.0, at_c: 5.0 });
            steps
        },
    )
}

/// A valid design.
pub fn design() -> impl Strategy<Value = Design> {
    let lines = (
        proptest::collection::vec(base(), 1..=3),
        proptest::collection::vec(sweet(), 0..=2),
        proptest::collection::vec(thickener(), 0..=3),
        proptest::collection::vec(additive(), 0..=2),
        proptest::collection::vec(aged(), 0..=2),
    );
    let handling = (select(Style::ALL.to_vec()), select(Disturbed::ALL.to_vec()));
    let pots = (select(keys(&pantry().vessels, |v| &v.key)), 1..6_u32);
    (lines, steps(), handling, pots).prop_map(
        |((bases, sugars, thickeners, additives, cultures), steps, handling, pots)| {
            let mut design = demo("coconut-pot.ron");
            (design.bases, design.sugars, design.thickeners, design.cultures) =
                (bases, sugars, thickeners, cultures);
            design.additives = additives;
            design.steps = steps;
            (design.style, design.disturbed) = handling;
            (design.pots.vessel, design.pots.count) = pots;
            design
        },
    )
}

fn keys<T>(list: &[T], key: impl Fn(&T) -> &String) -> Vec<String> {
    list.iter().map(|entry| key(entry).clone()).collect()
}

/// The hold follows a logged course, so that nothing hangs on the size of the pot.
fn logged(mut design: Design, c: f64) -> Design {
    design.steps.retain(|s| {
        !matches!(s, Step::HeatTreat { .. } | Step::Cool { .. } | Step::Warm { .. } | Step::Stand { .. })
    });
    let hold = design.hold_mut().unwrap();
    hold.measured =
        vec![Reading { at_h: 0.0, c: c - 4.0 }, Reading { at_h: 3.0, c }, Reading { at_h: 20.0, c: c - 1.0 }];
    design
}

// ---------------------------------------------------------------------------------------------
// Balances

/// What the pot was given of each sugar up to a time, mmol/kg. A point at the time of an addition is before it.
fn given(mix: &Mix, t_h: f64) -> [f64; 8] {
    let late = |s: usize| -> f64 {
        mix.additions
            .iter()
            .filter(|a| a.at_h < t_h - 1e-9 || a.at_h <= 0.0 && t_h > 0.0)
            .map(|a| a.sugars[s])
            .sum()
    };
    std::array::from_fn(|s| mix.sugars[s] + late(s))
}

/// Carbon in a molecule: six a hexose.
fn carbon(sugar: Sugar) -> f64 {
    match sugar {
        Sugar::Lactose | Sugar::Sucrose | Sugar::Maltose => 12.0,
        Sugar::Glucose | Sugar::Fructose | Sugar::Galactose => 6.0,
        Sugar::Raffinose => 18.0,
        Sugar::Stachyose => 24.0,
    }
}

/// Water that one molecule takes up when it is split into hexoses.
fn waters(sugar: Sugar) -> f64 {
    sugar.hexoses() - 1.0
}

fn balances(mix: &Mix, f: &Forecast) -> Result<(), TestCaseError> {
    for (i, t) in f.t.iter().enumerate() {
        let there: [f64; 8] = std::array::from_fn(|s| f.sugars[s][i] * 1e3 / Sugar::ALL[s].g_mol());
        let given = given(mix, *t);
        let of = |amounts: &[f64; 8], each: &dyn Fn(Sugar) -> f64| -> f64 {
            amounts.iter().zip(Sugar::ALL).map(|(n, sugar)| n * each(sugar)).sum()
        };
        let carbon_in = of(&given, &carbon);
        let [lactic, acetic] = [f.lactic[i] - mix.carried[0], f.acetic[i] - mix.carried[1]];
        let carbon_out = of(&there, &carbon) + 3.0 * lactic + 2.0 * acetic;
        prop_assert!(
            (carbon_in - carbon_out).abs() <= 1e-6 * carbon_in.max(1.0),
            "carbon at {t} h: {carbon_in} {carbon_out}"
        );
        let split = of(&given, &waters) - of(&there, &waters);
        let mass_in = of(&given, &Sugar::g_mol) + split * WATER_G_MOL;
        let mass_out = of(&there, &Sugar::g_mol) + lactic * LACTIC_G_MOL + acetic * ACETIC_G_MOL;
        prop_assert!(
            (mass_in - mass_out).abs() <= 1e-6 * mass_in.max(1.0),
            "mass at {t} h: {mass_in} {mass_out}"
        );
        let charge = mix.balance.residual(f.ph[i], f.lactic[i], f.acetic[i]);
        prop_assert!(charge.abs() < 1e-6, "charge at {t} h: {charge} mmol/kg at pH {}", f.ph[i]);
    }
    Ok(())
}

#[test]
fn mass_carbon_and_charge_are_kept() {
    check(CASES, &design(), |design| {
        let mix = compile(&design)?;
        balances(&mix, &run(&mix)?)
    });
}

// ---------------------------------------------------------------------------------------------
// Curves

fn all_finite(f: &Forecast) -> Result<(), TestCaseError> {
    let curves = [
        ("temperature", &f.temperature),
        ("pH", &f.ph),
        ("lactic", &f.lactic),
        ("acetic", &f.acetic),
        ("undissociated", &f.undissociated),
        ("acid made", &f.acid_made),
        ("titratable", &f.titratable),
        ("sugar", &f.sugar_total),
        ("warm viscosity", &f.warm.viscosity50),
        ("warm stiffness", &f.warm.stiffness_pa),
        ("chilled viscosity", &f.chilled.viscosity50),
        ("low bound", &f.chilled.low50),
        ("high bound", &f.chilled.high50),
        ("chilled stiffness", &f.chilled.stiffness_pa),
    ];
    for (name, ys) in curves {
        prop_assert_eq!(ys.len(), f.t.len(), "{}", name);
        prop_assert!(ys.iter().all(|y| y.is_finite()), "{} is not finite", name);
    }
    for species in &f.species {
        prop_assert!(species.log10.iter().chain(&species.acid).all(|y| y.is_finite()), "{}", species.key);
    }
    for texture in f.warm.at.iter().chain(&f.chilled.at) {
        let w = texture.whey;
        let all = [texture.viscosity10, texture.yield_pa, w.centrifuged, w.standing, w.cut];
        prop_assert!(all.iter().all(|y| y.is_finite() && *y >= 0.0), "{all:?}");
        prop_assert!(w.centrifuged <= 100.0 && w.standing <= w.centrifuged, "{w:?}");
        prop_assert!(texture.low50 <= texture.viscosity50 && texture.viscosity50 <= texture.high50);
    }
    Ok(())
}

#[test]
fn every_design_gives_whole_and_finite_curves() {
    check(CASES, &design(), |design| all_finite(&run(&compile(&design)?)?));
}

#[test]
fn ph_falls_sugars_stay_above_nothing_and_counts_below_the_ceiling() {
    check(CASES, &design(), |design| {
        let mix = compile(&design)?;
        let f = run(&mix)?;
        // At the forecast's own tolerances a curve may ripple by some millionths where a rate has a kink.
        for (f, ripple) in [(&f, 1e-5), (&tight(&mix, &f.t)?, 1e-6)] {
            for pair in f.ph.windows(2) {
                prop_assert!(pair[1] <= pair[0] + ripple, "pH rises from {} to {}", pair[0], pair[1]);
            }
        }
        for curve in &f.sugars {
            prop_assert!(curve.iter().all(|g| *g >= 0.0));
        }
        for i in 0..f.t.len() {
            let total: f64 = f.species.iter().map(|s| 10.0_f64.powf(s.log10[i])).sum();
            prop_assert!(total <= 1.01 * mix.laws.growth.count_ceiling, "{total} cfu/g at {} h", f.t[i]);
        }
        Ok(())
    });
}

#[test]
fn no_growth_outside_the_limits_of_ph_and_temperature() {
    check(CASES, &design(), |design| {
        let mix = compile(&design)?;
        let times: Vec<f64> = (0..=240).map(|i| mix.horizon_h * f64::from(i) / 240.0).collect();
        let f = tight(&mix, &times)?;
        for (o, species) in mix.organisms.iter().zip(&f.species) {
            for i in 1..f.t.len() {
                let (from, to) = (f.t[i - 1], f.t[i]);
                if mix.additions.iter().any(|a| a.at_h >= from - 1e-9 && a.at_h <= to + 1e-9) {
                    continue;
                }
                let breaks = mix.course.breaks().iter().copied().filter(|b| *b > from && *b < to);
                let inner = (0..=8).map(|k| from + (to - from) * f64::from(k) / 8.0);
                let temperatures: Vec<f64> = breaks.chain(inner).map(|t| mix.course.at(t)).collect();
                let cold = temperatures.iter().all(|c| *c <= o.temperature[0]);
                let hot = temperatures.iter().all(|c| *c >= o.temperature[2]);
                let sour = f.ph[i - 1] <= o.ph[0];
                if cold || hot || sour {
                    let rise = species.log10[i] - species.log10[i - 1];
                    prop_assert!(
                        rise <= 1e-6,
                        "{} grows by {rise} at {to} h, {} °C, pH {}",
                        o.key,
                        f.temperature[i],
                        f.ph[i]
                    );
                }
            }
        }
        Ok(())
    });
}

#[test]
fn a_forecast_is_near_the_exact_solution() {
    // Loose bound: the worst of these pots is 0.0007 pH off, where the pot's warmth crosses a limit of growth inside a
    // step of the integrator.
    check(PAIRS, &design(), |design| {
        let mix = compile(&design)?;
        let f = run(&mix)?;
        let exact = tight(&mix, &f.t)?;
        let worst = f.ph.iter().zip(&exact.ph).fold(0.0_f64, |m, (a, b)| m.max((a - b).abs()));
        prop_assert!(worst < 1e-3, "{worst} pH");
        Ok(())
    });
}

/// An organism with a count of 0 is kept at a floor for the logarithm's sake; nothing may grow from it.
#[test]
fn a_pot_without_any_culture_makes_no_acid() {
    // Cells that are not there cannot grow: with no culture, or with a rate of 0, the pot stays as it is.
    check(PAIRS, &design(), |mut design| {
        for line in &mut design.cultures {
            line.rate = 0.0;
        }
        if let Some(hold) = design.hold_mut() {
            hold.events.retain(|e| !matches!(e.what, Happening::LateCulture { .. }));
        }
        let f = run(&compile(&design)?)?;
        let made = f.acid_made.last().copied().unwrap_or(f64::NAN);
        prop_assert!(made < 1e-6, "{made} % acid after {} h", f.horizon_h);
        Ok(())
    });
}

// ---------------------------------------------------------------------------------------------
// Order and limits

#[test]
fn more_culture_is_never_later() {
    check(PAIRS, &(design(), 0.02..5.0_f64), |(mut design, rate)| {
        let times =
            |mix: &Mix| -> Vec<f64> { (0..=4800).map(|i| mix.horizon_h * f64::from(i) / 4800.0).collect() };
        let mut at = |factor: f64| {
            for line in &mut design.cultures {
                line.rate = rate * factor;
            }
            let mut mix = compile(&design)?;
            // More of a sour starter is more acid too, and that may hold it up: here only the cells are more.
            mix.carried = [0.0; 2];
            let times = times(&mix);
            let f =
                simulate_kinetics(&mix, &times, TOLERANCE).map_err(|e| TestCaseError::fail(e.to_string()))?;
            Ok::<_, TestCaseError>(first_below(&f.t, &f.ph, 4.6))
        };
        let (once, twice) = (at(1.0)?, at(2.0)?);
        if let Some(once) = once {
            prop_assert!(
                twice.is_some_and(|twice| twice <= once + 2e-3),
                "rate {rate}: {once} h; twice: {twice:?}"
            );
        }
        Ok(())
    });
}

/// Two mixes that differ by roundings alone: the same solution, and the same forecast within the integrator's error.
fn same(a: &Mix, b: &Mix) -> Result<(), TestCaseError> {
    let (f, g) = (run(a)?, run(b)?);
    let forecasts = apart(&f, &g);
    prop_assert!(forecasts < STEERING, "the forecasts differ by {forecasts}");
    let solutions = apart(&tight(a, &f.t)?, &tight(b, &g.t)?);
    prop_assert!(solutions < ROUNDING, "the solutions differ by {solutions}");
    Ok(())
}

/// Largest difference of two forecasts over the scale of each curve.
fn apart(a: &Forecast, b: &Forecast) -> f64 {
    let pairs = [
        (&a.ph, &b.ph),
        (&a.lactic, &b.lactic),
        (&a.acetic, &b.acetic),
        (&a.sugar_total, &b.sugar_total),
        (&a.titratable, &b.titratable),
        (&a.warm.viscosity50, &b.warm.viscosity50),
        (&a.warm.stiffness_pa, &b.warm.stiffness_pa),
        (&a.chilled.viscosity50, &b.chilled.viscosity50),
        (&a.chilled.stiffness_pa, &b.chilled.stiffness_pa),
    ];
    let mut most = 0.0_f64;
    for (x, y) in pairs {
        let scale = x.iter().fold(1e-3_f64, |m, v| m.max(v.abs()));
        for (p, q) in x.iter().zip(y) {
            most = most.max((p - q).abs() / scale);
        }
    }
    most
}

#[test]
fn the_size_of_the_batch_changes_nothing_at_the_same_temperatures() {
    check(PAIRS, &(design(), 30.0..46.0_f64, 0.3..30.0_f64), |(design, c, factor)| {
        let small = logged(design, c);
        let mut large = small.clone();
        for line in &mut large.bases {
            line.litres *= factor;
        }
        same(&compile(&small)?, &compile(&large)?)
    });
}

#[test]
fn a_blend_of_a_base_with_itself_is_that_base() {
    check(PAIRS, &(design(), 0.05..0.95_f64), |(mut whole, share)| {
        whole.bases.truncate(1);
        let mut halves = whole.clone();
        let mut second = halves.bases[0].clone();
        second.litres *= 1.0 - share;
        halves.bases[0].litres *= share;
        halves.bases.push(second);
        same(&compile(&whole)?, &compile(&halves)?)
    });
}

#[test]
fn a_culture_in_two_halves_is_that_culture() {
    check(PAIRS, &(design(), 0.05..0.95_f64), |(mut whole, share)| {
        whole.cultures.truncate(1);
        let Some(line) = whole.cultures.first().cloned() else { return Ok(()) };
        let mut halves = whole.clone();
        halves.cultures[0].rate = line.rate * share;
        halves.cultures.push(CultureLine { rate: line.rate * (1.0 - share), ..line });
        same(&compile(&whole)?, &compile(&halves)?)
    });
}

// ---------------------------------------------------------------------------------------------
// Files and bits

#[test]
fn a_design_written_and_read_is_the_same() {
    let pantry = pantry();
    check(CASES, &design(), |mut design| {
        design.refresh_snapshot(&pantry);
        let text = format::write(&design).map_err(|e| TestCaseError::fail(e.to_string()))?;
        let back = format::read_design(text.as_bytes()).map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert_eq!(&back, &design);
        prop_assert_eq!(format::write(&back).map_err(|e| TestCaseError::fail(e.to_string()))?, text);
        Ok(())
    });
}

#[test]
fn a_snapshot_of_the_pantry_forecasts_as_the_pantry() {
    let pantry = pantry();
    check(PAIRS, &design(), |design| {
        let mut own = design.clone();
        own.refresh_snapshot(&pantry);
        prop_assert!(run(&compile(&design)?)? == run(&compile(&own)?)?);
        Ok(())
    });
}

#[test]
fn the_same_design_gives_the_same_bits() {
    check(PAIRS, &design(), |design| {
        let (a, b) = (run(&compile(&design)?)?, run(&compile(&design.clone())?)?);
        let bits = |f: &Forecast| -> Vec<u64> {
            let curves = [&f.ph, &f.lactic, &f.sugar_total, &f.warm.viscosity50, &f.chilled.stiffness_pa];
            curves.iter().flat_map(|ys| ys.iter().map(|y| y.to_bits())).collect()
        };
        prop_assert_eq!(bits(&a), bits(&b));
        prop_assert!(a == b);
        Ok(())
    });
}

#[test]
fn every_warmer_of_the_pantry_is_drawn() {
    // The generator must reach each kind of warmer, or the checks above say less than they seem to.
    let kinds: Vec<bool> =
        pantry().warmers.iter().map(|w| matches!(w.warming, Warming::Insulated { .. })).collect();
    assert!(kinds.contains(&true) && kinds.contains(&false));
    assert!(mix(&demo("coconut-pot.ron")).horizon_h > 0.0);
}

#[test]
fn keeping_ends_on_the_day_that_is_asked_for() {
    use potset_science::keep::{each_day, keep};
    let mix = mix(&demo("whole-milk-pot.ron"));
    let long = keep(&mix, mix.stop_h, &each_day(28), 4.0).unwrap();
    for days in [2.0, 4.0, 6.5, 20.0] {
        let kept = keep(&mix, mix.stop_h, &[days], 4.0).unwrap();
        assert!((kept.days.last().unwrap() - days).abs() < 1e-9, "{days}: {:?}", kept.days);
        // It souring on, the last pH lies between those of the listed days around it.
        let at = long.days.partition_point(|d| *d < days - 1e-9);
        let ph = *kept.ph.last().unwrap();
        assert!(ph <= long.ph[at - 1] + 1e-4 && ph >= long.ph[at] - 1e-4, "{days}: {ph}");
    }
}
