//! What a shop charges, what could be done, and what each way costs.

use kingvalve::estimate as kv;
use kingvalve::measure::Interval;
use pyo3::prelude::*;

use super::Money;
use crate::error::raise;
use crate::quantity::Mass;
use crate::visit::json_text;

/// What a shop charges: labour, fees, refrigerants, materials, replacements, uplift, taxes and rounding.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct RateCard(pub(super) kv::RateCard);

#[pymethods]
impl RateCard {
    /// Reads a card from JSON text, or from dicts and lists of that form.
    ///
    /// Parameters
    /// ----------
    /// text : str or dict
    ///     JSON, or the dict it is read into.
    ///
    /// Returns
    /// -------
    /// RateCard
    ///
    /// Raises
    /// ------
    /// Unreadable
    ///     Not what it should be; ``error.field`` names the field.
    ///
    /// Examples
    /// --------
    /// >>> card = kv.RateCard.from_json(kv.demo().record["rates"])
    /// >>> print(card.labor_rate("technician", "regular"))
    /// 145.00 USD
    #[staticmethod]
    #[pyo3(signature = (text, /))]
    fn from_json(text: &Bound<'_, PyAny>) -> PyResult<Self> {
        kv::RateCard::from_json(&json_text(text)?).map(RateCard).map_err(raise)
    }

    /// The card as JSON text.
    fn to_json(&self) -> PyResult<String> {
        self.0.to_json().map_err(raise)
    }

    /// The shop's name.
    #[getter]
    fn shop(&self) -> &str {
        &self.0.shop
    }

    /// The code of the currency: "USD".
    #[getter]
    fn currency(&self) -> &'static str {
        self.0.currency.code()
    }

    /// What an hour of a role costs in a band: ("technician", "regular").
    ///
    /// Parameters
    /// ----------
    /// role : str
    ///     As the card has it.
    /// band : str
    ///     As the card has it.
    ///
    /// Returns
    /// -------
    /// Money
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     A role or band the card does not have.
    fn labor_rate(&self, role: &str, band: &str) -> PyResult<Money> {
        self.0.labor_rate(role, band).map(Money).map_err(raise)
    }

    /// A fee by its name.
    ///
    /// Parameters
    /// ----------
    /// name : str
    ///     As the card has it.
    ///
    /// Returns
    /// -------
    /// Money
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     A fee the card does not have.
    fn fee(&self, name: &str) -> PyResult<Money> {
        self.0.fee(name).map(Money).map_err(raise)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((slf.get_type().getattr("from_json")?, (slf.get().to_json()?,)))
    }

    fn __repr__(&self) -> String {
        format!("<RateCard: {}, {}>", self.0.shop, self.0.currency)
    }
}

/// A system short of refrigerant: what is missing, between two masses, and what could replace the equipment.
#[pyclass(frozen, module = "kingvalve")]
pub struct Situation(pub(super) kv::Situation);

#[pymethods]
impl Situation {
    #[new]
    #[pyo3(signature = (refrigerant, missing_low, missing_high, *, replacement = None))]
    fn new(
        refrigerant: String,
        missing_low: Mass,
        missing_high: Mass,
        replacement: Option<String>,
    ) -> PyResult<Self> {
        let missing = Interval::new(missing_low.0, missing_high.0).map_err(raise)?;
        let mut situation = kv::Situation::new(refrigerant, missing);
        situation.replacement = replacement;
        Ok(Situation(situation))
    }

    /// The ways forward the library knows: recharge, recharge with sealant and dye, leak search, replace, leave as is.
    fn ways(&self) -> Vec<Way> {
        self.0.ways().into_iter().map(Way).collect()
    }

    fn __repr__(&self) -> String {
        format!("<Situation: {} short of {}>", self.0.missing, self.0.refrigerant)
    }
}

/// One way forward: its work by the names of the rate card, and what is said of it.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct Way(kv::Way);

#[pymethods]
impl Way {
    /// What programs call it.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }

    /// What the customer reads.
    #[getter]
    fn title(&self) -> &str {
        &self.0.title
    }

    /// Its price by a rate card.
    ///
    /// Parameters
    /// ----------
    /// card : RateCard
    ///     What the shop charges.
    ///
    /// Returns
    /// -------
    /// PricedWay
    ///
    /// Raises
    /// ------
    /// UnknownName
    ///     A name the card does not have.
    /// OutOfRange
    ///     A quantity or an amount out of range.
    ///
    /// Notes
    /// -----
    /// Accuracy: decimal from the billed quantity on. The low end has every quantity at its least, the high end at its
    /// most: a sum of extremes, not a likelihood.
    ///
    /// Examples
    /// --------
    /// >>> card = kv.RateCard.from_json(kv.demo().record["rates"])
    /// >>> recharge = kv.Situation("R-454B", kv.pounds(5.5), kv.pounds(6.8)).ways()[1].price(card)
    /// >>> print(recharge.title, *recharge.total)
    /// Recharge 659.72 USD 904.47 USD
    #[pyo3(signature = (card, /))]
    fn price(&self, card: PyRef<'_, RateCard>) -> PyResult<PricedWay> {
        self.0.price(&card.0).map(PricedWay).map_err(raise)
    }

    fn __repr__(&self) -> String {
        format!("<Way: {}>", self.0.title)
    }
}

/// A way forward with its price: the lines, the taxes, and a total that is their sum to the cent.
#[pyclass(frozen, eq, module = "kingvalve")]
#[derive(PartialEq)]
pub struct PricedWay(pub kv::PricedWay);

#[pymethods]
impl PricedWay {
    /// What programs call it.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }

    /// What the customer reads.
    #[getter]
    fn title(&self) -> &str {
        self.0.title()
    }

    /// Each line: its description, its low and its high amount.
    #[getter]
    fn lines(&self) -> Vec<(String, Money, Money)> {
        let lines = self.0.lines().iter().map(|line| {
            (line.description().to_owned(), Money(line.amount().low()), Money(line.amount().high()))
        });
        lines.collect()
    }

    /// Each tax: its name, its low and its high amount.
    #[getter]
    fn taxes(&self) -> Vec<(String, Money, Money)> {
        let taxes = self.0.taxes().iter();
        taxes.map(|tax| (tax.name.clone(), Money(tax.amount.low()), Money(tax.amount.high()))).collect()
    }

    /// The low and the high end of the total.
    #[getter]
    fn total(&self) -> (Money, Money) {
        (Money(self.0.total().low()), Money(self.0.total().high()))
    }

    /// What it will not exceed without another signature.
    #[getter]
    fn not_to_exceed(&self) -> Money {
        Money(self.0.not_to_exceed())
    }

    /// What is said of it: what it includes, what it does not fix, what is uncertain, cautions.
    #[getter]
    fn words<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        let words = self.0.words();
        let said = pyo3::types::PyDict::new(py);
        said.set_item("includes", &words.includes)?;
        said.set_item("does_not_fix", &words.does_not_fix)?;
        said.set_item("uncertain", &words.uncertain)?;
        said.set_item("cautions", &words.cautions)?;
        Ok(said.into_any())
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        slf.py().import("kingvalve._html")?.call_method1("way", (slf,))
    }

    fn __repr__(&self) -> String {
        format!("<PricedWay: {}, {}>", self.0.title(), self.0.total())
    }
}
