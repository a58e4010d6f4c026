//! What a coil delivers, from the air that enters and leaves it.

use std::fmt;

use super::airflow::positive;
use super::carry::{Of3, carried, measured};
use super::psychrometric::{VAPOR, VAPOR_AT_ZERO};
use super::state::MoistAir;
use crate::measure::{Caution, Finding, Grade, Known, Level, Plain};
use crate::quantity::{Power, Quantity, Ratio, VolumeFlow, fraction, watts};
use crate::{Error, Result};

/// Where the air was when its volume flow was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum FlowAt {
    /// Before the coil.
    #[default]
    Entering,
    /// After it.
    Leaving,
}

/// Capacity delivered to the air: positive where it is cooled and dried, negative where it is warmed.
pub struct Capacity<G: Grade = Plain> {
    sensible: G::Of<Power>,
    latent: G::Of<Power>,
    total: G::Of<Power>,
}

/// The capacity delivered, from the airflow and the states of the air before and after the coil.
///
/// Heat the fan adds between the two places counts against it: net capacity, where the fan is between them.
///
/// # Units
/// Volume flow at the state of the air where it was measured; powers.
/// # Source
/// The air-enthalpy method (ANSI/ASHRAE Standard 37): mass flow of dry air × enthalpy difference, with enthalpy and
/// volume by ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 26 and 30. It is split at the state of leaving
/// humidity and entering temperature: sensible q = m(1.006 + 1.86·W₂)(t₁ − t₂), latent q = m(W₁ − W₂)(2501 + 1.86·t₁);
/// they sum to the total exactly. The condensate's own heat, 1 % or so of the latent part, is not taken off.
/// # Valid range
/// Steady operation, air well mixed at both places.
/// # Accuracy
/// That of the readings, with what two readings share (a probe, an airflow) counted once.
/// # Errors
/// An airflow that is not positive; states at different pressures.
/// # Example
/// ```
/// use kingvalve::air::{FlowAt, MoistAir, delivered};
/// use kingvalve::quantity::*;
/// let site = Site::sea_level();
/// let back = MoistAir::from_wet_bulb(fahrenheit(75.0), fahrenheit(63.0), &site)?;
/// let supply = MoistAir::from_wet_bulb(fahrenheit(55.0), fahrenheit(53.5), &site)?;
/// let capacity = delivered(cfm(1150.0), FlowAt::Entering, &back, &supply)?;
/// assert_eq!(capacity.to_string(), "31090 Btu/h: 24603 sensible, 6488 latent");
/// # Ok::<(), kingvalve::Error>(())
/// ```
pub fn delivered<F: Known<VolumeFlow>, E: Grade, L: Grade>(
    airflow: F,
    measured_at: FlowAt,
    entering: &MoistAir<E>,
    leaving: &MoistAir<L>,
) -> Result<Capacity<Of3<F::Grade, E, L>>> {
    let flow = airflow.value();
    positive("airflow", flow)?;
    same_site(entering.pressure.base(), leaving.pressure.base())?;
    let [v, v_by_dry, v_by_ratio] = match measured_at {
        FlowAt::Entering => entering.volume(),
        FlowAt::Leaving => leaving.volume(),
    };
    let mass = flow.base() / v;
    let (cooled, dried) = (entering.t() - leaving.t(), entering.w() - leaving.w());
    let [heat, heat_by_ratio] = leaving.heat_capacity();
    let vapor = 1e3 * (VAPOR_AT_ZERO + VAPOR * entering.t());
    // Per kg of dry air, and its derivatives by entering and leaving dry bulb and humidity ratio.
    let part = |specific: f64, [t1, w1, t2, w2]: [f64; 4]| {
        let q = mass * specific;
        let (dry, ratio) = (-q * v_by_dry / v, -q * v_by_ratio / v);
        let [by_t1, by_w1, by_t2, by_w2] = [mass * t1, mass * w1, mass * t2, mass * w2];
        let [by_t1, by_w1, by_t2, by_w2] = match measured_at {
            FlowAt::Entering => [by_t1 + dry, by_w1 + ratio, by_t2, by_w2],
            FlowAt::Leaving => [by_t1, by_w1, by_t2 + dry, by_w2 + ratio],
        };
        carried::<Of3<F::Grade, E, L>, _>(watts(q), |doubt| {
            doubt
                .by(&airflow, specific / v)
                .by(&entering.dry_bulb, by_t1)
                .by(&entering.humidity_ratio, by_w1)
                .by(&leaving.dry_bulb, by_t2)
                .by(&leaving.humidity_ratio, by_w2)
        })
    };
    let sensible = [heat, 0.0, -heat, heat_by_ratio * cooled];
    let latent = [1e3 * VAPOR * dried, vapor, 0.0, -vapor];
    let [a1, a2, a3, a4] = sensible;
    let [b1, b2, b3, b4] = latent;
    Ok(Capacity {
        sensible: part(heat * cooled, sensible),
        latent: part(vapor * dried, latent),
        total: part(heat * cooled + vapor * dried, [a1 + b1, a2 + b2, a3 + b3, a4 + b4]),
    })
}

/// Two states of one system are at one site.
pub(super) fn same_site(a: f64, b: f64) -> Result<()> {
    if (a / b - 1.0).abs() < 1e-9 {
        return Ok(());
    }
    Err(Error::inconsistent(
        "site",
        format!("the entering air is at {a:.0} Pa, the leaving air at {b:.0} Pa"),
        "make both states with the same site",
    ))
}

impl<G: Grade> Capacity<G> {
    /// The part that changes the temperature.
    pub fn sensible(&self) -> &G::Of<Power> {
        &self.sensible
    }

    /// The part that changes the humidity.
    pub fn latent(&self) -> &G::Of<Power> {
        &self.latent
    }

    /// Both.
    pub fn total(&self) -> &G::Of<Power> {
        &self.total
    }

    /// Sensible over total.
    ///
    /// # Errors
    /// Where the total is zero.
    pub fn sensible_ratio(&self) -> Result<G::Of<Ratio>> {
        let (part, whole) = (self.sensible.value().base(), self.total.value().base());
        if whole == 0.0 {
            return Err(Error::inconsistent(
                "sensible heat ratio",
                "no capacity is delivered",
                "measure with the unit running steadily",
            ));
        }
        Ok(carried::<G, _>(fraction(part / whole), |doubt| {
            doubt.by(&self.sensible, 1.0 / whole).by(&self.total, -part / (whole * whole))
        }))
    }

    /// The finding in the form all checks share; it judges nothing.
    ///
    /// # Errors
    /// A number that JSON cannot hold.
    pub fn finding(&self) -> Result<Finding> {
        let total = measured(&self.total);
        let half = total.expanded(Level::default()).btu_per_hour();
        let finding = Finding::of("delivered_capacity")
            .measured("total", &total)?
            .measured("sensible", &measured(&self.sensible))?
            .measured("latent", &measured(&self.latent))?
            .saying(format!("The air takes {self}; the total is known to ±{half:.0} Btu/h at 95 %."))
            .then(
                "Hold the total against the maker's table at this airflow, entering wet bulb and outdoor temperature; where it \
                 is short by more than its doubt, look at airflow, coils and charge in that order.",
            )
            .caution(Caution::MovingParts)
            .source("air-enthalpy method (ANSI/ASHRAE Standard 37)")
            .source("ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 26 and 30");
        Ok(finding)
    }
}

impl<G: Grade> fmt::Display for Capacity<G> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [total, sensible, latent] =
            [&self.total, &self.sensible, &self.latent].map(|power| power.value().btu_per_hour());
        write!(f, "{total:.0} Btu/h: {sensible:.0} sensible, {latent:.0} latent")
    }
}

impl<G: Grade> fmt::Debug for Capacity<G> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Capacity({self})")
    }
}
