//! What the next standing reading should show, from what is believed.

use super::estimate::Estimate;
use super::supposed::Supposed;
use super::system::System;
use super::{Inventory, standing};
use crate::measure::Measured;
use crate::quantity::{Pressure, Temperature};
use crate::{Error, Result};

impl Inventory {
    /// The standing pressure to expect once the system has settled at these temperatures: one for the whole system, or
    /// one for each part.
    ///
    /// # Units
    /// Temperatures in, absolute pressure out.
    /// # Source
    /// The charge believed, in the volume believed: vapour density and saturation from the equation of state, oil
    /// between Henry's and Raoult's law. With liquid present it is the bubble pressure of the coldest point.
    /// # Valid range
    /// As [`standing`](Self::standing).
    /// # Accuracy
    /// The intervals are those of the belief; the gauge's own error is not added.
    /// # Errors
    /// As [`standing`](Self::standing).
    /// # Example
    /// ```
    /// use kingvalve::charge::inventory::{Inventory, System};
    /// use kingvalve::quantity::*;
    /// use kingvalve::refrigerant::Refrigerant;
    /// let r = Refrigerant::named("R-410A")?;
    /// let inventory = Inventory::prior(&System::of_plate(&r, pounds(6.0))?)?;
    /// let expected = inventory.expect_standing(&[fahrenheit(80.0)])?;
    /// assert!(expected.ninety.high() <= r.bubble_pressure(fahrenheit(80.0))? + psi(0.1));
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn expect_standing(&self, temperatures: &[Temperature]) -> Result<Estimate<Pressure>> {
        let temperatures = temperatures.iter().map(|t| Measured::exact(*t)).collect();
        let held = Held::at(&self.system, temperatures)?;
        let draws = self.belief.draws.iter();
        let values = draws.map(|draw| (held.pressure(self.belief.charge(draw), &draw.supposed), draw.weight));
        Estimate::<Pressure>::of(values).ok_or_else(|| {
            Error::inconsistent("belief", "it rests on no system", "check the readings against each other")
        })
    }
}

/// Vapour density of the parts over pressure, and saturation at the coldest.
#[derive(Debug)]
struct Held {
    nodes: [(f64, f64); NODES],
    dew: f64,
    bubble: f64,
}

/// The equation of state is solved at so many pressures; between them stand so many nodes each.
const SOLVED: usize = 8;
const FOR_EACH: usize = 4;
const NODES: usize = SOLVED * FOR_EACH + 1;

/// Between two values with their slopes, a width apart. Source: Hermite's cubic.
fn cubic(share: f64, width: f64, low: (f64, f64), high: (f64, f64)) -> f64 {
    let rest = 1.0 - share;
    let bend = rest * (low.1 * width - (high.0 - low.0)) - share * (high.1 * width - (high.0 - low.0));
    rest * low.0 + share * high.0 + share * rest * bend
}

impl Held {
    fn at(system: &System, temperatures: Vec<Measured<Temperature>>) -> Result<Held> {
        let (dew, bubble) = standing::coldest_saturation(system, &temperatures)?;
        let shares = standing::shares(system, temperatures.len())?;
        let most = dew * (1.0 - 2e-4);
        let at = |pressure: f64| standing::filling(&system.refrigerant, pressure, &shares, &temperatures);
        let mut nodes = [(0.0, 0.0); NODES];
        let width = most / SOLVED as f64;
        // Near nothing it is an ideal gas.
        let mut low = (0.0, at(1e-4 * most)?.1);
        for (turn, between) in nodes[1..].chunks_mut(FOR_EACH).enumerate() {
            let from = width * turn as f64;
            let (density, slope, _) = at(from + width)?;
            for (index, node) in between.iter_mut().enumerate() {
                let share = (index + 1) as f64 / FOR_EACH as f64;
                *node = (from + share * width, cubic(share, width, low, (density, slope)));
            }
            low = (density, slope);
        }
        Ok(Held { nodes, dew, bubble })
    }

    /// The pressure of a charge, kg to Pa.
    fn pressure(&self, charge: f64, supposed: &Supposed) -> f64 {
        let held = |(p, density): (f64, f64)| supposed.volume * density + supposed.oil.held(p / self.dew);
        for pair in self.nodes.windows(2) {
            if let [low, high] = *pair {
                let (less, more) = (held(low), held(high));
                if charge <= more {
                    let share = ((charge - less) / (more - less)).clamp(0.0, 1.0);
                    return low.0 + share * (high.0 - low.0);
                }
            }
        }
        self.bubble
    }
}
