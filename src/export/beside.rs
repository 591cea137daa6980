//! Designs beside each other as plain text, Markdown and CSV.

use std::fmt::Write;

use super::csv::{harmless, table};
use super::layout::columns;
use potset_base::number;
use potset_compare::beside::{Causes, Comparison, InputRow, Row, Span, Value};
use potset_report::warnings::{self, CautionRow};
use potset_report::why::why;
use potset_report::{beside as say, ready};

/// Parts of a difference under this share of it are not told.
const TOLD: f64 = 0.01;

/// The table that is there for any designs.
const WHAT_IT_DOES: &str = "What it does";

/// The columns before those of the designs.
const FIRST: [&str; 4] = ["kind", "part", "name", "unit"];

/// A table with a title: its head, and rows of as many cells.
struct Section {
    title: String,
    /// Sentences before the table.
    said: Vec<String>,
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

/// What differs, what it does, when each is ready, and because of what.
fn sections(told: &Comparison) -> Vec<Section> {
    let named = |first: &str| -> Vec<String> {
        std::iter::once(first.to_owned()).chain(told.names.iter().cloned()).collect()
    };
    let each = 0..told.names.len();
    let mut out = Vec::new();
    if !told.inputs.is_empty() {
        let row = |r: &InputRow| -> Vec<String> {
            std::iter::once(r.name.clone()).chain(each.clone().map(|i| r.words(i))).collect()
        };
        let rows = told.inputs.iter().map(row).collect();
        out.push(Section { title: "What differs".to_owned(), said: Vec::new(), head: named(""), rows });
    }
    let row = |r: &Row| -> Vec<String> {
        std::iter::once(r.name().to_owned()).chain(each.clone().map(|i| marked(r, i))).collect()
    };
    let mut rows: Vec<Vec<String>> = told.rows.iter().map(row).collect();
    let ready = std::iter::once("ready".to_owned()).chain(told.spans.iter().map(ready));
    rows.insert(2.min(rows.len()), ready.collect());
    let texture = told.pots.iter().map(|pot| {
        let (word, range) = say::texture_words(pot);
        if range.is_empty() { word.to_owned() } else { format!("{word}, {range}") }
    });
    rows.insert(0, std::iter::once(say::TEXTURE.to_owned()).chain(texture).collect());
    out.push(Section { title: WHAT_IT_DOES.to_owned(), said: Vec::new(), head: named(""), rows });
    let cautions = warnings::rows(told);
    if !cautions.is_empty() {
        let row = |r: &CautionRow| -> Vec<String> {
            std::iter::once(r.title.clone()).chain(each.clone().map(|i| r.words(i).to_owned())).collect()
        };
        let rows = cautions.iter().map(row).collect();
        out.push(Section { title: "Cautions".to_owned(), said: Vec::new(), head: named(""), rows });
    }
    for (i, causes) in told.causes.iter().enumerate() {
        let Some(causes) = causes.as_ref().filter(|c| !c.because.is_empty()) else { continue };
        let said = why(told, i + 1);
        let title = format!("Because of: {} beside {}", told.names[i + 1], told.names[0]);
        let rows = because(causes);
        if !rows.is_empty() {
            out.push(Section {
                title,
                said,
                head: vec!["".to_owned(), "in all".to_owned(), "of which".to_owned()],
                rows,
            });
        }
    }
    out
}

/// A value, and how it stands to the first design.
fn marked(row: &Row, i: usize) -> String {
    let (value, line) = (row.words(i), row.difference_line(i, ", "));
    if i == 0 || line.is_empty() { value } else { format!("{value} ({line})") }
}

/// When the possible pots are ready, in words, by the clock where that is known.
pub(super) fn ready(span: &Span) -> String {
    span.ready.as_ref().map_or_else(|| "not known".to_owned(), |ready| ready::brief(ready, span.start))
}

fn because(causes: &Causes) -> Vec<Vec<String>> {
    causes
        .because
        .iter()
        .filter_map(|b| {
            let all: f64 = b.shares.iter().map(|s| s.abs()).sum();
            if all < 1e-9 {
                return None;
            }
            let mut ranked: Vec<(usize, f64)> = b.shares.iter().copied().enumerate().collect();
            ranked.sort_by(|x, y| y.1.abs().total_cmp(&x.1.abs()));
            let shares: Vec<String> = ranked
                .iter()
                .filter(|(_, share)| share.abs() / all >= TOLD)
                .map(|(i, share)| {
                    format!("{} {}", say::player(&causes.players[*i]), b.outcome.difference_words(*share))
                })
                .collect();
            let whole = b.outcome.difference_words(b.whole());
            let shares = shares.join(", ");
            let told = match say::left_out(b) {
                Some(words) => format!("{shares} ({words})"),
                None => shares,
            };
            Some(vec![b.outcome.name().to_owned(), whole, told])
        })
        .collect()
}

/// As plain text, in columns.
pub fn text(told: &Comparison) -> String {
    let mut out = String::new();
    for sentence in warnings::said(told) {
        let _ = writeln!(out, "{sentence}");
    }
    for section in sections(told) {
        let _ = writeln!(out, "\n{}", section.title);
        for line in &section.said {
            let _ = writeln!(out, "  {line}");
        }
        for line in columns(std::iter::once(&section.head).chain(&section.rows)) {
            let _ = writeln!(out, "  {line}");
        }
    }
    out
}

/// A text for a line of Markdown: no sign that parts cells, no end of a line.
pub fn clean(cell: &str) -> String {
    cell.replace('|', "\\|").replace('\n', " ")
}

/// A row of a table in Markdown.
pub fn line(cells: &[String]) -> String {
    let cells: Vec<String> = cells.iter().map(|c| clean(c)).collect();
    format!("| {} |\n", cells.join(" | "))
}

/// As Markdown tables.
pub fn markdown(told: &Comparison) -> String {
    let mut out = format!("# {}\n", clean(&told.names.join(" · ")));
    for sentence in warnings::said(told) {
        let _ = write!(out, "\n{}\n", clean(&sentence));
    }
    for section in sections(told) {
        let _ = write!(out, "\n## {}\n\n", clean(&section.title));
        for said in &section.said {
            let _ = write!(out, "{}\n\n", clean(said));
        }
        out.push_str(&line(&section.head));
        out.push_str(&line(&vec!["---".to_owned(); section.head.len()]));
        for row in &section.rows {
            out.push_str(&line(row));
        }
    }
    out
}

/// Whether bytes begin like a plain text that was written here.
pub fn is_text(head: &[u8]) -> bool {
    String::from_utf8_lossy(head).contains(&format!("\n{WHAT_IT_DOES}\n"))
}

/// The same for Markdown.
pub fn is_markdown(head: &[u8]) -> bool {
    head.starts_with(b"# ") && String::from_utf8_lossy(head).contains(&format!("\n## {WHAT_IT_DOES}\n"))
}

/// The same for comma-separated values.
pub fn is_csv(head: &[u8]) -> bool {
    head.starts_with(FIRST.join(",").as_bytes())
}

/// As comma-separated values for a spreadsheet: one column a design, bare numbers, their unit beside the name.
pub fn csv(told: &Comparison) -> String {
    table(records(told))
}

/// The same with tabs between, for the clipboard.
pub fn tabs(told: &Comparison) -> String {
    let line = |cells: &Vec<String>| {
        cells.iter().map(|c| harmless(c).replace(['\t', '\n'], " ")).collect::<Vec<_>>().join("\t") + "\n"
    };
    records(told).iter().map(line).collect()
}

fn records(told: &Comparison) -> Vec<Vec<String>> {
    let mut out = Vec::new();
    let mut line = |cells: Vec<String>| out.push(cells);
    let head = FIRST.map(str::to_owned);
    line(head.iter().chain(&told.names).cloned().collect());
    for row in &told.inputs {
        let unit = row.values.iter().flatten().find_map(|v| match v {
            Value::Number(_, _, unit) => Some((*unit).to_owned()),
            Value::Words(_) => None,
        });
        let cells = row.values.iter().map(|v| match v {
            Some(Value::Number(v, ..)) => values_only(*v),
            Some(Value::Words(words)) => words.clone(),
            None => String::new(),
        });
        let start =
            ["input".to_owned(), row.part.words().to_owned(), row.name.clone(), unit.unwrap_or_default()];
        line(start.into_iter().chain(cells).collect());
    }
    for row in &told.rows {
        let start = ["outcome", "", row.name(), row.outcome.unit()].map(str::to_owned);
        let cells = row.values.iter().map(|v| v.map_or_else(String::new, values_only));
        line(start.into_iter().chain(cells).collect());
    }
    for row in warnings::rows(told) {
        let start = ["caution", "", row.title.as_str(), ""].map(str::to_owned);
        line(start.into_iter().chain((0..told.names.len()).map(|i| row.words(i).to_owned())).collect());
    }
    for (i, causes) in told.causes.iter().enumerate() {
        let Some(causes) = causes else { continue };
        for because in &causes.because {
            for (player, share) in causes.players.iter().zip(&because.shares) {
                let outcome = because.outcome;
                let (share, unit) =
                    if outcome.by_factor() { (share.exp(), "×") } else { (*share, outcome.unit()) };
                let start =
                    ["share".to_owned(), say::player(player), outcome.name().to_owned(), unit.to_owned()];
                let cells = (0..told.names.len())
                    .map(|k| if k == i + 1 { values_only(share) } else { String::new() });
                line(start.into_iter().chain(cells).collect());
            }
        }
    }
    out
}

/// A number to six figures, with a plain minus: a spreadsheet shall read it.
fn values_only(v: f64) -> String {
    number::plain(v).replace(number::MINUS, "-")
}
