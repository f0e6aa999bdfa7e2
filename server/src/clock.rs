//! What time it is, and how a time is written in the school's own zone.

use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

use jiff::Timestamp;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;

/// One minute, in ms.
pub const MINUTE: i64 = 60_000;
/// One hour, in ms.
pub const HOUR: i64 = 60 * MINUTE;

/// The source of every time that is stored or compared.
#[derive(Clone, Debug)]
pub enum Clock {
    /// The machine's clock.
    System,
    /// A clock that only tests move; Unix ms.
    Fixed(Arc<AtomicI64>),
}

impl Clock {
    /// Returns a clock that stands still at this time (Unix ms).
    #[must_use]
    pub fn fixed(at: i64) -> Self {
        Self::Fixed(Arc::new(AtomicI64::new(at)))
    }

    /// Now, in Unix ms, UTC.
    #[must_use]
    #[expect(
        clippy::disallowed_methods,
        reason = "this is the one place that asks the machine"
    )]
    pub fn now(&self) -> i64 {
        match self {
            Self::System => SystemTime::now()
                .duration_since(UNIX_EPOCH)
                .map_or(0, |d| i64::try_from(d.as_millis()).unwrap_or(i64::MAX)),
            Self::Fixed(at) => at.load(Ordering::Relaxed),
        }
    }

    /// Moves a fixed clock forward by so many ms; the machine's is left alone.
    pub fn advance(&self, by: i64) {
        if let Self::Fixed(at) = self {
            at.fetch_add(by, Ordering::Relaxed);
        }
    }
}

/// The school's time zone.
#[derive(Clone, Debug)]
pub struct Zone(pub TimeZone);

impl Zone {
    fn zoned(&self, at: i64) -> jiff::ZonedDateTime {
        Timestamp::from_millisecond(at)
            .unwrap_or(Timestamp::UNIX_EPOCH)
            .to_zoned_datetime(self.0.clone())
    }

    /// Returns the calendar date at a time.
    #[must_use]
    pub fn date(&self, at: i64) -> Date {
        self.zoned(at).date()
    }

    /// Returns the time of day at a time.
    #[must_use]
    pub fn time_of_day(&self, at: i64) -> Time {
        self.zoned(at).time()
    }

    /// `10:42`.
    #[must_use]
    pub fn time(&self, at: i64) -> String {
        self.zoned(at).strftime("%H:%M").to_string()
    }

    /// `10:42:05`.
    #[must_use]
    pub fn time_to_the_second(&self, at: i64) -> String {
        self.zoned(at).strftime("%H:%M:%S").to_string()
    }

    /// Returns the time that this clock shows on the day of `now`, in Unix ms.
    /// One that is skipped there when summer time begins counts as it would
    /// have.
    #[must_use]
    pub fn today_at(&self, time: Time, now: i64) -> Option<i64> {
        let at = self
            .date(now)
            .to_datetime(time)
            .to_zoned_datetime(self.0.clone());
        at.ok().map(|at| at.timestamp().as_millisecond())
    }

    /// `2026-11-24 10:42`, for files.
    #[must_use]
    pub fn stamp(&self, at: i64) -> String {
        self.zoned(at).strftime("%Y-%m-%d %H:%M").to_string()
    }
}

/// Returns the year in which the school year of a date starts (in September).
#[must_use]
pub fn school_year(date: Date) -> i64 {
    i64::from(date.year()) - i64::from(date.month() < 9)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_written_in_the_zone_of_the_school() {
        let zone = Zone(TimeZone::get("Europe/London").unwrap());
        // 2026-07-01 09:42 UTC is 10:42 in British Summer Time.
        let at = "2026-07-01T09:42:00Z"
            .parse::<Timestamp>()
            .unwrap()
            .as_millisecond();
        assert_eq!(zone.time(at), "10:42");
        assert_eq!(zone.stamp(at), "2026-07-01 10:42");
        assert_eq!(zone.time_to_the_second(at + 5000), "10:42:05");
    }

    #[test]
    fn time_of_day_is_read_in_the_zone_of_the_school_on_the_day_of_now() {
        let zone = Zone(TimeZone::get("Europe/London").unwrap());
        let ms = |text: &str| text.parse::<Timestamp>().unwrap().as_millisecond();
        let time = Time::constant(0, 30, 0, 0);
        // Already 2 July in London.
        let now = ms("2026-07-01T23:42:00Z");
        assert_eq!(zone.today_at(time, now), Some(ms("2026-07-01T23:30:00Z")));
    }

    #[test]
    fn school_year_turns_in_september() {
        assert_eq!(school_year("2027-08-31".parse().unwrap()), 2026);
        assert_eq!(school_year("2027-09-01".parse().unwrap()), 2027);
    }
}
