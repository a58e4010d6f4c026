"""Before and after a piece of work: what changed by more than its doubt, weather and load allowed for."""

from typing import Final, Generic, Literal, TypeVar, final

from kingvalve.check import Finding

from ..measure import Given, Measured, Verdict
from ..quantity import Current, Power, Quantity, Ratio, Temperature, TemperatureDifference
from ..record import Record

_Q = TypeVar("_Q", bound=Quantity)

@final
class RunReadings:
    def __new__(
        cls,
        outdoor: Given[Temperature],
        return_dry_bulb: Given[Temperature],
        return_wet_bulb: Given[Temperature],
        *,
        condensing: Given[Temperature] | None = None,
        supply: Given[Temperature] | None = None,
        current: Given[Current] | None = None,
        capacity: Given[Power] | None = None,
    ) -> RunReadings: ...

@final
class Allowance:
    def __new__(cls) -> Allowance: ...
    def with_over_ambient(
        self, outdoor: tuple[Ratio, Ratio], return_dry_bulb: tuple[Ratio, Ratio], return_wet_bulb: tuple[Ratio, Ratio]
    ) -> Allowance: ...
    def with_split(
        self, outdoor: tuple[Ratio, Ratio], return_dry_bulb: tuple[Ratio, Ratio], return_wet_bulb: tuple[Ratio, Ratio]
    ) -> Allowance: ...
    def with_current(
        self, outdoor: tuple[Ratio, Ratio], return_dry_bulb: tuple[Ratio, Ratio], return_wet_bulb: tuple[Ratio, Ratio]
    ) -> Allowance: ...
    def with_capacity(
        self, outdoor: tuple[Ratio, Ratio], return_dry_bulb: tuple[Ratio, Ratio], return_wet_bulb: tuple[Ratio, Ratio]
    ) -> Allowance: ...
    def reaching(self, reach: TemperatureDifference, /) -> Allowance: ...
    def from_source(self, source: str, /) -> Allowance: ...
    @property
    def source(self) -> str: ...
    def __eq__(self, other: object, /) -> bool: ...

@final
class Compared(Record, Generic[_Q]):
    __match_args__: Final = ("before", "after", "allowed", "change", "verdict", "shift")
    @property
    def before(self) -> Measured[_Q]: ...
    @property
    def after(self) -> Measured[_Q]: ...
    @property
    def allowed(self) -> _Q: ...
    @property
    def change(self) -> Measured[_Q]: ...
    @property
    def verdict(self) -> Verdict[_Q]: ...
    @property
    def shift(self) -> Literal["rose", "fell", "within_doubt"]: ...

@final
class BeforeAfter(Record):
    __match_args__: Final = ("condensing_over_ambient", "split", "current", "capacity", "sentences")
    @staticmethod
    def of(
        work: str,
        before: RunReadings,
        after: RunReadings,
        allowance: Allowance | None = None,
        *,
        level: Ratio | None = None,
    ) -> BeforeAfter: ...
    @property
    def condensing_over_ambient(self) -> Compared[TemperatureDifference] | None: ...
    @property
    def split(self) -> Compared[TemperatureDifference] | None: ...
    @property
    def current(self) -> Compared[Current] | None: ...
    @property
    def capacity(self) -> Compared[Power] | None: ...
    @property
    def sentences(self) -> list[str]: ...
    def finding(self) -> Finding: ...
