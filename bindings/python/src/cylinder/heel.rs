//! The heel: what stays in a cylinder that is called empty.

use kingvalve::cylinder as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::{Given, level};
use crate::quantity::{IntoPython, Mass, Ratio, Temperature};
use crate::record::{Class, Made, Of, Shown, class, plain};
use crate::refrigerant::Refrigerant;

/// Adds the class and the function to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let functions = [wrap_pyfunction!(heel_of, module)?, wrap_pyfunction!(emptied_as_vapour, module)?];
    class::<kv::Heel>(module, &functions)?;
    module.add_function(wrap_pyfunction!(left_after_vapour, module)?)
}

impl Shown for kv::Heel {
    const CLASS: Class<Self> = Class {
        name: "Heel",
        doc: r#"What stays in a cylinder that is called empty, by its pressure and temperature.

        Examples
        --------
        >>> cylinder = kv.Cylinder.stamped(kv.pounds(6.5), kv.pounds(26.2))
        >>> heel = kv.Heel.of(kv.Refrigerant("R-410A"), cylinder, kv.psia(100), kv.fahrenheit(75))
        >>> print(heel.state, f"{heel.vapour.value:.2f}")
        all_vapour 0.59 lb
        "#,
        fields: &[
            ("state", "\"all_vapour\", \"liquid_possible\" or \"not_this_refrigerant_alone\".", |it, py| {
                let state = match it.state() {
                    kv::HeelState::AllVapour => "all_vapour",
                    kv::HeelState::NotThisRefrigerantAlone => "not_this_refrigerant_alone",
                    _ => "liquid_possible",
                };
                plain(state, py)
            }),
            ("vapour", "The vapour in it: all there is, or the least.", |it, py| it.vapour().into_python(py)),
            ("refrigerant", "What it is now.", |it, py| plain(Refrigerant(it.refrigerant().clone()), py)),
            ("next", "What to do.", |it, py| plain(it.next(), py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::Heel::finding),
        same: None,
    };
}

/// The heel of a cylinder emptied as liquid, or of one component.
///
/// Parameters
/// ----------
/// refrigerant : Refrigerant
/// cylinder : Cylinder
/// pressure : Pressure
///     Absolute, at its valve; read or plain.
/// temperature : Temperature
///     Of the cylinder, settled; read or plain.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// Heel
///
/// Raises
/// ------
/// OutOfRange
///     A pressure or temperature outside the equation's range.
///
/// Notes
/// -----
/// Source: volume × vapour density from the equation of state; JCGM 106:2012. Accuracy: that of the readings and the stamp.
#[pyfunction(name = "of")]
#[pyo3(signature = (refrigerant, cylinder, pressure, temperature, *, level = None))]
fn heel_of(
    refrigerant: PyRef<'_, Refrigerant>,
    cylinder: Of<kv::Cylinder>,
    pressure: Given<q::Pressure>,
    temperature: Given<q::Temperature>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::Heel>> {
    let (pressure, temperature) = (pressure.measured(), temperature.measured());
    Ok(Made(kv::Heel::of(&refrigerant.0, &cylinder.0, pressure, temperature, self::level(level)?)))
}

/// The heel of a cylinder emptied as vapour: a blend is then no longer what it was.
///
/// Parameters
/// ----------
/// refrigerant : Refrigerant
///     As it was filled.
/// cylinder : Cylinder
/// filled : Mass
///     What it was filled with.
/// pressure : Pressure
///     Absolute, at its valve; read or plain.
/// temperature : Temperature
///     Of the cylinder, settled; read or plain.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// Heel
///
/// Raises
/// ------
/// OutOfRange
///     A pressure or temperature outside the equation's range.
/// Inconsistent
///     Masses that are not above zero or rise.
#[pyfunction]
#[pyo3(signature = (refrigerant, cylinder, filled, pressure, temperature, *, level = None))]
fn emptied_as_vapour(
    refrigerant: PyRef<'_, Refrigerant>,
    cylinder: Of<kv::Cylinder>,
    filled: Mass,
    pressure: Given<q::Pressure>,
    temperature: Given<q::Temperature>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::Heel>> {
    let (pressure, temperature, level) = (pressure.measured(), temperature.measured(), self::level(level)?);
    let (r, c) = (&refrigerant.0, &cylinder.0);
    Ok(Made(kv::Heel::emptied_as_vapour(r, c, filled.0, pressure, temperature, level)))
}

/// What is left of a blend in a cylinder emptied slowly as vapour, from ``filled`` down to ``left``.
///
/// Parameters
/// ----------
/// refrigerant : Refrigerant
/// cylinder : Cylinder
/// filled, left : Mass
/// temperature : Temperature
///     At which the vapour was drawn.
///
/// Returns
/// -------
/// Refrigerant
///
/// Raises
/// ------
/// Inconsistent
///     Masses that are not above zero or rise, a cylinder full of liquid.
/// OutOfRange
///     A temperature outside the saturation lines.
///
/// Notes
/// -----
/// Source: Rayleigh withdrawal at constant volume. Range: vapour in equilibrium with the liquid, as when drawn slowly.
/// Accuracy: some 1e-3 in mass fractions where the last liquid boils away on the way.
///
/// Examples
/// --------
/// >>> r = kv.Refrigerant("R-407C")
/// >>> cylinder = kv.Cylinder.stamped(kv.pounds(6.5), kv.pounds(26.2))
/// >>> heel = kv.left_after_vapour(r, cylinder, kv.pounds(20), kv.pounds(2), kv.fahrenheit(75))
/// >>> dict(heel.components)["R-32"] < dict(r.components)["R-32"]  # R-32 leaves first
/// True
#[pyfunction]
fn left_after_vapour(
    refrigerant: PyRef<'_, Refrigerant>,
    cylinder: Of<kv::Cylinder>,
    filled: Mass,
    left: Mass,
    temperature: Temperature,
) -> PyResult<Refrigerant> {
    let found = kv::left_after_vapour(&refrigerant.0, &cylinder.0, filled.0, left.0, temperature.0);
    found.map(Refrigerant).map_err(raise)
}
