//! What superheat and subcooling say about the charge.

use kingvalve::charge as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::column::{Errors, Many, carry_both};
use crate::quantity::{IntoPython, Ratio, TemperatureDifference};
use crate::record::{Between, Class, Made, New, Of, Shown, class};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::FullCharge>(module, &[wrap_pyfunction!(full_charge, module)?])?;
    let virtual_charge = [
        wrap_pyfunction!(virtual_charge, module)?,
        wrap_pyfunction!(degrees_per_charge, module)?,
        wrap_pyfunction!(share, module)?,
    ];
    class::<kv::VirtualCharge>(module, &virtual_charge)
}

impl Shown for kv::FullCharge {
    const CLASS: Class<Self> = Class {
        name: "FullCharge",
        doc: "What the system shows when it holds its full charge, at the conditions of the reading.

        Parameters
        ----------
        superheat, subcooling : TemperatureDifference
            From the data plate, the maker's chart or a target superheat; the subcooling above zero.
        ",
        fields: &[
            ("superheat", "Superheat at full charge.", |it, py| it.superheat.into_python(py)),
            ("subcooling", "Subcooling at full charge.", |it, py| it.subcooling.into_python(py)),
        ],
        text: |it| format!("superheat {:.1}, subcooling {:.1}", it.superheat, it.subcooling),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
fn full_charge(
    cls: New,
    superheat: TemperatureDifference,
    subcooling: TemperatureDifference,
) -> Made<kv::FullCharge> {
    cls.of(Ok(kv::FullCharge { superheat: superheat.0, subcooling: subcooling.0 }))
}

impl Shown for kv::VirtualCharge {
    const CLASS: Class<Self> = Class {
        name: "VirtualCharge",
        doc: "Charge from superheat and subcooling: the virtual charge of Li and Braun, with its constants.

        Parameters
        ----------
        alpha0 : Ratio, optional
            The share of the charge at which the high side would hold no subcooled liquid: 75 %.
        high_side : Ratio, optional
            The high side's share of the charge: 73 %.
        superheat_weight : Ratio, optional
            How much less a degree of superheat says than one of subcooling: 40 %.
        scatter : Ratio, optional
            Standard deviation as a share of the full charge: 10 %.
        least : TemperatureDifference, optional
            Below this superheat or subcooling the relation gives a bound, no value: 2 °F; common practice, no source.
        range : tuple of Ratio, optional
            The shares of the full charge between which it is used: 60 % to 140 %, from memory.

        Notes
        -----
        Source: H. Li and J. E. Braun, HVAC&R Research 15 (2009) 117, constants from memory; scatter by W. Kim and
        J. E. Braun (Purdue), abstract.

        Examples
        --------
        >>> full = kv.FullCharge(kv.delta_fahrenheit(10), kv.delta_fahrenheit(10))
        >>> print(kv.VirtualCharge().share(full, kv.delta_fahrenheit(20), kv.delta_fahrenheit(4)))
        81.75 %
        ",
        fields: &[
            ("alpha0", "The share at which the high side holds no subcooled liquid.", |it, py| {
                it.alpha0.into_python(py)
            }),
            ("high_side", "The high side's share of the charge.", |it, py| it.high_side.into_python(py)),
            ("superheat_weight", "How much less a degree of superheat says.", |it, py| {
                it.superheat_weight.into_python(py)
            }),
            ("scatter", "Its standard deviation.", |it, py| it.scatter.into_python(py)),
            ("least", "Below this the relation gives a bound, no value.", |it, py| it.least.into_python(py)),
            ("range", "The shares between which it is used.", |it, py| it.range.into_python(py)),
        ],
        text: |it| format!("scatter {}", it.scatter),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
#[pyo3(signature = (
    cls, *, alpha0 = None, high_side = None, superheat_weight = None, scatter = None, least = None, range = None
))]
fn virtual_charge(
    cls: New,
    alpha0: Option<Ratio>,
    high_side: Option<Ratio>,
    superheat_weight: Option<Ratio>,
    scatter: Option<Ratio>,
    least: Option<TemperatureDifference>,
    range: Option<Between<q::Ratio>>,
) -> Made<kv::VirtualCharge> {
    let usual = kv::VirtualCharge::default();
    let or = |given: Option<Ratio>, usual: q::Ratio| given.map_or(usual, |given| given.0);
    cls.of(Ok(kv::VirtualCharge {
        alpha0: or(alpha0, usual.alpha0),
        high_side: or(high_side, usual.high_side),
        superheat_weight: or(superheat_weight, usual.superheat_weight),
        scatter: or(scatter, usual.scatter),
        least: least.map_or(usual.least, |least| least.0),
        range: range.map_or(usual.range, |range| range.0),
    }))
}

/// How many degrees of subcooling a whole charge is worth.
///
/// Parameters
/// ----------
/// full : FullCharge
///
/// Returns
/// -------
/// TemperatureDifference
///
/// Raises
/// ------
/// OutOfRange
///     A subcooling at full charge that is not above zero, a superheat below zero.
#[pyfunction]
#[pyo3(text_signature = "(self, full)")]
fn degrees_per_charge(it: Of<kv::VirtualCharge>, full: Of<kv::FullCharge>) -> Made<q::TemperatureDifference> {
    Made(it.0.degrees_per_charge(&full.0))
}

/// The charge as a share of the full charge.
///
/// Parameters
/// ----------
/// full : FullCharge
/// superheat, subcooling : TemperatureDifference or Column of TemperatureDifference
///     Read or plain; both above ``least``.
/// errors : {"raise", "nan"}
///     What to do with a value outside the range.
///
/// Returns
/// -------
/// Ratio, Measured or Column of Ratio
///
/// Raises
/// ------
/// OutOfRange
///     A subcooling at full charge that is not above zero.
///
/// Notes
/// -----
/// Range: steady cooling, good airflow. Accuracy: ``scatter``, and the doubt of the readings, which is carried.
#[pyfunction]
#[pyo3(
    signature = (it, full, superheat, subcooling, *, errors = Errors::Raise),
    text_signature = "(self, full, superheat, subcooling, *, errors='raise')"
)]
fn share(
    py: Python<'_>,
    it: Of<kv::VirtualCharge>,
    full: Of<kv::FullCharge>,
    superheat: Many<'_, q::TemperatureDifference>,
    subcooling: Many<'_, q::TemperatureDifference>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let (relation, full) = (it.0, full.0);
    let plain = |h: q::TemperatureDifference, c: q::TemperatureDifference| relation.share(&full, h, c);
    carry_both(py, superheat, subcooling, errors, plain, |h, c| relation.share(&full, h, c))
}
