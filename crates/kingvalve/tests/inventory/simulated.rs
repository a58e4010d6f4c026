//! Systems drawn from the assumptions, and what a gauge and a clamp would show on them.

use kingvalve::charge::inventory::{StandingReading, System};
use kingvalve::measure::{Generator, Instrument, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

pub struct Truth {
    pub refrigerant: Refrigerant,
    pub system: System,
    pub volume: f64,
    pub uptake: f64,
    pub steepening: f64,
    pub charge: f64,
}

pub struct Tools {
    pub gauge: Instrument<GaugePressure>,
    pub gauge_error: f64,
    pub clamp: Instrument<Temperature>,
    pub clamp_error: f64,
}

/// One system as assumed by default: fill lognormal between its ends, charge 0 to 120 %, oil and uptake uniform.
pub fn drawn(random: &mut Generator, name: &str, most: f64) -> Truth {
    let refrigerant = Refrigerant::named(name).unwrap();
    let plate = 2.0 + 3.0 * random.uniform();
    let system = System::of_plate(&refrigerant, kilograms(plate)).unwrap();
    let (low, high) = (system.room().low().cubic_meters().ln(), system.room().high().cubic_meters().ln());
    let volume = (0.5 * (low + high) + (high - low) / (2.0 * 1.644_853_627) * random.normal()).exp();
    // The least and most that the oil takes up, any as likely between; near saturation it takes up more.
    let uptake = plate * (0.20 * 0.10 + (0.45 * 0.40 - 0.20 * 0.10) * random.uniform());
    let steepening = 0.5 + 0.47 * random.uniform();
    let charge = most * plate * random.uniform();
    Truth { refrigerant, system, volume, uptake, steepening, charge }
}

impl Truth {
    /// The standing pressure, by bisection of the mass in vapour and oil.
    pub fn pressure(&self, charge: f64, t: Temperature) -> Pressure {
        let dew = self.refrigerant.dew_pressure(t).unwrap().pascals();
        let held = |p: f64| {
            let density = self.refrigerant.density(pascals(p), t).unwrap().kilograms_per_cubic_meter();
            self.volume * density + self.uptake * p / dew / (1.0 - self.steepening * p / dew)
        };
        let (mut low, mut high) = (1.0, dew * (1.0 - 1e-3));
        if charge >= held(high) {
            return pascals(dew);
        }
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if held(middle) < charge { low = middle } else { high = middle }
        }
        pascals(0.5 * (low + high))
    }
}

impl Tools {
    pub fn drawn(random: &mut Generator) -> Tools {
        let span = psi(500.0);
        let share = 1.0;
        let one = |random: &mut Generator| 2.0 * random.uniform() - 1.0;
        Tools {
            gauge: Instrument::resolution(psi(0.5)).accuracy_percent_of_span(share, span),
            gauge_error: 0.01 * share * span.psi() * one(random),
            clamp: Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(1.0)),
            clamp_error: one(random),
        }
    }

    pub fn read(&self, random: &mut Generator, pressure: Pressure, t: Temperature) -> StandingReading {
        let site = Site::sea_level();
        let shown = site.gauge(pressure).unwrap().psig() + self.gauge_error;
        let shown = psig(((shown / 0.5).round() * 0.5).max(-14.0));
        let warmth = t.fahrenheit() + self.clamp_error + random.normal();
        let warmth = fahrenheit((warmth / 0.1).round() * 0.1);
        let gauge = Reading::new(shown, self.gauge.clone()).unwrap();
        StandingReading::at(site.absolute(&gauge).unwrap(), Reading::new(warmth, self.clamp.clone()).unwrap())
    }
}

pub fn weighed(pounds_in: f64) -> Measured<Mass> {
    Measured::from_standard(pounds(pounds_in), ounces(0.2), "scale").unwrap()
}
