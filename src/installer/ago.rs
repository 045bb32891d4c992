//! When an enquiry came and how old it is. The time now is passed in: nothing here reads a clock.

use super::words::{counted, fill, say, worded};
use jiff::Timestamp;
use jiff::civil::DateTime;
use wording::triage as key;

/// The time now, and the installer's offset from UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clock {
    /// Now.
    pub now: Timestamp,
    /// Minutes that local time is ahead of UTC now.
    pub ahead: i32,
}

impl Clock {
    /// An instant in local time.
    #[must_use]
    pub fn wall(&self, instant: Timestamp) -> DateTime {
        jiff::tz::Offset::from_seconds(self.ahead.saturating_mul(60))
            .unwrap_or(jiff::tz::Offset::UTC)
            .to_datetime(instant)
    }
}

/// How long ago an instant was, in words: in minutes under an hour, in hours within the same day, then in calendar days.
#[must_use]
pub fn ago(received: Timestamp, clock: Clock) -> String {
    let minutes = (clock.now.as_second() - received.as_second()).max(0) / 60;
    let days = (clock.wall(clock.now).date() - clock.wall(received).date()).get_days();
    match (days, minutes) {
        (_, 0..=1) => say(key::AGO_NOW).to_owned(),
        (_, 2..=59) => counted(key::AGO_MINUTE, key::AGO_MINUTES, minutes as usize),
        (i32::MIN..=0, _) => counted(key::AGO_HOUR, key::AGO_HOURS, (minutes / 60) as usize),
        (1, _) => say(key::AGO_YESTERDAY).to_owned(),
        (days, _) => counted(key::AGO_DAY, key::AGO_DAYS, days as usize),
    }
}

/// Day and time in local time: "Tue 14 July, 09:41".
#[must_use]
pub fn day_and_time(received: Timestamp, clock: Clock) -> String {
    let wall = clock.wall(received);
    let weekday = wall.weekday().to_monday_one_offset().to_string();
    fill(
        key::DAY_AND_TIME,
        &[
            ("weekday", &worded("weekday", &weekday)),
            ("day", &wall.day().to_string()),
            ("month", &worded("month", &wall.month().to_string())),
            ("time", &format!("{:02}:{:02}", wall.hour(), wall.minute())),
        ],
    )
}

/// A day as it is in JSON, in words; as it is where it is none.
#[must_use]
pub fn day_of(json: &str) -> String {
    json.parse().map_or_else(|_| json.to_owned(), day)
}

/// A day in words: "14 July 2026".
#[must_use]
pub fn day(date: jiff::civil::Date) -> String {
    fill(
        key::DAY,
        &[
            ("day", &date.day().to_string()),
            ("month", &worded("month", &date.month().to_string())),
            ("year", &date.year().to_string()),
        ],
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> Timestamp {
        text.parse().unwrap()
    }

    fn clock(now: &str, ahead: i32) -> Clock {
        Clock { now: at(now), ahead }
    }

    #[test]
    fn the_age_is_said_in_the_unit_one_would_use() {
        let clock = clock("2026-07-14T12:00:00Z", 60);
        for (received, said) in [
            ("2026-07-14T12:30:00Z", "just now"),
            ("2026-07-14T11:59:30Z", "just now"),
            ("2026-07-14T11:20:00Z", "40 minutes ago"),
            ("2026-07-14T10:59:00Z", "1 hour ago"),
            ("2026-07-13T23:30:00Z", "12 hours ago"), // half past midnight here: still today
            ("2026-07-13T22:30:00Z", "yesterday"),
            ("2026-07-04T12:00:00Z", "10 days ago"),
        ] {
            assert_eq!(ago(at(received), clock), said, "{received}");
        }
    }

    #[test]
    fn the_wall_clock_here_is_shown() {
        assert_eq!(day_and_time(at("2026-07-14T08:41:00Z"), clock("2026-07-14T12:00:00Z", 60)), "Tue 14 July, 09:41");
        assert_eq!(day(jiff::civil::date(2026, 1, 2)), "2 January 2026");
    }
}
