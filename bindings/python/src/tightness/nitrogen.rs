//! A standing test with dry nitrogen, corrected for temperature.

use kingvalve::quantity as q;
use kingvalve::tightness as kv;
use pyo3::prelude::*;

use crate::error::raise;
use crate::measure::Given;
use crate::quantity::{IntoPython, PressureDifference, Site, Time};
use crate::record::{Class, Made, New, Of, Shown, class, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::GasState>(module, &[wrap_pyfunction!(gas_state, module)?])?;
    module.add_class::<PressureTest>()?;
    class::<kv::PressureTestCheck>(module, &[])
}

impl Shown for kv::GasState {
    const CLASS: Class<Self> = Class {
        name: "GasState",
        doc: "The gas in a system at one moment.

        Parameters
        ----------
        pressure : Pressure
            Absolute (``Site.absolute``), read or plain.
        temperature : Temperature
            The same all through the system, read or plain.
        ",
        fields: &[
            ("pressure", "Absolute pressure.", |it, py| (&it.pressure).into_python(py)),
            ("temperature", "Temperature of the gas.", |it, py| (&it.temperature).into_python(py)),
        ],
        text: |it| format!("{} at {}", it.pressure, it.temperature),
        finding: None,
        same: None,
    };
}

#[pyfunction(name = "__new__")]
fn gas_state(
    cls: New,
    pressure: Given<q::Pressure>,
    temperature: Given<q::Temperature>,
) -> Made<kv::GasState> {
    cls.of(Ok(kv::GasState { pressure: pressure.measured(), temperature: temperature.measured() }))
}

/// A standing test with dry nitrogen: two states of one closed system.
///
/// Read both with the same gauge and the same thermometer (one ``Instrument`` each): their accuracy then cancels.
///
/// Parameters
/// ----------
/// start, end : GasState
///
/// Examples
/// --------
/// >>> gauge = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(0.5, kv.psi(800))
/// >>> clamp = kv.Instrument.resolution(kv.delta_fahrenheit(0.1)).accuracy(kv.delta_fahrenheit(1))
/// >>> def state(psig, degrees):
/// ...     pressure = kv.Site().absolute(kv.Reading(kv.psig(psig), gauge))
/// ...     return kv.GasState(pressure, kv.Reading(kv.fahrenheit(degrees), clamp))
/// >>> kv.PressureTest(state(300, 80), state(282.2, 50)).check().verdict.name  # tight: the night was colder
/// 'within'
/// >>> kv.PressureTest(state(300, 80), state(282.2, 80)).check().verdict.name
/// 'outside'
#[pyclass(frozen, module = "kingvalve")]
pub struct PressureTest(kv::PressureTest);

#[pymethods]
impl PressureTest {
    #[new]
    fn new(start: Of<kv::GasState>, end: Of<kv::GasState>) -> Self {
        PressureTest(kv::PressureTest::new(start.0, end.0))
    }

    /// Allows another loss than ``kv.ALLOWED_LOSS`` (1 psi), at the last temperature.
    ///
    /// Parameters
    /// ----------
    /// loss : PressureDifference
    ///     The greatest that passes.
    ///
    /// Returns
    /// -------
    /// PressureTest
    #[pyo3(signature = (loss, /))]
    fn allowing(&self, loss: PressureDifference) -> Self {
        PressureTest(self.0.clone().allowing(loss.0))
    }

    /// Says how long it stood, in what volume and where, so that a loss becomes the size of a leak.
    ///
    /// Parameters
    /// ----------
    /// volume : Volume
    ///     Under test, plain or with its doubt.
    /// lasted : Time
    /// site : Site
    ///
    /// Returns
    /// -------
    /// PressureTest
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A time or a volume that is not above zero.
    fn sized(&self, volume: Given<q::Volume>, lasted: Time, site: PyRef<'_, Site>) -> PyResult<Self> {
        self.0.clone().sized(volume.measured(), lasted.0, site.0).map(PressureTest).map_err(raise)
    }

    /// What the test shows: the loss corrected for temperature, and whether it is allowed.
    ///
    /// Returns
    /// -------
    /// PressureTestCheck
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure or temperature outside the range; an allowed loss that is negative.
    ///
    /// Notes
    /// -----
    /// Source: the gas keeps its density, by the equation of state of nitrogen (Span et al., J. Phys. Chem. Ref. Data 29
    /// (2000) 1361); doubt by JCGM 100:2008, conformity by JCGM 106:2012. Range: −40 °C to 80 °C, up to 10 MPa, settled; no
    /// liquid and little refrigerant inside. Accuracy: the correction 0.02 % of the pressure; parts of the system at another
    /// temperature than the thermometer's are not counted: 1 °F matters 0.6 psi at 300 psig.
    fn check(&self) -> Made<kv::PressureTestCheck> {
        Made(self.0.check())
    }
}

impl Shown for kv::PressureTestCheck {
    const CLASS: Class<Self> = Class {
        name: "PressureTestCheck",
        doc: "What a standing nitrogen test shows, by ``PressureTest.check``.",
        fields: &[
            ("expected", "The pressure a tight system would have at the last temperature.", |it, py| {
                it.expected().into_python(py)
            }),
            ("loss", "How much less there was.", |it, py| it.loss().into_python(py)),
            ("verdict", "Against the allowed loss.", |it, py| it.verdict().into_python(py)),
            ("leak_shown", "Against no loss at all: outside where a leak is shown.", |it, py| {
                it.leak_shown().into_python(py)
            }),
            ("smallest_shown", "The smallest loss these readings would show.", |it, py| {
                it.smallest_shown().into_python(py)
            }),
            ("gained", "Whether the pressure firmly rose, which no leak explains.", |it, py| {
                plain(it.gained(), py)
            }),
            ("leak", "The leak behind the loss, where the test was ``sized``.", |it, py| {
                plain(it.leak().cloned().map(super::leak::Leak), py)
            }),
        ],
        text: |it| it.verdict().to_string(),
        finding: Some(kv::PressureTestCheck::finding),
        same: None,
    };
}
