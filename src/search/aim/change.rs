//! How much of a design a setting changes: other entries first, then how far levers are turned.

use std::cmp::Ordering;

use super::turn::SearchLever;

/// What a setting changes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Change {
    /// Entries that are not the design's (another base counts twice, it is another pot), what is cooked, fed or mixed otherwise for
    /// them, and a texture of another name where nothing was wanted of it.
    pub entries: usize,
    /// How far the levers are turned, in their usual spans, added up.
    pub size: f64,
}

impl Change {
    /// Adds up how far levers are turned; those of what was put in count with their entry.
    pub fn of<'a>(entries: usize, turned: impl Iterator<Item = (&'a SearchLever, f64)>) -> Self {
        let spans =
            |(turn, v): (&SearchLever, f64)| turn.was.map_or(0.0, |was| (v - was).abs() / turn.usual_width());
        Self { entries, size: turned.map(spans).sum() }
    }

    /// Less is what changes fewer entries; of as many, what turns levers less.
    pub fn total_cmp(&self, other: &Self) -> Ordering {
        self.entries.cmp(&other.entries).then(self.size.total_cmp(&other.size))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entries_come_before_levers() {
        let change = |entries, size| Change { entries, size };
        let mut all = [change(1, 0.0), change(0, 3.0), change(0, 0.5), change(2, 0.1)];
        all.sort_by(Change::total_cmp);
        assert_eq!(all, [change(0, 0.5), change(0, 3.0), change(1, 0.0), change(2, 0.1)]);
    }
}
