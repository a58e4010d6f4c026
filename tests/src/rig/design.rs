//! Sizing a plant at its rating point: from what it should do to its areas, displacement and charge.

use super::compressor::Compressor;
use super::condenser::{self, Coil};
use super::cycle::{Plant, Steady, Weather};
use super::evaporator::{self, Indoor, Outlet};
use super::medium::Medium;
use super::metering::{self, Metering};
use super::oil::Oil;
use super::root;
use super::volumes::{Part, Volumes};

/// What a plant is designed for.
#[derive(Debug, Clone, Copy)]
pub struct Design {
    /// W at the rating point.
    pub cooling: f64,
    /// Evaporating dew temperature, K.
    pub evaporating: f64,
    /// Condensing dew temperature over the outdoor air, K.
    pub lift: f64,
    /// Subcooling at the outdoor unit, K.
    pub subcooling: f64,
    /// Superheat at the indoor coil's outlet, K.
    pub superheat: f64,
    /// Whether it has a thermostatic valve, and its area fully open over that at the rating point.
    pub valve: Option<f64>,
    /// Heat capacity rates of the air over the coils, W/K per W of cooling: outdoors, indoors.
    pub air: (f64, f64),
    /// Transfer in single-phase zones over that in two-phase zones, both coils.
    pub single_phase: f64,
    /// See [`Compressor`].
    pub clearance: f64,
    /// See [`Compressor`].
    pub efficiency: f64,
    /// See [`Compressor`].
    pub loss: f64,
    /// See [`Plant`].
    pub line_gain: f64,
    /// See [`Plant`].
    pub suction_drop: f64,
    /// See [`Plant`].
    pub oil_above: f64,
    /// Internal volumes.
    pub volumes: Volumes,
    /// The oil.
    pub oil: Oil,
}

/// The rating point: 95 °F outdoors, 80 °F dry bulb and 67 °F wet bulb indoors (AHRI 210/240 "A" test, from memory).
pub const RATING: Weather =
    Weather { outdoor: 308.15, indoor: Indoor { dry_bulb: 299.817, wet_bulb: 292.594 } };

impl Design {
    /// The plant, and its state at the rating point; `None` where no coil can do it.
    pub fn build(&self, medium: &Medium) -> Option<(Plant, Steady)> {
        let (low, high) = (medium.saturated(self.evaporating), medium.saturated(RATING.outdoor + self.lift));
        let liquid = high.bubble - self.subcooling;
        let outlet = Outlet(self.superheat);
        let leaving = outlet.enthalpy(medium, &low);
        let inlet = medium.liquid_enthalpy(liquid);
        let flow = self.cooling / (leaving - inlet);
        let suction = low.pressure * (1.0 - self.suction_drop);
        let gas = medium.vapour(low.dew, self.superheat + self.line_gain);
        let density = gas.density * (1.0 - self.suction_drop);
        let ratio = high.pressure / suction;
        let mut compressor = Compressor {
            displacement: 1.0,
            clearance: self.clearance,
            efficiency: self.efficiency,
            loss: self.loss,
        };
        compressor.displacement = flow / compressor.flow(density, ratio);
        let discharge = gas.enthalpy + (1.0 - self.loss) * compressor.work(medium, suction, density, ratio);

        let coil = |part: Part, air: f64| Coil {
            volume: self.volumes.of(part),
            air: air * self.cooling,
            transfer: 1.0,
            single_phase: self.single_phase,
        };
        let air = RATING.outdoor;
        let outdoor = sized(coil(Part::OutdoorCoil, self.air.0), |coil| {
            condenser::desuperheating_share(medium, coil, &high, flow, discharge, air)
                + condenser::condensing_share(coil, &high, flow, air)
                + condenser::subcooling_share(medium, coil, &high, flow, liquid, air)
        })?;
        let indoor = sized(coil(Part::IndoorCoil, self.air.1), |coil| {
            let (boiling, dry) = evaporator::shares(medium, coil, &low, flow, inlet, outlet, &RATING.indoor);
            boiling + dry
        })?;
        let area = flow / metering::flow(medium, 1.0, &high, inlet, liquid, low.pressure);
        let metering = match self.valve {
            Some(reserve) => Metering::Valve { superheat: self.superheat, open: area * reserve },
            None => Metering::Orifice(area),
        };
        let plant = Plant {
            volumes: self.volumes,
            oil: self.oil,
            compressor,
            outdoor,
            indoor,
            metering,
            line_gain: self.line_gain,
            suction_drop: self.suction_drop,
            oil_above: self.oil_above,
        };
        let rated = plant.at_condensing(medium, &RATING, high.dew, outlet)?;
        Some((plant, rated))
    }
}

/// The coil whose zones just fill its face.
fn sized(coil: Coil, needed: impl Fn(&Coil) -> f64) -> Option<Coil> {
    let with = |transfer: f64| Coil { transfer, ..coil };
    let transfer = root::between(0.05, 8.0, 1e-9, |transfer| needed(&with(transfer)) - 1.0)?;
    Some(with(transfer))
}
