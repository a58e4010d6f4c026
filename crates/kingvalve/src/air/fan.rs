//! A fan's table: airflow against external static pressure, from the user's own data plate or manual.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::airflow::positive;
use crate::measure::{Known, Label};
use crate::quantity::{PressureDifference, Quantity, VolumeFlow, cubic_meters_per_second};
use crate::{Error, Result};

/// Airflow against total external static pressure at one speed tap, as the equipment's own table gives it.
///
/// The table holds for the filter, coil and tap it was made with: read the pressures across the same parts.
/// In JSON `{"points": [{"static_pressure": "0.3 inH2O", "airflow": "1350 cfm"}, …], "source": "…"}`.
///
/// # Example
/// ```
/// use kingvalve::air::FanTable;
/// use kingvalve::quantity::*;
/// let fan = FanTable::new(
///     [(0.3, 1350.0), (0.5, 1240.0), (0.7, 1090.0)].map(|(p, v)| (inches_of_water(p), cfm(v))),
///     "invented table, tap 3",
/// )?;
/// assert_eq!(format!("{:.0}", fan.airflow(inches_of_water(0.57))?), "1188 cfm");
/// assert!(fan.airflow(inches_of_water(0.9)).unwrap_err().is_out_of_range());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Form", into = "Form")]
pub struct FanTable {
    points: Vec<FanPoint>,
    source: Label,
}

/// One row of a fan table.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FanPoint {
    /// Total external static pressure.
    pub static_pressure: PressureDifference,
    /// Airflow there.
    pub airflow: VolumeFlow,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "fan_table")]
struct Form {
    points: Vec<FanPoint>,
    #[serde(default, skip_serializing_if = "Label::is_empty")]
    source: Label,
}

impl FanTable {
    /// A table of two rows or more, static pressure rising, with where it comes from.
    ///
    /// # Errors
    /// With fewer than two rows, pressures that do not rise from row to row, or an airflow that is not positive.
    pub fn new(
        points: impl IntoIterator<Item = (PressureDifference, VolumeFlow)>,
        source: impl Into<Label>,
    ) -> Result<FanTable> {
        let points =
            points.into_iter().map(|(static_pressure, airflow)| FanPoint { static_pressure, airflow });
        FanTable::checked(points.collect(), source.into())
    }

    fn checked(points: Vec<FanPoint>, source: Label) -> Result<FanTable> {
        if points.len() < 2 {
            return Err(Error::inconsistent(
                "fan table",
                format!("it has {} rows", points.len()),
                "give two or more to interpolate between",
            ));
        }
        for point in &points {
            positive("airflow in a fan table", point.airflow)?;
        }
        for (a, b) in points.iter().zip(points.iter().skip(1)) {
            let [a, b] = [a.static_pressure, b.static_pressure];
            if !matches!(a.partial_cmp(&b), Some(std::cmp::Ordering::Less)) {
                return Err(Error::inconsistent(
                    "fan table",
                    format!("{} does not lie above {}", b.in_unit("inH2O")?, a.in_unit("inH2O")?),
                    "give the rows in the order of rising static pressure, each once",
                ));
            }
        }
        Ok(FanTable { points, source })
    }

    /// Its rows.
    pub fn points(&self) -> &[FanPoint] {
        &self.points
    }

    /// Where it comes from.
    pub fn source(&self) -> &str {
        self.source.as_str()
    }

    /// The airflow at a total external static pressure, on the straight line between the rows around it.
    ///
    /// # Units
    /// Pressure difference; volume flow of standard air, as fan tables give it unless they say otherwise.
    /// # Source
    /// The table.
    /// # Valid range
    /// From its first row to its last.
    /// # Accuracy
    /// That of the reading times the slope; the table's own and the bend between rows are not counted.
    /// # Errors
    /// Outside the table: no extrapolation.
    /// # Example
    /// See [`FanTable`].
    pub fn airflow<P: Known<PressureDifference>>(&self, static_pressure: P) -> Result<P::With<VolumeFlow>> {
        let p = static_pressure.value();
        let mut rows = self.points.iter().zip(self.points.iter().skip(1));
        let Some((a, b)) = rows.find(|(a, b)| a.static_pressure <= p && p <= b.static_pressure) else {
            let ends = self.points.first().zip(self.points.last());
            let limit = match ends {
                Some((first, last)) => format!(
                    "the table runs from {} to {}",
                    first.static_pressure.in_unit("inH2O")?,
                    last.static_pressure.in_unit("inH2O")?
                ),
                None => "the table is empty".into(),
            };
            return Err(Error::out_of_range(
                "total external static pressure",
                p.in_unit("inH2O")?,
                limit,
                "take the table of the tap in use, or measure the airflow another way",
            ));
        };
        let slope =
            (b.airflow.base() - a.airflow.base()) / (b.static_pressure.base() - a.static_pressure.base());
        let flow = a.airflow.base() + slope * (p.base() - a.static_pressure.base());
        Ok(static_pressure.carry(cubic_meters_per_second(flow), slope))
    }
}

impl TryFrom<Form> for FanTable {
    type Error = Error;
    fn try_from(form: Form) -> Result<FanTable> {
        FanTable::checked(form.points, form.source)
    }
}

impl From<FanTable> for Form {
    fn from(table: FanTable) -> Form {
        Form { points: table.points, source: table.source }
    }
}
