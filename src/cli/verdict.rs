//! `potset verdict`: what the pot will be, in words or as RON.

use serde::Serialize;

use super::args::Args;
use super::{Desk, Exit, bad};
use crate::base::words::span;
use crate::base::{Sugar, number};
use crate::study::{Verdict, answer};

/// Runs the command.
pub fn run(arguments: &[String]) -> Exit {
    let args = match Args::read(arguments, &[], &["ron"]) {
        Ok(args) => args,
        Err(note) => return bad(&note),
    };
    let desk = match Desk::open(&args) {
        Ok(desk) => desk,
        Err(note) => return bad(&note),
    };
    let answer = answer(&desk.ask());
    if !answer.errors.is_empty() {
        for note in &answer.errors {
            eprintln!("potset: {note}");
        }
        return Exit::BadInput;
    }
    if args.flag("ron") {
        match ron::ser::to_string_pretty(&table(&answer.verdict), ron::ser::PrettyConfig::default()) {
            Ok(text) => println!("{text}"),
            Err(e) => {
                eprintln!("potset: the verdict could not be written: {e}");
                return Exit::NoAnswer;
            }
        }
    } else {
        print!("{}", words(&desk.design.name, &answer.verdict));
    }
    Exit::Done
}

/// The verdict in plain words.
#[must_use]
pub fn words(name: &str, v: &Verdict) -> String {
    let mut lines = vec![format!("{name}, stopped after {}", number::hours(v.stop_h))];
    if let Some(t) = &v.texture {
        lines.push(format!(
            "Texture, tomorrow from the fridge: {} ({}), {} Pa·s at 50 1/s; in the pot {} Pa·s; stiffness {} Pa; whey {} %",
            t.word.word(),
            span(t.low.word(), t.high.word()),
            number::figures(t.chilled, 2),
            number::figures(t.in_pot, 2),
            number::figures(t.stiffness_pa, 2),
            number::figures(t.whey_standing, 2),
        ));
    }
    if let Some(t) = &v.tang {
        lines.push(format!(
            "Tang: {}, {}; pH {} (pH {} after the chill); {} % acid made, {} % titratable",
            t.word.word(),
            t.sweet.word(),
            number::fixed(t.ph, 2),
            number::fixed(t.ph_chilled, 2),
            number::fixed(t.acid_made, 2),
            number::fixed(t.titratable, 2),
        ));
    }
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
            s.why,
            if kinds.is_empty() { String::new() } else { format!(" ({})", kinds.join(", ")) },
        ));
    }
    lines.push(v.window.as_ref().map_or_else(
        || "Ready: the goals never all hold".to_owned(),
        |w| {
            let end = if w.closes.is_some() { number::hours(w.to_h) } else { format!("{} or later", number::hours(w.to_h)) };
            format!("Ready from {} to {end} (on the likely line)", number::hours(w.from_h))
        },
    ));
    let goals: Vec<String> =
        v.goals.iter().map(|(name, holds)| format!("{name}: {}", if *holds { "yes" } else { "no" })).collect();
    lines.push(format!("Goals at the stop: {}", goals.join("; ")));
    for advice in &v.advice {
        let mend = advice.mend.as_ref().map_or(String::new(), |m| format!(" -> {}", m.label));
        lines.push(format!("- {}{mend}", advice.note.line()));
    }
    lines.push("Advice, not permission: follow local codes.".to_owned());
    lines.join("\n") + "\n"
}

#[derive(Serialize)]
struct Table {
    stop_h: f64,
    texture: String,
    texture_range: (String, String),
    viscosity50_chilled_pa_s: f64,
    viscosity50_warm_pa_s: f64,
    stiffness_chilled_pa: f64,
    tang: String,
    sweetness: String,
    ph: f64,
    ph_after_chill: f64,
    acid_made_percent: f64,
    titratable_percent: f64,
    sugar_left_g_l: f64,
    sugar_eaten_g_l: f64,
    hours_to_ph_4_6: Option<f64>,
    ready_from_h: Option<f64>,
    ready_to_h: Option<f64>,
    goals: Vec<(String, bool)>,
    advice: Vec<(String, String, Option<String>)>,
}

fn table(v: &Verdict) -> Table {
    let nan = f64::NAN;
    let (t, a, s) = (v.texture.as_ref(), v.tang.as_ref(), v.sugar.as_ref());
    Table {
        stop_h: v.stop_h,
        texture: t.map_or("", |t| t.word.word()).to_owned(),
        texture_range: t.map_or_else(Default::default, |t| (t.low.word().to_owned(), t.high.word().to_owned())),
        viscosity50_chilled_pa_s: t.map_or(nan, |t| t.chilled),
        viscosity50_warm_pa_s: t.map_or(nan, |t| t.in_pot),
        stiffness_chilled_pa: t.map_or(nan, |t| t.stiffness_pa),
        tang: a.map_or("", |a| a.word.word()).to_owned(),
        sweetness: a.map_or("", |a| a.sweet.word()).to_owned(),
        ph: a.map_or(nan, |a| a.ph),
        ph_after_chill: a.map_or(nan, |a| a.ph_chilled),
        acid_made_percent: a.map_or(nan, |a| a.acid_made),
        titratable_percent: a.map_or(nan, |a| a.titratable),
        sugar_left_g_l: s.map_or(nan, |s| s.left),
        sugar_eaten_g_l: s.map_or(nan, |s| s.eaten),
        hours_to_ph_4_6: a.and_then(|a| a.line_h),
        ready_from_h: v.window.as_ref().map(|w| w.from_h),
        ready_to_h: v.window.as_ref().map(|w| w.to_h),
        goals: v.goals.clone(),
        advice: v
            .advice
            .iter()
            .map(|x| (x.note.title.clone(), x.note.sentence.clone(), x.mend.as_ref().map(|m| m.label.clone())))
            .collect(),
    }
}
