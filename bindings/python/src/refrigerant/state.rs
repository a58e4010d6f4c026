//! All properties of one phase, and two phases side by side.

use kingvalve::refrigerant as kv;
use pyo3::prelude::*;

use crate::column::{Errors, Kinded, Side, field, fields};
use crate::error::{unknown_name, wrong_kind};
use crate::quantity::{IntoPython, PressureDifference};
use kingvalve::quantity as q;

/// The reference state of that name.
pub fn reference(name: &str) -> PyResult<kv::Reference> {
    match name.to_uppercase().as_str() {
        "IIR" => Ok(kv::Reference::Iir),
        "ASHRAE" => Ok(kv::Reference::Ashrae),
        "NBP" => Ok(kv::Reference::NormalBoilingPoint),
        _ => Err(unknown_name(format!("reference is \"IIR\", \"ASHRAE\" or \"NBP\", not {name:?}"))),
    }
}

/// A refrigerant in one phase: all its properties, each a quantity, or a column where it was asked of columns.
#[pyclass(frozen, module = "kingvalve")]
pub struct State {
    fields: Vec<Py<PyAny>>,
    one: Option<kv::State>,
}

const FIELDS: usize = 8;

fn numbers(state: &kv::State) -> [f64; FIELDS] {
    use q::Quantity as _;
    [
        state.temperature.base(),
        state.pressure.base(),
        state.density.base(),
        state.enthalpy.base(),
        state.entropy.base(),
        state.isochoric_heat_capacity.base(),
        state.isobaric_heat_capacity.base(),
        state.speed_of_sound.base(),
    ]
}

fn kinds() -> [&'static crate::column::Kind; FIELDS] {
    [
        q::Temperature::kind(),
        q::Pressure::kind(),
        q::Density::kind(),
        q::SpecificEnergy::kind(),
        q::SpecificEntropy::kind(),
        q::SpecificEntropy::kind(),
        q::SpecificEntropy::kind(),
        q::Velocity::kind(),
    ]
}

impl State {
    /// At one place, or at each row of columns.
    pub fn at<const N: usize>(
        py: Python<'_>,
        sides: [Side<'_, '_>; N],
        errors: Errors,
        state: impl Fn(&[f64]) -> Option<kingvalve::Result<kv::State>> + Sync,
    ) -> PyResult<Self> {
        let row: Vec<f64> = sides.iter().filter_map(Side::same).collect();
        let one = if row.len() == N { state(&row).and_then(Result::ok) } else { None };
        let each = |row: &[f64]| state(row).map(|found| found.map(|state| numbers(&state)));
        Ok(State { fields: fields(py, sides, kinds(), errors, each)?, one })
    }

    fn field(&self, py: Python<'_>, index: usize) -> PyResult<Py<PyAny>> {
        field(&self.fields, py, index)
    }
}

#[pymethods]
impl State {
    /// Temperature.
    #[getter]
    fn temperature(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.field(py, 0)
    }
    /// Absolute pressure.
    #[getter]
    fn pressure(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.field(py, 1)
    }
    /// Density.
    #[getter]
    fn density(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.field(py, 2)
    }
    /// Enthalpy, from the reference state asked for.
    #[getter]
    fn enthalpy(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.field(py, 3)
    }
    /// Entropy, from the reference state asked for.
    #[getter]
    fn entropy(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.field(py, 4)
    }
    /// Heat capacity at constant volume.
    #[getter]
    fn isochoric_heat_capacity(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.field(py, 5)
    }
    /// Heat capacity at constant pressure.
    #[getter]
    fn isobaric_heat_capacity(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.field(py, 6)
    }
    /// Speed of sound.
    #[getter]
    fn speed_of_sound(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.field(py, 7)
    }

    /// How much colder it becomes when throttled over a small pressure drop (Joule–Thomson).
    ///
    /// Parameters
    /// ----------
    /// drop : PressureDifference
    ///
    /// Returns
    /// -------
    /// TemperatureDifference
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A state of columns.
    ///
    /// Notes
    /// -----
    /// Source: by definition, (∂T/∂p) at constant enthalpy; Lemmon and Jacobsen, J. Phys. Chem. Ref. Data 33 (2004)
    /// 593, Table 4. Accuracy: exact for a vanishing drop; for vapour some per cent per tenth of the pressure.
    ///
    /// Examples
    /// --------
    /// >>> suction = kv.Refrigerant("R-410A").state(kv.psia(130), kv.fahrenheit(55))
    /// >>> print(f"{suction.throttling_drop(kv.psi(5)):.1f}")
    /// 1.5 Δ°F
    #[pyo3(signature = (drop, /))]
    fn throttling_drop(&self, py: Python<'_>, drop: PressureDifference) -> PyResult<Py<PyAny>> {
        match &self.one {
            Some(state) => state.throttling_drop(drop.0).into_python(py),
            None => Err(wrong_kind("a throttling drop is asked of one state, not of columns".to_owned())),
        }
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let texts = [1, 0, 2].map(|index| Ok(self.field(py, index)?.bind(py).str()?.to_string()));
        Ok(format!("<State: {}>", texts.into_iter().collect::<PyResult<Vec<_>>>()?.join(", ")))
    }
}

/// A refrigerant as liquid and vapour side by side, or as one of them.
#[pyclass(frozen, module = "kingvalve")]
pub struct Split(kv::Split);

type Shares = Vec<(String, Py<PyAny>)>;

fn shares(py: Python<'_>, composition: &[(String, q::Ratio)]) -> PyResult<Shares> {
    composition.iter().map(|(name, share)| Ok((name.clone(), share.into_python(py)?))).collect()
}

impl Split {
    /// Of the library's.
    pub fn new(split: kv::Split) -> Self {
        Split(split)
    }
}

#[pymethods]
impl Split {
    /// Temperature of both.
    #[getter]
    fn temperature(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.temperature.into_python(py)
    }
    /// Absolute pressure of both.
    #[getter]
    fn pressure(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.pressure.into_python(py)
    }
    /// The vapour's share by mass: the quality.
    #[getter]
    fn vapour_share(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.vapour_share.into_python(py)
    }
    /// Components of the liquid and their shares by mass.
    #[getter]
    fn liquid(&self, py: Python<'_>) -> PyResult<Shares> {
        shares(py, &self.0.liquid)
    }
    /// Components of the vapour and their shares by mass.
    #[getter]
    fn vapour(&self, py: Python<'_>) -> PyResult<Shares> {
        shares(py, &self.0.vapour)
    }
    fn __repr__(&self) -> String {
        let Split(split) = self;
        format!(
            "<Split: {} vapour at {:.2} and {:.2}>",
            split.vapour_share, split.pressure, split.temperature
        )
    }
}
