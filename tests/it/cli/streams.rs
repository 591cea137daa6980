//! Names that are no text, readers that go away, and devices that are full: no crash.
#![cfg(unix)]

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::os::unix::ffi::OsStringExt;
use std::process::{Command, Output, Stdio};

use super::{command, text};

/// A name that is no text in UTF-8.
fn odd(name: &str) -> OsString {
    let mut bytes = b"caf\xe9-\xff-".to_vec();
    bytes.extend(name.as_bytes());
    OsString::from_vec(bytes)
}

fn run(command: &mut Command) -> Output {
    let out = command.output().unwrap();
    let said = text(&out.stderr);
    assert!(!said.contains("panicked") && out.status.code() != Some(101), "{said}");
    out
}

#[test]
fn a_file_may_have_a_name_that_is_no_text() {
    let dir = tempfile::tempdir().unwrap();
    let pot = dir.path().join(odd("pot.ron"));
    let label = dir.path().join(odd("label.txt"));
    let table = dir.path().join(odd("table.csv"));
    fs::copy("tests/data/designs/coconut-pot.ron", &pot).unwrap();
    fs::copy("tests/data/labels/02-milk-median.txt", &label).unwrap();
    let done = [
        run(command().arg("verdict").arg(&pot)),
        run(command().args(["forecast", "--every", "240"]).arg(&pot).arg("--out").arg(&table)),
        run(command().arg("beside").arg("coconut-pot.ron").arg(&pot).arg("--out").arg(&table)),
        run(command().arg("label").arg(&label)),
        // There is no display here: what can be read ends at the window.
        run(command().arg(&pot)),
    ];
    let codes: Vec<Option<i32>> = done.iter().map(|out| out.status.code()).collect();
    // The table of curves is not replaced by one of what differs.
    assert_eq!(codes, [Some(0), Some(0), Some(2), Some(0), Some(3)]);
    assert!(fs::read_to_string(&table).unwrap().starts_with("time_h,"));
}

#[test]
fn what_is_no_text_elsewhere_is_told() {
    for (arguments, part) in [
        (vec!["verdict".into(), odd("nowhere.ron")], "could not be read"),
        (vec![odd("nowhere.ron")], "could not be read"),
        (vec![odd("")], "no command or file"),
        (vec!["forecast".into(), "coconut-pot.ron".into(), "--every".into(), odd("")], "not text in UTF-8"),
        (vec!["forecast".into(), OsString::from_vec(b"--out=\xff.csv".to_vec())], "not text in UTF-8"),
        (vec!["verdict".into(), OsString::from_vec(b"--\xff".to_vec())], "not text in UTF-8"),
        (vec!["pantry".into(), odd("")], "nothing of this name"),
        (vec!["aim".into(), "coconut-pot.ron".into(), "--want".into(), odd("")], "not text in UTF-8"),
        (vec!["verdict".into(), "a.ron".into(), odd("b.ron")], "One design at a time"),
    ] {
        let out = run(command().args(&arguments));
        assert_eq!(out.status.code(), Some(2), "{arguments:?}");
        assert!(text(&out.stderr).contains(part), "{arguments:?}: {}", text(&out.stderr));
    }
}

/// Commands that print, short ones and long ones.
const PRINTING: [&[&str]; 8] = [
    &["help"],
    &["--version"],
    &["pantry"],
    &["pantry", "--check"],
    &["verdict", "coconut-pot.ron"],
    &["forecast", "coconut-pot.ron", "--every", "1"],
    &["beside", "coconut-pot.ron", "whole-milk-pot.ron"],
    &["label", "tests/data/labels/02-milk-median.txt"],
];

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    for arguments in PRINTING {
        // A pipe that nobody reads any more, from the start.
        let mut reader = Command::new("true").stdin(Stdio::piped()).spawn().unwrap();
        let pipe = reader.stdin.take().unwrap();
        reader.wait().unwrap();
        let out = run(command().args(arguments).stdout(pipe));
        assert_eq!((out.status.code(), text(&out.stderr).as_str()), (Some(0), ""), "{arguments:?}");
    }
}

#[test]
fn a_message_that_nobody_reads_changes_nothing() {
    let mut reader = Command::new("true").stdin(Stdio::piped()).spawn().unwrap();
    let pipe = reader.stdin.take().unwrap();
    reader.wait().unwrap();
    assert_eq!(command().args(["verdict", "nowhere.ron"]).stderr(pipe).status().unwrap().code(), Some(2));
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_device_is_told() {
    let full = || OpenOptions::new().write(true).open("/dev/full").unwrap();
    for arguments in PRINTING {
        let out = run(command().args(arguments).stdout(full()));
        let said = text(&out.stderr);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}: {said}");
        assert!(
            said.contains("output: The output could not be written") && said.contains("Make room"),
            "{said}"
        );
    }
    let deaf: File = full();
    assert_eq!(command().args(["verdict", "nowhere.ron"]).stderr(deaf).status().unwrap().code(), Some(2));
}
