"""How much air moves, and whether it is enough to judge a charge by."""

from collections.abc import Sequence
from typing import Any, Final, final, overload

from kingvalve.check import Finding

from ..column import Column
from ..measure import Given, Limits, Measured, Reading, Verdict
from ..quantity import Area, Power, PressureDifference, Ratio, Temperature, Velocity, VolumeFlow
from ..quantity.base import Errors
from ..record import Record
from .moist import MoistAir

def airflow_from_heat(
    heat: Given[Power] | Column[Power],
    entering: MoistAir,
    leaving: Given[Temperature] | Column[Temperature],
    *,
    errors: Errors = ...,
) -> Any: ...
@overload
def total_external_static(
    supply: PressureDifference, return_side: PressureDifference, *, errors: Errors = ...
) -> PressureDifference: ...
@overload
def total_external_static(
    supply: Reading[PressureDifference] | Measured[PressureDifference],
    return_side: Given[PressureDifference],
    *,
    errors: Errors = ...,
) -> Measured[PressureDifference]: ...
@overload
def total_external_static(
    supply: PressureDifference,
    return_side: Reading[PressureDifference] | Measured[PressureDifference],
    *,
    errors: Errors = ...,
) -> Measured[PressureDifference]: ...
@overload
def total_external_static(
    supply: Column[PressureDifference],
    return_side: PressureDifference | Column[PressureDifference],
    *,
    errors: Errors = ...,
) -> Column[PressureDifference]: ...
@overload
def total_external_static(
    supply: PressureDifference, return_side: Column[PressureDifference], *, errors: Errors = ...
) -> Column[PressureDifference]: ...
@overload
def airflow_from_traverse(area: Area, mean_velocity: Velocity, *, errors: Errors = ...) -> VolumeFlow: ...
@overload
def airflow_from_traverse(
    area: Reading[Area] | Measured[Area], mean_velocity: Given[Velocity], *, errors: Errors = ...
) -> Measured[VolumeFlow]: ...
@overload
def airflow_from_traverse(
    area: Area, mean_velocity: Reading[Velocity] | Measured[Velocity], *, errors: Errors = ...
) -> Measured[VolumeFlow]: ...
@overload
def airflow_from_traverse(
    area: Column[Area], mean_velocity: Velocity | Column[Velocity], *, errors: Errors = ...
) -> Column[VolumeFlow]: ...
@overload
def airflow_from_traverse(
    area: Area, mean_velocity: Column[Velocity], *, errors: Errors = ...
) -> Column[VolumeFlow]: ...
def velocity_from_pressure(
    velocity_pressure: Given[PressureDifference] | Column[PressureDifference], air: MoistAir, *, errors: Errors = ...
) -> Any: ...

@final
class FanTable:
    def __new__(
        cls,
        static_pressures: Sequence[PressureDifference] | Column[PressureDifference],
        airflows: Sequence[VolumeFlow] | Column[VolumeFlow],
        source: str = ...,
    ) -> FanTable: ...
    @property
    def source(self) -> str: ...
    @overload
    def airflow(self, static_pressure: PressureDifference, *, errors: Errors = ...) -> VolumeFlow: ...
    @overload
    def airflow(
        self, static_pressure: Reading[PressureDifference] | Measured[PressureDifference], *, errors: Errors = ...
    ) -> Measured[VolumeFlow]: ...
    @overload
    def airflow(self, static_pressure: Column[PressureDifference], *, errors: Errors = ...) -> Column[VolumeFlow]: ...
    def __eq__(self, other: object, /) -> bool: ...

@final
class AirflowCheck(Record):
    __match_args__: Final = ("airflow", "per_ton", "verdict", "lets_judge_charge", "next")
    @staticmethod
    def of(
        airflow: Given[VolumeFlow],
        nominal: Power,
        per_ton: Limits[VolumeFlow] | None = None,
        *,
        level: Ratio | None = None,
    ) -> AirflowCheck: ...
    @property
    def airflow(self) -> Measured[VolumeFlow]: ...
    @property
    def per_ton(self) -> Measured[VolumeFlow]: ...
    @property
    def verdict(self) -> Verdict[VolumeFlow]: ...
    @property
    def lets_judge_charge(self) -> bool: ...
    @property
    def next(self) -> str: ...
    def finding(self) -> Finding: ...

def usual_airflow_per_ton() -> Limits[VolumeFlow]: ...
def california_airflow_per_ton() -> Limits[VolumeFlow]: ...
