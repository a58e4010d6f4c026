//! When something that changes steadily crosses a limit, with the doubt of both its value and its change.

use std::fmt;

use serde::Serialize;

use super::Day;
use crate::measure::Level;
use crate::quantity::{Time, days};

/// How far ahead a forecast reaches where nothing else is asked for: three years. Common practice, no source.
pub const USUAL_HORIZON: Time = days(3.0 * 365.0);

/// When a limit is crossed; a day beyond the horizon is `None`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Crossing {
    /// The earliest, at the level asked for.
    pub earliest: Option<Day>,
    /// By the best values.
    pub likely: Option<Day>,
    /// The latest, at the level asked for.
    pub latest: Option<Day>,
}

/// A distance to the limit that closes by `rate` a day; variances and covariance of the two.
#[derive(Debug, Clone, Copy)]
pub(super) struct Closing {
    pub distance: f64,
    pub rate: f64,
    pub of_distance: f64,
    pub of_rate: f64,
    pub shared: f64,
}

impl Closing {
    /// When the distance is gone, counted from `today`.
    ///
    /// The days t for which distance − rate·t differs from nothing by no more than its doubt: Fieller's interval
    /// (E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175), unbounded where the rate is not firmly above nothing.
    pub(super) fn crossing(&self, today: Day, horizon: Time, level: Level) -> Crossing {
        let z = level.coverage_factor();
        let (a, b) = (self.distance, self.rate);
        let square = b * b - z * z * self.of_rate;
        let linear = a * b - z * z * self.shared;
        let constant = a * a - z * z * self.of_distance;
        let room = linear * linear - square * constant;
        let roots = (room >= 0.0 && square != 0.0).then(|| {
            let root = room.sqrt();
            let (x, y) = ((linear - root) / square, (linear + root) / square);
            (x.min(y), x.max(y))
        });
        let likely = if a <= 0.0 { Some(0.0) } else { (b > 0.0).then(|| a / b) };
        let (earliest, latest) = match roots {
            // Firmly closing: between the roots. Firmly opening: not ahead.
            Some((first, last)) if square > 0.0 && last >= 0.0 => (Some(first.max(0.0)), Some(last)),
            Some(_) if square > 0.0 => (likely, likely),
            // Not firm: beyond the later root, or from now where the earlier one is still ahead.
            Some((first, _)) if first >= 0.0 => (Some(0.0), None),
            Some((_, last)) => (Some(last.max(0.0)), None),
            None if square > 0.0 => (likely, likely),
            None => (Some(0.0), None),
        };
        let reach = horizon.days();
        let on = |t: f64| if t <= reach { today.after(t as i32) } else { None };
        let likely = likely.and_then(|t| on(t.round()));
        let earliest = earliest.and_then(|t| on(t.floor()));
        Crossing { earliest, likely, latest: latest.and_then(|t| on(t.ceil())) }
    }
}

impl fmt::Display for Crossing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let day = |day: Option<Day>| day.map_or_else(|| "beyond the forecast".into(), |day| day.to_string());
        match (self.earliest, self.latest) {
            (None, None) => f.write_str("not within the forecast"),
            (earliest, latest) => write!(
                f,
                "{} likely, {} at the earliest, {} at the latest",
                day(self.likely),
                day(earliest),
                day(latest)
            ),
        }
    }
}
