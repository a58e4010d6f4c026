//! A value that knows how good it is.

use std::any::Any;
use std::fmt::Display;

use kingvalve::measure as kv;
use kingvalve::quantity::Quantity as _;
use pyo3::prelude::*;

use super::level;
use crate::error::{raise, wrong_kind};
use crate::quantity::{Exposed, FromPython, IntoPython, Ratio, Visitor, not_a_quantity, visit};

/// A value with the contributions to its doubt, by source.
#[pyclass(frozen, generic, module = "kingvalve")]
pub struct Measured(Box<dyn Held>);

/// A library value with doubt, of some quantity.
trait Held: Any + Send + Sync + Display {
    fn quantity_name(&self) -> &'static str;
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn degrees_of_freedom(&self) -> f64;
    fn expanded(&self, py: Python<'_>, level: kv::Level) -> PyResult<Py<PyAny>>;
    fn interval(&self, py: Python<'_>, level: kv::Level) -> PyResult<(Py<PyAny>, Py<PyAny>)>;
    fn contributions(&self) -> Vec<kv::Share>;
    fn minus(&self, other: &Bound<'_, PyAny>) -> PyResult<Measured>;
    fn plus(&self, other: &Bound<'_, PyAny>) -> PyResult<Measured>;
}

impl<Q: Exposed> Held for kv::Measured<Q> {
    fn quantity_name(&self) -> &'static str {
        Q::NAME
    }
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        kv::Measured::value(self).into_python(py)
    }
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        kv::Measured::standard_uncertainty(self).into_python(py)
    }
    fn degrees_of_freedom(&self) -> f64 {
        kv::Measured::degrees_of_freedom(self)
    }
    fn expanded(&self, py: Python<'_>, level: kv::Level) -> PyResult<Py<PyAny>> {
        kv::Measured::expanded(self, level).into_python(py)
    }
    fn interval(&self, py: Python<'_>, level: kv::Level) -> PyResult<(Py<PyAny>, Py<PyAny>)> {
        let interval = kv::Measured::interval(self, level).map_err(raise)?;
        Ok((interval.low().into_python(py)?, interval.high().into_python(py)?))
    }
    fn contributions(&self) -> Vec<kv::Share> {
        kv::Measured::contributions(self)
    }
    fn minus(&self, other: &Bound<'_, PyAny>) -> PyResult<Measured> {
        match operand::<Q>(other) {
            Some(other) => Ok((self.clone() - other).into()),
            None => self.plus_scaled(other, -1.0),
        }
    }
    fn plus(&self, other: &Bound<'_, PyAny>) -> PyResult<Measured> {
        self.plus_scaled(other, 1.0)
    }
}

/// Steps up and down, where the difference of two values is what can be added to one.
trait Step {
    fn plus_scaled(&self, other: &Bound<'_, PyAny>, sign: f64) -> PyResult<Measured>;
}

impl<Q: Exposed> Step for kv::Measured<Q> {
    fn plus_scaled(&self, other: &Bound<'_, PyAny>, sign: f64) -> PyResult<Measured> {
        let Some(step) = step::<Q>(other) else {
            let (name, given) = (Q::Difference::NAME, crate::error::describe(other));
            return Err(wrong_kind(format!(
                "only a {name} can be added to a measured {}, not {given}",
                Q::NAME
            )));
        };
        let negated = <Q::Difference as kingvalve::quantity::Quantity>::from_base(sign * step.value().base());
        Ok((self.clone() + step.map(negated, sign)).into())
    }
}

/// A value with doubt out of a Python object that holds a `Q`, plain or with doubt.
fn operand<Q: Exposed>(object: &Bound<'_, PyAny>) -> Option<kv::Measured<Q>> {
    if let Ok(measured) = object.cast::<Measured>() {
        return measured.get().of::<Q>().cloned();
    }
    if let Ok(reading) = object.cast::<super::Reading>() {
        return reading.get().measured::<Q>();
    }
    Q::from_python(object).ok().map(kv::Measured::exact)
}

/// The same for the difference of two `Q`.
fn step<Q: Exposed>(object: &Bound<'_, PyAny>) -> Option<kv::Measured<Q::Difference>> {
    if let Ok(measured) = object.cast::<Measured>() {
        let held: &dyn Any = measured.get().0.as_ref();
        return held.downcast_ref::<kv::Measured<Q::Difference>>().cloned();
    }
    Q::Difference::from_python(object).ok().map(kv::Measured::exact)
}

impl<Q: Exposed> From<kv::Measured<Q>> for Measured {
    fn from(measured: kv::Measured<Q>) -> Self {
        Measured(Box::new(measured))
    }
}

impl IntoPython for Measured {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        Ok(Bound::new(py, self)?.into_any().unbind())
    }
}

impl Measured {
    /// What was measured, in words.
    pub fn quantity_name(&self) -> &'static str {
        self.0.quantity_name()
    }

    /// The library's value, if it is of a `Q`.
    pub fn of<Q: Exposed>(&self) -> Option<&kv::Measured<Q>> {
        let held: &dyn Any = self.0.as_ref();
        held.downcast_ref()
    }
}

struct Exact;

impl Visitor for Exact {
    type Output = Measured;
    fn visit<Q: Exposed>(self, value: Q) -> Measured {
        kv::Measured::exact(value).into()
    }
}

/// Makes a value with doubt of one that was given as such.
struct Stated<'a, 'py> {
    doubt: &'a Bound<'py, PyAny>,
    limits: bool,
    label: String,
}

impl Visitor for Stated<'_, '_> {
    type Output = PyResult<Measured>;
    fn visit<Q: Exposed>(self, value: Q) -> PyResult<Measured> {
        let doubt = Q::Difference::from_python(self.doubt)?;
        let made = if self.limits {
            kv::Measured::from_limits(value, doubt, self.label)
        } else {
            kv::Measured::from_standard(value, doubt, self.label)
        };
        made.map(Measured::from).map_err(raise)
    }
}

#[pymethods]
impl Measured {
    /// A value without doubt.
    ///
    /// Parameters
    /// ----------
    /// value : quantity
    ///
    /// Returns
    /// -------
    /// Measured
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A bare number.
    #[staticmethod]
    #[pyo3(signature = (value, /))]
    fn exact(value: &Bound<'_, PyAny>) -> PyResult<Self> {
        visit(value, Exact).ok_or_else(|| not_a_quantity(value))
    }

    /// A value with a standard uncertainty that was given as such.
    ///
    /// Parameters
    /// ----------
    /// value : quantity
    ///     The best value.
    /// standard : quantity
    ///     Its standard uncertainty, a difference of the same kind.
    /// label : str, optional
    ///     What it is called in a budget.
    ///
    /// Returns
    /// -------
    /// Measured
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A doubt below zero or not finite.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 100:2008, 4.3.3.
    #[staticmethod]
    #[pyo3(signature = (value, standard, label = String::new()))]
    fn from_standard(value: &Bound<'_, PyAny>, standard: &Bound<'_, PyAny>, label: String) -> PyResult<Self> {
        let stated = Stated { doubt: standard, limits: false, label };
        visit(value, stated).unwrap_or_else(|| Err(not_a_quantity(value)))
    }

    /// A value known to lie within `half_width` to either side, anywhere there as likely.
    ///
    /// Parameters
    /// ----------
    /// value : quantity
    ///     The best value.
    /// half_width : quantity
    ///     Half the width, a difference of the same kind.
    /// label : str, optional
    ///     What it is called in a budget.
    ///
    /// Returns
    /// -------
    /// Measured
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A width below zero or not finite.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 100:2008, equation 7: half the width over √3.
    #[staticmethod]
    #[pyo3(signature = (value, half_width, label = String::new()))]
    fn from_limits(value: &Bound<'_, PyAny>, half_width: &Bound<'_, PyAny>, label: String) -> PyResult<Self> {
        let stated = Stated { doubt: half_width, limits: true, label };
        visit(value, stated).unwrap_or_else(|| Err(not_a_quantity(value)))
    }

    /// The best value.
    #[getter]
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.value(py)
    }

    /// The combined standard uncertainty.
    #[getter]
    pub fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.standard_uncertainty(py)
    }

    /// The effective degrees of freedom; infinity where no source has a finite number.
    #[getter]
    fn degrees_of_freedom(&self) -> f64 {
        self.0.degrees_of_freedom()
    }

    /// Half the width of the central interval that holds the truth at that level (95 % unless another is given).
    ///
    /// Parameters
    /// ----------
    /// level : Ratio, optional
    ///     95 % unless given.
    ///
    /// Returns
    /// -------
    /// quantity
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A level that is not above 50 % and below 100 %.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 100:2008, equation G.1d. Accuracy: the t factor to 1e-12; the doubt is taken for bell-shaped.
    #[pyo3(signature = (level = None))]
    fn expanded(&self, py: Python<'_>, level: Option<Ratio>) -> PyResult<Py<PyAny>> {
        self.0.expanded(py, self::level(level)?)
    }

    /// The low and the high end of the central interval that holds the truth at that level.
    ///
    /// Parameters
    /// ----------
    /// level : Ratio, optional
    ///     95 % unless given.
    ///
    /// Returns
    /// -------
    /// tuple of two quantity
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A level as for ``expanded``; a value or doubt that is not finite.
    #[pyo3(signature = (level = None))]
    fn interval(&self, py: Python<'_>, level: Option<Ratio>) -> PyResult<(Py<PyAny>, Py<PyAny>)> {
        self.0.interval(py, self::level(level)?)
    }

    /// What each source contributes to the variance, largest first.
    #[getter]
    fn contributions(&self, py: Python<'_>) -> PyResult<Vec<(String, Py<PyAny>)>> {
        let shares = self.0.contributions().into_iter();
        shares.map(|share| Ok((share.label, share.share.into_python(py)?))).collect()
    }

    fn __sub__(&self, other: &Bound<'_, PyAny>) -> PyResult<Measured> {
        self.0.minus(other)
    }

    fn __add__(&self, other: &Bound<'_, PyAny>) -> PyResult<Measured> {
        self.0.plus(other)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Measured: {}>", self.0)
    }
}
