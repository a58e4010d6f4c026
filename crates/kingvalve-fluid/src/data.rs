//! The data files: what they look like, and the table of those compiled in.

use serde::Deserialize;

mod files;

/// Where a set of coefficients was published.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[non_exhaustive]
pub struct Source {
    /// Author and year.
    pub key: String,
    /// The full reference.
    pub citation: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PureFile {
    pub name: String,
    pub chemical_name: String,
    pub formula: String,
    pub cas: String,
    pub source: Source,
    pub molar_mass: f64,
    pub gas_constant: f64,
    pub critical: CriticalPoint,
    pub reducing: ReducingPoint,
    pub acentric_factor: f64,
    pub triple_point_temperature: f64,
    pub valid: Valid,
    pub ideal: Vec<IdealBlock>,
    pub residual: Vec<ResidualBlock>,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct CriticalPoint {
    pub temperature: f64,
    pub pressure: f64,
    pub density: f64,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ReducingPoint {
    pub temperature: f64,
    pub density: f64,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Valid {
    pub temperature: (f64, f64),
    pub pressure_max: f64,
}

/// A table of coefficients: one term a row, as many numbers as the kind of term has.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Table<const N: usize>
where
    [f64; N]: for<'a> Deserialize<'a>,
{
    #[allow(dead_code, reason = "for the reader of the file; the kind fixes the columns")]
    columns: Vec<String>,
    pub rows: Vec<[f64; N]>,
}

/// Terms of αʳ of one kind.
#[derive(Debug, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub(crate) enum ResidualBlock {
    Power(Table<4>),
    Exponential(Table<5>),
    DoubleExponential(Table<7>),
    Lemmon2005(Table<5>),
    Gaussian(Table<7>),
    Gerg(Table<7>),
    Gao(Table<8>),
    NonAnalytic(Table<8>),
}

/// Terms of α⁰ of one kind.
#[derive(Debug, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub(crate) enum IdealBlock {
    Lead { a1: f64, a2: f64 },
    LogTau { a: f64 },
    TauLogTau { n: f64 },
    Power(Table<2>),
    PlanckEinstein(Table<2>),
    PlanckEinsteinGeneral(Table<4>),
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PairFile {
    pub source: Source,
    pub pairs: Vec<PairData>,
    #[serde(default)]
    pub departures: Vec<DepartureData>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PairData {
    pub components: [String; 2],
    pub beta_temperature: f64,
    pub gamma_temperature: f64,
    pub beta_volume: f64,
    pub gamma_volume: f64,
    pub factor: f64,
    pub departure: Option<String>,
    pub basis: PairBasis,
}

/// How the parameters of a pair of components were found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum PairBasis {
    /// Reducing parameters fitted to measurements of this pair.
    Fitted,
    /// No measurements: a published estimation scheme.
    Estimated,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct DepartureData {
    pub name: String,
    pub terms: Vec<ResidualBlock>,
}

/// The designation and the text of the data file of a pure fluid.
pub(crate) fn pure_text(name: &str) -> Option<(&'static str, &'static str)> {
    files::PURE.iter().find(|(known, _)| *known == name).copied()
}

/// Designations of all pure fluids with an equation of state, in the order of their files.
pub fn pure_names() -> impl Iterator<Item = &'static str> {
    files::PURE.iter().map(|(name, _)| *name)
}

/// File names and texts of the binary parameters, the newest accepted first.
pub(crate) fn pair_texts() -> &'static [(&'static str, &'static str)] {
    files::PAIRS
}
