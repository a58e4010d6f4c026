//! What charging hoses take: the purge, and what they still hold.

use kingvalve::cylinder as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::Given;
use crate::quantity::{IntoPython, Length, Pressure, Temperature};
use crate::record::{Class, Made, Of, Shown, class};
use crate::refrigerant::Refrigerant;

/// Adds the class and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let functions = [
        wrap_pyfunction!(hose_of, module)?,
        wrap_pyfunction!(holds_liquid, module)?,
        wrap_pyfunction!(holds_vapour, module)?,
    ];
    class::<kv::Hose>(module, &functions)?;
    module.add_function(wrap_pyfunction!(purge_allowance, module)?)?;
    module.add_function(wrap_pyfunction!(into_system, module)?)
}

impl Shown for kv::Hose {
    const CLASS: Class<Self> = Class {
        name: "Hose",
        doc: r#"A charging hose.

        Examples
        --------
        >>> hose = kv.Hose.of(kv.feet(5))
        >>> print(f"{hose.holds_liquid(kv.Refrigerant('R-410A'), kv.fahrenheit(80)):.1f oz}")
        1.0 oz
        "#,
        fields: &[("volume", "Its internal volume.", |it, py| it.volume().into_python(py))],
        text: |it| format!("{:.2}", it.volume()),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// A hose of that length and inside diameter.
///
/// Parameters
/// ----------
/// length : Length
/// bore : Length, optional
///     ``kv.USUAL_BORE``, 3/16 in, unless given; at most 2 in.
///
/// Returns
/// -------
/// Hose
///
/// Raises
/// ------
/// OutOfRange
///     A length or a bore that is not above zero, or too large.
#[pyfunction(name = "of")]
#[pyo3(signature = (length, bore = None))]
fn hose_of(length: Length, bore: Option<Length>) -> Made<kv::Hose> {
    Made(kv::Hose::of(length.0, bore.map_or(kv::USUAL_BORE, |bore| bore.0)))
}

/// What it holds full of liquid: volume × density at the bubble point.
///
/// Parameters
/// ----------
/// refrigerant : Refrigerant
/// temperature : Temperature
///
/// Returns
/// -------
/// Mass
///
/// Raises
/// ------
/// OutOfRange
///     A temperature outside the saturation curve.
#[pyfunction]
#[pyo3(text_signature = "(self, refrigerant, temperature)")]
fn holds_liquid(
    it: Of<kv::Hose>,
    refrigerant: PyRef<'_, Refrigerant>,
    temperature: Temperature,
) -> Made<q::Mass> {
    Made(it.0.holds_liquid(&refrigerant.0, temperature.0))
}

/// What it holds full of vapour: volume × ρ(p, T), p absolute.
///
/// Parameters
/// ----------
/// refrigerant : Refrigerant
/// pressure : Pressure
///     Absolute.
/// temperature : Temperature
///
/// Returns
/// -------
/// Mass
///
/// Raises
/// ------
/// OutOfRange
///     Outside the equation.
/// Inconsistent
///     Between bubble and dew point.
#[pyfunction]
#[pyo3(text_signature = "(self, refrigerant, pressure, temperature)")]
fn holds_vapour(
    it: Of<kv::Hose>,
    refrigerant: PyRef<'_, Refrigerant>,
    pressure: Pressure,
    temperature: Temperature,
) -> Made<q::Mass> {
    Made(it.0.holds_vapour(&refrigerant.0, pressure.0, temperature.0))
}

/// The allowance for purging air out of hoses once with saturated vapour from the cylinder: one fill of each.
///
/// Parameters
/// ----------
/// hoses : list of Hose
/// refrigerant : Refrigerant
/// cylinder : Temperature
///     Of the cylinder.
///
/// Returns
/// -------
/// Measured of Mass
///     Between nothing and twice the fill, taken as equally likely.
///
/// Raises
/// ------
/// OutOfRange
///     A temperature outside the saturation curve.
///
/// Notes
/// -----
/// Source: common practice, no source. Where rules forbid the purge, evacuate the hoses instead.
///
/// Examples
/// --------
/// >>> lost = kv.purge_allowance([kv.Hose.of(kv.feet(5))] * 3, kv.Refrigerant("R-410A"), kv.fahrenheit(80))
/// >>> print(f"{lost.value:.2f oz}")
/// 0.20 oz
#[pyfunction]
fn purge_allowance(
    py: Python<'_>,
    hoses: Vec<Of<kv::Hose>>,
    refrigerant: PyRef<'_, Refrigerant>,
    cylinder: Temperature,
) -> PyResult<Py<PyAny>> {
    let hoses: Vec<_> = hoses.into_iter().map(|hose| hose.0).collect();
    kv::purge_allowance(&hoses, &refrigerant.0, cylinder.0).map_err(raise)?.into_python(py)
}

/// What reached the system of what left the cylinders: less the purge, less what the hoses still hold.
///
/// Parameters
/// ----------
/// out_of_cylinders, purged, still_in_hoses : Mass
///     Read or plain; the first by ``Tally.total``.
///
/// Returns
/// -------
/// Measured of Mass
///
/// Raises
/// ------
/// Inconsistent
///     More lost than left the cylinders, beyond the doubt at 95 %.
///
/// Notes
/// -----
/// Source: balance of mass. Range: hoses empty of refrigerant before.
///
/// Examples
/// --------
/// >>> print(f"{kv.into_system(kv.pounds(4.25), kv.ounces(0.2), kv.ounces(1)).value:.3f}")
/// 4.175 lb
#[pyfunction]
fn into_system(
    py: Python<'_>,
    out_of_cylinders: Given<q::Mass>,
    purged: Given<q::Mass>,
    still_in_hoses: Given<q::Mass>,
) -> PyResult<Py<PyAny>> {
    let (out, purged, held) = (out_of_cylinders.measured(), purged.measured(), still_in_hoses.measured());
    kv::into_system(out, purged, held).map_err(raise)?.into_python(py)
}
