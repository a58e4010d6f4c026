//! The instruments of a visit, each off by an error of its own that stays the same until the visit ends.

use kingvalve::Result;
use kingvalve::measure::{Generator, Instrument, Reading};
use kingvalve::quantity::*;

/// Specifications of a kit, in the trade's units: steps and accuracy of the display.
///
/// Classes of common instruments, from memory; accuracies are limits.
#[derive(Debug, Clone, Copy)]
pub struct Grade {
    /// What it is called.
    pub name: &'static str,
    /// Gauge: step in psi, accuracy in per cent of a span of 500 psi (low side) and 800 psi (high side).
    pub gauge: (f64, f64),
    /// Thermometer: step and accuracy in °F.
    pub thermometer: (f64, f64),
    /// Scale: step and accuracy in oz.
    pub scale: (f64, f64),
}

/// The kits, each as common.
pub const GRADES: [Grade; 3] = [
    Grade { name: "fine", gauge: (0.1, 0.5), thermometer: (0.1, 1.0), scale: (0.25, 0.5) },
    Grade { name: "common", gauge: (0.5, 1.0), thermometer: (0.1, 2.0), scale: (0.5, 1.0) },
    Grade { name: "coarse", gauge: (1.0, 1.0), thermometer: (1.0, 2.0), scale: (1.0, 1.0) },
];

impl Grade {
    /// How far the low-side gauge can be off with its step, Pa.
    pub fn gauge_limit(&self) -> f64 {
        psi(0.01 * self.gauge.1 * SPANS.0 + 0.5 * self.gauge.0).delta_pascals()
    }
}

/// Span of the gauges, psi: low and high side.
const SPANS: (f64, f64) = (500.0, 800.0);

/// The instruments of one visit.
#[derive(Debug, Clone)]
pub struct Kit {
    /// Its grade.
    pub grade: Grade,
    /// The low-side gauge.
    pub low: Meter<GaugePressure>,
    /// The high-side gauge.
    pub high: Meter<GaugePressure>,
    /// The thermometer of the suction line and of everything that stands still.
    pub first: Meter<Temperature>,
    /// The thermometer of the liquid line.
    pub second: Meter<Temperature>,
    /// The charging scale.
    pub scale: Meter<Mass>,
}

/// One instrument and how far it is off.
#[derive(Debug, Clone)]
pub struct Meter<Q: Quantity> {
    instrument: Instrument<Q>,
    /// From −1 to 1, in its accuracy.
    off: f64,
    step: f64,
    unit: fn(f64) -> Q,
    number: fn(Q) -> f64,
    accuracy: f64,
}

impl Kit {
    /// A kit of a grade, every instrument with an error anywhere within its accuracy as likely.
    pub fn of(grade: &Grade, generator: &mut Generator) -> Kit {
        let mut off = || 2.0 * generator.uniform() - 1.0;
        let gauge = |span: f64, off: f64| Meter {
            instrument: Instrument::resolution(psi(grade.gauge.0))
                .accuracy_percent_of_span(grade.gauge.1, psi(span)),
            off,
            step: grade.gauge.0,
            unit: psig,
            number: GaugePressure::psig,
            accuracy: 0.01 * grade.gauge.1 * span,
        };
        let thermometer = |off: f64| Meter {
            instrument: Instrument::resolution(delta_fahrenheit(grade.thermometer.0))
                .accuracy(delta_fahrenheit(grade.thermometer.1)),
            off,
            step: grade.thermometer.0,
            unit: fahrenheit,
            number: Temperature::fahrenheit,
            accuracy: grade.thermometer.1,
        };
        Kit {
            grade: *grade,
            low: gauge(SPANS.0, off()),
            high: gauge(SPANS.1, off()),
            first: thermometer(off()),
            second: thermometer(off()),
            scale: Meter {
                instrument: Instrument::resolution(ounces(grade.scale.0)).accuracy(ounces(grade.scale.1)),
                off: off(),
                step: grade.scale.0,
                unit: ounces,
                number: Mass::ounces,
                accuracy: grade.scale.1,
            },
        }
    }
}

impl<Q: Quantity> Meter<Q> {
    /// What it shows of a true value.
    ///
    /// # Errors
    /// A value that is no number.
    pub fn read(&self, truth: Q) -> Result<Reading<Q>> {
        let shown = (self.number)(truth) + self.off * self.accuracy;
        Reading::new((self.unit)((shown / self.step).round() * self.step), self.instrument.clone())
    }
}
