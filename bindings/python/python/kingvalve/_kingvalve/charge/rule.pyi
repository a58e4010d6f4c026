"""Leak rates as the regulations define them."""

from collections.abc import Sequence
from datetime import date
from typing import Final, Literal, final, overload

from ..column import Column
from ..quantity import Mass, Ratio, Time
from ..quantity.base import Errors
from ..record import Record
from ..refrigerant import Gwp

REPAIR_TIME: Time
REPAIR_TIME_WITH_SHUTDOWN: Time
CHRONIC_LEAK: Ratio

@final
class LeakThreshold(Record):
    __match_args__: Final = ("rate", "full_charge", "gwp_above", "source")
    def applies_to(self, full_charge: Mass, gwp: Gwp) -> bool: ...
    @property
    def rate(self) -> Ratio: ...
    @property
    def full_charge(self) -> Mass: ...
    @property
    def gwp_above(self) -> float | None: ...
    @property
    def source(self) -> str: ...

@overload
def annualized_leak_rate(
    added: Mass, full_charge: Mass, since_last_addition: Time, *, errors: Errors = ...
) -> Ratio: ...
@overload
def annualized_leak_rate(
    added: Column[Mass],
    full_charge: Mass | Column[Mass],
    since_last_addition: Time | Column[Time],
    *,
    errors: Errors = ...,
) -> Column[Ratio]: ...
@overload
def annualized_leak_rate(
    added: Mass, full_charge: Column[Mass], since_last_addition: Time | Column[Time], *, errors: Errors = ...
) -> Column[Ratio]: ...
@overload
def annualized_leak_rate(
    added: Mass, full_charge: Mass, since_last_addition: Column[Time], *, errors: Errors = ...
) -> Column[Ratio]: ...
def rolling_leak_rate(
    additions: Sequence[tuple[date | str, Mass]],
    today: date | str,
    full_charge: Mass,
    *,
    verified: date | str | None = None,
) -> Ratio: ...
def leak_threshold(
    rule: Literal["part82", "part84"],
    appliance: Literal["comfort_cooling", "commercial_refrigeration", "industrial_process"],
) -> LeakThreshold: ...
