//! The answer card of the plain bench, in the order of a reader's questions, and the same as lines under the chart.

use egui::{RichText, Ui};

use super::answer::{self, Told};
use potset_app::command::{BenchCommand, WindowCommand};
use potset_app::{Command, State};
use potset_base::Severity;
use potset_base::words::{TangWord, capital};
use potset_doc::settings::Depth;
use potset_explain::Reading as Trace;
use potset_judge::advice::{Advice, Matter};
use potset_judge::mends::Mend;
use potset_report::{advice, answer as said, hygiene, mends};
use potset_ui_dialogs::tracer::Tracer;
use potset_ui_kit::widgets::note::{NoteCard, mend_link};
use potset_ui_kit::widgets::reading::Reading;
use potset_ui_kit::{fonts, tokens, widgets};

/// Draws the card.
pub fn show(ui: &mut Ui, state: &State, tracer: &mut Tracer, out: &mut Vec<Command>) {
    if !state.answer.errors.is_empty() {
        super::verdict::errors(ui, state, out);
        return;
    }
    let v = &state.answer.verdict;
    answer::against(ui, state, out);
    answer::ready(ui, state, tracer, out);
    if v.hygiene.discard().is_some() {
        next(ui, state, out);
        let quiet = fonts::regular(tokens::SMALL);
        widgets::wrapped(ui, said::NOT_TOLD, quiet, tokens::of(ui).ink_soft);
    } else {
        for told in readings(state) {
            told.show(ui, state, tracer, out);
        }
        next(ui, state, out);
    }
    answer::begin(ui, state, out);
    let notes = v.advice.len();
    let words = match notes {
        0 => "Why? Range, counts, chemistry: Details".to_owned(),
        1 => "1 more note, and why: Details".to_owned(),
        _ => format!("{notes} notes, and why: Details"),
    };
    more(ui, &words, out);
}

/// Texture, tang and sweetness: a large word each, and quiet lines below it.
fn readings(state: &State) -> Vec<Told> {
    let v = &state.answer.verdict;
    let mut all = Vec::new();
    if let Some(t) = &v.texture {
        let finished = state.answer.facts.finished();
        let caption = match finished {
            "" => "Texture, tomorrow from the fridge".to_owned(),
            finished => format!("Texture, chilled, {finished}"),
        };
        let word = t.word.word().to_owned();
        all.push(Told { caption, word, below: said::texture(t), trace: Trace::TextureWord });
    }
    if let Some(t) = &v.tang {
        let word = t.word.map_or("none yet", TangWord::word).to_owned();
        all.push(Told {
            caption: "Tang".to_owned(),
            word,
            below: vec![said::tang(t)],
            trace: Trace::TangWord,
        });
        if let Some(s) = &v.sugar {
            let (word, below) = said::sweetness(t, s);
            let caption = "Sweetness".to_owned();
            all.push(Told { caption, word, below: vec![below], trace: Trace::SugarLeft });
        }
    }
    all
}

impl Told {
    fn show(&self, ui: &mut Ui, state: &State, tracer: &mut Tracer, out: &mut Vec<Command>) {
        let shown = Reading {
            caption: &self.caption,
            word: &self.word,
            figure: "",
            below: &[],
            sentence: &self.below.join("\n"),
        }
        .show(ui);
        let t_h = state.answer.verdict.stop_h;
        tracer.attach(state, &shown.word, shown.card, (self.trace, t_h), out);
    }
}

/// What to do next: the first mend there is, else the first thing to watch.
enum Next<'a> {
    /// Of what speaks against the pot.
    Plan(&'a Advice, &'a Mend),
    Stop(&'a Mend),
    Mend(&'a Advice, &'a Mend),
    Watch(&'a Advice),
}

fn next_of(state: &State) -> Option<Next<'_>> {
    let v = &state.answer.verdict;
    let against = v.against.as_ref();
    if let Some((against, mend)) = against.and_then(|a| Some((a, a.mend.as_ref()?))) {
        return Some(Next::Plan(against, mend));
    }
    // What a thickener needs comes before the hour: without it the pot is another one.
    let fails = |a: &&Advice| matches!(a.what, Matter::Thickener(_)) && a.severity >= Severity::Watch;
    if let Some((advice, mend)) = v.advice.iter().find(fails).and_then(|a| Some((a, a.mend.as_ref()?))) {
        return Some(Next::Mend(advice, mend));
    }
    let ready = state.doubt.shown().map(|spread| &spread.ready);
    let stop = ready.and_then(|r| r.stop.as_ref()).and_then(|stop| stop.mend.as_ref());
    let stop = stop.filter(|_| !state.doubt.outdated(state.question)).map(Next::Stop);
    let other = v.advice.iter().find_map(|a| Some(Next::Mend(a, a.mend.as_ref()?)));
    let looked_at = |a: &&Advice| matches!(a.what, Matter::Hygiene(_) | Matter::Check(_));
    stop.or(other).or_else(|| v.advice.iter().find(looked_at).map(Next::Watch))
}

fn next(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let Some(next) = next_of(state) else { return };
    let t = tokens::of(ui);
    let mut card = |sentence: &str, more: &str, mend: Option<&str>| {
        let card = NoteCard { edge: t.accent, mark: "", sentence, more, mend };
        ui.push_id("next", |ui| card.show(ui)).inner
    };
    let mend = match next {
        Next::Plan(against, mend) => {
            let words = match against.severity {
                Severity::Stop => "Next time, change the plan",
                _ => "Next: change the plan",
            };
            card(words, "", mends::offered(Some(mend)).as_deref()).then_some(mend)
        }
        Next::Mend(advice, mend) => {
            let note = advice::note(advice);
            let label = mends::offered(Some(mend));
            card(&format!("Next: {}", note.title), &note.sentence, label.as_deref()).then_some(mend)
        }
        Next::Stop(mend) => {
            let label = mends::offered(Some(mend));
            card("Next: change when you stop", "", label.as_deref()).then_some(mend)
        }
        Next::Watch(advice) => {
            let note = advice::note(advice);
            card(&format!("Next: {}", note.title), &note.sentence, None);
            None
        }
    };
    if let Some(mend) = mend {
        out.push(BenchCommand::Edit(mends::edit(mend), None).into());
    }
}

/// Words that lead to the details.
pub fn more(ui: &mut Ui, words: &str, out: &mut Vec<Command>) {
    if mend_link(ui, words).clicked() {
        out.push(WindowCommand::Depth(Depth::Details).into());
    }
}

/// The answer in one wrapped line, for a window without room for the card.
pub fn line(ui: &mut Ui, state: &State) {
    let t = tokens::of(ui);
    let v = &state.answer.verdict;
    if !state.answer.errors.is_empty() {
        return;
    }
    let strong = fonts::semibold(tokens::BODY);
    let lost = v.hygiene.discard().is_some();
    let headline = answer::watch(state).unwrap_or_else(|| hygiene::headline(v));
    widgets::wrapped(ui, &headline, strong.clone(), if lost { t.stop } else { t.ink });
    let ready = state.doubt.shown().map(|spread| {
        let (large, small) = said::ready_in_large(&spread.ready, state.design().start());
        format!("Ready {large} ({small})")
    });
    let mut parts: Vec<String> = ready.into_iter().collect();
    if !lost {
        parts.extend(readings(state).iter().map(|told| capital(&told.word)));
    }
    ui.add(egui::Label::new(RichText::new(parts.join(" · ")).font(strong).color(t.ink)).wrap());
}
