//! Saturation curves: nanosecond lookups fitted on first use from the equation of state.
//!
//! A curve is cut into pieces of equal width in w = √(T_c/T − 1), a variable in which pressure, densities and
//! enthalpies stay smooth right up to the critical end, and the logarithm of the pressure nearly even in the
//! cold. On each piece a polynomial of degree seven takes the exact values and slopes of four solved states.
//! On the same pieces [`inverse`] undoes p(T). The curve is compared with freshly solved states between its nodes and
//! keeps the worst difference it saw.
//!
//! Source: the fit is ours; piecewise polynomials for saturation curves follow Bell and Alpert, Int. J.
//! Thermophys. 42 (2021) 75, doi:10.1007/s10765-021-02824-w.

mod build;
mod inverse;
mod polynomial;
mod slices;

use crate::error::{Error, Result};
pub(crate) use build::build;
use inverse::Inverse;
use polynomial::Poly7;

/// One saturation line of a fluid, for lookups.
///
/// # Example
/// ```
/// use kingvalve_fluid::{Fluid, Line};
/// let fluid = Fluid::pure("R-32")?;
/// let curve = fluid.curve(Line::Bubble)?;
/// let p = curve.pressure(300.0)?;
/// assert!((curve.temperature(p)? - 300.0).abs() < 1e-6);
/// assert!(curve.worst_error().pressure < 2e-5);
/// # Ok::<(), kingvalve_fluid::Error>(())
/// ```
#[derive(Debug)]
pub struct Curve {
    label: String,
    critical_temperature: f64,
    /// w at the coldest end.
    w_cold: f64,
    /// Pieces for each unit of w.
    per_width: f64,
    temperatures: (f64, f64),
    pressures: (f64, f64),
    pressure: Vec<Poly7>,
    density: Vec<Poly7>,
    enthalpy: Vec<Poly7>,
    inverse: Inverse,
    worst: WorstError,
}

/// The worst differences seen between a curve and the equation of state, at states between its nodes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct WorstError {
    /// Relative, of p(T).
    pub pressure: f64,
    /// K, of T(p).
    pub temperature: f64,
    /// Relative, of the saturated density.
    pub density: f64,
    /// J/mol, of the saturated enthalpy.
    pub enthalpy: f64,
}

impl Curve {
    /// Saturation pressure at a temperature.
    ///
    /// # Units
    /// K in, Pa out.
    ///
    /// # Valid range
    /// [`temperature_range`](Self::temperature_range).
    ///
    /// # Accuracy
    /// Against the equation of state: [`worst_error`](Self::worst_error), at most 2·10⁻⁵ up to 0.97 T_c.
    ///
    /// # Errors
    /// Outside the range, or not a number.
    #[inline]
    pub fn pressure(&self, t: f64) -> Result<f64> {
        let (piece, s) = self.locate(t)?;
        Ok(self.pressure.get(piece).map_or(f64::NAN, |c| polynomial::value(c, s)))
    }

    /// [`pressure`](Self::pressure) together with its slope dp/dT, Pa/K.
    ///
    /// # Errors
    /// Outside the range, or not a number.
    #[inline]
    pub fn pressure_and_slope(&self, t: f64) -> Result<(f64, f64)> {
        self.value_and_slope(&self.pressure, t)
    }

    /// Saturation temperature at a pressure: the exact inverse of [`pressure`](Self::pressure).
    ///
    /// # Units
    /// Pa in, K out.
    ///
    /// # Valid range
    /// [`pressure_range`](Self::pressure_range).
    ///
    /// # Accuracy
    /// Against the equation of state: [`worst_error`](Self::worst_error), at most 1 mK up to 0.97 T_c.
    /// Against [`pressure`](Self::pressure): 10⁻¹⁰ relative.
    ///
    /// # Errors
    /// Outside the range, or not a number.
    #[inline]
    pub fn temperature(&self, p: f64) -> Result<f64> {
        if !(p >= self.pressures.0 && p <= self.pressures.1) {
            return Err(Error::out_of_range(&self.label, "pressure", "Pa", p, self.pressures));
        }
        Ok(self.temperature_at(p))
    }

    /// [`temperature`](Self::temperature) together with its slope dT/dp, K/Pa.
    ///
    /// # Accuracy
    /// The slope is the reciprocal of that of [`pressure`](Self::pressure) to 10⁻⁸ relative up to 0.97 T_c, and to 10⁻⁶
    /// at the critical end.
    ///
    /// # Errors
    /// Outside the range, or not a number.
    #[inline]
    pub fn temperature_and_slope(&self, p: f64) -> Result<(f64, f64)> {
        if !(p >= self.pressures.0 && p <= self.pressures.1) {
            return Err(Error::out_of_range(&self.label, "pressure", "Pa", p, self.pressures));
        }
        let (t, slope) = self.inverse.temperature_and_slope(p);
        Ok((t.clamp(self.temperatures.0, self.temperatures.1), slope))
    }

    /// Molar density of the phase with the fluid's composition (liquid on the bubble line, vapour on the dew
    /// line), mol/m³; see [`pressure`](Self::pressure).
    ///
    /// # Errors
    /// Outside the range, or not a number.
    #[inline]
    pub fn density(&self, t: f64) -> Result<f64> {
        let (piece, s) = self.locate(t)?;
        Ok(self.density.get(piece).map_or(f64::NAN, |c| polynomial::value(c, s)))
    }

    /// [`density`](Self::density) together with its slope along the line, mol/(m³ K).
    ///
    /// # Errors
    /// Outside the range, or not a number.
    #[inline]
    pub fn density_and_slope(&self, t: f64) -> Result<(f64, f64)> {
        self.value_and_slope(&self.density, t)
    }

    /// Molar enthalpy of the phase with the fluid's composition, J/mol from the IIR reference state.
    ///
    /// # Errors
    /// Outside the range, or not a number.
    #[inline]
    pub fn enthalpy(&self, t: f64) -> Result<f64> {
        let (piece, s) = self.locate(t)?;
        Ok(self.enthalpy.get(piece).map_or(f64::NAN, |c| polynomial::value(c, s)))
    }

    /// [`enthalpy`](Self::enthalpy) together with its slope along the line, J/(mol K).
    ///
    /// # Errors
    /// Outside the range, or not a number.
    #[inline]
    pub fn enthalpy_and_slope(&self, t: f64) -> Result<(f64, f64)> {
        self.value_and_slope(&self.enthalpy, t)
    }

    /// Lowest and highest temperature of the curve, K.
    pub fn temperature_range(&self) -> (f64, f64) {
        self.temperatures
    }

    /// Lowest and highest pressure of the curve, Pa.
    pub fn pressure_range(&self) -> (f64, f64) {
        self.pressures
    }

    /// How far the curve was seen to be from the equation of state when it was built.
    pub fn worst_error(&self) -> WorstError {
        self.worst
    }

    #[inline(always)]
    fn locate(&self, t: f64) -> Result<(usize, f64)> {
        if t >= self.temperatures.0 && t <= self.temperatures.1 {
            Ok(self.place(t))
        } else {
            Err(Error::out_of_range(&self.label, "temperature", "K", t, self.temperatures))
        }
    }

    /// How many pieces (and what part of one) a temperature inside the range lies from the cold end.
    #[inline(always)]
    fn distance(&self, t: f64) -> f64 {
        (self.w_cold - (self.critical_temperature / t - 1.0).sqrt()) * self.per_width
    }

    /// Piece and local coordinate of a temperature inside the range.
    #[inline(always)]
    fn place(&self, t: f64) -> (usize, f64) {
        let x = self.distance(t);
        let piece = (x as usize).min(self.pressure.len() - 1);
        (piece, 2.0 * (x - piece as f64) - 1.0)
    }

    /// The temperature at a pressure inside the range: rounding takes none out of it.
    #[inline(always)]
    fn temperature_at(&self, p: f64) -> f64 {
        self.inverse.temperature(p).clamp(self.temperatures.0, self.temperatures.1)
    }

    #[inline]
    fn value_and_slope(&self, polys: &[Poly7], t: f64) -> Result<(f64, f64)> {
        let (piece, s) = self.locate(t)?;
        // T = T_c/(1 + w²), so dT/ds = (T²/T_c) w width
        let w = (self.critical_temperature / t - 1.0).sqrt();
        let per_kelvin = self.critical_temperature * self.per_width / (t * t * w);
        Ok(polys.get(piece).map_or((f64::NAN, f64::NAN), |c| {
            (polynomial::value(c, s), polynomial::slope(c, s) * per_kelvin)
        }))
    }
}
