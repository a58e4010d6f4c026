"""What an inventory is told, and what each of it contributed."""

from collections.abc import Sequence
from typing import Final, Generic, TypeVar, final

from ..measure import Given, Measured
from ..quantity import Mass, Pressure, Quantity, Ratio, Temperature, TemperatureDifference
from ..record import Record
from .virtual_charge import FullCharge

_Q = TypeVar("_Q", bound=Quantity)

@final
class Estimate(Record, Generic[_Q]):
    __match_args__: Final = ("median", "half", "ninety")
    @property
    def median(self) -> _Q: ...
    @property
    def half(self) -> tuple[_Q, _Q]: ...
    @property
    def ninety(self) -> tuple[_Q, _Q]: ...

@final
class Contribution(Record):
    __match_args__: Final = ("what", "before", "after", "width_left")
    @property
    def what(self) -> str: ...
    @property
    def before(self) -> Estimate[Mass]: ...
    @property
    def after(self) -> Estimate[Mass]: ...
    @property
    def width_left(self) -> Ratio: ...

@final
class StandingReading(Record):
    __match_args__: Final = ("pressure", "temperatures", "label")
    @staticmethod
    def at(pressure: Given[Pressure], temperature: Given[Temperature], *, label: str = ...) -> StandingReading: ...
    @staticmethod
    def at_parts(
        pressure: Given[Pressure], temperatures: Sequence[Given[Temperature]], *, label: str = ...
    ) -> StandingReading: ...
    @property
    def pressure(self) -> Measured[Pressure]: ...
    @property
    def temperatures(self) -> list[Measured[Temperature]]: ...
    @property
    def label(self) -> str: ...

@final
class RunningReading(Record):
    __match_args__: Final = ("superheat", "subcooling", "full", "label")
    @staticmethod
    def of(
        superheat: Given[TemperatureDifference],
        subcooling: Given[TemperatureDifference],
        full: FullCharge,
        *,
        label: str = ...,
    ) -> RunningReading: ...
    @property
    def superheat(self) -> Measured[TemperatureDifference]: ...
    @property
    def subcooling(self) -> Measured[TemperatureDifference]: ...
    @property
    def full(self) -> FullCharge: ...
    @property
    def label(self) -> str: ...
