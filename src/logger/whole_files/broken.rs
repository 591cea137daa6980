//! Broken files of loggers, and what must come of each; and what must hold for any bytes.

use potset_base::clock::Zone;

use crate::{Layout, Rows, guess, preview, read};

/// A good head of a file, and the rows after it.
fn good(rows: &str) -> String {
    format!(
        "Time;Temp (°C);pH\n2026-11-30 18:00;41,0;6,5\n2026-11-30 18:05;41,1;6,4\n{rows}2026-11-30 18:30;41,2;6,1\n"
    )
}

/// Every row is a point, a fault, a title or blank, and no two of them.
fn sums_up(rows: &Rows) {
    let told = &rows.told;
    let seen = rows.points.len() + rows.faults.len() + told.titles + told.blank;
    assert_eq!(seen, told.rows);
    let mut all: Vec<usize> = rows.points.iter().map(|point| point.row).collect();
    all.extend(rows.faults.iter().map(|fault| fault.row));
    all.sort_unstable();
    assert!(all.windows(2).all(|pair| pair[0] < pair[1]) && all.last().is_none_or(|last| *last <= told.rows));
    assert!(rows.points.windows(2).all(|pair| pair[0].at <= pair[1].at));
    let finite = |point: &crate::Point| {
        point.at.is_finite() && point.warmth_c.or(point.ph).is_some_and(f64::is_finite)
    };
    assert!(rows.points.iter().all(finite));
    assert!(rows.faults.iter().all(|fault| fault.text.chars().count() <= 60 && !fault.words().is_empty()));
    assert!(told.odd.iter().all(|odd| odd.count > 0 && odd.first_row > 0 && odd.first_row <= told.rows));
}

/// What came of a file, in short: points, faults with their rows, titles, blank rows, and what is odd with its first row.
fn told(bytes: &[u8]) -> String {
    let layout = match guess(bytes) {
        Ok(layout) => layout,
        Err(note) => return note.line(),
    };
    preview(bytes, &layout);
    let rows = match read(bytes, &layout, &Zone::named("Europe/Paris").unwrap()) {
        Ok(rows) => rows,
        Err(note) => return format!("{note}, {:?}?", layout.doubts),
    };
    sums_up(&rows);
    let mut out = format!("{} points", rows.points.len());
    for fault in &rows.faults {
        out += &format!(", {} {:?}", fault.row, fault.why);
    }
    out += &format!(", {}+{}", rows.told.titles, rows.told.blank);
    for odd in &rows.told.odd {
        out += &format!(", {:?} {}@{}", odd.what, odd.count, odd.first_row);
    }
    for doubt in layout.doubts {
        out += &format!(", {doubt:?}?");
    }
    out
}

fn wide(text: &str) -> Vec<u8> {
    text.encode_utf16().flat_map(u16::to_le_bytes).collect()
}

/// What is wrong, the file, and what must come of it.
type Case = (&'static str, Vec<u8>, &'static str);

fn whole(file: &str) -> Vec<u8> {
    file.as_bytes().to_vec()
}

/// Files that are damaged, or none.
fn damaged() -> Vec<Case> {
    let text = |rows: &str| good(rows).into_bytes();
    vec![
        ("good", text(""), "3 points, 1+0"),
        ("empty", whole(""), "file: The file holds no rows. Export it from the logger once more"),
        (
            "blank rows only",
            whole("\n\n \n"),
            "file: The file holds no rows. Export it from the logger once more",
        ),
        (
            "a header only",
            whole("Time;Temp\n"),
            "file: I find no row with a time and a value. Export both columns, or choose what parts them",
        ),
        (
            "prose",
            whole("Dear reader,\nthis is no log, is it?\n"),
            "file: I find no row with a time and a value. Export both columns, or choose what parts them",
        ),
        (
            "binary",
            (0..4000_u32).map(|k| ((k * 7919) >> 3) as u8).collect(),
            "file: This is not a file of text. Export it from the logger as CSV or as text",
        ),
        (
            "faults only",
            whole("Time,Temp\nsoon,warm\nlater,hot\n"),
            "file: I find no row with a time and a value. Export both columns, or choose what parts them",
        ),
        (
            "cut in the middle of a row",
            whole("Time;Temp\n2026-11-30 18:00;41,0\n2026-11-30 18:05;41,1\n2026-11-3"),
            "2 points, 4 Columns { has: 1, wanted: 2 }, 1+0",
        ),
        (
            "cut before the value",
            text("2026-11-30 18:10;\n2026-11-30 18:15\n"),
            "3 points, 4 NoValue, 5 Columns { has: 1, wanted: 2 }, 1+0",
        ),
        ("zeros in a row", text("2026-11-30 18:10;41\0,0;6,3\n"), "3 points, 4 NotText, 1+0"),
        ("zeros at the end", [text(""), vec![0; 64]].concat(), "3 points, 5 NotText, 1+0"),
        (
            "a huge line",
            text(&format!("{}\n", "9".repeat(300_000))),
            "3 points, 4 Columns { has: 1, wanted: 2 }, 1+0",
        ),
        ("ends by CR", good("").replace('\n', "\r").into_bytes(), "3 points, 1+0"),
        (
            "mixed ends",
            good("2026-11-30 18:10;41,1;6,3\r\n\r2026-11-30 18:15;41,1;6,3\r\n").into_bytes(),
            "5 points, 1+1",
        ),
        ("UTF-16 without a mark", wide(&good("")), "3 points, 1+0"),
        ("UTF-16 cut in a sign", wide(&good(""))[1..].to_vec(), "3 points, 5 NotText, 1+0"),
        (
            "Latin-1",
            good("").chars().map(|sign| u8::try_from(u32::from(sign)).unwrap()).collect(),
            "3 points, 1+0",
        ),
    ]
}

/// Files with odd columns.
fn columns() -> Vec<Case> {
    let text = |rows: &str| good(rows).into_bytes();
    let many = |row: &dyn Fn(usize) -> String| (0..12).map(row).collect::<String>().into_bytes();
    vec![
        (
            "mixed delimiters",
            text("2026-11-30 18:10,41.3,6.3\n2026-11-30 18:15\t41,3\t6,3\n"),
            "3 points, 4 Columns { has: 1, wanted: 2 }, 5 Columns { has: 1, wanted: 2 }, 1+0",
        ),
        (
            "one column",
            whole("41.2\n41.3\n41.2\n"),
            "file: I find no row with a time and a value. Export both columns, or choose what parts them",
        ),
        (
            "one column of decimal commas",
            whole("41,2\n41,3\n41,2\n"),
            "columns: No column is said to hold the time. Choose the column of times, [Time, Values]?",
        ),
        (
            "five hundred columns",
            many(&|k| format!("2026-11-30 18:{:02},41.{k}{}\n", k * 5, ",7".repeat(498))),
            "12 points, 0+0, Values?",
        ),
        (
            "a mark never closed",
            text("\"2026-11-30 18:10;41,1;6,3\n\"2026-11-30 18:15\";\"41,2\";\"6,2\"\n"),
            "4 points, 4 Time, 1+0",
        ),
        (
            "a header in the middle",
            text("Time;Temp (°C);pH\n2026-11-30 18:10;41,1;6,3\n"),
            "4 points, 2+0, TitlesAgain 1@4",
        ),
        (
            "a preamble",
            whole(
                "Serial number: 12\nInterval; 300 s\n\nNo.;Date;Time;Temp;Humidity\n;;;°C;%\n1;30.11.2026;18:00;41,0;50\n2;30.11.2026;18:05;41,1;50\n",
            ),
            "2 points, 4+1",
        ),
        (
            "trailing delimiters",
            whole("Time,Temp,\n2026-11-30 18:00,41.2,\n2026-11-30 18:05,41.3,\n,,\n"),
            "2 points, 1+1",
        ),
        (
            "notes behind the values",
            text("2026-11-30 18:10;41,1;6,3;stirred; by hand\n2026-11-30 18:15;41,1;6,3;4\n"),
            "4 points, 5 Columns { has: 4, wanted: 3 }, 1+0, Wide 1@4",
        ),
        (
            "a fault in the first row",
            whole("Time,Temp\n2026-11-30 18:00,ERR\n2026-11-30 18:05,41.3\n2026-11-30 18:10,41.3\n"),
            "2 points, 2 NoValue, 1+0",
        ),
        (
            "decimal commas between commas",
            whole("Time,Temp\n2026-11-30 18:00,41,2\n2026-11-30 18:05,41,3\n"),
            "2 points, 1+0, Commas?",
        ),
        (
            "one decimal comma between commas",
            whole("Time,Temp\n2026-11-30 18:00,41.2\n2026-11-30 18:05,41,3\n"),
            "1 points, 3 Columns { has: 3, wanted: 2 }, 1+0",
        ),
    ]
}

/// Files with odd values.
fn values() -> Vec<Case> {
    let text = |rows: &str| good(rows).into_bytes();
    let many = |row: &dyn Fn(usize) -> String| (0..12).map(row).collect::<String>().into_bytes();
    vec![
        (
            "values that are all faults",
            whole("Time,Temp\n2026-11-30 18:00,999\n2026-11-30 18:05,-127\n"),
            "0 points, 2 Warmth(999.0), 3 Warmth(-127.0), 1+0",
        ),
        ("mixed decimals", text("2026-11-30 18:10;41.3;6.3\n"), "4 points, 1+0"),
        (
            "marks for no value",
            text("2026-11-30 18:10;---;\n2026-11-30 18:15;ERR;n/a\n2026-11-30 18:20;NaN;6,2\n"),
            "4 points, 4 NoValue, 5 NoValue, 1+0",
        ),
        (
            "numbers that are none",
            text("2026-11-30 18:10;1e999;6,2\n2026-11-30 18:15;4 1;\n2026-11-30 18:20;4_1;x\n"),
            "4 points, 5 Value, 6 Value, 1+0, Cell 1@4",
        ),
        (
            "units in the cells",
            whole("Time,Temp\n2026-11-30 18:00,41.2 °C\n2026-11-30 18:05,41.3°C\n"),
            "2 points, 1+0",
        ),
        (
            "°C and °F mixed",
            text("2026-11-30 18:10;106,0 °F;6,3\n2026-11-30 18:15;314 K;\n"),
            "4 points, 5 Value, 1+0, OtherDegrees 1@4",
        ),
        (
            "parted thousands",
            whole("Seconds,Temp\n0,41.0\n\"1,200\",41.1\n\"2,400\",41.2\n\"3,600\",41.3\n"),
            "4 points, 1+0",
        ),
        ("all values equal", many(&|k| format!("{};41\n", k * 60)), "12 points, 0+0, TimeUnit?"),
        (
            "a sensor that is off",
            text(
                "2026-11-30 18:10;-127;6,3\n2026-11-30 18:15;85;6,3\n2026-11-30 18:20;65535;6,3\n2026-11-30 18:25;41;6,2\n",
            ),
            "7 points, 1+0, Cell 2@4, Spike 1@5",
        ),
        (
            "no header, °F",
            whole("2026-11-30 18:00,106.2\n2026-11-30 18:05,106.3\n"),
            "2 points, 0+0, Degrees?",
        ),
    ]
}

/// Files with odd times.
fn times() -> Vec<Case> {
    let text = |rows: &str| good(rows).into_bytes();
    let many = |row: &dyn Fn(usize) -> String| (0..12).map(row).collect::<String>().into_bytes();
    vec![
        ("no time", text(";41,0;6,2\n"), "3 points, 4 NoTime, 1+0"),
        (
            "days that are none",
            text("2026-02-30 18:10;41;\n0000-01-01 00:00;41;\n99999-01-01 00:00;41;\n1850-01-01 00:00;41;\n"),
            "3 points, 4 TimeRange, 5 TimeRange, 6 TimeRange, 7 TimeRange, 1+0",
        ),
        (
            "hours before the start",
            whole("Hours,Temp\n-1.0,20\n-0.5,30\n0,41\n0.5,41\n1.0,41\n"),
            "5 points, 1+0",
        ),
        (
            "the same time twice",
            text("2026-11-30 18:05;43,1;6,3\n2026-11-30 18:05;41,1;6,4\n"),
            "5 points, 1+0, SameTime 2@4",
        ),
        (
            "newest first",
            many(&|k| format!("2026-11-30 18:{:02};4{},5\n", 55 - k * 5, k % 3)),
            "12 points, 0+0, NewestFirst 12@1",
        ),
        (
            "rows in disorder",
            text("2026-11-30 18:20;41,1;6,3\n2026-11-30 18:10;41,1;6,3\n2026-11-30 18:15;41,1;6,3\n"),
            "6 points, 1+0, Unordered 1@5",
        ),
        (
            "a clock set back",
            many(&|k| format!("2026-11-30 {}:{:02};41,5\n", if k < 6 { 18 } else { 17 }, k * 5)),
            "12 points, 0+0, Unordered 1@7",
        ),
        (
            "a jump of years",
            text("2000-01-01 00:00;41,1;6,3\n2000-01-01 00:05;41,1;6,3\n"),
            "5 points, 1+0, Unordered 1@4, Gap { longest_s: 849376500.0 } 1@2",
        ),
        (
            "a gap",
            many(&|k| format!("2026-11-30 {}:{:02},41.5\n", if k < 6 { 18 } else { 21 }, k * 5)),
            "12 points, 0+0, Gap { longest_s: 11100.0 } 1@7",
        ),
        (
            "the hour that comes twice",
            many(&|k| format!("2027-10-31 02:{:02};41,5\n", k % 6 * 10)),
            "12 points, 0+0, ClockTwice 12@1",
        ),
        (
            "the hour that is left out",
            many(&|k| format!("2027-03-28 0{}:{:02},41.5\n", 1 + k / 6, k % 6 * 10)),
            "12 points, 0+0, ClockLeftOut 6@7",
        ),
        (
            "day or month",
            whole("Time,Temp\n05/06/2026 18:00,41.2\n05/06/2026 18:05,41.3\n"),
            "2 points, 1+0, DayOrder?",
        ),
        (
            "past midnight without days",
            whole("Clock,Temp\n23:50,41.2\n23:55,41.3\n00:00,41.3\n00:05,41.3\n"),
            "4 points, 1+0",
        ),
    ]
}

fn cases() -> Vec<Case> {
    [damaged(), columns(), values(), times()].concat()
}

#[test]
fn of_each_broken_file_comes_what_must() {
    let mut wrong = String::new();
    for (name, bytes, wanted) in cases() {
        let found = told(&bytes);
        if found != wanted {
            wrong += &format!("{name}\n    found  {found}\n    wanted {wanted}\n");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// Numbers that look drawn, the same on each run.
struct Drawn(u64);

impl Drawn {
    fn below(&mut self, limit: usize) -> usize {
        // Constants: published, Knuth, MMIX, in The Art of Computer Programming 2, 3.3.4.
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % limit.max(1)
    }
}

#[test]
fn whatever_is_done_to_a_file_nothing_is_lost() {
    let zone = Zone::named("Europe/Paris").unwrap();
    let mut drawn = Drawn(19);
    let cases = cases();
    // The layout of the unspoilt file, too: a person may hold on to it.
    let known: Vec<Option<Layout>> = cases.iter().map(|(_, bytes, _)| guess(bytes).ok()).collect();
    for turn in 0..2000 {
        let mut bytes = cases[turn % cases.len()].1.clone();
        bytes.truncate(3000);
        for _ in 0..=drawn.below(6) {
            let (a, b) = (drawn.below(bytes.len()), drawn.below(bytes.len()));
            let (from, to) = (a.min(b), a.max(b));
            match drawn.below(6) {
                0 => bytes.truncate(from),
                1 => _ = bytes.drain(from..to),
                2 if bytes.len() < 9000 => {
                    let copy = bytes[from..to].to_vec();
                    bytes.splice(from..from, copy);
                }
                3 if !bytes.is_empty() => bytes.swap(a, b),
                4 if !bytes.is_empty() => bytes[a] = b" ,;:.-\"\t\n\r09eEhdPMT/\x00\xff\xb0"[drawn.below(23)],
                _ if !bytes.is_empty() => bytes[a] ^= 1 << drawn.below(8),
                _ => {}
            }
        }
        let guessed = guess(&bytes).ok();
        for layout in guessed.iter().chain(&known[turn % cases.len()]) {
            preview(&bytes, layout);
            if let Ok(rows) = read(&bytes, layout, &zone) {
                sums_up(&rows);
            }
        }
    }
}
