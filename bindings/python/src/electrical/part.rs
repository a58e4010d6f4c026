//! The part that takes a capacitor's place, and the classes printed on one.

use kingvalve::electrical as kv;
use pyo3::prelude::*;

use super::capacitor::{RunCapacitor, Tolerance};
use crate::error::raise;
use crate::quantity::{Capacitance, ElectricPotential, IntoPython};
use crate::record::{Class, Made, New, Of, Shown, class, finding, html, listed, plain};

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Replacement>()?;
    class::<kv::StockPart>(module, &[wrap_pyfunction!(stock_part, module)?])?;
    class::<kv::OperatingClass>(module, &[wrap_pyfunction!(operating_class, module)?])?;
    class::<kv::SafetyClass>(module, &[wrap_pyfunction!(safety_class, module)?])?;
    let py = module.py();
    module.add("STANDARD_CAPACITANCES", listed(kv::STANDARD_CAPACITANCES, py)?)?;
    module.add("STANDARD_VOLTAGES", listed(kv::STANDARD_VOLTAGES, py)?)
}

/// What a replacement must be: the same capacitance, at least the voltage marked, a tolerance no wider.
///
/// Notes
/// -----
/// Source: common practice, no source; the equipment's data plate and instructions come first.
///
/// Examples
/// --------
/// >>> old = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("6 %"))
/// >>> new = kv.Replacement.of(old, kv.volts(370))
/// >>> new.accepts(kv.microfarads(5), kv.volts(440)) is None
/// True
/// >>> print(new.accepts(kv.microfarads(5), kv.volts(330)))
/// A lower voltage than the one marked: it would fail early. A higher one is fine.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Replacement(kv::Replacement);

fn stock(parts: Vec<Of<kv::StockPart>>) -> Vec<kv::StockPart> {
    parts.into_iter().map(|part| part.0).collect()
}

#[pymethods]
impl Replacement {
    /// What may replace a part marked with that voltage.
    ///
    /// Parameters
    /// ----------
    /// part : RunCapacitor
    ///     As marked.
    /// marked : ElectricPotential
    ///     The voltage marked on it.
    ///
    /// Returns
    /// -------
    /// Replacement
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A rating that cannot be; a voltage not above zero and at most 660 V (the scope of IEC 60252-1).
    #[staticmethod]
    fn of(part: PyRef<'_, RunCapacitor>, marked: ElectricPotential) -> PyResult<Self> {
        kv::Replacement::of(&part.0, marked.0).map(Replacement).map_err(raise)
    }

    /// The capacitance it must be marked with.
    #[getter]
    fn capacitance(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.capacitance().into_python(py)
    }

    /// The voltage it must be marked with at least.
    #[getter]
    fn voltage(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.voltage().into_python(py)
    }

    /// The standard voltages that will do, lowest first.
    #[getter]
    fn standard_voltages(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.standard_voltages(), py)
    }

    /// Whether the capacitance is one of those commonly sold; where not, the marking deserves a second look.
    #[getter]
    fn is_standard(&self) -> bool {
        self.0.is_standard()
    }

    /// Why a part with these marks may not take the place, in words; ``None`` where it may.
    ///
    /// Parameters
    /// ----------
    /// capacitance : Capacitance
    /// voltage : ElectricPotential
    ///     As marked on the other part.
    ///
    /// Returns
    /// -------
    /// str or None
    fn accepts(&self, capacitance: Capacitance, voltage: ElectricPotential) -> Option<&'static str> {
        self.0.accepts(capacitance.0, voltage.0).err().map(kv::Unfit::text)
    }

    /// The part of the stock to take: one that may take the place, its voltage the lowest of those (the smallest can).
    ///
    /// Parameters
    /// ----------
    /// stock : list of StockPart
    ///
    /// Returns
    /// -------
    /// StockPart or None
    #[pyo3(name = "from_stock", signature = (stock, /))]
    fn take_from(&self, stock: Vec<Of<kv::StockPart>>) -> Made<Option<kv::StockPart>> {
        Made(Ok(self.0.from_stock(&self::stock(stock)).copied()))
    }

    /// The same in the shape shared by all checks: what the part must be, and which of a stock to take.
    ///
    /// Parameters
    /// ----------
    /// stock : list of StockPart, optional
    ///     What the shop has.
    ///
    /// Returns
    /// -------
    /// Finding
    #[pyo3(signature = (stock = Vec::new()))]
    fn finding<'py>(&self, py: Python<'py>, stock: Vec<Of<kv::StockPart>>) -> PyResult<Bound<'py, PyAny>> {
        finding(py, self.0.finding(&self::stock(stock)))
    }

    fn _repr_html_<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        html(py, self.0.finding(&[]))
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Replacement: {}>", self.0)
    }
}

impl Shown for kv::StockPart {
    const CLASS: Class<Self> = Class {
        name: "StockPart",
        doc: r#"A part on the shelf, as marked.

        Parameters
        ----------
        capacitance : Capacitance
        voltage : ElectricPotential
        tolerance : Tolerance

        Examples
        --------
        >>> shelf = [kv.StockPart(kv.microfarads(5), kv.volts(440), kv.Tolerance("6 %"))]
        >>> old = kv.RunCapacitor.rated(kv.microfarads(5), kv.Tolerance("6 %"))
        >>> kv.Replacement.of(old, kv.volts(370)).from_stock(shelf) == shelf[0]
        True
        "#,
        fields: &[
            ("capacitance", "The capacitance marked.", |it, py| it.capacitance.into_python(py)),
            ("voltage", "The voltage marked.", |it, py| it.voltage.into_python(py)),
            ("tolerance", "The tolerance marked.", |it, py| plain(Tolerance(it.tolerance), py)),
        ],
        text: |it| format!("{} {} {}", it.capacitance, it.tolerance, it.voltage),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
fn stock_part(
    cls: New,
    capacitance: Capacitance,
    voltage: ElectricPotential,
    tolerance: PyRef<'_, Tolerance>,
) -> Made<kv::StockPart> {
    let (capacitance, voltage, tolerance) = (capacitance.0, voltage.0, tolerance.0);
    cls.of(Ok(kv::StockPart { capacitance, voltage, tolerance }))
}

impl Shown for kv::OperatingClass {
    const CLASS: Class<Self> = Class {
        name: "OperatingClass",
        doc: r#"The class of operation marked on a motor run capacitor: how long it is made to last at rated duty.

        Parameters
        ----------
        name : str
            "A" to "D".

        Notes
        -----
        Source: IEC 60252-1, classes of operation; from memory. At most 3 % may fail within its life.

        Examples
        --------
        >>> kv.OperatingClass("B").life.hours
        10000.0
        "#,
        fields: &[
            ("name", "The letter marked.", |it, py| plain(it.to_string(), py)),
            ("life", "The operation it is made for.", |it, py| it.life().into_python(py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::SafetyClass {
    const CLASS: Class<Self> = Class {
        name: "SafetyClass",
        doc: r#"The class of safety protection marked on a motor run capacitor: how it is allowed to fail.

        Parameters
        ----------
        name : str
            "S0" to "S3", or the earlier "P0" to "P2".

        Notes
        -----
        Source: IEC 60252-1:2010, classes of safety protection; from memory.

        Examples
        --------
        >>> print(kv.SafetyClass("P2").name, kv.SafetyClass("P2").text)
        S2 fails open only, protected against fire and shock
        "#,
        fields: &[
            ("name", "As marked.", |it, py| plain(it.to_string(), py)),
            ("text", "What it means.", |it, py| plain(it.text(), py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
fn operating_class(cls: New, name: &str) -> Made<kv::OperatingClass> {
    cls.of(name.parse())
}

#[pyfunction(name = "__new__")]
fn safety_class(cls: New, name: &str) -> Made<kv::SafetyClass> {
    cls.of(name.parse())
}
