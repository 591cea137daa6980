//! The verdict: three large readings, the ready window, what to watch with its mends, and why.

use egui::{RichText, Ui};

use potset_app::command::BenchCommand;
use potset_app::{Command, State};
use potset_base::number;
use potset_base::words::{TangWord, span};
use potset_explain::Reading as Trace;
use potset_judge::verdict::Verdict;
use potset_report::cautions::DEFER;
use potset_report::why::sugar_stays;
use potset_report::{mends, validity};
use potset_science::forecast::Part;
use potset_ui_dialogs::tracer::Tracer;
use potset_ui_kit::tokens::{self, Tokens};
use potset_ui_kit::widgets::bars::{Bar, bars};
use potset_ui_kit::widgets::note::{NoteCard, mend_link};
use potset_ui_kit::widgets::reading::{Pressable, Reading, underline};

/// Draws the column. `before`: its table of nutrition shows the mix before the culture.
pub fn show(ui: &mut Ui, state: &State, tracer: &mut Tracer, before: &mut bool, out: &mut Vec<Command>) {
    if !state.answer.errors.is_empty() {
        errors(ui, state, out);
        return;
    }
    let v = &state.answer.verdict;
    super::answer::against(ui, state, out);
    super::answer::ready(ui, state, tracer, out);
    texture(ui, state, tracer, out);
    tang(ui, state, tracer, out);
    sugar(ui, state, tracer, out);
    super::chances::show(ui, state, out);
    if let Some(k) = &v.keeping {
        let ranges = state.doubt.shown().map_or(&[][..], |spread| &spread.kept);
        super::keeping::show(ui, k, ranges);
    }
    super::outdated::show(ui, state, out);
    advice(ui, v, out);
    super::answer::begin(ui, state, out);
    super::matters::show(ui, state, out);
    why(ui, state, tracer, out);
    super::nutrition::show(ui, state, before, out);
    super::rests::show(ui, state, out);
}

pub fn errors(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    ui.label(RichText::new("No forecast").strong());
    if state.design().bases.is_empty() {
        let words = "Choose a base at the left, or answer four questions: My pot…";
        if mend_link(ui, words).on_hover_text(potset_app::Action::MyPot.tip()).clicked() {
            out.push(Command::Do(potset_app::Action::MyPot));
        }
    }
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
            out.push(Command::Do(potset_app::Action::Undo));
        }
    }
}

/// What the values of a card are, in the order in which it shows them.
struct Traced<'a> {
    word: Trace,
    figure: Trace,
    below: &'a [Trace],
}

fn follow(state: &State, tracer: &mut Tracer, shown: &Pressable, what: &Traced<'_>, out: &mut Vec<Command>) {
    let t_h = state.answer.verdict.stop_h;
    let mut one = |response, reading| tracer.attach(state, response, shown.card, (reading, t_h), out);
    one(&shown.word, what.word);
    one(&shown.figure, what.figure);
    for (response, reading) in shown.below.iter().zip(what.below) {
        one(response, *reading);
    }
}

fn texture(ui: &mut Ui, state: &State, tracer: &mut Tracer, out: &mut Vec<Command>) {
    let Some(t) = &state.answer.verdict.texture else { return };
    let below = [
        span(t.low.word(), t.high.word()),
        format!("{} Pa·s in the pot", number::figures(t.in_pot, 2)),
        format!("whey {} %", number::fixed(t.whey_standing, 1)),
        format!("stiffness {} Pa", number::figures(t.stiffness_pa, 2)),
        format!("thin layer {} %", number::fixed(t.thin_layer, 0)),
    ];
    let finished = state.answer.facts.finished();
    let caption = format!("Texture, chilled, {finished}");
    let shown = Reading {
        caption: if finished.is_empty() { "Texture, tomorrow from the fridge" } else { &caption },
        word: t.word.word(),
        figure: &format!("{} Pa·s", number::figures(t.chilled, 2)),
        below: &below,
        sentence: &validity::sentence(&state.answer.verdict.validity.texture),
    }
    .show(ui);
    let what = Traced {
        word: Trace::TextureWord,
        figure: Trace::ViscosityChilled,
        below: &[
            Trace::TextureWord,
            Trace::ViscosityPot,
            Trace::WheyStanding,
            Trace::Stiffness,
            Trace::ThinLayer,
        ],
    };
    follow(state, tracer, &shown, &what, out);
}

fn tang(ui: &mut Ui, state: &State, tracer: &mut Tracer, out: &mut Vec<Command>) {
    let Some(t) = &state.answer.verdict.tang else { return };
    let mut below = vec![
        format!("{} % acid made", number::fixed(t.acid_made, 2)),
        t.word.map_or("not yogurt", |_| t.sweet.word()).to_owned(),
        format!("pH {} after the chill", number::fixed(t.ph_chilled, 2)),
        format!("titratable {} %", number::fixed(t.titratable, 2)),
    ];
    // What a meter reads in a sample that was cooled to 20 °C, where that matters.
    if (t.ph_cooled - t.ph).abs() >= 0.05 {
        below.push(format!("a cooled sample reads pH {}", number::fixed(t.ph_cooled, 2)));
    }
    let figure = format!("pH {}", number::fixed(t.ph, 2));
    let word = t.word.map_or("none yet", TangWord::word);
    let shown = Reading {
        caption: "Tang",
        word,
        figure: &figure,
        below: &below,
        sentence: &validity::sentence(&state.answer.verdict.validity.acid),
    }
    .show(ui);
    let what = Traced {
        word: Trace::TangWord,
        figure: Trace::Ph,
        below: &[Trace::AcidMade, Trace::SweetWord, Trace::PhChilled, Trace::Titratable, Trace::PhCooled],
    };
    follow(state, tracer, &shown, &what, out);
}

fn sugar(ui: &mut Ui, state: &State, tracer: &mut Tracer, out: &mut Vec<Command>) {
    let Some(s) = &state.answer.verdict.sugar else { return };
    let stirred_in =
        (s.stirred_in > 0.05).then(|| format!("+ {} g/L stirred in", number::fixed(s.stirred_in, 1)));
    let below: Vec<String> = stirred_in.into_iter().collect();
    let shown = Reading {
        caption: "Sugar left",
        word: &format!("{} g/L", number::fixed(s.left, 1)),
        figure: &format!("{} eaten", number::fixed(s.eaten, 1)),
        below: &below,
        sentence: &sugar_stays(s.why),
    }
    .show(ui);
    let what = Traced { word: Trace::SugarLeft, figure: Trace::SugarEaten, below: &[Trace::SugarLeft] };
    follow(state, tracer, &shown, &what, out);
}

fn advice(ui: &mut Ui, v: &Verdict, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    if v.advice.is_empty() {
        return;
    }
    ui.label(RichText::new("Watch").font(potset_ui_kit::fonts::semibold(tokens::BODY)).color(t.ink));
    for (i, a) in v.advice.iter().enumerate() {
        let (edge, mark) = super::answer::edge(a.severity, t);
        let (note, mend) = (potset_report::advice::note(a), mends::offered(a.mend.as_ref()));
        let card =
            NoteCard { edge, mark, sentence: &note.title, more: &note.sentence, mend: mend.as_deref() };
        let pressed = ui.push_id(("note", i), |ui| card.show(ui)).inner;
        if let (true, Some(mend)) = (pressed, &a.mend) {
            out.push(BenchCommand::Edit(mends::edit(mend), None).into());
        }
    }
    let small = potset_ui_kit::fonts::regular(tokens::SMALL);
    potset_ui_kit::widgets::wrapped(ui, &format!("{DEFER}."), small, t.ink_soft);
}

fn why(ui: &mut Ui, state: &State, tracer: &mut Tracer, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let v = &state.answer.verdict;
    let mut head = |ui: &mut Ui, text: &str, what: Trace| {
        let font = potset_ui_kit::fonts::semibold(tokens::BODY);
        pressed(ui, state, tracer, (RichText::new(text).font(font).color(t.ink), what), out);
    };
    if !v.why_thick.is_empty() {
        head(ui, "Why this thick", Trace::ViscosityChilled);
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
        bars(ui, &rows, None);
    }
    let total: f64 = v.why_tangy.iter().map(|(_, acid)| acid).sum();
    if total > 0.0 {
        head(ui, "Why this tangy", Trace::AcidMade);
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
        bars(ui, &rows, None);
        let facts = &state.answer.facts;
        let buffer = format!(
            "against a buffer of {} mmol/kg per pH, from pH {}",
            number::fixed(facts.mean_buffer, 0),
            number::fixed(facts.ph0, 1)
        );
        let text = RichText::new(buffer).size(tokens::SMALL).color(t.ink_soft);
        pressed(ui, state, tracer, (text, Trace::Buffer), out);
    }
}

/// Words that stand for a reading and can be followed.
fn pressed(
    ui: &mut Ui,
    state: &State,
    tracer: &mut Tracer,
    (text, what): (RichText, Trace),
    out: &mut Vec<Command>,
) {
    let response = ui.add(egui::Label::new(text).wrap().selectable(false).sense(egui::Sense::click()));
    underline(ui, &response);
    let beside = response.rect.with_min_x(ui.min_rect().left());
    let response = response.on_hover_cursor(egui::CursorIcon::PointingHand);
    tracer.attach(state, &response, beside, (what, state.answer.verdict.stop_h), out);
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
