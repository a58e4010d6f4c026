//! Sealant and dye.

use kingvalve::charge::plan as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::quantity::{IntoPython, Power, Volume};
use crate::record::{Choice, Class, Made, Named, New, Of, Shown, class, name, plain};

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Additive>(module, &[wrap_pyfunction!(additive, module)?, wrap_pyfunction!(dose, module)?])
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
