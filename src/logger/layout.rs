//! How a file is read: what parts its columns and what each of them holds.

use potset_base::choices;
use potset_base::units::Degrees;
use serde::{Deserialize, Serialize};

/// How a file is read: guessed first, then corrected by a person.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layout {
    pub delimiter: Delimiter,
    pub decimal: Decimal,
    /// Number of the first row of values in the file, from 1; the rows above are titles.
    pub first_row: usize,
    /// What each column holds; columns after these are skipped.
    pub columns: Vec<Role>,
    /// What a temperature without a unit is in.
    pub degrees: Degrees,
    pub order: DayOrder,
    /// What the file does not settle: a person should look at it. Nothing where the layout was corrected.
    #[serde(default)]
    pub doubts: Vec<Doubt>,
}

impl Layout {
    /// The first column of a role.
    pub fn column(&self, role: Role) -> Option<usize> {
        self.columns.iter().position(|own| *own == role)
    }

    /// Gives a column a role, and takes it from the column that had it: only [`Role::Skip`] stands several times.
    pub fn set(&mut self, column: usize, role: Role) {
        if column >= self.columns.len() {
            self.columns.resize(column + 1, Role::Skip);
        }
        for own in self.columns.iter_mut().filter(|own| **own == role) {
            *own = Role::Skip;
        }
        self.columns[column] = role;
    }
}

/// What stands between two columns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Delimiter {
    Tab,
    Semicolon,
    Pipe,
    Comma,
    /// One blank or several.
    Space,
    /// Any other sign.
    Other(char),
}

impl Delimiter {
    /// The usual ones; where two read a file equally well, the one that stands first is guessed.
    pub const USUAL: [Self; 5] = [Self::Tab, Self::Semicolon, Self::Pipe, Self::Comma, Self::Space];

    /// The sign itself.
    pub const fn sign(self) -> char {
        match self {
            Self::Tab => '\t',
            Self::Semicolon => ';',
            Self::Pipe => '|',
            Self::Comma => ',',
            Self::Space => ' ',
            Self::Other(sign) => sign,
        }
    }

    /// What it is called.
    pub fn words(self) -> String {
        match self {
            Self::Tab => "tab".to_owned(),
            Self::Semicolon => "semicolon".to_owned(),
            Self::Pipe => "upright bar".to_owned(),
            Self::Comma => "comma".to_owned(),
            Self::Space => "blank".to_owned(),
            Self::Other(sign) => format!("“{sign}”"),
        }
    }
}

choices! {
    /// The sign before the decimals.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Decimal: words {
        #[default]
        Point => "decimal point",
        Comma => "decimal comma",
    }
}

choices! {
    /// The order of day, month and year where the year does not stand first with four digits.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum DayOrder: words {
        #[default]
        DayFirst => "day, month, year",
        MonthFirst => "month, day, year",
        YearFirst => "year, month, day",
    }
}

choices! {
    /// What a column holds.
    #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Role: words {
        #[default]
        Skip => "not used",
        /// Day and clock in one cell, seconds or milliseconds since 1970, or a day number of a spreadsheet.
        Time => "day and time",
        Day => "day",
        /// A time of day. Without a column of days, each step back by half a day or more begins the next day.
        Clock => "time of day",
        /// Since the logger began: "0:05:00", "1d 02:03:04", "1.02:03:04" or "5 min".
        Elapsed => "time since the start",
        /// Since the logger began, as a number; several such columns add up.
        Hours => "hours since the start",
        Minutes => "minutes since the start",
        Seconds => "seconds since the start",
        Milliseconds => "milliseconds since the start",
        Warmth => "temperature",
        Ph => "pH",
    }
}

choices! {
    /// What a file does not settle, with the question to a person.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Doubt: words {
        Time => "Which column is the time? None looks like one",
        DayOrder => "Does the day come first, or the month? Both fit these dates",
        Degrees => "Are the temperatures in °F? No unit is given, and they are high for °C",
        TimeUnit => "Does this column count hours, minutes or seconds? Its title does not say",
        SeveralWarmths => "Which column is the pot's temperature? There are several",
        Values => "Which column is the temperature, and is there one of pH? No title says so",
        Commas => "Do commas stand before the decimals too? Then export the file with semicolons",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_role_stands_in_one_column() {
        let mut layout = Layout {
            delimiter: Delimiter::Comma,
            decimal: Decimal::Point,
            first_row: 1,
            columns: vec![Role::Time, Role::Warmth],
            degrees: Degrees::Celsius,
            order: DayOrder::DayFirst,
            doubts: Vec::new(),
        };
        layout.set(3, Role::Warmth);
        assert_eq!(layout.columns, [Role::Time, Role::Skip, Role::Skip, Role::Warmth]);
        layout.set(1, Role::Skip);
        assert_eq!((layout.column(Role::Warmth), layout.column(Role::Ph)), (Some(3), None));
    }
}
