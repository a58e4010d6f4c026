//! Two capacitors in one can, and several readings of one.

use kingvalve::electrical as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::capacitor::{CapacitorCheck, RunCapacitor, Tolerance};
use crate::measure::{Given, level};
use crate::quantity::{Capacitance, IntoPython, Ratio};
use crate::record::{Choice, Class, Made, Named, Shown, class, plain};

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<DualCapacitor>()?;
    class::<kv::DualCheck>(module, &[])?;
    class::<kv::CapacitorCombined>(module, &[])?;
    module.add_function(wrap_pyfunction!(effect_of_low_capacitance, module)?)?;
    module.add_function(wrap_pyfunction!(effect_of_high_capacitance, module)?)
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
    ///
    /// Parameters
    /// ----------
    /// tolerance : Tolerance
    ///     About the rated capacitance.
    ///
    /// Returns
    /// -------
    /// DualCapacitor
    #[pyo3(signature = (tolerance, /))]
    fn policy(&self, tolerance: PyRef<'_, Tolerance>) -> Self {
        DualCapacitor(self.0.policy(tolerance.0))
    }

    /// Asks for another level of confidence than 95 %, for both sections.
    ///
    /// Parameters
    /// ----------
    /// level : Ratio
    ///     How sure a verdict must be.
    ///
    /// Returns
    /// -------
    /// DualCapacitor
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A level that is not above 50 % and below 100 %.
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
