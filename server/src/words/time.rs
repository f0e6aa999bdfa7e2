//! Dates and times in sentences.

use jiff::civil::Date;

use super::Say;
use crate::clock::Zone;

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
}
