//! A pot under way: what is now, and what is next.

use crate::card::{CardAsk, code, plan};
use potset_base::clock::{Moment, Zone};
use potset_base::number;
use potset_doc::running::{RunningLine, RunningPot};

/// The pot of a card, as it is begun: its steps, frozen.
///
/// - `culture_in` — when the culture goes in, if that is known.
pub fn pot(ask: &CardAsk<'_>, culture_in: Option<Moment>) -> RunningPot {
    let design = ask.scenario.design;
    let lines = plan(ask).into_iter().map(|(at_h, words)| RunningLine { at_h, words });
    RunningPot {
        name: design.name.clone(),
        code: code(design),
        culture_in: culture_in.map_or_else(String::new, Moment::text),
        hold_h: ask.answer.verdict.stop_h,
        warmer: design.hold().map(|hold| (hold.warmer.clone(), hold.set_c, design.litres())),
        lines: lines.collect(),
    }
}

/// A pot under way, looked at by the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Underway {
    /// The last line that is over; nothing before the first.
    pub now: Option<String>,
    /// The next line, when, and how long that is from now.
    pub next: Option<String>,
    /// Each line: when, what, and whether it is over.
    pub lines: Vec<(String, String, bool)>,
}

/// Nothing for a pot whose start cannot be read.
pub fn underway(pot: &RunningPot, now: Moment, zone: &Zone) -> Option<Underway> {
    let start = Moment::parse(&pot.culture_in)?;
    let hours = now.hours_since_in(zone, start);
    let at = |h: f64| start.after_in(zone, h).day_and_time();
    let over = |h: f64| h <= hours;
    let lines = pot.lines.iter().map(|line| (at(line.at_h), line.words.clone(), over(line.at_h))).collect();
    let last = pot.lines.iter().rev().find(|line| over(line.at_h));
    let next = pot.lines.iter().find(|line| !over(line.at_h));
    Some(Underway {
        now: last.map(|line| line.words.clone()),
        next: next.map(|line| {
            let to_go = number::hours((line.at_h - hours).max(0.0));
            format!("In {to_go}, {}: {}", at(line.at_h), line.words)
        }),
        lines,
    })
}

/// The pot that wants something next, in a line.
pub fn next_of_all(pots: &[RunningPot], now: Moment, zone: &Zone) -> Option<String> {
    let all = pots.iter().filter_map(|pot| {
        let start = Moment::parse(&pot.culture_in)?;
        let hours = now.hours_since_in(zone, start);
        let line = pot.lines.iter().find(|line| line.at_h > hours)?;
        Some((line.at_h - hours, format!("{}: {}", pot.name, underway(pot, now, zone)?.next?)))
    });
    all.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, words)| words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::number::NBSP;

    #[test]
    fn what_is_next_is_told_across_the_change_of_clocks() {
        let line = |at_h: f64, words: &str| RunningLine { at_h, words: words.to_owned() };
        let pot = RunningPot {
            name: "Six jars".to_owned(),
            code: String::new(),
            culture_in: "2027-03-27 20:00".to_owned(),
            hold_h: 24.0,
            warmer: None,
            lines: vec![line(-0.5, "Warm it"), line(0.0, "Culture in"), line(24.0, "Stop")],
        };
        let paris = Zone::named("Europe/Paris").unwrap();
        let told = |now: &str| underway(&pot, Moment::parse(now).unwrap(), &paris).unwrap();
        assert_eq!(told("2027-03-27 18:00").now, None);
        // Source: published, directive 2000/84/EC: clocks go forward on 28 March 2027, so 24 h end at 21:00.
        let next = told("2027-03-28 20:30").next.unwrap().replace(NBSP, " ");
        assert_eq!(next, "In 30 min, Sun 21:00: Stop");
        assert_eq!(
            (told("2027-03-29 08:00").next, told("2027-03-29 08:00").now),
            (None, Some("Stop".to_owned()))
        );
    }
}
