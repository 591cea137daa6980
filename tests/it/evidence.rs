//! Published cases: complete as data, all of them run, and their summary fixed, so that a change that worsens it is seen.
//!
//! `UPDATE_EXPECT=1 cargo test --test it evidence` writes `tests/reference/evidence.txt` anew; review the difference and
//! say in the change why it moved.

mod coverage;
mod own;
mod refit;

use std::collections::BTreeSet;
use std::path::Path;

use potset_base::SourceKind;
use potset_doc::assets::PANTRY;
use potset_doc::evidence::{Case, CaseKind, FILES, HowRead, Role, Setup, shipped};
use potset_evidence::evidence::{CaseResult, Outcome, Report, run, source_kinds, summary};
use potset_export::evidence as text;

use crate::support::pantry;

fn cases() -> Vec<Case> {
    shipped().unwrap()
}

#[test]
fn every_case_says_where_it_is_from_and_how_it_was_read() {
    let cases = cases();
    assert!(cases.len() >= 25, "{} cases", cases.len());
    let keys: BTreeSet<&str> = cases.iter().map(|c| c.key.as_str()).collect();
    assert_eq!(keys.len(), cases.len(), "a key stands twice");
    for case in &cases {
        assert_eq!(case.fault(), None, "{}", case.key);
        // A year, a page or an address: something to find it by.
        let found_by = case.citation.chars().any(|c| c.is_ascii_digit()) || case.read == HowRead::Memory;
        assert!(found_by && case.citation.len() > 20, "{}: {}", case.key, case.citation);
        assert!(
            case.fit.is_none() || matches!(case.setup, Setup::Pot(_)),
            "{}: only pots are fitted",
            case.key
        );
    }
    for kind in CaseKind::ALL {
        assert!(cases.iter().any(|c| c.kind == kind), "no case of {}", kind.words());
    }
    assert!(cases.iter().any(|c| c.role == Role::Calibrate) && cases.iter().any(|c| c.role == Role::Check));
}

#[test]
fn unknown_fields_and_empty_citations_are_refused() {
    for (name, good) in FILES {
        assert!(potset_doc::format::asset::<Cases>(good).is_ok(), "{name}");
        for (anchor, spoilt) in
            [("key: \"", "nobody_knows_this: 1.0, key: \""), ("(what: ", "(nobody_knows_this: 1.0, what: ")]
        {
            let bad = good.replacen(anchor, spoilt, 1);
            let note = potset_doc::format::asset::<Cases>(&bad).unwrap_err();
            assert!(note.line().contains("nobody_knows_this"), "{name}: {note}");
        }
    }
    let mut case = cases().remove(0);
    case.citation = " ".to_owned();
    assert!(case.fault().is_some_and(|f| f.field == "citation" && f.title.contains("empty")));
}

#[derive(Debug, serde::Deserialize)]
struct Cases {
    #[serde(rename = "cases")]
    _cases: Vec<Case>,
}

#[test]
fn the_runner_covers_every_case() {
    let (cases, pantry) = (cases(), pantry());
    let report = run(&cases, &pantry);
    assert_eq!(report.cases.len(), cases.len());
    let mut ran = 0;
    for (case, outcome) in &report.cases {
        match outcome {
            Outcome::Rows(rows) => {
                ran += 1;
                assert_eq!(rows.len(), case.readings.len(), "{}", case.key);
                assert!(rows.iter().all(|r| r.difference.is_finite() && r.scatter > 0.0), "{}", case.key);
                for row in rows.iter().filter(|r| r.standing == CaseResult::Met) {
                    assert!(row.difference.abs() < 0.1, "{}: {row:?}", case.key);
                }
            }
            Outcome::Waits(entry) => {
                let there =
                    pantry.organisms.iter().map(|o| &o.key).chain(pantry.bases.iter().map(|b| &b.key));
                assert!(
                    there.into_iter().all(|key| key != entry),
                    "{} waits for {entry}, which is there",
                    case.key
                );
            }
            Outcome::Failed(note) => panic!("{}: {note}", case.key),
        }
    }
    assert!(ran >= 25, "{ran} cases ran");
    assert!(cases.iter().filter_map(|c| c.fit.as_ref()).all(|fit| {
        let runs = |c: &Case| c.fit.as_ref() == Some(fit);
        let waits = report.cases.iter().all(|(c, o)| !runs(c) || matches!(o, Outcome::Waits(_)));
        waits || report.fitted.iter().any(|f| f.shared == fit.shared)
    }));
}

#[test]
fn three_readings_carry_no_headline_figure() {
    let cases: Vec<Case> = cases().into_iter().filter(|c| c.kind == CaseKind::LineSpread).collect();
    let mut few = cases.clone();
    few[0].readings.truncate(3);
    let pantry = pantry();
    assert!(summary(&run(&cases, &pantry)).kinds[0].whole.rms.is_some());
    assert_eq!(summary(&run(&few, &pantry)).kinds[0].whole.rms, None);
}

#[test]
fn every_number_is_counted_by_its_kind_of_source() {
    let pantry = pantry();
    let (parameters, counted) = source_kinds(&pantry).unwrap();
    assert_eq!(counted.iter().sum::<usize>(), PANTRY.matches("(v: ").count());
    assert_eq!(parameters.iter().sum::<usize>(), potset_forecast::params::shipped().unwrap().list().len());
    // One more number of a kind is one more in its place.
    let mut more = pantry;
    more.organisms[0].d60_min.from.kind = SourceKind::Fitted;
    let (_, moved) = source_kinds(&more).unwrap();
    assert_eq!(moved[2], counted[2] + 1);
}

/// What is fixed: the summary, what waits, what was fitted, and the misses by name.
fn fixed(report: &Report<'_>) -> String {
    let mut out = text::by_kind(&summary(report));
    for (case, outcome) in &report.cases {
        if let Outcome::Waits(entry) = outcome {
            out += &format!("{} waits for {entry}\n", case.key);
        }
    }
    out += &text::fitted(report);
    out += &text::misses(report);
    out
}

#[test]
fn the_summary_is_fixed() {
    let (cases, pantry) = (cases(), pantry());
    let report = run(&cases, &pantry);
    let (now, headline) = (fixed(&report), text::headline(&summary(&report)));
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let table = root.join("assets/evidence/headline.md");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/evidence.txt");
    if std::env::var("UPDATE_EXPECT").is_ok_and(|v| v == "1") {
        std::fs::write(&path, &now).unwrap();
        std::fs::write(&table, &headline).unwrap();
        return;
    }
    let stored = std::fs::read_to_string(&path).unwrap();
    assert!(now == stored, "the evidence has moved; see the head of tests/it/evidence.rs\n{now}");
    assert_eq!(headline, std::fs::read_to_string(&table).unwrap(), "the headline has moved with it");
}

/// README says how many published readings there are and how many the model misses: it cannot drift from the evidence.
#[test]
fn the_readme_tells_the_misses_as_they_are() {
    let frozen = include_str!("../reference/evidence.txt");
    let (mut readings, mut misses) = (0, 0);
    for line in frozen.lines().skip(1).take_while(|line| !line.starts_with("rms:")) {
        let numbers: Vec<u32> = line.split_whitespace().filter_map(|word| word.parse().ok()).collect();
        readings += numbers[1];
        misses += numbers[4];
    }
    let cases = frozen.lines().find_map(|line| line.split_once(" cases ran")).unwrap().0;
    let said = format!("runs {cases} published cases: of {readings} readings it misses {misses}");
    let readme = include_str!("../../README.md").replace('\n', " ");
    assert!(readme.contains(&said), "README should say: {said}");
}
