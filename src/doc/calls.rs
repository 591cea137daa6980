//! The call log: what people rang up about and what it came from. Nothing about who called is in it.

use std::collections::BTreeMap;

use super::parts::parts;

parts! {
    /// One call that was answered.
    #[derive(Default)]
    pub struct Call {
        /// The day, "2026-12-01".
        pub day: String = default,
        /// What the pot was made of, by its name.
        pub base: String = default,
        /// The culture by its name, what its packet has printed as lot, and how old it was, months since it was opened.
        pub culture: String = default,
        pub lot: String = default,
        pub age_months: Option<f64> = default,
        /// What was said of the pot, and the cause that was found, by the keys of the shipped table.
        pub saw: Vec<String> = default,
        pub cause: String = default,
        /// Whether the pot was to be thrown away.
        pub thrown_away: bool = default,
    }

    /// All of them, in the order in which they came.
    #[derive(Default)]
    pub struct CallLog {
        pub calls: Vec<Call> = default,
    }
}

/// How often a cause came with a culture and a lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CauseCount {
    pub culture: String,
    pub lot: String,
    /// By the key of the shipped table.
    pub cause: String,
    pub calls: usize,
}

impl CallLog {
    /// Counts by culture, lot and cause, the most calls first.
    pub fn counts(&self) -> Vec<CauseCount> {
        let mut by: BTreeMap<(&str, &str, &str), usize> = BTreeMap::new();
        for call in &self.calls {
            *by.entry((call.culture.trim(), call.lot.trim(), &call.cause)).or_default() += 1;
        }
        let row = |((culture, lot, cause), calls): ((&str, &str, &str), usize)| {
            let [culture, lot, cause] = [culture, lot, cause].map(str::to_owned);
            CauseCount { culture, lot, cause, calls }
        };
        let mut counts: Vec<CauseCount> = by.into_iter().map(row).collect();
        counts.sort_by_key(|count| std::cmp::Reverse(count.calls));
        counts
    }

    /// What two windows wrote since they both read `base`: what stands in `theirs`, less what was removed here, and what
    /// was added here behind it.
    pub fn merged(&self, base: &Self, theirs: &Self) -> Self {
        let mut calls = theirs.calls.clone();
        let left = |all: &mut Vec<Call>, call: &Call| {
            let at = all.iter().position(|other| other == call);
            at.map(|at| all.remove(at)).is_some()
        };
        let mut mine = self.calls.clone();
        for call in &base.calls {
            if !left(&mut mine, call) {
                left(&mut calls, call);
            }
        }
        calls.extend(mine);
        Self { calls }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn call(day: &str, lot: &str, cause: &str) -> Call {
        Call {
            day: day.to_owned(),
            base: String::new(),
            culture: "Weir House adjuncts".to_owned(),
            lot: lot.to_owned(),
            age_months: None,
            saw: vec!["thin".to_owned()],
            cause: cause.to_owned(),
            thrown_away: false,
        }
    }

    #[test]
    fn counts_put_the_most_calls_first() {
        let calls = vec![
            call("2026-12-01", "A1", "culture_old"),
            call("2026-12-01", "B2", "culture_old"),
            call("2026-12-02", "B2 ", "culture_old"),
        ];
        let counts = CallLog { calls }.counts();
        let seen: Vec<(&str, usize)> = counts.iter().map(|c| (c.lot.as_str(), c.calls)).collect();
        assert_eq!(seen, [("B2", 2), ("A1", 1)]);
    }

    #[test]
    fn two_windows_lose_no_call() {
        let [a, b, c] = ["1", "2", "3"].map(|n| call(&format!("2026-12-0{n}"), "A1", "cool"));
        let log = |calls: &[&Call]| CallLog { calls: calls.iter().map(|c| (*c).clone()).collect() };
        let base = log(&[&a, &a]);
        // Here one of two equal calls was removed and one was added, there another was added.
        let merged = log(&[&a, &b]).merged(&base, &log(&[&a, &a, &c]));
        assert_eq!(merged, log(&[&a, &c, &b]));
    }
}
