//! Calendar files, read back by a parser that is not ours: every line of the plan at its instant, on both nights on which the
//! clocks change.

use ical::IcalParser;
use ical::parser::Component;
use ical::property::Property;
use potset_base::clock::{Moment, Zone};
use potset_doc::batch::PlanLine;
use potset_doc::{Batch, Kitchen};
use potset_export::calendar::calendar;

use crate::support::demo;

fn pot(start: &str) -> Batch {
    let line = |at_h: f64, words: &str| PlanLine { at_h, words: words.to_owned() };
    let name = "Six jars, for Tuesday; \\ “cold”";
    Batch {
        code: "7K2M9Q".to_owned(),
        plan: vec![
            line(
                -0.75,
                "Warm the base to 42 °C, in a hot-water bath, and go on until the thermometer says so (45 min)",
            ),
            line(0.0, "Stir the culture in"),
            line(12.0, "Look: pH"),
            line(24.0, "Stop: into the cold"),
        ],
        ..Batch::begun(name, start, "", demo("coconut-pot.ron"), Kitchen::default())
    }
}

fn value<'a>(all: &'a [Property], name: &str) -> &'a str {
    all.iter()
        .find(|p| p.name == name)
        .and_then(|p| p.value.as_deref())
        .unwrap_or_else(|| panic!("no {name}"))
}

/// Hours from one UTC time of a calendar to another.
fn hours(from: &str, to: &str) -> f64 {
    let read = |text: &str| {
        assert!(text.ends_with('Z') && text.len() == 16, "{text}");
        let part = |a: usize, b: usize| &text[a..b];
        let moment = format!("{}-{}-{} {}:{}", part(0, 4), part(4, 6), part(6, 8), part(9, 11), part(11, 13));
        Moment::parse(&moment).unwrap()
    };
    read(to).hours_since(read(from))
}

#[test]
fn a_calendar_is_read_back_by_another_parser_across_both_changes_of_the_clocks() {
    for (zone, start, first) in [
        // Source: published, directive 2000/84/EC: clocks go forward on 28 March 2027 and back on 31 October 2027.
        ("Europe/Paris", "2027-03-27 20:00", "20270327T190000Z"),
        ("Europe/Paris", "2027-10-30 20:00", "20271030T180000Z"),
        // Source: published, Uniform Time Act as amended 2005: forward on 14 March 2027, back on 7 November 2027.
        ("America/New_York", "2027-03-13 20:00", "20270314T010000Z"),
        ("America/New_York", "2027-11-06 20:00", "20271107T000000Z"),
    ] {
        let pot = pot(start);
        let text = calendar(std::slice::from_ref(&pot), Zone::named(zone).as_ref()).unwrap();
        let mut parsed = IcalParser::new(text.as_bytes());
        let calendar = parsed.next().unwrap().unwrap();
        assert!(parsed.next().is_none(), "one calendar");
        assert_eq!(value(&calendar.properties, "VERSION"), "2.0");
        assert_eq!(calendar.events.len(), pot.plan.len());
        let mut ids = Vec::new();
        for (event, line) in calendar.events.iter().zip(&pot.plan) {
            let of = |name: &str| value(&event.properties, name);
            // What lasts 24 h lasts 24 h, whatever the clock on the wall does.
            assert_eq!(hours(first, of("DTSTART")), line.at_h, "{zone} {start}: {}", line.words);
            assert_eq!(hours(of("DTSTART"), of("DTEND")), 0.25);
            let summary = of("SUMMARY").replace("\\,", ",").replace("\\;", ";").replace("\\\\", "\\");
            assert_eq!(summary, format!("{}: {}", pot.name, line.words));
            assert_eq!(of("DTSTAMP"), first, "no clock is read");
            assert_eq!(event.alarms.len(), 1);
            assert_eq!(value(&event.alarms[0].properties, "ACTION"), "DISPLAY");
            assert!(event.get_property("UID").is_some());
            ids.push(of("UID").to_owned());
        }
        ids.sort();
        ids.dedup();
        assert_eq!(ids.len(), pot.plan.len(), "each entry has a name of its own");
    }
}

#[test]
fn without_a_zone_the_times_are_those_of_any_clock() {
    let text = calendar(&[pot("2027-03-27 20:00")], None).unwrap();
    let calendar = IcalParser::new(text.as_bytes()).next().unwrap().unwrap();
    assert_eq!(value(&calendar.events[1].properties, "DTSTART"), "20270327T200000");
    assert_eq!(value(&calendar.events[3].properties, "DTSTART"), "20270328T200000");
}
