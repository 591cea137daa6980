//! No forecast jumps as a lever is moved: a true jump fails, a steep slope passes.
//!
//! Each lever is swept finely; around the largest steps, and around steps that stand out from their neighbours, the step is
//! made ten times smaller, three times over. On a slope the change shrinks with the step; at a jump it stays.

use potset_doc::Design;
use potset_doc::design::{AddedWhen, AdditiveLine, SugarLine, SweetWhen, ThickenerLine};
use potset_doc::steps::{Event, Happening, Reading, Step, Way};
use potset_science::simulate;

use crate::support::{compiled, demo};

/// Steps of a sweep.
const STEPS: usize = 400;
/// How many times a step is made ten times smaller.
const LEVELS: usize = 7;
/// How many places of a curve are looked at closely.
const PLACES: usize = 2;

/// What is watched at the stop, and the smallest change that counts: the integrator's own noise is well below.
const WATCHED: [(&str, f64); 13] = [
    ("pH", 2e-3),
    ("log10 acid made", 5e-3),
    ("sugar, g/kg", 2e-2),
    ("log10 warm viscosity", 5e-3),
    ("log10 chilled viscosity", 5e-3),
    ("log10 warm stiffness", 5e-3),
    ("log10 chilled stiffness", 5e-3),
    ("centrifuged whey, %", 0.05),
    ("standing whey, %", 0.05),
    ("log10 low bound", 5e-3),
    ("log10 high bound", 5e-3),
    ("thin layer in the pot, %", 0.2),
    ("thin layer chilled, %", 0.2),
];

type Outputs = [f64; WATCHED.len()];

/// The forecast at the stop, read between the points.
fn outputs(design: &Design) -> Outputs {
    let compiled = compiled(design);
    let mix = compiled.mix.unwrap_or_else(|| panic!("{:?}", compiled.notes));
    let f = simulate(&mix).unwrap();
    let at = |ys: &[f64]| f.value(ys, f.stop_h);
    let log = |ys: &[f64], small: f64| (at(ys) + small).log10();
    let thin = |curves: &potset_science::forecast::TextureCurves| -> Vec<f64> {
        curves.at.iter().map(|t| t.thin_layer).collect()
    };
    let centrifuged: Vec<f64> = f.chilled.at.iter().map(|t| t.whey.centrifuged).collect();
    let standing: Vec<f64> = f.chilled.at.iter().map(|t| t.whey.standing).collect();
    [
        at(&f.ph),
        log(&f.acid_made, 1e-4),
        at(&f.sugar_total),
        log(&f.warm.viscosity50, 1e-6),
        log(&f.chilled.viscosity50, 1e-6),
        log(&f.warm.stiffness_pa, 1e-2),
        log(&f.chilled.stiffness_pa, 1e-2),
        at(&centrifuged),
        at(&standing),
        log(&f.chilled.low50, 1e-6),
        log(&f.chilled.high50, 1e-6),
        at(&thin(&f.warm)),
        at(&thin(&f.chilled)),
    ]
}

/// Jumps of a lever moved from `low` to `high` in even steps: one line each.
fn jumps(name: &str, low: f64, high: f64, run: &dyn Fn(f64) -> Outputs) -> Vec<String> {
    let width = (high - low) / STEPS as f64;
    let at = |i: usize| low + width * i as f64;
    let all: Vec<Outputs> = (0..=STEPS).map(|i| run(at(i))).collect();
    let mut found = Vec::new();
    for (o, (what, noise)) in WATCHED.iter().enumerate() {
        let step = |i: usize| all[i + 1][o] - all[i][o];
        // Of the steps, the largest; and those that differ most from what the steps beside them lead one to expect.
        let odd = |i: usize| {
            let before = if i > 0 { step(i - 1) } else { step(i + 1) };
            let after = if i + 1 < STEPS { step(i + 1) } else { step(i - 1) };
            (step(i) - 0.5 * (before + after)).abs()
        };
        let mut places: Vec<usize> = (0..STEPS).collect();
        places.sort_by(|a, b| odd(*b).total_cmp(&odd(*a)));
        places.truncate(PLACES);
        places.extend((0..STEPS).max_by(|a, b| step(*a).abs().total_cmp(&step(*b).abs())));
        for i in places {
            if step(i).abs() > *noise
                && let Some((x, size)) = closer(at(i), width, step(i), *noise, &|x| run(x)[o])
            {
                found.push(format!("{name}: {what} jumps by {size:.4} at {x:.6}"));
            }
        }
    }
    found.dedup();
    found
}

/// Looks ten times closer, again and again; gives the place and size of a jump that does not shrink.
fn closer(from: f64, width: f64, first: f64, noise: f64, run: &dyn Fn(f64) -> f64) -> Option<(f64, f64)> {
    let (mut from, mut width, mut change) = (from, width, first);
    for _ in 0..LEVELS {
        width /= 10.0;
        let ys: Vec<f64> = (0..=10).map(|k| run(from + width * f64::from(k))).collect();
        let steepest =
            (0..10).max_by(|a, b| (ys[a + 1] - ys[*a]).abs().total_cmp(&(ys[b + 1] - ys[*b]).abs()))?;
        change = ys[steepest + 1] - ys[steepest];
        from += width * steepest as f64;
        // On a slope each tenfold step brings the change to a tenth; at a jump it stays.
        if change.abs() <= noise {
            return None;
        }
    }
    (change.abs() > 0.1 * first.abs()).then_some((from, change))
}

// ---------------------------------------------------------------------------------------------
// Pots and levers

fn coconut() -> Design {
    demo("coconut-pot.ron")
}

/// Milk, heated, with gelatin and a home dose.
fn dairy() -> Design {
    let mut design = coconut();
    design.bases[0].entry = "whole_cows_milk".to_owned();
    let mut water = design.bases[0].clone();
    (water.entry, water.litres) = ("water".to_owned(), 0.1);
    design.bases.push(water);
    design.sugars[0].g_per_l = 5.0;
    design.cultures[0].entry = "dairy_with_adjuncts".to_owned();
    design.thickeners = vec![line("gelatin", 2.0)];
    design.steps.splice(
        1..2,
        [
            Step::HeatTreat { to_c: 85.0, minutes: 10.0, way: Way::Pan },
            Step::Cool { to_c: 42.0, way: Way::ColdWater },
        ],
    );
    let hold = design.hold_mut().unwrap();
    (hold.set_c, hold.hours) = (42.0, 7.0);
    design
}

/// Coconut with cornstarch and agar, cooked in the base.
fn cooked() -> Design {
    let mut design = coconut();
    design.thickeners = vec![line("cornstarch", 20.0), line("agar", 2.0)];
    design.steps.splice(
        1..2,
        [
            Step::HeatTreat { to_c: 86.0, minutes: 3.0, way: Way::Pan },
            Step::Cool { to_c: 40.0, way: Way::ColdWater },
        ],
    );
    design.hold_mut().unwrap().hours = 15.0;
    design
}

fn line(entry: &str, g_per_l: f64) -> ThickenerLine {
    ThickenerLine::new(entry.to_owned(), g_per_l, true)
}

/// Moves one lever of a pot.
fn sweep(pot: &str, design: &Design, lever: &str, low: f64, high: f64, turn: impl Fn(&mut Design, f64)) {
    let run = |x: f64| {
        let mut design = design.clone();
        turn(&mut design, x);
        outputs(&design)
    };
    let found = jumps(&format!("{pot}, {lever}"), low, high, &run);
    assert!(found.is_empty(), "{}", found.join("\n"));
}

fn start(design: &mut Design, c: f64) {
    if let Some(Step::Start { from_c }) = design.steps.first_mut() {
        *from_c = c;
    }
}

fn heat(design: &mut Design, c: f64) {
    for step in &mut design.steps {
        if let Step::HeatTreat { to_c, .. } = step {
            *to_c = c;
        }
    }
}

fn chill(design: &mut Design, c: f64) {
    for step in &mut design.steps {
        if let Step::Chill { to_c, .. } = step {
            *to_c = c;
        }
    }
}

macro_rules! levers {
    ($pot:ident, $make:expr, $fat:expr, [$($name:ident: $low:expr, $high:expr, $turn:expr;)*]) => {
        mod $pot {
            use super::*;

            #[test]
            fn litres() {
                sweep(stringify!($pot), &$make, "litres", 0.3, 8.0, |d, x| d.bases[0].litres = x);
            }

            #[test]
            fn fat() {
                sweep(stringify!($pot), &$make, "label fat", $fat.0, $fat.1, |d, x| d.bases[0].label.fat = Some(x));
            }

            #[test]
            fn sugar() {
                sweep(stringify!($pot), &$make, "sugar", 0.0, 60.0, |d, x| d.sugars[0].g_per_l = x);
            }

            #[test]
            fn culture() {
                sweep(stringify!($pot), &$make, "culture rate", 0.0, 3.0, |d, x| d.cultures[0].rate = x);
            }

            #[test]
            fn start_temperature() {
                sweep(stringify!($pot), &$make, "start", 2.0, 45.0, start);
            }

            #[test]
            fn hold_temperature() {
                // Every Tmin, Topt and Tmax of the organisms lies in this range, and 26, 30 and 34 °C of the cold law.
                sweep(stringify!($pot), &$make, "hold temperature", 20.0, 60.0, |d, x| d.hold_mut().unwrap().set_c = x);
            }

            #[test]
            fn chill_temperature() {
                sweep(stringify!($pot), &$make, "chill", 4.1, 20.0, chill);
            }

            $(
                #[test]
                fn $name() {
                    sweep(stringify!($pot), &$make, stringify!($name), $low, $high, $turn);
                }
            )*
        }
    };
}

fn happen(design: &mut Design, at_h: f64, what: Happening) {
    design.hold_mut().unwrap().events = vec![Event { at_h, what }];
}

fn late_sugar(g_per_l: f64) -> Happening {
    Happening::LateSugar { entry: "white_sugar".to_owned(), g_per_l }
}

fn late_culture(rate: f64) -> Happening {
    Happening::LateCulture { entry: "dairy_with_adjuncts".to_owned(), rate }
}

/// Milk that was not heated, soured at 42 °C, then left in a hotter place for the rest of a day.
fn warmer_later(design: &mut Design, c: f64) {
    design.steps.retain(|s| !matches!(s, Step::HeatTreat { .. } | Step::Cool { .. }));
    let hold = design.hold_mut().unwrap();
    hold.hours = 24.0;
    hold.measured =
        [(0.0, 42.0), (9.0, 42.0), (9.5, c), (24.0, c)].map(|(at_h, c)| Reading { at_h, c }).to_vec();
}

fn chilled_hours(design: &mut Design, x: f64) {
    for step in &mut design.steps {
        if let Step::Chill { hours, .. } = step {
            *hours = x;
        }
    }
}

/// One additive at a dose.
fn additive(design: &mut Design, entry: &str, g_per_l: f64, when: AddedWhen) {
    design.additives = vec![AdditiveLine::new(entry.to_owned(), g_per_l, when)];
}

/// Sugar stirred in after the hold.
fn sweetened(design: &mut Design, g_per_l: f64) {
    let line =
        SugarLine { when: SweetWhen::AfterTheHold, ..SugarLine::new("white_sugar".to_owned(), g_per_l) };
    design.sugars.push(line);
}

/// Lactase in the base for some hours in the fridge before the heat.
fn rested(design: &mut Design, hours: f64) {
    additive(design, "lactase", 0.5, AddedWhen::WithTheBase);
    design.steps.insert(1, Step::Stand { hours, way: Way::Fridge });
}

levers!(coconut_pot, coconut(), (5.0, 30.0), [
    power_cut: 0.0, 600.0, |d, x| happen(d, 5.0, Happening::PowerCut { minutes: x });
    power_cut_time: 0.0, 23.9, |d, x| happen(d, x, Happening::PowerCut { minutes: 120.0 });
    late_sugar_amount: 0.0, 40.0, |d, x| happen(d, 6.0, late_sugar(x));
    late_sugar_time: 0.0, 23.9, |d, x| happen(d, x, late_sugar(10.0));
    late_culture_rate: 0.0, 3.0, |d, x| happen(d, 6.0, late_culture(x));
    late_culture_time: 0.0, 23.9, |d, x| happen(d, x, late_culture(1.0));
    chill_hours: 0.0, 48.0, chilled_hours;
    move_time: 0.0, 23.9, |d, x| happen(d, x, Happening::Move { minutes: 10.0 });
    warmer_set_to: 20.0, 55.0, |d, x| happen(d, 5.0, Happening::SetTo { c: x });
    warmer_set_at: 0.0, 23.9, |d, x| happen(d, x, Happening::SetTo { c: 30.0 });
    citric_acid: 0.0, 5.0, |d, x| additive(d, "citric_acid", x, AddedWhen::WithTheBase);
    chalk: 0.0, 4.0, |d, x| additive(d, "calcium_carbonate", x, AddedWhen::WithTheBase);
    benzoate: 0.0, 1.0, |d, x| additive(d, "sodium_benzoate", x, AddedWhen::WithTheBase);
    salt: 0.0, 40.0, |d, x| additive(d, "salt", x, AddedWhen::WithTheCulture);
    fruit: 0.0, 300.0, |d, x| additive(d, "fruit_puree", x, AddedWhen::AfterTheHold);
    sweetened_after: 0.0, 150.0, sweetened;
    culture_age: 0.0, 400.0, |d, x| d.cultures[0].age_days = x;
    culture_kept: -30.0, 40.0, |d, x| (d.cultures[0].age_days, d.cultures[0].kept_c) = (60.0, Some(x));
    xanthan: 0.0, 6.0, |d, x| d.thickeners = vec![line("xanthan_gum", x)];
    pectin: 0.0, 10.0, |d, x| d.thickeners = vec![line("lm_pectin", x)];
    rice_starch: 0.0, 60.0, |d, x| d.thickeners[0].g_per_l = x;
    hold_hours: 1.0, 40.0, |d, x| d.hold_mut().unwrap().hours = x;
]);

levers!(dairy_pot, dairy(), (0.5, 10.0), [
    late_warmth: 50.0, 60.0, warmer_later;
    water: 0.0, 2.0, |d, x| d.bases[1].litres = x.max(0.01);
    gelatin: 0.0, 12.0, |d, x| d.thickeners[0].g_per_l = x;
    heat_treatment: 55.0, 95.0, heat;
    stir_time: 0.0, 6.9, |d, x| happen(d, x, Happening::Stir);
    lactase: 0.0, 3.0, |d, x| additive(d, "lactase", x, AddedWhen::WithTheCulture);
    lactase_rest: 0.0, 24.0, rested;
    milk_powder: 0.0, 80.0, |d, x| d.thickeners = vec![line("skim_milk_powder", x)];
    strained_hours: 0.0, 24.0, |d, x| d.steps.push(Step::Strain { hours: x, removed: None });
    strained_share: 0.0, 0.8, |d, x| d.steps.push(Step::Strain { hours: 1.0, removed: Some(x) });
    hold_hours: 1.0, 20.0, |d, x| d.hold_mut().unwrap().hours = x;
]);

levers!(cornstarch_pot, cooked(), (5.0, 30.0), [
    cornstarch: 0.0, 60.0, |d, x| d.thickeners[0].g_per_l = x;
    agar: 0.0, 8.0, |d, x| d.thickeners[1].g_per_l = x;
    heat_treatment: 55.0, 95.0, heat;
    hold_hours: 1.0, 40.0, |d, x| d.hold_mut().unwrap().hours = x;
]);

// ---------------------------------------------------------------------------------------------
// The search itself, and the readings of the forecast

#[test]
fn a_jump_is_found_and_slopes_and_kinks_pass() {
    let one = |f: &dyn Fn(f64) -> f64| {
        jumps("sample", 0.0, 1.0, &|x| std::array::from_fn(|o| if o == 0 { f(x) } else { 0.0 }))
    };
    assert!(one(&|x| 3.0 * x + if x > 0.4321 { 0.02 } else { 0.0 }).len() == 1);
    assert!(one(&|x| (40.0 * x).sin() + if x > 0.77 { 0.01 } else { 0.0 }).len() == 1);
    assert!(one(&|x| ((x - 0.5) / 1e-4).tanh()).is_empty());
    assert!(one(&|x| (x - 0.5).abs()).is_empty());
    assert!(one(&|x| (x + 1e-9).sqrt()).is_empty());
}

/// Texture and whey are read on the line between the points, as pH and sugar are, so that they never move in steps.
#[test]
fn texture_and_whey_are_read_between_the_points() {
    for design in [dairy(), cooked()] {
        let f = crate::support::forecast(&design);
        for i in 1..f.t.len() {
            let middle = 0.5 * (f.t[i - 1] + f.t[i]);
            let (warm, chilled) = f.textures(middle).unwrap();
            let want = f.value(&f.chilled.viscosity50, middle);
            assert!(
                (chilled.viscosity50 / want).log10().abs() < 5e-3,
                "chilled, {middle} h: {} {want}",
                chilled.viscosity50
            );
            let want = f.value(&f.warm.viscosity50, middle);
            assert!(
                (warm.viscosity50 / want).log10().abs() < 5e-3,
                "warm, {middle} h: {} {want}",
                warm.viscosity50
            );
        }
    }
}

#[test]
fn the_switch_of_the_horizon_is_not_seen_at_the_stop() {
    let mut rows = Vec::new();
    for hours in [9.6, 14.4, 19.2, 28.8, 38.4] {
        for (name, mut design) in [("coconut", coconut()), ("milk", dairy()), ("cooked", cooked())] {
            let mut at = |h: f64| {
                design.hold_mut().unwrap().hours = h;
                outputs(&design)
            };
            let (below, above) = (at(hours - 1e-9), at(hours + 1e-9));
            for (o, (what, noise)) in WATCHED.iter().enumerate() {
                let jump = (above[o] - below[o]).abs();
                if jump > 0.1 * noise {
                    println!("{name}, {hours} h: {what} jumps by {jump:.1e}");
                }
                if jump > *noise {
                    rows.push(format!("{name}, {hours} h: {what} jumps by {jump:.1e}"));
                }
            }
        }
    }
    assert!(rows.is_empty(), "{}", rows.join("\n"));
}
