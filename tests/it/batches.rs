//! The demo pots: run by the model with figures that are a little off, read as a kitchen reads, and kept as files.

use std::fs;
use std::path::Path;

use potset_base::clock::Zone;
use potset_doc::batch::{Batch, BatchReading, Logged, Observed, check};
use potset_doc::steps::Reading;
use potset_doc::{Kitchen, Learnt, assets, format};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_report::batch::begun;
use potset_report::card::CardAsk;

/// An invented pot: its name and time, how its base and warmth differ from the design, and how long it was followed.
struct Invented {
    file: &'static str,
    name: &'static str,
    culture_in: &'static str,
    /// Times the packet's dose that the culture really worked as, and °C that the cupboard was off.
    dose: f64,
    off_c: f64,
    /// Hours at which pH was read, and the warmth beside it.
    read: &'static [f64],
    stopped_h: Option<f64>,
    stars: u8,
    note: &'static str,
}

const ALL: [Invented; 3] = [
    Invented {
        file: "first-six-jars.ron",
        name: "Six jars, first (invented)",
        culture_in: "2026-11-10 19:00",
        dose: 0.6,
        off_c: -1.5,
        read: &[0.0, 12.0, 16.0, 20.0, 24.0, 26.0],
        stopped_h: Some(26.0),
        stars: 3,
        note: "A pot of the Weir House Kitchen, invented. Milder than the class likes it.",
    },
    Invented {
        file: "second-six-jars.ron",
        name: "Six jars, second (invented)",
        culture_in: "2026-11-17 18:30",
        dose: 0.65,
        off_c: -1.2,
        read: &[0.0, 13.0, 18.0, 22.0, 26.0, 30.0],
        stopped_h: Some(30.0),
        stars: 4,
        note: "A pot of the Weir House Kitchen, invented. Four hours longer, and bright.",
    },
    Invented {
        file: "third-six-jars.ron",
        name: "Six jars, third (invented)",
        culture_in: "2026-11-24 09:00",
        dose: 0.6,
        off_c: -1.4,
        read: &[0.0, 6.0, 10.0],
        stopped_h: None,
        stars: 0,
        note: "A pot of the Weir House Kitchen, invented. It is under way.",
    },
];

/// What a meter shows: a value off by a hand's scatter that hangs on its place alone, to so many decimals.
fn shown(value: f64, place: usize, scatter: f64, decimals: i32) -> f64 {
    let off = [0.6, -0.9, 0.3, 1.0, -0.4, -0.7][place % 6] * scatter;
    let ten = 10_f64.powi(decimals);
    ((value + off) * ten).round() / ten
}

fn invented(pot: &Invented) -> Batch {
    let pantry = assets::pantry().unwrap();
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let design = assets::demo("coconut-pot.ron").unwrap();
    let scenario = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
    let answer = answer(&scenario);
    let ask = CardAsk { scenario: &scenario, answer: &answer, ready: None, watch: None, version: None };
    let start = potset_base::clock::Moment::parse(pot.culture_in);
    let mut batch = begun(&ask, start, &Zone::default());
    // What really happened in the pot.
    let mut real = design.clone();
    real.cultures[0].rate *= pot.dose;
    let hold = real.hold_mut().unwrap();
    hold.set_c += pot.off_c;
    hold.hours = 40.0;
    let run = Scenario { design: &real, ..scenario }.run_to(40.0).unwrap();
    let f = &run.forecast;
    let at = |ys: &[f64], h: f64| potset_numerics::interpolate::curve(&f.t, ys, h);
    for (place, h) in pot.read.iter().enumerate() {
        batch.insert(BatchReading::new(*h, Observed::Ph(shown(at(&f.ph, *h), place, 0.03, 2))));
        if place == 2 {
            batch.insert(BatchReading::new(
                *h,
                Observed::Warmth(shown(at(&f.temperature, *h), place, 0.3, 1)),
            ));
        }
    }
    if let Some(stopped) = pot.stopped_h {
        batch.stopped_h = Some(stopped);
        batch.ended = true;
        batch.packet = "packet A".to_owned();
        let tang = potset_science::sensory::tang(at(&f.undissociated, stopped), &run.mix.laws.words);
        batch.insert(BatchReading::new(stopped + 14.0, Observed::Tang(tang)));
        let every = (0..=(stopped / 0.5) as usize).map(|k| 0.5 * k as f64);
        let course =
            every.enumerate().map(|(k, h)| Reading { at_h: h, c: shown(at(&f.temperature, h), k, 0.2, 1) });
        batch.logged = Some(Logged { file: "invented-logger.csv".to_owned(), course: course.collect() });
    } else {
        batch.packet = "packet A".to_owned();
    }
    pot.name.clone_into(&mut batch.name);
    pot.note.clone_into(&mut batch.note);
    batch.stars = pot.stars;
    batch
}

#[test]
fn the_demo_pots_are_what_the_model_gives_with_figures_a_little_off() {
    for pot in &ALL {
        let batch = invented(pot);
        assert_eq!(check::faults(&batch), [], "{}", pot.file);
        let text = format::write(&batch).unwrap();
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data/batches").join(pot.file);
        if std::env::var_os("UPDATE_EXPECT").is_some() {
            fs::write(&path, &text).unwrap();
        }
        assert!(
            text == fs::read_to_string(&path).unwrap(),
            "{} is another; UPDATE_EXPECT=1 renews it",
            pot.file
        );
    }
}
