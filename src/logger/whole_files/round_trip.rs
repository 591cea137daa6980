//! A course written in every layout is read back; the nights on which clocks are put forward and back; what a person corrects.

use potset_base::clock::{Moment, Zone};
use potset_base::units::Degrees;

use crate::{
    Begin, DayOrder, Decimal, Delimiter, Doubt, Fault, Odd, Role, Times, course, guess, ph_course, preview,
    read,
};

/// What is written: minutes since 18:00, °C, pH.
fn written() -> Vec<(i64, f64, f64)> {
    (0..40).map(|k| (k * 15, 38.5 + (k % 7) as f64 * 0.5, 6.5 - k as f64 * 0.05)).collect()
}

/// How a time is spelt, minutes since 2026-11-30 18:00 in Paris.
type Spelling = fn(i64) -> String;

fn day_clock(minutes: i64) -> (i64, i64, i64) {
    let all = 18 * 60 + minutes;
    (30 + all / 1440, all % 1440 / 60, all % 60)
}

/// Day, month and year; the log runs into the first of December.
fn date(minutes: i64) -> (i64, i64) {
    let (day, ..) = day_clock(minutes);
    if day > 30 { (day - 30, 12) } else { (day, 11) }
}

const SPELLINGS: [(&str, Spelling); 15] = [
    ("Date/Time", |m| {
        let ((d, mo), (_, h, mi)) = (date(m), day_clock(m));
        format!("2026-{mo:02}-{d:02} {h:02}:{mi:02}")
    }),
    ("Timestamp", |m| {
        let ((d, mo), (_, h, mi)) = (date(m), day_clock(m));
        format!("2026-{mo:02}-{d:02}T{h:02}:{mi:02}:00+01:00")
    }),
    ("Zeit", |m| {
        let ((d, mo), (_, h, mi)) = (date(m), day_clock(m));
        format!("{d:02}.{mo:02}.2026 {h:02}:{mi:02}")
    }),
    ("Horodatage", |m| {
        let ((d, mo), (_, h, mi)) = (date(m), day_clock(m));
        format!("{d:02}/{mo:02}/2026 {h:02}:{mi:02}:00")
    }),
    ("Date Time", |m| {
        let ((d, mo), (_, h, mi)) = (date(m), day_clock(m));
        let (hour, half) = ((h + 11) % 12 + 1, if h < 12 { "AM" } else { "PM" });
        format!("{mo}/{d}/2026 {hour}:{mi:02} {half}")
    }),
    ("Logged", |m| {
        let ((d, mo), (_, h, mi)) = (date(m), day_clock(m));
        format!("{d}-{}-2026 {h}:{mi:02}", if mo == 11 { "Nov" } else { "Dec" })
    }),
    ("Unix", |m| (1_796_058_000 + m * 60).to_string()),
    ("Epoch", |m| ((1_796_058_000 + m * 60) * 1000).to_string()),
    ("Time", |m| format!("{:.6}", 46_356.75 + m as f64 / 1440.0)),
    ("Elapsed", |m| format!("{}:{:02}:00", m / 60, m % 60)),
    ("Run time", |m| format!("{}d {:02}:{:02}:00", m / 1440, m % 1440 / 60, m % 60)),
    ("Time (h)", |m| format!("{:.4}", m as f64 / 60.0)),
    ("t/min", |m| m.to_string()),
    ("Seconds", |m| (m * 60).to_string()),
    ("millis", |m| (m * 60_000).to_string()),
];

/// The file of a layout.
fn file(title: &str, spelling: Spelling, delimiter: Delimiter, decimal: Decimal, degrees: Degrees) -> String {
    let sign = delimiter.sign();
    let number = |value: f64| {
        let text = format!("{value:.2}");
        if decimal == Decimal::Comma { text.replace('.', ",") } else { text }
    };
    let cell = |text: String| if text.contains(sign) { format!("\"{text}\"") } else { text };
    let unit = degrees.words();
    let mut out =
        [title.to_owned(), format!("Temp ({unit})"), "pH".to_owned()].map(cell).join(&sign.to_string());
    for (minutes, warmth, ph) in written() {
        let warmth = if degrees == Degrees::Fahrenheit { warmth * 1.8 + 32.0 } else { warmth };
        let mut time = spelling(minutes);
        // Times that are numbers have the file's decimal sign too.
        if decimal == Decimal::Comma && time.parse::<f64>().is_ok() {
            time = time.replace('.', ",");
        }
        out.push_str("\r\n");
        out.push_str(&[time, number(warmth), number(ph)].map(cell).join(&sign.to_string()));
    }
    out
}

#[test]
fn a_course_written_in_any_layout_is_read_back() {
    let paris = Zone::named("Europe/Paris").unwrap();
    let others = [Delimiter::Other('#'), Delimiter::Other('~')];
    let mut wrong = Vec::new();
    for (title, spelling) in SPELLINGS {
        for delimiter in Delimiter::USUAL.into_iter().chain(others) {
            for decimal in Decimal::ALL {
                for degrees in Degrees::ALL {
                    let file = file(title, spelling, delimiter, decimal, degrees);
                    let name = format!("{title} {delimiter:?} {decimal:?} {degrees:?}");
                    let layout = match guess(file.as_bytes()) {
                        Ok(layout) => layout,
                        Err(note) => {
                            wrong.push(format!("{name}: {note}"));
                            continue;
                        }
                    };
                    let rows = read(file.as_bytes(), &layout, &paris).unwrap();
                    let begin = match rows.times {
                        Times::World => Begin::At(Moment::parse("2026-11-30 18:00").unwrap(), &paris),
                        Times::SinceStart => Begin::Zero(0.0),
                    };
                    let near = |found: Vec<(f64, f64)>, of: fn(&(i64, f64, f64)) -> f64| {
                        let written = written();
                        found.len() == written.len()
                            && found.iter().zip(&written).all(|((h, value), own)| {
                                (h - own.0 as f64 / 60.0).abs() < 1e-4 && (value - of(own)).abs() < 0.006
                            })
                    };
                    let same = near(course(&rows, begin, true), |own| own.1)
                        && near(ph_course(&rows, begin), |own| own.2);
                    if !same
                        || !rows.faults.is_empty()
                        || !layout.doubts.is_empty()
                        || !rows.told.odd.is_empty()
                    {
                        wrong.push(format!("{name}: {layout:?} {:?} {:?}", rows.told, rows.faults.first()));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

fn hours(file: &str, zone: &Zone) -> Vec<f64> {
    let layout = guess(file.as_bytes()).unwrap();
    let rows = read(file.as_bytes(), &layout, zone).unwrap();
    course(&rows, Begin::Zero(0.0), true).into_iter().map(|(h, _)| h).collect()
}

#[test]
fn clocks_that_are_put_forward_and_back_leave_no_hole_and_no_heap() {
    // Source: published, directive 2000/84/EC, as in the tests of the calendar.
    let paris = Zone::named("Europe/Paris").unwrap();
    let file = |day: &str, clocks: &[&str]| {
        clocks.iter().enumerate().map(|(k, clock)| format!("{day} {clock};4{k},5\n")).collect::<String>()
    };
    let back = file("2027-10-31", &["01:30", "02:00", "02:30", "02:00", "02:30", "03:00"]);
    assert_eq!(hours(&back, &paris), [0.0, 0.5, 1.0, 1.5, 2.0, 2.5]);
    let newest: String = back.lines().rev().map(|line| format!("{line}\n")).collect();
    assert_eq!(hours(&newest, &paris), [0.0, 0.5, 1.0, 1.5, 2.0, 2.5]);
    let forward = file("2027-03-28", &["01:00", "01:30", "03:00", "03:30"]);
    assert_eq!(hours(&forward, &paris), [0.0, 0.5, 1.0, 1.5]);
    // The same clocks where none is put forward.
    assert_eq!(hours(&forward, &Zone::default()), [0.0, 0.5, 2.0, 2.5]);
}

#[test]
fn days_and_months_are_told_apart_by_the_values_then_by_the_order() {
    let order = |days: &[&str]| {
        let file: String = days.iter().map(|day| format!("{day} 23:50,41.5\n")).collect();
        let layout = guess(file.as_bytes()).unwrap();
        (layout.order, !layout.doubts.contains(&Doubt::DayOrder))
    };
    assert_eq!(order(&["30/11/2026", "01/12/2026"]), (DayOrder::DayFirst, true));
    assert_eq!(order(&["11/30/2026", "12/01/2026"]), (DayOrder::MonthFirst, true));
    assert_eq!(order(&["11/12/2026", "12/12/2026"]), (DayOrder::DayFirst, true));
    assert_eq!(order(&["12/11/2026", "12/12/2026"]), (DayOrder::MonthFirst, true));
    assert_eq!(order(&["26-11-30", "26-12-01"]), (DayOrder::YearFirst, true));
    assert_eq!(order(&["05/06/2026", "05/06/2026"]), (DayOrder::DayFirst, false));
    assert_eq!(order(&["05.06.2026", "05.06.2026"]), (DayOrder::DayFirst, true));
    assert_eq!(order(&["05/05/2026", "05/05/2026"]), (DayOrder::DayFirst, true));
}

#[test]
fn a_layout_that_a_person_corrects_is_kept_to() {
    let file = b"Time,Probe 1,Probe 2\n2026-11-30 18:00,41.0,20.5\n2026-11-30 18:30,41.5,20.6\n";
    let mut layout = guess(file).unwrap();
    assert_eq!(layout.columns, [Role::Time, Role::Warmth, Role::Skip]);
    assert_eq!(layout.doubts, [Doubt::Values]);
    let shown = preview(file, &layout);
    assert_eq!(shown.header.as_deref(), Some(["Time", "Probe 1", "Probe 2"].map(str::to_owned).as_slice()));
    assert_eq!((shown.rows.len(), shown.rows[0].0, shown.columns), (2, 2, 3));
    layout.set(2, Role::Warmth);
    let rows = read(file, &layout, &Zone::default()).unwrap();
    assert_eq!(course(&rows, Begin::Zero(1.0), true), [(1.0, 20.5), (1.5, 20.6)]);
    layout.columns = vec![Role::Time];
    assert!(read(file, &layout, &Zone::default()).unwrap_err().line().contains("temperature"));
    layout.columns = vec![Role::Warmth];
    assert!(read(file, &layout, &Zone::default()).unwrap_err().line().contains("time"));
    layout.columns = vec![Role::Time, Role::Warmth, Role::Warmth];
    assert!(read(file, &layout, &Zone::default()).unwrap_err().line().contains("Two columns"));
}

#[test]
fn spikes_and_equal_times_in_the_course() {
    let mut file = "Minutes;Temp\n0;41,0\n5;41,2\n10;85,0\n10;41,2\n15;41,1\n20;60,5\n25;41,0\n".to_owned();
    file.extend((6..12).map(|k| format!("{};41,{}\n", k * 5, k % 3)));
    let layout = guess(file.as_bytes()).unwrap();
    assert_eq!(layout.doubts, []);
    let rows = read(file.as_bytes(), &layout, &Zone::default()).unwrap();
    assert_eq!(rows.told.find(|odd| odd == Odd::Spike).map(|odd| (odd.count, odd.first_row)), Some((3, 4)));
    let at =
        |keep: bool| course(&rows, Begin::Zero(0.0), keep).into_iter().map(|(_, c)| c).collect::<Vec<_>>();
    assert_eq!(at(true)[..6], [41.0, 41.2, 63.1, 41.1, 60.5, 41.0]);
    assert_eq!(at(false)[..5], [41.0, 41.2, 41.1, 41.0, 41.0]);
    assert_eq!(rows.told.lines().len(), 2);
}

#[test]
fn columns_are_found_by_their_titles_and_by_their_looks() {
    use Role::{Clock, Day, Hours, Minutes, Ph, Skip, Time, Warmth};
    for (file, columns) in [
        (
            "No;Datum;Uhrzeit;Temperatur;Feuchte\n1;30.11.2026;18:00;41,0;50\n2;30.11.2026;18:05;41,1;50\n",
            vec![Skip, Day, Clock, Warmth, Skip],
        ),
        ("h,min,Temp\n0,0,41.0\n0,30,41.1\n1,0,41.0\n", vec![Hours, Minutes, Warmth]),
        ("Minutes,Hours,Temp\n0,0,41.0\n90,1.5,41.1\n180,3,41.0\n", vec![Minutes, Skip, Warmth]),
        ("2026-11-30 18:00 41.0 6.51\n2026-11-30 18:05 41.1 6.42\n", vec![Day, Clock, Warmth, Ph]),
        (
            "Time,pH,pH Temp(C)\n2026-11-30 18:00,6.51,41.0\n2026-11-30 18:05,6.42,41.1\n",
            vec![Time, Ph, Warmth],
        ),
        ("20261130;18:00;41,0\n20261130;18:05;41,1\n", vec![Day, Clock, Warmth]),
        ("No.,Temp\n1,41.2\n2,41.3\n", vec![Skip, Warmth]),
        ("Time,pH\n2026-11-30 18:00,6.51\n2026-11-30 18:05,6.42\n", vec![Time, Ph]),
    ] {
        assert_eq!(guess(file.as_bytes()).unwrap().columns, columns, "{file}");
    }
}

#[test]
fn the_unit_of_times_is_guessed_and_told_as_a_doubt() {
    for (step, role) in
        [(0.25, Role::Hours), (5.0, Role::Minutes), (300.0, Role::Seconds), (1000.0, Role::Milliseconds)]
    {
        let file: String = (0..9_u8).map(|k| format!("{};41.5\n", f64::from(k) * step)).collect();
        let layout = guess(file.as_bytes()).unwrap();
        assert_eq!((layout.columns, layout.doubts), (vec![role, Role::Warmth], vec![Doubt::TimeUnit]));
    }
}

#[test]
fn a_row_that_is_too_cold_is_told_in_the_reader_s_words() {
    let file = b"Time,Temp\n2026-11-30 18:00,-127\n2026-11-30 18:30,41.5\n";
    let rows = read(file, &guess(file).unwrap(), &Zone::default()).unwrap();
    assert_eq!(rows.faults.len(), 1);
    assert_eq!((rows.faults[0].row, rows.faults[0].why), (2, Fault::Warmth(-127.0)));
    assert_eq!(rows.faults[0].text, "2026-11-30 18:00,-127");
}
