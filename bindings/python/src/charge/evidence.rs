//! What an inventory is told, and what each of it contributed.

use kingvalve::charge::inventory as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::measure::Given;
use crate::quantity::{Exposed, IntoPython};
use crate::record::{Class, Made, Named, Of, Shown, class, listed, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Estimate<q::Mass>>(module, &[])?;
    class::<kv::Contribution>(module, &[])?;
    let standing = [wrap_pyfunction!(standing_at, module)?, wrap_pyfunction!(standing_at_parts, module)?];
    class::<kv::StandingReading>(module, &standing)?;
    class::<kv::RunningReading>(module, &[wrap_pyfunction!(running_of, module)?])
}

impl<Q: Exposed> Shown for kv::Estimate<Q> {
    const CLASS: Class<Self> = Class {
        name: "Estimate",
        doc: "A quantity as a distribution: the middle, and where the truth lies one time in two and nine in ten.",
        fields: &[
            ("median", "As likely above as below.", |it, py| it.median.into_python(py)),
            ("half", "The truth lies between these two one time in two.", |it, py| it.half.into_python(py)),
            ("ninety", "The truth lies between these two nine times in ten.", |it, py| {
                it.ninety.into_python(py)
            }),
        ],
        text: |it| format!("{:.2} (nine times in ten {:.2})", it.median, it.ninety),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::Contribution {
    const CLASS: Class<Self> = Class {
        name: "Contribution",
        doc: "What one reading or weighing contributed to an ``Inventory``.",
        fields: &[
            ("what", "What it is called: \"standing pressure\", \"weighed in\".", |it, py| {
                plain(it.what.as_str(), py)
            }),
            ("before", "What was known before it.", |it, py| it.before.into_python(py)),
            ("after", "What was known with it.", |it, py| it.after.into_python(py)),
            (
                "width_left",
                "The width of the 90 % interval after, as a share of that before: 50 % where it halved.",
                |it, py| it.width_left().into_python(py),
            ),
        ],
        text: kv::Contribution::text,
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::StandingReading {
    const CLASS: Class<Self> = Class {
        name: "StandingReading",
        doc: r#"The standing pressure of a system that is off, equalised and settled.

        Read before and after a step on one gauge, one ``Instrument``: its own error is then known to be shared.

        Examples
        --------
        >>> gauge = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(0.5, kv.psi(500))
        >>> pressure = kv.Site().absolute(kv.Reading(kv.psig(62), gauge))
        >>> kv.StandingReading.at(pressure, kv.fahrenheit(88), label="on arrival").label
        'on arrival'
        "#,
        fields: &[
            ("pressure", "The absolute pressure.", |it, py| it.pressure().into_python(py)),
            ("temperatures", "The temperatures: one, or one for each part.", |it, py| {
                listed(it.temperatures(), py)
            }),
            ("label", "What it is called in the account of contributions.", |it, py| plain(it.label(), py)),
        ],
        text: |it| it.pressure().to_string(),
        finding: None,
        same: None,
    };
}

/// Absolute pressure, and one temperature for the whole system.
///
/// Parameters
/// ----------
/// pressure : Pressure
///     Absolute, read or plain.
/// temperature : Temperature
///     Read or plain.
/// label : str, optional
///     What it is called in the account of contributions.
///
/// Returns
/// -------
/// StandingReading
#[pyfunction(name = "at")]
#[pyo3(signature = (pressure, temperature, *, label = String::new()), text_signature = "(pressure, temperature, *, label='')")]
fn standing_at(
    pressure: Given<q::Pressure>,
    temperature: Given<q::Temperature>,
    label: String,
) -> Made<kv::StandingReading> {
    Made(Ok(kv::StandingReading::at(pressure.measured(), temperature.measured()).labelled(label)))
}

/// Absolute pressure, and one temperature for each part of the system, in their order.
///
/// Parameters
/// ----------
/// pressure : Pressure
///     Absolute, read or plain.
/// temperatures : list of Temperature
///     Read or plain.
/// label : str, optional
///     What it is called in the account of contributions.
///
/// Returns
/// -------
/// StandingReading
#[pyfunction(name = "at_parts")]
#[pyo3(signature = (pressure, temperatures, *, label = String::new()), text_signature = "(pressure, temperatures, *, label='')")]
fn standing_at_parts(
    pressure: Given<q::Pressure>,
    temperatures: Vec<Given<q::Temperature>>,
    label: String,
) -> Made<kv::StandingReading> {
    let temperatures = temperatures.into_iter().map(Given::measured).collect();
    Made(Ok(kv::StandingReading::at_parts(pressure.measured(), temperatures).labelled(label)))
}

impl Shown for kv::RunningReading {
    const CLASS: Class<Self> = Class {
        name: "RunningReading",
        doc: "Superheat and subcooling of a system run until they are steady, with what they would be at full charge.",
        fields: &[
            ("superheat", "Superheat as read.", |it, py| it.superheat().into_python(py)),
            ("subcooling", "Subcooling as read.", |it, py| it.subcooling().into_python(py)),
            ("full", "What they would be at full charge.", |it, py| (*it.full()).into_python(py)),
            ("label", "What it is called in the account of contributions.", |it, py| plain(it.label(), py)),
        ],
        text: |it| format!("superheat {}, subcooling {}", it.superheat(), it.subcooling()),
        finding: None,
        same: None,
    };
}

/// Superheat and subcooling as read, and what they would be at full charge.
///
/// Parameters
/// ----------
/// superheat, subcooling : TemperatureDifference
///     By ``Refrigerant.superheat`` and ``subcooling``, read or plain.
/// full : FullCharge
/// label : str, optional
///     What it is called in the account of contributions.
///
/// Returns
/// -------
/// RunningReading
#[pyfunction(name = "of")]
#[pyo3(
    signature = (superheat, subcooling, full, *, label = String::new()),
    text_signature = "(superheat, subcooling, full, *, label='')"
)]
fn running_of(
    superheat: Given<q::TemperatureDifference>,
    subcooling: Given<q::TemperatureDifference>,
    full: Of<kingvalve::charge::FullCharge>,
    label: String,
) -> Made<kv::RunningReading> {
    let reading = kv::RunningReading::of(superheat.measured(), subcooling.measured(), full.0);
    Made(Ok(reading.labelled(label)))
}

impl Named for kv::RunningSays {
    const WHAT: &'static str = "word of a running reading";
    const ALL: &'static [(&'static str, Self)] = &[
        ("about", kv::RunningSays::About),
        ("at_most", kv::RunningSays::AtMost),
        ("at_least", kv::RunningSays::AtLeast),
    ];
}

impl Named for kv::Conflict {
    const WHAT: &'static str = "contradiction";
    const ALL: &'static [(&'static str, Self)] = &[
        (kv::Conflict::PressureTooLow.name(), kv::Conflict::PressureTooLow),
        (kv::Conflict::PressureTooHigh.name(), kv::Conflict::PressureTooHigh),
        (kv::Conflict::Running.name(), kv::Conflict::Running),
    ];
}
