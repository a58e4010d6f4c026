//! What a wrong charge or airflow takes from capacity and efficiency.

use kingvalve::fault as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;
use q::Quantity;

use crate::column::{Errors, Kinded, Many, Side, fields, side};
use crate::error::raise;
use crate::measure::Given;
use crate::quantity::IntoPython;
use crate::record::{Choice, Class, Made, Named, Several, Shown, class};

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<ChargePenalty>(module, &[])?;
    class::<AirflowPenalty>(module, &[])?;
    module.add_function(wrap_pyfunction!(charge_penalty, module)?)?;
    module.add_function(wrap_pyfunction!(airflow_penalty, module)?)
}

impl Named for kv::Mode {
    const WHAT: &'static str = "mode";
    const ALL: &'static [(&'static str, Self)] =
        &[("cooling", kv::Mode::Cooling), ("heating", kv::Mode::Heating)];
}

#[derive(Clone)]
struct ChargePenalty(Several);

impl Shown for ChargePenalty {
    const CLASS: Class<Self> = Class {
        name: "ChargePenalty",
        doc: "A system with the wrong charge, each as a share of what it has with the right one; columns for columns.",
        fields: &[
            ("capacity", "Gross capacity.", |it, py| it.0.at(py, 0)),
            ("power", "Power of the outdoor unit.", |it, py| it.0.at(py, 1)),
            ("cop", "Coefficient of performance: capacity by power.", |it, py| it.0.at(py, 2)),
        ],
        text: |it| it.0.text(&["capacity", "power", "COP"]),
        finding: None,
        same: None,
    };
}

#[derive(Clone)]
struct AirflowPenalty(Several);

impl Shown for AirflowPenalty {
    const CLASS: Class<Self> = Class {
        name: "AirflowPenalty",
        doc: "A system with the wrong indoor airflow, each as a share of what it has with the right one.",
        fields: &[
            ("capacity", "Gross capacity.", |it, py| it.0.at(py, 0)),
            ("input_ratio", "Power by capacity.", |it, py| it.0.at(py, 1)),
            ("cop", "Coefficient of performance: the reciprocal of the input ratio.", |it, py| {
                it.0.at(py, 2)
            }),
        ],
        text: |it| it.0.text(&["capacity", "input ratio", "COP"]),
        finding: None,
        same: None,
    };
}

fn kinds() -> [&'static crate::column::Kind; 3] {
    [q::Ratio::kind(); 3]
}

/// What charge that is off takes from capacity and efficiency at these temperatures.
///
/// Parameters
/// ----------
/// mode : {"cooling", "heating"}
/// off : Ratio or Column of Ratio
///     The charge off the right one as a share of it, −30 % to +30 %: −15 % where 15 % is missing; read or plain.
/// indoor, outdoor : Temperature or Column of Temperature
///     Dry bulbs: indoors 15 °C to 32 °C; outdoors 15 °C to 50 °C in cooling, −20 °C to 20 °C in heating.
/// errors : {"raise", "nan"}
///     What to do with a row outside the range.
///
/// Returns
/// -------
/// ChargePenalty
///
/// Raises
/// ------
/// OutOfRange
///     A charge or temperature outside the range.
///
/// Notes
/// -----
/// Source: installation-quality coefficients of NREL's OpenStudio-HPXML (charge defect ratio of ANSI/RESNET/ACCA 310); that
/// they come from NIST TN 1848 is from memory. Accuracy: no uncertainty is published; annual figures differ.
///
/// Examples
/// --------
/// >>> low = kv.charge_penalty("cooling", kv.percent(-25), kv.celsius(26.67), kv.celsius(35))
/// >>> print(f"{low.capacity:.1f} {low.power:.1f} {low.cop:.1f}")
/// 84.6 % 97.1 % 87.1 %
#[pyfunction]
#[pyo3(signature = (mode, off, indoor, outdoor, *, errors = Errors::Raise))]
fn charge_penalty(
    py: Python<'_>,
    mode: Choice<kv::Mode>,
    off: Many<'_, q::Ratio>,
    indoor: Many<'_, q::Temperature>,
    outdoor: Many<'_, q::Temperature>,
    errors: Errors,
) -> PyResult<Made<ChargePenalty>> {
    let (indoor, outdoor) = (side(&indoor)?, side(&outdoor)?);
    if let (Many::One(Given::Doubtful(off)), Side::Same(indoor), Side::Same(outdoor)) =
        (&off, &indoor, &outdoor)
    {
        let [indoor, outdoor] = [*indoor, *outdoor].map(q::Temperature::from_base);
        let found = kv::charge_penalty(mode.0, off.as_ref(), indoor, outdoor).map_err(raise)?;
        let parts = [found.capacity, found.power, found.cop].map(|part| part.into_python(py));
        return Ok(Made(Ok(ChargePenalty(Several::of(parts)?))));
    }
    let each = |row: &[f64]| match row {
        [off, indoor, outdoor] => {
            let [indoor, outdoor] = [*indoor, *outdoor].map(q::Temperature::from_base);
            let found = kv::charge_penalty(mode.0, q::Ratio::from_base(*off), indoor, outdoor);
            Some(found.map(|found| [found.capacity, found.power, found.cop].map(Quantity::base)))
        }
        _ => None,
    };
    let made = fields(py, [side(&off)?, indoor, outdoor], kinds(), errors, each)?;
    Ok(Made(Ok(ChargePenalty(made.into()))))
}

/// What indoor airflow that is off takes from capacity and efficiency.
///
/// Parameters
/// ----------
/// mode : {"cooling", "heating"}
/// airflow : Ratio or Column of Ratio
///     As a share of the rated, 50 % to 120 %.
/// errors : {"raise", "nan"}
///     What to do with a row outside the range.
///
/// Returns
/// -------
/// AirflowPenalty
///
/// Raises
/// ------
/// OutOfRange
///     An airflow outside the range.
///
/// Notes
/// -----
/// Source: D. Cutler and others, NREL/TP-5500-56354 (2013), single-speed curves. Accuracy: fitted to makers' tables; no
/// uncertainty is published. The fan's own power is not in them.
///
/// Examples
/// --------
/// >>> print(f"{kv.airflow_penalty('cooling', kv.percent(75)).capacity:.1f}")
/// 95.5 %
#[pyfunction]
#[pyo3(signature = (mode, airflow, *, errors = Errors::Raise))]
fn airflow_penalty(
    py: Python<'_>,
    mode: Choice<kv::Mode>,
    airflow: Many<'_, q::Ratio>,
    errors: Errors,
) -> PyResult<Made<AirflowPenalty>> {
    let each = |row: &[f64]| {
        row.first().map(|airflow| {
            let found = kv::airflow_penalty(mode.0, q::Ratio::from_base(*airflow));
            found.map(|found| [found.capacity, found.input_ratio, found.cop].map(Quantity::base))
        })
    };
    let made = fields(py, [side(&airflow)?], kinds(), errors, each)?;
    Ok(Made(Ok(AirflowPenalty(made.into()))))
}
