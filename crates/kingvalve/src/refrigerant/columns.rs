//! Saturation of whole columns of readings: logged rows, without a copy and without a call for each.

use kingvalve_fluid::Line;

use super::Refrigerant;
use crate::quantity::{Density, Pressure, Temperature, kelvins, kilograms_per_cubic_meter, pascals};
use crate::{Error, Result};

impl Refrigerant {
    /// [`bubble_pressure`](Self::bubble_pressure) of each temperature, written into `pressures`; not a number where one
    /// is out of range.
    ///
    /// # Units
    /// Any temperature in, absolute pressure out.
    /// # Source
    /// As [`bubble_pressure`](Self::bubble_pressure).
    /// # Valid range
    /// As [`bubble_pressure`](Self::bubble_pressure), row by row.
    /// # Accuracy
    /// The same curve, the same numbers.
    /// # Errors
    /// Columns of different lengths. A row out of range is no error: a log has such rows, and
    /// [`Pressure::is_finite`] finds them.
    /// # Example
    /// ```
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-410A")?;
    /// let logged = [fahrenheit(40.0), fahrenheit(100.0), fahrenheit(900.0)];
    /// let mut pressures = [pascals(0.0); 3];
    /// r.bubble_pressures(&logged, &mut pressures)?;
    /// assert_eq!(pressures[1], r.bubble_pressure(logged[1])?);
    /// assert!(!pressures[2].is_finite());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn bubble_pressures(&self, temperatures: &[Temperature], pressures: &mut [Pressure]) -> Result<()> {
        self.pressures(Line::Bubble, temperatures, pressures)
    }

    /// [`dew_pressure`](Self::dew_pressure) of each temperature; see [`bubble_pressures`](Self::bubble_pressures).
    ///
    /// # Errors
    /// Columns of different lengths.
    pub fn dew_pressures(&self, temperatures: &[Temperature], pressures: &mut [Pressure]) -> Result<()> {
        self.pressures(Line::Dew, temperatures, pressures)
    }

    /// [`bubble_temperature`](Self::bubble_temperature) of each absolute pressure; see
    /// [`bubble_pressures`](Self::bubble_pressures).
    ///
    /// # Errors
    /// Columns of different lengths.
    pub fn bubble_temperatures(
        &self,
        pressures: &[Pressure],
        temperatures: &mut [Temperature],
    ) -> Result<()> {
        self.temperatures(Line::Bubble, pressures, temperatures)
    }

    /// [`dew_temperature`](Self::dew_temperature) of each absolute pressure; see
    /// [`bubble_pressures`](Self::bubble_pressures).
    ///
    /// # Errors
    /// Columns of different lengths.
    pub fn dew_temperatures(&self, pressures: &[Pressure], temperatures: &mut [Temperature]) -> Result<()> {
        self.temperatures(Line::Dew, pressures, temperatures)
    }

    /// [`bubble_density`](Self::bubble_density) of each temperature; see
    /// [`bubble_pressures`](Self::bubble_pressures).
    ///
    /// # Errors
    /// Columns of different lengths.
    pub fn bubble_densities(&self, temperatures: &[Temperature], densities: &mut [Density]) -> Result<()> {
        self.densities(Line::Bubble, temperatures, densities)
    }

    /// [`dew_density`](Self::dew_density) of each temperature; see [`bubble_pressures`](Self::bubble_pressures).
    ///
    /// # Errors
    /// Columns of different lengths.
    pub fn dew_densities(&self, temperatures: &[Temperature], densities: &mut [Density]) -> Result<()> {
        self.densities(Line::Dew, temperatures, densities)
    }

    fn pressures(&self, line: Line, t: &[Temperature], p: &mut [Pressure]) -> Result<()> {
        same_length(t.len(), p.len())?;
        self.curve(line)?.pressures_with(t, p, |t| t.kelvins(), pascals);
        Ok(())
    }

    fn temperatures(&self, line: Line, p: &[Pressure], t: &mut [Temperature]) -> Result<()> {
        same_length(p.len(), t.len())?;
        self.curve(line)?.temperatures_with(p, t, |p| p.pascals(), kelvins);
        Ok(())
    }

    fn densities(&self, line: Line, t: &[Temperature], out: &mut [Density]) -> Result<()> {
        same_length(t.len(), out.len())?;
        let molar_mass = self.fluid().molar_mass();
        let write = |density| kilograms_per_cubic_meter(density * molar_mass);
        self.curve(line)?.densities_with(t, out, |t| t.kelvins(), write);
        Ok(())
    }
}

fn same_length(given: usize, wanted: usize) -> Result<()> {
    if given == wanted {
        return Ok(());
    }
    Err(Error::inconsistent(
        "columns",
        format!("{given} rows are given and there is room for {wanted}"),
        "give both the same length",
    ))
}
