//! Cases of a file: run, fitted and compared as the shipped ones, and refused with line, field and mend.

use std::path::Path;

use potset_doc::evidence::{FILES, read, shipped};
use potset_evidence::evidence::{CaseResult, Outcome, run};

use crate::cli::{potset, text};
use crate::support::shipped as pantry;

const FILE: &str = "tests/data/evidence/invented.ron";

fn invented() -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(FILE)).unwrap()
}

#[test]
fn the_shipped_files_are_read_as_a_file_of_ones_own() {
    let mut all = Vec::new();
    for (name, text) in FILES {
        all.extend(read(text.as_bytes(), pantry()).unwrap_or_else(|note| panic!("{name}: {note}")));
    }
    assert!(all == shipped().unwrap());
}

#[test]
fn pace_and_lag_are_fitted_to_the_cases_that_share_them() {
    let cases = read(invented().as_bytes(), pantry()).unwrap();
    let report = run(&cases, pantry());
    assert_eq!(report.fitted.len(), 1);
    let fitted = &report.fitted[0];
    assert_eq!((fitted.shared.as_str(), fitted.values.len()), ("weir_pair", 2));
    // The readings tell the pace: it is known far better than before.
    assert!(fitted.values[0].sigma < 0.5 * fitted.values[0].prior_sigma, "{fitted:?}");
    // A factor on what the case says: nothing of its own, so that it is the pantry's pace in milk.
    let pair = potset_doc::pantry::find(&pantry().cultures, "dairy_pair").unwrap();
    assert_eq!((fitted.values[0].said, fitted.values[1].said), (pair.speed_dairy.value, pair.lag_work.value));
    let standings: Vec<CaseResult> = report
        .cases
        .iter()
        .map(|(case, outcome)| match outcome {
            Outcome::Rows(rows) => {
                assert_eq!(rows.len(), case.readings.len());
                rows[0].standing
            }
            other => panic!("{}: {other:?}", case.key),
        })
        .collect();
    assert_eq!(standings, [CaseResult::Fitted, CaseResult::Fitted, CaseResult::Predicted]);
    // A case that says the same by itself is forecast the same: nothing of the others gets into it.
    let alone = run(&cases[2..], pantry());
    assert_eq!(report.cases[2].1, alone.cases[0].1);
}

#[test]
fn the_command_tells_readings_misses_and_fitted_values() {
    let out = potset(&["evidence", FILE]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let words = text(&out.stdout);
    for part in [
        "notebook of spring 2026, pot 3; measured on a pot of one's own",
        "3 cases ran",
        "misses, beyond 2 scatters:\n  weir_milk_39                     pH after 7 d",
        "2 values fitted",
        "weir_pair                pace",
        "To give under Measured of a culture",
    ] {
        assert!(words.contains(part), "{part} in {words}");
    }
    assert!(!words.contains("dan2019") && !words.contains("source of numbers"), "{words}");
    let one = text(&potset(&["evidence", FILE, "--case", "weir_skimmed"]).stdout);
    assert!(
        one.starts_with("weir_skimmed") && one.contains("predicted") && !one.contains("weir_milk"),
        "{one}"
    );
    let table = text(&potset(&["evidence", FILE, "--csv"]).stdout);
    assert_eq!(table.lines().count(), 1 + 5 + 3 + 1, "{table}");
    let bands = text(&potset(&["evidence", FILE, "--spread", "40"]).stdout);
    assert!(bands.contains("of 40 drawn pots") && bands.contains("OUTSIDE"), "{bands}");
}

#[test]
fn what_is_wrong_is_told_with_line_field_and_mend() {
    let good = invented();
    for (from, to, parts) in [
        ("ph: 6.68", "ph: 16.68", &["line 14", "setup.bases[0].ph", "pH is out of range", "2 to 9"][..]),
        ("ph: 6.68", "ph: NaN", &["line 14", "not a number"]),
        ("cfu_per_g: 2e6", "cfu: 2e6", &["line 15", "cfu", "expected"]),
        ("l_bulgaricus", "l_nobody", &["line 15", "cells[1].organism", "l_nobody", "Give one of s_thermo"]),
        ("whole_cows_milk", "moon_milk", &["line 14", "bases[0].entry", "moon_milk", "potset pantry"]),
        ("hold_c: 39.0", "hold_c: 390.0", &["line 41", "Hold temperature is out of range", "0 to 100 °C"]),
        ("ph(8.0)", "ph(18.0)", &["line 25", "readings[3]", "outside of the hold", "hours"]),
        ("v: 9.0", "v: 8.1", &["line 47", "middle of its range"]),
        ("weir_milk_39", "weir_milk_41", &["line 30", "Two cases have this key", "Rename"]),
        ("kind: storage", "kind: cellar", &["line 32", "cellar", "expected one of"]),
        ("assumed: \"nothing\"", "assumed: \"\"", &["line 58", "assumed is empty", "few words"]),
        ("(0.3, 3.0)", "(3.0, 0.3)", &["line 16", "cells_within", "around 1"]),
        ("low: 0.3", "low: 0.7", &["setup.lag", "around the value"]),
    ] {
        let bad = good.replacen(from, to, 1);
        assert_ne!(bad, good, "{from} stands in the file");
        let note = read(bad.as_bytes(), pantry()).unwrap_err();
        for part in parts {
            assert!(note.line().contains(part), "{part} in {note}");
        }
    }
    for (bytes, part) in [
        (&b""[..], "empty"),
        (b"(cases: [])", "no case"),
        (b"(cases: [", "cut short"),
        (b"\xff", "UTF-8"),
        (include_bytes!("../../data/designs/coconut-pot.ron"), "a design, not a file of cases"),
    ] {
        let note = read(bytes, pantry()).unwrap_err();
        assert!(note.line().contains(part), "{part} in {note}");
    }
}

#[test]
fn the_command_refuses_what_it_cannot_run() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("bad.ron");
    std::fs::write(&path, invented().replacen("ph: 6.68", "ph: 1.0", 1)).unwrap();
    let path = path.to_str().unwrap();
    for (arguments, part) in [
        (vec!["evidence", path], "bad.ron, line 14"),
        (vec!["evidence", "nowhere.ron"], "nowhere.ron"),
        (vec!["evidence", FILE, path], "One file of cases at a time"),
        (vec!["evidence", FILE, "--case", "nobody"], "There is no case nobody"),
    ] {
        let out = potset(&arguments);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}");
        assert!(text(&out.stderr).contains(part), "{arguments:?}: {}", text(&out.stderr));
    }
}

#[test]
fn the_example_of_the_readme_runs() {
    let readme = include_str!("../../../README.md");
    let example = readme.split("```ron").nth(1).unwrap().split("```").next().unwrap();
    let cases = read(example.as_bytes(), pantry()).unwrap();
    let report = run(&cases, pantry());
    assert!(matches!(&report.cases[0].1, Outcome::Rows(rows) if rows.len() == 3), "{:?}", report.cases[0].1);
}
