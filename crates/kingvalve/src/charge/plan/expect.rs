//! What superheat and subcooling should do after a step.

use super::response::Running;
use super::situation::{Metering, Showing};
use crate::Result;
use crate::charge::VirtualCharge;
use crate::charge::inventory::Estimate;
use crate::measure::Interval;
use crate::quantity::{Ratio, TemperatureDifference, delta_fahrenheit, percent};

/// How much of the change that the virtual charge predicts a system shows: half to one and a half times.
///
/// # Source
/// Common practice, no source.
pub const COMMON_RESPONSE: (Ratio, Ratio) = (percent(50.0), percent(150.0));

/// A working valve holds its superheat within this. Common practice, no source.
const VALVE_HOLDS: TemperatureDifference = delta_fahrenheit(4.0);

/// After a step of `share` of the plate charge; nothing where that lies beyond the relation's range.
pub(super) fn running(
    relation: &VirtualCharge,
    showing: &Showing,
    metering: Metering,
    share: f64,
) -> Result<Option<Running>> {
    let after = relation.share(&showing.full, showing.superheat, showing.subcooling);
    if !after.is_ok_and(|now| relation.range.contains(now + Ratio::from_si(share))) {
        return Ok(None);
    }
    let whole = relation.degrees_per_charge(&showing.full)? * share;
    let (least, most) = (COMMON_RESPONSE.0.fraction(), COMMON_RESPONSE.1.fraction());
    let (none, one) = (TemperatureDifference::ZERO, delta_fahrenheit(1.0));
    // Without liquid in the condenser a step first fills what is missing to it: the rise may not show yet.
    let sealed = showing.subcooling > relation.least;
    Ok(Some(match metering {
        Metering::Valve => Running {
            superheat: around(showing.superheat, -VALVE_HOLDS, none, VALVE_HOLDS),
            subcooling: around(
                showing.subcooling,
                if sealed { least * whole } else { -one },
                whole,
                most * whole,
            ),
        },
        // Superheat and subcooling share the change, half and half in the middle.
        Metering::Orifice => {
            let by_superheat = whole / relation.superheat_weight.fraction().max(0.05);
            let fall = (most * by_superheat).min(showing.superheat.max(none));
            Running {
                superheat: around(showing.superheat, -fall, -(0.5 * by_superheat).min(fall), one),
                subcooling: around(showing.subcooling, -one, 0.5 * whole, most * whole),
            }
        }
    }))
}

/// A value, changed by at least, about and at most so much.
fn around(
    value: TemperatureDifference,
    least: TemperatureDifference,
    about: TemperatureDifference,
    most: TemperatureDifference,
) -> Estimate<TemperatureDifference> {
    let middle = value + about;
    let half = |end: TemperatureDifference| middle + 0.41 * (end - about);
    Estimate {
        median: middle,
        half: Interval::spanning(half(least), half(most)),
        ninety: Interval::spanning(value + least, value + most),
    }
}
