//! The record of one visit: JSON in, results, report, options sheet and JSON out.

use kingvalve::visit as kv;
use pyo3::prelude::*;

use crate::error::raise;
use crate::estimate::PricedWay;
use crate::refrigerant::Refrigerant;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Visit>()?;
    module.add_class::<Evaluation>()
}

/// A Python object as JSON text: text as it is, anything else by `json.dumps`.
pub fn json_text(object: &Bound<'_, PyAny>) -> PyResult<String> {
    if let Ok(text) = object.extract::<String>() {
        return Ok(text);
    }
    object.py().import("kingvalve._json")?.call_method1("text", (object,))?.extract()
}

/// JSON text as plain dicts and lists.
pub fn json_read<'py>(py: Python<'py>, text: &str) -> PyResult<Bound<'py, PyAny>> {
    py.import("json")?.call_method1("loads", (text,))
}

/// One visit: who, what was said, what was read with which instruments, what the shop charges.
#[pyclass(frozen, module = "kingvalve")]
pub struct Visit(kv::Visit);

#[pymethods]
impl Visit {
    /// Reads a visit from JSON text, or from dicts and lists of that form.
    #[staticmethod]
    #[pyo3(signature = (text, /))]
    fn from_json(text: &Bound<'_, PyAny>) -> PyResult<Self> {
        kv::Visit::from_json(&json_text(text)?).map(Visit).map_err(raise)
    }

    /// Computes every result from the readings.
    fn evaluate(&self, py: Python<'_>) -> PyResult<Evaluation> {
        py.detach(|| self.0.evaluate()).map(Evaluation).map_err(raise)
    }

    /// The record as JSON text.
    fn to_json(&self) -> PyResult<String> {
        self.0.to_json().map_err(raise)
    }

    /// The record as dicts and lists.
    #[getter]
    fn record<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        json_read(py, &self.to_json()?)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((slf.get_type().getattr("from_json")?, (slf.get().to_json()?,)))
    }

    fn __repr__(&self) -> String {
        let record = self.0.record();
        format!("<Visit: {}, {}>", record.date, record.equipment.description)
    }
}

/// A visit with its results.
#[pyclass(frozen, module = "kingvalve")]
pub struct Evaluation(kv::Evaluation);

#[pymethods]
impl Evaluation {
    /// The results as dicts and lists, as they stand in the JSON form.
    #[getter]
    fn results<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        json_read(py, &self.to_json()?)?.get_item("results")
    }

    /// The refrigerant.
    #[getter]
    fn refrigerant(&self) -> PyResult<Refrigerant> {
        let name = &self.0.record().equipment.refrigerant;
        kingvalve::refrigerant::Refrigerant::named(name).map(Refrigerant).map_err(raise)
    }

    /// The ways forward with their prices.
    #[getter]
    fn ways(&self) -> Vec<PricedWay> {
        self.0.results().ways.iter().cloned().map(PricedWay).collect()
    }

    /// What can hurt someone at this work.
    #[getter]
    fn cautions(&self) -> Vec<&'static str> {
        self.0.results().cautions.iter().map(|caution| caution.text()).collect()
    }

    /// The technician's report as plain text.
    fn report(&self) -> PyResult<String> {
        self.0.report().map_err(raise)
    }

    /// The customer's options sheet as one HTML page that needs nothing else.
    fn sheet_html(&self) -> PyResult<String> {
        self.0.sheet().to_html().map_err(raise)
    }

    /// The customer's options sheet as plain text.
    fn sheet_text(&self) -> PyResult<String> {
        self.0.sheet().to_text().map_err(raise)
    }

    /// The record as JSON text, with the results inside.
    fn to_json(&self) -> PyResult<String> {
        self.0.to_json().map_err(raise)
    }

    fn _repr_html_(&self, py: Python<'_>) -> PyResult<String> {
        py.import("kingvalve._html")?.call_method1("evaluation", (self.report()?,))?.extract()
    }

    fn __repr__(&self) -> String {
        let record = self.0.record();
        format!("<Evaluation: {}, {}>", record.date, record.equipment.description)
    }
}
