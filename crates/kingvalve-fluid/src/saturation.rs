//! Bubble and dew points of a [`Fluid`], solved from the equation of state.

use crate::equilibrium::newton::{self, Given, Point};
use crate::equilibrium::{Line, Phase, Saturation};
use crate::error::{Error, Result};
use crate::fluid::Fluid;

impl Fluid {
    /// The bubble point at a temperature.
    ///
    /// # Units
    /// K
    ///
    /// # Source
    /// Equal fugacities and pressures of the multi-fluid model, by an isochoric Newton iteration: Bell and
    /// Deiters, AIChE J. 64 (2018) 2745, doi:10.1002/aic.16074.
    ///
    /// # Valid range
    /// From the lowest temperature of the components' equations to 0.995 of the critical temperature; where a blend
    /// splits into two liquids in the cold, from just above that ([`Curve::temperature_range`](crate::Curve::temperature_range)).
    ///
    /// # Accuracy
    /// Solved to about 10⁻¹² of the pressure; the model itself is typically good to 0.1–0.5 % in pressure.
    ///
    /// # Errors
    /// Outside the range, or not a number ([`Error::is_out_of_range`]).
    ///
    /// # Example
    /// ```
    /// use kingvalve_fluid::Fluid;
    /// let bubble = Fluid::pure("R-32")?.bubble_at_temperature(300.0)?;
    /// assert!((bubble.pressure / 1.7749e6 - 1.0).abs() < 1e-3);
    /// # Ok::<(), kingvalve_fluid::Error>(())
    /// ```
    pub fn bubble_at_temperature(&self, t: f64) -> Result<Saturation> {
        self.saturation(Line::Bubble, Given::Temperature(t))
    }

    /// The dew point at a temperature; see [`bubble_at_temperature`](Self::bubble_at_temperature).
    ///
    /// # Errors
    /// Outside the range, or not a number ([`Error::is_out_of_range`]).
    pub fn dew_at_temperature(&self, t: f64) -> Result<Saturation> {
        self.saturation(Line::Dew, Given::Temperature(t))
    }

    /// The bubble point at a pressure (Pa, absolute); see
    /// [`bubble_at_temperature`](Self::bubble_at_temperature).
    ///
    /// # Errors
    /// Outside the range, or not a number ([`Error::is_out_of_range`]).
    pub fn bubble_at_pressure(&self, p: f64) -> Result<Saturation> {
        self.saturation(Line::Bubble, Given::Pressure(p))
    }

    /// The dew point at a pressure (Pa, absolute); see
    /// [`bubble_at_temperature`](Self::bubble_at_temperature).
    ///
    /// # Errors
    /// Outside the range, or not a number ([`Error::is_out_of_range`]).
    pub fn dew_at_pressure(&self, p: f64) -> Result<Saturation> {
        self.saturation(Line::Dew, Given::Pressure(p))
    }

    fn saturation(&self, line: Line, given: Given) -> Result<Saturation> {
        let point = self.saturation_point(line, given)?;
        let n = self.model().size();
        // exp(ln T) may round to just outside the range the line was traced in.
        let (low, high) = self.trace(line)?.temperatures();
        let temperature = match given {
            Given::Temperature(t) => t,
            Given::Pressure(_) => point.unknowns[n + 1].exp(),
        }
        .clamp(low, high);
        let (bulk, incipient) = newton::densities(self.z(), &point.unknowns, n);
        let phase = |densities: &[f64]| {
            let density: f64 = densities.iter().sum();
            Phase { density, mole_fractions: densities.iter().map(|rho| rho / density).collect() }
        };
        let (liquid, vapour) = match line {
            Line::Bubble => (phase(&bulk[..n]), phase(&incipient[..n])),
            Line::Dew => (phase(&incipient[..n]), phase(&bulk[..n])),
        };
        Ok(Saturation {
            temperature,
            pressure: point.pressure,
            pressure_slope: point.pressure_slope * point.pressure / temperature,
            liquid,
            vapour,
        })
    }

    pub(crate) fn saturation_point(&self, line: Line, given: Given) -> Result<Point> {
        let trace = self.trace(line)?;
        let (guess, at) = match given {
            Given::Temperature(t) => {
                check(self.label(), "temperature", "K", t, trace.temperatures())?;
                (trace.guess_at_temperature(t), format_args!("{t} K").to_string())
            }
            Given::Pressure(p) => {
                check(self.label(), "pressure", "Pa", p, trace.pressures())?;
                (trace.guess_at_pressure(p), format_args!("{p} Pa").to_string())
            }
        };
        guess
            .and_then(|guess| newton::solve(self.model(), self.z(), given, &guess))
            .ok_or_else(|| Error::not_converged(self.label(), line.name(), at))
    }
}

/// `value` inside `range`, with room for the rounding of the ends themselves.
fn check(
    fluid: &str,
    what: &'static str,
    unit: &'static str,
    value: f64,
    (low, high): (f64, f64),
) -> Result<()> {
    if value >= low * (1.0 - 1e-12) && value <= high * (1.0 + 1e-12) {
        Ok(())
    } else {
        Err(Error::out_of_range(fluid, what, unit, value, (low, high)))
    }
}
