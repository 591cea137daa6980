//! What Aim found, as plain text: proposals with settings, outcomes and trade-offs, or what blocks.

use std::fmt::Write;

use super::layout::columns;
use potset_forecast::scenario::Scenario;
use potset_report::aim::{self, TradeOff, blocked, chances, standing, trade_offs, turned};
use potset_search::aim::stand::GoalResult;
use potset_search::aim::{AimAsk, Found, Gives, Proposal, Want};

/// Head of the first column of the trade-offs.
const NOW: &str = "as it is";

/// The answer as text.
///
/// - `ask` — the design that was asked about.
/// - `now` — what comes of it, by what is wanted.
pub fn text(ask: &Scenario<'_>, wish: &AimAsk, now: &Gives, found: &Found) -> String {
    let wants: Vec<String> = wish.wants.iter().map(|w| w.named(ask.design, ask.pantry).words()).collect();
    let mut out = format!("{}: {}\n", ask.design.name, wants.join("; "));
    let left = left_out(ask, wish);
    if !left.is_empty() {
        let _ = writeln!(out, "Goals of the design that you did not ask for: {}", left.join("; "));
    }
    let told: String = aim::lines(found).iter().map(|line| format!("{line}.\n")).collect();
    if let Some(why) = &found.blocked {
        let _ = writeln!(out, "\n{}. {}.", blocked::head(why), blocked::line(why));
        let _ = write!(out, "{}.\n{told}", blocked::mend(why));
        if let Some(nearest) = &why.nearest {
            let _ = writeln!(out, "\n{}", blocked::nearest_head(why));
            let _ = writeln!(out, "   {}", blocked::headline(why).unwrap_or_default());
            settings(&mut out, nearest);
            stands(&mut out, &nearest.standings);
            for line in aim::watch(nearest).into_iter().chain(blocked::warning(why)) {
                let _ = writeln!(out, "   {line}");
            }
            let ends = blocked::ends(why).join(", ");
            if !ends.is_empty() {
                let _ = writeln!(out, "   turned as far as allowed: {ends}");
            }
            table(&mut out, now, found, std::slice::from_ref(nearest));
        }
        return out;
    }
    if !told.is_empty() {
        let _ = write!(out, "\n{told}");
    }
    for (i, proposal) in found.proposals.iter().enumerate() {
        let best = aim::best_at(proposal);
        let best = if best.is_empty() { best } else { format!("{best}; ") };
        let _ = writeln!(out, "\n{}  {best}{}", i + 1, chances::words(&proposal.chance));
        settings(&mut out, proposal);
        stands(&mut out, &proposal.standings);
        for line in aim::watch(proposal) {
            let _ = writeln!(out, "   {line}");
        }
    }
    table(&mut out, now, found, &found.proposals);
    out
}

/// Goals of the design on what nothing is wanted of.
fn left_out(ask: &Scenario<'_>, wish: &AimAsk) -> Vec<String> {
    let goals = Want::of_goals(&ask.design.goals).into_iter();
    goals
        .filter(|goal| !wish.wants.iter().any(|want| want.measures_same(goal)))
        .map(|goal| goal.words())
        .collect()
}

fn settings(out: &mut String, proposal: &Proposal) {
    for line in aim::said(proposal).into_iter().chain(proposal.turned.iter().map(turned::words)) {
        let _ = writeln!(out, "   {line}");
    }
    if proposal.changes() == 0 {
        let _ = writeln!(out, "   Nothing changes");
    }
}

fn stands(out: &mut String, standings: &[GoalResult]) {
    let each = standings.iter().filter(|s| !(s.holds() && standing::value(s).is_empty()));
    let told: Vec<String> = each.map(standing::words).collect();
    let _ = writeln!(out, "   -> {}", told.join("; "));
}

fn table(out: &mut String, now: &Gives, found: &Found, proposals: &[Proposal]) {
    if proposals.is_empty() {
        return;
    }
    let rows = trade_offs(now, proposals);
    if rows.is_empty() {
        return;
    }
    let _ = writeln!(out, "\nTrade-offs (what differs too little to notice is left out)");
    let mut cells: Vec<Vec<String>> = vec![head(proposals.len())];
    cells.extend(rows.iter().map(row));
    if proposals.iter().any(|p| p.chance.spread()) {
        let chance = found.as_is.as_ref().and_then(|own| own.chance.as_ref());
        let counts = std::iter::once(chance).chain(proposals.iter().map(|p| Some(&p.chance)));
        cells.push(
            std::iter::once(aim::chance_name(found).to_owned()).chain(counts.map(chances::cell)).collect(),
        );
    }
    for line in columns(&cells) {
        let _ = writeln!(out, "{line}");
    }
}

fn head(n: usize) -> Vec<String> {
    [String::new(), NOW.to_owned()].into_iter().chain((1..=n).map(|i| i.to_string())).collect()
}

fn row(trade: &TradeOff) -> Vec<String> {
    let then = (0..trade.then.len()).map(|i| trade.then_words(i));
    [trade.name(), trade.now_words()].into_iter().chain(then).collect()
}
