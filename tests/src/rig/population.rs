//! The systems the estimator is judged on: invented, stated here in full, and not drawn from its defaults.
//!
//! Ranges are even unless said otherwise. All are from memory of residential split systems; none is published.

use kingvalve::measure::Generator;

use super::cycle::{Plant, Steady, Weather};
use super::design::Design;
use super::evaporator::Indoor;
use super::medium::Medium;
use super::oil::Oil;
use super::standing::Temperatures;
use super::volumes::{Part, Volumes};

/// Draws even numbers.
pub fn even(generator: &mut Generator, from: f64, to: f64) -> f64 {
    from + (to - from) * generator.uniform()
}

/// Draws true with a probability.
pub fn chance(generator: &mut Generator, of: f64) -> bool {
    generator.uniform() < of
}

/// A system in the field.
#[derive(Debug, Clone, Copy)]
pub struct System {
    /// As it runs here: coils fouled, airflow as found.
    pub plant: Plant,
    /// As its maker rates it.
    pub as_built: Plant,
    /// Whether it has a thermostatic valve.
    pub valve: bool,
    /// Its state at the rating point with the right charge, as built.
    pub rated: Steady,
    /// The charge on its data plate, the line set allowed for, kg: rounded to an ounce.
    pub plate: f64,
    /// Subcooling on its data plate, K: rounded to 1 °F.
    pub plate_subcooling: f64,
}

const OUNCE: f64 = 0.028_349_523_125;
const LITER: f64 = 1e-3;

/// Internal volumes of a system of so many kW, drawn.
///
/// Outdoor coil 0.28–0.48 L/kW in round tubes (6 of 10), 0.18–0.30 in small ones (1 of 4), 0.08–0.15 in microchannels;
/// indoor coil 0.12–0.26 L/kW; line set of 3–20 m: liquid line 0.05 L/m and a filter-drier of 0.1–0.25 L, suction line
/// 0.02 L/m per kW; shell 0.25–0.45 L/kW before oil, and in 3 of 10 an accumulator of 0.15–0.35 L/kW.
pub fn volumes(kilowatts: f64, generator: &mut Generator) -> Volumes {
    let kind = generator.uniform();
    let outdoor = match kind {
        k if k < 0.6 => even(generator, 0.28, 0.48),
        k if k < 0.85 => even(generator, 0.18, 0.30),
        _ => even(generator, 0.08, 0.15),
    };
    let indoor = even(generator, 0.12, 0.26);
    let length = even(generator, 3.0, 20.0);
    let drier = even(generator, 0.1, 0.25);
    let accumulator = if chance(generator, 0.3) { even(generator, 0.15, 0.35) } else { 0.0 };
    let shell = even(generator, 0.25, 0.45) + accumulator;
    Volumes(
        [
            outdoor * kilowatts,
            indoor * kilowatts,
            0.05 * length + drier,
            0.02 * length * kilowatts,
            shell * kilowatts,
        ]
        .map(|liters| liters * LITER),
    )
}

/// Oil of a system of so many kW: 0.08–0.13 kg/kW, 300–650 g/mol, activity 0–0.6.
pub fn oil(kilowatts: f64, generator: &mut Generator) -> Oil {
    Oil {
        mass: even(generator, 0.08, 0.13) * kilowatts,
        molar_mass: even(generator, 0.300, 0.650),
        activity: even(generator, 0.0, 0.6),
    }
}

/// What a maker designs: 5.3–17.6 kW (1½ to 5 tons), evaporating at 5–10 °C, condensing 8–16 K above the outdoor air,
/// subcooling 3–8 K, superheat 2–7 K; a valve that opens to 1.3–2.5 times the area at the rating point.
pub fn design(valve: bool, generator: &mut Generator) -> Design {
    let kilowatts = even(generator, 5.3, 17.6);
    let volumes = volumes(kilowatts, generator);
    let oil = oil(kilowatts, generator);
    Design {
        cooling: 1e3 * kilowatts,
        evaporating: even(generator, 278.15, 283.15),
        lift: even(generator, 8.0, 16.0),
        subcooling: even(generator, 3.0, 8.0),
        superheat: even(generator, 2.0, 7.0),
        valve: valve.then(|| even(generator, 1.3, 2.5)),
        air: (even(generator, 0.11, 0.19), even(generator, 0.054, 0.070)),
        single_phase: even(generator, 0.4, 0.8),
        clearance: even(generator, 0.02, 0.05),
        efficiency: even(generator, 0.60, 0.74),
        loss: even(generator, 0.02, 0.10),
        line_gain: even(generator, 0.5, 4.0),
        suction_drop: even(generator, 0.005, 0.03),
        oil_above: even(generator, 15.0, 35.0),
        volumes,
        oil,
    }
}

/// A system as found: the maker's plate is off the charge that gives its rated subcooling by 2 % (normal), the outdoor
/// airflow is 85–100 % of the maker's, the indoor airflow 80–110 %. Draws again where no coil can do the design.
pub fn system(medium: &Medium, valve: bool, generator: &mut Generator) -> System {
    loop {
        let design = design(valve, generator);
        let plate = 1.0 + 0.02 * generator.normal();
        let (outdoor, indoor) = (even(generator, 0.85, 1.0), even(generator, 0.8, 1.1));
        if let Some((as_built, rated)) = design.build(medium) {
            let mut plant = as_built;
            plant.outdoor = plant.outdoor.with_airflow(outdoor);
            plant.indoor = plant.indoor.with_airflow(indoor);
            let plate = (rated.charge * plate / OUNCE).round() * OUNCE;
            let plate_subcooling = (rated.subcooling * 1.8).round() / 1.8;
            return System { plant, as_built, valve, rated, plate, plate_subcooling };
        }
    }
}

impl System {
    /// What the maker's chart says of superheat at full charge in such weather, K: the plant as built, to 1 °F. `None`
    /// where the chart is blank, below 5 °F.
    pub fn chart_superheat(&self, medium: &Medium, weather: &Weather) -> Option<f64> {
        let full = self.as_built.run(medium, weather, self.rated.charge)?;
        let fahrenheit = (1.8 * full.superheat).round();
        (fahrenheit >= 5.0).then_some(fahrenheit / 1.8)
    }
}

/// Air to work between: outdoors 18–43 °C, indoors 21–28 °C at a wet bulb of 14–21 °C, at most 1 K below the dry bulb.
pub fn weather(generator: &mut Generator) -> Weather {
    let dry_bulb = even(generator, 294.15, 301.15);
    let wet_bulb = even(generator, 287.15, 294.15).min(dry_bulb - 1.0);
    Weather { outdoor: even(generator, 291.15, 316.15), indoor: Indoor { dry_bulb, wet_bulb } }
}

/// Temperatures of a system that stood long enough to settle: outdoors 0–42 °C, indoors 18–30 °C; coils within 0.7 K
/// (normal) of their air, the liquid line of the outdoor air, the suction line anywhere between both airs, the shell 0–5 K
/// above the outdoor air.
pub fn standing_temperatures(generator: &mut Generator) -> Temperatures {
    let outdoor = even(generator, 273.15, 315.15);
    let indoor = even(generator, 291.15, 303.15);
    let mut near = |t: f64| t + 0.7 * generator.normal();
    let (outdoor_coil, indoor_coil, liquid) = (near(outdoor), near(indoor), near(outdoor));
    let mut all = [0.0; Part::COUNT];
    all[Part::OutdoorCoil.index()] = outdoor_coil;
    all[Part::IndoorCoil.index()] = indoor_coil;
    all[Part::LiquidLine.index()] = liquid;
    all[Part::SuctionLine.index()] = even(generator, outdoor, indoor);
    all[Part::Shell.index()] = outdoor + even(generator, 0.0, 5.0);
    all
}

/// The same after a weighed step and the wait for it to settle: every part has drifted by 0.3 K (normal).
pub fn drifted(temperatures: &Temperatures, generator: &mut Generator) -> Temperatures {
    temperatures.map(|t| t + 0.3 * generator.normal())
}

/// Charge over the data plate's: 0–120 %.
pub fn charge_share(generator: &mut Generator) -> f64 {
    even(generator, 0.0, 1.2)
}
