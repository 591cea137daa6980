//! The runner: state, jobs and folders together. It carries effects out and feeds what comes of them back.

mod columns;
mod disk;
mod effects;

use std::collections::VecDeque;

use self::disk::Disk;
use super::command::{BatchesCommand, Command};
use super::effect::{Effect, ScreenEffect};
use super::jobs::forecast::{ForecastJob, SensitivitiesJob};
use super::jobs::question::Question;
use super::jobs::queue::Queue;
use super::jobs::spread::SpreadJob;
use super::jobs::watch::Watch;
use super::jobs::worker::Worker;
use super::jobs::{Key, Order};
use super::state::State;
use super::update::update;
use potset_base::clock::Zone;
use potset_base::units::{self, Units};
use potset_store::folders::Folders;
use potset_store::zone;

/// Who works the queue of jobs.
enum Hands {
    /// A thread; the screen is woken.
    Worker(Worker),
    /// This thread, at once: tests and pictures.
    Own(Box<Queue>),
}

/// State with everything around it.
pub struct AppRunner {
    pub state: State,
    hands: Hands,
    /// `None`: nothing is remembered (tests, pictures).
    disk: Option<Disk>,
    /// The file that the worker looks after.
    watched: Option<Watch>,
    outward: Vec<ScreenEffect>,
}

impl AppRunner {
    /// A runner without thread and folders: every command is answered at once.
    pub fn inline(state: State) -> Self {
        let hands = Hands::Own(Box::default());
        let mut runner = Self { state, hands, disk: None, watched: None, outward: Vec::new() };
        runner.forecast();
        runner
    }

    /// A runner with a worker that wakes the screen, and folders to remember in.
    pub fn threaded(mut state: State, folders: Option<Folders>, wake: impl Fn() + Send + 'static) -> Self {
        let disk = folders.map(|folders| Disk::open(folders, &mut state));
        if let Some(disk) = &disk {
            state.aside = Some(disk.folders.state.clone());
            disk.gather(&state.settings);
            state.batches.book = Some(disk.book(&state.settings));
            state.zone = zone::name().and_then(|name| Zone::named(&name)).unwrap_or_default();
        }
        // The first frame shall show a pot, not an empty sheet; what takes longer comes from the worker.
        let mut runner = Self { disk, ..Self::inline(state) };
        if let Hands::Own(queue) = &mut runner.hands {
            runner.hands = Hands::Worker(Worker::start(std::mem::take(&mut **queue), wake));
        }
        runner.run(BatchesCommand::Touched);
        runner
    }

    /// Carries out a command and all that follows from it.
    pub fn run(&mut self, command: impl Into<Command>) {
        let mut queue = VecDeque::from([command.into()]);
        while let Some(command) = queue.pop_front() {
            // What is put into words on the way is said as the kitchen says it now.
            let _speaking = units::speak(self.units());
            for effect in update(&mut self.state, command) {
                queue.extend(self.perform(effect));
            }
        }
        self.watch();
    }

    /// Takes in what the worker has finished. True if anything changed.
    pub fn poll(&mut self) -> bool {
        let mut any = false;
        while let Hands::Worker(worker) = &self.hands
            && let Some(result) = worker.poll()
        {
            any = true;
            self.run(result);
        }
        any
    }

    /// Finds out here and now what the answer rests on: for pictures and tests.
    pub fn settle(&mut self) {
        let job = SensitivitiesJob(Question::of(&self.state));
        self.here_and_now(Order::Work(Box::new(job), self.units()), |key| *key == Key::Sensitivities);
    }

    /// Works out a spread of so many pots here and now, and what matters if asked: for pictures and tests.
    pub fn spread(&mut self, pots: usize, with_matters: bool) {
        let job = SpreadJob::new(&Question::of(&self.state), pots);
        let wanted = |key: &Key| match key {
            Key::FirstSpread | Key::Spread => true,
            Key::Matters => with_matters,
            _ => false,
        };
        self.here_and_now(Order::Work(Box::new(job), self.units()), wanted);
    }

    /// True while an answer is under way.
    pub fn busy(&self) -> bool {
        let columns = &self.state.columns;
        self.state.answered < self.state.question || columns.answered < columns.question
    }

    /// How the kitchen says warmth and amounts.
    pub const fn units(&self) -> Units {
        self.state.kitchen.units()
    }

    /// What the screen is to do, and nothing twice.
    pub fn take_outward(&mut self) -> Vec<ScreenEffect> {
        std::mem::take(&mut self.outward)
    }

    fn perform(&mut self, effect: Effect) -> Vec<Command> {
        match effect {
            Effect::Work(job) => self.order(Order::Work(job, self.units())),
            Effect::GiveUp(key) => self.order(Order::GiveUp(key)),
            Effect::Disk(effect) => self.on_disk(effect).into_iter().collect(),
            Effect::Screen(effect) => {
                self.outward.push(effect);
                Vec::new()
            }
        }
    }

    /// Hands an order on. What comes of it at once are commands: where there is no worker, all that was asked for.
    fn order(&mut self, order: Order) -> Vec<Command> {
        match &mut self.hands {
            Hands::Worker(worker) => {
                if let Err(order) = worker.order(order) {
                    // Whatever became of the thread, the work goes on.
                    self.hands = Hands::Own(Box::default());
                    return self.order(order);
                }
                Vec::new()
            }
            Hands::Own(queue) => worked(queue, order, |key| !key.at_leisure()),
        }
    }

    /// Works an order on this thread, whoever works the others.
    fn here_and_now(&mut self, order: Order, wanted: impl Fn(&Key) -> bool) {
        let mut own = Queue::default();
        let queue = match &mut self.hands {
            Hands::Own(queue) => queue,
            Hands::Worker(_) => &mut own,
        };
        for result in worked(queue, order, wanted) {
            self.run(result);
        }
    }

    fn forecast(&mut self) {
        for command in self.perform(Effect::work(ForecastJob(Question::of(&self.state)))) {
            self.run(command);
        }
    }
}

/// What comes of the jobs that are wanted, after an order.
fn worked(queue: &mut Queue, order: Order, wanted: impl Fn(&Key) -> bool) -> Vec<Command> {
    queue.follow(order);
    let mut results = Vec::new();
    while queue.work(&wanted, &mut || None, &mut |result| results.push(result)) {}
    results
}
