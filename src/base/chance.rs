//! Chances in words: "1 in 12", "9 in 10".

use crate::number;

/// The chance that a ready window stands for. Source: assumed.
pub const WINDOW_CHANCE: f64 = 0.8;

/// A share of pots that were tried.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Chance {
    pub of: usize,
    pub among: usize,
}

impl Chance {
    /// How many of a list are so.
    pub fn count(list: impl IntoIterator<Item = bool>) -> Self {
        list.into_iter()
            .fold(Self::default(), |c, so| Self { of: c.of + usize::from(so), among: c.among + 1 })
    }

    /// 0 to 1; 0 where none were tried.
    pub fn share(self) -> f64 {
        if self.among == 0 { 0.0 } else { self.of as f64 / self.among as f64 }
    }

    /// Whether it is told as one in so many.
    pub fn one_in(self) -> bool {
        self.of > 0 && self.of < self.among && self.share() <= 0.22
    }

    /// Of as many, those that are not among them.
    pub const fn rest(self) -> Self {
        Self { of: self.among - self.of, among: self.among }
    }

    /// The same where there is little room: "none", "all", "9 in 10".
    pub fn brief(self) -> String {
        match self.of {
            0 => "none".to_owned(),
            of if of == self.among => "all".to_owned(),
            _ => self.words(),
        }
    }

    /// In words that say no more than so many pots can: "1 in 12", "9 in 10", "none of 1000", "all of 64".
    pub fn words(self) -> String {
        let share = self.share();
        if self.of == 0 {
            return format!("none of {}", self.among);
        }
        if self.of == self.among {
            return format!("all of {}", self.among);
        }
        if self.one_in() {
            let among = 1.0 / share;
            let step = if among < 20.0 {
                1.0
            } else if among < 100.0 {
                5.0
            } else {
                50.0
            };
            let whole = ((among / step).round() * step).min(self.among as f64);
            return format!("1 in {}", number::fixed(whole, 0));
        }
        let tenths = (share * 10.0).round();
        // Less than the share that a ready window stands for is never said to be it.
        if share < WINDOW_CHANCE && tenths >= 10.0 * WINDOW_CHANCE {
            return "3 in 4".to_owned();
        }
        if share < 0.95 {
            return format!("{} in 10", number::fixed(tenths.min(9.0), 0));
        }
        // Round numbers: what a thousand pots can tell is no finer.
        let left = 1.0 / (1.0 - share);
        let round = [20.0_f64, 30.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
        let among = round.into_iter().rfind(|n| *n <= left * 1.2).unwrap_or(20.0);
        format!("{} in {}", number::fixed(among - 1.0, 0), number::fixed(among, 0))
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
        assert_eq!(words(970, 1000), "29 in 30");
        assert_eq!(words(991, 1000), "99 in 100");
        assert_eq!(words(952, 1000), "19 in 20");
        assert_eq!(words(28, 1000), "1 in 35");
        assert_eq!(words(500, 1000), "5 in 10");
        assert_eq!(
            [749, 750, 799, 800].map(|of| words(of, 1000)),
            ["7 in 10", "3 in 4", "3 in 4", "8 in 10"]
        );
        assert_eq!(words(200, 1000), "1 in 5");
        assert_eq!(words(1, 64), "1 in 64", "no more pots than were tried");
        assert_eq!(words(0, 64), "none of 64");
        assert_eq!(words(64, 64), "all of 64");
    }
}
