//! What to watch in this pot, why, and a mend for each where there is one.

use crate::advice::{Advice, Making};
use crate::hygiene::{self, Against, Phase};
use crate::mends::{self, How, Mend};
use crate::readiness::release_of;
use crate::verdict::{SugarStays, Verdict};
use crate::{pace, thickeners};
use potset_base::Severity;
use potset_base::words::{Style, SweetWord, TextureWord};
use potset_doc::Edit;
use potset_doc::design::Powder;
use potset_doc::edit::LineKind;
use potset_doc::steps::Step;
use potset_forecast::scenario::{Run, Scenario};

/// The base that a mend uses instead of a watery one.
const TINNED_CREAM: &str = "coconut_cream_tinned";

/// Everything worth telling, gravest first; at equal gravity in the order of making.
///
/// - `judged` — what speaks against the pot beside the first thing; it stands first of what is equally grave.
pub fn advice(scenario: &Scenario<'_>, run: &Run, verdict: &Verdict, judged: Vec<Advice>) -> Vec<Advice> {
    let mut all = judged;
    let judged = all.len();
    check(verdict, &mut all);
    crate::separates::advice(scenario, run, verdict, &mut all);
    if thin(verdict) {
        base(scenario, run, &mut all);
        cut_with_water(scenario, run, &mut all);
    }
    food(scenario, run, verdict, &mut all);
    all.extend(thickeners::advice(scenario, run));
    culture(scenario, run, &mut all);
    warmth(scenario, run, &mut all);
    limits(scenario, run, &mut all);
    wrong_warmth(scenario, run, verdict, &mut all);
    sweetness(verdict, &mut all);
    beyond(scenario, &mut all);
    crate::more_advice::advice(scenario, run, verdict, &mut all);
    crate::pantry_advice::advice(scenario, run, &mut all);
    all.extend(run.notes.iter().map(|n| Advice::new(n.severity, &*n.field, n.clone(), None)));
    no_mend_to_a_discard(scenario, judged, &mut all);
    all.sort_by_key(|a| std::cmp::Reverse(a.severity));
    all
}

/// No mend leads to a pot that is to be thrown away. Those of the judge are tried already.
fn no_mend_to_a_discard(scenario: &Scenario<'_>, judged: usize, all: &mut [Advice]) {
    for advice in all.iter_mut().skip(judged) {
        if advice.mend.as_ref().is_some_and(|mend| hygiene::mends::leads_to_discard(scenario, &mend.edit())) {
            advice.mend = None;
        }
    }
}

/// Whether a watery base would tell a maker anything: a pot that holds a dollop is not watery, whatever is in it.
fn thin(verdict: &Verdict) -> bool {
    verdict.texture.as_ref().is_none_or(|t| t.word < TextureWord::Dollops)
}

fn base(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    for cream in &run.facts.cream {
        if cream.share < run.mix.laws.coconut.watery_below_share {
            let here = scenario.design.bases.get(cream.line).map(|b| b.entry.as_str());
            let mend = (here != Some(TINNED_CREAM)).then(|| {
                let edit = Edit::Swap(LineKind::Bases, cream.line, TINNED_CREAM.to_owned());
                Mend::new(How::TinnedCream, edit)
            });
            all.push(Advice::new(Severity::Watch, "bases", Making::Watery(cream.clone()), mend));
        }
    }
}

/// A pot cut with water: judged by the coconut fat in all coconut and water together.
fn cut_with_water(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    let Some((line, share)) = run.facts.watered else { return };
    if share >= run.mix.laws.coconut.watery_below_share || scenario.design.bases.len() < 2 {
        return;
    }
    let mend = Some(Mend::new(How::NoWater, Edit::Remove(LineKind::Bases, line)));
    all.push(Advice::new(Severity::Watch, "bases", Making::CutWithWater(share), mend));
}

fn food(scenario: &Scenario<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let ph = verdict.tang.as_ref().map_or(f64::NAN, |t| t.ph);
    if run.mix.organisms.iter().all(|o| o.count <= 0.0)
        && run.mix.additions.iter().all(|a| a.counts.is_empty())
    {
        let mend = Some(mends::inoculate(run.facts.dairy >= 0.5));
        all.push(Advice::new(Severity::Stop, "cultures", Making::NoCulture(ph), mend));
        return;
    }
    if run.facts.edible_g_kg < 0.5 {
        let none = Making::NoFood(run.facts.edible_g_kg, ph);
        all.push(Advice::new(Severity::Stop, "sugars", none, Some(mends::feed(scenario))));
    }
}

/// A dose is weighed well enough where the scale errs by less than this share of it. Source: assumed.
const WEIGHED_WELL: f64 = 0.15;

fn culture(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    for dose in &run.facts.doses {
        let Some(line) = scenario.design.cultures.get(dose.line) else { continue };
        let grams = dose.grams * line.powder.times();
        let error_g = scenario.kitchen.weighing_error_g();
        let error = error_g / grams;
        let field = format!("cultures[{}]", dose.line);
        if line.rate > 0.0 && line.rate < 0.5 {
            let mend = Mend::new(How::PacketRate, Edit::CultureRate(dose.line, 1.0));
            all.push(Advice::new(Severity::Watch, &*field, Making::SmallDose(line.rate), Some(mend)));
        }
        if grams > 0.0 && error > 0.1 {
            // The thinnest mix that the scale can weigh, or it is no mend.
            let weighed = |powder: &Powder| error_g / (dose.grams * powder.times()) < WEIGHED_WELL;
            let thinner = Powder::ALL.into_iter().filter(|powder| powder.times() > line.powder.times());
            // To mix once more is worth it where the scale errs by much.
            let thinner = thinner.filter(|_| line.powder == Powder::Straight || error > 2.0 * WEIGHED_WELL);
            let mend = thinner.into_iter().find(weighed).map(|powder| mends::split_powder(dose.line, powder));
            all.push(Advice::new(Severity::Watch, field, Making::BelowTheScale { grams, error_g }, mend));
        }
    }
}

fn warmth(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    let end = run.mix.laws.ready.culture_end_c;
    let into = run.facts.culture_in_c;
    if into > end {
        all.push(Advice::new(Severity::Stop, "steps", Making::IntoTheHeat(into), Some(mends::cool_first())));
    }
    let hottest = run.forecast.temperature.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if hottest > end && scenario.design.hold().is_some_and(|h| h.set_c > end) {
        let mend = Some(mends::milder_hold());
        all.push(Advice::new(Severity::Stop, "hold.set_c", Making::HotHold(hottest), mend));
    }
}

/// What the judge of hygiene found, with what mends it, in the judge's order.
pub fn hygiene(scenario: &Scenario<'_>, run: &Run, verdict: &Verdict) -> Vec<Advice> {
    let told = verdict.hygiene.findings.iter().map(|finding| {
        let field = match finding.row.phase() {
            Phase::Before | Phase::After => "steps",
            Phase::Hold => "hold",
        };
        let mend = hygiene::mends::mend(scenario, &verdict.hygiene, finding);
        let against = Box::new(Against::of(run, verdict.stop_h, *finding));
        Advice::new(finding.level.severity(), field, against, mend)
    });
    told.collect()
}

/// A look that the plan asks for.
fn check(verdict: &Verdict, all: &mut Vec<Advice>) {
    if let Some(check) = verdict.hygiene.check.filter(|_| verdict.hygiene.discard().is_none()) {
        all.push(Advice::new(Severity::Tip, "hold", check, None));
    }
}

/// What the pH limit is, where that would surprise.
fn limits(scenario: &Scenario<'_>, run: &Run, all: &mut Vec<Advice>) {
    let release = release_of(scenario, run);
    if let Some(goal) = release.capped_from {
        let capped = Making::GoalCapped { goal, ph: release.ph, strict: release.strict };
        all.push(Advice::new(Severity::Watch, "goals.ph_at_most", capped, None));
    }
    let ready = &run.mix.laws.ready;
    if release.strict.is_none() && scenario.design.goals.ph_at_most.is_none() && run.facts.starch_at_nought {
        let without = Making::WithoutStarch(ready.release_ph, ready.release_ph_strict);
        all.push(Advice::new(Severity::Tip, "thickeners", without, None));
    }
}

/// Warmth that slows the culture down, before the pot is sour enough.
fn wrong_warmth(scenario: &Scenario<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let until = run.forecast.time_to_ph(release_of(scenario, run).ph).unwrap_or(verdict.stop_h);
    let Some(slow) = pace::slow_warmth(run, until.min(verdict.stop_h)) else { return };
    let fixes = |mend: &Mend| {
        let new = scenario.with(&mend.edit());
        new.is_some_and(|new| pace::slow_warmth(&new, until.min(new.mix.stop_h)).is_none())
    };
    let mend = [mends::milder_hold(), mends::cool_first()].into_iter().find(fixes);
    all.push(Advice::new(Severity::Watch, "hold.set_c", Making::SlowWarmth(slow), mend));
}

fn sweetness(verdict: &Verdict, all: &mut Vec<Advice>) {
    let sweet = verdict.tang.as_ref().is_some_and(|t| t.sweet == SweetWord::SweetnessLeads);
    let stalled = verdict.sugar.as_ref().is_some_and(|s| s.why == SugarStays::Stalled);
    if sweet && stalled && verdict.hygiene.not_yogurt.is_none() {
        let left = verdict.sugar.as_ref().map_or(f64::NAN, |s| s.left);
        let acid = verdict.tang.as_ref().map_or(f64::NAN, |t| t.acid_made);
        all.push(Advice::new(Severity::Tip, "sugars", Making::SweetnessLeads(left, acid), None));
    }
}

fn beyond(scenario: &Scenario<'_>, all: &mut Vec<Advice>) {
    let strains = scenario.design.steps.iter().any(|s| matches!(s, Step::Strain { .. }));
    if scenario.design.style == Style::Strained && !strains {
        all.push(Advice::new(Severity::Tip, "style", Making::NeverStrained, Some(mends::strain(scenario))));
    }
}
