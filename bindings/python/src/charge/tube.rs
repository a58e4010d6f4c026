//! The bore of refrigeration tube, and the liquid in it.

use kingvalve::charge as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::column::{Errors, Many, carry};
use crate::error::raise;
use crate::quantity::{IntoPython, Length, Temperature};
use crate::record::{Choice, Made, Named};
use crate::refrigerant::Refrigerant;

/// Adds the class and the function to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Tube>()?;
    module.add_function(wrap_pyfunction!(liquid_line_allowance, module)?)?;
    let py = module.py();
    module.add("USUAL_LIQUID", kv::USUAL_LIQUID.into_python(py)?)
}

impl Named for kv::Temper {
    const WHAT: &'static str = "temper";
    const ALL: &'static [(&'static str, Self)] =
        &[("annealed", kv::Temper::Annealed), ("drawn", kv::Temper::Drawn)];
}

/// A tube by its inside.
///
/// Examples
/// --------
/// >>> liquid_line = kv.Tube.acr(kv.inches(0.375))
/// >>> print(f"{liquid_line.bore:.4f in²}")
/// 0.0760 in²
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Tube(kv::Tube);

#[pymethods]
impl Tube {
    /// Copper tube for refrigeration field service, by its outside diameter.
    ///
    /// Parameters
    /// ----------
    /// outside : Length
    ///     As the trade calls the size, 1/8 to 1 3/8 in: 3/8 in is 0.375 in.
    /// temper : {"annealed", "drawn"}
    ///     Soft in coils, or hard in straight lengths.
    ///
    /// Returns
    /// -------
    /// Tube
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A size that is not made.
    /// Inconsistent
    ///     A temper of a size that is not made.
    ///
    /// Notes
    /// -----
    /// Source: ASTM B280, dimensions as listed in an engineering reference. Accuracy: nominal; tolerances change the bore
    /// by up to about 3 %.
    #[staticmethod]
    #[pyo3(signature = (outside, temper = Choice(kv::Temper::Annealed)), text_signature = "(outside, temper='annealed')")]
    fn acr(outside: Length, temper: Choice<kv::Temper>) -> PyResult<Self> {
        kv::Tube::acr(outside.0, temper.0).map(Tube).map_err(raise)
    }

    /// A tube of that inside diameter: above zero and at most 6 in.
    ///
    /// Parameters
    /// ----------
    /// inside : Length
    ///
    /// Returns
    /// -------
    /// Tube
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A diameter out of range.
    #[staticmethod]
    #[pyo3(signature = (inside, /))]
    fn of_inside(inside: Length) -> PyResult<Self> {
        kv::Tube::of_inside(inside.0).map(Tube).map_err(raise)
    }

    /// The inside diameter.
    #[getter]
    fn inside(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.inside().into_python(py)
    }

    /// The area of the bore.
    #[getter]
    fn bore(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.bore().into_python(py)
    }

    /// The volume of a length of it.
    ///
    /// Parameters
    /// ----------
    /// length : Length or Column of Length
    ///     Read or plain.
    ///
    /// Returns
    /// -------
    /// Volume, Measured or Column of Volume
    #[pyo3(signature = (length, /))]
    fn volume(&self, py: Python<'_>, length: Many<'_, q::Length>) -> PyResult<Py<PyAny>> {
        let plain = |length: q::Length| Ok(self.0.volume(length));
        carry(py, length, Errors::Raise, plain, |length| Ok(self.0.volume(length)))
    }

    fn __repr__(&self) -> String {
        format!("<Tube: {:.3} inside>", self.0.inside())
    }
}

/// The allowance for a liquid line of that bore: what fills a foot of it.
///
/// Parameters
/// ----------
/// refrigerant : Refrigerant
/// tube : Tube
/// liquid : Temperature, optional
///     Of the liquid line while the system runs: ``kv.USUAL_LIQUID``, 95 °F, unless given.
///
/// Returns
/// -------
/// LineAllowance
///
/// Raises
/// ------
/// OutOfRange
///     A temperature outside the saturation curve.
///
/// Notes
/// -----
/// Source: bore times density of the liquid at its bubble point, from the equation of state. Accuracy: 10 °F of liquid
/// temperature change it by about 2 %; the vapour in the suction line is not counted. The maker's own figure comes first.
///
/// Examples
/// --------
/// >>> line = kv.liquid_line_allowance(kv.Refrigerant("R-410A"), kv.Tube.acr(kv.inches(0.375)))
/// >>> print(f"{line.mass:.2f oz}")
/// 0.53 oz
#[pyfunction]
#[pyo3(signature = (refrigerant, tube, liquid = None))]
fn liquid_line_allowance(
    refrigerant: PyRef<'_, Refrigerant>,
    tube: PyRef<'_, Tube>,
    liquid: Option<Temperature>,
) -> Made<kv::LineAllowance> {
    let liquid = liquid.map_or(kv::USUAL_LIQUID, |liquid| liquid.0);
    Made(kv::liquid_line_allowance(&refrigerant.0, tube.0, liquid))
}
