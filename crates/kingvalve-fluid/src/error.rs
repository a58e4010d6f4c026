//! The one error type of the crate.

/// What every fallible function of the crate returns.
pub type Result<T, E = Error> = std::result::Result<T, E>;

/// Something the crate refuses to compute, and why.
///
/// The kinds are private; ask with [`is_out_of_range`](Error::is_out_of_range) and its siblings.
///
/// # Example
/// ```
/// use kingvalve_fluid::Fluid;
/// let error = Fluid::pure("R-32")?.bubble_at_temperature(400.0).unwrap_err();
/// assert!(error.is_out_of_range());
/// # Ok::<(), kingvalve_fluid::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error(transparent)]
pub struct Error(Box<Kind>);

#[derive(Debug, Clone, PartialEq, thiserror::Error)]
enum Kind {
    #[error("{what} {value} {unit} is outside {low} to {high} {unit} for {fluid}")]
    OutOfRange { fluid: String, what: &'static str, unit: &'static str, value: f64, low: f64, high: f64 },
    #[error("no equation of state for {0:?}")]
    UnknownFluid(String),
    #[error("composition: {0}")]
    Composition(String),
    #[error(
        "{fluid} at {temperature} K and {pressure} Pa is between bubble and dew: liquid and vapour coexist, no single density"
    )]
    TwoPhase { fluid: String, temperature: f64, pressure: f64 },
    #[error("{what} of {fluid} at {at} did not converge")]
    NotConverged { fluid: String, what: &'static str, at: String },
    #[error("data file {file}: {why}")]
    Data { file: String, why: String },
}

impl Error {
    pub(crate) fn out_of_range(
        fluid: &str,
        what: &'static str,
        unit: &'static str,
        value: f64,
        (low, high): (f64, f64),
    ) -> Self {
        Error(Box::new(Kind::OutOfRange { fluid: fluid.to_owned(), what, unit, value, low, high }))
    }

    pub(crate) fn unknown_fluid(name: &str) -> Self {
        Error(Box::new(Kind::UnknownFluid(name.to_owned())))
    }

    pub(crate) fn composition(why: impl Into<String>) -> Self {
        Error(Box::new(Kind::Composition(why.into())))
    }

    pub(crate) fn two_phase(fluid: &str, temperature: f64, pressure: f64) -> Self {
        Error(Box::new(Kind::TwoPhase { fluid: fluid.to_owned(), temperature, pressure }))
    }

    pub(crate) fn not_converged(fluid: &str, what: &'static str, at: impl Into<String>) -> Self {
        Error(Box::new(Kind::NotConverged { fluid: fluid.to_owned(), what, at: at.into() }))
    }

    pub(crate) fn data(file: &str, why: impl Into<String>) -> Self {
        Error(Box::new(Kind::Data { file: file.to_owned(), why: why.into() }))
    }

    /// A temperature, pressure or density lies outside the range of the equation, or is not a number.
    pub fn is_out_of_range(&self) -> bool {
        matches!(*self.0, Kind::OutOfRange { .. })
    }

    /// There is no equation of state by that name.
    pub fn is_unknown_fluid(&self) -> bool {
        matches!(*self.0, Kind::UnknownFluid(_))
    }

    /// The fractions do not make a composition, or the model does not cover its components.
    pub fn is_composition(&self) -> bool {
        matches!(*self.0, Kind::Composition(_))
    }

    /// The state asked for is a mixture of liquid and vapour.
    pub fn is_two_phase(&self) -> bool {
        matches!(*self.0, Kind::TwoPhase { .. })
    }

    /// For an out-of-range error: what was out of range, its value, and the limits, in SI.
    pub fn range(&self) -> Option<(&'static str, f64, f64, f64)> {
        match *self.0 {
            Kind::OutOfRange { what, value, low, high, .. } => Some((what, value, low, high)),
            _ => None,
        }
    }
}
