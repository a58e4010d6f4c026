//! Whether a system answered a step as it should, and what explains it if not.

use kingvalve::charge::inventory::Estimate;
use kingvalve::charge::plan as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::measure::Given;
use crate::quantity::IntoPython;
use crate::record::{Class, Made, Named, New, Of, Shown, class, name, pair, plain};

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Running>(module, &[wrap_pyfunction!(expected_running, module)?])?;
    class::<kv::Response>(
        module,
        &[wrap_pyfunction!(standing, module)?, wrap_pyfunction!(running, module)?],
    )?;
    let py = module.py();
    module.add("COMMON_RESPONSE", pair(kv::COMMON_RESPONSE, py)?)
}

impl Named for kv::Alternative {
    const WHAT: &'static str = "alternative";
    const ALL: &'static [(&'static str, Self)] = &[
        ("restriction", kv::Alternative::Restriction),
        ("metering_device", kv::Alternative::MeteringDevice),
        ("non_condensables", kv::Alternative::NonCondensables),
        ("compressor", kv::Alternative::Compressor),
        ("not_arriving", kv::Alternative::NotArriving),
    ];
}

impl Shown for kv::Running {
    const CLASS: Class<Self> = Class {
        name: "Running",
        doc: "What a running system should show after a step, by ``Plan.next``.

        Parameters
        ----------
        superheat, subcooling : Estimate
        ",
        fields: &[
            ("superheat", "Superheat to expect.", |it, py| it.superheat.into_python(py)),
            ("subcooling", "Subcooling to expect.", |it, py| it.subcooling.into_python(py)),
        ],
        text: |it| format!("superheat {:.1}, subcooling {:.1}", it.superheat.ninety, it.subcooling.ninety),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

type Expected = Of<Estimate<q::TemperatureDifference>>;

#[pyfunction(name = "__new__")]
fn expected_running(cls: New, superheat: Expected, subcooling: Expected) -> Made<kv::Running> {
    cls.of(Ok(kv::Running { superheat: superheat.0, subcooling: subcooling.0 }))
}

fn alternatives(response: &kv::Response) -> &[kv::Alternative] {
    match response {
        kv::Response::AsPredicted => &[],
        kv::Response::NotAsPredicted { alternatives } => alternatives,
    }
}

impl Shown for kv::Response {
    const CLASS: Class<Self> = Class {
        name: "Response",
        doc: r#"What a step did: as predicted, or not, and then what explains it.

        Notes
        -----
        Source: the limit is one and a half times the prediction's 90 % interval and the reading's doubt; what explains a
        miss: common practice, no source. Accuracy: one response in a hundred or fewer is called out of line by chance.

        Examples
        --------
        >>> system = kv.System.of_plate(kv.Refrigerant("R-410A"), kv.pounds(6))
        >>> expected = kv.Inventory.prior(system).expect_standing(kv.fahrenheit(80))
        >>> kv.Response.standing(expected, kv.psia(400)).alternatives
        ['non_condensables']
        "#,
        fields: &[
            ("is_as_predicted", "Whether it was as predicted.", |it, py| plain(it.is_as_predicted(), py)),
            ("alternatives", "What explains it if not, most likely first.", |it, py| {
                plain(alternatives(it).iter().map(|each| name(*each)).collect::<Vec<_>>(), py)
            }),
            ("next", "What each of these is and which reading tells.", |it, py| {
                plain(alternatives(it).iter().map(|each| each.text()).collect::<Vec<_>>(), py)
            }),
        ],
        text: |it| if it.is_as_predicted() { "as predicted" } else { "not as predicted" }.to_owned(),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// Of a standing pressure, settled after a step.
///
/// Parameters
/// ----------
/// expected : Estimate
///     By ``Inventory.expect_standing`` or ``Plan.expected_standing``.
/// read : Pressure
///     Absolute, read or plain.
///
/// Returns
/// -------
/// Response
#[pyfunction]
fn standing(expected: Of<Estimate<q::Pressure>>, read: Given<q::Pressure>) -> Made<kv::Response> {
    Made(Ok(kv::Response::standing(&expected.0, &read.measured())))
}

/// Of superheat and subcooling, steady after a step.
///
/// Parameters
/// ----------
/// expected : Running
///     By ``Plan.expected_running``.
/// superheat, subcooling : TemperatureDifference
///     Read or plain.
///
/// Returns
/// -------
/// Response
///
/// Raises
/// ------
/// OutOfRange
///     A reading that is not finite.
#[pyfunction]
fn running(
    expected: Of<kv::Running>,
    superheat: Given<q::TemperatureDifference>,
    subcooling: Given<q::TemperatureDifference>,
) -> Made<kv::Response> {
    Made(kv::Response::running(&expected.0, superheat.measured(), subcooling.measured()))
}
