//! What a standing pressure proves.

use kingvalve::charge as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::Given;
use crate::quantity::{IntoPython, Pressure};
use crate::record::{Between, Class, Made, New, Of, Shown, class, pair, plain};
use crate::refrigerant::Refrigerant;

/// Adds the classes and named limits to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Oil>(module, &[wrap_pyfunction!(oil, module)?, wrap_pyfunction!(dissolved, module)?])?;
    class::<kv::Space>(module, &[wrap_pyfunction!(space, module)?])?;
    class::<kv::Standing>(module, &[wrap_pyfunction!(standing, module)?, wrap_pyfunction!(read, module)?])?;
    class::<Found>(module, &[])?;
    let py = module.py();
    module.add("COMMON_UPTAKE", pair(kv::COMMON_UPTAKE, py)?)
}

impl Shown for kv::Oil {
    const CLASS: Class<Self> = Class {
        name: "Oil",
        doc: "The oil in a system and what it takes up: near empty it can hold tens of per cent of the vapour.

        Parameters
        ----------
        mass : Mass or tuple of two
            How much oil the system holds: between which masses.
        uptake : tuple of Ratio, optional
            What a mass of oil takes up near nothing, per share of the saturation pressure: ``kv.COMMON_UPTAKE``, 10 % to
            40 %, unless given.
        steepening : tuple of Ratio, optional
            How steeply that rises towards saturation: ``kv.COMMON_STEEPENING``, 50 % to 97 %, unless given.

        Examples
        --------
        >>> low, high = kv.Oil(kv.pounds(2.5)).dissolved(kv.psia(77), kv.psia(231))
        >>> print(f'{low:.2f} to {high:.2f}')
        0.10 lb to 0.49 lb
        ",
        fields: &[
            ("mass", "How much oil, between which masses.", |it, py| it.mass.into_python(py)),
            ("uptake", "Refrigerant per oil near nothing; ``None`` for ``kv.COMMON_UPTAKE``.", |it, py| {
                it.uptake.into_python(py)
            }),
            ("steepening", "How it rises; ``None`` for ``kv.COMMON_STEEPENING``.", |it, py| {
                it.steepening.into_python(py)
            }),
        ],
        text: |it| it.mass.to_string(),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
#[pyo3(signature = (cls, mass, uptake = None, steepening = None))]
fn oil(
    cls: New,
    mass: Between<q::Mass>,
    uptake: Option<Between<q::Ratio>>,
    steepening: Option<Between<q::Ratio>>,
) -> Made<kv::Oil> {
    let (uptake, steepening) = (uptake.map(|given| given.0), steepening.map(|given| given.0));
    cls.of(Ok(kv::Oil { mass: mass.0, uptake, steepening }))
}

/// How much refrigerant the oil holds at a pressure below saturation, between which masses.
///
/// Parameters
/// ----------
/// pressure, saturation : Pressure
///     The pressure, and the saturation pressure at the oil's temperature.
///
/// Returns
/// -------
/// tuple of Mass
///
/// Notes
/// -----
/// Source: between Henry's law and Raoult's (``kv.COMMON_STEEPENING``): common practice, no source. Accuracy: that of
/// uptake and steepening, which are wide on purpose.
#[pyfunction]
#[pyo3(text_signature = "(self, pressure, saturation)")]
fn dissolved(
    py: Python<'_>,
    it: Of<kv::Oil>,
    pressure: Pressure,
    saturation: Pressure,
) -> PyResult<Py<PyAny>> {
    it.0.dissolved(pressure.0, saturation.0).map_err(raise)?.into_python(py)
}

impl Shown for kv::Space {
    const CLASS: Class<Self> = Class {
        name: "Space",
        doc: "One part of a standing system: a space the refrigerant fills, at one temperature.

        Parameters
        ----------
        name : str
        volume : Volume or tuple of two
            Internal volume: between which volumes.
        temperature : Temperature
            Read or plain.
        ",
        fields: &[
            ("name", "What it is called.", |it, py| plain(it.name.clone(), py)),
            ("volume", "Its internal volume, between which volumes.", |it, py| it.volume.into_python(py)),
            ("temperature", "Its temperature.", |it, py| (&it.temperature).into_python(py)),
        ],
        text: |it| format!("{}, {}", it.name, it.volume),
        finding: None,
        same: None,
    };
}

#[pyfunction(name = "__new__")]
fn space(
    cls: New,
    name: String,
    volume: Between<q::Volume>,
    temperature: Given<q::Temperature>,
) -> Made<kv::Space> {
    cls.of(Ok(kv::Space { name, volume: volume.0, temperature: temperature.measured() }))
}

impl Shown for kv::Standing {
    const CLASS: Class<Self> = Class {
        name: "Standing",
        doc: r#"A system standing still: off, equalised and settled.

        Parameters
        ----------
        pressure : Pressure
            Absolute, equal everywhere; read or plain.
        spaces : list of Space
            Its parts; one at least.
        oil : Oil, optional
            The compressor's, which holds refrigerant of its own.

        Examples
        --------
        >>> whole = kv.Space("whole system", (kv.liters(7), kv.liters(10)), kv.fahrenheit(88))
        >>> found = kv.Standing(kv.psia(76.7), [whole]).read(kv.Refrigerant("R-410A"))
        >>> print(found.state, f"{found.mass[1]:.2f} at most")
        all_vapour 0.36 lb at most
        "#,
        fields: &[
            ("pressure", "Absolute pressure.", |it, py| (&it.pressure).into_python(py)),
            ("spaces", "Its parts.", |it, py| crate::record::listed(it.spaces.iter().cloned(), py)),
            ("oil", "The compressor's oil, where it was given.", |it, py| it.oil.into_python(py)),
        ],
        text: |it| it.pressure.to_string(),
        finding: None,
        same: None,
    };
}

#[pyfunction(name = "__new__")]
#[pyo3(signature = (cls, pressure, spaces, oil = None))]
fn standing(
    cls: New,
    pressure: Given<q::Pressure>,
    spaces: Vec<Of<kv::Space>>,
    oil: Option<Of<kv::Oil>>,
) -> Made<kv::Standing> {
    let spaces = spaces.into_iter().map(|space| space.0).collect();
    cls.of(Ok(kv::Standing { pressure: pressure.measured(), spaces, oil: oil.map(|oil| oil.0) }))
}

/// Reads the standing pressure against saturation at the coldest space.
///
/// Parameters
/// ----------
/// refrigerant : Refrigerant
///
/// Returns
/// -------
/// StandingFinding
///
/// Raises
/// ------
/// OutOfRange
///     A volume that is not above zero, a temperature or pressure outside the equation's range.
/// Inconsistent
///     No space.
///
/// Notes
/// -----
/// Source: liquid and vapour in equilibrium have the pressure of the coldest point (Gibbs); the mass of vapour is
/// Σ Vᵢ·ρ(p, Tᵢ); conformity by JCGM 106:2012. Accuracy: the masses span the 95 % limits of the readings and the whole
/// range of volumes and uptake, not a composition that has shifted by leaking.
#[pyfunction]
#[pyo3(text_signature = "(self, refrigerant)")]
fn read(it: Of<kv::Standing>, refrigerant: PyRef<'_, Refrigerant>) -> Made<Found> {
    Made(it.0.read(&refrigerant.0).map(|found| Found::of(found, &refrigerant.0)))
}

/// What a standing pressure proves, with the cautions for its refrigerant.
#[derive(Clone)]
pub struct Found {
    what: kv::StandingFinding,
    cautions: Vec<&'static str>,
}

impl Found {
    /// With the cautions for that refrigerant.
    pub fn of(what: kv::StandingFinding, refrigerant: &kingvalve::refrigerant::Refrigerant) -> Found {
        let cautions = what.cautions(refrigerant).into_iter().map(|caution| caution.text()).collect();
        Found { what, cautions }
    }
}

use kv::StandingFinding::{AllVapour, LiquidPossible, NotThisRefrigerantAlone};

impl Shown for Found {
    const CLASS: Class<Self> = Class {
        name: "StandingFinding",
        doc: "What a standing pressure proves, by ``Standing.read`` or ``Inventory.finding``.",
        fields: &[
            ("state", "\"all_vapour\", \"liquid_possible\" or \"not_this_refrigerant_alone\".", |it, py| {
                let state = match it.what {
                    AllVapour { .. } => "all_vapour",
                    NotThisRefrigerantAlone { .. } => "not_this_refrigerant_alone",
                    _ => "liquid_possible",
                };
                plain(state, py)
            }),
            ("mass", "All vapour: all the refrigerant in the system, between which masses.", |it, py| {
                let mass = if let AllVapour { mass, .. } = it.what { Some(mass) } else { None };
                mass.into_python(py)
            }),
            ("vapour", "All vapour: the part that fills the spaces.", |it, py| {
                let mass = if let AllVapour { vapour, .. } = it.what { Some(vapour) } else { None };
                mass.into_python(py)
            }),
            ("dissolved", "All vapour: the part in the oil.", |it, py| {
                let mass = if let AllVapour { dissolved, .. } = it.what { Some(dissolved) } else { None };
                mass.into_python(py)
            }),
            (
                "at_least",
                "Liquid possible: the vapour and what the oil holds; there may be more.",
                |it, py| {
                    let mass =
                        if let LiquidPossible { at_least, .. } = it.what { Some(at_least) } else { None };
                    mass.into_python(py)
                },
            ),
            (
                "probability_all_vapour",
                "Liquid possible: how probable it is that there is none.",
                |it, py| {
                    let share = match it.what {
                        LiquidPossible { probability_all_vapour, .. } => Some(probability_all_vapour),
                        _ => None,
                    };
                    share.into_python(py)
                },
            ),
            ("excess", "Not this refrigerant alone: how far above saturation.", |it, py| {
                let excess = match it.what {
                    NotThisRefrigerantAlone { excess } => Some(excess),
                    _ => None,
                };
                excess.into_python(py)
            }),
            ("meaning", "What the pressure shows, without an amount.", |it, py| plain(it.what.meaning(), py)),
            ("next", "What would tell more.", |it, py| plain(it.what.next(), py)),
            ("cautions", "What can hurt someone in the work that follows.", |it, py| {
                plain(it.cautions.clone(), py)
            }),
        ],
        text: |it| it.what.text(),
        finding: None,
        same: None,
    };
}
