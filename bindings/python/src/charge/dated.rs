//! Days of the calendar: Python's `datetime.date`, or text.

use kingvalve::charge::forecast::Day;
use pyo3::prelude::*;

use crate::error::{describe, raise, wrong_kind};
use crate::quantity::IntoPython;

/// A day, as an argument.
pub struct Dated(pub Day);

impl FromPyObject<'_, '_> for Dated {
    type Error = PyErr;
    fn extract(object: Borrowed<'_, '_, PyAny>) -> PyResult<Self> {
        let day = if let Ok(text) = object.extract::<String>() {
            text.parse()
        } else if object.hasattr("day")? {
            let part = |name: &str| object.getattr(name);
            Day::new(part("year")?.extract()?, part("month")?.extract()?, part("day")?.extract()?)
        } else {
            return Err(wrong_kind(format!(
                "expected a day, such as datetime.date(2026, 6, 1) or \"2026-06-01\", got {}",
                describe(&object)
            )));
        };
        day.map(Dated).map_err(raise)
    }
}

impl IntoPython for Day {
    fn into_python(self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        Ok(py.import("datetime")?.getattr("date")?.call1(self.civil())?.unbind())
    }
}
