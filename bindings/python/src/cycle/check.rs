//! A reading against its target.

use kingvalve::cycle::target as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::measure::{Given, LimitsOf, level};
use crate::quantity::{IntoPython, Ratio};
use crate::record::{Class, Made, Of, Shown, class, listed, plain};

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let functions = [
        wrap_pyfunction!(superheat, module)?,
        wrap_pyfunction!(subcooling, module)?,
        wrap_pyfunction!(approach, module)?,
        wrap_pyfunction!(with_valve_superheat, module)?,
        wrap_pyfunction!(under, module)?,
    ];
    class::<kv::TargetCheck>(module, &functions)
}

impl Shown for kv::TargetCheck {
    const CLASS: Class<Self> = Class {
        name: "TargetCheck",
        doc: r#"A superheat, subcooling or approach against its target. While a precondition does not hold there is no verdict.

        Examples
        --------
        >>> actual = kv.Measured.from_standard(kv.delta_fahrenheit(24), kv.delta_fahrenheit(1), "superheat")
        >>> target = kv.Target.by_formula(kv.fahrenheit(67), kv.fahrenheit(95))
        >>> check = kv.TargetCheck.superheat(actual, target)
        >>> check.verdict.name, "add refrigerant" in check.next[0]
        ('outside', True)
        >>> now = kv.Conditions(running=kv.minutes(6), outdoor=kv.fahrenheit(95), indoor=kv.fahrenheit(76))
        >>> late = check.under(kv.Requirements(airflow=False), now)
        >>> late.verdict is None, [each.condition for each in late.unmet]
        (True, ['settled'])
        "#,
        fields: &[
            ("actual", "What was read.", |it, py| it.actual().into_python(py)),
            ("target", "What it should be.", |it, py| it.target().clone().into_python(py)),
            ("distance", "What was read less the target.", |it, py| it.distance().into_python(py)),
            ("verdict", "Against the tolerance; ``None`` while a precondition does not hold.", |it, py| {
                it.verdict().into_python(py)
            }),
            ("valve_verdict", "The valve's superheat against its range, where it was given.", |it, py| {
                it.valve_verdict().into_python(py)
            }),
            (
                "notes",
                "What else the reading says: floodback, no liquid, a valve off its range.",
                |it, py| plain(it.notes().iter().map(|note| note.text()).collect::<Vec<_>>(), py),
            ),
            ("unmet", "The preconditions that do not hold.", |it, py| listed(it.unmet().iter().cloned(), py)),
            ("next", "What to do.", |it, py| plain(it.next(), py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::TargetCheck::finding),
        same: None,
    };
}

type Difference = Given<q::TemperatureDifference>;
type Tolerance = Option<Of<kv::ChargeTolerance>>;

fn usual(tolerance: Tolerance) -> kv::ChargeTolerance {
    tolerance.map_or_else(kv::ChargeTolerance::default, |tolerance| tolerance.0)
}

/// A superheat against its target, for a fixed orifice.
///
/// Parameters
/// ----------
/// actual : TemperatureDifference
///     Read or plain.
/// target : Target
/// tolerance : ChargeTolerance, optional
///     California's for the installer unless given.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// TargetCheck
///
/// Raises
/// ------
/// OutOfRange
///     A reading that is not finite.
///
/// Notes
/// -----
/// Source of the limits: see ``ChargeTolerance``; verdict by JCGM 106:2012.
#[pyfunction]
#[pyo3(signature = (actual, target, tolerance = None, *, level = None))]
fn superheat(
    actual: Difference,
    target: Of<kv::Target>,
    tolerance: Tolerance,
    level: Option<Ratio>,
) -> PyResult<Made<kv::TargetCheck>> {
    let (tolerance, level) = (usual(tolerance), self::level(level)?);
    Ok(Made(kv::TargetCheck::superheat(actual.measured(), &target.0, &tolerance, level)))
}

/// A subcooling against its target, for a thermostatic or electronic valve.
///
/// Parameters
/// ----------
/// actual : TemperatureDifference
///     Read or plain.
/// target : Target
/// tolerance : ChargeTolerance, optional
///     California's for the installer unless given.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// TargetCheck
///
/// Raises
/// ------
/// OutOfRange
///     A reading that is not finite.
#[pyfunction]
#[pyo3(signature = (actual, target, tolerance = None, *, level = None))]
fn subcooling(
    actual: Difference,
    target: Of<kv::Target>,
    tolerance: Tolerance,
    level: Option<Ratio>,
) -> PyResult<Made<kv::TargetCheck>> {
    let (tolerance, level) = (usual(tolerance), self::level(level)?);
    Ok(Made(kv::TargetCheck::subcooling(actual.measured(), &target.0, &tolerance, level)))
}

/// How much warmer the liquid line is than the outdoor air, against its target.
///
/// Parameters
/// ----------
/// liquid_line, outdoor_air : Temperature
///     Read or plain.
/// target : Target
/// limits : Limits of TemperatureDifference
///     Of actual less target.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// TargetCheck
///
/// Raises
/// ------
/// OutOfRange
///     A reading that is not finite.
#[pyfunction]
#[pyo3(signature = (liquid_line, outdoor_air, target, limits, *, level = None))]
fn approach(
    liquid_line: Given<q::Temperature>,
    outdoor_air: Given<q::Temperature>,
    target: Of<kv::Target>,
    limits: LimitsOf<q::TemperatureDifference>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::TargetCheck>> {
    let (line, air) = (liquid_line.measured(), outdoor_air.measured());
    Ok(Made(kv::TargetCheck::approach(line, air, &target.0, limits.0, self::level(level)?)))
}

/// The same check, with the superheat that the valve holds.
///
/// Parameters
/// ----------
/// superheat : TemperatureDifference
///     Read or plain.
/// tolerance : ChargeTolerance, optional
///     California's for the installer unless given.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// TargetCheck
#[pyfunction]
#[pyo3(
    signature = (it, superheat, tolerance = None, *, level = None),
    text_signature = "(self, superheat, tolerance=None, *, level=None)"
)]
fn with_valve_superheat(
    it: Of<kv::TargetCheck>,
    superheat: Difference,
    tolerance: Tolerance,
    level: Option<Ratio>,
) -> PyResult<Made<kv::TargetCheck>> {
    let (tolerance, level) = (usual(tolerance), self::level(level)?);
    Ok(Made(it.0.with_valve_superheat(superheat.measured(), &tolerance, level)))
}

/// The same check, with the preconditions that do not hold.
///
/// Parameters
/// ----------
/// requirements : Requirements
/// conditions : Conditions
///
/// Returns
/// -------
/// TargetCheck
#[pyfunction]
#[pyo3(text_signature = "(self, requirements, conditions)")]
fn under(
    it: Of<kv::TargetCheck>,
    requirements: Of<kv::Requirements>,
    conditions: Of<kv::Conditions>,
) -> Made<kv::TargetCheck> {
    Made(it.0.under(&requirements.0, &conditions.0))
}
