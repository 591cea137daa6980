//! Days in the cold: counts fall by organism after some days, nothing jumps, nothing is lost from the balance, and what is
//! beyond reach is refused by its name.

use potset_base::Sugar;
use potset_doc::steps::{LONGEST_STORE_DAYS, Step};
use potset_doc::{Design, Kitchen, Learnt, Pantry};
use potset_doubt::ready_times;
use potset_doubt::spread::{SEED, Spreader};
use potset_export::verdict as text;
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_judge::keeping;
use potset_report::spread::day_sentence;
use potset_science::Mix;
use potset_science::keep::{Keeping, each_day, keep, keep_coarse};

use crate::support::{compiled, demo, mix, pantry};

/// With the figures of the pantry as it is shipped.
fn milk() -> Mix {
    let mut design = demo("whole-milk-pot.ron");
    design.snapshot = Pantry::default().into();
    mix(&design)
}

fn count(k: &Keeping, key: &str, day: f64) -> f64 {
    let species = k.species.iter().find(|s| s.key == key).unwrap();
    potset_numerics::interpolate::curve(&k.days, &species.log10, day)
}

fn stored(name: &str, days: f64, at_c: f64) -> Design {
    let mut design = demo(name);
    design.steps.retain(|s| !matches!(s, Step::Store { .. }));
    design.steps.push(Step::Store { days, at_c });
    design
}

#[test]
fn cells_are_lost_by_organism_after_some_days_and_sooner_where_it_is_warmer() {
    let mix = milk();
    let at = |c: f64| keep(&mix, mix.stop_h, &each_day(42), c).unwrap();
    let (cold, warm) = (at(4.0), at(10.0));
    let lost = |k: &Keeping, key: &str, from: f64, to: f64| count(k, key, from) - count(k, key, to);
    // The pantry's own figures, to the share that has set in.
    let week = lost(&cold, "l_bulgaricus", 28.0, 35.0);
    assert!((week - 0.4).abs() < 0.01, "{week}");
    assert!((lost(&cold, "s_thermophilus", 28.0, 35.0) - 0.08).abs() < 0.01);
    assert!(lost(&cold, "l_bulgaricus", 1.0, 2.0) < 0.5 * lost(&cold, "l_bulgaricus", 28.0, 29.0));
    assert!(lost(&warm, "l_bulgaricus", 1.0, 28.0) > 1.4 * lost(&cold, "l_bulgaricus", 1.0, 28.0));
}

#[test]
fn fewer_living_cells_make_less_acid() {
    let mut mix = milk();
    let hardy = {
        let mut hardy = mix.clone();
        hardy.organisms.iter_mut().for_each(|o| o.cold_loss = 0.0);
        keep(&hardy, hardy.stop_h, &each_day(42), 4.0).unwrap()
    };
    mix.organisms.iter_mut().for_each(|o| o.cold_loss = 1.0);
    let frail = keep(&mix, mix.stop_h, &each_day(42), 4.0).unwrap();
    let made = |k: &Keeping| k.acid_made.last().unwrap() - k.acid_made[0];
    assert!(made(&frail) < 0.8 * made(&hardy), "{} and {}", made(&frail), made(&hardy));
}

#[test]
fn sugar_and_acid_balance_over_six_weeks() {
    let mut mix = milk();
    // One course through the hold, the chill and the store.
    mix.course = potset_science::keep::course(&mix, mix.stop_h, 42.0, 4.0);
    let times: Vec<f64> = (0..=60).map(|i| mix.course.end_h() * f64::from(i) / 60.0).collect();
    let f = potset_science::simulate::simulate_kinetics(&mix, &times, potset_science::simulate::TOLERANCE);
    let f = f.unwrap();
    let hexoses = |i: usize| {
        let sugar = |s: Sugar| f.sugars[s.index()][i] * 1e3 / s.g_mol() * s.hexoses();
        Sugar::ALL.into_iter().map(sugar).sum::<f64>() + 0.5 * f.lactic[i]
    };
    for (i, t) in times.iter().enumerate() {
        assert!((hexoses(i) / hexoses(0) - 1.0).abs() < 1e-6, "{t} h");
        // Protons that the milk took up are those that the acid gave.
        let balance = &mix.balance;
        let free = |ph: f64| 10.0_f64.powf(3.0 - ph) / balance.activity;
        let bound = |ph: f64| potset_science::acid_base::sites::bound(&balance.sites, ph) + free(ph);
        let given = f.lactic[i] / (1.0 + 10.0_f64.powf(balance.lactic_pka - f.ph[i]));
        assert!((bound(f.ph[i]) - bound(balance.ph0) - given).abs() < 1e-6, "{t} h");
    }
}

#[test]
fn nothing_jumps_as_the_store_gets_warmer_or_longer() {
    let mix = milk();
    let at = |c: f64| {
        let k = keep(&mix, mix.stop_h, &[21.0], c).unwrap();
        [count(&k, "l_bulgaricus", 21.0), *k.ph.last().unwrap(), *k.titratable.last().unwrap()]
    };
    // A slope shrinks with the step, a jump does not.
    let steepest = |low: f64, high: f64, steps: u32| {
        let x = |i: u32| low + (high - low) * f64::from(i) / f64::from(steps);
        let all: Vec<[f64; 3]> = (0..=steps).map(|i| at(x(i))).collect();
        let step = |o: usize| all.windows(2).map(|w| (w[1][o] - w[0][o]).abs()).fold(0.0, f64::max);
        [0, 1, 2].map(step)
    };
    let (coarse, fine) = (steepest(0.0, 24.0, 24), steepest(0.0, 24.0, 240));
    for o in 0..3 {
        assert!(fine[o] < 0.25 * coarse[o] + 1e-5, "{o}: {} of {}", fine[o], coarse[o]);
    }
    // The day that is asked for changes nothing but where the reading ends.
    let long = keep(&mix, mix.stop_h, &each_day(42), 4.0).unwrap();
    for day in [2.0, 13.0, 41.0] {
        let short = keep(&mix, mix.stop_h, &[day], 4.0).unwrap();
        let differs = count(&short, "l_bulgaricus", day) - count(&long, "l_bulgaricus", day);
        assert!(differs.abs() < 1e-5, "day {day}: {differs}");
    }
    // Coarse tolerances are good enough for ranges.
    let quick = keep_coarse(&mix, mix.stop_h, &each_day(42), 4.0).unwrap();
    let apart = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
    assert!(apart(&quick.ph, &long.ph) < 0.01);
}

#[test]
fn a_store_beyond_its_reach_is_refused_by_name_with_the_mend() {
    assert!(compiled(&stored("whole-milk-pot.ron", LONGEST_STORE_DAYS, 4.0)).mix.is_some());
    let refused = compiled(&stored("whole-milk-pot.ron", LONGEST_STORE_DAYS + 1.0, 4.0));
    assert!(refused.mix.is_none());
    let note = refused.notes.iter().find(|n| n.field.ends_with(".days")).unwrap();
    assert!(note.title.contains("Storage") && note.mend.contains("0 to 42 days"), "{note}");
}

#[test]
fn the_days_that_are_told_hold_the_planned_end_and_what_is_asked_of_each() {
    let design = stored("whole-milk-pot.ron", 10.0, 6.0);
    let (pantry, kitchen, learnt) = (pantry(), Kitchen::default(), Learnt::default());
    let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let answer = answer(&scenario);
    let k = answer.verdict.keeping.as_ref().unwrap();
    assert_eq!(k.kept_c, 6.0);
    let days: Vec<f64> = k.days.iter().map(|d| d.days).collect();
    assert_eq!(days, [1.0, 3.0, 7.0, 10.0, 14.0, 21.0, 28.0, 42.0]);
    // Every day has its place in the curves: the end of the chill and then day by day.
    assert_eq!(k.curves.days.len(), 43);
    assert!(k.days.windows(2).all(|w| w[1].ph <= w[0].ph + 1e-9 && w[1].counts[1].1 < w[0].counts[1].1));
    let ready = ready_times::of(&scenario).unwrap();
    let words = text::words(&design.name, &answer.verdict, &ready, None);
    assert!(words.contains("day 42 pH"), "{words}");
    let ron = text::ron(&design.name, &answer.verdict, &ready);
    assert!(ron.contains("counts_log10_by_day") && ron.contains("viscosity_by_day"), "{ron}");
}

#[test]
fn possible_pots_give_a_range_for_every_day_that_is_told() {
    let design = stored("whole-milk-pot.ron", 10.0, 4.0);
    let (pantry, kitchen, learnt) = (pantry(), Kitchen::default(), Learnt::default());
    let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let mut spreader = Spreader::new(&scenario, SEED, 64).unwrap();
    while spreader.more(64) {}
    let kept = spreader.spread().kept;
    let told = keeping::shown_days(spreader.sampler().likely());
    assert_eq!(kept.iter().map(|r| r.days).collect::<Vec<_>>(), told);
    for range in &kept {
        for [low, middle, high] in [range.ph, range.titratable, range.viscosity] {
            assert!(low < middle && middle < high, "{range:?}");
        }
        assert_eq!(range.counts.len(), 2);
    }
    // Strains differ: after six weeks the range of L. bulgaricus is decades wide, and wider than after one.
    let wide = |i: usize| kept[i].counts[1].1[2] - kept[i].counts[1].1[0];
    assert!(wide(kept.len() - 1) > 2.0 && wide(kept.len() - 1) > wide(0));
    let said = day_sentence(&kept[0]);
    assert!(said.starts_with("Day 1 in the fridge, usually: pH "), "{said}");
}
