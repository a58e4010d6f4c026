//! What is in the system now, as a distribution, from whatever was read.

use kingvalve::charge::inventory as kv;
use kingvalve::measure::Measured;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::standing::Found;
use super::system::System;
use crate::error::{raise, wrong_kind};
use crate::measure::Given;
use crate::quantity::{IntoPython, Mass, Site};
use crate::record::{Made, Of, listed, name};

/// Adds the class to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Inventory>()
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
/// >>> def standing(psia):
/// ...     read = kv.Measured.from_standard(kv.psia(psia), kv.psi(0.5), "gauge")
/// ...     return kv.StandingReading.at(read, kv.fahrenheit(88))
/// >>> system = kv.System.of_plate(kv.Refrigerant("R-454B"), kv.pounds(6.5))
/// >>> arrival = kv.Inventory.prior(system).standing(standing(76.7))
/// >>> then = arrival.weighed_in(kv.pounds(0.5)).standing(standing(132.7))
/// >>> [each.what for each in then.contributions]
/// ['standing pressure', 'weighed in', 'standing pressure']
#[pyclass(frozen, eq, module = "kingvalve")]
pub struct Inventory(pub(super) kv::Inventory);

/// Equal where they are written alike: one that was read back differs in the last bit of a converted value.
impl PartialEq for Inventory {
    fn eq(&self, other: &Self) -> bool {
        self.0 == other.0 || matches!((self.to_json(), other.to_json()), (Ok(one), Ok(two)) if one == two)
    }
}

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
    ///
    /// Parameters
    /// ----------
    /// mass : Mass
    ///     Weighed, with the doubt of the scale; zero or more. Read or plain.
    ///
    /// Returns
    /// -------
    /// Inventory
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A negative mass: what was charged goes to ``weighed_in``.
    /// Inconsistent
    ///     More than can have been in the system.
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

    /// After it was recovered, evacuated and held: what was read before counts no more, and next to nothing is left.
    ///
    /// What is weighed in from then on is what the system holds, so a standing pressure after a part of it tells the
    /// volume.
    ///
    /// Parameters
    /// ----------
    /// left : Mass, optional
    ///     The most that may have stayed: ``kv.COMMON_RESIDUE`` unless given.
    ///
    /// Returns
    /// -------
    /// Inventory
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A negative mass.
    ///
    /// Notes
    /// -----
    /// Source: conservation of mass. Range: a vacuum that was deep and held (``DecayTest``). Accuracy: that of the weights
    /// and of what may have stayed.
    ///
    /// Examples
    /// --------
    /// >>> system = kv.System.of_plate(kv.Refrigerant("R-454B"), kv.pounds(6.5))
    /// >>> whole = kv.Measured.from_standard(kv.pounds(6.5), kv.ounces(0.3), "scale")
    /// >>> charged = kv.Inventory.prior(system).evacuated().weighed_in(whole)
    /// >>> low, high = charged.now.ninety
    /// >>> high - low < kv.pounds(0.1)
    /// True
    #[pyo3(signature = (left = None))]
    fn evacuated(&self, py: Python<'_>, left: Option<Mass>) -> PyResult<Self> {
        let left = left.map(|left| left.0);
        self.then(py, |now| now.evacuated(left))
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

    /// What the last running reading says of the charge: "about", "at_most" or "at_least"; ``None`` before one.
    #[getter]
    fn running_says(&self) -> Option<&'static str> {
        self.0.running_says().map(name)
    }

    /// How the last reading contradicts what was read and weighed before it, where it does: "pressure_too_low",
    /// "pressure_too_high" or "running_disagrees".
    #[getter]
    fn conflict(&self) -> Option<&'static str> {
        self.0.conflict().map(name)
    }

    /// Whether it was evacuated: what is in it was weighed in since.
    #[getter]
    fn is_evacuated(&self) -> bool {
        self.0.is_evacuated()
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
        let kv::Estimate { median, half, ninety } = self.0.now();
        format!("{median:.2} (one time in two {half:.2}, nine times in ten {ninety:.2})")
    }

    fn __repr__(&self) -> String {
        format!("<Inventory: {}>", self.__str__())
    }
}
