//! Whether a system answered a step as it should, and what explains it if not.

use serde::Serialize;

use crate::Result;
use crate::charge::inventory::Estimate;
use crate::measure::{Known, Level, Measured};
use crate::quantity::{Pressure, Quantity, TemperatureDifference};

/// What explains a response that is not as predicted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Alternative {
    /// A restriction in the liquid line, its filter-drier or a distributor.
    Restriction,
    /// The metering device feeds too little or too much.
    MeteringDevice,
    /// Air or nitrogen in the system.
    NonCondensables,
    /// A compressor that pumps poorly.
    Compressor,
    /// The refrigerant did not arrive, or leaves again as fast.
    NotArriving,
}

impl Alternative {
    /// What it is and which reading tells.
    pub const fn text(self) -> &'static str {
        match self {
            Alternative::Restriction => {
                "Restriction: feel and measure for a temperature drop along the liquid line and across the filter-drier."
            }
            Alternative::MeteringDevice => {
                "Metering device: check the valve's bulb, its strap and insulation, or the orifice's size and seat."
            }
            Alternative::NonCondensables => {
                "Air or nitrogen: with the system off and the outdoor coil at outdoor temperature, compare the pressure \
                 with saturation there."
            }
            Alternative::Compressor => {
                "Compressor: compare suction and head pressure and its current with the maker's table."
            }
            Alternative::NotArriving => {
                "The refrigerant does not arrive or leaves again: check the hose, the cylinder's valve, the scale, and \
                 look for a large leak."
            }
        }
    }
}

/// What a step did.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "response", rename_all = "snake_case")]
pub enum Response {
    /// As predicted, within the doubt of both.
    AsPredicted,
    /// Not as predicted: stop adding, and look for one of these.
    NotAsPredicted {
        /// Most likely first.
        alternatives: Vec<Alternative>,
    },
}

/// Where a reading lies to a prediction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Below,
    Inside,
    Above,
}

/// Inside the 90 % interval widened by the reading's own 95 % doubt and half of itself.
fn side<Q: Quantity>(expected: &Estimate<Q>, read: &Measured<Q>) -> Side {
    let doubt = read.expanded(Level::default()).base();
    let half = |end: Q| (end.base() - expected.median.base()).abs() * 1.5 + doubt;
    let away = read.value().base() - expected.median.base();
    if away < -half(expected.ninety.low()) {
        Side::Below
    } else if away > half(expected.ninety.high()) {
        Side::Above
    } else {
        Side::Inside
    }
}

impl Response {
    /// Of a standing pressure, settled after a step.
    ///
    /// # Units
    /// Absolute pressures.
    /// # Source
    /// The prediction of [`Inventory::expect_standing`](crate::charge::inventory::Inventory::expect_standing); the
    /// limit is one and a half times its 90 % interval and the reading's doubt. What explains a miss: common practice,
    /// no source.
    /// # Valid range
    /// Off and settled, at the temperatures of the prediction.
    /// # Accuracy
    /// One response in a hundred or fewer is called out of line by chance, where the prediction is right.
    /// # Errors
    /// None.
    /// # Example
    /// ```
    /// use kingvalve::charge::inventory::{Inventory, System};
    /// use kingvalve::charge::plan::Response;
    /// use kingvalve::measure::Measured;
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let inventory = Inventory::prior(&System::of_plate(&Refrigerant::named("R-410A")?, pounds(6.0))?)?;
    /// let expected = inventory.expect_standing(&[fahrenheit(80.0)])?;
    /// let far_above = Measured::from_standard(psia(400.0), psi(1.0), "gauge")?;
    /// assert!(matches!(Response::standing(&expected, &far_above), Response::NotAsPredicted { .. }));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn standing(expected: &Estimate<Pressure>, read: &Measured<Pressure>) -> Response {
        match side(expected, read) {
            Side::Inside => Response::AsPredicted,
            Side::Above => Response::NotAsPredicted { alternatives: vec![Alternative::NonCondensables] },
            Side::Below => Response::NotAsPredicted { alternatives: vec![Alternative::NotArriving] },
        }
    }

    /// Of superheat and subcooling, steady after a step.
    ///
    /// # Units
    /// Temperature differences.
    /// # Source
    /// The prediction of [`Plan`](super::Plan); what explains a miss: common practice, no source.
    /// # Valid range
    /// As [`Inventory::running`](crate::charge::inventory::Inventory::running).
    /// # Accuracy
    /// As [`standing`](Self::standing).
    /// # Errors
    /// A reading that is not finite.
    /// # Example
    /// ```
    /// use kingvalve::charge::inventory::Estimate;
    /// use kingvalve::charge::plan::{Alternative, Running, Response};
    /// use kingvalve::measure::{Interval, Measured};
    /// use kingvalve::quantity::*;
    /// let degrees = |low: f64, high: f64| -> Result<_, kingvalve::Error> {
    ///     let ninety = Interval::new(delta_fahrenheit(low), delta_fahrenheit(high))?;
    ///     Ok(Estimate { median: ninety.middle(), half: ninety, ninety })
    /// };
    /// let expected = Running { superheat: degrees(14.0, 22.0)?, subcooling: degrees(4.0, 8.0)? };
    /// let read = |x: f64| Measured::from_standard(delta_fahrenheit(x), delta_fahrenheit(0.7), "clamp");
    /// let response = Response::running(&expected, read(34.0)?, read(15.0)?)?;
    /// let Response::NotAsPredicted { alternatives } = response else { panic!() };
    /// assert_eq!(alternatives[0], Alternative::Restriction); // liquid backs up, the evaporator starves
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn running(
        expected: &Running,
        superheat: impl Known<TemperatureDifference>,
        subcooling: impl Known<TemperatureDifference>,
    ) -> Result<Response> {
        let (superheat, subcooling) = (measured(superheat)?, measured(subcooling)?);
        let pattern = (side(&expected.superheat, &superheat), side(&expected.subcooling, &subcooling));
        use Alternative::{Compressor, MeteringDevice, NonCondensables, NotArriving, Restriction};
        let alternatives = match pattern {
            (Side::Inside, Side::Inside) => return Ok(Response::AsPredicted),
            (Side::Above, Side::Above) => vec![Restriction, MeteringDevice],
            (Side::Above, Side::Inside) => vec![Restriction, MeteringDevice, NotArriving],
            (Side::Above, Side::Below) => vec![NotArriving, Restriction],
            (Side::Inside, Side::Above) => vec![NonCondensables, Restriction],
            (Side::Inside, Side::Below) => vec![NotArriving, Compressor],
            (Side::Below, Side::Above) => vec![NonCondensables, MeteringDevice],
            (Side::Below, Side::Inside | Side::Below) => vec![MeteringDevice, Compressor],
        };
        Ok(Response::NotAsPredicted { alternatives })
    }

    /// Whether it was as predicted.
    pub fn is_as_predicted(&self) -> bool {
        matches!(self, Response::AsPredicted)
    }
}

/// What a running system should show after a step.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Running {
    /// Superheat to expect.
    pub superheat: Estimate<TemperatureDifference>,
    /// Subcooling to expect.
    pub subcooling: Estimate<TemperatureDifference>,
}

fn measured(value: impl Known<TemperatureDifference>) -> Result<Measured<TemperatureDifference>> {
    let read = Measured::exact(value.value()).depending_on(value, 1.0);
    read.interval(Level::default())?;
    Ok(read)
}
