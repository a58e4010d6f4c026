//! Errors of the library as Python exceptions (`kingvalve._errors`), their text unchanged.

use pyo3::prelude::*;

mod python {
    #![allow(missing_docs, reason = "documented where they are defined, in Python")]
    pyo3::import_exception!(kingvalve._errors, Inconsistent);
    pyo3::import_exception!(kingvalve._errors, OutOfRange);
    pyo3::import_exception!(kingvalve._errors, Unreadable);
    pyo3::import_exception!(kingvalve._errors, UnknownName);
    pyo3::import_exception!(kingvalve._errors, WrongKind);
}

/// The exception that says what a library error says.
pub fn raise(error: kingvalve::Error) -> PyErr {
    let arguments = (error.to_string(), error.field().map(str::to_owned));
    if error.is_unknown_name() {
        PyErr::new::<python::UnknownName, _>(arguments)
    } else if error.is_unreadable() {
        PyErr::new::<python::Unreadable, _>(arguments)
    } else if error.is_inconsistent() {
        PyErr::new::<python::Inconsistent, _>(arguments)
    } else {
        PyErr::new::<python::OutOfRange, _>(arguments)
    }
}

/// The same, of one row of many: "row 17".
pub fn raise_at(error: kingvalve::Error, row: &str) -> PyErr {
    let text = format!("{row}: {error}");
    let field = Some(row.to_owned());
    if error.is_inconsistent() {
        PyErr::new::<python::Inconsistent, _>((text, field))
    } else {
        PyErr::new::<python::OutOfRange, _>((text, field))
    }
}

/// The exception for a value of the wrong kind: what Rust refuses when it compiles.
pub fn wrong_kind(sentence: String) -> PyErr {
    PyErr::new::<python::WrongKind, _>((sentence,))
}

/// The exception for a name nobody knows.
pub fn unknown_name(sentence: String) -> PyErr {
    PyErr::new::<python::UnknownName, _>((sentence,))
}

/// The exception for text that is not what it should be.
pub fn unreadable(sentence: String) -> PyErr {
    PyErr::new::<python::Unreadable, _>((sentence,))
}

/// What an object is, in words: a quantity by its name, anything else by its type and value.
pub fn describe(object: &Bound<'_, PyAny>) -> String {
    if let Some(name) = crate::quantity::name_of(object) {
        return with_article(name);
    }
    let kind = object.get_type().qualname().map_or_else(|_| "object".to_owned(), |name| name.to_string());
    let is_number = object.is_instance_of::<pyo3::types::PyFloat>()
        || object.is_exact_instance_of::<pyo3::types::PyInt>();
    match object.str() {
        Ok(text) if is_number => format!("the bare number {text}"),
        _ => with_article(&kind),
    }
}

/// "a density", "an absolute pressure".
pub fn with_article(name: &str) -> String {
    let vowel = name.starts_with(['a', 'e', 'i', 'o', 'A', 'E', 'I', 'O']);
    format!("{} {name}", if vowel { "an" } else { "a" })
}
