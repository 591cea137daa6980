//! What a person reads first is plain: no word of a statistician or a chemist, no key of a file, no title that runs on.
//! The scan of the sources is that of `layers`; it is tested on bad samples at the end.

use crate::layers::{
    root,
    scan::{Kind, Token, closing, tokens},
    walk,
};
use std::{collections::BTreeSet, fs};

/// Words that no first reading holds, in small letters, and what is said instead.
const BANNED: [(&str, &str); 22] = [
    ("1/h", "a number of hours"),
    ("straight line", "how much of the difference between pots it explains"),
    ("straight lines", "nothing: say what is read"),
    ("variance", "the difference between pots"),
    ("quantile", "most, about half or few"),
    ("undissociated", "sourness, tang"),
    ("free acid", "sourness, tang"),
    ("to be called", "ready"),
    ("packet rate", "× packet"),
    ("1:10 powder", "tenfold mix"),
    ("likely pot", "likely line, possible pots"),
    ("likely pots", "likely line, possible pots"),
    ("could come of", "possible pots"),
    ("clearly surer", "works a little more often"),
    ("the load", "what makes it thick"),
    ("wholesome", "hygiene"),
    ("raw stuff", "starting ingredient"),
    ("ghost", "earlier curve"),
    ("ghosts", "earlier curves"),
    ("of this sheet", "the hours shown"),
    ("on this sheet", "the hours shown"),
    ("square of pearson", "mixing square"),
];

/// Where one of them may stand all the same: how the path begins, what, and why.
const ALLOWED: &[(&str, &str, &str)] = &[
    ("src/report/explain/", "undissociated", "what a value is made of: Details"),
    ("assets/explanations.ron", "undissociated", "names of laws and readings: Details"),
    ("assets/number_words.ron", "undissociated", "names of cited numbers: Details"),
    ("src/export/batches.rs", "the key at_h", "the name of a column that a person writes"),
    ("src/export/batches.rs", "the key thin_layer", "a kind of reading as a table has it"),
    ("src/export/csv.rs", "undissociated", "the name of a column for a spreadsheet"),
    ("src/export/verdict.rs", "undissociated", "the name of a field of the verdict as RON"),
    ("src/cli/forecast.rs", "the key chance_goal_", "says what a column of that name holds"),
    ("src/doc/check.rs", "the key culture_in", "what has to be written into the file, beside its words"),
];

/// Most words of a title.
const TITLE: usize = 14;

/// Something that is hard to read.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Fault {
    /// Path below the project and line.
    at: String,
    /// What is wrong with it: the banned word itself, or a few words.
    what: String,
    text: String,
}

/// Texts of a file that a person may read: no tests, no attributes; of lists of words no formula, no name of a
/// group, and neither what a source says nor a unit, which stand in Details.
fn texts(all: &[Token]) -> Vec<&Token> {
    let mut out = Vec::new();
    let mut at = 0;
    while at < all.len() {
        let sign = |n: usize, text: &str| {
            all.get(n).is_some_and(|token| token.kind == Kind::Sign && token.text == text)
        };
        if sign(at, "#") && (sign(at + 1, "[") || (sign(at + 1, "!") && sign(at + 2, "["))) {
            let open = if sign(at + 1, "[") { at + 1 } else { at + 2 };
            at = closing(all, open) + 1;
            continue;
        }
        let details = at > 1
            && sign(at - 1, ":")
            && matches!(all[at - 2].text.as_str(), "formula" | "text" | "unit" | "source" | "group");
        if all[at].kind == Kind::Text && !all[at].test && !details {
            out.push(&all[at]);
        }
        at += 1;
    }
    out
}

/// The text with one blank between two words.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether a text holds words, each whole.
fn holds(text: &str, words: &str) -> bool {
    let edge = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric());
    text.match_indices(words)
        .any(|(at, _)| edge(text[..at].chars().next_back()) && edge(text[at + words.len()..].chars().next()))
}

/// A key of a file in a sentence: two words or more, one of them with a low line in it. What stands in braces is a
/// name of the program, and a person reads its value.
fn raw_key(text: &str) -> Option<&str> {
    // A whole design or case, as a file holds it.
    if text.starts_with('(') {
        return None;
    }
    let key = |word: &&str| {
        let low = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
        word.contains('_') && word.chars().all(low) && word.chars().any(char::is_alphabetic)
    };
    let mut depth = 0;
    let outside = text.split_inclusive(['{', '}']).filter(|part| {
        let outside = depth == 0;
        depth = if part.ends_with('{') { 1 } else { 0 };
        outside
    });
    let edge = |c: char| !c.is_alphanumeric() && c != '_';
    let mut words = outside.flat_map(str::split_whitespace).map(|word| word.trim_matches(edge));
    if text.contains(' ') { words.find(key) } else { None }
}

/// Two full stops that end one sentence; three dots and ranges are none.
fn double_stop(text: &str) -> bool {
    text.match_indices("..").any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + 2..].chars().next();
        before.is_some_and(char::is_alphabetic) && after.is_none_or(char::is_whitespace)
    })
}

/// What is wrong with one text.
fn faults_of(text: &str) -> Vec<String> {
    let text = plain(text);
    let small = text.to_lowercase();
    let mut out: Vec<String> =
        BANNED.iter().filter(|(word, _)| holds(&small, word)).map(|(word, _)| (*word).to_owned()).collect();
    out.extend(raw_key(&text).map(|key| format!("the key {key}")));
    if double_stop(&text) {
        out.push("two full stops".to_owned());
    }
    out
}

/// Titles of notes that are written out: the first text of the second argument of a note, and the first of `said!`.
fn titles(all: &[Token]) -> Vec<&Token> {
    let is = |at: usize, words: &[&str]| {
        words.iter().enumerate().all(|(n, word)| all.get(at + n).is_some_and(|token| token.text == *word))
    };
    let mut out = Vec::new();
    for at in 0..all.len() {
        let (open, place) = match all[at].text.as_str() {
            "Note" if ["error", "watch", "tip", "done"].iter().any(|how| is(at + 1, &["::", how, "("])) => {
                (at + 3, 1)
            }
            "said" if is(at + 1, &["!", "("]) => (at + 2, 0),
            _ => continue,
        };
        let argument = argument(all, open, place);
        out.extend(argument.iter().find(|token| token.kind == Kind::Text && !token.test));
    }
    out
}

/// One argument of a call whose bracket opens at `open`.
fn argument(all: &[Token], open: usize, place: usize) -> &[Token] {
    let end = closing(all, open);
    let (mut from, mut seen, mut at) = (open + 1, 0, open + 1);
    while at < end {
        match (all[at].kind, all[at].text.as_str()) {
            (Kind::Sign, "(" | "[" | "{") => at = closing(all, at),
            (Kind::Sign, ",") if seen == place => break,
            (Kind::Sign, ",") => {
                seen += 1;
                from = at + 1;
            }
            _ => {}
        }
        at += 1;
    }
    if seen == place { &all[from..at.min(end)] } else { &[] }
}

/// What is wrong with the texts of one file.
fn faults(file: &str, source: &str) -> Vec<Fault> {
    let all = tokens(file, source);
    let fault = |token: &Token, what: String| Fault {
        at: format!("{file}:{}", token.line),
        what,
        text: plain(&token.text),
    };
    let mut out: Vec<Fault> = texts(&all)
        .into_iter()
        .flat_map(|token| faults_of(&token.text).into_iter().map(move |what| fault(token, what)))
        .collect();
    for title in titles(&all) {
        let words = plain(&title.text).split(' ').count();
        if words > TITLE {
            out.push(fault(title, format!("a title of {words} words")));
        }
        if title.text.ends_with('.') {
            out.push(fault(title, "a title with a full stop".to_owned()));
        }
    }
    out
}

/// Sources of the program, and the lists of words beside them; evidence is data with its citations.
fn files() -> Vec<(String, String)> {
    let (src, assets) = (root().join("src"), root().join("assets"));
    let mut all: Vec<_> =
        walk(&src).into_iter().filter(|p| p.extension().is_some_and(|e| e == "rs")).collect();
    all.extend(
        walk(&assets)
            .into_iter()
            .filter(|p| p.parent() == Some(&assets) && p.extension().is_some_and(|e| e == "ron")),
    );
    let name =
        |path: &std::path::Path| path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
    all.iter().map(|path| (name(path), fs::read_to_string(path).unwrap())).collect()
}

#[test]
fn first_readings_are_plain() {
    let (mut used, mut left) = (BTreeSet::new(), Vec::new());
    let files = files();
    assert!(files.len() > 300, "{}", files.len());
    for (file, source) in &files {
        for fault in faults(file, source) {
            match ALLOWED.iter().position(|(path, what, _)| file.starts_with(path) && fault.what == *what) {
                Some(at) => _ = used.insert(at),
                None => left.push(fault),
            }
        }
    }
    let told: Vec<String> = left.iter().map(|f| format!("{}: {}: “{}”", f.at, f.what, f.text)).collect();
    assert!(left.is_empty(), "{} texts are hard to read:\n{}", left.len(), told.join("\n"));
    for (at, (path, word, why)) in ALLOWED.iter().enumerate() {
        assert!(used.contains(&at) && !why.is_empty(), "{path} may hold “{word}” and does not");
    }
}

#[test]
fn bad_texts_are_found() {
    let whats = |source: &str| -> Vec<String> {
        faults("src/report/sample.rs", source).into_iter().map(|fault| fault.what).collect()
    };
    for (source, what) in [
        (r#"const A: &str = "shared out as 1/h";"#, "1/h"),
        (r#"const A: &str = "Of a Straight line through it";"#, "straight line"),
        (r#"fn f() -> String { format!("the {} variance", 3) }"#, "variance"),
        (r#"const A: &str = "tang, undissociated acid";"#, "undissociated"),
        (r#"const A: &str = "sour enough to be called done";"#, "to be called"),
        (r#"const A: &str = "Dose at packet rate";"#, "packet rate"),
        ("const A: &str = \"Dose at packet \\\n    rate\";", "packet rate"),
        (r#"const A: &str = "the likely pot";"#, "likely pot"),
        (r#"const A: &str = "Who carries the load, stress";"#, "the load"),
        (r#"const A: &str = "Kept clean and wholesome";"#, "wholesome"),
        (r#"const A: &str = "feeds s_thermophilus at 42";"#, "the key s_thermophilus"),
        (r#"const A: &str = "It is done.. Chill it";"#, "two full stops"),
        (r#"const A: &str = "It is done..";"#, "two full stops"),
        (
            r#"fn f() { Note::error("a", "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen", "b"); }"#,
            "a title of 15 words",
        ),
        (
            r#"fn f() { Note::error(at("a", 1), format!("1 2 3 4 5 6 7 8 {a} {b} 11 12 13 14 15 16"), "b"); }"#,
            "a title of 16 words",
        ),
        (r#"fn f() { said!("It is done.", "Chill it") }"#, "a title with a full stop"),
    ] {
        assert_eq!(whats(source), [what], "{source}");
    }
    for fine in [
        r#"const A: &str = "0..1/hour, 4.1..4.3 and so on…";"#,
        r#"fn f() -> String { format!("{name_a} beside {name_b} here") }"#,
        r#"const A: &str = "s_thermophilus";"#,
        r#"#[expect(lints, reason = "the variance of it")] const A: u8 = 1;"#,
        "// The variance.\n/// A quantile.\nconst A: u8 = 1;",
        "#[cfg(test)]\nmod tests { const A: &str = \"packet rate\"; }",
        r#"fn f() { Note::error("a", "short", "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen"); }"#,
    ] {
        assert_eq!(whats(fine), [""; 0], "{fine}");
    }
}
