//! Columns of charge readings judged: superheat, subcooling, target, doubt, probability and verdict of each row.

use kingvalve::cycle::target::{ChargeColumns, ChargeInstruments, ChargeRow, ChargeRows, ChargeTolerance};
use kingvalve::quantity::{
    GaugePressure, Quantity, Ratio, Temperature, TemperatureDifference as Difference, Unit, kelvins,
    pascals_gauge,
};
use pyo3::prelude::*;

use crate::column::{Errors, Kinded, Numbers, Rows, Scale, Source, run};
use crate::error::{raise, wrong_kind};
use crate::measure::{Instrument, level};
use crate::quantity::{Ratio as GivenRatio, Site, TemperatureDifference};
use crate::refrigerant::Refrigerant;

/// Adds the function to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_function(wrap_pyfunction!(judge, module)?)
}

const BLOCK: usize = 512;
type Pressures = [GaugePressure; BLOCK];
type Temperatures = [Temperature; BLOCK];

/// How the library judges rows, over blocks of plain numbers.
struct Judge(ChargeRows);

fn fill<Q: Quantity>(slots: &mut [Q], numbers: &[f64]) {
    slots.iter_mut().zip(numbers).for_each(|(slot, number)| *slot = Q::from_base(*number));
}

impl Rows for Judge {
    fn answer(&self, inputs: &[&[f64]], outputs: &mut [&mut [f64]]) {
        let [p, t, q, u, wet, dry] = inputs else { return };
        let count = p.len().min(BLOCK);
        let mut pressures: [Pressures; 2] = [[pascals_gauge(0.0); BLOCK]; 2];
        let mut temperatures: [Temperatures; 4] = [[kelvins(0.0); BLOCK]; 4];
        for (slots, numbers) in pressures.iter_mut().zip([p, q]) {
            fill(slots, numbers);
        }
        for (slots, numbers) in temperatures.iter_mut().zip([t, u, wet, dry]) {
            fill(slots, numbers);
        }
        let [suction_pressure, liquid_pressure] = pressures.each_ref().map(|block| block.split_at(count).0);
        let [suction_line, liquid_line, indoor_wet_bulb, outdoor] =
            temperatures.each_ref().map(|block| block.split_at(count).0);
        let columns = ChargeColumns {
            suction_pressure,
            suction_line,
            liquid_pressure,
            liquid_line,
            indoor_wet_bulb,
            outdoor,
        };
        let mut judged = [ChargeRow::NONE; BLOCK];
        let judged = judged.split_at_mut(count).0;
        if self.0.judge(&columns, judged).is_err() {
            judged.fill(ChargeRow::NONE);
        }
        for (index, row) in judged.iter().enumerate() {
            let numbers = [
                row.superheat.base(),
                row.subcooling.base(),
                row.target.base(),
                row.standard_uncertainty.base(),
                self.0.probability_within(row).fraction(),
                f64::from(row.verdict as u8),
            ];
            for (output, number) in outputs.iter_mut().zip(numbers) {
                if let Some(slot) = output.get_mut(index) {
                    *slot = number;
                }
            }
        }
    }
    fn refuse(&self, _row: &[f64]) -> Option<kingvalve::Error> {
        None
    }
}

/// Judges rows: six arrays of one length in (suction pressure and line, liquid pressure and line, indoor wet bulb,
/// outdoor air), six out (superheat, subcooling, target, standard uncertainty, probability within, verdict by number).
#[pyfunction]
#[pyo3(signature = (columns, refrigerant, site, gauge, thermometer, target_subcooling, level, units, /))]
#[allow(clippy::too_many_arguments, reason = "called by kingvalve/batch.py alone, which has keywords")]
fn judge(
    py: Python<'_>,
    columns: Vec<Bound<'_, PyAny>>,
    refrigerant: PyRef<'_, Refrigerant>,
    site: PyRef<'_, Site>,
    gauge: &Bound<'_, Instrument>,
    thermometer: &Bound<'_, Instrument>,
    target_subcooling: Option<TemperatureDifference>,
    level: Option<GivenRatio>,
    units: [String; 3],
) -> PyResult<Vec<Py<PyAny>>> {
    let instruments = ChargeInstruments {
        gauge: gauge.get().reading::<GaugePressure>(py)?,
        thermometer: thermometer.get().reading::<Temperature>(py)?,
    };
    let (r, site, tolerance) = (&refrigerant.0, &site.0, ChargeTolerance::default());
    let level = self::level(level)?;
    let rows = match target_subcooling {
        None => ChargeRows::orifice(r, site, &instruments, &tolerance, level),
        Some(target) => ChargeRows::valve(r, site, &instruments, target.0, &tolerance, level),
    };
    let rows = Judge(rows.map_err(raise)?);
    let [pressure, temperature, difference] = units;
    let pressure = Scale::from(Unit::named::<GaugePressure>(&pressure).map_err(raise)?);
    let temperature = Scale::from(Unit::named::<Temperature>(&temperature).map_err(raise)?);
    let difference = Scale::from(Unit::named::<Difference>(&difference).map_err(raise)?);
    let share = Scale::from(Ratio::kind().base()?);
    let [first, ..] = columns.as_slice() else {
        return Err(wrong_kind("expected six columns".to_owned()));
    };
    let shape = first.getattr("shape")?;
    let scales = [pressure, temperature, pressure, temperature, temperature, temperature];
    let sources =
        columns.iter().zip(scales).map(|(column, scale)| Ok(Source::Each(Numbers::of(column)?, scale)));
    let sources = sources.collect::<PyResult<Vec<_>>>()?;
    let results = [difference, difference, difference, difference, share, share];
    run(py, &shape, &sources, &results, Errors::Nan, &rows)
}
