//! Work off the interface thread: the newest forecast wins, a fault becomes a note, the screen is woken.

use std::panic::{self, AssertUnwindSafe};
use std::sync::Arc;
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread;

use crate::base::Note;
use crate::doc::{Design, Kitchen, Learnt, Pantry};
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

/// An answer, or why there is none.
pub type Outcome = (u64, Result<Answer, Note>);

/// Answers one question; a panic in the model is caught and told.
pub fn work(q: &Question) -> Outcome {
    let asked = Ask { design: &q.design, pantry: &q.pantry, kitchen: &q.kitchen, learnt: &q.learnt };
    let outcome =
        panic::catch_unwind(AssertUnwindSafe(|| answer_with(&asked, q.line.as_ref()))).map_err(|_| {
            Note::error(
                "forecast",
                "The forecast ended in a fault of the program",
                "Undo the last change, and send the design to the makers of the program",
            )
        });
    (q.number, outcome)
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
        let thread = thread::spawn(move || {
            while let Ok(mut question) = inbox.recv() {
                // A drag puts many questions; only the last one matters.
                while let Ok(newer) = inbox.try_recv() {
                    question = newer;
                }
                if outbox.send(work(&question)).is_err() {
                    break;
                }
                wake();
            }
        });
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

impl Drop for Worker {
    fn drop(&mut self) {
        self.questions = None;
        if let Some(thread) = self.thread.take() {
            // The last question takes a few milliseconds at most; a panic in it was caught.
            let _ = thread.join();
        }
    }
}
