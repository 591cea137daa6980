//! The house rules of the source tree, kept by a scan: who may import whom, which outside names a
//! layer may use, the size and the first line of a file, no panics, colours in one place, and the
//! words and paths that no text may hold. The scan is itself tested on bad samples in `layers/samples.rs`.

mod samples;
mod scan;

use self::scan::{Found, Kind, Scan, Token, closing, lines_of_tests, tokens};
use std::{
    collections::BTreeSet,
    fs,
    path::{Path, PathBuf},
};

/// One row of the table: a folder of `src/`, the layers it may import, the outside names it may use.
struct Layer {
    name: &'static str,
    may: &'static [&'static str],
    outside: &'static [&'static str],
}

/// In reading order; `main` stands for `src/main.rs`. Standard names that are not in [`WATCHED`] are
/// free to all.
const LAYERS: &[Layer] = &[
    Layer { name: "base", may: &[], outside: &["serde"] },
    Layer { name: "numerics", may: &["base"], outside: &["differential_equations"] },
    Layer { name: "science", may: &["base", "numerics"], outside: &[] },
    Layer { name: "doc", may: &["base"], outside: &["serde", "ron"] },
    Layer { name: "compile", may: &["base", "doc", "science"], outside: &[] },
    Layer { name: "study", may: &["base", "numerics", "science", "doc", "compile"], outside: &["rayon"] },
    Layer {
        name: "export",
        may: &["base", "doc", "science::forecast", "study"],
        outside: &["png", "resvg", "std::io::Write", "std::io::Cursor"],
    },
    Layer {
        name: "store",
        may: &["base", "doc"],
        outside: &["std::fs", "std::io", "directories", "tempfile"],
    },
    Layer {
        name: "app",
        may: &["base", "numerics", "science", "doc", "compile", "study", "export", "store"],
        outside: &["std::thread", "std::time", "std::sync", "std::panic"],
    },
    Layer {
        name: "ui",
        may: &["base", "doc", "science::forecast", "study", "app"],
        outside: &["egui", "eframe", "egui_plot", "rfd", "std::time", "std::sync", "std::thread"],
    },
    Layer {
        name: "cli",
        may: &["base", "numerics", "science", "doc", "compile", "study", "export", "store", "app"],
        outside: &["std", "eframe", "png"],
    },
    Layer { name: "main", may: &["cli"], outside: &["std::env", "std::process"] },
];

/// Standard names that need a place in the table (everything below them too).
const WATCHED: &[&str] = &[
    "std::env",
    "std::fs",
    "std::io",
    "std::net",
    "std::os",
    "std::panic",
    "std::process",
    "std::thread",
    "std::time::Instant",
    "std::time::SystemTime",
    "std::time::UNIX_EPOCH",
    "std::sync::Barrier",
    "std::sync::Condvar",
    "std::sync::Mutex",
    "std::sync::RwLock",
    "std::sync::mpsc",
];

/// What a `#[cfg(test)]` module may use besides its layer's own outside names.
const IN_TESTS: &[&str] = &["std", "egui_kittest", "proptest", "ron", "tempfile"];

/// One file (`a/b` is `src/a/b.rs` or all below `src/a/b/`), one more thing it may use, and why. The
/// thing is an outside name, `crate::layer`, `colours`, `panics` or `lines`.
type Exception = (&'static str, &'static str, &'static str);

const EXCEPTIONS: &[Exception] = &[
    ("science/params", "serde", "parameters are read from the bundled table"),
    ("cli/picture", "crate::ui", "draws the real window off-screen"),
    ("cli/window", "crate::ui", "opens the window"),
    ("store/files", "std::os", "a saved file keeps the rights that the umask gives"),
    ("store/files", "std::time::UNIX_EPOCH", "a file's time only says whether it is still the same file"),
    ("store/out", "std::os", "a file under two names is known by its number"),
    ("ui/tokens", "colours", "the one place where colours are named"),
    ("ui/painter", "colours", "mixes pixels"),
];

const MAX_LINES: usize = 400;

const TOP_LEVEL: &[&str] = &[
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "src",
    "assets",
    "tests",
    "demo-data",
    "target",
];

// ---------------------------------------------------------------------------------------------
// The tree

#[test]
fn every_file_keeps_its_layer() {
    let crates = dependencies();
    let mut findings = Vec::new();
    for entry in entries(&root().join("src")) {
        if entry.is_dir() && layer(&name_of(&entry)).is_none() {
            findings.push(format!("src/{}: this folder is not in the table of layers", name_of(&entry)));
        }
    }
    for (file, source) in sources() {
        findings.extend(check(&file, &source, &crates, EXCEPTIONS));
    }
    report(&findings);
}

#[test]
fn every_exception_is_needed_and_explained() {
    let crates = dependencies();
    let sources = sources();
    let mut findings = Vec::new();
    for (at, exception) in EXCEPTIONS.iter().enumerate() {
        let others: Vec<Exception> =
            EXCEPTIONS.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, e)| *e).collect();
        let mut files = sources.iter().filter(|(file, _)| covers(exception.0, file)).peekable();
        let needed = files.peek().is_none()
            || files.any(|(file, source)| {
                check(file, source, &crates, &others).len() > check(file, source, &crates, EXCEPTIONS).len()
            });
        if !needed || exception.2.is_empty() {
            findings.push(format!("exception {exception:?} is not needed any more, or says no reason"));
        }
    }
    report(&findings);
}

#[test]
fn the_top_level_stays_short() {
    let mut findings = Vec::new();
    for name in entries(&root()).iter().map(|entry| name_of(entry)) {
        if !name.starts_with('.') && !TOP_LEVEL.contains(&name.as_str()) {
            findings.push(format!("{name}: not one of {TOP_LEVEL:?}"));
        }
    }
    report(&findings);
}

#[test]
fn texts_hold_no_forbidden_word_and_no_path_of_a_machine() {
    let mut findings = Vec::new();
    for (file, source) in sources() {
        for token in tokens(&file, &source).iter().filter(|token| token.kind == Kind::Text && !token.test) {
            if let Some(what) = fault_of_text(&token.text) {
                findings.push(format!("src/{file}:{}: {what}: {:?}", token.line, token.text));
            }
        }
    }
    let mut files = vec![root().join("README.md")];
    files.extend(walk(&root().join("assets")));
    files.extend(walk(&root().join("demo-data")));
    for path in files {
        // Fonts and pictures are no text and are passed over.
        let text = fs::read_to_string(&path).unwrap_or_default();
        for (at, line) in text.lines().enumerate() {
            if let Some(what) = fault_of_text(line) {
                findings.push(format!("{}:{}: {what}: {line}", shown(&path), at + 1));
            }
        }
    }
    report(&findings);
}

// ---------------------------------------------------------------------------------------------
// The rules

/// Everything `file` (its path below `src/`) breaks, as `src/file:line: layer …`.
fn check(file: &str, source: &str, crates: &BTreeSet<String>, exceptions: &[Exception]) -> Vec<String> {
    let excepted = |name: &str| exceptions.iter().any(|e| covers(e.0, file) && within(name, e.1));
    let mut findings = BTreeSet::new();
    let mut add = |line: usize, what: String| findings.insert((line, what));
    if !source.starts_with("//!") {
        add(1, "the first line is not a `//!` line that says what the file is for".to_owned());
    }
    let tokens = tokens(file, source);
    let lines = source.lines().count();
    let counted = lines - lines_of_tests(&tokens).min(lines);
    if counted > MAX_LINES && !excepted("lines") {
        add(lines, format!("{counted} lines without tests; stop at {MAX_LINES} and split the file"));
    }
    if file == "lib.rs" {
        if let Some(line) = other_than_modules(&tokens) {
            add(line, "lib.rs only declares modules, each a layer of the table".to_owned());
        }
    } else if let Some(layer) = layer(file.split('/').next().unwrap_or(file).trim_end_matches(".rs")) {
        for (line, what) in panics(file, &tokens) {
            if !(excepted("panics") && what.starts_with('`')) {
                add(line, what);
            }
        }
        let scan = Scan::of(file, &tokens);
        for path in &scan.paths {
            if let Some(name) = scan.forbidden(layer, path, crates).filter(|name| !excepted(name)) {
                let (may, outside) = (list(layer.may), list(layer.outside));
                add(
                    path.line,
                    format!(
                        "{} may not use `{name}`; it may import {may}, and from outside {outside}",
                        layer.name
                    ),
                );
            }
            if path.public
                && let Some(name) = scan.reexported(layer, path, crates)
            {
                add(path.line, format!("{} re-exports `{name}` across layers", layer.name));
            }
            if !path.test && scan.makes_colour(path) && !excepted("colours") {
                add(path.line, format!("{} makes a colour outside ui/tokens.rs", layer.name));
            }
        }
    } else {
        add(1, "this file is in no layer of the table".to_owned());
    }
    findings.into_iter().map(|(line, what)| format!("src/{file}:{line}: {what}")).collect()
}

/// Where a path leads.
enum Target {
    /// A `super` past the layer.
    Climbs,
    Ours(String),
    Outside(String),
    Local,
}

impl Scan {
    /// The name in `path` that `layer` may not use.
    fn forbidden(&self, layer: &Layer, path: &Found, crates: &BTreeSet<String>) -> Option<String> {
        match self.target(path, crates) {
            Target::Climbs => Some("super, out of the layer".to_owned()),
            Target::Ours(full) => {
                let allowed = within(&full, layer.name) || layer.may.iter().any(|may| within(&full, may));
                (!allowed).then(|| format!("crate::{full}"))
            }
            Target::Outside(full) => {
                let may = |name: &str| {
                    layer.outside.iter().any(|allowed| within(name, allowed))
                        || (path.test && IN_TESTS.iter().any(|allowed| within(name, allowed)))
                };
                if !within(&full, "std") {
                    return (!may(&full)).then(|| full.split("::").next().unwrap_or_default().to_owned());
                }
                let glob = full.strip_suffix("::*");
                let watched = WATCHED.iter().find(|watched| {
                    let named = within(&full, watched) || glob.is_some_and(|open| within(watched, open));
                    // A whole module that holds an allowed name is judged by the name taken from it.
                    let taken = if glob.is_some() { watched } else { full.as_str() };
                    named && !may(taken) && !(path.import && self.only_opened(path, &full, layer))
                })?;
                Some((*watched).to_owned())
            }
            Target::Local => None,
        }
    }

    /// `use std::io;` where the layer may use a part of `std::io`: what it takes from it is judged later.
    fn only_opened(&self, path: &Found, full: &str, layer: &Layer) -> bool {
        path.segments.last().is_some_and(|last| last != "*")
            && layer.outside.iter().any(|allowed| *allowed != full && within(allowed, full))
    }

    /// The name that a `pub use` hands on although it belongs to another layer or crate.
    fn reexported(&self, layer: &Layer, path: &Found, crates: &BTreeSet<String>) -> Option<String> {
        match self.target(path, crates) {
            Target::Ours(full) => (!within(&full, layer.name)).then_some(full),
            Target::Outside(full) => Some(full),
            Target::Climbs | Target::Local => None,
        }
    }

    fn makes_colour(&self, path: &Found) -> bool {
        let segments = self.opened(path);
        segments.last().is_some_and(|last| last == "hex_color")
            || segments.windows(2).any(|pair| {
                let [kind, maker] = pair else { return false };
                let named = !matches!(maker.as_str(), "TRANSPARENT" | "PLACEHOLDER")
                    && maker.chars().all(|c| c.is_ascii_uppercase() || c == '_');
                matches!(kind.as_str(), "Color32" | "Rgba" | "Hsva" | "HsvaGamma")
                    && (maker.starts_with("from_") || maker == "new" || named)
            })
    }

    fn target(&self, path: &Found, crates: &BTreeSet<String>) -> Target {
        let segments = self.opened(path);
        let Some(first) = segments.first() else { return Target::Local };
        let mut here: Vec<&str> = self.module.iter().chain(&path.inline).map(String::as_str).collect();
        let mut rest = segments.iter().map(String::as_str).peekable();
        match first.as_str() {
            "crate" | "potset" => {
                here.clear();
                rest.next();
            }
            "self" => {
                rest.next();
            }
            "super" => {}
            "std" | "core" | "alloc" => {
                let inner = segments[1..].iter().map(String::as_str);
                return Target::Outside(std::iter::once("std").chain(inner).collect::<Vec<_>>().join("::"));
            }
            // A path from a `use` that is no module of this file comes from a crate.
            _ if crates.contains(first) && !self.modules.contains(first) => {
                return Target::Outside(segments.join("::"));
            }
            _ if path.import
                && first.starts_with(|c: char| c.is_lowercase())
                && !self.modules.contains(first) =>
            {
                return Target::Outside(segments.join("::"));
            }
            _ => return Target::Local,
        }
        while rest.next_if_eq(&"super").is_some() {
            here.pop();
            if here.is_empty() {
                return Target::Climbs;
            }
        }
        here.extend(rest);
        Target::Ours(here.join("::"))
    }

    /// The segments with the names that this file's `use` lines gave replaced by what they stand for.
    fn opened(&self, path: &Found) -> Vec<String> {
        let mut segments = path.segments.clone();
        for _ in 0..4 {
            let Some(meant) = segments.first().and_then(|first| self.aliases.get(first)) else { break };
            if (path.import && *meant == path.segments) || meant.first() == segments.first() {
                break;
            }
            segments.splice(0..1, meant.iter().cloned());
        }
        segments
    }
}

/// Panics outside tests, and the ways to bring in a file past the tree.
fn panics(file: &str, tokens: &[Token]) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let text = |at: usize| tokens.get(at).filter(|t| t.kind != Kind::Text).map_or("", |t| t.text.as_str());
    for (at, token) in tokens.iter().enumerate().filter(|(_, token)| !token.test && token.kind == Kind::Word)
    {
        let (before, after) = (if at > 0 { text(at - 1) } else { "" }, text(at + 1));
        let word = token.text.as_str();
        let called = matches!(word, "unwrap" | "expect" | "unwrap_err" | "expect_err");
        if called && after == "(" && matches!(before, "." | "::") {
            found.push((token.line, format!("`.{word}(` outside tests; hand the fault on")));
        }
        if matches!(word, "panic" | "todo" | "unimplemented" | "dbg") && after == "!" {
            found.push((token.line, format!("`{word}!` outside tests; hand the fault on")));
        }
        if (word == "include" && after == "!") || (word == "path" && before == "[" && after == "=") {
            found.push((token.line, format!("{word}: a file is brought in past the tree")));
        }
        if word == "mod" && after == "tests" {
            found.push((token.line, "a module `tests` without #[cfg(test)]".to_owned()));
        }
        if word == "mod" && file == "main.rs" {
            found.push((token.line, "main.rs declares a module; it only calls cli".to_owned()));
        }
    }
    found
}

/// The line of the first thing in `lib.rs` that is neither `mod layer;` nor an attribute.
fn other_than_modules(tokens: &[Token]) -> Option<usize> {
    let mut at = 0;
    while at < tokens.len() {
        let text = |ahead: usize| tokens.get(at + ahead).map_or("", |token| token.text.as_str());
        let public = usize::from(text(0) == "pub");
        if text(0) == "#" {
            at = closing(tokens, at + 1 + usize::from(text(1) == "!")) + 1;
        } else if text(public) == "mod" && layer(text(public + 1)).is_some() && text(public + 2) == ";" {
            at += public + 3;
        } else {
            return Some(tokens[at].line);
        }
    }
    None
}

/// What is wrong with a text that a person may read.
fn fault_of_text(text: &str) -> Option<&'static str> {
    let lower = text.to_lowercase();
    if lower.split(|c: char| !c.is_alphanumeric()).any(|word| word == "safe") {
        return Some("\"safe\" is not one of our words");
    }
    let marks = ["file://", "cargo_manifest_dir", ":\\users"];
    if text.contains(env!("CARGO_MANIFEST_DIR")) || marks.iter().any(|mark| lower.contains(mark)) {
        return Some("names a path of a machine");
    }
    // An absolute path: a slash at the start of a word, a lower-case folder, and something in it.
    let starts = |c: char| c.is_whitespace() || "\"'`(=[,".contains(c);
    let absolute = |word: &str| {
        let Some((folder, inner)) = word.strip_prefix('/').and_then(|rest| rest.split_once('/')) else {
            return false;
        };
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "-_.".contains(c);
        folder.starts_with(|c: char| c.is_ascii_lowercase())
            && folder.chars().all(plain)
            && inner.starts_with(|c: char| c.is_ascii_alphanumeric() || c == '.' || c == '_')
    };
    text.split(starts).any(absolute).then_some("names a path of a machine")
}

// ---------------------------------------------------------------------------------------------
// Small helpers

fn layer(name: &str) -> Option<&'static Layer> {
    LAYERS.iter().find(|layer| layer.name == name)
}

/// Whether `path` is `stem` or something in it.
fn within(path: &str, stem: &str) -> bool {
    path.strip_prefix(stem).is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
}

/// Whether the file or folder `stem` of an exception holds `file`.
fn covers(stem: &str, file: &str) -> bool {
    file.strip_prefix(stem).is_some_and(|rest| rest == ".rs" || rest.starts_with('/'))
}

fn list(names: &[&str]) -> String {
    if names.is_empty() { "nothing".to_owned() } else { names.join(", ") }
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn name_of(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

fn shown(path: &Path) -> String {
    path.strip_prefix(root()).unwrap_or(path).to_string_lossy().replace('\\', "/")
}

/// What a folder holds, sorted; nothing if there is no such folder.
fn entries(folder: &Path) -> Vec<PathBuf> {
    let Ok(found) = fs::read_dir(folder) else { return Vec::new() };
    let mut entries: Vec<PathBuf> = found.map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    entries
}

fn walk(folder: &Path) -> Vec<PathBuf> {
    entries(folder)
        .into_iter()
        .flat_map(|path| if path.is_dir() { walk(&path) } else { vec![path] })
        .collect()
}

/// Every source file: its path below `src/` and its text.
fn sources() -> Vec<(String, String)> {
    let files =
        walk(&root().join("src")).into_iter().filter(|path| path.extension().is_some_and(|e| e == "rs"));
    let sources: Vec<_> = files
        .map(|path| (shown(&path).trim_start_matches("src/").to_owned(), fs::read_to_string(path).unwrap()))
        .collect();
    assert!(sources.len() > 1, "the scan found no source");
    sources
}

/// The crates that `Cargo.toml` names, as the source spells them.
fn dependencies() -> BTreeSet<String> {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let (mut listed, mut crates) = (false, BTreeSet::new());
    for line in manifest.lines().map(str::trim) {
        if let Some(section) = line.strip_prefix('[') {
            listed = section.trim_end_matches(']').ends_with("dependencies");
            if let Some((_, name)) = section.trim_end_matches(']').split_once("dependencies.") {
                crates.insert(name.replace('-', "_"));
            }
        } else if let Some((name, _)) =
            line.split_once(['=', '.']).filter(|_| listed && !line.starts_with('#'))
        {
            crates.insert(name.trim().replace('-', "_"));
        }
    }
    crates
}

fn report(findings: &[String]) {
    assert!(findings.is_empty(), "{} findings:\n{}\n", findings.len(), findings.join("\n"));
}
