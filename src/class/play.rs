//! The steps of a lesson before a room, as plain state: question, guess, change, curve, reason; and free play from any of them.
//!
//! Keys, clicker and mouse all end here as a `Press`. The curve is drawn through time from forecasts that are there already:
//! a second that goes by moves `at_h`, and nothing is worked out.

use std::sync::Arc;

use crate::pots::ShownPot;
use potset_base::choices;

choices! {
    /// A step of a lesson; its word is said with it.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
    pub enum Step: word {
        #[default]
        Question => "Question",
        Guess => "Your guess",
        Change => "What is done",
        Curve => "What happens",
        Reason => "Why",
    }
}

/// How long the whole curve takes, s: from slow to quick. Source: assumed, by eye.
const PACES_S: [f64; 4] = [48.0, 24.0, 12.0, 6.0];
const USUAL_PACE: usize = 2;

/// Earlier plays that stay on the wall.
pub const EARLIER: usize = 2;

/// Most votes for one answer, so that a held key ends. Source: assumed, more than a room holds.
const MOST_VOTES: u32 = 999;

/// Something that is pressed, clicked or drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Press {
    /// On: the next step; while the curve runs, to its end.
    Next,
    Back,
    /// Nothing on the wall, and back.
    Blank,
    /// One more hand up for an answer, from 0.
    Vote(usize),
    /// The last hand down again.
    VoteBack,
    /// Runs or halts the curve; from its end it begins again.
    Run,
    /// The curve as far as this hour.
    To(f64),
    Slower,
    Quicker,
    /// A point of the drawn curve, h and value.
    Draw(f64, f64),
    Wipe,
    /// Into free play, and out of it.
    Free,
    /// A lever of the lesson, by its place, to a value.
    Turn(usize, f64),
}

/// What a press asks of whoever holds the lesson.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    Nothing,
    /// A forecast with the levers as they are turned.
    Forecast,
    /// It was the last step.
    NextLesson,
}

/// Free play: the levers are the room's.
#[derive(Clone, Debug, Default)]
pub struct Free {
    /// As the levers stand.
    pub values: Vec<f64>,
    /// What came of them; nothing before the first.
    pub now: Option<Arc<ShownPot>>,
    /// What came before that, the newest first.
    pub earlier: Vec<Arc<ShownPot>>,
}

/// A lesson being played.
#[derive(Clone, Debug)]
pub struct Play {
    pub step: Step,
    /// Hands for each answer.
    pub votes: Vec<u32>,
    /// In the order in which they went up.
    hands: Vec<usize>,
    /// What the room drew: h and value, rising in the hours.
    pub drawn: Vec<(f64, f64)>,
    /// How far the curve is drawn, h.
    pub at_h: f64,
    pub hours: f64,
    pub running: bool,
    pace: usize,
    pub blank: bool,
    pub free: Option<Free>,
    /// Where the levers stand before they are turned.
    levers: Vec<f64>,
    /// Nothing moves by itself: a curve is there at once, and is scrubbed by hand.
    still: bool,
}

impl Play {
    /// The beginning of a lesson.
    ///
    /// - `levers` — where the levers of its last pot stand.
    /// - `still` — for whoever wants reduced motion.
    pub fn new(answers: usize, hours: f64, levers: Vec<f64>, still: bool) -> Self {
        Self {
            step: Step::Question,
            votes: vec![0; answers],
            hands: Vec::new(),
            drawn: Vec::new(),
            at_h: 0.0,
            hours,
            running: false,
            pace: USUAL_PACE,
            blank: false,
            free: None,
            levers,
            still,
        }
    }

    /// Where the levers of the last pot stand, once it was run.
    pub fn levers_at(&mut self, levers: Vec<f64>) {
        self.levers = levers;
    }

    /// How long the whole curve takes, s.
    pub const fn pace_s(&self) -> f64 {
        PACES_S[self.pace]
    }

    /// Whether the curve is drawn to its end.
    pub fn whole(&self) -> bool {
        self.at_h >= self.hours
    }

    /// Whether curves are on the wall.
    pub fn shows_curves(&self) -> bool {
        self.free.is_some() || self.step >= Step::Curve
    }

    /// Does what is pressed. While the wall is blank everything but leaving that is passed over.
    pub fn press(&mut self, press: &Press) -> Asked {
        if self.blank && *press != Press::Blank {
            self.blank = false;
            return Asked::Nothing;
        }
        match *press {
            Press::Next => return self.next(),
            Press::Back => self.back(),
            Press::Blank => {
                self.blank = !self.blank;
                self.running = false;
            }
            Press::Vote(i) => self.vote(i),
            Press::VoteBack => {
                if let Some(i) = self.hands.pop() {
                    self.votes[i] = self.votes[i].saturating_sub(1);
                }
            }
            Press::Run if self.shows_curves() => self.run(),
            Press::To(h) if self.shows_curves() => {
                self.running = false;
                self.at_h = h.clamp(0.0, self.hours);
            }
            Press::Slower => self.pace = self.pace.saturating_sub(1),
            Press::Quicker => self.pace = (self.pace + 1).min(PACES_S.len() - 1),
            Press::Draw(h, v) => self.draw(h, v),
            Press::Wipe => self.drawn.clear(),
            Press::Free => return self.toggle_free(),
            Press::Turn(i, v) => return self.turn(i, v),
            Press::Run | Press::To(_) => {}
        }
        Asked::Nothing
    }

    fn next(&mut self) -> Asked {
        if self.free.is_some() {
            self.leave_free();
            return Asked::Nothing;
        }
        match self.step {
            Step::Question => self.step = Step::Guess,
            Step::Guess => self.step = Step::Change,
            Step::Change => {
                self.step = Step::Curve;
                self.begin();
            }
            Step::Curve if self.whole() => {
                self.step = Step::Reason;
                self.running = false;
            }
            Step::Curve => {
                self.at_h = self.hours;
                self.running = false;
            }
            Step::Reason => return Asked::NextLesson,
        }
        Asked::Nothing
    }

    fn back(&mut self) {
        if self.free.is_some() {
            return self.leave_free();
        }
        self.running = false;
        self.step = match self.step {
            Step::Question | Step::Guess => Step::Question,
            Step::Change => Step::Guess,
            Step::Curve => Step::Change,
            Step::Reason => Step::Curve,
        };
    }

    fn begin(&mut self) {
        self.at_h = if self.still { self.hours } else { 0.0 };
        self.running = !self.still;
    }

    fn run(&mut self) {
        if self.still {
            // It moves by hand alone: an eighth of the hours a press.
            self.at_h = if self.whole() { 0.0 } else { (self.at_h + self.hours / 8.0).min(self.hours) };
        } else if self.whole() {
            self.begin();
        } else {
            self.running = !self.running;
        }
    }

    fn vote(&mut self, i: usize) {
        if self.step != Step::Guess || self.free.is_some() {
            return;
        }
        if let Some(count) = self.votes.get_mut(i).filter(|count| **count < MOST_VOTES) {
            *count += 1;
            self.hands.push(i);
        }
    }

    /// A hand that goes back over what it drew draws it anew.
    fn draw(&mut self, h: f64, v: f64) {
        if self.step != Step::Guess || !(h.is_finite() && v.is_finite()) {
            return;
        }
        let h = h.clamp(0.0, self.hours);
        self.drawn.retain(|(other, _)| *other < h);
        self.drawn.push((h, v));
    }

    fn toggle_free(&mut self) -> Asked {
        if self.free.is_some() {
            self.leave_free();
            return Asked::Nothing;
        }
        if self.levers.is_empty() {
            return Asked::Nothing;
        }
        self.running = false;
        self.free = Some(Free { values: self.levers.clone(), ..Free::default() });
        Asked::Forecast
    }

    fn leave_free(&mut self) {
        self.free = None;
    }

    fn turn(&mut self, i: usize, v: f64) -> Asked {
        let lever = self.free.as_mut().and_then(|free| free.values.get_mut(i));
        match lever.filter(|_| v.is_finite()) {
            Some(value) if *value != v => {
                *value = v;
                Asked::Forecast
            }
            _ => Asked::Nothing,
        }
    }

    /// Puts in what came of the levers as they were turned; the last two that came before stay as earlier curves.
    ///
    /// - `values` — the levers that it was worked out with: an answer to an older turn is passed over.
    pub fn came(&mut self, values: &[f64], pot: Arc<ShownPot>) {
        let Some(free) = self.free.as_mut().filter(|free| free.values == values) else { return };
        if let Some(before) = free.now.replace(pot) {
            free.earlier.insert(0, before);
            free.earlier.truncate(EARLIER);
        }
        self.at_h = self.hours;
    }

    /// Lets some seconds go by; tells whether the curve runs on.
    pub fn tick(&mut self, seconds: f64) -> bool {
        if !self.running {
            return false;
        }
        self.at_h = (self.at_h + self.hours * seconds.max(0.0) / self.pace_s()).min(self.hours);
        self.running = !self.whole();
        self.running
    }
}
