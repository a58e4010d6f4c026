//! The system off, equalised and settled: where a given charge goes.

use super::medium::Medium;
use super::oil::Oil;
use super::root;
use super::volumes::{Part, Volumes};

/// Temperatures of the parts, K, in the order of [`Part::ALL`].
pub type Temperatures = [f64; Part::COUNT];

/// A settled state.
#[derive(Debug, Clone, Copy, Default)]
pub struct Settled {
    /// Pa, absolute.
    pub pressure: f64,
    /// kg of vapour.
    pub vapour: f64,
    /// kg of free liquid.
    pub liquid: f64,
    /// kg dissolved in the oil.
    pub dissolved: f64,
}

/// Settles a charge (kg) over the parts: vapour of one pressure everywhere at each part's temperature, oil in
/// equilibrium with it at the shell's, and what is left as liquid in the coldest part; where that is full, in the next.
/// `None` where liquid fills everything.
///
/// # Source
/// Equal pressure and equal fugacity in a closed system (Gibbs). A blend's liquid and vapour are split at the pool's
/// temperature, the vapour elsewhere counted as so much more volume there by its density.
pub fn settle(
    medium: &Medium,
    volumes: &Volumes,
    oil: &Oil,
    temperatures: &Temperatures,
    charge: f64,
) -> Option<Settled> {
    let free = volumes.free(oil);
    let in_oil = |p: f64| oil.dissolved(medium, p, temperatures[Part::Shell.index()]);
    let mut order = Part::ALL.map(Part::index);
    order.sort_by(|a, b| temperatures[*a].total_cmp(&temperatures[*b]));
    let (mut full, mut least) = (0.0, 1.0_f64);
    for (at, pool) in order.iter().enumerate() {
        let open = order.get(at..).unwrap_or_default();
        let pool_temperature = temperatures[*pool];
        let left = charge - full;
        let dew = medium.dew_pressure(pool_temperature);
        let vapour =
            |p: f64| open.iter().map(|i| free[*i] * medium.vapour_density(temperatures[*i], p)).sum::<f64>();
        let below = |p: f64| vapour(p) + in_oil(p) - left;
        if below(dew * (1.0 - 1e-9)) >= 0.0 {
            // No liquid here: all of it stands in the parts already full.
            let low = least.min(dew * (1.0 - 2e-9));
            let pressure = root::between(low, dew * (1.0 - 1e-9), 0.1, below).unwrap_or(low).max(least);
            let vapour = vapour(pressure);
            return Some(Settled { pressure, vapour, liquid: full, dissolved: left - vapour });
        }
        let at_dew = vapour(dew);
        if *pool == Part::Shell.index() {
            // Oil where the liquid would stand takes all of it up: bottomless.
            let bubble = medium.bubble_pressure(pool_temperature) * (1.0 - 1e-9);
            let low = dew.min(bubble) * (1.0 - 1e-9);
            let pressure = root::between(low, bubble, 0.1, |p| at_dew + in_oil(p) - left)?;
            let dissolved = in_oil(pressure);
            return Some(Settled { pressure, vapour: left - dissolved, liquid: full, dissolved });
        }
        let settled = pooled(medium, pool_temperature, at_dew, left, &in_oil)?;
        let room = free[*pool] * medium.liquid_density(pool_temperature);
        if settled.liquid <= room {
            let pressure = settled.pressure.max(least);
            return Some(Settled { pressure, liquid: settled.liquid + full, ..settled });
        }
        full += room;
        least = medium.bubble_pressure(pool_temperature);
    }
    None
}

/// Liquid and vapour with the liquid at one temperature; `at_dew` is the vapour all open parts hold at its dew pressure.
fn pooled(
    medium: &Medium,
    t: f64,
    at_dew: f64,
    charge: f64,
    in_oil: &impl Fn(f64) -> f64,
) -> Option<Settled> {
    let (thin, dense) = (medium.dew_density(t), medium.liquid_density(t));
    let (dew, bubble) = (medium.dew_pressure(t), medium.bubble_pressure(t));
    // The volume that would hold as much vapour at the pool's temperature.
    let volume = at_dew / thin;
    let pressure_with = |dissolved: f64| {
        match (charge - dissolved) / volume {
            // So near the dew point that there is hardly a drop.
            density if density <= thin * (1.0 + 1e-5) => dew,
            density if density >= dense => bubble,
            density => medium.shared_pressure(t, density).min(bubble).max(dew),
        }
    };
    let gap = |p: f64| p - pressure_with(in_oil(p).min(charge));
    let pressure =
        if bubble - dew < 1.0 { bubble } else { root::between(dew, bubble, 20.0, gap).unwrap_or(bubble) };
    let dissolved = in_oil(pressure).min(charge);
    let liquid = ((charge - dissolved - at_dew) / (1.0 - thin / dense)).max(0.0);
    Some(Settled { pressure, vapour: charge - dissolved - liquid, liquid, dissolved })
}
