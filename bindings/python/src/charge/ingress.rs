//! Whether air may have come in: the standing pressure against the atmosphere.

use kingvalve::charge::AirIngress;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::measure::Given;
use crate::quantity::Site;
use crate::record::{Class, Made, Named, Shown, class, name, plain};

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<AirIngress>(module, &[wrap_pyfunction!(of, module)?])
}

impl Named for AirIngress {
    const WHAT: &'static str = "air ingress";
    const ALL: &'static [(&'static str, Self)] = &[
        ("kept_out", AirIngress::KeptOut),
        ("possible", AirIngress::Possible),
        ("drawn_in", AirIngress::DrawnIn),
    ];
}

impl Shown for AirIngress {
    const CLASS: Class<Self> = Class {
        name: "AirIngress",
        doc: r#"Whether air and moisture may have come into a system that stands still, by ``AirIngress.of``.

        Air comes in through a leak only where the pressure inside is no higher than the atmosphere's.
        "#,
        fields: &[
            ("word", "\"kept_out\", \"possible\" or \"drawn_in\".", |it, py| plain(name(*it), py)),
            (
                "next",
                "What to do before any refrigerant is added; nothing where air was kept out.",
                |it, py| plain(it.next().to_vec(), py),
            ),
        ],
        text: |it| it.text().to_owned(),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

/// By a standing pressure and the atmosphere of its site.
///
/// Parameters
/// ----------
/// standing : Pressure
///     Absolute, of a system that is off and settled; read or plain.
/// site : Site
///
/// Returns
/// -------
/// AirIngress
///
/// Raises
/// ------
/// OutOfRange
///     A pressure that is not a number.
///
/// Notes
/// -----
/// Source: gas flows to the lower pressure; conformity by JCGM 106:2012 at 95 %. Accuracy: that of the reading. Of a gauge
/// reading the atmosphere cancels; of an absolute one the weather moves a site given by elevation by a percent or two.
///
/// Examples
/// --------
/// >>> site = kv.Site.at_elevation(kv.feet(5280))
/// >>> gauge = kv.Instrument.resolution(kv.psi(0.5)).accuracy(kv.psi(1))
/// >>> [kv.AirIngress.of(site.absolute(kv.Reading(kv.psig(p), gauge)), site).word for p in (60, 0.5, -5)]
/// ['kept_out', 'possible', 'drawn_in']
#[pyfunction]
fn of(standing: Given<q::Pressure>, site: PyRef<'_, Site>) -> Made<AirIngress> {
    Made(AirIngress::of(standing.measured(), &site.0))
}
