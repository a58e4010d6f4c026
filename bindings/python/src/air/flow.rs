//! How much air moves, and whether it is enough to judge a charge by.

use kingvalve::{air as kv, quantity as q};
use pyo3::prelude::*;
use q::Quantity;

use super::moist::{MoistAir, row};
use crate::column::{Errors, Kinded, Many, carry, carry_both, field, fields, side};
use crate::error::raise;
use crate::measure::{Given, Limits, LimitsOf, level};
use crate::quantity::{IntoPython, Power, Ratio};
use crate::record::{Class, Made, Shown, class, plain};

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_function(wrap_pyfunction!(airflow_from_heat, module)?)?;
    module.add_function(wrap_pyfunction!(total_external_static, module)?)?;
    module.add_function(wrap_pyfunction!(airflow_from_traverse, module)?)?;
    module.add_function(wrap_pyfunction!(velocity_from_pressure, module)?)?;
    module.add_class::<FanTable>()?;
    class::<kv::AirflowCheck>(module, &[wrap_pyfunction!(airflow_check_of, module)?])?;
    module.add_function(wrap_pyfunction!(usual_airflow_per_ton, module)?)?;
    module.add_function(wrap_pyfunction!(california_airflow_per_ton, module)?)
}

/// The airflow that a known sensible heat warms from one temperature to another.
///
/// Parameters
/// ----------
/// heat : Power or Column of Power
///     What reaches the air: electric heat as measured, or a furnace's output, not its nameplate; read or plain.
/// entering : MoistAir
/// leaving : Temperature or Column of Temperature
///     Dry bulb, read or plain.
/// errors : {"raise", "nan"}
///     What to do with a row that cannot be.
///
/// Returns
/// -------
/// VolumeFlow, Measured or Column of VolumeFlow
///     At the state of the entering air.
///
/// Raises
/// ------
/// OutOfRange
///     Heat that is not positive.
/// Inconsistent
///     Leaving air that is not warmer.
///
/// Notes
/// -----
/// Source: energy balance at constant humidity; ASHRAE Handbook—Fundamentals 2017, chapter 1, equations 26 and 30. Range:
/// steady heating, supply thermometer out of sight of the heat source. Accuracy: that of the readings.
///
/// Examples
/// --------
/// >>> back = kv.MoistAir.from_relative_humidity(kv.fahrenheit(70), kv.percent(40), kv.Site())
/// >>> print(f"{kv.airflow_from_heat(kv.volts(238) * kv.amperes(42), back, kv.fahrenheit(97)):.0f}")
/// 1168 cfm
#[pyfunction]
#[pyo3(signature = (heat, entering, leaving, *, errors = Errors::Raise))]
fn airflow_from_heat(
    py: Python<'_>,
    heat: Many<'_, q::Power>,
    entering: PyRef<'_, MoistAir>,
    leaving: Many<'_, q::Temperature>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    if heat.is_read() || entering.is_read() || leaving.is_read() {
        let (heat, leaving) = (heat.measured()?, leaving.measured()?);
        let found = kv::airflow_from_heat(heat, &entering.measured(py)?, leaving);
        return found.map_err(raise)?.into_python(py);
    }
    let ((t, w), site) = (entering.parts(py)?, entering.site());
    let each = |inputs: &[f64]| {
        let [heat, t, w, leaving] = inputs else { return None };
        let leaving = q::Temperature::from_base(*leaving);
        let flow = row(*t, *w, &site)
            .and_then(|air| kv::airflow_from_heat(q::Power::from_base(*heat), &air, leaving));
        Some(flow.map(|flow| [flow.base()]))
    };
    let sides = [side(&heat)?, side(&t)?, side(&w)?, side(&leaving)?];
    field(&fields(py, sides, [q::VolumeFlow::kind()], errors, each)?, py, 0)
}

/// The total external static pressure of an air handler: from the return side to the supply side.
///
/// Parameters
/// ----------
/// supply, return_side : PressureDifference or Column of PressureDifference
///     To the room, as the probe reads them: the return side negative; read or plain.
/// errors : {"raise", "nan"}
///     What to do with a row that cannot be.
///
/// Returns
/// -------
/// PressureDifference, Measured or Column of PressureDifference
///
/// Raises
/// ------
/// OutOfRange
///     A return reading above zero or a supply reading below it.
///
/// Notes
/// -----
/// Source: definition, as in fan tables. Accuracy: that of the readings.
///
/// Examples
/// --------
/// >>> total = kv.total_external_static(kv.inches_of_water(0.32), kv.inches_of_water(-0.25))
/// >>> print(f"{total:.2f inH2O}")
/// 0.57 inH2O
#[pyfunction]
#[pyo3(signature = (supply, return_side, *, errors = Errors::Raise))]
fn total_external_static(
    py: Python<'_>,
    supply: Many<'_, q::PressureDifference>,
    return_side: Many<'_, q::PressureDifference>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let plain = |up: q::PressureDifference, down: q::PressureDifference| kv::total_external_static(up, down);
    carry_both(py, supply, return_side, errors, plain, kv::total_external_static)
}

/// The airflow through an opening of known area at its mean velocity.
///
/// Parameters
/// ----------
/// area : Area or Column of Area
///     Free area; a grille's is less than its face.
/// mean_velocity : Velocity or Column of Velocity
///     As ``Reading.repeated`` of the points of a traverse: their scatter then counts as the doubt of sampling.
/// errors : {"raise", "nan"}
///     What to do with a row that cannot be.
///
/// Returns
/// -------
/// VolumeFlow, Measured or Column of VolumeFlow
///
/// Raises
/// ------
/// OutOfRange
///     An area or velocity that is not positive.
///
/// Notes
/// -----
/// Source: continuity; where to put the points: ASHRAE Standard 111 or ISO 3966. Accuracy: that of the readings.
///
/// Examples
/// --------
/// >>> print(f"{kv.airflow_from_traverse(kv.square_feet(1.9), kv.feet_per_minute(626)):.0f}")
/// 1189 cfm
#[pyfunction]
#[pyo3(signature = (area, mean_velocity, *, errors = Errors::Raise))]
fn airflow_from_traverse(
    py: Python<'_>,
    area: Many<'_, q::Area>,
    mean_velocity: Many<'_, q::Velocity>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let plain = |area: q::Area, mean: q::Velocity| kv::airflow_from_traverse(area, mean);
    carry_both(py, area, mean_velocity, errors, plain, kv::airflow_from_traverse)
}

/// The velocity behind a velocity pressure, as a Pitot tube reads it: average the velocities of a traverse, not the pressures.
///
/// Parameters
/// ----------
/// velocity_pressure : PressureDifference or Column of PressureDifference
///     Read or plain.
/// air : MoistAir
/// errors : {"raise", "nan"}
///     What to do with a row that cannot be.
///
/// Returns
/// -------
/// Velocity, Measured or Column of Velocity
///
/// Raises
/// ------
/// OutOfRange
///     A velocity pressure that is not positive.
///
/// Notes
/// -----
/// Source: Bernoulli's equation, incompressible: w = √(2Δp/ρ). Range: duct velocities. Accuracy: below 600 ft/min a gauge
/// that reads to 0.01 inH₂O tells next to nothing: the doubt shows it.
///
/// Examples
/// --------
/// >>> air = kv.MoistAir.from_relative_humidity(kv.fahrenheit(70), kv.percent(0), kv.Site())
/// >>> print(f"{kv.velocity_from_pressure(kv.inches_of_water(0.04), air):.0f}")
/// 802 ft/min
#[pyfunction]
#[pyo3(signature = (velocity_pressure, air, *, errors = Errors::Raise))]
fn velocity_from_pressure(
    py: Python<'_>,
    velocity_pressure: Many<'_, q::PressureDifference>,
    air: PyRef<'_, MoistAir>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    if velocity_pressure.is_read() || air.is_read() {
        let found = kv::velocity_from_pressure(velocity_pressure.measured()?, &air.measured(py)?);
        return found.map_err(raise)?.into_python(py);
    }
    let ((t, w), site) = (air.parts(py)?, air.site());
    let each = |inputs: &[f64]| {
        let [p, t, w] = inputs else { return None };
        let p = q::PressureDifference::from_base(*p);
        let found = row(*t, *w, &site).and_then(|air| kv::velocity_from_pressure(p, &air));
        Some(found.map(|velocity| [velocity.base()]))
    };
    let sides = [side(&velocity_pressure)?, side(&t)?, side(&w)?];
    field(&fields(py, sides, [q::Velocity::kind()], errors, each)?, py, 0)
}

/// A maker's fan table: airflow by total external static pressure, straight between its rows.
///
/// Parameters
/// ----------
/// static_pressures : Column of PressureDifference
///     Rising, two at least.
/// airflows : Column of VolumeFlow
///     One for each.
/// source : str
///     Where it comes from.
///
/// Raises
/// ------
/// Inconsistent
///     Fewer than two rows, pressures that do not rise, columns of different lengths.
/// OutOfRange
///     An airflow that is not positive.
///
/// Examples
/// --------
/// >>> fan = kv.FanTable(kv.inches_of_water([0.3, 0.5, 0.7]), kv.cfm([1300, 1200, 1060]), "invented fan")
/// >>> print(f"{fan.airflow(kv.inches_of_water(0.6)):.0f}")
/// 1130 cfm
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct FanTable(kv::FanTable);

#[pymethods]
impl FanTable {
    #[new]
    #[pyo3(signature = (static_pressures, airflows, source = String::new()))]
    fn new(
        static_pressures: &Bound<'_, PyAny>,
        airflows: &Bound<'_, PyAny>,
        source: String,
    ) -> PyResult<Self> {
        let pressures: Vec<q::PressureDifference> = crate::cycle::row(static_pressures)?;
        let airflows: Vec<q::VolumeFlow> = crate::cycle::row(airflows)?;
        if pressures.len() != airflows.len() {
            let (a, b) = (pressures.len(), airflows.len());
            return Err(crate::error::wrong_kind(format!("a fan table of {a} pressures and {b} airflows")));
        }
        kv::FanTable::new(pressures.into_iter().zip(airflows), source).map(FanTable).map_err(raise)
    }

    /// Where it comes from.
    #[getter]
    fn source(&self) -> &str {
        self.0.source()
    }

    /// The airflow at a total external static pressure, on the straight line between the rows around it.
    ///
    /// Parameters
    /// ----------
    /// static_pressure : PressureDifference or Column of PressureDifference
    ///     Read or plain.
    /// errors : {"raise", "nan"}
    ///     What to do with a row outside the table.
    ///
    /// Returns
    /// -------
    /// VolumeFlow, Measured or Column of VolumeFlow
    ///     Of standard air, as fan tables give it unless they say otherwise.
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside the table: no extrapolation.
    ///
    /// Notes
    /// -----
    /// Accuracy: that of the reading times the slope; the table's own and the bend between rows are not counted.
    #[pyo3(signature = (static_pressure, *, errors = Errors::Raise))]
    fn airflow(
        &self,
        py: Python<'_>,
        static_pressure: Many<'_, q::PressureDifference>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        let plain = |p: q::PressureDifference| self.0.airflow(p);
        carry(py, static_pressure, errors, plain, |p| self.0.airflow(p))
    }

    fn __repr__(&self) -> String {
        format!("<FanTable: {} rows, {}>", self.0.points().len(), self.0.source())
    }
}

impl Shown for kv::AirflowCheck {
    const CLASS: Class<Self> = Class {
        name: "AirflowCheck",
        doc: r#"Whether the airflow lets one judge the charge: a precondition of superheat and subcooling.

        Examples
        --------
        >>> flow = kv.Measured.from_standard(kv.cfm(980), kv.cfm(30), "flow")
        >>> check = kv.AirflowCheck.of(flow, kv.tons_of_refrigeration(3))
        >>> check.verdict.name, check.lets_judge_charge
        ('outside', False)
        "#,
        fields: &[
            ("airflow", "The airflow.", |it, py| it.airflow().into_python(py)),
            ("per_ton", "For each ton of nominal capacity.", |it, py| it.per_ton().into_python(py)),
            ("verdict", "Against the limits.", |it, py| it.verdict().into_python(py)),
            ("lets_judge_charge", "Whether superheat and subcooling tell the charge.", |it, py| {
                plain(it.lets_judge_charge(), py)
            }),
            ("next", "What to do.", |it, py| plain(it.next(), py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::AirflowCheck::finding),
        same: None,
    };
}

/// Judges an airflow against limits per ton of nominal cooling capacity.
///
/// Parameters
/// ----------
/// airflow : VolumeFlow
///     Through the indoor coil, read or plain.
/// nominal : Power
///     Cooling capacity on the data plate.
/// per_ton : Limits of VolumeFlow, optional
///     ``usual_airflow_per_ton()`` unless given.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// AirflowCheck
///
/// Raises
/// ------
/// OutOfRange
///     An airflow or capacity that is not positive.
#[pyfunction(name = "of")]
#[pyo3(signature = (airflow, nominal, per_ton = None, *, level = None))]
fn airflow_check_of(
    airflow: Given<q::VolumeFlow>,
    nominal: Power,
    per_ton: Option<LimitsOf<q::VolumeFlow>>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::AirflowCheck>> {
    let per_ton = per_ton.map_or_else(kv::usual_airflow_per_ton, |limits| limits.0);
    Ok(Made(kv::AirflowCheck::of(airflow.measured(), nominal.0, per_ton, self::level(level)?)))
}

/// The airflow a ton of cooling is usually set up with: 350 to 450 cfm. Common practice, no source.
#[pyfunction]
fn usual_airflow_per_ton() -> Limits {
    kv::usual_airflow_per_ton().into()
}

/// The airflow above which California's charge test may go on without the temperature-split test: 300 cfm per ton
/// (2008 Reference Residential Appendix RA3.2.2.7).
#[pyfunction]
fn california_airflow_per_ton() -> PyResult<Limits> {
    Ok(kv::california_airflow_per_ton().map_err(raise)?.into())
}
