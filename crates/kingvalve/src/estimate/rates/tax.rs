//! Taxes by kind of line.

use std::collections::BTreeSet;

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use crate::Result;
use crate::estimate::{Currency, LineKind, Money, Percent, Rounding};

/// A tax: its rate, the kinds of line it is on, and how it is rounded.
///
/// The library knows no tax law: which lines are taxed, at what rate and how a cent is rounded is the shop's statement.
///
/// # Units
/// Percent of the taxed amount, or of the amount before tax where prices include it.
///
/// # Source
/// tax = amount · rate; contained tax = amount · rate ÷ (1 + rate). Rounding per line or per invoice as in
/// Streamlined Sales and Use Tax Agreement § 324 and A New Tax System (Goods and Services Tax) Act 1999 (Australia) s 9-90.
///
/// # Valid range
/// As for [`Percent`].
///
/// # Accuracy
/// Exact before the one rounding.
///
/// # Errors
/// Amounts in two currencies; a tax out of range.
///
/// # Example
/// ```
/// use kingvalve::estimate::{Currency, LineKind, Money, Rounding, Tax, TaxBasis};
/// let tax = Tax {
///     name: "Sales tax".into(),
///     jurisdiction: None,
///     rate: "5 %".parse()?,
///     on: [LineKind::Material].into(),
///     rounding: Rounding::HalfUp,
///     basis: TaxBasis::Invoice,
///     included: false,
/// };
/// let amounts: [Money; 2] = ["1.83 CAD".parse()?, "2.86 CAD".parse()?];
/// assert_eq!(tax.amount(Currency::CAD, amounts)?.to_string(), "0.23 CAD");
/// # Ok::<(), kingvalve::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Tax {
    /// What it is called on the sheet.
    pub name: String,
    /// Who levies it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jurisdiction: Option<String>,
    /// Its rate.
    pub rate: Percent,
    /// The kinds of line it is on.
    pub on: BTreeSet<LineKind>,
    /// How it is made payable.
    pub rounding: Rounding,
    /// What is rounded: the tax of each line, or the tax of all of them.
    pub basis: TaxBasis,
    /// Whether the prices contain it already; it is then shown and not added.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub included: bool,
}

/// What a tax is rounded on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TaxBasis {
    /// The tax of each line is made payable, then added up.
    Line,
    /// The taxed lines are added up, then the tax of the sum is made payable.
    Invoice,
}

impl Tax {
    /// The tax on, or in, the amounts of the lines it applies to.
    ///
    /// # Errors
    /// An amount in a currency other than `currency`; a tax out of range.
    pub fn amount(&self, currency: Currency, taxed: impl IntoIterator<Item = Money>) -> Result<Money> {
        match self.basis {
            TaxBasis::Invoice => self.of(Money::sum(currency, taxed)?),
            TaxBasis::Line => {
                taxed.into_iter().try_fold(Money::zero(currency), |sum, line| sum.plus(self.of(line)?))
            }
        }
    }

    fn of(&self, taxed: Money) -> Result<Money> {
        let rate = self.rate.fraction();
        if self.included {
            taxed.share(rate, Decimal::ONE + rate, self.rounding)
        } else {
            taxed.times(rate, self.rounding)
        }
    }
}
