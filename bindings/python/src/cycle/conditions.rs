//! What must hold before a running system tells its charge.

use kingvalve::cycle::target as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::{Given, LimitsOf, level};
use crate::quantity::{IntoPython, Ratio, Time};
use crate::record::{Choice, Class, Made, Named, New, Of, Shown, class, listed, name, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Conditions>(module, &[wrap_pyfunction!(conditions, module)?])?;
    let requirements = [wrap_pyfunction!(requirements, module)?, wrap_pyfunction!(unmet, module)?];
    class::<kv::Requirements>(module, &requirements)?;
    class::<kv::Unmet>(module, &[])
}

impl Named for kv::Mode {
    const WHAT: &'static str = "mode";
    const ALL: &'static [(&'static str, Self)] =
        &[("cooling", kv::Mode::Cooling), ("heating", kv::Mode::Heating)];
}

impl Named for kv::Condition {
    const WHAT: &'static str = "condition";
    const ALL: &'static [(&'static str, Self)] = &[
        ("cooling", kv::Condition::Cooling),
        ("airflow", kv::Condition::Airflow),
        ("outdoor_air", kv::Condition::OutdoorAir),
        ("indoor_load", kv::Condition::IndoorLoad),
        ("settled", kv::Condition::Settled),
        ("target", kv::Condition::Target),
    ];
}

impl Shown for kv::Conditions {
    const CLASS: Class<Self> = Class {
        name: "Conditions",
        doc: r#"The conditions under which a system was read.

        Parameters
        ----------
        running : Time
            How long it has run.
        outdoor : Temperature
            Of the air entering the outdoor coil, read or plain.
        indoor : Temperature, optional
            Of the air entering the indoor coil, read or plain.
        airflow : AirflowCheck, optional
            What was found of the airflow.
        mode : {"cooling", "heating"}
        "#,
        fields: &[
            ("running", "How long it has run.", |it, py| it.running.into_python(py)),
            ("outdoor", "Of the air entering the outdoor coil.", |it, py| (&it.outdoor).into_python(py)),
            ("indoor", "Of the air entering the indoor coil.", |it, py| it.indoor.as_ref().into_python(py)),
            ("airflow", "What was found of the airflow.", |it, py| it.airflow.clone().into_python(py)),
            ("mode", "\"cooling\" or \"heating\".", |it, py| plain(name(it.mode), py)),
        ],
        text: |it| format!("{}, run {:.0}, outdoors {}", name(it.mode), it.running, it.outdoor),
        finding: None,
        same: None,
    };
}

#[pyfunction(name = "__new__")]
#[pyo3(
    signature = (cls, *, running, outdoor, indoor = None, airflow = None, mode = Choice(kv::Mode::Cooling)),
    text_signature = "(cls, *, running, outdoor, indoor=None, airflow=None, mode='cooling')"
)]
fn conditions(
    cls: New,
    running: Time,
    outdoor: Given<q::Temperature>,
    indoor: Option<Given<q::Temperature>>,
    airflow: Option<Of<kingvalve::air::AirflowCheck>>,
    mode: Choice<kv::Mode>,
) -> Made<kv::Conditions> {
    cls.of(Ok(kv::Conditions {
        mode: mode.0,
        running: running.0,
        outdoor: outdoor.measured(),
        indoor: indoor.map(Given::measured),
        airflow: airflow.map(|airflow| airflow.0),
    }))
}

impl Shown for kv::Requirements {
    const CLASS: Class<Self> = Class {
        name: "Requirements",
        doc: r#"What must hold before a running system tells its charge; the usual for what is not given.

        Parameters
        ----------
        running : Time, optional
            How long it must have run: 15 min.
        outdoor : Limits of Temperature, optional
            Of the outdoor air: 55 °F (California 2008 RA3.2.1) to 115 °F (common practice).
        indoor : Limits of Temperature, optional
            Of the air entering the indoor coil: 70 °F or more, common practice, no source.
        airflow : bool
            Whether the airflow must be shown to be right.

        Examples
        --------
        >>> now = kv.Conditions(running=kv.minutes(6), outdoor=kv.fahrenheit(88), indoor=kv.fahrenheit(76))
        >>> [each.condition for each in kv.Requirements().unmet(now)]
        ['airflow', 'settled']
        "#,
        fields: &[
            ("running", "How long it must have run.", |it, py| it.running.into_python(py)),
            ("outdoor", "Of the outdoor air.", |it, py| (&it.outdoor).into_python(py)),
            ("indoor", "Of the air entering the indoor coil.", |it, py| (&it.indoor).into_python(py)),
            ("airflow", "Whether the airflow must be shown to be right.", |it, py| plain(it.airflow, py)),
        ],
        text: |it| format!("run {:.0}, outdoors {}", it.running, it.outdoor),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
#[pyo3(signature = (cls, *, running = None, outdoor = None, indoor = None, airflow = true))]
fn requirements(
    cls: New,
    running: Option<Time>,
    outdoor: Option<LimitsOf<q::Temperature>>,
    indoor: Option<LimitsOf<q::Temperature>>,
    airflow: bool,
) -> Made<kv::Requirements> {
    let usual = kv::Requirements::usual();
    cls.of(Ok(kv::Requirements {
        running: running.map_or(usual.running, |running| running.0),
        outdoor: outdoor.map_or(usual.outdoor, |limits| limits.0),
        indoor: indoor.map_or(usual.indoor, |limits| limits.0),
        airflow,
    }))
}

/// What does not hold, or is not shown to: an empty list where all does.
///
/// Parameters
/// ----------
/// now : Conditions
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// list of Unmet
#[pyfunction]
#[pyo3(signature = (it, now, level = None), text_signature = "(self, now, level=None)")]
fn unmet(
    py: Python<'_>,
    it: Of<kv::Requirements>,
    now: Of<kv::Conditions>,
    level: Option<Ratio>,
) -> PyResult<Py<PyAny>> {
    listed(it.0.unmet(&now.0, self::level(level)?).map_err(raise)?, py)
}

impl Shown for kv::Unmet {
    const CLASS: Class<Self> = Class {
        name: "Unmet",
        doc: "A precondition that does not hold, or is not shown to: why, and what to do.",
        fields: &[
            (
                "condition",
                "\"cooling\", \"airflow\", \"outdoor_air\", \"indoor_load\", \"settled\" or \"target\".",
                |it, py| plain(name(it.condition()), py),
            ),
            ("reason", "Why.", |it, py| plain(it.reason(), py)),
            ("next", "What to do.", |it, py| plain(it.next(), py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}
