//! Files of loggers, whatever is in them: no panic, no row lost, and what was written is read back.

use potset_base::clock::Zone;
use potset_base::units::Degrees;
use potset_logger::{
    Begin, DayOrder, Decimal, Delimiter, Layout, Role, Rows, course, guess, ph_course, preview, read, thin,
};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::TestCaseError;

use crate::properties::check;

const CASES: u32 = 512;

fn zones() -> impl Strategy<Value = Zone> {
    select(vec!["Europe/Paris", "America/New_York", "Australia/Lord_Howe", "UTC"])
        .prop_map(|name| Zone::named(name).unwrap())
}

fn layouts() -> impl Strategy<Value = Layout> {
    let delimiter =
        select([Delimiter::USUAL.to_vec(), vec![Delimiter::Other('#'), Delimiter::Other('°')]].concat());
    let columns = vec(select(Role::ALL.to_vec()), 0..6);
    let rest = (select(Degrees::ALL.to_vec()), select(DayOrder::ALL.to_vec()), 0..9_usize);
    (delimiter, select(Decimal::ALL.to_vec()), columns, rest).prop_map(
        |(delimiter, decimal, columns, (degrees, order, first_row))| Layout {
            delimiter,
            decimal,
            first_row,
            columns,
            degrees,
            order,
            doubts: Vec::new(),
        },
    )
}

/// Every row is a point, a fault, a title or blank, and none is two of them; points rise in time.
fn nothing_is_lost(rows: &Rows) -> Result<(), TestCaseError> {
    let told = &rows.told;
    prop_assert_eq!(rows.points.len() + rows.faults.len() + told.titles + told.blank, told.rows);
    let mut all: Vec<usize> = rows.points.iter().map(|point| point.row).collect();
    all.extend(rows.faults.iter().map(|fault| fault.row));
    all.sort_unstable();
    prop_assert!(all.windows(2).all(|pair| pair[0] < pair[1]));
    prop_assert!(all.last().is_none_or(|last| *last <= told.rows));
    prop_assert!(rows.points.windows(2).all(|pair| pair[0].at <= pair[1].at));
    let course = course(rows, Begin::Zero(0.0), false);
    prop_assert!(course.windows(2).all(|pair| pair[0].0 < pair[1].0));
    prop_assert!(course.iter().all(|(h, c)| h.is_finite() && (-40.0..=150.0).contains(c)));
    prop_assert!(told.lines().iter().all(|line| line.ends_with(['.', '?'])));
    Ok(())
}

fn looked_at(bytes: &[u8], layout: &Layout, zone: &Zone) -> Result<(), TestCaseError> {
    let shown = preview(bytes, layout);
    prop_assert!(shown.rows.iter().all(|(_, cells)| cells.len() <= shown.columns));
    match read(bytes, layout, zone) {
        Ok(rows) => nothing_is_lost(&rows),
        Err(_) => Ok(()),
    }
}

#[test]
fn any_bytes_and_any_layout() {
    let signs = select(b"0123456789.,;: -/\t\n\r\"TZ\xB0C\0eF".to_vec());
    let bytes = prop_oneof![vec(any::<u8>(), 0..600), vec(signs, 0..600)];
    check(CASES, &(bytes, layouts(), zones()), |(bytes, layout, zone)| {
        looked_at(&bytes, &layout, &zone)?;
        match guess(&bytes) {
            Ok(guessed) => looked_at(&bytes, &guessed, &zone),
            Err(note) => {
                prop_assert!(!note.title.is_empty() && !note.mend.is_empty());
                Ok(())
            }
        }
    });
}

/// What happens to a file on its way.
#[derive(Clone, Debug)]
enum Harm {
    Cut(Index),
    Drop(Index, Index),
    Twice(Index, Index),
    Swap(Index, Index),
    Flip(Index, u8),
}

fn harms() -> impl Strategy<Value = Vec<Harm>> {
    let two = || (any::<Index>(), any::<Index>());
    let one = prop_oneof![
        any::<Index>().prop_map(Harm::Cut),
        two().prop_map(|(a, b)| Harm::Drop(a, b)),
        two().prop_map(|(a, b)| Harm::Twice(a, b)),
        two().prop_map(|(a, b)| Harm::Swap(a, b)),
        (any::<Index>(), any::<u8>()).prop_map(|(at, by)| Harm::Flip(at, by)),
    ];
    vec(one, 1..6)
}

fn harmed(mut bytes: Vec<u8>, harms: &[Harm]) -> Vec<u8> {
    for harm in harms {
        let place = |at: &Index| at.index(bytes.len().max(1));
        let between = |a: &Index, b: &Index| place(a).min(place(b))..place(a).max(place(b));
        match harm {
            Harm::Cut(at) => bytes.truncate(place(at)),
            Harm::Drop(a, b) => _ = bytes.drain(between(a, b)),
            Harm::Twice(a, b) => {
                let span = between(a, b);
                let copy = bytes[span.clone()].to_vec();
                bytes.splice(span.start..span.start, copy);
            }
            Harm::Swap(a, b) if !bytes.is_empty() => {
                let (a, b) = (place(a), place(b));
                bytes.swap(a, b);
            }
            Harm::Flip(at, by) if !bytes.is_empty() => {
                let at = place(at);
                bytes[at] ^= by;
            }
            Harm::Swap(..) | Harm::Flip(..) => {}
        }
    }
    bytes
}

/// A file as it is written.
#[derive(Clone, Debug)]
struct Written {
    /// Seconds since the first, °C and pH, in hundredths.
    rows: Vec<(i64, i32, i32)>,
    delimiter: Delimiter,
    decimal: Decimal,
    degrees: Degrees,
    titles: bool,
    /// Days and clocks of the world's clock, or seconds since the start.
    calendar: bool,
}

fn files() -> impl Strategy<Value = Written> {
    let row = (1..600_i64, 3000..4500_i32, 350..680_i32);
    let kinds =
        (select(Delimiter::USUAL.to_vec()), select(Decimal::ALL.to_vec()), select(Degrees::ALL.to_vec()));
    (vec(row, 4..60), kinds, any::<bool>(), any::<bool>()).prop_map(
        |(steps, (delimiter, decimal, degrees), titles, calendar)| {
            let mut at = 0;
            let rows = steps.into_iter().enumerate().map(|(k, (step, warmth, ph))| {
                at += if k == 0 { 0 } else { step };
                (at, warmth, ph)
            });
            let rows = rows.collect();
            Written { rows, delimiter, decimal, degrees, titles, calendar }
        },
    )
}

impl Written {
    fn text(&self) -> String {
        let sign = self.delimiter.sign().to_string();
        let cell = |text: String| if text.contains(&sign) { format!("\"{text}\"") } else { text };
        let number = |value: f64| {
            let text = format!("{value:.3}");
            // Three decimals behind the other sign would be thousands: the file's own sign is told by all of them.
            if self.decimal == Decimal::Comma { text.replace('.', ",") } else { text }
        };
        let mut out = String::new();
        if self.titles {
            let time = if self.calendar { "Time" } else { "Seconds" };
            let warmth = format!("Temperature ({})", self.degrees.words());
            out = [time.to_owned(), warmth, "pH".to_owned()].map(cell).join(&sign) + "\n";
        }
        for (at, warmth, ph) in &self.rows {
            let time = if self.calendar {
                format!(
                    "2026-11-{:02} {:02}:{:02}:{:02}",
                    20 + at / 86_400,
                    at / 3600 % 24,
                    at / 60 % 60,
                    at % 60
                )
            } else {
                at.to_string()
            };
            let warmth = f64::from(*warmth) / 100.0;
            let warmth = if self.degrees == Degrees::Fahrenheit { warmth * 1.8 + 32.0 } else { warmth };
            out += &[time, number(warmth), number(f64::from(*ph) / 100.0)].map(cell).join(&sign);
            out.push('\n');
        }
        out
    }
}

#[test]
fn whatever_harms_a_file_no_row_is_lost() {
    check(CASES, &(files(), harms(), zones()), |(file, harms, zone)| {
        let whole = file.text().into_bytes();
        let known = guess(&whole).map_err(|note| TestCaseError::fail(note.line()))?;
        let bytes = harmed(whole, &harms);
        looked_at(&bytes, &known, &zone)?;
        guess(&bytes).map_or(Ok(()), |guessed| looked_at(&bytes, &guessed, &zone))
    });
}

#[test]
fn what_is_written_is_read_back() {
    check(CASES, &files(), |file| {
        let text = file.text();
        let mut layout = guess(text.as_bytes()).map_err(|note| TestCaseError::fail(note.line()))?;
        if !file.titles && !file.calendar {
            // Numbers alone do not say their unit: a person does.
            let at = layout.columns.iter().position(|role| *role != Role::Skip).unwrap_or(0);
            layout.set(at, Role::Seconds);
        }
        let rows = read(text.as_bytes(), &layout, &Zone::default())
            .map_err(|note| TestCaseError::fail(note.line()))?;
        prop_assert!(rows.faults.is_empty(), "{:?} {layout:?}\n{text}", rows.faults);
        let (warmth, ph) = (course(&rows, Begin::Zero(0.0), true), ph_course(&rows, Begin::Zero(0.0)));
        prop_assert_eq!(
            (warmth.len(), ph.len()),
            (file.rows.len(), file.rows.len()),
            "{:?}\n{}",
            layout,
            text
        );
        for (k, (at, c, acid)) in file.rows.iter().enumerate() {
            let h = *at as f64 / 3600.0;
            let near = |(own, value): (f64, f64), wanted: i32| {
                (own - h).abs() < 1e-9 && (value - f64::from(wanted) / 100.0).abs() < 1e-3
            };
            prop_assert!(near(warmth[k], *c) && near(ph[k], *acid), "row {k}: {layout:?}\n{text}");
        }
        Ok(())
    });
}

#[test]
fn thinning_keeps_every_peak() {
    let points = vec((0.0..1e6_f64, -40.0..150.0_f64), 0..400);
    check(CASES, &(points, 0..90_usize), |(mut points, most)| {
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        let few = thin(&points, most);
        prop_assert!(few.len() <= most);
        prop_assert!(few.iter().all(|point| points.contains(point)));
        prop_assert!(few.windows(2).all(|pair| pair[0].0 <= pair[1].0));
        let ends = |points: &[(f64, f64)]| {
            let values = || points.iter().map(|(_, value)| *value);
            (values().fold(f64::INFINITY, f64::min), values().fold(f64::NEG_INFINITY, f64::max))
        };
        if most >= 4 {
            prop_assert_eq!(ends(&few), ends(&points));
            prop_assert_eq!((few.first(), few.last()), (points.first(), points.last()));
        }
        Ok(())
    });
}
