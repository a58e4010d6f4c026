//! Refrigerants by designation, in trade terms.

mod facts;
mod plain;
mod state;

use std::hash::{Hash, Hasher};

use kingvalve::{quantity, refrigerant as kv};
use pyo3::prelude::*;
use pyo3::types::PyDict;

use facts::Accuracy;
use plain::Plain;
use state::{Split, State};

pub use facts::Gwp;

use crate::column::{Errors, Many, carry, carry_both, exactly, side, slices};
use crate::error::raise;
use crate::quantity::{IntoPython, Pressure, Ratio, Site, SpecificEnergy, Temperature};
use quantity::Quantity as Q;

/// Adds the class and the list of designations to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Refrigerant>()?;
    module.add_class::<State>()?;
    module.add_class::<Split>()?;
    module.add_class::<Accuracy>()?;
    module.add_class::<Gwp>()?;
    module.add_class::<Plain>()?;
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

    /// What its safety group asks to beware of: that it burns, that it is toxic, or that its group is not listed here.
    ///
    /// Examples
    /// --------
    /// >>> kv.Refrigerant("R-410A").cautions
    /// []
    /// >>> len(kv.Refrigerant("R-454B").cautions)
    /// 1
    #[getter]
    fn cautions(&self) -> Vec<&'static str> {
        self.0.cautions().into_iter().map(|caution| caution.text()).collect()
    }

    /// Where liquid and vapour become one.
    #[getter]
    fn critical_temperature(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.critical_temperature().map_err(raise)?.into_python(py)
    }

    /// Pressure at which the liquid starts to boil.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn bubble_pressure(
        &self,
        py: Python<'_>,
        temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        slices(
            py,
            temperature,
            errors,
            |x| r.bubble_pressure(x),
            |x, y| r.bubble_pressures(x, y),
            |x| r.bubble_pressure(x),
        )
    }

    /// Pressure at which the vapour starts to condense.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn dew_pressure(
        &self,
        py: Python<'_>,
        temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        slices(
            py,
            temperature,
            errors,
            |x| r.dew_pressure(x),
            |x, y| r.dew_pressures(x, y),
            |x| r.dew_pressure(x),
        )
    }

    /// Temperature at which the liquid starts to boil: subcooling is counted from here.
    #[pyo3(signature = (pressure, *, errors = Errors::Raise))]
    fn bubble_temperature(
        &self,
        py: Python<'_>,
        pressure: Many<'_, quantity::Pressure>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        slices(
            py,
            pressure,
            errors,
            |x| r.bubble_temperature(x),
            |x, y| r.bubble_temperatures(x, y),
            |x| r.bubble_temperature(x),
        )
    }

    /// Temperature at which the vapour starts to condense: superheat is counted from here.
    #[pyo3(signature = (pressure, *, errors = Errors::Raise))]
    fn dew_temperature(
        &self,
        py: Python<'_>,
        pressure: Many<'_, quantity::Pressure>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        slices(
            py,
            pressure,
            errors,
            |x| r.dew_temperature(x),
            |x, y| r.dew_temperatures(x, y),
            |x| r.dew_temperature(x),
        )
    }

    /// Density of the liquid at its bubble point.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn bubble_density(
        &self,
        py: Python<'_>,
        temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        slices(
            py,
            temperature,
            errors,
            |x| r.bubble_density(x),
            |x, y| r.bubble_densities(x, y),
            |x| r.bubble_density(x),
        )
    }

    /// Density of the vapour at its dew point.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn dew_density(
        &self,
        py: Python<'_>,
        temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        slices(
            py,
            temperature,
            errors,
            |x| r.dew_density(x),
            |x, y| r.dew_densities(x, y),
            |x| r.dew_density(x),
        )
    }

    /// Enthalpy of the liquid at its bubble point; IIR reference state.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn bubble_enthalpy(
        &self,
        py: Python<'_>,
        temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        carry(py, temperature, errors, |x| r.bubble_enthalpy(x), |x| r.bubble_enthalpy(x))
    }

    /// Enthalpy of the vapour at its dew point; IIR reference state.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn dew_enthalpy(
        &self,
        py: Python<'_>,
        temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        carry(py, temperature, errors, |x| r.dew_enthalpy(x), |x| r.dew_enthalpy(x))
    }

    /// Density at a pressure and a temperature: of the vapour below the dew pressure, of the liquid above the bubble
    /// pressure.
    #[pyo3(signature = (pressure, temperature, *, errors = Errors::Raise))]
    fn density(
        &self,
        py: Python<'_>,
        pressure: Many<'_, quantity::Pressure>,
        temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        carry_both(py, pressure, temperature, errors, |p, t| r.density(p, t), |p, t| r.density(p, t))
    }

    /// How much warmer the suction line is than the dew point at the suction pressure.
    #[pyo3(signature = (suction_pressure, line_temperature, *, errors = Errors::Raise))]
    fn superheat(
        &self,
        py: Python<'_>,
        suction_pressure: Many<'_, quantity::Pressure>,
        line_temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        carry_both(
            py,
            suction_pressure,
            line_temperature,
            errors,
            |p, t| r.superheat(p, t),
            |p, t| r.superheat(p, t),
        )
    }

    /// How much colder the liquid line is than the bubble point at the liquid pressure.
    #[pyo3(signature = (liquid_pressure, line_temperature, *, errors = Errors::Raise))]
    fn subcooling(
        &self,
        py: Python<'_>,
        liquid_pressure: Many<'_, quantity::Pressure>,
        line_temperature: Many<'_, quantity::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let r = &self.0;
        carry_both(
            py,
            liquid_pressure,
            line_temperature,
            errors,
            |p, t| r.subcooling(p, t),
            |p, t| r.subcooling(p, t),
        )
    }

    /// How much warmer the dew point is than the bubble point at one pressure.
    #[pyo3(signature = (pressure, *, errors = Errors::Raise))]
    fn glide(
        &self,
        py: Python<'_>,
        pressure: Many<'_, quantity::Pressure>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        exactly(py, pressure, errors, |x| self.0.glide(x))
    }

    /// What it takes to boil the liquid away at a pressure: h_fg.
    #[pyo3(signature = (pressure, *, errors = Errors::Raise))]
    fn latent_heat(
        &self,
        py: Python<'_>,
        pressure: Many<'_, quantity::Pressure>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        exactly(py, pressure, errors, |x| self.0.latent_heat(x))
    }

    /// All properties of superheated vapour or subcooled liquid, enthalpy and entropy from a reference state: "IIR",
    /// "ASHRAE" or "NBP".
    #[pyo3(signature = (pressure, temperature, *, reference = "IIR", errors = Errors::Raise))]
    fn state(
        &self,
        py: Python<'_>,
        pressure: Many<'_, quantity::Pressure>,
        temperature: Many<'_, quantity::Temperature>,
        reference: &str,
        errors: Errors,
    ) -> PyResult<State> {
        let (r, reference) = (&self.0, state::reference(reference)?);
        State::at(py, [side(&pressure)?, side(&temperature)?], errors, |row: &[f64]| match row {
            [p, t] => Some(r.state_from(reference, Q::from_base(*p), Q::from_base(*t))),
            _ => None,
        })
    }

    /// The liquid at its bubble point.
    #[pyo3(signature = (temperature, *, reference = "IIR", errors = Errors::Raise))]
    fn bubble_state(
        &self,
        py: Python<'_>,
        temperature: Many<'_, quantity::Temperature>,
        reference: &str,
        errors: Errors,
    ) -> PyResult<State> {
        let (r, reference) = (&self.0, state::reference(reference)?);
        State::at(py, [side(&temperature)?], errors, |row: &[f64]| {
            row.first().map(|t| r.bubble_state_from(reference, Q::from_base(*t)))
        })
    }

    /// The vapour at its dew point.
    #[pyo3(signature = (temperature, *, reference = "IIR", errors = Errors::Raise))]
    fn dew_state(
        &self,
        py: Python<'_>,
        temperature: Many<'_, quantity::Temperature>,
        reference: &str,
        errors: Errors,
    ) -> PyResult<State> {
        let (r, reference) = (&self.0, state::reference(reference)?);
        State::at(py, [side(&temperature)?], errors, |row: &[f64]| {
            row.first().map(|t| r.dew_state_from(reference, Q::from_base(*t)))
        })
    }

    /// What a blend is at a pressure and a temperature: how much of it is vapour, and what both phases are made of.
    fn split(&self, pressure: Pressure, temperature: Temperature) -> PyResult<Split> {
        self.0.split(pressure.0, temperature.0).map(Split::new).map_err(raise)
    }

    /// What it is at a pressure and an enthalpy (IIR reference state): behind an expansion valve.
    fn split_at_enthalpy(&self, pressure: Pressure, enthalpy: SpecificEnergy) -> PyResult<Split> {
        self.0.split_at_enthalpy(pressure.0, enthalpy.0).map(Split::new).map_err(raise)
    }

    /// What the properties rest on: the papers, the pairs of components, the error in pressure to expect.
    fn accuracy(&self) -> Accuracy {
        Accuracy::new(self.0.accuracy())
    }

    /// The 100-year global warming potential by an assessment report: "AR4", "AR5" or "AR6".
    #[pyo3(signature = (assessment = "AR4"))]
    fn gwp(&self, assessment: &str) -> PyResult<Gwp> {
        let assessment = assessment.parse().map_err(raise)?;
        self.0.gwp(assessment).map(Gwp::new).map_err(raise)
    }

    /// How far each component's share may lie from nominal by the standard (below, above); none where not listed.
    #[getter]
    fn composition_tolerances(&self, py: Python<'_>) -> PyResult<Option<Vec<BelowAndAbove>>> {
        let Some(tolerances) = self.0.composition_tolerances() else { return Ok(None) };
        let pairs =
            tolerances.into_iter().map(|(below, above)| Ok((below.into_python(py)?, above.into_python(py)?)));
        pairs.collect::<PyResult<_>>().map(Some)
    }

    /// "pure", "zeotrope" or "azeotrope".
    #[getter]
    fn kind(&self) -> String {
        format!("{:?}", self.0.kind()).to_lowercase()
    }

    /// The same methods on plain numbers in units said once: the fast path.
    ///
    /// Pressures in a unit of absolute pressure, or of gauge pressure at a `site`.
    #[pyo3(signature = (*, pressure = "Pa", temperature = "K", difference = None, density = "kg/m3", energy = "J/kg", site = None))]
    fn plain(
        &self,
        pressure: &str,
        temperature: &str,
        difference: Option<&str>,
        density: &str,
        energy: &str,
        site: Option<PyRef<'_, Site>>,
    ) -> PyResult<Plain> {
        let site = site.map(|site| site.0);
        Plain::new(self.0.clone(), [pressure, temperature, density, energy], difference, site)
    }

    fn _repr_html_(&self, py: Python<'_>) -> PyResult<String> {
        py.import("kingvalve._html")?.call_method1("refrigerant", (Refrigerant(self.0.clone()),))?.extract()
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

/// How far a share may lie below and above.
type BelowAndAbove = (Py<PyAny>, Py<PyAny>);

/// The entries in the order given.
fn listed(composition: &Bound<'_, PyDict>) -> PyResult<Vec<(String, Ratio)>> {
    composition.iter().map(|(name, share)| Ok((name.extract()?, share.extract()?))).collect()
}

fn borrowed(composition: &[(String, Ratio)]) -> Vec<(&str, quantity::Ratio)> {
    composition.iter().map(|(name, share)| (name.as_str(), share.0)).collect()
}
