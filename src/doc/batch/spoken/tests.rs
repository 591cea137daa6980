//! Lines of readings as people type them, and what is refused with which words.

use std::sync::LazyLock;

use super::*;
use crate::kitchen::PhBy;
use crate::{Kitchen, assets};
use potset_base::number::NBSP;
use potset_base::units::{self, Amounts, Degrees, Units};
use potset_base::words::{SweetWord, TangWord, TextureWord};

const US: Units = Units {
    degrees: Degrees::Fahrenheit,
    amounts: Amounts::UsCustomary,
    acidity: potset_base::acidity::AcidityUnit::Lactic,
};

/// A pot whose culture went in on a Sunday evening.
fn batch() -> Batch {
    let design = assets::demo("coconut-pot.ron").unwrap();
    Batch::begun("Six jars", "2026-11-29 18:30", "Europe/Paris", design, Kitchen::default())
}

fn paris() -> Zone {
    Zone::named("Europe/Paris").unwrap()
}

/// On the Tuesday at noon: 41 h 30 min after the culture.
fn hear(text: &str) -> Result<Heard, Note> {
    static BATCH: LazyLock<Batch> = LazyLock::new(batch);
    heard(text, &BATCH, Moment::parse("2026-12-01 12:00").unwrap(), &paris())
}

fn said(text: &str) -> String {
    match hear(text) {
        Ok(heard) => heard.sentence.replace(NBSP, " "),
        Err(note) => note.line(),
    }
}

#[test]
fn times_are_heard_as_people_say_them() {
    for (text, sentence) in [
        ("4.9", "41 h 30 min after the culture went in: pH 4.9"),
        ("now 4.9", "41 h 30 min after the culture went in: pH 4.9"),
        ("+6 h 4.9", "6 h after the culture went in: pH 4.9"),
        ("6h ph 4,9", "6 h after the culture went in: pH 4.9"),
        ("+ 6 h 30 min pH4.9", "6 h 30 min after the culture went in: pH 4.9"),
        ("6h30 4.9", "6 h 30 min after the culture went in: pH 4.9"),
        ("4.9 6.5 h", "6 h 30 min after the culture went in: pH 4.9"),
        ("90 min 4.9", "1 h 30 min after the culture went in: pH 4.9"),
        ("2 h ago 4.9", "39 h 30 min after the culture went in: pH 4.9"),
        ("1 day 2 hours 4.9", "26 h after the culture went in: pH 4.9"),
        ("21:40 4.9", "27 h 10 min after the culture went in: pH 4.9"),
        ("at 9 pm 4.9", "26 h 30 min after the culture went in: pH 4.9"),
        ("11:00: 4.9", "40 h 30 min after the culture went in: pH 4.9"),
        ("yesterday 21:40 strip 4.5", "27 h 10 min after the culture went in: strip pH 4.5"),
        ("sun 18:30 38 °C", "As the culture went in: 38 °C"),
        ("Monday at 8 in the evening 4.5 pH", "25 h 30 min after the culture went in: pH 4.5"),
        ("2026-11-30 06:00 4.9", "11 h 30 min after the culture went in: pH 4.9"),
    ] {
        assert_eq!(said(text), sentence, "{text}");
    }
}

#[test]
fn values_are_heard_in_any_unit() {
    let of = |text: &str| hear(text).unwrap_or_else(|note| panic!("{text}: {note}")).readings[0].what;
    for (text, what) in [
        ("ph 5", Observed::Ph(5.0)),
        ("5,0", Observed::Ph(5.0)),
        ("paper 4.5", Observed::Strip(4.5)),
        ("pH strip 4.5", Observed::Strip(4.5)),
        ("38", Observed::Warmth(38.0)),
        ("38.5°C", Observed::Warmth(38.5)),
        ("\u{2212}2 c", Observed::Warmth(-2.0)),
        ("212 F", Observed::Warmth(100.0)),
        ("warmth 38", Observed::Warmth(38.0)),
        ("0.62 %", Observed::Acidity(0.62)),
        ("62 °D", Observed::Acidity(0.62)),
        ("acidity 62 dornic", Observed::Acidity(0.62)),
        ("0.7 % lactic acid", Observed::Acidity(0.7)),
        ("bright", Observed::Tang(TangWord::Bright)),
        ("as sour as sweet", Observed::Sweetness(SweetWord::Balanced)),
        ("more sour than sweet", Observed::Sweetness(SweetWord::AcidLeads)),
        ("Ribbons.", Observed::Texture(TextureWord::Ribbons)),
        ("spread 9 cm", Observed::LineSpread(9.0)),
        ("9 cm spread", Observed::LineSpread(9.0)),
        ("line spread 90 mm", Observed::LineSpread(9.0)),
        ("thin layer 4 mm", Observed::ThinLayer(4.0)),
        ("layer 4", Observed::ThinLayer(4.0)),
        ("4 mm thin layer", Observed::ThinLayer(4.0)),
        ("whey 15 ml", Observed::Whey(15.0)),
        ("15 mL whey", Observed::Whey(15.0)),
        ("whey 2 tbsp", Observed::Whey(30.0)),
        ("whey 1 1/2 tbsp", Observed::Whey(22.5)),
        ("½ cup whey, pH 4.9", Observed::Whey(125.0)),
        ("no whey", Observed::Whey(0.0)),
    ] {
        assert_eq!(of(text), what, "{text}");
    }
    for (text, percent) in [("27 °SH", 0.6075), ("70 °Th", 0.63)] {
        let Observed::Acidity(heard) = of(text) else { panic!("{text}") };
        assert!((heard - percent).abs() < 1e-12, "{text}");
    }
    let Observed::LineSpread(cm) = of("spread 3.5 in") else { panic!() };
    assert!((cm - 8.89).abs() < 1e-12);
}

#[test]
fn a_kitchen_in_fahrenheit_has_its_own_numbers() {
    let _speaking = units::speak(US);
    let of = |text: &str| hear(text).map(|heard| heard.readings[0].what);
    assert_eq!(of("104"), Ok(Observed::Warmth(40.0)));
    assert_eq!(of("5"), Ok(Observed::Ph(5.0)), "no pot is at 5 °F");
    assert_eq!(of("38 °C"), Ok(Observed::Warmth(38.0)));
    assert_eq!(of("whey 1 tbsp").map(|what| what.words()), Ok(format!("whey 1{NBSP}tbsp")));
    assert!(of("whey 15").is_err(), "fifteen of what?");
    assert!(of("40").unwrap_err().mend.contains("40 °F"));
}

#[test]
fn several_in_one_line_share_their_time_and_name() {
    let heard =
        hear("21:40 4.9, 38 °C; bright 4 stars by Ann Lee photo jar-3.jpg note Smells of 2 pears").unwrap();
    assert_eq!(
        heard.sentence.replace(NBSP, " "),
        "27 h 10 min after the culture went in: pH 4.9, 38 °C, bright, 4 stars, photo jar-3.jpg, note “Smells of 2 \
         pears”, by Ann Lee"
    );
    assert_eq!(heard.readings.len(), 3);
    assert!(heard.readings.iter().all(|r| r.who == "Ann Lee" && (r.at_h - 27.0 - 1.0 / 6.0).abs() < 1e-9));
    assert_eq!((heard.readings[0].note.as_str(), heard.readings[1].note.as_str()), ("Smells of 2 pears", ""));
    assert_eq!(heard.changes, [BatchChange::Stars(4)]);
    let heard = hear("stopped by ann").unwrap();
    assert_eq!(heard.changes, [BatchChange::Who("ann".to_owned()), BatchChange::Stopped(Some(41.5))]);
    let remark = hear("note by and by").unwrap();
    assert_eq!((remark.readings[0].what, remark.readings[0].note.as_str()), (Observed::Remark, "by and by"));
    let name = hear("by Ann Sun 18:30 4.9").unwrap();
    assert_eq!((name.readings[0].who.as_str(), name.at_h), ("Ann", 0.0));
}

#[test]
fn what_is_not_understood_is_refused_with_the_words_that_would_be() {
    for (text, parts) in [
        ("foo", ["I don't know “foo”", "Try 4.9"]),
        ("brigth", ["I don't know “brigth”", "Try bright"]),
        ("5", ["could be a pH or a warmth", "Type pH 5, or 5 °C"]),
        ("+6 4.9", ["I don't know what “+6” counts", "Type it like +6 h"]),
        ("62", ["I don't know what “62” is", "62 °C, or 62 °D"]),
        ("21.40", ["I don't know what “21.40” is", "Type a time as 21:40"]),
        ("25:00", ["I don't know the number “25:00”", "a time as 21:40"]),
        ("9 cm", ["I don't know what has 9 cm", "Type spread 9 cm"]),
        ("pH", ["A number is missing", "pH 4.9"]),
        ("pH 49", ["pH is out of range", "2.5 to 9"]),
        ("pH -3", ["pH is out of range", "2.5 to 9"]),
        ("yesterday 4.9", ["“yesterday” needs a time", "yesterday 21:40"]),
        ("today 23:00 4.9", ["is still to come", "or none for now"]),
        ("+42 h 4.9", ["Tue 12:30 is still to come", "a time that is over"]),
        ("Sun 18:00 4.9", ["Sun 18:00 is before the culture went in, at Sun 18:30", "later time"]),
        ("50 h ago 4.9", ["before the culture went in", "later time"]),
        ("21:40 22:40 4.9", ["There are two times", "a line of its own"]),
        ("now", ["Nothing was read", "Try 4.9"]),
        ("", ["Nothing was read", "Try 4.9"]),
        ("6 stars", ["how many stars", "stars 0 to stars 5"]),
        ("by", ["There is no name", "by Ann"]),
        ("4,125", ["I don't know the number “4,125”", "4.9 or 4,9"]),
        ("no pH", ["none of", "no whey"]),
    ] {
        let line = hear(text).map_or_else(|note| note.line(), |heard| panic!("{text}: {heard:?}"));
        for part in parts {
            assert!(line.replace(NBSP, " ").contains(part), "{text}: {line}");
        }
    }
}

#[test]
fn a_batch_without_a_culture_and_one_of_long_ago_are_told() {
    let now = Moment::parse("2027-03-01 12:00").unwrap();
    let note = heard("4.9", &batch(), now, &paris()).unwrap_err();
    assert!(note.title.contains("more than 60 days"), "{note}");
    let open = Batch { culture_in: String::new(), ..batch() };
    assert!(heard("4.9", &open, now, &paris()).unwrap_err().title.contains("has not gone in"));
}

#[test]
fn hours_are_counted_across_the_change_of_clocks_and_from_another_zone() {
    // Source: published, directive 2000/84/EC: clocks go forward on 28 March 2027.
    let batch = Batch { culture_in: "2027-03-27 20:00".to_owned(), ..batch() };
    let at = |text: &str, now: &str, zone: &str| {
        let now = Moment::parse(now).unwrap();
        heard(text, &batch, now, &Zone::named(zone).unwrap()).unwrap().at_h
    };
    assert_eq!(at("8:00 4.9", "2027-03-28 12:00", "Europe/Paris"), 11.0);
    assert_eq!(at("4.9", "2027-03-28 12:00", "Europe/Paris"), 15.0);
    // The clock of the pot counts, wherever the machine's says it stands.
    assert_eq!(at("8:00 4.9", "2027-03-28 06:00", "America/New_York"), 11.0);
}

#[test]
fn a_kitchen_of_strips_reads_strips() {
    let kitchen = Kitchen { ph_by: PhBy::Strips, ..Kitchen::default() };
    let batch = Batch { kitchen, ..batch() };
    let now = Moment::parse("2026-12-01 12:00").unwrap();
    let of = |text: &str| heard(text, &batch, now, &paris()).unwrap().readings[0].what;
    assert_eq!([of("4.5"), of("meter 4.5")], [Observed::Strip(4.5), Observed::Ph(4.5)]);
}

#[test]
fn what_is_said_of_a_reading_is_heard_as_that_reading() {
    let mut all: Vec<Observed> = TangWord::ALL.map(Observed::Tang).to_vec();
    all.extend(SweetWord::ALL.map(Observed::Sweetness));
    all.extend(TextureWord::ALL.map(Observed::Texture));
    for i in 1..40 {
        let v = f64::from(i);
        all.extend([
            Observed::Ph(3.0 + 0.1 * v),
            Observed::Strip(3.0 + 0.1 * v),
            Observed::Acidity(0.02 * v),
            Observed::Warmth(v),
            Observed::LineSpread(0.5 * v),
            Observed::ThinLayer(v),
            Observed::Whey(5.0 * v),
        ]);
    }
    all.extend([Observed::ThinLayer(0.0), Observed::Whey(0.0)]);
    for units in [Units::default(), US] {
        let _speaking = units::speak(units);
        for what in &all {
            let words = what.words();
            let back = hear(&words).unwrap_or_else(|note| panic!("{words}: {note}")).readings[0].what;
            assert_eq!(back.kind(), what.kind());
            match (what, back) {
                // Cups and spoons are said to an eighth.
                (Observed::Whey(ml), Observed::Whey(heard)) if units == US => {
                    assert!((ml - heard).abs() <= ml / 8.0, "{ml} {words} {heard}");
                }
                // What is said is as fine as it is said.
                _ => assert_eq!(back.words(), words),
            }
        }
    }
}

#[test]
fn no_line_is_a_panic() {
    let parts = [
        "6", "h", "4.9", "+", "°C", "whey", "by", "note", "no", "21:40", "sun", ",", "é", "stars", "ago",
        "\"", ":",
    ];
    for a in parts {
        for b in parts {
            for c in parts {
                for text in [format!("{a} {b} {c}"), format!("{a}{b}{c}")] {
                    if let Ok(heard) = hear(&text) {
                        assert!(heard.at_h >= 0.0 && !heard.sentence.is_empty(), "{text}");
                    }
                }
            }
        }
    }
}
