//! Readings of a pot of water in a flask: the forecast follows them, possible pots differ less, and the list of numbers shows
//! the measured loss.

use potset_base::{Note, SourceKind};
use potset_doc::kitchen::FlaskReading;
use potset_doc::{Edit, Kitchen, Learnt, edit};
use potset_doubt::matters;
use potset_doubt::spread::{Curve, Sampler, Spread, Spreader, UnknownKind};
use potset_forecast::compile;
use potset_forecast::numbers::{Kind as Source, numbers};
use potset_forecast::scenario::Scenario;
use potset_science::thermal::Course;
use proptest::prelude::*;

use crate::support::{demo, shipped};
use potset_doc::Design;

const FLASK: &str = "insulated_flask";

/// A pot of one litre in a flask, with the culture in at 42 °C.
fn pot() -> Design {
    let mut design = demo("whole-milk-pot.ron");
    for change in [Edit::Warmer(FLASK.to_owned()), Edit::CultureTemperature(42.0), Edit::HoldHours(14.0)] {
        design = edit::apply(&design, &change, shipped()).unwrap();
    }
    // All of it: what stands in the flask keeps the warmth together.
    let litres = design.litres();
    design.bases.iter_mut().for_each(|line| line.litres /= litres);
    design
}

fn read(reads_c: f64) -> FlaskReading {
    FlaskReading { key: FLASK.to_owned(), filled_c: 42.0, after_h: 12.0, reads_c, room_c: 21.0, litres: 1.0 }
}

fn kitchen(readings: impl IntoIterator<Item = FlaskReading>) -> Kitchen {
    let mut kitchen = Kitchen::default();
    kitchen.set_flask_readings(FLASK, readings);
    kitchen
}

fn course(design: &Design, kitchen: &Kitchen) -> Result<Course, Vec<Note>> {
    let compiled = compile(design, shipped(), kitchen, &Learnt::default());
    compiled.mix.map(|mix| mix.course).ok_or(compiled.notes)
}

#[test]
fn a_flask_that_reads_36_after_12_h_is_forecast_to() {
    let design = pot();
    let course = |kitchen: &Kitchen| course(&design, kitchen).unwrap();
    let own = course(&kitchen([read(36.0)]));
    assert!((own.at(0.0) - 42.0).abs() < 1e-6, "{}", own.at(0.0));
    assert!((own.at(12.0) - 36.0).abs() < 1e-6, "{}", own.at(12.0));
    // As the pantry has it, a flask loses more.
    assert!(course(&Kitchen::default()).at(12.0) < 34.5);
    // Two readings lie on either side of what both tell.
    let both = course(&kitchen([read(36.0), read(33.0)])).at(12.0);
    assert!((33.5..35.5).contains(&both), "{both}");
    // What was read in two litres keeps one litre warm for less long.
    let larger = course(&kitchen([FlaskReading { litres: 2.0, ..read(36.0) }])).at(12.0);
    assert!(larger < 35.0, "{larger}");
    // A colder room cools the same flask further.
    let cold = course(&Kitchen { room_c: 15.0, ..kitchen([read(36.0)]) }).at(12.0);
    assert!((cold - (15.0 + 27.0 * 15.0 / 21.0)).abs() < 1e-6, "{cold}");
}

#[test]
fn a_reading_that_tells_nothing_is_an_error_of_that_flask_only() {
    let mut design = pot();
    let wrong = kitchen([read(36.0), read(43.0)]);
    let notes = course(&design, &wrong).unwrap_err();
    assert!(notes.iter().any(|n| n.field == "kitchen.flasks[1].reads_c" && !n.mend.is_empty()), "{notes:?}");
    design = edit::apply(&design, &Edit::Warmer("heated_pot".to_owned()), shipped()).unwrap();
    assert!(course(&design, &wrong).is_ok());
}

proptest! {
    /// A flask that loses more never keeps a pot warmer, at no hour.
    #[test]
    fn more_loss_never_makes_a_pot_warmer(a in 23.0..40.5_f64, b in 23.0..40.5_f64, hours in 2.0..30.0_f64) {
        let design = pot();
        let of = |reads_c: f64| course(&design, &kitchen([FlaskReading { after_h: hours, ..read(reads_c) }])).unwrap();
        let (more, less) = (of(a.min(b)), of(a.max(b)));
        for t in 0..=60 {
            let t = 0.25 * f64::from(t);
            prop_assert!(more.at(t) <= less.at(t) + 1e-9, "{t} h: {} against {}", more.at(t), less.at(t));
        }
    }
}

fn spread(kitchen: &Kitchen) -> Spread {
    let (design, learnt) = (pot(), Learnt::default());
    let scenario = Scenario { design: &design, pantry: shipped(), kitchen, learnt: &learnt };
    let mut spreader = Spreader::new(&scenario, 1, 200).unwrap();
    while spreader.more(200) {}
    spreader.spread()
}

#[test]
fn a_measured_loss_is_known_better_and_better_by_more_readings() {
    let width = |kitchen: &Kitchen| {
        let [low, .., high] = spread(kitchen).at(Curve::Warmth, 12.0).unwrap();
        high - low
    };
    let usual = width(&Kitchen::default());
    let one = width(&kitchen([read(36.0)]));
    let four = width(&kitchen(vec![read(36.0); 4]));
    let fine = width(&Kitchen { thermometer_c: 0.2, ..kitchen([read(36.0)]) });
    let rough = width(&Kitchen { thermometer_c: 3.0, ..kitchen([read(36.0)]) });
    assert!(one < 0.7 * usual, "{one} against {usual}");
    assert!(four < one && fine < one && one < rough, "{four} {fine} {one} {rough}");
    let [low, _, middle, _, high] = spread(&kitchen([read(36.0)])).at(Curve::Warmth, 12.0).unwrap();
    assert!(low < 36.0 && 36.0 < high && (middle - 36.0).abs() < 0.5, "{low} {middle} {high}");
}

#[test]
fn a_flask_that_was_read_is_not_asked_for_a_log() {
    let design = pot();
    let mut own = design.clone();
    own.refresh_snapshot(shipped());
    let asks = |kitchen: &Kitchen| {
        let scenario = Scenario { design: &design, pantry: shipped(), kitchen, learnt: &Learnt::default() };
        let sampler = Sampler::of_mixes(&scenario, 1, 20).unwrap();
        let of_it = |key: &str| key.contains(FLASK);
        let unknowns = &sampler.unknowns().list;
        let told = |u| {
            let remedy = matters::remedy(&scenario, &own.snapshot, u);
            (potset_report::matters::doubt(&remedy).1, remedy.left)
        };
        unknowns.iter().filter(|u| of_it(&u.key)).map(|u| (u.of.clone(), told(u))).collect::<Vec<_>>()
    };
    let [(UnknownKind::Figures(paths), (how, left))] = &asks(&Kitchen::default())[..] else { panic!() };
    assert_eq!(paths[..], [format!("warmers.{FLASK}.warming.cooling_h")]);
    assert!(how.contains("pot of water") && how.contains("under Kitchen"), "{how}");
    // What one reading tells hangs on the thermometer.
    let [(_, (_, rough))] = &asks(&Kitchen { thermometer_c: 2.0, ..Kitchen::default() })[..] else {
        panic!()
    };
    assert!((0.02..0.3).contains(&left.unwrap()) && rough > left, "{left:?} {rough:?}");
    let [(UnknownKind::Flask { readings, times, .. }, (how, left))] =
        &asks(&kitchen([read(36.0), read(35.5)]))[..]
    else {
        panic!()
    };
    assert!(*readings == 2 && *times > 1.0);
    assert!(how.contains("once more") && !how.contains("log a pot"), "{how}");
    assert!((left.unwrap() - 2.0 / 3.0).abs() < 1e-12);
    // An exact thermometer leaves nothing to find out.
    assert!(asks(&Kitchen { thermometer_c: 0.0, ..kitchen([read(36.0)]) }).is_empty());
}

#[test]
fn the_list_of_numbers_shows_the_measured_loss() {
    let design = pot();
    let key = format!("warmers.{FLASK}.warming.cooling_h");
    let of = |kitchen: &Kitchen| {
        let list = numbers(&design, shipped(), kitchen, &Learnt::default()).all;
        list.into_iter().filter(|n| n.key == key && n.used).collect::<Vec<_>>()
    };
    let [usual] = &of(&Kitchen::default())[..] else { panic!() };
    assert!(!usual.own && usual.value == "24");
    let [own] = &of(&kitchen([read(36.0)]))[..] else { panic!() };
    assert!(own.own && own.kind == Source::Own && own.unit == "h" && !own.spread.is_empty(), "{own:?}");
    assert!((own.value.parse::<f64>().unwrap() - 35.7).abs() < 0.1, "{own:?}");
    for words in ["measured", "derived by Newton's law of cooling", "reads 36 °C after 12 h"] {
        assert!(own.source.contains(words), "{own:?}");
    }
    assert_eq!(own.kind.words(), SourceKind::Own.words());
}
