//! The test of the test: for each rule a bad sample that must be reported, and nothing else with it,
//! and good samples that must pass.

use super::{MAX_LINES, check, fault_of_text};

/// File, source without its first line, and what the one finding must say.
const BAD: &[(&str, &str, &str)] = &[
    // Disk, clock, threads
    ("app/state.rs", "use std::fs;", "app may not use `std::fs`"),
    ("doubt/spread.rs", "use std::{sync::Arc, thread};", "`std::thread`"),
    (
        "doubt/spread.rs",
        "use std::time::{self, Duration};\nfn f() { time::Instant::now(); }",
        "spread.rs:3: doubt may not use `std::time::Instant`",
    ),
    ("doubt/spread.rs", "use std::time as t; fn f() -> t::SystemTime { g() }", "`std::time::SystemTime`"),
    ("doubt/spread.rs", "use std::time::*;", "`std::time::Instant`"),
    ("doubt/spread.rs", "fn f() { core::panic::catch() }", "`std::panic`"),
    ("doubt/spread.rs", "use std::sync::mpsc::channel;", "`std::sync::mpsc`"),
    ("forecast/lib.rs", "const A: Option<String> = std::env::var(\"A\");", "`std::env`"),
    (
        "export/png.rs",
        "use std::io::{self, Write};\nfn f(r: impl io::Read) {}",
        "png.rs:3: export may not use `std::io`",
    ),
    ("ui/shell.rs", "fn f() { std::process::exit(1) }", "`std::process`"),
    ("ui/shell.rs", "fn f() { std::net::lookup() }", "`std::net`"),
    // Colours
    ("ui/shell.rs", "fn f() { egui::Color32::from_rgb(1, 2, 3); }", "makes a colour"),
    ("ui/shell.rs", "use egui::Color32 as C;\nfn f() { C::from_gray(3); }", "shell.rs:3: makes a colour"),
    ("ui/shell.rs", "use egui::Color32;\nconst A: Color32 = Color32::LIGHT_BLUE;", "makes a colour"),
    ("ui/shell.rs", "fn f() { egui::hex_color!(\"#123456\"); }", "makes a colour"),
    ("doc/edit.rs", "const A: &str = r#\"a \" b\"#; use std::fs;", "`std::fs`"),
    ("doc/edit.rs", "/* a /* b */ \" */ use std::fs; // \"", "`std::fs`"),
    ("doc/edit.rs", "#[cfg(test)]\nfn a() { [1]; }\nuse std::fs;", "edit.rs:4: doc may not use `std::fs`"),
    ("doc/edit.rs", "#[cfg(not(test))]\nuse std::fs;", "edit.rs:3: doc may not use `std::fs`"),
    ("doc/edit.rs", "fn f<'a>(x: &'a str) { let q = '\"'; std::fs::read(x); let r = '\"'; }", "`std::fs`"),
];

/// File and source without its first line.
const GOOD: &[(&str, &str)] = &[
    (
        "base/note.rs",
        "// crate::doc and std::fs\n/* todo!() /* */ egui::x */ const A: &str = \"std::fs egui:: todo!()\";",
    ),
    (
        "base/note.rs",
        "const A: &str = r##\"\" \"# crate::doc::x .unwrap()\"##; const B: &[u8] = b\"\\\" dbg!()\";",
    ),
    (
        "base/note.rs",
        "fn expect(x: u8) -> Result<u8, f64> { expect(x).unwrap_or(1.0..2.0) } #[expect(unused)] fn r#type() {}",
    ),
    ("base/note.rs", "use std::{fmt::{self, Write as _}, time::Duration, sync::{Arc, atomic::AtomicBool}};"),
    (
        "base/note.rs",
        "use Severity::*; enum Severity { A } fn f() -> impl Sized + use<> { Self::g::<u8>(..Default::default()) }",
    ),
    (
        "doc/edit.rs",
        "#[cfg(test)]\n#[allow(unused)]\nmod tests { use super::*; use std::fs; fn f() { g().unwrap(); todo!() } }",
    ),
    ("doc/edit.rs", "#[cfg(test)]\nmod tests;"),
    ("doc/edit/tests.rs", "use super::*; fn f() { std::fs::read(\"a\").unwrap(); }"),
    (
        "export/png.rs",
        "use std::io::{self, Write}; use png::Encoder; fn f(w: impl io::Write) {} use potset_science::forecast::Curve;",
    ),
    (
        "science/params.rs",
        "use serde::Deserialize; const T: &str = include_str!(\"../../assets/parameters.ron\");",
    ),
    ("science/params/acids.rs", "#[derive(serde::Deserialize)] struct Acid;"),
    (
        "app/worker.rs",
        "use std::{panic, sync::mpsc, thread, time::Instant}; fn f() { panic::catch_unwind(g); thread::spawn(h); }",
    ),
    ("ui/kit/tokens.rs", "use egui::Color32; pub const INK: Color32 = Color32::from_rgb(1, 2, 3);"),
    (
        "ui/kit/painter/blend.rs",
        "fn f() -> egui::Color32 { egui::Color32::from_rgba_premultiplied(1, 2, 3, 4) }",
    ),
    ("ui/shell.rs", "fn f(c: egui::Color32) { if c == egui::Color32::TRANSPARENT { c.r(); } }"),
    ("ui/kit/fonts.rs", "#[cfg(test)]\nmod tests { fn f() { egui::Color32::from_gray(1); } }"),
    ("cli/picture.rs", "use potset_app::State; use std::fs::File;"),
];

#[test]
fn each_bad_sample_gives_its_one_finding() {
    let mut wrong = Vec::new();
    for (file, source, wanted) in BAD {
        let source = format!("//! What it is for.\n{source}\n");
        let findings = check(file, &source);
        if findings.len() != 1 || !findings[0].contains(wanted) {
            wrong.push(format!("{file}\n{source}wanted {wanted}\nfound {findings:#?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn good_samples_pass() {
    for (file, source) in GOOD {
        let source = format!("//! What it is for.\n{source}\n");
        let findings = check(file, &source);
        assert!(findings.is_empty(), "{file}\n{source}found {findings:#?}");
    }
}

#[test]
fn the_first_line_and_the_length_are_looked_at() {
    let only = |source: &str| check("base/note.rs", source);
    assert!(only("// What it is for.\n//! Late.\n")[0].contains("note.rs:1: the first line"));
    assert!(only("")[0].contains("the first line"));
    let long = "//! Long.\n".to_owned() + &"fn f() {}\n\n".repeat(MAX_LINES / 2);
    assert!(only(&long)[0].contains("401 lines without tests"));
    let tests = "#[cfg(test)]\nmod tests {\n".to_owned() + &"    // A line.\n\n".repeat(MAX_LINES) + "}\n";
    let short = "//! Short.\n".to_owned() + &"fn f() {}\n".repeat(MAX_LINES - 1);
    assert_eq!(only(&(short.clone() + &tests)), [""; 0]);
    assert!(only(&(short + "\n" + &tests))[0].contains("401 lines without tests"));
}

#[test]
fn texts_are_looked_at() {
    let word = ["sa", "fe"].concat();
    for bad in [
        format!("This pot is {word}."),
        format!("{}!", word.to_uppercase()),
        format!("food-{word} to eat"),
        "see /opt/thing/file.txt".to_owned(),
        "(/home/someone)".to_owned(),
        "open 'C:\\Users\\someone'".to_owned(),
        "file:///a".to_owned(),
        format!("in {}", env!("CARGO_MANIFEST_DIR")),
    ] {
        assert!(fault_of_text(&bad).is_some(), "{bad}");
    }
    for good in [
        "unsafe safety safely",
        "and/or g/kg/h",
        "https://example.org/a/b",
        "~/designs/oat.ron",
        "</g> /Type/Page 1 / 2 / 3",
    ] {
        assert_eq!(fault_of_text(good), None, "{good}");
    }
}
