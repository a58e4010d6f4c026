//! What each way forward is expected to cost over the years, and what would change the ranking.

use kingvalve::estimate as money;
use kingvalve::estimate::outlook as kv;
use kingvalve::quantity as q;
use pyo3::prelude::*;

use super::Money;
use super::way::{RateCard, Situation};
use crate::error::{raise, unreadable, wrong_kind};
use crate::quantity::IntoPython;
use crate::record::{Choice, Class, Made, Named, Shown, class, listed, name, plain};
use crate::visit::json_text;

/// Adds the classes to the module.
pub fn register(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<Prices>()?;
    module.add_class::<Chances>()?;
    module.add_class::<Prospect>()?;
    module.add_class::<Outlook>()?;
    class::<kv::WayOutlook>(module, &[])?;
    class::<kv::SearchValue>(module, &[])?;
    class::<kv::WhatWouldChange>(module, &[])?;
    class::<kv::Assumption>(module, &[])
}

impl Named for kv::Forward {
    const WHAT: &'static str = "way forward";
    const ALL: &'static [(&'static str, Self)] = &[
        (kv::Forward::LeaveAsIs.name(), kv::Forward::LeaveAsIs),
        (kv::Forward::Recharge.name(), kv::Forward::Recharge),
        (kv::Forward::RechargeWithSealant.name(), kv::Forward::RechargeWithSealant),
        (kv::Forward::LeakSearch.name(), kv::Forward::LeakSearch),
        (kv::Forward::Replace.name(), kv::Forward::Replace),
    ];
}

fn read<T: serde::de::DeserializeOwned>(what: &str, form: &Bound<'_, PyAny>) -> PyResult<T> {
    serde_json::from_str(&json_text(form)?)
        .map_err(|error| unreadable(format!("{what} cannot be read: {error}")))
}

fn written(value: &impl serde::Serialize) -> PyResult<String> {
    serde_json::to_string(value).map_err(|error| wrong_kind(error.to_string()))
}

/// The language of everything that is said in Python.
const ENGLISH: money::Language = money::Language::English;

fn amount(cost: kv::ExpectedCost) -> Money {
    Money(cost.amount())
}

/// The prices an outlook reckons with.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Prices(kv::Prices);

#[pymethods]
impl Prices {
    /// From a rate card, for a situation.
    ///
    /// Parameters
    /// ----------
    /// card : RateCard
    /// situation : Situation
    ///     A new indoor coil and outdoor unit cost what its parts on the card do; where it names none, 30 % and 60 % of new
    ///     equipment (common practice, no source).
    ///
    /// Returns
    /// -------
    /// Prices
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     A name that is not on the card.
    #[staticmethod]
    fn from_card(card: PyRef<'_, RateCard>, situation: PyRef<'_, Situation>) -> PyResult<Self> {
        kv::Prices::from_card(&card.0, &situation.0).map(Prices).map_err(raise)
    }

    /// Reads prices from JSON text, or from dicts of that form.
    ///
    /// Parameters
    /// ----------
    /// text : str or dict
    ///     JSON, or the dict it is read into.
    ///
    /// Returns
    /// -------
    /// Prices
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     Not what it should be; ``error.field`` names the field.
    #[staticmethod]
    #[pyo3(signature = (text, /))]
    fn from_json(text: &Bound<'_, PyAny>) -> PyResult<Self> {
        read("prices", text).map(Prices)
    }

    /// The prices as JSON text.
    fn to_json(&self) -> PyResult<String> {
        written(&self.0)
    }
}

/// What an outlook reckons with that nobody knows: chances, named defaults, each with the records it rests on.
///
/// Notes
/// -----
/// Source: common practice, no source, until learned from a shop's own records (conjugate updating).
///
/// Examples
/// --------
/// >>> ours = kv.Chances().learned({"sealants": {"worked": 3, "failed": 9}})
/// >>> ours == kv.Chances()
/// False
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Chances(kv::Chances);

#[pymethods]
impl Chances {
    #[new]
    fn new() -> Self {
        Chances(kv::Chances::default())
    }

    /// The same with a shop's records counted in.
    ///
    /// Parameters
    /// ----------
    /// records : dict
    ///     ``{"sealants": {"worked", "failed"}, "search_hours": …, "repairs": …, "places": [reachable, indoor coil, outdoor
    ///     unit], "failures": [{"watched", "from_age", "to_age", "failed"}]}``; what is left out counts nothing.
    ///
    /// Returns
    /// -------
    /// Chances
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     Records of another form.
    /// Inconsistent
    ///     Records of failures that cannot be.
    #[pyo3(signature = (records, /))]
    fn learned(&self, records: &Bound<'_, PyAny>) -> PyResult<Self> {
        let records: kv::ShopRecords = read("shop records", records)?;
        self.0.learned(&records).map(Chances).map_err(raise)
    }

    /// Reads chances from JSON text, or from dicts of that form.
    ///
    /// Parameters
    /// ----------
    /// text : str or dict
    ///     JSON, or the dict it is read into.
    ///
    /// Returns
    /// -------
    /// Chances
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     Not what it should be; ``error.field`` names the field.
    #[staticmethod]
    #[pyo3(signature = (text, /))]
    fn from_json(text: &Bound<'_, PyAny>) -> PyResult<Self> {
        read("chances", text).map(Chances)
    }

    /// The chances as JSON text.
    fn to_json(&self) -> PyResult<String> {
        written(&self.0)
    }
}

/// What an outlook is asked about: a system, its leak, its age, the prices, and what is taken for granted.
///
/// Examples
/// --------
/// >>> usd = lambda amount: {"low": f"{amount}.00 USD", "high": f"{amount}.00 USD"}
/// >>> prospect = kv.Prospect.from_json({
/// ...     "years": 5, "charge": kv.pounds(7), "age": kv.years(9),
/// ...     "missing": {"low": kv.pounds(2), "high": kv.pounds(3)},
/// ...     "leak": {"low": kv.pounds_per_year(1), "median": kv.pounds_per_year(2), "high": kv.pounds_per_year(4)},
/// ...     "prices": {
/// ...         "called": usd(120), "recharge": usd(450), "refrigerant": "60.00 USD", "per": "lb", "sealant": usd(180),
/// ...         "search_hour": "150.00 USD", "replacement": usd(9000),
/// ...         "repair": {"reachable": usd(400), "indoor_coil": usd(1800), "outdoor_unit": usd(2600)},
/// ...     },
/// ... })
/// >>> [way.forward for way in prospect.outlook(1).ranking][-1]
/// 'replace'
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Prospect(kv::Prospect);

#[pymethods]
impl Prospect {
    /// Reads a prospect from JSON text, or from dicts of that form; quantities, money, ``Prices`` and ``Chances`` stand in it
    /// as they are.
    ///
    /// Parameters
    /// ----------
    /// text : str or dict
    ///     JSON, or the dict it is read into.
    ///
    /// Returns
    /// -------
    /// Prospect
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     Not what it should be; ``error.field`` names the field.
    #[staticmethod]
    #[pyo3(signature = (text, /))]
    fn from_json(text: &Bound<'_, PyAny>) -> PyResult<Self> {
        read("a prospect", text).map(Prospect)
    }

    /// The prospect as JSON text.
    fn to_json(&self) -> PyResult<String> {
        written(&self.0)
    }

    /// What each way forward is expected to cost.
    ///
    /// Parameters
    /// ----------
    /// seed : int
    ///     For the spread, which is drawn: the same for the same seed.
    /// draws : int, optional
    ///     10,000 unless given.
    ///
    /// Returns
    /// -------
    /// Outlook
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     A prospect that cannot be.
    ///
    /// Notes
    /// -----
    /// Source: a decision tree rolled back exactly (Raiffa, 1968, from memory), its spread by JCGM 101:2008; every
    /// chance and habit is a named default. Range: 1 to 15 years, leaks up to a refill a week. Averages over what may
    /// happen, not prices.
    #[pyo3(signature = (seed, draws = None))]
    fn outlook(&self, py: Python<'_>, seed: u64, draws: Option<usize>) -> PyResult<Outlook> {
        let found = py.detach(|| match draws {
            Some(draws) => self.0.outlook_drawn(seed, draws),
            None => self.0.outlook(seed),
        });
        found.map(Outlook).map_err(raise)
    }

    /// What it rests on, each with the number of records behind it.
    #[getter]
    fn assumptions(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.assumptions(), py)
    }

    /// The leak rate at which two ways cost the same; ``None`` where one is always cheaper.
    ///
    /// Parameters
    /// ----------
    /// one, other : str
    ///     Ways forward, as ``WayOutlook.forward`` has them: ``"leak search"``.
    ///
    /// Returns
    /// -------
    /// MassFlow, or None
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     As for ``outlook``.
    /// Inconsistent
    ///     A replacement that has no price.
    /// UnknownName
    ///     Another way.
    ///
    /// Notes
    /// -----
    /// Range: from no leak to a refill a week. Accuracy: costs jump where one more visit falls within the years; of
    /// changes within a tenth of the rate one may be passed over.
    fn break_even_leak(
        &self,
        one: Choice<kv::Forward>,
        other: Choice<kv::Forward>,
    ) -> Made<Option<q::MassFlow>> {
        Made(self.0.break_even_leak(one.0, other.0))
    }

    /// The price of refrigerant at which two ways cost the same; ``None`` where one is always cheaper.
    ///
    /// Parameters
    /// ----------
    /// one, other : str
    ///     Ways forward, as ``WayOutlook.forward`` has them: ``"leak search"``.
    ///
    /// Returns
    /// -------
    /// Money, or None
    ///
    /// Raises
    /// ------
    /// OutOfRange
    ///     As for ``outlook``.
    /// Inconsistent
    ///     A replacement that has no price.
    /// UnknownName
    ///     Another way.
    ///
    /// Notes
    /// -----
    /// Range: up to twenty times today's price. Accuracy: to the cent.
    fn break_even_refrigerant(
        &self,
        one: Choice<kv::Forward>,
        other: Choice<kv::Forward>,
    ) -> PyResult<Option<Money>> {
        Ok(self.0.break_even_refrigerant(one.0, other.0).map_err(raise)?.map(Money))
    }

    /// What would change which way is the cheapest.
    ///
    /// Parameters
    /// ----------
    /// outlook : Outlook
    ///     Of this prospect.
    ///
    /// Returns
    /// -------
    /// WhatWouldChange
    ///
    /// Raises
    /// ------
    /// Inconsistent
    ///     An outlook in which fewer than two ways are ranked.
    ///
    /// Notes
    /// -----
    /// As ``break_even_leak`` and ``break_even_refrigerant``, between the cheapest and the next.
    #[pyo3(signature = (outlook, /))]
    fn what_would_change(&self, outlook: PyRef<'_, Outlook>) -> Made<kv::WhatWouldChange> {
        Made(self.0.what_would_change(&outlook.0))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((slf.get_type().getattr("from_json")?, (slf.get().to_json()?,)))
    }

    fn __repr__(&self) -> String {
        format!("<Prospect: {} years, {}>", self.0.years, self.0.charge)
    }
}

/// What each way forward is expected to cost over the years, by ``Prospect.outlook``.
#[pyclass(frozen, module = "kingvalve")]
pub struct Outlook(kv::Outlook);

#[pymethods]
impl Outlook {
    /// How many years ahead.
    #[getter]
    fn years(&self) -> u32 {
        self.0.years()
    }

    /// Every way, in one order.
    #[getter]
    fn ways(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.ways().iter().cloned(), py)
    }

    /// One way, by its name: "recharge".
    ///
    /// Parameters
    /// ----------
    /// forward : str
    ///     As ``WayOutlook.forward`` has it: ``"leak search"``.
    ///
    /// Returns
    /// -------
    /// WayOutlook
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     A way that was not looked at.
    #[pyo3(signature = (forward, /))]
    fn way(&self, forward: Choice<kv::Forward>) -> Made<kv::WayOutlook> {
        Made(self.0.way(forward.0).cloned())
    }

    /// The ways that restore cooling, cheapest first; leaving it as is among them only where lost cooling has a value.
    #[getter]
    fn ranking(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.ranking().cloned(), py)
    }

    /// What a leak search tells, and what it costs.
    #[getter]
    fn search(&self) -> Made<kv::SearchValue> {
        Made(Ok(self.0.search()))
    }

    /// What it rests on.
    #[getter]
    fn assumptions(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        listed(self.0.assumptions().iter().cloned(), py)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<Outlook: {} years, {} ways>", self.0.years(), self.0.ways().len())
    }
}

impl Shown for kv::WayOutlook {
    const CLASS: Class<Self> = Class {
        name: "WayOutlook",
        doc: "One way forward over the years, by ``Outlook.ways``.",
        fields: &[
            ("forward", "Which way: \"recharge\".", |it, py| plain(name(it.forward), py)),
            ("expected", "What it is expected to cost, in money of today.", |it, py| {
                plain(amount(it.expected), py)
            }),
            ("nine_in_ten", "Between which two it costs in nine cases of ten.", |it, py| {
                plain((Money(it.nine_in_ten.low()), Money(it.nine_in_ten.high())), py)
            }),
            ("by_year", "What it is expected to have cost by each year, today first.", |it, py| {
                plain(it.by_year.iter().map(|cost| amount(*cost)).collect::<Vec<_>>(), py)
            }),
            ("visits", "How many more visits to fill it.", |it, py| plain(it.visits, py)),
            ("energy", "What of it is the extra energy of a low charge.", |it, py| {
                plain(amount(it.energy), py)
            }),
            ("ranked", "Whether it is ranked with the others.", |it, py| plain(it.ranked, py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: None,
    };
}

impl Shown for kv::SearchValue {
    const CLASS: Class<Self> = Class {
        name: "SearchValue",
        doc: "What a leak search tells, and what it costs.",
        fields: &[
            ("information", "What knowing where the leak is saves.", |it, py| {
                plain(amount(it.information), py)
            }),
            ("cost", "What the search costs.", |it, py| plain(amount(it.cost), py)),
            ("pays", "Whether it is worth more than it costs.", |it, py| plain(it.pays(), py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::WhatWouldChange {
    const CLASS: Class<Self> = Class {
        name: "WhatWouldChange",
        doc: "What would change which way is the cheapest.",
        fields: &[
            ("between", "The cheapest and the next.", |it, py| {
                plain((name(it.between.0), name(it.between.1)), py)
            }),
            ("leak", "The leak rate at which they cost the same, where there is one.", |it, py| {
                it.leak.into_python(py)
            }),
            (
                "refrigerant",
                "The price of refrigerant at which they cost the same, where there is one.",
                |it, py| plain(it.refrigerant.map(Money), py),
            ),
            ("per", "Of what the price is: \"lb\" or \"kg\".", |it, py| {
                plain(if it.per == money::WeightUnit::Pound { "lb" } else { "kg" }, py)
            }),
        ],
        text: ToString::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}

impl Shown for kv::Assumption {
    const CLASS: Class<Self> = Class {
        name: "Assumption",
        doc: "Something an outlook rests on.",
        fields: &[
            ("what", "What it is, by name.", |it, py| plain(it.what, py)),
            ("value", "Its value, in words.", |it, py| plain(it.value(ENGLISH, money::UnitSystem::Us), py)),
            ("records", "The number of records behind it.", |it, py| plain(it.records, py)),
            ("basis", "Where it comes from.", |it, py| plain(it.rests_on(ENGLISH), py)),
        ],
        text: ToString::to_string,
        finding: None,
        same: Some(|a, b| a == b),
    };
}
