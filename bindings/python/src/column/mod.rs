//! Columns: many quantities of one kind, over an array of plain numbers.

mod arithmetic;
mod class;
mod fields;
mod many;
mod rows;
mod values;

use kingvalve::quantity::Unit;
use pyo3::prelude::*;

pub use arithmetic::combine;
pub use class::{Column, based, from_numbers, is_listed, number};
pub use fields::{field, fields};
pub use many::{Each, Many, Side, Slices, carry, carry_both, exactly, side, slices};
pub use rows::{Errors, Rows, Scale, Source, run};
pub use values::Numbers;

/// What Python needs to know of a kind of quantity to hold many of it.
pub struct Kind {
    /// What it is called in messages.
    pub name: &'static str,
    /// Its units, the one it is printed in first.
    pub units: fn() -> &'static [Unit],
    /// One of it, of an SI base value.
    pub one: fn(Python<'_>, f64) -> PyResult<Py<PyAny>>,
    /// The unit of that name, however spelt.
    pub named: fn(&str) -> kingvalve::Result<&'static Unit>,
}

impl Kind {
    /// The unit whose numbers are SI base values.
    pub fn base(&self) -> PyResult<&'static Unit> {
        let found = (self.units)().iter().find(|unit| unit.factor == 1.0 && unit.offset == 0.0);
        found.ok_or_else(|| crate::error::wrong_kind(format!("{} has no SI unit", self.name)))
    }

    /// The unit of that size.
    pub fn unit_of_factor(&self, factor: f64) -> Option<&'static Unit> {
        (self.units)().iter().find(|unit| unit.factor == factor)
    }

    /// The unit that a word means: `psig`; the trade's short word is the symbol itself: `cfm`.
    pub fn word(&self, word: &str) -> Option<&'static Unit> {
        let units = (self.units)().iter();
        units
            .clone()
            .find(|unit| unit.word == word)
            .or_else(|| units.into_iter().find(|unit| unit.symbol == word))
    }
}

/// A quantity that can stand in columns.
pub trait Kinded {
    /// Its kind.
    fn kind() -> &'static Kind;
}

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Column>()
}
