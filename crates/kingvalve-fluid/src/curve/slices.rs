//! The lookups of a [`Curve`] over whole slices, a few nanoseconds a point.
//!
//! The `…_with` forms read each point from an element of any type and write each result as an element of any type, so
//! that a caller's own quantities need no copies. Threads are the caller's choice: split the slices.

use super::Curve;
use super::polynomial::{self, Poly7};

/// Points of a slice located together before their polynomials are evaluated.
const BLOCK: usize = 64;

impl Curve {
    /// [`pressure`](Self::pressure) of many temperatures; NaN where out of range.
    ///
    /// The shorter of the two slices says how many are computed.
    ///
    /// # Example
    /// ```
    /// use kingvalve_fluid::{Fluid, Line};
    /// let fluid = Fluid::pure("R-290")?;
    /// let curve = fluid.curve(Line::Bubble)?;
    /// let mut pressures = [0.0; 3];
    /// curve.pressures_into(&[280.0, 300.0, 1000.0], &mut pressures);
    /// assert_eq!(pressures[1], curve.pressure(300.0)?);
    /// assert!(pressures[2].is_nan());
    /// # Ok::<(), kingvalve_fluid::Error>(())
    /// ```
    pub fn pressures_into(&self, temperatures: &[f64], pressures: &mut [f64]) {
        self.pressures_with(temperatures, pressures, |t| *t, |p| p);
    }

    /// [`density`](Self::density) of many temperatures; NaN where out of range.
    pub fn densities_into(&self, temperatures: &[f64], densities: &mut [f64]) {
        self.densities_with(temperatures, densities, |t| *t, |rho| rho);
    }

    /// [`enthalpy`](Self::enthalpy) of many temperatures; NaN where out of range.
    pub fn enthalpies_into(&self, temperatures: &[f64], enthalpies: &mut [f64]) {
        self.fill(&self.enthalpy, temperatures, enthalpies, |t| *t, |h| h);
    }

    /// [`temperature`](Self::temperature) of many pressures; NaN where out of range.
    pub fn temperatures_into(&self, pressures: &[f64], temperatures: &mut [f64]) {
        self.temperatures_with(pressures, temperatures, |p| *p, |t| t);
    }

    /// [`pressures_into`](Self::pressures_into) for elements of any type: `read` gives the kelvins of one, `write` makes
    /// one of pascals.
    pub fn pressures_with<A, B>(
        &self,
        temperatures: &[A],
        pressures: &mut [B],
        read: impl Fn(&A) -> f64,
        write: impl Fn(f64) -> B,
    ) {
        self.fill(&self.pressure, temperatures, pressures, read, write);
    }

    /// [`densities_into`](Self::densities_into) for elements of any type: kelvins are read, mol/m³ written.
    pub fn densities_with<A, B>(
        &self,
        temperatures: &[A],
        densities: &mut [B],
        read: impl Fn(&A) -> f64,
        write: impl Fn(f64) -> B,
    ) {
        self.fill(&self.density, temperatures, densities, read, write);
    }

    /// [`temperatures_into`](Self::temperatures_into) for elements of any type: pascals are read, kelvins written.
    pub fn temperatures_with<A, B>(
        &self,
        pressures: &[A],
        temperatures: &mut [B],
        read: impl Fn(&A) -> f64,
        write: impl Fn(f64) -> B,
    ) {
        let (low, high) = self.pressures;
        for (value, each) in temperatures.iter_mut().zip(pressures) {
            let p = read(each);
            *value = write(if p >= low && p <= high { self.temperature_at(p) } else { f64::NAN });
        }
    }

    /// In blocks: first where each temperature lies (which the compiler vectorises), then the polynomials.
    #[inline]
    fn fill<A, B>(
        &self,
        polys: &[Poly7],
        temperatures: &[A],
        out: &mut [B],
        read: impl Fn(&A) -> f64,
        write: impl Fn(f64) -> B,
    ) {
        let (low, high) = self.temperatures;
        for (values, block) in out.chunks_mut(BLOCK).zip(temperatures.chunks(BLOCK)) {
            let mut distances = [0.0; BLOCK];
            for (distance, each) in distances.iter_mut().zip(block) {
                let t = read(each);
                // NaN where out of range, and through everything that follows.
                let inside = if t >= low && t <= high { t } else { f64::NAN };
                *distance = self.distance(inside);
            }
            for (value, (&x, _)) in values.iter_mut().zip(distances.iter().zip(block)) {
                let piece = (x as usize).min(polys.len() - 1);
                *value = write(polynomial::value(&polys[piece], 2.0 * (x - piece as f64) - 1.0));
            }
        }
    }
}
