//! What is known of a refrigerant besides its state: how good its model is, how much it warms.

use kingvalve::refrigerant as kv;
use pyo3::prelude::*;

use crate::quantity::{IntoPython, Mass};

/// What a refrigerant's properties rest on, and the error in pressure to expect.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Accuracy(kv::Accuracy);

impl Accuracy {
    /// Of the library's.
    pub fn new(accuracy: kv::Accuracy) -> Self {
        Accuracy(accuracy)
    }
}

/// Both names, what the pair rests on, the error it may bring, its paper.
type Pair = (String, String, String, Py<PyAny>, String);

#[pymethods]
impl Accuracy {
    /// What the worst of its pairs rests on: "measured", "fitted" or "estimated"; none for one component.
    #[getter]
    fn basis(&self) -> Option<String> {
        self.0.basis().map(|basis| basis.to_string())
    }

    /// The relative error in saturation pressure to expect: an order of magnitude, not a bound.
    #[getter]
    fn pressure_error(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.pressure_error().into_python(py)
    }

    /// Each pair of components: both names, what it rests on, the error it may bring, its paper.
    #[getter]
    fn pairs(&self, py: Python<'_>) -> PyResult<Vec<Pair>> {
        let pairs = self.0.pairs().iter().map(|pair| {
            let [first, second] = pair.components.clone();
            let error = pair.pressure_error.into_python(py)?;
            Ok((first, second, pair.basis.to_string(), error, pair.paper.clone()))
        });
        pairs.collect()
    }

    /// Each component with the paper of its equation of state.
    #[getter]
    fn papers(&self) -> Vec<(String, String)> {
        self.0.papers().map(|(name, paper)| (name.to_owned(), paper.to_owned())).collect()
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Accuracy: {}>", self.0)
    }
}

/// A 100-year global warming potential.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Gwp(pub kv::Gwp);

impl Gwp {
    /// Of the library's.
    pub fn new(gwp: kv::Gwp) -> Self {
        Gwp(gwp)
    }
}

#[pymethods]
impl Gwp {
    /// Kilograms of carbon dioxide per kilogram of refrigerant.
    #[getter]
    fn kilograms_per_kilogram(&self) -> f64 {
        self.0.kilograms_per_kilogram()
    }

    /// The report it follows: "AR4".
    #[getter]
    fn assessment(&self) -> String {
        self.0.assessment().to_string()
    }

    /// Whether it is the most it can be: a component's value is given as "less than" only.
    #[getter]
    fn is_upper_bound(&self) -> bool {
        self.0.is_upper_bound()
    }

    /// Where its components' values were read.
    #[getter]
    fn sources(&self) -> Vec<&'static str> {
        self.0.sources().to_vec()
    }

    /// The mass of carbon dioxide that warms as much as an amount of the refrigerant.
    ///
    /// Parameters
    /// ----------
    /// amount : Mass
    ///
    /// Returns
    /// -------
    /// Mass
    ///
    /// Notes
    /// -----
    /// Source: by definition, mass times potential.
    ///
    /// Examples
    /// --------
    /// >>> gwp = kv.Refrigerant("R-410A").gwp("AR4")
    /// >>> print(f"{gwp.carbon_dioxide_equivalent(kv.pounds(2)):.0f}")
    /// 4175 lb
    #[pyo3(signature = (amount, /))]
    fn carbon_dioxide_equivalent(&self, py: Python<'_>, amount: Mass) -> PyResult<Py<PyAny>> {
        self.0.carbon_dioxide_equivalent(amount.0).into_python(py)
    }

    fn __float__(&self) -> f64 {
        self.0.kilograms_per_kilogram()
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Gwp: {}>", self.0)
    }
}
