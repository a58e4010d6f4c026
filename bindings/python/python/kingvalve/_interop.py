"""Quantities of other libraries, by what they can do rather than by what they are: nothing is imported to read one."""

from __future__ import annotations

from typing import Any

from ._errors import WrongKind

# Class → the word of its SI base unit, and how pint and astropy spell that unit.
_SI = {
    "Pressure": ("pascals", "Pa"),
    "GaugePressure": ("pascals_gauge", "Pa"),
    "PressureDifference": ("delta_pascals", "Pa"),
    "Temperature": ("kelvins", "K"),
    "TemperatureDifference": ("delta_kelvins", "K"),
    "Mass": ("kilograms", "kg"),
    "Length": ("meters", "m"),
    "Area": ("square_meters", "m**2"),
    "Volume": ("cubic_meters", "m**3"),
    "Density": ("kilograms_per_cubic_meter", "kg/m**3"),
    "SpecificVolume": ("cubic_meters_per_kilogram", "m**3/kg"),
    "HumidityRatio": ("kilograms_per_kilogram", ""),
    "Time": ("seconds", "s"),
    "VolumeFlow": ("cubic_meters_per_second", "m**3/s"),
    "MassFlow": ("kilograms_per_second", "kg/s"),
    "Throughput": ("pascal_cubic_meters_per_second", "Pa*m**3/s"),
    "Viscosity": ("pascal_seconds", "Pa*s"),
    "Velocity": ("meters_per_second", "m/s"),
    "Energy": ("joules", "J"),
    "Power": ("watts", "W"),
    "SpecificEnergy": ("joules_per_kilogram", "J/kg"),
    "SpecificEntropy": ("joules_per_kilogram_kelvin", "J/(kg*K)"),
    "ElectricPotential": ("volts", "V"),
    "Current": ("amperes", "A"),
    "Resistance": ("ohms", "ohm"),
    "Capacitance": ("farads", "F"),
    "Frequency": ("hertz", "Hz"),
    "Ratio": ("fraction", ""),
}
# Astropy turns degrees into kelvins only when asked by an equivalency; their names are enough here.
_DEGREES = {"deg_C": "celsius", "deg_F": "fahrenheit"}


def read(quantity: Any, kind: str) -> Any:
    """Our quantity of that kind, or a column of it, from one of another library."""
    import kingvalve as kv

    word, unit = _SI[kind]
    if hasattr(quantity, "magnitude") and hasattr(quantity, "units"):
        number = _converted(quantity, unit, kind).magnitude
    elif hasattr(quantity, "value") and hasattr(quantity, "unit"):
        degrees = _DEGREES.get(str(quantity.unit))
        if kind == "Temperature" and degrees is not None:
            return getattr(kv, degrees)(quantity.value)
        number = _converted(quantity, unit, kind).value
    else:
        raise WrongKind(
            f"expected a quantity with `magnitude` and `units` or with `value` and `unit`, got {type(quantity).__name__}"
        )
    return getattr(kv, word)(number)


def _converted(quantity: Any, unit: str, kind: str) -> Any:
    try:
        return quantity.to(unit)
    except Exception as failure:  # each library raises its own
        raise WrongKind(f"{quantity} is no {kind}: {failure}") from failure


def to_pint(base: float, kind: str, registry: Any) -> Any:
    """A pint quantity in the SI base unit."""
    if registry is None:
        import pint

        registry = pint.get_application_registry()
    unit = _SI[kind][1]
    if kind == "TemperatureDifference":
        unit = "delta_degC"
    return registry.Quantity(base, unit)
