//! A maker's or a shop's charging chart.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::grid::{Place, bilinear, place, rises};
use crate::measure::{Both, Known, Label, carry_both};
use crate::quantity::{Quantity, Temperature, TemperatureDifference, delta_kelvins};
use crate::{Error, Result};

/// Targets by outdoor dry bulb (rows) and indoor temperature (columns), as data of the user: superheat by indoor wet
/// bulb for a fixed orifice, subcooling or approach by whatever indoor temperature the maker's chart has.
///
/// In JSON `{"outdoor": ["75 °F", …], "indoor": ["60 °F", …], "targets": [["12 Δ°F", null, …], …], "source": "…"}`;
/// `null` where the chart has a dash.
///
/// # Example
/// ```
/// use kingvalve::cycle::target::ChargingChart;
/// use kingvalve::quantity::*;
/// let chart: ChargingChart = serde_json::from_str(r#"{
///     "outdoor": ["75 °F", "85 °F"], "indoor": ["60 °F", "64 °F"],
///     "targets": [["12 Δ°F", "18 Δ°F"], [null, "12 Δ°F"]], "source": "invented chart"
/// }"#).unwrap();
/// let beside_a_dash = chart.target(fahrenheit(80.0), fahrenheit(62.0)).unwrap_err();
/// assert!(beside_a_dash.to_string().contains("dash"));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Form", into = "Form")]
pub struct ChargingChart(Form);

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "charging_chart")]
struct Form {
    /// Outdoor dry bulbs, rising: one row each.
    outdoor: Vec<Temperature>,
    /// Indoor temperatures, rising: one column each.
    indoor: Vec<Temperature>,
    /// The targets, a row for each outdoor temperature.
    targets: Vec<Vec<Option<TemperatureDifference>>>,
    /// Whose chart it is.
    source: Label,
}

impl ChargingChart {
    /// A chart of two rows and two columns or more.
    ///
    /// # Errors
    /// Temperatures that do not rise, a row of another length, a target that is not finite.
    pub fn new(
        outdoor: Vec<Temperature>,
        indoor: Vec<Temperature>,
        targets: Vec<Vec<Option<TemperatureDifference>>>,
        source: impl Into<Label>,
    ) -> Result<ChargingChart> {
        ChargingChart::try_from(Form { outdoor, indoor, targets, source: source.into() })
    }

    /// Whose chart it is.
    pub fn source(&self) -> &str {
        self.0.source.as_str()
    }

    /// The target, bilinear between the four entries around it.
    ///
    /// # Units
    /// Outdoor dry bulb and indoor temperature in; temperature difference out.
    /// # Source
    /// The chart.
    /// # Valid range
    /// Inside the chart, where it has entries.
    /// # Accuracy
    /// That of the readings times the chart's slopes; the chart's own is not counted.
    /// # Errors
    /// Outside the chart, or next to one of its dashes: no extrapolation.
    /// # Example
    /// ```
    /// use kingvalve::cycle::target::ChargingChart;
    /// use kingvalve::quantity::*;
    /// let f = |t: &[f64]| t.iter().map(|t| fahrenheit(*t)).collect::<Vec<_>>();
    /// let d = |t: &[f64]| t.iter().map(|t| Some(delta_fahrenheit(*t))).collect::<Vec<_>>();
    /// let rows = vec![d(&[12.0, 18.0]), d(&[6.0, 12.0])];
    /// let chart = ChargingChart::new(f(&[75.0, 85.0]), f(&[60.0, 64.0]), rows, "invented chart")?;
    /// assert_eq!(format!("{:.1}", chart.target(fahrenheit(80.0), fahrenheit(62.0))?), "12.0 Δ°F");
    /// assert!(chart.target(fahrenheit(90.0), fahrenheit(62.0)).unwrap_err().is_out_of_range());
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn target<O: Known<Temperature>, I: Known<Temperature>>(
        &self,
        outdoor: O,
        indoor: I,
    ) -> Result<Both<O::Grade, I::Grade, TemperatureDifference>> {
        let (out, inside) = (outdoor.value(), indoor.value());
        let row = placed("outdoor temperature", &self.0.outdoor, out)?;
        let column = placed("indoor temperature", &self.0.indoor, inside)?;
        let (r, c) = (row.at, column.at);
        let corners =
            [[self.entry(r, c), self.entry(r, c + 1)], [self.entry(r + 1, c), self.entry(r + 1, c + 1)]];
        let [[Some(a), Some(b)], [Some(c), Some(d)]] = corners else {
            return Err(Error::out_of_range(
                "charging conditions",
                format!("{out:.1} outdoors, {inside:.1} indoors"),
                "the chart has a dash there",
                "test under other conditions, or weigh the charge in",
            ));
        };
        let [target, by_outdoor, by_indoor] = bilinear([[a, b], [c, d]], row, column);
        Ok(carry_both(delta_kelvins(target), (&outdoor, by_outdoor), (&indoor, by_indoor)))
    }

    fn entry(&self, row: usize, column: usize) -> Option<f64> {
        self.0.targets.get(row).and_then(|row| row.get(column)).copied().flatten().map(Quantity::base)
    }
}

/// The step of the chart a value lies in.
fn placed(what: &str, steps: &[Temperature], value: Temperature) -> Result<Place> {
    place(steps.iter().map(|step| step.base()), value.base()).ok_or_else(|| {
        let limit = match (steps.first(), steps.last()) {
            (Some(first), Some(last)) => format!("the chart runs from {first:.0} to {last:.0}"),
            _ => "the chart is empty".into(),
        };
        Error::out_of_range(what, value, limit, "test under other conditions, or weigh the charge in")
    })
}

impl TryFrom<Form> for ChargingChart {
    type Error = Error;
    fn try_from(form: Form) -> Result<ChargingChart> {
        let wrong = |why: String, advice: &str| Err(Error::inconsistent("charging chart", why, advice));
        for (name, steps) in [("outdoor", &form.outdoor), ("indoor", &form.indoor)] {
            if !rises(steps.iter().map(|step| step.base())) {
                return wrong(format!("{name} must be two temperatures or more, rising"), "sort them");
            }
        }
        let wide = form.indoor.len();
        if form.targets.len() != form.outdoor.len() || form.targets.iter().any(|row| row.len() != wide) {
            return wrong(
                format!("it needs {} rows of {wide} targets", form.outdoor.len()),
                "give a row for each outdoor temperature and an entry, or null, for each indoor one",
            );
        }
        if form.targets.iter().flatten().flatten().any(|target| !target.is_finite()) {
            return wrong("a target is not a finite number".into(), "null stands for none");
        }
        Ok(ChargingChart(form))
    }
}

impl From<ChargingChart> for Form {
    fn from(chart: ChargingChart) -> Form {
        chart.0
    }
}
