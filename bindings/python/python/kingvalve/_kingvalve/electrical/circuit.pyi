"""The circuit: what it feeds, and its sizes."""

from collections.abc import Sequence
from typing import Final, Literal, TypeAlias, final

from kingvalve.check import Finding

from ..measure import Verdict
from ..quantity import Current, Ratio
from ..record import Record

Phases: TypeAlias = Literal["single", "three"]

FIRST_CHOICE: Ratio
LARGEST_SHARE: Ratio
STANDARD_RATINGS: list[Current]

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
