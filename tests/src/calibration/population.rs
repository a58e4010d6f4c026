//! The population the verdicts are calibrated on: invented, and stated here in full.

use std::f64::consts::TAU;

use kingvalve::measure::{Coverage, Generator, Instrument};
use kingvalve::quantity::*;

/// Run capacitors in the field, as a share of their rating: normal about 0.97 with a standard deviation of 0.05.
pub const MEAN: f64 = 0.97;
/// See [`MEAN`].
pub const SPREAD: f64 = 0.05;
/// Tolerance marked on them, in percent.
pub const TOLERANCE: f64 = 6.0;
/// Ratings, each as common, µF.
const RATINGS: [f64; 5] = [5.0, 7.5, 10.0, 35.0, 45.0];
/// Voltage across a section: anywhere between as likely, V.
pub const VOLTAGES: (f64, f64) = (340.0, 400.0);
/// Mains, Hz.
pub const MAINS: f64 = 60.0;

/// A digital meter of a stated specification. Each one simulated is off by an error of its own, anywhere within its
/// accuracy as likely; its display rounds to the step.
#[derive(Debug, Clone, Copy)]
pub struct Meter {
    /// What it is called in the table.
    pub name: &'static str,
    /// Step of the display.
    pub step: f64,
    /// Accuracy, percent of reading.
    pub percent: f64,
    /// Accuracy, steps of the display.
    pub counts: f64,
}

/// The voltmeter of every technician.
pub const VOLTMETER: Meter = Meter { name: "voltmeter 0.1 V, 1 % + 3", step: 0.1, percent: 1.0, counts: 3.0 };

/// Their clamp ammeters, each as common.
pub const AMMETERS: [Meter; 4] = [
    Meter { name: "0.1 A, 2 % + 5", step: 0.1, percent: 2.0, counts: 5.0 },
    Meter { name: "0.1 A, 1 % + 1", step: 0.1, percent: 1.0, counts: 1.0 },
    Meter { name: "0.01 A, 2 % + 5", step: 0.01, percent: 2.0, counts: 5.0 },
    Meter { name: "0.001 A, 1 % + 3", step: 0.001, percent: 1.0, counts: 3.0 },
];

impl Meter {
    /// The limits of its error at a true value.
    pub fn limits(&self, truth: f64) -> f64 {
        0.01 * self.percent * truth.abs() + self.counts * self.step
    }

    /// What one of them shows.
    pub fn show(&self, truth: f64, generator: &mut Generator) -> f64 {
        let error = self.limits(truth) * (2.0 * generator.uniform() - 1.0);
        ((truth + error) / self.step).round() * self.step
    }

    /// As the library knows it.
    pub fn instrument<Q: Quantity>(&self, unit: fn(f64) -> Q::Difference) -> Instrument<Q> {
        Instrument::resolution(unit(self.step)).accuracy_percent_of_reading(self.percent).counts(self.counts)
    }
}

/// One part in the field and what was read of it.
#[derive(Debug, Clone, Copy)]
pub struct Case {
    /// Which of [`AMMETERS`].
    pub meter: usize,
    /// Rated and true capacitance, µF.
    pub rated: f64,
    /// See `rated`.
    pub truth: f64,
    /// As read, V.
    pub volts: f64,
    /// As read, A.
    pub amperes: f64,
}

impl Case {
    /// The next part; the meters take turns.
    pub fn draw(at: usize, generator: &mut Generator) -> Case {
        let meter = at % AMMETERS.len();
        let rated = RATINGS[(generator.uniform() * RATINGS.len() as f64) as usize % RATINGS.len()];
        let truth = rated * (MEAN + SPREAD * generator.normal());
        let (low, high) = VOLTAGES;
        let true_volts = low + (high - low) * generator.uniform();
        let true_amperes = per_microfarad(true_volts) * truth;
        Case {
            meter,
            rated,
            truth,
            volts: VOLTMETER.show(true_volts, generator),
            // A display does not go below zero.
            amperes: AMMETERS[meter].show(true_amperes, generator).max(0.0),
        }
    }
}

/// Current through one microfarad, A.
pub fn per_microfarad(volts: f64) -> f64 {
    TAU * MAINS * volts * 1e-6
}

/// A gauge and a thermometer whose accuracy is an expanded uncertainty (k = 2) with normal errors.
pub fn normal_instruments() -> (Instrument<GaugePressure>, Instrument<Temperature>) {
    let gauge = Instrument::resolution(psi(0.1)).accuracy(psi(2.0)).accuracy_means(Coverage::Factor(2.0));
    let clamp = Instrument::resolution(delta_fahrenheit(0.1))
        .accuracy(delta_fahrenheit(1.0))
        .accuracy_means(Coverage::Factor(2.0));
    (gauge, clamp)
}

/// The same with limits and errors anywhere within them as likely.
pub fn limited_instruments() -> (Instrument<GaugePressure>, Instrument<Temperature>) {
    let gauge = Instrument::resolution(psi(0.1)).accuracy(psi(2.0));
    let clamp = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0));
    (gauge, clamp)
}
