//! What to watch in this pot, why, and a mend for each where there is one.

use crate::advice::{Advice, note};
use crate::hygiene;
use crate::hygiene::{Finding, Phase, Reading};
use crate::mends;
use crate::mends::Mend;
use crate::pace;
use crate::readiness::release_of;
use crate::thickeners;
use crate::verdict::{SugarStays, Verdict};
use potset_base::words::{Style, SweetWord};
use potset_base::{Severity, number};
use potset_doc::design::Powder;
use potset_doc::steps::Step;
use potset_forecast::facts::cream_words;
use potset_forecast::scenario::{Ask, Run};

/// Everything worth telling, gravest first; at equal gravity in the order of making.
///
/// - `judged` — what speaks against the pot beside the first thing; it stands first of what is equally grave.
#[must_use]
pub fn advice(ask: &Ask<'_>, run: &Run, verdict: &Verdict, judged: Vec<Advice>) -> Vec<Advice> {
    let mut all = judged;
    let judged = all.len();
    check(verdict, &mut all);
    crate::separates::advice(ask, run, verdict, &mut all);
    base(ask, run, &mut all);
    cut_with_water(ask, run, &mut all);
    food(ask, run, verdict, &mut all);
    thickeners::advice(ask, run, &mut all);
    culture(ask, run, &mut all);
    warmth(ask, run, &mut all);
    limits(ask, run, &mut all);
    wrong_warmth(ask, run, verdict, &mut all);
    sweetness(verdict, &mut all);
    beyond(ask, &mut all);
    crate::more_advice::advice(ask, run, verdict, &mut all);
    crate::pantry_advice::advice(ask, run, &mut all);
    all.extend(run.notes.iter().map(|n| Advice { note: n.clone(), mend: None }));
    no_mend_to_a_discard(ask, judged, &mut all);
    all.sort_by_key(|a| std::cmp::Reverse(a.note.severity));
    all
}

/// No mend leads to a pot that is to be thrown away. Those of the judge are tried already.
fn no_mend_to_a_discard(ask: &Ask<'_>, judged: usize, all: &mut [Advice]) {
    for advice in all.iter_mut().skip(judged) {
        if advice.mend.as_ref().is_some_and(|mend| hygiene::mends::leads_to_discard(ask, &mend.edit)) {
            advice.mend = None;
        }
    }
}

fn base(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    for cream in &run.facts.cream {
        if cream.share < run.mix.laws.coconut.watery_below_share {
            let here = ask.design.bases.get(cream.line).map(|b| b.entry.as_str());
            let mend = (here != Some("coconut_cream_tinned")).then(|| {
                Mend::new(
                    "Use tinned coconut cream",
                    potset_doc::Edit::Swap(
                        potset_doc::edit::Shelf::Bases,
                        cream.line,
                        "coconut_cream_tinned".to_owned(),
                    ),
                )
            });
            let misses = if cream.misses.is_empty() {
                String::new()
            } else {
                format!(", though it misses {}", cream.misses)
            };
            let sentence = format!(
                "Its {}: {} by its solids (Codex CXS 240){misses}. Little fat to firm up in the fridge",
                cream_words(cream.share),
                cream.class
            );
            all.push(Advice {
                note: note(Severity::Watch, "bases", "A watery base makes a watery pot", sentence),
                mend,
            });
        }
    }
}

/// A pot cut with water: judged by the coconut fat in all coconut and water together.
fn cut_with_water(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    let Some((line, share)) = run.facts.watered else { return };
    if share >= run.mix.laws.coconut.watery_below_share || ask.design.bases.len() < 2 {
        return;
    }
    let sentence = format!(
        "Coconut and water together have {}. A base cut with water gives a watery pot (common practice)",
        cream_words(share)
    );
    let mend =
        Mend::new("Leave the water out", potset_doc::Edit::Remove(potset_doc::edit::Shelf::Bases, line));
    all.push(Advice {
        note: note(Severity::Watch, "bases", "The base is cut with water", sentence),
        mend: Some(mend),
    });
}

fn food(ask: &Ask<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let ph = verdict.tang.as_ref().map_or(f64::NAN, |t| t.ph);
    if run.mix.organisms.iter().all(|o| o.count <= 0.0)
        && run.mix.additions.iter().all(|a| a.counts.is_empty())
    {
        let sentence = format!("Nothing will sour it: pH {} at the stop", number::fixed(ph, 1));
        let mend = Some(mends::inoculate(run.facts.dairy >= 0.5));
        all.push(Advice { note: note(Severity::Stop, "cultures", "No culture in the pot", sentence), mend });
        return;
    }
    if run.facts.edible_g_kg < 0.5 {
        let sentence = format!(
            "The culture finds {} g/kg of sugar that it can eat, so the pot stays at pH {}",
            number::fixed(run.facts.edible_g_kg, 1),
            number::fixed(ph, 1)
        );
        let title = "No sugar for the culture: it cannot sour";
        all.push(Advice {
            note: note(Severity::Stop, "sugars", title, sentence),
            mend: Some(mends::feed(ask)),
        });
    }
}

fn culture(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    for dose in &run.facts.doses {
        let Some(line) = ask.design.cultures.get(dose.line) else { continue };
        let grams = if line.powder == Powder::OneToTen { dose.grams * 10.0 } else { dose.grams };
        let error = ask.kitchen.weighing_error_g() / grams;
        let field = format!("cultures[{}]", dose.line);
        if line.rate > 0.0 && line.rate < 0.5 {
            let title = format!("Only {} of the packet's dose", number::plain(line.rate));
            let sentence =
                "Few cells start late: the pot stays sweet and open to other growth for hours longer";
            let mend = Mend::new("Dose at packet rate", potset_doc::Edit::CultureRate(dose.line, 1.0));
            all.push(Advice { note: note(Severity::Watch, &field, title, sentence), mend: Some(mend) });
        }
        if grams > 0.0 && error > 0.1 {
            let size = if error > 1.0 {
                "more than the dose itself".to_owned()
            } else {
                format!("± {} %", number::fixed(error * 100.0, 0))
            };
            let sentence = format!(
                "{} g on a scale that is good to {} g: {size}",
                number::figures(grams, 2),
                number::plain(ask.kitchen.weighing_error_g()),
            );
            // A tenth of the error, or it is no mend.
            let cures = line.powder == Powder::Straight && error < 1.5;
            let mend = cures.then(|| mends::split_powder(dose.line));
            let title = "The dose is below what your scale can weigh";
            all.push(Advice { note: note(Severity::Watch, &field, title, sentence), mend });
        }
    }
}

fn warmth(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    let end = run.mix.laws.ready.culture_end_c;
    let facts = "At 50 °C a culture stops working (common practice), and no pot sours above that";
    if run.facts.culture_in_c > end {
        let title = format!(
            "Cool before you add the culture: it goes into {} °C",
            number::fixed(run.facts.culture_in_c, 0)
        );
        let mend = Some(mends::cool_first());
        all.push(Advice { note: note(Severity::Stop, "steps", title, facts), mend });
    }
    let hottest = run.forecast.temperature.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if hottest > end && ask.design.hold().is_some_and(|h| h.set_c > end) {
        let title = format!("The hold reaches {} °C", number::fixed(hottest, 0));
        let mend = Some(mends::milder_hold());
        all.push(Advice { note: note(Severity::Stop, "hold.set_c", title, facts), mend });
    }
}

/// What the judge of hygiene found, with what mends it, in the judge's order.
#[must_use]
pub fn hygiene(ask: &Ask<'_>, run: &Run, verdict: &Verdict) -> Vec<Advice> {
    let reading = Reading::of(run, verdict.stop_h);
    let told = |finding: &Finding| {
        let because = format!("{} ({})", reading.sentence(finding), hygiene::source(finding.row));
        let field = match finding.row.phase() {
            Phase::Before | Phase::After => "steps",
            Phase::Hold => "hold",
        };
        let note = note(finding.level.severity(), field, reading.title(finding), because);
        Advice { note, mend: hygiene::mends::mend(ask, &verdict.hygiene, finding) }
    };
    verdict.hygiene.findings.iter().map(told).collect()
}

/// A look that the plan asks for.
fn check(verdict: &Verdict, all: &mut Vec<Advice>) {
    if let Some(check) = verdict.hygiene.check.filter(|_| verdict.hygiene.discard().is_none()) {
        let title = format!("Check the pH at {}", number::hours(check.at_h));
        all.push(Advice { note: note(Severity::Tip, "hold", title, check.words()), mend: None });
    }
}

/// What the pH limit is, where that would surprise.
fn limits(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    let release = release_of(ask, run);
    if let Some(goal) = release.capped_from {
        let title =
            format!("Your goal of pH {} counts as {}", number::plain(goal), number::plain(release.ph));
        let why = release.strict.map_or_else(
            || "A pot above that holds nothing back".to_owned(),
            |why| format!("The lower limit is needed {}", why.words()),
        );
        all.push(Advice { note: note(Severity::Watch, "goals.ph_at_most", title, why), mend: None });
    }
    let ready = &run.mix.laws.ready;
    if release.strict.is_none() && ask.design.goals.ph_at_most.is_none() && run.facts.starch_at_nought {
        let title = format!("Without starch pH {} is low enough", number::plain(ready.release_ph));
        let why =
            format!("With starch in it the pot has to come to pH {}", number::plain(ready.release_ph_strict));
        all.push(Advice { note: note(Severity::Tip, "thickeners", title, why), mend: None });
    }
}

/// Warmth that slows the culture down, before the pot is sour enough.
fn wrong_warmth(ask: &Ask<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let until = run.forecast.time_to_ph(release_of(ask, run).ph).unwrap_or(verdict.stop_h);
    let Some(slow) = pace::slow_warmth(run, until.min(verdict.stop_h)) else { return };
    let warm = slow.too_warm;
    let title = format!(
        "Too {}: the culture works at {} % of its best pace",
        if warm { "hot" } else { "cool" },
        number::fixed(100.0 * slow.share, 0)
    );
    let sentence = format!(
        "At {} °C since {}, for {} in all. It works best near {} °C",
        number::fixed(slow.c, 0),
        number::hours(slow.since_h),
        number::hours(slow.hours),
        number::fixed(slow.best_c, 0)
    );
    let mend = Some(mends::milder_hold()).filter(|m| ask.with(&m.edit).is_some());
    let mend = mend.filter(|m| {
        ask.with(&m.edit).is_some_and(|new| pace::slow_warmth(&new, until.min(new.mix.stop_h)).is_none())
    });
    let mend = mend.or_else(|| {
        let cool = mends::cool_first();
        let fixed = ask
            .with(&cool.edit)
            .is_some_and(|new| pace::slow_warmth(&new, until.min(new.mix.stop_h)).is_none());
        fixed.then_some(cool)
    });
    all.push(Advice { note: note(Severity::Watch, "hold.set_c", title, sentence), mend });
}

fn sweetness(verdict: &Verdict, all: &mut Vec<Advice>) {
    let sweet = verdict.tang.as_ref().is_some_and(|t| t.sweet == SweetWord::SweetnessLeads);
    let stalled = verdict.sugar.as_ref().is_some_and(|s| s.why == SugarStays::Stalled);
    if sweet && stalled && verdict.hygiene.not_yogurt.is_none() {
        let left = verdict.sugar.as_ref().map_or(f64::NAN, |s| s.left);
        let sentence = format!(
            "{} g/L of sugar is left against {} % of acid made. The culture stops at its own acid, not when the sugar \
             is gone: less sugar, not more time, takes the sweetness down",
            number::fixed(left, 0),
            number::fixed(verdict.tang.as_ref().map_or(f64::NAN, |t| t.acid_made), 2)
        );
        all.push(Advice { note: note(Severity::Tip, "sugars", "Sweetness leads", sentence), mend: None });
    }
}

fn beyond(ask: &Ask<'_>, all: &mut Vec<Advice>) {
    let strains = ask.design.steps.iter().any(|s| matches!(s, Step::Strain { .. }));
    if ask.design.style == Style::Strained && !strains {
        let title = "Called strained, but nothing strains it";
        let sentence = "The texture shown is that of the whole pot, worked as if it were filled";
        let mend = Some(mends::strain(ask));
        all.push(Advice { note: note(Severity::Tip, "style", title, sentence), mend });
    }
}
