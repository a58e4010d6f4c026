//! The record of one visit: JSON in, results, report, options sheet and JSON out.

mod ledger;
mod sheet;

use kingvalve::estimate::UnitSystem;
use kingvalve::visit as kv;
use pyo3::prelude::*;

use self::sheet::{Printed, Sheet};
use crate::error::{raise, unreadable};
use crate::estimate::PricedWay;
use crate::record::{Choice, Class, Named, Shown, class, listed, plain};
use crate::refrigerant::Refrigerant;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Visit>()?;
    module.add_class::<Evaluation>()?;
    class::<kv::Difference>(module, &[])?;
    sheet::register(module)?;
    ledger::register(module)
}

impl Named for UnitSystem {
    const WHAT: &'static str = "system of units";
    const ALL: &'static [(&'static str, Self)] = &[("us", UnitSystem::Us), ("si", UnitSystem::Si)];
}

impl Shown for kv::Difference {
    const CLASS: Class<Self> = Class {
        name: "Difference",
        doc: "One field in which two records differ, by ``Visit.differences``; its text says it in words.",
        fields: &[
            ("field", "The field, as a JSON pointer.", |it, py| plain(it.field.as_str(), py)),
            ("was", "What it was, as JSON has it; ``None`` where it was not there.", |it, py| {
                json_value(py, it.was.as_ref())
            }),
            ("now", "What it is, as JSON has it; ``None`` where it is gone.", |it, py| {
                json_value(py, it.is.as_ref())
            }),
        ],
        text: kv::Difference::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}

fn json_value(py: Python<'_>, value: Option<&serde_json::Value>) -> PyResult<Py<PyAny>> {
    match value {
        Some(value) => Ok(json_read(py, &value.to_string())?.unbind()),
        None => Ok(py.None()),
    }
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
    ///
    /// Parameters
    /// ----------
    /// text : str or dict
    ///
    /// Returns
    /// -------
    /// Visit
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     Not of that form: the error names the field.
    ///
    /// Examples
    /// --------
    /// >>> kv.Visit.from_json(kv.demo().to_json())
    /// <Visit: 2026-07-14, Split system, 3 tons, thermostatic expansion valve>
    #[staticmethod]
    #[pyo3(signature = (text, /))]
    fn from_json(text: &Bound<'_, PyAny>) -> PyResult<Self> {
        kv::Visit::from_json(&json_text(text)?).map(Visit).map_err(raise)
    }

    /// Computes every result from the readings.
    ///
    /// Returns
    /// -------
    /// Evaluation
    ///
    /// Raises
    /// ------
    /// Error
    ///     A reading that cannot be, a name that is not there, a price the rate card lacks: the error names the field.
    ///
    /// Notes
    /// -----
    /// Source: the functions it gathers, each with its own.
    ///
    /// Examples
    /// --------
    /// >>> len(kv.demo().evaluate().ways) > 1
    /// True
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

    /// The JSON Schema (draft 2020-12) of a record, as text in one line.
    ///
    /// Returns
    /// -------
    /// str
    #[staticmethod]
    fn schema() -> &'static str {
        crate::schema::schema("visit")
    }

    /// The record with one more amendment at its end; what was signed stays as it is.
    ///
    /// Parameters
    /// ----------
    /// field : str
    ///     A JSON pointer: "/standing/pressure/value".
    /// value : object, optional
    ///     What it should say, as JSON has it; left out, the field is taken away.
    /// on, by, why : str
    ///     When, as it is to be printed; who; why.
    ///
    /// Returns
    /// -------
    /// Visit
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     A field that is not there; a value that the field cannot hold.
    /// Inconsistent
    ///     A field that is not for amending.
    ///
    /// Examples
    /// --------
    /// >>> visit = kv.demo()
    /// >>> why = "read off the photograph of the gauge"
    /// >>> amended = visit.amended("/standing/pressure/value", "64.0 psig", on="2026-07-15", by="A. Example", why=why)
    /// >>> for each in visit.differences(amended.as_amended()):
    /// ...     print(each)
    /// standing, pressure, value: 62 psig before, 64 psig now
    #[pyo3(signature = (field, value = None, *, on, by, why))]
    fn amended(
        &self,
        field: String,
        value: Option<&Bound<'_, PyAny>>,
        on: String,
        by: String,
        why: String,
    ) -> PyResult<Self> {
        let json = |value: &Bound<'_, PyAny>| -> PyResult<serde_json::Value> {
            let text: String =
                value.py().import("kingvalve._json")?.call_method1("text", (value,))?.extract()?;
            serde_json::from_str(&text).map_err(|error| unreadable(format!("value: {error}")))
        };
        let value = value.map(json).transpose()?;
        self.0.amended(kv::Amendment { on, by, why, field, value }).map(Visit).map_err(raise)
    }

    /// The record as its amendments correct it, in their order, without them: for evaluating anew.
    ///
    /// Returns
    /// -------
    /// Visit
    fn as_amended(&self) -> PyResult<Self> {
        self.0.as_amended().map(Visit).map_err(raise)
    }

    /// Whether this record is an earlier one with nothing but amendments added: what a signed record may become.
    ///
    /// Parameters
    /// ----------
    /// earlier : Visit
    ///
    /// Returns
    /// -------
    /// bool
    #[pyo3(signature = (earlier, /))]
    fn continues(&self, earlier: PyRef<'_, Visit>) -> PyResult<bool> {
        self.0.continues(&earlier.0).map_err(raise)
    }

    /// Every field in which a later record differs from this one, numbers to 1 part in a million.
    ///
    /// Parameters
    /// ----------
    /// later : Visit
    ///
    /// Returns
    /// -------
    /// list of Difference
    #[pyo3(signature = (later, /))]
    fn differences(&self, py: Python<'_>, later: PyRef<'_, Visit>) -> PyResult<Py<PyAny>> {
        listed(self.0.differences(&later.0).map_err(raise)?, py)
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

    /// The customer's options sheet.
    ///
    /// Returns
    /// -------
    /// Sheet
    fn sheet(&self) -> Sheet {
        Sheet(Printed::Options(Box::new(self.0.sheet())))
    }

    /// The years ahead: what each way is expected to cost; ``None`` where the record does not ask for it.
    ///
    /// Returns
    /// -------
    /// Sheet or None
    fn outlook_sheet(&self) -> Option<Sheet> {
        self.0.outlook_sheet().map(|sheet| Sheet(Printed::Outlook(Box::new(sheet))))
    }

    /// The work report: readings against where they should be, what they mean, what was done.
    ///
    /// Returns
    /// -------
    /// Sheet
    fn work_report(&self) -> PyResult<Sheet> {
        Ok(Sheet(Printed::Report(Box::new(self.0.work_report().map_err(raise)?))))
    }

    /// The invoice of the work as it was; ``None`` where nothing is billed.
    ///
    /// Returns
    /// -------
    /// Sheet or None
    fn invoice(&self) -> Option<Sheet> {
        self.0.invoice().map(|sheet| Sheet(Printed::Invoice(Box::new(sheet))))
    }

    /// The same evaluation, its sheets in another language and other units; amounts are the same.
    ///
    /// Parameters
    /// ----------
    /// language : {"en", "es"}
    /// units : {"us", "si"}
    ///
    /// Returns
    /// -------
    /// Evaluation
    ///
    /// Examples
    /// --------
    /// >>> "Recargar" in kv.demo().evaluate().printed_in("es", "si").sheet().to_text()
    /// True
    fn printed_in(&self, language: &str, units: Choice<UnitSystem>) -> PyResult<Self> {
        let language = language.parse().map_err(raise)?;
        self.0.printed_in(language, units.0).map(Evaluation).map_err(raise)
    }

    /// The same evaluation with the likely price beside every way's range, simulated.
    ///
    /// Parameters
    /// ----------
    /// draws : int
    /// seed : int
    ///     The same seed gives the same prices.
    ///
    /// Returns
    /// -------
    /// Evaluation
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A number of draws out of range.
    fn with_likely_prices(&self, py: Python<'_>, draws: u32, seed: u64) -> PyResult<Self> {
        py.detach(|| self.0.with_likely_prices(draws, seed)).map(Evaluation).map_err(raise)
    }

    /// The record, signed: its results are part of it from now on, and a later evaluation leaves them as they are.
    ///
    /// Parameters
    /// ----------
    /// by, on : str
    ///     Who, and when, as it is to be printed.
    ///
    /// Returns
    /// -------
    /// Visit
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     A record that is signed already.
    ///
    /// Examples
    /// --------
    /// >>> signed = kv.demo().evaluate().signed(by="A. Example", on="2026-07-14")
    /// >>> signed.evaluate().differences  # what is recomputed is what was signed
    /// []
    #[pyo3(signature = (*, by, on))]
    fn signed(&self, by: String, on: String) -> PyResult<Visit> {
        self.0.signed(kv::Signature { by, on }).map(Visit).map_err(raise)
    }

    /// Where the results of a signed record, computed anew, differ from what was signed.
    #[getter]
    fn differences(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.differences().iter().cloned(), py)
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
