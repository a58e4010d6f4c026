//! The rule that knows everything that can be known: the population, the voltages, and how the meters are off.

use super::population::{AMMETERS, Case, MEAN, SPREAD, TOLERANCE, VOLTAGES, VOLTMETER, per_microfarad};

/// Cells of the capacitance in each of the three regions, and of the voltage.
const CELLS: usize = 120;
const VOLT_CELLS: usize = 24;

/// Probabilities that a part lies below, within and above its tolerance, given what was read.
///
/// # Source
/// Bayes' rule, integrated by midpoints over capacitance and voltage with the exact likelihood: an error anywhere
/// within the meter's limits as likely, rounded to its step.
pub fn posterior(case: &Case) -> [f64; 3] {
    let t = 0.01 * TOLERANCE;
    let edges = [MEAN - 6.0 * SPREAD, 1.0 - t, 1.0 + t, MEAN + 6.0 * SPREAD];
    let meter = AMMETERS[case.meter];
    let reach = VOLTMETER.limits(case.volts * 1.02) + 0.5 * VOLTMETER.step;
    let (low, high) = ((case.volts - reach).max(VOLTAGES.0), (case.volts + reach).min(VOLTAGES.1));
    let voltages: Vec<(f64, f64)> = midpoints(low, high, VOLT_CELLS)
        .map(|volts| {
            (per_microfarad(volts), likelihood(case.volts, volts, VOLTMETER.limits(volts), VOLTMETER.step))
        })
        .collect();
    let mut parts = [0, 1, 2].map(|region| {
        let (from, to) = (edges[region], edges[region + 1]);
        let density = |share: f64| {
            let prior = (-0.5 * ((share - MEAN) / SPREAD).powi(2)).exp();
            let farads = share * case.rated;
            let read: f64 = voltages
                .iter()
                .map(|(per, weight)| {
                    let amperes = per * farads;
                    weight * likelihood(case.amperes, amperes, meter.limits(amperes), meter.step)
                })
                .sum();
            prior * read
        };
        midpoints(from, to, CELLS).map(density).sum::<f64>() * (to - from)
    });
    let all: f64 = parts.iter().sum();
    parts.iter_mut().for_each(|part| *part /= all);
    parts
}

/// The middles of so many cells.
fn midpoints(low: f64, high: f64, cells: usize) -> impl Iterator<Item = f64> {
    let width = (high - low) / cells as f64;
    (0..cells).map(move |at| low + width * (at as f64 + 0.5))
}

/// The probability that a display shows `shown` for a true value, its error within ±`limits`; a display at zero takes
/// all that lies below.
fn likelihood(shown: f64, truth: f64, limits: f64, step: f64) -> f64 {
    let low = if shown < 0.5 * step { f64::NEG_INFINITY } else { shown - 0.5 * step - truth };
    let high = shown + 0.5 * step - truth;
    (high.min(limits) - low.max(-limits)).max(0.0) / (2.0 * limits)
}
