//! How probable a reading is, by what the truth is: the shape of its doubt.
//!
//! Source: JCGM 106:2012, clause 6 (the likelihood of a reading in Bayes' theorem); JCGM 101:2008, 6.4 (the distribution that
//! each kind of source is given: rectangular within limits, normal, Student's t).

use crate::measure::Doubt;
use crate::measure::source::Cause;

/// Points of the table of a density.
const POINTS: usize = 1025;

/// The density of a result's error, not scaled to an integral of one.
pub(super) enum Likelihood {
    /// Student's t of that standard uncertainty and effective degrees of freedom; normal where they are infinite.
    Bell { standard: f64, degrees: f64 },
    /// Tabulated from minus to plus `reach`, nothing beyond.
    Table { reach: f64, densities: Vec<f64> },
}

impl Likelihood {
    /// Of a doubt above zero. Where all of it comes of limits (steps, accuracies that mean limits) and of normal sources,
    /// the exact convolution of those; with scatter of few readings, Student's t.
    pub fn of(doubt: &Doubt) -> Likelihood {
        let standard = doubt.standard();
        let (mut halves, mut normal) = (Vec::new(), 0.0);
        for contribution in doubt.all() {
            let degrees = contribution.degrees_of_freedom();
            if degrees.is_finite() {
                return Likelihood::Bell { standard, degrees: doubt.degrees_of_freedom() };
            }
            let amount = contribution.amount.abs();
            // Sources far below the resolution of the table count as normal ones of the same size.
            match contribution.cause {
                Cause::Step { .. } | Cause::Limits | Cause::Accuracy { limits: true }
                    if amount > 0.02 * standard =>
                {
                    halves.push(amount * 3f64.sqrt());
                }
                _ => normal += amount * amount,
            }
        }
        if halves.is_empty() {
            return Likelihood::Bell { standard, degrees: f64::INFINITY };
        }
        table(&halves, normal.sqrt())
    }

    /// The density at an error.
    pub fn density(&self, error: f64) -> f64 {
        match self {
            Likelihood::Bell { standard, degrees } => {
                let square = (error / standard).powi(2);
                if degrees.is_infinite() {
                    (-0.5 * square).exp()
                } else {
                    (-0.5 * (degrees + 1.0) * (square / degrees).ln_1p()).exp()
                }
            }
            Likelihood::Table { reach, densities } => {
                let at = (error / reach + 1.0) * 0.5 * (POINTS - 1) as f64;
                read(densities, at)
            }
        }
    }

    /// Where the density changes: centre and width of each feature, the error counted from zero.
    pub fn width(&self) -> f64 {
        match self {
            Likelihood::Bell { standard, .. } => *standard,
            Likelihood::Table { reach, .. } => reach / 8.0,
        }
    }
}

/// A table read between its points; nothing beyond its ends.
fn read(table: &[f64], at: f64) -> f64 {
    if !(0.0..=(POINTS - 1) as f64).contains(&at) {
        return 0.0;
    }
    let (below, part) = (at.floor() as usize, at.fract());
    let value = |at: usize| table.get(at).copied().unwrap_or(0.0);
    value(below) * (1.0 - part) + value(below + 1) * part
}

/// The convolution of rectangles of those half-widths and a normal density.
fn table(halves: &[f64], normal: f64) -> Likelihood {
    let reach = (halves.iter().sum::<f64>() + 6.0 * normal) * 1.001;
    let step = 2.0 * reach / (POINTS - 1) as f64;
    let error = |at: usize| at as f64 * step - reach;
    let widest = halves.iter().copied().fold(0.0, f64::max);
    let mut others: Vec<f64> = halves.to_vec();
    // Start from the widest rectangle, cut at its very edges; smear it by the others and by the normal part.
    if let Some(at) = others.iter().position(|half| *half == widest) {
        others.swap_remove(at);
    }
    let edge = |x: f64| ((widest - x.abs()) / step + 0.5).clamp(0.0, 1.0);
    let mut densities: Vec<f64> = (0..POINTS).map(|at| edge(error(at))).collect();
    for half in others.into_iter().chain(as_rectangles(normal)) {
        densities = smeared(&densities, half / step);
    }
    Likelihood::Table { reach, densities }
}

/// A normal density as four equal rectangles of the same variance: alike to 2 % of its peak, which no step or limit is
/// known better than.
fn as_rectangles(normal: f64) -> impl Iterator<Item = f64> {
    let half = normal * (3.0f64 / 4.0).sqrt();
    std::iter::repeat_n(half, if normal > 0.0 { 4 } else { 0 })
}

/// The mean over a window of so many steps to either side, by differences of the running sum.
fn smeared(densities: &[f64], half: f64) -> Vec<f64> {
    if half < 1e-3 {
        return densities.to_vec();
    }
    let mut sum = 0.0;
    let mut before = densities.first().copied().unwrap_or(0.0);
    let sums: Vec<f64> = densities
        .iter()
        .map(|density| {
            sum += 0.5 * (before + density);
            before = *density;
            sum
        })
        .collect();
    let up_to = |at: f64| read(&sums, at.clamp(0.0, (POINTS - 1) as f64));
    (0..POINTS).map(|at| (up_to(at as f64 + half) - up_to(at as f64 - half)) / (2.0 * half)).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "how a test fails")]

    use super::*;
    use crate::measure::{Coverage, Instrument, Measured, Reading};
    use crate::quantity::volts;

    /// Variance of a density, and its integral up to an error.
    fn moments(likelihood: &Likelihood, reach: f64, upto: f64) -> (f64, f64) {
        let (mut all, mut square, mut part) = (0.0, 0.0, 0.0);
        for at in 0..20_000 {
            let x = reach * (f64::from(at) / 10_000.0 - 1.0);
            let density = likelihood.density(x);
            all += density;
            square += density * x * x;
            part += if x <= upto { density } else { 0.0 };
        }
        (square / all, part / all)
    }

    #[test]
    fn convolutions_keep_their_variance_and_shape() {
        let limits = |half: f64| Measured::from_limits(volts(0.0), volts(half), "limits").unwrap();
        let normal = Measured::from_standard(volts(0.0), volts(0.5), "normal").unwrap();
        // One box; two equal ones make a triangle, of which 1/8 lies below minus half its reach.
        for (doubt, upto, part) in [
            (limits(1.0), -0.5, 0.25),
            (limits(1.0) + limits(1.0), -1.0, 0.125),
            (limits(1.0) + limits(0.1) + normal.clone(), 0.0, 0.5),
            (limits(1.0) + limits(3.0) + normal, 0.0, 0.5),
        ] {
            let standard = doubt.standard_uncertainty().volts();
            let (variance, found) = moments(&Likelihood::of(doubt.doubt()), 8.0 * standard, upto);
            assert!((variance / (standard * standard) - 1.0).abs() < 0.01, "{variance} {standard}");
            assert!((found - part).abs() < 0.003, "{found} is not {part}");
        }
    }

    #[test]
    fn an_expanded_uncertainty_is_bell_shaped() {
        let meter =
            Instrument::resolution(volts(1e-6)).accuracy(volts(2.0)).accuracy_means(Coverage::Factor(2.0));
        let read = Reading::new(volts(230.0), meter).unwrap().measured();
        assert!(
            matches!(Likelihood::of(read.doubt()), Likelihood::Bell { degrees, .. } if degrees.is_infinite())
        );
    }
}
