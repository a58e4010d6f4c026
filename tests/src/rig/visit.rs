//! What a technician reads of a system.

use kingvalve::Result;
use kingvalve::measure::{Generator, Measured, Reading};
use kingvalve::quantity::*;

use super::cycle::Steady;
use super::instrument::{GRADES, Kit};
use super::population::even;
use super::standing::{Settled, Temperatures};
use super::volumes::Part;

/// A technician on site.
#[derive(Debug, Clone)]
pub struct Visit {
    /// The instruments.
    pub kit: Kit,
    /// The site, as the technician knows it: by elevation.
    pub site: Site,
    /// Pressure of the air, Pa: the site's and the weather's 0.8 kPa (normal).
    atmosphere: f64,
}

/// Readings of a settled system.
#[derive(Debug, Clone)]
pub struct StandingRead {
    /// Pressure.
    pub pressure: Reading<GaugePressure>,
    /// Temperature of the colder coil: where liquid would stand.
    pub coldest: Reading<Temperature>,
}

/// Readings of a running system, at the outdoor unit.
#[derive(Debug, Clone)]
pub struct RunningRead {
    /// Suction pressure.
    pub suction: Reading<GaugePressure>,
    /// Suction line.
    pub suction_line: Reading<Temperature>,
    /// Liquid pressure.
    pub liquid: Reading<GaugePressure>,
    /// Liquid line.
    pub liquid_line: Reading<Temperature>,
}

/// The true values at the service ports of a running system.
#[derive(Debug, Clone, Copy)]
pub struct Ports {
    /// Pa
    pub suction: f64,
    /// K
    pub suction_line: f64,
    /// Pa
    pub liquid: f64,
    /// K
    pub liquid_line: f64,
}

impl Ports {
    /// Those of a steady state.
    pub fn of(state: &Steady) -> Ports {
        let Steady { suction, suction_line, liquid, liquid_line, .. } = *state;
        Ports { suction, suction_line, liquid, liquid_line }
    }
}

/// The first weight of the cylinder, lb, what is weighed in at a time, and how far a hand on the valve misses it.
const CYLINDER: f64 = 24.0;
/// See [`CYLINDER`].
const STEP: f64 = 0.5;
/// See [`CYLINDER`].
const MISS: f64 = 0.02;

impl Visit {
    /// At 0–1500 m, with a kit of any grade.
    ///
    /// # Errors
    /// Those of the library.
    pub fn drawn(generator: &mut Generator) -> Result<Visit> {
        let grade = &GRADES[(generator.uniform() * GRADES.len() as f64) as usize % GRADES.len()];
        let kit = Kit::of(grade, generator);
        let site = Site::at_elevation(meters(even(generator, 0.0, 1500.0)))?;
        let atmosphere = site.absolute(psig(0.0))?.pascals() + 800.0 * generator.normal();
        Ok(Visit { kit, site, atmosphere })
    }

    fn gauge(&self, absolute: f64) -> GaugePressure {
        GaugePressure::from_base(absolute - self.atmosphere)
    }

    /// Reads a system that stands still.
    ///
    /// # Errors
    /// Those of the library.
    pub fn standing(&self, settled: &Settled, temperatures: &Temperatures) -> Result<StandingRead> {
        let coils = [Part::OutdoorCoil, Part::IndoorCoil].map(|part| temperatures[part.index()]);
        Ok(StandingRead {
            pressure: self.kit.low.read(self.gauge(settled.pressure))?,
            coldest: self.kit.first.read(kelvins(coils[0].min(coils[1])))?,
        })
    }

    /// Reads a system that runs.
    ///
    /// # Errors
    /// Those of the library.
    pub fn running(&self, ports: &Ports) -> Result<RunningRead> {
        Ok(RunningRead {
            suction: self.kit.low.read(self.gauge(ports.suction))?,
            suction_line: self.kit.first.read(kelvins(ports.suction_line))?,
            liquid: self.kit.high.read(self.gauge(ports.liquid))?,
            liquid_line: self.kit.second.read(kelvins(ports.liquid_line))?,
        })
    }

    /// Weighs in about half a pound, the `step`-th time (from 1): what entered, kg, and the fall of the cylinder's weight
    /// on the scale.
    ///
    /// # Errors
    /// Those of the library.
    pub fn half_pound(&self, step: u32, generator: &mut Generator) -> Result<(f64, Measured<Mass>)> {
        let before = CYLINDER - STEP * f64::from(step - 1) + even(generator, -MISS, MISS);
        let after = CYLINDER - STEP * f64::from(step) + even(generator, -MISS, MISS);
        let weighed = |weight: f64| Result::Ok(self.kit.scale.read(pounds(weight))?.measured());
        Ok((pounds(before - after).kilograms(), weighed(before)? - weighed(after)?))
    }
}
