//! Errors of the equation of state, said in the trade's units.

use crate::Error;
use crate::quantity::{Pressure, Temperature, kelvins, pascals};

/// A composition the model does not take.
pub(super) fn of_composition(error: kingvalve_fluid::Error) -> Error {
    Error::inconsistent("refrigerant", error.to_string(), "check the components and their shares")
}

/// A state outside the equation's range.
pub(super) fn of_state(designation: &str, error: &kingvalve_fluid::Error) -> Error {
    match error.range() {
        Some(("temperature", value, low, high)) => Error::out_of_range(
            format!("{designation} temperature"),
            format!("{:.2}", kelvins(value)),
            format!("saturation is known from {:.1} to {:.1}", kelvins(low), kelvins(high)),
            "check the reading, its unit and the refrigerant; above the critical temperature there is no saturation",
        ),
        Some(("pressure", value, low, high)) => Error::out_of_range(
            format!("{designation} pressure"),
            format!("{:.2}", pascals(value)),
            format!("the equation holds from {:.2} to {:.2}", pascals(low), pascals(high)),
            "check the reading, its unit (absolute, not gauge) and the refrigerant; at the upper limit the critical \
             point is near",
        ),
        _ => Error::inconsistent(
            designation,
            error.to_string(),
            "check the readings against each other and the refrigerant",
        ),
    }
}

/// A state at a pressure and a temperature: as [`of_state`], and between bubble and dew.
pub(super) fn at(designation: &str, error: &kingvalve_fluid::Error, p: Pressure, t: Temperature) -> Error {
    if error.is_two_phase() {
        return Error::inconsistent(
            format!("{designation} at {p:.2} and {t:.2}"),
            "it lies between its bubble and its dew point, where liquid and vapour coexist",
            "ask for the split of both, or check the readings against each other",
        );
    }
    of_state(designation, error)
}
