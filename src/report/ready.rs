//! When a pot is ready, and what its stop has to do with it, in words.

use potset_base::clock::Moment;
use potset_base::number;
use potset_judge::ready::{HORIZON_H, Missed, ReadyTime, shown_h};

/// A time in words, by the clock where a start is known.
pub fn time_words(h: f64, start: Option<Moment>) -> String {
    let h = shown_h(h);
    start.map_or_else(|| number::hours(h), |start| start.after(h).day_and_time())
}

/// Whether two times are told as one.
pub fn told_alike(a: f64, b: f64) -> bool {
    shown_h(a) >= shown_h(b)
}

/// The answer in one sentence.
pub fn sentence(ready: &ReadyTime, start: Option<Moment>) -> String {
    let at = |h: f64| time_words(h, start);
    match (ready.half_h, ready.most_h) {
        (Some(half), Some(most)) if told_alike(half, most) => {
            format!("Most pots are ready by {}", at(most))
        }
        (Some(half), Some(most)) => format!("About half are ready by {}, most by {}", at(half), at(most)),
        (Some(half), None) => {
            format!(
                "About half are ready by {}; by {}, {}",
                at(half),
                number::hours(HORIZON_H),
                ready.ever.words()
            )
        }
        _ if ready.ever.of > 0 => {
            format!("By {}, {} are ready", number::hours(HORIZON_H), ready.ever.words())
        }
        _ => format!("It does not get there in {}", number::hours(HORIZON_H)),
    }
}

/// The same in few words, for a table.
pub fn brief(ready: &ReadyTime, start: Option<Moment>) -> String {
    let at = |h: Option<f64>| h.map_or_else(|| "never".to_owned(), |h| time_words(h, start));
    match (ready.half_h, ready.most_h) {
        (None, _) => format!("{} by {}", ready.ever.words(), number::hours(HORIZON_H)),
        (half, None) => format!("half by {}", at(half)),
        (half, most) => format!("half by {}, most by {}", at(half), at(most)),
    }
}

/// Whether most pots are ready at one and the same hour, where that has to be told apart.
pub fn together(ready: &ReadyTime) -> Option<String> {
    let most = ready.most_h?;
    match &ready.window {
        None => Some("There is no hour at which most are ready together".to_owned()),
        Some(window) if shown_h(window.from_h) > shown_h(most) => {
            Some(format!("Most are ready together from {}", number::hours(shown_h(window.from_h))))
        }
        Some(_) => None,
    }
}

/// How many are ready at the stop, and how long that holds.
pub fn at_stop(ready: &ReadyTime) -> String {
    let (stop, pots) = (number::hours(ready.stop_h), ready.at_stop.words());
    let holds = match &ready.window {
        Some(w) if w.from_h <= ready.stop_h && w.closes.is_none() => "; it stays so".to_owned(),
        Some(w) if w.from_h <= ready.stop_h && ready.stop_h <= w.to_h => {
            format!("; most are until {}", number::hours((w.to_h * 2.0).floor() / 2.0))
        }
        _ => String::new(),
    };
    format!("You stop at {stop}: {pots} are ready{holds}")
}

/// How the stop misses the hours at which most are ready; nothing where it does not.
pub fn missed(ready: &ReadyTime) -> Option<String> {
    let missed = &ready.stop.as_ref()?.missed;
    let (stop, pots) = (number::hours(ready.stop_h), ready.at_stop.words());
    let with =
        |goal: &Option<String>, how| goal.as_ref().map_or_else(String::new, |goal| format!("; {goal} {how}"));
    Some(match missed {
        Missed::Early(last) => {
            format!(
                "You stop too early: at {stop}, {pots} are ready{}",
                last.as_ref().map_or_else(String::new, |goal| format!("; reached last: {goal}"))
            )
        }
        Missed::Late(lost) => {
            format!("You stop too late: at {stop}, {pots} are ready{}", with(lost, "is lost by then"))
        }
        Missed::Always => format!("At {stop}, {pots} are ready"),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::chance::Chance;
    use potset_judge::ready::Observed;

    fn ready(first: &[Option<f64>], stop_h: f64, at_stop: usize) -> ReadyTime {
        ReadyTime::of(Observed {
            first_h: first,
            window: None,
            at_stop: Chance { of: at_stop, among: first.len() },
            stop_h,
            last: None,
            lost_at: &|_| false,
        })
    }

    #[test]
    fn half_and_most_are_counted() {
        let first: Vec<Option<f64>> = (1..=10).map(|h| (h <= 8).then(|| f64::from(h))).collect();
        let all = ready(&first, 20.0, 8);
        assert_eq!((all.half_h, all.most_h), (Some(5.0), Some(8.0)));
        assert_eq!(sentence(&all, None), "About half are ready by 5\u{a0}h, most by 8\u{a0}h");
        assert_eq!(all.stop, None, "8 in 10 are most");
    }

    #[test]
    fn what_is_not_reached_is_said() {
        let none = ready(&[None, None], 20.0, 0);
        assert_eq!(sentence(&none, None), "It does not get there in 72\u{a0}h");
        let some = ready(&[Some(30.0), None, None, None, None], 20.0, 0);
        assert_eq!(sentence(&some, None), "By 72\u{a0}h, 1 in 5 are ready");
        let early = ready(&[Some(30.0), Some(31.0), Some(40.0), None], 20.0, 0);
        let said = missed(&early).unwrap();
        assert!(said.starts_with("You stop too early"), "{said}");
        assert!(early.stop.unwrap().mend.is_some());
    }
}
