//! Conductors, the drop along them and across a contactor.

use kingvalve::electrical as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::column::{Errors, Many, exactly, fields, side};
use crate::error::raise;
use crate::measure::{Given, level};
use crate::quantity::{ElectricPotential, IntoPython, Length, Ratio};
use crate::record::{Choice, Class, Made, Shown, class};

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Conductor>()?;
    class::<kv::VoltageDrop>(module, &[wrap_pyfunction!(along, module)?])?;
    class::<kv::ContactorDrop>(module, &[wrap_pyfunction!(contactor_drop_of, module)?])?;
    let py = module.py();
    module.add("CONDUCTOR_DROP", kv::CONDUCTOR_DROP.into_python(py)?)?;
    module.add("CONTACTOR_DROP", kv::CONTACTOR_DROP.into_python(py)?)
}

/// A conductor: copper or aluminum, stranded unless solid is asked for.
///
/// Notes
/// -----
/// Source: NEC chapter 9, table 8 (direct current, uncoated); partly from memory. 14 AWG to 4/0 AWG, solid copper to
/// 8 AWG. Accuracy: the table's three digits.
///
/// Examples
/// --------
/// >>> wire = kv.Conductor.copper("12 AWG")
/// >>> print(f"{wire.resistance(kv.feet(100)):.3f}")
/// 0.198 Ω
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq, Clone, Copy)]
pub struct Conductor(kv::Conductor);

#[pymethods]
impl Conductor {
    /// Stranded copper of that size.
    ///
    /// Parameters
    /// ----------
    /// size : str
    ///     "12", "12 AWG", "#12", "2/0 AWG".
    ///
    /// Returns
    /// -------
    /// Conductor
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     A size that is not in the table.
    #[staticmethod]
    #[pyo3(signature = (size, /))]
    fn copper(size: &str) -> PyResult<Self> {
        Ok(Conductor(kv::Conductor::copper(size.parse().map_err(raise)?)))
    }

    /// Stranded aluminum of that size, written as for ``copper``.
    ///
    /// Parameters
    /// ----------
    /// size : str
    ///     As for ``copper``.
    ///
    /// Returns
    /// -------
    /// Conductor
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     A size the table does not have.
    #[staticmethod]
    #[pyo3(signature = (size, /))]
    fn aluminum(size: &str) -> PyResult<Self> {
        Ok(Conductor(kv::Conductor::aluminum(size.parse().map_err(raise)?)))
    }

    /// The same, solid.
    fn solid(&self) -> Self {
        Conductor(self.0.solid())
    }

    /// Its gauge: "12 AWG".
    #[getter]
    fn size(&self) -> String {
        self.0.size().to_string()
    }

    /// Its cross-section.
    #[getter]
    fn area(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        q::circular_mils(f64::from(self.0.size().circular_mils())).into_python(py)
    }

    /// The resistance of a length of it at 75 °C.
    ///
    /// Parameters
    /// ----------
    /// length : Length or Column of Length
    ///     One way.
    /// errors : {"raise", "nan"}
    ///     What to do with a value outside the range.
    ///
    /// Returns
    /// -------
    /// Resistance or Column of Resistance
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A length that is not above zero and finite.
    /// Inconsistent
    ///     A kind that is not in the table.
    #[pyo3(signature = (length, *, errors = Errors::Raise))]
    fn resistance(&self, py: Python<'_>, length: Many<'_, q::Length>, errors: Errors) -> PyResult<Py<PyAny>> {
        exactly(py, length, errors, |length| self.0.resistance(length))
    }

    /// The resistance of a length of it at another temperature.
    ///
    /// Parameters
    /// ----------
    /// length : Length or Column of Length
    ///     One way.
    /// temperature : Temperature or Column of Temperature
    ///     Of the conductor itself, −40 °C to 105 °C.
    /// errors : {"raise", "nan"}
    ///     What to do with a value outside the range.
    ///
    /// Returns
    /// -------
    /// Resistance or Column of Resistance
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     As for ``resistance``, and a temperature outside the range.
    ///
    /// Notes
    /// -----
    /// Source: NEC chapter 9, table 8, note 2: R₂ = R₁·(1 + α·(T₂ − 75 °C)).
    #[pyo3(signature = (length, temperature, *, errors = Errors::Raise))]
    fn resistance_at(
        &self,
        py: Python<'_>,
        length: Many<'_, q::Length>,
        temperature: Many<'_, q::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        use crate::column::Kinded;
        use q::Quantity;
        let each = |row: &[f64]| match row {
            [l, t] => {
                let found = self.0.resistance_at(q::Length::from_base(*l), q::Temperature::from_base(*t));
                Some(found.map(|found| [found.base()]))
            }
            _ => None,
        };
        let made = fields(py, [side(&length)?, side(&temperature)?], [q::Resistance::kind()], errors, each)?;
        crate::column::field(&made, py, 0)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Conductor: {}>", self.0)
    }
}

impl Shown for kv::VoltageDrop {
    const CLASS: Class<Self> = Class {
        name: "VoltageDrop",
        doc: r#"The voltage a circuit's conductors lose, judged as a share of the supply's.

        Examples
        --------
        >>> wire = kv.Conductor.copper("12 AWG")
        >>> drop = kv.VoltageDrop.along(wire, kv.feet(100), "single", kv.amperes(20), kv.volts(240))
        >>> print(f"{drop.drop.value:.2f}", drop.verdict.name)
        7.92 V outside
        "#,
        fields: &[
            ("drop", "The voltage lost.", |it, py| it.drop().into_python(py)),
            ("share", "The share of the supply voltage lost.", |it, py| it.share().into_python(py)),
            ("verdict", "Against the limit.", |it, py| it.verdict().into_python(py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::VoltageDrop::finding),
        same: None,
    };
}

/// The drop along a conductor and back.
///
/// Parameters
/// ----------
/// wire : Conductor
/// one_way : Length
///     From the panel to the unit.
/// phases : {"single", "three"}
/// current : Current
///     Of one conductor, read or plain.
/// supply : ElectricPotential
///     Between conductors, at the panel.
/// limit : Ratio, optional
///     The share that may be lost: ``kv.CONDUCTOR_DROP``, 3 %, unless given.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// VoltageDrop
///
/// Raises
/// ------
/// OutOfRange
///     A current below zero, a voltage or length that is not above zero, a limit not between 0 % and 100 %.
/// Inconsistent
///     A kind of wire that is not in the table.
///
/// Notes
/// -----
/// Source: 2·I·R (single phase) and √3·I·R (three phases, balanced), R by NEC chapter 9, table 8 at 75 °C: common practice.
/// Range: up to about 1/0 AWG, where reactance is small beside resistance.
/// Accuracy: a few percent, rather too large: the wire is seldom at 75 °C, and power factor is left out.
#[pyfunction]
#[pyo3(signature = (wire, one_way, phases, current, supply, *, limit = None, level = None))]
fn along(
    wire: PyRef<'_, Conductor>,
    one_way: Length,
    phases: Choice<kv::Phases>,
    current: Given<q::Current>,
    supply: ElectricPotential,
    limit: Option<Ratio>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::VoltageDrop>> {
    let limit = limit.map_or(kv::CONDUCTOR_DROP, |limit| limit.0);
    let level = self::level(level)?;
    let current = current.measured();
    Ok(Made(kv::VoltageDrop::along(&wire.0, one_way.0, phases.0, current, supply.0, limit, level)))
}

impl Shown for kv::ContactorDrop {
    const CLASS: Class<Self> = Class {
        name: "ContactorDrop",
        doc: "The voltage across one closed pole of a contactor under load, judged.",
        fields: &[
            ("drop", "The voltage across the pole.", |it, py| it.drop().into_python(py)),
            ("verdict", "Against the limit.", |it, py| it.verdict().into_python(py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::ContactorDrop::finding),
        same: None,
    };
}

/// The voltage across a pole, against a share of the line's.
///
/// Parameters
/// ----------
/// drop : ElectricPotential
///     From line to load terminal of one pole, the load running; read or plain.
/// line : ElectricPotential
///     Between line terminals.
/// limit : Ratio, optional
///     The share of the line voltage that may be lost: ``kv.CONTACTOR_DROP``, 3 %, unless given.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// ContactorDrop
///
/// Raises
/// ------
/// OutOfRange
///     A drop below zero or above half the line's, a line voltage that is not above zero, a limit outside its range.
///
/// Notes
/// -----
/// Source: common practice, no source; many shops use less. Accuracy: that of the voltmeter.
///
/// Examples
/// --------
/// >>> print(kv.ContactorDrop.of(kv.volts(9.5), kv.volts(240)).verdict.name)
/// outside
#[pyfunction(name = "of")]
#[pyo3(signature = (drop, line, *, limit = None, level = None))]
fn contactor_drop_of(
    drop: Given<q::ElectricPotential>,
    line: ElectricPotential,
    limit: Option<Ratio>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::ContactorDrop>> {
    let limit = limit.map_or(kv::CONTACTOR_DROP, |limit| limit.0);
    Ok(Made(kv::ContactorDrop::of(drop.measured(), line.0, limit, self::level(level)?)))
}
