//! Within, outside, or not to be told from these readings.

use std::any::Any;
use std::fmt::Display;

use kingvalve::measure as kv;
use pyo3::prelude::*;

use super::Limits;
use crate::quantity::{Exposed, IntoPython};

/// Whether a value lies within its limits, as far as its doubt lets one say: "within" where the probability of lying
/// within is at least the level, "outside" where the probability of lying beyond one of the limits is, "unresolved"
/// otherwise.
#[pyclass(frozen, generic, module = "kingvalve")]
pub struct Verdict(Box<dyn Held>);

/// A library verdict on some quantity.
trait Held: Any + Send + Sync + Display {
    fn name(&self) -> &'static str;
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn expanded_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn limits(&self) -> Limits;
    fn level(&self) -> kv::Level;
    fn probabilities(&self) -> [kingvalve::quantity::Ratio; 3];
    fn dominant(&self) -> Option<(String, kingvalve::quantity::Ratio)>;
    fn settle(&self) -> Option<String>;
}

impl<Q: Exposed> Held for kv::Verdict<Q> {
    fn name(&self) -> &'static str {
        kv::Verdict::name(self)
    }
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.judgement().value().into_python(py)
    }
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.judgement().standard_uncertainty().into_python(py)
    }
    fn expanded_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.judgement().expanded_uncertainty().into_python(py)
    }
    fn limits(&self) -> Limits {
        self.judgement().limits().clone().into()
    }
    fn level(&self) -> kv::Level {
        self.judgement().level()
    }
    fn probabilities(&self) -> [kingvalve::quantity::Ratio; 3] {
        let judgement = self.judgement();
        [judgement.probability_within(), judgement.probability_below(), judgement.probability_above()]
    }
    fn dominant(&self) -> Option<(String, kingvalve::quantity::Ratio)> {
        self.judgement().dominant().map(|(reading, share)| (reading.to_owned(), share))
    }
    fn settle(&self) -> Option<String> {
        self.judgement().settle().map(|settle| settle.to_string())
    }
}

impl<Q: Exposed> From<kv::Verdict<Q>> for Verdict {
    fn from(verdict: kv::Verdict<Q>) -> Self {
        Verdict(Box::new(verdict))
    }
}

impl Verdict {
    /// The library's verdict on a `Q`, or the exception that says what it is on.
    pub fn expect<Q: Exposed>(&self) -> PyResult<&kv::Verdict<Q>> {
        let held: &dyn Any = self.0.as_ref();
        held.downcast_ref().ok_or_else(|| {
            crate::error::wrong_kind(format!("expected a verdict on a {}, got one on another kind", Q::NAME))
        })
    }
}

#[pymethods]
impl Verdict {
    /// So that `match` reads `case kv.Verdict("within")`.
    #[classattr]
    fn __match_args__() -> (&'static str,) {
        ("name",)
    }

    /// "within", "outside" or "unresolved".
    #[getter]
    fn name(&self) -> &'static str {
        self.0.name()
    }

    /// Whether it lies within the limits.
    #[getter]
    fn is_within(&self) -> bool {
        self.0.name() == "within"
    }

    /// Whether it lies beyond one of the limits.
    #[getter]
    fn is_outside(&self) -> bool {
        self.0.name() == "outside"
    }

    /// Whether these readings cannot tell.
    #[getter]
    fn is_unresolved(&self) -> bool {
        self.0.name() == "unresolved"
    }

    /// The value judged.
    #[getter]
    fn value(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.value(py)
    }

    /// Its combined standard uncertainty.
    #[getter]
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.standard_uncertainty(py)
    }

    /// Its expanded uncertainty at the level.
    #[getter]
    fn expanded_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.expanded_uncertainty(py)
    }

    /// The limits it was judged against.
    #[getter]
    fn limits(&self) -> Limits {
        self.0.limits()
    }

    /// The level of confidence asked for.
    #[getter]
    fn level(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.level().probability().into_python(py)
    }

    /// The probability that the truth lies within the limits.
    #[getter]
    fn probability_within(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        let [within, _, _] = self.0.probabilities();
        within.into_python(py)
    }

    /// The probability that the truth lies below the lower limit.
    #[getter]
    fn probability_below(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        let [_, below, _] = self.0.probabilities();
        below.into_python(py)
    }

    /// The probability that the truth lies above the upper limit.
    #[getter]
    fn probability_above(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        let [_, _, above] = self.0.probabilities();
        above.into_python(py)
    }

    /// The reading that contributes most to the doubt, and its share of the variance; none where there is no doubt.
    #[getter]
    fn dominant(&self, py: Python<'_>) -> PyResult<Option<(String, Py<PyAny>)>> {
        self.0.dominant().map(|(reading, share)| Ok((reading, share.into_python(py)?))).transpose()
    }

    /// What would make an unresolved verdict firm on this value, in words; none where it is firm already.
    #[getter]
    fn settle(&self) -> Option<String> {
        self.0.settle()
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("kingvalve._html")?.call_method1("verdict", (slf,))
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Verdict: {}>", self.0)
    }
}
