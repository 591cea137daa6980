//! The first two cards of the answer: what speaks against the pot, and when it is ready.

use egui::Ui;

use potset_app::command::{BenchCommand, WindowCommand};
use potset_app::state::View;
use potset_app::{Action, Command, State};
use potset_base::Severity;
use potset_base::chance::WINDOW_CHANCE;
use potset_base::words::capital;
use potset_doc::settings::Depth;
use potset_explain::Reading as Trace;
use potset_judge::advice::Matter;
use potset_judge::mends::Mend;
use potset_report::hygiene::{headline, not_yogurt};
use potset_report::learn::used;
use potset_report::{advice, hygiene, mends, ready as said};
use potset_ui_dialogs::tracer::Tracer;
use potset_ui_kit::fonts;
use potset_ui_kit::tokens::{self, Tokens};
use potset_ui_kit::widgets::note::{NoteCard, mend_link};
use potset_ui_kit::widgets::reading::{ReadyCard, ready_card};
use potset_ui_kit::widgets::wrapped;

/// What speaks against the pot, above all else. Where nothing is known against it the edge is quiet: it is no permission.
///
/// Sources, and the mend of the plain bench, stand elsewhere: in the details, and on its last card.
pub fn against(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    let v = &state.answer.verdict;
    let plain = state.settings.depth == Depth::Plain;
    let not = v.hygiene.not_yogurt.map(not_yogurt);
    let headline = headline(v);
    let Some(first) = &v.against else {
        let watch = watch(state);
        let edge = if not.is_some() || watch.is_some() { t.note_watch } else { t.rule };
        let (sentence, more) = match &watch {
            Some(watch) => (watch.as_str(), SOME_SLOW),
            None => (headline.as_str(), not.unwrap_or("")),
        };
        let mend = watch.as_ref().and_then(|_| surer(state));
        let tried = state.doubt.shown().is_some_and(|s| s.cautions.iter().any(|c| c.tried));
        // The place of the mend is kept while one is looked for: nothing below it moves.
        let label = watch.as_ref().map(|_| match (mends::offered(mend), tried) {
            (Some(label), _) => label,
            (None, false) => "What helps is being tried …".to_owned(),
            (None, true) => "No single change helps: find settings in Aim".to_owned(),
        });
        let card = NoteCard { edge, mark: "", sentence, more, mend: label.as_deref() };
        let pressed = ui.push_id("against", |ui| card.show(ui)).inner;
        match mend {
            Some(mend) if pressed => out.push(BenchCommand::Edit(mends::edit(mend), None).into()),
            None if pressed && tried => out.push(WindowCommand::Show(View::Aim).into()),
            _ => {}
        }
        return;
    };
    let (edge, mark) = edge(first.severity, t);
    let sentence = match &first.what {
        Matter::Hygiene(against) if plain => hygiene::sentence(against),
        _ => advice::note(first).sentence,
    };
    let more = match not {
        Some(not) => format!("{sentence}. {not}"),
        None => sentence,
    };
    let mend = mends::offered(first.mend.as_ref().filter(|_| !plain)).map(|label| match first.severity {
        Severity::Stop => format!("Next pot: {label}"),
        _ => label,
    });
    let card = NoteCard { edge, mark, sentence: &headline, more: &more, mend: mend.as_deref() };
    let pressed = ui.push_id("against", |ui| card.show(ui)).inner;
    if let (true, Some(mend)) = (pressed, &first.mend) {
        out.push(BenchCommand::Edit(mends::edit(mend), None).into());
    }
}

/// Said where the likely pot is in order and many of the possible ones are not.
const SOME_SLOW: &str = "These sour too slowly. Use more culture, or keep it warmer";

/// That too many possible pots would have to be thrown away, where nothing speaks against the likely one.
pub fn watch(state: &State) -> Option<String> {
    potset_report::spread::watch(state.doubt.shown()?, &state.answer.verdict)
}

/// What was found to leave few of them, while the possible pots are those of the design.
fn surer(state: &State) -> Option<&Mend> {
    let spread = state.doubt.shown().filter(|_| !state.doubt.outdated(state.question))?;
    spread.cautions.iter().find_map(|c| c.mend.as_ref())
}

/// One question of the reader, answered: a large word and quiet lines below it.
pub struct Told {
    pub caption: String,
    pub word: String,
    pub below: Vec<String>,
    /// What is explained when the word is pressed.
    pub trace: Trace,
}

/// When the pot is ready: the one answer from the possible pots. While they are worked out the last one stays, pale.
pub fn ready(ui: &mut Ui, state: &State, tracer: &mut Tracer, out: &mut Vec<Command>) {
    let start = state.design().start();
    let plain = state.settings.depth == Depth::Plain;
    // A mend of the plain bench stands on its last card.
    let lines = if plain { 3 } else { 5 };
    let spread = state.doubt.shown();
    let old = state.doubt.outdated(state.question);
    let ready = spread.map(|spread| &spread.ready);
    let Some(ready) = ready.filter(|_| state.doubt.trouble.is_none()) else {
        let (large, below) = match &state.doubt.trouble {
            Some(why) => ("not known", format!("It cannot be worked out: {}", why.title)),
            None => ("…", "It is worked out now".to_owned()),
        };
        let sentence = format!("When it is ready: {large}. {below}");
        let pale = state.doubt.trouble.is_none();
        ready_card(
            ui,
            &ReadyCard { sentence: &sentence, large, below: &below, good: false, pale, mend: None, lines },
        );
        return;
    };
    let (large, small) = potset_report::answer::ready_in_large(ready, start);
    let stop = ready.stop.as_ref();
    let at_stop = said::missed(ready).unwrap_or_else(|| said::at_stop(ready));
    let below = [Some(small), Some(at_stop), said::together(ready)];
    let below = below.into_iter().flatten().map(|line| capital(&line)).collect::<Vec<_>>().join(". ");
    let lost = state.answer.verdict.hygiene.discard().is_some();
    let good = ready.at_stop.share() >= WINDOW_CHANCE && !lost;
    let sentence = said::sentence(ready, start);
    let mend = stop.and_then(|stop| stop.mend.as_ref()).filter(|_| !old && !plain);
    let label = mends::offered(mend);
    let card = ReadyCard {
        sentence: &sentence,
        large: &large,
        below: &below,
        good,
        // Paler until all pots are in.
        pale: old || spread.is_some_and(|spread| !spread.complete()),
        mend: label.as_deref(),
        lines,
    };
    let shown = ready_card(ui, &card);
    let t_h = state.answer.verdict.stop_h;
    tracer.attach(state, &shown.pressable.word, shown.pressable.card, (Trace::Ready, t_h), out);
    if let (true, Some(mend)) = (shown.pressed, mend) {
        out.push(BenchCommand::Edit(mends::edit(mend), None).into());
    }
}

/// That the forecast uses what pots taught, and the way into the batch book.
pub fn begin(ui: &mut Ui, state: &State, out: &mut Vec<Command>) {
    let t = tokens::of(ui);
    if let Some(used) = used(&state.learnt).filter(|_| state.answer.learnt) {
        wrapped(ui, &used, fonts::regular(tokens::SMALL), t.ink_soft);
    }
    let action = Action::BeginPot;
    if mend_link(ui, action.label()).on_hover_text(action.tip()).clicked() {
        out.push(Command::Do(action));
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
