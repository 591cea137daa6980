//! Advice on what is beside base and culture: additives, old cultures, chalk, residues, straining, keeping.

use crate::advice::{Advice, note};
use crate::mends::Mend;
use crate::verdict::Verdict;
use potset_base::{Inhibitor, Severity, number};
use potset_doc::Edit;
use potset_doc::pantry::Warmer;
use potset_doc::steps::Step;
use potset_forecast::scenario::{Run, Scenario};
use potset_science::texture::inputs::AgentKind;

/// Days that home practice keeps a pot. Source: common practice, 7-14 days at 5 °C or below.
const KEEPS_DAYS: f64 = 14.0;

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

fn put(
    all: &mut Vec<Advice>,
    severity: Severity,
    field: &str,
    title: &str,
    sentence: String,
    mend: Option<Mend>,
) {
    all.push(Advice { note: note(severity, field, title, sentence), mend });
}

/// A share of living cells in words: "12 %", "under 1 %".
pub fn living_words(share: f64) -> String {
    if share < 0.01 {
        format!("under 1{}%", number::NBSP)
    } else {
        format!("{}{}%", number::figures(share * 100.0, 2), number::NBSP)
    }
}

/// A culture that has lost more than half of its cells: the dose that makes up for it.
fn old_culture(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    for (i, (line, lost)) in scenario.design.cultures.iter().zip(&run.facts.lost).enumerate() {
        if *lost < 0.3 || line.rate <= 0.0 {
            continue;
        }
        let factor = 10.0_f64.powf(*lost);
        let sentence =
            format!("Of its cells {} still live, and they start later", living_words(1.0 / factor));
        let rate = (line.rate * factor * 10.0).round() / 10.0;
        let mend = (factor < 30.0).then(|| {
            Mend::new(format!("Use {} × packet rate", number::plain(rate)), Edit::CultureRate(i, rate))
        });
        let severity = if *lost > 1.0 { Severity::Watch } else { Severity::Tip };
        put(all, severity, &format!("cultures[{i}]"), "The culture is old", sentence, mend);
    }
}

/// Salt, sugar, residues and preservatives that slow an organism by more than a fifth.
fn held_back(run: &Run, all: &mut Vec<Advice>) {
    let slowed: Vec<&str> =
        run.mix.organisms.iter().filter(|o| o.held_back < 0.8).map(|o| o.name.as_str()).collect();
    if !slowed.is_empty() {
        let what: Vec<&str> =
            [Inhibitor::Salt, Inhibitor::Sulfite, Inhibitor::Penicillin, Inhibitor::Tetracycline]
                .into_iter()
                .filter(|i| run.facts.inhibitors[i.index()] > 0.0)
                .map(Inhibitor::words)
                .collect();
        let what = if what.is_empty() { Inhibitor::Sugar.words().to_owned() } else { what.join(" and ") };
        let sentence = format!("{} slowed: {}", slowed.join(", "), what);
        put(all, Severity::Watch, "additives", "Something holds the culture back", sentence, None);
    }
    let benzoate = run.facts.inhibitors[Inhibitor::Benzoate.index()];
    let sorbate = run.facts.inhibitors[Inhibitor::Sorbate.index()];
    if benzoate + sorbate > 0.0 {
        let sentence = format!(
            "{} mg/kg of it: little acts at the start, more and more as the pot sours, so a pot begins well and stalls \
             between pH 5 and 4.5. Choose a base without it",
            number::figures(benzoate + sorbate, 2)
        );
        put(all, Severity::Watch, "bases", "The base is preserved against souring", sentence, None);
    }
}

/// Chalk takes acid up and gives off gas.
fn chalk(run: &Run, all: &mut Vec<Advice>) {
    if run.facts.gas > 1.0 {
        let sentence = format!(
            "It takes up {} mmol/kg of acid before the pot can sour, and gives off gas: bubbles below pH 6 are then no \
             sign of spoilage",
            number::fixed(2.0 * run.facts.gas, 0)
        );
        put(all, Severity::Tip, "bases", "Chalk in the pot", sentence, None);
    }
}

fn lactase(run: &Run, all: &mut Vec<Advice>) {
    let dairy = run.forecast.sugars_there.contains(&potset_base::Sugar::Galactose);
    if run.mix.lactase > 0.0 && dairy {
        let left = run.forecast.value(&run.forecast.sugars[0], run.mix.stop_h);
        let sentence = format!(
            "{} g/kg of lactose is left at the stop; glucose and galactose stay in the pot and taste sweeter. Not for \
             people with galactosaemia; a label needs a laboratory's figure",
            number::figures(left, 2)
        );
        put(all, Severity::Tip, "additives", "Lactase splits the lactose", sentence, None);
    }
}

/// Gelling agents that lack calcium or milk protein.
fn starved_gels(run: &Run, all: &mut Vec<Advice>) {
    for (i, agent) in run.mix.texture.agents.iter().enumerate() {
        if let AgentKind::Gel { supplied, .. } = agent.kind
            && supplied < 0.6
        {
            let sentence = format!(
                "It gels to {} % here: the base holds {} mg of calcium in 100 g. A calcium salt, or another agent, would help",
                number::fixed(supplied * 100.0, 0),
                number::fixed(run.mix.texture.calcium, 0)
            );
            let title = format!("{} lacks what it gels with", agent.name);
            put(all, Severity::Watch, &format!("thickeners[{i}]"), &title, sentence, None);
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
        let sentence =
            format!("{name}: {} L; the design makes {} L", number::plain(most), number::plain(litres));
        put(all, Severity::Watch, "hold.warmer", "More than the warmer holds", sentence, None);
    }
}

fn straining(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    let strains = scenario.design.steps.iter().any(|s| matches!(s, Step::Strain { removed: None, .. }));
    if strains && run.mix.after.strained < 0.02 {
        let sentence = "No protein gel holds the rest back in a cloth: the pot would run through".to_owned();
        put(all, Severity::Watch, "steps", "This pot cannot be strained", sentence, None);
    }
}

fn keeping(scenario: &Scenario<'_>, verdict: &Verdict, all: &mut Vec<Advice>) {
    let days = scenario
        .design
        .steps
        .iter()
        .find_map(|s| if let Step::Store { days, .. } = s { Some(*days) } else { None });
    if let Some(days) = days.filter(|d| *d > KEEPS_DAYS) {
        let sentence = format!(
            "{} days; home practice keeps a pot {} days at 5 °C or below. Mould, gas or a foul smell: throw it away",
            number::fixed(days, 0),
            number::fixed(KEEPS_DAYS, 0)
        );
        put(all, Severity::Watch, "steps", "Kept longer than home practice does", sentence, None);
    }
    if let (Some(days), Some(k)) = (days, &verdict.keeping)
        && let Some((from, word)) = k.sharper.filter(|(from, _)| *from <= days)
    {
        let sentence = format!(
            "It goes on souring in the cold: {} from about day {}",
            word.word(),
            number::fixed(from, 0)
        );
        put(all, Severity::Tip, "steps", "It gets sharper in the fridge", sentence, None);
    }
}
