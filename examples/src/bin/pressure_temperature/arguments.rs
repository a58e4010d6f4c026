//! What is asked for on the command line.

use std::path::PathBuf;

use kingvalve::quantity::{Length, feet};

/// Units of the chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Units {
    /// psig and °F
    Us,
    /// kPa gauge and °C
    Si,
}

/// How the chart is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    Text,
    Csv,
    Svg,
}

pub struct Arguments {
    pub refrigerant: String,
    pub elevation: Length,
    pub units: Units,
    /// First, last and step, in the chart's unit of temperature.
    pub from: f64,
    pub to: f64,
    pub step: f64,
    pub form: Form,
    pub output: Option<PathBuf>,
}

pub enum Asked {
    Help,
    Chart(Arguments),
}

/// More rows than this are no chart.
const MOST_ROWS: f64 = 2000.0;

impl Arguments {
    pub fn read(given: impl Iterator<Item = String>) -> Result<Asked, String> {
        let (mut refrigerant, mut elevation, mut units) = (None, feet(0.0), Units::Us);
        let (mut from, mut to, mut step) = (None, None, 5.0);
        let (mut form, mut output) = (Form::Text, None);
        let mut given = given;
        while let Some(word) = given.next() {
            if word == "--help" || word == "-h" {
                return Ok(Asked::Help);
            }
            if !word.starts_with("--") {
                if let Some(first) = refrigerant.replace(word.clone()) {
                    return Err(format!("one refrigerant is wanted, not both {first:?} and {word:?}"));
                }
                continue;
            }
            let value = given.next().ok_or_else(|| format!("{word} needs a value"))?;
            match word.as_str() {
                "--elevation" => {
                    elevation = value.parse::<Length>().map_err(|why| format!("--elevation: {why}"))?;
                }
                "--units" => units = one_of(&word, &value, &[("us", Units::Us), ("si", Units::Si)])?,
                "--from" => from = Some(number(&word, &value)?),
                "--to" => to = Some(number(&word, &value)?),
                "--step" => step = number(&word, &value)?,
                "--form" => {
                    let forms = [("text", Form::Text), ("csv", Form::Csv), ("svg", Form::Svg)];
                    form = one_of(&word, &value, &forms)?;
                }
                "--output" => output = Some(PathBuf::from(value)),
                _ => return Err(format!("{word} is no option")),
            }
        }
        let (coldest, hottest) = match units {
            Units::Us => (-40.0, 150.0),
            Units::Si => (-40.0, 65.0),
        };
        let (from, to) = (from.unwrap_or(coldest), to.unwrap_or(hottest));
        let rows = (to - from) / step;
        if !(step > 0.0 && (0.0..=MOST_ROWS).contains(&rows)) {
            return Err(format!(
                "from {from} to {to} in steps of {step} makes no chart of 1 to {MOST_ROWS} rows"
            ));
        }
        let refrigerant = refrigerant.ok_or("a refrigerant is wanted")?;
        Ok(Asked::Chart(Arguments { refrigerant, elevation, units, from, to, step, form, output }))
    }
}

fn number(option: &str, value: &str) -> Result<f64, String> {
    value
        .parse::<f64>()
        .ok()
        .filter(|number| number.is_finite())
        .ok_or_else(|| format!("{option}: {value:?} is no number"))
}

fn one_of<T: Copy>(option: &str, value: &str, choices: &[(&str, T)]) -> Result<T, String> {
    choices.iter().find(|(name, _)| *name == value).map(|(_, choice)| *choice).ok_or_else(|| {
        let names: Vec<&str> = choices.iter().map(|(name, _)| *name).collect();
        format!("{option}: {value:?} is none of {}", names.join(", "))
    })
}
