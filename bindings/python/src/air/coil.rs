//! What a coil delivers to the air, and how much air passes it untouched.

use kingvalve::measure::{Doubtful, Finding};
use kingvalve::{air as kv, quantity as q};
use pyo3::prelude::*;
use q::Quantity;

use super::moist::{MoistAir, row};
use crate::column::{Errors, Kinded, Many, fields, side};
use crate::error::raise;
use crate::quantity::IntoPython;
use crate::record::{Choice, Class, Made, Named, Several, Shown, class};

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<Capacity>(module, &[])?;
    class::<Bypass>(module, &[])?;
    module.add_function(wrap_pyfunction!(delivered, module)?)?;
    module.add_function(wrap_pyfunction!(bypass, module)?)
}

impl Named for kv::FlowAt {
    const WHAT: &'static str = "place of the airflow";
    const ALL: &'static [(&'static str, Self)] =
        &[("entering", kv::FlowAt::Entering), ("leaving", kv::FlowAt::Leaving)];
}

#[derive(Clone)]
struct Capacity {
    parts: Several,
    finding: Option<Finding>,
}

impl Shown for Capacity {
    const CLASS: Class<Self> = Class {
        name: "Capacity",
        doc: "Capacity delivered to the air, by ``delivered``: positive where it is cooled and dried. Plain for plain \
              inputs, ``Measured`` where one was read, columns for columns.",
        fields: &[
            ("sensible", "The part that changes the temperature.", |it, py| it.parts.at(py, 0)),
            ("latent", "The part that changes the humidity.", |it, py| it.parts.at(py, 1)),
            ("total", "Both.", |it, py| it.parts.at(py, 2)),
            ("sensible_ratio", "Sensible over total; NaN where nothing is delivered.", |it, py| {
                it.parts.at(py, 3)
            }),
        ],
        text: |it| it.parts.text(&["sensible", "latent", "total"]),
        finding: Some(|it| found(it.finding.as_ref())),
        same: None,
    };
}

#[derive(Clone)]
struct Bypass {
    parts: Several,
    finding: Option<Finding>,
}

impl Shown for Bypass {
    const CLASS: Class<Self> = Class {
        name: "Bypass",
        doc: "A cooling coil's bypass factor and apparatus dew point, by ``bypass``.",
        fields: &[
            ("factor", "The share of the air that leaves as if it had not met the coil.", |it, py| {
                it.parts.at(py, 0)
            }),
            ("apparatus_dew_point", "How cold the coil seems to the air.", |it, py| it.parts.at(py, 1)),
        ],
        text: |it| it.parts.text(&["factor", "apparatus dew point"]),
        finding: Some(|it| found(it.finding.as_ref())),
        same: None,
    };
}

fn found(finding: Option<&Finding>) -> kingvalve::Result<Finding> {
    Ok(finding.cloned().unwrap_or_else(|| Finding::of("columns").saying("Ask one row for its finding.")))
}

/// The capacity delivered, from the airflow and the states of the air before and after the coil.
///
/// Parameters
/// ----------
/// airflow : VolumeFlow or Column of VolumeFlow
///     At the state of the air where it was measured; read or plain.
/// entering, leaving : MoistAir
///     Before and after the coil, of one site.
/// measured_at : {"entering", "leaving"}
/// errors : {"raise", "nan"}
///     What to do with a row that cannot be.
///
/// Returns
/// -------
/// Capacity
///
/// Raises
/// ------
/// OutOfRange
///     An airflow that is not positive.
/// Inconsistent
///     States at different pressures.
///
/// Notes
/// -----
/// Source: the air-enthalpy method (ANSI/ASHRAE Standard 37); ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 26 and
/// 30. Heat the fan adds between the two places counts against it. Range: steady operation, air well mixed. Accuracy: that
/// of the readings, with what two share counted once.
///
/// Examples
/// --------
/// >>> site = kv.Site()
/// >>> back = kv.MoistAir.from_wet_bulb(kv.fahrenheit(75), kv.fahrenheit(63), site)
/// >>> supply = kv.MoistAir.from_wet_bulb(kv.fahrenheit(55), kv.fahrenheit(53.5), site)
/// >>> capacity = kv.delivered(kv.cfm(1150), back, supply)
/// >>> print(f"{capacity.total:.0f Btu/h}, {capacity.sensible:.0f Btu/h} sensible")
/// 31090 Btu/h, 24603 Btu/h sensible
#[pyfunction]
#[pyo3(
    signature = (airflow, entering, leaving, *, measured_at = Choice(kv::FlowAt::Entering), errors = Errors::Raise),
    text_signature = "(airflow, entering, leaving, *, measured_at='entering', errors='raise')"
)]
fn delivered(
    py: Python<'_>,
    airflow: Many<'_, q::VolumeFlow>,
    entering: PyRef<'_, MoistAir>,
    leaving: PyRef<'_, MoistAir>,
    measured_at: Choice<kv::FlowAt>,
    errors: Errors,
) -> PyResult<Made<Capacity>> {
    let at = measured_at.0;
    if airflow.is_read() || entering.is_read() || leaving.is_read() {
        let flow = airflow.measured()?;
        let found =
            kv::delivered(flow, at, &entering.measured(py)?, &leaving.measured(py)?).map_err(raise)?;
        return Ok(Made(Ok(Capacity {
            parts: capacity_parts(py, &found)?,
            finding: Some(found.finding().map_err(raise)?),
        })));
    }
    let (sites, (t1, w1), (t2, w2)) =
        ([entering.site(), leaving.site()], entering.parts(py)?, leaving.parts(py)?);
    let each = |row: &[f64]| one_delivered(row, at, &sites);
    let sides = [side(&airflow)?, side(&t1)?, side(&w1)?, side(&t2)?, side(&w2)?];
    let plain: Option<Vec<f64>> = sides.iter().map(crate::column::Side::same).collect();
    let finding = plain.and_then(|row| plain_finding(&row, at, &sites));
    let kinds = [q::Power::kind(), q::Power::kind(), q::Power::kind(), q::Ratio::kind()];
    Ok(Made(Ok(Capacity { parts: fields(py, sides, kinds, errors, each)?.into(), finding })))
}

fn states(
    row: &[f64],
    sites: &[q::Site; 2],
) -> Option<kingvalve::Result<(q::VolumeFlow, [kv::MoistAir; 2])>> {
    let [flow, t1, w1, t2, w2] = row else { return None };
    let [first, second] = sites;
    let both = self::row(*t1, *w1, first).and_then(|a| Ok([a, self::row(*t2, *w2, second)?]));
    Some(both.map(|both| (q::VolumeFlow::from_base(*flow), both)))
}

fn one_delivered(row: &[f64], at: kv::FlowAt, sites: &[q::Site; 2]) -> Option<kingvalve::Result<[f64; 4]>> {
    let of = |(flow, [a, b]): (q::VolumeFlow, [kv::MoistAir; 2])| {
        let found = kv::delivered(flow, at, &a, &b)?;
        let ratio = found.sensible_ratio().map_or(f64::NAN, Quantity::base);
        Ok([found.sensible().base(), found.latent().base(), found.total().base(), ratio])
    };
    Some(states(row, sites)?.and_then(of))
}

fn plain_finding(row: &[f64], at: kv::FlowAt, sites: &[q::Site; 2]) -> Option<Finding> {
    let (flow, [a, b]) = states(row, sites)?.ok()?;
    kv::delivered(flow, at, &a, &b).ok()?.finding().ok()
}

fn capacity_parts(py: Python<'_>, found: &kv::Capacity<Doubtful>) -> PyResult<Several> {
    let ratio = found.sensible_ratio().ok();
    Several::of([
        found.sensible().into_python(py),
        found.latent().into_python(py),
        found.total().into_python(py),
        ratio.into_python(py),
    ])
}

/// The bypass factor of a wet cooling coil: the share of the air that leaves as if it had not met the coil, the rest leaving
/// saturated at the apparatus dew point.
///
/// Parameters
/// ----------
/// entering, leaving : MoistAir
///     Before and after the coil, of one site.
/// errors : {"raise", "nan"}
///     What to do with a row that cannot be.
///
/// Returns
/// -------
/// Bypass
///
/// Raises
/// ------
/// Inconsistent
///     Leaving air that is not cooler and drier; a line that misses saturation; states at different pressures.
///
/// Notes
/// -----
/// Source: W. H. Carrier's apparatus dew point, on the straight line through both states. Range: a coil that dries the air.
/// Accuracy: that of the readings, magnified: a tenth of a degree of wet bulb moves it by about 0.01.
///
/// Examples
/// --------
/// >>> site = kv.Site()
/// >>> back = kv.MoistAir.from_wet_bulb(kv.fahrenheit(80), kv.fahrenheit(67), site)
/// >>> supply = kv.MoistAir.from_wet_bulb(kv.fahrenheit(58), kv.fahrenheit(56.5), site)
/// >>> coil = kv.bypass(back, supply)
/// >>> print(f"{coil.factor.fraction:.2f} {coil.apparatus_dew_point:.1f}")
/// 0.13 54.7 °F
#[pyfunction]
#[pyo3(signature = (entering, leaving, *, errors = Errors::Raise))]
fn bypass(
    py: Python<'_>,
    entering: PyRef<'_, MoistAir>,
    leaving: PyRef<'_, MoistAir>,
    errors: Errors,
) -> PyResult<Made<Bypass>> {
    if entering.is_read() || leaving.is_read() {
        let found = kv::bypass(&entering.measured(py)?, &leaving.measured(py)?).map_err(raise)?;
        let parts = [found.factor().into_python(py), found.apparatus_dew_point().into_python(py)];
        return Ok(Made(Ok(Bypass {
            parts: Several::of(parts)?,
            finding: Some(found.finding().map_err(raise)?),
        })));
    }
    let (sites, (t1, w1), (t2, w2)) =
        ([entering.site(), leaving.site()], entering.parts(py)?, leaving.parts(py)?);
    let state = |row: &[f64]| {
        let [t1, w1, t2, w2] = row else { return None };
        let [first, second] = &sites;
        Some(self::row(*t1, *w1, first).and_then(|a| kv::bypass(&a, &self::row(*t2, *w2, second)?)))
    };
    let each = |row: &[f64]| {
        state(row).map(|found| found.map(|coil| [coil.factor().base(), coil.apparatus_dew_point().base()]))
    };
    let sides = [side(&t1)?, side(&w1)?, side(&t2)?, side(&w2)?];
    let plain: Option<Vec<f64>> = sides.iter().map(crate::column::Side::same).collect();
    let finding = plain.and_then(|row| state(&row)?.ok()?.finding().ok());
    let parts = fields(py, sides, [q::Ratio::kind(), q::Temperature::kind()], errors, each)?.into();
    Ok(Made(Ok(Bypass { parts, finding })))
}
