//! The table of designations.

use std::sync::LazyLock;

use kingvalve_fluid::{Basis, Fluid};
use serde::Deserialize;

use super::{SafetyGroup, failure};
use crate::{Error, Result};

/// What a designation stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Kind {
    /// One substance.
    Pure,
    /// A blend whose vapour differs from its liquid: it has a glide (the 400 series).
    Zeotrope,
    /// A blend that boils nearly like one substance (the 500 series).
    Azeotrope,
}

/// One row of the table.
#[derive(Debug)]
pub(crate) struct Listing {
    pub designation: String,
    /// The designation [folded](fold).
    folded: String,
    pub kind: Kind,
    pub components: Vec<String>,
    pub mass_percent: Vec<f64>,
    pub tolerance_percent: Option<Vec<[f64; 2]>>,
    safety: Option<Safety>,
}

#[derive(Debug, Deserialize)]
struct Table {
    pure: Vec<PureRow>,
    blends: Vec<BlendRow>,
}

#[derive(Debug, Deserialize)]
struct PureRow {
    designation: String,
    safety: Option<Safety>,
}

#[derive(Debug, Deserialize)]
struct BlendRow {
    designation: String,
    kind: Kind,
    components: Vec<String>,
    mass_percent: Vec<f64>,
    tolerance_percent: Option<Vec<[f64; 2]>>,
    safety: Option<Safety>,
}

#[derive(Debug, Deserialize)]
struct Safety {
    group: SafetyGroup,
}

impl Listing {
    pub fn fluid(&self) -> Result<Fluid> {
        let composition: Vec<(&str, f64)> = self
            .components
            .iter()
            .map(String::as_str)
            .zip(self.mass_percent.iter().map(|percent| percent / 100.0))
            .collect();
        Fluid::blend(&composition, Basis::Mass).map_err(failure::of_composition)
    }

    pub fn safety_group(&self) -> Option<SafetyGroup> {
        self.safety.as_ref().map(|safety| safety.group)
    }
}

static TABLE: LazyLock<std::result::Result<Vec<Listing>, String>> = LazyLock::new(|| {
    let table: Table =
        serde_json::from_str(include_str!("data/designations.json")).map_err(|error| error.to_string())?;
    let pure = table.pure.into_iter().map(|row| Listing {
        components: vec![row.designation.clone()],
        folded: fold(&row.designation),
        designation: row.designation,
        kind: Kind::Pure,
        mass_percent: vec![100.0],
        tolerance_percent: None,
        safety: row.safety,
    });
    let blends = table.blends.into_iter().map(|row| Listing {
        folded: fold(&row.designation),
        designation: row.designation,
        kind: row.kind,
        components: row.components,
        mass_percent: row.mass_percent,
        tolerance_percent: row.tolerance_percent,
        safety: row.safety,
    });
    Ok(pure.chain(blends).collect())
});

fn table() -> Result<&'static [Listing]> {
    match &*TABLE {
        Ok(rows) => Ok(rows),
        Err(why) => Err(Error::unreadable("the designation table", "data/designations.json", why)),
    }
}

/// Every designation the library knows, pure refrigerants first.
///
/// # Example
/// ```
/// use kingvalve::refrigerant::designations;
/// assert!(designations().any(|name| name == "R-454B"));
/// ```
pub fn designations() -> impl Iterator<Item = &'static str> {
    table().unwrap_or_default().iter().map(|listing| listing.designation.as_str())
}

/// The row a name means.
pub(super) fn find(name: &str) -> Result<&'static Listing> {
    let rows = table()?;
    let wanted = fold(name);
    if let Some(listing) = rows.iter().find(|listing| listing.folded == wanted) {
        return Ok(listing);
    }
    by_chemical_name(name, rows).ok_or_else(|| {
        Error::unknown("refrigerant", name, rows.iter().map(|listing| listing.designation.as_str()))
    })
}

/// Lower case, letters and digits only, without the leading `r`.
fn fold(name: &str) -> String {
    let folded: String = name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect();
    folded.strip_prefix('r').map_or(folded.clone(), str::to_owned)
}

fn by_chemical_name(name: &str, rows: &'static [Listing]) -> Option<&'static Listing> {
    rows.iter().filter(|listing| listing.kind == Kind::Pure).find(|listing| {
        Fluid::pure(&listing.designation).is_ok_and(|fluid| {
            fluid.chemistry().any(|what| what.chemical_name.eq_ignore_ascii_case(name.trim()))
        })
    })
}
