//! How much air moves: from a temperature rise, from pressures and a fan table, from a traverse.

use super::carry::{Of3, carried};
use super::state::MoistAir;
use crate::measure::{All3, Both, Grade, Known, carry_both};
use crate::quantity::{
    Area, Power, PressureDifference, Quantity, Temperature, Velocity, VolumeFlow, cubic_meters_per_second,
    delta_pascals, meters_per_second,
};
use crate::{Error, Result};

/// The airflow that a known sensible heat warms from one temperature to another.
///
/// The heat is what reaches the air: electric heat as measured volts × amps (fan included where the leaving reading is
/// downstream of it), or a furnace's *output*, measured, not its nameplate.
///
/// # Units
/// Power, temperatures; the volume flow at the state of the entering air.
/// # Source
/// Energy balance at constant humidity: V = q·v/(c·Δt), v by equation 26 and c from equation 30 of ASHRAE
/// Handbook—Fundamentals 2017, chapter 1.
/// # Valid range
/// Steady heating, supply thermometer out of sight of the heat source, readings averaged over the duct.
/// # Accuracy
/// That of the readings; a rise of 20 °F read to ±1 °F at each end leaves about ±7 % alone.
/// # Errors
/// Heat that is not positive, or leaving air that is not warmer.
/// # Example
/// ```
/// use kingvalve::air::{MoistAir, airflow_from_heat};
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let probe = Instrument::resolution(delta_fahrenheit(0.1)).accuracy(delta_fahrenheit(0.5));
/// let back = MoistAir::from_relative_humidity(Reading::new(fahrenheit(70.0), probe.clone())?, percent(40.0), &Site::sea_level())?;
/// let supply = Reading::new(fahrenheit(97.0), probe)?;
/// let heat = volts(238.0) * amperes(42.0); // the elements, read with clamp and voltmeter
/// let flow = airflow_from_heat(heat, &back, supply)?;
/// assert_eq!(flow.to_string(), "1168.3 ± 3.8 cfm"); // one probe at both ends: its accuracy cancels
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn airflow_from_heat<H: Known<Power>, E: Grade, T: Known<Temperature>>(
    heat: H,
    entering: &MoistAir<E>,
    leaving: T,
) -> Result<All3<H::Grade, E, T::Grade, VolumeFlow>> {
    let q = heat.value();
    let (back, supply) = (entering.dry_bulb.value(), leaving.value());
    positive("heat given to the air", q)?;
    let rise = supply.base() - back.base();
    if rise.is_nan() || rise <= 0.0 {
        return Err(Error::inconsistent(
            "temperature rise",
            format!("the leaving air, {supply:.1}, is not warmer than the entering air, {back:.1}"),
            "check which reading is which, and that the heat is on",
        ));
    }
    let [v, v_by_dry, v_by_ratio] = entering.volume();
    let [c, c_by_ratio] = entering.heat_capacity();
    let flow = q.base() * v / (c * rise);
    Ok(carried::<Of3<H::Grade, E, T::Grade>, _>(cubic_meters_per_second(flow), |doubt| {
        doubt
            .by(&heat, flow / q.base())
            .by(&entering.dry_bulb, flow * (1.0 / rise + v_by_dry / v))
            .by(&entering.humidity_ratio, flow * (v_by_ratio / v - c_by_ratio / c))
            .by(&leaving, -flow / rise)
    }))
}

/// The total external static pressure of an air handler: from the return side to the supply side.
///
/// # Units
/// Pressure differences to the room, as the probe reads them: the return side negative.
/// # Source
/// Definition, as in fan tables: supply less return.
/// # Valid range
/// Supply side at or above, return side at or below the room.
/// # Accuracy
/// That of the readings.
/// # Errors
/// A return reading above zero or a supply reading below it.
/// # Example
/// ```
/// use kingvalve::air::total_external_static;
/// use kingvalve::quantity::*;
/// let total = total_external_static(inches_of_water(0.32), inches_of_water(-0.25))?;
/// assert_eq!(format!("{:.2}", total.in_unit("inH2O")?), "0.57 inH2O");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn total_external_static<S: Known<PressureDifference>, R: Known<PressureDifference>>(
    supply: S,
    return_side: R,
) -> Result<Both<S::Grade, R::Grade, PressureDifference>> {
    let (up, down) = (supply.value(), return_side.value());
    for (what, value, sign, side) in [
        ("supply static pressure", up, 1.0, "at or above"),
        ("return static pressure", down, -1.0, "at or below"),
    ] {
        if value.base().is_nan() || value.base() * sign < 0.0 {
            return Err(Error::out_of_range(
                what,
                value.in_unit("inH2O")?,
                format!("this side of a running fan is {side} the room"),
                "check the hoses and the sign: the return side reads negative",
            ));
        }
    }
    Ok(carry_both(delta_pascals(up.base() - down.base()), (&supply, 1.0), (&return_side, -1.0)))
}

/// The airflow through an opening of known area at its mean velocity.
///
/// Give the mean as [`Reading::repeated`](crate::measure::Reading::repeated) of the velocities at the points of a
/// traverse: their scatter then counts as the doubt of sampling.
///
/// # Units
/// Area, velocity; volume flow at the state of the air there.
/// # Source
/// Continuity: V = A·w̄; where to put the points: ASHRAE Standard 111 or ISO 3966.
/// # Valid range
/// The free area of the opening. A grille's is less than its face: use its maker's factor.
/// # Accuracy
/// That of the readings.
/// # Errors
/// An area or velocity that is not positive.
/// # Example
/// ```
/// use kingvalve::air::airflow_from_traverse;
/// use kingvalve::measure::{Instrument, Reading};
/// use kingvalve::quantity::*;
/// let vane = Instrument::resolution(feet_per_minute(1.0)).accuracy_percent_of_reading(3.0);
/// let points = [612.0, 655.0, 630.0, 598.0, 641.0, 622.0].map(feet_per_minute);
/// let flow = airflow_from_traverse(square_feet(1.9), Reading::repeated(&points, vane)?)?;
/// assert_eq!(flow.to_string(), "1190 ± 53 cfm");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn airflow_from_traverse<A: Known<Area>, V: Known<Velocity>>(
    area: A,
    mean_velocity: V,
) -> Result<Both<A::Grade, V::Grade, VolumeFlow>> {
    let (a, w) = (area.value(), mean_velocity.value());
    positive("area", a)?;
    positive("mean velocity", w)?;
    Ok(carry_both(w * a, (&area, w.base()), (&mean_velocity, a.base())))
}

/// The velocity behind a velocity pressure, as a Pitot tube reads it.
///
/// Average the velocities of a traverse, not the pressures.
///
/// # Units
/// Pressure difference; velocity.
/// # Source
/// Bernoulli's equation, incompressible: w = √(2Δp/ρ).
/// # Valid range
/// Duct velocities.
/// # Accuracy
/// Below 600 ft/min a gauge that reads to 0.01 inH₂O tells next to nothing: the doubt shows it.
/// # Errors
/// A velocity pressure that is not positive.
/// # Example
/// ```
/// use kingvalve::air::{MoistAir, velocity_from_pressure};
/// use kingvalve::quantity::*;
/// let air = MoistAir::from_relative_humidity(fahrenheit(70.0), percent(0.0), &Site::sea_level())?;
/// let velocity = velocity_from_pressure(inches_of_water(0.04), &air)?;
/// assert_eq!(format!("{velocity:.0}"), "802 ft/min"); // 4005·√0.04 = 801 at 0.075 lb/ft³
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn velocity_from_pressure<P: Known<PressureDifference>, G: Grade>(
    velocity_pressure: P,
    air: &MoistAir<G>,
) -> Result<Both<P::Grade, G, Velocity>> {
    let p = velocity_pressure.value();
    positive("velocity pressure", p)?;
    let density = air.density();
    let rho = density.value().base();
    let velocity = (2.0 * p.base() / rho).sqrt();
    Ok(carry_both(
        meters_per_second(velocity),
        (&velocity_pressure, velocity / (2.0 * p.base())),
        (&density, -velocity / (2.0 * rho)),
    ))
}

pub(super) fn positive<Q: Quantity>(what: &str, value: Q) -> Result<()> {
    if value.base().is_finite() && value.base() > 0.0 {
        return Ok(());
    }
    Err(Error::out_of_range(what, value, "it must be above zero", "check the reading and its sign"))
}
