//! Refrigerants by designation, in trade terms.

use std::hash::{Hash, Hasher};

use kingvalve::{quantity, refrigerant as kv};
use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::error::raise;
use crate::measure::{Given, carry, carry_both};
use crate::quantity::{IntoPython, Pressure, Ratio};

/// Adds the class and the list of designations to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Refrigerant>()?;
    module.add_function(wrap_pyfunction!(designations, module)?)
}

/// Every designation the library knows, pure refrigerants first.
#[pyfunction]
fn designations() -> Vec<&'static str> {
    kv::designations().collect()
}

/// A refrigerant of a designation of ANSI/ASHRAE Standard 34 (case, hyphen and the leading R do not matter) or of a
/// chemical name.
///
/// Its saturation curves are fitted from the published equations of state on first use (a few milliseconds) and
/// shared by every refrigerant of the same designation. Where a reading is given, the result keeps its doubt.
#[pyclass(frozen, eq, hash, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Refrigerant(pub kv::Refrigerant);

impl Hash for Refrigerant {
    fn hash<H: Hasher>(&self, state: &mut H) {
        for (name, share) in self.0.components() {
            name.hash(state);
            share.fraction().to_bits().hash(state);
        }
    }
}

#[pymethods]
impl Refrigerant {
    #[new]
    #[pyo3(signature = (name, /))]
    fn new(name: &str) -> PyResult<Self> {
        kv::Refrigerant::named(name).map(Refrigerant).map_err(raise)
    }

    /// A blend of one's own: the share by mass of each component, 100 % together.
    #[staticmethod]
    #[pyo3(signature = (composition, /))]
    fn by_mass(composition: &Bound<'_, PyDict>) -> PyResult<Self> {
        kv::Refrigerant::by_mass(&borrowed(&listed(composition)?)).map(Refrigerant).map_err(raise)
    }

    /// A blend of one's own: the share by mole of each component, 100 % together.
    #[staticmethod]
    #[pyo3(signature = (composition, /))]
    fn by_mole(composition: &Bound<'_, PyDict>) -> PyResult<Self> {
        kv::Refrigerant::by_mole(&borrowed(&listed(composition)?)).map(Refrigerant).map_err(raise)
    }

    /// The designation, or for a blend of one's own its components and their shares by mass.
    #[getter]
    fn designation(&self) -> &str {
        self.0.designation()
    }

    /// Components and their shares by mass, in the order of the designation.
    #[getter]
    fn components(&self, py: Python<'_>) -> PyResult<Vec<(String, Py<PyAny>)>> {
        self.0.components().map(|(name, share)| Ok((name.to_owned(), share.into_python(py)?))).collect()
    }

    /// Whether it is a blend of more than one component.
    #[getter]
    fn is_blend(&self) -> bool {
        self.0.is_blend()
    }

    /// Safety group of ANSI/ASHRAE Standard 34, such as "A2L", where its listing gives one.
    #[getter]
    fn safety_group(&self) -> Option<String> {
        self.0.safety_group().map(|group| group.to_string())
    }

    /// Where liquid and vapour become one.
    #[getter]
    fn critical_temperature(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.critical_temperature().map_err(raise)?.into_python(py)
    }

    /// Pressure at which the liquid starts to boil.
    fn bubble_pressure(
        &self,
        py: Python<'_>,
        temperature: Given<quantity::Temperature>,
    ) -> PyResult<Py<PyAny>> {
        carry(py, temperature, |plain| self.0.bubble_pressure(plain), |read| self.0.bubble_pressure(read))
    }

    /// Pressure at which the vapour starts to condense.
    fn dew_pressure(&self, py: Python<'_>, temperature: Given<quantity::Temperature>) -> PyResult<Py<PyAny>> {
        carry(py, temperature, |plain| self.0.dew_pressure(plain), |read| self.0.dew_pressure(read))
    }

    /// Temperature at which the liquid starts to boil: subcooling is counted from here.
    fn bubble_temperature(&self, py: Python<'_>, pressure: Given<quantity::Pressure>) -> PyResult<Py<PyAny>> {
        carry(py, pressure, |plain| self.0.bubble_temperature(plain), |read| self.0.bubble_temperature(read))
    }

    /// Temperature at which the vapour starts to condense: superheat is counted from here.
    fn dew_temperature(&self, py: Python<'_>, pressure: Given<quantity::Pressure>) -> PyResult<Py<PyAny>> {
        carry(py, pressure, |plain| self.0.dew_temperature(plain), |read| self.0.dew_temperature(read))
    }

    /// Density of the liquid at its bubble point.
    fn bubble_density(
        &self,
        py: Python<'_>,
        temperature: Given<quantity::Temperature>,
    ) -> PyResult<Py<PyAny>> {
        carry(py, temperature, |plain| self.0.bubble_density(plain), |read| self.0.bubble_density(read))
    }

    /// Density of the vapour at its dew point.
    fn dew_density(&self, py: Python<'_>, temperature: Given<quantity::Temperature>) -> PyResult<Py<PyAny>> {
        carry(py, temperature, |plain| self.0.dew_density(plain), |read| self.0.dew_density(read))
    }

    /// Density at a pressure and a temperature: of the vapour below the dew pressure, of the liquid above the bubble
    /// pressure.
    fn density(
        &self,
        py: Python<'_>,
        pressure: Given<quantity::Pressure>,
        temperature: Given<quantity::Temperature>,
    ) -> PyResult<Py<PyAny>> {
        carry_both(py, pressure, temperature, |p, t| self.0.density(p, t), |p, t| self.0.density(p, t))
    }

    /// How much warmer the suction line is than the dew point at the suction pressure.
    fn superheat(
        &self,
        py: Python<'_>,
        suction_pressure: Given<quantity::Pressure>,
        line_temperature: Given<quantity::Temperature>,
    ) -> PyResult<Py<PyAny>> {
        let (p, t) = (suction_pressure, line_temperature);
        carry_both(py, p, t, |p, t| self.0.superheat(p, t), |p, t| self.0.superheat(p, t))
    }

    /// How much colder the liquid line is than the bubble point at the liquid pressure.
    fn subcooling(
        &self,
        py: Python<'_>,
        liquid_pressure: Given<quantity::Pressure>,
        line_temperature: Given<quantity::Temperature>,
    ) -> PyResult<Py<PyAny>> {
        let (p, t) = (liquid_pressure, line_temperature);
        carry_both(py, p, t, |p, t| self.0.subcooling(p, t), |p, t| self.0.subcooling(p, t))
    }

    /// How much warmer the dew point is than the bubble point at one pressure.
    fn glide(&self, py: Python<'_>, pressure: Pressure) -> PyResult<Py<PyAny>> {
        self.0.glide(pressure.0).map_err(raise)?.into_python(py)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (Bound<'py, PyAny>,))> {
        let (py, this) = (slf.py(), &slf.get().0);
        let class = slf.get_type().into_any();
        if kv::Refrigerant::named(this.designation()).is_ok_and(|named| named == *this) {
            return Ok((class, (this.designation().into_pyobject(py)?.into_any(),)));
        }
        let composition = PyDict::new(py);
        for (name, share) in this.components() {
            composition.set_item(name, share.into_python(py)?)?;
        }
        Ok((class.getattr("by_mass")?, (composition.into_any(),)))
    }

    fn __str__(&self) -> &str {
        self.0.designation()
    }

    fn __repr__(&self) -> String {
        format!("<Refrigerant {}>", self.0.designation())
    }
}

/// The entries in the order given.
fn listed(composition: &Bound<'_, PyDict>) -> PyResult<Vec<(String, Ratio)>> {
    composition.iter().map(|(name, share)| Ok((name.extract()?, share.extract()?))).collect()
}

fn borrowed(composition: &[(String, Ratio)]) -> Vec<(&str, quantity::Ratio)> {
    composition.iter().map(|(name, share)| (name.as_str(), share.0)).collect()
}
