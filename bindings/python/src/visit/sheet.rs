//! What is printed for a customer.

use kingvalve::estimate::{Invoice, OptionsSheet, OutlookSheet, WorkReport};
use pyo3::prelude::*;

use crate::error::raise;

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Sheet>()
}

/// A sheet for a customer: options, the years ahead, a work report or an invoice.
///
/// Examples
/// --------
/// >>> invoice = kv.demo().evaluate().invoice()
/// >>> "798.72" in invoice.to_text()
/// True
#[pyclass(frozen, module = "kingvalve")]
pub struct Sheet(pub Printed);

/// Which of them.
pub enum Printed {
    Options(Box<OptionsSheet>),
    Outlook(Box<OutlookSheet>),
    Report(Box<WorkReport>),
    Invoice(Box<Invoice>),
}

#[pymethods]
impl Sheet {
    /// One HTML page, with its style inside.
    ///
    /// Returns
    /// -------
    /// str
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A total above what was agreed to.
    fn to_html(&self) -> PyResult<String> {
        let page = match &self.0 {
            Printed::Options(sheet) => sheet.to_html(),
            Printed::Outlook(sheet) => sheet.to_html(),
            Printed::Report(sheet) => sheet.to_html(),
            Printed::Invoice(sheet) => sheet.to_html(),
        };
        page.map_err(raise)
    }

    /// Plain text, 78 columns wide.
    ///
    /// Returns
    /// -------
    /// str
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A total above what was agreed to.
    fn to_text(&self) -> PyResult<String> {
        let text = match &self.0 {
            Printed::Options(sheet) => sheet.to_text(),
            Printed::Outlook(sheet) => Ok(sheet.to_text()),
            Printed::Report(sheet) => Ok(sheet.to_text()),
            Printed::Invoice(sheet) => sheet.to_text(),
        };
        text.map_err(raise)
    }

    /// Markdown (CommonMark).
    ///
    /// Returns
    /// -------
    /// str
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A total above what was agreed to.
    fn to_markdown(&self) -> PyResult<String> {
        let text = match &self.0 {
            Printed::Options(sheet) => sheet.to_markdown(),
            Printed::Outlook(sheet) => Ok(sheet.to_markdown()),
            Printed::Report(sheet) => Ok(sheet.to_markdown()),
            Printed::Invoice(sheet) => sheet.to_markdown(),
        };
        text.map_err(raise)
    }

    fn __str__(&self) -> PyResult<String> {
        self.to_text()
    }

    fn __repr__(&self) -> &'static str {
        match &self.0 {
            Printed::Options(_) => "<Sheet: options>",
            Printed::Outlook(_) => "<Sheet: outlook>",
            Printed::Report(_) => "<Sheet: work report>",
            Printed::Invoice(_) => "<Sheet: invoice>",
        }
    }
}
