//! The test of the test: for each rule a bad sample that must be reported, and nothing else with it,
//! and good samples that must pass.

use super::{EXCEPTIONS, MAX_LINES, check, fault_of_text};
use std::collections::BTreeSet;

const CRATES: &[&str] =
    &["differential_equations", "directories", "eframe", "egui", "png", "rayon", "ron", "serde"];

/// File, source without its first line, and what the one finding must say.
const BAD: &[(&str, &str, &str)] = &[
    // Layers
    ("base/note.rs", "use crate::doc::Design;", "base/note.rs:2: base may not use `crate::doc::Design`"),
    (
        "base/note.rs",
        "\n\nfn f() { crate::doc::design::new() }",
        "note.rs:4: base may not use `crate::doc::design::new`",
    ),
    ("study/aim.rs", "use crate::{base::Note, app::{State}};", "`crate::app::State`"),
    ("study/aim.rs", "use crate::{base::Note,\n ui::{self}};", "aim.rs:3: study may not use `crate::ui`"),
    ("ui/bench.rs", "use crate::science;\nuse science::forecast;", "ui may not use `crate::science`"),
    ("ui/bench.rs", "use crate::science::simulate as forecast;", "`crate::science::simulate`"),
    ("export/card.rs", "use crate::science::mix::Mix;", "science::forecast, study, and from outside png"),
    ("cli/verdict.rs", "use crate::ui::shell;", "`crate::ui::shell`"),
    ("app/state.rs", "pub use crate::{base::Note};", "app re-exports `base::Note`"),
    ("app/state.rs", "pub(crate) use crate::base::Note;", "app re-exports `base::Note`"),
    ("numerics/ode.rs", "pub use differential_equations::Solution;", "numerics re-exports"),
    ("base/note.rs", "use crate::*;", "`crate::*`"),
    ("base/note.rs", "use crate as home;\n", "`crate::`"),
    ("base/note.rs", "fn f(x: &<u8 as crate::doc::Kept>::Out) {}", "`crate::doc::Kept`"),
    ("base/note.rs", "#[serde(with = \"crate::doc::words\")] struct A;", "`crate::doc::words`"),
    ("base/note.rs", "macro_rules! m { () => { $crate::doc::new() } }", "`crate::doc::new`"),
    ("base/note.rs", "use super::super::doc::Design;", "`super, out of the layer`"),
    ("base/mod.rs", "fn f() { super::doc::new() }", "`super, out of the layer`"),
    (
        "base/number/parse.rs",
        "mod inner { use super::super::super::super::doc; }",
        "`super, out of the layer`",
    ),
    (
        "base/note.rs",
        "#[cfg(test)]\nmod tests { use crate::doc::Design; }",
        "note.rs:3: base may not use `crate::doc::Design`",
    ),
    ("cellar/mod.rs", "", "in no layer of the table"),
    ("cellar.rs", "", "in no layer of the table"),
    ("main.rs", "fn main() { potset::app::run() }", "main may not use `crate::app::run`"),
    ("main.rs", "mod cli;", "main.rs declares a module"),
    ("lib.rs", "pub mod base;\nfn f() {}", "lib.rs:3: lib.rs only declares modules"),
    ("lib.rs", "pub mod cellar;", "lib.rs only declares modules"),
    ("lib.rs", "pub use base::Note;", "lib.rs only declares modules"),
    // Outside names
    ("app/state.rs", "use egui::Vec2;", "app may not use `egui`"),
    ("app/state.rs", "fn f() { ::egui::vec2(1.0, 2.0); }", "app may not use `egui`"),
    ("app/state.rs", "use unheard_of::Thing;", "app may not use `unheard_of`"),
    ("app/state.rs", "extern crate rfd;", "app may not use `rfd`"),
    ("app/state.rs", "use std::fs;", "app may not use `std::fs`"),
    ("science/mix.rs", "use serde::Serialize;", "science may not use `serde`"),
    ("doc/design.rs", "#[derive(png::Picture)] struct A;", "doc may not use `png`"),
    ("study/spread.rs", "use std::{sync::Arc, thread};", "`std::thread`"),
    (
        "study/spread.rs",
        "use std::time::{self, Duration};\nfn f() { time::Instant::now(); }",
        "spread.rs:3: study may not use `std::time::Instant`",
    ),
    ("study/spread.rs", "use std::time as t; fn f() -> t::SystemTime { g() }", "`std::time::SystemTime`"),
    ("study/spread.rs", "use std::time::*;", "`std::time::Instant`"),
    ("study/spread.rs", "fn f() { core::panic::catch() }", "`std::panic`"),
    ("study/spread.rs", "use std::sync::mpsc::channel;", "`std::sync::mpsc`"),
    ("compile/mod.rs", "const A: Option<String> = std::env::var(\"A\");", "`std::env`"),
    (
        "export/png.rs",
        "use std::io::{self, Write};\nfn f(r: impl io::Read) {}",
        "png.rs:3: export may not use `std::io`",
    ),
    ("ui/shell.rs", "fn f() { std::process::exit(1) }", "`std::process`"),
    ("ui/shell.rs", "fn f() { std::net::lookup() }", "`std::net`"),
    // Colours
    ("ui/shell.rs", "fn f() { egui::Color32::from_rgb(1, 2, 3); }", "ui makes a colour"),
    ("ui/shell.rs", "use egui::Color32 as C;\nfn f() { C::from_gray(3); }", "shell.rs:3: ui makes a colour"),
    ("ui/shell.rs", "use egui::Color32;\nconst A: Color32 = Color32::LIGHT_BLUE;", "ui makes a colour"),
    ("ui/shell.rs", "fn f() { egui::hex_color!(\"#123456\"); }", "ui makes a colour"),
    // Panics and files past the tree
    ("doc/edit.rs", "fn f() { g()\n.unwrap() }", "edit.rs:3: `.unwrap(`"),
    ("doc/edit.rs", "fn f() { g.map(Option::unwrap()); }", "`.unwrap(`"),
    ("doc/edit.rs", "fn f() { g().expect(\"reason\") }", "`.expect(`"),
    ("doc/edit.rs", "fn f() { panic!(\"reason\") }", "`panic!`"),
    ("doc/edit.rs", "fn f() { todo!() }", "`todo!`"),
    ("doc/edit.rs", "fn f() { unimplemented!() }", "`unimplemented!`"),
    ("doc/edit.rs", "fn f() { dbg!(1); }", "`dbg!`"),
    ("doc/edit.rs", "#[cfg(test)]\nfn a() { [1]; }\nfn f() { todo!() }", "edit.rs:4: `todo!`"),
    ("doc/edit.rs", "#[cfg(not(test))]\nfn f() { todo!() }", "edit.rs:3: `todo!`"),
    ("doc/edit.rs", "fn f<'a>(x: &'a str) { let q = '\"'; todo!(); let r = '\"'; }", "`todo!`"),
    ("doc/edit.rs", "const A: &str = r#\"a \" b\"#; fn f() { todo!() }", "`todo!`"),
    ("doc/edit.rs", "/* a /* b */ \" */ fn f() { todo!() } // \"", "`todo!`"),
    ("doc/edit.rs", "mod tests;", "a module `tests` without #[cfg(test)]"),
    ("doc/edit.rs", "#[path = \"../ui/shell.rs\"] mod a;", "brought in past the tree"),
    ("doc/edit.rs", "include!(\"a.rs\");", "brought in past the tree"),
];

/// File and source without its first line.
const GOOD: &[(&str, &str)] = &[
    ("lib.rs", "#![warn(missing_docs)]\n/// Words.\npub mod base;\n#[doc(hidden)]\npub mod doc;\nmod cli;"),
    (
        "main.rs",
        "use std::process::ExitCode;\nfn main() -> ExitCode { potset::cli::main(std::env::args_os()) }",
    ),
    (
        "base/mod.rs",
        "mod note;\npub mod number;\npub use note::Note;\npub use self::number::Number;\nuse serde::Serialize;",
    ),
    ("base/number/parse.rs", "use super::super::note; use super::*; use crate::base::{note::{self, Note}};"),
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
        "use std::io::{self, Write}; use png::Encoder; fn f(w: impl io::Write) {} use crate::science::forecast::Curve;",
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
    ("ui/tokens.rs", "use egui::Color32; pub const INK: Color32 = Color32::from_rgb(1, 2, 3);"),
    ("ui/painter/blend.rs", "fn f() -> egui::Color32 { egui::Color32::from_rgba_premultiplied(1, 2, 3, 4) }"),
    ("ui/shell.rs", "fn f(c: egui::Color32) { if c == egui::Color32::TRANSPARENT { c.r(); } }"),
    ("ui/fonts.rs", "#[cfg(test)]\nmod tests { fn f() { egui::Color32::from_gray(1); } }"),
    ("cli/picture.rs", "use crate::{app::State, ui::{painter, shell}}; use std::fs::File;"),
];

fn crates() -> BTreeSet<String> {
    CRATES.iter().map(|name| (*name).to_owned()).collect()
}

#[test]
fn each_bad_sample_gives_its_one_finding() {
    let mut wrong = Vec::new();
    for (file, source, wanted) in BAD {
        let source = format!("//! What it is for.\n{source}\n");
        let findings = check(file, &source, &crates(), EXCEPTIONS);
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
        let findings = check(file, &source, &crates(), EXCEPTIONS);
        assert!(findings.is_empty(), "{file}\n{source}found {findings:#?}");
    }
}

#[test]
fn the_first_line_and_the_length_are_looked_at() {
    let only = |source: &str| check("base/note.rs", source, &crates(), EXCEPTIONS);
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
fn an_exception_holds_for_its_file_only() {
    let exceptions = [("doc/edit", "panics", "a sample")];
    let found = |file| check(file, "//! A.\nfn f() { todo!() }\n", &crates(), &exceptions).len();
    assert_eq!((found("doc/edit.rs"), found("doc/edit/inner.rs"), found("doc/editor.rs")), (0, 0, 1));
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
