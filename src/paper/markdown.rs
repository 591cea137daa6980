//! A sheet as Markdown.

use std::fmt::Write;

use potset_export::beside::{clean, line};
use potset_report::card::{Body, Line, Sheet, StepLine};

/// What stands on the first line behind the name.
const MARK: &str = "Potset sheet, ";

/// The sheet as Markdown.
pub fn markdown(sheet: &Sheet) -> String {
    let mut out = format!("# {}\n\n{MARK}{}\n", clean(&sheet.name), sheet.tag);
    if !sheet.first.is_empty() {
        let _ = write!(out, "\n**{}**\n", clean(&sheet.first_sentence()));
    }
    for large in &sheet.large {
        let _ = write!(out, "\n{}: **{}** {}\n", large.name, clean(&large.word), clean(&large.quiet));
    }
    if let Some(chart) = &sheet.chart {
        let _ = write!(out, "\n{}\n", chart.sentence);
    }
    for block in &sheet.blocks {
        let _ = write!(out, "\n## {}\n", block.part.title());
        match &block.body {
            Body::Lines(lines) => lines.iter().for_each(|one| paragraph(&mut out, one)),
            Body::Table(table) => {
                let rule = vec!["---".to_owned(); table.head.len()];
                let rows = [&table.head, &rule].into_iter().chain(&table.rows);
                out.push('\n');
                rows.for_each(|row| out.push_str(&line(row)));
                table.below.iter().for_each(|one| paragraph(&mut out, one));
            }
            Body::Steps(steps) => {
                out.push('\n');
                steps.iter().enumerate().for_each(|(i, one)| step(&mut out, i + 1, one));
            }
            Body::Room(_) => out.push_str("\n \n"),
        }
    }
    let _ = write!(out, "\n{}\n", sheet.foot);
    out
}

fn paragraph(out: &mut String, line: &Line) {
    let lead = if line.lead.is_empty() { String::new() } else { format!("**{}.** ", clean(&line.lead)) };
    let source = if line.source.is_empty() { String::new() } else { format!(" *({})*", clean(&line.source)) };
    let _ = write!(out, "\n{lead}{}{source}\n", clean(&line.words));
}

fn step(out: &mut String, number: usize, step: &StepLine) {
    let sign = step.sign.as_ref().map_or_else(String::new, |sign| format!(" *{}*", clean(&sign.words)));
    let _ = writeln!(out, "{number}. **{}** {}.{sign}", step.when, clean(&step.said.words));
}

/// Whether bytes begin like Markdown that was written here.
pub fn is_markdown(head: &[u8]) -> bool {
    String::from_utf8_lossy(head).contains(&format!("\n{MARK}"))
}
