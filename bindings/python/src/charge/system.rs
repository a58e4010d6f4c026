//! The system whose charge is asked for, and what is taken for granted of it.

use kingvalve::charge::inventory as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::error::raise;
use crate::quantity::{IntoPython, Mass, Pressure, Ratio, Temperature, TemperatureDifference};
use crate::record::{Between, Class, Made, New, Of, Shown, class, listed, pair, plain};
use crate::refrigerant::Refrigerant;

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Assumptions>(module, &[wrap_pyfunction!(assumptions, module)?])?;
    class::<kv::Part>(module, &[wrap_pyfunction!(room, module)?, wrap_pyfunction!(tube, module)?])?;
    module.add_class::<System>()?;
    let py = module.py();
    module.add("COMMON_FILL", pair(kv::COMMON_FILL, py)?)?;
    module.add("COMMON_CHARGE", pair(kv::COMMON_CHARGE, py)?)?;
    module.add("COMMON_RESIDUE", kv::COMMON_RESIDUE.into_python(py)?)?;
    module.add("COMMON_OIL", pair(kv::COMMON_OIL, py)?)?;
    module.add("COMMON_STEEPENING", pair(kingvalve::charge::COMMON_STEEPENING, py)?)
}

impl Shown for kv::Assumptions {
    const CLASS: Class<Self> = Class {
        name: "Assumptions",
        doc: "What is taken for granted before anything is read: named defaults, every one replaceable.

        Parameters
        ----------
        fill : tuple of Ratio, optional
            Liquid volume of the plate charge at 25 °C per internal volume, nine systems in ten: ``kv.COMMON_FILL``.
        charge : tuple of Ratio, optional
            The charge found, as a share of the plate charge, any as likely: ``kv.COMMON_CHARGE``.
        beyond : Ratio, optional
            The chance that it lies beyond that range: 2 %.
        oil : tuple of Ratio, optional
            Oil per plate charge, where the oil is not given: ``kv.COMMON_OIL``.
        steepening : tuple of Ratio, optional
            How steeply the oil's uptake rises towards saturation: ``kv.COMMON_STEEPENING``.
        gas : Ratio, optional
            The chance that air or nitrogen is in a system: 1 %.
        gas_pressure : Pressure, optional
            Partial pressures of such a gas, up to this, are as likely: 2 MPa.
        mistaken : Ratio, optional
            The chance that a reading or a weighing is not what it is taken for: 0.5 %, common practice, no source.
        settled : TemperatureDifference, optional
            How far the coldest point may differ from the temperature read there, one standard uncertainty: 1 °F.
        running : VirtualCharge, optional
            The relation between superheat, subcooling and charge.

        Notes
        -----
        Source: common practice, no source, except the steepening (Raoult's law, from memory) and the relation.

        Examples
        --------
        >>> ours = kv.Assumptions(fill=(kv.percent(24), kv.percent(34)))
        >>> kv.System.of_plate(kv.Refrigerant('R-410A'), kv.pounds(6)).assuming(ours).assumptions == ours
        True
        ",
        fields: &[
            ("fill", "Liquid volume of the plate charge per internal volume.", |it, py| it.fill.into_python(py)),
            ("charge", "The charge found, as a share of the plate charge.", |it, py| it.charge.into_python(py)),
            ("beyond", "The chance that it lies beyond that range.", |it, py| it.beyond.into_python(py)),
            ("oil", "Oil per plate charge.", |it, py| it.oil.into_python(py)),
            ("steepening", "How steeply the oil's uptake rises towards saturation.", |it, py| {
                it.steepening.into_python(py)
            }),
            ("gas", "The chance that air or nitrogen is in a system.", |it, py| it.gas.into_python(py)),
            ("gas_pressure", "The highest partial pressure of such a gas.", |it, py| {
                it.gas_pressure.into_python(py)
            }),
            ("mistaken", "The chance that a reading is not what it is taken for.", |it, py| {
                it.mistaken.into_python(py)
            }),
            ("settled", "How far the coldest point may differ from what was read.", |it, py| {
                it.settled.into_python(py)
            }),
            ("running", "The relation between superheat, subcooling and charge.", |it, py| {
                it.running.into_python(py)
            }),
        ],
        text: |it| format!("fill {}, charge {}", it.fill, it.charge),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

type Shares = Option<Between<q::Ratio>>;

#[pyfunction(name = "__new__")]
#[pyo3(signature = (
    cls, *, fill = None, charge = None, beyond = None, oil = None, steepening = None, gas = None, gas_pressure = None,
    mistaken = None, settled = None, running = None
))]
#[allow(clippy::too_many_arguments, reason = "keywords in Python")]
fn assumptions(
    cls: New,
    fill: Shares,
    charge: Shares,
    beyond: Option<Ratio>,
    oil: Shares,
    steepening: Shares,
    gas: Option<Ratio>,
    gas_pressure: Option<Pressure>,
    mistaken: Option<Ratio>,
    settled: Option<TemperatureDifference>,
    running: Option<Of<kingvalve::charge::VirtualCharge>>,
) -> Made<kv::Assumptions> {
    let usual = kv::Assumptions::default();
    let made = kv::Assumptions {
        fill: fill.map_or(usual.fill, |given| given.0),
        charge: charge.map_or(usual.charge, |given| given.0),
        beyond: beyond.map_or(usual.beyond, |given| given.0),
        oil: oil.map_or(usual.oil, |given| given.0),
        steepening: steepening.map_or(usual.steepening, |given| given.0),
        gas: gas.map_or(usual.gas, |given| given.0),
        gas_pressure: gas_pressure.map_or(usual.gas_pressure, |given| given.0),
        mistaken: mistaken.map_or(usual.mistaken, |given| given.0),
        settled: settled.map_or(usual.settled, |given| given.0),
        running: running.map_or(usual.running, |given| given.0),
    };
    cls.of(made.checked())
}

impl Shown for kv::Part {
    const CLASS: Class<Self> = Class {
        name: "Part",
        doc: r#"One part of a system: what it is called and how much room there is inside, nine times in ten.

        Examples
        --------
        >>> bore, run = (kv.inches(0.78), kv.inches(0.79)), (kv.feet(38), kv.feet(42))
        >>> low, high = kv.Part.tube("suction line", bore, run).volume
        >>> print(f"{low:.1f L} to {high:.1f L}")
        3.6 L to 4.0 L
        "#,
        fields: &[
            ("name", "What it is called.", |it, py| plain(it.name.clone(), py)),
            ("volume", "The room inside, between which volumes.", |it, py| it.volume.into_python(py)),
        ],
        text: |it| format!("{}, {}", it.name, it.volume),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// A part of known room: a compressor shell, a receiver, a coil whose maker gives it.
///
/// Parameters
/// ----------
/// name : str
/// volume : Volume or tuple of two
///     Above zero: between which volumes it lies nine times in ten.
///
/// Returns
/// -------
/// Part
///
/// Raises
/// ------
/// OutOfRange
///     A volume that is not above zero.
#[pyfunction]
fn room(name: String, volume: Between<q::Volume>) -> Made<kv::Part> {
    Made(kv::Part::room(name, volume.0))
}

/// A tube, or a coil of many: π/4·d²·length of each, times their number.
///
/// Parameters
/// ----------
/// name : str
/// inside_diameter, length : Length or tuple of two
///     Of one tube, a coil's return bends included.
/// tubes : int
///
/// Returns
/// -------
/// Part
///
/// Raises
/// ------
/// OutOfRange
///     A diameter or length that is not above zero, no tube.
///
/// Notes
/// -----
/// Source: geometry. Accuracy: the ends of the ranges combine, so that the volume's range holds every combination.
#[pyfunction]
#[pyo3(signature = (name, inside_diameter, length, tubes = 1))]
fn tube(
    name: String,
    inside_diameter: Between<q::Length>,
    length: Between<q::Length>,
    tubes: u32,
) -> Made<kv::Part> {
    Made(kv::Part::tube(name, inside_diameter.0, length.0, tubes))
}

/// A system, as far as it is known before anything is read.
///
/// Nothing but the refrigerant and either a data plate or a volume is needed; what is left out is taken from
/// ``Assumptions``.
///
/// Examples
/// --------
/// >>> by_plate = kv.System.of_plate(kv.Refrigerant("R-454B"), kv.pounds(6.5))
/// >>> by_tape_measure = by_plate.with_volume((kv.liters(9), kv.liters(11)))
/// >>> print(f"{by_tape_measure.room[0]:.1f L}")
/// 9.0 L
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct System(pub(super) kv::System);

impl System {
    fn then(&self, change: impl FnOnce(kv::System) -> kingvalve::Result<kv::System>) -> PyResult<Self> {
        change(self.0.clone()).map(System).map_err(raise)
    }
}

#[pymethods]
impl System {
    /// A system whose data plate tells its charge, that of the line set with it.
    ///
    /// Parameters
    /// ----------
    /// refrigerant : Refrigerant
    /// charge : Mass
    ///     See ``PlateCharge.for_line``.
    ///
    /// Returns
    /// -------
    /// System
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A data plate with no charge; a refrigerant with no saturation at 25 °C.
    ///
    /// Notes
    /// -----
    /// Its volume follows from ``kv.COMMON_FILL`` (common practice, no source), within a factor of 1.7 either way nine
    /// times in ten, until something better is given or learned. Range: split and packaged systems; no receivers.
    #[staticmethod]
    fn of_plate(refrigerant: PyRef<'_, Refrigerant>, charge: Mass) -> PyResult<Self> {
        kv::System::of_plate(&refrigerant.0, charge.0).map(System).map_err(raise)
    }

    /// A system with no data plate whose internal volume is known.
    ///
    /// Parameters
    /// ----------
    /// refrigerant : Refrigerant
    /// room : tuple of Volume
    ///     Nine times in ten it lies between them.
    ///
    /// Returns
    /// -------
    /// System
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A volume that is not above zero; a refrigerant with no saturation at 25 °C.
    #[staticmethod]
    fn of_volume(refrigerant: PyRef<'_, Refrigerant>, room: Between<q::Volume>) -> PyResult<Self> {
        kv::System::of_volume(&refrigerant.0, room.0).map(System).map_err(raise)
    }

    /// The same with an internal volume that lies, nine times in ten, between two.
    ///
    /// Parameters
    /// ----------
    /// room : Volume or tuple of Volume
    ///     Nine times in ten it lies between them.
    ///
    /// Returns
    /// -------
    /// System
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A volume that is not above zero.
    /// Inconsistent
    ///     A low end above the high end.
    #[pyo3(signature = (room, /))]
    fn with_volume(&self, room: Between<q::Volume>) -> PyResult<Self> {
        self.then(|system| system.with_volume(room.0))
    }

    /// The same with its parts, whose volumes are independent of one another; each may stand at its own temperature.
    ///
    /// Parameters
    /// ----------
    /// parts : list of Part
    ///
    /// Returns
    /// -------
    /// System
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     No part.
    /// OutOfRange
    ///     A volume that is not above zero.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 100:2008, 5.1.2: variances of independent parts add. A part left out is missing from the whole.
    #[pyo3(signature = (parts, /))]
    fn with_parts(&self, parts: Vec<Of<kv::Part>>) -> PyResult<Self> {
        self.then(|system| system.with_parts(parts.into_iter().map(|part| part.0).collect()))
    }

    /// The same with its compressor oil.
    ///
    /// Parameters
    /// ----------
    /// oil : Oil
    ///
    /// Returns
    /// -------
    /// System
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A negative mass or uptake; a steepening outside its range.
    #[pyo3(signature = (oil, /))]
    fn with_oil(&self, oil: Of<kingvalve::charge::Oil>) -> PyResult<Self> {
        self.then(|system| system.with_oil(oil.0))
    }

    /// The same with other assumptions.
    ///
    /// Parameters
    /// ----------
    /// assumptions : Assumptions
    ///
    /// Returns
    /// -------
    /// System
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Assumptions that make no sense.
    #[pyo3(signature = (assumptions, /))]
    fn assuming(&self, assumptions: Of<kv::Assumptions>) -> PyResult<Self> {
        self.then(|system| system.assuming(assumptions.0))
    }

    /// The same after a leak or a withdrawal as vapour, which enriches what stays in the less volatile components.
    ///
    /// Parameters
    /// ----------
    /// at : Temperature
    ///     At which it leaked.
    ///
    /// Returns
    /// -------
    /// System
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A temperature outside the saturation curve.
    ///
    /// Notes
    /// -----
    /// Source: Rayleigh's withdrawal at constant volume, until 95 % has gone. Range: zeotropes; others come back
    /// unchanged. Accuracy: a bound: leaks of liquid, and leaks that were topped up, shift less.
    #[pyo3(signature = (at, /))]
    fn leaked(&self, at: Temperature) -> PyResult<Self> {
        self.then(|system| system.leaked(at.0))
    }

    /// The refrigerant, as charged.
    #[getter]
    fn refrigerant(&self) -> Refrigerant {
        Refrigerant(self.0.refrigerant().clone())
    }

    /// What withdrawal as vapour can have made of the blend at most; ``None`` where no shift was claimed.
    #[getter]
    fn furthest_composition(&self) -> Option<Refrigerant> {
        self.0.furthest_composition().cloned().map(Refrigerant)
    }

    /// The plate charge, where there is one.
    #[getter]
    fn plate(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.plate().into_python(py)
    }

    /// Where the internal volume lies nine times in ten before anything is learned.
    #[getter]
    fn room(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.room().into_python(py)
    }

    /// Its parts, where they are told apart.
    #[getter]
    fn parts(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.parts().iter().cloned(), py)
    }

    /// Its oil, as given or assumed.
    #[getter]
    fn oil(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        (*self.0.oil()).into_python(py)
    }

    /// What is taken for granted.
    #[getter]
    fn assumptions(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        (*self.0.assumptions()).into_python(py)
    }

    fn __repr__(&self) -> String {
        let size = self.0.plate().map_or(self.0.room().to_string(), |plate| plate.to_string());
        format!("<System: {} of {}>", size, self.0.refrigerant())
    }
}
