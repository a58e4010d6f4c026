//! How fast a system leaks, and when that shows.

use kingvalve::charge::forecast as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;
use pyo3::types::PyTuple;

use super::dated::Dated;
use crate::error::raise;
use crate::measure::{Given, level};
use crate::quantity::{IntoPython, Mass, Ratio, Time};
use crate::record::{Class, Made, Shown, class};
use crate::refrigerant::Gwp;

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<LeakRate>()?;
    module.add_class::<Decline>()?;
    class::<kv::Crossing>(module, &[])?;
    let py = module.py();
    module.add("USUAL_HORIZON", kv::USUAL_HORIZON.into_python(py)?)
}

/// How fast a system leaks, over the time from the first to the last charge.
///
/// Examples
/// --------
/// >>> charges = [("2025-05-20", kv.pounds(2)), ("2025-08-12", kv.pounds(0.8)), ("2026-05-28", kv.pounds(2.6))]
/// >>> leak = kv.LeakRate.from_charges(charges, kv.ounces(4))
/// >>> print(f"{leak.per_year.value:.2f} a year")
/// 3.33 lb a year
#[pyclass(frozen, module = "kingvalve")]
pub struct LeakRate(kv::LeakRate);

#[pymethods]
impl LeakRate {
    /// The rate from dated charges: what was added after the first day, over the days since.
    ///
    /// Parameters
    /// ----------
    /// charges : list of tuple of date and Mass
    ///     The day, a ``datetime.date`` or text as "2026-06-01", and what was added, read or plain; in the order of dates.
    ///     Each brings the system to the same mark; the first is the one from which time counts.
    /// meets_mark_within : Mass
    ///     How closely a charge meets its mark, to either side.
    ///
    /// Returns
    /// -------
    /// LeakRate
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     Fewer than two charges, dates out of order or on one day.
    /// OutOfRange
    ///     A mass below zero.
    ///
    /// Notes
    /// -----
    /// Source: balance of mass; doubt by JCGM 100:2008. Accuracy: the doubt of the weights, of the mark at both ends, and of
    /// half a day at each; a leak that grew meanwhile shows in ``spans``.
    #[staticmethod]
    fn from_charges(charges: Vec<(Dated, Given<q::Mass>)>, meets_mark_within: Mass) -> PyResult<Self> {
        let charges = charges.into_iter();
        let charges = charges.map(|(day, added)| kv::DatedCharge { day: day.0, added: added.measured() });
        let charges: Vec<_> = charges.collect();
        kv::LeakRate::from_charges(&charges, meets_mark_within.0).map(LeakRate).map_err(raise)
    }

    /// The rate.
    #[getter]
    fn rate(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.rate().into_python(py)
    }

    /// All that was lost.
    #[getter]
    fn lost(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.lost().into_python(py)
    }

    /// The rate between each charge and the next: from, to, rate.
    #[getter]
    fn spans<'py>(&self, py: Python<'py>) -> PyResult<Vec<Bound<'py, PyTuple>>> {
        let spans = self.0.spans().iter();
        spans
            .map(|(from, to, rate)| {
                PyTuple::new(py, [from.into_python(py)?, to.into_python(py)?, rate.into_python(py)?])
            })
            .collect()
    }

    /// Whether any span's rate differs from the whole's by more than its doubt: the leak changed, or was mended.
    ///
    /// Parameters
    /// ----------
    /// level : Ratio, optional
    ///     How sure to be: 95 % unless given.
    ///
    /// Returns
    /// -------
    /// bool
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A level that is not between 50 % and 100 %.
    #[pyo3(signature = (level = None))]
    fn changed(&self, level: Option<Ratio>) -> PyResult<bool> {
        Ok(self.0.changed(self::level(level)?))
    }

    /// What is lost in a year of 365 days at this rate.
    #[getter]
    fn per_year(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.per_year().into_python(py)
    }

    /// The carbon dioxide that warms as much as what is lost in a year.
    ///
    /// Parameters
    /// ----------
    /// gwp : Gwp
    ///     By ``Refrigerant.gwp``.
    ///
    /// Returns
    /// -------
    /// Measured of Mass
    ///     The doubt of the rate; the potential's own (±26 % to ±40 % by the reports) is not counted.
    #[pyo3(signature = (gwp, /))]
    fn carbon_dioxide_per_year(&self, py: Python<'_>, gwp: PyRef<'_, Gwp>) -> PyResult<Py<PyAny>> {
        self.0.carbon_dioxide_per_year(&gwp.0).into_python(py)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<LeakRate: {}>", self.0)
    }
}

/// A charge that leaks.
///
/// Notes
/// -----
/// Source: balance of mass. A pressure-driven leak goes with the pressure, and so with what is left, once all is vapour
/// (choked flow, any textbook of gas dynamics). Range: a leak that stays as it is. Accuracy: that of charge and rate; which
/// form holds is not known.
///
/// Examples
/// --------
/// >>> charge = kv.Measured.from_standard(kv.pounds(7), kv.ounces(2), "charge")
/// >>> rate = kv.Measured.from_standard(kv.pounds_per_year(3), kv.pounds_per_year(0.4), "leak")
/// >>> print(kv.Decline.of("2026-06-01", charge, rate).falls_below(kv.pounds(5.6)).likely)
/// 2026-11-18
#[pyclass(frozen, module = "kingvalve")]
pub struct Decline(kv::Decline);

#[pymethods]
impl Decline {
    /// A charge on a day, and the rate it leaks at then.
    ///
    /// Parameters
    /// ----------
    /// day : date
    ///     Or text as "2026-06-01".
    /// charge : Mass
    ///     Read or plain.
    /// rate : MassFlow
    ///     Read or plain; of a pressure-driven leak the rate while there is liquid.
    /// all_vapour : Mass, optional
    ///     What fills the system as saturated vapour, for a pressure-driven leak; a constant rate unless given.
    ///
    /// Returns
    /// -------
    /// Decline
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A charge, a rate or a vapour mass that is not above zero.
    #[staticmethod]
    #[pyo3(signature = (day, charge, rate, *, all_vapour = None))]
    fn of(
        day: Dated,
        charge: Given<q::Mass>,
        rate: Given<q::MassFlow>,
        all_vapour: Option<Mass>,
    ) -> PyResult<Self> {
        let form = match all_vapour {
            Some(all_vapour) => kv::LeakForm::PressureDriven { all_vapour: all_vapour.0 },
            None => kv::LeakForm::Constant,
        };
        kv::Decline::of(day.0, charge.measured(), rate.measured(), form).map(Decline).map_err(raise)
    }

    /// What is left on a day: between which masses.
    ///
    /// Parameters
    /// ----------
    /// day : date
    ///     The first day or a later one.
    /// level : Ratio, optional
    ///     How sure the interval is: 95 % unless given.
    ///
    /// Returns
    /// -------
    /// tuple of Mass
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A day before the first.
    #[pyo3(signature = (day, level = None))]
    fn left_on(&self, py: Python<'_>, day: Dated, level: Option<Ratio>) -> PyResult<Py<PyAny>> {
        self.0.left_on(day.0, self::level(level)?).map_err(raise)?.into_python(py)
    }

    /// When less than a limit is left: the charge at which capacity falls, or superheat leaves its limits.
    ///
    /// Parameters
    /// ----------
    /// limit : Mass
    /// horizon : Time, optional
    ///     How far ahead to look: ``kv.USUAL_HORIZON``, three years, unless given.
    /// level : Ratio, optional
    ///     95 % unless given.
    ///
    /// Returns
    /// -------
    /// Crossing
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A limit that is not above zero.
    ///
    /// Notes
    /// -----
    /// Source of the interval: E. C. Fieller, J. R. Stat. Soc. B 16 (1954) 175.
    #[pyo3(signature = (limit, horizon = None, level = None))]
    fn falls_below(
        &self,
        limit: Mass,
        horizon: Option<Time>,
        level: Option<Ratio>,
    ) -> PyResult<Made<kv::Crossing>> {
        let horizon = horizon.map_or(kv::USUAL_HORIZON, |horizon| horizon.0);
        Ok(Made(self.0.falls_below(limit.0, horizon, self::level(level)?)))
    }
}

impl Shown for kv::Crossing {
    const CLASS: Class<Self> = Class {
        name: "Crossing",
        doc: "When something crosses its limit: a ``datetime.date`` each, ``None`` where not within the horizon.",
        fields: &[
            ("earliest", "Hardly before.", |it, py| it.earliest.into_python(py)),
            ("likely", "As likely before as after.", |it, py| it.likely.into_python(py)),
            ("latest", "Hardly after.", |it, py| it.latest.into_python(py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}
