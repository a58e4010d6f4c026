//! Several measurements of one thing, combined or found to disagree.

use kingvalve::measure as kv;
use kingvalve::quantity::Ratio as Share;
use pyo3::prelude::*;

use super::{Given, level};
use crate::error::{raise, wrong_kind};
use crate::quantity::{Exposed, IntoPython, Ratio, Visitor, not_a_quantity, visit};
use crate::record::{Class, Shown, class, listed, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Combined<Share>>(module, &[wrap_pyfunction!(combined_of, module)?])?;
    class::<kv::Disagreement<Share>>(module, &[])
}

impl<Q: Exposed> Shown for kv::Combined<Q> {
    const CLASS: Class<Self> = Class {
        name: "Combined",
        doc: r#"Several measurements of one thing: their best mean, and which of them disagree.

        Notes
        -----
        Source: generalised least squares, weights by the covariance of the measurements (JCGM 100:2008; sources they
        share are known by their instruments); a pair disagrees where it is further apart than the expanded uncertainty
        of its difference. Accuracy: exact to rounding.

        Examples
        --------
        >>> first = kv.Measured.from_standard(kv.microfarads(4.29), kv.microfarads(0.2), "loaded")
        >>> second = kv.Measured.from_standard(kv.microfarads(4.31), kv.microfarads(0.03), "bench")
        >>> both = kv.Combined.of([first, second])
        >>> print(f"{both.mean.value:.3f}", both.is_consistent)
        4.310 µF True
        "#,
        fields: &[
            ("mean", "The combined value, with its doubt by source.", |it, py| it.mean().into_python(py)),
            ("weights", "How much each measurement counts; they sum to one.", |it, py| {
                listed(it.weights(), py)
            }),
            ("chi_square", "The sum of squared deviations in units of their doubt.", |it, py| {
                plain(it.chi_square(), py)
            }),
            ("chance", "How probable so large a χ² is by chance.", |it, py| it.chance().into_python(py)),
            (
                "birge_ratio",
                "By what factor all doubts would have to grow for χ² to be what it should.",
                |it, py| plain(it.birge_ratio(), py),
            ),
            ("disagreements", "The pairs further apart than their doubt allows.", |it, py| {
                listed(it.disagreements().iter().copied(), py)
            }),
            ("is_consistent", "Whether no pair disagrees.", |it, py| plain(it.is_consistent(), py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: None,
    };
}

impl<Q: Exposed> Shown for kv::Disagreement<Q> {
    const CLASS: Class<Self> = Class {
        name: "Disagreement",
        doc: "Two measurements further apart than their doubt allows: it speaks of the technique, not of the part.",
        fields: &[
            ("first", "The index of the one.", |it, py| plain(it.first, py)),
            ("second", "The index of the other.", |it, py| plain(it.second, py)),
            ("difference", "How far apart they are.", |it, py| it.difference.into_python(py)),
            ("allowed", "How far apart their doubt allows.", |it, py| it.allowed.into_python(py)),
        ],
        text: |it| format!("{} and {}, {} apart", it.first, it.second, it.difference),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

struct Together<'a, 'py>(&'a [Bound<'py, PyAny>], kv::Level);

impl Visitor for Together<'_, '_> {
    type Output = PyResult<Py<PyAny>>;
    fn visit<Q: Exposed>(self, _first: Q) -> Self::Output {
        let Some(first) = self.0.first() else { return Err(none()) };
        let given = self.0.iter().map(|each| Ok(each.extract::<Given<Q>>()?.measured()));
        let given = given.collect::<PyResult<Vec<_>>>()?;
        kv::Combined::of(&given, self.1).map_err(raise)?.into_python(first.py())
    }
}

fn none() -> PyErr {
    wrong_kind("expected measurements to combine, got none".to_owned())
}

/// The best mean of several measurements, and which of them disagree.
///
/// Parameters
/// ----------
/// measurements : list of Measured or Reading
///     Two at least, of one kind of quantity.
/// level : Ratio, optional
///     How sure a disagreement must be: 95 % unless given.
///
/// Returns
/// -------
/// Combined
///
/// Raises
/// ------
/// Inconsistent
///     Fewer than two measurements.
#[pyfunction(name = "of")]
#[pyo3(signature = (measurements, *, level = None))]
fn combined_of(measurements: Vec<Bound<'_, PyAny>>, level: Option<Ratio>) -> PyResult<Py<PyAny>> {
    let first = measurements.first().ok_or_else(none)?;
    let one = super::plain_value(first)?;
    let together = Together(&measurements, self::level(level)?);
    visit(&one, together).unwrap_or_else(|| Err(not_a_quantity(first)))
}
