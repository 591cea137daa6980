//! A batch in words: as it is begun, its readings, what is now and what is next, and its line in a list.

use crate::card::{CardAsk, code, plan};
use potset_base::clock::{Moment, Zone, day_words};
use potset_base::number;
use potset_base::words::capital;
use potset_doc::Batch;
use potset_doc::batch::known::BatchSummary;
use potset_doc::batch::spoken::after_culture;
use potset_doc::batch::{BatchReading, PlanLine};
use potset_doc::steps::Step;

/// The batch of a card, as it is begun: design, kitchen and steps, frozen.
///
/// - `culture_in` — when the culture goes in, if that is known, by the clock of `zone`.
pub fn begun(ask: &CardAsk<'_>, culture_in: Option<Moment>, zone: &Zone) -> Batch {
    let scenario = ask.scenario;
    let mut design = scenario.design.clone();
    design.refresh_snapshot(scenario.pantry);
    let lines = plan(ask).into_iter().map(|(at_h, words)| PlanLine { at_h, words });
    let start = culture_in.map_or_else(String::new, Moment::text);
    let name = design.name.clone();
    Batch {
        code: code(scenario.design),
        plan: lines.collect(),
        ..Batch::begun(&name, &start, zone.name(), design, scenario.kitchen.clone())
    }
}

/// A reading as a person reads it, without its time: "pH 4.9, by Ann. Smells of pears".
pub fn reading(reading: &BatchReading) -> String {
    let said = [
        reading.what.words(),
        if reading.photo.is_empty() { String::new() } else { format!("photo {}", reading.photo) },
        if reading.who.is_empty() { String::new() } else { format!("by {}", reading.who) },
    ];
    let said: Vec<String> = said.into_iter().filter(|part| !part.is_empty()).collect();
    let note = reading.note.trim();
    match (said.is_empty(), note.is_empty()) {
        (false, false) => format!("{}. {}", said.join(", "), capital(note)),
        (false, true) => said.join(", "),
        (true, _) => note.to_owned(),
    }
}

/// When a reading was: by the clock of the batch, and in hours from the culture.
pub fn when(batch: &Batch, at_h: f64) -> (String, String) {
    let clock = batch.moment(at_h).map_or_else(String::new, Moment::day_and_time);
    (clock, after_culture(at_h))
}

/// The day by which a batch is to be eaten, "2026-12-10": as was said, else as its design keeps it from when it was stopped.
pub fn use_by(batch: &Batch) -> Option<String> {
    if !batch.use_by.is_empty() {
        return Some(batch.use_by.clone());
    }
    let design = &batch.design;
    let days = design
        .steps
        .iter()
        .find_map(|s| if let Step::Store { days, .. } = s { Some(*days) } else { None })?;
    let stopped = batch.stopped_h.or_else(|| Some(design.hold()?.hours))?;
    Some(batch.moment(stopped + 24.0 * days)?.day())
}

/// A batch in the line of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BatchLine {
    pub name: String,
    /// "26 Nov 2026, 18:30".
    pub when: String,
    /// Under way, or what became of it.
    pub state: String,
    /// The last reading with its time; empty where there is none.
    pub last: String,
    /// "4 stars"; empty where it has none.
    pub stars: String,
}

/// The line of a batch.
///
/// - `now` — by the clock of `zone`.
pub fn line(batch: &BatchSummary, now: Option<Moment>, zone: &Zone) -> BatchLine {
    let start = Moment::parse(&batch.culture_in);
    let own = Zone::named(&batch.zone).unwrap_or_default();
    let in_h = start.zip(now).map(|(start, now)| now.in_zone(zone, &own).hours_since_in(&own, start));
    let state = match (in_h, batch.stopped_h) {
        (_, Some(at_h)) if batch.ended => format!("Ended, stopped after {}", number::hours(at_h)),
        _ if batch.ended => "Ended".to_owned(),
        (_, Some(at_h)) => format!("In the cold, stopped after {}", number::hours(at_h)),
        (None, None) if start.is_none() => "The culture is not in yet".to_owned(),
        (None, None) => "Under way".to_owned(),
        (Some(hours), None) if hours < 0.0 => format!("Begins in {}", number::hours(-hours)),
        (Some(hours), None) => format!("Under way for {}", number::hours(hours)),
    };
    let last = batch.last.as_ref().map(|last| {
        let time = start.map_or_else(String::new, |start| start.after_in(&own, last.at_h).day_and_time());
        format!("{time}: {}", last.what.words())
    });
    BatchLine {
        name: batch.name.clone(),
        when: start.map_or_else(String::new, Moment::date_and_time),
        state,
        last: last.unwrap_or_default(),
        stars: match batch.stars {
            0 => String::new(),
            1 => "1 star".to_owned(),
            stars => format!("{stars} stars"),
        },
    }
}

/// A pot under way, looked at by the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Underway {
    /// The last line of the plan that is over; nothing before the first.
    pub now: Option<String>,
    /// The next line, when, and how long that is from now.
    pub next: Option<String>,
    /// Each line: when, what, and whether it is over.
    pub lines: Vec<(String, String, bool)>,
}

/// Nothing for a pot whose start cannot be read.
///
/// - `now` — by the clock of `zone`, by which times are told.
pub fn underway(batch: &Batch, now: Moment, zone: &Zone) -> Option<Underway> {
    let hours = batch.hours_to(now, zone)?;
    let start = batch.start()?.in_zone(&batch.clock(), zone);
    let at = |h: f64| start.after_in(zone, h).day_and_time();
    let over = |h: f64| h <= hours;
    let lines = batch.plan.iter().map(|line| (at(line.at_h), line.words.clone(), over(line.at_h))).collect();
    let last = batch.plan.iter().rev().find(|line| over(line.at_h));
    let next = batch.plan.iter().find(|line| !over(line.at_h));
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
pub fn next_of_all<'a>(
    pots: impl IntoIterator<Item = &'a Batch>,
    now: Moment,
    zone: &Zone,
) -> Option<String> {
    let all = pots.into_iter().filter_map(|pot| {
        let hours = pot.hours_to(now, zone)?;
        let line = pot.plan.iter().find(|line| line.at_h > hours)?;
        Some((line.at_h - hours, format!("{}: {}", pot.name, underway(pot, now, zone)?.next?)))
    });
    all.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, words)| words)
}

/// Lines of the plan whose time came between two moments: "Six jars, 21:40: Stop".
///
/// - `between` — after the first, up to the second, by the clock of `zone`.
pub fn due(batch: &Batch, between: (Moment, Moment), zone: &Zone) -> Vec<String> {
    let hours = |moment| batch.hours_to(moment, zone);
    let (Some(from), Some(to), Some(start)) = (hours(between.0), hours(between.1), batch.start()) else {
        return Vec::new();
    };
    let start = start.in_zone(&batch.clock(), zone);
    let lines = batch.plan.iter().filter(|line| line.at_h > from && line.at_h <= to);
    lines
        .map(|line| {
            format!("{}, {}: {}", batch.name, start.after_in(zone, line.at_h).day_and_time(), line.words)
        })
        .collect()
}

/// A day in words, "10 Dec 2026".
pub fn day(day: &str) -> String {
    day_words(day)
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_base::number::NBSP;
    use potset_doc::batch::Observed;
    use potset_doc::{Kitchen, assets};

    fn pot(plan: &[(f64, &str)]) -> Batch {
        let design = assets::demo("coconut-pot.ron").unwrap();
        let plan = plan.iter().map(|(at_h, words)| PlanLine { at_h: *at_h, words: (*words).to_owned() });
        let pot = Batch::begun("Six jars", "2027-03-27 20:00", "Europe/Paris", design, Kitchen::default());
        Batch { plan: plan.collect(), ..pot }
    }

    fn paris() -> Zone {
        Zone::named("Europe/Paris").unwrap()
    }

    #[test]
    fn what_is_next_is_told_across_the_change_of_clocks() {
        let pot = pot(&[(-0.5, "Warm it"), (0.0, "Culture in"), (24.0, "Stop")]);
        let told = |now: &str| underway(&pot, Moment::parse(now).unwrap(), &paris()).unwrap();
        assert_eq!(told("2027-03-27 18:00").now, None);
        // Source: published, directive 2000/84/EC: clocks go forward on 28 March 2027, so 24 h end at 21:00.
        let next = told("2027-03-28 20:30").next.unwrap().replace(NBSP, " ");
        assert_eq!(next, "In 30 min, Sun 21:00: Stop");
        assert_eq!(
            (told("2027-03-29 08:00").next, told("2027-03-29 08:00").now),
            (None, Some("Stop".to_owned()))
        );
        // On a clock elsewhere the same is told in its own time.
        let york = Zone::named("America/New_York").unwrap();
        let there = underway(&pot, Moment::parse("2027-03-28 14:30").unwrap(), &york).unwrap().next.unwrap();
        assert_eq!(there.replace(NBSP, " "), "In 30 min, Sun 15:00: Stop");
        let next = next_of_all([&pot], Moment::parse("2027-03-28 20:30").unwrap(), &paris()).unwrap();
        assert_eq!(next.replace(NBSP, " "), "Six jars: In 30 min, Sun 21:00: Stop");
    }

    #[test]
    fn what_is_due_is_told_once_as_its_time_passes() {
        let pot = pot(&[(0.0, "Culture in"), (12.0, "Check it"), (24.0, "Stop")]);
        let told = |from: &str, to: &str| {
            due(&pot, (Moment::parse(from).unwrap(), Moment::parse(to).unwrap()), &paris())
        };
        assert_eq!(told("2027-03-27 20:00", "2027-03-28 08:59"), [""; 0]);
        let said = "Six jars, Sun 09:00: Check it";
        assert_eq!(told("2027-03-28 08:59", "2027-03-28 09:00"), [said]);
        assert_eq!(told("2027-03-28 09:00", "2027-03-28 09:01"), [""; 0]);
        assert_eq!(told("2027-03-27 19:00", "2027-03-29 09:00").len(), 3);
    }

    #[test]
    fn a_batch_is_told_in_a_line() {
        let mut pot = pot(&[]);
        let told = |pot: &Batch, now: Option<&str>| {
            let now = now.map(|now| Moment::parse(now).unwrap());
            let line = line(&BatchSummary::of(pot), now, &paris());
            [line.when, line.state, line.last, line.stars].join(" | ").replace(NBSP, " ")
        };
        assert_eq!(told(&pot, None), "27 Mar 2027, 20:00 | Under way |  | ");
        assert_eq!(told(&pot, Some("2027-03-27 19:30")), "27 Mar 2027, 20:00 | Begins in 30 min |  | ");
        pot.insert(BatchReading::new(11.0, Observed::Ph(4.9)));
        pot.insert(BatchReading {
            note: "looks fine".to_owned(),
            ..BatchReading::new(12.0, Observed::Remark)
        });
        pot.stars = 4;
        assert_eq!(
            told(&pot, Some("2027-03-28 08:00")),
            "27 Mar 2027, 20:00 | Under way for 11 h | Sun 08:00: pH 4.9 | 4 stars"
        );
        pot.stopped_h = Some(23.5);
        assert!(told(&pot, None).contains("In the cold, stopped after 23 h 30 min"));
        pot.ended = true;
        assert!(told(&pot, None).contains("Ended, stopped after 23 h 30 min"));
        pot.culture_in.clear();
        (pot.stopped_h, pot.ended) = (None, false);
        assert!(told(&pot, None).contains("not in yet"));
    }

    #[test]
    fn a_reading_is_told_with_its_name_and_note() {
        let of = |what: Observed| BatchReading { who: "Ann".to_owned(), ..BatchReading::new(1.0, what) };
        let one = BatchReading { note: "smells of pears".to_owned(), ..of(Observed::Ph(4.9)) };
        assert_eq!(reading(&one).replace(NBSP, " "), "pH 4.9, by Ann. Smells of pears");
        let bare = BatchReading { who: String::new(), what: Observed::Remark, ..one };
        assert_eq!(reading(&bare), "smells of pears");
        assert_eq!(
            when(&pot(&[]), 11.0),
            ("Sun 08:00".to_owned(), format!("11{NBSP}h after the culture went in"))
        );
    }

    #[test]
    fn it_is_eaten_by_the_day_that_was_said_or_that_the_design_keeps_it() {
        let mut pot = pot(&[]);
        let days = 7.0;
        pot.design.steps.retain(|step| !matches!(step, Step::Store { .. }));
        assert_eq!(use_by(&pot), None);
        pot.design.steps.push(Step::Store { days, at_c: 4.0 });
        pot.stopped_h = Some(24.0);
        let planned = use_by(&pot).unwrap();
        assert_eq!(Some(planned), pot.moment(24.0 + 24.0 * days).map(Moment::day));
        pot.use_by = "2027-04-01".to_owned();
        assert_eq!(use_by(&pot).as_deref(), Some("2027-04-01"));
    }
}
