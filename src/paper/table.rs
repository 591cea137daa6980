//! A sheet as a table for a spreadsheet: a row for each line of it.

use potset_export::csv::table;
use potset_report::card::{Body, Line, Sheet, StepLine};

/// The columns: the block, and up to four cells of a line.
const HEAD: [&str; 5] = ["part", "first", "second", "third", "fourth"];

/// The sheet as comma-separated values.
pub fn csv(sheet: &Sheet) -> String {
    let of = |cells: &[&str]| cells.iter().map(|cell| (*cell).to_owned()).collect::<Vec<_>>();
    let line = |part: &str, line: &Line| of(&[part, &line.lead, &line.words, &line.source]);
    let mut rows = vec![of(&HEAD), of(&["Name", &sheet.name, &sheet.tag])];
    if !sheet.first.is_empty() {
        rows.push(of(&["Answer", &sheet.first]));
    }
    rows.extend(sheet.large.iter().map(|large| of(&["Answer", large.name, &large.word, &large.quiet])));
    for block in &sheet.blocks {
        let part = block.part.title();
        match &block.body {
            Body::Lines(lines) => rows.extend(lines.iter().map(|one| line(part, one))),
            Body::Table(table) => {
                let cells =
                    table.rows.iter().map(|row| std::iter::once(part.to_owned()).chain(row.iter().cloned()));
                rows.extend(cells.map(Iterator::collect));
                rows.extend(table.below.iter().map(|one| line(part, one)));
            }
            Body::Steps(steps) => rows.extend(steps.iter().enumerate().map(|(i, step)| {
                let StepLine { when, said, sign, .. } = step;
                let sign = sign.as_ref().map_or("", |sign| sign.words.as_str());
                of(&[part, &(i + 1).to_string(), when, &said.words, sign])
            })),
            Body::Room(_) => {}
        }
    }
    rows.push(of(&["Foot", &sheet.foot]));
    table(rows)
}

/// Whether bytes begin like a table that was written here.
pub fn is_csv(head: &[u8]) -> bool {
    head.starts_with(HEAD.join(",").as_bytes())
}
