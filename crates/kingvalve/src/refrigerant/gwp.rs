//! Global warming potential: of components as the assessment reports give it, of blends by mass.

use std::collections::HashMap;
use std::fmt;
use std::str::FromStr;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use super::Refrigerant;
use crate::quantity::{Mass, kilograms};
use crate::{Error, Result};

/// The report of the Intergovernmental Panel on Climate Change a potential is taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "UPPERCASE")]
#[non_exhaustive]
pub enum Assessment {
    /// Fourth Assessment Report, 2007: the basis of the EU's and the United States' phase-down rules.
    Ar4,
    /// Fifth Assessment Report, 2013.
    Ar5,
    /// Sixth Assessment Report, 2021.
    Ar6,
}

/// How well a tabled value is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Mark {
    /// Read in the document or library its source names.
    #[serde(rename = "published")]
    Published,
    /// A value by definition or convention, in no report.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Known, but no copy of its source was seen.
    #[serde(rename = "memory")]
    Memory,
}

/// A 100-year global warming potential: the mass of carbon dioxide that warms as much as a mass of the refrigerant.
#[derive(Debug, Clone, PartialEq)]
pub struct Gwp {
    assessment: Assessment,
    value: f64,
    upper_bound: bool,
    mark: Mark,
    sources: Vec<&'static str>,
}

impl Refrigerant {
    /// The 100-year global warming potential by an assessment report.
    ///
    /// # Units
    /// Kilograms of carbon dioxide per kilogram.
    /// # Source
    /// Components: the reports' values (without carbon–climate feedback), each with its own source in
    /// [`Gwp::sources`]. A blend: the sum of share by mass times value, as 40 CFR 84 and Regulation (EU) 2024/573,
    /// Annex VI, compute it.
    /// # Valid range
    /// Any composition whose components all have a value in the report.
    /// # Accuracy
    /// The sum is exact and not rounded; published tables round it, and some follow another convention for
    /// hydrocarbons and olefins, which AR4 and AR5 do not list. The reports state ±26 to ±40 % for a value itself.
    /// # Errors
    /// A component without a value in that report.
    /// # Example
    /// ```
    /// use kingvalve::quantity::pounds;
    /// use kingvalve::refrigerant::{Assessment, Refrigerant};
    /// let gwp = Refrigerant::named("R-410A")?.gwp(Assessment::Ar4)?;
    /// assert_eq!(gwp.kilograms_per_kilogram(), 2087.5);
    /// assert_eq!(format!("{gwp}"), "2088 (AR4)");
    /// assert_eq!(format!("{:.1}", gwp.carbon_dioxide_equivalent(pounds(2.0)).metric_tons()), "1.9");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn gwp(&self, assessment: Assessment) -> Result<Gwp> {
        let rows = match &*TABLE {
            Ok(rows) => rows,
            Err(why) => return Err(Error::unreadable("the table of potentials", "data/gwp.json", why)),
        };
        let mut gwp =
            Gwp { assessment, value: 0.0, upper_bound: false, mark: Mark::Published, sources: Vec::new() };
        for (name, share) in self.components() {
            let Some(entry) = rows.get(&(name, assessment)) else {
                return Err(Error::inconsistent(
                    format!("{assessment} warming potential of {}", self.designation()),
                    format!("no {assessment} value for {name} was found"),
                    "use another assessment report",
                ));
            };
            gwp.value += share.fraction() * entry.value;
            gwp.upper_bound |= entry.less_than;
            gwp.mark = gwp.mark.max(entry.mark);
            if !gwp.sources.contains(&entry.source) {
                gwp.sources.push(entry.source);
            }
        }
        Ok(gwp)
    }
}

impl Gwp {
    /// The report it follows.
    pub fn assessment(&self) -> Assessment {
        self.assessment
    }

    /// Kilograms of carbon dioxide per kilogram of refrigerant.
    pub fn kilograms_per_kilogram(&self) -> f64 {
        self.value
    }

    /// Whether a component's value is given as "less than" only, so that this is the most it can be.
    pub fn is_upper_bound(&self) -> bool {
        self.upper_bound
    }

    /// The weakest mark of its components' values.
    pub fn mark(&self) -> Mark {
        self.mark
    }

    /// Where its components' values were read.
    pub fn sources(&self) -> &[&'static str] {
        &self.sources
    }

    /// The mass of carbon dioxide that warms as much as `amount`.
    ///
    /// # Source
    /// By definition: mass times potential.
    pub fn carbon_dioxide_equivalent(&self, amount: Mass) -> Mass {
        kilograms(amount.kilograms() * self.value)
    }
}

impl fmt::Display for Gwp {
    /// To the nearest whole number from ten up: `2088 (AR4)`, `0.5 (AR6)`, `≤ 146 (AR5)`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let bound = if self.upper_bound { "≤ " } else { "" };
        // Half a unit rounds up, as the tables print R-410A's 2087.5.
        let rounded =
            if self.value >= 10.0 { (self.value + 0.5).floor() } else { (self.value * 10.0).round() / 10.0 };
        write!(f, "{bound}{rounded} ({})", self.assessment)
    }
}

impl fmt::Display for Assessment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Assessment::Ar4 => "AR4",
            Assessment::Ar5 => "AR5",
            Assessment::Ar6 => "AR6",
        })
    }
}

impl FromStr for Assessment {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self> {
        match text.trim().to_ascii_uppercase().as_str() {
            "AR4" => Ok(Assessment::Ar4),
            "AR5" => Ok(Assessment::Ar5),
            "AR6" => Ok(Assessment::Ar6),
            _ => Err(Error::unknown("assessment report", text, ["AR4", "AR5", "AR6"])),
        }
    }
}

struct Entry {
    value: f64,
    less_than: bool,
    mark: Mark,
    source: &'static str,
}

#[derive(Deserialize)]
struct File {
    #[serde(borrow)]
    sources: HashMap<&'static str, &'static str>,
    components: Vec<Component>,
}

#[derive(Deserialize)]
#[serde(rename_all = "UPPERCASE")]
struct Component {
    #[serde(rename = "designation")]
    designation: &'static str,
    ar4: Option<Listed>,
    ar5: Option<Listed>,
    ar6: Option<Listed>,
}

#[derive(Deserialize)]
struct Listed {
    value: f64,
    mark: Mark,
    source: &'static str,
    #[serde(default)]
    less_than: bool,
}

type Rows = HashMap<(&'static str, Assessment), Entry>;

static TABLE: LazyLock<std::result::Result<Rows, String>> = LazyLock::new(|| {
    let file: File =
        serde_json::from_str(include_str!("data/gwp.json")).map_err(|error| error.to_string())?;
    let mut rows = Rows::new();
    for component in file.components {
        for (assessment, listed) in [
            (Assessment::Ar4, component.ar4),
            (Assessment::Ar5, component.ar5),
            (Assessment::Ar6, component.ar6),
        ] {
            let Some(Listed { value, mark, source, less_than }) = listed else { continue };
            let source = file.sources.get(source).ok_or_else(|| format!("no source {source:?}"))?;
            rows.insert((component.designation, assessment), Entry { value, less_than, mark, source });
        }
    }
    Ok(rows)
});
