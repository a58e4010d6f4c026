//! How much air passes a cooling coil untouched, and how cold the coil seems.

use std::fmt;

use super::capacity::same_site;
use super::carry::{Of2, carried, measured};
use super::psychrometric::ratio_of_vapor;
use super::state::MoistAir;
use super::water::{COLDEST, ZERO_CELSIUS, saturation};
use crate::measure::{Caution, Finding, Grade, Known, Plain};
use crate::quantity::{Quantity, Ratio, Temperature, celsius, fraction};
use crate::{Error, Result};

/// A cooling coil's bypass factor and apparatus dew point.
pub struct Bypass<G: Grade = Plain> {
    factor: G::Of<Ratio>,
    apparatus_dew_point: G::Of<Temperature>,
}

/// The bypass factor of a wet cooling coil: the share of the air that leaves as if it had not met the coil, the rest
/// leaving saturated at the apparatus dew point.
///
/// # Units
/// A ratio and a temperature.
/// # Source
/// W. H. Carrier's apparatus dew point: the straight line through the entering and leaving states (dry bulb, humidity
/// ratio) meets saturation at the apparatus dew point; factor = (t₂ − t_ADP)/(t₁ − t_ADP). Solved by Newton's method;
/// derivatives by the rule of implicit functions.
/// # Valid range
/// A coil that dries the air.
/// # Accuracy
/// That of the readings, which it magnifies: a tenth of a degree of wet bulb moves it by about 0.01.
/// # Errors
/// Leaving air that is not cooler and drier; a line that misses saturation (the readings, or air mixed in between).
/// # Example
/// ```
/// use kingvalve::air::{MoistAir, bypass};
/// use kingvalve::quantity::*;
/// let site = Site::sea_level();
/// let back = MoistAir::from_wet_bulb(fahrenheit(80.0), fahrenheit(67.0), &site)?;
/// let supply = MoistAir::from_wet_bulb(fahrenheit(58.0), fahrenheit(56.5), &site)?;
/// let coil = bypass(&back, &supply)?;
/// assert_eq!(coil.to_string(), "bypass factor 0.13, apparatus dew point 54.7 °F");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn bypass<E: Grade, L: Grade>(
    entering: &MoistAir<E>,
    leaving: &MoistAir<L>,
) -> Result<Bypass<Of2<E, L>>> {
    same_site(entering.pressure.base(), leaving.pressure.base())?;
    let (cooled, dried) = (entering.t() - leaving.t(), entering.w() - leaving.w());
    if cooled.is_nan() || cooled <= 0.0 || dried <= 0.0 {
        return Err(Error::inconsistent(
            "cooling coil",
            format!("the air leaves at {leaving}, having entered at {entering}: not both cooler and drier"),
            "a bypass factor needs a wet coil: check the humidity readings and which state is which",
        ));
    }
    let p = entering.pressure.base();
    // How many times the way from entering to leaving it is to saturation: one where the air leaves saturated.
    let mut way = 1.0;
    let mut slopes = None;
    for _ in 0..60 {
        let t = entering.t() - way * cooled;
        if t < COLDEST {
            break;
        }
        let [vapor, by_kelvin, _] = saturation(t + ZERO_CELSIUS);
        let [saturated, by_vapor] = ratio_of_vapor(vapor, p);
        let steep = by_vapor * by_kelvin;
        let gap = saturated - (entering.w() - way * dried);
        let closing = dried - steep * cooled;
        if closing >= 0.0 {
            break;
        }
        let step = gap / closing;
        way -= step;
        if step.abs() < 1e-12 * way {
            slopes = Some((steep, closing));
            break;
        }
    }
    let Some((steep, closing)) = slopes else {
        return Err(Error::inconsistent(
            "apparatus dew point",
            format!("the line from {entering} through {leaving} misses saturation"),
            "the readings, or air mixed in between: read wet and dry bulbs again, close to the coil",
        ));
    };
    // The gap's derivatives by the four readings, over its derivative by the way.
    let [way_by_t1, way_by_w1, way_by_t2, way_by_w2] =
        [steep * (1.0 - way), way - 1.0, steep * way, -way].map(|by| -by / closing);
    let factor = fraction(1.0 - 1.0 / way);
    let square = way * way;
    Ok(Bypass {
        factor: carried::<Of2<E, L>, _>(factor, |doubt| {
            doubt
                .by(&entering.dry_bulb, way_by_t1 / square)
                .by(&entering.humidity_ratio, way_by_w1 / square)
                .by(&leaving.dry_bulb, way_by_t2 / square)
                .by(&leaving.humidity_ratio, way_by_w2 / square)
        }),
        apparatus_dew_point: carried::<Of2<E, L>, _>(celsius(entering.t() - way * cooled), |doubt| {
            doubt
                .by(&entering.dry_bulb, 1.0 - way - cooled * way_by_t1)
                .by(&entering.humidity_ratio, -cooled * way_by_w1)
                .by(&leaving.dry_bulb, way - cooled * way_by_t2)
                .by(&leaving.humidity_ratio, -cooled * way_by_w2)
        }),
    })
}

impl<G: Grade> Bypass<G> {
    /// The bypass factor.
    pub fn factor(&self) -> &G::Of<Ratio> {
        &self.factor
    }

    /// The apparatus dew point: how cold the coil seems to the air.
    pub fn apparatus_dew_point(&self) -> &G::Of<Temperature> {
        &self.apparatus_dew_point
    }

    /// The finding in the form all checks share; it judges nothing.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let (factor, dew_point) = (measured(&self.factor), measured(&self.apparatus_dew_point));
        let finding = Finding::of("bypass_factor")
            .measured("bypass factor", &factor)?
            .measured("apparatus dew point", &dew_point)?
            .saying(format!("The coil shows a bypass factor of {factor} and an apparatus dew point of {dew_point}."))
            .then(
                "Hold both against the maker's: more bypass means too much air or a dirty, partly fed coil; a lower dew point, \
                 too little air or a starved coil.",
            )
            .caution(Caution::MovingParts)
            .source("apparatus dew point on the line of entering and leaving states (W. H. Carrier)")
            .source("ASHRAE Handbook—Fundamentals 2017, chapter 1");
        Ok(finding)
    }
}

impl<G: Grade> fmt::Display for Bypass<G> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (factor, t) = (self.factor.value().fraction(), self.apparatus_dew_point.value());
        write!(f, "bypass factor {factor:.2}, apparatus dew point {t:.1}")
    }
}

impl<G: Grade> fmt::Debug for Bypass<G> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Bypass({self})")
    }
}
