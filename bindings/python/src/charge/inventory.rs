//! What is in the system now, as a distribution, from whatever was read.

use kingvalve::charge::inventory as kv;
use kingvalve::measure::Measured;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::standing::Found;
use super::system::System;
use crate::error::{raise, wrong_kind};
use crate::measure::Given;
use crate::quantity::{Exposed, IntoPython, Mass, Site};
use crate::record::{Class, Made, Of, Shown, class, listed, plain};

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    class::<kv::Estimate<q::Mass>>(module, &[])?;
    class::<kv::Contribution>(module, &[])?;
    let standing = [wrap_pyfunction!(standing_at, module)?, wrap_pyfunction!(standing_at_parts, module)?];
    class::<kv::StandingReading>(module, &standing)?;
    class::<kv::RunningReading>(module, &[wrap_pyfunction!(running_of, module)?])?;
    module.add_class::<Inventory>()
}

impl<Q: Exposed> Shown for kv::Estimate<Q> {
    const CLASS: Class<Self> = Class {
        name: "Estimate",
        doc: "A quantity as a distribution: the middle, and where the truth lies one time in two and nine in ten.",
        fields: &[
            ("median", "As likely above as below.", |it, py| it.median.into_python(py)),
            ("half", "The truth lies between these two one time in two.", |it, py| it.half.into_python(py)),
            ("ninety", "The truth lies between these two nine times in ten.", |it, py| {
                it.ninety.into_python(py)
            }),
        ],
        text: |it| format!("{:.2} (nine times in ten {:.2})", it.median, it.ninety),
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::Contribution {
    const CLASS: Class<Self> = Class {
        name: "Contribution",
        doc: "What one reading or weighing contributed to an ``Inventory``.",
        fields: &[
            ("what", "What it is called: \"standing pressure\", \"weighed in\".", |it, py| {
                plain(it.what.as_str(), py)
            }),
            ("before", "What was known before it.", |it, py| it.before.into_python(py)),
            ("after", "What was known with it.", |it, py| it.after.into_python(py)),
            (
                "width_left",
                "The width of the 90 % interval after, as a share of that before: 50 % where it halved.",
                |it, py| it.width_left().into_python(py),
            ),
        ],
        text: kv::Contribution::text,
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::StandingReading {
    const CLASS: Class<Self> = Class {
        name: "StandingReading",
        doc: r#"The standing pressure of a system that is off, equalised and settled.

        Read before and after a step on one gauge, one ``Instrument``: its own error is then known to be shared.

        Examples
        --------
        >>> gauge = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(0.5, kv.psi(500))
        >>> pressure = kv.Site().absolute(kv.Reading(kv.psig(62), gauge))
        >>> kv.StandingReading.at(pressure, kv.fahrenheit(88), label="on arrival").label
        'on arrival'
        "#,
        fields: &[
            ("pressure", "The absolute pressure.", |it, py| it.pressure().into_python(py)),
            ("temperatures", "The temperatures: one, or one for each part.", |it, py| {
                listed(it.temperatures(), py)
            }),
            ("label", "What it is called in the account of contributions.", |it, py| plain(it.label(), py)),
        ],
        text: |it| it.pressure().to_string(),
        finding: None,
        same: None,
    };
}

/// Absolute pressure, and one temperature for the whole system.
///
/// Parameters
/// ----------
/// pressure : Pressure
///     Absolute, read or plain.
/// temperature : Temperature
///     Read or plain.
/// label : str, optional
///     What it is called in the account of contributions.
///
/// Returns
/// -------
/// StandingReading
#[pyfunction(name = "at")]
#[pyo3(signature = (pressure, temperature, *, label = String::new()), text_signature = "(pressure, temperature, *, label='')")]
fn standing_at(
    pressure: Given<q::Pressure>,
    temperature: Given<q::Temperature>,
    label: String,
) -> Made<kv::StandingReading> {
    Made(Ok(kv::StandingReading::at(pressure.measured(), temperature.measured()).labelled(label)))
}

/// Absolute pressure, and one temperature for each part of the system, in their order.
///
/// Parameters
/// ----------
/// pressure : Pressure
///     Absolute, read or plain.
/// temperatures : list of Temperature
///     Read or plain.
/// label : str, optional
///     What it is called in the account of contributions.
///
/// Returns
/// -------
/// StandingReading
#[pyfunction(name = "at_parts")]
#[pyo3(signature = (pressure, temperatures, *, label = String::new()), text_signature = "(pressure, temperatures, *, label='')")]
fn standing_at_parts(
    pressure: Given<q::Pressure>,
    temperatures: Vec<Given<q::Temperature>>,
    label: String,
) -> Made<kv::StandingReading> {
    let temperatures = temperatures.into_iter().map(Given::measured).collect();
    Made(Ok(kv::StandingReading::at_parts(pressure.measured(), temperatures).labelled(label)))
}

impl Shown for kv::RunningReading {
    const CLASS: Class<Self> = Class {
        name: "RunningReading",
        doc: "Superheat and subcooling of a system run until they are steady, with what they would be at full charge.",
        fields: &[
            ("superheat", "Superheat as read.", |it, py| it.superheat().into_python(py)),
            ("subcooling", "Subcooling as read.", |it, py| it.subcooling().into_python(py)),
            ("full", "What they would be at full charge.", |it, py| (*it.full()).into_python(py)),
            ("label", "What it is called in the account of contributions.", |it, py| plain(it.label(), py)),
        ],
        text: |it| format!("superheat {}, subcooling {}", it.superheat(), it.subcooling()),
        finding: None,
        same: None,
    };
}

/// Superheat and subcooling as read, and what they would be at full charge.
///
/// Parameters
/// ----------
/// superheat, subcooling : TemperatureDifference
///     By ``Refrigerant.superheat`` and ``subcooling``, read or plain.
/// full : FullCharge
/// label : str, optional
///     What it is called in the account of contributions.
///
/// Returns
/// -------
/// RunningReading
#[pyfunction(name = "of")]
#[pyo3(
    signature = (superheat, subcooling, full, *, label = String::new()),
    text_signature = "(superheat, subcooling, full, *, label='')"
)]
fn running_of(
    superheat: Given<q::TemperatureDifference>,
    subcooling: Given<q::TemperatureDifference>,
    full: Of<kingvalve::charge::FullCharge>,
    label: String,
) -> Made<kv::RunningReading> {
    let reading = kv::RunningReading::of(superheat.measured(), subcooling.measured(), full.0);
    Made(Ok(reading.labelled(label)))
}

/// What is in the system now, and how sure that is.
///
/// It starts from what is taken for granted of a ``System``; each reading or weighing makes a new one that is surer. It is
/// a plain value: keeping, comparing, pickling and storing it (as JSON) change nothing.
///
/// Notes
/// -----
/// Source: Bayes over volume, oil uptake, gauge error and composition; density and saturation from the equation of state.
/// Accuracy: for systems as assumed the 90 % interval holds the truth 88 % to 95 % of the time; see the calibration table
/// of the documentation.
///
/// Examples
/// --------
/// >>> gauge = kv.Instrument.resolution(kv.psi(0.1)).accuracy_percent_of_span(0.5, kv.psi(500)).named("gauge")
/// >>> clamp = kv.Instrument.resolution(kv.delta_fahrenheit(0.1)).accuracy(kv.delta_fahrenheit(1)).named("clamp")
/// >>> def standing(psig):
/// ...     pressure = kv.Site().absolute(kv.Reading(kv.psig(psig), gauge))
/// ...     return kv.StandingReading.at(pressure, kv.Reading(kv.fahrenheit(88), clamp))
/// >>> system = kv.System.of_plate(kv.Refrigerant("R-454B"), kv.pounds(6.5))
/// >>> arrival = kv.Inventory.prior(system).standing(standing(62))
/// >>> arrival.now.ninety[1] < kv.pounds(1.2)
/// True
/// >>> step = kv.Measured.from_standard(kv.pounds(0.5), kv.ounces(0.2), "scale")
/// >>> then = arrival.weighed_in(step).standing(standing(118))
/// >>> [each.what for each in then.contributions]
/// ['standing pressure', 'weighed in', 'standing pressure']
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Inventory(pub(super) kv::Inventory);

impl Inventory {
    fn then(
        &self,
        py: Python<'_>,
        change: impl FnOnce(&kv::Inventory) -> kingvalve::Result<kv::Inventory> + Send,
    ) -> PyResult<Self> {
        py.detach(|| change(&self.0)).map(Inventory).map_err(raise)
    }
}

#[pymethods]
impl Inventory {
    /// What is believed before anything is read.
    ///
    /// Parameters
    /// ----------
    /// system : System
    ///
    /// Returns
    /// -------
    /// Inventory
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     Assumptions that leave nothing possible.
    ///
    /// Examples
    /// --------
    /// >>> system = kv.System.of_plate(kv.Refrigerant("R-410A"), kv.pounds(6))
    /// >>> print(f"{kv.Inventory.prior(system).now.median:.1f}")
    /// 3.6 lb
    #[staticmethod]
    #[pyo3(signature = (system, /))]
    fn prior(py: Python<'_>, system: &Bound<'_, System>) -> PyResult<Self> {
        let system = &system.get().0;
        py.detach(|| kv::Inventory::prior(system)).map(Inventory).map_err(raise)
    }

    /// With the standing pressure of the system: off, equalised, settled.
    ///
    /// Parameters
    /// ----------
    /// reading : StandingReading
    ///
    /// Returns
    /// -------
    /// Inventory
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A pressure or temperature outside the equation's range; more than ten standing readings.
    /// Inconsistent
    ///     A number of temperatures that does not fit the parts; readings that leave nothing possible.
    ///
    /// Notes
    /// -----
    /// Range: off long enough that pressures are equal and temperatures steady. A pressure above saturation counts as air,
    /// nitrogen, another refrigerant or unsettled temperatures, as far as the readings' doubt makes that likelier.
    #[pyo3(signature = (reading, /))]
    fn standing(&self, py: Python<'_>, reading: Of<kv::StandingReading>) -> PyResult<Self> {
        self.then(py, |now| now.standing(&reading.0))
    }

    /// With refrigerant weighed in since the last reading.
    ///
    /// Parameters
    /// ----------
    /// mass : Mass
    ///     What entered the system, hoses allowed for, with the doubt of the scale; zero or more.
    ///
    /// Returns
    /// -------
    /// Inventory
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A negative mass: what was taken out goes to ``removed``.
    #[pyo3(signature = (mass, /))]
    fn weighed_in(&self, py: Python<'_>, mass: Given<q::Mass>) -> PyResult<Self> {
        let mass: Measured<q::Mass> = mass.measured();
        self.then(py, |now| now.weighed_in(mass))
    }

    /// With refrigerant taken out and weighed. Vapour taken from a zeotrope shifts what stays: see ``System.leaked``.
    #[pyo3(signature = (mass, /))]
    fn removed(&self, py: Python<'_>, mass: Given<q::Mass>) -> PyResult<Self> {
        let mass: Measured<q::Mass> = mass.measured();
        self.then(py, |now| now.removed(mass))
    }

    /// With superheat and subcooling of the running system; the latest reading replaces the ones before it.
    ///
    /// Parameters
    /// ----------
    /// reading : RunningReading
    ///
    /// Returns
    /// -------
    /// Inventory
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     No plate charge; neither superheat nor subcooling clear of zero; subcooling on a system that is nearly empty.
    ///
    /// Notes
    /// -----
    /// Source: ``VirtualCharge``, with its scatter. Range: steady cooling, good airflow, clean coils, no other fault.
    ///
    /// Examples
    /// --------
    /// >>> system = kv.System.of_plate(kv.Refrigerant("R-410A"), kv.pounds(6))
    /// >>> full = kv.FullCharge(kv.delta_fahrenheit(10), kv.delta_fahrenheit(10))
    /// >>> read = kv.RunningReading.of(kv.delta_fahrenheit(25), kv.delta_fahrenheit(6), full)
    /// >>> kv.Inventory.prior(system).running(read).missing(kv.pounds(6)).median > kv.pounds(0.8)
    /// True
    #[pyo3(signature = (reading, /))]
    fn running(&self, py: Python<'_>, reading: Of<kv::RunningReading>) -> PyResult<Self> {
        self.then(py, |now| now.running(&reading.0))
    }

    /// The charge now: an ``Estimate`` with its median and its 50 % and 90 % intervals.
    #[getter]
    fn now(&self) -> Made<kv::Estimate<q::Mass>> {
        Made(Ok(self.0.now()))
    }

    /// What is missing to a full charge; negative where there is too much.
    ///
    /// Parameters
    /// ----------
    /// full : Mass
    ///
    /// Returns
    /// -------
    /// Estimate
    #[pyo3(signature = (full, /))]
    fn missing(&self, full: Mass) -> Made<kv::Estimate<q::Mass>> {
        Made(Ok(self.0.missing(full.0)))
    }

    /// The internal volume, as assumed or learned: an ``Estimate``.
    #[getter]
    fn volume(&self) -> Made<kv::Estimate<q::Volume>> {
        Made(Ok(self.0.volume()))
    }

    /// What each reading and weighing contributed, in their order.
    #[getter]
    fn contributions(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.contributions().iter().cloned(), py)
    }

    /// The system it is about.
    #[getter]
    fn system(&self) -> System {
        System(self.0.system().clone())
    }

    /// All that was weighed in less what was removed.
    #[getter]
    fn added(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.added().into_python(py)
    }

    /// How probable it is that all was vapour at the last standing reading; zero before one.
    #[getter]
    fn probability_all_vapour(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.probability_all_vapour().into_python(py)
    }

    /// How probable it is that air, nitrogen or another refrigerant is in the system, or that the temperatures had not
    /// settled.
    #[getter]
    fn probability_gas(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.probability_gas().into_python(py)
    }

    /// Whether the readings fit the assumptions so badly that the answer was widened beyond what they say.
    #[getter]
    fn is_widened(&self) -> bool {
        self.0.is_widened()
    }

    /// How many equally likely systems the answer rests on.
    #[getter]
    fn effective_systems(&self) -> f64 {
        self.0.effective_systems()
    }

    /// The standing pressure to expect once the system has settled at these temperatures.
    ///
    /// Parameters
    /// ----------
    /// temperatures : Temperature or list of Temperature
    ///     One for the whole system, or one for each part.
    ///
    /// Returns
    /// -------
    /// Estimate
    ///     Of the absolute pressure; the gauge's own error is not added.
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the saturation curve.
    /// Inconsistent
    ///     A number of temperatures that does not fit the parts.
    ///
    /// Examples
    /// --------
    /// >>> r = kv.Refrigerant("R-410A")
    /// >>> expected = kv.Inventory.prior(kv.System.of_plate(r, kv.pounds(6))).expect_standing(kv.fahrenheit(80))
    /// >>> expected.ninety[1] <= r.bubble_pressure(kv.fahrenheit(80)) + kv.psi(0.1)
    /// True
    #[pyo3(signature = (temperatures, /))]
    fn expect_standing(
        &self,
        py: Python<'_>,
        temperatures: &Bound<'_, PyAny>,
    ) -> PyResult<Made<kv::Estimate<q::Pressure>>> {
        let temperatures = super::plan::temperatures(temperatures)?;
        Ok(Made(py.detach(|| self.0.expect_standing(&temperatures))))
    }

    /// Whether air may have come in, by the standing pressures against the atmosphere: the worst of them, since what came
    /// in before a step stays in after it. Without one it counts as kept out.
    ///
    /// Parameters
    /// ----------
    /// site : Site
    ///
    /// Returns
    /// -------
    /// AirIngress
    #[pyo3(signature = (site, /))]
    fn air_ingress(&self, site: PyRef<'_, Site>) -> Made<kingvalve::charge::AirIngress> {
        Made(self.0.air_ingress(&site.0))
    }

    /// The finding on a standing reading by itself, with the volume as it is known now.
    ///
    /// Parameters
    /// ----------
    /// reading : StandingReading
    ///
    /// Returns
    /// -------
    /// StandingFinding
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     As for ``standing``.
    #[pyo3(signature = (reading, /))]
    fn finding(&self, reading: Of<kv::StandingReading>) -> Made<Found> {
        let refrigerant = self.0.system().refrigerant();
        Made(self.0.finding(&reading.0).map(|found| Found::of(found, refrigerant)))
    }

    /// The inventory as JSON text, to store between visits.
    fn to_json(&self) -> PyResult<String> {
        serde_json::to_string(&self.0).map_err(|error| wrong_kind(error.to_string()))
    }

    /// Reads an inventory from JSON text.
    ///
    /// Parameters
    /// ----------
    /// text : str
    ///     As ``to_json`` writes it.
    ///
    /// Returns
    /// -------
    /// Inventory
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     Text that is not of that form.
    #[staticmethod]
    #[pyo3(signature = (text, /))]
    fn from_json(py: Python<'_>, text: &str) -> PyResult<Self> {
        py.detach(|| serde_json::from_str(text))
            .map(Inventory)
            .map_err(|error| crate::error::unreadable(format!("an inventory cannot be read: {error}")))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((slf.get_type().getattr("from_json")?, (slf.get().to_json()?,)))
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("kingvalve._html")?.call_method1("inventory", (slf,))
    }

    fn __str__(&self) -> String {
        let now = self.0.now();
        let (median, half, ninety) = (now.median, now.half, now.ninety);
        format!("{median:.2} (one time in two {half:.2}, nine times in ten {ninety:.2})")
    }

    fn __repr__(&self) -> String {
        format!("<Inventory: {}>", self.__str__())
    }
}
