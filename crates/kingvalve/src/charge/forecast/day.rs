//! A day of the calendar.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::quantity::{Time, days};
use crate::{Error, Result};

/// A day, from 1900 to 2199, as records are dated: `2026-06-01`.
///
/// # Source
/// Gregorian calendar; H. Hinnant, "chrono-Compatible Low-Level Date Algorithms".
/// # Example
/// ```
/// use kingvalve::charge::forecast::Day;
/// let (before, after): (Day, Day) = ("2026-02-27".parse()?, "2026-03-02".parse()?);
/// assert_eq!(after.since(before).days(), 3.0);
/// assert_eq!(before.after(2).map(|day| day.to_string()), Some("2026-03-01".into()));
/// assert!("2026-02-29".parse::<Day>().is_err());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day {
    /// Days after 1970-01-01.
    number: i32,
}

/// 1900-01-01 and 2199-12-31.
const FIRST: i32 = -25_567;
const LAST: i32 = 84_005;

impl Day {
    /// The day of that year, month and day of month.
    ///
    /// # Errors
    /// A day that is not in the calendar, or outside 1900 to 2199.
    pub fn new(year: i32, month: u32, day: u32) -> Result<Day> {
        let refused = || {
            Error::out_of_range(
                "date",
                format!("{year:04}-{month:02}-{day:02}"),
                "a day of the calendar from 1900 to 2199 is wanted",
                "write year-month-day: 2026-06-01",
            )
        };
        if !(1900..2200).contains(&year) || !(1..=12).contains(&month) || !(1..=31).contains(&day) {
            return Err(refused());
        }
        let made = Day { number: number_of(year, month as i32, day as i32) };
        if made.civil() == (year, month, day) { Ok(made) } else { Err(refused()) }
    }

    /// So many days later, or earlier where negative; none beyond the calendar's range.
    pub fn after(self, days: i32) -> Option<Day> {
        let number = self.number.checked_add(days)?;
        (FIRST..=LAST).contains(&number).then_some(Day { number })
    }

    /// The time from `earlier` to this day; negative where it is later.
    pub fn since(self, earlier: Day) -> Time {
        days(f64::from(self.number - earlier.number))
    }

    /// Year, month and day of month.
    pub fn civil(self) -> (i32, u32, u32) {
        let shifted = self.number + 719_468;
        let era = shifted.div_euclid(146_097);
        let day_of_era = shifted.rem_euclid(146_097);
        let year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
        let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
        let march_month = (5 * day_of_year + 2) / 153;
        let day = day_of_year - (153 * march_month + 2) / 5 + 1;
        let month = if march_month < 10 { march_month + 3 } else { march_month - 9 };
        let year = year_of_era + era * 400 + i32::from(month <= 2);
        (year, month.unsigned_abs(), day.unsigned_abs())
    }
}

/// Days from 1970-01-01; the year is reckoned from March.
fn number_of(year: i32, month: i32, day: i32) -> i32 {
    let year = if month <= 2 { year - 1 } else { year };
    let era = year.div_euclid(400);
    let year_of_era = year.rem_euclid(400);
    let march_month = if month > 2 { month - 3 } else { month + 9 };
    let day_of_year = (153 * march_month + 2) / 5 + day - 1;
    let day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    era * 146_097 + day_of_era - 719_468
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.civil();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

impl FromStr for Day {
    type Err = Error;
    fn from_str(text: &str) -> Result<Day> {
        let unreadable = || Error::unreadable("a date", text, "write year-month-day: 2026-06-01");
        let mut parts = text.trim().split('-');
        let mut part = |length: usize| {
            let digits = parts.next().filter(|part| part.len() == length).ok_or_else(unreadable)?;
            digits.parse::<u32>().ok().filter(|_| !digits.starts_with('+')).ok_or_else(unreadable)
        };
        let (year, month, day) = (part(4)?, part(2)?, part(2)?);
        if parts.next().is_some() {
            return Err(unreadable());
        }
        Day::new(i32::try_from(year).map_err(|_| unreadable())?, month, day)
    }
}

impl Serialize for Day {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Day, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Day {
    fn schema_name() -> Cow<'static, str> {
        "Day".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A day of the calendar, year-month-day.",
            "type": "string",
            "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$",
            "examples": ["2026-06-01"]
        })
    }
}
