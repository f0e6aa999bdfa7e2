//! Times in a lesson, in words.

use crate::clock::{HOUR, MINUTE, Zone};
use crate::words::counted;

/// `just now`, `7 minutes ago`; from two hours on the time itself.
pub(super) fn ago(at: i64, now: i64, zone: &Zone) -> String {
    match now - at {
        past if past < MINUTE => "just now".to_owned(),
        past if past < 2 * HOUR => format!("{} ago", minutes(past / MINUTE)),
        _ => zone.time_or_day(at, now),
    }
}

/// `1 minute`, `7 minutes`.
pub(super) fn minutes(count: i64) -> String {
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
