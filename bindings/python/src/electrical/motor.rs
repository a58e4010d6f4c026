//! A motor's current, its winding's insulation, its power.

use kingvalve::electrical as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::column::{Errors, Many, carry_both, exactly};
use crate::measure::{Given, level};
use crate::quantity::{Current, IntoPython, Ratio, Resistance};
use crate::record::{Choice, Class, Made, Shown, class};

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let current =
        [wrap_pyfunction!(compressor_current_of, module)?, wrap_pyfunction!(maximum_continuous, module)?];
    class::<kv::CompressorCurrent>(module, &current)?;
    class::<kv::Insulation>(module, &[wrap_pyfunction!(insulation_of, module)?])?;
    class::<kv::PowerFactor>(module, &[wrap_pyfunction!(power_factor_of, module)?])?;
    module.add_function(wrap_pyfunction!(corrected_to_40_celsius, module)?)?;
    module.add_function(wrap_pyfunction!(apparent_power, module)?)?;
    module.add_function(wrap_pyfunction!(real_power, module)?)?;
    module.add("MCC_PER_RLA", kv::MCC_PER_RLA)
}

impl Shown for kv::CompressorCurrent {
    const CLASS: Class<Self> = Class {
        name: "CompressorCurrent",
        doc: r#"A compressor's running current beside its rated-load current, which is a ceiling and no target.

        Notes
        -----
        Source: common practice, no source. Range: running, a minute or more after the start. Accuracy: the ammeter's.

        Examples
        --------
        >>> clamp = kv.Instrument.resolution(kv.amperes(0.1)).accuracy_percent_of_reading(2).counts(5)
        >>> found = kv.CompressorCurrent.of(kv.Reading(kv.amperes(13.2), clamp), kv.amperes(17.9))
        >>> print(found.verdict.name, f"{found.share.value:.0f}")
        within 74 %
        "#,
        fields: &[
            ("current", "The current.", |it, py| it.current().into_python(py)),
            ("share", "The share of the rated-load current.", |it, py| it.share().into_python(py)),
            ("verdict", "Against the rated-load current.", |it, py| it.verdict().into_python(py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::CompressorCurrent::finding),
        same: None,
    };
}

/// A running current, against the rated-load current on the plate.
///
/// Parameters
/// ----------
/// current : Current
///     RMS, in the common lead; read or plain.
/// rla : Current
///     Rated-load current on the data plate.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// CompressorCurrent
///
/// Raises
/// ------
/// OutOfRange
///     A negative current, a rated-load current that is not above zero, anything not finite.
#[pyfunction(name = "of")]
#[pyo3(signature = (current, rla, *, level = None))]
fn compressor_current_of(
    current: Given<q::Current>,
    rla: Current,
    level: Option<Ratio>,
) -> PyResult<Made<kv::CompressorCurrent>> {
    Ok(Made(kv::CompressorCurrent::of(current.measured(), rla.0, self::level(level)?)))
}

/// The current at which the overload opens in time, estimated from a rated-load current.
///
/// Parameters
/// ----------
/// rla : Current or Column of Current
/// factor : float
///     1 to 2; ``kv.MCC_PER_RLA``, 1.56, unless given.
/// errors : {"raise", "nan"}
///     What to do with a value outside the range.
///
/// Returns
/// -------
/// Current or Column of Current
///
/// Raises
/// ------
/// OutOfRange
///     A rated-load current that is not above zero, a factor outside the range.
///
/// Notes
/// -----
/// Source: rated-load current times the factor. Accuracy: as good as the factor; makers use 1.4 to 1.56.
///
/// Examples
/// --------
/// >>> print(f"{kv.CompressorCurrent.maximum_continuous(kv.amperes(17.9)):.1f}")
/// 27.9 A
#[pyfunction]
#[pyo3(signature = (rla, factor = kv::MCC_PER_RLA, *, errors = Errors::Raise))]
fn maximum_continuous(
    py: Python<'_>,
    rla: Many<'_, q::Current>,
    factor: f64,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    exactly(py, rla, errors, |rla| kv::CompressorCurrent::maximum_continuous(rla, factor))
}

impl Shown for kv::Insulation {
    const CLASS: Class<Self> = Class {
        name: "Insulation",
        doc: r#"An insulation resistance, against a threshold the user names.

        Notes
        -----
        There is no default: makers differ by factors of a hundred, and a hermetic compressor full of refrigerant and
        oil reads far lower than a dry motor. Range: windings disconnected from electronics, discharged; never on a
        compressor in vacuum. Accuracy: that of the tester.

        Examples
        --------
        >>> tester = kv.Instrument.resolution(kv.megohms(0.1)).accuracy_percent_of_reading(5).counts(2)
        >>> found = kv.Insulation.of(kv.Reading(kv.megohms(38), tester), kv.megohms(20), "shop policy")
        >>> found.verdict.name
        'within'
        "#,
        fields: &[
            ("resistance", "The resistance.", |it, py| it.resistance().into_python(py)),
            ("verdict", "Against the threshold.", |it, py| it.verdict().into_python(py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::Insulation::finding),
        same: None,
    };
}

/// A resistance from winding to ground, against the least it should be and who says so.
///
/// Parameters
/// ----------
/// resistance : Resistance
///     Read or plain; where the tester shows more than its range, the range's upper end.
/// at_least : Resistance
/// who_says : str
///     Whose threshold that is.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// Insulation
///
/// Raises
/// ------
/// OutOfRange
///     A negative resistance, a threshold that is not above zero, anything not finite.
#[pyfunction(name = "of")]
#[pyo3(signature = (resistance, at_least, who_says, *, level = None))]
fn insulation_of(
    resistance: Given<q::Resistance>,
    at_least: Resistance,
    who_says: String,
    level: Option<Ratio>,
) -> PyResult<Made<kv::Insulation>> {
    Ok(Made(kv::Insulation::of(resistance.measured(), at_least.0, who_says, self::level(level)?)))
}

/// An insulation resistance read at a winding temperature, as it would read at 40 °C.
///
/// Parameters
/// ----------
/// resistance : Resistance or Column of Resistance
///     Read or plain.
/// winding : Temperature or Column of Temperature
///     Of the winding, 0 °C to 100 °C; read or plain.
/// errors : {"raise", "nan"}
///     What to do with a value outside the range.
///
/// Returns
/// -------
/// Resistance, Measured or Column of Resistance
///
/// Raises
/// ------
/// OutOfRange
///     A negative resistance, a temperature outside the range, anything not finite.
///
/// Notes
/// -----
/// Source: IEEE 43: halves for every 10 K of warmth; from memory, agreeing with general references.
/// Accuracy: a rule for trending one winding, good to a factor of about two over 30 K.
///
/// Examples
/// --------
/// >>> kv.corrected_to_40_celsius(kv.megohms(80), kv.celsius(20)).megohms
/// 20.0
#[pyfunction]
#[pyo3(signature = (resistance, winding, *, errors = Errors::Raise))]
fn corrected_to_40_celsius(
    py: Python<'_>,
    resistance: Many<'_, q::Resistance>,
    winding: Many<'_, q::Temperature>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let plain = |r, t| kv::corrected_to_40_celsius(r, t).map(|found| found.value());
    carry_both(py, resistance, winding, errors, plain, kv::corrected_to_40_celsius)
}

impl Shown for kv::PowerFactor {
    const CLASS: Class<Self> = Class {
        name: "PowerFactor",
        doc: r#"A power factor from a wattmeter beside volts and amperes.

        Notes
        -----
        Source: P/(V·I), three phases P/(√3·V·I): any textbook of alternating current. Range: three phases balanced;
        with a variable-speed drive only where all three instruments are true-RMS. Accuracy: exact; doubt is first order.

        Examples
        --------
        >>> found = kv.PowerFactor.of(kv.watts(2280), kv.volts(240), kv.amperes(10), "single")
        >>> print(f"{found.factor.value:.0f}", found.plausible.name)
        95 % within
        "#,
        fields: &[
            ("factor", "The power factor.", |it, py| it.factor().into_python(py)),
            ("plausible", "Whether it can be: above 100 % the instruments disagree.", |it, py| {
                it.plausible().into_python(py)
            }),
        ],
        text: ToString::to_string,
        finding: Some(kv::PowerFactor::finding),
        same: None,
    };
}

/// Real power over apparent power.
///
/// Parameters
/// ----------
/// power : Power
/// voltage : ElectricPotential
///     Between conductors.
/// current : Current
///     Of one conductor; all read or plain, at the same moment.
/// phases : {"single", "three"}
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// PowerFactor
///
/// Raises
/// ------
/// OutOfRange
///     A negative power, voltage or current, anything not finite.
/// Inconsistent
///     No voltage or no current.
#[pyfunction(name = "of")]
#[pyo3(signature = (power, voltage, current, phases, *, level = None))]
fn power_factor_of(
    power: Given<q::Power>,
    voltage: Given<q::ElectricPotential>,
    current: Given<q::Current>,
    phases: Choice<kv::Phases>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::PowerFactor>> {
    let (power, voltage, current) = (power.measured(), voltage.measured(), current.measured());
    Ok(Made(kv::PowerFactor::of(power, voltage, current, phases.0, self::level(level)?)))
}

/// The apparent power of a circuit, in volt-amperes (given as a ``Power``).
///
/// Parameters
/// ----------
/// voltage : ElectricPotential or Column of ElectricPotential
///     RMS between conductors, read or plain.
/// current : Current or Column of Current
///     RMS of one conductor, read or plain.
/// phases : {"single", "three"}
/// errors : {"raise", "nan"}
///     What to do with a value outside the range.
///
/// Returns
/// -------
/// Power, Measured or Column of Power
///
/// Raises
/// ------
/// OutOfRange
///     A negative voltage or current, anything not finite.
///
/// Notes
/// -----
/// Source: S = V·I, three phases √3·V·I, balanced: any textbook of alternating current. Accuracy: exact.
///
/// Examples
/// --------
/// >>> print(kv.apparent_power(kv.volts(240), kv.amperes(10), "single").watts)
/// 2400.0
#[pyfunction]
#[pyo3(signature = (voltage, current, phases, *, errors = Errors::Raise))]
fn apparent_power(
    py: Python<'_>,
    voltage: Many<'_, q::ElectricPotential>,
    current: Many<'_, q::Current>,
    phases: Choice<kv::Phases>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let phases = phases.0;
    let plain = |v: q::ElectricPotential, i: q::Current| kv::apparent_power(v, i, phases);
    carry_both(py, voltage, current, errors, plain, |v, i| kv::apparent_power(v, i, phases))
}

/// The real power of a circuit from its power factor.
///
/// Parameters
/// ----------
/// voltage : ElectricPotential or Column of ElectricPotential
///     RMS between conductors, read or plain.
/// current : Current or Column of Current
///     RMS of one conductor, read or plain.
/// power_factor : Ratio
///     0 % to 100 %, read or plain.
/// phases : {"single", "three"}
/// errors : {"raise", "nan"}
///     What to do with a value outside the range.
///
/// Returns
/// -------
/// Power, Measured or Column of Power
///
/// Raises
/// ------
/// OutOfRange
///     A negative voltage or current, a power factor outside its range, anything not finite.
///
/// Notes
/// -----
/// Source: P = S·power factor: any textbook of alternating current. Accuracy: exact; doubt is first order.
///
/// Examples
/// --------
/// >>> round(kv.real_power(kv.volts(240), kv.amperes(10), kv.percent(95), "single").watts)
/// 2280
#[pyfunction]
#[pyo3(signature = (voltage, current, power_factor, phases, *, errors = Errors::Raise))]
fn real_power(
    py: Python<'_>,
    voltage: Many<'_, q::ElectricPotential>,
    current: Many<'_, q::Current>,
    power_factor: Given<q::Ratio>,
    phases: Choice<kv::Phases>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let phases = phases.0;
    // A plain voltage and current stay plain only where the power factor is.
    let voltage = match (voltage, &power_factor) {
        (Many::One(given), Given::Doubtful(_)) => Many::One(Given::Doubtful(Box::new(given.measured()))),
        (voltage, _) => voltage,
    };
    let measured = power_factor.measured();
    let share = measured.value();
    let plain = |v: q::ElectricPotential, i: q::Current| kv::real_power(v, i, share, phases);
    carry_both(py, voltage, current, errors, plain, |v, i| kv::real_power(v, i, measured, phases))
}
