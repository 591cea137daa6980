//! Designs beside each other as plain text.

use std::fmt::Write;

use crate::study::beside::Beside;

/// Parts of a difference under this share of it are not told.
const TOLD: f64 = 0.01;

/// What differs, what it does, and because of what.
#[must_use]
pub fn words(told: &Beside) -> String {
    let [a, b] = &told.names;
    let mut out = format!("{}\n", told.sentence());
    if told.differ.is_empty() {
        return out;
    }
    let parts: Vec<&str> = told.differ.iter().map(|p| p.words()).collect();
    let _ = writeln!(out, "What differs: {}", parts.join(", "));
    let _ = writeln!(out, "{:<24}{a} | {b} | difference", "What it does");
    for row in &told.rows {
        let value = |v: Option<f64>| v.map_or_else(|| "never".to_owned(), |v| row.outcome.words(v));
        let difference = row.difference.map_or_else(|| "–".to_owned(), |d| row.outcome.difference_words(d));
        let mark = if row.noticed { "you would notice" } else { "too small to notice" };
        let _ = writeln!(
            out,
            "  {:<22}{} | {} | {difference}, {mark}",
            row.outcome.name(),
            value(row.a),
            value(row.b)
        );
    }
    let _ = writeln!(out, "Because of");
    for because in &told.because {
        let all: f64 = because.shares.iter().map(|s| s.abs()).sum();
        if all < 1e-9 {
            continue;
        }
        let shares: Vec<String> = because
            .shares
            .iter()
            .enumerate()
            .filter(|(_, share)| share.abs() / all >= TOLD)
            .map(|(i, share)| {
                format!("{} {}", told.player_words(i), because.outcome.difference_words(*share))
            })
            .collect();
        let _ = writeln!(out, "  {:<22}{}", because.outcome.name(), shares.join(", "));
    }
    out
}
