"""Conductors, the drop along them and across a contactor."""

from typing import Final, final, overload

from kingvalve.check import Finding

from ..column import Column
from ..measure import Given, Measured, Verdict
from ..quantity import Area, Current, ElectricPotential, Length, Ratio, Resistance, Temperature
from ..quantity.base import Errors
from ..record import Record
from .circuit import Phases

CONDUCTOR_DROP: Ratio
CONTACTOR_DROP: Ratio

@final
class Conductor:
    @staticmethod
    def copper(size: str, /) -> Conductor: ...
    @staticmethod
    def aluminum(size: str, /) -> Conductor: ...
    def solid(self) -> Conductor: ...
    @property
    def size(self) -> str: ...
    @property
    def area(self) -> Area: ...
    @overload
    def resistance(self, length: Length, *, errors: Errors = ...) -> Resistance: ...
    @overload
    def resistance(self, length: Column[Length], *, errors: Errors = ...) -> Column[Resistance]: ...
    @overload
    def resistance_at(self, length: Length, temperature: Temperature, *, errors: Errors = ...) -> Resistance: ...
    @overload
    def resistance_at(
        self, length: Column[Length], temperature: Temperature | Column[Temperature], *, errors: Errors = ...
    ) -> Column[Resistance]: ...
    @overload
    def resistance_at(
        self, length: Length, temperature: Column[Temperature], *, errors: Errors = ...
    ) -> Column[Resistance]: ...
    def __eq__(self, other: object, /) -> bool: ...

@final
class VoltageDrop(Record):
    __match_args__: Final = ("drop", "share", "verdict")
    @staticmethod
    def along(
        wire: Conductor,
        one_way: Length,
        phases: Phases,
        current: Given[Current],
        supply: ElectricPotential,
        *,
        limit: Ratio | None = None,
        level: Ratio | None = None,
    ) -> VoltageDrop: ...
    @property
    def drop(self) -> Measured[ElectricPotential]: ...
    @property
    def share(self) -> Measured[Ratio]: ...
    @property
    def verdict(self) -> Verdict[Ratio]: ...
    def finding(self) -> Finding: ...

@final
class ContactorDrop(Record):
    __match_args__: Final = ("drop", "verdict")
    @staticmethod
    def of(
        drop: Given[ElectricPotential],
        line: ElectricPotential,
        *,
        limit: Ratio | None = None,
        level: Ratio | None = None,
    ) -> ContactorDrop: ...
    @property
    def drop(self) -> Measured[ElectricPotential]: ...
    @property
    def verdict(self) -> Verdict[ElectricPotential]: ...
    def finding(self) -> Finding: ...
