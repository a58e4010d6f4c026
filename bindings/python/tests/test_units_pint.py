"""Every conversion factor against pint's."""

import pint
import pytest
from conftest import words

import kingvalve as kv

ureg = pint.UnitRegistry()

# Our word → pint's unit, where pint does not know the word. Conventional mercury and water, as pint has them.
# A year is 365 days here (NIST SP 811) and 365.25 in pint, so it is spelt out.
PINT = {
    "psia": "psi",
    "psig": "psi",
    "hectopascals": "hPa",
    "inches_of_mercury": "inHg",
    "delta_inches_of_mercury": "inHg",
    "inches_of_mercury_vacuum": "inHg",
    "inches_of_water": "2.54 cmH2O",
    "millimeters_of_mercury": "mmHg",
    "microns": "1e-3 mmHg",
    "delta_microns": "1e-3 mmHg",
    "delta_pascals": "Pa",
    "delta_kilopascals": "kPa",
    "delta_bars": "bar",
    "delta_millibars": "mbar",
    "pascals_gauge": "Pa",
    "kilopascals_gauge": "kPa",
    "megapascals_gauge": "MPa",
    "bars_gauge": "bar",
    "delta_fahrenheit": "delta_degree_Fahrenheit",
    "delta_celsius": "delta_degree_Celsius",
    "delta_kelvins": "kelvin",
    "rankine": "degree_Rankine",
    "square_feet": "foot ** 2",
    "square_inches": "inch ** 2",
    "square_meters": "meter ** 2",
    "square_centimeters": "cm ** 2",
    "square_millimeters": "mm ** 2",
    "cubic_feet": "foot ** 3",
    "cubic_inches": "inch ** 3",
    "cubic_meters": "meter ** 3",
    "pounds_per_cubic_foot": "pound / foot ** 3",
    "kilograms_per_cubic_meter": "kg / m ** 3",
    "grams_per_cubic_centimeter": "g / cm ** 3",
    "years": "365 day",
    "cubic_feet_per_minute": "foot ** 3 / minute",
    "gallons_per_minute": "gallon / minute",
    "cubic_meters_per_second": "m ** 3 / s",
    "cubic_meters_per_hour": "m ** 3 / hour",
    "liters_per_second": "liter / s",
    "liters_per_minute": "liter / minute",
    "pounds_per_hour": "pound / hour",
    "pounds_per_minute": "pound / minute",
    "pounds_per_year": "pound / (365 day)",
    "ounces_per_year": "ounce / (365 day)",
    "kilograms_per_second": "kg / s",
    "kilograms_per_hour": "kg / hour",
    "kilograms_per_year": "kg / (365 day)",
    "grams_per_second": "g / s",
    "grams_per_year": "g / (365 day)",
    "feet_per_minute": "foot / minute",
    "feet_per_second": "foot / s",
    "meters_per_second": "m / s",
    "btu": "Btu_it",
    "watt_hours": "watt * hour",
    "kilowatt_hours": "kilowatt * hour",
    "btu_per_hour": "Btu_it / hour",
    "tons_of_refrigeration": "12000 Btu_it / hour",
    "btu_per_pound": "Btu_it / pound",
    "joules_per_kilogram": "J / kg",
    "kilojoules_per_kilogram": "kJ / kg",
    "btu_per_pound_fahrenheit": "Btu_it / pound / delta_degree_Fahrenheit",
    "joules_per_kilogram_kelvin": "J / kg / kelvin",
    "kilojoules_per_kilogram_kelvin": "kJ / kg / kelvin",
    "cubic_feet_per_pound": "foot ** 3 / pound",
    "cubic_meters_per_kilogram": "m ** 3 / kg",
    "grains_per_pound": "grain / pound",
    "pounds_per_pound": "pound / pound",
    "kilograms_per_kilogram": "kg / kg",
    "grams_per_kilogram": "g / kg",
    "pascal_cubic_meters_per_second": "Pa * m ** 3 / s",
    "millibar_liters_per_second": "mbar * liter / s",
    "atmosphere_cubic_centimeters_per_second": "atm * cm ** 3 / s",
    "torr_liters_per_second": "torr * liter / s",
    "micron_liters_per_hour": "1e-3 mmHg * liter / hour",
    "micropascal_seconds": "µPa * s",
    "pascal_seconds": "Pa * s",
    "pounds_per_foot_hour": "pound / foot / hour",
    "centipoises": "centipoise",
    "kilohms": "kiloohm",
    "megohms": "megaohm",
    "gigohms": "gigaohm",
    "fraction": "dimensionless",
    "parts_per_million": "ppm",
}
OFFSET = {"fahrenheit": "degree_Fahrenheit", "celsius": "degree_Celsius"}


def base(quantity):
    """The word whose unit is SI's own, and how many of it."""
    for symbol, word in type(quantity).units().items():
        if word not in OFFSET and abs(ureg.Quantity(PINT.get(word, word)).to_base_units().magnitude - 1) < 1e-15:
            return word, quantity.to(symbol)
    raise AssertionError(f"{quantity} has no SI unit")


@pytest.mark.parametrize("word", [word for _, _, word in words() if word not in OFFSET])
def test_factor(word):
    sign = -1 if word == "inches_of_mercury_vacuum" else 1
    unit, ours = base(getattr(kv, word)(sign * 12.5))
    theirs = (12.5 * ureg.Quantity(PINT.get(word, word))).to(PINT.get(unit, unit)).magnitude
    # pint rounds the International Table Btu to 1055.056 J; the definition is 2326 J/kg · 1 lb.
    tolerance = 2e-7 if "Btu" in PINT.get(word, "") else 1e-13
    assert ours == pytest.approx(theirs, rel=tolerance)


@pytest.mark.parametrize("word", OFFSET)
@pytest.mark.parametrize("degrees", [-459.0, -40.0, 0.0, 32.0, 88.0, 212.0])
def test_temperature(word, degrees):
    if word == "celsius" and degrees < -273:
        degrees = -273.0
    theirs = ureg.Quantity(degrees, OFFSET[word]).to("kelvin").magnitude
    assert getattr(kv, word)(degrees).kelvins == pytest.approx(theirs, abs=1e-12, rel=1e-14)
