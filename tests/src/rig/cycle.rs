//! The steady cycle of a given charge.

use super::compressor::Compressor;
use super::condenser::{self, Coil, Condensed};
use super::evaporator::{self, Indoor, Outlet};
use super::medium::{Medium, Saturated};
use super::metering::{self, Metering};
use super::oil::Oil;
use super::root;
use super::void_fraction;
use super::volumes::{Part, Volumes};

/// A split air conditioner.
#[derive(Debug, Clone, Copy)]
pub struct Plant {
    /// Internal volumes.
    pub volumes: Volumes,
    /// The oil in the shell.
    pub oil: Oil,
    /// The compressor.
    pub compressor: Compressor,
    /// The outdoor coil.
    pub outdoor: Coil,
    /// The indoor coil.
    pub indoor: Coil,
    /// The metering device.
    pub metering: Metering,
    /// Superheat picked up in the suction line, K.
    pub line_gain: f64,
    /// Share of the evaporating pressure lost in the suction line.
    pub suction_drop: f64,
    /// Oil above the suction gas, K.
    pub oil_above: f64,
}

/// The air it works between.
#[derive(Debug, Clone, Copy)]
pub struct Weather {
    /// Outdoor dry bulb, K.
    pub outdoor: f64,
    /// Indoor air at the coil.
    pub indoor: Indoor,
}

/// One steady state: what gauges and thermometers at the outdoor unit would show, were they without error, and the rest.
#[derive(Debug, Clone, Copy)]
pub struct Steady {
    /// Pa at the suction service port.
    pub suction: f64,
    /// Pa at the liquid service port.
    pub liquid: f64,
    /// K of the suction line at the outdoor unit.
    pub suction_line: f64,
    /// K of the liquid line at the outdoor unit.
    pub liquid_line: f64,
    /// K, of the gas that leaves the compressor.
    pub discharge: f64,
    /// Superheat at the suction port, K.
    pub superheat: f64,
    /// Subcooling at the liquid port, K; 0 or less where vapour leaves the condenser.
    pub subcooling: f64,
    /// What leaves the indoor coil.
    pub outlet: Outlet,
    /// kg/s
    pub flow: f64,
    /// W taken up indoors.
    pub cooling: f64,
    /// W given off outdoors.
    pub rejected: f64,
    /// W put into the refrigerant by the compressor and the lines.
    pub put_in: f64,
    /// kg, all of it.
    pub charge: f64,
    /// kg by part, in the order of [`Part::ALL`]; the shell's includes what the oil holds.
    pub masses: [f64; Part::COUNT],
}

/// K of condensing dew temperature over the outdoor air, the least looked for.
const LEAST_LIFT: f64 = 0.5;
/// How well the charge must be met.
const CHARGE_TOLERANCE: f64 = 1e-4;
/// Coldest and hottest evaporating dew temperature looked for, K.
const EVAPORATING: (f64, f64) = (232.0, 298.0);
/// How many kelvins of superheat boil one per cent of liquid: of the order of latent heat over heat capacity.
const KELVINS_PER_CENT: f64 = 2.0;
/// Liquid at the outlet of the indoor coil looked for at most, as an [`Outlet`].
const WETTEST: f64 = -40.0;

impl Plant {
    /// All internal volumes larger or smaller by a factor.
    #[must_use]
    pub fn with_volumes_scaled(mut self, by: f64) -> Plant {
        self.volumes = self.volumes.scaled(by);
        self.outdoor.volume *= by;
        self.indoor.volume *= by;
        self
    }

    /// The steady state with so much refrigerant (kg); `None` where there is none: too little to feed the coil, or more
    /// than the high-pressure side can take.
    pub fn run(&self, medium: &Medium, weather: &Weather, charge: f64) -> Option<Steady> {
        match self.metering {
            Metering::Orifice(area) => self.fed(medium, weather, charge, area, WETTEST),
            Metering::Valve { superheat, open } => {
                match self.through(medium, weather, Outlet(superheat), open) {
                    Through::At(dew, edge) if edge.charge <= charge => {
                        self.throttled(medium, weather, charge, Outlet(superheat), dew)
                    }
                    _ => self.fed(medium, weather, charge, open, superheat),
                }
            }
        }
    }

    /// With a valve that holds an outlet: the condensing temperature settles with the charge.
    fn throttled(
        &self,
        medium: &Medium,
        weather: &Weather,
        charge: f64,
        outlet: Outlet,
        from: f64,
    ) -> Option<Steady> {
        let excess = |dew: f64| {
            self.at_condensing(medium, weather, dew, outlet).map_or(f64::NAN, |state| state.charge - charge)
        };
        let dew = root::between(from, medium.hottest_dew() - 1.0, 1e-5, excess)?;
        self.at_condensing(medium, weather, dew, outlet)
    }

    /// With so much area open: the outlet of the indoor coil settles with the charge, down to the wettest looked for.
    fn fed(
        &self,
        medium: &Medium,
        weather: &Weather,
        charge: f64,
        area: f64,
        wettest: f64,
    ) -> Option<Steady> {
        let excess = |outlet: f64| match self.through(medium, weather, Outlet(outlet), area) {
            Through::TooLittle => f64::NEG_INFINITY,
            Through::At(_, state) => state.charge - charge,
            Through::TooMuch => f64::INFINITY,
        };
        let driest = weather.indoor.dry_bulb - EVAPORATING.0 - 1.0;
        let outlet = root::between(wettest, driest, 1e-6, excess)?;
        match self.through(medium, weather, Outlet(outlet), area) {
            Through::At(_, state) if (state.charge / charge - 1.0).abs() < CHARGE_TOLERANCE => Some(state),
            _ => None,
        }
    }

    /// The condensing dew temperature at which so much area passes what the compressor takes, and the state there.
    fn through(&self, medium: &Medium, weather: &Weather, outlet: Outlet, area: f64) -> Through {
        let gap = |dew: f64| {
            let high = medium.saturated(dew);
            // A high side that condenses nothing passes nothing.
            self.with_outlet(medium, weather, &high, outlet)
                .map_or(f64::NEG_INFINITY, |half| half.most_flow(medium, &high, area) - half.flow)
        };
        let (coolest, hottest) = (weather.outdoor + LEAST_LIFT, medium.hottest_dew() - 1.0);
        if gap(coolest) >= 0.0 {
            return Through::TooLittle;
        }
        root::between(coolest, hottest, 1e-6, gap)
            .and_then(|dew| Some(Through::At(dew, self.at_condensing(medium, weather, dew, outlet)?)))
            .unwrap_or(Through::TooMuch)
    }

    /// The state at a condensing dew temperature and an outlet of the indoor coil, whatever metering and charge that
    /// takes.
    pub fn at_condensing(
        &self,
        medium: &Medium,
        weather: &Weather,
        dew: f64,
        outlet: Outlet,
    ) -> Option<Steady> {
        let high = medium.saturated(dew);
        let half = self.with_outlet(medium, weather, &high, outlet)?;
        Some(self.finish(medium, &high, &half))
    }

    /// The evaporating temperature at which the indoor coil brings the compressor's flow to an outlet.
    fn with_outlet(
        &self,
        medium: &Medium,
        weather: &Weather,
        high: &Saturated,
        outlet: Outlet,
    ) -> Option<Half> {
        let need = |dew: f64| {
            self.half(medium, weather, high, dew, outlet)
                .map_or(f64::INFINITY, |half| half.shares.0 + half.shares.1 - 1.0)
        };
        // Above this the air cannot warm the vapour so far; where the face is more than enough even there, the vapour
        // leaves as warm as the air.
        let warmest = EVAPORATING.1.min(weather.indoor.dry_bulb - outlet.superheat() - 1e-6);
        if warmest <= EVAPORATING.0 {
            return None;
        }
        let dew =
            if need(warmest) <= 0.0 { warmest } else { root::between(EVAPORATING.0, warmest, 1e-6, need)? };
        self.half(medium, weather, high, dew, outlet)
    }

    /// Compressor, condenser and indoor coil at two dew temperatures and an outlet, before mass flow, face and charge
    /// balance.
    fn half(
        &self,
        medium: &Medium,
        weather: &Weather,
        high: &Saturated,
        dew: f64,
        outlet: Outlet,
    ) -> Option<Half> {
        let low = medium.saturated(dew);
        let gas = medium.vapour(dew, self.at_compressor(outlet));
        let density = gas.density * (1.0 - self.suction_drop);
        let suction = low.pressure * (1.0 - self.suction_drop);
        let ratio = high.pressure / suction;
        let flow = self.compressor.flow(density, ratio);
        let work = self.compressor.work(medium, suction, density, ratio);
        let entering = if outlet.0 > 0.0 {
            gas.enthalpy
        } else {
            let picked_up = medium.vapour(dew, self.line_gain).enthalpy - low.vapour_enthalpy;
            outlet.enthalpy(medium, &low) + picked_up
        };
        let discharge = entering + (1.0 - self.compressor.loss) * work;
        let condensed = condenser::run(medium, &self.outdoor, high, flow, discharge, weather.outdoor)?;
        let shares =
            evaporator::shares(medium, &self.indoor, &low, flow, condensed.enthalpy, outlet, &weather.indoor);
        Some(Half { low, outlet, flow, suction, density, discharge, condensed, shares })
    }

    /// Superheat of the gas at the outdoor unit, K: what the line adds first boils what liquid the coil left.
    fn at_compressor(&self, outlet: Outlet) -> f64 {
        if outlet.0 > 0.0 {
            outlet.0 + self.line_gain
        } else {
            (self.line_gain + KELVINS_PER_CENT * outlet.0).max(0.0)
        }
    }

    fn finish(&self, medium: &Medium, high: &Saturated, half: &Half) -> Steady {
        let Half { low, outlet, flow, condensed, .. } = *half;
        let leaving = outlet.enthalpy(medium, &low);
        let gas = self.at_compressor(outlet);
        let suction_line = low.dew + gas;
        let in_line = if gas > 0.0 {
            half.density
        } else {
            void_fraction::mean_density(&low, outlet.quality(), outlet.quality())
        };
        let liquid = if condensed.quality > 0.0 {
            void_fraction::mean_density(high, condensed.quality, condensed.quality)
        } else {
            medium.liquid_density(condensed.temperature)
        };
        let free = self.volumes.free(&self.oil);
        let dissolved = self.oil.dissolved(medium, half.suction, suction_line + self.oil_above);
        let mut masses = [0.0; Part::COUNT];
        masses[Part::OutdoorCoil.index()] = condensed.mass;
        masses[Part::IndoorCoil.index()] =
            evaporator::mass(medium, &self.indoor, &low, condensed.enthalpy, outlet, half.shares);
        masses[Part::LiquidLine.index()] = free[Part::LiquidLine.index()] * liquid;
        masses[Part::SuctionLine.index()] = free[Part::SuctionLine.index()] * in_line;
        masses[Part::Shell.index()] = free[Part::Shell.index()] * half.density + dissolved;
        let port_dew = medium.dew_temperature(half.suction);
        Steady {
            suction: half.suction,
            liquid: high.pressure,
            suction_line,
            liquid_line: condensed.temperature,
            discharge: high.dew + medium.superheat(high.dew, half.discharge),
            superheat: suction_line - port_dew,
            subcooling: high.bubble - condensed.temperature,
            outlet,
            flow,
            cooling: flow * (leaving - condensed.enthalpy),
            rejected: condensed.heat,
            put_in: flow * (half.discharge - leaving),
            charge: masses.iter().sum(),
            masses,
        }
    }
}

/// What an area and an outlet of the indoor coil come to.
enum Through {
    /// Even the coolest high side passes more.
    TooLittle,
    /// The condensing dew temperature, and the state.
    At(f64, Steady),
    /// Not even the hottest high side passes so much.
    TooMuch,
}

/// A state before the metering device and the charge have their say.
#[derive(Debug, Clone, Copy)]
struct Half {
    low: Saturated,
    outlet: Outlet,
    flow: f64,
    suction: f64,
    density: f64,
    discharge: f64,
    condensed: Condensed,
    shares: (f64, f64),
}

impl Half {
    /// What so much area would pass.
    fn most_flow(&self, medium: &Medium, high: &Saturated, area: f64) -> f64 {
        let Condensed { enthalpy, temperature, .. } = self.condensed;
        metering::flow(medium, area, high, enthalpy, temperature, self.low.pressure)
    }
}
