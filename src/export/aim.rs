//! What Aim found, as plain text: proposals with settings, outcomes and trade-offs, or what blocks.

use std::fmt::Write;

use crate::study::aim::stand::Standing;
use crate::study::aim::{AimAsk, Found, Proposal, TradeOff, trade_offs};
use crate::study::outcome::{Outcome, Outcomes};

/// Head of the first column of the trade-offs.
const NOW: &str = "as it is";

/// The answer as text.
///
/// - `now` — outcomes of the design that was asked about.
#[must_use]
pub fn text(name: &str, wish: &AimAsk, now: &Outcomes, found: &Found) -> String {
    let wants: Vec<String> = wish.wants.iter().map(crate::study::aim::Want::words).collect();
    let mut out = format!("{name}: {}\n", wants.join("; "));
    if let Some(blocked) = &found.blocked {
        let _ = writeln!(out, "\nNothing reaches it. {}.", blocked.line());
        let _ = writeln!(out, "{}.", blocked.mend);
        if let Some(nearest) = &blocked.nearest {
            let _ = writeln!(out, "\nThe nearest that can be reached");
            settings(&mut out, nearest);
            stands(&mut out, &nearest.standings);
            if !blocked.ends.is_empty() {
                let _ =
                    writeln!(out, "   at the end of how far it may be turned: {}", blocked.ends.join(", "));
            }
            table(&mut out, now, std::slice::from_ref(nearest));
        }
        return out;
    }
    for (i, proposal) in found.proposals.iter().enumerate() {
        let best = if proposal.best_at.is_empty() {
            String::new()
        } else {
            format!("{}; ", proposal.best_at.join(", "))
        };
        let _ = writeln!(out, "\n{}  {best}{}", i + 1, proposal.chance.words());
        settings(&mut out, proposal);
        stands(&mut out, &proposal.standings);
        for line in &proposal.watch {
            let _ = writeln!(out, "   {line}");
        }
    }
    table(&mut out, now, &found.proposals);
    out
}

fn settings(out: &mut String, proposal: &Proposal) {
    for line in proposal.said.iter().cloned().chain(proposal.turned.iter().map(|t| t.words())) {
        let _ = writeln!(out, "   {line}");
    }
    if proposal.changes() == 0 {
        let _ = writeln!(out, "   All stays as it is");
    }
}

fn stands(out: &mut String, standings: &[Standing]) {
    let each = standings.iter().filter(|s| !(s.holds() && s.value.is_empty()));
    let told: Vec<String> = each
        .map(|s| {
            let short = if s.short.is_empty() { String::new() } else { format!(", {} short", s.short) };
            match (s.holds(), s.value.is_empty()) {
                (true, _) => format!("{}: {}", s.name, s.value),
                (false, true) => format!("{}: missed", s.name),
                (false, false) => format!("{}: {}, missed{short}", s.name, s.value),
            }
        })
        .collect();
    let _ = writeln!(out, "   -> {}", told.join("; "));
}

fn table(out: &mut String, now: &Outcomes, proposals: &[Proposal]) {
    let rows = trade_offs(now, proposals);
    if rows.is_empty() {
        return;
    }
    let _ = writeln!(out, "\nTrade-offs (what nobody would notice is left out)");
    let mut cells: Vec<Vec<String>> = vec![head(proposals.len())];
    cells.extend(rows.iter().map(row));
    let chances =
        proposals.iter().map(|p| if p.chance.spread() { p.chance.pots.words() } else { "–".to_owned() });
    if proposals.iter().any(|p| p.chance.spread()) {
        cells.push(["chance that all holds".to_owned(), String::new()].into_iter().chain(chances).collect());
    }
    let widths: Vec<usize> = (0..cells[0].len())
        .map(|k| cells.iter().map(|row| row[k].chars().count()).max().unwrap_or(0))
        .collect();
    for row in &cells {
        let line: Vec<String> = row
            .iter()
            .zip(&widths)
            .map(|(cell, width)| format!("{cell}{}", " ".repeat(width - cell.chars().count())))
            .collect();
        let _ = writeln!(out, "{}", line.join("  ").trim_end());
    }
}

fn head(n: usize) -> Vec<String> {
    [String::new(), NOW.to_owned()].into_iter().chain((1..=n).map(|i| i.to_string())).collect()
}

fn row(trade: &TradeOff) -> Vec<String> {
    let words =
        |v: Option<f64>| v.map_or_else(|| trade.outcome.none().to_owned(), |v| trade.outcome.words(v));
    let name = match trade.outcome {
        Outcome::ReadyFrom => "ready from, by the design's own goals".to_owned(),
        other => other.name().to_owned(),
    };
    [name, words(trade.now)].into_iter().chain(trade.then.iter().map(|v| words(*v))).collect()
}
