"""The supply: its sag and its unbalance."""

from typing import Final, final, overload

from kingvalve.check import Finding

from ..column import Column
from ..measure import Given, Measured, Verdict
from ..quantity import ElectricPotential, Ratio
from ..quantity.base import Errors
from ..record import Record
from .capacitor import Tolerance

RUNNING_SAG: Ratio
STARTING_SAG: Ratio
UNBALANCE_LIMIT: Ratio
UNBALANCE_STOP: Ratio

@final
class Supply:
    @staticmethod
    def rated(voltage: ElectricPotential, /) -> Supply: ...
    def within(self, band: Tolerance, /) -> Supply: ...
    def sagging_at_most(self, running: Ratio, starting: Ratio) -> Supply: ...
    def at_level(self, level: Ratio, /) -> Supply: ...
    def running(self, idle: Given[ElectricPotential], running: Given[ElectricPotential]) -> Sag: ...
    def starting(self, idle: Given[ElectricPotential], lowest: Given[ElectricPotential]) -> Sag: ...
    def __eq__(self, other: object, /) -> bool: ...

@final
class Sag(Record):
    __match_args__: Final = ("sag", "verdict", "voltage_verdict")
    @property
    def sag(self) -> Measured[Ratio]: ...
    @property
    def verdict(self) -> Verdict[Ratio]: ...
    @property
    def voltage_verdict(self) -> Verdict[ElectricPotential] | None: ...
    def finding(self) -> Finding: ...

@final
class Unbalance(Record):
    __match_args__: Final = ("average", "unbalance", "verdict", "stop_verdict", "derating")
    @staticmethod
    def of(
        a: Given[ElectricPotential],
        b: Given[ElectricPotential],
        c: Given[ElectricPotential],
        *,
        level: Ratio | None = None,
    ) -> Unbalance: ...
    @staticmethod
    def against(
        limit: Ratio,
        a: Given[ElectricPotential],
        b: Given[ElectricPotential],
        c: Given[ElectricPotential],
        *,
        level: Ratio | None = None,
    ) -> Unbalance: ...
    @overload
    @staticmethod
    def derating_at(unbalance: Ratio, *, errors: Errors = ...) -> Ratio: ...
    @overload
    @staticmethod
    def derating_at(unbalance: Column[Ratio], *, errors: Errors = ...) -> Column[Ratio]: ...
    @property
    def average(self) -> Measured[ElectricPotential]: ...
    @property
    def unbalance(self) -> Measured[Ratio]: ...
    @property
    def verdict(self) -> Verdict[Ratio]: ...
    @property
    def stop_verdict(self) -> Verdict[Ratio]: ...
    @property
    def derating(self) -> Ratio | None: ...
    def finding(self) -> Finding: ...
