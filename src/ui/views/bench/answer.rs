//! The first two cards of the answer: what speaks against the pot, and when it is ready.

use egui::Ui;

use crate::tracer::Tracer;
use potset_app::command::BenchCommand;
use potset_app::{Command, State};
use potset_base::Severity;
use potset_base::chance::WINDOW_CHANCE;
use potset_explain::Reading as Trace;
use potset_judge::verdict::Verdict;
use potset_report::hygiene::{headline, not_yogurt};
use potset_report::{advice, mends, ready as said};
use potset_ui_kit::tokens;
use potset_ui_kit::tokens::Tokens;
use potset_ui_kit::widgets::note::NoteCard;
use potset_ui_kit::widgets::reading::{ReadyCard, ready_card};

/// What speaks against the pot, above all else. Where nothing is known against it the edge is quiet: it is no permission.
pub fn against(ui: &mut Ui, v: &Verdict, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let not = v.hygiene.not_yogurt.map(not_yogurt);
    let headline = headline(v);
    let Some(first) = &v.against else {
        let edge = if not.is_some() { t.note_watch } else { t.rule };
        NoteCard { edge, mark: "", sentence: &headline, more: not.unwrap_or(""), mend: None }.show(ui);
        return;
    };
    let (edge, mark) = edge(first.severity, t);
    let sentence = advice::note(first).sentence;
    let more = match not {
        Some(not) => format!("{sentence}. {not}"),
        None => sentence,
    };
    let mend = mends::offered(first.mend.as_ref()).map(|label| match first.severity {
        Severity::Stop => format!("Next pot: {label}"),
        _ => label,
    });
    let card = NoteCard { edge, mark, sentence: &headline, more: &more, mend: mend.as_deref() };
    let pressed = ui.push_id("against", |ui| card.show(ui)).inner;
    if let (true, Some(mend)) = (pressed, &first.mend) {
        out.push(BenchCommand::Edit(mends::edit(mend), None).into());
    }
}

/// When the pot is ready: the one answer from the possible pots. While they are worked out the last one stays, pale.
pub fn ready(ui: &mut Ui, state: &State, tracer: &mut Tracer, out: &mut Vec<Command>) {
    let start = state.design().start();
    let spread = state.doubt.shown();
    let old = state.doubt.outdated(state.question);
    let ready = spread.map(|spread| &spread.ready);
    let Some(ready) = ready.filter(|_| state.doubt.trouble.is_none()) else {
        let sentence = match &state.doubt.trouble {
            Some(why) => format!("When it is ready cannot be worked out: {}", why.title),
            None => "When it is ready is not known yet".to_owned(),
        };
        let pale = state.doubt.trouble.is_none();
        let card = ReadyCard { sentence: &sentence, below: "", good: false, pale, mend: None };
        ready_card(ui, &card);
        return;
    };
    let together = said::together(ready);
    let stop = ready.stop.as_ref();
    let below = said::missed(ready).unwrap_or_else(|| said::at_stop(ready));
    let below = together.map_or(below.clone(), |together| format!("{below}. {together}"));
    let lost = state.answer.verdict.hygiene.discard().is_some();
    let good = ready.at_stop.share() >= WINDOW_CHANCE && !lost;
    let sentence = said::sentence(ready, start);
    let mend = stop.and_then(|stop| stop.mend.as_ref()).filter(|_| !old);
    let label = mends::offered(mend);
    let card = ReadyCard {
        sentence: &sentence,
        below: &below,
        good,
        // Paler until all pots are in.
        pale: old || spread.is_some_and(|spread| !spread.complete()),
        mend: label.as_deref(),
    };
    let shown = ready_card(ui, &card);
    let t_h = state.answer.verdict.stop_h;
    tracer.attach(state, &shown.pressable.word, shown.pressable.card, (Trace::Ready, t_h), out);
    if let (true, Some(mend)) = (shown.pressed, mend) {
        out.push(BenchCommand::Edit(mends::edit(mend), None).into());
    }
}

/// Colour and mark of a note.
pub fn edge(severity: Severity, t: &Tokens) -> (egui::Color32, &'static str) {
    match severity {
        Severity::Tip => (t.note_info, ""),
        Severity::Watch => (t.note_watch, ""),
        Severity::Stop | Severity::Error => (t.note_stop, "⚠"),
    }
}
