//! Before and after a piece of work: what changed by more than its doubt, weather and load allowed for.

use kingvalve::{air as kv, quantity as q};
use pyo3::prelude::*;

use crate::measure::{Given, level};
use crate::quantity::{Exposed, IntoPython, Ratio, TemperatureDifference};
use crate::record::{Between, Class, Made, Named, Shown, class, name, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<RunReadings>()?;
    module.add_class::<Allowance>()?;
    class::<kv::Compared<q::Power>>(module, &[])?;
    class::<kv::BeforeAfter>(module, &[wrap_pyfunction!(before_after_of, module)?])
}

/// Readings of a running system, before a piece of work or after it.
///
/// Parameters
/// ----------
/// outdoor, return_dry_bulb, return_wet_bulb : Temperature
///     Air entering the condenser; air entering the indoor coil. All read or plain.
/// condensing : Temperature, optional
///     From the liquid-side pressure.
/// supply : Temperature, optional
///     Dry bulb of the supply air.
/// current : Current, optional
///     Of the compressor or of the outdoor unit, the same both times.
/// capacity : Power, optional
///     Delivered to the air.
#[pyclass(frozen, module = "kingvalve")]
pub struct RunReadings(kv::RunReadings);

type Warmth = Given<q::Temperature>;

#[pymethods]
impl RunReadings {
    #[new]
    #[pyo3(signature = (
        outdoor, return_dry_bulb, return_wet_bulb, *, condensing = None, supply = None, current = None, capacity = None
    ))]
    fn new(
        outdoor: Warmth,
        return_dry_bulb: Warmth,
        return_wet_bulb: Warmth,
        condensing: Option<Warmth>,
        supply: Option<Warmth>,
        current: Option<Given<q::Current>>,
        capacity: Option<Given<q::Power>>,
    ) -> Self {
        let (outdoor, dry, wet) =
            (outdoor.measured(), return_dry_bulb.measured(), return_wet_bulb.measured());
        let mut run = kv::RunReadings::at(outdoor, dry, wet);
        if let Some(condensing) = condensing {
            run = run.condensing(condensing.measured());
        }
        if let Some(supply) = supply {
            run = run.supply(supply.measured());
        }
        if let Some(current) = current {
            run = run.current(current.measured());
        }
        if let Some(capacity) = capacity {
            run = run.capacity(capacity.measured());
        }
        RunReadings(run)
    }
}

type Shares = Between<q::Ratio>;

fn response(outdoor: Shares, return_dry_bulb: Shares, return_wet_bulb: Shares) -> kv::Response {
    let (outdoor, return_dry_bulb, return_wet_bulb) = (outdoor.0, return_dry_bulb.0, return_wet_bulb.0);
    kv::Response { outdoor, return_dry_bulb, return_wet_bulb }
}

/// How weather and load move what is read of a running system: per °F, between which shares.
///
/// Notes
/// -----
/// Source: common practice, no source; every number is replaceable. Range: outdoor and return temperatures up to 20 °F apart.
///
/// Examples
/// --------
/// >>> narrow = (kv.percent(-0.5), kv.percent(-0.1))
/// >>> kv.Allowance().with_split(narrow, (kv.percent(2), kv.percent(4)), (kv.percent(-4), kv.percent(-2))) == kv.Allowance()
/// False
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Allowance(kv::Allowance);

#[pymethods]
impl Allowance {
    #[new]
    fn new() -> Self {
        Allowance(kv::Allowance::default())
    }

    /// The same with another effect on condensing over ambient, per °F of each.
    ///
    /// Parameters
    /// ----------
    /// outdoor, return_dry_bulb, return_wet_bulb : tuple of two Ratio
    ///     Change per change of the weather or load, and its standard uncertainty.
    ///
    /// Returns
    /// -------
    /// Allowance
    fn with_over_ambient(&self, outdoor: Shares, return_dry_bulb: Shares, return_wet_bulb: Shares) -> Self {
        Allowance(self.0.clone().with_over_ambient(response(outdoor, return_dry_bulb, return_wet_bulb)))
    }

    /// The same with another effect on the split.
    ///
    /// Parameters
    /// ----------
    /// outdoor, return_dry_bulb, return_wet_bulb : tuple of two Ratio
    ///     Change per change of the weather or load, and its standard uncertainty.
    ///
    /// Returns
    /// -------
    /// Allowance
    fn with_split(&self, outdoor: Shares, return_dry_bulb: Shares, return_wet_bulb: Shares) -> Self {
        Allowance(self.0.clone().with_split(response(outdoor, return_dry_bulb, return_wet_bulb)))
    }

    /// The same with another effect on the current.
    ///
    /// Parameters
    /// ----------
    /// outdoor, return_dry_bulb, return_wet_bulb : tuple of two Ratio
    ///     Share per kelvin of the weather or load, and its standard uncertainty.
    ///
    /// Returns
    /// -------
    /// Allowance
    fn with_current(&self, outdoor: Shares, return_dry_bulb: Shares, return_wet_bulb: Shares) -> Self {
        Allowance(self.0.clone().with_current(response(outdoor, return_dry_bulb, return_wet_bulb)))
    }

    /// The same with another effect on the capacity.
    ///
    /// Parameters
    /// ----------
    /// outdoor, return_dry_bulb, return_wet_bulb : tuple of two Ratio
    ///     Share per kelvin of the weather or load, and its standard uncertainty.
    ///
    /// Returns
    /// -------
    /// Allowance
    fn with_capacity(&self, outdoor: Shares, return_dry_bulb: Shares, return_wet_bulb: Shares) -> Self {
        Allowance(self.0.clone().with_capacity(response(outdoor, return_dry_bulb, return_wet_bulb)))
    }

    /// The same for temperatures further apart, or less.
    ///
    /// Parameters
    /// ----------
    /// reach : TemperatureDifference
    ///     The greatest change of weather or load it serves for.
    ///
    /// Returns
    /// -------
    /// Allowance
    #[pyo3(signature = (reach, /))]
    fn reaching(&self, reach: TemperatureDifference) -> Self {
        Allowance(self.0.clone().reaching(reach.0))
    }

    /// Says where the numbers come from.
    ///
    /// Parameters
    /// ----------
    /// source : str
    ///     As reports name it.
    ///
    /// Returns
    /// -------
    /// Allowance
    #[pyo3(name = "from_source", signature = (source, /))]
    fn with_source(&self, source: String) -> Self {
        Allowance(self.0.clone().from_source(source))
    }

    /// Where the numbers come from.
    #[getter]
    fn source(&self) -> &str {
        self.0.source().as_str()
    }
}

impl Named for kv::Shift {
    const WHAT: &'static str = "shift";
    const ALL: &'static [(&'static str, Self)] =
        &[("rose", kv::Shift::Rose), ("fell", kv::Shift::Fell), ("within_doubt", kv::Shift::WithinDoubt)];
}

impl<Q: Exposed> Shown for kv::Compared<Q> {
    const CLASS: Class<Self> = Class {
        name: "Compared",
        doc: "One quantity before and after a piece of work.",
        fields: &[
            ("before", "As read before.", |it, py| it.before().into_python(py)),
            ("after", "As read after.", |it, py| it.after().into_python(py)),
            ("allowed", "What weather and load explain of the difference.", |it, py| {
                it.allowed().into_python(py)
            }),
            ("change", "The difference less what weather and load explain.", |it, py| {
                it.change().into_python(py)
            }),
            ("verdict", "Whether the change lies within its doubt.", |it, py| it.verdict().into_python(py)),
            ("shift", "\"rose\", \"fell\" or \"within_doubt\".", |it, py| plain(name(it.shift()), py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: None,
    };
}

impl Shown for kv::BeforeAfter {
    const CLASS: Class<Self> = Class {
        name: "BeforeAfter",
        doc: r#"Two sets of readings around a piece of work, compared with weather and load allowed for.

        Examples
        --------
        >>> def run(condensing):
        ...     clamp = kv.Measured.from_standard(kv.fahrenheit(condensing), kv.delta_fahrenheit(0.5), "clamp")
        ...     return kv.RunReadings(kv.fahrenheit(90), kv.fahrenheit(75), kv.fahrenheit(63), condensing=clamp)
        >>> found = kv.BeforeAfter.of("condenser coil washed", run(122), run(110))
        >>> found.condensing_over_ambient.shift
        'fell'
        "#,
        fields: &[
            (
                "condensing_over_ambient",
                "The condensing temperature above the outdoor air, where it was read both times.",
                |it, py| it.condensing_over_ambient().cloned().into_python(py),
            ),
            ("split", "Return less supply air, where it was read both times.", |it, py| {
                it.split().cloned().into_python(py)
            }),
            ("current", "The current, where it was read both times.", |it, py| {
                it.current().cloned().into_python(py)
            }),
            ("capacity", "The capacity, where it was read both times.", |it, py| {
                it.capacity().cloned().into_python(py)
            }),
            ("sentences", "One for each, for the report.", |it, py| plain(it.sentences(), py)),
        ],
        text: ToString::to_string,
        finding: Some(kv::BeforeAfter::finding),
        same: None,
    };
}

/// Compares what was read both times.
///
/// Parameters
/// ----------
/// work : str
///     What was done.
/// before, after : RunReadings
/// allowance : Allowance, optional
///     What weather and load explain: the default unless given.
/// level : Ratio, optional
///     How sure to be: 95 % unless given.
///
/// Returns
/// -------
/// BeforeAfter
///
/// Raises
/// ------
/// OutOfRange
///     Conditions further apart than the allowance reaches.
/// Inconsistent
///     Nothing was read both times.
///
/// Notes
/// -----
/// Source: JCGM 100:2008, 5.2, what two readings of one instrument share counted once; the allowance's own.
#[pyfunction(name = "of")]
#[pyo3(signature = (work, before, after, allowance = None, *, level = None))]
fn before_after_of(
    work: String,
    before: PyRef<'_, RunReadings>,
    after: PyRef<'_, RunReadings>,
    allowance: Option<PyRef<'_, Allowance>>,
    level: Option<Ratio>,
) -> PyResult<Made<kv::BeforeAfter>> {
    let usual = kv::Allowance::default();
    let allowance = allowance.as_ref().map_or(&usual, |allowance| &allowance.0);
    Ok(Made(kv::BeforeAfter::of(work, &before.0, &after.0, allowance, self::level(level)?)))
}
