//! A log as numbers to fit: time from 0 to 1, pressure in Pa, weights, and how much the readings scatter.

use super::DecayLog;
use crate::quantity::Quantity;

/// Readings to fit.
pub(super) struct Series {
    /// From 0 at the first reading to 1 at the last.
    pub u: Vec<f64>,
    /// Pa
    pub y: Vec<f64>,
    /// 1/σ², 1/Pa², σ being the scatter of that reading.
    pub w: Vec<f64>,
    /// Seconds from first to last.
    pub span: f64,
    /// Degrees of freedom of the estimate of the scatter.
    pub scatter_freedom: f64,
}

/// A straight line fitted by weighted least squares.
pub(super) struct Line {
    pub start: f64,
    /// Over the whole log.
    pub rise: f64,
    pub rise_standard: f64,
    pub chi2: f64,
}

impl Series {
    /// The readings, their scatter taken from fourth differences: what a smooth rise leaves of them is noise.
    ///
    /// Source: von Neumann's successive differences (Ann. Math. Stat. 12 (1941) 367), to fourth order for uneven
    /// times. The scatter is never taken for smaller than the gauge's step and stated repeatability allow.
    pub fn of(log: &DecayLog) -> Self {
        let first = log.samples().first().map_or(0.0, |sample| sample.time.base());
        let span = log.duration().base();
        let u: Vec<f64> = log.samples().iter().map(|s| (s.time.base() - first) / span).collect();
        let y: Vec<f64> = log.samples().iter().map(|s| s.pressure.base()).collect();
        let step = log.gauge().step().base();
        let stated: Vec<f64> =
            y.iter().map(|p| step * step / 12.0 + (log.repeatability() * p).powi(2)).collect();
        let scale = differences(&u, &y, &stated).max(1.0);
        let w = stated.iter().map(|variance| 1.0 / (scale * variance)).collect();
        // Overlapping fourth differences of n readings: Σ (C(8,4+k)/C(8,4))² = 2.627 of them make one degree of
        // freedom.
        let scatter_freedom = (u.len() as f64 - 4.0) / 2.627;
        Series { u, y, w, span, scatter_freedom }
    }

    pub fn len(&self) -> usize {
        self.u.len()
    }

    /// (u, y, w) of each reading.
    pub fn points(&self) -> impl Iterator<Item = (f64, f64, f64)> {
        self.u.iter().zip(&self.y).zip(&self.w).map(|((u, y), w)| (*u, *y, *w))
    }

    /// The straight line through the readings.
    pub fn line(&self) -> Line {
        let total: f64 = self.w.iter().sum();
        let mean_u = self.points().map(|(u, _, w)| w * u).sum::<f64>() / total;
        let mean_y = self.points().map(|(_, y, w)| w * y).sum::<f64>() / total;
        let spread: f64 = self.points().map(|(u, _, w)| w * (u - mean_u).powi(2)).sum();
        let rise = self.points().map(|(u, y, w)| w * (u - mean_u) * (y - mean_y)).sum::<f64>() / spread;
        let start = mean_y - rise * mean_u;
        let chi2 = self.points().map(|(u, y, w)| w * (y - start - rise * u).powi(2)).sum();
        Line { start, rise, rise_standard: spread.sqrt().recip(), chi2 }
    }

    /// The mean reading.
    pub fn mean(&self) -> f64 {
        self.points().map(|(_, y, w)| w * y).sum::<f64>() / self.w.iter().sum::<f64>()
    }
}

/// The mean square of fourth divided differences, each over the variance the stated scatter gives it.
fn differences(u: &[f64], y: &[f64], variances: &[f64]) -> f64 {
    let windows = u.windows(5).zip(y.windows(5)).zip(variances.windows(5));
    let squares: Vec<f64> = windows
        .map(|((u, y), variances)| {
            let weight = |k: usize, at: f64| -> f64 {
                u.iter()
                    .enumerate()
                    .filter(|(j, _)| *j != k)
                    .map(|(_, other)| at - other)
                    .product::<f64>()
                    .recip()
            };
            let weights: Vec<f64> = u.iter().enumerate().map(|(k, at)| weight(k, *at)).collect();
            let difference: f64 = weights.iter().zip(y).map(|(c, y)| c * y).sum();
            let variance: f64 = weights.iter().zip(variances).map(|(c, v)| c * c * v).sum();
            difference * difference / variance
        })
        .collect();
    squares.iter().sum::<f64>() / (squares.len().max(1) as f64)
}
