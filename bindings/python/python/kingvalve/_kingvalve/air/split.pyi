"""The temperature split over a coil: what it should be, and whether it is."""

from collections.abc import Sequence
from typing import Any, Final, final, overload

from kingvalve.check import Finding

from ..column import Column
from ..measure import Given, Limits, Measured, Reading, Verdict
from ..quantity import Power, Ratio, Temperature, TemperatureDifference, VolumeFlow
from ..quantity.base import Errors
from ..record import Record
from .moist import MoistAir

@final
class SplitTable:
    def __new__(
        cls,
        dry_bulbs: Sequence[Temperature] | Column[Temperature],
        wet_bulbs: Sequence[Temperature] | Column[Temperature],
        splits: Column[TemperatureDifference] | Sequence[Sequence[TemperatureDifference | None]],
        source: str,
    ) -> SplitTable: ...
    @property
    def source(self) -> str: ...
    @overload
    def target(
        self, return_dry_bulb: Temperature, return_wet_bulb: Temperature, *, errors: Errors = ...
    ) -> TemperatureDifference: ...
    @overload
    def target(
        self,
        return_dry_bulb: Reading[Temperature] | Measured[Temperature],
        return_wet_bulb: Given[Temperature],
        *,
        errors: Errors = ...,
    ) -> Measured[TemperatureDifference]: ...
    @overload
    def target(
        self,
        return_dry_bulb: Temperature,
        return_wet_bulb: Reading[Temperature] | Measured[Temperature],
        *,
        errors: Errors = ...,
    ) -> Measured[TemperatureDifference]: ...
    @overload
    def target(
        self,
        return_dry_bulb: Column[Temperature],
        return_wet_bulb: Temperature | Column[Temperature],
        *,
        errors: Errors = ...,
    ) -> Column[TemperatureDifference]: ...
    @overload
    def target(
        self, return_dry_bulb: Temperature, return_wet_bulb: Column[Temperature], *, errors: Errors = ...
    ) -> Column[TemperatureDifference]: ...
    def __eq__(self, other: object, /) -> bool: ...

@final
class SplitCheck(Record):
    __match_args__: Final = ("split", "target", "verdict", "next")
    @staticmethod
    def of(
        return_dry_bulb: Given[Temperature],
        supply_dry_bulb: Given[Temperature],
        target: Given[TemperatureDifference],
        target_source: str,
        limits: Limits[TemperatureDifference] | None = None,
        *,
        level: Ratio | None = None,
    ) -> SplitCheck: ...
    @property
    def split(self) -> Measured[TemperatureDifference]: ...
    @property
    def target(self) -> Measured[TemperatureDifference]: ...
    @property
    def verdict(self) -> Verdict[TemperatureDifference]: ...
    @property
    def next(self) -> str: ...
    def finding(self) -> Finding: ...

def split_by_model(
    airflow: Given[VolumeFlow] | Column[VolumeFlow],
    entering: MoistAir,
    total_capacity: Given[Power] | Column[Power],
    bypass: Ratio | None = None,
    *,
    errors: Errors = ...,
) -> Any: ...
def installer_split_limits() -> Limits[TemperatureDifference]: ...
def rater_split_limits() -> Limits[TemperatureDifference]: ...
def usual_bypass() -> Ratio: ...
