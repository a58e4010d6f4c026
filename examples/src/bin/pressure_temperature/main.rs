//! A saturation chart for any refrigerant at any elevation: text, CSV or SVG.

#![allow(clippy::print_stdout, reason = "a program speaks on standard output")]

mod arguments;
mod chart;
mod drawing;
mod table;

use std::process::ExitCode;

use arguments::{Arguments, Asked, Form};
use chart::Chart;

const HELP: &str = "\
pressure_temperature - a saturation chart for any refrigerant at any elevation

usage: pressure_temperature REFRIGERANT [--elevation LENGTH] [--units us|si]
                            [--from T] [--to T] [--step D]
                            [--form text|csv|svg] [--output FILE]

  REFRIGERANT  a designation or a chemical name: R-454B, 410a, propane
  --elevation  of the gauge above sea level, with its unit: \"5200 ft\", \"1600 m\" (0 ft)
  --units      us: psig and °F; si: kPa gauge and °C (us)
  --from, --to first and last temperature, in those units (-40 to 150 °F, -40 to 65 °C)
  --step       between two rows (5)
  --form       text, csv or svg (text)
  --output     a file instead of standard output

The liquid of a blend starts to boil at its bubble point and its vapour to condense at its
dew point: count subcooling from bubble, superheat from dew. Rows outside the refrigerant's
range are left out; a gauge pressure below zero is a vacuum.";

fn main() -> ExitCode {
    let arguments = match Arguments::read(std::env::args().skip(1)) {
        Ok(Asked::Help) => {
            println!("{HELP}");
            return ExitCode::SUCCESS;
        }
        Ok(Asked::Chart(arguments)) => arguments,
        Err(why) => {
            eprintln!("pressure_temperature: {why}\n\n{HELP}");
            return ExitCode::from(2);
        }
    };
    match run(&arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("pressure_temperature: {why}");
            ExitCode::FAILURE
        }
    }
}

fn run(arguments: &Arguments) -> Result<(), Box<dyn std::error::Error>> {
    let chart = Chart::of(arguments)?;
    let written = match arguments.form {
        Form::Text => table::text(&chart),
        Form::Csv => table::csv(&chart),
        Form::Svg => drawing::svg(&chart),
    };
    match &arguments.output {
        Some(file) => std::fs::write(file, written).map_err(|why| format!("{}: {why}", file.display()))?,
        None => print!("{written}"),
    }
    Ok(())
}
