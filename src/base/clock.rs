//! Local clock times as text, "2026-11-26 18:30", and hours added to them: by the crate `jiff`. A kitchen has one clock. The
//! rules by which it is put forward and back come bundled, and the zone is handed in: the machine's own is never asked.

use std::sync::LazyLock;

use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{AmbiguousOffset, Offset, TimeZone, TimeZoneDatabase};
use jiff::{SignedDuration, Timestamp, ToSpan};

/// A local date and time, to the minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Moment(DateTime);

impl Moment {
    /// Reads "2026-11-26 18:30" (a T in place of the space is accepted), of the years 1970 to 9999.
    pub fn parse(text: &str) -> Option<Self> {
        let (date, time) = text.trim().split_once([' ', 'T'])?;
        let date = Date::strptime("%Y-%m-%d", date).ok().filter(|date| date.year() >= 1970)?;
        Some(Self(date.to_datetime(time_of_day(time)?)))
    }

    /// Reads a time as a person says it: "2026-12-01 08:00", "18:30", "8 pm", "tomorrow 8:00", "Tue 18:30", "8 in the evening",
    /// "now". A time without a day is the next one that comes.
    pub fn spoken(text: &str, now: Self) -> Option<Self> {
        Self::said(text, now, false)
    }

    /// Reads a time that is over: as [`Moment::spoken`], "yesterday 21:40" besides. A time without a day, and one with a day of
    /// the week, is the last one that passed.
    pub fn spoken_past(text: &str, now: Self) -> Option<Self> {
        Self::said(text, now, true)
    }

    fn said(text: &str, now: Self, past: bool) -> Option<Self> {
        if let Some(moment) = Self::parse(text) {
            return Some(moment);
        }
        let small = text.trim().to_lowercase().replace([',', '.'], " ").replace(" at ", " ");
        if small == "now" {
            return Some(now);
        }
        let day = small.split_once(' ').and_then(|(day, time)| Some((day_of(day, now, past)?, time)));
        let time = hour_said(day.map_or(&*small, |(_, time)| time))?;
        let moment = Self(day.map_or_else(|| now.0.date(), |((date, _), _)| date).to_datetime(time));
        let moved = |days: i32| Some(Self(moment.0.checked_add(days.days()).ok()?));
        match day {
            None if past && moment > now => moved(-1),
            None if !past && moment < now => moved(1),
            Some(((_, true), _)) if past && moment > now => moved(-7),
            _ => Some(moment),
        }
    }

    /// The same day at another time, "18:30".
    pub fn at(self, time: &str) -> Option<Self> {
        Some(Self(self.0.date().to_datetime(time_of_day(time)?)))
    }

    /// The moment so many hours later, to the minute, by a clock that is left alone meanwhile; the end of the year 9999 at most.
    pub fn after(self, hours: f64) -> Self {
        Self(self.0.saturating_add(minutes(hours)))
    }

    /// The moment so many hours later, to the minute, by the clock of a zone: it is put forward and back as there. A start in
    /// the hour that is left out in spring is an hour later; in the hour that comes twice in autumn, it is in the first.
    pub fn after_in(self, zone: &Zone, hours: f64) -> Self {
        let then = self.instant(zone).checked_add(minutes(hours)).unwrap_or(Timestamp::MAX);
        Self(zone.0.to_datetime(then))
    }

    /// Hours from another moment to this one, by a clock that is left alone meanwhile.
    pub fn hours_since(self, other: Self) -> f64 {
        in_hours(self.0.duration_since(other.0))
    }

    /// Hours from another moment to this one, by the clock of a zone.
    pub fn hours_since_in(self, zone: &Zone, other: Self) -> f64 {
        in_hours(self.instant(zone).duration_since(other.instant(zone)))
    }

    /// The local time of an instant, seconds since 1970 by the world's clock.
    pub fn of_instant(seconds: i64, zone: &Zone) -> Self {
        Self(zone.0.to_datetime(Timestamp::from_second(seconds).unwrap_or(Timestamp::MAX)))
    }

    /// The instant of a local time, seconds since 1970 by the world's clock; what comes twice or not at all is told as in
    /// [`Self::after_in`].
    pub fn seconds_in(self, zone: &Zone) -> i64 {
        self.instant(zone).as_second()
    }

    /// As it is read: "2026-11-26 18:30".
    pub fn text(self) -> String {
        self.0.strftime("%Y-%m-%d %H:%M").to_string()
    }

    /// What the world's clock shows then.
    pub fn world(self, zone: &Zone) -> Self {
        self.in_zone(zone, &Zone::default())
    }

    /// What a clock of another zone shows then.
    pub fn in_zone(self, zone: &Zone, other: &Zone) -> Self {
        Self(other.0.to_datetime(self.instant(zone)))
    }

    /// "20261126T183000", as calendars write it.
    pub fn compact(self) -> String {
        self.0.strftime("%Y%m%dT%H%M%S").to_string()
    }

    /// "2026-11-26".
    pub fn day(self) -> String {
        self.0.strftime("%Y-%m-%d").to_string()
    }

    /// "26 Nov 2026, 18:30".
    pub fn date_and_time(self) -> String {
        self.0.strftime("%-d %b %Y, %H:%M").to_string()
    }

    /// "Fri 09:30".
    pub fn day_and_time(self) -> String {
        self.0.strftime("%a %H:%M").to_string()
    }

    fn instant(self, zone: &Zone) -> Timestamp {
        zone.0.to_timestamp(self.0).unwrap_or(Timestamp::MAX)
    }
}

/// A day as it is told, "26 Nov 2026"; as it stands where it is none.
pub fn day_words(day: &str) -> String {
    let date = Date::strptime("%Y-%m-%d", day.trim());
    date.map_or_else(|_| day.to_owned(), |date| date.strftime("%-d %b %Y").to_string())
}

/// Whether a text is a day, "2026-12-10".
pub fn is_day(day: &str) -> bool {
    Date::strptime("%Y-%m-%d", day).is_ok_and(|date| date.year() >= 1970)
}

/// A time zone: how its clocks differ from the world's, and when they are put forward and back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Zone(TimeZone);

/// The bundled rules; it keeps the zones that were asked for.
static ZONES: LazyLock<TimeZoneDatabase> = LazyLock::new(TimeZoneDatabase::bundled);

impl Default for Zone {
    /// The world's own clock.
    fn default() -> Self {
        Self(TimeZone::UTC)
    }
}

impl Zone {
    /// The zone of a name such as "Europe/Paris", as the IANA names them; `None` where there is none.
    pub fn named(name: &str) -> Option<Self> {
        ZONES.get(name).ok().map(Self)
    }

    /// Its name, as [`Zone::named`] reads it.
    pub fn name(&self) -> &str {
        self.0.iana_name().unwrap_or_default()
    }

    /// When the clocks of the zone show a local time.
    ///
    /// - `shown_s` — what they show, as seconds since 1970 of a clock that is never put forward or back. `None` where it lies
    ///   outside of the years that are known.
    pub fn when(&self, shown_s: i64) -> Option<Shown> {
        let local = TimeZone::UTC.to_datetime(Timestamp::from_second(shown_s).ok()?);
        let at = |offset: Offset| shown_s - i64::from(offset.seconds());
        Some(match self.0.to_ambiguous_timestamp(local).offset() {
            AmbiguousOffset::Unambiguous { offset } => Shown::Once(at(offset)),
            AmbiguousOffset::Fold { before, after } => Shown::Twice(at(before), at(after)),
            AmbiguousOffset::Gap { before, .. } => Shown::LeftOut(at(before)),
        })
    }
}

/// When the clocks of a zone show a local time, seconds since 1970 by the world's clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    Once(i64),
    /// In the hour that comes twice in autumn: the first time and the second.
    Twice(i64, i64),
    /// In the hour that is left out in spring: when they would show it had they not been put forward.
    LeftOut(i64),
}

/// Days from the first of January 1970 to a day of the calendar; `None` where there is no such day.
pub fn day_number(year: i16, month: i8, day: i8) -> Option<i64> {
    let midnight = Date::new(year, month, day).ok()?.to_datetime(Time::midnight());
    let instant = TimeZone::UTC.to_timestamp(midnight).ok()?;
    Some(instant.as_second().div_euclid(86_400))
}

/// The day that a word names, and whether it is one of the week: "today", "tomorrow", or the next day of the week with that
/// name; of what is over "yesterday" besides, and the last day with that name.
fn day_of(word: &str, now: Moment, past: bool) -> Option<(Date, bool)> {
    let today = now.0.date();
    let after = |days: i32| today.checked_add(days.days()).ok();
    match word {
        "today" => return Some((after(0)?, false)),
        "tomorrow" => return Some((after(1)?, false)),
        "yesterday" if past => return Some((after(-1)?, false)),
        _ => {}
    }
    let named = |day: &Date| {
        let name = day.strftime("%A").to_string().to_lowercase();
        word.len() >= 3 && name.starts_with(word)
    };
    let way = if past { -1 } else { 1 };
    (0..7).filter_map(|days| after(way * days)).find(named).map(|date| (date, true))
}

/// "18:30", "8 pm", "8:15 am", "8 in the evening", "noon".
fn hour_said(text: &str) -> Option<Time> {
    let text = text.trim();
    match text {
        "noon" | "midday" => return Time::new(12, 0, 0, 0).ok(),
        "midnight" => return Time::new(0, 0, 0, 0).ok(),
        _ => {}
    }
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == ':')).unwrap_or(text.len());
    let (digits, word) = (&text[..end], text[end..].trim());
    let later = match word {
        "" | "h" | "o'clock" | "am" | "a m" | "in the morning" => false,
        "pm" | "p m" | "in the evening" | "in the afternoon" | "at night" => true,
        _ => return None,
    };
    // "8" alone may be an amount of hours: without a colon a word is needed.
    if word.is_empty() && !digits.contains(':') {
        return None;
    }
    let (hour, minute) = digits.split_once(':').unwrap_or((digits, "0"));
    let (hour, minute): (i8, i8) = (hour.parse().ok()?, minute.parse().ok()?);
    let morning = matches!(word, "am" | "a m" | "in the morning");
    let hour = match hour {
        12 if morning => 0,
        1..=11 if later => hour + 12,
        hour => hour,
    };
    Time::new(hour, minute, 0, 0).ok()
}

fn time_of_day(text: &str) -> Option<Time> {
    Time::strptime("%H:%M", text.trim()).ok()
}

fn minutes(hours: f64) -> SignedDuration {
    // Four thousand years at most.
    SignedDuration::from_mins(i64::from((hours * 60.0).round() as i32))
}

fn in_hours(between: SignedDuration) -> f64 {
    between.as_mins() as f64 / 60.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thursday_evening_and_the_day_after() {
        let start = Moment::parse("2026-11-26 18:30").unwrap();
        assert_eq!(start.day_and_time(), "Thu 18:30");
        assert_eq!(start.after(15.0).day_and_time(), "Fri 09:30");
        assert_eq!(start.after(30.0), Moment::parse("2026-11-28T0:30").unwrap());
        assert_eq!(start.after(30.0).hours_since(start), 30.0);
    }

    #[test]
    fn leap_days_and_nonsense() {
        assert!(Moment::parse("2028-02-29 00:00").is_some());
        assert!(Moment::parse("2026-02-29 00:00").is_none());
        assert!(Moment::parse("soon").is_none());
        let end = Moment::parse("2027-12-31 23:59").unwrap();
        assert_eq!(Some(end.after(1.0 / 60.0)), Moment::parse("2028-01-01 00:00"));
    }

    #[test]
    fn clocks_are_put_forward_and_back_by_the_rules_of_their_zone() {
        // Source: published, directive 2000/84/EC: from the last Sunday of March to that of October, at 1:00 of the world's
        // clock, which is 2:00 of the winter's and 3:00 of the summer's clock in Paris.
        let paris = Zone::named("Europe/Paris").unwrap();
        let at = |text: &str| Moment::parse(text).unwrap();
        for (start, hours, zoned, plain) in [
            ("2027-03-27 20:00", 12.0, "2027-03-28 09:00", "2027-03-28 08:00"),
            ("2027-03-28 01:30", 1.0, "2027-03-28 03:30", "2027-03-28 02:30"),
            ("2027-10-30 20:00", 12.0, "2027-10-31 07:00", "2027-10-31 08:00"),
            ("2027-10-31 02:30", 1.0, "2027-10-31 02:30", "2027-10-31 03:30"),
            ("2027-10-31 02:30", 2.0, "2027-10-31 03:30", "2027-10-31 04:30"),
            ("2027-06-30 20:00", 12.0, "2027-07-01 08:00", "2027-07-01 08:00"),
        ] {
            let (start, zoned) = (at(start), at(zoned));
            assert_eq!((start.after_in(&paris, hours), start.after(hours)), (zoned, at(plain)));
            // In the hour that comes twice the clock does not tell which of the two it is.
            let first = zoned == at("2027-10-31 02:30");
            assert_eq!(zoned.hours_since_in(&paris, start), if first { 0.0 } else { hours });
        }
        // Ready by 8:00 on the morning after each change, after 12 hours.
        assert_eq!(at("2027-03-28 08:00").after_in(&paris, -12.0), at("2027-03-27 19:00"));
        assert_eq!(at("2027-10-31 08:00").after_in(&paris, -12.0), at("2027-10-30 21:00"));
        // The hour that is left out.
        assert_eq!(at("2027-03-28 02:30").after_in(&paris, 1.0), at("2027-03-28 04:30"));
        assert_eq!(Zone::named("Kitchen"), None);
    }

    #[test]
    fn a_zone_knows_when_its_clocks_show_a_time() {
        let paris = Zone::named("Europe/Paris").unwrap();
        let shown = |text: &str| Moment::parse(text).unwrap().seconds_in(&Zone::default());
        let world = shown;
        for (text, when) in [
            ("2027-01-10 12:00", Shown::Once(world("2027-01-10 11:00"))),
            ("2027-07-10 12:00", Shown::Once(world("2027-07-10 10:00"))),
            ("2027-10-31 02:30", Shown::Twice(world("2027-10-31 00:30"), world("2027-10-31 01:30"))),
            ("2027-03-28 02:30", Shown::LeftOut(world("2027-03-28 01:30"))),
        ] {
            assert_eq!(paris.when(shown(text)), Some(when), "{text}");
        }
        assert_eq!(paris.when(i64::MAX), None);
        assert_eq!((day_number(1970, 1, 2), day_number(2027, 2, 29)), (Some(1), None));
        let moment = Moment::parse("2027-03-28 02:30").unwrap();
        assert_eq!(Moment::of_instant(moment.seconds_in(&paris), &paris).text(), "2027-03-28 03:30");
    }

    #[test]
    fn far_off_ends_are_no_trouble() {
        let last = Moment::parse("9999-12-31 23:59").unwrap();
        let utc = Zone::named("UTC").unwrap();
        for hours in [1.0, 1e300, f64::INFINITY] {
            assert_eq!(last.after(hours).day_and_time(), "Fri 23:59");
            assert!(last.after_in(&utc, hours).hours_since(last) <= 0.0);
        }
        assert_eq!(last.after(f64::NAN), last);
        assert!(last.after(f64::NEG_INFINITY) < last);
    }

    #[test]
    fn times_are_read_as_a_person_says_them() {
        // A Monday.
        let now = Moment::parse("2026-11-30 17:10").unwrap();
        for (text, moment) in [
            ("2026-12-01 08:00", "2026-12-01 08:00"),
            ("20:00", "2026-11-30 20:00"),
            ("8:00", "2026-12-01 08:00"),
            ("8 in the evening", "2026-11-30 20:00"),
            ("8 PM", "2026-11-30 20:00"),
            ("tomorrow 8:00", "2026-12-01 08:00"),
            ("tomorrow at 7 am", "2026-12-01 07:00"),
            ("Tue 18:30", "2026-12-01 18:30"),
            ("sunday 12 am", "2026-12-06 00:00"),
            ("noon", "2026-12-01 12:00"),
            ("now", "2026-11-30 17:10"),
        ] {
            assert_eq!(Moment::spoken(text, now).map(Moment::text).as_deref(), Some(moment), "{text}");
        }
        for text in ["", "8", "soon", "25:00", "8 pots", "tu 8:00", "12:75", "yesterday 8:00"] {
            assert_eq!(Moment::spoken(text, now), None, "{text}");
        }
    }

    #[test]
    fn what_is_over_is_read_as_the_last_one_that_passed() {
        // A Monday.
        let now = Moment::parse("2026-11-30 17:10").unwrap();
        for (text, moment) in [
            ("17:10", "2026-11-30 17:10"),
            ("17:11", "2026-11-29 17:11"),
            ("9 pm", "2026-11-29 21:00"),
            ("yesterday 21:40", "2026-11-29 21:40"),
            ("today 8:00", "2026-11-30 08:00"),
            ("mon 8:00", "2026-11-30 08:00"),
            ("Monday 18:30", "2026-11-23 18:30"),
            ("Tue 18:30", "2026-11-24 18:30"),
            ("now", "2026-11-30 17:10"),
        ] {
            assert_eq!(Moment::spoken_past(text, now).map(Moment::text).as_deref(), Some(moment), "{text}");
        }
    }

    #[test]
    fn a_clock_of_another_zone_shows_its_own_time() {
        let [paris, york] = ["Europe/Paris", "America/New_York"].map(|name| Zone::named(name).unwrap());
        assert_eq!((paris.name(), Zone::default().name()), ("Europe/Paris", "UTC"));
        let moment = Moment::parse("2026-11-30 01:00").unwrap();
        assert_eq!(moment.in_zone(&paris, &york).text(), "2026-11-29 19:00");
    }
}
