"""Writes tests/reference/units_pint.csv: conversion factors by the Python package pint.

Run: python tests/reference/scripts/units_pint.py > tests/reference/units_pint.csv
"""

import pint

# (quantity, unit as kingvalve names them, the same for pint)
UNITS = [
    ("absolute pressure", "psia", "psi"),
    ("absolute pressure", "hPa", "hPa"),
    ("absolute pressure", "atm", "atm"),
    ("absolute pressure", "inHg", "inHg"),
    ("absolute pressure", "mmHg", "mmHg"),
    ("absolute pressure", "Torr", "torr"),
    ("pressure difference", "inH2O", "inH2O"),
    ("pressure difference", "psi", "psi"),
    ("gauge pressure", "psig", "psi"),
    ("mass", "lb", "lb"),
    ("mass", "oz", "oz"),
    ("mass", "gr", "grain"),
    ("mass", "t", "metric_ton"),
    ("length", "ft", "ft"),
    ("length", "in", "inch"),
    ("area", "ft²", "ft**2"),
    ("area", "in²", "inch**2"),
    ("area", "cmil", "circular_mil"),
    ("volume", "ft³", "ft**3"),
    ("volume", "in³", "inch**3"),
    ("volume", "gal", "gallon"),
    ("volume", "fl oz", "fluid_ounce"),
    ("volume", "L", "liter"),
    ("density", "lb/ft³", "lb/ft**3"),
    ("density", "g/cm³", "g/cm**3"),
    ("time", "h", "hour"),
    ("time", "d", "day"),
    ("volume flow", "cfm", "ft**3/minute"),
    ("volume flow", "gpm", "gallon/minute"),
    ("volume flow", "m³/h", "m**3/hour"),
    ("volume flow", "L/min", "liter/minute"),
    ("mass flow", "lb/h", "lb/hour"),
    ("mass flow", "lb/min", "lb/minute"),
    ("mass flow", "kg/h", "kg/hour"),
    ("velocity", "ft/min", "ft/minute"),
    ("velocity", "ft/s", "ft/s"),
    ("energy", "kWh", "kWh"),
    ("power", "hp", "hp"),
    ("temperature difference", "Δ°F", "delta_degF"),
    ("temperature difference", "Δ°C", "delta_degC"),
    ("voltage", "mV", "mV"),
    ("resistance", "MΩ", "Mohm"),
    ("capacitance", "µF", "uF"),
    ("frequency", "kHz", "kHz"),
    ("ratio", "%", "percent"),
    ("ratio", "ppm", "ppm"),
]


def main():
    registry = pint.UnitRegistry()
    print("# Conversion factors to SI base units by the Python package pint")
    print(
        "# Columns: case; in_quantity and in_unit as kingvalve names them; in_pint as pint does; "
        "exp_factor in SI base units."
    )
    print("case,in_quantity,in_unit,in_pint,exp_factor,tol_abs,tol_rel,source,mark")
    for quantity, symbol, expression in UNITS:
        factor = registry.Quantity(1, expression).to_base_units().magnitude
        case = f"{quantity} {symbol}"
        print(f"{case},{quantity},{symbol},{expression},{factor!r},,2e-15,pint {pint.__version__},published")


main()
