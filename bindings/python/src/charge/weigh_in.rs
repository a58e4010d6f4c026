//! The charge of a data plate, and the charge to weigh in.

use kingvalve::charge as kv;
use kingvalve::measure::Finding;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use crate::column::{Errors, Many, carry};
use crate::measure::Given;
use crate::quantity::{IntoPython, Length, Mass, Temperature};
use crate::record::{Choice, Class, Made, Named, New, Of, Shown, class, listed, name, plain};
use crate::refrigerant::Refrigerant;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::LineAllowance>(module, &[wrap_pyfunction!(line_allowance, module)?])?;
    let plate = [wrap_pyfunction!(plate_charge, module)?, wrap_pyfunction!(for_line, module)?];
    class::<kv::PlateCharge>(module, &plate)?;
    let accessory = [
        wrap_pyfunction!(accessory_given, module)?,
        wrap_pyfunction!(accessory_filled, module)?,
        wrap_pyfunction!(usual_filter_drier, module)?,
    ];
    class::<kv::Accessory>(module, &accessory)?;
    class::<kv::Part>(module, &[])?;
    class::<WeighIn>(module, &[wrap_pyfunction!(weigh_in_of, module)?])
}

impl Shown for kv::LineAllowance {
    const CLASS: Class<Self> = Class {
        name: "LineAllowance",
        doc: "Refrigerant per length of line set.

        Parameters
        ----------
        mass : Mass
            So much refrigerant …
        per : Length
            … for each such length of line.

        Examples
        --------
        >>> print(kv.LineAllowance(kv.ounces(0.6), kv.feet(1)))
        0.0375 lb per 1 ft
        ",
        fields: &[
            ("mass", "So much refrigerant.", |it, py| it.mass.into_python(py)),
            ("per", "For each such length of line.", |it, py| it.per.into_python(py)),
        ],
        text: |it| format!("{} per {}", it.mass, it.per),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
fn line_allowance(cls: New, mass: Mass, per: Length) -> Made<kv::LineAllowance> {
    cls.of(Ok(kv::LineAllowance { mass: mass.0, per: per.0 }))
}

impl Shown for kv::PlateCharge {
    const CLASS: Class<Self> = Class {
        name: "PlateCharge",
        doc: "The charge of a data plate.

        Parameters
        ----------
        factory : Mass
            The factory charge.
        included_line : Length
            The length of line set the factory charge is meant for.
        allowance : LineAllowance, optional
            What the maker adds or takes away per length beyond or short of that.

        Examples
        --------
        >>> plate = kv.PlateCharge(kv.pounds(6), kv.feet(15), kv.LineAllowance(kv.ounces(0.6), kv.feet(1)))
        >>> print(f'{plate.for_line(kv.feet(40)):.2f}')
        6.94 lb
        ",
        fields: &[
            ("factory", "The factory charge.", |it, py| it.factory.into_python(py)),
            ("included_line", "The length of line set it is meant for.", |it, py| {
                it.included_line.into_python(py)
            }),
            (
                "allowance",
                "What the maker allows per length; ``None`` where the plate gives nothing.",
                |it, py| it.allowance.into_python(py),
            ),
        ],
        text: |it| format!("{} with {} of line", it.factory, it.included_line),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

#[pyfunction(name = "__new__")]
#[pyo3(signature = (cls, factory, included_line, allowance = None))]
fn plate_charge(
    cls: New,
    factory: Mass,
    included_line: Length,
    allowance: Option<Of<kv::LineAllowance>>,
) -> Made<kv::PlateCharge> {
    let allowance = allowance.map(|allowance| allowance.0);
    cls.of(Ok(kv::PlateCharge { factory: factory.0, included_line: included_line.0, allowance }))
}

/// The charge for a line set of that length: factory + (installed − included) × allowance.
///
/// Parameters
/// ----------
/// installed : Length or Column of Length
///     Length of one line of the set, 0 ft to 250 ft; read or plain.
/// errors : {"raise", "nan"}
///     What to do with a value outside the range.
///
/// Returns
/// -------
/// Mass, Measured or Column of Mass
///
/// Raises
/// ------
/// OutOfRange
///     A data plate with no charge, a length or an allowance that cannot be.
/// Inconsistent
///     A line of another length than included where the plate gives no allowance; a correction that leaves nothing.
///
/// Notes
/// -----
/// Source: common practice, no source: the maker's instructions print this rule with their own allowance. Accuracy: that
/// of the data plate and of the measured length.
#[pyfunction]
#[pyo3(signature = (plate, installed, *, errors = Errors::Raise), text_signature = "(self, installed, *, errors='raise')")]
fn for_line(
    py: Python<'_>,
    plate: Of<kv::PlateCharge>,
    installed: Many<'_, q::Length>,
    errors: Errors,
) -> PyResult<Py<PyAny>> {
    let plate = plate.0;
    let plain = |installed: q::Length| plate.for_line(installed);
    carry(py, installed, errors, plain, |installed| plate.for_line(installed))
}

impl Named for kv::Basis {
    const WHAT: &'static str = "basis";
    const ALL: &'static [(&'static str, Self)] = &[
        ("data_plate", kv::Basis::DataPlate),
        ("maker", kv::Basis::Maker),
        ("computed", kv::Basis::Computed),
        ("usual", kv::Basis::Usual),
    ];
}

impl Shown for kv::Accessory {
    const CLASS: Class<Self> = Class {
        name: "Accessory",
        doc: r#"Something besides coils and lines that holds liquid: a filter-drier, a receiver, an accumulator.

        Examples
        --------
        >>> r = kv.Refrigerant("R-32")
        >>> shell = kv.Accessory.filled("filter-drier", kv.cubic_inches(9), r, kv.fahrenheit(95))
        >>> print(f"{shell.mass.value:.1f oz}")
        4.8 oz
        "#,
        fields: &[("mass", "How much it takes.", |it, py| it.mass().into_python(py))],
        text: |it| it.mass().to_string(),
        finding: None,
        same: None,
    };
}

/// One whose maker, or whose shop, says how much it takes.
///
/// Parameters
/// ----------
/// name : str
/// mass : Mass
///     Read or plain.
/// basis : {"maker", "usual", "computed", "data_plate"}
///     What the figure rests on.
///
/// Returns
/// -------
/// Accessory
#[pyfunction(name = "given")]
fn accessory_given(name: String, mass: Given<q::Mass>, basis: Choice<kv::Basis>) -> Made<kv::Accessory> {
    Made(Ok(kv::Accessory::given(name, mass.measured(), basis.0)))
}

/// One that fills with liquid: its free internal volume times the density.
///
/// Parameters
/// ----------
/// name : str
/// volume : Volume
///     That the liquid can fill, read or plain.
/// refrigerant : Refrigerant
/// liquid : Temperature
///     Of the liquid.
///
/// Returns
/// -------
/// Accessory
///
/// Raises
/// ------
/// OutOfRange
///     A temperature outside the saturation curve.
///
/// Notes
/// -----
/// Source: volume times density at the bubble point, from the equation of state. Accuracy: that of the volume; a drier's
/// core takes up a good part of its shell.
#[pyfunction(name = "filled")]
fn accessory_filled(
    name: String,
    volume: Given<q::Volume>,
    refrigerant: PyRef<'_, Refrigerant>,
    liquid: Temperature,
) -> Made<kv::Accessory> {
    Made(kv::Accessory::filled(name, volume.measured(), &refrigerant.0, liquid.0))
}

/// A liquid-line filter-drier of residential size where nothing is known of it: 6 oz, give or take 3 oz. Common
/// practice, no source.
///
/// Returns
/// -------
/// Accessory
#[pyfunction]
fn usual_filter_drier() -> Made<kv::Accessory> {
    Made(kv::Accessory::usual_filter_drier())
}

impl Shown for kv::Part {
    const CLASS: Class<Self> = Class {
        name: "ChargePart",
        doc: "One line of a charge to weigh in.",
        fields: &[
            ("what", "What it is for.", |it, py| plain(it.what.clone(), py)),
            ("mass", "How much; negative for a line set shorter than included.", |it, py| {
                (&it.mass).into_python(py)
            }),
            ("basis", "What it rests on: \"data_plate\", \"maker\", \"computed\" or \"usual\".", |it, py| {
                plain(name(it.basis), py)
            }),
        ],
        text: |it| format!("{}: {} ({})", it.what, it.mass, it.basis.text()),
        finding: None,
        same: None,
    };
}

/// A charge to weigh in, with the refrigerant its cautions are for.
#[derive(Clone)]
struct WeighIn {
    sum: kv::WeighIn,
    refrigerant: kingvalve::refrigerant::Refrigerant,
}

fn found(it: &WeighIn) -> kingvalve::Result<Finding> {
    it.sum.finding(&it.refrigerant)
}

impl Shown for WeighIn {
    const CLASS: Class<Self> = Class {
        name: "WeighIn",
        doc: r#"The charge to weigh into an empty system, line by line, each marked by what it rests on.

        Examples
        --------
        >>> plate = kv.PlateCharge(kv.pounds(6), kv.feet(15), kv.LineAllowance(kv.ounces(0.6), kv.feet(1)))
        >>> drier = kv.Accessory.given("filter-drier", kv.ounces(5), "maker")
        >>> charge = kv.WeighIn.of(plate, kv.feet(40), kv.Refrigerant("R-410A"), accessories=[drier])
        >>> print(f"{charge.total.value:.2f}", [part.basis for part in charge.parts])
        7.25 lb ['data_plate', 'maker', 'maker']
        "#,
        fields: &[
            ("parts", "The lines of the sum.", |it, py| listed(it.sum.parts().iter().cloned(), py)),
            ("total", "All together.", |it, py| it.sum.total().into_python(py)),
            ("is_all_by_the_maker", "Whether every line is the data plate's or the maker's.", |it, py| {
                plain(it.sum.is_all_by_the_maker(), py)
            }),
        ],
        text: |it| it.sum.to_string(),
        finding: Some(found),
        same: None,
    };
}

/// Factory charge, line set and accessories.
///
/// Parameters
/// ----------
/// plate : PlateCharge
/// installed : Length
///     Of one line of the set, read or plain.
/// refrigerant : Refrigerant
///     For the cautions that go with the charge.
/// computed : LineAllowance, optional
///     By ``liquid_line_allowance``, where the plate gives none; the line is then marked as computed.
/// accessories : list of Accessory, optional
///
/// Returns
/// -------
/// WeighIn
///
/// Raises
/// ------
/// OutOfRange
///     A data plate with no charge; a length or an allowance that cannot be.
/// Inconsistent
///     A line of another length than included with no allowance at all.
///
/// Notes
/// -----
/// Source: as ``PlateCharge.for_line``. Range: an empty system, evacuated; a full charge, not a top-off. Accuracy: that of
/// the plate, the allowance and the measured length.
#[pyfunction(name = "of")]
#[pyo3(signature = (plate, installed, refrigerant, *, computed = None, accessories = Vec::new()))]
fn weigh_in_of(
    plate: Of<kv::PlateCharge>,
    installed: Given<q::Length>,
    refrigerant: PyRef<'_, Refrigerant>,
    computed: Option<Of<kv::LineAllowance>>,
    accessories: Vec<Of<kv::Accessory>>,
) -> Made<WeighIn> {
    let charge = kv::WeighIn::of(&plate.0, installed.measured(), computed.map(|computed| computed.0));
    let charge = accessories.into_iter().fold(charge, |sum, accessory| sum?.with(accessory.0));
    Made(charge.map(|sum| WeighIn { sum, refrigerant: refrigerant.0.clone() }))
}
