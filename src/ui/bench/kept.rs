//! What the cards of the bench keep between frames.

use std::rc::Rc;

use potset_catalogue::mixing_square::Figure;

/// What a blend is to reach.
#[derive(Clone, Copy, Debug)]
pub struct Reach {
    pub figure: Figure,
    /// g/100 g; nothing until it is typed: what the bases hold.
    pub wanted: Option<f64>,
    pub pair: (usize, usize),
}

impl Default for Reach {
    fn default() -> Self {
        Self { figure: Figure::Fat, wanted: None, pair: (0, 1) }
    }
}

/// One entry that can be picked: key, name, usual amount.
pub struct Choice {
    pub key: String,
    pub name: String,
    pub amount: f64,
}

/// Choices of a shelf as they were put together last, and what for.
#[derive(Default)]
pub struct Kept {
    pub shelves: u64,
    /// Keys and names of the design's own entries.
    pub own: Vec<(String, String)>,
    pub litres: f64,
    pub all: Rc<Vec<Choice>>,
}
