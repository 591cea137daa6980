//! The verdict: three large readings, the ready window, what to watch with its mends, and why.

use egui::{RichText, Ui};

use crate::app::{Command, State};
use crate::base::words::span;
use crate::base::{Severity, number};
use crate::science::forecast::Part;
use crate::study::verdict::TangReading;
use crate::study::{Verdict, acidity};
use crate::ui::tokens::{self, Tokens};
use crate::ui::widgets::bars::{Bar, bars};
use crate::ui::widgets::note::NoteCard;
use crate::ui::widgets::reading::{Reading, ready_card};

/// Draws the column.
pub fn show(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    if !state.answer.errors.is_empty() {
        errors(ui, state, out);
        return;
    }
    let v = &state.answer.verdict;
    readings(ui, v, state.answer.facts.finished());
    ready(ui, state, v);
    if let Some(k) = &v.keeping {
        super::keeping::show(ui, k);
    }
    advice(ui, v, out);
    why(ui, state, v);
}

fn errors(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    ui.label(RichText::new("No forecast").strong());
    for note in &state.answer.errors {
        let more = format!("{}. {}", note.sentence, note.mend);
        let can_undo = state.session.history.can_undo().is_some();
        let card = NoteCard {
            edge: t.note_stop,
            mark: "⚠",
            sentence: &note.title,
            more: more.trim_start_matches(". "),
            mend: can_undo.then_some("Undo the last change"),
        };
        if card.show(ui) {
            out.push(Command::Do(crate::app::Action::Undo));
        }
    }
}

fn readings(ui: &mut Ui, v: &Verdict, finished: &str) {
    if let Some(t) = &v.texture {
        let below = format!(
            "{} · {} Pa·s in the pot · whey {} %",
            span(t.low.word(), t.high.word()),
            number::figures(t.in_pot, 2),
            number::fixed(t.whey_standing, 1)
        );
        let caption = format!("Texture, chilled, {finished}");
        Reading {
            caption: if finished.is_empty() { "Texture, tomorrow from the fridge" } else { &caption },
            word: t.word.word(),
            figure: &format!("{} Pa·s", number::figures(t.chilled, 2)),
            below: &below,
        }
        .show(ui)
        .response
        .on_hover_text(format!(
            "Apparent viscosity at 50 1/s, 9 of 10 pots between {} and {} Pa·s. Stiffness {} Pa, yield stress {} Pa, \
             line spread {} cm, slump {} cm, thickness {} of 100, whey when cut {} %",
            number::figures(t.chilled_low, 2),
            number::figures(t.chilled_high, 2),
            number::figures(t.stiffness_pa, 2),
            number::figures(t.yield_pa, 2),
            number::fixed(t.line_spread_cm, 1),
            number::fixed(t.slump_cm, 1),
            number::fixed(t.thickness, 0),
            number::fixed(t.whey_cut, 1),
        ));
    }
    if let Some(t) = &v.tang {
        let below = format!(
            "{} % acid made · {} · pH {} after the chill{}",
            number::fixed(t.acid_made, 2),
            t.sweet.word(),
            number::fixed(t.ph_chilled, 2),
            cooled_sample(t)
        );
        let figure = format!("pH {}", number::fixed(t.ph, 2));
        Reading { caption: "Tang", word: t.word.word(), figure: &figure, below: &below }
            .show(ui)
            .response
            .on_hover_text(format!(
                "{} mmol/kg of undissociated lactic acid; titratable acidity {} % ({}); as sweet as {} g of white sugar in 1 kg",
                number::fixed(t.undissociated, 1),
                number::fixed(t.titratable, 2),
                acidity::degrees(t.titratable),
                number::fixed(t.sucrose_equivalents, 0)
            ));
    }
    if let Some(s) = &v.sugar {
        Reading {
            caption: "Sugar left",
            word: &format!("{} g/L", number::fixed(s.left, 1)),
            figure: &format!("{} eaten", number::fixed(s.eaten, 1)),
            below: &if s.stirred_in > 0.05 {
                format!("{} · + {} g/L stirred in", s.why, number::fixed(s.stirred_in, 1))
            } else {
                s.why.clone()
            },
        }
        .show(ui)
        .response
        .on_hover_text(format!(
            "{} g/L were added, {} came with the base",
            number::fixed(s.added, 1),
            number::fixed(s.own, 1)
        ));
    }
}

/// What a meter reads in a sample that was cooled to 20 °C, where that matters.
fn cooled_sample(t: &TangReading) -> String {
    if (t.ph_cooled - t.ph).abs() < 0.05 {
        return String::new();
    }
    format!(" · a cooled sample reads pH {}", number::fixed(t.ph_cooled, 2))
}

fn ready(ui: &mut Ui, state: &State, v: &Verdict) {
    let start = state.design().start();
    let Some(w) = &v.window else {
        let never = "The goals never all hold in this forecast";
        let t = tokens::of(ui);
        NoteCard { edge: t.note_watch, mark: "", sentence: "Not ready", more: never, mend: None }.show(ui);
        return;
    };
    let time = |h: f64| {
        start.map_or_else(|| format!("{} h", number::fixed(h, 1)), |start| start.after(h).day_and_time())
    };
    let sentence = if w.closes.is_some() {
        format!("Ready {} – {}", time(w.from_h), time(w.to_h))
    } else {
        format!("Ready from {}", time(w.from_h))
    };
    let mut below = String::new();
    if let Some(opens) = &w.opens {
        below.push_str(&format!("{opens} comes last"));
    }
    match &w.closes {
        Some(closes) => below.push_str(&format!(" · then {closes} is lost")),
        None => below.push_str(" · stays so to the end of the sheet"),
    }
    below.push_str(" · on the likely line");
    ready_card(ui, &sentence, below.trim_start_matches(" · "));
}

fn edge(severity: Severity, t: &Tokens) -> (egui::Color32, &'static str) {
    match severity {
        Severity::Tip => (t.note_info, ""),
        Severity::Watch => (t.note_watch, ""),
        Severity::Stop | Severity::Error => (t.note_stop, "⚠"),
    }
}

fn advice(ui: &mut Ui, v: &Verdict, out: &mut Vec<Command>) {
    if v.advice.is_empty() {
        return;
    }
    let t = tokens::of(ui);
    ui.label(RichText::new("Watch").font(crate::ui::fonts::semibold(tokens::BODY)).color(t.ink));
    for (i, a) in v.advice.iter().enumerate() {
        let (edge, mark) = edge(a.note.severity, t);
        let mend = a.mend.as_ref().map(|m| m.label.as_str());
        let card = NoteCard { edge, mark, sentence: &a.note.title, more: &a.note.sentence, mend };
        let pressed = ui.push_id(("note", i), |ui| card.show(ui)).inner;
        if let (true, Some(mend)) = (pressed, &a.mend) {
            out.push(Command::Edit(mend.edit.clone(), None));
        }
    }
}

fn why(ui: &mut Ui, state: &State, v: &Verdict) {
    let t = tokens::of(ui);
    let head = |ui: &mut Ui, text: &str| {
        ui.label(RichText::new(text).font(crate::ui::fonts::semibold(tokens::BODY)).color(t.ink))
    };
    if !v.why_thick.is_empty() {
        head(ui, "Why this thick")
            .on_hover_text("Stress at 50 1/s that each part carries in the chilled pot, Pa");
        let total: f64 = v.why_thick.iter().map(|(_, tau)| tau).sum();
        let values: Vec<String> = v.why_thick.iter().map(|(_, tau)| share(*tau, total)).collect();
        let rows: Vec<Bar<'_>> = v
            .why_thick
            .iter()
            .zip(&values)
            .map(|((part, tau), value)| Bar {
                name: part.words(),
                amount: *tau,
                value,
                color: part_colour(*part, t),
            })
            .collect();
        bars(ui, &rows);
    }
    let total: f64 = v.why_tangy.iter().map(|(_, acid)| acid).sum();
    if total > 0.0 {
        head(ui, "Why this tangy").on_hover_text("Acid that each organism made up to the stop");
        let values: Vec<String> = v.why_tangy.iter().map(|(_, acid)| share(*acid, total)).collect();
        let rows: Vec<Bar<'_>> = v
            .why_tangy
            .iter()
            .zip(&values)
            .map(|((name, acid), value)| {
                let place = state.answer.forecast.species.iter().position(|s| s.name == *name).unwrap_or(0);
                Bar { name, amount: *acid, value, color: t.culture(place).line }
            })
            .collect();
        bars(ui, &rows);
        let facts = &state.answer.facts;
        let buffer = format!(
            "against a buffer of {} mmol/kg per pH, from pH {}",
            number::fixed(facts.mean_buffer, 0),
            number::fixed(facts.ph0, 1)
        );
        ui.add(egui::Label::new(RichText::new(buffer).size(tokens::SMALL).color(t.ink_soft)).wrap());
    }
}

fn share(part: f64, total: f64) -> String {
    format!("{} %", number::fixed(100.0 * part / total, 0))
}

fn part_colour(part: Part, t: &Tokens) -> egui::Color32 {
    match part {
        Part::SolidFat => t.sugar_total.line,
        Part::Starch => t.texture_chilled.line,
        Part::Protein => t.culture(0).line,
        Part::GellingAgent => t.acid.line,
        Part::Gum => t.culture(2).line,
        Part::Emulsion => t.ph.line,
    }
}
