//! Advice: what to watch in this pot, why, and a mend for each where there is one.

use super::ask::{Ask, Run};
use super::cautions::DEFER;
use super::mends::{self, Mend};
use super::thickeners;
use super::verdict::Verdict;
use crate::base::words::{Style, SweetWord};
use crate::base::{Note, Severity, number};
use crate::compile::facts::cream_words;
use crate::doc::design::Powder;
use crate::doc::steps::Step;
use crate::science::cautions as law;

/// A note and its mend.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    pub note: Note,
    pub mend: Option<Mend>,
}

pub(super) fn note(
    severity: Severity,
    field: &str,
    title: impl Into<String>,
    sentence: impl Into<String>,
) -> Note {
    Note {
        severity,
        field: field.into(),
        title: title.into(),
        sentence: sentence.into(),
        mend: String::new(),
    }
}

/// Everything worth telling, gravest first; at equal gravity in the order of making.
#[must_use]
pub fn advice(ask: &Ask<'_>, run: &Run, verdict: &Verdict) -> Vec<Advice> {
    let mut all = Vec::new();
    base(ask, run, &mut all);
    cut_with_water(ask, run, &mut all);
    food(ask, run, verdict, &mut all);
    thickeners::advice(ask, run, &mut all);
    culture(ask, run, &mut all);
    warmth(ask, run, &mut all);
    pace(ask, run, &mut all);
    stopped_early(ask, run, verdict, &mut all);
    ready(run, verdict, &mut all);
    beyond(ask, run, verdict, &mut all);
    super::more_advice::advice(ask, run, verdict, &mut all);
    super::pantry_advice::advice(ask, run, &mut all);
    all.extend(run.notes.iter().map(|n| Advice { note: n.clone(), mend: None }));
    all.sort_by_key(|a| std::cmp::Reverse(a.note.severity));
    all
}

fn base(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    for cream in &run.facts.cream {
        if cream.share < run.mix.laws.coconut.watery_below_share {
            let here = ask.design.bases.get(cream.line).map(|b| b.entry.as_str());
            let mend = (here != Some("coconut_cream_tinned")).then(|| {
                Mend::new(
                    "Use tinned coconut cream",
                    crate::doc::Edit::Swap(
                        crate::doc::edit::Shelf::Bases,
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
        Mend::new("Leave the water out", crate::doc::Edit::Remove(crate::doc::edit::Shelf::Bases, line));
    all.push(Advice {
        note: note(Severity::Watch, "bases", "The base is cut with water", sentence),
        mend: Some(mend),
    });
}

/// A pot that is stopped before it is sour, whatever the hour.
fn stopped_early(ask: &Ask<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let line = run.mix.laws.ready.acid_line_ph;
    let Some(tang) = verdict.tang.as_ref().filter(|t| t.ph > line) else { return };
    if run.facts.edible_g_kg < 0.5 || all.iter().any(|a| a.note.severity == Severity::Stop) {
        return;
    }
    let later =
        ask.with(&crate::doc::Edit::HoldHours(48.0)).and_then(|new| new.forecast.time_to_ph(line - 0.2));
    let when = later.map_or_else(
        || "It does not get there in two days as it stands".to_owned(),
        |h| format!("It would be under {} after {}", number::fixed(line - 0.2, 1), number::hours(h)),
    );
    let title = format!("Stopped at pH {}: not sour enough to keep", number::fixed(tang.ph, 1));
    let mend = later.filter(|h| *h < 47.0).map(mends::stop_after);
    let sentence = format!("Above pH {line} a pot holds nothing back. {when}. {DEFER}");
    all.push(Advice { note: note(Severity::Stop, "hold.hours", title, sentence), mend });
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
            "The culture finds {} g/kg of sugar that it can eat, so the pot stays at pH {}. A warm pot that does not \
             sour is a hazard: throw it away. {DEFER}",
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
            let mend = Mend::new("Dose at packet rate", crate::doc::Edit::CultureRate(dose.line, 1.0));
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
    let facts = "Nothing sours up there: common practice takes 50 °C as the end of a culture. Most strains of \
                 S. thermophilus outlive 60 °C for half an hour (published), but they do not grow";
    if run.facts.culture_in_c > end {
        let title = format!("The culture goes into {} °C", number::fixed(run.facts.culture_in_c, 0));
        let mend = Some(mends::cool_first());
        all.push(Advice { note: note(Severity::Stop, "steps", title, facts), mend });
    }
    let hottest = run.forecast.temperature.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if hottest > end && ask.design.hold().is_some_and(|h| h.set_c > end) {
        let title = format!("The hold reaches {} °C", number::fixed(hottest, 0));
        let mend = Some(mends::milder_hold());
        all.push(Advice { note: note(Severity::Stop, "hold.set_c", title, facts), mend });
    }
    if run.facts.cold_hold {
        let lowest = run.mix.course.lowest_until(run.mix.stop_h);
        let mut sentence = format!(
            "It is at {} °C at its coldest. Slow souring leaves time for what you do not want",
            number::fixed(lowest, 0)
        );
        if run.facts.coconut {
            sentence.push_str(
                ". In coconut Burkholderia gladioli can make bongkrekic acid, which no heat destroys: use tinned or \
                 boiled base and a known culture, and throw away what is yellow or oddly coloured",
            );
        }
        let title =
            format!("Part of the hold is below {} °C", number::fixed(run.mix.laws.ready.cold_below_c, 0));
        all.push(Advice {
            note: note(Severity::Watch, "hold.set_c", title, format!("{sentence}. {DEFER}")),
            mend: None,
        });
    }
}

fn pace(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    if run.facts.edible_g_kg < 0.5 {
        return;
    }
    let Some(row) = run.mix.laws.cautions.get(run.mix.caution) else { return };
    let f = &run.forecast;
    let slow = law::slow(row, &f.t, &f.ph, run.mix.stop_h);
    if let Some(ph) = slow.discard {
        let title =
            format!("Still pH {} at {}: throw it away", number::fixed(ph, 1), number::hours(row.discard_h));
        let sentence =
            format!("For {} the pot must be under pH {} by then. {DEFER}", row.about, row.discard_ph);
        let mend = mends::raise_dose(ask, run, row.watch_h);
        all.push(Advice { note: note(Severity::Stop, "cultures", title, sentence), mend });
    } else if let Some(ph) = slow.watch {
        let reached = crate::numerics::interpolate::first_below(&f.t, &f.ph, run.mix.laws.ready.acid_line_ph);
        let title = reached.map_or_else(
            || format!("pH {} at {}", number::fixed(ph, 1), number::hours(row.watch_h)),
            |h| format!("pH 4.6 comes at {} h", number::fixed(h, 1)),
        );
        let sentence = format!("Watch: {} by {}. {DEFER}", row.about, number::hours(row.watch_h));
        let mend = mends::raise_dose(ask, run, row.watch_h);
        all.push(Advice { note: note(Severity::Watch, "cultures", title, sentence), mend });
    }
}

fn ready(run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let stop_h = run.mix.stop_h;
    if let Some(window) = &verdict.window {
        let (from, to) = (number::hours(window.from_h), number::hours(window.to_h));
        if stop_h < window.from_h {
            let why = window.opens.as_deref().unwrap_or("the goals");
            let sentence = format!("The goals hold from {from} to {to}; {why} comes last");
            let mend = Some(mends::stop_after(window.from_h));
            all.push(Advice {
                note: note(Severity::Watch, "hold.hours", "The stop is too early", sentence),
                mend,
            });
        } else if stop_h > window.to_h {
            let why = window.closes.as_deref().unwrap_or("a goal");
            let sentence = format!("The goals held from {from} to {to}; then {why} is lost");
            let mend = Some(mends::stop_after((window.to_h - 0.25).max(window.from_h)));
            all.push(Advice {
                note: note(Severity::Watch, "hold.hours", "The stop is too late", sentence),
                mend,
            });
        }
    }
    let sweet = verdict.tang.as_ref().is_some_and(|t| t.sweet == SweetWord::SweetnessLeads);
    let stalled = verdict.sugar.as_ref().is_some_and(|s| s.why == super::verdict::STALLED);
    if sweet && stalled && !all.iter().any(|a| a.note.field == "hold.hours") {
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

fn beyond(ask: &Ask<'_>, run: &Run, verdict: &Verdict, all: &mut Vec<Advice>) {
    let pot = &run.mix.texture;
    let starch: f64 = ask.design.thickeners.iter().map(|t| t.g_per_l).sum();
    let mut outside = Vec::new();
    if pot.fat > 30.0 {
        outside.push(format!("fat {} % (to 30)", number::fixed(pot.fat, 0)));
    }
    if pot.dairy_protein + pot.soy_protein + pot.pea_protein > 12.0 {
        outside.push("protein (2 to 12 %)".to_owned());
    }
    if starch > 60.0 {
        outside.push(format!("{} g/L of thickener (to 60)", number::fixed(starch, 0)));
    }
    if !outside.is_empty() {
        let title = "Beyond what the texture laws were fitted to";
        all.push(Advice { note: note(Severity::Tip, "texture", title, outside.join(", ")), mend: None });
    }
    let strains = ask.design.steps.iter().any(|s| matches!(s, Step::Strain { .. }));
    if ask.design.style == Style::Strained && !strains {
        let title = "Called strained, but nothing strains it";
        let sentence = "The texture shown is that of the whole pot, worked as if it were filled";
        let mend = Some(mends::strain(ask));
        all.push(Advice { note: note(Severity::Tip, "style", title, sentence), mend });
    }
    if let Some(rise) = verdict.texture.as_ref().map(|t| t.cream_rise_mm)
        && rise > 10.0
    {
        let sentence = format!(
            "Droplets may rise about {} mm in the hold: a fat cap over a water layer. Thicken the base, or stir the cap in \
             before it is chilled",
            number::fixed(rise, 0)
        );
        all.push(Advice { note: note(Severity::Watch, "bases", "The fat may rise", sentence), mend: None });
    }
}
