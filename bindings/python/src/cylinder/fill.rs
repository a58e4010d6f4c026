//! A cylinder by its stamps, how full it may be, and whether it is.

use kingvalve::cylinder as kv;
use kingvalve::measure::Finding;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::{Given, level};
use crate::quantity::{IntoPython, Mass, Ratio, Temperature};
use crate::record::{Class, Made, Named, Of, Shown, class, name, plain};
use crate::refrigerant::Refrigerant;

/// Adds the classes and functions to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Cylinder>(module, &[wrap_pyfunction!(stamped, module)?, wrap_pyfunction!(net, module)?])?;
    class::<FillLimit>(
        module,
        &[wrap_pyfunction!(fill_limit_of, module)?, wrap_pyfunction!(judge, module)?],
    )?;
    class::<FillCheck>(module, &[])?;
    class::<kv::FillingDensity>(module, &[wrap_pyfunction!(filling_net, module)?])?;
    module.add_function(wrap_pyfunction!(filling_density, module)?)?;
    module.add_function(wrap_pyfunction!(usual_fill, module)?)
}

impl Shown for kv::Cylinder {
    const CLASS: Class<Self> = Class {
        name: "Cylinder",
        doc: r#"A cylinder by its stamps: what it weighs empty and how much water it holds.

        Examples
        --------
        >>> cylinder = kv.Cylinder.stamped(kv.pounds(6.5), kv.pounds(26.2))
        >>> print(f"{cylinder.net(kv.pounds(25.1)).value:.1f}", f"{cylinder.volume.value:.1f L}")
        18.6 lb 11.9 L
        "#,
        fields: &[
            ("tare", "What it weighs empty: TW.", |it, py| it.tare().into_python(py)),
            ("water_capacity", "The water it holds: WC.", |it, py| it.water_capacity().into_python(py)),
            ("volume", "Its internal volume.", |it, py| it.volume().into_python(py)),
        ],
        text: |it| format!("tare {}, water capacity {}", it.tare(), it.water_capacity()),
        finding: None,
        same: None,
    };
}

/// From the stamps on its collar.
///
/// Parameters
/// ----------
/// tare, water_capacity : Mass
///     TW and WC, above zero; plain or with their doubt.
///
/// Returns
/// -------
/// Cylinder
///
/// Raises
/// ------
/// OutOfRange
///     A stamp that is not above zero.
#[pyfunction]
fn stamped(tare: Given<q::Mass>, water_capacity: Given<q::Mass>) -> Made<kv::Cylinder> {
    Made(kv::Cylinder::stamped(tare.measured(), water_capacity.measured()))
}

/// The refrigerant in it: gross less tare.
///
/// Parameters
/// ----------
/// gross : Mass
///     On the scale, upright, without hoses; read or plain.
///
/// Returns
/// -------
/// Measured of Mass
///
/// Raises
/// ------
/// Inconsistent
///     A gross weight below the tare by more than the doubt of both.
#[pyfunction]
#[pyo3(text_signature = "(self, gross)")]
fn net(py: Python<'_>, it: Of<kv::Cylinder>, gross: Given<q::Mass>) -> PyResult<Py<PyAny>> {
    it.0.net(gross.measured()).map_err(raise)?.into_python(py)
}

impl Named for kv::FillRule {
    const WHAT: &'static str = "rule";
    const ALL: &'static [(&'static str, Self)] = &[
        ("usual_fill", kv::FillRule::UsualFill),
        ("liquid_full", kv::FillRule::LiquidFull),
        ("filling_density", kv::FillRule::FillingDensity),
    ];
}

/// A limit, with the refrigerant its cautions are for.
#[derive(Clone)]
struct FillLimit {
    limit: kv::FillLimit,
    refrigerant: kingvalve::refrigerant::Refrigerant,
}

impl Shown for FillLimit {
    const CLASS: Class<Self> = Class {
        name: "FillLimit",
        doc: r#"How full a cylinder may be: the lowest of 80 % at 77 °F, liquid-full at its hottest, and the transport rule.

        Notes
        -----
        Source: AHRI Guideline K practice; density of the liquid from the equation of state; 49 CFR 173.304a(a)(2).

        Examples
        --------
        >>> cylinder = kv.Cylinder.stamped(kv.pounds(6.5), kv.pounds(26.2))
        >>> limit = kv.FillLimit.of(kv.Refrigerant("R-410A"), cylinder)
        >>> print(f"{limit.net.value:.1f}", limit.rule)
        22.2 lb usual_fill
        >>> limit.judge(kv.pounds(31)).verdict.name
        'outside'
        "#,
        fields: &[
            ("net", "The most refrigerant.", |it, py| it.limit.net().into_python(py)),
            ("gross", "The most on the scale.", |it, py| it.limit.gross().into_python(py)),
            (
                "rule",
                "Which limit is the lowest: \"usual_fill\", \"liquid_full\" or \"filling_density\".",
                |it, py| plain(name(it.limit.rule()), py),
            ),
            ("all", "Every limit by its rule.", |it, py| {
                let all = it.limit.all().map(|(rule, mass)| Ok((name(rule), mass.into_python(py)?)));
                plain(all.collect::<PyResult<std::collections::BTreeMap<_, _>>>()?, py)
            }),
        ],
        text: |it| format!("{} at most, {}", it.limit.net(), it.limit.rule().text()),
        finding: None,
        same: None,
    };
}

/// How full a cylinder of that refrigerant may be.
///
/// Parameters
/// ----------
/// refrigerant : Refrigerant
/// cylinder : Cylinder
/// hottest : Temperature, optional
///     It may become, 77 °F to 200 °F: ``kv.HOTTEST_BY_RULE``, 55 °C, unless given.
///
/// Returns
/// -------
/// FillLimit
///
/// Raises
/// ------
/// OutOfRange
///     A hottest temperature outside its range.
/// Inconsistent
///     A refrigerant for which no limit is known.
#[pyfunction(name = "of")]
#[pyo3(signature = (refrigerant, cylinder, hottest = None))]
fn fill_limit_of(
    refrigerant: PyRef<'_, Refrigerant>,
    cylinder: Of<kv::Cylinder>,
    hottest: Option<Temperature>,
) -> Made<FillLimit> {
    let hottest = hottest.map_or(kv::HOTTEST_BY_RULE, |hottest| hottest.0);
    let limit = kv::FillLimit::of(&refrigerant.0, &cylinder.0, hottest);
    Made(limit.map(|limit| FillLimit { limit, refrigerant: refrigerant.0.clone() }))
}

/// Whether the cylinder holds no more than it may.
///
/// Parameters
/// ----------
/// gross : Mass
///     On the scale, hoses off; read or plain.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// FillCheck
///
/// Raises
/// ------
/// Inconsistent
///     A gross weight below the tare by more than the doubt of both.
#[pyfunction]
#[pyo3(signature = (it, gross, level = None), text_signature = "(self, gross, level=None)")]
fn judge(it: Of<FillLimit>, gross: Given<q::Mass>, level: Option<Ratio>) -> PyResult<Made<FillCheck>> {
    let check = it.0.limit.judge(gross.measured(), self::level(level)?);
    Ok(Made(check.map(|check| FillCheck { check, refrigerant: it.0.refrigerant })))
}

/// A check, with the refrigerant its cautions are for.
#[derive(Clone)]
struct FillCheck {
    check: kv::FillCheck,
    refrigerant: kingvalve::refrigerant::Refrigerant,
}

impl Shown for FillCheck {
    const CLASS: Class<Self> = Class {
        name: "FillCheck",
        doc: "Whether a cylinder holds no more than it may, by ``FillLimit.judge``.",
        fields: &[
            ("net", "The refrigerant in it.", |it, py| it.check.net().into_python(py)),
            ("room", "How much more it may hold; negative where it holds too much.", |it, py| {
                it.check.room().into_python(py)
            }),
            ("verdict", "Whether there is room.", |it, py| it.check.verdict().into_python(py)),
            ("becomes_liquid_full", "Whether it becomes liquid-full at its hottest.", |it, py| {
                plain(it.check.becomes_liquid_full(), py)
            }),
            ("next", "What to do.", |it, py| plain(it.check.next(), py)),
        ],
        text: |it| it.check.to_string(),
        finding: Some(filled),
        same: None,
    };
}

fn filled(it: &FillCheck) -> kingvalve::Result<Finding> {
    let finding = it.check.finding()?;
    Ok(it.refrigerant.cautioned(finding))
}

impl Shown for kv::FillingDensity {
    const CLASS: Class<Self> = Class {
        name: "FillingDensity",
        doc: "How much of a gas a cylinder may hold by the transport rule, as a share of the mass of water it holds.",
        fields: &[
            ("share", "Mass of gas over mass of water.", |it, py| it.share.into_python(py)),
            (
                "service_pressure",
                "The least service pressure this is for, where the rule says one.",
                |it, py| it.service_pressure.into_python(py),
            ),
        ],
        text: |it| it.share.to_string(),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// The most refrigerant in a cylinder of that water capacity.
///
/// Parameters
/// ----------
/// water_capacity : Mass
///     As stamped.
///
/// Returns
/// -------
/// Mass
///
/// Notes
/// -----
/// Source: 49 CFR 173.304a(a)(2), note 1.
#[pyfunction(name = "net")]
#[pyo3(text_signature = "(self, water_capacity)")]
fn filling_net(it: Of<kv::FillingDensity>, water_capacity: Mass) -> Made<q::Mass> {
    Made(Ok(it.0.net(water_capacity.0)))
}

/// The maximum filling density of 49 CFR 173.304a(a)(2) for a designation; ``None`` where it lists none, as for any blend.
///
/// Parameters
/// ----------
/// designation : str
///     "R-22".
///
/// Returns
/// -------
/// FillingDensity or None
///
/// Notes
/// -----
/// Source: 49 CFR 173.304a(a)(2), table 1, as printed. Range: transport in the United States.
///
/// Examples
/// --------
/// >>> print(kv.filling_density("R-22").share, kv.filling_density("R-410A"))
/// 105 % None
#[pyfunction]
#[pyo3(signature = (designation, /))]
fn filling_density(designation: &str) -> Made<Option<kv::FillingDensity>> {
    Made(Ok(kv::filling_density(designation)))
}

/// What a cylinder may usually hold: water capacity × share × specific gravity.
///
/// Parameters
/// ----------
/// water_capacity : Mass
/// specific_gravity : float
///     Of the liquid at ``kv.USUAL_FILL_TEMPERATURE``.
/// share : Ratio, optional
///     ``kv.USUAL_FILL``, 80 %, unless given.
///
/// Returns
/// -------
/// Mass
///
/// Notes
/// -----
/// Source: AHRI Guideline K practice.
#[pyfunction]
#[pyo3(signature = (water_capacity, specific_gravity, share = None))]
fn usual_fill(water_capacity: Mass, specific_gravity: f64, share: Option<Ratio>) -> Made<q::Mass> {
    let share = share.map_or(kv::USUAL_FILL, |share| share.0);
    Made(Ok(kv::usual_fill(water_capacity.0, specific_gravity, share)))
}
