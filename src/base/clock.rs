//! Local clock times as text, "2026-11-26 18:30", and hours added to them. No time zone: a kitchen has one clock.

/// A local date and time, in minutes since 1970-01-01 00:00.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Moment {
    minutes: i64,
}

/// Names of the days, from Monday.
const DAYS: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

impl Moment {
    /// Reads "2026-11-26 18:30" (a T in place of the space is accepted).
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim();
        let (date, time) = text.split_once([' ', 'T'])?;
        let mut date = date.splitn(3, '-').map(|p| p.parse::<i64>().ok());
        let (year, month, day) = (date.next()??, date.next()??, date.next()??);
        let (hour, minute) = time.trim().split_once(':')?;
        let (hour, minute) = (hour.parse::<i64>().ok()?, minute.parse::<i64>().ok()?);
        let valid = (1970..=9999).contains(&year)
            && (1..=12).contains(&month)
            && (1..=days_in(year, month)).contains(&day)
            && (0..24).contains(&hour)
            && (0..60).contains(&minute);
        valid.then(|| Self { minutes: (days_from_civil(year, month, day) * 24 + hour) * 60 + minute })
    }

    /// The moment so many hours later, to the minute.
    #[must_use]
    pub fn after(self, hours: f64) -> Self {
        Self { minutes: self.minutes + (hours * 60.0).round() as i64 }
    }

    /// Hours from another moment to this one.
    #[must_use]
    pub fn hours_since(self, other: Self) -> f64 {
        #[allow(clippy::cast_precision_loss, reason = "minutes between two dates of the calendar")]
        let minutes = (self.minutes - other.minutes) as f64;
        minutes / 60.0
    }

    /// "Fri 09:30".
    #[must_use]
    pub fn day_and_time(self) -> String {
        let day = self.minutes.div_euclid(1440);
        let rest = self.minutes.rem_euclid(1440);
        // 1970-01-01 was a Thursday.
        let name = DAYS[(day + 3).rem_euclid(7) as usize];
        format!("{name} {:02}:{:02}", rest / 60, rest % 60)
    }

    /// "2026-11-26 18:30", as it is read.
    #[must_use]
    pub fn text(self) -> String {
        let (year, month, day) = civil_from_days(self.minutes.div_euclid(1440));
        let rest = self.minutes.rem_euclid(1440);
        format!("{year:04}-{month:02}-{day:02} {:02}:{:02}", rest / 60, rest % 60)
    }
}

fn days_in(year: i64, month: i64) -> i64 {
    match month {
        4 | 6 | 9 | 11 => 30,
        2 if year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) => 29,
        2 => 28,
        _ => 31,
    }
}

/// Days since 1970-01-01 in the Gregorian calendar, counted in eras of 400 years from 1 March.
fn days_from_civil(year: i64, month: i64, day: i64) -> i64 {
    let y = if month <= 2 { year - 1 } else { year };
    let era = y.div_euclid(400);
    let of_era = y.rem_euclid(400);
    let of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
    era * 146_097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719_468
}

fn civil_from_days(days: i64) -> (i64, i64, i64) {
    let z = days + 719_468;
    let era = z.div_euclid(146_097);
    let of_era_days = z.rem_euclid(146_097);
    let of_era = (of_era_days - of_era_days / 1460 + of_era_days / 36_524 - of_era_days / 146_096) / 365;
    let of_year = of_era_days - (365 * of_era + of_era / 4 - of_era / 100);
    let shifted = (5 * of_year + 2) / 153;
    let day = of_year - (153 * shifted + 2) / 5 + 1;
    let month = if shifted < 10 { shifted + 3 } else { shifted - 9 };
    let year = of_era + era * 400 + i64::from(month <= 2);
    (year, month, day)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thursday_evening_and_the_day_after() {
        let start = Moment::parse("2026-11-26 18:30").unwrap();
        assert_eq!(start.day_and_time(), "Thu 18:30");
        assert_eq!(start.after(15.0).day_and_time(), "Fri 09:30");
        assert_eq!(start.after(30.0).text(), "2026-11-28 00:30");
    }

    #[test]
    fn leap_days_and_nonsense() {
        assert!(Moment::parse("2028-02-29 00:00").is_some());
        assert!(Moment::parse("2026-02-29 00:00").is_none());
        assert!(Moment::parse("soon").is_none());
        assert_eq!(Moment::parse("2027-12-31 23:59").unwrap().after(1.0 / 60.0).text(), "2028-01-01 00:00");
    }
}
