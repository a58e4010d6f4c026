//! Doubt carried by drawing: JCGM 101 where a linear form is not enough.

use std::any::Any;
use std::fmt::Display;
use std::sync::Mutex;

use kingvalve::measure as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;
use pyo3::types::PyTuple;
use q::Quantity as _;

use super::{Given, Limits, Measured, level, plain_value};
use crate::column::{Column, Kind, based};
use crate::error::{raise, wrong_kind};
use crate::quantity::{Exposed, FromPython, IntoPython, Ratio, Visitor, not_a_quantity, visit};
use crate::record::{Class, Several, Shown, class, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Simulation>()?;
    module.add_class::<Simulated>()?;
    class::<Agreement>(module, &[])
}

/// A Monte Carlo simulation: what a model makes of readings, drawn from their doubt; the same draws for the same seed.
///
/// Parameters
/// ----------
/// seed : int
/// draws : int
///     200,000 unless given; 100 at least.
///
/// Notes
/// -----
/// Source: JCGM 101:2008. What two readings of one instrument share is drawn once. Accuracy: that of the number of draws.
///
/// Examples
/// --------
/// >>> sim = kv.Simulation(seed=1, draws=20_000)
/// >>> sim.input(kv.Measured.from_standard(kv.volts(371.3), kv.volts(2), "voltmeter"))
/// 0
/// >>> sim.input(kv.Measured.from_standard(kv.amperes(0.6), kv.amperes(0.03), "ammeter"))
/// 1
/// >>> found = sim.run(lambda volts, amperes: amperes * volts)
/// >>> print(f"{found.mean:.0f}", round(found.standard_uncertainty.watts, 1))
/// 223 W 11.3
#[pyclass(frozen, module = "kingvalve")]
pub struct Simulation(Mutex<Drawing>);

struct Drawing {
    simulation: kv::Simulation,
    inputs: Vec<Drawn>,
}

/// An input: its kind, and how its SI base value comes from a draw.
struct Drawn(&'static Kind, Box<dyn Fn(&kv::Draw<'_>) -> f64 + Send>);

struct Input<'a, 'py>(&'a Bound<'py, PyAny>, &'a mut kv::Simulation);

impl Visitor for Input<'_, '_> {
    type Output = PyResult<Drawn>;
    fn visit<Q: Exposed>(self, _value: Q) -> Self::Output {
        let known: Given<Q> = self.0.extract()?;
        let input = self.1.input(known.measured()).map_err(raise)?;
        Ok(Drawn(Q::kind(), Box::new(move |draw| draw.of(input).base())))
    }
}

struct Shaped<'a, 'py> {
    shape: &'a str,
    width: &'a Bound<'py, PyAny>,
    inexactness: Option<&'a Bound<'py, PyAny>>,
    degrees_of_freedom: f64,
    simulation: &'a mut kv::Simulation,
}

impl Visitor for Shaped<'_, '_> {
    type Output = PyResult<Drawn>;
    fn visit<Q: Exposed>(self, value: Q) -> Self::Output {
        let half_width = Q::Difference::from_python(self.width)?;
        let inexactness = self.inexactness.map(Q::Difference::from_python).transpose()?;
        let degrees_of_freedom = self.degrees_of_freedom;
        let distribution = match (self.shape, inexactness) {
            ("normal", _) => kv::Distribution::Normal { standard: half_width },
            ("rectangular", _) => kv::Distribution::Rectangular { half_width },
            ("triangular", _) => kv::Distribution::Triangular { half_width },
            ("arcsine", _) => kv::Distribution::Arcsine { half_width },
            ("student", _) => kv::Distribution::Student { scale: half_width, degrees_of_freedom },
            ("curvilinear_trapezoid", Some(inexactness)) => {
                kv::Distribution::CurvilinearTrapezoid { half_width, inexactness }
            }
            (shape, _) => {
                return Err(crate::error::unknown_name(format!(
                    "unknown shape {shape:?}; it is \"normal\", \"rectangular\", \"triangular\", \"arcsine\", \"student\" or, \
                     with its inexactness, \"curvilinear_trapezoid\""
                )));
            }
        };
        let input = self.simulation.drawn(value, distribution).map_err(raise)?;
        Ok(Drawn(Q::kind(), Box::new(move |draw| draw.of(input).base())))
    }
}

/// The results as drawn, of the kind of quantity the model gave.
struct Results<'a>(&'a kv::Simulation, Vec<f64>);

impl Visitor for Results<'_> {
    type Output = PyResult<Simulated>;
    fn visit<Q: Exposed>(self, _one: Q) -> Self::Output {
        let mut results = self.1.into_iter();
        let found = self.0.run(|_| Q::from_base(results.next().unwrap_or(f64::NAN)));
        found.map(|found| Simulated(Box::new(found))).map_err(raise)
    }
}

impl Simulation {
    fn with<T>(&self, act: impl FnOnce(&mut Drawing) -> T) -> T {
        act(&mut self.0.lock().unwrap_or_else(|poisoned| poisoned.into_inner()))
    }
}

#[pymethods]
impl Simulation {
    #[new]
    #[pyo3(signature = (*, seed, draws = None))]
    fn new(seed: u64, draws: Option<usize>) -> Self {
        let simulation = kv::Simulation::seeded(seed);
        let simulation = match draws {
            Some(draws) => simulation.draws(draws),
            None => simulation,
        };
        Simulation(Mutex::new(Drawing { simulation, inputs: Vec::new() }))
    }

    /// Adds an input with its doubt; gives its place among the model's arguments.
    ///
    /// Parameters
    /// ----------
    /// known : Reading, Measured or quantity
    ///
    /// Returns
    /// -------
    /// int
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Two degrees of freedom or fewer, which have no variance to simulate.
    /// Inconsistent
    ///     A value that is not finite.
    #[pyo3(signature = (known, /))]
    fn input(&self, known: &Bound<'_, PyAny>) -> PyResult<usize> {
        let one = plain_value(known)?;
        self.with(|drawing| {
            let made = visit(&one, Input(known, &mut drawing.simulation));
            drawing.inputs.push(made.unwrap_or_else(|| Err(not_a_quantity(known)))?);
            Ok(drawing.inputs.len() - 1)
        })
    }

    /// Adds an input of a distribution of one's own; gives its place among the model's arguments.
    ///
    /// Parameters
    /// ----------
    /// value
    ///     A quantity: the middle.
    /// shape : {"normal", "rectangular", "triangular", "arcsine", "student", "curvilinear_trapezoid"}
    /// width
    ///     Standard deviation of "normal", scale of "student", half-width of the others.
    /// inexactness
    ///     How far the half-width of "curvilinear_trapezoid" may be off.
    /// degrees_of_freedom : float
    ///     Of "student": more than two.
    ///
    /// Returns
    /// -------
    /// int
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Parameters that make no distribution.
    /// UnknownName
    ///     Another shape, or "curvilinear_trapezoid" without its inexactness.
    #[pyo3(signature = (value, shape, width, *, inexactness = None, degrees_of_freedom = f64::INFINITY))]
    fn drawn(
        &self,
        value: &Bound<'_, PyAny>,
        shape: &str,
        width: &Bound<'_, PyAny>,
        inexactness: Option<&Bound<'_, PyAny>>,
        degrees_of_freedom: f64,
    ) -> PyResult<usize> {
        self.with(|Drawing { simulation, inputs }| {
            let shaped = Shaped { shape, width, inexactness, degrees_of_freedom, simulation };
            inputs.push(visit(value, shaped).unwrap_or_else(|| Err(not_a_quantity(value)))?);
            Ok(inputs.len() - 1)
        })
    }

    /// Draws every input and hands all draws to the model at once.
    ///
    /// Parameters
    /// ----------
    /// model : callable
    ///     Takes a column for each input, in their order; gives a column, or an array of numbers, of as many rows.
    ///
    /// Returns
    /// -------
    /// Simulated
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A result that is not finite.
    /// WrongKind
    ///     A model that gives another number of rows.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 101:2008. Range: a model with a value everywhere within the doubt.
    #[pyo3(signature = (model, /))]
    fn run(&self, py: Python<'_>, model: &Bound<'_, PyAny>) -> PyResult<Simulated> {
        let (simulation, kinds, draws) = self.with(|drawing| {
            let mut draws: Vec<Vec<f64>> = vec![Vec::new(); drawing.inputs.len()];
            let kinds: Vec<_> = drawing.inputs.iter().map(|Drawn(kind, _)| *kind).collect();
            let taken = drawing.simulation.run(|draw| {
                for (column, Drawn(_, base)) in draws.iter_mut().zip(&drawing.inputs) {
                    column.push(base(draw));
                }
                q::Ratio::from_base(0.0)
            });
            taken.map(|_| (drawing.simulation.clone(), kinds, draws)).map_err(raise)
        })?;
        let floats = py.import("kingvalve._array")?.getattr("floats")?;
        let drawn = draws.first().map_or(0, Vec::len);
        let columns = kinds.into_iter().zip(draws).map(|(kind, draws)| {
            let column = Column::of_base(kind, floats.call1((draws,))?.unbind())?;
            Bound::new(py, column)
        });
        let columns = PyTuple::new(py, columns.collect::<PyResult<Vec<_>>>()?)?;
        let (one, numbers) = based(&model.call1(columns)?)?;
        if numbers.len() != drawn {
            return Err(wrong_kind(format!(
                "the model gives {} values for {drawn} draws; it is given a column of each input and answers with one",
                numbers.len()
            )));
        }
        visit(&one, Results(&simulation, numbers))
            .unwrap_or_else(|| Err(wrong_kind("the model gives no quantities".to_owned())))
    }
}

/// The distribution of a result, as drawn by ``Simulation.run``.
#[pyclass(frozen, generic, module = "kingvalve")]
pub struct Simulated(Box<dyn Held>);

/// A library simulation's result, of some quantity.
trait Held: Any + Send + Sync + Display {
    fn mean(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>>;
    fn draws(&self) -> usize;
    fn interval(&self, py: Python<'_>, level: kv::Level, shortest: bool) -> PyResult<Py<PyAny>>;
    fn within(&self, limits: &Limits) -> PyResult<q::Ratio>;
    fn measured(&self, label: String) -> PyResult<Measured>;
    fn agreement(&self, linear: &Bound<'_, PyAny>, level: kv::Level, digits: u8) -> PyResult<Py<PyAny>>;
}

impl<Q: Exposed> Held for kv::Simulated<Q> {
    fn mean(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.mean().into_python(py)
    }
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.standard_uncertainty().into_python(py)
    }
    fn draws(&self) -> usize {
        self.draws()
    }
    fn interval(&self, py: Python<'_>, level: kv::Level, shortest: bool) -> PyResult<Py<PyAny>> {
        let found = if shortest { self.shortest(level) } else { self.symmetric(level) };
        found.map_err(raise)?.into_python(py)
    }
    fn within(&self, limits: &Limits) -> PyResult<q::Ratio> {
        Ok(self.probability_within(limits.expect::<Q>()?))
    }
    fn measured(&self, label: String) -> PyResult<Measured> {
        self.measured(label).map(Measured::from).map_err(raise)
    }
    fn agreement(&self, linear: &Bound<'_, PyAny>, level: kv::Level, digits: u8) -> PyResult<Py<PyAny>> {
        let py = linear.py();
        let linear = linear.extract::<Given<Q>>()?.measured();
        let found = self.agreement(&linear, level, digits).map_err(raise)?;
        let each = [found.low, found.high, found.tolerance].map(|each| each.into_python(py));
        Agreement { each: Several::of(each)?, holds: found.holds() }.into_python(py)
    }
}

/// How far the two ends of an interval lie apart, and how far they may.
#[derive(Clone)]
struct Agreement {
    each: Several,
    holds: bool,
}

impl Shown for Agreement {
    const CLASS: Class<Self> = Class {
        name: "Agreement",
        doc: "Whether a linear result agrees with a simulated one, by JCGM 101:2008, 8.1.",
        fields: &[
            ("low", "How far the low ends lie apart.", |it, py| it.each.at(py, 0)),
            ("high", "How far the high ends lie apart.", |it, py| it.each.at(py, 1)),
            ("tolerance", "How far they may.", |it, py| it.each.at(py, 2)),
            ("holds", "Whether both are within.", |it, py| plain(it.holds, py)),
        ],
        text: |it| it.each.text(&["low", "high", "tolerance"]),
        finding: None,
        same: None,
    };
}

#[pymethods]
impl Simulated {
    /// The mean.
    #[getter]
    fn mean(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.mean(py)
    }

    /// The standard uncertainty: the standard deviation of the draws.
    #[getter]
    fn standard_uncertainty(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.standard_uncertainty(py)
    }

    /// How many draws there were.
    #[getter]
    fn draws(&self) -> usize {
        self.0.draws()
    }

    /// The interval that leaves as many draws below as above, at the level (95 % unless given).
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
    ///     A level that is not above 50 % and below 100 %.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 101:2008, 7.7.2.
    #[pyo3(signature = (level = None))]
    fn symmetric(&self, py: Python<'_>, level: Option<Ratio>) -> PyResult<Py<PyAny>> {
        self.0.interval(py, self::level(level)?, false)
    }

    /// The shortest interval that holds that share of the draws (95 % unless given).
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
    ///     A level that is not above 50 % and below 100 %.
    ///
    /// Notes
    /// -----
    /// Source: JCGM 101:2008, 7.7.4.
    #[pyo3(signature = (level = None))]
    fn shortest(&self, py: Python<'_>, level: Option<Ratio>) -> PyResult<Py<PyAny>> {
        self.0.interval(py, self::level(level)?, true)
    }

    /// The share of the draws that lies within limits.
    ///
    /// Parameters
    /// ----------
    /// limits : Limits
    ///     Of the same kind.
    ///
    /// Returns
    /// -------
    /// Ratio
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     Limits of another kind.
    #[pyo3(signature = (limits, /))]
    fn probability_within(&self, py: Python<'_>, limits: PyRef<'_, Limits>) -> PyResult<Py<PyAny>> {
        self.0.within(&limits)?.into_python(py)
    }

    /// Mean and standard uncertainty, to go on with.
    ///
    /// Parameters
    /// ----------
    /// label : str, optional
    ///     What it is called in a budget.
    ///
    /// Returns
    /// -------
    /// Measured
    #[pyo3(signature = (label = String::new()), text_signature = "($self, label='')")]
    fn measured(&self, label: String) -> PyResult<Measured> {
        self.0.measured(label)
    }

    /// Whether a linear result agrees, to so many significant digits of its doubt (JCGM 101:2008, 8.1).
    ///
    /// Parameters
    /// ----------
    /// linear : Reading, Measured or quantity
    ///     The same result by the linear form.
    /// level : Ratio, optional
    ///     95 % unless given.
    /// digits : int, optional
    ///     Of the standard uncertainty that are significant.
    ///
    /// Returns
    /// -------
    /// Agreement
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A linear result without doubt, no digit, or a level as for ``symmetric``.
    #[pyo3(signature = (linear, level = None, digits = 2))]
    fn agreement(&self, linear: &Bound<'_, PyAny>, level: Option<Ratio>, digits: u8) -> PyResult<Py<PyAny>> {
        self.0.agreement(linear, self::level(level)?, digits)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Simulated: {}>", self.0)
    }
}
