//! Undo and redo: snapshots with labels, gestures that merge into one step, and the saved mark.

use std::sync::Arc;

use super::design::Design;

/// Names one drag, or one run of nudges on one lever.
pub type Gesture = u64;

#[derive(Clone, Debug)]
struct Stop {
    design: Arc<Design>,
    /// What the change that led here is called.
    label: String,
    revision: u64,
}

/// A line of snapshots with a place in it.
///
/// - One gesture is one step: edits with the same live gesture replace each other.
/// - A gesture that ends where it began leaves no step.
/// - At most [`History::MOST`] steps are kept.
#[derive(Clone, Debug)]
pub struct History {
    stops: Vec<Stop>,
    place: usize,
    live: Option<Gesture>,
    next_revision: u64,
    saved: Option<u64>,
}

impl History {
    /// Steps kept.
    pub const MOST: usize = 200;

    /// A history that starts at this design. `saved`: the design stands so in a file.
    pub fn new(design: Design, saved: bool) -> Self {
        let stop = Stop { design: Arc::new(design), label: String::new(), revision: 0 };
        Self { stops: vec![stop], place: 0, live: None, next_revision: 1, saved: saved.then_some(0) }
    }

    /// The design now.
    pub fn design(&self) -> &Arc<Design> {
        &self.stops[self.place].design
    }

    /// Number of the design now; no two different designs of one history share it.
    pub fn revision(&self) -> u64 {
        self.stops[self.place].revision
    }

    /// True while the design differs from what was saved last.
    pub fn unsaved(&self) -> bool {
        self.saved != Some(self.revision())
    }

    /// Marks the design now as saved.
    pub fn mark_saved(&mut self) {
        self.saved = Some(self.revision());
        self.live = None;
    }

    /// What was saved is gone: every step counts as unsaved.
    pub fn mark_unsaved(&mut self) {
        self.saved = None;
    }

    /// The design as saved last, if undo can still reach it.
    pub fn saved_design(&self) -> Option<&Arc<Design>> {
        self.stops.iter().find(|s| Some(s.revision) == self.saved).map(|s| &s.design)
    }

    /// Adds a changed design. Edits of the live gesture merge into one step.
    pub fn push(&mut self, design: Design, label: &str, gesture: Option<Gesture>) {
        if design == **self.design() {
            return;
        }
        self.stops.truncate(self.place + 1);
        let merge = gesture.is_some() && gesture == self.live && self.place > 0;
        if merge {
            if *self.stops[self.place - 1].design == design {
                // Back where the gesture began: the step goes, and the old revision counts again.
                self.stops.pop();
                self.place -= 1;
                self.live = None;
                return;
            }
            let revision = self.take_revision();
            let stop = &mut self.stops[self.place];
            stop.design = Arc::new(design);
            label.clone_into(&mut stop.label);
            stop.revision = revision;
            return;
        }
        let revision = self.take_revision();
        self.stops.push(Stop { design: Arc::new(design), label: label.to_owned(), revision });
        self.place += 1;
        self.live = gesture;
        if self.stops.len() > Self::MOST + 1 {
            self.stops.remove(0);
            self.place -= 1;
        }
    }

    fn take_revision(&mut self) -> u64 {
        let revision = self.next_revision;
        self.next_revision += 1;
        revision
    }

    /// Ends the live gesture: the next edit is a new step.
    pub fn end_gesture(&mut self) {
        self.live = None;
    }

    /// Takes the live gesture back as if it had never been. False if there is none.
    pub fn take_back(&mut self) -> bool {
        let live = self.live.take().is_some() && self.place > 0;
        if live {
            self.stops.truncate(self.place);
            self.place -= 1;
        }
        live
    }

    /// The label of what undo would take back.
    pub fn can_undo(&self) -> Option<&str> {
        (self.place > 0).then(|| self.stops[self.place].label.as_str())
    }

    /// The label of what redo would do again.
    pub fn can_redo(&self) -> Option<&str> {
        self.stops.get(self.place + 1).map(|s| s.label.as_str())
    }

    /// Steps back. False at the start.
    pub fn undo(&mut self) -> bool {
        self.live = None;
        let can = self.place > 0;
        if can {
            self.place -= 1;
        }
        can
    }

    /// Steps forward. False at the end.
    pub fn redo(&mut self) -> bool {
        self.live = None;
        let can = self.place + 1 < self.stops.len();
        if can {
            self.place += 1;
        }
        can
    }
}
