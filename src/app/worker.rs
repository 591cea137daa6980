//! Work off the interface thread: the newest forecast wins, a fault becomes a note, the screen is woken.

pub mod aim;
pub mod aside;
pub mod beside;
pub mod outcome;
pub mod spread;
pub mod watch;

use std::panic::{self, AssertUnwindSafe};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender, TryRecvError};
use std::thread;
use std::time::Duration;

use self::aim::{AimQuestion, Aiming};
use self::aside::{SwapQuestion, SweepQuestion, Sweeping, swapped};
use self::beside::{BesideQuestion, causes_of, table_of};
use self::outcome::{LabelQuestion, Outcome, Question};
use self::spread::Spreading;
use self::watch::Watch;
use super::columns::Told;
use super::shelves::Seen;
use potset_base::Note;
use potset_doc::assets;
use potset_doc::label;
use potset_doubt::influence::influences;
use potset_doubt::ready_times::Known;
use potset_forecast::scenario::Ask;
use potset_judge::answer::answer_with;
use potset_store::files;

/// A job of the worker.
#[derive(Clone, Debug)]
pub enum Job {
    Forecast(Question),
    Label(LabelQuestion),
    Beside(BesideQuestion),
    Sweep(Box<SweepQuestion>),
    StopSweep,
    Aim(Box<AimQuestion>),
    StopAim,
    Swap(SwapQuestion),
    /// Writes the comparison to a file.
    Export(PathBuf, Arc<Told>),
    /// Designs on the disk to be looked through.
    LookThrough(Vec<PathBuf>),
    /// The open file to be looked after, in the place of another one.
    Watch(Option<Watch>),
}

/// How long a question must stay the last one before it is found out what it rests on.
const PAUSE: Duration = Duration::from_millis(400);

/// Answers one question; a panic in the model is caught and told.
pub fn work(q: &Question) -> Outcome {
    let asked = Ask { design: &q.design, pantry: &q.pantry, kitchen: &q.kitchen, learnt: &q.learnt };
    let outcome = panic::catch_unwind(AssertUnwindSafe(|| Box::new(answer_with(&asked, q.line.as_ref()))))
        .map_err(|_| {
            Note::error(
                "forecast",
                "The forecast ended in a fault of the program",
                "Undo the last change, and send the design to the makers of the program",
            )
        });
    Outcome::Answer(q.number, outcome)
}

/// Finds out what an answer rests on, as long as `go_on`; a panic in the model gives an empty list.
pub fn rests(q: &Question, go_on: &mut dyn FnMut() -> bool) -> Outcome {
    let asked = Ask { design: &q.design, pantry: &q.pantry, kitchen: &q.kitchen, learnt: &q.learnt };
    let list = panic::catch_unwind(AssertUnwindSafe(|| influences(&asked, go_on))).unwrap_or_default();
    Outcome::Rests(q.number, list)
}

/// Reads a label; a panic in the model gives nothing.
#[must_use]
pub fn read_label(q: &LabelQuestion) -> Option<Outcome> {
    let study = || {
        let reading = label::read(&q.text);
        let study = potset_catalogue::label::study(&reading, &q.pantry, &q.kitchen, &q.learnt);
        Arc::new((reading, study))
    };
    panic::catch_unwind(AssertUnwindSafe(study)).ok().map(|read| Outcome::Label(q.number, read))
}

/// Looks through the demo designs and those on the disk.
#[must_use]
pub fn look_through(paths: &[PathBuf]) -> Outcome {
    let demos = assets::DEMOS.iter().filter_map(|(name, _)| {
        let design = assets::demo(name).ok()?;
        Some(Seen { name: design.name.clone(), place: "demo".to_owned(), design: Arc::new(design) })
    });
    let files = paths.iter().filter_map(|path| {
        let design = files::design(path).ok()?;
        let place = path.file_name()?.to_string_lossy().into_owned();
        Some(Seen { name: design.name.clone(), place, design: Arc::new(design) })
    });
    Outcome::Seen(files.chain(demos).collect())
}

/// A thread that answers questions, the newest first; older ones that still wait are dropped.
pub struct Worker {
    jobs: Option<Sender<Job>>,
    outcomes: Receiver<Outcome>,
    thread: Option<thread::JoinHandle<()>>,
}

impl Worker {
    /// Starts the thread. `wake` is called after each answer.
    #[must_use]
    pub fn start(wake: impl Fn() + Send + 'static) -> Self {
        let (jobs, inbox) = mpsc::channel::<Job>();
        let (outbox, outcomes) = mpsc::channel();
        #[expect(clippy::disallowed_methods, reason = "this is the worker")]
        let thread = thread::spawn(move || serve(&inbox, &outbox, &wake));
        Self { jobs: Some(jobs), outcomes, thread: Some(thread) }
    }

    /// Hands a job over. False if the thread is gone.
    pub fn ask(&self, job: Job) -> bool {
        self.jobs.as_ref().is_some_and(|jobs| jobs.send(job).is_ok())
    }

    /// An answer, if one is there.
    pub fn poll(&self) -> Option<Outcome> {
        self.outcomes.try_recv().ok()
    }
}

/// What waits: the newest question of each kind, and what is left to do of one.
#[derive(Default)]
struct Waiting {
    question: Option<Question>,
    label: Option<LabelQuestion>,
    beside: Option<BesideQuestion>,
    /// Differences that are still to be shared out, and the next of them.
    causes: Option<(BesideQuestion, usize)>,
    swap: Option<SwapQuestion>,
    export: Option<(PathBuf, Arc<Told>)>,
    sweep: Option<Sweeping>,
    spreading: Option<Spreading>,
    aiming: Option<Box<Aiming>>,
    paths: Option<Vec<PathBuf>>,
    /// The last question, of which it is not found out yet what it rests on.
    settled: Option<Question>,
    /// Ready times of what stood beside each other.
    known: Known,
    /// Told of once, it is not looked at any more.
    watch: Option<Watch>,
}

impl Waiting {
    /// Takes a job in the place of an older one of its kind.
    fn take(&mut self, job: Job) {
        match job {
            Job::Forecast(question) => {
                self.question = Some(question);
                self.spreading = None;
            }
            Job::Label(label) => self.label = Some(label),
            Job::Beside(beside) => {
                self.beside = Some(beside);
                self.causes = None;
            }
            Job::Sweep(question) => self.sweep = Some(Sweeping::new(*question)),
            Job::StopSweep => self.sweep = None,
            Job::Aim(question) => self.aiming = Some(Box::new(Aiming::new(*question))),
            Job::StopAim => self.aiming = None,
            Job::Swap(swap) => self.swap = Some(swap),
            Job::Export(path, told) => self.export = Some((path, told)),
            Job::LookThrough(paths) => self.paths = Some(paths),
            Job::Watch(watch) => self.watch = watch,
        }
    }

    /// Whether there is something that somebody waits for.
    const fn pressing(&self) -> bool {
        self.question.is_some()
            || self.label.is_some()
            || self.beside.is_some()
            || self.swap.is_some()
            || self.export.is_some()
            || self.paths.is_some()
    }

    /// Whether nothing long is under way.
    const fn restful(&self) -> bool {
        self.causes.is_none() && self.sweep.is_none() && self.spreading.is_none() && self.aiming.is_none()
    }

    /// Does the next thing: forecasts first, then what stands beside, labels, designs to look through; then the long ones,
    /// which are given up as soon as a new job comes in, and taken up again later.
    fn work(&mut self, inbox: &Receiver<Job>) -> Option<Outcome> {
        if let Some(question) = self.question.take() {
            let outcome = work(&question);
            self.spreading = Spreading::of(&question);
            self.settled = Some(question);
            return Some(outcome);
        }
        if let Some(question) = self.beside.take() {
            let outcome = table_of(&question, &mut self.known);
            self.causes = Some((question, 0));
            return Some(outcome);
        }
        if let Some(label) = self.label.take() {
            return read_label(&label);
        }
        if let Some(paths) = self.paths.take() {
            return Some(look_through(&paths));
        }
        if let Some(swap) = self.swap.take() {
            return Some(swapped(&swap));
        }
        if let Some((path, told)) = self.export.take() {
            return Some(beside::exported(path, &told));
        }
        // The first picture of the spread stands for the design on the screen, and is soon there.
        if let Some(spreading) = self.spreading.take_if(|spreading| spreading.fresh()) {
            let (outcome, more) = spreading.more();
            self.spreading = more;
            return outcome;
        }
        if let Some(sweep) = &mut self.sweep {
            // A few points at a time: what is asked meanwhile comes first.
            let (outcome, more) = sweep.more();
            if !more {
                self.sweep = None;
            }
            return outcome;
        }
        if let Some(aiming) = &mut self.aiming {
            let (outcome, more) = aiming.more();
            if !more {
                self.aiming = None;
            }
            return outcome;
        }
        if let Some(spreading) = self.spreading.take() {
            // Some pots at a time, for the same reason.
            let (outcome, more) = spreading.more();
            self.spreading = more;
            return outcome;
        }
        if let Some((question, i)) = self.causes.take() {
            if i + 1 >= question.designs.len() {
                return None;
            }
            let outcome = causes_of(&question, i, &mut || self.alone(inbox));
            if !self.pressing() || outcome.is_some() {
                self.causes = self.beside.is_none().then_some((question, i + 1));
            } else if self.beside.is_none() {
                self.causes = Some((question, i));
            }
            return outcome;
        }
        let Some(question) = self.settled.take() else {
            return self.watch.take_if(|watch| watch.changed()).map(|_| Outcome::Outside);
        };
        let outcome = rests(&question, &mut || self.alone(inbox));
        if self.pressing() {
            // It was given up; without a newer question it is asked again in the next pause.
            if self.question.is_none() {
                self.settled = Some(question);
            }
            return None;
        }
        Some(outcome)
    }

    /// Whether no new job has come in; one that has is taken.
    fn alone(&mut self, inbox: &Receiver<Job>) -> bool {
        match inbox.try_recv() {
            // Nobody waits for this one.
            Ok(Job::Watch(watch)) => {
                self.watch = watch;
                true
            }
            Ok(newer) => {
                self.take(newer);
                false
            }
            Err(TryRecvError::Empty) => true,
            Err(TryRecvError::Disconnected) => false,
        }
    }
}

/// Works until the other end is gone; in a pause it finds out what the last answer rests on.
fn serve(inbox: &Receiver<Job>, outbox: &Sender<Outcome>, wake: &dyn Fn()) {
    let mut waiting = Waiting::default();
    loop {
        if !waiting.pressing() && waiting.restful() {
            let next = match (&waiting.settled, &waiting.watch) {
                (Some(_), _) => inbox.recv_timeout(PAUSE),
                (None, Some(_)) => inbox.recv_timeout(watch::EVERY),
                (None, None) => inbox.recv().map_err(|_| RecvTimeoutError::Disconnected),
            };
            match next {
                Ok(job) => waiting.take(job),
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => break,
            }
        }
        // A drag puts many questions; only the last one of each kind matters.
        loop {
            match inbox.try_recv() {
                Ok(newer) => waiting.take(newer),
                Err(TryRecvError::Empty) => break,
                // Nobody is there to be told any more.
                Err(TryRecvError::Disconnected) => return,
            }
        }
        if let Some(outcome) = waiting.work(inbox) {
            if outbox.send(outcome).is_err() {
                break;
            }
            wake();
        }
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.jobs = None;
        if let Some(thread) = self.thread.take() {
            // The last question takes a few milliseconds at most; a panic in it was caught.
            let _ = thread.join();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::aside::AsideQuestion;
    use super::*;
    use potset_doc::{Kitchen, Learnt};
    use potset_forecast::lever::levers;
    use potset_search::sweep::{Axis, SweepAsk};

    #[test]
    fn the_first_picture_of_a_spread_waits_for_no_sweep() {
        let design = Arc::new(assets::demo("coconut-pot.ron").unwrap());
        let pantry = Arc::new(assets::pantry().unwrap());
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let lever = levers(&design, &pantry).into_iter().find(|l| l.name == "Hold at").unwrap();
        let ask = SweepAsk::new(Axis::new(lever, 36.0, 44.0, 60).unwrap(), None).unwrap();
        let question = Question {
            number: 1,
            design: Arc::clone(&design),
            pantry: Arc::clone(&pantry),
            kitchen: kitchen.clone(),
            learnt: learnt.clone(),
            line: None,
            pots: Some(200),
        };
        let of = AsideQuestion { number: 1, design, pantry, kitchen, learnt };
        let mut waiting = Waiting::default();
        let (_jobs, inbox) = mpsc::channel();
        waiting.take(Job::Sweep(Box::new(SweepQuestion { of, ask })));
        waiting.take(Job::Forecast(question));
        let mut next = || {
            std::iter::repeat_with(|| waiting.work(&inbox)).flatten().next().map(|outcome| match outcome {
                Outcome::Answer(..) => "answer",
                Outcome::Spread(_, spread) if spread.complete() => "whole spread",
                Outcome::Spread(..) => "first picture",
                Outcome::Swept(..) => "sweep",
                _ => "other",
            })
        };
        let came: Vec<&str> =
            std::iter::from_fn(&mut next).take_while(|what| *what != "whole spread").collect();
        assert_eq!(came[..2], ["answer", "first picture"], "{came:?}");
        assert!(came.contains(&"sweep"), "{came:?}");
    }
}
