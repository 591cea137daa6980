//! What pots taught: where in its own spread a figure of the pantry really lies in this kitchen. Empty at first.
//!
//! A figure that is not well known has a spread. Pots narrow it: they say at which place of the spread this culture, this
//! base, this warmer lies, and how sure that is. So nothing that was learnt ever leaves what its figure allows, the figure
//! itself stays as it is, and a reset is to forget the places.

use super::parts::parts;

parts! {
    /// One figure, or several that move together, at its place.
    pub struct LearntFigure {
        /// What varies, as the possible pots name it: "cultures.dairy_pair.speed_dairy", "group dairy_pair dose".
        pub of: String,
        /// Its place as a normal deviate of its own spread: 0 is the likely value of the pantry, 1.645 its upper bound.
        pub place: f64,
        /// How far each independent doubt that is left moves it, deviates; the last is its own. Rows of all figures make a
        /// triangle, so that what pots could not tell apart is drawn together.
        pub moves: Vec<f64>,
        /// How many pots told something about it.
        pub pots: u32,
    }

    /// All that pots taught.
    #[derive(Default)]
    pub struct Learnt {
        pub figures: Vec<LearntFigure> = default,
        /// How many pots it comes from.
        pub pots: u32 = default,
        /// The day on which it was kept, "2026-11-30".
        pub day: String = default,
    }

    /// What was kept, and what stood there before: the newest first.
    #[derive(Default)]
    pub struct LearntBook {
        pub now: Learnt = default,
        pub earlier: Vec<Learnt> = default,
    }
}

/// Most earlier ones that are kept.
const MOST_EARLIER: usize = 20;

impl LearntFigure {
    /// What is still not known of it, one sigma in deviates of its own spread; 1 before any pot.
    pub fn doubt(&self) -> f64 {
        self.moves.iter().map(|m| m * m).sum::<f64>().sqrt()
    }
}

impl Learnt {
    /// Nothing was learnt.
    pub fn is_empty(&self) -> bool {
        self.figures.is_empty()
    }

    /// The place of what varies under a name, with its number.
    pub fn find(&self, of: &str) -> Option<(usize, &LearntFigure)> {
        self.figures.iter().enumerate().find(|(_, figure)| figure.of == of)
    }
}

impl LearntBook {
    /// Keeps something new; what stood there can be put back.
    pub fn keep(&mut self, learnt: Learnt) {
        if learnt != self.now {
            self.earlier.insert(0, std::mem::replace(&mut self.now, learnt));
            self.earlier.truncate(MOST_EARLIER);
        }
    }

    /// Puts back what stood there before; false where nothing did.
    pub fn undo(&mut self) -> bool {
        let before = (!self.earlier.is_empty()).then(|| self.earlier.remove(0));
        if let Some(before) = before {
            self.now = before;
            return true;
        }
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_kept_can_be_put_back() {
        let of = |pots: u32| Learnt { pots, ..Learnt::default() };
        let mut book = LearntBook::default();
        assert!(!book.undo());
        book.keep(of(1));
        book.keep(of(1));
        book.keep(of(2));
        // A reset is one step like any other.
        book.keep(Learnt::default());
        let mut seen = vec![book.now.pots];
        while book.undo() {
            seen.push(book.now.pots);
        }
        assert_eq!(seen, [0, 2, 1, 0]);
    }
}
