//! What is known of a part before it is measured, and what accepting by a reading risks: JCGM 106.

use std::any::Any;

use kingvalve::measure as kv;
use pyo3::prelude::*;

use super::{Given, Limits, Verdict, level, plain_value};
use crate::error::{raise, wrong_kind};
use crate::quantity::{Exposed, FromPython, IntoPython, Ratio, Visitor, not_a_quantity, visit};
use crate::record::{Between, Class, Made, Shown, class};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Prior>()?;
    module.add_class::<Acceptance>()?;
    class::<kv::Risks>(module, &[])
}

/// What is known of a part before it is measured: the distribution of the parts it comes from.
///
/// Notes
/// -----
/// Source: JCGM 106:2012, 6 and A. The distribution is the user's.
///
/// Examples
/// --------
/// >>> parts = kv.Prior.normal(kv.microfarads(4.9), kv.microfarads(0.3)).from_source("shop's own counts")
/// >>> limits = kv.Limits.at_least(kv.microfarads(4.5)).from_source("shop policy")
/// >>> reading = kv.Measured.from_standard(kv.microfarads(4.6), kv.microfarads(0.2), "meter")
/// >>> limits.judge(reading).probability_within < limits.judge_knowing(parts, reading).probability_within
/// True
#[pyclass(frozen, generic, module = "kingvalve")]
pub struct Prior(Box<dyn HeldPrior>);

/// A library prior of some quantity.
trait HeldPrior: Any + Send + Sync {
    fn source(&self) -> &str;
    fn with_source(&self, source: String) -> Box<dyn HeldPrior>;
    fn judge(&self, limits: &Limits, value: &Bound<'_, PyAny>, level: kv::Level) -> PyResult<Verdict>;
}

impl<Q: Exposed> HeldPrior for kv::Prior<Q> {
    fn source(&self) -> &str {
        kv::Prior::source(self)
    }
    fn with_source(&self, source: String) -> Box<dyn HeldPrior> {
        Box::new(self.clone().from_source(source))
    }
    fn judge(&self, limits: &Limits, value: &Bound<'_, PyAny>, level: kv::Level) -> PyResult<Verdict> {
        let value = value.extract::<Given<Q>>()?.measured();
        Ok(limits.expect::<Q>()?.judge_knowing(self, value, level).map_err(raise)?.into())
    }
}

impl Prior {
    /// Judges a value by limits, with what was known beforehand.
    pub fn judge(&self, limits: &Limits, value: &Bound<'_, PyAny>, level: kv::Level) -> PyResult<Verdict> {
        self.0.judge(limits, value, level)
    }

    fn expect<Q: Exposed>(&self) -> PyResult<&kv::Prior<Q>> {
        let held: &dyn Any = self.0.as_ref();
        let refused =
            || wrong_kind(format!("expected what is known of a {}, got it of another kind", Q::NAME));
        held.downcast_ref().ok_or_else(refused)
    }
}

enum Shape<'a, 'py> {
    Normal(&'a Bound<'py, PyAny>),
    Gamma(&'a Bound<'py, PyAny>),
    Rectangular(&'a Bound<'py, PyAny>),
}

impl Visitor for Shape<'_, '_> {
    type Output = PyResult<Prior>;
    fn visit<Q: Exposed>(self, first: Q) -> Self::Output {
        let made = match self {
            Shape::Normal(standard) => kv::Prior::normal(first, Q::Difference::from_python(standard)?),
            Shape::Gamma(standard) => kv::Prior::gamma(first, Q::Difference::from_python(standard)?),
            Shape::Rectangular(within) => kv::Prior::rectangular(within.extract::<Between<Q>>()?.0),
        };
        made.map(|prior| Prior(Box::new(prior))).map_err(raise)
    }
}

#[pymethods]
impl Prior {
    /// A normal distribution.
    ///
    /// Parameters
    /// ----------
    /// mean : quantity
    ///     Of the parts.
    /// standard : quantity
    ///     Their standard deviation.
    ///
    /// Returns
    /// -------
    /// Prior
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A deviation not above zero, or not finite.
    #[staticmethod]
    fn normal(mean: &Bound<'_, PyAny>, standard: &Bound<'_, PyAny>) -> PyResult<Self> {
        visit(mean, Shape::Normal(standard)).unwrap_or_else(|| Err(not_a_quantity(mean)))
    }

    /// Anywhere between two as likely.
    ///
    /// Parameters
    /// ----------
    /// low, high : quantity
    ///     Between which all parts lie.
    ///
    /// Returns
    /// -------
    /// Prior
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     No width between them.
    /// Inconsistent
    ///     Not in order.
    #[staticmethod]
    fn rectangular(low: &Bound<'_, PyAny>, high: &Bound<'_, PyAny>) -> PyResult<Self> {
        let within = pyo3::types::PyTuple::new(low.py(), [low, high])?;
        visit(low, Shape::Rectangular(within.as_any())).unwrap_or_else(|| Err(not_a_quantity(low)))
    }

    /// A gamma distribution, of what cannot be below zero: its standard deviation at most its mean.
    ///
    /// Parameters
    /// ----------
    /// mean : quantity
    ///     Of the parts.
    /// standard : quantity
    ///     Their standard deviation.
    ///
    /// Returns
    /// -------
    /// Prior
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Not above zero, or a deviation above the mean.
    #[staticmethod]
    fn gamma(mean: &Bound<'_, PyAny>, standard: &Bound<'_, PyAny>) -> PyResult<Self> {
        visit(mean, Shape::Gamma(standard)).unwrap_or_else(|| Err(not_a_quantity(mean)))
    }

    /// Says where it comes from.
    ///
    /// Parameters
    /// ----------
    /// source : str
    ///     As reports have it: ``"receiving inspection"``.
    ///
    /// Returns
    /// -------
    /// Prior
    #[pyo3(name = "from_source", signature = (source, /))]
    fn with_source(&self, source: String) -> Self {
        Prior(self.0.with_source(source))
    }

    /// Where it comes from.
    #[getter]
    fn source(&self) -> &str {
        self.0.source()
    }
}

/// When a reading is accepted: within its limits, or within narrower ones (a guard band).
///
/// Parameters
/// ----------
/// tolerance : Limits
///     Simple acceptance: the limits themselves.
///
/// Notes
/// -----
/// Source: JCGM 106:2012, 8 and 9.
///
/// Examples
/// --------
/// >>> rule = kv.Acceptance(kv.Limits.at_least(kv.microfarads(4.5)))
/// >>> guarded = rule.guarded_at(kv.percent(95), kv.microfarads(0.1))
/// >>> print(f"{guarded.guard:.3f}", rule.accepts(kv.microfarads(4.6)), guarded.accepts(kv.microfarads(4.6)))
/// 0.164 µF True False
/// >>> risks = guarded.global_risks(kv.Prior.normal(kv.microfarads(4.9), kv.microfarads(0.3)), kv.microfarads(0.1))
/// >>> print(f"{risks.consumer:.2f}")
/// 0.10 %
#[pyclass(frozen, generic, module = "kingvalve")]
pub struct Acceptance(Box<dyn HeldRule>);

/// A library acceptance rule of some quantity.
trait HeldRule: Send + Sync {
    fn change(&self, change: Guard<'_, '_>) -> PyResult<Acceptance>;
    fn tolerance(&self) -> Limits;
    fn guard(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn accepts(&self, value: &Bound<'_, PyAny>) -> PyResult<bool>;
    fn specific_risk(&self, value: &Bound<'_, PyAny>, prior: Option<&Prior>) -> PyResult<kv::SpecificRisk>;
    fn global_risks(&self, prior: &Prior, standard: &Bound<'_, PyAny>) -> PyResult<kv::Risks>;
}

enum Guard<'a, 'py> {
    By(&'a Bound<'py, PyAny>),
    At(kv::Level, &'a Bound<'py, PyAny>),
    For(&'a Prior, &'a Bound<'py, PyAny>, kingvalve::quantity::Ratio),
}

impl<Q: Exposed> HeldRule for kv::Acceptance<Q> {
    fn change(&self, change: Guard<'_, '_>) -> PyResult<Acceptance> {
        let difference = |object: &Bound<'_, PyAny>| Q::Difference::from_python(object);
        let changed = match change {
            Guard::By(guard) => self.clone().guarded(difference(guard)?),
            Guard::At(level, standard) => self.clone().guarded_at(level, difference(standard)?),
            Guard::For(prior, standard, risk) => {
                self.guarded_for(prior.expect()?, difference(standard)?, risk)
            }
        };
        changed.map(|rule| Acceptance(Box::new(rule))).map_err(raise)
    }
    fn tolerance(&self) -> Limits {
        kv::Acceptance::tolerance(self).clone().into()
    }
    fn guard(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        kv::Acceptance::guard(self).into_python(py)
    }
    fn accepts(&self, value: &Bound<'_, PyAny>) -> PyResult<bool> {
        Ok(kv::Acceptance::accepts(self, Q::from_python(&plain_value(value)?)?))
    }
    fn specific_risk(&self, value: &Bound<'_, PyAny>, prior: Option<&Prior>) -> PyResult<kv::SpecificRisk> {
        let value = value.extract::<Given<Q>>()?.measured();
        let prior = prior.map(Prior::expect).transpose()?;
        kv::Acceptance::specific_risk(self, value, prior).map_err(raise)
    }
    fn global_risks(&self, prior: &Prior, standard: &Bound<'_, PyAny>) -> PyResult<kv::Risks> {
        let standard = Q::Difference::from_python(standard)?;
        kv::Acceptance::global_risks(self, prior.expect()?, standard).map_err(raise)
    }
}

struct Simple<'a>(&'a Limits);

impl Visitor for Simple<'_> {
    type Output = PyResult<Acceptance>;
    fn visit<Q: Exposed>(self, _limit: Q) -> Self::Output {
        Ok(Acceptance(Box::new(kv::Acceptance::simple(self.0.expect::<Q>()?.clone()))))
    }
}

#[pymethods]
impl Acceptance {
    #[new]
    fn new(tolerance: &Bound<'_, Limits>) -> PyResult<Self> {
        let lower = tolerance.getattr("lower")?;
        let one = if lower.is_none() { tolerance.getattr("upper")? } else { lower };
        visit(&one, Simple(tolerance.get())).unwrap_or_else(|| Err(not_a_quantity(&one)))
    }

    /// Narrowed by so much at each limit; widened by less than nothing.
    ///
    /// Parameters
    /// ----------
    /// guard : quantity
    ///     How far inside; outside where negative.
    ///
    /// Returns
    /// -------
    /// Acceptance
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A guard that leaves nothing to accept.
    #[pyo3(signature = (guard, /))]
    fn guarded(&self, guard: &Bound<'_, PyAny>) -> PyResult<Self> {
        self.0.change(Guard::By(guard))
    }

    /// Narrowed so that a reading on the edge conforms at that level, for readings of that standard uncertainty.
    ///
    /// Parameters
    /// ----------
    /// level : Ratio
    ///     How sure a reading on the edge is to conform.
    /// standard : quantity
    ///     Standard uncertainty of the readings.
    ///
    /// Returns
    /// -------
    /// Acceptance
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A guard that leaves nothing to accept; a level that is not above 50 % and below 100 %.
    fn guarded_at(&self, level: Ratio, standard: &Bound<'_, PyAny>) -> PyResult<Self> {
        self.0.change(Guard::At(self::level(Some(level))?, standard))
    }

    /// Narrowed until the consumer's risk is at most so much, for parts known beforehand.
    ///
    /// Parameters
    /// ----------
    /// prior : Prior
    ///     How the parts are spread.
    /// standard : quantity
    ///     Standard uncertainty of the readings.
    /// consumer : Ratio
    ///     The greatest consumer's risk.
    ///
    /// Returns
    /// -------
    /// Acceptance
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     No guard keeps the risk so low; a doubt that is not above zero.
    fn guarded_for(
        &self,
        prior: PyRef<'_, Prior>,
        standard: &Bound<'_, PyAny>,
        consumer: Ratio,
    ) -> PyResult<Self> {
        self.0.change(Guard::For(&prior, standard, consumer.0))
    }

    /// The limits of the part.
    #[getter]
    fn tolerance(&self) -> Limits {
        self.0.tolerance()
    }

    /// How much narrower the accepted values are, at each limit.
    #[getter]
    fn guard(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.guard(py)
    }

    /// Whether a reading is accepted.
    ///
    /// Parameters
    /// ----------
    /// value : Reading, Measured or quantity
    ///
    /// Returns
    /// -------
    /// bool
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A quantity of another kind than the limits.
    #[pyo3(signature = (value, /))]
    fn accepts(&self, value: &Bound<'_, PyAny>) -> PyResult<bool> {
        self.0.accepts(value)
    }

    /// What accepting or rejecting this reading risks.
    ///
    /// Parameters
    /// ----------
    /// value : Reading, Measured or quantity
    /// prior : Prior, optional
    ///     What was known beforehand.
    ///
    /// Returns
    /// -------
    /// tuple of str and Ratio
    ///     "consumer" where it is accepted, "producer" where it is rejected, and how probably that is wrong.
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A value or doubt that is not finite, or a value where the prior allows none.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 106:2012, 9.3.
    #[pyo3(signature = (value, prior = None))]
    fn specific_risk(
        &self,
        py: Python<'_>,
        value: &Bound<'_, PyAny>,
        prior: Option<PyRef<'_, Prior>>,
    ) -> PyResult<(&'static str, Py<PyAny>)> {
        match self.0.specific_risk(value, prior.as_deref())? {
            kv::SpecificRisk::Consumer(risk) => Ok(("consumer", risk.into_python(py)?)),
            kv::SpecificRisk::Producer(risk) => Ok(("producer", risk.into_python(py)?)),
        }
    }

    /// What the rule risks over all parts, for readings of that standard uncertainty.
    ///
    /// Parameters
    /// ----------
    /// prior : Prior
    ///     How the parts are spread.
    /// standard : quantity
    ///     Standard uncertainty of the readings.
    ///
    /// Returns
    /// -------
    /// Risks
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A doubt that is not above zero.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 106:2012, 9.4 and 9.5. Accuracy: integrals to 1e-9, for bell-shaped reading errors.
    fn global_risks(
        &self,
        prior: PyRef<'_, Prior>,
        standard: &Bound<'_, PyAny>,
    ) -> PyResult<Made<kv::Risks>> {
        Ok(Made(Ok(self.0.global_risks(&prior, standard)?)))
    }
}

impl Shown for kv::Risks {
    const CLASS: Class<Self> = Class {
        name: "Risks",
        doc: "What an acceptance rule risks over all parts, by ``Acceptance.global_risks``.",
        fields: &[
            ("consumer", "The share of parts accepted though they do not conform.", |it, py| {
                it.consumer.into_python(py)
            }),
            ("producer", "The share of parts rejected though they conform.", |it, py| {
                it.producer.into_python(py)
            }),
            ("conforming", "The share of parts that conform.", |it, py| it.conforming.into_python(py)),
        ],
        text: |it| format!("consumer {:.2}, producer {:.2}", it.consumer, it.producer),
        finding: None,
        same: Some(|a, b| a == b),
    };
}
