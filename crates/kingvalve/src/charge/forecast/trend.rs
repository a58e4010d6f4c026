//! A reading taken on several days: how it changes, and when it leaves its limits.

use super::Day;
use super::crossing::{Closing, Crossing};
use crate::measure::{Interval, Level, Measured};
use crate::quantity::{Quantity, Time};
use crate::{Error, Result};

/// A straight line through dated readings: superheat, capacity, standing pressure.
///
/// # Example
/// ```
/// use kingvalve::charge::forecast::{Trend, USUAL_HORIZON};
/// use kingvalve::measure::{Level, Measured};
/// use kingvalve::quantity::*;
/// let read = |day: &str, superheat: f64| {
///     let value = Measured::from_standard(delta_fahrenheit(superheat), delta_fahrenheit(0.5), "superheat")?;
///     Ok::<_, kingvalve::Error>((day.parse()?, value))
/// };
/// let trend = Trend::of(&[read("2026-05-01", 10.0)?, read("2026-06-10", 13.0)?, read("2026-07-20", 16.0)?])?;
/// let late = trend.crosses(delta_fahrenheit(20.0), USUAL_HORIZON, Level::default())?;
/// assert_eq!(late.likely.map(|day| day.to_string()), Some("2026-09-11".into()));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Trend<Q: Quantity> {
    last: Day,
    first: Day,
    /// On the last day, and its change a day; SI units.
    value: f64,
    slope: f64,
    of_value: f64,
    of_slope: f64,
    shared: f64,
    marker: std::marker::PhantomData<Q>,
}

impl<Q: Quantity> Trend<Q> {
    /// Fits the line.
    ///
    /// # Units
    /// Dated readings of one quantity, under like conditions.
    /// # Source
    /// Weighted least squares, weights 1/u²; the doubts' shared sources kept (JCGM 100:2008, 5.2). Where the readings
    /// scatter more than their doubt allows, all doubt is raised to match (R. T. Birge, Phys. Rev. 40 (1932) 207).
    /// # Valid range
    /// Two readings or more on different days, in order.
    /// # Accuracy
    /// That of the readings, if the change is steady.
    /// # Errors
    /// Fewer than two readings, dates out of order or on one day, a reading that is not finite.
    /// # Example
    /// See [`Trend`].
    pub fn of(readings: &[(Day, Measured<Q>)]) -> Result<Trend<Q>> {
        let (Some((first, _)), Some((last, _)), true) =
            (readings.first(), readings.last(), readings.len() > 1)
        else {
            let why = format!("{} given", readings.len());
            return Err(Error::inconsistent("dated readings", why, "a trend takes two or more"));
        };
        for (at, pair) in readings.windows(2).enumerate() {
            if let [(before, _), (after, _)] = pair
                && after <= before
            {
                return Err(Error::inconsistent(
                    "dated readings",
                    format!("{after} comes after {before}"),
                    "give the readings in the order of their dates, one a day",
                )
                .in_field(format!("readings[{}]", at + 1)));
            }
        }
        if let Some((_, bad)) = readings.iter().find(|(_, read)| !read.value().base().is_finite()) {
            let advice = "leave the reading out or read again";
            return Err(Error::out_of_range(Q::NAME, bad.value(), "a reading is a finite number", advice));
        }
        let doubts: Vec<f64> = readings.iter().map(|(_, read)| read.standard_uncertainty().base()).collect();
        let even = doubts.iter().any(|u| *u <= 0.0);
        let weights: Vec<f64> = doubts.iter().map(|u| if even { 1.0 } else { 1.0 / (u * u) }).collect();
        // Days from the last reading.
        let times: Vec<f64> = readings.iter().map(|(day, _)| day.since(*last).days()).collect();
        let total: f64 = weights.iter().sum();
        let center = weights.iter().zip(&times).map(|(w, t)| w * t).sum::<f64>() / total;
        let spread: f64 = weights.iter().zip(&times).map(|(w, t)| w * (t - center).powi(2)).sum();
        let mut slope = Measured::exact(Q::Difference::from_base(0.0));
        let mut value = Measured::exact(Q::from_base(0.0));
        let (mut slope_sum, mut value_sum) = (0.0, 0.0);
        for (((_, read), w), t) in readings.iter().zip(&weights).zip(&times) {
            let of_slope = w * (t - center) / spread;
            let of_value = w / total - center * of_slope;
            slope_sum += of_slope * read.value().base();
            value_sum += of_value * read.value().base();
            slope = slope.depending_on(read, of_slope);
            value = value.depending_on(read, of_value);
        }
        let residuals =
            readings.iter().zip(&times).map(|((_, read), t)| read.value().base() - value_sum - slope_sum * t);
        let chi: f64 = residuals.zip(&weights).map(|(r, w)| w * r * r).sum();
        let free = readings.len() as f64 - 2.0;
        let (u, v) = (value.standard_uncertainty().base(), slope.standard_uncertainty().base());
        let shared = value.correlation(&slope) * u * v;
        // Without doubts of their own the scatter is all there is to go by.
        let (of_value, of_slope, shared) = if even {
            let s2 = if free > 0.0 { chi / free } else { 0.0 };
            (s2 * (1.0 / total + center * center / spread), s2 / spread, -s2 * center / spread)
        } else {
            let raise = if free > 0.0 { (chi / free).max(1.0) } else { 1.0 };
            (raise * u * u, raise * v * v, raise * shared)
        };
        Ok(Trend {
            last: *last,
            first: *first,
            value: value_sum,
            slope: slope_sum,
            of_value,
            of_slope,
            shared,
            marker: std::marker::PhantomData,
        })
    }

    /// The change in a year of 365 days, at the level.
    ///
    /// # Errors
    /// A change that is not finite.
    pub fn change_per_year(&self, level: Level) -> Result<Interval<Q::Difference>> {
        let half = 365.0 * level.coverage_factor() * self.of_slope.sqrt();
        let middle = 365.0 * self.slope;
        Interval::new(Q::Difference::from_base(middle - half), Q::Difference::from_base(middle + half))
    }

    /// The line's value on a day, at the level.
    ///
    /// # Valid range
    /// From the first reading to [`USUAL_HORIZON`](super::USUAL_HORIZON) after the last.
    /// # Errors
    /// A day outside the range.
    pub fn on(&self, day: Day, level: Level) -> Result<Interval<Q>> {
        let t = day.since(self.last).days();
        if day < self.first || t > super::USUAL_HORIZON.days() {
            return Err(Error::out_of_range(
                "day of the forecast",
                day,
                format!(
                    "the readings run from {} to {}, and the forecast three years on",
                    self.first, self.last
                ),
                "ask for a day in that time",
            ));
        }
        let variance = self.of_value + 2.0 * t * self.shared + t * t * self.of_slope;
        let half = level.coverage_factor() * variance.max(0.0).sqrt();
        let middle = self.value + self.slope * t;
        Interval::new(Q::from_base(middle - half), Q::from_base(middle + half))
    }

    /// When the line crosses a limit, counted from the last reading.
    ///
    /// # Units
    /// The limit; how far ahead to look.
    /// # Source
    /// E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175.
    /// # Valid range
    /// Readings under like conditions and a change that goes on as it was; up to the horizon.
    /// # Accuracy
    /// To the day, for doubts that are normal. The latest day is none where the change is not firmly towards the limit.
    /// # Errors
    /// A limit that is not finite.
    /// # Example
    /// See [`Trend`].
    pub fn crosses(&self, limit: Q, horizon: Time, level: Level) -> Result<Crossing> {
        if !limit.base().is_finite() {
            return Err(Error::out_of_range(Q::NAME, limit, "a limit is a finite number", "check the limit"));
        }
        let gap = limit.base() - self.value;
        // Which side the limit lies on was so at the first reading, before the line could have crossed it.
        let began = limit.base() - (self.value + self.slope * self.first.since(self.last).days());
        let side = if began >= 0.0 { 1.0 } else { -1.0 };
        let closing = Closing {
            distance: side * gap,
            rate: side * self.slope,
            of_distance: self.of_value,
            of_rate: self.of_slope,
            // The distance falls as the value rises: their covariance with the rate changes sign.
            shared: -self.shared,
        };
        Ok(closing.crossing(self.last, horizon, level))
    }
}
