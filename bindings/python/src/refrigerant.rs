//! Refrigerants by designation, in trade terms.

use std::hash::{Hash, Hasher};

use kingvalve::refrigerant as kv;
use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::error::raise;
use crate::quantity::{IntoPython, Pressure, Ratio, Temperature};

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
/// shared by every refrigerant of the same designation.
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
    fn bubble_pressure(&self, py: Python<'_>, temperature: Temperature) -> PyResult<Py<PyAny>> {
        self.0.bubble_pressure(temperature.0).map_err(raise)?.into_python(py)
    }

    /// Pressure at which the vapour starts to condense.
    fn dew_pressure(&self, py: Python<'_>, temperature: Temperature) -> PyResult<Py<PyAny>> {
        self.0.dew_pressure(temperature.0).map_err(raise)?.into_python(py)
    }

    /// Temperature at which the liquid starts to boil: subcooling is counted from here.
    fn bubble_temperature(&self, py: Python<'_>, pressure: Pressure) -> PyResult<Py<PyAny>> {
        self.0.bubble_temperature(pressure.0).map_err(raise)?.into_python(py)
    }

    /// Temperature at which the vapour starts to condense: superheat is counted from here.
    fn dew_temperature(&self, py: Python<'_>, pressure: Pressure) -> PyResult<Py<PyAny>> {
        self.0.dew_temperature(pressure.0).map_err(raise)?.into_python(py)
    }

    /// Density of the liquid at its bubble point.
    fn bubble_density(&self, py: Python<'_>, temperature: Temperature) -> PyResult<Py<PyAny>> {
        self.0.bubble_density(temperature.0).map_err(raise)?.into_python(py)
    }

    /// Density of the vapour at its dew point.
    fn dew_density(&self, py: Python<'_>, temperature: Temperature) -> PyResult<Py<PyAny>> {
        self.0.dew_density(temperature.0).map_err(raise)?.into_python(py)
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

fn borrowed(composition: &[(String, Ratio)]) -> Vec<(&str, kingvalve::quantity::Ratio)> {
    composition.iter().map(|(name, share)| (name.as_str(), share.0)).collect()
}
