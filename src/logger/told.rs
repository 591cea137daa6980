//! What is said of a file: why a row gave no point, and what is odd although it was read.

use potset_base::number;

/// Why a row gave no point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fault {
    /// It holds signs that are no text.
    NotText,
    /// It has fewer columns than the layout needs, or more of them with numbers than the other rows.
    Columns { has: usize, wanted: usize },
    /// The cell of its time is empty.
    NoTime,
    /// Its time cannot be read.
    Time,
    /// There is no such day or hour, or it lies before 1970 or more than a hundred years from the start.
    TimeRange,
    /// Its cells of values are empty or say that there is no value.
    NoValue,
    /// Its value is no number.
    Value,
    /// Its temperature cannot be a pot's, °C.
    Warmth(f64),
    /// No pH is so low or so high.
    Ph(f64),
}

impl Fault {
    /// What is wrong, and the mend.
    pub fn words(self) -> String {
        let sentence = match self {
            Self::NotText => "The row is damaged. Read the logger out again",
            Self::Columns { has, wanted } if has < wanted => {
                return format!(
                    "The row has {has} of {wanted} columns. It was cut off, or another sign parts it"
                );
            }
            Self::Columns { has, wanted } => {
                return format!(
                    "The row has {has} columns, the others have {wanted}. Put its numbers in quotation marks"
                );
            }
            Self::NoTime => "The row has no time. Give it one, or leave it out",
            Self::Time => "I cannot read the time. Correct it, or choose the column of times",
            Self::TimeRange => "There is no such time. Check the order of day and month",
            Self::NoValue => "The row has a time and no value. The sensor gave none",
            Self::Value => "I cannot read the value. Correct it, or choose the column of values",
            Self::Warmth(c) => {
                return format!(
                    "{} cannot be a pot's temperature. Check the sensor and its unit",
                    number::with_unit(c, 1, potset_base::units::WARMTH)
                );
            }
            Self::Ph(ph) => {
                return format!("No pH is {}. Check the column and the probe", number::figures(ph, 3));
            }
        };
        sentence.to_owned()
    }
}

/// A row that gave no point.
#[derive(Clone, Debug, PartialEq)]
pub struct RowFault {
    /// Line of the file, from 1.
    pub row: usize,
    /// How the row begins.
    pub text: String,
    pub why: Fault,
}

impl RowFault {
    /// Which row, what is wrong, and the mend.
    pub fn words(&self) -> String {
        format!("Row {}: {}", self.row, self.why.words())
    }
}

/// What is odd although it was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Odd {
    /// The newest row stands first. The rows were turned round.
    NewestFirst,
    /// Rows earlier than the row before. All were sorted by time.
    Unordered,
    /// Rows of the same time as another. The course takes their mean.
    SameTime,
    /// Steps of time longer than five usual ones.
    Gap { longest_s: f64 },
    /// Single values far from those before and after. They are kept, and a course without them can be had.
    Spike,
    /// Rows of which one value was used and another could not be read.
    Cell,
    /// Rows in the hour that the clocks show twice. Their order in the file says which of the two it is.
    ClockTwice,
    /// Rows in the hour that the clocks leave out. They were put an hour later.
    ClockLeftOut,
    /// Temperatures with a unit of their own that is not the column's. They were turned into °C by it.
    OtherDegrees,
    /// Rows with more columns than the others, without numbers in them.
    Wide,
    /// The titles once more, between the values. They count as titles.
    TitlesAgain,
}

/// What is odd, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oddity {
    pub what: Odd,
    /// How many rows.
    pub count: usize,
    /// Line of the first of them, from 1.
    pub first_row: usize,
}

impl Oddity {
    /// What is odd, the first row, and what was done or can be done about it.
    pub fn words(&self) -> String {
        let (count, row) = (self.count, self.first_row);
        let of = |one: &str, many: &str| {
            if count == 1 {
                format!("Row {row} {one}.")
            } else {
                format!("{count} rows {many}, the first is row {row}.")
            }
        };
        match self.what {
            Odd::NewestFirst => "The newest row stands first. The rows were turned round.".to_owned(),
            Odd::Unordered => {
                let what = of("is earlier than the row before", "are earlier than the row before");
                format!("{what} The rows were sorted by time. Was the logger's clock set back?")
            }
            Odd::SameTime => {
                let what = of("has the same time as another", "have the same time as another");
                format!("{what} Their mean is used.")
            }
            Odd::Gap { longest_s } => {
                let what = of("comes after a gap", "come after gaps");
                format!("{what} The longest lasts {}.", lasts(longest_s))
            }
            Odd::Spike => {
                let what = of("jumps away and back", "jump away and back");
                format!("{what} Such values are left out unless you keep them.")
            }
            Odd::Cell => {
                let what =
                    of("has a second value that I cannot read", "have a second value that I cannot read");
                format!("{what} The value beside it is used.")
            }
            Odd::ClockTwice => {
                let what =
                    of("lies in the hour that clocks show twice", "lie in the hour that clocks show twice");
                format!("{what} The order of the rows decided.")
            }
            Odd::ClockLeftOut => {
                let what =
                    of("lies in the hour that clocks leave out", "lie in the hour that clocks leave out");
                format!("{what} An hour was added. Is the zone right?")
            }
            Odd::OtherDegrees => {
                let what = of("has another unit than the column", "have another unit than the column");
                format!("{what} The unit in the row was used.")
            }
            Odd::Wide => {
                let what = of("has more columns than the others", "have more columns than the others");
                format!("{what} Words in them were left out.")
            }
            Odd::TitlesAgain => {
                let what = of("holds the titles once more", "hold the titles once more");
                format!("{what} The logger began anew there.")
            }
        }
    }
}

/// A span of time as a person says it.
fn lasts(seconds: f64) -> String {
    match seconds {
        s if s < 90.0 => format!("{} s", number::fixed(s, 0)),
        s if s < 2.0 * 86_400.0 => number::hours(s / 3600.0),
        s => format!("{} days", number::fixed(s / 86_400.0, 0)),
    }
}

/// What was read, counted, and what is odd. All rows are points, faults, titles or blank.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// All lines of the file.
    pub rows: usize,
    /// Rows of titles: those above the first row of values, and titles that come again.
    pub titles: usize,
    pub blank: usize,
    pub odd: Vec<Oddity>,
}

impl Told {
    /// A kind of oddity, where there is one.
    pub fn find(&self, is: impl Fn(Odd) -> bool) -> Option<&Oddity> {
        self.odd.iter().find(|oddity| is(oddity.what))
    }

    /// One sentence or two for each oddity.
    pub fn lines(&self) -> Vec<String> {
        self.odd.iter().map(Oddity::words).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faults_and_oddities_are_told_with_their_rows() {
        let fault = RowFault { row: 17, text: "x".to_owned(), why: Fault::Columns { has: 1, wanted: 2 } };
        assert_eq!(
            fault.words(),
            "Row 17: The row has 1 of 2 columns. It was cut off, or another sign parts it"
        );
        let warm = Fault::Warmth(-127.0).words();
        assert_eq!(warm, "−127.0\u{a0}°C cannot be a pot's temperature. Check the sensor and its unit");
        let odd = |what, count| Oddity { what, count, first_row: 9 }.words();
        assert_eq!(odd(Odd::SameTime, 1), "Row 9 has the same time as another. Their mean is used.");
        assert_eq!(
            odd(Odd::Gap { longest_s: 5400.0 }, 2),
            "2 rows come after gaps, the first is row 9. The longest lasts 1\u{a0}h 30\u{a0}min."
        );
        assert_eq!((lasts(60.0), lasts(864_000.0)), ("60 s".to_owned(), "10 days".to_owned()));
    }
}
