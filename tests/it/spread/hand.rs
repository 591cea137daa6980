//! The maker's own hand: the thermometer that the culture goes in by.

use potset_base::measures::Measure;
use potset_doc::culture_in;
use potset_doc::{Design, Edit, Kitchen, assets, edit};
use potset_doubt::spread::{Curve, Sampler};
use potset_forecast::lever::LeverId;

use super::{ask, spread};
use crate::support::{compiled, demo, shipped};

/// Deviate of the bounds over that of the quarters.
const OUTER: f64 = 1.644_853_627 / 0.674_489_750;

#[test]
fn the_thermometer_errs_both_ways_where_a_warming_and_a_cooling_stand_before_the_culture() {
    for name in ["oat-and-coconut.ron", "coconut-pot.ron", "whole-milk-pot.ron", "coconut-agar.ron"] {
        let design = demo(name);
        let planned = culture_in::temperature(&design.steps).unwrap();
        let [low, quarter, middle, three, high] = spread(&design, 1, 400).at(Curve::Warmth, 0.0).unwrap();
        let error = Kitchen::default().thermometer_c;
        for (off, expected) in
            [(low, -error), (quarter, -error / OUTER), (middle, 0.0), (three, error / OUTER), (high, error)]
        {
            assert!((off - planned - expected).abs() < 0.1, "{name}: {off}, not {planned} {expected:+}");
        }
    }
}

#[test]
fn the_lever_of_the_culture_moves_the_pot_to_what_it_says() {
    for (name, _) in assets::DEMOS {
        let design = demo(name);
        for to in [38.0, 41.0, 45.0] {
            let turn = LeverId::CultureIn.edit(&design, to);
            assert_eq!(turn, Edit::CultureTemperature(to));
            let new = edit::apply(&design, &turn, shipped()).unwrap();
            let facts = compiled(&new).facts;
            assert!((facts.culture_in_c - to).abs() < 1e-9, "{name}: {} for {to}", facts.culture_in_c);
            assert_eq!(LeverId::CultureIn.value(&new, shipped()), Some(to), "{name}");
            // Heat treatment and cooking stay.
            let heated = |d: &Design| {
                let all = d.steps.iter().map(potset_doc::steps::Step::words);
                all.filter(|w| w.starts_with("Heat") || w.starts_with("Stir the thickener"))
                    .collect::<Vec<_>>()
            };
            assert_eq!(heated(&new), heated(&design), "{name}");
        }
        // What it says before it is moved is where the pot is too.
        let said = LeverId::CultureIn.value(&design, shipped()).unwrap();
        assert!((compiled(&design).facts.culture_in_c - said).abs() < 1e-9, "{name}: {said}");
        ask(&design, &Kitchen::default(), |scenario| assert!(scenario.run().is_ok(), "{name}"));
    }
}

#[test]
fn what_the_laws_of_texture_leave_out_is_of_a_pot_whose_make_up_is_known() {
    let left_out = |design: &Design, kitchen: &Kitchen| {
        ask(design, kitchen, |scenario| {
            let sampler = Sampler::new(scenario, 1, 64).unwrap();
            (sampler.left_out(), sampler.stated())
        })
    };
    for name in ["coconut-pot.ron", "whole-milk-pot.ron", "oat-and-coconut.ron", "soy-set-pots.ron"] {
        let weighed = demo(name);
        let (exact, stated) = left_out(&weighed, &Kitchen::default());
        assert!(exact < stated, "{name}: {exact} of {stated}");
        // However a maker measures and reads, the laws know no less of it.
        let mut spooned = weighed.clone();
        for line in &mut spooned.thickeners {
            line.measure = Measure::Tablespoon;
        }
        for line in &mut spooned.cultures {
            line.measure = Measure::KnifeTip;
            line.age_days = 0.0;
        }
        let rough = Kitchen { thermometer_c: 3.0, ..Kitchen::default() };
        assert_eq!(left_out(&spooned, &rough), (exact, stated), "{name}");
    }
}
