//! Faults ranked by how well they explain the readings, and which reading to take next.

use kingvalve::fault as kv;
use pyo3::prelude::*;

use super::patterns::{Patterns, Priors, Spreads};
use crate::error::raise;
use crate::quantity::IntoPython;
use crate::record::{Choice, Class, Made, Of, Shown, class, finding, html, listed, name, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Ranked>(module, &[])?;
    class::<kv::NextReading>(module, &[])?;
    module.add_class::<Ranking>()
}

impl Shown for kv::Ranked {
    const CLASS: Class<Self> = Class {
        name: "Ranked",
        doc: "A fault with its probability.",
        fields: &[
            ("fault", "What programs call it: \"low_charge\".", |it, py| plain(name(it.fault), py)),
            ("probability", "How probable it is.", |it, py| it.probability.into_python(py)),
            ("text", "In words.", |it, py| plain(it.fault.to_string(), py)),
            ("confirm", "How to confirm it.", |it, py| plain(it.fault.confirm(), py)),
        ],
        text: |it| format!("{}, {:.1}", it.fault, it.probability),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::NextReading {
    const CLASS: Class<Self> = Class {
        name: "NextReading",
        doc: "What a reading not taken yet is expected to tell of the two likeliest faults.",
        fields: &[
            ("feature", "What to read: \"subcooling\".", |it, py| plain(name(it.feature), py)),
            ("how", "Which readings it takes.", |it, py| plain(it.feature.how(), py)),
            ("between", "The two faults to tell apart, likelier first.", |it, py| {
                plain((name(it.between.0), name(it.between.1)), py)
            }),
            ("bits", "The information expected: 1 would settle an even question for certain.", |it, py| {
                plain(it.bits, py)
            }),
            ("right_now", "How often the likelier of the two is the right one, as it stands.", |it, py| {
                it.right_now.into_python(py)
            }),
            ("right_after", "How often it would be, after the reading.", |it, py| {
                it.right_after.into_python(py)
            }),
        ],
        text: ToString::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// Nine faults and none, ranked by how well they explain the residuals of a system that runs steadily in cooling.
///
/// One fault at a time: two together may look like a third.
///
/// Notes
/// -----
/// Source: Bayes over ``Patterns`` and ``Priors``, with the doubt of the readings and what they share. Accuracy:
/// probabilities are no better than the patterns and priors they rest on.
///
/// Examples
/// --------
/// >>> def read(feature, off):
/// ...     seen = kv.Measured.from_standard(kv.delta_fahrenheit(off), kv.delta_fahrenheit(1), "meter")
/// ...     return kv.Residual(feature, seen, kv.delta_fahrenheit(0))
/// >>> ranking = kv.Ranking.of([read("superheat", 15), read("subcooling", -8)], kv.Patterns.fixed_orifice())
/// >>> ranking.top.fault, ranking.top.probability > kv.percent(90)
/// ('low_charge', True)
#[pyclass(frozen, module = "kingvalve")]
pub struct Ranking(kv::Ranking);

fn usual(spreads: Option<PyRef<'_, Spreads>>) -> kv::Spreads {
    spreads.map_or_else(kv::Spreads::default, |spreads| spreads.0)
}

#[pymethods]
impl Ranking {
    /// Ranks the faults.
    ///
    /// Parameters
    /// ----------
    /// residuals : list of Residual
    ///     Each feature once.
    /// patterns : Patterns
    /// priors : Priors, optional
    ///     The default ones unless given.
    ///
    /// Returns
    /// -------
    /// Ranking
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A feature given twice.
    #[staticmethod]
    #[pyo3(signature = (residuals, patterns, priors = None))]
    fn of(
        residuals: Vec<Of<kv::Residual>>,
        patterns: PyRef<'_, Patterns>,
        priors: Option<PyRef<'_, Priors>>,
    ) -> PyResult<Self> {
        let residuals: Vec<_> = residuals.into_iter().map(|residual| residual.0).collect();
        let priors = priors.map_or_else(kv::Priors::default, |priors| priors.0);
        kv::Ranking::of(&residuals, &patterns.0, &priors).map(Ranking).map_err(raise)
    }

    /// Every fault and none, likeliest first.
    #[getter]
    fn ranked(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.ranked().iter().copied(), py)
    }

    /// The likeliest.
    #[getter]
    fn top(&self) -> Made<kv::Ranked> {
        Made(Ok(self.0.top()))
    }

    /// The second likeliest.
    #[getter]
    fn second(&self) -> Made<kv::Ranked> {
        Made(Ok(self.0.second()))
    }

    /// That of one fault.
    ///
    /// Parameters
    /// ----------
    /// fault : str
    ///     Its name: ``"low_charge"``.
    ///
    /// Returns
    /// -------
    /// Ratio
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     Another name.
    #[pyo3(signature = (fault, /))]
    fn probability(&self, py: Python<'_>, fault: Choice<kv::Fault>) -> PyResult<Py<PyAny>> {
        self.0.probability(fault.0).into_python(py)
    }

    /// The residuals, in the order of the features.
    #[getter]
    fn residuals(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.residuals().iter().cloned(), py)
    }

    /// Of what metering device.
    #[getter]
    fn metering(&self) -> &'static str {
        name(self.0.metering())
    }

    /// How likely residuals at least this far from the nearest pattern are, were that pattern the true one: near zero none
    /// of the faults explains them.
    #[getter]
    fn fit(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.fit().into_python(py)
    }

    /// The readings not taken yet, most telling first; those that would tell nothing are left out.
    ///
    /// Parameters
    /// ----------
    /// spreads : Spreads, optional
    ///     How well they could be read; the default ones unless given.
    ///
    /// Returns
    /// -------
    /// list of NextReading
    ///
    /// Notes
    /// -----
    /// Source: expected information (D. V. Lindley, Ann. Math. Statist. 27 (1956) 986). Range: readings whose error is not
    /// shared with those already taken. Accuracy: 1e-4 bit.
    #[pyo3(signature = (spreads = None))]
    fn next_readings(&self, py: Python<'_>, spreads: Option<PyRef<'_, Spreads>>) -> PyResult<Py<PyAny>> {
        listed(self.0.next_readings(&usual(spreads)), py)
    }

    /// The same in the shape shared by all checks: probabilities, what to read next, how to confirm the likeliest.
    ///
    /// Parameters
    /// ----------
    /// spreads : Spreads, optional
    ///     Of the readings that might be taken next; the usual ones unless given.
    ///
    /// Returns
    /// -------
    /// Finding
    #[pyo3(signature = (spreads = None))]
    fn finding<'py>(
        &self,
        py: Python<'py>,
        spreads: Option<PyRef<'py, Spreads>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        finding(py, self.0.finding(&usual(spreads)))
    }

    fn _repr_html_<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        html(py, self.0.finding(&kv::Spreads::default()))
    }

    fn __repr__(&self) -> String {
        let text = |ranked: kv::Ranked| format!("{} {:.0}", ranked.fault, ranked.probability);
        format!("<Ranking: {}, {}>", text(self.0.top()), text(self.0.second()))
    }
}
