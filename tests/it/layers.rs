//! The house rules that the compiler does not keep: which crate may hang on which, what of the standard library each may
//! use (disk, clock, threads), the size and the first line of a file, colours in one place, and the words and paths that no
//! text may hold. The scan is itself tested on bad samples in `layers/samples.rs`.

mod samples;
pub mod scan;

use self::scan::{Found, Kind, Scan, lines_of_tests, tokens};
use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::{Path, PathBuf},
};

/// One crate: a folder of `src/`, the crates of ours that it may hang on, those from outside, and what of
/// [`WATCHED`] it may use.
struct Room {
    name: &'static str,
    ours: &'static [&'static str],
    outside: &'static [&'static str],
    std: &'static [&'static str],
}

/// From the ground up.
const ROOMS: &[Room] = &[
    Room { name: "base", ours: &[], outside: &["jiff", "ron", "serde"], std: &[] },
    Room { name: "numerics", ours: &[], outside: &["differential-equations"], std: &[] },
    Room { name: "science", ours: &["base", "numerics"], outside: &["serde"], std: &[] },
    Room { name: "doc", ours: &["base"], outside: &["ron", "serde"], std: &[] },
    Room { name: "logger", ours: &["base"], outside: &["serde"], std: &[] },
    Room { name: "forecast", ours: &["base", "doc", "numerics", "science"], outside: &[], std: &[] },
    Room { name: "judge", ours: &["base", "doc", "forecast", "numerics", "science"], outside: &[], std: &[] },
    Room {
        name: "doubt",
        ours: &["base", "doc", "forecast", "judge", "numerics", "science"],
        outside: &["rayon"],
        std: &[],
    },
    Room {
        name: "learn",
        ours: &["base", "doc", "doubt", "forecast", "judge", "numerics", "science"],
        outside: &[],
        std: &[],
    },
    Room {
        name: "mishap",
        ours: &["base", "doc", "doubt", "forecast", "judge", "numerics", "science"],
        outside: &["serde"],
        std: &["std::sync"],
    },
    Room {
        name: "search",
        ours: &["base", "doc", "doubt", "forecast", "judge", "numerics", "science"],
        outside: &["rayon"],
        std: &[],
    },
    Room {
        name: "compare",
        ours: &["base", "doc", "doubt", "forecast", "judge", "numerics"],
        outside: &["rayon"],
        std: &[],
    },
    Room {
        name: "explain",
        ours: &["base", "doc", "doubt", "forecast", "judge", "science"],
        outside: &["serde"],
        std: &[],
    },
    Room {
        name: "evidence",
        ours: &["base", "doc", "doubt", "forecast", "learn", "numerics", "science"],
        outside: &[],
        std: &[],
    },
    Room {
        name: "catalogue",
        ours: &["base", "doc", "forecast", "judge", "science"],
        outside: &[],
        std: &[],
    },
    Room {
        name: "make",
        ours: &["base", "doc", "forecast", "judge", "numerics", "science"],
        outside: &[],
        std: &[],
    },
    Room {
        name: "class",
        ours: &["base", "doc", "forecast", "judge", "make", "science"],
        outside: &[],
        std: &[],
    },
    Room {
        name: "report",
        ours: &[
            "base", "class", "compare", "doc", "doubt", "explain", "forecast", "judge", "learn", "make",
            "mishap", "science", "search",
        ],
        outside: &["serde"],
        std: &[],
    },
    Room {
        name: "export",
        ours: &[
            "base",
            "catalogue",
            "compare",
            "doc",
            "doubt",
            "evidence",
            "explain",
            "forecast",
            "judge",
            "report",
            "science",
            "search",
        ],
        outside: &["csv", "png", "resvg", "rustybuzz"],
        std: &["std::io::Cursor", "std::io::Write"],
    },
    Room { name: "paper", ours: &["base", "export", "report"], outside: &["krilla", "krilla-svg"], std: &[] },
    Room {
        name: "store",
        ours: &["base", "doc"],
        outside: &["directories", "tempfile"],
        std: &["std::env", "std::fs", "std::io", "std::os", "std::process", "std::time::UNIX_EPOCH"],
    },
    Room {
        name: "app",
        ours: &[
            "base",
            "catalogue",
            "class",
            "compare",
            "doc",
            "doubt",
            "explain",
            "export",
            "forecast",
            "judge",
            "learn",
            "logger",
            "make",
            "mishap",
            "paper",
            "report",
            "science",
            "search",
            "store",
        ],
        outside: &[],
        std: &["std::thread", "std::time", "std::sync", "std::panic"],
    },
    Room {
        name: "ui/kit",
        ours: &["base", "compare", "explain", "forecast", "report"],
        outside: &["egui"],
        std: &["std::time", "std::sync", "std::thread"],
    },
    Room {
        name: "ui/chart",
        ours: &[
            "base", "compare", "doc", "doubt", "explain", "forecast", "judge", "report", "science", "ui/kit",
        ],
        outside: &["egui", "egui_plot"],
        std: &["std::time", "std::sync", "std::thread"],
    },
    Room {
        name: "ui/dialogs",
        ours: &[
            "app",
            "base",
            "catalogue",
            "doc",
            "explain",
            "forecast",
            "judge",
            "report",
            "science",
            "ui/kit",
        ],
        outside: &["egui", "rfd"],
        std: &["std::time", "std::sync", "std::thread"],
    },
    Room {
        name: "ui/bench",
        ours: &[
            "app",
            "base",
            "catalogue",
            "doc",
            "doubt",
            "explain",
            "forecast",
            "judge",
            "report",
            "science",
            "ui/chart",
            "ui/dialogs",
            "ui/kit",
        ],
        outside: &["egui"],
        std: &["std::time", "std::sync", "std::thread"],
    },
    Room {
        name: "ui",
        ours: &[
            "app",
            "base",
            "catalogue",
            "class",
            "compare",
            "doc",
            "explain",
            "forecast",
            "judge",
            "learn",
            "logger",
            "make",
            "mishap",
            "paper",
            "report",
            "science",
            "search",
            "ui/bench",
            "ui/chart",
            "ui/dialogs",
            "ui/kit",
        ],
        outside: &["eframe", "egui"],
        std: &["std::time", "std::sync", "std::thread"],
    },
    Room {
        name: "cli",
        ours: &[
            "app",
            "base",
            "catalogue",
            "class",
            "compare",
            "doc",
            "doubt",
            "evidence",
            "export",
            "forecast",
            "judge",
            "learn",
            "logger",
            "make",
            "mishap",
            "paper",
            "report",
            "science",
            "search",
            "store",
            "ui",
            "ui/dialogs",
            "ui/kit",
        ],
        outside: &["eframe", "egui", "png"],
        std: &["std"],
    },
];

/// What of the standard library needs a place in the table (everything below it too).
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

/// The one place of each rule that needs one: file or folder below `src/`, and rule.
const COLOURS: &[&str] = &["ui/kit/tokens", "ui/kit/painter"];

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
fn every_crate_hangs_on_what_the_table_says() {
    let mut findings = Vec::new();
    let crates = walk(&root().join("src")).into_iter().filter(|path| path.ends_with("Cargo.toml")).count();
    assert_eq!(crates, ROOMS.len(), "a crate of src/ is a row of the table");
    for (at, room) in ROOMS.iter().enumerate() {
        let (mut ours, mut outside) = (Vec::new(), Vec::new());
        for name in dependencies(room.name) {
            match name.strip_prefix("potset_") {
                // `ui_kit` is the folder `ui/kit`.
                Some(name) => ours.push(name.replacen('_', "/", 1)),
                None => outside.push(name),
            }
        }
        if ours != room.ours || outside != room.outside {
            findings
                .push(format!("{} hangs on {ours:?} and {outside:?}, not on what the table says", room.name));
        }
        if room.ours.iter().any(|other| ROOMS[at..].iter().any(|later| later.name == *other)) {
            findings.push(format!("{} hangs on a crate that the table has later", room.name));
        }
    }
    report(&findings);
}

#[test]
fn every_file_keeps_the_house_rules() {
    let findings: Vec<String> =
        sources().into_iter().flat_map(|(file, source)| check(&file, &source)).collect();
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

#[test]
fn no_files_of_a_crate_need_each_other_in_a_circle() {
    let files: BTreeMap<Vec<String>, (String, Scan)> = sources()
        .into_iter()
        .filter(|(file, _)| room(file).is_some())
        .map(|(file, source)| {
            let mut scan = Scan::of(&file, &tokens(&file, &source));
            scan.root = room(&file).map_or(1, |room| room.name.split('/').count());
            (scan.module.clone(), (file, scan))
        })
        .collect();
    let needs: BTreeMap<&Vec<String>, BTreeSet<&Vec<String>>> = files
        .iter()
        .map(|(module, (_, scan))| {
            let led = scan.paths.iter().filter(|path| !path.test).filter_map(|path| scan.leads_to(path));
            let others = led.filter_map(|mut to| {
                while !files.contains_key(&to) && to.pop().is_some() {}
                files.get_key_value(&to).map(|(key, _)| key)
            });
            // A part may use what the head of its own folder holds: those two are one thing in several files.
            (module, others.filter(|to| !module.starts_with(to)).collect())
        })
        .collect();
    let mut findings = Vec::new();
    for start in needs.keys() {
        let (mut seen, mut next) = (BTreeSet::new(), vec![*start]);
        while let Some(at) = next.pop() {
            for to in &needs[at] {
                if seen.insert(*to) {
                    next.push(to);
                }
            }
        }
        if seen.contains(start) {
            findings.push(format!("{} needs itself through others", files[*start].0));
        }
    }
    report(&findings);
}

// ---------------------------------------------------------------------------------------------
// The rules

/// Everything `file` (its path below `src/`) breaks, as `src/file:line: …`.
fn check(file: &str, source: &str) -> Vec<String> {
    let mut findings = BTreeSet::new();
    let mut add = |line: usize, what: String| {
        findings.insert((line, what));
    };
    if !source.starts_with("//!") {
        add(1, "the first line is not a `//!` line that says what the file is for".to_owned());
    }
    let tokens = tokens(file, source);
    let lines = source.lines().count();
    let counted = lines - lines_of_tests(&tokens).min(lines);
    if counted > MAX_LINES {
        add(lines, format!("{counted} lines without tests; stop at {MAX_LINES} and split the file"));
    }
    let Some(room) = room(file) else {
        return findings.into_iter().map(|(line, what)| format!("src/{file}:{line}: {what}")).collect();
    };
    let scan = Scan::of(file, &tokens);
    for path in scan.paths.iter().filter(|path| !path.test) {
        if let Some(name) = scan.forbidden(room, path) {
            add(path.line, format!("{} may not use `{name}`", room.name));
        }
        if scan.makes_colour(path) && !COLOURS.iter().any(|place| covers(place, file)) {
            add(path.line, "makes a colour; colours are named in ui/kit/tokens.rs".to_owned());
        }
    }
    findings.into_iter().map(|(line, what)| format!("src/{file}:{line}: {what}")).collect()
}

impl Scan {
    /// What of the standard library `path` names although `room` may not use it.
    fn forbidden(&self, room: &Room, path: &Found) -> Option<&'static str> {
        let segments = self.opened(path);
        let first = segments.first().filter(|first| matches!(first.as_str(), "std" | "core" | "alloc"))?;
        let full = segments.join("::").replacen(first.as_str(), "std", 1);
        let may = |name: &str| room.std.iter().any(|allowed| within(name, allowed));
        let glob = full.strip_suffix("::*");
        WATCHED.iter().copied().find(|watched| {
            let named = within(&full, watched) || glob.is_some_and(|open| within(watched, open));
            // A whole module that holds an allowed name is judged by the name taken from it.
            let taken = if glob.is_some() { watched } else { full.as_str() };
            let only_opened = path.import && glob.is_none() && room.std.iter().any(|one| within(one, &full));
            named && !may(taken) && !only_opened
        })
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

    /// The module of this crate that a path leads to, or something in it.
    fn leads_to(&self, path: &Found) -> Option<Vec<String>> {
        let segments = self.opened(path);
        let mut here: Vec<String> = self.module.iter().chain(&path.inline).cloned().collect();
        let mut rest = segments.iter().map(String::as_str).peekable();
        match *rest.peek()? {
            "crate" => {
                here.truncate(self.root);
                rest.next();
            }
            "self" => {
                rest.next();
            }
            "super" => {}
            first if self.modules.contains(first) => {}
            _ => return None,
        }
        while rest.next_if_eq(&"super").is_some() {
            here.pop();
        }
        here.extend(rest.map(str::to_owned));
        Some(here)
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

/// Whether `path` is `stem` or something in it.
fn within(path: &str, stem: &str) -> bool {
    path.strip_prefix(stem).is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
}

/// Whether the file or folder `stem` of an exception holds `file`.
fn covers(stem: &str, file: &str) -> bool {
    file.strip_prefix(stem).is_some_and(|rest| rest == ".rs" || rest.starts_with('/'))
}

pub fn root() -> PathBuf {
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

pub fn walk(folder: &Path) -> Vec<PathBuf> {
    entries(folder)
        .into_iter()
        .flat_map(|path| if path.is_dir() { walk(&path) } else { vec![path] })
        .collect()
}

/// Every source file: its path below `src/` and its text.
pub fn sources() -> Vec<(String, String)> {
    let files =
        walk(&root().join("src")).into_iter().filter(|path| path.extension().is_some_and(|e| e == "rs"));
    let sources: Vec<_> = files
        .map(|path| (shown(&path).trim_start_matches("src/").to_owned(), fs::read_to_string(path).unwrap()))
        .collect();
    assert!(sources.len() > 1, "the scan found no source");
    sources
}

/// What a crate of `src/` hangs on, by its own `Cargo.toml`, in order.
fn dependencies(name: &str) -> Vec<String> {
    let manifest = fs::read_to_string(root().join("src").join(name).join("Cargo.toml")).unwrap();
    let listed = manifest.lines().skip_while(|line| *line != "[dependencies]").skip(1);
    let mut names: Vec<String> = listed
        .take_while(|line| !line.starts_with('['))
        .filter_map(|line| line.split_once(['.', ' ', '=']))
        .map(|(name, _)| name.to_owned())
        .collect();
    names.sort();
    names
}

/// The crate of a file: the innermost folder of the table that holds it.
fn room(file: &str) -> Option<&'static Room> {
    ROOMS
        .iter()
        .filter(|room| file.strip_prefix(room.name).is_some_and(|rest| rest.starts_with('/')))
        .max_by_key(|room| room.name.len())
}

fn report(findings: &[String]) {
    assert!(findings.is_empty(), "{} findings:\n{}\n", findings.len(), findings.join("\n"));
}
