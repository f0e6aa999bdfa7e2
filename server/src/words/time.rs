//! Dates and times in sentences.

use jiff::civil::Date;

use super::{Say, counted};
use crate::clock::{HOUR, MINUTE, Zone};

impl Say {
    /// Returns a date that is stored as `2026-11-24`, spelt out. Text that is
    /// no date comes back as it is.
    pub(crate) fn date(self, stored: &str) -> String {
        stored.parse::<Date>().map_or_else(
            |_| stored.to_owned(),
            |date| self.date_of(date.day(), self.month(date.month()), date.year()),
        )
    }

    /// Returns a time of today, or a day and a time where it was another day.
    pub(crate) fn when(self, zone: &Zone, at: i64, now: i64) -> String {
        let (date, time) = (zone.date(at), zone.time(at));
        if date == zone.date(now) {
            self.when_today(time)
        } else {
            self.when_other_day(date.day(), self.month(date.month()), time)
        }
    }

    /// Returns how long there is to measure, begun minutes counted whole: `12
    /// minutes left, until 10:54`. Returns `None` where nobody said, or it was
    /// another day.
    pub(crate) fn left(self, stops_at: Option<i64>, now: i64, zone: &Zone) -> Option<String> {
        let stops_at = stops_at.filter(|at| zone.date(*at) == zone.date(now))?;
        let (left, until) = (stops_at - now, zone.time(stops_at));
        Some(if left > 0 {
            self.wall_left((left + MINUTE - 1) / MINUTE, until)
        } else {
            self.wall_stopped(until)
        })
    }
}

/// Returns a date that is stored as `2026-11-24` spelt out, for staff. Text that
/// is no date comes back as it is.
#[must_use]
pub fn long_date(stored: &str) -> String {
    Say::english().date(stored)
}

/// Returns a time for staff: `at 10:42`, with its day where that is not the day
/// of `now`: `on 1 July at 10:42`.
#[must_use]
pub fn time_or_day(zone: &Zone, at: i64, now: i64) -> String {
    Say::english().when(zone, at, now)
}

/// Times as a page that is made now writes them.
#[derive(Clone, Debug)]
pub struct When {
    /// The school's time zone.
    pub zone: Zone,
    /// Unix ms.
    pub now: i64,
}

impl When {
    /// Writes a time: `at 10:42`, with its day where that is another.
    #[must_use]
    pub fn says(&self, at: i64) -> String {
        time_or_day(&self.zone, at, self.now)
    }
}

/// Returns how long ago something was, for staff: `just now`, `7 minutes ago`;
/// from two hours on the time itself.
pub(crate) fn ago(at: i64, now: i64, zone: &Zone) -> String {
    match now - at {
        past if past < MINUTE => "just now".to_owned(),
        past if past < 2 * HOUR => format!("{} ago", minutes(past / MINUTE)),
        _ => time_or_day(zone, at, now),
    }
}

/// Returns a number of minutes: `1 minute`, `7 minutes`.
pub(crate) fn minutes(count: i64) -> String {
    counted(count, "minute", "minutes")
}

#[cfg(test)]
mod tests {
    use jiff::tz::TimeZone;

    use super::*;

    /// 24 November 2026, 10:42 in London.
    const NOW: i64 = 1_795_516_920_000;

    fn london() -> Zone {
        Zone(TimeZone::get("Europe/London").unwrap())
    }

    #[test]
    fn time_that_is_left_counts_the_minute_that_is_running() {
        let left = |to: i64| Say::english().left(Some(NOW + to), NOW, &london());
        assert_eq!(left(12 * MINUTE).unwrap(), "12 minutes left, until 10:54");
        assert_eq!(left(1).unwrap(), "1 minute left, until 10:42");
        assert_eq!(left(0).unwrap(), "Measuring stopped at 10:42");
        assert_eq!(left(-10 * MINUTE).unwrap(), "Measuring stopped at 10:32");
        assert_eq!(left(-24 * HOUR), None, "yesterday’s");
        assert_eq!(Say::english().left(None, NOW, &london()), None);
    }

    #[test]
    fn long_dates_are_spelt_out() {
        assert_eq!(long_date("2026-11-04"), "4 November 2026");
        assert_eq!(long_date("never"), "never");
    }

    #[test]
    fn time_that_has_passed_is_told_in_whole_minutes() {
        let ago = |past| ago(NOW - past, NOW, &london());
        assert_eq!(ago(MINUTE - 1), "just now");
        assert_eq!(ago(MINUTE), "1 minute ago");
        assert_eq!(ago(7 * MINUTE + 59_000), "7 minutes ago");
        assert_eq!(ago(2 * HOUR), "at 08:42");
        assert_eq!(ago(24 * HOUR), "on 23 November at 10:42");
        assert_eq!(ago(-MINUTE), "just now", "a clock that was set back");
    }
}
