//! How far a reading may lie from its target.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::measure::Limits;
use crate::quantity::{TemperatureDifference, delta_fahrenheit};

/// The limits a charge is judged by. The default is [`california_installer`](Self::california_installer); a shop or a
/// maker may put its own in place of any.
///
/// # Example
/// ```
/// use kingvalve::cycle::target::ChargeTolerance;
/// use kingvalve::measure::Limits;
/// use kingvalve::quantity::delta_fahrenheit;
/// let usual = ChargeTolerance::default();
/// assert_eq!(usual.subcooling.upper(), Some(delta_fahrenheit(3.0)));
/// let own = Limits::between(delta_fahrenheit(-2.0), delta_fahrenheit(2.0))?.from_source("shop policy");
/// let shop = ChargeTolerance { subcooling: own, ..usual };
/// assert_eq!(shop.superheat.upper(), Some(delta_fahrenheit(5.0)));
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ChargeTolerance {
    /// Of actual less target superheat, fixed orifice.
    pub superheat: Limits<TemperatureDifference>,
    /// Of actual less target subcooling, thermostatic or electronic valve.
    pub subcooling: Limits<TemperatureDifference>,
    /// Of the superheat a working valve holds, where the maker gives no range.
    pub valve_superheat: Limits<TemperatureDifference>,
    /// The lowest target superheat that can be tested against.
    pub lowest_target: TemperatureDifference,
}

/// Below this target superheat there is no valid test: the table of the procedure has a dash there (California 2008
/// Reference Residential Appendix RA3.2.2.6.1).
const LOWEST_TARGET: TemperatureDifference = delta_fahrenheit(5.0);

impl ChargeTolerance {
    /// California's limits for the installer: superheat ±5 °F, subcooling ±3 °F, valve superheat 4 to 25 °F, no test
    /// below a target of 5 °F.
    ///
    /// # Source
    /// California Energy Commission, 2008 Reference Residential Appendix RA3.2.2.6.1 and RA3.2.2.6.2.
    pub fn california_installer() -> ChargeTolerance {
        let within =
            |limit: f64, source| Limits::ordered(delta_fahrenheit(-limit), delta_fahrenheit(limit), source);
        ChargeTolerance {
            superheat: within(5.0, "±5 °F, California 2008 RA3.2.2.6.1, installer"),
            subcooling: within(3.0, "±3 °F, California 2008 RA3.2.2.6.2, installer"),
            valve_superheat: Limits::ordered(
                delta_fahrenheit(4.0),
                delta_fahrenheit(25.0),
                "4 to 25 °F, California 2008 RA3.2.2.6.2, installer",
            ),
            lowest_target: LOWEST_TARGET,
        }
    }

    /// The same for the rater who verifies: superheat ±6 °F, subcooling ±4 °F, valve superheat 3 to 26 °F.
    ///
    /// # Source
    /// As [`california_installer`](Self::california_installer); the rater's subcooling limit from memory.
    pub fn california_rater() -> ChargeTolerance {
        let within =
            |limit: f64, source| Limits::ordered(delta_fahrenheit(-limit), delta_fahrenheit(limit), source);
        ChargeTolerance {
            superheat: within(6.0, "±6 °F, California 2008 RA3.2.2.6.1, rater"),
            subcooling: within(4.0, "±4 °F, California 2008 RA3.2.2.6.2, rater"),
            valve_superheat: Limits::ordered(
                delta_fahrenheit(3.0),
                delta_fahrenheit(26.0),
                "3 to 26 °F, California 2008 RA3.2.2.6.2, rater",
            ),
            lowest_target: LOWEST_TARGET,
        }
    }
}

impl Default for ChargeTolerance {
    fn default() -> ChargeTolerance {
        ChargeTolerance::california_installer()
    }
}
