//! What is found out about a design only when it is compiled names its file and line; pots that all fail are told.

use std::fs;
use std::path::Path;

use super::{potset, text};

/// A design that cannot be made, in a file: its name, and the line of the fault from 1.
fn broken(dir: &Path, from: &str, to: &str) -> (String, usize) {
    let design = fs::read_to_string("tests/data/designs/coconut-pot.ron").unwrap();
    let line = design.lines().position(|line| line.contains(from)).unwrap() + 1;
    let path = dir.join("broken.ron");
    fs::write(&path, design.replacen(from, to, 1)).unwrap();
    (path.to_str().unwrap().to_owned(), line)
}

#[test]
fn a_fault_of_compiling_names_file_line_field_and_mend() {
    let dir = tempfile::tempdir().unwrap();
    for (from, to, field, title, mend) in [
        ("entry: \"white_sugar\"", "entry: \"moon_dust\"", "sugars[0].entry", "moon_dust", "Swap it"),
        ("to_c: 5.0", "to_c: 1.0", "steps[4].to_c", "never reached", "set the fridge colder"),
        (
            "fat: None",
            "fat: Some(99.0), carbohydrate: Some(40.0)",
            "bases[0].label",
            "cannot be true",
            "packet",
        ),
        ("vessel: \"jar_1l\"", "vessel: \"thimble\"", "vessel", "thimble", "Swap it"),
    ] {
        let (file, line) = broken(dir.path(), from, to);
        let out = dir.path().join("out.csv");
        let out = out.to_str().unwrap();
        for arguments in [
            vec!["verdict", &file],
            vec!["verdict", &file, "--ron"],
            vec!["forecast", &file],
            vec!["forecast", &file, "--spread", "20", "--out", out],
            vec!["matters", &file],
            vec!["aim", &file, "--want", "ph<=4.3"],
            vec!["beside", "whole-milk-pot.ron", &file],
            vec!["beside", &file, "whole-milk-pot.ron", "--out", out],
        ] {
            let ended = potset(&arguments);
            let said = text(&ended.stderr);
            assert_eq!(ended.status.code(), Some(2), "{arguments:?}: {said}");
            let lines = if field.ends_with("label") { [line - 1, line] } else { [line, line] };
            let places = lines.map(|line| format!("{file}, line {line}, {field}"));
            assert!(places.iter().any(|place| said.contains(place)), "{places:?} in {said}");
            assert!(said.contains(title) && said.contains(mend), "{said}");
            assert_eq!(text(&ended.stdout), "", "{arguments:?}");
        }
        assert!(!Path::new(out).exists());
    }
}

/// A design that can be made as planned, but hardly otherwise: sixteen labels that come to all but 100 g.
fn without_room(dir: &Path) -> String {
    let design = fs::read_to_string("tests/data/designs/coconut-pot.ron").unwrap();
    let line = "(entry: \"coconut_cream_tinned\", litres: 0.1, label: (fat: 20.0, protein: 5.0, sugars: 3.0, \
                extract: None, carbohydrate: 74.0, fibre: 0.0)),\n";
    let (before, after) = design.split_once("    ],\n    sugars: [").unwrap();
    let path = dir.join("full.ron");
    fs::write(&path, format!("{before}{}    ],\n    sugars: [{after}", line.repeat(16))).unwrap();
    path.to_str().unwrap().to_owned()
}

#[test]
fn pots_that_all_fail_are_no_answer_and_no_table() {
    let dir = tempfile::tempdir().unwrap();
    let file = without_room(dir.path());
    assert_eq!(potset(&["verdict", &file]).status.code(), Some(0), "as planned it can be made");
    let out = dir.path().join("table.csv");
    for arguments in [
        vec!["forecast", &file, "--spread", "40", "--every", "240"],
        vec!["forecast", &file, "--spread", "40", "--every", "240", "--out", out.to_str().unwrap()],
        vec!["matters", &file, "--spread", "100"],
    ] {
        let ended = potset(&arguments);
        let said = text(&ended.stderr);
        assert_eq!(ended.status.code(), Some(1), "{arguments:?}: {said}");
        assert!(said.contains(&file) && said.contains("None of "), "{said}");
        assert!(said.contains("cannot be true") && said.contains("Leave more room"), "{said}");
        assert_eq!(text(&ended.stdout), "", "{arguments:?}");
    }
    assert!(!out.exists(), "nothing is written");
}
