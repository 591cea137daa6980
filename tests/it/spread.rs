//! Spread: honest against its own draws and against truths of a changed model; the same on any number of threads; and
//! nothing dropped unseen.

pub mod changed;
mod hand;
mod said;
mod surer;
mod told;

use potset_base::Spread as Bounds;
use potset_base::measures::Measure;
use potset_doc::design::Powder;
use potset_doc::steps::Reading;
use potset_doc::{Design, Kitchen, Learnt, Pantry, assets};
use potset_doubt::matters::{Matters, matters};
use potset_doubt::spread::{Curve, FIRST, Sampler, Spread, Spreader, UnknownKind};
use potset_forecast::observable::Observable;
use potset_forecast::params;
use potset_forecast::place::Place;
use potset_forecast::scenario::Scenario;
use potset_judge::ready::HORIZON_H;
use potset_report as say;
use potset_science::Forecast;

use crate::support::{demo, shipped};

fn ask<T>(design: &Design, kitchen: &Kitchen, go: impl FnOnce(&Scenario<'_>) -> T) -> T {
    go(&Scenario { design, pantry: shipped(), kitchen, learnt: &Learnt::default() })
}

fn spread_in(design: &Design, kitchen: &Kitchen, seed: u64, pots: usize) -> Spread {
    ask(design, kitchen, |scenario| {
        let mut spreader = Spreader::new(scenario, seed, pots).unwrap();
        while spreader.more(pots) {}
        spreader.spread()
    })
}

fn spread(design: &Design, seed: u64, pots: usize) -> Spread {
    spread_in(design, &Kitchen::default(), seed, pots)
}

/// A curve of a forecast as the spread has it.
fn values(f: &Forecast, curve: Curve) -> Vec<f64> {
    match curve {
        Curve::Ph => f.ph.clone(),
        Curve::AcidMade => f.acid_made.clone(),
        Curve::Sugar => f.sugar_total.iter().map(|g| g * f.density).collect(),
        Curve::Chilled => f.chilled.viscosity50.clone(),
        Curve::Count(i) => f.species[i].log10.clone(),
        other => panic!("{other:?} is not looked at"),
    }
}

/// Of the points of a truth after the first hour: how many lie in the band of 5 to 95 %, and how many there are. Points
/// where the band has no width tell nothing.
fn inside(spread: &Spread, truth: &Forecast, curves: &[Curve], to_h: f64) -> (usize, usize) {
    let mut found = (0, 0);
    for curve in curves {
        let (band, ys) = (spread.band(*curve).unwrap(), values(truth, *curve));
        let [low, .., high] = &band.edges;
        for i in (0..spread.t.len()).filter(|i| spread.t[*i] > 1.0 && spread.t[*i] <= to_h) {
            if high[i] - low[i] > 1e-9 * high[i].abs().max(1.0) {
                found.0 += usize::from(low[i] <= ys[i] && ys[i] <= high[i]);
                found.1 += 1;
            }
        }
    }
    found
}

#[test]
fn nine_of_ten_points_of_its_own_draws_lie_in_the_band() {
    let (mut of, mut among) = (0, 0);
    for name in
        ["coconut-pot.ron", "whole-milk-pot.ron", "soy-set-pots.ron", "oat-and-coconut.ron", "goat-pot.ron"]
    {
        let design = demo(name);
        let band = spread(&design, 1, 200);
        ask(&design, &Kitchen::default(), |scenario| {
            let sampler = Sampler::looking_to(scenario, 2, 100, HORIZON_H).unwrap();
            let curves = [Curve::Ph, Curve::AcidMade, Curve::Sugar, Curve::Chilled, Curve::Count(0)];
            let found = sampler.each(0..100, |_, run| inside(&band, &run.forecast, &curves, f64::INFINITY));
            let (own, all) =
                found.into_iter().map(Result::unwrap).fold((0, 0), |(of, among), (o, a)| (of + o, among + a));
            println!("{name}: {own} of {all}, {:.3}", own as f64 / all as f64);
            of += own;
            among += all;
        });
    }
    let share = of as f64 / among as f64;
    assert!((share - 0.9).abs() <= 0.03, "{share} of {among}");
}

#[test]
fn the_same_seed_gives_the_same_bytes_on_any_number_of_threads() {
    let design = demo("coconut-pot.ron");
    let pool = |n| rayon::ThreadPoolBuilder::new().num_threads(n).build().unwrap();
    let one = pool(1).install(|| spread(&design, 7, 80));
    let two = pool(2).install(|| spread(&design, 7, 80));
    assert_eq!(format!("{one:?}"), format!("{two:?}"));
    assert_ne!(one.bands, spread(&design, 8, 80).bands);
}

#[test]
fn the_first_picture_refined_is_all_at_once() {
    let design = demo("whole-milk-pot.ron");
    ask(&design, &Kitchen::default(), |scenario| {
        let mut by_parts = Spreader::new(scenario, 3, 150).unwrap();
        assert!(by_parts.more(1));
        let first = by_parts.spread();
        assert_eq!((first.tried, first.wanted, first.complete()), (FIRST, 150, false));
        while by_parts.more(30) {}
        let mut at_once = Spreader::new(scenario, 3, 150).unwrap();
        assert!(!at_once.more(1000));
        assert_eq!(by_parts.spread(), at_once.spread());
        assert!(at_once.spread().complete() && at_once.spread().made() == 150);
        // The first picture is already much like the whole.
        let ([early, .., late], whole) = (first.outcome(Observable::SourAt).unwrap().edges, at_once.spread());
        let [low, .., high] = whole.outcome(Observable::SourAt).unwrap().edges;
        assert!((early / low - 1.0).abs() < 0.25 && (late > 0.8 * high || late.is_infinite()));
    });
}

#[test]
fn pots_that_cannot_be_made_are_counted_with_their_reason() {
    let mut design = demo("coconut-pot.ron");
    // A label that only just adds up: where more of all is in the tin than it says, it cannot be.
    design.bases[0].label.fat = Some(60.0);
    design.bases[0].label.carbohydrate = Some(34.0);
    design.bases[0].label.sugars = Some(5.0);
    let spread = spread(&design, 1, 80);
    assert_eq!((spread.tried, spread.failed.len()), (80, 1), "{:?}", spread.failed);
    let (why, n) = &spread.failed[0];
    assert!(why.contains("label") && (5..=60).contains(n), "{why}: {n}");
    assert_eq!(spread.made(), 80 - n);
    assert_eq!(spread.at_stop.among, spread.made());
    assert!(say::spread::sentences(&spread).iter().any(|s| s.contains("cannot be made") && s.contains(why)));
}

#[test]
fn what_is_weighed_out_may_lie_beyond_what_can_be_typed() {
    let mut design = demo("coconut-pot.ron");
    // As much as a design may hold: half of the weighings are over it, and are pots all the same.
    design.sugars[0].g_per_l = 400.0;
    design.sugars[0].measure = Measure::Gram;
    let spread = spread(&design, 1, 80);
    assert_eq!((spread.made(), spread.failed.len()), (80, 0));
}

#[test]
fn a_longer_look_is_of_the_same_pot() {
    let design = demo("coconut-pot.ron");
    ask(&design, &Kitchen::default(), |scenario| {
        let look = |horizon_h: f64| {
            let mut spreader = Spreader::looking_to(scenario, 1, 200, horizon_h).unwrap();
            while spreader.more(200) {}
            spreader
        };
        let (near, far) = (look(0.0), look(60.0));
        let (a, b) = (near.spread(), far.spread());
        assert_eq!((a.stop_h, b.stop_h, b.horizon_h), (24.0, 24.0, 60.0));
        for (x, y) in a.at(Curve::Ph, 24.0).unwrap().iter().zip(b.at(Curve::Ph, 24.0).unwrap()) {
            assert!((x - y).abs() < 0.02, "{x} {y}");
        }
        // Nor does it change how much the doubts matter, though fewer pots are late.
        let (near, far) = (matters(scenario, &near), matters(scenario, &far));
        for (a, b) in near.watched.iter().zip(&far.watched) {
            assert_eq!(a.outcome, b.outcome);
            assert!((a.edges[0] / b.edges[0] - 1.0).abs() < 0.03, "{a:?} {b:?}");
            assert!((a.explained - b.explained).abs() < 0.15, "{a:?} {b:?}");
        }
        assert!(near.watched[0].never.of > far.watched[0].never.of);
    });
}

#[test]
fn pots_to_be_thrown_away_are_counted_each_by_its_own_row() {
    let mut design = demo("coconut-pot.ron");
    let lost = |design: &Design| spread(design, 1, 300).cautions.into_iter().next();
    // Good as it is planned: less than two pots in ten, so nothing is said.
    assert_eq!(lost(&design), None);
    // Stopped before it is sour: the likely pot is lost too, and most of the others.
    design.hold_mut().unwrap().hours = 10.0;
    let early = lost(&design).unwrap();
    assert!(early.discard && early.chance.share() > 0.5, "{early:?}");
    // So near the cold that some pots fall under it: those must be sour by 12 h, the others by 24 h.
    design.hold_mut().unwrap().hours = 24.0;
    let share = |set_c: f64| {
        let mut design = design.clone();
        design.hold_mut().unwrap().set_c = set_c;
        lost(&design).map_or(0.0, |caution| caution.chance.share())
    };
    let (cool, warm) = (share(35.2), share(38.0));
    assert!(cool > warm + 0.1, "{cool} {warm}");
}

#[test]
fn what_finding_out_promises_is_what_it_does() {
    let mut design = demo("coconut-pot.ron");
    design.snapshot = Pantry::default().into();
    let width = |pantry: &Pantry| {
        let scenario =
            Scenario { design: &design, pantry, kitchen: &Kitchen::default(), learnt: &Learnt::default() };
        let mut spreader = Spreader::new(&scenario, 1, 1000).unwrap();
        while spreader.more(1000) {}
        let [low, .., high] = spreader.spread().outcome(Observable::SugarLeft).unwrap().edges;
        (high - low, matters(&scenario, &spreader))
    };
    let (before, found) = width(shipped());
    let of = |m: &Matters| m.watched.iter().position(|w| w.outcome == Observable::SugarLeft).unwrap();
    let find =
        found.finds.iter().max_by(|a, b| a.shares[of(&found)].total_cmp(&b.shares[of(&found)])).unwrap();
    let (what, _) = say::matters::doubt(&find.remedy);
    assert!(
        what.starts_with("What is in Tinned coconut cream") && find.remedy.left == Some(0.25),
        "{find:?}"
    );
    // A label leaves a quarter of the variance: half of every spread of what is in the tin.
    let paths: Vec<String> = shipped().figures().into_iter().map(|(path, _)| path).collect();
    let mut known = shipped().clone();
    let mut at = 0;
    known.each_bare(&mut |cited| {
        let inside = paths[at].starts_with("bases.coconut_cream_tinned.composition.");
        at += 1;
        if let (true, Some((low, high))) = (inside, cited.spread.bounds()) {
            let half = |edge: f64| 0.5 * (cited.value + edge);
            cited.spread = match cited.spread {
                Bounds::Uniform(..) => Bounds::Uniform(half(low), half(high)),
                Bounds::LogNormal(..) => {
                    Bounds::LogNormal((cited.value * low).sqrt(), (cited.value * high).sqrt())
                }
                _ => Bounds::Normal(half(low), half(high)),
            };
        }
    });
    let (after, _) = width(&known);
    let promised = find.narrows(of(&found)).unwrap();
    assert!((after / before - promised).abs() < 0.08, "{promised} promised, {} came", after / before);
}

#[test]
fn what_hardly_any_pot_reaches_is_not_narrowed() {
    let design = demo("failed-thin-and-sweet.ron");
    ask(&design, &Kitchen::default(), |scenario| {
        // No farther than its own sheet, which ends at 12 h.
        let mut spreader = Spreader::looking_to(scenario, 1, 300, 0.0).unwrap();
        while spreader.more(300) {}
        let found = matters(scenario, &spreader);
        assert!(
            found
                .watched
                .iter()
                .all(|w| w.outcome != Observable::SourAt && w.outcome != Observable::ReadyFrom)
        );
        assert!(
            say::matters::left_out(&found)
                .any(|s| s.starts_with("pH 4.6 reached: in ") && s.ends_with("not in the hours shown")),
            "{found:?}"
        );
        let text = say::matters::text(&found);
        assert!(!text.contains("0.0 h instead") && !found.turns.is_empty(), "{text}");
        // A time that the end of the sheet cuts off has no width to be made narrower.
        for w in &found.watched {
            assert_eq!(w.narrowed(0.5).is_some(), w.edges[2].is_finite());
        }
    });
}

#[test]
fn every_shipped_figure_keeps_its_sign_wherever_it_is_drawn() {
    let figures = shipped().figures();
    let parameters = params::shipped().unwrap().list();
    let all =
        figures.iter().map(|(path, cited)| (path, cited)).chain(parameters.iter().map(|(p, c)| (p, *c)));
    let mut drawn = 0;
    for (path, cited) in all {
        let Some((low, high)) = cited.spread.bounds() else { continue };
        drawn += 1;
        for k in 0..=200 {
            let v = Place::of(f64::from(k) / 200.0).value(cited.value, cited.spread);
            let kept = match (low, high) {
                (low, _) if low > 0.0 => v > 0.0,
                (0.0, _) => v >= 0.0,
                (_, high) if high < 0.0 => v < 0.0,
                _ => true,
            };
            assert!(v.is_finite() && kept, "{path}: {v} at {k} of {low} to {high}");
        }
    }
    assert!(drawn > 1500, "{drawn} figures have a spread");
}

#[test]
fn every_drawn_pot_is_one_that_the_laws_hold_for() {
    for (name, _) in assets::DEMOS {
        let design = demo(name);
        ask(&design, &Kitchen::default(), |scenario| {
            let sampler = Sampler::new(scenario, 5, 64).unwrap();
            let seen = sampler.each(0..64, |_, run| {
                for o in &run.mix.organisms {
                    let ([min, opt, max], [low, best, high]) = (o.temperature, o.ph);
                    // The cardinal model keeps its shape only with the best above the middle.
                    assert!(min < opt && opt < max && opt > 0.5 * (min + max), "{name} {}", o.key);
                    assert!(low < best && best < high, "{name} {}", o.key);
                    assert!(o.helpers.iter().all(|(_, share, _)| (0.0..=1.0).contains(share)), "{name}");
                }
                let f = &run.forecast;
                for ys in [&f.ph, &f.sugar_total, &f.acid_made, &f.warm.viscosity50, &f.chilled.viscosity50] {
                    assert!(ys.iter().all(|v| v.is_finite()), "{name}: {ys:?}");
                }
                assert!(f.chilled.viscosity50.iter().all(|v| *v > 0.0), "{name}");
            });
            assert!(seen.iter().all(Result::is_ok), "{name}");
        });
    }
}

#[test]
fn the_pace_of_a_culture_is_not_said_twice() {
    let design = demo("coconut-pot.ron");
    ask(&design, &Kitchen::default(), |scenario| {
        let sampler = Sampler::new(scenario, 1, 20).unwrap();
        let drawn = |key: &str| sampler.unknowns().find(key).is_some();
        assert!(drawn("cultures.nondairy_adjuncts.speed_plant"));
        // It has most of this one, whose own rate is in the pace; others differ from it.
        assert!(
            !drawn("organisms.s_thermophilus.growth_rate") && drawn("organisms.l_acidophilus.growth_rate")
        );
        // Fitted to the same figure, so they move together.
        let end = sampler.unknowns().find("group s_thermophilus end").unwrap();
        let UnknownKind::Figures(paths) = &sampler.unknowns().list[end].of else { panic!("no figures") };
        assert_eq!(paths.len(), 2);
    });
}

#[test]
fn weighing_the_culture_narrows_the_time_to_be_ready() {
    let width = |design: &Design| {
        let spread = spread(design, 1, 200);
        let [low, .., high] = spread.outcome(Observable::SourAt).unwrap().edges;
        (high / low).ln()
    };
    let mut by_tip = demo("coconut-pot.ron");
    by_tip.cultures[0].powder = Powder::OneToTen;
    by_tip.cultures[0].measure = Measure::KnifeTip;
    let mut weighed = by_tip.clone();
    weighed.cultures[0].measure = Measure::Gram;
    let (tip, scale) = (width(&by_tip), width(&weighed));
    println!("knife tip {tip:.3}, weighed {scale:.3}");
    assert!(scale < tip, "{scale} {tip}");
}

#[test]
fn what_is_exact_has_a_band_of_no_width() {
    // Without a culture the laws leave pH and acid alone, and the warmth is a logger's.
    let mut design = demo("coconut-pot.ron");
    design.refresh_snapshot(shipped());
    design.cultures.clear();
    design.snapshot.cultures.clear();
    design.snapshot.organisms.clear();
    design.snapshot.each_bare(&mut |cited| cited.spread = Bounds::Exact);
    for line in &mut design.bases {
        line.measure = Measure::Gram;
        line.label = Default::default();
    }
    for line in &mut design.sugars {
        line.measure = Measure::Gram;
    }
    for line in &mut design.thickeners {
        line.measure = Measure::Gram;
    }
    design.hold_mut().unwrap().measured = [0.0, 24.0].map(|at_h| Reading { at_h, c: 40.0 }).to_vec();
    let exact = Kitchen { thermometer_c: 0.0, scale_step_g: 0.0, ..Kitchen::default() };
    let spread = spread_in(&design, &exact, 1, 64);
    for curve in [Curve::Warmth, Curve::Ph, Curve::AcidMade, Curve::Tang] {
        let band = spread.band(curve).unwrap();
        let [low, .., high] = &band.edges;
        assert!(low.iter().zip(high).all(|(a, b)| (a - b).abs() < 1e-9), "{curve:?}");
    }
    // The laws of texture are still not known.
    let [low, .., high] = spread.at(Curve::Chilled, 12.0).unwrap();
    assert!(high > 1.5 * low);
}

#[test]
fn its_forecasts_are_fine_enough() {
    for (name, _) in assets::DEMOS {
        let design = demo(name);
        ask(&design, &Kitchen::default(), |scenario| {
            let sampler = Sampler::new(scenario, 1, 2).unwrap();
            let (f, precise) = (&sampler.likely().forecast, scenario.run().unwrap());
            let (stop_h, p) = (precise.mix.stop_h, &precise.forecast);
            assert!((f.value(&f.ph, stop_h) - p.value(&p.ph, stop_h)).abs() < 0.01, "{name}");
            let sugar = f.value(&f.sugar_total, stop_h) - p.value(&p.sugar_total, stop_h);
            assert!(sugar.abs() < 0.1, "{name}: {sugar}");
            if let (Some(a), Some(b)) = (f.time_to_ph(4.6), p.time_to_ph(4.6)) {
                assert!((a - b).abs() < 0.1, "{name}: {a} {b}");
            }
            let thick = f.value(&f.chilled.viscosity50, stop_h) / p.value(&p.chilled.viscosity50, stop_h);
            assert!((thick - 1.0).abs() < 0.02, "{name}: {thick}");
        });
    }
}
