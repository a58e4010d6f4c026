//! The one error type of the crate.

use std::fmt;

/// What every fallible function of the crate returns.
pub type Result<T, E = Error> = std::result::Result<T, E>;

/// Something the library refuses to do, and what to change.
///
/// The kinds are private; ask with [`is_out_of_range`](Error::is_out_of_range) and its siblings.
/// The text names the field (where there is one), the value with its unit, the limit, and what to do.
///
/// # Example
/// ```
/// use kingvalve::quantity::Site;
/// use kingvalve::quantity::{feet, psig};
/// let site = Site::at_elevation(feet(0.0)).unwrap();
/// let error = site.absolute(psig(-20.0)).unwrap_err();
/// assert!(error.is_out_of_range());
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Error(Box<Inner>);

#[derive(Debug, Clone, PartialEq)]
struct Inner {
    /// Path of the field at fault, outermost first: `readings[2].value`.
    field: String,
    kind: Kind,
}

#[derive(Debug, Clone, PartialEq, thiserror::Error)]
enum Kind {
    #[error("{what} {value} is out of range: {limit}; {advice}")]
    OutOfRange { what: String, value: String, limit: String, advice: String },
    #[error("unknown {what} {given:?}{}", did_you_mean(near))]
    Unknown { what: String, given: String, near: Vec<String> },
    #[error("cannot read {given:?} as {what}: {advice}")]
    Unreadable { what: String, given: String, advice: String },
    #[error("{what} cannot be read: {why}")]
    Malformed { what: String, why: String },
    #[error("{what}: {why}; {advice}")]
    Inconsistent { what: String, why: String, advice: String },
}

fn did_you_mean(near: &[String]) -> String {
    match near {
        [] => String::new(),
        [one] => format!("; did you mean {one}?"),
        [rest @ .., last] => format!("; did you mean {} or {last}?", rest.join(", ")),
    }
}

impl Error {
    fn new(kind: Kind) -> Self {
        Error(Box::new(Inner { field: String::new(), kind }))
    }

    /// A value outside the range in which the method holds.
    pub(crate) fn out_of_range(
        what: impl Into<String>,
        value: impl fmt::Display,
        limit: impl fmt::Display,
        advice: impl Into<String>,
    ) -> Self {
        Self::beyond(what.into(), &value, &limit, advice.into())
    }

    /// The same, once for all types of value and limit.
    fn beyond(what: String, value: &dyn fmt::Display, limit: &dyn fmt::Display, advice: String) -> Self {
        Self::new(Kind::OutOfRange { what, value: value.to_string(), limit: limit.to_string(), advice })
    }

    /// A name nobody knows, with the nearest of those that are known.
    pub(crate) fn unknown<'a>(
        what: impl Into<String>,
        given: impl Into<String>,
        known: impl IntoIterator<Item = &'a str>,
    ) -> Self {
        let given = given.into();
        let near = nearest(&given, known);
        Self::new(Kind::Unknown { what: what.into(), given, near })
    }

    /// Text or JSON that is not what it should be.
    pub(crate) fn unreadable(
        what: impl Into<String>,
        given: impl Into<String>,
        advice: impl Into<String>,
    ) -> Self {
        Self::new(Kind::Unreadable { what: what.into(), given: given.into(), advice: advice.into() })
    }

    /// JSON that is not of the form wanted.
    pub(crate) fn malformed(what: impl Into<String>, why: impl Into<String>) -> Self {
        Self::new(Kind::Malformed { what: what.into(), why: why.into() })
    }

    /// Values that are each possible but do not go together, or a quantity that cannot be had from them.
    pub(crate) fn inconsistent(
        what: impl Into<String>,
        why: impl Into<String>,
        advice: impl Into<String>,
    ) -> Self {
        Self::new(Kind::Inconsistent { what: what.into(), why: why.into(), advice: advice.into() })
    }

    /// The same error, said of a field (put before any field already named).
    #[must_use]
    pub(crate) fn in_field(mut self, field: impl fmt::Display) -> Self {
        let inner = self.0.as_mut();
        inner.field = match inner.field.as_str() {
            "" => field.to_string(),
            rest if rest.starts_with('[') => format!("{field}{rest}"),
            rest => format!("{field}.{rest}"),
        };
        self
    }

    /// A value lies outside the range in which the method holds.
    pub fn is_out_of_range(&self) -> bool {
        matches!(self.0.kind, Kind::OutOfRange { .. })
    }

    /// A name (refrigerant, unit, check, field) is not known.
    pub fn is_unknown_name(&self) -> bool {
        matches!(self.0.kind, Kind::Unknown { .. })
    }

    /// A text or JSON value cannot be read.
    pub fn is_unreadable(&self) -> bool {
        matches!(self.0.kind, Kind::Unreadable { .. } | Kind::Malformed { .. })
    }

    /// Values contradict one another, or what is asked cannot be had from them.
    pub fn is_inconsistent(&self) -> bool {
        matches!(self.0.kind, Kind::Inconsistent { .. })
    }

    /// The field the error is about (`readings[2].value`), if the input had fields.
    pub fn field(&self) -> Option<&str> {
        Some(self.0.field.as_str()).filter(|field| !field.is_empty())
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(field) = self.field() {
            write!(f, "{field}: ")?;
        }
        write!(f, "{}", self.0.kind)
    }
}

impl std::error::Error for Error {}

/// Says in which field an error is: for `map_err`.
pub(crate) fn in_field(field: impl fmt::Display) -> impl Fn(Error) -> Error {
    move |error| error.in_field(&field)
}

/// Up to three of `known` within a third of the length of `given` in edit distance, nearest first.
pub(crate) fn nearest<'a>(given: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let given = fold(given);
    let reach = (given.chars().count() / 3).max(1);
    let mut scored: Vec<(usize, &str)> = known
        .into_iter()
        .map(|name| (edit_distance(&given, &fold(name)), name))
        .filter(|(distance, _)| *distance <= reach)
        .collect();
    scored.sort();
    scored.dedup_by(|a, b| a.1 == b.1);
    scored.into_iter().take(3).map(|(_, name)| name.to_owned()).collect()
}

/// Lower case, letters and digits only: how names are compared when one is misspelt.
fn fold(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// Levenshtein's distance, one row at a time.
fn edit_distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, cb) in b.iter().enumerate() {
            let substituted = diagonal + usize::from(ca != *cb);
            diagonal = row[j + 1];
            row[j + 1] = substituted.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}
