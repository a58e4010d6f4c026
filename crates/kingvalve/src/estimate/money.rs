//! Money: a decimal amount and its currency.

mod text;

pub(super) use text::plain_decimal;

use rust_decimal::Decimal;

use super::rounding::{exact_product, rounded_quotient};
use super::{Currency, Rounding};
use crate::{Error, Result};

/// Amounts stay below this, so that a sum never drops a digit.
const LIMIT: Decimal = Decimal::from_parts(2_764_472_320, 232_830, 0, false, 0);
/// Decimal places an amount may carry: unit prices are often finer than the minor unit.
const MOST_PLACES: u32 = 9;

/// An amount of money: exact decimal, with its currency.
///
/// Amounts of two currencies do not add; there is no exchange rate in here. An amount may be finer than the minor unit
/// (a price per pound of 18.625 USD); [`rounded`](Self::rounded) makes it payable.
///
/// # Units
/// The currency's major unit (dollars, not cents).
///
/// # Source
/// ISO 4217 for currencies and minor units.
///
/// # Valid range
/// Below 1 000 000 000 000 000 either way, up to nine decimal places.
///
/// # Accuracy
/// Exact: sums and differences drop no digit; products are rounded once, by the rule that is named.
///
/// # Errors
/// Outside the range; two currencies in one sum.
///
/// # Example
/// ```
/// use kingvalve::estimate::{Currency, Money};
/// let pounds: Money = "174.30 USD".parse()?;
/// let labour: Money = "326.25 USD".parse()?;
/// assert_eq!(pounds.plus(labour)?.to_string(), "500.55 USD");
/// assert!(pounds.plus("1.00 CAD".parse()?).unwrap_err().is_inconsistent());
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Money {
    amount: Decimal,
    currency: Currency,
}

impl Money {
    /// An amount in a currency.
    ///
    /// # Errors
    /// 1 000 000 000 000 000 or more either way, or more than nine decimal places.
    pub fn new(amount: Decimal, currency: Currency) -> Result<Self> {
        let amount = amount.normalize();
        if amount.abs() >= LIMIT {
            let limit = format!("below {LIMIT} {currency} either way");
            return Err(Error::out_of_range(
                "amount",
                format!("{amount} {currency}"),
                limit,
                "check its digits",
            ));
        }
        if amount.scale() > MOST_PLACES {
            let limit = format!("at most {MOST_PLACES} decimal places");
            return Err(Error::out_of_range(
                "amount",
                format!("{amount} {currency}"),
                limit,
                "round it first",
            ));
        }
        Ok(Self { amount, currency })
    }

    /// Nothing, in a currency.
    pub fn zero(currency: Currency) -> Self {
        Self { amount: Decimal::ZERO, currency }
    }

    /// The decimal amount, without trailing zeros.
    pub fn amount(self) -> Decimal {
        self.amount
    }

    /// The currency.
    pub fn currency(self) -> Currency {
        self.currency
    }

    /// Whether it is less than nothing.
    pub fn is_negative(self) -> bool {
        self.amount < Decimal::ZERO
    }

    /// Whether it is nothing.
    pub fn is_zero(self) -> bool {
        self.amount.is_zero()
    }

    /// The exact sum.
    ///
    /// # Errors
    /// Two currencies; a sum out of range.
    pub fn plus(self, other: Self) -> Result<Self> {
        self.same_currency(other)?;
        Self::new(self.amount + other.amount, self.currency)
    }

    /// The exact difference.
    ///
    /// # Errors
    /// Two currencies; a difference out of range.
    pub fn minus(self, other: Self) -> Result<Self> {
        self.same_currency(other)?;
        Self::new(self.amount - other.amount, self.currency)
    }

    /// The exact sum of any number of amounts; nothing if there are none.
    ///
    /// # Errors
    /// An amount in a currency other than `currency`; a sum out of range.
    pub fn sum(currency: Currency, amounts: impl IntoIterator<Item = Self>) -> Result<Self> {
        amounts.into_iter().try_fold(Self::zero(currency), Self::plus)
    }

    /// The amount taken `factor` times, payable: rounded once to the currency's minor unit.
    ///
    /// # Units
    /// `factor` has none: a count of billed units, or a rate.
    ///
    /// # Source
    /// Definition.
    ///
    /// # Valid range
    /// Factors whose product with the amount has at most 28 digits.
    ///
    /// # Accuracy
    /// The product keeps all its digits until the one rounding.
    ///
    /// # Errors
    /// A product of more than 28 digits, or one out of range.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::{Decimal, Money, Rounding};
    /// let hour: Money = "145.00 USD".parse()?;
    /// let billed = hour.times(Decimal::new(225, 2), Rounding::HalfUp)?;
    /// assert_eq!(billed.to_string(), "326.25 USD");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn times(self, factor: Decimal, rounding: Rounding) -> Result<Self> {
        let product =
            exact_product(self.amount, factor).ok_or_else(|| self.too_long(format!("× {factor}")))?;
        Self::new(rounding.to_places(product, self.currency.minor_units()), self.currency)
    }

    /// The share `part` ÷ `whole` of the amount, payable: rounded once to the currency's minor unit.
    ///
    /// # Units
    /// `part` and `whole` have the same one, or none.
    ///
    /// # Source
    /// Definition.
    ///
    /// # Valid range
    /// A whole that is not zero.
    ///
    /// # Accuracy
    /// The remainder of an integer division decides the rounding: nothing is cut off before it.
    ///
    /// # Errors
    /// A whole of zero; more digits than fit; a result out of range.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::{Decimal, Money, Rounding};
    /// let price: Money = "100.00 AUD".parse()?; // with 10 % in it
    /// let tax = price.share(Decimal::ONE, Decimal::from(11), Rounding::HalfUp)?;
    /// assert_eq!(tax.to_string(), "9.09 AUD");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn share(self, part: Decimal, whole: Decimal, rounding: Rounding) -> Result<Self> {
        let too_long = || self.too_long(format!("× {part} ÷ {whole}"));
        let product = exact_product(self.amount, part).ok_or_else(too_long)?;
        let places = self.currency.minor_units();
        Self::new(rounded_quotient(rounding, product, whole, places).ok_or_else(too_long)?, self.currency)
    }

    fn too_long(self, times: String) -> Error {
        let limit = "at most 28 digits, and no division by zero";
        Error::out_of_range("product", format!("{} {times}", self.amount), limit, "use fewer decimal places")
    }

    /// The payable amount: a whole number of the currency's minor units, by a named rule.
    ///
    /// # Errors
    /// None in practice: rounding up at the very end of the range could leave it.
    ///
    /// # Example
    /// ```
    /// use kingvalve::estimate::{Money, Rounding};
    /// let price: Money = "18.625 USD".parse()?;
    /// assert_eq!(price.rounded(Rounding::HalfUp)?.to_string(), "18.63 USD");
    /// assert_eq!(price.rounded(Rounding::HalfEven)?.to_string(), "18.62 USD");
    /// # Ok::<(), kingvalve::Error>(())
    /// ```
    pub fn rounded(self, rounding: Rounding) -> Result<Self> {
        Self::new(rounding.to_places(self.amount, self.currency.minor_units()), self.currency)
    }

    /// Whether it is a whole number of minor units, and so can be paid.
    pub fn is_payable(self) -> bool {
        self.amount.scale() <= self.currency.minor_units()
    }

    /// Refuses two currencies.
    pub(super) fn same_currency(self, other: Self) -> Result<()> {
        if self.currency == other.currency {
            return Ok(());
        }
        let why = format!("{self} and {other} are two currencies");
        Err(Error::inconsistent("money", why, "keep one currency in an estimate"))
    }
}

impl PartialOrd for Money {
    /// By amount within one currency; amounts of two currencies have no order.
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        (self.currency == other.currency).then(|| self.amount.cmp(&other.amount))
    }
}
