"""Bubble and dew points against CoolProp and teqp, which evaluate and solve the same published models.

Same models, so far closer than the 1e-4 that is promised: fitted curves, solvers and roundings are all that differ.
"""

import pytest
from conftest import relative
from reference import FLUIDS, reference

import kingvalve as kv

TOLERANCE = 1e-8
SKIPPED_AT_MOST = 2  # of 24 temperatures on a line: states at which CoolProp's mixture flash fails

every_fluid = pytest.mark.parametrize("name", FLUIDS)
every_line = pytest.mark.parametrize("line", ["bubble", "dew"])


def ours(name, line):
    r = kv.Refrigerant(name)
    pressure, density = getattr(r, f"{line}_pressure"), getattr(r, f"{line}_density")
    return lambda t: (pressure(kv.kelvins(t)).pascals, density(kv.kelvins(t)).kilograms_per_cubic_meter)


def worst(found, wanted):
    """The largest relative difference, in pressure and in density."""
    rows = list(zip(found, wanted, strict=True))
    return tuple(max(relative(a[column], b[column]) for a, b in rows) for column in (0, 1))


@every_line
@every_fluid
def test_against_teqp(name, line, tell):
    other = reference(name)
    temperatures = other.temperatures()
    wanted = other.teqp_saturation(temperatures, {"bubble": 0, "dew": 1}[line])
    found = [ours(name, line)(t) for t in temperatures]
    pressure, density = worst(found, wanted)
    tell(f"{name} {line}, teqp: {len(found)} temperatures, worst p {pressure:.0e}, worst density {density:.0e}")
    assert len(found) >= 20
    assert pressure < TOLERANCE
    assert density < TOLERANCE


@every_line
@every_fluid
def test_against_coolprop(name, line, tell):
    other = reference(name)
    found, wanted, skipped = [], [], []
    for t in other.temperatures():
        try:
            wanted.append(other.coolprop_saturation(t, {"bubble": 0, "dew": 1}[line]))
        except ValueError as why:  # the same states are compared with teqp above
            skipped.append(f"{t:.1f} K ({str(why)[:30]}…)")
            continue
        found.append(ours(name, line)(t))
    pressure, density = worst(found, wanted)
    tell(f"{name} {line}, CoolProp: {len(found)} temperatures, worst p {pressure:.0e}, worst density {density:.0e}")
    if skipped:
        tell(f"    {len(skipped)} skipped where CoolProp fails (teqp has them): {', '.join(skipped)}")
    assert len(skipped) <= SKIPPED_AT_MOST
    assert len(found) >= 20
    assert pressure < TOLERANCE
    assert density < TOLERANCE


@every_line
@every_fluid
def test_temperature_by_pressure(name, line):
    """At the pressure teqp has at a temperature we have that temperature, within a millikelvin."""
    other = reference(name)
    temperatures = other.temperatures()
    back = getattr(kv.Refrigerant(name), f"{line}_temperature")
    for t, (p, _) in zip(
        temperatures, other.teqp_saturation(temperatures, {"bubble": 0, "dew": 1}[line]), strict=True
    ):
        assert abs(back(kv.pascals(p)).kelvins - t) < 1e-3
