//! Chances in words: "1 in 12", "9 in 10".

use crate::base::number;

/// A share of pots that were tried.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Chance {
    pub of: usize,
    pub among: usize,
}

impl Chance {
    /// How many of a list are so.
    #[must_use]
    pub fn count(list: impl IntoIterator<Item = bool>) -> Self {
        list.into_iter()
            .fold(Self::default(), |c, so| Self { of: c.of + usize::from(so), among: c.among + 1 })
    }

    /// 0 to 1; 0 where none were tried.
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "counts of pots")]
    pub fn share(self) -> f64 {
        if self.among == 0 { 0.0 } else { self.of as f64 / self.among as f64 }
    }

    /// In words that say no more than so many pots can: "1 in 12", "9 in 10", "none of 1000", "all of 64".
    #[must_use]
    pub fn words(self) -> String {
        let share = self.share();
        if self.of == 0 {
            return format!("none of {}", self.among);
        }
        if self.of == self.among {
            return format!("all of {}", self.among);
        }
        if share <= 0.22 {
            return format!("1 in {}", number::fixed(1.0 / share, 0));
        }
        let tenths = (share * 10.0).round();
        if share < 0.95 {
            return format!("{} in 10", number::fixed(tenths.min(9.0), 0));
        }
        let left = (1.0 / (1.0 - share)).round().min(1000.0);
        format!("{} in {}", number::fixed(left - 1.0, 0), number::fixed(left, 0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chances_in_words() {
        let words = |of, among| Chance { of, among }.words();
        assert_eq!(words(83, 1000), "1 in 12");
        assert_eq!(words(904, 1000), "9 in 10");
        assert_eq!(words(948, 1000), "9 in 10");
        assert_eq!(words(970, 1000), "32 in 33");
        assert_eq!(words(500, 1000), "5 in 10");
        assert_eq!(words(200, 1000), "1 in 5");
        assert_eq!(words(0, 64), "none of 64");
        assert_eq!(words(64, 64), "all of 64");
    }
}
