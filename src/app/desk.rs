//! The desk: state, worker and folders together. It carries effects out and feeds what comes of them back.

mod disk;
mod effects;

use std::sync::Arc;

use self::disk::Disk;
use super::command::{AimCommand, BesideCommand, Command, Effect, SweepCommand};
use super::state::State;
use super::update::update;
use super::worker::aim::{AimQuestion, aim_whole};
use super::worker::aside::{self, AsideQuestion, SwapQuestion, SweepQuestion};
use super::worker::beside::{self as columns_work, BesideQuestion};
use super::worker::outcome::{LabelQuestion, Outcome, Question};
use super::worker::spread as spread_work;
use super::worker::watch::Watch;
use super::worker::{Job, Worker, look_through, read_label, rests, work};
use potset_doubt::ready_times::Known;
use potset_doubt::spread::POTS;
use potset_store::files;
use potset_store::folders::Folders;

/// What only the screen can do; the desk hands it on.
#[derive(Clone, Debug, PartialEq)]
pub enum Outward {
    AskOpen,
    /// The file name to offer.
    AskSave(String),
    /// A file to put beside the others.
    AskAdd,
    /// The file name to offer for the comparison.
    AskExport(String),
    AskTakeIn,
    /// The file name to offer.
    AskShare(String),
    Copy(String),
    Quit,
}

/// State with everything around it.
pub struct Desk {
    pub state: State,
    /// `None`: forecasts are made at once, on this thread (tests, pictures).
    worker: Option<Worker>,
    /// `None`: nothing is remembered (tests, pictures).
    disk: Option<Disk>,
    /// The file that the worker looks after.
    watched: Option<Watch>,
    outward: Vec<Outward>,
    /// Ready times of what stood beside each other, where there is no worker to keep them.
    known: Known,
}

impl Desk {
    /// A desk without thread and folders: every command is answered at once.
    #[must_use]
    pub fn inline(state: State) -> Self {
        let mut desk = Self {
            state,
            worker: None,
            disk: None,
            watched: None,
            outward: Vec::new(),
            known: Known::default(),
        };
        desk.ask();
        desk
    }

    /// A desk with a worker that wakes the screen, and folders to remember in.
    #[must_use]
    pub fn threaded(mut state: State, folders: Option<Folders>, wake: impl Fn() + Send + 'static) -> Self {
        let disk = folders.map(|folders| Disk::open(folders, &mut state));
        let worker = Some(Worker::start(wake));
        let mut desk =
            Self { state, worker, disk, watched: None, outward: Vec::new(), known: Known::default() };
        // The first frame shall show a pot, not an empty sheet; what takes longer comes from the worker.
        desk.ask_inline();
        desk.ask();
        desk
    }

    /// Carries out a command and all that follows from it.
    pub fn run(&mut self, command: Command) {
        let mut queue = std::collections::VecDeque::from([command]);
        while let Some(command) = queue.pop_front() {
            for effect in update(&mut self.state, command) {
                queue.extend(self.perform(effect));
            }
        }
        self.watch();
    }

    /// Takes in what the worker has finished. True if anything changed.
    pub fn poll(&mut self) -> bool {
        let mut any = false;
        while let Some(outcome) = self.worker.as_ref().and_then(Worker::poll) {
            any = true;
            if matches!(outcome, Outcome::Outside) {
                self.look_outside();
            }
            if let Some(command) = told(outcome) {
                self.run(command);
            }
        }
        any
    }

    /// Finds out here and now what the answer rests on: for pictures and tests.
    pub fn settle(&mut self) {
        let outcome = rests(&self.question(), &mut || true);
        if let Some(command) = told(outcome) {
            self.run(command);
        }
    }

    /// Works out a spread of so many pots here and now, and what matters if asked: for pictures and tests.
    pub fn spread(&mut self, pots: usize, with_matters: bool) {
        let question = Question { pots: Some(pots), ..self.question() };
        for command in spread_work::whole(&question, with_matters).into_iter().filter_map(told) {
            self.run(command);
        }
    }

    /// True while an answer is under way.
    #[must_use]
    pub fn busy(&self) -> bool {
        let columns = &self.state.columns;
        self.state.answered < self.state.question || columns.answered < columns.question
    }

    /// What the screen is to do, and nothing twice.
    pub fn take_outward(&mut self) -> Vec<Outward> {
        std::mem::take(&mut self.outward)
    }

    fn perform(&mut self, effect: Effect) -> Option<Command> {
        match effect {
            Effect::Forecast => {
                self.ask();
                None
            }
            Effect::Read(_)
            | Effect::Write { .. }
            | Effect::WriteShared { .. }
            | Effect::SaveSettings
            | Effect::SaveOwn
            | Effect::SaveKitchen
            | Effect::KeepRecovery
            | Effect::DropRecovery
            | Effect::Recovered(_)
            | Effect::DropLost(_)
            | Effect::LeaveLost => self.on_disk(effect),
            Effect::Beside => {
                let question = self.beside_question();
                match &self.worker {
                    Some(worker) if worker.ask(Job::Beside(question.clone())) => {}
                    _ => self.beside_inline(&question),
                }
                None
            }
            Effect::Sweep(_) | Effect::StopSweep | Effect::Aim(_) | Effect::StopAim | Effect::Swap => {
                self.study(effect)
            }
            Effect::AskAdd => self.hand(Outward::AskAdd),
            Effect::AskExport(name) => self.hand(Outward::AskExport(name)),
            Effect::Export(path) => {
                let shown = Arc::clone(&self.state.columns.told);
                match &self.worker {
                    Some(worker) if worker.ask(Job::Export(path.clone(), Arc::clone(&shown))) => None,
                    _ => told(columns_work::exported(path, &shown)),
                }
            }
            Effect::ReadBeside(path) => {
                let stamp = files::stamp(&path);
                let read = files::design(&path).map(|design| (Box::new(design), stamp));
                Some(Command::Beside(BesideCommand::Read(path, read)))
            }
            Effect::ReadShared(path) => {
                let read = files::shared(&path).map(Box::new);
                Some(Command::TakenIn(path, read))
            }
            Effect::LookThrough => {
                let paths: Vec<_> = self.state.settings.recent.iter().map(std::path::PathBuf::from).collect();
                match &self.worker {
                    Some(worker) if worker.ask(Job::LookThrough(paths.clone())) => None,
                    _ => told(look_through(&paths)),
                }
            }
            Effect::ReadLabel => {
                let question = self.label_question();
                match &self.worker {
                    Some(worker) if worker.ask(Job::Label(question.clone())) => None,
                    _ => read_label(&question).and_then(told),
                }
            }
            Effect::AskTakeIn => self.hand(Outward::AskTakeIn),
            Effect::AskShare(name) => self.hand(Outward::AskShare(name)),
            Effect::AskOpen => self.hand(Outward::AskOpen),
            Effect::AskSave => {
                let name = file_name(&self.state.design().name);
                self.hand(Outward::AskSave(name))
            }
            Effect::Copy(text) => self.hand(Outward::Copy(text)),
            Effect::Quit => self.hand(Outward::Quit),
        }
    }

    /// Long questions about the design on the bench.
    fn study(&self, effect: Effect) -> Option<Command> {
        match effect {
            Effect::Sweep(ask) => {
                let question =
                    SweepQuestion { of: self.aside_question(self.state.sweeps.question), ask: *ask };
                match &self.worker {
                    Some(worker) if worker.ask(Job::Sweep(Box::new(question.clone()))) => None,
                    _ => told(aside::sweep_whole(question)),
                }
            }
            Effect::StopSweep => {
                if let Some(worker) = &self.worker {
                    worker.ask(Job::StopSweep);
                }
                None
            }
            Effect::Aim(ask) => {
                let question = AimQuestion { of: self.aside_question(self.state.aims.question), ask: *ask };
                match &self.worker {
                    Some(worker) if worker.ask(Job::Aim(Box::new(question.clone()))) => None,
                    _ => aim_whole(question).and_then(told),
                }
            }
            Effect::StopAim => {
                if let Some(worker) = &self.worker {
                    worker.ask(Job::StopAim);
                }
                None
            }
            Effect::Swap => {
                let desk = &self.state.sweeps.swap;
                let question =
                    SwapQuestion { of: self.aside_question(desk.question), wish: desk.wish.clone() };
                match &self.worker {
                    Some(worker) if worker.ask(Job::Swap(question.clone())) => None,
                    _ => told(aside::swapped(&question)),
                }
            }
            _ => None,
        }
    }

    fn hand(&mut self, outward: Outward) -> Option<Command> {
        self.outward.push(outward);
        None
    }

    fn question(&self) -> Question {
        let state = &self.state;
        Question {
            number: state.question,
            design: Arc::clone(state.session.history.design()),
            pantry: Arc::clone(&state.pantry),
            kitchen: state.kitchen.clone(),
            learnt: state.learnt.clone(),
            line: state.asked_line(),
            // The ready time needs them, whether bands are shown or not.
            pots: Some(POTS),
        }
    }

    fn label_question(&self) -> LabelQuestion {
        let state = &self.state;
        LabelQuestion {
            number: state.shelves.label.question,
            text: state.shelves.label.text.clone(),
            pantry: Arc::clone(&state.pantry),
            kitchen: state.kitchen.clone(),
            learnt: state.learnt.clone(),
        }
    }

    fn beside_question(&self) -> BesideQuestion {
        let state = &self.state;
        let columns = &state.columns;
        BesideQuestion {
            number: columns.question,
            ids: columns.list.iter().map(|c| c.id).collect(),
            designs: columns.list.iter().map(|c| state.column_design(&c.holds)).collect(),
            stop_h: columns.common_stop,
            pantry: Arc::clone(&state.pantry),
            kitchen: state.kitchen.clone(),
            learnt: state.learnt.clone(),
        }
    }

    fn aside_question(&self, number: u64) -> AsideQuestion {
        let state = &self.state;
        AsideQuestion {
            number,
            design: Arc::clone(state.session.history.design()),
            pantry: Arc::clone(&state.pantry),
            kitchen: state.kitchen.clone(),
            learnt: state.learnt.clone(),
        }
    }

    /// Puts the columns beside each other here and now, causes and all.
    fn beside_inline(&mut self, question: &BesideQuestion) {
        let pairs = (0..question.designs.len().saturating_sub(1))
            .filter_map(|i| columns_work::causes_of(question, i, &mut || true));
        let outcomes: Vec<Outcome> =
            std::iter::once(columns_work::table_of(question, &mut self.known)).chain(pairs).collect();
        for command in outcomes.into_iter().filter_map(told) {
            // These answers have no effects of their own.
            let _ = update(&mut self.state, command);
        }
    }

    fn ask(&mut self) {
        let sent = self.worker.as_ref().is_some_and(|worker| worker.ask(Job::Forecast(self.question())));
        if !sent {
            self.ask_inline();
        }
    }

    fn ask_inline(&mut self) {
        if let Some(command) = told(work(&self.question())) {
            // An answer has no effects of its own.
            let _ = update(&mut self.state, command);
        }
    }
}

/// An outcome of the worker as a command.
fn told(outcome: Outcome) -> Option<Command> {
    Some(match outcome {
        Outcome::Outside => return None,
        Outcome::Answer(number, Ok(answer)) => Command::Answered(number, answer),
        Outcome::Answer(_, Err(note)) => Command::Failed(note),
        Outcome::Spread(number, spread) => Command::Spread(number, spread),
        Outcome::NoSpread(number, why) => Command::NoSpread(number, why),
        Outcome::Matters(number, matters) => Command::Matters(number, matters),
        Outcome::Rests(number, list) => Command::Rested(number, list),
        Outcome::Label(number, read) => Command::LabelRead(number, read),
        Outcome::Seen(list) => Command::Seen(list),
        Outcome::Beside(number, Ok(told)) => Command::Beside(BesideCommand::Told(number, told)),
        Outcome::Beside(_, Err(note)) => Command::Failed(note),
        Outcome::Exported(path, done) => Command::Beside(BesideCommand::Exported(path, done)),
        Outcome::Swept(number, swept) => Command::Sweep(SweepCommand::Swept(number, swept)),
        Outcome::Aimed(number, aimed) => Command::Aim(AimCommand::Aimed(number, aimed)),
        Outcome::AimFailed(number, note) => Command::Aim(AimCommand::Failed(number, note)),
        Outcome::Swapped(number, told) => Command::Sweep(SweepCommand::Swapped(number, told)),
        Outcome::Causes(number, i, causes) => Command::Beside(BesideCommand::Caused(number, i, causes)),
    })
}

/// A file name for a design: its name in lower case, what is not a letter or figure as a dash.
fn file_name(name: &str) -> String {
    let mut out: String =
        name.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    while out.contains("--") {
        out = out.replace("--", "-");
    }
    let out = out.trim_matches('-');
    if out.is_empty() { "design.ron".to_owned() } else { format!("{out}.ron") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_make_file_names() {
        assert_eq!(file_name("Thursday coconut pot"), "thursday-coconut-pot.ron");
        assert_eq!(file_name("  ./.. "), "design.ron");
    }
}
