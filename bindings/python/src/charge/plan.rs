//! What to do next: what to rule out, when to clean, how much to weigh in, what to expect, when to stop.

use kingvalve::charge::plan as kv;
use kingvalve::measure::Finding;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::inventory::Inventory;
use crate::measure::Verdict;
use crate::quantity::{FromPython, IntoPython, Mass, Power, Site, TemperatureDifference, Volume};
use crate::record::{Choice, Class, Made, Named, New, Of, Shown, class, name, plain};

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Before>(module, &[wrap_pyfunction!(before, module)?, wrap_pyfunction!(all_fine, module)?])?;
    class::<kv::Showing>(module, &[wrap_pyfunction!(showing, module)?])?;
    class::<kv::Action>(module, &[])?;
    class::<kv::Plan>(module, &[wrap_pyfunction!(next, module)?])?;
    module.add_class::<OnTarget>()?;
    class::<kv::Additive>(module, &[wrap_pyfunction!(additive, module)?, wrap_pyfunction!(dose, module)?])?;
    let py = module.py();
    module.add("COMMON_STEP", kv::COMMON_STEP.into_python(py)?)?;
    module.add("COMMON_REST", kv::COMMON_REST.into_python(py)?)?;
    module.add("COMMON_RUN", kv::COMMON_RUN.into_python(py)?)
}

impl Named for kv::Look {
    const WHAT: &'static str = "look";
    const ALL: &'static [(&'static str, Self)] =
        &[("not_looked", kv::Look::NotLooked), ("fine", kv::Look::Fine), ("at_fault", kv::Look::AtFault)];
}

impl Named for kv::Cause {
    const WHAT: &'static str = "cause";
    const ALL: &'static [(&'static str, Self)] = &[
        ("frozen_indoor_coil", kv::Cause::FrozenIndoorCoil),
        ("blower", kv::Cause::Blower),
        ("contactor", kv::Cause::Contactor),
        ("outdoor_fan", kv::Cause::OutdoorFan),
        ("compressor", kv::Cause::Compressor),
        ("pressure_switch", kv::Cause::PressureSwitch),
    ];
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

impl Named for kv::OnTarget {
    const WHAT: &'static str = "word against the target";
    const ALL: &'static [(&'static str, Self)] = &[
        ("met", kv::OnTarget::Met),
        ("too_little", kv::OnTarget::TooLittle),
        ("too_much", kv::OnTarget::TooMuch),
        ("unresolved", kv::OnTarget::Unresolved),
    ];
}

impl Named for kv::Stop {
    const WHAT: &'static str = "reason to stop";
    const ALL: &'static [(&'static str, Self)] = &[
        ("target_met", kv::Stop::TargetMet),
        ("too_much", kv::Stop::TooMuch),
        ("plate_reached", kv::Stop::PlateReached),
        ("not_as_predicted", kv::Stop::NotAsPredicted),
        ("cylinder_empty", kv::Stop::CylinderEmpty),
        ("not_this_refrigerant_alone", kv::Stop::NotThisRefrigerantAlone),
    ];
}

impl Named for kv::Form {
    const WHAT: &'static str = "form";
    const ALL: &'static [(&'static str, Self)] =
        &[("liquid_throttled", kv::Form::LiquidThrottled), ("vapour_or_liquid", kv::Form::VapourOrLiquid)];
}

impl Shown for kv::Before {
    const CLASS: Class<Self> = Class {
        name: "Before",
        doc: r#"What else stops cooling, and what was found on looking: "not_looked", "fine" or "at_fault" each.

        Parameters
        ----------
        indoor_coil, blower, contactor, outdoor_fan, compressor, pressure_switch : str, optional
            "not_looked" unless given. The indoor coil: frozen? Blower and filter. Outdoor fan and compressor: do they start?

        Notes
        -----
        Source: common practice, no source: the order in which a no-cool call is gone through.

        Examples
        --------
        >>> kv.Before(outdoor_fan="at_fault").at_fault
        ['outdoor_fan']
        >>> kv.Before.all_fine().not_looked
        []
        "#,
        fields: &[
            ("indoor_coil", "The indoor coil: frozen?", |it, py| plain(name(it.indoor_coil), py)),
            ("blower", "The blower and the filter.", |it, py| plain(name(it.blower), py)),
            ("contactor", "The contactor.", |it, py| plain(name(it.contactor), py)),
            ("outdoor_fan", "The outdoor fan: does it start?", |it, py| plain(name(it.outdoor_fan), py)),
            ("compressor", "The compressor: does it start?", |it, py| plain(name(it.compressor), py)),
            ("pressure_switch", "The pressure switches.", |it, py| plain(name(it.pressure_switch), py)),
            ("at_fault", "What is at fault, in the order to see to it.", |it, py| {
                plain(it.at_fault().map(name).collect::<Vec<_>>(), py)
            }),
            ("not_looked", "What nobody has looked at, in the order to look.", |it, py| {
                plain(it.not_looked().map(name).collect::<Vec<_>>(), py)
            }),
        ],
        text: |it| format!("{} at fault, {} not looked at", it.at_fault().count(), it.not_looked().count()),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

type Seen = Option<Choice<kv::Look>>;

#[pyfunction(name = "__new__")]
#[pyo3(signature = (
    cls, *, indoor_coil = None, blower = None, contactor = None, outdoor_fan = None, compressor = None,
    pressure_switch = None
))]
fn before(
    cls: New,
    indoor_coil: Seen,
    blower: Seen,
    contactor: Seen,
    outdoor_fan: Seen,
    compressor: Seen,
    pressure_switch: Seen,
) -> Made<kv::Before> {
    let look = |seen: Seen| seen.map_or(kv::Look::NotLooked, |seen| seen.0);
    cls.of(Ok(kv::Before {
        indoor_coil: look(indoor_coil),
        blower: look(blower),
        contactor: look(contactor),
        outdoor_fan: look(outdoor_fan),
        compressor: look(compressor),
        pressure_switch: look(pressure_switch),
    }))
}

/// All looked at, nothing at fault.
#[pyfunction]
fn all_fine() -> Made<kv::Before> {
    Made(Ok(kv::Before::all_fine()))
}

impl Shown for kv::Showing {
    const CLASS: Class<Self> = Class {
        name: "Showing",
        doc: r#"Running readings as they stand now.

        Parameters
        ----------
        superheat, subcooling : TemperatureDifference
        full : FullCharge
            What they would be at full charge.
        against_target : {"met", "too_little", "too_much", "unresolved"}
            What they say against the target: by ``OnTarget.by_subcooling`` or ``by_superheat``.
        "#,
        fields: &[
            ("superheat", "Superheat.", |it, py| it.superheat.into_python(py)),
            ("subcooling", "Subcooling.", |it, py| it.subcooling.into_python(py)),
            ("full", "What they would be at full charge.", |it, py| it.full.into_python(py)),
            ("against_target", "What they say against the target.", |it, py| {
                plain(name(it.against_target), py)
            }),
        ],
        text: |it| format!("superheat {:.1}, subcooling {:.1}", it.superheat, it.subcooling),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
fn showing(
    cls: New,
    superheat: TemperatureDifference,
    subcooling: TemperatureDifference,
    full: Of<kingvalve::charge::FullCharge>,
    against_target: Choice<kv::OnTarget>,
) -> Made<kv::Showing> {
    let (superheat, subcooling) = (superheat.0, subcooling.0);
    cls.of(Ok(kv::Showing { superheat, subcooling, full: full.0, against_target: against_target.0 }))
}

/// What a verdict says against the target, in the word that ``Showing`` takes.
#[pyclass(frozen, module = "kingvalve")]
struct OnTarget;

#[pymethods]
impl OnTarget {
    /// From the verdict on a subcooling: too low means too little.
    #[staticmethod]
    #[pyo3(signature = (verdict, /))]
    fn by_subcooling(verdict: &Bound<'_, Verdict>) -> PyResult<&'static str> {
        Ok(name(kv::OnTarget::by_subcooling(verdict.get().expect()?)))
    }

    /// From the verdict on a fixed orifice's superheat: too high means too little.
    #[staticmethod]
    #[pyo3(signature = (verdict, /))]
    fn by_superheat(verdict: &Bound<'_, Verdict>) -> PyResult<&'static str> {
        Ok(name(kv::OnTarget::by_superheat(verdict.get().expect()?)))
    }
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

impl Named for kv::AdditiveKind {
    const WHAT: &'static str = "additive";
    const ALL: &'static [(&'static str, Self)] =
        &[("sealant", kv::AdditiveKind::Sealant), ("dye", kv::AdditiveKind::Dye)];
}

impl Shown for kv::Additive {
    const CLASS: Class<Self> = Class {
        name: "Additive",
        doc: r#"The shop's rule for sealant or dye: so much for so much cooling capacity.

        Parameters
        ----------
        kind : {"sealant", "dye"}
        volume : Volume
            So much …
        per : Power
            … for so much cooling capacity.

        Examples
        --------
        >>> shop = kv.Additive("dye", kv.fluid_ounces(0.25), kv.tons_of_refrigeration(1))
        >>> print(f"{shop.dose(kv.tons_of_refrigeration(3)):.2f fl oz}")
        0.75 fl oz
        "#,
        fields: &[
            ("kind", "\"sealant\" or \"dye\".", |it, py| plain(name(it.kind), py)),
            ("volume", "So much.", |it, py| it.volume.into_python(py)),
            ("per", "For so much cooling capacity.", |it, py| it.per.into_python(py)),
            ("cautions", "What to know before it goes in.", |it, py| plain(it.cautions(), py)),
        ],
        text: |it| format!("{} per {}", it.volume, it.per),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
fn additive(cls: New, kind: Choice<kv::AdditiveKind>, volume: Volume, per: Power) -> Made<kv::Additive> {
    cls.of(Ok(kv::Additive { kind: kind.0, volume: volume.0, per: per.0 }))
}

/// How much for a system of that cooling capacity, in proportion; the maker's instructions go before it.
///
/// Parameters
/// ----------
/// capacity : Power
///
/// Returns
/// -------
/// Volume
///
/// Raises
/// ------
/// OutOfRange
///     A capacity, a volume or a per that is not above zero.
#[pyfunction]
#[pyo3(text_signature = "(self, capacity)")]
fn dose(it: Of<kv::Additive>, capacity: Power) -> Made<q::Volume> {
    Made(it.0.dose(capacity.0))
}
