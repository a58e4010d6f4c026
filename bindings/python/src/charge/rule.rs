//! Leak rates as the regulations define them.

use kingvalve::charge::forecast as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::dated::Dated;
use crate::column::{Errors, Kinded, Many, field, fields, side};
use crate::quantity::{IntoPython, Mass};
use crate::record::{Choice, Class, Made, Named, Of, Shown, class, plain};
use crate::refrigerant::Gwp;

/// Adds the class and the functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::LeakThreshold>(module, &[wrap_pyfunction!(applies_to, module)?])?;
    module.add_function(wrap_pyfunction!(annualized_leak_rate, module)?)?;
    module.add_function(wrap_pyfunction!(rolling_leak_rate, module)?)?;
    module.add_function(wrap_pyfunction!(leak_threshold, module)?)?;
    let py = module.py();
    module.add("REPAIR_TIME", kv::REPAIR_TIME.into_python(py)?)?;
    module.add("REPAIR_TIME_WITH_SHUTDOWN", kv::REPAIR_TIME_WITH_SHUTDOWN.into_python(py)?)?;
    module.add("CHRONIC_LEAK", kv::CHRONIC_LEAK.into_python(py)?)
}

impl Named for kv::LeakRule {
    const WHAT: &'static str = "rule";
    const ALL: &'static [(&'static str, Self)] =
        &[("part82", kv::LeakRule::Part82), ("part84", kv::LeakRule::Part84)];
}

impl Named for kv::Appliance {
    const WHAT: &'static str = "appliance";
    const ALL: &'static [(&'static str, Self)] = &[
        ("comfort_cooling", kv::Appliance::ComfortCooling),
        ("commercial_refrigeration", kv::Appliance::CommercialRefrigeration),
        ("industrial_process", kv::Appliance::IndustrialProcess),
    ];
}

/// The leak rate by the annualizing method: (added ÷ full charge) ÷ (days ÷ 365), 365 days at most.
///
/// Parameters
/// ----------
/// added : Mass or Column of Mass
///     In one addition.
/// full_charge : Mass or Column of Mass
///     In normal operation.
/// since_last_addition : Time or Column of Time
/// errors : {"raise", "nan"}
///     What to do with a value outside the range.
///
/// Returns
/// -------
/// Ratio or Column of Ratio
///     Share of the full charge a year.
///
/// Raises
/// ------
/// OutOfRange
///     A mass below zero, a full charge or a time that is not above zero.
///
/// Notes
/// -----
/// Source: 40 CFR 82.152 and 84.102, definition of leak rate, from memory. Range: an appliance in normal operation; not a
/// new installation or a seasonal variance. Accuracy: exact arithmetic; ``LeakRate`` carries doubt.
///
/// Examples
/// --------
/// >>> print(f"{kv.annualized_leak_rate(kv.pounds(10), kv.pounds(100), kv.days(180)):.2f}")
/// 20.28 %
#[pyfunction]
#[pyo3(signature = (added, full_charge, since_last_addition, *, errors = Errors::Raise))]
fn annualized_leak_rate(
    py: Python<'_>,
    added: Many<'_, q::Mass>,
    full_charge: Many<'_, q::Mass>,
    since_last_addition: Many<'_, q::Time>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    use q::Quantity;
    let sides = [side(&added)?, side(&full_charge)?, side(&since_last_addition)?];
    let each = |row: &[f64]| match row {
        [added, full, since] => {
            let (added, full) = (q::Mass::from_base(*added), q::Mass::from_base(*full));
            let found = kv::annualized_leak_rate(added, full, q::Time::from_base(*since));
            Some(found.map(|rate| [rate.base()]))
        }
        _ => None,
    };
    field(&fields(py, sides, [q::Ratio::kind()], errors, each)?, py, 0)
}

/// The leak rate by the rolling-average method: all added in the last 365 days, or since the last successful follow-up
/// verification test where that is shorter, over the full charge.
///
/// Parameters
/// ----------
/// additions : list of tuple of date and Mass
///     The day, a ``datetime.date`` or text as "2026-06-01", and what was added; in the order of dates.
/// today : date
/// full_charge : Mass
/// verified : date, optional
///     Of the follow-up verification test.
///
/// Returns
/// -------
/// Ratio
///     Share of the full charge a year.
///
/// Raises
/// ------
/// OutOfRange
///     A mass below zero, a full charge that is not above zero.
/// Inconsistent
///     Dates out of order or after ``today``.
///
/// Notes
/// -----
/// Source: 40 CFR 82.152 and 84.102, definition of leak rate, from memory. Accuracy: exact arithmetic on what is given.
///
/// Examples
/// --------
/// >>> added = [("2025-01-10", kv.pounds(9)), ("2025-09-01", kv.pounds(4)), ("2026-03-01", kv.pounds(6))]
/// >>> print(f"{kv.rolling_leak_rate(added, '2026-06-01', kv.pounds(50)):.0f}")
/// 20 %
#[pyfunction]
#[pyo3(signature = (additions, today, full_charge, *, verified = None))]
fn rolling_leak_rate(
    additions: Vec<(Dated, Mass)>,
    today: Dated,
    full_charge: Mass,
    verified: Option<Dated>,
) -> Made<q::Ratio> {
    let additions: Vec<_> = additions.into_iter().map(|(day, mass)| (day.0, mass.0)).collect();
    Made(kv::rolling_leak_rate(&additions, today.0, verified.map(|day| day.0), full_charge.0))
}

impl Shown for kv::LeakThreshold {
    const CLASS: Class<Self> = Class {
        name: "LeakThreshold",
        doc: "The rate above which an appliance must be repaired, and to which appliances that applies.",
        fields: &[
            ("rate", "Share of the full charge a year; repair is due when the rate is over it.", |it, py| {
                it.rate.into_python(py)
            }),
            ("full_charge", "The full charge from which the rule applies.", |it, py| {
                it.full_charge.into_python(py)
            }),
            (
                "gwp_above",
                "The warming potential above which it applies; ``None`` where the rule is for ozone-depleting ones.",
                |it, py| plain(it.gwp_above, py),
            ),
            ("source", "Where it is written.", |it, py| plain(it.source, py)),
        ],
        text: |it| format!("{:.0} a year from {:.0} up, {}", it.rate, it.full_charge, it.source),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// Whether a full charge of a refrigerant of that warming potential falls under the rule. Under part 84 residential and
/// light commercial air conditioners and heat pumps are excluded, whatever their charge.
///
/// Parameters
/// ----------
/// full_charge : Mass
/// gwp : Gwp
///     By ``Refrigerant.gwp``.
///
/// Returns
/// -------
/// bool
#[pyfunction]
#[pyo3(text_signature = "(self, full_charge, gwp)")]
fn applies_to(it: Of<kv::LeakThreshold>, full_charge: Mass, gwp: PyRef<'_, Gwp>) -> bool {
    it.0.applies_to(full_charge.0, &gwp.0)
}

/// The threshold of a rule for an appliance.
///
/// Parameters
/// ----------
/// rule : {"part82", "part84"}
///     40 CFR 82.157 for ozone-depleting refrigerants; 40 CFR 84.106 for hydrofluorocarbons and their substitutes.
/// appliance : {"comfort_cooling", "commercial_refrigeration", "industrial_process"}
///
/// Returns
/// -------
/// LeakThreshold
///
/// Notes
/// -----
/// Source: 40 CFR 82.157(a) and (c)(2); 40 CFR 84.106(a) and (c)(2), the latter from memory. Range: federal rule of the
/// United States; states may be stricter.
///
/// Examples
/// --------
/// >>> print(kv.leak_threshold("part84", "commercial_refrigeration").rate)
/// 20 %
#[pyfunction]
fn leak_threshold(rule: Choice<kv::LeakRule>, appliance: Choice<kv::Appliance>) -> Made<kv::LeakThreshold> {
    Made(Ok(kv::leak_threshold(rule.0, appliance.0)))
}
