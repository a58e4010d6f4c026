#!/usr/bin/env python3
"""Writes estimate_rounding.csv: products and shares of money, rounded by Python's decimal module.

    python3 tests/reference/scripts/estimate_rounding.py > tests/reference/estimate_rounding.csv
"""
import decimal
import platform
from decimal import Decimal as D

RULES = {
    "half_up": decimal.ROUND_HALF_UP,
    "half_down": decimal.ROUND_HALF_DOWN,
    "half_even": decimal.ROUND_HALF_EVEN,
    "up": decimal.ROUND_UP,
    "down": decimal.ROUND_DOWN,
}
# (currency, its minor units, amount, part, whole): the amount · part ÷ whole is rounded.
CASES = [
    ("USD", 2, "145.00", "2.25", "1"),
    ("USD", 2, "145.00", "0.25", "1"),
    ("USD", 2, "18.625", "1", "1"),
    ("USD", 2, "18.615", "1", "1"),
    ("USD", 2, "-18.625", "1", "1"),
    ("USD", 2, "-18.6249", "1", "1"),
    ("USD", 2, "0.005", "1", "1"),
    ("USD", 2, "0.015", "1", "1"),
    ("USD", 2, "0.004999999", "1", "1"),
    ("USD", 2, "0.005000001", "1", "1"),
    ("USD", 2, "58.40", "6.3", "1"),
    ("USD", 2, "41.873", "7.25", "1"),
    ("USD", 2, "617.39", "0.0825", "1"),
    ("USD", 2, "100.00", "0.09975", "1"),
    ("USD", 2, "100.20", "0.0725", "1"),
    ("USD", 2, "999999999999.99", "0.08875", "1"),
    ("JPY", 0, "12345", "0.1", "1"),
    ("JPY", 0, "12350", "0.05", "1"),
    ("KWD", 3, "7.1235", "1", "1"),
    ("CLF", 4, "3.00005", "3", "1"),
    ("AUD", 2, "100.00", "1", "11"),
    ("AUD", 2, "0.055", "1", "11"),
    ("GBP", 2, "845.85", "0.2", "1.2"),
    ("GBP", 2, "0.03", "0.2", "1.2"),
    ("GBP", 2, "0.09", "0.2", "1.2"),
    ("USD", 2, "48.00", "1", "0.8"),
    ("USD", 2, "37.77", "1", "0.65"),
    ("USD", 2, "-37.77", "1", "0.65"),
]


def main() -> None:
    source = f"Python {'.'.join(platform.python_version_tuple()[:2])} decimal"
    print("# Money times a factor, or a share of it, made payable by each rule.")
    print("# exp_amount = round(in_amount * in_part / in_whole) to the currency's minor unit; exact text match.")
    print("case,in_currency,in_amount,in_part,in_whole,in_rule,exp_amount,source,mark")
    decimal.getcontext().prec = 60
    for number, (currency, places, amount, part, whole) in enumerate(CASES, 1):
        for rule, rounding in RULES.items():
            value = (D(amount) * D(part) / D(whole)).quantize(D(1).scaleb(-places), rounding=rounding)
            text = f"{value + 0:f}"
            print(f"round_{number:02}_{rule},{currency},{amount},{part},{whole},{rule},{text},{source},reference library")


if __name__ == "__main__":
    main()
