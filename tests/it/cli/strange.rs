//! Hostile input: files that never end, signs that steer a terminal, cells that are formulas, very long texts.

use std::fs;

use super::{potset, text};

/// A demo design with a part of its text replaced.
fn changed(from: &str, to: &str) -> String {
    let design = fs::read_to_string("tests/data/designs/coconut-pot.ron").unwrap();
    assert!(design.contains(from), "{from} stands in the design");
    design.replacen(from, to, 1)
}

const NAME: &str = "Thursday coconut pot";

/// Nothing that steers a terminal or turns the direction of writing.
fn plain(bytes: &[u8]) -> String {
    let said = text(bytes);
    let raw = |c: &char| {
        c.is_control() && *c != '\n' && *c != '\t'
            || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    assert_eq!(said.chars().find(raw), None, "{said:?}");
    said
}

#[cfg(unix)]
mod endless {
    use std::process::{Command, Output, Stdio};
    use std::time::{Duration, Instant};

    use super::super::{command, text};

    /// Ends the command where it does not end by itself.
    fn in_time(command: &mut Command) -> Output {
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let began = Instant::now();
        while child.try_wait().unwrap().is_none() {
            if began.elapsed() > Duration::from_secs(60) {
                child.kill().unwrap();
                panic!("{command:?} waits for ever");
            }
            std::thread::sleep(Duration::from_millis(20));
        }
        child.wait_with_output().unwrap()
    }

    #[test]
    fn a_pipe_or_a_device_is_no_file() {
        let dir = tempfile::tempdir().unwrap();
        let pipe = dir.path().join("pipe.ron");
        assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
        for file in [pipe.to_str().unwrap(), "/dev/zero", "/dev/null"] {
            for arguments in [
                vec!["verdict", file],
                vec!["forecast", file],
                vec!["matters", file],
                vec!["label", file],
                vec!["picture", file, "--out", "x.png"],
                vec!["beside", "coconut-pot.ron", file],
                vec!["aim", file, "--want", "vegan"],
                vec![file],
            ] {
                let out = in_time(command().args(&arguments));
                let said = text(&out.stderr);
                assert_eq!(out.status.code(), Some(2), "{arguments:?}: {said}");
                assert!(said.contains(file) && said.contains("a pipe or a device"), "{said}");
                assert!(said.contains("up to 4 MB") && said.contains("Save its content"), "{said}");
            }
        }
        // A line that is typed is no file either.
        let out = in_time(command().args(["verdict", "/dev/stdin"]).stdin(Stdio::piped()));
        assert_eq!(out.status.code(), Some(2), "{}", text(&out.stderr));
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn a_file_of_the_system_is_taken_at_its_word() {
        // It says that it is empty, and would give something all the same; others of its kind wait for ever.
        for (kind, part) in [("verdict", "The file is empty"), ("label", "The file is empty")] {
            let out = in_time(command().args([kind, "/proc/self/status"]));
            let said = text(&out.stderr);
            assert_eq!(out.status.code(), Some(2), "{said}");
            assert!(said.contains("/proc/self/status") && said.contains(part), "{said}");
        }
    }
}

#[test]
fn signs_that_steer_a_terminal_are_spelled_out() {
    let dir = tempfile::tempdir().unwrap();
    let evil = "pot\\u{1b}]0;x\\u{7}\\u{202e}gnp\\u{9b}2J";
    let pot = dir.path().join("pot.ron");
    fs::write(&pot, changed(NAME, evil)).unwrap();
    let pot = pot.to_str().unwrap();
    let shown = "pot<U+001B>]0;x<U+0007><U+202E>gnp<U+009B>2J";
    for arguments in [
        vec!["verdict", pot],
        vec!["beside", pot, "whole-milk-pot.ron"],
        vec!["beside", pot, "whole-milk-pot.ron", "--csv"],
        vec!["beside", pot, "whole-milk-pot.ron", "--markdown"],
    ] {
        let out = potset(&arguments);
        assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
        assert!(plain(&out.stdout).contains(shown), "{arguments:?}");
    }
    assert_eq!(potset(&["verdict", pot, "--ron"]).status.code(), Some(0));
    plain(&potset(&["verdict", pot, "--ron"]).stdout);
    let label = dir.path().join("label.txt");
    fs::write(&label, "Coconut \u{1b}[31mmilk\nFat 17 g \u{202e}x\nzz\u{1b}[2J\u{9b}\n").unwrap();
    let out = potset(&["label", label.to_str().unwrap()]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    assert!(plain(&out.stdout).contains("<U+001B>"));
}

#[test]
fn messages_are_plain_and_of_one_line() {
    let dir = tempfile::tempdir().unwrap();
    let put = |name: &str, text: String| {
        let path = dir.path().join(name);
        fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let broken = put("br\u{1b}[31m\u{202e}ok\nen.ron", "(format: \u{1b}[31m".to_owned());
    let format = put("format.ron", "(format: \"a\u{1b}[2J\nb\", version: 1, body: ())".to_owned());
    let entry = put("entry.ron", changed("white_sugar", "moon\\u{1b}[2Jdust\\nx"));
    for arguments in [
        vec!["verdict", &broken],
        vec!["verdict", &format],
        vec!["verdict", &entry],
        vec!["label", "no\u{1b}[31mwhere"],
        vec!["verd\u{1b}ict"],
        vec!["verdict", "a", "--\u{1b}[31m"],
        vec!["pantry", "\u{1b}[31m\u{2066}x"],
        vec!["evidence", "--case", "\u{1b}[31m"],
        vec!["aim", "coconut-pot.ron", "--want", "\u{1b}[31mx<=3"],
        vec!["picture", "coconut-pot.ron", "--out", "x.png", "--theme", "\u{1b}]"],
    ] {
        let out = potset(&arguments);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}");
        let said = plain(&out.stderr);
        assert_eq!(said.lines().count(), 1, "{said}");
        assert!(arguments.contains(&&*format) || said.contains("<U+001B>"), "{said}");
    }
}

#[test]
fn a_message_repeats_little_of_what_is_wrong() {
    let dir = tempfile::tempdir().unwrap();
    let long = "x".repeat(600_000);
    let put = |name: &str, text: String| {
        let path = dir.path().join(name);
        fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let files = [
        put("format.ron", format!("(format: \"{long}\", version: 1, body: ())")),
        put("field.ron", changed("name:", &format!("{long}: 1, name:"))),
        put("word.ron", changed("way: bath", &format!("way: {long}"))),
        put("entry.ron", changed("white_sugar", &long)),
        put("name.ron", changed(NAME, &long)),
        put("line.ron", changed("litres: 2.0", &format!("litres: \"{long}\""))),
    ];
    let most = |out: &std::process::Output| {
        let said = text(&out.stderr);
        assert_eq!(out.status.code(), Some(2), "{}", said.chars().take(300).collect::<String>());
        assert!(said.lines().all(|line| line.chars().count() < 1500), "{} characters", said.len());
    };
    for file in &files {
        most(&potset(&["verdict", file]));
        most(&potset(&["beside", "coconut-pot.ron", file]));
    }
    // As long as an argument may be.
    let long = &long[..100_000];
    most(&potset(&[long]));
    most(&potset(&["verdict", long]));
    most(&potset(&["verdict", "a.ron", &format!("--{long}")]));
    most(&potset(&["forecast", "coconut-pot.ron", "--every", long]));
    most(&potset(&["aim", "coconut-pot.ron", "--want", long]));
    most(&potset(&["aim", "coconut-pot.ron", "--want", &format!("{long}<=3")]));
    most(&potset(&["aim", "coconut-pot.ron", "--want", "vegan", "--hold", long]));
    most(&potset(&["evidence", "--case", long]));
    most(&potset(&["pantry", long]));
    most(&potset(&["picture", "coconut-pot.ron", "--out", "x.png", "--view", long]));
}

#[test]
fn a_name_in_a_table_is_no_formula() {
    let dir = tempfile::tempdir().unwrap();
    for (name, cell) in [
        ("=HYPERLINK(1)", "'=HYPERLINK(1)"),
        ("+1+2", "'+1+2"),
        ("-1+2", "'-1+2"),
        ("@SUM(1)", "'@SUM(1)"),
        // Blanks at its ends are no part of a name.
        ("\\t=1", "'=1"),
        ("=A1,B1", "\"'=A1,B1\""),
    ] {
        let pot = dir.path().join("pot.ron");
        fs::write(&pot, changed(NAME, name)).unwrap();
        let out = potset(&["beside", "whole-milk-pot.ron", pot.to_str().unwrap(), "--csv"]);
        assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
        let table = text(&out.stdout);
        let head = table.lines().next().unwrap();
        assert_eq!(head, format!("kind,part,name,unit,Whole milk pot,{cell}"));
        // A number below nothing stays a number.
        let shares = table.lines().filter(|l| l.starts_with("share,"));
        assert!(shares.filter(|l| l.contains(",-")).count() > 0, "{table}");
    }
}

#[test]
fn a_whole_file_is_only_read_up_to_a_size_that_is_named() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("big.ron");
    fs::File::create(&path).unwrap().set_len(1 << 40).unwrap();
    for kind in ["verdict", "label"] {
        let out = potset(&[kind, path.to_str().unwrap()]);
        let said = text(&out.stderr);
        assert_eq!(out.status.code(), Some(2), "{said}");
        assert!(said.contains("too large") && said.contains("under 4 MB"), "{said}");
    }
}
