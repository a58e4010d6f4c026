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
///
/// Returns
/// -------
/// list of str
#[pyfunction]
fn designations() -> Vec<&'static str> {
    kv::designations().collect()
}

/// A refrigerant of a designation of ANSI/ASHRAE Standard 34 (case, hyphen and the leading R do not matter) or of a
/// chemical name.
///
/// Its saturation curves are fitted from the published equations of state on first use (a few milliseconds) and
/// shared by every refrigerant of the same designation. Where a reading is given, the result keeps its doubt.
///
/// Parameters
/// ----------
/// name : str
///     A designation ("R-454B", "454b") or a chemical name ("propane").
///
/// Raises
/// ------
/// UnknownName
///     A name nobody knows; the text gives the nearest known ones.
///
/// Notes
/// -----
/// Source: compositions and safety groups as listed by ANSI/ASHRAE Standard 34; properties as ``accuracy()`` says.
///
/// Examples
/// --------
/// >>> kv.Refrigerant("r410a")
/// <Refrigerant R-410A>
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
    ///
    /// Parameters
    /// ----------
    /// composition : dict of str to Ratio
    ///     The share of each component, each named once.
    ///
    /// Returns
    /// -------
    /// Refrigerant
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     An unknown component.
    /// Inconsistent
    ///     A repeated component, a share that is not above zero, a sum other than 100 %.
    ///
    /// Notes
    /// -----
    /// Range: one to eight components. Accuracy: that of the pair parameters; ``accuracy()`` says what each pair rests
    /// on.
    ///
    /// Examples
    /// --------
    /// >>> kv.Refrigerant.by_mass({"R-32": kv.percent(70), "R-1234yf": kv.percent(30)}).designation
    /// 'R-32/R-1234yf 70.0/30.0'
    #[staticmethod]
    #[pyo3(signature = (composition, /))]
    fn by_mass(composition: &Bound<'_, PyDict>) -> PyResult<Self> {
        kv::Refrigerant::by_mass(&borrowed(&listed(composition)?)).map(Refrigerant).map_err(raise)
    }

    /// A blend of one's own: the share by mole of each component, 100 % together.
    ///
    /// Parameters
    /// ----------
    /// composition : dict of str to Ratio
    ///     The share of each component, each named once.
    ///
    /// Returns
    /// -------
    /// Refrigerant
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     An unknown component.
    /// Inconsistent
    ///     A repeated component, a share that is not above zero, a sum other than 100 %.
    ///
    /// Notes
    /// -----
    /// Range and accuracy: as ``by_mass``.
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
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// Pressure, Measured or Column of Pressure
    ///     Absolute.
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source: the multi-fluid Helmholtz-energy model with the papers of ``accuracy()``. Range: from the lowest
    /// temperature of the equations, or that above which a blend's liquid is one, to 0.995 of the critical temperature.
    /// Accuracy: typically 0.1 % to 0.5 % of the pressure; the curve follows the equation to 2e-5.
    ///
    /// Examples
    /// --------
    /// >>> print(f"{kv.Refrigerant('R-410A').bubble_pressure(kv.fahrenheit(100)):.1f}")
    /// 333.2 psia
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
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// Pressure, Measured or Column of Pressure
    ///     Absolute.
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source, range and accuracy: as ``bubble_pressure``.
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
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure or Column of Pressure
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// Temperature, Measured or Column of Temperature
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source: the inverse of ``bubble_pressure``. Range: up to about 0.96 of the critical pressure. Accuracy:
    /// typically 0.05 K to 0.2 K; the curve follows the equation to 1 mK.
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
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure or Column of Pressure
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// Temperature, Measured or Column of Temperature
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source: the inverse of ``dew_pressure``. Range and accuracy: as ``bubble_temperature``.
    ///
    /// Examples
    /// --------
    /// >>> dew = kv.Refrigerant("R-410A").dew_temperature(kv.Site().absolute(kv.psig(118)))
    /// >>> print(f"{dew:.1f}")
    /// 39.8 °F
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
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// Density, Measured or Column of Density
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source and range: as ``bubble_pressure``. Accuracy: typically 0.1 %; the curve follows the equation to 2e-5.
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
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// Density, Measured or Column of Density
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source and range: as ``bubble_pressure``. Accuracy: typically 0.5 %; the curve follows the equation to 2e-5.
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
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// SpecificEnergy, Measured or Column of SpecificEnergy
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source and range: as ``bubble_pressure``. Accuracy: typically 0.5 % in enthalpy differences; the curve follows
    /// the equation to 1e-6 of the latent heat.
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
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// SpecificEnergy, Measured or Column of SpecificEnergy
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source, range and accuracy: as ``bubble_enthalpy``.
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
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure or Column of Pressure
    ///     Absolute; read or plain.
    /// temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// Density, Measured or Column of Density
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside the equation.
    /// Inconsistent
    ///     Between bubble and dew point, where there is no single density.
    ///
    /// Notes
    /// -----
    /// Source: solved from the equation of state. Range: temperatures and pressures of the equation. Accuracy:
    /// typically 0.2 % to 0.5 % of the vapour and 0.1 % of the liquid density; readings carry their doubt through.
    ///
    /// Examples
    /// --------
    /// >>> print(f"{kv.Refrigerant('R-32').density(kv.kilopascals(500), kv.celsius(30)):.2f kg/m³}")
    /// 10.97 kg/m³
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
    ///
    /// Parameters
    /// ----------
    /// suction_pressure : Pressure or Column of Pressure
    ///     Absolute; read or plain.
    /// line_temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// TemperatureDifference, Measured or Column of TemperatureDifference
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source: by definition, T_line − T_dew(p). Range: as ``dew_temperature``; a negative value means liquid in the
    /// line, or readings within their doubt of it. Accuracy: the dew point is good to 0.05 K to 0.2 K; readings carry
    /// their doubt.
    ///
    /// Examples
    /// --------
    /// >>> print(f"{kv.Refrigerant('R-22').superheat(kv.psia(83.2), kv.fahrenheit(52)):.1f}")
    /// 12.0 Δ°F
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
    ///
    /// Parameters
    /// ----------
    /// liquid_pressure : Pressure or Column of Pressure
    ///     Absolute; read or plain.
    /// line_temperature : Temperature or Column of Temperature
    ///     Read or plain.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// TemperatureDifference, Measured or Column of TemperatureDifference
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source: by definition, T_bubble(p) − T_line. Range: as ``bubble_temperature``; a negative value means vapour in
    /// the line, or readings within their doubt of it. Accuracy: as ``superheat``.
    ///
    /// Examples
    /// --------
    /// >>> liquid = kv.Site().absolute(kv.psig(365))
    /// >>> print(f"{kv.Refrigerant('R-410A').subcooling(liquid, kv.fahrenheit(98)):.1f}")
    /// 11.7 Δ°F
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
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure or Column of Pressure
    ///     Absolute; plain, without doubt.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// TemperatureDifference or Column of TemperatureDifference
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Range and accuracy: as ``bubble_temperature``.
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
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure or Column of Pressure
    ///     Absolute; plain, without doubt.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// SpecificEnergy or Column of SpecificEnergy
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source: by definition, ``dew_enthalpy`` less ``bubble_enthalpy`` at this pressure; of a blend with the warming
    /// over its glide. Range: as ``bubble_temperature``. Accuracy: as ``bubble_enthalpy``.
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
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure or Column of Pressure
    ///     Absolute.
    /// temperature : Temperature or Column of Temperature
    /// reference : {"IIR", "ASHRAE", "NBP"}, optional
    ///     Where enthalpy and entropy are counted from.
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// State
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside the equation.
    /// Inconsistent
    ///     Between bubble and dew point, where liquid and vapour coexist: ask ``split``.
    /// UnknownName
    ///     A reference of another name.
    ///
    /// Notes
    /// -----
    /// Source: derivatives of the Helmholtz energy. Range: temperatures and pressures of the equation. Accuracy:
    /// typically 0.5 % to 1 % in heat capacity and speed of sound, 0.1 % to 0.5 % in density.
    ///
    /// Examples
    /// --------
    /// >>> r = kv.Refrigerant("R-134a")
    /// >>> suction = r.state(kv.kilopascals(200), kv.celsius(0))
    /// >>> discharge = r.state(kv.kilopascals(1000), kv.celsius(60))
    /// >>> print(f"{discharge.enthalpy - suction.enthalpy:.2f kJ/kg}")
    /// 40.33 kJ/kg
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
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    /// reference : {"IIR", "ASHRAE", "NBP"}, optional
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// State
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    /// UnknownName
    ///     A reference of another name.
    ///
    /// Notes
    /// -----
    /// Source and accuracy: as ``state``.
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
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    /// reference : {"IIR", "ASHRAE", "NBP"}, optional
    /// errors : {"raise", "nan"}, optional
    ///     What a row that cannot be computed gives.
    ///
    /// Returns
    /// -------
    /// State
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    /// UnknownName
    ///     A reference of another name.
    ///
    /// Notes
    /// -----
    /// Source and accuracy: as ``state``.
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
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure
    ///     Absolute.
    /// temperature : Temperature
    ///
    /// Returns
    /// -------
    /// Split
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside the saturation curve or the equation.
    ///
    /// Notes
    /// -----
    /// Source: equal fugacities in both phases. Range: temperatures of the saturation curve, pressures of the equation.
    /// Accuracy: some tenths of a kelvin in the glide, and the vapour's share to that over the glide.
    ///
    /// Examples
    /// --------
    /// >>> print(f"{kv.Refrigerant('R-407C').split(kv.psia(100), kv.fahrenheit(48)).vapour_share:.0f}")
    /// 46 %
    fn split(&self, pressure: Pressure, temperature: Temperature) -> PyResult<Split> {
        self.0.split(pressure.0, temperature.0).map(Split::new).map_err(raise)
    }

    /// What it is at a pressure and an enthalpy (IIR reference state): behind an expansion valve.
    ///
    /// Parameters
    /// ----------
    /// pressure : Pressure
    ///     Absolute.
    /// enthalpy : SpecificEnergy
    ///     From the IIR reference state.
    ///
    /// Returns
    /// -------
    /// Split
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source: throttling changes no enthalpy. Range: pressures of the saturation curve. Accuracy: the enthalpy is met
    /// to 1e-6 of the latent heat.
    ///
    /// Examples
    /// --------
    /// >>> r = kv.Refrigerant("R-410A")
    /// >>> liquid = r.state(kv.psia(380), kv.fahrenheit(98))
    /// >>> print(f"{r.split_at_enthalpy(kv.psia(133), liquid.enthalpy).vapour_share:.0f}")
    /// 24 %
    fn split_at_enthalpy(&self, pressure: Pressure, enthalpy: SpecificEnergy) -> PyResult<Split> {
        self.0.split_at_enthalpy(pressure.0, enthalpy.0).map(Split::new).map_err(raise)
    }

    /// What the properties rest on: the papers, the pairs of components, the error in pressure to expect.
    ///
    /// Returns
    /// -------
    /// Accuracy
    fn accuracy(&self) -> Accuracy {
        Accuracy::new(self.0.accuracy())
    }

    /// The 100-year global warming potential by an assessment report: "AR4", "AR5" or "AR6".
    ///
    /// Parameters
    /// ----------
    /// assessment : {"AR4", "AR5", "AR6"}, optional
    ///
    /// Returns
    /// -------
    /// Gwp
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     A report of another name.
    /// Inconsistent
    ///     A component without a value in that report.
    ///
    /// Notes
    /// -----
    /// Source: the reports' values, without carbon–climate feedback (``Gwp.sources``); a blend by 40 CFR 84 and
    /// Regulation (EU) 2024/573, Annex VI: share by mass times value. Accuracy: the sum is not rounded; the reports
    /// state ±26 % to ±40 % for a value itself.
    ///
    /// Examples
    /// --------
    /// >>> print(kv.Refrigerant("R-410A").gwp())
    /// 2088 (AR4)
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
    ///
    /// Parameters
    /// ----------
    /// pressure, temperature, density, energy : str, optional
    ///     The units of the numbers.
    /// difference : str, optional
    ///     Of differences of temperatures: the degrees of the temperatures unless given.
    /// site : Site, optional
    ///     Where gauge pressures are read.
    ///
    /// Returns
    /// -------
    /// Plain
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     A unit that is unknown, or of another kind.
    /// WrongKind
    ///     A unit of gauge pressure without a site.
    ///
    /// Notes
    /// -----
    /// Source, range and accuracy: as the methods of ``Refrigerant``.
    ///
    /// Examples
    /// --------
    /// >>> r410a = kv.Refrigerant("R-410A").plain(pressure="psig", temperature="°F", site=kv.Site())
    /// >>> round(r410a.superheat(118.0, 54.0), 1)
    /// 14.2
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
