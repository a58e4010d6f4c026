//! Quantities: one Python class each, made and read by the same unit words as in Rust.

mod bulk;
mod class;
mod electric;
mod energy;
mod leak;
mod operate;
mod pressure;
mod rate;
mod ratio;
pub mod refusal;
mod site;
mod temperature;
mod text;

use kingvalve::quantity as kv;
use pyo3::prelude::*;

use crate::column::Kinded;
use crate::room;

pub use bulk::{Area, Density, Length, Mass, SpecificVolume, Volume};
pub use electric::{Capacitance, Current, ElectricPotential, Frequency, Resistance};
pub use energy::{Energy, Power, SpecificEnergy, SpecificEntropy};
pub use leak::{Throughput, Viscosity};
pub use pressure::{GaugePressure, Pressure, PressureDifference};
pub use rate::{MassFlow, Time, Velocity, VolumeFlow};
pub use ratio::{HumidityRatio, Ratio};
pub use site::Site;
pub use temperature::{Temperature, TemperatureDifference};

/// A number with its unit: the base of `Pressure`, `Mass` and all the others.
#[pyclass(frozen, subclass, module = "kingvalve")]
pub struct Quantity;

#[pymethods]
impl Quantity {
    /// numpy leaves arithmetic with a quantity to the quantity.
    #[classattr]
    fn __array_ufunc__(py: Python<'_>) -> Py<PyAny> {
        py.None()
    }
}

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

/// A Rust value from a Python object.
pub trait FromPython: Sized {
    /// The value, or the exception that says what was given instead.
    fn from_python(object: &Bound<'_, PyAny>) -> PyResult<Self>;
    /// The value, if the object holds one.
    fn held(object: &Bound<'_, PyAny>) -> Option<Self>;
}

/// A quantity that Python has a class for, as has its difference.
pub trait Exposed:
    kv::Quantity<Difference: IntoPython + FromPython + Kinded> + IntoPython + FromPython + Kinded
{
}

impl<Q: kv::Quantity<Difference: IntoPython + FromPython + Kinded> + IntoPython + FromPython + Kinded> Exposed
    for Q
{
}

/// What to do with a quantity whose kind only Python knows.
pub trait Visitor {
    /// What comes of it.
    type Output;
    /// Does it.
    fn visit<Q: Exposed>(self, quantity: Q) -> Self::Output;
}

/// Hands the quantity a Python object holds to a visitor; `None` where the object holds none.
pub fn visit<V: Visitor>(object: &Bound<'_, PyAny>, visitor: V) -> Option<V::Output> {
    macro_rules! search {
        ($($Class:ident),+) => {
            $(if let Ok(found) = object.cast::<$Class>() {
                return Some(visitor.visit(found.get().0));
            })+
        };
    }
    if !object.is_instance_of::<Quantity>() {
        return None;
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
        Throughput,
        Viscosity,
        Energy,
        Power,
        SpecificEnergy,
        SpecificEntropy,
        ElectricPotential,
        Current,
        Resistance,
        Capacitance,
        Frequency,
        SpecificVolume,
        HumidityRatio,
        Ratio
    );
    None
}

/// What a quantity is called in messages, if the object is one.
pub fn name_of(object: &Bound<'_, PyAny>) -> Option<&'static str> {
    struct Name;
    impl Visitor for Name {
        type Output = &'static str;
        fn visit<Q: Exposed>(self, _quantity: Q) -> &'static str {
            Q::NAME
        }
    }
    visit(object, Name)
}

/// The exception for an object that should have been a quantity, of whatever kind.
pub fn not_a_quantity(object: &Bound<'_, PyAny>) -> PyErr {
    let given = crate::error::describe(object);
    crate::error::wrong_kind(format!("expected a quantity, such as kv.psig(62), got {given}"))
}

/// Adds the base class, and the classes and unit words of every file.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    room(module, "base", |module| module.add_class::<Quantity>())?;
    room(module, "pressure", pressure::register)?;
    room(module, "temperature", temperature::register)?;
    room(module, "bulk", bulk::register)?;
    room(module, "rate", rate::register)?;
    room(module, "leak", leak::register)?;
    room(module, "energy", energy::register)?;
    room(module, "electric", electric::register)?;
    room(module, "ratio", ratio::register)?;
    room(module, "site", site::register)
}
