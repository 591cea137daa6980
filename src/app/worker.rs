//! Work off the interface thread: the newest forecast wins, a fault becomes a note, the screen is woken.

use std::panic::{self, AssertUnwindSafe};
use std::sync::Arc;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender, TryRecvError};
use std::thread;
use std::time::Duration;

use crate::base::Note;
use crate::doc::{Design, Kitchen, Learnt, Pantry};
use crate::study::influence::{Influence, influences};
use crate::study::next_pots::LineAsk;
use crate::study::{Answer, Ask, answer_with};

/// One question, with all that the answer hangs on.
#[derive(Clone, Debug)]
pub struct Question {
    pub number: u64,
    pub design: Arc<Design>,
    pub pantry: Arc<Pantry>,
    pub kitchen: Kitchen,
    pub learnt: Learnt,
    /// The line of pots to follow, if the screen shows one.
    pub line: Option<LineAsk>,
}

/// What came of a question.
pub enum Outcome {
    /// An answer, or why there is none.
    Answer(u64, Result<Box<Answer>, Note>),
    /// Which figures move it most.
    Rests(u64, Vec<Influence>),
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

/// A thread that answers questions, the newest first; older ones that still wait are dropped.
pub struct Worker {
    questions: Option<Sender<Question>>,
    outcomes: Receiver<Outcome>,
    thread: Option<thread::JoinHandle<()>>,
}

impl Worker {
    /// Starts the thread. `wake` is called after each answer.
    #[must_use]
    pub fn start(wake: impl Fn() + Send + 'static) -> Self {
        let (questions, inbox) = mpsc::channel::<Question>();
        let (outbox, outcomes) = mpsc::channel();
        #[expect(clippy::disallowed_methods, reason = "this is the worker")]
        let thread = thread::spawn(move || serve(&inbox, &outbox, &wake));
        Self { questions: Some(questions), outcomes, thread: Some(thread) }
    }

    /// Puts a question. False if the thread is gone.
    pub fn ask(&self, question: Question) -> bool {
        self.questions.as_ref().is_some_and(|q| q.send(question).is_ok())
    }

    /// An answer, if one is there.
    pub fn poll(&self) -> Option<Outcome> {
        self.outcomes.try_recv().ok()
    }
}

/// Answers until the other end is gone: the newest question first, and in a pause what its answer rests on.
fn serve(inbox: &Receiver<Question>, outbox: &Sender<Outcome>, wake: &dyn Fn()) {
    let mut settled: Option<Question> = None;
    let mut waiting: Option<Question> = None;
    loop {
        let next = match (waiting.take(), &settled) {
            (Some(question), _) => Some(question),
            (None, Some(_)) => match inbox.recv_timeout(PAUSE) {
                Ok(question) => Some(question),
                Err(RecvTimeoutError::Timeout) => None,
                Err(RecvTimeoutError::Disconnected) => break,
            },
            (None, None) => match inbox.recv() {
                Ok(question) => Some(question),
                Err(_) => break,
            },
        };
        let outcome = if let Some(mut question) = next {
            // A drag puts many questions; only the last one matters.
            while let Ok(newer) = inbox.try_recv() {
                question = newer;
            }
            let outcome = work(&question);
            settled = Some(question);
            outcome
        } else {
            let Some(question) = settled.take() else { continue };
            let outcome = rests(&question, &mut || match inbox.try_recv() {
                Ok(newer) => {
                    waiting = Some(newer);
                    false
                }
                Err(TryRecvError::Empty) => true,
                Err(TryRecvError::Disconnected) => false,
            });
            if waiting.is_some() {
                continue;
            }
            outcome
        };
        if outbox.send(outcome).is_err() {
            break;
        }
        wake();
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.questions = None;
        if let Some(thread) = self.thread.take() {
            // The last question takes a few milliseconds at most; a panic in it was caught.
            let _ = thread.join();
        }
    }
}
