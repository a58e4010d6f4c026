//! The capacitor beside the reading under load: two in one can, several readings, the shelf, the charge it holds.

use kingvalve::electrical as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::capacitor::{CapacitorCheck, RunCapacitor, Tolerance};
use crate::error::raise;
use crate::measure::{Given, level};
use crate::quantity::{Capacitance, ElectricPotential, IntoPython, Ratio, Resistance, Time};
use crate::record::{Choice, Class, Made, Named, New, Of, Shown, class, finding, html, listed, plain};

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<DualCapacitor>()?;
    class::<kv::DualCheck>(module, &[])?;
    class::<kv::CapacitorCombined>(module, &[])?;
    module.add_class::<Replacement>()?;
    class::<kv::StockPart>(module, &[wrap_pyfunction!(stock_part, module)?])?;
    module.add_class::<StoredCharge>()?;
    class::<kv::OperatingClass>(module, &[wrap_pyfunction!(operating_class, module)?])?;
    class::<kv::SafetyClass>(module, &[wrap_pyfunction!(safety_class, module)?])?;
    module.add_function(wrap_pyfunction!(effect_of_low_capacitance, module)?)?;
    module.add_function(wrap_pyfunction!(effect_of_high_capacitance, module)?)?;
    let py = module.py();
    module.add("SAFE_VOLTAGE", kv::SAFE_VOLTAGE.into_python(py)?)?;
    module.add("DISCHARGE_TIME", kv::DISCHARGE_TIME.into_python(py)?)?;
    module.add("STANDARD_CAPACITANCES", listed(kv::STANDARD_CAPACITANCES, py)?)?;
    module.add("STANDARD_VOLTAGES", listed(kv::STANDARD_VOLTAGES, py)?)
}

type Loaded = (Given<q::ElectricPotential>, Given<q::Current>);

/// A dual run capacitor: a compressor section (HERM) and a fan section (FAN) with a common terminal (C).
///
/// Notes
/// -----
/// Source: as for each section, see ``RunCapacitor.under_load``. Sections count as exchanged where each lies firmly
/// outside its own limits and neither outside the other's: common practice, no source.
///
/// Examples
/// --------
/// >>> part = kv.DualCapacitor.rated(kv.microfarads(45), kv.microfarads(5), kv.Tolerance("6 %"))
/// >>> check = part.under_load(
/// ...     (kv.volts(354.4), kv.amperes(5.8)), (kv.volts(371.3), kv.amperes(0.6)), kv.hertz(60)
/// ... )
/// >>> check.herm.verdict.name, check.fan.verdict.name, check.is_swapped
/// ('within', 'outside', False)
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct DualCapacitor(kv::DualCapacitor);

#[pymethods]
impl DualCapacitor {
    /// A part marked with both capacitances and one tolerance.
    ///
    /// Parameters
    /// ----------
    /// herm, fan : Capacitance
    ///     As marked for the compressor's and the fan's section.
    /// tolerance : Tolerance
    ///     As marked.
    ///
    /// Returns
    /// -------
    /// DualCapacitor
    #[staticmethod]
    fn rated(herm: Capacitance, fan: Capacitance, tolerance: PyRef<'_, Tolerance>) -> Self {
        DualCapacitor(kv::DualCapacitor::rated(herm.0, fan.0, tolerance.0))
    }

    /// A part of two sections, each with a tolerance, policy and level of its own.
    ///
    /// Parameters
    /// ----------
    /// herm, fan : RunCapacitor
    ///
    /// Returns
    /// -------
    /// DualCapacitor
    #[staticmethod]
    fn of(herm: PyRef<'_, RunCapacitor>, fan: PyRef<'_, RunCapacitor>) -> Self {
        DualCapacitor(kv::DualCapacitor::of(herm.0, fan.0))
    }

    /// Adds the tolerance at which the shop replaces it, for both sections.
    #[pyo3(signature = (tolerance, /))]
    fn policy(&self, tolerance: PyRef<'_, Tolerance>) -> Self {
        DualCapacitor(self.0.policy(tolerance.0))
    }

    /// Asks for another level of confidence than 95 %, for both sections.
    #[pyo3(signature = (level, /))]
    fn at_level(&self, level: Ratio) -> PyResult<Self> {
        Ok(DualCapacitor(self.0.at_level(self::level(Some(level))?)))
    }

    /// The compressor's section.
    #[getter]
    fn herm(&self) -> RunCapacitor {
        RunCapacitor(*self.0.herm())
    }

    /// The fan's section.
    #[getter]
    fn fan(&self) -> RunCapacitor {
        RunCapacitor(*self.0.fan())
    }

    /// Both sections from voltage and current, motors running.
    ///
    /// Parameters
    /// ----------
    /// herm, fan : tuple of ElectricPotential and Current
    ///     Voltage from the section's own terminal to C, and current in its own lead; read or plain.
    /// frequency : Frequency
    ///     Of the mains: 50 Hz or 60 Hz.
    ///
    /// Returns
    /// -------
    /// DualCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A reading that cannot be, said of ``herm`` or ``fan``.
    ///
    /// Notes
    /// -----
    /// Source, range and accuracy: as ``RunCapacitor.under_load``.
    fn under_load(&self, herm: Loaded, fan: Loaded, frequency: Given<q::Frequency>) -> Made<kv::DualCheck> {
        let loaded = |(v, i): Loaded| (v.measured(), i.measured());
        Made(self.0.under_load(loaded(herm), loaded(fan), frequency.measured()))
    }

    /// Both sections read out of circuit, each from its own terminal to C.
    ///
    /// Parameters
    /// ----------
    /// herm, fan : Capacitance
    ///     Read or plain; disconnected and discharged.
    ///
    /// Returns
    /// -------
    /// DualCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A reading that cannot be, said of ``herm`` or ``fan``.
    ///
    /// Examples
    /// --------
    /// >>> part = kv.DualCapacitor.rated(kv.microfarads(45), kv.microfarads(5), kv.Tolerance("6 %"))
    /// >>> part.on_bench(kv.microfarads(5.1), kv.microfarads(44.2)).is_swapped
    /// True
    fn on_bench(&self, herm: Given<q::Capacitance>, fan: Given<q::Capacitance>) -> Made<kv::DualCheck> {
        Made(self.0.on_bench(herm.measured(), fan.measured()))
    }

    fn __repr__(&self) -> String {
        let (herm, fan) = (self.0.herm(), self.0.fan());
        format!("<DualCapacitor: {} and {} {}>", herm.rating(), fan.rating(), herm.tolerance())
    }
}

impl Shown for kv::DualCheck {
    const CLASS: Class<Self> = Class {
        name: "DualCheck",
        doc: "What a check of a dual run capacitor found, by ``DualCapacitor.under_load`` or ``on_bench``.",
        fields: &[
            ("herm", "The compressor's section.", |it, py| plain(CapacitorCheck(it.herm().clone()), py)),
            ("fan", "The fan's section.", |it, py| plain(CapacitorCheck(it.fan().clone()), py)),
            ("is_swapped", "Whether each section reads as the other should.", |it, py| {
                plain(it.is_swapped(), py)
            }),
        ],
        text: ToString::to_string,
        finding: Some(kv::DualCheck::finding),
        same: None,
    };
}

impl Shown for kv::CapacitorCombined {
    const CLASS: Class<Self> = Class {
        name: "CapacitorCombined",
        doc: "Several checks of one capacitor, combined by ``RunCapacitor.combined``.",
        fields: &[
            ("readings", "The readings: their mean, weights, and which disagree.", |it, py| {
                it.readings().clone().into_python(py)
            }),
            ("check", "The mean, judged; ``None`` where the readings disagree.", |it, py| {
                plain(it.check().cloned().map(CapacitorCheck), py)
            }),
        ],
        text: ToString::to_string,
        finding: Some(kv::CapacitorCombined::finding),
        same: None,
    };
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

/// A charged capacitor at its worst: disconnected at the peak of the voltage it worked at.
///
/// Notes
/// -----
/// Source: energy ½CV² and V(t) = V₀·exp(−t/RC), any textbook of electricity; V₀ = √2 times the RMS voltage of a sine.
/// Accuracy: that of the capacitance and the voltage. Nobody may rely on a bleed resistor: discharge, then measure zero
/// volts before touching; local codes, the data plate and licensed practice come first.
///
/// Examples
/// --------
/// >>> stored = kv.StoredCharge.at(kv.microfarads(45), kv.volts(370))
/// >>> print(f"{stored.peak:.0f}, {stored.energy.joules:.2f} J")
/// 523 V, 6.16 J
/// >>> print(f"{stored.time_to(kv.SAFE_VOLTAGE, kv.kilohms(15)).seconds:.1f} s")
/// 1.6 s
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct StoredCharge(kv::StoredCharge);

#[pymethods]
impl StoredCharge {
    /// What a capacitor can hold that worked at that RMS voltage.
    ///
    /// Parameters
    /// ----------
    /// capacitance : Capacitance
    /// rms : ElectricPotential
    ///     Across the part while it worked; the one marked where it was not measured.
    ///
    /// Returns
    /// -------
    /// StoredCharge
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A capacitance or voltage that is not above zero and finite.
    #[staticmethod]
    fn at(capacitance: Capacitance, rms: ElectricPotential) -> PyResult<Self> {
        kv::StoredCharge::at(capacitance.0, rms.0).map(StoredCharge).map_err(raise)
    }

    /// The capacitance.
    #[getter]
    fn capacitance(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.capacitance().into_python(py)
    }

    /// The highest voltage it may be left with: the peak.
    #[getter]
    fn peak(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.peak().into_python(py)
    }

    /// The energy at that voltage.
    #[getter]
    fn energy(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.energy().into_python(py)
    }

    /// How long a bleed resistor takes from the peak down to a voltage, ``kv.SAFE_VOLTAGE`` for instance.
    ///
    /// Parameters
    /// ----------
    /// safe : ElectricPotential
    /// bleed : Resistance
    ///
    /// Returns
    /// -------
    /// Time
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A resistance or voltage that is not above zero and finite.
    ///
    /// Notes
    /// -----
    /// Source: t = R·C·ln(V₀/V). Range: the resistor whole and connected.
    fn time_to(&self, safe: ElectricPotential, bleed: Resistance) -> Made<q::Time> {
        Made(self.0.time_to(safe.0, bleed.0))
    }

    /// The largest bleed resistor that brings it from the peak down to a voltage in a time.
    ///
    /// Parameters
    /// ----------
    /// safe : ElectricPotential
    /// time : Time
    ///     ``kv.DISCHARGE_TIME`` for instance.
    ///
    /// Returns
    /// -------
    /// Resistance
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A time or voltage that is not above zero and finite.
    /// Inconsistent
    ///     A voltage the peak does not exceed, which needs no resistor.
    ///
    /// Notes
    /// -----
    /// Source: R = t/(C·ln(V₀/V)).
    fn bleed_for(&self, safe: ElectricPotential, time: Time) -> Made<q::Resistance> {
        Made(self.0.bleed_for(safe.0, time.0))
    }

    /// What a bleed resistor left in place turns into heat while the part works.
    ///
    /// Parameters
    /// ----------
    /// bleed : Resistance
    ///
    /// Returns
    /// -------
    /// Power
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A resistance that is not above zero and finite.
    ///
    /// Notes
    /// -----
    /// Source: P = V²/R with the RMS voltage.
    fn bleed_power(&self, bleed: Resistance) -> Made<q::Power> {
        Made(self.0.bleed_power(bleed.0))
    }

    /// The same in the shape shared by all checks: energy, and time to ``kv.SAFE_VOLTAGE`` by a bleed resistor.
    fn finding<'py>(&self, py: Python<'py>, bleed: Resistance) -> PyResult<Bound<'py, PyAny>> {
        finding(py, self.0.finding(bleed.0))
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<StoredCharge: {}>", self.0)
    }
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

impl Named for kv::Section {
    const WHAT: &'static str = "section";
    const ALL: &'static [(&'static str, Self)] =
        &[("compressor", kv::Section::Compressor), ("fan", kv::Section::Fan)];
}

/// What too little capacitance does to a motor, in words for a report.
///
/// Parameters
/// ----------
/// section : {"compressor", "fan"}
///
/// Returns
/// -------
/// str
///
/// Notes
/// -----
/// Source: common practice, no source.
///
/// Examples
/// --------
/// >>> "head pressure" in kv.effect_of_low_capacitance("fan")
/// True
#[pyfunction]
#[pyo3(signature = (section, /))]
fn effect_of_low_capacitance(section: Choice<kv::Section>) -> &'static str {
    section.0.effect_of_low_capacitance()
}

/// What too much capacitance does to a motor, in words for a report.
///
/// Parameters
/// ----------
/// section : {"compressor", "fan"}
///
/// Returns
/// -------
/// str
///
/// Notes
/// -----
/// Source: common practice, no source.
#[pyfunction]
#[pyo3(signature = (section, /))]
fn effect_of_high_capacitance(section: Choice<kv::Section>) -> &'static str {
    section.0.effect_of_high_capacitance()
}
