//! What to do next: what to rule out, when to clean, how much to weigh in, what to expect, when to stop.

use kingvalve::charge::plan as kv;
use kingvalve::measure::Finding;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::inventory::Inventory;
use crate::quantity::{FromPython, IntoPython, Mass, Site};
use crate::record::{Choice, Class, Made, Named, Of, Shown, class, name, plain};

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Action>(module, &[])?;
    class::<kv::Plan>(module, &[wrap_pyfunction!(next, module)?])?;
    let py = module.py();
    module.add("COMMON_STEP", kv::COMMON_STEP.into_python(py)?)?;
    module.add("COMMON_REST", kv::COMMON_REST.into_python(py)?)?;
    module.add("COMMON_RUN", kv::COMMON_RUN.into_python(py)?)
}

impl Named for kv::OutdoorCoil {
    const WHAT: &'static str = "state of the outdoor coil";
    const ALL: &'static [(&'static str, Self)] = &[
        ("not_looked", kv::OutdoorCoil::NotLooked),
        ("clean", kv::OutdoorCoil::Clean),
        ("dirty", kv::OutdoorCoil::Dirty),
        ("wet", kv::OutdoorCoil::Wet),
        ("dry_steady", kv::OutdoorCoil::DrySteady),
    ];
}

impl Named for kv::Metering {
    const WHAT: &'static str = "metering device";
    const ALL: &'static [(&'static str, Self)] =
        &[("orifice", kv::Metering::Orifice), ("valve", kv::Metering::Valve)];
}

impl Named for kv::Stop {
    const WHAT: &'static str = "reason to stop";
    const ALL: &'static [(&'static str, Self)] = &[
        (kv::Stop::TargetMet.name(), kv::Stop::TargetMet),
        (kv::Stop::TooMuch.name(), kv::Stop::TooMuch),
        (kv::Stop::PlateReached.name(), kv::Stop::PlateReached),
        (kv::Stop::NotAsPredicted.name(), kv::Stop::NotAsPredicted),
        (kv::Stop::CylinderEmpty.name(), kv::Stop::CylinderEmpty),
        (kv::Stop::NotThisRefrigerantAlone.name(), kv::Stop::NotThisRefrigerantAlone),
        (kv::Stop::ReadingsDisagree.name(), kv::Stop::ReadingsDisagree),
    ];
}

impl Named for kv::Form {
    const WHAT: &'static str = "form";
    const ALL: &'static [(&'static str, Self)] =
        &[("liquid_throttled", kv::Form::LiquidThrottled), ("vapour_or_liquid", kv::Form::VapourOrLiquid)];
}

impl Shown for kv::Action {
    const CLASS: Class<Self> = Class {
        name: "Action",
        doc: r#"The next thing to do, by ``Plan.next``: ``match plan.action: case kv.Action("weigh"): …``."#,
        fields: &[
            (
                "do",
                "\"repair_and_evacuate\", \"rule_out\", \"clean_coil\", \"dry_and_steady\", \"weigh\" or \"stop\".",
                |it, py| {
                    let word = match it {
                        kv::Action::RepairAndEvacuate { .. } => "repair_and_evacuate",
                        kv::Action::RuleOut { .. } => "rule_out",
                        kv::Action::CleanCoil => "clean_coil",
                        kv::Action::DryAndSteady => "dry_and_steady",
                        kv::Action::Weigh { .. } => "weigh",
                        kv::Action::Stop { .. } => "stop",
                    };
                    plain(word, py)
                },
            ),
            ("air", "Repair and evacuate: whether air was drawn in.", |it, py| {
                let air = if let kv::Action::RepairAndEvacuate { air } = it { Some(*air) } else { None };
                air.into_python(py)
            }),
            ("at_fault", "Rule out: what is at fault.", |it, py| {
                let causes =
                    if let kv::Action::RuleOut { at_fault, .. } = it { at_fault.as_slice() } else { &[] };
                plain(causes.iter().map(|cause| name(*cause)).collect::<Vec<_>>(), py)
            }),
            ("look_at", "Rule out: what nobody has looked at.", |it, py| {
                let causes =
                    if let kv::Action::RuleOut { look_at, .. } = it { look_at.as_slice() } else { &[] };
                plain(causes.iter().map(|cause| name(*cause)).collect::<Vec<_>>(), py)
            }),
            ("step", "Weigh: how much.", |it, py| {
                let step = if let kv::Action::Weigh { step, .. } = it { Some(*step) } else { None };
                step.into_python(py)
            }),
            ("form", "Weigh: \"liquid_throttled\" or \"vapour_or_liquid\".", |it, py| {
                plain(if let kv::Action::Weigh { form, .. } = it { Some(name(*form)) } else { None }, py)
            }),
            ("wait", "Weigh: how long to wait before reading.", |it, py| {
                let wait = if let kv::Action::Weigh { wait, .. } = it { Some(*wait) } else { None };
                wait.into_python(py)
            }),
            ("because", "Stop: why, as \"target_met\" or \"plate_reached\".", |it, py| {
                plain(if let kv::Action::Stop { because } = it { Some(name(*because)) } else { None }, py)
            }),
        ],
        text: |it| match it {
            kv::Action::RepairAndEvacuate { air } => format!("add nothing: {}", air.text()),
            kv::Action::RuleOut { .. } => "rule out what is not the refrigerant".to_owned(),
            kv::Action::CleanCoil => "clean the outdoor coil".to_owned(),
            kv::Action::DryAndSteady => "let the coil dry and the system run until steady".to_owned(),
            kv::Action::Weigh { step, form, .. } => format!("weigh in {step:.2}, {}", form.text()),
            kv::Action::Stop { because } => format!("add no more: {}", because.text()),
        },
        finding: None,
        same: Some(|a, b| a == b),
    };
}

fn found(plan: &kv::Plan) -> kingvalve::Result<Finding> {
    plan.finding("charge_plan")
}

impl Shown for kv::Plan {
    const CLASS: Class<Self> = Class {
        name: "Plan",
        doc: r#"What to do next, and what to expect of it; made anew after every step.

        Examples
        --------
        >>> system = kv.System.of_plate(kv.Refrigerant("R-454B"), kv.pounds(6.5))
        >>> plan = kv.Plan.next(
        ...     kv.Inventory.prior(system), kv.Site(), metering="valve", cylinder=kv.pounds(11),
        ...     before=kv.Before.all_fine(), outdoor_coil="clean",
        ... )
        >>> print(plan.action.do, plan.action.step, plan.action.form)
        weigh 0.5 lb liquid_throttled
        "#,
        fields: &[
            ("action", "What to do.", |it, py| it.action().clone().into_python(py)),
            ("now", "The charge now.", |it, py| it.now().into_python(py)),
            ("missing", "What is missing to the plate charge, where there is a plate.", |it, py| {
                it.missing().into_python(py)
            }),
            ("expected_standing", "The standing pressure to expect after the step.", |it, py| {
                it.expected_standing().cloned().into_python(py)
            }),
            ("expected_running", "Superheat and subcooling to expect after the step.", |it, py| {
                it.expected_running().copied().into_python(py)
            }),
            ("next_steps", "What to do, one thing a line.", |it, py| plain(it.next_steps(), py)),
            ("cautions", "What can hurt someone in it.", |it, py| {
                plain(it.cautions().into_iter().map(|caution| caution.text()).collect::<Vec<_>>(), py)
            }),
        ],
        text: kv::Plan::text,
        finding: Some(found),
        same: Some(|a, b| a == b),
    };
}

/// One temperature, or a list of them.
pub fn temperatures(given: &Bound<'_, PyAny>) -> PyResult<Vec<q::Temperature>> {
    if let Some(one) = q::Temperature::held(given) {
        return Ok(vec![one]);
    }
    given.try_iter()?.map(|each| q::Temperature::from_python(&each?)).collect()
}

/// The next thing to do.
///
/// Parameters
/// ----------
/// inventory : Inventory
/// site : Site
///     For its atmosphere: a system whose standing pressure may have been at or below it is not topped up.
/// metering : {"orifice", "valve"}
///     What feeds the evaporator.
/// cylinder : Mass
///     Refrigerant left in the cylinder on the scale: gross less tare.
/// before : Before, optional
///     What was looked at before the refrigerant: nothing unless given.
/// outdoor_coil : {"not_looked", "clean", "dirty", "wet", "dry_steady"}
/// step : Mass, optional
///     The step wanted: ``kv.COMMON_STEP``, half a pound, or less where less is missing.
/// showing : Showing, optional
///     Running readings, where the system runs and is steady.
/// standing_at : Temperature or list of Temperature, optional
///     Of the standing system, for the pressure to expect after a step.
/// as_predicted : bool
///     Whether the last step was answered as predicted: see ``Response``.
///
/// Returns
/// -------
/// Plan
///
/// Raises
/// ------
/// OutOfRange
///     A step that is not above zero, larger than the cylinder holds, or that would overfill beyond doubt; a negative
///     weight of the cylinder; temperatures outside the saturation curve.
///
/// Notes
/// -----
/// Source: the order of work and its numbers are common practice, no source. Range: charging in cooling, or with the
/// system off; in heating weigh the whole charge in. Accuracy: that of the inventory.
#[pyfunction]
#[pyo3(
    signature = (
        inventory, site, *, metering, cylinder, before = None, outdoor_coil = Choice(kv::OutdoorCoil::NotLooked), step = None,
        showing = None, standing_at = None, as_predicted = true
    ),
    text_signature = "(inventory, site, *, metering, cylinder, before=None, outdoor_coil='not_looked', step=None, showing=None, standing_at=None, as_predicted=True)"
)]
#[allow(clippy::too_many_arguments, reason = "keywords in Python")]
fn next(
    inventory: &Bound<'_, Inventory>,
    site: PyRef<'_, Site>,
    metering: Choice<kv::Metering>,
    cylinder: Mass,
    before: Option<Of<kv::Before>>,
    outdoor_coil: Choice<kv::OutdoorCoil>,
    step: Option<Mass>,
    showing: Option<Of<kv::Showing>>,
    standing_at: Option<Bound<'_, PyAny>>,
    as_predicted: bool,
) -> PyResult<Made<kv::Plan>> {
    let situation = kv::Situation {
        before: before.map_or_else(kv::Before::default, |before| before.0),
        outdoor_coil: outdoor_coil.0,
        metering: metering.0,
        cylinder: cylinder.0,
        step: step.map(|step| step.0),
        showing: showing.map(|showing| showing.0),
        standing_at: standing_at.as_ref().map_or_else(|| Ok(Vec::new()), temperatures)?,
        as_predicted,
    };
    let (known, site) = (&inventory.get().0, site.0);
    Ok(Made(inventory.py().detach(|| kv::Plan::next(known, &situation, &site))))
}
