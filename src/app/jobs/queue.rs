//! The queue: jobs by their key, worked one piece at a time, in the order of their keys.

use std::collections::BTreeMap;
use std::panic::{self, AssertUnwindSafe};
use std::time::Duration;

use super::numbers::Listed;
use super::{At, Job, Key, Order, Step};
use crate::command::Command;
use potset_base::units::{self, Units};
use potset_doubt::ready_times::Known;

/// Jobs that wait.
#[derive(Default)]
pub struct Queue {
    waiting: BTreeMap<Key, Box<dyn Job>>,
    /// Given up or replaced while a piece was worked.
    gone: Vec<Key>,
    known: Known,
    listed: Listed,
    /// How the kitchen of the newest work says things.
    units: Units,
    ended: bool,
}

impl Queue {
    /// Follows an order.
    pub fn follow(&mut self, order: Order) {
        let key = match &order {
            Order::Work(job, _) => job.key(),
            Order::GiveUp(key) => key.clone(),
            Order::End => {
                self.waiting.clear();
                self.ended = true;
                return;
            }
        };
        for old in key.outdates().iter().chain([&key]) {
            self.waiting.remove(old);
            self.gone.push(old.clone());
        }
        if let Order::Work(job, units) = order {
            self.units = units;
            self.waiting.insert(key, job);
        }
    }

    /// How long to wait for other orders before the next piece; `None` if nothing is to be done.
    pub fn pause(&self) -> Option<Duration> {
        self.waiting.keys().next().map(Key::pause)
    }

    /// Whether nobody is there to be told any more.
    pub const fn ended(&self) -> bool {
        self.ended
    }

    /// Works one piece of the first job that is wanted; false if there is none.
    ///
    /// - `newer` — an order that came in meanwhile
    /// - `tell` — takes the result, if there is one
    pub fn work(
        &mut self,
        wanted: impl Fn(&Key) -> bool,
        newer: &mut dyn FnMut() -> Option<Order>,
        tell: &mut dyn FnMut(Command),
    ) -> bool {
        let Some(key) = self.waiting.keys().find(|key| wanted(key)).cloned() else { return false };
        let Some(job) = self.waiting.remove(&key) else { return false };
        self.gone.clear();
        let _speaking = units::speak(self.units);
        let fault = job.fault();
        let mut known = std::mem::take(&mut self.known);
        let mut listed = self.listed.take();
        let mut go_on = || {
            // Once nobody is there any more, that is told again and again.
            while !self.ended
                && let Some(order) = newer()
            {
                self.follow(order);
            }
            // What is not wanted here waits for another time; it would be in the way for ever.
            let first = self.waiting.keys().find(|other| wanted(other));
            !self.ended && !self.gone.contains(&key) && first.is_none_or(|other| *other > key)
        };
        let mut at = At { known: &mut known, listed: &mut listed, go_on: &mut go_on };
        // The only place where a panic is caught: whatever job it was, the others go on, and it is told.
        let step = panic::catch_unwind(AssertUnwindSafe(|| job.step(&mut at)));
        let Step { result, then } = step.unwrap_or_else(|_| Step::done(fault));
        self.known = known;
        self.listed = listed;
        for job in then {
            let key = job.key();
            if !self.ended && !self.gone.contains(&key) {
                self.waiting.entry(key).or_insert(job);
            }
        }
        if let Some(result) = result {
            tell(result);
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use std::sync::{Arc, Mutex};

    use super::*;
    use crate::command::WindowCommand;
    use potset_base::Note;

    /// A job that writes its name down, asks so many times whether to go on, and is left so many times more.
    #[derive(Clone)]
    struct Stub {
        key: Key,
        name: &'static str,
        looks: usize,
        pieces: usize,
        log: Arc<Mutex<Vec<String>>>,
    }

    impl Job for Stub {
        fn key(&self) -> Key {
            self.key.clone()
        }

        fn step(mut self: Box<Self>, at: &mut At<'_>) -> Step {
            assert_ne!(self.name, "breaks");
            for _ in 0..self.looks {
                if !at.go_on() {
                    self.log.lock().unwrap().push(format!("{} gives up", self.name));
                    return Step::more(*self);
                }
            }
            self.log.lock().unwrap().push(self.name.to_owned());
            self.pieces -= 1;
            if self.pieces == 0 { Step::default() } else { Step::more(*self) }
        }

        fn fault(&self) -> Command {
            WindowCommand::Failed(Note::error("test", self.name, "")).into()
        }
    }

    /// Works all of what is ordered first; what comes in later is ordered at the first look of a job.
    fn worked(first: Vec<Order>, later: Vec<Order>, log: &Mutex<Vec<String>>) -> (Vec<String>, usize) {
        let mut queue = Queue::default();
        first.into_iter().for_each(|order| queue.follow(order));
        let mut later = later.into_iter();
        let mut faults = 0;
        while queue.work(|_| true, &mut || later.next(), &mut |_| faults += 1) {}
        (log.lock().unwrap().clone(), faults)
    }

    fn stub(log: &Arc<Mutex<Vec<String>>>, key: Key, name: &'static str) -> Stub {
        Stub { key, name, looks: 0, pieces: 1, log: Arc::clone(log) }
    }

    fn order(stub: Stub) -> Order {
        Order::Work(Box::new(stub), Units::default())
    }

    #[test]
    fn the_newest_of_a_key_stands_and_keys_have_their_turns() {
        let log = Arc::default();
        let orders = [
            (Key::Aim, "aim"),
            (Key::Sweep, "old sweep"),
            (Key::Export("a".into()), "a.csv"),
            (Key::Sweep, "new sweep"),
            (Key::Export("b".into()), "b.csv"),
            (Key::Forecast, "forecast"),
        ];
        let orders = orders.map(|(key, name)| order(stub(&log, key, name)));
        let (log, _) = worked(orders.into(), Vec::new(), &log);
        assert_eq!(log, ["forecast", "a.csv", "b.csv", "new sweep", "aim"]);
    }

    #[test]
    fn what_was_asked_for_interrupts_and_what_was_interrupted_is_taken_up_again() {
        for first in [Key::Sensitivities, Key::Causes] {
            let log = Arc::default();
            let long = Stub { looks: 2, ..stub(&log, first, "long") };
            let later = vec![order(stub(&log, Key::Sweep, "sweep")), order(stub(&log, Key::Watch, "watch"))];
            let (log, _) = worked(vec![order(long)], later, &log);
            assert_eq!(log, ["long gives up", "sweep", "long", "watch"]);
        }
    }

    #[test]
    fn what_is_of_an_older_question_is_dropped_wherever_it_stands() {
        let log = Arc::default();
        let running = Stub { looks: 2, ..stub(&log, Key::Sensitivities, "sensitivities") };
        let waiting = Stub { pieces: 3, ..stub(&log, Key::Matters, "matters") };
        // It comes in while the other one runs.
        let forecast = order(stub(&log, Key::Forecast, "forecast"));
        let (log, _) = worked(vec![order(running)], vec![order(waiting), forecast], &log);
        assert_eq!(log, ["sensitivities gives up", "forecast"]);
    }

    #[test]
    fn a_long_job_ends_with_the_window() {
        let log = Arc::default();
        let mut queue = Queue::default();
        queue.follow(order(Stub { looks: 2, ..stub(&log, Key::Sensitivities, "long") }));
        // The other end is gone: every look says so.
        assert!(queue.work(|_| true, &mut || Some(Order::End), &mut |_| {}));
        assert!(queue.ended() && queue.pause().is_none());
        assert_eq!(*log.lock().unwrap(), ["long gives up"]);
    }

    #[test]
    fn what_is_not_wanted_now_interrupts_nothing() {
        let log = Arc::default();
        let mut queue = Queue::default();
        queue.follow(order(stub(&log, Key::Matters, "matters")));
        queue.follow(order(Stub { looks: 2, ..stub(&log, Key::Sensitivities, "sensitivities") }));
        while queue.work(|key| *key == Key::Sensitivities, &mut || None, &mut |_| {}) {}
        assert_eq!(*log.lock().unwrap(), ["sensitivities"]);
    }

    #[test]
    fn work_that_is_given_up_does_not_come_back() {
        let log = Arc::default();
        let long = Stub { looks: 2, pieces: 9, ..stub(&log, Key::Causes, "causes") };
        let (log, _) = worked(vec![order(long)], vec![Order::GiveUp(Key::Causes)], &log);
        assert_eq!(log, ["causes gives up"]);
    }

    #[test]
    fn a_fault_is_told_and_the_others_go_on() {
        let log = Arc::default();
        let orders = vec![order(stub(&log, Key::Label, "breaks")), order(stub(&log, Key::Swap, "swap"))];
        let (log, faults) = worked(orders, Vec::new(), &log);
        assert_eq!((log, faults), (vec!["swap".to_owned()], 1));
    }

    #[test]
    fn nothing_is_worked_once_nobody_is_there() {
        let log = Arc::default();
        let long = Stub { looks: 2, pieces: 2, ..stub(&log, Key::Aim, "aim") };
        let (log, _) = worked(vec![order(long)], vec![Order::End], &log);
        assert_eq!(log, ["aim gives up"]);
    }
}
