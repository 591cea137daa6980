//! Reads one source file: its words and strings, its test parts, and every path with its meaning.

use std::collections::{BTreeMap, BTreeSet};

#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Word,
    Sign,
    /// A string; its quotes are gone and its escapes are blanks.
    Text,
}

pub struct Token {
    pub kind: Kind,
    pub text: String,
    pub line: usize,
    /// Under `#[cfg(test)]`.
    pub test: bool,
}

/// The source as words, signs and strings; comments, numbers, characters and lifetimes are dropped.
///
/// A file `tests.rs` is all test: its `mod tests;` must stand under `#[cfg(test)]`.
pub fn tokens(file: &str, source: &str) -> Vec<Token> {
    let chars: Vec<char> = source.chars().collect();
    let get = |at: usize| chars.get(at).copied().unwrap_or('\0');
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    let (mut at, mut line, mut counted) = (0, 1, 0);
    let mut found = Vec::new();
    while at < chars.len() {
        line += chars[counted..at].iter().filter(|c| **c == '\n').count();
        counted = at;
        let start = at;
        let c = get(at);
        let (kind, text) = if c == '/' && get(at + 1) == '/' {
            at += chars[at..].iter().take_while(|c| **c != '\n').count();
            continue;
        } else if c == '/' && get(at + 1) == '*' {
            at = after_comment(&chars, at);
            continue;
        } else if c == '\'' {
            at = after_quote(&chars, at);
            continue;
        } else if c.is_ascii_digit() {
            while is_word(get(at)) || (get(at) == '.' && get(at + 1).is_ascii_digit()) {
                at += 1;
            }
            continue;
        } else if c == '"' {
            let (text, end) = string(&chars, at, None);
            at = end;
            (Kind::Text, text)
        } else if is_word(c) {
            while is_word(get(at)) {
                at += 1;
            }
            let word: String = chars[start..at].iter().collect();
            let hashes = chars[at..].iter().take_while(|c| **c == '#').count();
            if matches!(word.as_str(), "r" | "br" | "cr") && get(at + hashes) == '"' {
                let (text, end) = string(&chars, at + hashes, Some(hashes));
                at = end;
                (Kind::Text, text)
            } else if matches!(word.as_str(), "b" | "c") && get(at) == '"' {
                continue;
            } else if word == "r" && hashes == 1 {
                at += 1;
                continue;
            } else {
                (Kind::Word, word)
            }
        } else if !c.is_whitespace() {
            let double = (c == ':' || c == '.') && get(at + 1) == c;
            at += if double { 2 } else { 1 };
            (Kind::Sign, chars[start..at].iter().collect())
        } else {
            at += 1;
            continue;
        };
        found.push(Token { kind, text, line, test: false });
    }
    mark_tests(&mut found);
    if file.rsplit('/').next() == Some("tests.rs") {
        found.iter_mut().for_each(|token| token.test = true);
    }
    found
}

fn after_comment(chars: &[char], start: usize) -> usize {
    let (mut at, mut depth) = (start, 0);
    while at < chars.len() {
        match (chars[at], chars.get(at + 1)) {
            ('/', Some('*')) => {
                depth += 1;
                at += 2;
            }
            ('*', Some('/')) => {
                depth -= 1;
                at += 2;
                if depth == 0 {
                    break;
                }
            }
            _ => at += 1,
        }
    }
    at
}

/// Past a character or a lifetime.
fn after_quote(chars: &[char], start: usize) -> usize {
    let mut at = start + 1;
    if chars.get(at) == Some(&'\\') {
        at += 2;
        at += chars[at.min(chars.len())..].iter().take_while(|c| **c != '\'').count() + 1;
    } else if chars.get(at + 1) == Some(&'\'') {
        at += 2;
    } else {
        at += chars[at..].iter().take_while(|c| c.is_alphanumeric() || **c == '_').count();
    }
    at
}

/// The string that opens at `start`, and where it ends; `raw` is the count of its hashes.
fn string(chars: &[char], start: usize, raw: Option<usize>) -> (String, usize) {
    let (mut at, mut text) = (start + 1, String::new());
    while at < chars.len() {
        let c = chars[at];
        at += 1;
        if c == '\\' && raw.is_none() {
            text.push(if chars.get(at) == Some(&'\\') { '\\' } else { ' ' });
            at += 1;
        } else if c == '"' && chars[at..].iter().take_while(|c| **c == '#').count() >= raw.unwrap_or(0) {
            at += raw.unwrap_or(0);
            break;
        } else {
            text.push(c);
        }
    }
    (text, at)
}

/// Marks what stands under `#[cfg(test)]`, with its attributes, up to its `;` or closing brace.
fn mark_tests(tokens: &mut [Token]) {
    let mut at = 0;
    while at < tokens.len() {
        let is = |from: usize, words: &[&str]| {
            words.iter().enumerate().all(|(n, word)| tokens.get(from + n).is_some_and(|t| t.text == *word))
        };
        let end = if is(at, &["#", "!", "[", "cfg", "(", "test"]) {
            tokens.len()
        } else if is(at, &["#", "[", "cfg", "(", "test", ")"])
            || is(at, &["#", "[", "cfg", "(", "all", "(", "test"])
        {
            let mut end = at;
            loop {
                match tokens.get(end).map(|token| token.text.as_str()) {
                    Some("{") => break closing(tokens, end) + 1,
                    Some(";") => break end + 1,
                    Some("(" | "[") => end = closing(tokens, end) + 1,
                    Some(_) => end += 1,
                    None => break end,
                }
            }
        } else {
            at += 1;
            continue;
        };
        let end = end.min(tokens.len());
        tokens[at..end].iter_mut().for_each(|token| token.test = true);
        at = end;
    }
}

/// The bracket that closes the one at `open`.
pub fn closing(tokens: &[Token], open: usize) -> usize {
    let mut depth = 0;
    for (at, token) in tokens.iter().enumerate().skip(open).filter(|(_, token)| token.kind == Kind::Sign) {
        match token.text.as_str() {
            "(" | "[" | "{" => depth += 1,
            ")" | "]" | "}" => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return at;
        }
    }
    tokens.len()
}

/// How many lines the parts under `#[cfg(test)]` take.
pub fn lines_of_tests(tokens: &[Token]) -> usize {
    tokens
        .chunk_by(|a, b| a.test == b.test)
        .filter(|run| run[0].test)
        .map(|run| run[run.len() - 1].line - run[0].line + 1)
        .sum()
}

/// A path in the source, or one of the paths of a `use`.
pub struct Found {
    pub line: usize,
    pub segments: Vec<String>,
    /// From a `use`.
    pub import: bool,
    /// From a `pub use`.
    pub public: bool,
    pub test: bool,
    /// The modules inside the file that it stands in.
    pub inline: Vec<String>,
}

/// All paths of one file and what is needed to see where they lead.
pub struct Scan {
    /// The file's own module, from its crate on.
    pub module: Vec<String>,
    /// How many of its names are those of its crate's folder.
    pub root: usize,
    /// Modules that this file declares.
    pub modules: BTreeSet<String>,
    /// What the names of its `use` lines stand for.
    pub aliases: BTreeMap<String, Vec<String>>,
    pub paths: Vec<Found>,
}

impl Scan {
    pub fn of(file: &str, tokens: &[Token]) -> Self {
        let mut module: Vec<String> = file.trim_end_matches(".rs").split('/').map(str::to_owned).collect();
        if module.last().is_some_and(|last| last == "mod" || last == "lib") {
            module.pop();
        }
        let mut scan =
            Self { module, root: 1, modules: BTreeSet::new(), aliases: BTreeMap::new(), paths: Vec::new() };
        let text =
            |at: usize| tokens.get(at).filter(|t| t.kind != Kind::Text).map_or("", |t| t.text.as_str());
        let word = |at: usize| tokens.get(at).is_some_and(|token| token.kind == Kind::Word);
        let (mut at, mut depth, mut inline) = (0, 0_usize, Vec::<(usize, String)>::new());
        while at < tokens.len() {
            let before = if at > 0 { text(at - 1) } else { "" };
            match text(at) {
                "{" => depth += 1,
                "}" => {
                    depth = depth.saturating_sub(1);
                    inline.retain(|(opened, _)| *opened < depth + 1);
                }
                "mod" if word(at + 1) => {
                    scan.modules.insert(text(at + 1).to_owned());
                    if text(at + 2) == "{" {
                        inline.push((depth + 1, text(at + 1).to_owned()));
                        depth += 1;
                        at += 2;
                    }
                }
                "crate" if before == "extern" => at = scan.import(tokens, at + 1, &[]),
                "use" if text(at + 1) != "<" => {
                    let public = before == "pub" || (before == ")" && published(tokens, at));
                    let first = scan.paths.len();
                    at = scan.import(tokens, at + 1, &[]);
                    for path in &mut scan.paths[first..] {
                        path.public = public;
                        path.inline = inline.iter().map(|(_, name)| name.clone()).collect();
                    }
                }
                _ => {
                    let (segments, end) = path_at(tokens, at);
                    if !segments.is_empty() {
                        let inline = inline.iter().map(|(_, name)| name.clone()).collect();
                        let (line, test) = (tokens[at].line, tokens[at].test);
                        scan.paths.push(Found { line, segments, import: false, public: false, test, inline });
                        at = end - 1;
                    }
                }
            }
            at += 1;
        }
        scan
    }

    /// Takes in the tree of a `use` from `at` on, below `stem`; gives the place after it.
    fn import(&mut self, tokens: &[Token], mut at: usize, stem: &[String]) -> usize {
        let mut segments = stem.to_vec();
        let text = |at: usize| tokens.get(at).map_or(";", |token| token.text.as_str());
        let (line, test) = tokens.get(at).map_or((0, false), |token| (token.line, token.test));
        let mut name = None;
        loop {
            match text(at) {
                "::" => at += 1,
                "{" => {
                    at += 1;
                    while !matches!(text(at), "}" | ";") {
                        at = self.import(tokens, at, &segments);
                        at += usize::from(text(at) == ",");
                    }
                    return at + 1;
                }
                "as" => {
                    name = Some(text(at + 1).to_owned());
                    at += 2;
                }
                "," | "}" | ";" => break,
                // `a::{self}` is `a` itself.
                "self" if !stem.is_empty() => at += 1,
                segment => {
                    segments.push(segment.to_owned());
                    at += 1;
                }
            }
        }
        if let Some(name) = name.or_else(|| segments.last().cloned()) {
            self.aliases.insert(name, segments.clone());
        }
        self.paths.push(Found { line, segments, import: true, public: false, test, inline: Vec::new() });
        at
    }
}

/// The path that begins at `at` (two segments or more), and where it ends. A string that holds a path
/// of ours, as attributes take them, counts too.
fn path_at(tokens: &[Token], at: usize) -> (Vec<String>, usize) {
    let is = |at: usize, text: &str| tokens.get(at).is_some_and(|t| t.kind == Kind::Sign && t.text == text);
    let token = &tokens[at];
    if token.kind == Kind::Text && (token.text.starts_with("crate::") || token.text.starts_with("super::")) {
        return (token.text.split("::").map(str::to_owned).collect(), at + 1);
    }
    let inner = at > 1 && is(at - 1, "::") && (tokens[at - 2].kind == Kind::Word || is(at - 2, ">"));
    if token.kind != Kind::Word || inner || (at > 0 && is(at - 1, ".")) {
        return (Vec::new(), at);
    }
    let (mut segments, mut end) = (vec![token.text.clone()], at + 1);
    while is(end, "::") && tokens.get(end + 1).is_some_and(|next| next.kind == Kind::Word) {
        segments.push(tokens[end + 1].text.clone());
        end += 2;
    }
    if segments.len() < 2 { (Vec::new(), at) } else { (segments, end) }
}

/// Whether the bracket before the `use` at `at` belongs to a `pub(…)`.
fn published(tokens: &[Token], at: usize) -> bool {
    let open = tokens[..at].iter().rposition(|token| token.text == "(").unwrap_or(0);
    open > 0 && tokens[open - 1].text == "pub"
}
