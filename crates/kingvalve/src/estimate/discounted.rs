//! What discounts leave of each line.

use super::price::sentence;
use super::rates::Discount;
use super::{DiscountLine, Line, LineKind, Money, Off, PriceRange, RateCard};
use crate::Result;

/// The discounts as printed, and what they leave of each line: the amounts that are taxed.
pub(super) fn discounted(lines: &[Line], card: &RateCard) -> Result<(Vec<DiscountLine>, Vec<PriceRange>)> {
    let mut left: Vec<PriceRange> = lines.iter().map(Line::amount).collect();
    let mut printed = Vec::new();
    for discount in &card.discounts {
        let low = take(discount, lines, &left, PriceRange::low, card)?;
        let high = take(discount, lines, &left, PriceRange::high, card)?;
        for (left, (low, high)) in left.iter_mut().zip(low.iter().zip(&high)) {
            *left = PriceRange::new(left.low().minus(*low)?, left.high().minus(*high)?)?;
        }
        let amount = PriceRange::new(Money::sum(card.currency, low)?, Money::sum(card.currency, high)?)?;
        if !amount.high().is_zero() {
            printed.push(DiscountLine {
                name: discount.name.clone(),
                amount,
                member: discount.member.clone(),
            });
        }
    }
    Ok((printed, left))
}

/// What a discount takes of each line at one end: a share of every line it is on, or an amount used up line by line.
///
/// An amount is used up by kind and then by name, whatever the order of the work: used up in one order it leaves every
/// line no less when another grows, so more work never costs less.
fn take(
    discount: &Discount,
    lines: &[Line],
    left: &[PriceRange],
    end: fn(PriceRange) -> Money,
    card: &RateCard,
) -> Result<Vec<Money>> {
    let mut rest = discount.off;
    let mut taken = vec![Money::zero(card.currency); lines.len()];
    let mut in_order: Vec<_> = lines.iter().zip(left).zip(&mut taken).collect();
    in_order.sort_by_key(|((line, _), _)| (line.kind(), line.description()));
    for ((line, left), taken) in in_order {
        let off = match on(discount, line) {
            true => rest.of(end(*left), card.rounding)?,
            false => Money::zero(card.currency),
        };
        if let Off::Amount(amount) = &mut rest {
            *amount = amount.minus(off)?;
        }
        *taken = off;
    }
    Ok(taken)
}

fn on(discount: &Discount, line: &Line) -> bool {
    discount.on.contains(&line.kind())
        || line.kind() == LineKind::Fee && discount.fees.iter().any(|fee| sentence(fee) == line.description())
}
