"""Every listed refrigerant held to CoolProp and teqp, which evaluate and solve the same published models.

`PROPERTY_GRID` names the file `property_grid` wrote; `make test` sets it.
"""

import os

import pytest
from compare import (
    ALPHA_LIMIT,
    CANCELLING,
    GAS_CONSTANT_OF_THE_PAPER,
    PRESSURE_LIMIT,
    from_coolprop,
    from_teqp,
    grid,
)

# CoolProp 8.0.0 lacks R-1132a.
NOT_IN_COOLPROP = {"R-1132a", "R-467A", "R-468A", "R-468B", "R-468C", "R-473A"}
# Relative, of every pressure: ours over CoolProp's and teqp's gas constant, 1.
BY_GAS_CONSTANT = {"R-717": 3.5e-7, "R-1234ze(E)": 1.3e-6}
# Close to a split into two liquids or to a cold end CoolProp's flash loses digits that teqp keeps.
COOLPROP_SATURATION_LIMIT = 1e-5

REFRIGERANTS = grid(os.environ["PROPERTY_GRID"])
every_refrigerant = pytest.mark.parametrize("r", REFRIGERANTS, ids=lambda r: r["designation"])


def hold(r, found, saturation_limit):
    name = r["designation"]
    assert found.alpha <= CANCELLING.get(name, ALPHA_LIMIT)
    pressure_limit = BY_GAS_CONSTANT.get(name, PRESSURE_LIMIT)
    assert found.pressure <= pressure_limit
    assert found.saturation is None or found.saturation <= max(pressure_limit, saturation_limit)
    if name in GAS_CONSTANT_OF_THE_PAPER:
        assert found.pressure > 0.9 * pressure_limit, "the difference listed is no longer there: take it off the list"


@every_refrigerant
def test_against_teqp(r):
    found = from_teqp(r)
    assert found.solved == len(r["bubble"]) + len(r["dew"])
    hold(r, found, PRESSURE_LIMIT)
    assert found.lowest_trial > -1e-6, "another liquid lies below these two phases"


@every_refrigerant
def test_against_coolprop(r):
    found = from_coolprop(r)
    if found is None:
        assert r["designation"] in NOT_IN_COOLPROP
        return
    hold(r, found, COOLPROP_SATURATION_LIMIT)
    # Where its flash fails or goes astray, teqp has solved the same states in the other test.
    states = len(r["bubble"]) + len(r["dew"])
    assert len(found.failed) + len(found.wrong) <= max(2, states // 5), (found.failed, found.wrong)


def test_the_whole_list_is_there():
    blends = [r for r in REFRIGERANTS if len(r["components"]) > 1]
    assert len(REFRIGERANTS) - len(blends) >= 45
    assert len(blends) >= 130
