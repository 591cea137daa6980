//! The verdict as text: plain words, or RON.

use std::fmt::Write;

use potset_base::clock::Moment;
use potset_base::units::said::warmth;
use potset_base::words::{TangWord, span};
use potset_base::{Sugar, number};
use potset_judge::advice::Advice;
use potset_judge::keeping::Day;
use potset_judge::ready::{ReadyTime, shown_h};
use potset_judge::verdict::Verdict;
use potset_report::cautions::DEFER;
use potset_report::why::sugar_stays;
use potset_report::{advice, hygiene, mends, ready as said, validity};

/// The verdict in plain words.
///
/// - `ready` — the ready time of the same design; `start` — when its culture goes in.
pub fn words(name: &str, v: &Verdict, ready: &ReadyTime, start: Option<Moment>) -> String {
    let mut lines =
        vec![format!("{name}, stopped at {}", number::hours(v.stop_h)), hygiene::headline(v) + "."];
    let told = |advice: &Advice| format!("- {}", advice::line(advice));
    lines.extend(v.against.iter().map(told));
    lines.extend(v.hygiene.not_yogurt.map(|not| format!("{}.", hygiene::not_yogurt(not))));
    lines.push(format!("{}.", said::sentence(ready, start)));
    lines.extend(said::together(ready).map(|said| format!("{said}.")));
    lines.extend(said::missed(ready).map(|missed| {
        let mend = ready.stop.as_ref().and_then(|stop| stop.mend.as_ref());
        missed + &advice::arrow(mends::offered(mend))
    }));
    if let Some(t) = &v.texture {
        lines.push(format!(
            "Texture, tomorrow from the fridge: {} ({}), {} Pa·s at 50 1/s; in the pot {} Pa·s; stiffness {} Pa; whey {} %{}",
            t.word.word(),
            span(t.low.word(), t.high.word()),
            number::figures(t.chilled, 2),
            number::figures(t.in_pot, 2),
            number::figures(t.stiffness_pa, 2),
            number::figures(t.whey_standing, 2),
            thin(t.thin_layer),
        ));
    }
    lines.extend(Some(validity::sentence(&v.validity.texture)).filter(|said| !said.is_empty()));
    if let Some(t) = &v.tang {
        lines.push(format!(
            "Tang: {}{}; pH {} (pH {} after the chill); {} % acid made, {} % titratable",
            t.word.map_or("", TangWord::word),
            if t.word.is_some() { format!(", {}", t.sweet.word()) } else { "none yet".to_owned() },
            number::fixed(t.ph, 2),
            number::fixed(t.ph_chilled, 2),
            number::fixed(t.acid_made, 2),
            number::fixed(t.titratable, 2),
        ));
    }
    lines.extend(Some(validity::sentence(&v.validity.acid)).filter(|said| !said.is_empty()));
    if let Some(s) = &v.sugar {
        let kinds: Vec<String> = Sugar::ALL
            .iter()
            .filter(|k| s.kinds[k.index()] > 0.05)
            .map(|k| format!("{} {}", k.name(), number::fixed(s.kinds[k.index()], 1)))
            .collect();
        lines.push(format!(
            "Sugar: {} g/L left of {} ({} added, {} from the base), {} eaten; {}{}",
            number::fixed(s.left, 1),
            number::fixed(s.left + s.eaten, 1),
            number::fixed(s.added, 1),
            number::fixed(s.own, 1),
            number::fixed(s.eaten, 1),
            sugar_stays(s.why),
            if kinds.is_empty() { String::new() } else { format!(" ({})", kinds.join(", ")) },
        ));
    }
    if let Some(k) = &v.keeping {
        let days: Vec<String> = k
            .days
            .iter()
            .map(|d| {
                format!(
                    "day {} pH {}, {} % titratable, {}, {}, {} Pa·s, whey {} %{}",
                    number::plain(d.days),
                    number::fixed(d.ph, 2),
                    number::fixed(d.titratable, 2),
                    d.tang.word(),
                    d.texture.word(),
                    number::figures(d.viscosity, 2),
                    number::fixed(d.whey_standing, 1),
                    thin(d.thin_layer)
                )
            })
            .collect();
        lines.push(format!("Kept at {}:\n  {}", warmth(k.kept_c, 0), days.join("\n  ")));
    }
    let goals: Vec<String> = v
        .goals
        .iter()
        .map(|(name, holds)| format!("{name}: {}", if *holds { "yes" } else { "no" }))
        .collect();
    lines.push(format!("Goals at the stop, on the likely line: {}", goals.join("; ")));
    lines.extend(v.advice.iter().map(told));
    lines.push(format!("Advice, not permission. {DEFER}."));
    lines.join("\n") + "\n"
}

/// The verdict as RON, one field a line.
pub fn ron(name: &str, v: &Verdict, ready: &ReadyTime) -> String {
    let mut out = String::from("(\n");
    let mut put = |field: &str, value: String| {
        let _ = writeln!(out, "  {field}: {value},");
    };
    // Debug writes text with the escapes that RON reads.
    put("name", format!("{name:?}"));
    put("stop_h", real(v.stop_h));
    put("hygiene", format!("{:?}", hygiene::headline(v)));
    put(
        "not_yogurt",
        v.hygiene
            .not_yogurt
            .map_or_else(|| "None".to_owned(), |not| format!("Some({:?})", hygiene::not_yogurt(not))),
    );
    if let Some(t) = &v.texture {
        put("texture", format!("{:?}", t.word.word()));
        put("texture_range", format!("({:?}, {:?})", t.low.word(), t.high.word()));
        put("viscosity50_chilled_pa_s", real(t.chilled));
        put("viscosity50_warm_pa_s", real(t.in_pot));
        put("stiffness_chilled_pa", real(t.stiffness_pa));
        put("yield_chilled_pa", real(t.yield_pa));
        put("whey_standing_percent", real(t.whey_standing));
        put("whey_cut_percent", real(t.whey_cut));
        put("thin_layer_percent", real(t.thin_layer));
    }
    if let Some(t) = &v.tang {
        put("tang", t.word.map_or_else(|| "None".to_owned(), |word| format!("Some({:?})", word.word())));
        put("sweetness", format!("{:?}", t.sweet.word()));
        put("ph", real(t.ph));
        put("ph_after_chill", real(t.ph_chilled));
        put("acid_made_percent", real(t.acid_made));
        put("titratable_acidity_percent", real(t.titratable));
        put("undissociated_lactic_mmol_kg", real(t.undissociated));
        put("hours_to_ph_4_6", option(t.line_h));
        put("ph_read_at_20_c", real(t.ph_cooled));
        put("sucrose_equivalents_g_kg", real(t.sucrose_equivalents));
    }
    if let Some(s) = &v.sugar {
        put("sugar_left_g_l", real(s.left));
        put("sugar_eaten_g_l", real(s.eaten));
        put("sugar_added_g_l", real(s.added));
        put("sugar_of_base_g_l", real(s.own));
        put("sugar_stirred_in_g_l", real(s.stirred_in));
    }
    if let Some(k) = &v.keeping {
        let days: Vec<String> =
            k.days.iter().map(|d| format!("({}, {})", real(d.days), real(d.ph))).collect();
        put("kept_at_c", real(k.kept_c));
        put("ph_by_day", format!("[{}]", days.join(", ")));
        let by_day = |of: &dyn Fn(&Day) -> f64| {
            let days: Vec<String> =
                k.days.iter().map(|d| format!("({}, {})", real(d.days), real(of(d)))).collect();
            format!("[{}]", days.join(", "))
        };
        put("titratable_by_day", by_day(&|d| d.titratable));
        put("viscosity_by_day", by_day(&|d| d.viscosity));
        let organisms = k.days.first().map_or(0, |d| d.counts.len());
        let counts: Vec<String> = (0..organisms)
            .map(|i| format!("({:?}, {})", k.days[0].counts[i].0, by_day(&|d| d.counts[i].1)))
            .collect();
        put("counts_log10_by_day", format!("[{}]", counts.join(", ")));
    }
    put("ready_half_by_h", option(ready.half_h.map(shown_h)));
    put("ready_most_by_h", option(ready.most_h.map(shown_h)));
    put("ready_at_the_stop", format!("({}, {})", ready.at_stop.of, ready.at_stop.among));
    let goals: Vec<String> = v.goals.iter().map(|(goal, holds)| format!("({goal:?}, {holds})")).collect();
    put("goals", format!("[{}]", goals.join(", ")));
    let advice: Vec<String> = v
        .against
        .iter()
        .chain(&v.advice)
        .map(|a| {
            let (note, mend) = (advice::note(a), mends::offered(a.mend.as_ref()));
            format!("({:?}, {:?}, {mend:?})", note.title, note.sentence)
        })
        .collect();
    put("advice", format!("[{}]", advice.join(", ")));
    out.push_str(")\n");
    out
}

/// A thin layer that is to be seen: ", 35 % at the bottom is thin".
fn thin(percent: f64) -> String {
    if percent < 1.0 {
        String::new()
    } else {
        format!(", {} % at the bottom is thin", number::fixed(percent, 0))
    }
}

/// A number as RON reads it.
fn real(value: f64) -> String {
    if value.is_nan() { "NaN".to_owned() } else { format!("{value:?}") }
}

fn option(value: Option<f64>) -> String {
    value.map_or_else(|| "None".to_owned(), |v| format!("Some({})", real(v)))
}
