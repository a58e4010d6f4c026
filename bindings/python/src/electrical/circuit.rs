//! The circuit: what it feeds, and its sizes.

use kingvalve::electrical as kv;
use pyo3::prelude::*;

use crate::error::raise;
use crate::quantity::{Current, IntoPython, Ratio};
use crate::record::{Class, Made, New, Of, Shown, class, listed, plain};

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let load = [
        wrap_pyfunction!(load_compressor, module)?,
        wrap_pyfunction!(load_motor, module)?,
        wrap_pyfunction!(load_other, module)?,
    ];
    class::<kv::Load>(module, &load)?;
    class::<kv::Plate>(module, &[wrap_pyfunction!(plate, module)?])?;
    class::<kv::Installed>(module, &[wrap_pyfunction!(installed, module)?])?;
    class::<kv::Overcurrent>(module, &[])?;
    class::<kv::CircuitCheck>(module, &[])?;
    module.add_class::<Circuit>()?;
    let py = module.py();
    module.add("FIRST_CHOICE", kv::FIRST_CHOICE.into_python(py)?)?;
    module.add("LARGEST_SHARE", kv::LARGEST_SHARE.into_python(py)?)?;
    module.add("STANDARD_RATINGS", listed(kv::STANDARD_RATINGS, py)?)
}

impl Shown for kv::Load {
    const CLASS: Class<Self> = Class {
        name: "Load",
        doc: "A load of a circuit, with the current on its data plate: ``Load.compressor``, ``Load.motor`` or ``Load.other``.",
        fields: &[
            ("kind", "\"compressor\", \"motor\" or \"other\".", |it, py| {
                let kind = match it {
                    kv::Load::Compressor { .. } => "compressor",
                    kv::Load::Motor(_) => "motor",
                    kv::Load::Other(_) => "other",
                };
                plain(kind, py)
            }),
            (
                "current",
                "The current that sizes the circuit: of a compressor the larger of its two (NEC 440.4(C)).",
                |it, py| it.current().into_python(py),
            ),
        ],
        text: |it| it.current().to_string(),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// A hermetic motor-compressor.
///
/// Parameters
/// ----------
/// rla : Current
///     Rated-load current on its plate.
/// selection : Current, optional
///     Branch-circuit selection current, where the plate has one.
///
/// Returns
/// -------
/// Load
#[pyfunction(name = "compressor")]
#[pyo3(signature = (rla, selection = None))]
fn load_compressor(rla: Current, selection: Option<Current>) -> Made<kv::Load> {
    Made(Ok(kv::Load::Compressor { rla: rla.0, selection: selection.map(|current| current.0) }))
}

/// Another motor, by its full-load current.
///
/// Parameters
/// ----------
/// current : Current
///     Rated-load or full-load current of its plate.
///
/// Returns
/// -------
/// Load
#[pyfunction(name = "motor")]
#[pyo3(signature = (current, /))]
fn load_motor(current: Current) -> Made<kv::Load> {
    Made(Ok(kv::Load::Motor(current.0)))
}

/// Anything else, by its rated current.
///
/// Parameters
/// ----------
/// current : Current
///     Of its plate.
///
/// Returns
/// -------
/// Load
#[pyfunction(name = "other")]
#[pyo3(signature = (current, /))]
fn load_other(current: Current) -> Made<kv::Load> {
    Made(Ok(kv::Load::Other(current.0)))
}

impl Shown for kv::Plate {
    const CLASS: Class<Self> = Class {
        name: "Plate",
        doc: "What the data plate says of the circuit; it stands above anything computed.

        Parameters
        ----------
        minimum_ampacity : Current
        maximum_protection : Current
        ",
        fields: &[
            ("minimum_ampacity", "Minimum circuit ampacity.", |it, py| it.minimum_ampacity.into_python(py)),
            ("maximum_protection", "Maximum overcurrent protection.", |it, py| {
                it.maximum_protection.into_python(py)
            }),
        ],
        text: |it| format!("{} minimum, {} maximum", it.minimum_ampacity, it.maximum_protection),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
fn plate(cls: New, minimum_ampacity: Current, maximum_protection: Current) -> Made<kv::Plate> {
    let (minimum_ampacity, maximum_protection) = (minimum_ampacity.0, maximum_protection.0);
    cls.of(Ok(kv::Plate { minimum_ampacity, maximum_protection }))
}

impl Shown for kv::Installed {
    const CLASS: Class<Self> = Class {
        name: "Installed",
        doc: "What was found installed.

        Parameters
        ----------
        conductor_ampacity : Current
            By size, insulation and terminals, after all corrections.
        protection : Current
            Rating of the breaker or fuse.
        ",
        fields: &[
            ("conductor_ampacity", "Ampacity of the conductors.", |it, py| {
                it.conductor_ampacity.into_python(py)
            }),
            ("protection", "Rating of the breaker or fuse.", |it, py| it.protection.into_python(py)),
        ],
        text: |it| format!("conductors for {}, protection of {}", it.conductor_ampacity, it.protection),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
fn installed(cls: New, conductor_ampacity: Current, protection: Current) -> Made<kv::Installed> {
    cls.of(Ok(kv::Installed { conductor_ampacity: conductor_ampacity.0, protection: protection.0 }))
}

impl Shown for kv::Overcurrent {
    const CLASS: Class<Self> = Class {
        name: "Overcurrent",
        doc: "The largest overcurrent protection a circuit may have, by ``Circuit.maximum_protection``.",
        fields: &[
            ("calculated", "As computed.", |it, py| it.calculated.into_python(py)),
            (
                "standard",
                "The standard rating not above that, and 15 A at least (NEC 440.22(A)).",
                |it, py| it.standard.into_python(py),
            ),
        ],
        text: |it| format!("{:.1}, standard {}", it.calculated, it.standard),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::CircuitCheck {
    const CLASS: Class<Self> = Class {
        name: "CircuitCheck",
        doc: "What was installed, against what is wanted, by ``Circuit.check``.",
        fields: &[
            ("conductor_verdict", "The conductors against the minimum ampacity.", |it, py| {
                it.conductor_verdict().into_python(py)
            }),
            ("protection_verdict", "The breaker or fuse against the maximum.", |it, py| {
                it.protection_verdict().into_python(py)
            }),
        ],
        text: ToString::to_string,
        finding: Some(kv::CircuitCheck::finding),
        same: None,
    };
}

/// The loads of one branch circuit to air-conditioning or refrigerating equipment.
///
/// Notes
/// -----
/// Source: NEC 440.22, 440.32, 440.33 and 240.6(A), as quoted in the trade press. Local code, the data plate and a
/// licensed electrician decide.
/// Range: one circuit without wye-start or part-winding start.
/// Accuracy: exact arithmetic on the plates' currents.
///
/// Examples
/// --------
/// >>> unit = kv.Circuit.of([kv.Load.compressor(kv.amperes(18)), kv.Load.motor(kv.amperes(1.5))])
/// >>> print(unit.minimum_ampacity, unit.maximum_protection(kv.LARGEST_SHARE).standard)
/// 24 A 40 A
/// >>> check = unit.check(kv.Installed(kv.amperes(30), kv.amperes(50)))
/// >>> check.conductor_verdict.name, check.protection_verdict.name
/// ('within', 'outside')
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Circuit(kv::Circuit);

#[pymethods]
impl Circuit {
    /// A circuit with those loads.
    ///
    /// Parameters
    /// ----------
    /// loads : list of Load
    ///
    /// Returns
    /// -------
    /// Circuit
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     Without a load.
    /// OutOfRange
    ///     A current that is not above zero and finite.
    #[staticmethod]
    #[pyo3(signature = (loads, /))]
    fn of(loads: Vec<Of<kv::Load>>) -> PyResult<Self> {
        kv::Circuit::of(loads.into_iter().map(|load| load.0).collect()).map(Circuit).map_err(raise)
    }

    /// The loads.
    #[getter]
    fn loads(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.loads().iter().copied(), py)
    }

    /// The smallest ampacity its conductors may have: all currents, and a quarter of the largest motor's.
    #[getter]
    fn minimum_ampacity(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.minimum_ampacity().into_python(py)
    }

    /// The largest overcurrent protection it may have: a share of the largest compressor's current, and all others'.
    ///
    /// Parameters
    /// ----------
    /// share : Ratio
    ///     100 % to 225 %: ``kv.FIRST_CHOICE`` or ``kv.LARGEST_SHARE``.
    ///
    /// Returns
    /// -------
    /// Overcurrent
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A share outside the range.
    /// Inconsistent
    ///     Where no compressor is the largest load: another article of the code sizes that circuit.
    #[pyo3(signature = (share, /))]
    fn maximum_protection(&self, share: Ratio) -> Made<kv::Overcurrent> {
        Made(self.0.maximum_protection(share.0))
    }

    /// Holds what is installed against the data plate; where there is none, against what the loads' currents give.
    ///
    /// Parameters
    /// ----------
    /// installed : Installed
    /// plate : Plate, optional
    ///
    /// Returns
    /// -------
    /// CircuitCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A current that is not above zero and finite.
    /// Inconsistent
    ///     As for ``maximum_protection``.
    #[pyo3(signature = (installed, plate = None))]
    fn check(&self, installed: Of<kv::Installed>, plate: Option<Of<kv::Plate>>) -> Made<kv::CircuitCheck> {
        Made(self.0.check(&installed.0, plate.map(|plate| plate.0).as_ref()))
    }
}
