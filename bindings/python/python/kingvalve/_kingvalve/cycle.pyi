"""What superheat, subcooling and approach should be, and whether they are."""

from collections.abc import Sequence
from typing import Final, Literal, TypeAlias, final, overload

from kingvalve.check import Finding

from .air.flow import AirflowCheck
from .column import Column
from .measure import Given, Limits, Measured, Reading, Verdict
from .quantity import Ratio, Temperature, TemperatureDifference, Time
from .quantity.base import Errors
from .record import Record

Mode: TypeAlias = Literal["cooling", "heating"]

@final
class ChargingChart:
    def __new__(
        cls,
        outdoor: Sequence[Temperature] | Column[Temperature],
        indoor: Sequence[Temperature] | Column[Temperature],
        targets: Column[TemperatureDifference] | Sequence[Sequence[TemperatureDifference | None]],
        source: str,
    ) -> ChargingChart: ...
    @property
    def source(self) -> str: ...
    @overload
    def target(self, outdoor: Temperature, indoor: Temperature, *, errors: Errors = ...) -> TemperatureDifference: ...
    @overload
    def target(
        self, outdoor: Reading[Temperature] | Measured[Temperature], indoor: Given[Temperature], *, errors: Errors = ...
    ) -> Measured[TemperatureDifference]: ...
    @overload
    def target(
        self, outdoor: Temperature, indoor: Reading[Temperature] | Measured[Temperature], *, errors: Errors = ...
    ) -> Measured[TemperatureDifference]: ...
    @overload
    def target(
        self, outdoor: Column[Temperature], indoor: Temperature | Column[Temperature], *, errors: Errors = ...
    ) -> Column[TemperatureDifference]: ...
    @overload
    def target(
        self, outdoor: Temperature, indoor: Column[Temperature], *, errors: Errors = ...
    ) -> Column[TemperatureDifference]: ...
    def __eq__(self, other: object, /) -> bool: ...

@overload
def orifice_superheat(
    indoor_wet_bulb: Temperature, outdoor_dry_bulb: Temperature, *, errors: Errors = ...
) -> TemperatureDifference: ...
@overload
def orifice_superheat(
    indoor_wet_bulb: Reading[Temperature] | Measured[Temperature],
    outdoor_dry_bulb: Given[Temperature],
    *,
    errors: Errors = ...,
) -> Measured[TemperatureDifference]: ...
@overload
def orifice_superheat(
    indoor_wet_bulb: Temperature,
    outdoor_dry_bulb: Reading[Temperature] | Measured[Temperature],
    *,
    errors: Errors = ...,
) -> Measured[TemperatureDifference]: ...
@overload
def orifice_superheat(
    indoor_wet_bulb: Column[Temperature], outdoor_dry_bulb: Temperature | Column[Temperature], *, errors: Errors = ...
) -> Column[TemperatureDifference]: ...
@overload
def orifice_superheat(
    indoor_wet_bulb: Temperature, outdoor_dry_bulb: Column[Temperature], *, errors: Errors = ...
) -> Column[TemperatureDifference]: ...

@final
class Target(Record):
    __match_args__: Final = ("value", "source")
    @staticmethod
    def by_formula(indoor_wet_bulb: Given[Temperature], outdoor_dry_bulb: Given[Temperature]) -> Target: ...
    @staticmethod
    def by_chart(chart: ChargingChart, outdoor: Given[Temperature], indoor: Given[Temperature]) -> Target: ...
    @staticmethod
    def given(value: Given[TemperatureDifference], source: str) -> Target: ...
    @property
    def value(self) -> Measured[TemperatureDifference]: ...
    @property
    def source(self) -> str: ...

@final
class ChargeTolerance(Record):
    __match_args__: Final = ("superheat", "subcooling", "valve_superheat", "lowest_target")
    def __new__(
        cls,
        *,
        superheat: Limits[TemperatureDifference] | None = None,
        subcooling: Limits[TemperatureDifference] | None = None,
        valve_superheat: Limits[TemperatureDifference] | None = None,
        lowest_target: TemperatureDifference | None = None,
    ) -> ChargeTolerance: ...
    @staticmethod
    def california_installer() -> ChargeTolerance: ...
    @staticmethod
    def california_rater() -> ChargeTolerance: ...
    @property
    def superheat(self) -> Limits[TemperatureDifference]: ...
    @property
    def subcooling(self) -> Limits[TemperatureDifference]: ...
    @property
    def valve_superheat(self) -> Limits[TemperatureDifference]: ...
    @property
    def lowest_target(self) -> TemperatureDifference: ...

@final
class Conditions(Record):
    __match_args__: Final = ("running", "outdoor", "indoor", "airflow", "mode")
    def __new__(
        cls,
        *,
        running: Time,
        outdoor: Given[Temperature],
        indoor: Given[Temperature] | None = None,
        airflow: AirflowCheck | None = None,
        mode: Mode = ...,
    ) -> Conditions: ...
    @property
    def running(self) -> Time: ...
    @property
    def outdoor(self) -> Measured[Temperature]: ...
    @property
    def indoor(self) -> Measured[Temperature] | None: ...
    @property
    def airflow(self) -> AirflowCheck | None: ...
    @property
    def mode(self) -> Mode: ...

@final
class Requirements(Record):
    __match_args__: Final = ("running", "outdoor", "indoor", "airflow")
    def __new__(
        cls,
        *,
        running: Time | None = None,
        outdoor: Limits[Temperature] | None = None,
        indoor: Limits[Temperature] | None = None,
        airflow: bool = True,
    ) -> Requirements: ...
    def unmet(self, now: Conditions, level: Ratio | None = None) -> list[Unmet]: ...
    @property
    def running(self) -> Time: ...
    @property
    def outdoor(self) -> Limits[Temperature]: ...
    @property
    def indoor(self) -> Limits[Temperature]: ...
    @property
    def airflow(self) -> bool: ...

@final
class Unmet(Record):
    __match_args__: Final = ("condition", "reason", "next")
    @property
    def condition(self) -> Literal["cooling", "airflow", "outdoor_air", "indoor_load", "settled", "target"]: ...
    @property
    def reason(self) -> str: ...
    @property
    def next(self) -> str: ...

@final
class TargetCheck(Record):
    __match_args__: Final = ("actual", "target", "distance", "verdict", "valve_verdict", "notes", "unmet", "next")
    @staticmethod
    def superheat(
        actual: Given[TemperatureDifference],
        target: Target,
        tolerance: ChargeTolerance | None = None,
        *,
        level: Ratio | None = None,
    ) -> TargetCheck: ...
    @staticmethod
    def subcooling(
        actual: Given[TemperatureDifference],
        target: Target,
        tolerance: ChargeTolerance | None = None,
        *,
        level: Ratio | None = None,
    ) -> TargetCheck: ...
    @staticmethod
    def approach(
        liquid_line: Given[Temperature],
        outdoor_air: Given[Temperature],
        target: Target,
        limits: Limits[TemperatureDifference],
        *,
        level: Ratio | None = None,
    ) -> TargetCheck: ...
    def with_valve_superheat(
        self,
        superheat: Given[TemperatureDifference],
        tolerance: ChargeTolerance | None = None,
        *,
        level: Ratio | None = None,
    ) -> TargetCheck: ...
    def under(self, requirements: Requirements, conditions: Conditions) -> TargetCheck: ...
    @property
    def actual(self) -> Measured[TemperatureDifference]: ...
    @property
    def target(self) -> Target: ...
    @property
    def distance(self) -> Measured[TemperatureDifference]: ...
    @property
    def verdict(self) -> Verdict[TemperatureDifference] | None: ...
    @property
    def valve_verdict(self) -> Verdict[TemperatureDifference] | None: ...
    @property
    def notes(self) -> list[str]: ...
    @property
    def unmet(self) -> list[Unmet]: ...
    @property
    def next(self) -> list[str]: ...
    def finding(self) -> Finding: ...
