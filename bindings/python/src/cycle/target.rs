//! The target itself, and how far a reading may lie from it.

use kingvalve::cycle::target as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::chart::ChargingChart;
use crate::column::{Errors, Many, carry_both};
use crate::measure::{Given, LimitsOf};
use crate::quantity::{IntoPython, TemperatureDifference};
use crate::record::{Class, Made, New, Shown, class, plain};

/// Adds the classes and the function to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_function(wrap_pyfunction!(orifice_superheat, module)?)?;
    let target = [
        wrap_pyfunction!(by_formula, module)?,
        wrap_pyfunction!(by_chart, module)?,
        wrap_pyfunction!(given, module)?,
    ];
    class::<kv::Target>(module, &target)?;
    let tolerance = [
        wrap_pyfunction!(charge_tolerance, module)?,
        wrap_pyfunction!(california_installer, module)?,
        wrap_pyfunction!(california_rater, module)?,
    ];
    class::<kv::ChargeTolerance>(module, &tolerance)
}

/// The superheat a system with a fixed orifice should run at: (3·WB − 80 − DB)/2, in °F.
///
/// Parameters
/// ----------
/// indoor_wet_bulb : Temperature or Column of Temperature
///     Of the air entering the indoor coil, 50 °F to 76 °F; read or plain.
/// outdoor_dry_bulb : Temperature or Column of Temperature
///     Of the air entering the outdoor coil, 55 °F to 115 °F; read or plain.
/// errors : {"raise", "nan"}
///     What to do with a row that has no valid test.
///
/// Returns
/// -------
/// TemperatureDifference, Measured or Column of TemperatureDifference
///
/// Raises
/// ------
/// OutOfRange
///     Outside the range: by temperature, or because the target is below 5 °F, where there is no valid test.
///
/// Notes
/// -----
/// Source: common practice, no source. Accuracy: within 2 °F to 6 °F of published tables at mild conditions; a maker's own
/// chart (``ChargingChart``) comes first.
///
/// Examples
/// --------
/// >>> kv.orifice_superheat(kv.fahrenheit([64, 67, 60]), kv.fahrenheit([96, 95, 105]), errors="nan").delta_fahrenheit
/// array([ 8., 13., nan])
#[pyfunction]
#[pyo3(signature = (indoor_wet_bulb, outdoor_dry_bulb, *, errors = Errors::Raise))]
fn orifice_superheat(
    py: Python<'_>,
    indoor_wet_bulb: Many<'_, q::Temperature>,
    outdoor_dry_bulb: Many<'_, q::Temperature>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let plain = |wet: q::Temperature, dry: q::Temperature| kv::orifice_superheat(wet, dry);
    carry_both(py, indoor_wet_bulb, outdoor_dry_bulb, errors, plain, |wet, dry| {
        kv::orifice_superheat(wet, dry)
    })
}

impl Shown for kv::Target {
    const CLASS: Class<Self> = Class {
        name: "Target",
        doc: r#"What a superheat, a subcooling or an approach should be, with its doubt and where it comes from.

        Examples
        --------
        >>> target = kv.Target.by_formula(kv.fahrenheit(67), kv.fahrenheit(95))
        >>> print(target.value, target.source)
        13 Δ°F (3·WB − 80 − DB)/2, common practice, no source
        "#,
        fields: &[
            ("value", "The target.", |it, py| it.value().into_python(py)),
            ("source", "Where it comes from.", |it, py| plain(it.source(), py)),
        ],
        text: |it| format!("{} ({})", it.value(), it.source()),
        finding: None,
        same: None,
    };
}

/// The superheat of a fixed orifice by the common formula.
///
/// One below the lowest that can be tested is kept as it is: ``TargetCheck`` then gives the reason why there is no verdict.
///
/// Parameters
/// ----------
/// indoor_wet_bulb, outdoor_dry_bulb : Temperature
///     Read or plain.
///
/// Returns
/// -------
/// Target
///
/// Raises
/// ------
/// OutOfRange
///     A temperature outside the formula's range: see ``orifice_superheat``.
#[pyfunction]
fn by_formula(
    indoor_wet_bulb: Given<q::Temperature>,
    outdoor_dry_bulb: Given<q::Temperature>,
) -> Made<kv::Target> {
    Made(kv::Target::by_formula(indoor_wet_bulb.measured(), outdoor_dry_bulb.measured()))
}

/// A target read off a maker's or shop's chart.
///
/// Parameters
/// ----------
/// chart : ChargingChart
/// outdoor, indoor : Temperature
///     Read or plain.
///
/// Returns
/// -------
/// Target
///
/// Raises
/// ------
/// OutOfRange
///     Outside the chart, or beside one of its dashes.
#[pyfunction]
fn by_chart(
    chart: PyRef<'_, ChargingChart>,
    outdoor: Given<q::Temperature>,
    indoor: Given<q::Temperature>,
) -> Made<kv::Target> {
    Made(kv::Target::by_chart(&chart.0, outdoor.measured(), indoor.measured()))
}

/// A target as given: by the data plate, the maker's instructions, the shop.
///
/// Parameters
/// ----------
/// value : TemperatureDifference
///     Plain or with its doubt.
/// source : str
///
/// Returns
/// -------
/// Target
///
/// Raises
/// ------
/// OutOfRange
///     One that is not finite.
#[pyfunction]
fn given(value: Given<q::TemperatureDifference>, source: String) -> Made<kv::Target> {
    Made(kv::Target::given(value.measured(), source))
}

impl Shown for kv::ChargeTolerance {
    const CLASS: Class<Self> = Class {
        name: "ChargeTolerance",
        doc: r#"The limits a charge is judged by; ``ChargeTolerance.california_installer`` for what is not given.

        Parameters
        ----------
        superheat : Limits of TemperatureDifference, optional
            Of actual less target superheat, fixed orifice: ±5 °F.
        subcooling : Limits of TemperatureDifference, optional
            Of actual less target subcooling, thermostatic or electronic valve: ±3 °F.
        valve_superheat : Limits of TemperatureDifference, optional
            Of the superheat a working valve holds: 4 °F to 25 °F.
        lowest_target : TemperatureDifference, optional
            The lowest target superheat that can be tested against: 5 °F.

        Examples
        --------
        >>> own = kv.Limits.between(kv.delta_fahrenheit(-2), kv.delta_fahrenheit(2)).from_source("shop policy")
        >>> shop = kv.ChargeTolerance(subcooling=own)
        >>> print(shop.subcooling.upper, shop.superheat.upper)
        2 Δ°F 5 Δ°F
        "#,
        fields: &[
            ("superheat", "Of actual less target superheat.", |it, py| (&it.superheat).into_python(py)),
            ("subcooling", "Of actual less target subcooling.", |it, py| (&it.subcooling).into_python(py)),
            ("valve_superheat", "Of the superheat a working valve holds.", |it, py| {
                (&it.valve_superheat).into_python(py)
            }),
            ("lowest_target", "The lowest target superheat that can be tested against.", |it, py| {
                it.lowest_target.into_python(py)
            }),
        ],
        text: |it| format!("superheat {}; subcooling {}", it.superheat, it.subcooling),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

type Allowed = Option<LimitsOf<q::TemperatureDifference>>;

#[pyfunction(name = "__new__")]
#[pyo3(signature = (cls, *, superheat = None, subcooling = None, valve_superheat = None, lowest_target = None))]
fn charge_tolerance(
    cls: New,
    superheat: Allowed,
    subcooling: Allowed,
    valve_superheat: Allowed,
    lowest_target: Option<TemperatureDifference>,
) -> Made<kv::ChargeTolerance> {
    let usual = kv::ChargeTolerance::default();
    cls.of(Ok(kv::ChargeTolerance {
        superheat: superheat.map_or(usual.superheat, |limits| limits.0),
        subcooling: subcooling.map_or(usual.subcooling, |limits| limits.0),
        valve_superheat: valve_superheat.map_or(usual.valve_superheat, |limits| limits.0),
        lowest_target: lowest_target.map_or(usual.lowest_target, |lowest| lowest.0),
    }))
}

/// California's limits for the installer: superheat ±5 °F, subcooling ±3 °F, valve superheat 4 °F to 25 °F, no test below a
/// target of 5 °F. Source: California Energy Commission, 2008 Reference Residential Appendix RA3.2.2.6.1 and RA3.2.2.6.2.
#[pyfunction]
fn california_installer() -> Made<kv::ChargeTolerance> {
    Made(Ok(kv::ChargeTolerance::california_installer()))
}

/// The same for the rater who verifies: superheat ±6 °F, subcooling ±4 °F, valve superheat 3 °F to 26 °F; the subcooling
/// limit from memory.
#[pyfunction]
fn california_rater() -> Made<kv::ChargeTolerance> {
    Made(Ok(kv::ChargeTolerance::california_rater()))
}
