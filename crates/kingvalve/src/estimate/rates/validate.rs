//! What a rate card must be before anything is priced by it.

use super::{Discount, RateCard, Uplift};
use crate::estimate::{Currency, Money, Percent};
use crate::{Error, Result};

impl RateCard {
    /// Checks what the types alone do not: prices not below nothing and in the card's currency, names that are not blank,
    /// taxes that are on something, margins below 100 %.
    ///
    /// # Errors
    /// The first fault found, with its field: `labor.technician.regular`.
    pub fn validate(&self) -> Result<()> {
        named(&self.shop).map_err(|error| error.in_field("shop"))?;
        for (role, bands) in &self.labor {
            prices(bands, self.currency).map_err(|error| error.in_field(role).in_field("labor"))?;
        }
        prices(&self.fees, self.currency).map_err(|error| error.in_field("fees"))?;
        prices(&self.materials, self.currency).map_err(|error| error.in_field("materials"))?;
        self.validate_refrigerants()?;
        self.validate_replacements()?;
        self.validate_uplift()?;
        self.validate_taxes()?;
        self.validate_discounts()?;
        self.deposit
            .map_or(Ok(()), |deposit| deposit.validate(self.currency))
            .map_err(|error| error.in_field("deposit"))
    }

    fn validate_discounts(&self) -> Result<()> {
        let check = |discounts: &[Discount]| {
            discounts.iter().enumerate().try_for_each(|(index, discount)| {
                self.validate_discount(discount).map_err(|error| error.in_field(format!("[{index}]")))
            })
        };
        check(&self.discounts).map_err(|error| error.in_field("discounts"))?;
        self.memberships.iter().try_for_each(|(name, membership)| {
            check(&membership.discounts)
                .map_err(|error| error.in_field("discounts"))
                .and_then(|()| {
                    let known = |fee: &String| self.fee(fee).map(drop);
                    membership
                        .waived_fees
                        .iter()
                        .try_for_each(known)
                        .map_err(|error| error.in_field("waived_fees"))
                })
                .map_err(|error| error.in_field(name).in_field("memberships"))
        })
    }

    fn validate_discount(&self, discount: &Discount) -> Result<()> {
        named(&discount.name).map_err(|error| error.in_field("name"))?;
        discount.off.validate(self.currency).map_err(|error| error.in_field("off"))?;
        if discount.on.is_empty() && discount.fees.is_empty() {
            let advice = "name kinds of line or fees, or leave the discount out";
            return Err(Error::inconsistent("discount", "it is on nothing", advice).in_field("on"));
        }
        discount
            .fees
            .iter()
            .try_for_each(|fee| self.fee(fee).map(drop))
            .map_err(|error| error.in_field("fees"))
    }

    fn validate_refrigerants(&self) -> Result<()> {
        self.refrigerants.iter().try_for_each(|(designation, rate)| {
            named(designation)
                .and_then(|()| price(rate.price, self.currency).map_err(|error| error.in_field("price")))
                .map_err(|error| error.in_field(designation).in_field("refrigerants"))
        })
    }

    fn validate_replacements(&self) -> Result<()> {
        self.replacements.iter().try_for_each(|(name, range)| {
            named(name)
                .and_then(|()| price(range.low(), self.currency).map_err(|error| error.in_field("low")))
                .map_err(|error| error.in_field(name).in_field("replacements"))
        })
    }

    fn validate_uplift(&self) -> Result<()> {
        let hundred = Percent::new(rust_decimal::Decimal::ONE_HUNDRED)?;
        self.uplift.iter().try_for_each(|(kind, uplift)| match uplift {
            Uplift::Margin(margin) if *margin >= hundred => {
                let advice = "a margin is a share of the price; give a markup if it is a share of the cost";
                let error = Error::out_of_range("margin", margin, "below 100 %", advice);
                Err(error.in_field("margin").in_field(kind).in_field("uplift"))
            }
            _ => Ok(()),
        })
    }

    fn validate_taxes(&self) -> Result<()> {
        self.taxes.iter().enumerate().try_for_each(|(index, tax)| {
            let on_something = || match tax.on.is_empty() {
                false => Ok(()),
                true => Err(Error::inconsistent(
                    "tax",
                    "it is on no kind of line",
                    "name the kinds, or leave the tax out",
                )
                .in_field("on")),
            };
            named(&tax.name)
                .map_err(|error| error.in_field("name"))
                .and_then(|()| on_something())
                .map_err(|error| error.in_field(format!("[{index}]")).in_field("taxes"))
        })
    }
}

fn prices<'a>(entries: impl IntoIterator<Item = (&'a String, &'a Money)>, currency: Currency) -> Result<()> {
    entries.into_iter().try_for_each(|(name, amount)| {
        named(name).and_then(|()| price(*amount, currency)).map_err(|error| error.in_field(name))
    })
}

pub(super) fn price(amount: Money, currency: Currency) -> Result<()> {
    if amount.currency() != currency {
        let why = format!("{amount} is not in the card's currency {currency}");
        return Err(Error::inconsistent("price", why, "keep one currency on a card"));
    }
    if amount.is_negative() {
        return Err(Error::out_of_range("price", amount, "not below nothing", "leave credits off the card"));
    }
    Ok(())
}

fn named(name: &str) -> Result<()> {
    if name.trim().is_empty() {
        return Err(Error::unreadable("a name", name, "give it one"));
    }
    Ok(())
}
