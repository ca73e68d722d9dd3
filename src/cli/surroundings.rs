//! What the environment says beside the command line.

use super::fault::Fault;
use jiff::Span;
use jiff::civil::{Date, date};

/// The variable by which a build that is to be made anew says when it was made
/// (reproducible-builds.org, specification of `SOURCE_DATE_EPOCH`, version 1.1).
const EPOCH: &str = "SOURCE_DATE_EPOCH";

/// Date of issue for a build file that states none: the day, in UTC, of the seconds since 1970-01-01 that
/// `SOURCE_DATE_EPOCH` holds. No day where it is not set.
pub fn issue() -> Result<Option<Date>, Fault> {
    let Some(value) = std::env::var_os(EPOCH) else { return Ok(None) };
    let told = value.to_string_lossy();
    let why = || {
        let told: String = told.chars().take(40).collect();
        format!("{told:?} is no count of seconds since 1970-01-01 00:00 UTC, such as 1778284800")
    };
    day(&told).map(Some).ok_or_else(|| Fault::Answer(EPOCH.into(), why()))
}

/// The day of so many seconds since 1970, for the years that a packet can be for.
fn day(seconds: &str) -> Option<Date> {
    if seconds.is_empty() || !seconds.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    let days = seconds.parse::<i64>().ok()? / 86_400;
    let day = date(1970, 1, 1).checked_add(Span::new().try_days(days).ok()?).ok()?;
    (2000..=2199).contains(&day.year()).then_some(day)
}

#[cfg(test)]
mod tests {
    use super::day;

    #[test]
    fn seconds_are_days_of_the_calendar() {
        // Stated in POSIX.1-2017, 4.16: 86 400 s a day; 2000-01-01 is day 10 957 of it.
        assert_eq!(day("946684800").map(|d| d.to_string()).as_deref(), Some("2000-01-01"));
        assert_eq!(day("951782400").map(|d| d.to_string()).as_deref(), Some("2000-02-29"));
        assert_eq!(day("1778284800").map(|d| d.to_string()).as_deref(), Some("2026-05-09"));
        assert_eq!(day("1778371199").map(|d| d.to_string()).as_deref(), Some("2026-05-09"));
        for text in ["", "-1", "946684799", "1e9", " 946684800", "99999999999999999999", "soon"] {
            assert_eq!(day(text), None, "{text}");
        }
    }
}
