//! Readings of a running system, and how far they lie from what they should be.

use kingvalve::fault as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::{Given, Read};
use crate::quantity::{IntoPython, Site, Temperature, TemperatureDifference};
use crate::record::{Choice, Class, Made, New, Of, Shown, class, listed, name, plain};
use crate::refrigerant::Refrigerant;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Operation>()?;
    class::<kv::Expected>(module, &[wrap_pyfunction!(expected, module)?])?;
    class::<kv::Residual>(module, &[wrap_pyfunction!(residual, module)?])
}

/// Readings of a system: running steadily, and for two of them standing still.
///
/// Parameters
/// ----------
/// suction_pressure, liquid_pressure, standing_pressure : Reading of GaugePressure, optional
///     The last at rest, settled, power off.
/// suction_line, liquid_line, discharge_line : Reading of Temperature, optional
///     Beside the gauges; near the compressor.
/// outdoor_air, return_air, supply_air : Reading of Temperature, optional
///     Entering the outdoor coil; before and after the indoor coil.
/// liquid_line_at_metering : Reading of Temperature, optional
/// standing_temperature : Reading of Temperature, optional
///     Of the coil at rest.
///
/// Examples
/// --------
/// >>> gauge = kv.Instrument.resolution(kv.psi(0.1)).accuracy(kv.psi(2.5))
/// >>> clamp = kv.Instrument.resolution(kv.delta_fahrenheit(0.1)).accuracy(kv.delta_fahrenheit(1))
/// >>> seen = kv.Operation(
/// ...     suction_pressure=kv.Reading(kv.psig(105), gauge), suction_line=kv.Reading(kv.fahrenheit(62), clamp)
/// ... )
/// >>> should = kv.Expected(superheat=kv.delta_fahrenheit(12))
/// >>> [off] = seen.residuals(kv.Refrigerant("R-410A"), kv.Site(), should)
/// >>> print(off.feature, f"{off.value.value:.0f}")
/// superheat 16 Δ°F
#[pyclass(frozen, module = "kingvalve")]
pub struct Operation(kv::Operation);

type Pressure = Option<Read<q::GaugePressure>>;
type Warmth = Option<Read<q::Temperature>>;

#[pymethods]
impl Operation {
    #[new]
    #[pyo3(signature = (
        *, suction_pressure = None, suction_line = None, liquid_pressure = None, liquid_line = None, outdoor_air = None,
        return_air = None, supply_air = None, discharge_line = None, liquid_line_at_metering = None,
        standing_pressure = None, standing_temperature = None
    ))]
    #[allow(clippy::too_many_arguments, reason = "keywords in Python")]
    fn new(
        suction_pressure: Pressure,
        suction_line: Warmth,
        liquid_pressure: Pressure,
        liquid_line: Warmth,
        outdoor_air: Warmth,
        return_air: Warmth,
        supply_air: Warmth,
        discharge_line: Warmth,
        liquid_line_at_metering: Warmth,
        standing_pressure: Pressure,
        standing_temperature: Warmth,
    ) -> Self {
        let pressure = |read: Pressure| read.map(|read| read.0);
        let warmth = |read: Warmth| read.map(|read| read.0);
        Operation(kv::Operation {
            suction_pressure: pressure(suction_pressure),
            suction_line: warmth(suction_line),
            liquid_pressure: pressure(liquid_pressure),
            liquid_line: warmth(liquid_line),
            outdoor_air: warmth(outdoor_air),
            return_air: warmth(return_air),
            supply_air: warmth(supply_air),
            discharge_line: warmth(discharge_line),
            liquid_line_at_metering: warmth(liquid_line_at_metering),
            standing_pressure: pressure(standing_pressure),
            standing_temperature: warmth(standing_temperature),
        })
    }

    /// The residual of every feature that was read and of which something was expected.
    ///
    /// Parameters
    /// ----------
    /// refrigerant : Refrigerant
    /// site : Site
    /// expected : Expected
    ///
    /// Returns
    /// -------
    /// list of Residual
    ///     Two features from one reading keep what they share.
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure outside the range of the refrigerant, said of its field.
    fn residuals(
        &self,
        py: Python<'_>,
        refrigerant: PyRef<'_, Refrigerant>,
        site: PyRef<'_, Site>,
        expected: Of<kv::Expected>,
    ) -> PyResult<Py<PyAny>> {
        let found = self.0.residuals(&refrigerant.0, &site.0, &expected.0);
        listed(found.map_err(raise)?, py)
    }
}

impl Shown for kv::Expected {
    const CLASS: Class<Self> = Class {
        name: "Expected",
        doc: "What a system without a fault would show at these conditions; what is left out is not judged.

        Parameters
        ----------
        superheat, subcooling, condensing_over_ambient, evaporating_depression, air_split : TemperatureDifference, optional
        discharge_temperature : Temperature, optional
        liquid_line_drop : TemperatureDifference, optional
            Zero unless given.
        ",
        fields: &[
            ("superheat", "Superheat.", |it, py| it.superheat.into_python(py)),
            ("subcooling", "Subcooling.", |it, py| it.subcooling.into_python(py)),
            ("condensing_over_ambient", "Condensing temperature above the outdoor air.", |it, py| {
                it.condensing_over_ambient.into_python(py)
            }),
            ("evaporating_depression", "Evaporating temperature below the return air.", |it, py| {
                it.evaporating_depression.into_python(py)
            }),
            ("air_split", "Return air above supply air.", |it, py| it.air_split.into_python(py)),
            ("discharge_temperature", "Of the discharge line.", |it, py| {
                it.discharge_temperature.into_python(py)
            }),
            ("liquid_line_drop", "What the liquid line loses.", |it, py| it.liquid_line_drop.into_python(py)),
        ],
        text: |it| format!("superheat {:?}, subcooling {:?}", it.superheat, it.subcooling),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

type Should = Option<TemperatureDifference>;

#[pyfunction(name = "__new__")]
#[pyo3(signature = (
    cls, *, superheat = None, subcooling = None, condensing_over_ambient = None, evaporating_depression = None,
    air_split = None, discharge_temperature = None, liquid_line_drop = None
))]
#[allow(clippy::too_many_arguments, reason = "keywords in Python")]
fn expected(
    cls: New,
    superheat: Should,
    subcooling: Should,
    condensing_over_ambient: Should,
    evaporating_depression: Should,
    air_split: Should,
    discharge_temperature: Option<Temperature>,
    liquid_line_drop: Should,
) -> Made<kv::Expected> {
    let bare = |should: Should| should.map(|should| should.0);
    cls.of(Ok(kv::Expected {
        superheat: bare(superheat),
        subcooling: bare(subcooling),
        condensing_over_ambient: bare(condensing_over_ambient),
        evaporating_depression: bare(evaporating_depression),
        air_split: bare(air_split),
        discharge_temperature: discharge_temperature.map(|should| should.0),
        liquid_line_drop: bare(liquid_line_drop),
    }))
}

impl Shown for kv::Residual {
    const CLASS: Class<Self> = Class {
        name: "Residual",
        doc: r#"What a feature is, less what it should be, with the doubt of both.

        Parameters
        ----------
        feature : str
            "superheat", "subcooling", "condensing_over_ambient", "evaporating_depression", "air_split",
            "discharge_temperature", "liquid_line_drop" or "standing_excess".
        seen : TemperatureDifference
            Read or plain; within 500 °F of what was expected.
        expected : TemperatureDifference
            Read or plain.

        Notes
        -----
        Source: Rossi and Braun, HVAC&R Research 3 (1997) 19: measured less predicted for normal performance.

        Examples
        --------
        >>> print(kv.Residual("superheat", kv.delta_fahrenheit(26), kv.delta_fahrenheit(12)).value)
        14 Δ°F
        "#,
        fields: &[
            ("feature", "Of what.", |it, py| plain(name(it.feature()), py)),
            ("value", "How far it is off, with its doubt.", |it, py| it.value().into_python(py)),
        ],
        text: |it| format!("{} off by {}", it.feature(), it.value()),
        finding: None,
        same: None,
    };
}

#[pyfunction(name = "__new__")]
fn residual(
    cls: New,
    feature: Choice<kv::Feature>,
    seen: Given<q::TemperatureDifference>,
    expected: Given<q::TemperatureDifference>,
) -> Made<kv::Residual> {
    cls.of(kv::Residual::new(feature.0, seen.measured(), expected.measured()))
}
