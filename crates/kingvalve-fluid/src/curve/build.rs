//! Fitting a curve to solved states.

use super::inverse::Inverse;
use super::polynomial::{self, NODES, Poly7};
use super::{Curve, WorstError};
use crate::equilibrium::Line;
use crate::equilibrium::newton::Given;
use crate::error::Result;
use crate::fluid::Fluid;

/// Pieces a curve starts with; doubled until the fit is good.
const PIECES: usize = 40;
const MOST_PIECES: usize = 256;
/// The relative error in pressure the fit aims at, well inside what is promised.
const AIM: f64 = 5e-6;
/// Where the fit is compared with the equation of state: between the nodes of a piece.
const CHECKS: [f64; 2] = [-0.76, 0.0];

/// A solved state: value and slope d/dT of each property along the line.
#[derive(Clone, Copy)]
struct Sample {
    temperature: f64,
    pressure: (f64, f64),
    density: (f64, f64),
    enthalpy: (f64, f64),
}

/// The grid in w = √(T_c/T − 1) on which the pieces lie.
#[derive(Clone, Copy)]
struct Grid {
    critical_temperature: f64,
    temperatures: (f64, f64),
    w_cold: f64,
    width: f64,
}

impl Grid {
    fn new(critical_temperature: f64, temperatures: (f64, f64), pieces: usize) -> Self {
        let w = |t: f64| (critical_temperature / t - 1.0).sqrt();
        let w_cold = w(temperatures.0);
        let width = (w_cold - w(temperatures.1)) / pieces as f64;
        Grid { critical_temperature, temperatures, w_cold, width }
    }

    fn w(&self, piece: usize, s: f64) -> f64 {
        self.w_cold - (piece as f64 + 0.5 * (s + 1.0)) * self.width
    }

    fn temperature(&self, piece: usize, s: f64) -> f64 {
        let w = self.w(piece, s);
        (self.critical_temperature / (1.0 + w * w)).clamp(self.temperatures.0, self.temperatures.1)
    }

    /// dT/ds
    fn stretch(&self, piece: usize, s: f64) -> f64 {
        let t = self.temperature(piece, s);
        t * t / self.critical_temperature * self.w(piece, s) * self.width
    }
}

pub(crate) fn build(fluid: &Fluid, line: Line) -> Result<Curve> {
    let mut pieces = PIECES;
    loop {
        let mut curve = fit(fluid, line, pieces)?;
        curve.worst = compare(&curve, fluid, line)?;
        if curve.worst.pressure <= AIM || pieces >= MOST_PIECES {
            return Ok(curve);
        }
        pieces *= 2;
    }
}

fn fit(fluid: &Fluid, line: Line, pieces: usize) -> Result<Curve> {
    let critical_temperature = fluid.critical_point()?.temperature;
    let temperatures = fluid.trace(line)?.temperatures();
    let grid = Grid::new(critical_temperature, temperatures, pieces);
    let mut pressure = Vec::with_capacity(pieces);
    let mut density = Vec::with_capacity(pieces);
    let mut enthalpy = Vec::with_capacity(pieces);
    let mut first = sample(fluid, line, grid.temperature(0, NODES[0]))?;
    for piece in 0..pieces {
        let mut samples = [first; 4];
        for node in 1..4 {
            samples[node] = sample(fluid, line, grid.temperature(piece, NODES[node]))?;
        }
        first = samples[3];
        let stretch = NODES.map(|s| grid.stretch(piece, s));
        let fitted = |pick: fn(&Sample) -> (f64, f64)| -> Poly7 {
            let mut slopes = [0.0; 4];
            for node in 0..4 {
                slopes[node] = pick(&samples[node]).1 * stretch[node];
            }
            polynomial::hermite(samples.map(|sample| pick(&sample).0), slopes)
        };
        pressure.push(fitted(|sample| sample.pressure));
        density.push(fitted(|sample| sample.density));
        enthalpy.push(fitted(|sample| sample.enthalpy));
    }
    let inverse = Inverse::of(&pressure, |piece, s| grid.temperature(piece, s));
    let low = pressure.first().map_or(f64::NAN, |c| polynomial::value(c, -1.0));
    let high = pressure.last().map_or(f64::NAN, |c| polynomial::value(c, 1.0));
    Ok(Curve {
        label: fluid.label().to_owned(),
        critical_temperature,
        w_cold: grid.w_cold,
        per_width: 1.0 / grid.width,
        temperatures,
        pressures: (low, high),
        pressure,
        density,
        enthalpy,
        inverse,
        worst: WorstError::default(),
    })
}

fn sample(fluid: &Fluid, line: Line, t: f64) -> Result<Sample> {
    let point = fluid.saturation_point(line, Given::Temperature(t))?;
    let density = point.unknowns[0].exp();
    let density_slope = density * point.tangent[0] / t;
    Ok(Sample {
        temperature: t,
        pressure: (point.pressure, point.pressure * point.pressure_slope / t),
        density: (density, density_slope),
        enthalpy: fluid.enthalpy_along(t, density, density_slope)?,
    })
}

fn compare(curve: &Curve, fluid: &Fluid, line: Line) -> Result<WorstError> {
    let pieces = curve.pressure.len();
    let grid = Grid::new(curve.critical_temperature, curve.temperatures, pieces);
    let mut worst = WorstError::default();
    for piece in 0..pieces {
        for s in CHECKS {
            let exact = sample(fluid, line, grid.temperature(piece, s))?;
            let t = exact.temperature;
            let (p, rho, h) = (curve.pressure(t)?, curve.density(t)?, curve.enthalpy(t)?);
            worst.pressure = worst.pressure.max((p / exact.pressure.0 - 1.0).abs());
            worst.density = worst.density.max((rho / exact.density.0 - 1.0).abs());
            worst.enthalpy = worst.enthalpy.max((h - exact.enthalpy.0).abs());
            worst.temperature = worst.temperature.max((curve.temperature(exact.pressure.0)? - t).abs());
        }
    }
    Ok(worst)
}
