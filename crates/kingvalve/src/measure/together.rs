//! Quantities observed together, time after time: their means and how those are correlated.

use super::source::{Cause, Contribution, Identity, fresh, shown};
use super::{Doubt, Label, Measured};
use crate::quantity::Quantity;
use crate::{Error, Result};

/// A set of repeated observations in each of which several quantities were read at once.
///
/// # Source
/// JCGM 100:2008, 5.2.3 and example H.2 (first approach): the means' variances and covariances from the scatter.
/// Each observation is kept as a source, so that the covariance of any results is exact.
/// # Accuracy
/// Exact to rounding for the variances and covariances of the means; n − 1 degrees of freedom for the set.
/// # Example
/// ```
/// use kingvalve::measure::Together;
/// use kingvalve::quantity::*;
/// let set = Together::of(5)?;
/// let volts = set.mean(&[5.007, 4.994, 5.005, 4.990, 4.999].map(volts))?;
/// let amps = set.mean(&[19.663, 19.639, 19.640, 19.685, 19.678].map(milliamperes))?;
/// let impedance = volts.clone() / amps.clone(); // JCGM 100 table H.4: 254.260 Ω, u = 0.236 Ω
/// assert_eq!(format!("{:.2}", impedance.value()), "254.26 Ω");
/// assert_eq!(format!("{:.3}", impedance.standard_uncertainty()), "0.236 Ω");
/// assert_eq!(format!("{:.2}", volts.correlation(&amps)), "-0.36");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Together {
    first: Identity,
    count: usize,
}

impl Together {
    /// A set of so many observations.
    ///
    /// # Errors
    /// Unless there are two or more.
    pub fn of(count: usize) -> Result<Together> {
        if count < 2 {
            return Err(Error::out_of_range(
                "number of observations",
                count,
                "scatter shows in two or more",
                "repeat the readings, or use a single Reading with its instrument",
            ));
        }
        Ok(Together { first: fresh(count as u64), count })
    }

    /// The mean of one of the quantities, one value an observation, in the set's order.
    ///
    /// # Errors
    /// Where there are not as many values as the set has observations, or one is not finite.
    pub fn mean<Q: Quantity>(&self, values: &[Q]) -> Result<Measured<Q>> {
        if values.len() != self.count {
            return Err(Error::inconsistent(
                format!("readings of {}", Q::NAME),
                format!("{} values in a set of {} observations", values.len(), self.count),
                "give one value for each observation",
            ));
        }
        let (mean, _) = mean_and_scatter(values)?;
        let n = self.count as f64;
        let mut doubt = Doubt::none();
        for (at, value) in values.iter().enumerate() {
            let deviation = (value.base() - mean) / (n * (n - 1.0)).sqrt();
            let source = self.first + at as u64;
            doubt.add(source, deviation, || Contribution {
                source,
                reading: self.first,
                amount: deviation,
                own: deviation.abs(),
                cause: Cause::Together { count: self.count },
                what: Label::EMPTY,
                show: shown::<Q>,
            });
        }
        Ok(Measured::new(Q::from_base(mean), doubt))
    }
}

/// The mean, and the experimental standard deviation of the mean (JCGM 100:2008, equations 3 to 5), SI units.
pub(super) fn mean_and_scatter<Q: Quantity>(values: &[Q]) -> Result<(f64, f64)> {
    if let Some(bad) = values.iter().find(|value| !value.base().is_finite()) {
        return Err(Error::out_of_range(
            Q::NAME,
            bad,
            "a reading is a finite number",
            "leave the reading out or read again",
        ));
    }
    let n = values.len() as f64;
    let first = values.first().map_or(0.0, |value| value.base());
    let mean = first + values.iter().map(|value| value.base() - first).sum::<f64>() / n;
    let squares: f64 = values.iter().map(|value| (value.base() - mean).powi(2)).sum();
    Ok((mean, (squares / (n * (n - 1.0))).sqrt()))
}
