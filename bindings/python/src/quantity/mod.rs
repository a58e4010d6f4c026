//! Quantities: one Python class each, made and read by the same unit words as in Rust.

mod bulk;
mod class;
mod electric;
mod energy;
mod pressure;
mod rate;
mod ratio;
mod refusal;
mod site;
mod temperature;
mod text;

use kingvalve::quantity as kv;
use pyo3::prelude::*;

use crate::room;

pub use bulk::{Area, Density, Length, Mass, Volume};
pub use electric::{Capacitance, Current, ElectricPotential, Frequency, Resistance};
pub use energy::{Energy, Power, SpecificEnergy, SpecificEntropy};
pub use pressure::{GaugePressure, Pressure, PressureDifference};
pub use rate::{MassFlow, Time, Velocity, VolumeFlow};
pub use ratio::Ratio;
pub use temperature::{Temperature, TemperatureDifference};

/// A number with its unit: the base of `Pressure`, `Mass` and all the others.
#[pyclass(frozen, subclass, module = "kingvalve")]
pub struct Quantity;

/// A Rust value as a Python object: a number as `float`, a quantity as its class.
pub trait IntoPython {
    /// The Python object.
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>>;
}

impl IntoPython for f64 {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        Ok(self.into_pyobject(py)?.into_any().unbind())
    }
}

/// The Python class of a quantity.
pub trait Class: pyo3::PyTypeInfo {
    /// The quantity it holds.
    type Quantity: kv::Quantity;
}

/// What a quantity is called in messages, if the object is one.
pub fn name_of(object: &Bound<'_, PyAny>) -> Option<&'static str> {
    macro_rules! search {
        ($($Class:ident),+) => {
            $(if object.is_instance_of::<$Class>() {
                return Some(<<$Class as Class>::Quantity as kv::Quantity>::NAME);
            })+
        };
    }
    search!(
        Pressure,
        GaugePressure,
        PressureDifference,
        Temperature,
        TemperatureDifference,
        Mass,
        Length,
        Area,
        Volume,
        Density,
        Time,
        VolumeFlow,
        MassFlow,
        Velocity,
        Energy,
        Power,
        SpecificEnergy,
        SpecificEntropy,
        ElectricPotential,
        Current,
        Resistance,
        Capacitance,
        Frequency,
        Ratio
    );
    None
}

/// Adds the base class, and the classes and unit words of every file.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    room(module, "base", |module| module.add_class::<Quantity>())?;
    room(module, "pressure", pressure::register)?;
    room(module, "temperature", temperature::register)?;
    room(module, "bulk", bulk::register)?;
    room(module, "rate", rate::register)?;
    room(module, "energy", energy::register)?;
    room(module, "electric", electric::register)?;
    room(module, "ratio", ratio::register)?;
    room(module, "site", site::register)
}
