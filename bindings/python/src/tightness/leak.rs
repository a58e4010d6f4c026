//! The size of a leak, from the gas it was found with to the gas one asks about.

use kingvalve::quantity as q;
use kingvalve::tightness as kv;
use pyo3::prelude::*;

use crate::column::{Errors, Many, exactly};
use crate::error::raise;
use crate::measure::Given;
use crate::quantity::{IntoPython, Pressure, Temperature, Viscosity};
use crate::record::{Choice, Class, Made, Named, Shown, class, name, plain};
use crate::refrigerant::Refrigerant;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<LeakGas>()?;
    module.add_class::<Leak>()?;
    class::<kv::LeakSize>(module, &[])
}

impl Named for kv::Flow {
    const WHAT: &'static str = "flow";
    const ALL: &'static [(&'static str, Self)] =
        &[("viscous", kv::Flow::Viscous), ("molecular", kv::Flow::Molecular)];
}

impl Named for kv::Regime {
    const WHAT: &'static str = "regime";
    const ALL: &'static [(&'static str, Self)] = &[
        ("molecular", kv::Regime::Molecular),
        ("transitional", kv::Regime::Transitional),
        ("viscous", kv::Regime::Viscous),
        ("turbulent", kv::Regime::Turbulent),
    ];
}

/// A gas, as far as leaks are concerned: its molar mass and its viscosity.
///
/// Examples
/// --------
/// >>> print(f"{kv.LeakGas.of(kv.Refrigerant('R-410A')).viscosity(kv.celsius(25)):.1f}")
/// 13.4 µPa·s
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct LeakGas(kv::LeakGas);

#[pymethods]
impl LeakGas {
    /// Nitrogen.
    #[staticmethod]
    fn nitrogen() -> Self {
        LeakGas(kv::LeakGas::nitrogen())
    }

    /// Helium.
    #[staticmethod]
    fn helium() -> Self {
        LeakGas(kv::LeakGas::helium())
    }

    /// Hydrogen.
    #[staticmethod]
    fn hydrogen() -> Self {
        LeakGas(kv::LeakGas::hydrogen())
    }

    /// Dry air, what leaks into a vacuum.
    #[staticmethod]
    fn air() -> Self {
        LeakGas(kv::LeakGas::air())
    }

    /// The vapour of a refrigerant.
    ///
    /// Parameters
    /// ----------
    /// refrigerant : Refrigerant
    ///     What leaks.
    ///
    /// Returns
    /// -------
    /// LeakGas
    #[staticmethod]
    #[pyo3(signature = (refrigerant, /))]
    fn of(refrigerant: PyRef<'_, Refrigerant>) -> Self {
        LeakGas(kv::LeakGas::of(&refrigerant.0))
    }

    /// With a viscosity of one's own, for gases the table does not have; above zero.
    ///
    /// Parameters
    /// ----------
    /// viscosity : Viscosity
    ///     Of the gas at the leak.
    ///
    /// Returns
    /// -------
    /// LeakGas
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Not above zero.
    #[pyo3(signature = (viscosity, /))]
    fn with_viscosity(&self, viscosity: Viscosity) -> PyResult<Self> {
        self.0.clone().with_viscosity(viscosity.0).map(LeakGas).map_err(raise)
    }

    /// What it is called.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }

    /// Its viscosity at low pressure.
    ///
    /// Parameters
    /// ----------
    /// temperature : Temperature or Column of Temperature
    ///     −30 °C to 70 °C.
    /// errors : {"raise", "nan"}
    ///     What to do with a row outside the range.
    ///
    /// Returns
    /// -------
    /// Viscosity or Column of Viscosity
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     Outside the range.
    /// UnknownName
    ///     A gas whose viscosity the table does not have.
    ///
    /// Notes
    /// -----
    /// Source: CoolProp 8.0.0 at 0 °C and 50 °C, a power law between; blends by Wilke, J. Chem. Phys. 18 (1950) 517.
    /// Accuracy: 0.4 % between the two, blends 5 %; pressure inside a system raises it by up to some 15 %, not counted.
    #[pyo3(signature = (temperature, *, errors = Errors::Raise))]
    fn viscosity(
        &self,
        py: Python<'_>,
        temperature: Many<'_, q::Temperature>,
        errors: Errors,
    ) -> PyResult<Py<PyAny>> {
        exactly(py, temperature, errors, |temperature| self.0.viscosity(temperature))
    }

    fn __repr__(&self) -> String {
        format!("<LeakGas: {}>", self.0.name())
    }
}

/// A leak, as it was found with some gas.
///
/// Parameters
/// ----------
/// throughput : Throughput
///     Above zero; plain or with its doubt.
/// gas : LeakGas
///     What it was found with.
/// inside, outside : Pressure
///     Absolute, when it was found.
/// temperature : Temperature
///     Of the gas in the leak.
///
/// Raises
/// ------
/// OutOfRange
///     A leak or temperature that is not above zero.
/// Inconsistent
///     Pressures that drive nothing.
///
/// Examples
/// --------
/// >>> found = kv.pascal_cubic_meters_per_second(1e-5)
/// >>> leak = kv.Leak(found, kv.LeakGas.helium(), kv.psia(30), kv.psia(14.7), kv.fahrenheit(70))
/// >>> size = leak.of_gas(kv.LeakGas.of(kv.Refrigerant("R-410A")), kv.psia(200), kv.psia(14.7))
/// >>> print(f"{size.mass_flow.value:.1f oz/yr} {leak.regime}")
/// 28.6 oz/yr viscous
#[pyclass(frozen, module = "kingvalve")]
pub struct Leak(pub(super) kv::Leak);

#[pymethods]
impl Leak {
    #[new]
    fn new(
        throughput: Given<q::Throughput>,
        gas: PyRef<'_, LeakGas>,
        inside: Pressure,
        outside: Pressure,
        temperature: Temperature,
    ) -> PyResult<Self> {
        let leak = kv::Leak::new(throughput.measured(), gas.0.clone(), inside.0, outside.0, temperature.0);
        leak.map(Leak).map_err(raise)
    }

    /// How much passes.
    #[getter]
    fn throughput(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        self.0.throughput().into_python(py)
    }

    /// Of what gas.
    #[getter]
    fn gas(&self) -> LeakGas {
        LeakGas(self.0.gas().clone())
    }

    /// How gas of that throughput commonly flows: "molecular", "transitional", "viscous" or "turbulent".
    #[getter]
    fn regime(&self) -> &'static str {
        name(self.0.regime())
    }

    /// What the same leak would pass of another gas.
    ///
    /// Parameters
    /// ----------
    /// gas : LeakGas
    /// inside, outside : Pressure
    ///     Absolute.
    /// flow : {"viscous", "molecular"}
    ///     How gas flows through it.
    ///
    /// Returns
    /// -------
    /// LeakSize
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A temperature outside the range of the viscosities.
    /// Inconsistent
    ///     Pressures that drive nothing.
    ///
    /// Notes
    /// -----
    /// Source: viscous flow by Poiseuille, molecular flow by Knudsen, in the terms of EN 1779. Range: vapour on both
    /// sides, −30 °C to 70 °C; between the two regimes the two results bound the truth. Accuracy: a factor of two: real
    /// leaks are rarely one straight channel.
    #[pyo3(
        signature = (gas, inside, outside, flow = Choice(kv::Flow::Viscous)),
        text_signature = "($self, gas, inside, outside, flow='viscous')"
    )]
    fn of_gas(
        &self,
        gas: PyRef<'_, LeakGas>,
        inside: Pressure,
        outside: Pressure,
        flow: Choice<kv::Flow>,
    ) -> Made<kv::LeakSize> {
        Made(self.0.of_gas(&gas.0, inside.0, outside.0, flow.0))
    }

    fn __repr__(&self) -> String {
        format!("<Leak: {} of {}>", self.0.throughput(), self.0.gas().name())
    }
}

impl Shown for kv::LeakSize {
    const CLASS: Class<Self> = Class {
        name: "LeakSize",
        doc: "What a leak passes of some gas, by ``Leak.of_gas``.",
        fields: &[
            ("gas", "Of what.", |it, py| plain(it.gas(), py)),
            ("flow", "How gas was taken to flow: \"viscous\" or \"molecular\".", |it, py| {
                plain(name(it.flow()), py)
            }),
            ("regime", "How gas of that throughput commonly flows.", |it, py| plain(name(it.regime()), py)),
            ("throughput", "How much passes.", |it, py| it.throughput().into_python(py)),
            ("mass_flow", "The same as mass.", |it, py| it.mass_flow().into_python(py)),
        ],
        text: |it| format!("{} of {}, {}", it.throughput(), it.gas(), it.mass_flow()),
        finding: Some(kv::LeakSize::finding),
        same: None,
    };
}
