//! The numbers of a chart.

use kingvalve::quantity::{Pressure, Site, Temperature, celsius, fahrenheit};
use kingvalve::refrigerant::Refrigerant;

use crate::arguments::{Arguments, Units};

pub struct Chart {
    pub refrigerant: Refrigerant,
    pub site: Site,
    pub elevation: String,
    pub units: Units,
    pub rows: Vec<Row>,
    pub left_out: usize,
}

/// In the chart's units; gauge pressures.
pub struct Row {
    pub temperature: f64,
    pub bubble: f64,
    pub dew: f64,
}

impl Chart {
    pub fn of(arguments: &Arguments) -> Result<Chart, Box<dyn std::error::Error>> {
        let refrigerant = Refrigerant::named(&arguments.refrigerant)?;
        let site = Site::at_elevation(arguments.elevation)?;
        let units = arguments.units;
        let steps = ((arguments.to - arguments.from) / arguments.step + 1e-9).floor() as usize;
        let temperatures: Vec<f64> =
            (0..=steps).map(|k| arguments.from + k as f64 * arguments.step).collect();
        let mut rows = Vec::new();
        let mut refused = None;
        for &temperature in &temperatures {
            let t = units.temperature(temperature);
            match refrigerant.bubble_pressure(t).and_then(|bubble| Ok((bubble, refrigerant.dew_pressure(t)?)))
            {
                Ok((bubble, dew)) => rows.push(Row {
                    temperature,
                    bubble: units.gauge(&site, bubble)?,
                    dew: units.gauge(&site, dew)?,
                }),
                Err(why) => refused = Some(why),
            }
        }
        match refused {
            Some(why) if rows.is_empty() => Err(why.into()),
            _ => {
                let left_out = temperatures.len() - rows.len();
                let elevation = units.elevation(arguments);
                Ok(Chart { refrigerant, site, elevation, units, rows, left_out })
            }
        }
    }

    /// Whether bubble and dew are worth two columns.
    pub fn is_blend(&self) -> bool {
        self.refrigerant.is_blend()
    }

    pub fn title(&self) -> String {
        let atmosphere = match self.units {
            Units::Us => format!("{:.2} psia", self.site.atmosphere().psia()),
            Units::Si => format!("{:.1} kPa", self.site.atmosphere().kilopascals()),
        };
        format!("{} saturation, gauge at {} ({atmosphere})", self.refrigerant, self.elevation)
    }
}

impl Units {
    fn temperature(self, value: f64) -> Temperature {
        match self {
            Units::Us => fahrenheit(value),
            Units::Si => celsius(value),
        }
    }

    fn gauge(self, site: &Site, p: Pressure) -> kingvalve::Result<f64> {
        let gauge = site.gauge(p)?;
        Ok(match self {
            Units::Us => gauge.psig(),
            Units::Si => gauge.kilopascals_gauge(),
        })
    }

    fn elevation(self, arguments: &Arguments) -> String {
        match self {
            Units::Us => format!("{:.0} ft", arguments.elevation.feet()),
            Units::Si => format!("{:.0} m", arguments.elevation.meters()),
        }
    }

    pub fn of_temperature(self) -> &'static str {
        match self {
            Units::Us => "°F",
            Units::Si => "°C",
        }
    }

    pub fn of_pressure(self) -> &'static str {
        match self {
            Units::Us => "psig",
            Units::Si => "kPa gauge",
        }
    }
}
