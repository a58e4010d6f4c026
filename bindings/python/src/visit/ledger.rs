//! What many visits put in and took out, and what became of work that was tried.

use std::sync::{Mutex, MutexGuard, PoisonError};

use kingvalve::visit as kv;
use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;
use pyo3::types::PyDict;

use super::{Evaluation, Visit, json_read, json_text};
use crate::error::{raise, wrong_kind};
use crate::quantity::IntoPython;
use crate::record::{Class, Shown, class};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Ledger>()?;
    class::<kv::Amount>(module, &[])?;
    class::<kv::Flow>(module, &[])?;
    class::<kv::SiteFlow>(module, &[])?;
    class::<kv::SiteLeakRate>(module, &[])?;
    class::<kv::Shrinkage>(module, &[])?;
    module.add_class::<Outcomes>()
}

/// The refrigerant ledger: what visits put in and took out, added up one visit at a time.
///
/// Notes
/// -----
/// Source: sums; leak rates by ``annualized_leak_rate`` and ``rolling_leak_rate``. Range: any number of visits; memory grows
/// with sites and additions, not with readings. Accuracy: doubts are added up as if every weight were off the same way,
/// which one scale's error is: never too small.
///
/// Examples
/// --------
/// >>> ledger = kv.Ledger()
/// >>> ledger.add(kv.demo().evaluate())
/// >>> print(f"{ledger.flows['R-454B'].charged.mass:.2f}")
/// 6.35 lb
#[pyclass(frozen, module = "kingvalve")]
pub struct Ledger(Mutex<kv::Ledger>);

/// What a lock holds; a panic elsewhere leaves sums as they were.
fn locked<T>(of: &Mutex<T>) -> MutexGuard<'_, T> {
    of.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Ledger {
    fn read<T>(&self, of: impl FnOnce(&kv::Ledger) -> T) -> T {
        of(&locked(&self.0))
    }
}

#[pymethods]
impl Ledger {
    #[new]
    fn new() -> Self {
        Ledger(Mutex::default())
    }

    /// Adds a visit: what it charged and recovered, under its refrigerant and its site.
    ///
    /// Parameters
    /// ----------
    /// visit : Evaluation
    ///
    /// Returns
    /// -------
    /// None
    #[pyo3(signature = (visit, /))]
    fn add(&self, visit: PyRef<'_, Evaluation>) {
        locked(&self.0).add(&visit.0);
    }

    /// How many visits were added.
    #[getter]
    fn visits(&self) -> u64 {
        self.read(kv::Ledger::visits)
    }

    /// What went in and came out of every refrigerant, by its designation.
    #[getter]
    fn flows<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let flows = self
            .read(|ledger| ledger.flows().map(|(name, flow)| (name.to_owned(), *flow)).collect::<Vec<_>>());
        let found = PyDict::new(py);
        for (name, flow) in flows {
            found.set_item(name, flow.into_python(py)?)?;
        }
        Ok(found)
    }

    /// Every site with its refrigerants: site, designation, what went in and out.
    #[getter]
    fn sites(&self, py: Python<'_>) -> PyResult<Vec<(String, String, Py<PyAny>)>> {
        let sites = self.read(|ledger| {
            let own = |(site, name, flow): (&str, &str, &kv::SiteFlow)| {
                (site.to_owned(), name.to_owned(), flow.clone())
            };
            ledger.sites().map(own).collect::<Vec<_>>()
        });
        sites.into_iter().map(|(site, name, flow)| Ok((site, name, flow.into_python(py)?))).collect()
    }

    /// What was put in less what was recovered, as the carbon dioxide that warms as much over a hundred years.
    ///
    /// Parameters
    /// ----------
    /// assessment : str
    ///     "AR4", "AR5", "AR6": as for ``Refrigerant.gwp``.
    ///
    /// Returns
    /// -------
    /// Mass
    ///     Of carbon dioxide.
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     An assessment nobody knows, or one that does not list a refrigerant.
    #[pyo3(signature = (assessment, /))]
    fn carbon_dioxide_equivalent(&self, py: Python<'_>, assessment: &str) -> PyResult<Py<PyAny>> {
        let assessment = assessment.parse().map_err(raise)?;
        self.read(|ledger| ledger.carbon_dioxide_equivalent(assessment)).map_err(raise)?.into_python(py)
    }

    /// What a shop's stock lost that nothing accounts for, by designation.
    ///
    /// Parameters
    /// ----------
    /// stocks : str or dict
    ///     JSON text or dicts by designation: ``opening``, ``bought``, ``on_the_shelf``, ``doubt`` (the standard uncertainty
    ///     of both counts of the shelf together), and ``sent_out`` (``reclaimed``, ``destroyed``, ``heel``).
    ///
    /// Returns
    /// -------
    /// dict of str to Shrinkage
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     JSON of another form.
    /// OutOfRange
    ///     A mass below nothing.
    /// UnknownName
    ///     A stock that lacks a refrigerant which visits charged.
    ///
    /// Examples
    /// --------
    /// >>> ledger = kv.Ledger()
    /// >>> ledger.add(kv.demo().evaluate())
    /// >>> stock = {"opening": kv.pounds(40), "bought": kv.pounds(25), "sent_out": {"heel": kv.pounds(1.2)},
    /// ...          "on_the_shelf": kv.pounds(56.9), "doubt": kv.pounds(0.3)}
    /// >>> lost = ledger.shrinkage({"R-454B": stock})["R-454B"]
    /// >>> print(lost, lost.beyond_doubt)
    /// 0.55 lb ± 0.60 lb False
    #[pyo3(signature = (stocks, /))]
    fn shrinkage<'py>(&self, stocks: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyDict>> {
        let py = stocks.py();
        let stocks = kv::Stock::from_json(&json_text(stocks)?).map_err(raise)?;
        let found = PyDict::new(py);
        for (name, lost) in self.read(|ledger| ledger.shrinkage(&stocks)).map_err(raise)? {
            found.set_item(name, lost.into_python(py)?)?;
        }
        Ok(found)
    }

    fn __repr__(&self) -> String {
        format!("<Ledger: {} visits>", self.visits())
    }
}

impl Shown for kv::Amount {
    const CLASS: Class<Self> = Class {
        name: "Amount",
        doc: "A mass, and its standard doubt as if every weight were off the same way.",
        fields: &[
            ("mass", "So much.", |it, py| it.mass.into_python(py)),
            ("doubt", "Its standard uncertainty.", |it, py| it.doubt.into_python(py)),
        ],
        text: |it| format!("{:.2} ± {:.2}", it.mass, it.doubt),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::Flow {
    const CLASS: Class<Self> = Class {
        name: "Flow",
        doc: "What went in and what came out of one refrigerant.",
        fields: &[
            ("charged", "Put into systems.", |it, py| it.charged.into_python(py)),
            ("recovered", "Taken out of systems.", |it, py| it.recovered.into_python(py)),
        ],
        text: |it| format!("{:.2} in, {:.2} out", it.charged.mass, it.recovered.mass),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::SiteFlow {
    const CLASS: Class<Self> = Class {
        name: "SiteFlow",
        doc: "What went into and came out of the systems of one site.",
        fields: &[
            ("flow", "What went in and what came out.", |it, py| it.flow.into_python(py)),
            ("full_charge", "What the system should hold, by the last visit that said so.", |it, py| {
                it.full_charge.into_python(py)
            }),
            ("leak_rate", "The leak rate at the last addition; ``None`` without one.", |it, py| {
                it.leak_rate().into_python(py)
            }),
        ],
        text: |it| (kv::Flow::CLASS.text)(&it.flow),
        finding: None,
        same: None,
    };
}

impl Shown for kv::SiteLeakRate {
    const CLASS: Class<Self> = Class {
        name: "SiteLeakRate",
        doc: "A site's leak rate by both methods of the regulation, in percent of the full charge a year.

        Notes
        -----
        Source: 40 CFR 84.102 and 82.152, \"leak rate\". Range: additions on dates written as ISO 8601; the first fill of a
        new or emptied system is no leak: leave such a visit out of the ledger. Accuracy: that of the weights and of the full
        charge.
        ",
        fields: &[
            ("annualizing", "By the last addition; ``None`` where it was the only one.", |it, py| {
                it.annualizing.into_python(py)
            }),
            ("rolling", "By all additions of the 365 days up to the last one.", |it, py| {
                it.rolling.into_python(py)
            }),
        ],
        text: |it| format!("{:.1} a year, rolling", it.rolling),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::Shrinkage {
    const CLASS: Class<Self> = Class {
        name: "Shrinkage",
        doc: "What a stock lost that nothing accounts for, by ``Ledger.shrinkage``; below nothing where there is more than there should be.

        Notes
        -----
        Source: opening + bought + recovered − charged − sent out − on the shelf. Accuracy: ``doubt`` is two standard
        uncertainties (95 %).
        ",
        fields: &[
            ("mass", "What is not accounted for.", |it, py| it.mass.into_python(py)),
            ("doubt", "What the scales could be off by, at 95 %.", |it, py| it.doubt.into_python(py)),
            ("beyond_doubt", "Whether it is more than the scales could be off by.", |it, py| {
                it.beyond_doubt().into_py_any(py)
            }),
        ],
        text: |it| format!("{:.2} ± {:.2}", it.mass, it.doubt),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// What became of work that was tried, counted over many visits: what a shop's own chances are learned from.
///
/// Examples
/// --------
/// >>> outcomes = kv.Outcomes()
/// >>> outcomes.add(kv.demo())  # a first visit tells nothing of earlier work
/// >>> kv.Chances().learned(outcomes.records()) == kv.Chances()
/// True
#[pyclass(frozen, module = "kingvalve")]
pub struct Outcomes(Mutex<kv::Outcomes>);

#[pymethods]
impl Outcomes {
    #[new]
    fn new() -> Self {
        Outcomes(Mutex::default())
    }

    /// Counts what a visit says of earlier work.
    ///
    /// Parameters
    /// ----------
    /// visit : Visit
    ///
    /// Returns
    /// -------
    /// None
    #[pyo3(signature = (visit, /))]
    fn add(&self, visit: PyRef<'_, Visit>) {
        locked(&self.0).add(visit.0.record());
    }

    /// The counts as dicts and lists, as ``Chances.learned`` takes them.
    ///
    /// Returns
    /// -------
    /// dict
    fn records<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        let records = locked(&self.0).records();
        json_read(py, &serde_json::to_string(&records).map_err(|error| wrong_kind(error.to_string()))?)
    }

    fn __repr__(&self) -> &'static str {
        "<Outcomes>"
    }
}
