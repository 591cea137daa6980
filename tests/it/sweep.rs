//! Sweeps: each point is the forecast it stands for, whatever the order; a press takes it; what fails is told.

use potset_doc::edit;
use potset_doc::{Design, Kitchen, Learnt};
use potset_forecast::lever::{Lever, LeverId, levers};
use potset_forecast::observable::Observable;
use potset_forecast::scenario::Scenario;
use potset_judge::judging::judge;
use potset_judge::outcomes::Outcomes;
use potset_report::sweep::goal_levels;
use potset_search::sweep::{Axis, Cell, Sweep, SweepAsk, Sweeper};

use crate::support::{demo, shipped};

fn with<T>(design: &Design, go: impl FnOnce(&Scenario<'_>) -> T) -> T {
    go(&Scenario { design, pantry: shipped(), kitchen: &Kitchen::default(), learnt: &Learnt::default() })
}

fn lever(design: &Design, lever_id: LeverId) -> Lever {
    levers(design, shipped()).into_iter().find(|l| l.lever_id == lever_id).unwrap()
}

fn axis(design: &Design, lever_id: LeverId, from: f64, to: f64, points: usize) -> Axis {
    Axis::new(lever(design, lever_id), from, to, points).unwrap()
}

/// Hold temperature and sugar of the coconut pot.
fn warm_and_sweet(design: &Design) -> SweepAsk {
    let x = axis(design, LeverId::HoldTemperature, 36.0, 44.0, 9);
    SweepAsk::new(x, Some(axis(design, LeverId::SugarDose(0), 2.0, 30.0, 5))).unwrap()
}

fn swept(ask: &Scenario<'_>, wanted: SweepAsk, n: usize) -> Sweep {
    let mut sweeper = Sweeper::new(wanted);
    while sweeper.next(ask, n) {}
    sweeper.into_sweep()
}

/// A sweep's forecasts are coarse. Within what is measured for those: pH 0.01, times 0.05 h, sugar 0.1 g/L, thickness 2 %.
fn near(point: &Outcomes, full: &Outcomes) {
    for outcome in Observable::ALL {
        let (Some(a), Some(b)) = (point.get(outcome), full.get(outcome)) else {
            assert_eq!(point.get(outcome), full.get(outcome), "{outcome:?}");
            continue;
        };
        let most = match outcome {
            Observable::Ph => 0.01,
            // Coarse steps grow with time, and so does what a straight line between two of them is off.
            Observable::SourAt | Observable::ReadyFrom => 0.05_f64.max(0.015 * b),
            Observable::SugarLeft | Observable::Sweetness => 0.1,
            Observable::Tang | Observable::Texture | Observable::Stiffness | Observable::Whey => {
                0.02 * b.abs()
            }
            Observable::ThinLayer => 0.5,
            Observable::Energy | Observable::Cost | Observable::Fat => 0.01 * b.abs(),
        };
        assert!((a - b).abs() <= most, "{outcome:?}: {a}, {b}");
    }
}

#[test]
fn each_point_is_the_forecast_that_a_press_gives() {
    let design = demo("coconut-pot.ron");
    with(&design, |ask| {
        let sweep = swept(ask, warm_and_sweet(&design), 7);
        assert!(sweep.complete() && sweep.cells.len() == 45);
        for (ix, iy) in [(0, 0), (3, 1), (8, 4), (4, 2)] {
            let edit = sweep.edit(ask, ix, iy).unwrap();
            let new = edit::apply(&design, &edit, ask.pantry).unwrap();
            assert_eq!(new.hold().unwrap().set_c, sweep.ask.x.value(ix));
            assert_eq!(new.sugars[0].g_per_l, sweep.ask.y.as_ref().unwrap().value(iy));
            let ask = Scenario { design: &new, ..*ask };
            let run = ask.run().unwrap();
            let point = sweep.cell(ix, iy).and_then(Cell::point).unwrap();
            assert_eq!(point.outcomes, Outcomes::of(&ask, &ask.run_coarse(0.0).unwrap()));
            near(&point.outcomes, &Outcomes::of(&ask, &run));
            // All goals hold just where the verdict says so.
            let goals = judge(&ask, &run).goals;
            assert_eq!(point.margin.unwrap() >= 0.0, goals.iter().all(|(_, holds)| *holds));
            match &point.failing {
                Some(name) => assert!(goals.iter().any(|(goal, holds)| goal == name && !holds)),
                None => assert!(point.margin.unwrap() >= 0.0),
            }
        }
        let name = edit::label(&design, &sweep.edit(ask, 5, 2).unwrap());
        assert_eq!(name, "Sweep: Hold at 41.0\u{a0}°C, White sugar 16.0\u{a0}g/L");
        assert_eq!(sweep.nearest(ask), Some((4, 2)));
        let (low, high) = sweep.range(Observable::SugarLeft).unwrap();
        assert!(low < high && sweep.value(8, 0, Observable::SugarLeft).unwrap() >= low);
    });
}

#[test]
fn neither_order_nor_threads_matter_and_the_coarse_picture_comes_first() {
    let design = demo("coconut-pot.ron");
    with(&design, |ask| {
        let pool = |n| rayon::ThreadPoolBuilder::new().num_threads(n).build().unwrap();
        let by_one = pool(1).install(|| swept(ask, warm_and_sweet(&design), 1));
        let at_once = pool(3).install(|| swept(ask, warm_and_sweet(&design), 1000));
        assert_eq!(by_one, at_once);

        let mut sweeper = Sweeper::new(warm_and_sweet(&design));
        assert_eq!(sweeper.sweep().stride(), None);
        // Every eighth of nine by five: two points.
        assert!(sweeper.next(ask, 2));
        let sweep = sweeper.sweep();
        assert_eq!(sweep.stride(), Some(8));
        for (ix, iy) in [(0, 0), (7, 4), (8, 0), (8, 4)] {
            let coarse = sweep.cell(ix - ix % 8, 0);
            assert!(sweep.cell(ix, iy).is_some() && sweep.shown(ix, iy) == coarse);
        }
        assert_eq!((sweep.cell(9, 0), sweep.cell(0, 5)), (None, None));
        while sweeper.next(ask, 4) {}
        assert_eq!((sweeper.sweep(), sweeper.sweep().stride()), (&by_one, Some(1)));
    });
}

#[test]
fn a_lever_that_does_nothing_gives_a_flat_sweep() {
    let design = demo("coconut-pot.ron");
    // A fresh culture does not feel where it was kept.
    let kept = Lever {
        lever_id: LeverId::CultureKept(0),
        name: "Kept at".to_owned(),
        range: (-30.0, 45.0),
        ..lever(&design, LeverId::HoldTemperature)
    };
    with(&design, |ask| {
        let wanted = SweepAsk::new(Axis::new(kept, -20.0, 40.0, 5).unwrap(), None).unwrap();
        let sweep = swept(ask, wanted, 100);
        let own = Outcomes::of(ask, &ask.run_coarse(0.0).unwrap());
        assert!(sweep.cells.iter().all(|c| c.point().unwrap().outcomes == own));
        assert_eq!(sweep.nearest(ask), None, "the design does not say where it was kept");
    });
}

#[test]
fn a_point_without_a_forecast_is_a_hole() {
    let design = demo("coconut-pot.ron");
    // More than the model takes: no lever of the bench reaches so far.
    let too_far = Lever { range: (15.0, 200.0), ..lever(&design, LeverId::HoldTemperature) };
    with(&design, |ask| {
        let x = Axis::new(too_far, 40.0, 160.0, 4).unwrap();
        let y = axis(&design, LeverId::SugarDose(0), 2.0, 30.0, 3);
        let sweep = swept(ask, SweepAsk::new(x, Some(y)).unwrap(), 100);
        assert!(sweep.complete());
        for iy in 0..3 {
            assert!(sweep.cell(0, iy).unwrap().point().is_some());
            let Some(Cell::Never(why)) = sweep.cell(2, iy) else { panic!("120 °C has a forecast") };
            assert!(why.contains("Temperature is out of range"), "{why}");
            assert_eq!(sweep.value(2, iy, Observable::Ph), None);
        }
    });
}

#[test]
fn a_sweep_of_another_design_is_refused() {
    let (design, mut other) = (demo("coconut-pot.ron"), demo("coconut-pot.ron"));
    other.sugars.clear();
    let sweep = Sweep::new(warm_and_sweet(&design));
    let edit = with(&other, |ask| {
        sweep.edit(ask, 1, 1).and_then(|edit| edit::apply(&other, &edit, ask.pantry).map(|_| ()))
    });
    assert!(edit.unwrap_err().title.contains("no sugar number 1"));
}

#[test]
fn contours_run_where_words_and_goals_change() {
    let design = demo("coconut-pot.ron");
    with(&design, |ask| {
        let x = axis(&design, LeverId::ThickenerDose(0), 0.0, 32.0, 9);
        let y = axis(&design, LeverId::HoldHours, 6.0, 30.0, 5);
        let sweep = swept(ask, SweepAsk::new(x, Some(y)).unwrap(), 100);
        let run = ask.run().unwrap();
        let levels = |outcome| goal_levels(outcome, ask, &run, &sweep.ask);
        assert_eq!(levels(Observable::Texture).len(), 3);
        assert_eq!(levels(Observable::Tang).len(), 4);
        assert_eq!(levels(Observable::Ph).len(), 1);
        assert_eq!(levels(Observable::Whey)[0], (3.0, "whey ≤ 3\u{a0}%".to_owned()));
        assert!(levels(Observable::SugarLeft).is_empty() && levels(Observable::Cost).is_empty());
        // The stop line is swept itself here; along another lever it is a line.
        assert!(levels(Observable::ReadyFrom).is_empty());
        let other = warm_and_sweet(&design);
        assert_eq!(goal_levels(Observable::ReadyFrom, ask, &run, &other)[0].0, 24.0);

        assert_eq!(levels(Observable::Texture)[1].1, "ribbons | dollops");
        let (low, high) = sweep.range(Observable::Texture).unwrap();
        let level = (low * high).sqrt();
        let lines = sweep.contour(Observable::Texture, level);
        assert!(!lines.is_empty());
        for (x, y) in lines.iter().flatten().filter(|(_, y)| y.fract() == 0.0) {
            // Between two points of a row, one is thinner and one is thicker.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place of the grid")]
            let value = |x: f64| sweep.value(x as usize, *y as usize, Observable::Texture).unwrap();
            let (a, b) = (value(x.floor()), value(x.ceil()));
            assert!(a.min(b) <= level + 1e-9 && a.max(b) >= level - 1e-9, "{a} to {b}, not {level}");
        }
        assert!(!sweep.edge_of_goals().is_empty());
    });
}
