//! What a value should lie within, and who says so.

use std::any::Any;
use std::fmt::Display;

use kingvalve::measure as kv;
use pyo3::prelude::*;

use super::{Given, Verdict, level};
use crate::error::raise;
use crate::quantity::{Exposed, Ratio, Visitor, not_a_quantity, visit};

/// A lower limit, an upper limit, or both, with where they come from. The limits themselves are within.
#[pyclass(frozen, generic, module = "kingvalve")]
pub struct Limits(Box<dyn Held>);

/// Library limits of some quantity.
trait Held: Any + Send + Sync + Display {
    fn lower(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>>;
    fn upper(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>>;
    fn source(&self) -> &str;
    fn with_source(&self, source: String) -> Box<dyn Held>;
    fn judge(&self, value: &Bound<'_, PyAny>, level: kv::Level) -> PyResult<Verdict>;
}

impl<Q: Exposed> Held for kv::Limits<Q> {
    fn lower(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        kv::Limits::lower(self).map(|limit| limit.into_python(py)).transpose()
    }
    fn upper(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        kv::Limits::upper(self).map(|limit| limit.into_python(py)).transpose()
    }
    fn source(&self) -> &str {
        kv::Limits::source(self)
    }
    fn with_source(&self, source: String) -> Box<dyn Held> {
        Box::new(self.clone().from_source(source))
    }
    fn judge(&self, value: &Bound<'_, PyAny>, level: kv::Level) -> PyResult<Verdict> {
        let value: Given<Q> = value.extract()?;
        Ok(kv::Limits::judge(self, value.measured(), level).map_err(raise)?.into())
    }
}

impl<Q: Exposed> From<kv::Limits<Q>> for Limits {
    fn from(limits: kv::Limits<Q>) -> Self {
        Limits(Box::new(limits))
    }
}

impl Limits {
    /// The library's limits of a `Q`, or the exception that says what they are of.
    pub fn expect<Q: Exposed>(&self) -> PyResult<&kv::Limits<Q>> {
        let held: &dyn Any = self.0.as_ref();
        held.downcast_ref().ok_or_else(|| {
            crate::error::wrong_kind(format!("expected limits of a {}, got {}", Q::NAME, self.0))
        })
    }
}

/// Limits of a `Q`, as an argument.
pub struct LimitsOf<Q: Exposed>(pub kv::Limits<Q>);

impl<Q: Exposed> FromPyObject<'_, '_> for LimitsOf<Q> {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        Ok(LimitsOf(object.cast::<Limits>()?.get().expect()?.clone()))
    }
}

/// Makes limits of the first of two ends and, if there is one, the other.
struct Make<'a, 'py> {
    upper: Option<&'a Bound<'py, PyAny>>,
    from_above: bool,
}

impl Visitor for Make<'_, '_> {
    type Output = PyResult<Limits>;
    fn visit<Q: Exposed>(self, first: Q) -> PyResult<Limits> {
        let limits = match self.upper {
            Some(upper) => kv::Limits::between(first, Q::from_python(upper)?),
            None if self.from_above => kv::Limits::at_most(first),
            None => kv::Limits::at_least(first),
        };
        limits.map(Limits::from).map_err(raise)
    }
}

#[pymethods]
impl Limits {
    /// From `lower` to `upper`.
    ///
    /// Parameters
    /// ----------
    /// lower, upper : quantity
    ///     Within, both of them.
    ///
    /// Returns
    /// -------
    /// Limits
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     Limits not in order or not finite.
    #[staticmethod]
    #[pyo3(signature = (lower, upper, /))]
    fn between(lower: &Bound<'_, PyAny>, upper: &Bound<'_, PyAny>) -> PyResult<Self> {
        let make = Make { upper: Some(upper), from_above: false };
        visit(lower, make).unwrap_or_else(|| Err(not_a_quantity(lower)))
    }

    /// From `lower` up.
    ///
    /// Parameters
    /// ----------
    /// lower : quantity
    ///     Within.
    ///
    /// Returns
    /// -------
    /// Limits
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A limit that is not finite.
    #[staticmethod]
    #[pyo3(signature = (lower, /))]
    fn at_least(lower: &Bound<'_, PyAny>) -> PyResult<Self> {
        visit(lower, Make { upper: None, from_above: false }).unwrap_or_else(|| Err(not_a_quantity(lower)))
    }

    /// Up to `upper`.
    ///
    /// Parameters
    /// ----------
    /// upper : quantity
    ///     Within.
    ///
    /// Returns
    /// -------
    /// Limits
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A limit that is not finite.
    #[staticmethod]
    #[pyo3(signature = (upper, /))]
    fn at_most(upper: &Bound<'_, PyAny>) -> PyResult<Self> {
        visit(upper, Make { upper: None, from_above: true }).unwrap_or_else(|| Err(not_a_quantity(upper)))
    }

    /// Says where the limits come from: "data plate", "shop policy".
    ///
    /// Parameters
    /// ----------
    /// source : str
    ///     As reports have it: ``"data plate"``.
    ///
    /// Returns
    /// -------
    /// Limits
    #[pyo3(name = "from_source", signature = (source, /))]
    fn with_source(&self, source: String) -> Self {
        Limits(self.0.with_source(source))
    }

    /// The lower limit, if any.
    #[getter]
    fn lower(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        self.0.lower(py)
    }

    /// The upper limit, if any.
    #[getter]
    fn upper(&self, py: Python<'_>) -> PyResult<Option<Py<PyAny>>> {
        self.0.upper(py)
    }

    /// Where the limits come from.
    #[getter]
    fn source(&self) -> &str {
        self.0.source()
    }

    /// Judges whether a value, plain or with doubt, lies within, at that level of confidence (95 % unless another is
    /// given).
    ///
    /// Parameters
    /// ----------
    /// value : Reading, Measured or quantity
    ///     What was read or computed.
    /// level : Ratio, optional
    ///     How sure a verdict must be: 95 % unless given.
    ///
    /// Returns
    /// -------
    /// Verdict
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A value or doubt that is not finite; a level that is not above 50 % and below 100 %.
    /// WrongKind
    ///     A quantity of another kind than the limits.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 106:2012, clauses 7 and 8. Accuracy: probabilities to 1e-12 where the doubt is bell-shaped; where a
    /// display's step is all of it a firm verdict is late, if anything. The level is that of the reading alone: how
    /// many firm verdicts are wrong depends on the parts, too (see ``judge_knowing``).
    ///
    /// Examples
    /// --------
    /// >>> limits = kv.Limits.at_least(kv.microfarads(42.3)).from_source("rated 45 µF −6 %")
    /// >>> limits.judge(kv.Measured.from_standard(kv.microfarads(43.0), kv.microfarads(1.5), "meter")).name
    /// 'unresolved'
    #[pyo3(signature = (value, level = None))]
    fn judge(&self, value: &Bound<'_, PyAny>, level: Option<Ratio>) -> PyResult<Verdict> {
        self.0.judge(value, self::level(level)?)
    }

    /// Judges with what was known of the part beforehand.
    ///
    /// Parameters
    /// ----------
    /// prior : Prior
    /// value : Reading, Measured or quantity
    /// level : Ratio, optional
    ///     How sure to be: 95 % unless given.
    ///
    /// Returns
    /// -------
    /// Verdict
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A reading that what was known beforehand rules out.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 106:2012, 7 (Bayes).
    #[pyo3(signature = (prior, value, level = None))]
    fn judge_knowing(
        &self,
        prior: PyRef<'_, super::Prior>,
        value: &Bound<'_, PyAny>,
        level: Option<Ratio>,
    ) -> PyResult<Verdict> {
        prior.judge(self, value, self::level(level)?)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Limits: {}>", self.0)
    }
}
