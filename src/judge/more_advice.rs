//! Advice on what is beside base and culture: additives, old cultures, chalk, residues, straining, keeping.

use crate::advice::{Advice, Besides};
use crate::mends::{How, Mend};
use crate::verdict::Verdict;
use potset_base::{Inhibitor, Severity};
use potset_doc::Edit;
use potset_doc::pantry::Warmer;
use potset_doc::steps::Step;
use potset_forecast::scenario::{Run, Scenario};
use potset_science::texture::inputs::AgentKind;

/// Days that home practice keeps a pot. Source: common practice, 7-14 days at 5 °C or below.
pub const KEEPS_DAYS: f64 = 14.0;

/// Adds what is worth telling.
pub fn advice(scenario: &Scenario<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    old_culture(scenario, run, all);
    held_back(run, all);
    chalk(run, all);
    lactase(run, all);
    starved_gels(run, all);
    straining(scenario, run, all);
    too_big(scenario, all);
    keeping(scenario, verdict, all);
}

fn put(all: &mut Vec<Advice>, severity: Severity, field: &str, what: Besides) {
    all.push(Advice::new(severity, field, what, None));
}

/// A culture that has lost more than half of its cells: the dose that makes up for it.
fn old_culture(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    for (i, (line, lost)) in scenario.design.cultures.iter().zip(&run.facts.lost).enumerate() {
        if *lost < 0.3 || line.rate <= 0.0 {
            continue;
        }
        let factor = 10.0_f64.powf(*lost);
        let rate = (line.rate * factor * 10.0).round() / 10.0;
        let mend = (factor < 30.0).then(|| Mend::new(How::Rate(rate), Edit::CultureRate(i, rate)));
        let severity = if *lost > 1.0 { Severity::Watch } else { Severity::Tip };
        all.push(Advice::new(severity, format!("cultures[{i}]"), Besides::OldCulture(1.0 / factor), mend));
    }
}

/// Salt, sugar, residues and preservatives that slow an organism by more than a fifth.
fn held_back(run: &Run, all: &mut Vec<Advice>) {
    let slowed: Vec<String> =
        run.mix.organisms.iter().filter(|o| o.held_back < 0.8).map(|o| o.name.clone()).collect();
    if !slowed.is_empty() {
        let by = [Inhibitor::Salt, Inhibitor::Sulfite, Inhibitor::Penicillin, Inhibitor::Tetracycline];
        let by = by.into_iter().filter(|i| run.facts.inhibitors[i.index()] > 0.0).collect();
        put(all, Severity::Watch, "additives", Besides::HeldBack(slowed, by));
    }
    let benzoate = run.facts.inhibitors[Inhibitor::Benzoate.index()];
    let sorbate = run.facts.inhibitors[Inhibitor::Sorbate.index()];
    if benzoate + sorbate > 0.0 {
        put(all, Severity::Watch, "bases", Besides::Preserved(benzoate + sorbate));
    }
}

/// Chalk takes acid up and gives off gas.
fn chalk(run: &Run, all: &mut Vec<Advice>) {
    if run.facts.gas > 1.0 {
        put(all, Severity::Tip, "bases", Besides::Chalk(2.0 * run.facts.gas));
    }
}

fn lactase(run: &Run, all: &mut Vec<Advice>) {
    let dairy = run.forecast.sugars_there.contains(&potset_base::Sugar::Galactose);
    if run.mix.lactase > 0.0 && dairy {
        let left = run.forecast.value(&run.forecast.sugars[0], run.mix.stop_h);
        put(all, Severity::Tip, "additives", Besides::Lactase(left));
    }
}

/// Gelling agents that lack calcium or milk protein.
fn starved_gels(run: &Run, all: &mut Vec<Advice>) {
    for (i, agent) in run.mix.texture.agents.iter().enumerate() {
        if let AgentKind::Gel { supplied, .. } = agent.kind
            && supplied < 0.6
        {
            let starved = Besides::StarvedGel(agent.name.clone(), supplied, run.mix.texture.calcium);
            put(all, Severity::Watch, &format!("thickeners[{i}]"), starved);
        }
    }
}

/// More than the warmer holds.
fn too_big(scenario: &Scenario<'_>, all: &mut Vec<Advice>) {
    let Some(hold) = scenario.design.hold() else { return };
    let warmer = scenario.design.entry::<Warmer>(scenario.pantry, &hold.warmer);
    let litres = scenario.design.litres();
    if let Some((name, most)) =
        warmer.and_then(|w| w.holds_litres.map(|most| (&w.name, most))).filter(|(_, most)| litres > *most)
    {
        put(all, Severity::Watch, "hold.warmer", Besides::TooBig(name.clone(), most, litres));
    }
}

fn straining(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    let strains = scenario.design.steps.iter().any(|s| matches!(s, Step::Strain { removed: None, .. }));
    if strains && run.mix.after.strained < 0.02 {
        put(all, Severity::Watch, "steps", Besides::NoStraining);
    }
}

fn keeping(scenario: &Scenario<'_>, verdict: &Verdict, all: &mut Vec<Advice>) {
    let days = scenario
        .design
        .steps
        .iter()
        .find_map(|s| if let Step::Store { days, .. } = s { Some(*days) } else { None });
    if let Some(days) = days.filter(|d| *d > KEEPS_DAYS) {
        put(all, Severity::Watch, "steps", Besides::KeptLong(days));
    }
    if let (Some(days), Some(k)) = (days, &verdict.keeping)
        && let Some((from, word)) = k.sharper.filter(|(from, _)| *from <= days)
    {
        put(all, Severity::Tip, "steps", Besides::Sharper(from, word));
    }
}
