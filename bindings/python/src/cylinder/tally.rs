//! What went into the system by the weights of cylinders.

use kingvalve::cylinder as kv;
use kingvalve::measure::Reading as LibraryReading;
use kingvalve::quantity::Mass;
use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::error::{raise, wrong_kind};
use crate::measure::{Measured, Reading};

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Tally>()
}

/// What went into the system: the fall of each cylinder's weight on the scale, summed over cylinders.
#[pyclass(frozen, module = "kingvalve")]
pub struct Tally(kv::Tally);

fn named(steps: &[(String, kingvalve::measure::Measured<Mass>)]) -> Vec<(String, Measured)> {
    steps.iter().map(|(name, mass)| (name.clone(), mass.clone().into())).collect()
}

#[pymethods]
impl Tally {
    /// Of each cylinder's readings on the scale, in the order they were taken.
    ///
    /// Parameters
    /// ----------
    /// cylinders : dict of str to list of Reading
    ///     The weights of each, by its name.
    ///
    /// Returns
    /// -------
    /// Tally
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A weight that rises; fewer than two weights of a cylinder.
    /// OutOfRange
    ///     A negative weight on a scale that was not zeroed.
    /// WrongKind
    ///     Something else than readings of mass.
    ///
    /// Notes
    /// -----
    /// Source: each step is the weight before less the weight after; the total is first less last of each cylinder.
    /// Accuracy: that of the scale; what the hoses took is in the total.
    ///
    /// Examples
    /// --------
    /// >>> scale = kv.Instrument.resolution(kv.ounces(0.5))
    /// >>> weights = [kv.Reading(kv.pounds(weight), scale) for weight in (14.25, 13.0, 11.75)]
    /// >>> print(f"{kv.Tally.of({'A': weights}).total.value:.2f}")
    /// 2.50 lb
    #[staticmethod]
    #[pyo3(signature = (cylinders, /))]
    fn of(cylinders: &Bound<'_, PyDict>) -> PyResult<Self> {
        let mut uses = Vec::new();
        for (name, weights) in cylinders {
            let weights = weights.try_iter()?.map(|weight| {
                let weight = weight?;
                let reading =
                    weight.cast::<Reading>().ok().and_then(|weight| weight.get().reading_of::<Mass>());
                reading.ok_or_else(|| {
                    let given = crate::error::describe(&weight);
                    wrong_kind(format!(
                        "expected a reading of mass, kv.Reading(kv.pounds(25.1), scale), got {given}"
                    ))
                })
            });
            let weights: Vec<LibraryReading<Mass>> = weights.collect::<PyResult<_>>()?;
            uses.push(kv::CylinderUse { name: name.extract()?, weights });
        }
        kv::Tally::of(&uses).map(Tally).map_err(raise)
    }

    /// Each fall of a weight.
    #[getter]
    fn steps(&self) -> Vec<(String, Measured)> {
        named(self.0.steps())
    }

    /// What each cylinder gave.
    #[getter]
    fn cylinders(&self) -> Vec<(String, Measured)> {
        named(self.0.cylinders())
    }

    /// What left each cylinder between two uses.
    #[getter]
    fn gaps(&self) -> Vec<(String, Measured)> {
        named(self.0.gaps())
    }

    /// All together.
    #[getter]
    fn total(&self) -> Measured {
        self.0.total().clone().into()
    }

    fn __repr__(&self) -> String {
        format!("<Tally: {}>", self.0.total())
    }
}
