//! Every value that is shown can be traced: laws that stand in the source, numbers that exist, sources that are named.

use std::path::Path;

use potset_base::Sugar;
use potset_doc::{Kitchen, Learnt, assets};
use potset_explain::Reading;
use potset_explain::basis::matches;
use potset_explain::reading::shipped;
use potset_forecast::numbers::{Number, numbers};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::{Answer, answer};
use potset_report::explain::explain;

use crate::support::{demo, pantry};

fn answered(name: &str) -> (potset_doc::Design, Answer) {
    let (design, pantry) = (demo(name), pantry());
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let answer = answer(&Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt });
    (design, answer)
}

/// All readings, those by place at their first places.
fn readings() -> Vec<Reading> {
    let mut all: Vec<Reading> = Reading::plain().collect();
    all.extend(Sugar::ALL.map(Reading::SugarOf));
    all.extend([Reading::Count(0), Reading::Count(1), Reading::Dose(0), Reading::CreamShare(0)]);
    all.extend([Reading::Kept(0), Reading::Kept(4)]);
    all
}

#[test]
fn every_value_of_every_demo_has_a_law_a_source_and_a_number() {
    let pantry = pantry();
    for (name, _) in assets::DEMOS {
        let (design, answer) = answered(name);
        let list = numbers(&design, &pantry, &Kitchen::default(), &Learnt::default());
        let mut told = 0;
        for reading in readings() {
            let Some(e) = explain(reading, &answer, answer.verdict.stop_h, &design, &list) else { continue };
            told += 1;
            assert!(!e.name.is_empty() && !e.value.is_empty() && !e.at.is_empty(), "{name}: {reading:?}");
            assert!(!e.basis.laws.is_empty(), "{name}: {reading:?} names no law");
            assert!(e.basis.laws.iter().all(|law| !law.source.is_empty() && !law.name.is_empty()));
            assert!(!e.basis.numbers.is_empty(), "{name}: {reading:?} rests on nothing");
            assert!(e.basis.numbers.iter().all(|n| n.used && !n.source.is_empty()));
            assert!(!e.text().contains("NaN"), "{name}: {}", e.text());
        }
        assert!(told >= 30 || answer.forecast.t.is_empty(), "{name}: only {told} values told");
    }
}

#[test]
fn what_laboratories_report_is_told_with_its_law_and_source() {
    let (design, answer) = answered("whole-milk-pot.ron");
    let list = numbers(&design, &pantry(), &Kitchen::default(), &Learnt::default());
    let told = |reading| explain(reading, &answer, answer.verdict.stop_h, &design, &list).unwrap().text();
    let texture = told(Reading::ViscosityChilled);
    for part in [
        "force on a flat 25 mm cylinder pressed in 2 mm",
        "\u{a0}N",
        "viscosity at 10 1/s",
        "power law through 10 and 50 1/s, K",
        "Pa·s^n",
        "its flow index n",
        "F = 8 G' a d [derived, rigid flat cylinder",
        "η = K γ^(n − 1) [derived, Ostwald-de Waele",
    ] {
        assert!(texture.contains(part), "{part} in {texture}");
    }
    let acidity = told(Reading::Titratable);
    for part in ["°D", "°SH", "°Th", "of this pot at pH\u{a0}4.6"] {
        assert!(acidity.contains(part), "{part} in {acidity}");
    }
    assert!(told(Reading::WheyStanding).contains("a centrifuge would draw"));
}

#[test]
fn every_key_that_a_reading_names_fits_a_number_that_exists() {
    // Fields that an entry need not have: any demo or the pantry may carry them.
    let optional =
        ["pace", "gel_strength", "lag_work", "galactose_released", "weeps_per_day", "buffer", "groups"];
    let list =
        numbers(&demo("coconut-pot.ron"), &pantry(), &Kitchen::default(), &Learnt::default()).all;
    let there = |pattern: &str| list.iter().any(|n: &Number| matches(pattern, &n.key));
    for reading in readings() {
        for pattern in shipped().rests.get(&reading.facts().unwrap().rests).unwrap().iter() {
            let may_miss = pattern.split('.').any(|step| optional.contains(&step) || step == "additives");
            assert!(there(pattern) || may_miss, "{reading:?}: nothing fits {pattern}");
        }
    }
}

/// A source file's comments as running text.
fn comments(file: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(file);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{file}: {e}"));
    let lines = text.lines().filter_map(|line| line.trim_start().strip_prefix("//"));
    words(&lines.map(|line| line.trim_start_matches(['/', '!'])).collect::<Vec<_>>().join(" "))
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_laws_say_what_the_source_says() {
    for (_, law) in shipped().laws.iter() {
        let text = comments(&law.file);
        assert!(text.contains(&words(&law.source)), "{}: {:?} is not in {}", law.name, law.source, law.file);
        assert!(
            text.contains(&words(&law.formula)),
            "{}: {:?} is not in {}",
            law.name,
            law.formula,
            law.file
        );
    }
}
