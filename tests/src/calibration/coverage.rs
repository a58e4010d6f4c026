//! How often a claimed 90 % interval holds the truth.

use kingvalve::Result;
use kingvalve::measure::{Generator, Instrument, Level, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;

use super::population::{limited_instruments, normal_instruments};

/// Counts for one kind of result.
#[derive(Debug, Clone)]
pub struct Coverage {
    /// What kind.
    pub name: String,
    /// Intervals, and those that held the truth.
    pub all: usize,
    /// See `all`.
    pub held: usize,
}

impl Coverage {
    /// None counted yet.
    pub fn of(name: impl Into<String>) -> Self {
        Coverage { name: name.into(), all: 0, held: 0 }
    }

    /// Counts a result whose truth is known.
    ///
    /// # Errors
    /// Those of the library.
    pub fn count<Q: Quantity>(&mut self, result: &Measured<Q>, truth: Q) -> Result<()> {
        let interval = result.interval(Level::new(percent(90.0))?)?;
        self.all += 1;
        self.held += usize::from(interval.contains(truth));
        Ok(())
    }

    /// The share that held the truth.
    pub fn share(&self) -> f64 {
        self.held as f64 / self.all as f64
    }
}

/// Superheat of R-410A from a gauge and a pipe clamp, with errors of three kinds. The dew point itself is taken as exact:
/// this calibrates the doubt of readings, not that of the equation of state.
///
/// # Errors
/// Those of the library.
pub fn superheats(each: usize, seed: u64) -> Result<Vec<Coverage>> {
    let mut generator = Generator::seeded(seed);
    let refrigerant = Refrigerant::named("R-410A")?;
    let site = Site::sea_level();
    let mut limited = Coverage::of("superheat, errors anywhere within limits");
    let mut normal = Coverage::of("superheat, normal errors");
    let mut repeated = Coverage::of("superheat, line temperature repeated 4 times with scatter");
    for _ in 0..each {
        let gauge = 100.0 + 40.0 * generator.uniform();
        let truth = 10.0 + 4.0 * generator.normal();
        let line = refrigerant.dew_temperature(site.absolute(psig(gauge))?)?.fahrenheit() + truth;
        let superheat =
            |p: f64, lines: &[f64], with: (Instrument<GaugePressure>, Instrument<Temperature>)| {
                let pressure = site.absolute(Reading::new(psig(round(p)), with.0)?)?;
                let lines: Vec<Temperature> = lines.iter().map(|t| fahrenheit(round(*t))).collect();
                let line = match lines.as_slice() {
                    [one] => Reading::new(*one, with.1)?,
                    several => Reading::repeated(several, with.1)?,
                };
                refrigerant.superheat(pressure, line)
            };
        let truth = delta_fahrenheit(truth);
        let mut flat = |half: f64| half * (2.0 * generator.uniform() - 1.0);
        let (p, t) = (gauge + flat(2.0), line + flat(1.0));
        limited.count(&superheat(p, &[t], limited_instruments())?, truth)?;
        let (p, t) = (gauge + generator.normal(), line + 0.5 * generator.normal());
        normal.count(&superheat(p, &[t], normal_instruments())?, truth)?;
        let p = gauge + generator.normal();
        let offset = 0.5 * generator.normal();
        let lines = [(); 4].map(|()| line + offset + 2.0 * generator.normal());
        repeated.count(&superheat(p, &lines, normal_instruments())?, truth)?;
    }
    Ok(vec![limited, normal, repeated])
}

/// To the tenth a display shows.
fn round(x: f64) -> f64 {
    (x * 10.0).round() / 10.0
}
