"""The circuit: what it feeds, its sizes, the drop along its wires and across the contactor."""

from collections.abc import Sequence
from typing import Final, Literal, TypeAlias, final, overload

from kingvalve.check import Finding

from ..column import Column
from ..measure import Given, Measured, Verdict
from ..quantity import Area, Current, ElectricPotential, Length, Ratio, Resistance, Temperature
from ..quantity.base import Errors
from ..record import Record

Phases: TypeAlias = Literal["single", "three"]

FIRST_CHOICE: Ratio
LARGEST_SHARE: Ratio
STANDARD_RATINGS: list[Current]
CONDUCTOR_DROP: Ratio
CONTACTOR_DROP: Ratio

@final
class Load(Record):
    __match_args__: Final = ("kind", "current")
    @staticmethod
    def compressor(rla: Current, selection: Current | None = None) -> Load: ...
    @staticmethod
    def motor(current: Current, /) -> Load: ...
    @staticmethod
    def other(current: Current, /) -> Load: ...
    @property
    def kind(self) -> Literal["compressor", "motor", "other"]: ...
    @property
    def current(self) -> Current: ...

@final
class Plate(Record):
    __match_args__: Final = ("minimum_ampacity", "maximum_protection")
    def __new__(cls, minimum_ampacity: Current, maximum_protection: Current) -> Plate: ...
    @property
    def minimum_ampacity(self) -> Current: ...
    @property
    def maximum_protection(self) -> Current: ...

@final
class Installed(Record):
    __match_args__: Final = ("conductor_ampacity", "protection")
    def __new__(cls, conductor_ampacity: Current, protection: Current) -> Installed: ...
    @property
    def conductor_ampacity(self) -> Current: ...
    @property
    def protection(self) -> Current: ...

@final
class Overcurrent(Record):
    __match_args__: Final = ("calculated", "standard")
    @property
    def calculated(self) -> Current: ...
    @property
    def standard(self) -> Current: ...

@final
class CircuitCheck(Record):
    __match_args__: Final = ("conductor_verdict", "protection_verdict")
    @property
    def conductor_verdict(self) -> Verdict[Current]: ...
    @property
    def protection_verdict(self) -> Verdict[Current]: ...
    def finding(self) -> Finding: ...

@final
class Circuit:
    @staticmethod
    def of(loads: Sequence[Load], /) -> Circuit: ...
    @property
    def loads(self) -> list[Load]: ...
    @property
    def minimum_ampacity(self) -> Current: ...
    def maximum_protection(self, share: Ratio, /) -> Overcurrent: ...
    def check(self, installed: Installed, plate: Plate | None = None) -> CircuitCheck: ...
    def __eq__(self, other: object, /) -> bool: ...

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
