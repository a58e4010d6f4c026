//! What a plan is made from: what else was looked at, and how the system runs.

use kingvalve::charge::plan as kv;
use pyo3::prelude::*;

use crate::measure::Verdict;
use crate::quantity::{IntoPython, TemperatureDifference};
use crate::record::{Choice, Class, Made, Named, New, Of, Shown, class, name, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Before>(module, &[wrap_pyfunction!(before, module)?, wrap_pyfunction!(all_fine, module)?])?;
    class::<kv::Showing>(module, &[wrap_pyfunction!(showing, module)?])?;
    module.add_class::<OnTarget>()
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

impl Named for kv::OnTarget {
    const WHAT: &'static str = "word against the target";
    const ALL: &'static [(&'static str, Self)] = &[
        ("met", kv::OnTarget::Met),
        ("too_little", kv::OnTarget::TooLittle),
        ("too_much", kv::OnTarget::TooMuch),
        ("unresolved", kv::OnTarget::Unresolved),
    ];
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
///
/// Returns
/// -------
/// Before
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
    ///
    /// Parameters
    /// ----------
    /// verdict : Verdict
    ///     On a TemperatureDifference.
    ///
    /// Returns
    /// -------
    /// str
    ///     "met", "too_little", "too_much" or "unresolved".
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A verdict on a quantity of another kind.
    #[staticmethod]
    #[pyo3(signature = (verdict, /))]
    fn by_subcooling(verdict: &Bound<'_, Verdict>) -> PyResult<&'static str> {
        Ok(name(kv::OnTarget::by_subcooling(verdict.get().expect()?)))
    }

    /// From the verdict on a fixed orifice's superheat: too high means too little.
    ///
    /// Parameters
    /// ----------
    /// verdict : Verdict
    ///     On a TemperatureDifference.
    ///
    /// Returns
    /// -------
    /// str
    ///     "met", "too_little", "too_much" or "unresolved".
    ///
    /// Raises
    /// ------
    /// WrongKind
    ///     A verdict on a quantity of another kind.
    #[staticmethod]
    #[pyo3(signature = (verdict, /))]
    fn by_superheat(verdict: &Bound<'_, Verdict>) -> PyResult<&'static str> {
        Ok(name(kv::OnTarget::by_superheat(verdict.get().expect()?)))
    }
}
